"""What is read again after the work, what was laid on the walls, and what was done in how many minutes.

Signs and places as in the survey (convention 1, 2). Nothing here changes a fact of the survey: the first
reading of a stud stays what it was, and what is read again stands beside it.
"""

from __future__ import annotations

from decimal import Decimal
from typing import Literal

from pydantic import Field

from undertile.bounds import Nominal, Place, Size, Spare
from undertile.framing.facts import PlaneHold
from undertile.lengths import LengthField
from undertile.survey.facts import Diagonal, Facts, Reading, Tool, WallName, Width

Way = Literal["up", "along", "across"]


class RereadStud(Facts):
    """One stud read again: at its middle, or at both arrises when twisted (convention 2.3)."""

    readings: dict[str, Reading] = Field(default_factory=dict, description="by height")
    arris: dict[str, Reading] = Field(default_factory=dict, description="the other edge of a twisted stud")


class RereadWall(Facts):
    """One wall read again."""

    nominal: Nominal | None = Field(
        default=None, description="the reading that counts as zero now; left out = as surveyed"
    )
    heights: tuple[LengthField, ...] = Field(
        default=(), description="heights read again; more than before may be"
    )
    studs: dict[str, RereadStud] = Field(default_factory=dict)
    by: str = Field(default="", description="who read this wall, where it was somebody else")
    date: str = Field(default="", description="when, where it was another day")


class Laid(Facts):
    """A straightedge laid on a wall and slid over all of it, or over one stud or height."""

    wall: WallName
    way: Way = Field(description="up the studs, along a height, or across both")
    length: Size = Field(description="of the straightedge, actual")
    gap: Spare = Field(description="the widest gap found, as the feeler that goes; 0 = none goes")
    stud: str = Field(default="", description="only this stud; left out = every stud of the wall")
    height: Place | None = Field(default=None, description="only this height; left out = every height")
    at: str = Field(default="", description="where the widest gap was")


class Done(Facts):
    """The work on one stud is done."""

    did: str = Field(
        default="",
        description="what the plan asked when it was ticked, as the screen keeps it "
        "(`plane; 48: -1/8`); left out = not known what the tick was for",
    )
    minutes: Decimal | None = Field(default=None, ge=0, description="it really took")
    by: str = ""
    date: str = ""


class RecheckFacts(Facts):
    """Everything read again after the work."""

    by: str = Field(default="", description="who read again")
    date: str = Field(default="", description="when")
    instrument: str = Field(default="", description="line and rule used, in words, for the proof")
    tool: Tool = Field(default="rule", description="what the readings were taken with")
    sigma: dict[Tool, LengthField] = Field(
        default_factory=dict, description="standard uncertainty of a tool now; left out = as in the survey"
    )
    feeler: Size | None = Field(
        default=None, description="standard uncertainty of a gap under a straightedge; default 1/64 in"
    )
    walls: dict[WallName, RereadWall] = Field(default_factory=dict)
    widths: dict[str, Width] = Field(default_factory=dict, description="inside widths, wood to wood, now")
    diagonals: dict[str, Diagonal] = Field(default_factory=dict, description="diagonals at the pan, now")
    straightedges: dict[str, Laid] = Field(default_factory=dict)
    planes: dict[WallName, PlaneHold] = Field(
        default_factory=dict,
        description="the plane a wall is judged against, where it was moved since the plan",
    )
    done: dict[str, Done] = Field(default_factory=dict, description="by stud: the planned work is done")
