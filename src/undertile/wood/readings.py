"""A round, a reading and a point along its rounds: the records that the rooms of the water share."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from undertile.wood.correct import Corrected
from undertile.wood.facts import Meter, Point, Visit
from undertile.wood.places import place_of
from undertile.wood.say import moisture, past
from undertile.wood.slip import Slip
from undertile.wood.typed import Moment, Shown


@dataclass(frozen=True)
class Round:
    """One visit, read.

    Attributes
    ----------
    name : str
    moment : Moment
    facts : Visit
    meter : Meter
    instrument : str
        Its name; "" where nobody said which meter was used.
    air_f, wood_f : float or None
        [deg F]
    humidity : float or None
        Relative, 0..1; None where not read or not possible.
    equilibrium : float or None
        Of wood in this air. [percent]
    """

    name: str
    moment: Moment
    facts: Visit
    meter: Meter
    instrument: str = ""
    air_f: float | None = None
    wood_f: float | None = None
    humidity: float | None = None
    equilibrium: float | None = None


@dataclass(frozen=True)
class Sample:
    """One point on one round.

    Attributes
    ----------
    round : Round
    shown : Shown
    corrected : Corrected or None
        None where no number was shown.
    surface : str
        ``dry``, ``wet`` or "".
    awl : Fraction or None
        [in]
    awl_text : str
        As typed, with its unit.
    pick : str
        ``splinters``, ``snaps`` or "".
    slip : Slip or None
        Where its point may be in the wrong place.
    """

    round: Round
    shown: Shown
    corrected: Corrected | None
    surface: str = ""
    awl: Fraction | None = None
    awl_text: str = ""
    pick: str = ""
    slip: Slip | None = None

    @property
    def day(self) -> float:
        """When. [d]"""
        return self.round.moment.days

    @property
    def value(self) -> float | None:
        """Corrected moisture, or the relative number; over the range counts as its top; None where nothing
        counts, or the wood was too hot or too cold. [percent]"""
        if self.corrected is not None:
            return self.corrected.value if self.corrected.counts else None
        if self.shown.state == "over":
            return float(self.round.meter.high)
        return float(self.round.meter.low) if self.shown.state == "under" else None

    @property
    def over(self) -> bool:
        """Whether it says only wet: over the meter's range, or a number past its end."""
        past_it = self.corrected is not None and self.corrected.scale != "oven" and self._past(high=True)
        return (self.shown.state == "over" and self.corrected is None) or past_it

    @property
    def under(self) -> bool:
        """Whether it says only dry: under the meter's range, or a number past its end."""
        past_it = self.corrected is not None and self.corrected.scale != "oven" and self._past(high=False)
        return (self.shown.state == "under" and self.corrected is None) or past_it

    def _past(self, *, high: bool) -> bool:
        if self.shown.state != "number":
            return False
        meter, shown = self.round.meter, self.shown.worst
        return shown > float(meter.high) if high else shown < float(meter.low)

    @property
    def past(self) -> bool:
        """Whether the meter said only that it is past an end of its range: no measured number."""
        return self.corrected is None and self.shown.state in ("over", "under")

    @property
    def reads(self) -> str:
        """The reading as every face prints it: ``18.5 %``, ``>30 %``, ``<7 %``; "" where there is none."""
        if self.past:
            return past(self.shown.state, float(self.round.meter.low), float(self.round.meter.high))
        return "" if self.corrected is None else moisture(self.corrected.value)

    @property
    def weighed(self) -> bool:
        """Whether it is of a chip, dried in an oven: no meter in it."""
        return self.corrected is not None and self.corrected.scale == "oven"

    @property
    def number(self) -> bool:
        """Whether a number was shown within what the meter can tell."""
        return self.corrected is not None and self.shown.state == "number"


@dataclass(frozen=True)
class Series:
    """One point along the rounds it was read on, oldest first.

    ``strange`` are visits that something is read on and that are none of the job's.
    """

    name: str
    facts: Point
    samples: tuple[Sample, ...]
    layered: bool = False
    strange: tuple[str, ...] = ()

    @property
    def last(self) -> Sample | None:
        """The newest sample that has a value."""
        return next((each for each in reversed(self.samples) if each.value is not None), None)

    @property
    def unused(self) -> Sample | None:
        """The newest sample whose number is kept and not used, where nothing read since counts; else None."""
        for each in reversed(self.samples):
            if each.value is not None:
                return None
            if each.corrected is not None and not each.corrected.counts:
                return each
        return None

    @property
    def where(self) -> str:
        """The place in the room's own words."""
        return place_of(self.name, self.facts, layered=self.layered)


def alike(one: Sample, other: Sample) -> bool:
    """Whether two numbers can be held against each other: of one meter, or both a moisture content."""
    if one.round.instrument == other.round.instrument and one.weighed == other.weighed:
        return True
    return all(
        each.corrected is not None and each.corrected.scale in ("moisture", "oven") for each in (one, other)
    )
