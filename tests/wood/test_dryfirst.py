"""The order for a stud that is wet when its wall is trued: one figure, and its day or why there is none."""

from __future__ import annotations

from undertile.bundled import bundled_jobs
from undertile.job import read_job
from undertile.wood.closing import place_past
from undertile.wood.dryfirst import dry_first_order, dry_past, dry_when
from undertile.wood.facts import WoodFacts
from undertile.wood.run import water
from undertile.wood.typed import day_text, read_moment


def corner(**air: object) -> WoodFacts:
    facts: WoodFacts = read_job(bundled_jobs()["wet-corner"]).wood
    facts = facts.model_copy(deep=True)
    facts.visits["3"] = facts.visits["3"].model_copy(update=air)
    return facts


def test_its_days_are_those_of_its_own_point() -> None:
    """independent: the point's forecast, which the water prints."""
    found = water(corner())
    (own,) = [each for each in found.points if each.where == "B1 at 2"]
    assert own.forecast.latest
    days = own.forecast.soonest, own.forecast.latest
    assert dry_when("B1", found.points) == "Between {} and {}, eight times in ten.".format(*days)


def test_air_that_forbids_the_date_says_so_here_too() -> None:
    """published: Wood Handbook table 4-2, 70 F: 90 % holds wood at 20.5, over any goal."""
    found = water(corner(air="70 F", humidity=90))
    said = dry_when("B1", found.points)
    assert said.startswith("No date: ")
    assert "in the room's air as last read" in said


def test_a_stud_of_which_nothing_is_worked_out_has_no_date() -> None:
    assert dry_when("R9", water(corner()).points) == "No date: it was not worked out."


def test_the_figure_is_the_goal_and_none_is_made_up() -> None:
    """independent: 11.1 and 4 over it."""
    assert "15.1 %" in dry_first_order(["B1"], 15.1)
    assert "%" not in dry_first_order(["B1", "L1"], None)


def test_a_place_and_a_stud_say_it_of_their_own_days() -> None:
    # independent: the day after each range's own last, from the calendar, and its own last reading's
    found = water(corner())
    (place,) = [each for each in found.points if each.where == "B1 at 2"]
    last = read_moment(place.forecast.latest).days
    after = day_text(last + 1)
    days = f"last read {last + 1 - place.read_on // 1:.0f} days ago"  # type: ignore[operator]
    assert place_past(place, place.forecast.latest) == ""
    assert dry_past(["B1"], found.points, place.forecast.latest) == ""
    assert days in place_past(place, after)
    assert days in dry_past(["B1"], found.points, after)
    assert dry_past(["R9"], found.points, after) == "", "nothing of it is read"
    assert dry_past(["B1"], found.points, "") == ""
    dry = [each for each in found.points if each.call not in ("dry on", "not shown")]
    assert [place_past(each, "2031-01-01") for each in dry] == [""] * len(dry)
