"""Least grinding and filling: by hand, against HiGHS on the same rules, and by symmetry."""

from __future__ import annotations

import random
from dataclasses import replace
from fractions import Fraction as F
from math import ceil

import pytest

from undertile.bench.floor import by_highs
from undertile.floor.levelling import STEP, Ground, Levelled, Limits, Plane, Rates, spread
from undertile.floor.sloping import least_work

RATES = Rates(F(15), F(6), F(2), F(10), F(4), F(1))
LIMIT = F(1, 8)


def floor(heights: list[list[str]], step: int = 12) -> list[Ground]:
    """Places on a grid, rows by y."""
    return [
        Ground(F(step * i), F(step * j), F(each))
        for j, line in enumerate(heights)
        for i, each in enumerate(line)
    ]


def rough(seed: int, across: int = 5, along: int = 4) -> list[Ground]:
    rng = random.Random(seed)
    b, c = rng.uniform(-0.004, 0.004), rng.uniform(-0.004, 0.004)
    return [
        Ground(F(12 * i), F(10 * j), F(round((b * 12 * i + c * 10 * j + rng.gauss(0, 0.08)) * 16), 16))
        for j in range(along)
        for i in range(across)
    ]


def paid(places: list[Ground], found: Levelled, limits: Limits, rates: Rates) -> F:
    """Minutes of an answer counted anew, after its finished floor is seen to lie in the zone."""
    assert found.plane is not None
    assert max(abs(found.plane.rise_x), abs(found.plane.rise_y)) <= limits.slope
    total, off, fill = F(0), False, False
    for place, amount in zip(places, found.amounts, strict=True):
        low = found.plane.at(place.x, place.y)
        assert low <= place.height + amount <= low + limits.limit
        assert -limits.most_off <= amount <= limits.most_fill
        steps = ceil(abs(amount) / STEP)
        if amount < 0:
            off, total = True, total + rates.off_place + steps * rates.off_step
        elif amount > 0:
            fill, total = True, total + rates.fill_place + steps * rates.fill_step
    return total + (rates.off_setup if off else 0) + (rates.fill_setup if fill else 0)


def limits_of(slope: str = "0", most_off: str = "1/4", most_fill: str = "1/2") -> Limits:
    return Limits(LIMIT, F(most_off), F(most_fill), F(slope) / 12)


def test_a_floor_worked_by_hand() -> None:
    # independent, by hand: all at 0 but one hump of 1/4 and one hollow of 1/8. Zone 0 to 1/8: hump 1/8 off,
    # 15 + 6 + 4; hollow 1/8 filled, 10 + 4 + 2; 41. Zone -1/8 to 0: only the hump, 1/4 off: 15 + 6 + 8 = 29.
    places = floor([["0", "0", "1/4"], ["0", "-1/8", "0"]])
    found = least_work(places, limits_of(), RATES)
    assert (found.minutes, found.proved) == (29, True)
    assert found.amounts == (0, 0, F(-1, 4), 0, 0, 0)
    # only 1/16 may come off: then the zone must reach from 3/16 down to 1/16: 5 places filled
    wood = least_work(places, limits_of(most_off="1/16"), RATES)
    assert wood.minutes == paid(places, wood, limits_of(most_off="1/16"), RATES)
    # by hand: zone 1/16 to 3/16: off 15 + 6 + 2; four of 1/16: 4 x 5; one of 3/16: 7; mix 10 = 60;
    # zone 1/8 to 1/4: nothing off; four of 1/8: 4 x 6; one of 1/4: 8; mix 10 = 42
    assert wood.minutes == 42


def test_a_floor_within_its_limit_is_left_alone() -> None:
    places = floor([["0", "1/8"], ["1/16", "1/32"]])
    found = least_work(places, limits_of(), RATES)
    assert (found.minutes, found.least_minutes, set(found.amounts)) == (0, 0, {0})


@pytest.mark.parametrize("seed", range(14))
@pytest.mark.parametrize("slope", ["0", "1/8"])
def test_rough_floors_cost_what_a_general_solver_says(seed: int, slope: str) -> None:
    places, limits = rough(seed), limits_of(slope)
    found = least_work(places, limits, RATES)
    assert found.proved
    assert paid(places, found, limits, RATES) == found.minutes
    wanted = by_highs(places, limits, RATES)
    assert wanted.closed
    assert float(found.minutes) == pytest.approx(wanted.answer, abs=0.01)  # independent: HiGHS


def test_where_no_plane_does_both_say_so() -> None:
    places = floor([["0", "0", "0"], ["0", "1", "0"], ["0", "0", "0"]])
    tight = limits_of(most_off="1/16", most_fill="1/2")
    assert least_work(places, tight, RATES).plane is None
    assert by_highs(places, tight, RATES).answer is None
    sloped = limits_of("1/8", "1/16", "1/2")
    assert least_work(places, sloped, RATES).plane is None
    assert by_highs(places, sloped, RATES).answer is None


def test_a_true_slope_costs_nothing_where_it_is_allowed() -> None:
    # independent: 1/8 in a foot along x and 1/16 along y, exactly
    places = [Ground(F(x), F(y), F(x, 96) - F(y, 192)) for x in (0, 24, 60) for y in (0, 16, 32)]
    assert least_work(places, limits_of("1/8"), RATES).minutes == 0
    assert spread(places, F(1, 96)) == 0
    level = least_work(places, limits_of(), RATES)
    assert level.minutes > 0
    assert spread(places) == max(p.height for p in places) - min(p.height for p in places)


def test_a_turned_or_raised_room_costs_the_same() -> None:
    # independent: symmetry
    for seed in range(6):
        places = rough(40 + seed, 4, 3)
        slope = limits_of("1/16")
        minutes = least_work(places, slope, RATES).minutes
        mirrored = [replace(each, x=F(36) - each.x) for each in places]
        turned = [Ground(each.y, each.x, each.height) for each in places]
        raised = [replace(each, height=each.height + F(7, 3)) for each in places]
        for other in (mirrored, turned, raised):
            assert least_work(other, slope, RATES).minutes == minutes


def test_more_freedom_never_costs_more() -> None:
    for seed in range(8):
        places = rough(60 + seed)
        level, some, more = (least_work(places, limits_of(s), RATES).minutes for s in ("0", "1/16", "1/8"))
        assert more <= some <= level
        wide = least_work(places, replace(limits_of(), limit=F(1, 4)), RATES).minutes
        assert wide <= level


def test_the_zone_of_one_high_corner() -> None:
    # published: four corners, one h high: the zone between sloped planes is h / 2
    corners = [Ground(F(x), F(y), F(1, 10) if x and y else F(0)) for x in (0, 1) for y in (0, 1)]
    assert spread(corners, F(1)) == F(1, 20)
    assert spread(corners) == F(1, 10)


def test_the_16_point_wall_laid_flat() -> None:
    # published (test data of a flatness study, recomputed): zone in z 0.256667
    offsets = [
        "0",
        ".06",
        ".12",
        ".02",
        ".05",
        ".16",
        ".19",
        ".05",
        ".03",
        ".21",
        ".14",
        "-.02",
        "-.04",
        ".07",
        ".05",
        "-.10",
    ]
    places = [Ground(F(16 * (i % 4)), F(24 * (i // 4)), F(each)) for i, each in enumerate(offsets)]
    assert float(spread(places, F(1))) == pytest.approx(0.256667, abs=1e-6)


def test_a_plane_is_read_where_it_is_asked() -> None:
    assert Plane(F(1), F(1, 12), F(-1, 24)).at(F(12), F(24)) == 1  # independent: 1 + 1 - 1
