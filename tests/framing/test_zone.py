"""Minimum zone against published sets, a linear program of another kind, and its own certificate."""

from __future__ import annotations

from fractions import Fraction
from itertools import combinations
from math import sqrt

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from undertile.framing.zone import MOST_POINTS, Zone, minimum_zone, proved

F = Fraction


def fractions(text: str) -> list[Fraction]:
    return [F(part) for part in text.split()]


# set 1: points published in an engineering forum thread on flatness, answer recomputed;
# sets 2-5 independent: analytic
FIVE = (
    [
        (F("11.5"), F("7")),
        (F("18.5"), F("6.9")),
        (F("4.5"), F("13")),
        (F("25.5"), F("30")),
        (F("11.5"), F("37.5")),
    ],
    fractions("1.1 1.03 1.02 1.03 1.02"),
)
CORNER = ([(F(0), F(0)), (F(1), F(0)), (F(0), F(1)), (F(1), F(1))], fractions("0 0 0 0.1"))
SAG = (
    [(F(x), F(y)) for x in (-1, 0, 1) for y in (-1, 0, 1)],
    [F(x * x, 10) for x in (-1, 0, 1) for _ in (-1, 0, 1)],
)
WALL = (
    [(F(x), F(y)) for y in (0, 24, 48, 72) for x in (0, 16, 32, 48)],
    fractions("0 .06 .12 .02 .05 .16 .19 .05 .03 .21 .14 -.02 -.04 .07 .05 -.10"),
)
STUD = ([(F(x),) for x in (0, 24, 48, 72, 96)], fractions("0 .10 .02 .14 .05"))


@pytest.mark.parametrize(
    ("points", "values", "width", "within"),
    [
        (*FIVE, 0.067262, 5e-7),  # published: exact minimum zone, z-direction the same
        (*CORNER, 0.05, 0),  # published: analytic, h / 2
        (*SAG, 0.1, 0),  # published: the plane stays level
        (*WALL, 0.256667, 5e-7),  # published: z-direction 0.256667
        (*STUD, 0.105, 0),  # published: minimum zone 0.105000
    ],
)
def test_published_sets(
    points: list[tuple[Fraction, ...]], values: list[Fraction], width: float, within: float
) -> None:
    zone = minimum_zone(points, values)
    assert float(zone.width) == pytest.approx(width, abs=max(within, 1e-12))
    assert proved(zone, points, values)


def test_published_planes_and_widths_at_right_angles() -> None:
    wall = minimum_zone(*WALL)
    # published: plane a = -0.00125, b = -0.000555556, c = 0.128333
    assert [float(s) for s in wall.slopes] == pytest.approx([-0.00125, -0.000555556], abs=5e-10)
    assert float(wall.constant) == pytest.approx(0.128333, abs=5e-7)
    assert wall.square_width == pytest.approx(0.256666, abs=1e-6)  # published: exact zone 0.256666
    assert minimum_zone(*SAG).slopes == (0, 0)  # published: the plane stays level
    corner = minimum_zone(*CORNER)
    assert corner.square_width == pytest.approx(0.0498755, abs=5e-8)  # published: h/2 / sqrt(1 + 2 (h/2)^2)
    assert minimum_zone(*FIVE).square_width == pytest.approx(0.067262, abs=1e-6)  # published


@pytest.mark.parametrize(
    ("points", "values", "least_squares"),
    [(*FIVE, 0.072097), (*WALL, 0.277750), (*STUD, 0.106)],  # published: least-squares zones
)
def test_never_wider_than_the_least_squares_zone(
    points: list[tuple[Fraction, ...]], values: list[Fraction], least_squares: float
) -> None:
    model = np.array([[1.0, *map(float, p)] for p in points])
    z = np.array([float(v) for v in values])
    residual = z - model @ np.linalg.lstsq(model, z, rcond=None)[0]  # independent: numpy
    slope = np.linalg.lstsq(model, z, rcond=None)[0][1:]
    assert np.ptp(residual) / sqrt(1 + float(slope @ slope)) == pytest.approx(least_squares, abs=2e-6)
    assert float(minimum_zone(points, values).width) < np.ptp(residual)


def by_highs(points: list[tuple[Fraction, ...]], values: list[Fraction]) -> float:
    """independent: the same Chebyshev fit as a float linear program in HiGHS."""
    highspy = pytest.importorskip("highspy")
    size = len(points[0]) + 2
    model = highspy.Highs()
    model.setOptionValue("output_flag", False)
    for k in range(size):
        model.addVar(0.0 if k == size - 1 else -1e6, 1e6)
        model.changeColCost(k, 1.0 if k == size - 1 else 0.0)
    for p, v in zip(points, values, strict=True):
        for sign in (1.0, -1.0):
            row = [sign, *(sign * float(c) for c in p), -1.0]
            model.addRow(-1e30, sign * float(v), size, np.arange(size), np.array(row))
    model.run()
    return float(2 * model.getObjectiveValue())


@settings(max_examples=40, deadline=None)
@given(
    st.lists(st.tuples(st.integers(0, 6), st.integers(0, 6)), min_size=1, max_size=14, unique=True),
    st.data(),
)
def test_equals_a_general_solver_and_proves_itself_on_lattices_full_of_ties(
    places: list[tuple[int, int]], data: st.DataObject
) -> None:
    points = [(F(8 * x), F(12 * y)) for x, y in places]
    values = [
        F(n, 16) for n in data.draw(st.lists(st.integers(-4, 4), min_size=len(points), max_size=len(points)))
    ]
    zone = minimum_zone(points, values)
    assert proved(zone, points, values)
    assert float(zone.width) == pytest.approx(by_highs(points, values), abs=1e-6)


@settings(max_examples=40, deadline=None)
@given(st.lists(st.integers(-9, 9), min_size=3, max_size=8))
def test_straightness_is_the_worst_triple(sixteenths: list[int]) -> None:
    # independent: on a line the zone is fixed by one point against the chord of two around it (Radon)
    values = [F(n, 16) for n in sixteenths]
    places = [F(5 * i + i * i) for i in range(len(values))]
    triples = [
        abs(
            values[i]
            + (values[k] - values[i]) * (places[j] - places[i]) / (places[k] - places[i])
            - values[j]
        )
        for i, j, k in combinations(range(len(values)), 3)
    ]
    assert minimum_zone([(x,) for x in places], values).width == max(triples)


def test_readings_on_one_line_of_a_wall_leave_the_other_slope_at_nothing() -> None:
    zone = minimum_zone([(F(8), F(0)), (F(8), F(24)), (F(8), F(48))], [F(0), F(1, 8), F(0)])
    assert zone.width == F(1, 8)  # independent: by hand, the middle one against the chord
    assert zone.slopes == (0, 0)


def test_one_reading_has_no_width() -> None:
    assert minimum_zone([(F(8), F(2))], [F(3, 16)]).width == 0  # independent: by definition


def test_a_zone_that_is_not_least_is_not_proved() -> None:
    good = minimum_zone(*STUD)
    wide = Zone(good.width + F(1, 100), good.slopes, good.constant, good.high, good.low)
    off = Zone(good.width, good.slopes, good.constant + F(1, 1000), good.high, good.low)
    lopsided = Zone(good.width, good.slopes, good.constant, good.low, good.high)
    assert not any(proved(zone, *STUD) for zone in (wide, off, lopsided))


def test_what_is_no_set_of_readings_is_refused() -> None:
    with pytest.raises(ValueError, match="2 places of one kind need as many readings; 1 came"):
        minimum_zone([(F(0),), (F(1),)], [F(0)])
    with pytest.raises(ValueError, match="a wall read by hand"):
        minimum_zone([(F(i),) for i in range(MOST_POINTS + 1)], [F(0)] * (MOST_POINTS + 1))
