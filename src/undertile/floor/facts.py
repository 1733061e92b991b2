"""The floor that carries the pan: joists as they are, panels, what is bad, the level readings, a mortar bed.

x and y as everywhere (convention 1.1): x along the back wall from the left wall, y out from the back wall.
Both walls are the fixed ones that everything is measured from. Sizes are actual, measured: a nominal 2x10 is
never used as one. Unknown is the cautious case (convention 4.5). ``None`` in a joist means "as all joists".
"""

from __future__ import annotations

from decimal import Decimal
from typing import Literal

from pydantic import Field

from undertile.bounds import OnceMeasured, Place, Size, Spare
from undertile.survey.facts import Facts, Reading
from undertile.wood.typed import DayOrNothing

Run = Literal["out from the back wall", "along the back wall", "unknown"]
Make = Literal["sawn", "engineered", "unknown"]
Species = Literal["douglas fir-larch", "hem-fir", "southern pine", "spruce-pine-fir", "unknown"]
Grade = Literal["select structural", "no 1", "no 2", "no 3", "unknown"]
Side = Literal["top", "bottom", "unknown"]
Tile = Literal["ceramic", "stone", "none", "unknown"]
PanelStuff = Literal["plywood", "osb", "boards", "other", "unknown"]
OnTop = Literal[
    "plywood",
    "osb",
    "cement board",
    "gypsum panel",
    "mortar bed",
    "tile mortar",
    "ceramic tile",
    "stone tile",
    "levelling compound",
    "other",
]


class JoistNotch(Facts):
    """A notch in a joist."""

    start: Place = Field(description="from the first bearing's inside face to the notch's nearer edge")
    length: Size = Field(description="along the joist")
    depth: Size
    side: Side = Field(default="unknown", description="not said = neither is counted on")
    over_bearing: bool = Field(default=False, description="cut over the bearing itself, at the joist's end")


class JoistHole(Facts):
    """A hole bored through a joist."""

    at: Place = Field(description="from the first bearing's inside face to the hole's center")
    diameter: Size
    top: Place = Field(description="from the hole's upper edge to the joist's top")


class Soft(Facts):
    """A place where the awl sinks: decayed."""

    start: Place = Field(description="from the first bearing's inside face; 0 = it reaches the bearing")
    length: Size = Field(description="along the joist")
    depth: Spare | None = Field(default=None, description="how deep it is soft; not said = not probed")
    side: Side = Field(default="unknown", description="not said = no cut is laid on it")
    at_bearing: bool = Field(default=False, description="it reaches onto a bearing, the first or the far one")


Beside = Literal["toward the wall", "away from the wall", "unknown"]


class Sister(Facts):
    """A joist that stands, or will stand, fastened beside this one."""

    width: OnceMeasured = Field(description="actual thickness")
    depth: OnceMeasured = Field(description="actual depth")
    species: Species = "unknown"
    grade: Grade = "unknown"
    start: Place | None = Field(default=None, description="from the first bearing's inside face; none = 0")
    length: Size | None = Field(default=None, description="not said = from bearing to bearing")
    side: Beside = Field(
        default="unknown", description="of the joist, seen from the wall that it is measured from"
    )
    fastened: DayOrNothing = Field(default="", description="the day; not said = it does not stand yet")


class Engineered(Facts):
    """An engineer's word on a joist: whether it carries, by whom and when, all three."""

    carries: Literal["unknown", "yes", "no"] = Field(
        default="unknown", description="whether it carries, as it is or as mended; not said lifts nothing"
    )
    by: str = Field(default="", description="the engineer's name")
    when: DayOrNothing = ""
    says: str = Field(default="", description="what was said, or where it is written")


class JoistStuff(Facts):
    """What holds for all joists unless one says otherwise."""

    make: Make = "unknown"
    width: OnceMeasured | None = Field(default=None, description="actual thickness")
    depth: OnceMeasured | None = Field(default=None, description="actual depth, top to bottom")
    species: Species = "unknown"
    grade: Grade = "unknown"
    span: Size | None = Field(default=None, description="clear, from bearing's inside face to inside face")
    spacing: Size | None = Field(
        default=None, description="center to center, where neighbors are not measured"
    )
    bearing_on: Literal["wood or metal", "masonry", "unknown"] = "unknown"
    bearing: OnceMeasured | None = Field(default=None, description="length of joist that rests on it")


class Joist(Facts):
    """One joist; ``None`` = as all joists."""

    at: Place = Field(
        description="its center, from the left wall where joists run out from the back wall, from the back "
        "wall where they run along it"
    )
    make: Make | None = None
    width: OnceMeasured | None = None
    depth: OnceMeasured | None = None
    species: Species | None = None
    grade: Grade | None = None
    span: Size | None = None
    bearing: OnceMeasured | None = None
    notches: dict[str, JoistNotch] = Field(default_factory=dict)
    holes: dict[str, JoistHole] = Field(default_factory=dict)
    soft: dict[str, Soft] = Field(default_factory=dict)
    sister: Sister | None = None
    engineer: Engineered | None = Field(default=None, description="who says that it carries, and when")


class Layer(Facts):
    """Something that goes on top of the subfloor, in its actual thickness."""

    what: OnTop
    thickness: Size
    weight: Decimal | None = Field(
        default=None, ge=0, description="lb a sq ft as its sheet has it; not said = thickness x usual weight"
    )


class Loads(Facts):
    """What the floor carries; left out = the usual figure."""

    live: Decimal | None = Field(default=None, ge=0, description="lb a sq ft; not said = 40")
    base: Decimal | None = Field(
        default=None,
        ge=0,
        description="joists, subfloor and ceiling below, lb a sq ft; not said = 10",
    )
    point: Decimal | None = Field(
        default=None, ge=0, description="on one spot between joists, lb; not said = 300"
    )
    on_top: dict[str, Layer] = Field(default_factory=dict, description="bed, board, mortar, tile as planned")
    judged_under: Literal["live and dead", "live"] = Field(
        default="live and dead", description="what the tile's limit is held against"
    )
    reason: str = Field(default="", description="why less than the usual figures; without it those count")


class SubLayer(Facts):
    """One layer of the subfloor as it is, by calipers."""

    thickness: OnceMeasured | None = Field(default=None, description="actual, by calipers at a cut edge")
    stuff: PanelStuff = "unknown"


class PanelOffcut(Facts):
    """A piece of panel left over."""

    length: Size = Field(description="along its strong axis")
    width: Size


class Panel(Facts):
    """Panels to cut the patch from, measured."""

    thickness: OnceMeasured = Field(description="actual, by calipers")
    stuff: PanelStuff = "unknown"
    length: Size | None = Field(
        default=None, description="along the strong axis; not said = 96 in, in mm asked for"
    )
    width: Size | None = Field(default=None, description="not said = 48 in, in mm asked for")
    on_van: int | None = Field(default=None, ge=0, description="whole ones; not said = as many as needed")
    price: Decimal = Field(default=Decimal("0"), ge=0, description="dollars for one")
    offcuts: dict[str, PanelOffcut] = Field(default_factory=dict, description="used up first")


class Bad(Facts):
    """A stretch of floor to be cut out, past the last bad point already."""

    left: Place = Field(description="from the left wall")
    right: Place = Field(description="from the left wall")
    back: Place = Field(description="from the back wall")
    front: Place = Field(description="from the back wall")


class Patch(Facts):
    """How the bad floor is cut out and made good."""

    bad: dict[str, Bad] = Field(default_factory=dict)
    width: Size | None = Field(default=None, description="from the left wall to where the floor ends")
    depth: Size | None = Field(default=None, description="from the back wall to where the floor ends")
    lower: SubLayer = Field(default_factory=SubLayer, description="the layer on the joists")
    upper: SubLayer | None = Field(
        default=None, description="a second layer; left out = there is one layer only"
    )
    panels: dict[str, Panel] = Field(default_factory=dict)
    edges: Literal["joist centres", "cleats"] = Field(
        default="joist centres", description="where cuts along the joists go"
    )
    gap: Spare | None = Field(default=None, description="between panels; not said = 1/8")
    offset: Size | None = Field(default=None, description="second layer's seams off the first's; none = 6")
    kerf: Spare | None = Field(default=None, description="width of a saw cut; not said = 1/8")
    screw_edge: Size | None = Field(default=None, description="apart at edges; not said = 6")
    screw_field: Size | None = Field(default=None, description="apart in the field; not said = 8")
    tongue: bool = Field(default=False, description="panels have tongue and groove along their long edges")
    reason: str = Field(default="", description="why gap, seams or screws are looser; without it ours count")


class Spot(Facts):
    """A place of the floor read from the level line."""

    x: Place
    y: Place
    reading: Reading = ""
    on_new: Reading = Field(
        default="", description="read again on the new panel, once the patch is laid; counts before reading"
    )


class LevelMinutes(Facts):
    """Minutes of the work; left out = ours."""

    off_setup: Decimal | None = Field(default=None, ge=0, description="once, if anything is taken off")
    off_place: Decimal | None = Field(default=None, ge=0, description="a place taken off")
    off_step: Decimal | None = Field(default=None, ge=0, description="each 1/16 begun, taken off")
    fill_setup: Decimal | None = Field(default=None, ge=0, description="once, if anything is filled")
    fill_place: Decimal | None = Field(default=None, ge=0, description="a place filled")
    fill_step: Decimal | None = Field(default=None, ge=0, description="each 1/16 begun, filled")


class Level(Facts):
    """The floor under the pan, read on a grid from the level line down."""

    line: Place | None = Field(default=None, description="the level line above the subfloor (convention 1.3)")
    line_at: str = Field(default="", description="the spot whose floor the line was measured from")
    spots: dict[str, Spot] = Field(default_factory=dict)
    left: Place | None = Field(default=None, description="the pan's footprint; not said = 0")
    right: Size | None = Field(default=None, description="not said = left plus the pan's width")
    back: Place | None = Field(default=None, description="not said = 0")
    front: Size | None = Field(default=None, description="not said = back plus the pan's depth")
    limit: Spare | None = Field(default=None, description="highest to lowest under the pan; not said = 1/8")
    slope: Spare | None = Field(
        default=None, description="fall the pan's sheet allows, in a foot, any way; not said = level"
    )
    surface: Literal["wood", "concrete", "unknown"] = "unknown"
    most_off: Spare | None = Field(default=None, description="most taken off; none = 1/16, concrete 1/4")
    most_fill: Spare | None = Field(default=None, description="most filled; not said = 1/2")
    grid: Size | None = Field(default=None, description="readings no farther apart; not said = 12")
    sigma: Spare | None = Field(default=None, description="standard uncertainty of a reading; none = 1/32")
    reason: str = Field(default="", description="why looser than the usual: the pan's sheet; else ours count")
    minutes: LevelMinutes = Field(default_factory=LevelMinutes)


class Bed(Facts):
    """A sloped mortar bed for a base built on site, in place of a pan."""

    width: Size = Field(description="inside, along the back wall")
    depth: Size = Field(description="inside, out from the back wall")
    drain_x: Place = Field(description="drain's center from the left side")
    drain_y: Place = Field(description="drain's center from the back")
    slope: Spare | None = Field(default=None, description="rise in a foot on the longest run; not said = 1/4")
    steepest: Spare | None = Field(default=None, description="on any run; not said = 1/2 in a foot")
    at_drain: Size | None = Field(default=None, description="pre-slope's thickness at the drain; none = 1/2")
    top: Spare | None = Field(default=None, description="even bed over the liner; not said = 1-1/4, 0 = none")
    bag: Decimal | None = Field(default=None, gt=0, description="cu ft a bag gives, its label; none = 0.45")
    bag_weight: Decimal | None = Field(default=None, gt=0, description="lb in a bag; not said = 60")
    density: Decimal | None = Field(default=None, gt=0, description="lb a cu ft in place; not said = 125")
    reason: str = Field(default="", description="why its slopes may be other than 1/4 to 1/2 in a foot")


class CutLimits(Facts):
    """What may be cut out of a sawn joist, where the code in force differs from IRC R502.8.1."""

    notch_depth: int = Field(default=6, ge=1, description="one part in so many of the joist's depth")
    notch_length: int = Field(default=3, ge=1, description="one part in so many of the joist's depth")
    end_notch: int = Field(default=4, ge=1, description="one part in so many of the joist's depth")
    hole: int = Field(default=3, ge=1, description="one part in so many of the joist's depth")
    keep: Spare | None = Field(default=None, description="wood left around a hole; not said = 2 in")
    edition: str = Field(default="IRC R502.8.1, 2015 to 2021 text", description="section and edition")
    reason: str = Field(default="", description="why they differ; looser ones without it do not count")


class FloorFacts(Facts):
    """Everything measured or chosen about the floor."""

    joists_run: Run = "unknown"
    joists: dict[str, Joist] = Field(default_factory=dict)
    all_joists: JoistStuff = Field(default_factory=JoistStuff)
    sister_stock: Sister | None = Field(
        default=None, description="what a sister would be cut from; not said = the joist's own size, unknown"
    )
    cut_limits: CutLimits = Field(default_factory=CutLimits)
    tile: Tile = "unknown"
    loads: Loads = Field(default_factory=Loads)
    patch: Patch = Field(default_factory=Patch)
    level: Level = Field(default_factory=Level)
    bed: Bed | None = None
