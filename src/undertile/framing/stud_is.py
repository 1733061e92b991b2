"""One stud with every blank filled from its wall, and what stands in front of it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction

from undertile.framing.facts import (
    Bay,
    FramingFacts,
    Hold,
    Hole,
    Kind,
    Service,
    Stud,
    Thing,
    Valve,
    WallWork,
    YesNo,
)
from undertile.lengths import MM, Unit
from undertile.sentence import Sentence

KEEP_OFF: Mapping[Unit, Fraction] = {"in": Fraction(3), "mm": 75 * MM}
"""Around the middle of a valve or pipe: longer than half a 5 in nail plate (ours, no source). [in]"""


_WITH_ARTICLE = {
    "valve": Sentence("the valve"),
    "supply pipe": Sentence("the supply pipe"),
    "drain or vent": Sentence("the drain or vent"),
    "stack": Sentence("the stack"),
    "other": Sentence("a thing"),
}


@dataclass(frozen=True)
class Standing:
    """A valve, pipe, hub or vent at a stud: from ``low`` to ``high`` nothing is planed. Inches."""

    what: str
    height: Fraction
    low: Fraction
    high: Fraction
    it: Valve | Thing

    @property
    def said(self) -> str:
        """With its article; a thing that nobody named further is just a thing."""
        return _WITH_ARTICLE[self.what]


@dataclass(frozen=True)
class StudIs:
    """One stud with every blank filled from its wall. Lengths in inches."""

    name: str
    kind: Kind = "unknown"
    bearing: YesNo = "unknown"
    bay: Bay = "unknown"
    fixed: bool = False
    free_behind: YesNo = "unknown"
    depth: Fraction | None = None
    notch: Fraction = Fraction(0)
    brace: bool = False
    soft: bool = False
    holes: tuple[tuple[str, Hole], ...] = ()
    services: tuple[tuple[str, Service], ...] = ()
    hold: Hold | None = None
    wood_allowed: bool = True
    wet_bed: bool = False
    standing: tuple[Standing, ...] = ()

    @property
    def bears(self) -> bool:
        """Whether it counts as bearing: yes, or not known."""
        return self.bearing != "no"


def standing_at(facts: FramingFacts, wall: str, along: Fraction, unit: Unit) -> tuple[Standing, ...]:
    """The valve and the things that stand at one stud: no farther beside it than they keep off.

    Parameters
    ----------
    facts : FramingFacts
    wall : str
    along : Fraction
        Of the stud. [in]
    unit : {"in", "mm"}
        The job's, for what keeps off by default.

    Returns
    -------
    tuple of Standing
        The valve first; one that keeps off by 0 stands in nobody's way.
    """
    around: list[tuple[str, Valve | Thing]] = [] if facts.valve is None else [("valve", facts.valve)]
    around += [(thing.what, thing) for thing in facts.things.values()]
    found: list[Standing] = []
    for what, it in around:
        away = KEEP_OFF[unit] if it.keep_off is None else it.keep_off.inches
        if it.wall == wall and away and abs(it.along.inches - along) <= away:
            height = it.height.inches
            found.append(Standing(what, height, max(height - away, Fraction(0)), height + away, it))
    return tuple(found)


def stud_is(
    name: str, stud: Stud | None, work: WallWork | None, standing: tuple[Standing, ...] = ()
) -> StudIs:
    """What one stud is: its own facts, then its wall's, then unknown.

    Parameters
    ----------
    name : str
    stud : Stud or None
    work : WallWork or None
        Of its wall.
    standing : tuple of Standing
        What stands at it (`standing_at`).

    Returns
    -------
    StudIs
    """
    work, stud = work or WallWork(), stud or Stud()
    depth = stud.depth if stud.depth is not None else work.depth
    return StudIs(
        name,
        stud.kind if stud.kind is not None else work.kind,
        stud.bearing if stud.bearing is not None else work.bearing,
        stud.bay if stud.bay is not None else work.bay,
        stud.fixed if stud.fixed is not None else work.fixed,
        stud.free_behind if stud.free_behind is not None else work.free_behind,
        depth.inches if depth is not None else None,
        stud.notch.inches if stud.notch is not None else Fraction(0),
        stud.brace,
        stud.soft,
        tuple(stud.holes.items()),
        tuple(stud.services.items()),
        stud.hold,
        work.wood_allowed,
        work.wet_bed,
        standing,
    )
