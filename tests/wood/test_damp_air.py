"""No date in air that does not let the wood get there: the air as last read, for every point."""

from __future__ import annotations

import pytest

from undertile.bundled import bundled_jobs
from undertile.job import read_job
from undertile.wood.facts import WoodFacts
from undertile.wood.result import WoodResult
from undertile.wood.run import water


def in_air(*humidities: str) -> WoodResult:
    """The wet corner with its last visits' humidity, at 70 F."""
    facts: WoodFacts = read_job(bundled_jobs()["wet-corner"]).wood
    facts = facts.model_copy(deep=True)
    names = list(facts.visits)[-len(humidities) :]
    for name, humidity in zip(names, humidities, strict=True):
        read = facts.visits[name].model_copy(update={"humidity": humidity, "air": "70 F"})
        facts.visits[name] = read
    return water(facts)


def test_air_as_last_read_refuses_every_point_whose_goal_it_cannot_reach() -> None:
    """published: Wood Handbook table 4-2, 70 F: 80 % holds wood at 16.0, 90 % at 20.5; no goal is over 16."""
    found = in_air("90")
    wet = [each for each in found.points if each.value is not None and each.value > (each.goal.value or 0)]
    assert {each.goal.reference.material for each in wet if each.goal.reference} == {"lumber", "plywood"}
    dated = [each for each in wet if each.call not in ("gone", "cut out")]
    assert len(dated) > 3
    assert all(each.forecast.latest == "" for each in dated)
    assert {each.forecast.no for each in dated} == {"damp air"}
    assert found.air is not None
    assert {each.forecast.air for each in dated} == {found.air.now}
    assert found.air.now == pytest.approx(20.5, abs=0.2)
    assert found.air.humidity is not None
    assert found.air.humidity < 0.8  # what would be dry enough is said
    assert not found.close.latest
    said = [each.why for each in dated if each.source == "wood-handbook-emc"]
    assert said
    assert all("in the room's air as last read" in each for each in said)


def test_the_mean_of_the_last_visits_is_called_so_where_only_it_refuses() -> None:
    """published: Wood Handbook table 4-2, 70 F: 90 %: 20.5, 30 %: 6.2; their mean of three is 15.7."""
    found = in_air("90", "90", "30")
    lumber = [each for each in found.points if each.forecast.no == "damp lately"]
    assert lumber
    assert {each.goal.reference.material for each in lumber if each.goal.reference} == {"lumber"}
    assert found.air is not None
    assert found.air.enough
    assert any("in the mean air of the last visits" in each.why for each in lumber)
    assert all("as last read" not in each.why for each in lumber)
