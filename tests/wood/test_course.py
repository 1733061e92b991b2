"""The course of a point for its chart: the same fit, day by day."""

from __future__ import annotations

import random
from statistics import fmean, pstdev

import pytest

from undertile.wood.course import Course, _quantile, course
from undertile.wood.dryfit import BEND, DRIFT, START_SPREAD, Dried, Law, fit
from undertile.wood.forecast import Asked

DAYS = (0.0, 1.7, 4.0, 6.0)


def read(*values: float, air: float = 8.0) -> Asked:
    readings = tuple(Dried(day, value, air) for day, value in zip(DAYS, values, strict=False))
    return Asked(readings, 14.0, (0.5, 1.5))


def at(band: Course, goal: float, edge: str) -> float:
    """Days from the last reading until a line of the band is down to the goal."""
    start = band.ahead[0].day
    for before, after in zip(band.ahead, band.ahead[1:], strict=False):
        one, two = getattr(before, edge), getattr(after, edge)
        if one >= goal > two:
            return before.day - start + (one - goal) / (one - two) * (after.day - before.day)
    raise AssertionError("never down to its goal")


@pytest.mark.parametrize("values", [(26, 23.5, 20.5), (22, 19, 17), (25, 22, 19.5, 18), (18.5, 17, 16.4, 16)])
def test_the_band_comes_down_to_the_goal_on_the_days_of_the_range(values: tuple[float, ...]) -> None:
    """Independent: the range counts crossings, the band is a distribution of moisture day by day."""
    asked, goal = read(*values), 15.1
    found = fit(asked.readings, goal, expected=asked.expected, air_ahead=8.0, above=asked.above)
    band = course(asked, 8.0, 1.2 * found.days[1])
    for edge, wanted in (("low", found.days[0]), ("middle", found.middle), ("high", found.days[1])):
        assert at(band, goal, edge) == pytest.approx(wanted, rel=0.1, abs=0.3)


def test_it_starts_where_the_fit_stands_and_goes_through_the_readings() -> None:
    """Independent: smoothed forth and back, the last station is what the forward fit says; widths grow.

    Pinned: 0.6 of the readings.
    """
    asked = read(26, 23.5, 20.5)
    found = fit(asked.readings, 15.1, expected=14.0, air_ahead=8.0)
    band = course(asked, 8.0, 10.0)
    assert band.through[-1].middle == pytest.approx(found.now, abs=0.02)
    assert band.ahead[0].middle == pytest.approx(found.now, abs=0.02)
    assert (band.ahead[0].low, band.ahead[0].high) == pytest.approx(
        (band.through[-1].low, band.through[-1].high), abs=0.02
    )
    for station, reading in zip(band.through, asked.readings, strict=True):
        assert station.low < station.middle < station.high
        assert station.middle == pytest.approx(reading.moisture, abs=0.6)
    widths = [station.high - station.low for station in band.ahead]
    assert widths[0] < widths[-1]
    assert widths == sorted(widths), "the further ahead the less is known"


def test_nothing_is_said_of_days_to_come_where_none_is_asked() -> None:
    """Independent: no days ahead, no stations."""
    assert course(read(26, 23.5, 20.5), 8.0, 0.0).ahead == ()


def test_quantiles_of_a_mixture() -> None:
    """Independent: by drawing from it."""
    rng = random.Random(5)
    mixed = [(10.0, 1.0, 0.5), (14.0, 2.0, 0.3), (20.0, 0.5, 0.2)]
    drawn = sorted(
        rng.gauss(mean, sigma)
        for mean, sigma, _ in rng.choices(mixed, weights=[each[2] for each in mixed], k=40_000)
    )
    mean, sigma = fmean(drawn), pstdev(drawn)
    for share in (0.1, 0.215, 0.5, 0.785, 0.9):
        found = _quantile(mixed, share, mean, sigma)
        assert sum(each < found for each in drawn) / len(drawn) == pytest.approx(share, abs=0.01)


def test_smoothing_is_least_squares() -> None:
    """Independent: the same straight problem solved whole, by normal equations, instead of forth and back."""
    numpy = pytest.importorskip("numpy")
    from undertile.wood.course import _smoothed

    asked, law = read(26, 23.0, 20.8, 18.9), Law(9.0, root=False)
    readings = asked.readings
    count = len(readings)
    rows, right, weights = [], [], []

    def row(weight: float, value: float, **at_place: float) -> None:
        line = numpy.zeros(2 * count)
        for place, factor in at_place.items():
            line[int(place[1:])] = factor
        rows.append(line)
        right.append(value)
        weights.append(1 / weight)

    row(START_SPREAD, readings[0].moisture, _0=1.0)
    row(asked.above[1], asked.above[0], **{f"_{count}": 1.0})
    # what the law leaves out goes with the excess as the filter has it: taken from a forward pass
    m, e = readings[0].moisture, asked.above[0]
    vmm, vme, vee = START_SPREAD**2, 0.0, asked.above[1] ** 2
    for k, reading in enumerate(readings):
        if k:
            kept = law.kept(readings[k - 1].day, reading.day)
            gone, air = 1 - kept, readings[k - 1].air
            out = BEND * gone * (m - air - e)
            row(abs(out), gone * air, **{f"_{k}": 1.0, f"_{k - 1}": -kept, f"_{count + k - 1}": -gone})
            row(DRIFT, 0.0, **{f"_{count + k}": 1.0, f"_{count + k - 1}": -1.0})
            m = kept * m + gone * (air + e)
            vmm = kept**2 * vmm + 2 * kept * gone * vme + gone**2 * vee + out**2
            vme = kept * vme + gone * vee
            vee += DRIFT**2
        row(reading.noise, reading.moisture, **{f"_{k}": 1.0})
        spread, off = vmm + reading.noise**2, reading.moisture - m
        m, e = m + vmm / spread * off, e + vme / spread * off
        vmm, vme, vee = vmm - vmm * vmm / spread, vme - vmm * vme / spread, vee - vme * vme / spread
    a = numpy.array(rows) * numpy.array(weights)[:, None]
    solved = numpy.linalg.lstsq(a, numpy.array(right) * numpy.array(weights), rcond=None)[0]
    spreads = numpy.sqrt(numpy.diag(numpy.linalg.inv(a.T @ a)))
    for k, (mean, sigma) in enumerate(_smoothed(asked, law)):
        assert mean == pytest.approx(float(solved[k]), abs=1e-6)
        assert sigma == pytest.approx(float(spreads[k]), abs=1e-6)
