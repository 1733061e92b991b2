"""What is read in the gutted room: walls, studs, readings, and the measurements that check them.

Walls are L, B, R (convention 1.1); ``along`` and stud names follow convention 1.2; signs convention 2.
A reading is the distance from the wall's reference line to the wood; blank is *not measured*, ``x`` is
*cannot reach* (convention 2.6).
"""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import BaseModel, ConfigDict, Field

from undertile.bounds import Nominal, Place, Size
from undertile.lengths import LengthField, ReadingField

WallName = Literal["L", "B", "R"]
NotRead = Literal["", "x"]
Reading = Annotated[
    NotRead | ReadingField, Field(description="reading; blank = not measured, x = cannot reach")
]
Tool = Literal["rule", "tape", "sticks", "laser meter", "level", "laser line"]


class Facts(BaseModel):
    """Base of every table of facts: unknown keys are errors, values are checked when set."""

    model_config = ConfigDict(extra="forbid", frozen=True, arbitrary_types_allowed=True)


class SurveyStud(Facts):
    """One stud as read: at its middle, or at both arrises when twisted (convention 2.3)."""

    along: LengthField = Field(description="center of the stud along the wall")
    readings: dict[str, Reading] = Field(default_factory=dict, description="by height")
    arris: dict[str, Reading] = Field(
        default_factory=dict,
        description="the other edge of a twisted stud, by height; `readings` is then the first edge",
    )


class PlateSpot(Facts):
    """A plate read between studs (convention 1.4)."""

    along: Place
    height: Place
    reading: Reading = ""


class Wall(Facts):
    """One wall: its reference line, the heights read, its studs."""

    nominal: Nominal = Field(description="the reading that counts as offset zero (convention 2.1)")
    heights: tuple[LengthField, ...] = Field(default=(), description="heights read, from the subfloor")
    top: Place | None = Field(default=None, description="underside of the top plate")
    studs: dict[str, SurveyStud] = Field(default_factory=dict)
    plates: dict[str, PlateSpot] = Field(default_factory=dict)


class Width(Facts):
    """Inside width from wall L to wall R, wood to wood, at a depth from wall B and a height."""

    depth: Place
    height: Place
    reading: LengthField
    tool: Tool = "sticks"


class Diagonal(Facts):
    """Wood-to-wood diagonal at a height, from a back corner to the opposite wall at a depth."""

    corner: Literal["BL", "BR"] = Field(description="back corner it starts from: back-left or back-right")
    depth: Place = Field(description="depth of the far end along the opposite side wall")
    height: Place
    reading: LengthField
    tool: Tool = "tape"


class LevelCheck(Facts):
    """A level or plumb bob on a stud: how much prouder the high point is than the low one (plus = proud)."""

    stud: str
    low: Place
    high: Place
    reading: LengthField
    tool: Tool = "level"


class Repeat(Facts):
    """A reading taken again, at least the first point last (common practice)."""

    stud: str
    height: Place
    reading: Reading = ""


class Gap(Facts):
    """Distance from the L reference line to the R reference line at a depth."""

    depth: Place
    reading: LengthField
    tool: Tool = "laser meter"


class Square(Facts):
    """How far a side line is out of square with the back line, over a distance (3-4-5 or a laser square)."""

    wall: Literal["L", "R"]
    over: Size
    out: LengthField = Field(description="plus: the far end stands into the room")
    tool: Tool = "laser line"


class SurveyFacts(Facts):
    """Everything read before the planes are chosen."""

    walls: dict[WallName, Wall] = Field(default_factory=dict)
    widths: dict[str, Width] = Field(default_factory=dict)
    diagonals: dict[str, Diagonal] = Field(default_factory=dict)
    levels: dict[str, LevelCheck] = Field(default_factory=dict)
    repeats: dict[str, Repeat] = Field(default_factory=dict)
    gaps: dict[str, Gap] = Field(default_factory=dict)
    squares: dict[str, Square] = Field(default_factory=dict)
    sigma: dict[Tool, LengthField] = Field(
        default_factory=dict, description="standard uncertainty of a tool, when it is not the default"
    )
