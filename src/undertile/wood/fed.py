"""A point that falls behind its neighbours: possibly fed, with odds, from the second visit on.

Between two visits a point that is only wet loses a share of what it holds over the room's equilibrium, much
the same share as its neighbours of one stuff; a point that is still being fed stays or rises. Both are
weighed for each point against what its neighbours did (docs/methods/drying.md); the spreads were tuned on
simulated slabs (``bench.drying``).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import exp, hypot, log
from statistics import median

from undertile.wood.dryfit import ABOVE_AIR, REPEAT

PRIOR = 0.10
"""Share of wet points that are still fed when nothing is known (ours)."""
UNLIKE = 0.35
"""Neighbours dry unlike each other by so much of what they lose."""
TYPICAL_DAYS = 4.5
"""What a point alone is expected to do: lose its excess with this time constant. [d]"""
FED_CHANGE, FED_SPREAD = 0.2, 1.5
"""Of a fed point between two visits, whatever the wait. [percent]"""
OVER = 31.0
"""What a reading over the range counts as here. [percent]"""
OVER_SPREAD = 1.5
"""[percent]"""
FEW = 2
"""Neighbours it takes to speak of neighbours."""


@dataclass(frozen=True)
class Pair:
    """One point on two visits.

    Attributes
    ----------
    name : str
    first, second : float or None
        None = over the meter's range. [percent]
    air : float
        Equilibrium of the room's air between them. [percent]
    """

    name: str
    first: float | None
    second: float | None
    air: float


@dataclass(frozen=True)
class FedOdds:
    """How likely a point is still fed.

    Attributes
    ----------
    odds : float
        0..1.
    change, expected : float or None
        What it did between the visits, and what its neighbours lead to expect; None = not known. [percent]
    neighbours : int
        How many it was held against.
    """

    odds: float
    change: float | None
    expected: float | None
    neighbours: int


def fed_odds(pairs: Sequence[Pair], days: float) -> dict[str, FedOdds]:
    """Odds for each point of one group of like stuff.

    Parameters
    ----------
    pairs : sequence of Pair
        Points of one material, wet on the first visit.
    days : float
        Between the visits. [d]

    Returns
    -------
    dict of str to FedOdds
        By name.
    """
    usual = 1 - exp(-days / TYPICAL_DAYS)
    shares = {pair.name: _share(pair) for pair in pairs}
    out = {}
    for pair in pairs:
        others = [share for name, share in shares.items() if name != pair.name and share is not None]
        # what is usual counts as one neighbour among them
        pull = median([*others, usual, *([usual] if len(others) % 2 == 0 else [])])
        out[pair.name] = _odds(pair, max(pull, usual / 2), len(others))
    return out


def _share(pair: Pair) -> float | None:
    """Share of its excess that a point lost; None where the meter was over or the excess is small."""
    if pair.first is None or pair.second is None:
        return None
    excess = pair.first - pair.air - ABOVE_AIR
    return (pair.first - pair.second) / excess if excess > 4 * REPEAT else None


def _odds(pair: Pair, pull: float, neighbours: int) -> FedOdds:
    first = OVER if pair.first is None else pair.first
    second = OVER if pair.second is None else pair.second
    excess = max(0.0, first - pair.air - ABOVE_AIR)
    expected = -pull * excess
    noise = hypot(
        OVER_SPREAD if pair.first is None else REPEAT, OVER_SPREAD if pair.second is None else REPEAT
    )
    change = second - first
    only_wet = _log_density(change - expected, hypot(noise, UNLIKE * expected))
    fed = _log_density(change - FED_CHANGE, hypot(noise, FED_SPREAD))
    # as logarithms: far out in both tails the densities themselves are 0
    odds = _share_of(log(PRIOR) + fed, log(1 - PRIOR) + only_wet)
    known = pair.first is not None and pair.second is not None
    return FedOdds(odds, change if known else None, expected, neighbours)


def _log_density(off: float, sigma: float) -> float:
    """Of a normal distribution, without what two of them have in common."""
    return -((off / sigma) ** 2) / 2 - log(sigma)


def _share_of(one: float, other: float) -> float:
    """exp(one) / (exp(one) + exp(other)), 0..1, whatever their size."""
    top = max(one, other)
    mine, rest = exp(one - top), exp(other - top)
    return mine / (mine + rest)
