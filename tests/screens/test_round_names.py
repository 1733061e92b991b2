"""A round whose day cannot be read keeps its name: its readings never come to stand under another day."""

from __future__ import annotations

from collections.abc import Iterator

import pytest

from tests.screens.cast import Site, bring, site
from tests.screens.forms import form_of, forms_of, press
from tests.screens.watercast import look

WHEN = "wood.visits.{}.when"
NONE = "2026-11-29 8 oclock"


@pytest.fixture
def at() -> Iterator[Site]:
    found = site()
    yield found
    found.store.close()


def of_round(at: Site, job: str, visit: str) -> dict[str, str | None]:
    """Everything that stands of a round and its readings."""
    return {
        entry.fact: at.value(job, entry.fact)
        for entry in at.store.log(job)
        if entry.fact.startswith(f"wood.visits.{visit}.") or entry.fact.endswith(f".{visit}")
    }


@pytest.mark.parametrize(
    ("language", "asks"),
    [("en", "Mend the day of visit 3"), ("es", "Corrija el día de la visita 3")],
)
@pytest.mark.parametrize("visit", ["3", "2"])
def test_a_round_whose_day_is_mistyped_is_mended_and_no_other_begins_in_its_place(
    at: Site, visit: str, language: str, asks: str
) -> None:
    """independent: what stands of the mistyped round before and after another is begun, read from the log."""
    job = bring(at, "wet-corner", {WHEN.format(visit): NONE})
    before = of_round(at, job, visit)
    path = f"/job/{job}/water/round"
    told = at.twin(path, lang=language)
    assert told["next"]["text"].startswith(asks.replace("3", visit))
    assert f"fact={WHEN.format(visit)}&mend=1" in told["next"]["href"]
    assert told["visit"] == "4", "no name that was used"
    assert told["rounds"][0]["name"] == visit, "in the list, with the way to mend it"
    assert told["rounds"][0]["when"] == NONE

    base = "wood.visits.4"
    typed = {f"{base}.when": "2026-11-30 09:00", f"{base}.air": "70", f"{base}.humidity": "40"}
    press(at, form_of(at, path, WHEN.format("4")), typed)
    assert of_round(at, job, visit) == before
    assert at.value(job, WHEN.format("4")) == "2026-11-30 09:00"

    # mended, it is a round like the others
    fact = WHEN.format(visit)
    mend = next(f for f in forms_of(at, f"/job/{job}/history", fact=fact, mend="1") if fact in f.facts())
    press(at, mend, {fact: "2026-03-05 08:00"})
    told = at.twin(path, lang=language)
    assert asks.replace("3", visit) not in told["next"]["text"]
    assert sorted(each["name"] for each in told["rounds"]) == ["1", "2", "3", "4"]


def test_the_way_to_mend_it_is_there(at: Site) -> None:
    job = bring(at, "wet-corner", {WHEN.format("3"): NONE})
    told = look(at, at.twin(f"/job/{job}/water/round")["next"]["href"])
    assert (told["row"]["value"], told["open"]) == (NONE, True)


def test_readings_whose_visit_was_taken_back_keep_its_name(at: Site) -> None:
    """Every fact of the visit withdrawn, its readings standing: a new round is none of theirs."""
    job = bring(at, "wet-corner")
    ids = {entry.fact: entry.id for entry in at.store.log(job) if entry.fact.startswith("wood.visits.3.")}
    at.send(job, *({"fact": fact, "value": None, "supersedes": [name]} for fact, name in ids.items()))
    told = at.twin(f"/job/{job}/water/round")
    assert told["visit"] == "4"
    assert "visit 3" in told["next"]["text"]


def test_two_days_of_one_round_are_no_free_name(at: Site) -> None:
    """A clash on its day: neither is taken silently, nor is the name."""
    job = bring(at, "wet-corner")
    pen = at.store.pen("dev9", "Cy", "2026-11-24T10:00:00")
    pen.write(job, WHEN.format("3"), "2026-03-07 16:00")
    told = at.twin(f"/job/{job}/water/round")
    assert told["visit"] == "4"


def test_a_round_begun_with_a_day_that_is_none_is_mended_in_its_form_until_something_is_read(
    at: Site,
) -> None:
    job = bring(at, "wet-corner")
    path = f"/job/{job}/water/round"
    to = press(at, form_of(at, path, WHEN.format("4")), {WHEN.format("4"): "ayer", "wood.visits.4.air": "70"})
    told = look(at, to)
    assert told["visit"] == "4", "what was just sent comes back to be mended"
    later = at.twin(path)
    assert later["visit"] == "5", "another day: its air is not of the round begun then"
    facts = [fact for form in forms_of(at, path) for fact in form.facts()]
    assert not [fact for fact in facts if fact.startswith("wood.visits.4.")]
    press(
        at,
        form_of(at, path, WHEN.format("4"), kept=to.partition("?kept=")[2]),
        {WHEN.format("4"): "2026-11-25 09:00"},
    )
    assert at.value(job, "wood.visits.4.air") == "70 F"
    at.page(f"{path}/4")


def test_a_round_all_taken_back_is_a_free_name(at: Site) -> None:
    job = bring(at, "wet-corner")
    path = f"/job/{job}/water/round"
    press(at, form_of(at, path, WHEN.format("4")))
    (form,) = [each for each in forms_of(at, path, kept="2") if each.action.endswith("/undo")]
    at.client.post(form.action, data=dict(form.values))
    assert at.twin(path)["visit"] == "4"
