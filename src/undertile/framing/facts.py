"""What the studs are, what stands in the way, what is on the van, and what the person holds.

Unknown is the cautious case (convention 4.5): an unknown stud is bearing, unknown stuff is not planed,
an unknown bay may hold wires. ``None`` in a stud means "as its wall says".
"""

from __future__ import annotations

from decimal import Decimal
from typing import Literal

from pydantic import Field

from undertile.bounds import Lean, Offset, OnceMeasured, Place, Size, Spare, Window
from undertile.lengths import ReadingField
from undertile.survey.facts import Facts, Reading, WallName
from undertile.wood.typed import DayOrNothing

Kind = Literal["wood", "steel", "treated", "engineered", "batten", "unknown"]
YesNo = Literal["yes", "no", "unknown"]
Bay = Literal["clear", "pipe", "wire", "unknown"]
Family = Literal["leave", "plane", "strip", "taper", "wet bed", "sister", "replace", "knock over", "channel"]


class Hole(Facts):
    """A bored hole in a stud: where, how wide, and how far its edge is from the face."""

    height: Place
    diameter: Size
    edge: Place = Field(description="from the hole's edge to the stud's face as it is now")


class Service(Facts):
    """A pipe or cable in or beside a stud."""

    height: Place
    clear: Place = Field(description="from the pipe or cable to the stud's face as it is now")
    what: Literal["pipe", "wire"] = "pipe"
    plated: bool = False


class Hold(Facts):
    """What a person has decided, with the reason (convention 4.6)."""

    treatment: Family
    reason: str = Field(min_length=1)


class Stud(Facts):
    """What one stud is; ``None`` = as the wall says."""

    kind: Kind | None = None
    bearing: YesNo | None = None
    bay: Bay | None = None
    fixed: bool | None = Field(default=None, description="may not be opened, sistered, replaced or moved")
    free_behind: YesNo | None = Field(
        default=None, description="free side behind: a foot may be knocked over"
    )
    depth: OnceMeasured | None = Field(default=None, description="actual depth, face to back")
    read_on: DayOrNothing = Field(
        default="",
        description="the day its face was read, where its wood was wet; left out = as the record has it",
    )
    notch: Spare | None = Field(default=None, description="depth of a notch already in the face")
    brace: bool = Field(default=False, description="a let-in brace crosses the face: never cut")
    soft: bool = Field(default=False, description="decayed: must be replaced or sistered (stop)")
    holes: dict[str, Hole] = Field(default_factory=dict)
    services: dict[str, Service] = Field(default_factory=dict)
    hold: Hold | None = None


class PlaneHold(Facts):
    """A plane put where the person wants it; parts left out stay free."""

    offset: Offset | None = Field(default=None, description="plus = toward the room, at along 0, height 0")
    skew: Lean | None = Field(default=None, description="over the wall's read length; plus: far end in")
    lean: Lean | None = Field(default=None, description="over 8 ft of height; plus: top in")
    reason: str = Field(min_length=1)

    @property
    def holds(self) -> bool:
        """Whether anything of the plane is held; a reason alone holds nothing."""
        return (self.offset, self.skew, self.lean) != (None, None, None)


class WallWork(Facts):
    """What holds for a whole wall unless a stud says otherwise."""

    kind: Kind = "unknown"
    bearing: YesNo = "unknown"
    bay: Bay = "unknown"
    fixed: bool = False
    free_behind: YesNo = "unknown"
    depth: OnceMeasured | None = None
    wood_allowed: bool = Field(
        default=True, description="false: noncombustible construction (convention 4.7)"
    )
    channel: Literal["off", "offered"] = "off"
    channel_height: Size | None = Field(default=None, description="actual height of the channel")
    wet_bed: bool = False
    plumb_limit: Spare | None = Field(default=None, description="lean allowed over 8 ft; default 1/8")
    hold: PlaneHold | None = None


class SoldLength(Facts):
    """Another full length the same stock is sold in."""

    length: Size
    price: Decimal | None = Field(default=None, ge=0, description="dollars for one; not said = the stock's")
    on_van: int | None = Field(default=None, ge=0, description="full ones on the van; not said = not counted")


class Stock(Facts):
    """Strip stock on the van, by actual thickness."""

    thickness: Size = Field(description="actual, measured")
    price: Decimal = Field(default=Decimal("0"), ge=0, description="dollars a strip")
    wood: bool = True
    card: bool = Field(default=False, description="loose card: never where it can get wet (convention 4.3)")
    length: Size | None = Field(
        default=None, description="full length as it is cut from; not said = 8 ft, loose card 45 in"
    )
    on_van: int | None = Field(default=None, ge=0, description="full ones on the van; not said = not counted")
    offcuts: tuple[Size, ...] = Field(default=(), description="shorter ones on the van, used up first")
    other_lengths: dict[str, SoldLength] = Field(default_factory=dict)


class Saw(Facts):
    """What the saw takes when strips are cut to length."""

    kerf: Spare | None = Field(default=None, description="width of a saw cut; not said = 1/8")
    square_end: Spare | None = Field(
        default=None, description="cut off one end of a full length to square it, kerf and all; not said = 0"
    )


KEEPING_OFF = "nothing is planed or driven so near its middle, every way; not said = 3 in or 75 mm"


class Thing(Facts):
    """Something that stands in front of or near the studs: pipe, hub, vent (convention 1.4)."""

    wall: WallName
    along: Place
    height: Place
    reading: Reading = ""
    what: Literal["supply pipe", "drain or vent", "stack", "other"] = "other"
    movable: bool = False
    minutes: Decimal | None = Field(default=None, ge=0, description="to move it, when movable")
    relief: Spare | None = Field(default=None, description="how far it may stand proud; default 1/16")
    keep_off: Spare | None = Field(default=None, description=KEEPING_OFF)


class Valve(Facts):
    """The mixing valve: where its body datum is and the finish window its sheet prints."""

    wall: WallName
    along: Place
    height: Place
    reading: ReadingField = Field(description="reference line to the body datum the sheet measures from")
    window_low: Window = Field(description="least distance from body datum to finished face")
    window_high: Window
    may_reblock: bool = True
    reblock_reach: Spare | None = Field(
        default=None, description="how far re-blocking can move it either way"
    )
    keep_off: Spare | None = Field(default=None, description=KEEPING_OFF)


class Edge(Facts):
    """A finished edge that continues past the shower: the new board meets it (common practice)."""

    wall: WallName
    along: Place
    readings: dict[str, Reading] = Field(description="reference line to the existing face, by height")
    step_back: Spare | None = Field(
        default=None, description="board face may lie this far back; default 1/32"
    )
    step_proud: Spare | None = Field(default=None, description="... and this far proud; default 0")


class Corner(Facts):
    """Wood there to hold a board's edge at an inside corner, measured along the wall it belongs to."""

    wood: Place = Field(description="from the other wall's nominal plane to the far edge of the corner wood")


class Finish(Facts):
    """What goes on the studs, each in its actual thickness; left out = not shown."""

    board: Size | None = None
    membrane: Spare | None = None
    mortar: Size | None = None
    tile: Size | None = None
    tile_edge: Size | None = Field(default=None, description="longest edge of the tile, actual")
    screw: Size | None = Field(default=None, description="length of the board screw on the van")


class FramingFacts(Facts):
    """Everything known or chosen about the framing."""

    walls: dict[WallName, WallWork] = Field(default_factory=dict)
    studs: dict[str, Stud] = Field(default_factory=dict)
    stock: dict[str, Stock] = Field(default_factory=dict)
    saw: Saw = Field(default_factory=Saw)
    things: dict[str, Thing] = Field(default_factory=dict)
    valve: Valve | None = None
    edges: dict[str, Edge] = Field(default_factory=dict)
    corners: dict[Literal["B-L", "B-R", "L-B", "R-B"], Corner] = Field(
        default_factory=dict, description="B-L: wood of wall B at its L corner, and so on"
    )
    finish: Finish = Field(default_factory=Finish)
    rate: Decimal = Field(default=Decimal("95"), gt=0, description="dollars an hour")
    occupied: bool = Field(default=False, description="occupied house with containment: minutes x 1.5")
    prices: dict[str, Decimal] = Field(
        default_factory=dict, description="minutes or dollars that differ, by name"
    )

    @property
    def held(self) -> bool:
        """Whether a person holds a plane or a stud (convention 4.6)."""
        return any(each.hold is not None and each.hold.holds for each in self.walls.values()) or any(
            each.hold is not None for each in self.studs.values()
        )
