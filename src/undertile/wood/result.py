"""What the water part of the job answers."""

from __future__ import annotations

from dataclasses import dataclass, field
from fractions import Fraction
from typing import Literal

from undertile.findings import Finding
from undertile.wood.closing import CloseDate, past_it
from undertile.wood.equilibrium import DryEnough
from undertile.wood.extent import CutLine, Patch
from undertile.wood.gate import Gate
from undertile.wood.goal import Goal, Reference
from undertile.wood.history import Round, Series
from undertile.wood.leak import Source
from undertile.wood.oddplaces import of_no_stuff
from undertile.wood.shrink import StudShrinkage
from undertile.wood.verdict import PointVerdict


@dataclass(frozen=True)
class WoodResult:
    """The whole answer.

    Attributes
    ----------
    state : str
        ``not begun``: nothing is read, tested or photographed yet; then nothing is asked either. ``read``.
    points : tuple of PointVerdict
        Every point that is no dry reference, in the order they were written.
    references : tuple of Reference
    goals : dict of str to Goal
        By material.
    cuts : tuple of CutLine
        Where to open to, both ways along every piece with a bad point.
    cut_words : tuple of str
        The same in words.
    patches : tuple of Patch
        Of the subfloor, by layer.
    probe : CutLine or None
        The side whose next reading tells most.
    probe_words : str
        The place, and where the line goes either way; "" where no reading would move it.
    close : CloseDate
    air : DryEnough or None
        The air the strictest goal asks for, from the newest air read.
    equipment_days : dict of str to float
    source : Source
    shrinkage : tuple of StudShrinkage
    gate : Gate
    rounds : tuple of Round
    series : tuple of Series
        Dry references among them.
    findings : tuple of Finding
    begun : bool
        Whether anything at all is said of the water: a leak noticed, a test, a photo, a place to read.
    again : str
        The first day on which reading everything again tells something new; "" where nothing is read yet or
        every point is closed.
    width : Fraction or None
        From wall L to wall R, as measured. [in]
    own_past : str
        How far past the last bad spot it is opened, where that is not the usual, with its reason; else "".
    """

    state: Literal["not begun", "read"]
    points: tuple[PointVerdict, ...]
    references: tuple[Reference, ...]
    goals: dict[str, Goal]
    cuts: tuple[CutLine, ...]
    cut_words: tuple[str, ...]
    patches: tuple[Patch, ...]
    probe: CutLine | None
    probe_words: str
    close: CloseDate
    air: DryEnough | None
    equipment_days: dict[str, float]
    source: Source
    shrinkage: tuple[StudShrinkage, ...]
    gate: Gate
    rounds: tuple[Round, ...] = ()
    series: tuple[Series, ...] = ()
    findings: tuple[Finding, ...] = field(default=())
    begun: bool = False
    again: str = ""
    width: Fraction | None = None
    own_past: str = ""

    def past_it(self, today: str) -> str:
        """What to say where the days it may be closed have gone by unread; "" without a clock, or before."""
        newest = max((each.read_on for each in self.points if each.read_on is not None), default=None)
        return past_it(self.close.latest, newest, today)

    @property
    def of_no_stuff(self) -> tuple[Series, ...]:
        """Places that are read and still there, of which nobody said what they are made of."""
        return of_no_stuff(self.series)

    def point(self, name: str) -> PointVerdict | None:
        """One point's verdict, None where there is no such point."""
        return next((each for each in self.points if each.name == name), None)
