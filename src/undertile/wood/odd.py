"""Readings that wood does not give between two visits: asked about while their reader still stands there.

Nothing is refused: a reading asked about counts like any other until it is read again.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from undertile.wood.history import Sample, Series

JUMP = 5.0
"""A rise between two visits that is asked about: far over the meter's own error of 2, and wood that dries
does not rise (ours, no source). [percent]"""
DROP = 8.0
"""A fall that is asked about (ours, no source): of two visits a day apart, over ``DROP_A_DAY``. [percent]"""
DROP_A_DAY = 6.0
"""Simulated slabs of 3/4 in and more never lose as much (tests/wood/test_odd.py); thinner panels may, so it
is asked and not said to be wrong (ours, no source). [percent a day]"""


@dataclass(frozen=True)
class Odd:
    """A reading that is asked about.

    Attributes
    ----------
    code : {"rose", "fell"}
    by : float
        Rise or fall since the visit before, as shown. [percent]
    visit : str
        The visit before.
    least : bool
        Whether it is that much or more: one of the two readings is past an end of the meter's range.
    """

    code: Literal["rose", "fell"]
    by: float
    visit: str
    least: bool = False


def odd(series: Series, visit: str) -> Odd | None:
    """What is odd about the reading of one point on one visit.

    Parameters
    ----------
    series : Series
    visit : str
        Its name.

    Returns
    -------
    Odd or None
        None where nothing is, nothing is read, no number was read before, or its face is said to be wet.
    """
    at = next((n for n, each in enumerate(series.samples) if each.round.name == visit), None)
    if at is None or not _shows(series.samples[at]) or series.samples[at].surface == "wet":
        return None
    now = series.samples[at]
    before = next((each for each in reversed(series.samples[:at]) if _shows(each)), None)
    if before is None or before.surface == "wet" or before.round.facts.meter != now.round.facts.meter:
        return None  # another meter or a wet face explains a step
    by = _number(now) - _number(before)
    least = now.shown.state != "number" or before.shown.state != "number"
    if by >= JUMP:
        return Odd("rose", by, before.round.name, least)
    days = max(now.day - before.day, 0.0)
    if -by >= DROP and -by > DROP_A_DAY * days:
        return Odd("fell", by, before.round.name, least)
    return None


def _shows(sample: Sample) -> bool:
    return sample.shown.state in ("number", "over", "under")


def _number(sample: Sample) -> float:
    """As shown; past an end of the range, that end. [percent]"""
    if sample.shown.state == "number":
        return sample.shown.worst
    return float(sample.round.meter.high if sample.shown.state == "over" else sample.round.meter.low)
