"""What a fact is called where its history or a clash is shown: words of its box, no key of the record."""

from __future__ import annotations

import re
from collections.abc import Iterator
from typing import Any, Literal

import pytest

from tests.screens.cast import EXAMPLES, MENDED, bring, site, typed
from tests.screens.forms import forms_of, press
from undertile.job import read_job
from undertile.job.address import join, split
from undertile.job.entry import Pen
from undertile.job.model import fact_at
from undertile.job.plain import entries_of
from undertile.packet.words import LANGUAGES
from undertile.screens.labels import label, said
from undertile.screens.words import Says

AFTER = (
    "recheck.by",
    "recheck.done.B2.minutes",
    "recheck.done.B2.did",
    "recheck.walls.B.heights",
    "recheck.walls.B.studs.B2.readings.2",
    "recheck.straightedges.B up 24 in.gap",
    "recheck.widths.back.reading",
    "recheck.diagonals.left.reading",
    "recheck.planes.B.offset",
    "recheck.walls.B.nominal",
    "recheck.tool",
    *(f"photos.{'0' * 32}.{key}" for key in ("wall", "stud", "surface", "height", "stage", "note")),
    "framing.walls.B.hold.offset",
    "framing.studs.B2.hold.treatment",
    "survey.walls.B.studs.B1.arris.2",
    "survey.walls.B.plates.bottom.reading",
)


@pytest.mark.parametrize("language", ["en", "es"])
def test_no_key_of_the_record_is_shown(language: Literal["en", "es"]) -> None:
    """Of every fact of the bundled jobs, and of those typed after the plan."""
    says = Says(language)
    facts = {
        entry.fact
        for path in EXAMPLES.glob("*.toml")
        for entry in entries_of(read_job(path), Pen("import", "Bo", "2026-11-24T08:00:00"))
    }
    typed_here = {
        fact
        for fact in facts
        if split(fact)[0] in ("name", "place", "unit", "survey", "framing", "pan", "wood")
    }
    assert len(typed_here) > 200
    for fact in typed_here | set(AFTER):
        path, text = split(fact), said(says, fact)
        assert "_" not in text.replace(path[-2] if len(path) > 1 else "", ""), fact
        assert not text.endswith(f", {path[-1]}"), fact
        assert text.endswith(label(says, fact)), fact


def test_what_no_screen_types_is_still_named() -> None:
    assert said(Says("en"), "pan.pan.skew_limit") == "pan, skew_limit"


def test_what_a_fact_lacks_is_asked_for_in_words_and_typed_there() -> None:
    at = site()
    facts = (
        ("unit", "in"),
        ("pan.drain.x", "30-1/4"),
        ("pan.drain.y", "16"),
        ("framing.edges.plaster.wall", "L"),
    )
    job = typed(at, facts)
    told = at.twin(f"/job/{job}/doubts")["left_out"]
    texts = [each["text"] for each in told]
    assert "Drain in the floor: not used yet. Say: Can be moved across." in texts, texts
    rows = {row["fact"] for each in told for row in each["rows"]}
    assert {"pan.drain.float_x", "pan.drain.float_y", "framing.edges.plaster.along"} <= rows
    assert not any("`" in text for text in texts)
    at.page(f"/job/{job}/doubts", lang="es")


def test_one_wall_s_line_is_offered_to_the_next_and_kept_only_when_kept() -> None:
    at = site()
    base = "survey.walls.B"
    job = typed(at, (("unit", "in"), (f"{base}.nominal", "6-0"), (f"{base}.heights", '["2", "48"]')))
    page = at.page(f"/job/{job}/room")
    assert page.count('value="6-0"') == 4, "B's own twice (shown and as it was), offered to L and R"
    assert at.twin(f"/job/{job}/room")["walls"][1]["survey"]["rows"][0]["value"] == ""
    assert not [entry for entry in at.store.log(job) if entry.fact.startswith("survey.walls.L")]


def test_the_first_stud_is_the_same_on_every_screen() -> None:
    at = site()
    job = bring(at, "hand")
    at.twin(f"/job/{job}/plan")
    first = at.twin(f"/job/{job}/work")["studs"][0]["name"]
    assert at.twin(f"/job/{job}")["next"]["text"] == f"Start with {first}"


@pytest.mark.parametrize("name", ["pipe", "other", "tape", "leave", "off"])
@pytest.mark.parametrize(
    "base",
    [
        *(("framing", each, "{}", "wall") for each in ("edges", "things")),
        *(("survey", each, "{}", "reading") for each in ("widths", "diagonals", "gaps")),
        ("safety", "lead", "{}", "by"),
    ],
)
def test_a_name_a_person_typed_is_never_translated(base: tuple[str, ...], name: str) -> None:
    """independent: names that are also words of the record; a corner's name is the record's own."""
    address = join(tuple(each.format(name) for each in base))
    for language in LANGUAGES:
        head, _, _ = said(Says(language), address).partition(": ")
        assert head.endswith(f", {name}"), head
    assert Says("es").choice(name) != name, "else the test could not fail"


@pytest.mark.parametrize(
    ("language", "again", "place"),
    [
        ("en", "Read again last, B1 at 2", "B1 at 2, read again"),
        ("es", "Leído otra vez al final, B1 a 2", "B1 a 2, leída otra vez"),
    ],
)
def test_what_was_read_again_is_called_by_its_place_and_not_by_its_key(
    language: str, again: str, place: str
) -> None:
    at = site()
    job = bring(at, "old-alcove")
    fact = "survey.repeats.first-again.reading"
    assert at.twin(f"/job/{job}/history", fact=fact, lang=language)["title"].startswith(again)
    home = f"/job/{job}/read"
    (part,) = [each for each in at.twin(home, lang=language)["several"] if each["key"] == "repeats"]
    assert part["said"] == place.partition(",")[0]
    assert "first-again<" not in at.page(home, lang=language)
    job = bring(at, "old-alcove", {**MENDED, fact: "9"})  # three inches off: in doubt
    doubts = at.twin(f"/job/{job}/doubts", lang=language)["doubts"]
    told = [name for each in doubts for name in (each["where"], *(o["where"] for o in each["others"]))]
    assert place in told
    assert not [each for each in told if "first-again" in each]


@pytest.mark.parametrize("language", LANGUAGES)
def test_a_screen_speaks_of_no_page_of_the_paper(language: str) -> None:
    """Where the line hangs stands on the crew sheet, and its order of work is the screens' own."""
    at = site()
    job = bring(at, "hand")
    names = {"en": "as the crew sheet says", "es": "como dice la hoja de trabajo"}
    for screen in ("plan", "work"):
        (line,) = [
            step["text"]
            for step in at.twin(f"/job/{job}/{screen}", lang=language)["order"]
            if names[language] in step["text"]
        ]
        assert "page" not in line
        assert "página" not in line


def test_a_name_of_the_record_s_own_is_translated() -> None:
    address = join(("framing", "corners", "L-B", "wood"))
    assert Says("es").choice("L-B") in said(Says("es"), address)


@pytest.mark.parametrize(
    ("fact", "spanish"),
    [
        (f"photos.{'5e' * 16}.stage", "Foto 5e5e: Cuándo"),
        ("recheck.straightedges.B up 24 in.gap", "pared del fondo, 24"),
        ("recheck.straightedges.L across 2400 mm.way", "pared izquierda, 2400 mm: Puesta"),
        ("recheck.straightedges.left-up.way", "left-up: Puesta"),
        ("recheck.widths.back.reading", "Leer otra vez"),
    ],
)
def test_what_the_tool_named_itself_is_said_in_the_person_s_words(fact: str, spanish: str) -> None:
    """What a person named stays as typed; a name the tool made is said in Spanish."""
    text = said(Says("es"), fact)
    assert spanish in text
    for english in ("photo", "recheck", "reading", " up ", "across", "stage"):
        assert english not in text


def test_not_known_and_not_said_are_one_choice_where_they_mean_the_same() -> None:
    """independent: a visit's rain is ``unknown`` where nobody says it; a stud's kind is then its wall's."""
    at = site()
    job = bring(at, "wet-corner", {"wood.visits.3.rain": "unknown"})
    page = f"/job/{job}/water/rounds"
    rows = {each["fact"]: each for each in rows_of(at.twin(page)) if "silent" in each}
    for visit in ("1", "3"):
        rain = rows[f"wood.visits.{visit}.rain"]
        assert [each["value"] for each in rain["choices"]] == ["yes", "no"]
        assert rain["silent"]["label"] == "not known"
    # sent as it stands it changes nothing, whether it was typed or not
    assert rows["wood.visits.3.rain"]["silent"]["value"] == "unknown"
    assert rows["wood.visits.2.rain"]["silent"]["value"] == ""
    before = len(at.store.log(job))
    for form in forms_of(at, page):
        if any(fact.endswith(".rain") for fact in form.facts()):
            press(at, form, {})
    assert len(at.store.log(job)) == before
    sets = re.findall(r"<fieldset>.*?</fieldset>", at.page(page), re.S)
    rains = [each for each in sets if "rain" in each.lower()]
    assert rains
    assert all("not known" in each and "not said" not in each for each in rains)
    shape = fact_at("framing.studs.B2.kind")[1]
    assert not shape.unsaid
    assert fact_at("wood.visits.1.rain")[1].unsaid
    at.store.close()


def rows_of(told: Any) -> Iterator[dict[str, Any]]:
    if isinstance(told, dict):
        if "fact" in told:
            yield told
        for each in told.values():
            yield from rows_of(each)
    elif isinstance(told, list):
        for each in told:
            yield from rows_of(each)
