"""Plateau and time constant of one point from its readings, and when it is down to its goal, as a range.

The room's air gives the equilibrium; the point comes to rest e away from it (hysteresis, air behind the
plate, scale). What it holds above that, its excess, goes by one of two laws: exp(-t/tau), as a slab does in
the end, or 1/sqrt(1 + t/theta), as the layer at the pins does while the core still feeds it
(docs/methods/drying.md). For every tau and theta of a grid the rest is straight: moisture and e have a normal
distribution given the readings; laws and times are weighed by how well they explain them. The spreads were
tuned on simulated slabs so that the range covers as often as it says (``bench.drying``).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from fractions import Fraction
from functools import lru_cache
from itertools import pairwise
from math import ceil, exp, floor, hypot, inf, log, sqrt
from statistics import NormalDist

STATED = 0.80
"""How often the range says it holds the truth: 8 in 10."""
REPEAT = 0.6
"""Standard deviation of a reading in the same holes on another day (ours). [percent]"""
ABOVE_AIR = 0.5
"""Wood that dries stands about so far above the equation (hysteresis; ours). [percent]"""
ABOVE_AIR_SPREAD = 1.5
"""[percent]"""
START_SPREAD = 6.0
"""[percent]"""
BEND = 0.70
"""Standard deviation of what the law leaves out, as a share of what the excess loses between readings."""
AIR_AHEAD = 0.7
"""Standard deviation of the room's equilibrium to come, about that of the last visits. [percent]"""
DRIFT = 0.3
"""Standard deviation by which the lasting difference changes between readings. [percent]"""
ROOT = 0.5
"""How likely the second law is before any reading."""
TAU_SPREAD = 0.8
"""Standard deviation of ln(tau) before any reading is taken."""
NEVER = 0.10
"""No date where the chance of never getting there is larger."""
LONGEST = 60.0
"""Nor where the range's end is further off: too early to say. [d]"""
THINNEST = Fraction(9, 16)
"""Thinner wood is expected to dry no faster than this: its faces give off moisture no faster, however thin
it is (ours, no source; a finding says where it was so taken). [in]"""
UNTOLD = {"told": False}
"""Marks what no twin in JSON carries."""

_TAUS = tuple(0.6 * (150 / 0.6) ** (i / 27) for i in range(28))
_NORMAL = NormalDist()
_FEW = tuple(_NORMAL.inv_cdf((i + 0.5) / 7) for i in range(7))


@dataclass(frozen=True)
class Dried:
    """One reading for a fit.

    Attributes
    ----------
    day : float
        [d]
    moisture : float
        [percent]
    air : float
        Equilibrium in the room's air from this reading to the next. [percent]
    noise : float
        Standard deviation. [percent]
    """

    day: float
    moisture: float
    air: float
    noise: float = REPEAT


@dataclass(frozen=True)
class DryFit:
    """What the readings of one point say.

    Attributes
    ----------
    plateau, plateau_sigma : float
        Where it comes to rest in the air of the last visit. [percent]
    tau : float
        Time constant, the middle one. [d]
    tau_range : tuple of float
        Eight in ten. [d]
    now : float
        Moisture at the last reading, as the fit has it. [percent]
    days : tuple of float, or None
        From the last reading to the goal: eight in ten lie between; inf = may never. None = refused.
    middle : float
        As likely before as after. [d]
    never : float
        Chance that it comes to rest above the goal.
    falling : float
        Chance that it lies above its plateau and falls.
    by_day : tuple of float
        Chance that it is at its goal by so many whole days from the last reading, 0 to ``LONGEST``, stretched
        so that it is right at the edges of ``days``: what a range of several points stands on.
    """

    plateau: float
    plateau_sigma: float
    tau: float
    tau_range: tuple[float, float]
    now: float
    days: tuple[float, float]
    middle: float
    never: float
    falling: float
    by_day: tuple[float, ...] = field(default=(), repr=False, metadata=UNTOLD)


def expected_tau(thickness: float | None, open_faces: str) -> float:
    """A time constant before any reading: common practice for 1-1/2 in lumber, by thickness squared.

    Parameters
    ----------
    thickness : float or None
        Under ``THINNEST`` it counts as that. [in]
    open_faces : str
        ``both``, ``one``, ``none`` (a sandwich, under a membrane) or ``unknown``.

    Returns
    -------
    float
        [d]
    """
    at_two_by = {"both": 9.0, "one": 18.0, "none": 32.0}.get(open_faces, 14.0)
    if thickness is None:
        return at_two_by
    return at_two_by * (max(thickness, float(THINNEST)) / 1.5) ** 2


def fit(
    readings: Sequence[Dried],
    goal: float,
    *,
    expected: float = 14.0,
    air_ahead: float | None = None,
    above: tuple[float, float] = (ABOVE_AIR, ABOVE_AIR_SPREAD),
) -> DryFit:
    """Fit one point.

    Parameters
    ----------
    readings : sequence of Dried
        Two or more, by rising day.
    goal : float
        [percent]
    expected : float
        Time constant before any reading. [d]
    air_ahead : float, optional
        Equilibrium of the air to come; left out = that of the last reading. [percent]
    above : tuple of float
        How far above the air's equilibrium the point comes to rest, and its standard deviation. [percent]

    Returns
    -------
    DryFit
    """
    air = readings[-1].air if air_ahead is None else air_ahead
    return _fit(tuple(readings), goal, expected, air, above)


@lru_cache(maxsize=1024)
def weighed(
    readings: tuple[Dried, ...], expected: float, above: tuple[float, float]
) -> tuple[tuple[Law, Part, float], ...]:
    """Every law that explains the readings at all, with its straight part and its weight.

    Parameters
    ----------
    readings : tuple of Dried
    expected : float
        Time constant before any reading. [d]
    above : tuple of float
        As ``fit``. [percent]

    Returns
    -------
    tuple of (Law, Part, float)
        Weights add up to 1, less the laws left out as hopeless.
    """
    parts: list[tuple[Law, Part, float]] = []
    for law, kept in zip(_LAWS, _kept(tuple(each.day for each in readings)), strict=True):
        part = _given(readings, kept, above)
        usual = expected if law.root is False else expected / 2
        score = part.score - ((log(law.days) - log(usual)) / TAU_SPREAD) ** 2 / 2
        parts.append((law, part, score + log(ROOT if law.root else 1 - ROOT)))
    top = max(score for *_, score in parts)
    total = sum(exp(score - top) for *_, score in parts)
    shares = ((law, part, exp(score - top) / total) for law, part, score in parts)
    return tuple(each for each in shares if each[2] >= 2e-4)


@lru_cache(maxsize=2048)
def _fit(
    readings: tuple[Dried, ...], goal: float, expected: float, air: float, above: tuple[float, float]
) -> DryFit:
    """The fit itself, kept: the next key press changes one point of a round."""
    parts = weighed(readings, expected, above)
    days: list[tuple[float, float]] = []
    taus: list[tuple[float, float]] = []
    never = falling = plateau = square = now = 0.0
    since = readings[-1].day - readings[0].day
    for law, part, weight in parts:
        taus.append((law.tau(since), weight))
        plateau += weight * (air + part.rest)
        square += weight * (part.rest_sigma**2 + (air + part.rest) ** 2)
        now += weight * part.now
        each = weight / len(_FEW) ** 2
        rest_sigma, law_days, root = hypot(part.rest_sigma, AIR_AHEAD), law.days, law.root
        off = [part.now_sigma * b for b in _FEW]
        for a in _FEW:
            rest = air + part.rest + rest_sigma * a
            middle = part.now + part.slope * part.rest_sigma * a
            gap = goal - rest
            for b in off:
                moisture = middle + b
                falling += each * (moisture > rest + 0.3)
                if moisture <= goal:
                    days.append((0.0, each))
                elif rest >= goal:
                    never += each
                    days.append((inf, each))
                else:
                    share = (moisture - rest) / gap
                    took = (law_days + since) * (share * share - 1) if root else law_days * log(share)
                    days.append((took, each))
    days.sort()
    taus.sort()
    edge = (1 - weight_within(len(readings))) / 2
    return DryFit(
        plateau,
        sqrt(max(0.0, square - plateau**2)),
        _quantile(taus, 0.5),
        (_quantile(taus, edge), _quantile(taus, 1 - edge)),
        now,
        (_quantile(days, edge), _quantile(days, 1 - edge)),
        _quantile(days, 0.5),
        never,
        falling,
        _by_day(days, edge),
    )


def _by_day(days: Sequence[tuple[float, float]], edge: float) -> tuple[float, ...]:
    """Chance of being there by each whole day, on the scale on which the range covers as often as it says.

    The range takes the fit's own ``edge`` for one in ten. Every other chance is stretched by the same factor
    on the normal scale.
    """
    stretch = _NORMAL.inv_cdf((1 - STATED) / 2) / _NORMAL.inv_cdf(edge)
    whole = sum(weight for _, weight in days)
    out, gone, at = [], 0.0, 0
    for day in range(int(LONGEST) + 1):
        while at < len(days) and days[at][0] <= day:
            gone += days[at][1]
            at += 1
        share = gone / whole
        sure = 1.0 if share >= 1 - 1e-12 else 0.0
        out.append(_NORMAL.cdf(stretch * _NORMAL.inv_cdf(share)) if 1e-12 < share < 1 - 1e-12 else sure)
    return tuple(out)


_WEIGHT = {2: 0.57, 3: 0.57, 4: 0.57, 5: 0.60, 6: 0.62, 7: 0.65, 8: 0.71}
_WEIGHT_AFTER = 0.73


def weight_within(readings: int) -> float:
    """The share of the fit's own weight that, in whole days outward, covers as often as is stated.

    With few readings the fit is too careful, with many what the laws leave out makes it a little too sure;
    tuned on simulated slabs.

    Parameters
    ----------
    readings : int

    Returns
    -------
    float
    """
    return _WEIGHT.get(readings, _WEIGHT_AFTER)


def whole_days(found: DryFit) -> tuple[int, int] | None:
    """The range in whole days, rounded outward; None where no date is honest.

    Parameters
    ----------
    found : DryFit

    Returns
    -------
    tuple of int, or None
        From the last reading. [d]
    """
    low, high = found.days
    if found.never > NEVER or high > LONGEST:
        return None
    return floor(low), ceil(high)


@dataclass(frozen=True)
class Law:
    """How an excess goes: by exp(-t/days), or by 1/sqrt(1 + t/days).

    A share 1/s of it is left after days ln(s), or (days + since) (s^2 - 1) where ``since`` have gone by.
    """

    days: float
    root: bool

    def kept(self, start: float, end: float) -> float:
        """Share of the excess at ``start`` that is left at ``end``, both from the first reading. [d]"""
        if self.root:
            return sqrt((self.days + start) / (self.days + end))
        return exp(-(end - start) / self.days)

    def tau(self, since: float) -> float:
        """The time constant the excess goes with at a time. [d]"""
        return 2 * (self.days + since) if self.root else self.days


_LAWS = tuple(Law(days, root) for root in (False, True) for days in _TAUS)


@dataclass(frozen=True)
class Part:
    """The straight part, given tau: point's difference from the air, moisture now, their spreads."""

    rest: float
    rest_sigma: float
    now: float
    slope: float
    now_sigma: float
    score: float


@lru_cache(maxsize=64)
def _kept(days: tuple[float, ...]) -> tuple[tuple[float, ...], ...]:
    """What each law leaves of an excess from each reading to the next; points of one round share it."""
    since = [day - days[0] for day in days]
    return tuple(tuple(law.kept(before, after) for before, after in pairwise(since)) for law in _LAWS)


def _given(readings: Sequence[Dried], kept_of: Sequence[float], above: tuple[float, float]) -> Part:
    # state: moisture m now and the lasting difference e; prior m ~ N(first, START_SPREAD), e ~ N(above)
    m, e = readings[0].moisture, above[0]
    vmm, vme, vee = START_SPREAD**2, 0.0, above[1] ** 2
    score = air = 0.0
    for kept, reading in zip((1.0, *kept_of), readings, strict=True):
        if reading is not readings[0]:
            gone = 1 - kept
            left_out = BEND * gone * (m - air - e)
            m = kept * m + gone * (air + e)
            vmm = kept * kept * vmm + 2 * kept * gone * vme + gone * gone * vee + left_out * left_out
            vme = kept * vme + gone * vee
            vee += DRIFT * DRIFT
        air = reading.air
        spread = vmm + reading.noise * reading.noise
        off = reading.moisture - m
        score -= off * off / spread / 2 + log(spread) / 2
        k_m, k_e = vmm / spread, vme / spread
        m += k_m * off
        e += k_e * off
        vmm, vme, vee = vmm - k_m * vmm, vme - k_m * vme, vee - k_e * vme
    slope = vme / vee if vee > 0 else 0.0
    return Part(e, sqrt(max(vee, 0.0)), m, slope, sqrt(max(vmm - slope * vme, 0.0)), score)


def _quantile(weighted: Sequence[tuple[float, float]], share: float) -> float:
    """The value at a share of the weight."""
    total = 0.0
    for value, weight in weighted:
        total += weight
        if total >= share:
            return value
    return weighted[-1][0]
