"""What the water's screens ask of a place nobody said the stuff of, and of days that have gone by."""

from __future__ import annotations

from collections.abc import Iterator

import pytest

from tests.screens.cast import Site, bring, site
from tests.screens.watercast import look


@pytest.fixture
def at() -> Iterator[Site]:
    found = site()
    yield found
    found.store.close()


@pytest.mark.parametrize(("language", "ask"), [("en", "Say what"), ("es", "Diga de qué es")])
def test_a_place_added_on_the_pad_is_asked_what_it_is_made_of(at: Site, language: str, ask: str) -> None:
    """independent: typed as the pad types a place, no material among its facts; gone once it is said."""
    job = bring(at, "wet-corner")
    facts = {"member": "plate", "wall": "B", "along": "52", "shown.3": "10.5"}
    at.send(job, *({"fact": f"wood.points.plate-B-52.{key}", "value": value} for key, value in facts.items()))
    told = at.twin(f"/job/{job}/water", lang=language)
    (step,) = [each for each in steps(told) if each["text"].startswith(ask)]
    assert "name=plate-B-52" in step["href"]
    look(at, step["href"])
    at.send(job, {"fact": "wood.points.plate-B-52.material", "value": "lumber"})
    told = at.twin(f"/job/{job}/water", lang=language)
    assert not [each for each in steps(told) if each["text"].startswith(ask)]


@pytest.mark.parametrize(
    ("language", "late"), [("en", "last read 264 days ago"), ("es", "la última lectura fue hace 264 días")]
)
def test_days_gone_by_are_said_to_be_past(at: Site, language: str, late: str) -> None:
    """independent: from 2026-03-06 to the host's day, 2026-11-25, by the calendar: 329 less 65."""
    job = bring(at, "wet-corner")
    told = at.twin(f"/job/{job}/water", lang=language)
    assert late in told["when"]["last"]


@pytest.mark.parametrize("language", ["en", "es"])
def test_a_day_that_has_not_come_yet_is_first_to_mend(at: Site, language: str) -> None:
    """independent: the host's day is 2026-11-25."""
    job = bring(at, "wet-corner")
    at.send(job, {"fact": "wood.points.plate-B-16.out", "value": "2026-12-24"})
    told = at.twin(f"/job/{job}/water", lang=language)
    facts = [each["fact"] for each in told["mend"]]
    assert facts.count("wood.points.plate-B-16.out") == 1, "past today: one line for one day"


PHOTO = "wood.cover.photos.wall L"


@pytest.mark.parametrize(
    ("language", "what"),
    [
        ("en", "dated 2031-03-04, and today is 2026-11-25"),
        ("es", "con fecha 2031-03-04, y hoy es 2026-11-25"),
    ],
)
def test_a_day_after_today_keeps_the_gate_shut_and_leads_to_where_it_is_typed(
    at: Site, language: str, what: str
) -> None:
    """independent: the host's day is 2026-11-25; each kind of day is found again by what the screen sends."""
    job = bring(at, "wet-corner", {PHOTO: "2031-03-04", "wood.visits.3.when": "2031-03-04"})
    gate = at.twin(f"/job/{job}/water/gate", lang=language)
    (days,) = [each for each in gate["kinds"] if each["kind"] == "day"]
    assert [each["what"] for each in days["missing"]] == [what, what]
    assert all("/history?fact=wood." in each["href"] for each in days["missing"])
    water = at.twin(f"/job/{job}/water", lang=language)
    assert {PHOTO, "wood.visits.3.when"} <= {each["fact"] for each in water["mend"]}


@pytest.mark.parametrize(
    ("language", "said"),
    [
        ("en", "it says 2019-03-04; the job has entries of 2026-11-24"),
        ("es", "dice 2019-03-04; el trabajo tiene anotaciones de 2026-11-24"),
    ],
)
def test_a_clock_wrong_by_years_is_said_in_one_line(at: Site, language: str, said: str) -> None:
    """independent: the entries were made at the host's time before its clock went back, by seven years."""
    job = bring(at, "wet-corner")
    before = at.twin(f"/job/{job}/water")
    at.host.now = lambda: "2019-03-04T10:11:12+00:00"
    water = at.twin(f"/job/{job}/water", lang=language)
    assert [each for each in water["mend"] if said in each["text"]]
    assert len(water["mend"]) == len(before["mend"]) + 1
    gate = at.twin(f"/job/{job}/water/gate", lang=language)
    (days,) = [each for each in gate["kinds"] if each["kind"] == "day"]
    assert [each["what"] for each in days["missing"]] == [said]
    # what it reads is judged as before: nobody is locked out of that
    assert [each["call"] for each in at.twin(f"/job/{job}/water")["groups"]] == [
        each["call"] for each in before["groups"]
    ]


def steps(told: object) -> list[dict[str, str]]:
    """Everything with a text and an address, wherever it stands on the page."""
    if isinstance(told, dict):
        own = [told] if isinstance(told.get("text"), str) and isinstance(told.get("href"), str) else []
        return own + [each for value in told.values() for each in steps(value)]
    return [each for value in told for each in steps(value)] if isinstance(told, list) else []


@pytest.mark.parametrize(
    ("language", "pad", "chart"),
    [
        ("en", "The visit's day has not come yet", "day has not come yet"),
        ("es", "El día de la visita todavía no llega", "día todavía no llega"),
    ],
)
def test_the_pad_and_the_chart_say_that_a_day_has_not_come_yet(
    at: Site, language: str, pad: str, chart: str
) -> None:
    """independent: by the calendar; on the 2nd day alone the same place may dry on."""
    job = bring(at, "wet-corner", {"wood.visits.3.when": "2031-03-04"})
    its = at.twin(f"/job/{job}/water/round/3", lang=language)
    assert pad in str(its)
    assert chart in at.page(f"/job/{job}/water/charts", lang=language, point="plate-B-16")


@pytest.mark.parametrize(
    ("language", "value", "pad"),
    [
        ("en", "205", "205? Or 20.5? Counts as only wet until read again."),
        ("es", "2.05", "¿2.05? ¿O 20.5? No se usa hasta que otra visita coincida."),
    ],
)
def test_a_slip_of_the_decimal_point_is_asked_on_the_pad_and_first_to_mend(
    at: Site, language: str, value: str, pad: str
) -> None:
    """independent: 205 / 10 and 2.05 x 10, within the meter's 7 to 30."""
    fact = "wood.points.plate-B-16.shown.3"
    job = bring(at, "wet-corner", {fact: value})
    its = at.twin(f"/job/{job}/water/round/3", lang=language)["judged"]["points"][fact]
    assert (its["text"], its["loud"], its["again"]) == (pad, True, True)
    assert fact in [each["fact"] for each in at.twin(f"/job/{job}/water", lang=language)["mend"]]
