"""What the water's screens ask of a place nobody said the stuff of, and of days that have gone by."""

from __future__ import annotations

from collections.abc import Iterator

import pytest

from tests.screens.cast import Site, bring, site
from tests.screens.test_water import look


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
    assert facts.count("wood.points.plate-B-16.out") == 2, "past all else typed, and past today"


def steps(told: object) -> list[dict[str, str]]:
    """Everything with a text and an address, wherever it stands on the page."""
    if isinstance(told, dict):
        own = [told] if isinstance(told.get("text"), str) and isinstance(told.get("href"), str) else []
        return own + [each for value in told.values() for each in steps(value)]
    return [each for value in told for each in steps(value)] if isinstance(told, list) else []
