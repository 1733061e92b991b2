"""The day on which the last of several points may be closed."""

from __future__ import annotations

from tests.wood.cast import answer, changed, corner
from undertile.bench.drying import whole_jobs
from undertile.wood.closing import close_date, last_of
from undertile.wood.dryfit import DryFit
from undertile.wood.forecast import Forecast
from undertile.wood.typed import day_text


def dated(by_day: tuple[float, ...], days: tuple[int, int], last_reading: int = 100) -> Forecast:
    """A forecast whose chances are given."""
    fit = DryFit(9, 1, 5, (3, 8), 20, (float(days[0]), float(days[1])), 5, 0.0, 1.0, by_day)
    return Forecast("", fit, days, *(day_text(last_reading + each + 1) for each in days), 3, 8.0)


EVEN = tuple(min(1.0, day / 10) for day in range(61))
"""There on one of ten days, each as likely as the other."""


def test_one_point_alone_has_its_own_range() -> None:
    """independent: 1 to 9 days hold eight of ten even days."""
    one = dated(EVEN, (1, 9))
    assert last_of([one]) == (one.soonest, one.latest)


def test_the_last_of_many_alike_is_later_than_any_one() -> None:
    """independent: seven of one chance are all there with its seventh power, 0.9^7 = 0.478."""
    slow = tuple(1 - 0.5 ** (day / 2) for day in range(61))
    first = next(day for day, share in enumerate(slow) if share >= 0.9)
    end = next(day for day, share in enumerate(slow) if share**7 >= 0.9)
    assert end > first + 4
    assert last_of([dated(slow, (1, first))] * 7) == (day_text(102), day_text(100 + end + 1))
    assert slow[first] ** 7 < 0.6, "the largest of their own last days would hold far less often"


def test_points_read_on_other_days_are_put_on_one_calendar() -> None:
    """independent: the one read ten days before is surely there; the range is the other's alone."""
    late, early = dated(EVEN, (1, 9), 110), dated(EVEN, (1, 9), 90)
    assert last_of([late, early]) == (late.soonest, late.latest)


def test_the_last_may_be_too_far_off_to_say() -> None:
    """independent: 0.95^7 is under 0.9 however long one waits."""
    never = tuple(min(0.95, day / 10) for day in range(61))
    assert last_of([dated(never, (1, 9))] * 2) == (day_text(102), day_text(100 + 10 + 1))
    assert last_of([dated(never, (1, 9))] * 7) == ("", "")


def test_a_point_that_is_there_waits_for_its_second_reading_only() -> None:
    """independent: its one day, tomorrow, is before the other's."""
    there = Forecast("there", soonest=day_text(101), latest=day_text(101))
    one = dated(EVEN, (1, 9))
    assert last_of([there, one]) == (one.soonest, one.latest)
    assert last_of([there]) == (there.soonest, there.latest)


def test_the_chance_at_the_range_s_ends_is_the_one_that_is_told() -> None:
    """independent: by the definition of the range, one in ten before it, nine in ten by its end."""
    gone = changed(corner(3), points__plate_B_4__out="2026-03-05")
    found = [each.forecast for each in answer(gone).points if each.forecast.days is not None]
    assert found
    for each in found:
        assert each.fit is not None
        assert each.days is not None
        low, high = each.days
        assert each.fit.by_day[low] <= 0.1 + 1e-9
        assert each.fit.by_day[high] >= 0.9 - 1e-9
        assert each.fit.by_day[high - 1] < 0.9
        assert list(each.fit.by_day) == sorted(each.fit.by_day)


def test_the_sentence_counts_the_places() -> None:
    """independent: by hand; one place has a range of its own, a place without a date stops the whole."""
    found = answer(changed(corner(1)))
    assert found.close == close_date(found.points)
    assert found.close.says.startswith("No date yet: ")
    assert f"{len(found.close.why_not)} places have none" in found.close.says


def test_the_whole_range_holds_as_often_as_it_says() -> None:
    """independent: Fick's slabs, seven of one build, air and goal; 8 in 10 stated; 60 jobs."""
    told, _ = whole_jobs(60, points=7, alike=True)
    assert told.given >= 20
    assert told.held / told.given >= 0.72
    assert told.late / told.given <= 0.2, "the last one is rarely later than was said"
