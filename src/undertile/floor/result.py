"""What the floor answers."""

from __future__ import annotations

from dataclasses import dataclass, field
from fractions import Fraction

from undertile.findings import Check, Finding
from undertile.floor.bed import BedAnswer
from undertile.floor.covering import PatchCover
from undertile.floor.flow import Flow
from undertile.floor.level import LevelAnswer
from undertile.floor.loads import Carried
from undertile.floor.panels import CutList
from undertile.floor.patch import Layout
from undertile.floor.stiffness import JoistAnswer


@dataclass(frozen=True)
class Supplies:
    """Counted for all patches.

    Attributes
    ----------
    screws : tuple of (layer, length, count)
        Length as it prints; count with 10 % to spare.
    blocks, cleats : tuple of (length, count)
        Of two-by lumber. [in]
    later : tuple of (joists, count)
        Blocks measured once the sister of the joists named stands.
    driven : tuple of (layer, count)
        Screws without what is to spare.
    """

    screws: tuple[tuple[str, str, int], ...] = ()
    blocks: tuple[tuple[Fraction, int], ...] = ()
    cleats: tuple[tuple[Fraction, int], ...] = ()
    later: tuple[tuple[tuple[str, ...], int], ...] = ()
    driven: tuple[tuple[str, int], ...] = ()

    def spare(self, layer: str) -> tuple[int, int]:
        """How many screws of a layer are driven, and how many more are to spare."""
        driven = dict(self.driven).get(layer, 0)
        return driven, sum(count for name, _, count in self.screws if name == layer) - driven


@dataclass(frozen=True)
class FloorResult:
    """The whole answer.

    Attributes
    ----------
    runs : str
        Which way the joists run.
    loads : Carried
    joists : tuple of JoistAnswer
        In the order they stand.
    floor_checks : tuple of Check
        Of notches, holes, bearings, the panel, the patch, the bed and the floor under the pan.
    layouts : tuple of Layout
    cut_lists : tuple of CutList
    supplies : Supplies
    level : LevelAnswer
    flow : Flow
    bed : BedAnswer or None
    findings : tuple of Finding
    covers : PatchCover or None
        Whether the patches may be laid; None where there is none, or nobody speaks of water.
    """

    runs: str
    loads: Carried
    joists: tuple[JoistAnswer, ...] = ()
    floor_checks: tuple[Check, ...] = ()
    layouts: tuple[Layout, ...] = ()
    cut_lists: tuple[CutList, ...] = ()
    supplies: Supplies = field(default_factory=Supplies)
    level: LevelAnswer = field(default_factory=LevelAnswer)
    flow: Flow = field(default_factory=Flow)
    bed: BedAnswer | None = None
    findings: tuple[Finding, ...] = ()
    covers: PatchCover | None = None

    @property
    def checks(self) -> tuple[Check, ...]:
        """Every check, the joists' first."""
        return (*(check for each in self.joists for check in each.checks), *self.floor_checks)

    @property
    def empty(self) -> bool:
        """Whether nothing of the floor is known yet."""
        return not (self.joists or self.layouts or self.level.checks or self.bed or self.floor_checks)
