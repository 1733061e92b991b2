"""The fit: an exponential planted comes back, limits it must keep, and the range on slabs."""

from __future__ import annotations

from math import exp, inf

import pytest
from hypothesis import given
from hypothesis import strategies as st

from undertile.bench.drying import close_dates
from undertile.wood.dryfit import Dried, expected_tau, fit, whole_days
from undertile.wood.slab import days_to


def planted(start: float, rest: float, tau: float, days: list[float], air: float) -> list[Dried]:
    return [Dried(day, rest + (start - rest) * exp(-day / tau), air) for day in days]


def test_an_exponential_read_long_enough_comes_back() -> None:
    # independent: the law itself, without noise
    found = fit(planted(28, 9.5, 6, [0, 1, 2, 4, 6, 8, 10, 12, 15], 9), 10.5)
    assert found.tau == pytest.approx(6, rel=0.5)
    assert found.plateau == pytest.approx(9.5, abs=1.2)
    truth = days_to(28, 10.5, 9.5, 6)
    assert truth is not None
    assert found.days[0] <= truth - 15 <= found.days[1]


def test_a_plateau_above_the_goal_gets_no_date() -> None:
    # independent: it comes to rest at 17, over a goal of 14
    found = fit(planted(27, 17, 3, [0, 1, 2, 4, 6, 8, 10], 16.5), 14)
    assert found.never > 0.9
    assert whole_days(found) is None


def test_one_that_does_not_fall_gets_no_date() -> None:
    found = fit([Dried(day, 26, 9) for day in (0, 1, 2, 4, 6)], 14)
    assert whole_days(found) is None


def test_at_the_goal_the_range_begins_today() -> None:
    found = fit(planted(20, 9, 5, [0, 2, 4, 6], 9), 14.5)
    assert found.days[0] == 0


@given(st.floats(19, 28), st.floats(3, 20), st.floats(7, 11))
def test_a_lower_goal_is_never_sooner(start: float, tau: float, rest: float) -> None:
    readings = planted(start, rest, tau, [0, 1.5, 3, 5], rest)
    near, far = fit(readings, 16), fit(readings, 13)
    assert near.days[0] <= far.days[0]
    assert near.days[1] <= far.days[1]
    assert near.never <= far.never


@given(st.floats(19, 28), st.floats(3, 20), st.floats(7, 11))
def test_damper_air_ahead_is_never_sooner(start: float, tau: float, rest: float) -> None:
    readings = planted(start, rest, tau, [0, 1.5, 3, 5], rest)
    assert fit(readings, 14, air_ahead=7).days[1] <= fit(readings, 14, air_ahead=11).days[1]


def test_the_order_of_the_room_s_scale_does_not_matter() -> None:
    # independent: shift of moisture, goal and air together changes nothing
    readings = planted(25, 9, 6, [0, 1, 2, 4], 9)
    moved = [Dried(each.day, each.moisture + 1, each.air + 1) for each in readings]
    assert fit(moved, 15).days == pytest.approx(fit(readings, 14).days)


def test_thin_and_open_dries_sooner_than_thick_and_sealed() -> None:
    assert expected_tau(0.75, "both") < expected_tau(1.5, "both") < expected_tau(1.5, "one")
    assert expected_tau(1.5, "one") < expected_tau(3.0, "one")


def test_inf_is_kept() -> None:
    found = fit(planted(27, 20, 3, [0, 1, 2, 4, 6], 20), 12)
    assert found.days == (inf, inf)


def test_the_range_holds_the_day_as_often_as_it_says() -> None:
    # independent: Fick's slab, changing air, a person's readings; 8 in 10 stated; 300 logs
    for number, dates in close_dates(300, visits=(3, 4, 6)).items():
        share = dates.shares()
        assert dates.given > 60, number
        assert 0.72 <= share["covered"] <= 0.93, (number, share)
