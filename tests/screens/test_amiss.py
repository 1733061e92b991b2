"""What was typed and is not used as it stands is said where it is typed, and at the head of the answer."""

from __future__ import annotations

import html
import re
from collections.abc import Iterator
from urllib.parse import parse_qsl

import pytest

from tests.screens.cast import EXAMPLES, MENDED, Site, bring, site, typed, wall
from tests.screens.forms import form_of, press
from undertile.findings import Finding, Severity
from undertile.screens.words import English, Says
from undertile.sentence import Sentence

SO = {
    "en": "expected a temperature with its letter, 68 F or 20 C",
    "es": "se esperaba una temperatura con su letra, 68 F o 20 C",
}


@pytest.fixture
def at() -> Iterator[Site]:
    found = site()
    yield found
    found.store.close()


def words(page: str, mark: str = "<main") -> str:
    """What a page says, from a mark on."""
    text = re.sub(r"<(script|style).*?</\1>", "", page[page.index(mark) :], flags=re.DOTALL)
    return " ".join(html.unescape(re.sub(r"<[^>]+>", " ", text)).split())


def answered(at: Site, to: str, lang: str = "en") -> str:
    """The page a form is answered with."""
    path, _, kept = to.partition("?kept=")
    return at.page(path, kept=kept, lang=lang)


def begun(at: Site, job: str, visit: str, **values: str) -> str:
    """A round begun by its form: where the person is sent."""
    base = f"wood.visits.{visit}"
    form = form_of(at, f"/job/{job}/water/round", f"{base}.when")
    return press(at, form, {f"{base}.{name}": value for name, value in values.items()})


@pytest.mark.parametrize("lang", ["en", "es"])
def test_a_finding_says_what_is_expected(lang: str) -> None:
    """Convention 5.3: what was expected, what is, where, next; independent: the words of both languages."""
    finding = Finding(
        "dates-out-of-order",
        Severity.ACT,
        "visit 3",
        Sentence("a day before visit {name}'s, {when}", name="4", when="2026-03-05"),
        "2026-03-06 16:00",
        Sentence("Correct the day that is wrong; nothing is lost."),
        "convention-7",
    )
    told = Says(lang).finding(finding)  # type: ignore[arg-type]
    assert (told["text"], told["detail"]) == (
        {
            "en": "visit 3: 2026-03-06 16:00; expected a day before visit 4's, 2026-03-05. "
            "Correct the day that is wrong; nothing is lost.",
            "es": "visita 3: 2026-03-06 16:00; se esperaba un día antes del de la visita 4, 2026-03-05. "
            "Corrija el día que está mal; nada se pierde.",
        }[lang],
        "",
    )


@pytest.mark.parametrize("lang", ["en", "es"])
def test_values_of_a_round_that_cannot_be_are_said_at_once(at: Site, lang: str) -> None:
    """A newcomer's round: each of the four, with the way to mend it, and everything kept."""
    job = bring(at, "wet-corner")
    sent = {"when": "2026-03-01 16:00", "humidity": "138", "wood": "abc", "air": "720"}
    to = begun(at, job, "4", **sent)
    assert to.startswith(f"/job/{job}/water/round?"), "not on to the pad"
    page = answered(at, to, lang)
    on = {"en": "Go on with visit 4: ", "es": "Siga la visita 4: faltan "}
    assert on[lang] in words(page), "the way on, though its day puts it behind the others"
    said = words(page, 'class="said amiss"')
    assert SO[lang] in said
    assert "138" in said
    assert (
        "720 F; expected room air from 30" if lang == "en" else "720 F; se esperaba aire del cuarto"
    ) in said
    assert ("a day after visit 3's" if lang == "en" else "un día después del de la visita 3") in said
    for name, value in sent.items():
        assert f"history?fact=wood.visits.4.{name}&amp;mend=1" in page
        assert at.value(job, f"wood.visits.4.{name}") == {"720": "720 F"}.get(value, value)


def test_a_round_that_is_as_it_should_be_goes_on_to_the_pad(at: Site) -> None:
    job = bring(at, "wet-corner")
    to = begun(at, job, "4", when="2026-03-08 16:00", air="72", humidity="38", wood="70")
    assert to.startswith(f"/job/{job}/water/round/4?")
    assert at.value(job, "wood.visits.4.air") == "72 F"


@pytest.mark.parametrize("lang", ["en", "es"])
def test_a_day_that_is_none_is_said_on_the_form(at: Site, lang: str) -> None:
    """The day alone is wrong: the good values beside it are not marked."""
    job = typed(at, [("unit", "in")])
    page = answered(at, begun(at, job, "1", when="ayer", air="72", humidity="45"), lang)
    said = words(page)
    like = {"en": "expected a day like 2026-03-04", "es": "se esperaba un día como 2026-03-04"}[lang]
    assert like in said
    assert {"en": ", found “ayer”.", "es": " y hay “ayer”."}[lang] in said
    assert "404" not in said
    assert page.count('class="field wide wrong"') == 1
    assert page.count(" wrong") == 1
    assert 'value="ayer"' in page
    again = at.client.get(f"/job/{job}/water/round/1", params={"lang": lang}, headers={"accept": "text/html"})
    assert again.status_code == 404
    assert like in words(again.text), "the cause, wherever one asks for the round"


@pytest.mark.parametrize(
    ("path", "query", "fact", "value", "expected"),
    [
        ("floor/type", {}, "floor.all_joists.depth", "45-", "a length"),
        ("water/rounds", {}, "wood.allowed.most", "many", "a number"),
    ],
)
def test_a_form_of_any_screen_says_what_it_cannot_use(
    at: Site, path: str, query: dict[str, str], fact: str, value: str, expected: str
) -> None:
    job = bring(at, "wet-corner")
    to = press(at, form_of(at, f"/job/{job}/{path}", fact, **query), {fact: value})
    said = words(answered(at, to), 'class="said amiss"')
    assert f"expected {expected}" in said
    assert f", found “{value}”" in said


@pytest.mark.parametrize(
    ("lang", "line"),
    [
        (
            "en",
            "Minutes it took: expected a number in digits, found “about 12”. Type it again as a number in "
            "digits; left out until then.",
        ),
        (
            "es",
            "Minutos que tomó: se esperaba un número en cifras y hay “about 12”. Escríbalo otra vez como un "
            "número en cifras; hasta entonces no cuenta.",
        ),
    ],
)
def test_minutes_that_are_no_number_are_answered_in_one_line(at: Site, lang: str, line: str) -> None:
    """independent: what was expected, what came, where, what is next (convention 5.3), written by hand."""
    job = bring(at, "old-alcove", MENDED)
    to = press(
        at,
        form_of(at, f"/job/{job}/work", "recheck.done.B2.minutes"),
        {"recheck.done.B2.minutes": "about 12"},
    )
    page = answered(at, to, lang)
    assert f"B2: {line}" in words(page, 'class="said amiss"')
    place, _, said = line.partition(": ")
    assert f"{place} (15)" in words(page)
    assert said in words(page, 'id="t-B2"'), "by its box too"
    assert 'value="about 12"' in page, "nothing is lost"
    assert "`" not in words(page)


@pytest.mark.parametrize(
    ("lang", "head", "found"),
    [
        ("en", "Kept; look at this:", '15" thick; expected'),
        ("es", "Guardado; mire esto:", '15" de grueso; se'),
    ],
)
def test_what_is_used_as_typed_is_not_said_to_be_unused(at: Site, lang: str, head: str, found: str) -> None:
    """independent: the time to dry is begun from it (the finding's own words), so it is used."""
    job = bring(at, "wet-corner")
    fact = "wood.points.plate-B-16.thickness"
    to = press(at, form_of(at, f"/job/{job}/water/point", fact, name="plate-B-16"), {fact: "15"})
    path, _, query = to.partition("?")
    said = words(at.page(path, **dict(parse_qsl(query)), lang=lang), 'class="said amiss"')
    assert head in said
    assert found in said
    assert "not used as it stands" not in said
    assert "no se usa como está" not in said


@pytest.mark.parametrize(("unit", "typed_as", "kept"), [("in", "72", "72 F"), ("mm", "22", "22 C")])
def test_a_temperature_is_taken_the_same_wherever_it_is_typed(
    at: Site, unit: str, typed_as: str, kept: str
) -> None:
    """A bare number in the degrees its label says, at the round and among the visits."""
    letter = kept[-1]
    job = typed(at, [("unit", unit), ("wood.visits.1.when", "2026-03-04")])
    fact = "wood.visits.1.air"
    assert f"Room air, {letter}" in at.page(f"/job/{job}/water/rounds")
    press(at, form_of(at, f"/job/{job}/water/rounds", fact), {fact: typed_as})
    assert at.value(job, fact) == kept


def test_what_must_be_corrected_comes_first_on_the_water(at: Site) -> None:
    job = bring(at, "wet-corner")
    begun(at, job, "4", when="2026-03-01 16:00", humidity="138", wood="abc")
    page = at.page(f"/job/{job}/water")
    assert page.index('class="mend"') < page.index('class="covering')
    told = words(page, 'class="mend"')
    assert told.index("138 percent; expected relative humidity") < told.index("When may it be closed?")
    assert page.count("138 percent; expected") == 1, "once, and not at the foot again"


@pytest.mark.parametrize("name", sorted(path.stem for path in EXAMPLES.glob("*.toml")))
def test_what_is_expected_is_said_in_both_languages(at: Site, name: str) -> None:
    """independent: every finding of the bundled jobs; what holds words of its own has its Spanish."""
    job = bring(at, name)
    state = at.answers.of(at.store.digest(job), lambda: at.store.log(job))
    found = [*state.folded.findings, *state.looked.findings]
    for stage in (state.water, state.floor):
        found += [] if stage is None else stage.findings
    told = Says("es")
    left = {each.code for each in found if isinstance(told.told(each.expected), English)}
    assert found
    assert not left


def test_a_first_point_read_again_and_taken_back_leaves_nothing_to_mend() -> None:
    """independent: the pad writes where it is with the reading; undo takes the reading back."""
    at = site()
    facts = [*wall("R", 2), ("survey.repeats.R again.stud", "R1"), ("survey.repeats.R again.height", "2")]
    job = typed(at, facts)
    assert "R again" not in words(at.page(f"/job/{job}/doubts"))
    rows = at.twin(f"/job/{job}/read/R")["rows"]
    (row,) = [each for each in rows if "repeats" in each["fact"]]
    assert row["fact"] == "survey.repeats.R again.reading", "asked for as before"
    at.store.close()
