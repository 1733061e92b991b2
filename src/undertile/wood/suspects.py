"""Which points may still be fed: the newest two rounds, each point against its neighbours of one stuff."""

from __future__ import annotations

from collections.abc import Sequence

from undertile.wood.fed import FedOdds, Pair, fed_odds
from undertile.wood.history import Round, Sample, Series, alike

POSSIBLY = 0.5
"""Odds from which a point is said to be possibly fed."""
AS_LIKELY = 5.0
"""Points at least so far over the air's equilibrium on the first of the two rounds are wet. [percent]"""
SOON, LATE = 0.4, 8.0
"""Rounds closer or further apart say nothing of it. [d]"""


def suspects(
    series: Sequence[Series], rounds: Sequence[Round], air: dict[str, float]
) -> tuple[dict[str, FedOdds], tuple[str, str] | None]:
    """Odds of every wet point, from its newest two rounds.

    Parameters
    ----------
    series : sequence of Series
        Without the dry references.
    rounds : sequence of Round
    air : dict of str to float
        By round. [percent]

    Returns
    -------
    odds : dict of str to FedOdds
        By point.
    rounds : tuple of str, or None
        The two rounds, by name; None where there are no two.
    """
    if len(rounds) < 2 or not air:
        return {}, None
    before, now = rounds[-2], rounds[-1]
    days = now.moment.days - before.moment.days
    if not SOON <= days <= LATE:
        return {}, (before.name, now.name)
    held = (air[before.name] + air[now.name]) / 2
    groups: dict[tuple[str, str], list[Pair]] = {}
    for each in series:
        on = {sample.round.name: sample for sample in each.samples}
        first, second = on.get(before.name), on.get(now.name)
        if each.facts.out or first is None or second is None:
            continue
        pair = _pair(each.name, first, second, held) if alike(first, second) else None
        if pair is not None and (pair.first is None or pair.first > held + AS_LIKELY):
            groups.setdefault((each.facts.material, each.facts.open_faces), []).append(pair)
    odds: dict[str, FedOdds] = {}
    for pairs in groups.values():
        odds |= fed_odds(pairs, days)
    return odds, (before.name, now.name)


def _pair(name: str, first: Sample, second: Sample, air: float) -> Pair | None:
    """Both readings; None where one says nothing (not read, a wet face, under the range)."""
    values: list[float | None] = []
    for sample in (first, second):
        if sample.over:
            values.append(None)
        elif sample.value is None or sample.surface == "wet" or sample.under or _doubted(sample):
            return None
        else:
            values.append(sample.value)
    return Pair(name, values[0], values[1], air)


def _doubted(sample: Sample) -> bool:
    return sample.corrected is not None and sample.corrected.doubted
