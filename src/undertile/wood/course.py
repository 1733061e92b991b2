"""The course of one point for a chart: how it dried through its readings, and how it goes on.

The laws and weights of the fit (``dryfit``), looked at day by day: back over the readings smoothed [1]_,
ahead with the air of the last visits. The band is the share of the fit's weight that the close date is stated
with, so its edges come down to the goal on the first and the last day of that range.

References
----------
.. [1] Rauch, Tung and Striebel, Maximum likelihood estimates of linear dynamic systems, AIAA Journal 3 (1965)
   1445-1450 (from memory).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import erf, exp, hypot, pi, sqrt
from statistics import NormalDist

from undertile.wood.dryfit import (
    AIR_AHEAD,
    BEND,
    DRIFT,
    START_SPREAD,
    Dried,
    Law,
    Part,
    weighed,
    weight_within,
)
from undertile.wood.forecast import Asked

ENOUGH, FEW = 0.98, 0.90
"""Share of the weight that is drawn ahead, and through the readings: the least likely laws change no line."""
STEPS = 10
"""Places a curve ahead is worked out at, besides the last reading."""
_ROOT_2 = sqrt(2)
_NORMAL = NormalDist()


@dataclass(frozen=True)
class Station:
    """Moisture on one day: the middle, and the band it lies in eight times in ten.

    Attributes
    ----------
    day : float
        [d]
    low, middle, high : float
        [percent]
    """

    day: float
    low: float
    middle: float
    high: float


@dataclass(frozen=True)
class Course:
    """One point along the days.

    Attributes
    ----------
    through : tuple of Station
        On the days of the readings the fit stands on.
    ahead : tuple of Station
        From the last of them on; () where nothing is said of the days to come.
    """

    through: tuple[Station, ...]
    ahead: tuple[Station, ...]


def course(asked: Asked, air: float, days: float) -> Course:
    """The course of one point.

    Parameters
    ----------
    asked : Asked
        What its fit stands on.
    air : float
        Equilibrium of the air to come. [percent]
    days : float
        How far ahead; 0 = not at all. [d]

    Returns
    -------
    Course
    """
    laws = _likely(weighed(asked.readings, asked.expected, asked.above))
    edge = (1 - weight_within(len(asked.readings))) / 2
    smoothed = [(_smoothed(asked, law), weight) for law, _, weight in _likely(laws, FEW)]
    through = []
    for at, reading in enumerate(asked.readings):
        mixed = [(states[at][0], states[at][1], weight) for states, weight in smoothed]
        through.append(_station(reading.day, mixed, edge))
    ahead = []
    if days > 0:
        first, last = asked.readings[0].day, asked.readings[-1].day
        for step in range(STEPS + 1):
            later = days * step / STEPS
            mixed = [(*_later(law, part, air, last - first, later), weight) for law, part, weight in laws]
            ahead.append(_station(last + later, mixed, edge))
    return Course(tuple(through), tuple(ahead))


def _likely(laws: Sequence[tuple[Law, Part, float]], enough: float = ENOUGH) -> list[tuple[Law, Part, float]]:
    """The likeliest laws, up to so much of the weight; weights add up to 1."""
    kept, total = [], 0.0
    for each in sorted(laws, key=lambda law: -law[2]):
        kept.append(each)
        total += each[2]
        if total >= enough:
            break
    return [(law, part, weight / total) for law, part, weight in kept]


def _later(law: Law, part: Part, air: float, since: float, later: float) -> tuple[float, float]:
    """Mean and spread of the moisture some days after the last reading, by one law. [percent]"""
    kept = law.kept(since, since + later)
    mean = kept * part.now + (1 - kept) * (air + part.rest)
    shared = kept * part.slope * part.rest_sigma + (1 - kept) * hypot(part.rest_sigma, AIR_AHEAD)
    return mean, hypot(shared, kept * part.now_sigma)


def _smoothed(asked: Asked, law: Law) -> list[tuple[float, float]]:
    """Mean and spread of the moisture at each reading, given all of them, by one law. [percent]

    Forward as ``dryfit`` has it, then back: state is the moisture and its lasting difference from the air.
    """
    readings, above = asked.readings, asked.above
    held: list[_State] = []
    told: list[tuple[_State, float]] = []
    state = (readings[0].moisture, above[0], START_SPREAD**2, 0.0, above[1] ** 2)
    for at, reading in enumerate(readings):
        if at:
            state, kept = _forward(state, readings[at - 1], reading, law, readings[0].day)
            told.append((state, kept))
        state = _read(state, reading)
        held.append(state)
    out = [(held[-1][0], sqrt(max(held[-1][2], 0.0)))]
    after = held[-1]
    for at in range(len(readings) - 2, -1, -1):
        after = _back(held[at], *told[at], after)
        out.append((after[0], sqrt(max(after[2], 0.0))))
    return out[::-1]


_State = tuple[float, float, float, float, float]
"""Moisture, lasting difference, and their variances: of the first, shared, of the second."""


def _forward(state: _State, last: Dried, reading: Dried, law: Law, first: float) -> tuple[_State, float]:
    m, e, vmm, vme, vee = state
    kept = law.kept(last.day - first, reading.day - first)
    gone = 1 - kept
    left_out = BEND * gone * (m - last.air - e)
    moved = kept * m + gone * (last.air + e)
    spread = kept * kept * vmm + 2 * kept * gone * vme + gone * gone * vee + left_out * left_out
    return (moved, e, spread, kept * vme + gone * vee, vee + DRIFT * DRIFT), kept


def _read(state: _State, reading: Dried) -> _State:
    m, e, vmm, vme, vee = state
    spread = vmm + reading.noise * reading.noise
    off = reading.moisture - m
    k_m, k_e = vmm / spread, vme / spread
    return m + k_m * off, e + k_e * off, vmm - k_m * vmm, vme - k_m * vme, vee - k_e * vme


def _back(held: _State, told: _State, kept: float, after: _State) -> _State:
    """One step back: what the later readings say of the earlier state."""
    m, e, vmm, vme, vee = held
    gone = 1 - kept
    # covariance of the state with what was told of the next: rows m, e
    mm, me = kept * vmm + gone * vme, vme
    em, ee = kept * vme + gone * vee, vee
    _, _, pmm, pme, pee = told
    det = pmm * pee - pme * pme
    g = ((mm * pee - me * pme) / det, (me * pmm - mm * pme) / det)
    h = ((em * pee - ee * pme) / det, (ee * pmm - em * pme) / det)
    dm, de = after[0] - told[0], after[1] - told[1]
    dmm, dme, dee = after[2] - pmm, after[3] - pme, after[4] - pee
    return (
        m + g[0] * dm + g[1] * de,
        e + h[0] * dm + h[1] * de,
        vmm + g[0] * g[0] * dmm + 2 * g[0] * g[1] * dme + g[1] * g[1] * dee,
        vme + g[0] * h[0] * dmm + (g[0] * h[1] + g[1] * h[0]) * dme + g[1] * h[1] * dee,
        vee + h[0] * h[0] * dmm + 2 * h[0] * h[1] * dme + h[1] * h[1] * dee,
    )


def _station(day: float, mixed: Sequence[tuple[float, float, float]], edge: float) -> Station:
    """Three quantiles of a mixture of normal distributions (mean, spread, weight)."""
    mean = sum(weight * each for each, _, weight in mixed)
    square = sum(weight * (sigma * sigma + (each - mean) ** 2) for each, sigma, weight in mixed)
    sigma = max(sqrt(square), 1e-6)
    return Station(day, *(_quantile(mixed, share, mean, sigma) for share in (edge, 0.5, 1 - edge)))


def _quantile(mixed: Sequence[tuple[float, float, float]], share: float, mean: float, sigma: float) -> float:
    """By Newton's steps on the distribution, held between ends that are halved where a step leaves them."""
    low, high = mean - 8 * sigma, mean + 8 * sigma
    scaled = [(each, 1 / (max(spread, 1e-9) * _ROOT_2), weight) for each, spread, weight in mixed]
    x = mean + sigma * _NORMAL.inv_cdf(share)
    for _ in range(60):
        below = slope = 0.0
        for each, by, weight in scaled:
            z = (x - each) * by
            below += weight * erf(z)
            slope += weight * by * exp(-z * z)
        off = (below + 1) / 2 - share
        if off > 0:
            high = x
        else:
            low = x
        step = off / (slope / sqrt(pi)) if slope > 0 else 2 * (high - low)
        x = x - step if low < x - step < high else (low + high) / 2
        if abs(step) < 1e-3:
            break
    return x
