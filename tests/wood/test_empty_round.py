"""A round of which only a day and a name are typed moves nothing: independent, it tells of no point."""

from __future__ import annotations

from typing import Any

import pytest

from undertile.bundled import bundled_jobs
from undertile.drawing.dryingdata import charts_of
from undertile.drawing.labels import words
from undertile.job import read_job
from undertile.wood.facts import Visit, WoodFacts
from undertile.wood.result import WoodResult
from undertile.wood.run import water


def with_round(*, empty: bool, name: str = "4", when: str = "2026-03-07 17:00", **more: Any) -> WoodFacts:
    facts: WoodFacts = read_job(bundled_jobs()["wet-corner"]).wood
    facts = facts.model_copy(deep=True)
    if empty:
        facts.visits[name] = Visit(when=when, by="Ben", **more)
    return facts


def dates(found: WoodResult) -> list[tuple[str, str, str, str]]:
    return [(each.name, each.call, each.forecast.soonest, each.forecast.latest) for each in found.points]


@pytest.mark.parametrize("when", ["2026-03-07 17:00", "2026-03-05 17:00", "2026-04-07"])
def test_it_moves_neither_dates_nor_the_next_days(when: str) -> None:
    before, after = water(with_round(empty=False)), water(with_round(empty=True, when=when))
    assert dates(after) == dates(before)
    assert any(latest for *_, latest in dates(before))
    assert after.close == before.close
    assert after.again == before.again == "2026-03-07"
    assert [each.fed for each in after.points] == [each.fed for each in before.points]
    assert after.gate == before.gate
    assert len(after.rounds) == len(before.rounds) + 1  # it is there to be read

    drawn = [charts_of(each, words("en")) for each in (before, after)]
    assert [each.closes for each in drawn[0]] == [each.closes for each in drawn[1]]


def test_air_read_on_it_counts_and_what_may_be_fed_stands_till_it_is_read() -> None:
    """Not blank any more: 88 percent are bad news for dates (the equation of the Wood Handbook)."""
    before = water(with_round(empty=False))
    after = water(with_round(empty=True, air="70 F", humidity="88"))
    assert after.close != before.close
    assert [each.fed for each in after.points] == [each.fed for each in before.points]
    assert after.again == before.again
