"""What counts of the holes of one reading: each is judged as it would be alone; 0 is no reading of wood.

Two numbers typed side by side speak for nothing drier than each would alone: ``1/2`` is two holes that no
wood fills, not one that agrees with the other.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from undertile.findings import Finding, Severity
from undertile.sentence import Sentence
from undertile.wood.chip import DRIEST
from undertile.wood.facts import Meter
from undertile.wood.say import moisture, past, some_of
from undertile.wood.slip import Slip, slip
from undertile.wood.typed import Shown

SOURCE = "wood-handbook-emc"
TYPE_UNDER = Sentence(
    "Read it again and correct it, or type under if the meter shows nothing; until then it is not used."
)


@dataclass(frozen=True)
class Kept:
    """What is asked of a reading.

    Attributes
    ----------
    hole : float or None
        The largest that is asked about; None = nothing is. [percent]
    slip : Slip or None
        Where its decimal point may be in the wrong place; None = it is under what wood holds in any room.
    used : bool
        Whether the reading counts: its largest hole, which counts, is not asked about, or asked as too wet.
    """

    hole: float | None = None
    slip: Slip | None = None
    used: bool = True

    @property
    def nothing(self) -> bool:
        """Whether what is asked about is no reading of wood at all."""
        return self.hole is not None and self.slip is None


def holes_of(
    values: Sequence[float],
    meter: Meter,
    before: float | None,
    visit: Sequence[float],
    others: Sequence[float],
) -> Kept:
    """What is asked of the holes of one reading.

    Parameters
    ----------
    values : sequence of float
        As shown, one for each pair of pin holes. [percent]
    meter, before, visit, others
        As `slip`.

    Returns
    -------
    Kept
        Under ``DRIEST`` no wood is in any room, whatever the meter is said to tell, and however often.
    """
    worst = max(values)
    found = slip(values, meter, before, visit, others)
    if found is not None and found.way == "wet":
        return Kept(worst, found)  # of two so wet the wetter one counts anyway: one may speak for the other
    for hole in sorted(values, reverse=True):
        found = slip([hole], meter, before, visit, others)
        if found is not None and found.way == "dry":
            return Kept(hole, found, used=hole != worst)
        if hole < DRIEST:
            return Kept(hole, used=hole != worst)
    return Kept()


def nothing_read(where: str, visit: str, shown: float) -> Finding:
    """What is said of a number that is no reading of wood: 0 is what a meter shows of none."""
    least = Sentence("{least} or more: wood holds as much in the driest room", least=moisture(DRIEST))
    at = Sentence("{where}, visit {visit}", where=where, visit=visit)
    slots = {"shown": f"{shown:g}"}
    return Finding("reading-nothing", Severity.ACT, at, least, moisture(shown), TYPE_UNDER, SOURCE, slots)


@dataclass(frozen=True)
class Outside:
    """A number past what the meter can tell.

    Attributes
    ----------
    where, visit : str
    shown : float
        [percent]
    meter : Meter
    """

    where: str
    visit: str
    shown: float
    meter: Meter

    @property
    def dry(self) -> bool:
        """Whether it is under the range, and not over it."""
        return self.shown < float(self.meter.low)


def outside(values: Shown, meter: Meter) -> bool:
    """Whether what counts of it lies past an end of what the meter can tell."""
    return values.state == "number" and not float(meter.low) <= values.worst <= float(meter.high)


def outside_findings(every: Iterable[Outside]) -> Iterator[Finding]:
    """Numbers past what the meter can tell, in one line for each meter's end.

    Parameters
    ----------
    every : iterable of Outside

    Yields
    ------
    Finding
    """
    groups: dict[tuple[float, float, bool], list[Outside]] = {}
    for each in every:
        key = float(each.meter.low), float(each.meter.high), each.dry
        groups.setdefault(key, []).append(each)
    for (low, high, dry), its in groups.items():
        shown = [each.shown for each in its]
        found: str = moisture(shown[0])
        if len(its) > 1:
            found = Sentence(
                "{number} readings, {low} to {high}",
                number=len(its),
                low=moisture(min(shown)),
                high=moisture(max(shown)),
            )
        if dry:
            found = Sentence(
                "{found}: counts as {end}, not corrected", found=found, end=past("under", low, high)
            )
        do = Sentence("Take it as only dry: it is not corrected, and no date is worked from it.")
        if not dry:
            do = Sentence("Take it as only wet: it is not corrected, and no date is worked from it.")
        at = [Sentence("{where}, visit {visit}", where=each.where, visit=each.visit) for each in its]
        yield Finding(
            "reading-out-of-range",
            Severity.NOTE,
            some_of(at),
            Sentence("what the meter can tell, {low} to {high} percent", low=f"{low:g}", high=f"{high:g}"),
            found,
            do,
            "meter-limits",
            {"shown": f"{max(shown):g}"},
        )
