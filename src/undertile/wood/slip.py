"""A moisture value with its decimal point in the wrong place: 205 or 2.05 for 20.5, asked about on the pad.

Nothing is corrected for anybody. One that would say dry is not used; one that says wet counts as only wet,
for a meter may show more than it can tell: both are said in the verdict and found before anything else.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from statistics import median
from typing import Literal

from undertile.findings import Finding, Severity
from undertile.sentence import Sentence
from undertile.wood.correct import LEAST
from undertile.wood.facts import Meter
from undertile.wood.say import moisture

NEIGHBOURS = 4
"""Places read on a visit, itself among them, that tell what is usual there (ours)."""
NEAR = (0.5, 1.5)
"""What is meant is about what the place read before, or its neighbours: half to 1-1/2 of it (ours)."""


SOURCE = "reading-slip"


@dataclass(frozen=True)
class Slip:
    """A value that may have its decimal point in the wrong place.

    Attributes
    ----------
    way : {"wet", "dry"}
        What it says as typed.
    meant : float
        With the point moved one place. [percent]
    beside : {"range", "before", "neighbours"}
        What tells: the meter's range, its own reading before, the other places of the visit.
    usual : float or None
        What it read before, or the median of the others; None by the meter's range. [percent]
    """

    way: Literal["wet", "dry"]
    meant: float
    beside: Literal["range", "before", "neighbours"]
    usual: float | None = None


def slip(shown: float, meter: Meter, before: float | None, visit: Sequence[float]) -> Slip | None:
    """Whether a value as shown may have its decimal point in the wrong place.

    Parameters
    ----------
    shown : float
        [percent]
    meter : Meter
    before : float or None
        What the place showed last, on the same meter. [percent]
    visit : sequence of float
        What the places showed on the visit. [percent]

    Returns
    -------
    Slip or None
        Past an end of the meter's range where a tenth of it, or ten times it, lies within; within the range
        where its own reading before says so, and for what would say dry the other places too (a soaked place
        among dry ones is nothing odd).
    """
    low, high = float(meter.low), float(meter.high)
    if shown > high and low <= shown / 10 <= high:
        return Slip("wet", shown / 10, "range")
    if 0 < shown < low and low <= shown * 10 <= high:
        return Slip("dry", shown * 10, "range")
    if not low <= shown <= high:
        return None
    if before is not None and not low <= before <= high:
        before = None
    if before is not None and _near(shown / 10, before):
        return Slip("wet", shown / 10, "before", before)
    if shown >= LEAST or shown * 10 > high:
        return None
    if before is not None and _near(shown * 10, before):
        return Slip("dry", shown * 10, "before", before)
    if len(visit) >= NEIGHBOURS and _near(shown * 10, median(visit)):
        return Slip("dry", shown * 10, "neighbours", median(visit))
    return None


def _near(meant: float, usual: float) -> bool:
    return NEAR[0] * usual <= meant <= NEAR[1] * usual


def slipped(where: str, visit: str, shown: float, meter: Meter, found: Slip) -> Finding:
    """What is said of such a value: what it may be meant to be, and what it counts as until then."""
    expected = Sentence("what the meter can tell, {low} to {high} percent", low=meter.low, high=meter.high)
    if found.beside == "before":
        expected = Sentence("about what it read before, {usual}", usual=moisture(found.usual or 0))
    elif found.beside == "neighbours":
        expected = Sentence("about what the other places show, {usual}", usual=moisture(found.usual or 0))
    do = Sentence("Read it again or correct it; until then it is not used.")
    if found.way == "wet":
        do = Sentence("Read it again or correct it; until then it counts as only wet.")
    said = Sentence(
        "{shown}; {meant} with its decimal point moved", shown=moisture(shown), meant=moisture(found.meant)
    )
    return Finding(
        "reading-slipped",
        Severity.ACT,
        Sentence("{where}, visit {visit}", where=where, visit=visit),
        expected,
        said,
        do,
        SOURCE,
        {"shown": f"{shown:g}"},
    )
