"""A moisture value with its decimal point in the wrong place: 205 or 2.05 for 20.5, asked about on the pad.

Nothing is corrected for anybody. One that would say dry is not used until another visit agrees with it: wood
does dry that far between two visits, and then it says so twice. One that says wet
counts as only wet, and only a number that no wood in a wall shows is asked about: a place soaked overnight
looks like a slip, and telling a leak as one is the worse mistake. What was a lead to a leak stays one.
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
"""Places read on a visit, itself among them, that tell what is usual there (ours). References are not among
them, nor held against them: they are dry because nothing wetted them."""
DRIEST = 5.0
"""Under this the other places of the visit tell too: wood comes to it in air of a quarter humidity, drier
than a room is left to be (Wood Handbook, table 4-2, 70 F). [percent]"""
WETTEST = 100.0
"""A pin meter's number over this is none that it shows for wood in a wall (common practice, no source).
[percent]"""
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


def slip(
    holes: Sequence[float],
    meter: Meter,
    before: float | None,
    visit: Sequence[float],
    others: Sequence[float] = (),
) -> Slip | None:
    """Whether a value as shown may have its decimal point in the wrong place.

    Parameters
    ----------
    holes : sequence of float
        As shown, one for each pair of pin holes. [percent]
    meter : Meter
    before : float or None
        What the place showed last, on the same meter. [percent]
    visit : sequence of float
        What the places showed on the visit; empty for a dry reference. [percent]
    others : sequence of float, optional
        What the place showed on the visits next to this one: one that agrees speaks for it. [percent]

    Returns
    -------
    Slip or None
        Over what wood in a wall shows where a tenth of it lies within the meter's range; under what a meter
        tells where ten times it does, and its own reading before, the other places or, where there is
        neither, the range says so. What is meant always lies within the range.
    """
    low, high = float(meter.low), float(meter.high)
    shown = max(holes)
    if any(_near(each, shown) for each in (*sorted(holes)[:-1], *others)):
        return None
    if shown > WETTEST:
        return Slip("wet", shown / 10, "range") if low <= shown / 10 <= high else None
    if not 0 < shown < LEAST or not low <= shown * 10 <= high:
        return None
    if before is not None:
        return Slip("dry", shown * 10, "before", before) if _near(shown * 10, before) else None
    if len(visit) >= NEIGHBOURS:
        usual = median(visit)
        told = shown < DRIEST and _near(shown * 10, usual)
        return Slip("dry", shown * 10, "neighbours", usual) if told else None
    return Slip("dry", shown * 10, "range") if shown < min(low, DRIEST) else None


def _near(meant: float, usual: float) -> bool:
    return NEAR[0] * usual <= meant <= NEAR[1] * usual


def slipped(where: str, visit: str, shown: float, meter: Meter, found: Slip) -> Finding:
    """What is said of such a value: what it may be meant to be, and what it counts as until then."""
    expected = Sentence("what the meter can tell, {low} to {high} percent", low=meter.low, high=meter.high)
    if found.beside == "before":
        expected = Sentence("about what it read before, {usual}", usual=moisture(found.usual or 0))
    elif found.beside == "neighbours":
        expected = Sentence("about what the other places show, {usual}", usual=moisture(found.usual or 0))
    do = Sentence("Correct it or read it again; it is not used until another visit agrees.")
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
