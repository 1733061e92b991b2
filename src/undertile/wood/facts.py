"""What is read and done between opening the wall and closing it: moisture, leak tests, photos, inspection.

A *visit* is one round of readings on one day; a *point* is one place in the wood, read on every visit in the
same holes. What the meter shows is kept as typed, under the visit's name; a blank is *not measured*, ``x`` is
*cannot reach* (convention 2.6). Places as everywhere (convention 1).
"""

from __future__ import annotations

from decimal import Decimal
from typing import Literal

from pydantic import Field

from undertile.bounds import Place, Size, Spare
from undertile.survey.facts import Facts, WallName
from undertile.wood.species import Species
from undertile.wood.typed import Begun, Day, DayOrNothing, MeterShows, Temperature

Member = Literal["plate", "stud", "joist", "subfloor", "other"]
Material = Literal["lumber", "treated", "plywood", "OSB", "other panel", "unknown"]
YesNo = Literal["yes", "no", "unknown"]
Surface = Literal["wall L", "wall B", "wall R", "floor"]
Candidate = Literal[
    "supply", "riser", "drain", "pan", "enclosure", "roof or window", "condensation", "neighbour"
]
"""Where water can come from: pipes under pressure; the pipe from the valve to the head, wet only in use; the
drain below the strainer; pan or liner up to the curb; walls, corners and door above it; and from outside."""
Zone = Literal["curb", "corners", "lower walls", "valve", "upper walls", "door", "window"]

OF_THE_WOOD = "of the wood at the pins, 55 F or 13 C; left out = as the visit says"


class Meter(Facts):
    """A moisture meter."""

    kind: Literal["unknown", "pin", "pad"] = Field(
        default="unknown",
        description="pins driven in, or a pad laid on; not said, read as pins and nothing closes by it",
    )
    model: str = ""
    set_to: Species = Field(
        default="unknown", description="species its scale is set to; not said, nothing closes by it"
    )
    low: Decimal = Field(default=Decimal(7), ge=0, le=30, description="least it can tell, percent")
    high: Decimal = Field(default=Decimal(30), ge=15, le=100, description="most it can tell, percent")
    give_or_take: Decimal = Field(default=Decimal(2), gt=0, le=10, description="its own error, percent")
    compensates: bool = Field(default=False, description="corrects for the wood's temperature itself")


class Visit(Facts):
    """One round of readings."""

    when: Day
    by: str = ""
    meter: str = Field(default="", description="name of a meter; left out = the only one")
    air: Temperature = Field(default="", description="room air, 70 F or 21 C")
    humidity: Decimal | None = Field(default=None, description="relative, of the room air, percent")
    wood: Temperature = Field(default="", description="temperature of the wood where a point says none")
    supply: Literal["on", "off", "unknown"] = Field(
        default="unknown", description="water supply since the visit before: under pressure or off"
    )
    shower: Literal["used", "not used", "unknown"] = Field(
        default="unknown", description="this shower since the visit before"
    )
    rain: YesNo = Field(default="unknown", description="rain since the visit before")


class Chip(Facts):
    """A chip of the wood, weighed, dried at 103 C for 24 h, weighed again."""

    wet: Decimal = Field(gt=0, description="grams as cut")
    dry: Decimal = Field(gt=0, description="grams oven-dry")


class Point(Facts):
    """One place in the wood."""

    member: Member
    wall: WallName | None = Field(default=None, description="the wall it is in")
    name: str = Field(default="", description="the stud or joist it is in: B2")
    along: Place | None = Field(default=None, description="along the wall (plate), or along the joist")
    height: Place | None = Field(default=None, description="up a stud, from the subfloor")
    x: Place | None = Field(default=None, description="subfloor: from wall L along the back wall")
    y: Place | None = Field(default=None, description="subfloor: out from wall B")
    layer: int = Field(default=1, ge=1, le=6, description="subfloor: 1 is the top layer")
    material: Material = "unknown"
    species: Species = "unknown"
    thickness: Size | None = Field(default=None, description="actual, from open face to the other")
    open_faces: Literal["both", "one", "none", "unknown"] = Field(
        default="unknown", description="faces the air reaches; none = sandwiched or under a membrane"
    )
    depth: Spare | None = Field(default=None, description="how deep the pins go")
    bearing: YesNo = "unknown"
    reference: bool = Field(default=False, description="never wetted: what dry is in this house")
    shown: dict[str, MeterShows] = Field(default_factory=dict, description="by visit")
    temperatures: dict[str, Temperature] = Field(default_factory=dict, description=f"by visit: {OF_THE_WOOD}")
    surface: dict[str, Literal["dry", "wet"]] = Field(
        default_factory=dict, description="by visit: the face where the pins go in"
    )
    awl: dict[str, Spare] = Field(
        default_factory=dict, description="by visit: how deep an awl sinks under the thumb; 0 = not at all"
    )
    pick: dict[str, Literal["splinters", "snaps"]] = Field(
        default_factory=dict,
        description="by visit: a sliver lifted with a pick",
    )
    chips: dict[str, Chip] = Field(default_factory=dict, description="by visit: oven-dried")
    swollen: Spare | None = Field(default=None, description="panel: thicker than where it stayed dry, by")
    delaminated: bool = False
    out: DayOrNothing = Field(default="", description="cut out on this day; this wood asks for no more")
    bare: DayOrNothing = Field(
        default="", description="seen on this day: nothing stands there any more since it was cut out"
    )
    bare_by: str = Field(default="", description="who saw that nothing stands there any more")
    new: DayOrNothing = Field(default="", description="new wood, put in on this day for wood cut out here")


class Equipment(Facts):
    """Drying equipment in the room."""

    what: Literal["air mover", "dehumidifier", "heater", "other"]
    count: int = Field(default=1, ge=1, le=99)
    on: Day
    off: DayOrNothing = ""


class Allowed(Facts):
    """Limits of the moisture gate (convention 5.4), where the person has others, with the reason."""

    over_reference: Decimal = Field(
        default=Decimal(4), ge=0, le=10, description="points over the dry reference"
    )
    most: Decimal = Field(default=Decimal(16), gt=0, le=19, description="goal at most, percent")
    never: Decimal = Field(
        default=Decimal(19), gt=0, le=19, description="over it nothing is covered, percent"
    )
    temperature_rule: Literal["half point", "formula"] = "half point"
    read_within: Decimal = Field(
        default=Decimal(14), gt=0, le=365, description="days since a place was read, on the day of covering"
    )
    past_the_last: Size | None = Field(
        default=None, description="sound, dry wood to open past the last bad spot; default 12 in"
    )
    reason: str = Field(default="", description="why these and not the usual ones")


class Dial(Facts):
    """The water meter watched with everything off."""

    when: Begun
    first: Decimal = Field(description="what it showed")
    last: Decimal = Field(description="what it showed in the end")
    minutes: Decimal = Field(gt=0)
    finest: Decimal = Field(gt=0, description="its finest mark, in the same unit")
    unit: Literal["unknown", "gallons", "cubic feet", "litres"] = Field(
        default="unknown", description="what it counts; not said, it excludes nothing"
    )
    by: str = ""


class Pressure(Facts):
    """Pipes shut off and held under pressure with a gauge on them."""

    when: Begun
    of: Literal["unknown", "supply", "riser", "both"] = Field(
        default="unknown",
        description="riser: the head capped and the valve open; not said, it excludes nothing",
    )
    sides: Literal["unknown", "hot", "cold", "both"] = Field(
        default="unknown", description="which of them were held; not said, it excludes nothing"
    )
    medium: Literal["unknown", "water", "air"] = Field(
        default="unknown", description="what the pipes were filled with; not said, it excludes nothing"
    )
    gauge: Literal["unknown", "psi", "bar", "kPa"] = Field(
        default="unknown",
        description="what it reads in; not said: psi in a job in inches, in one in mm it excludes nothing",
    )
    first: Decimal = Field(description="what the gauge showed")
    last: Decimal = Field(description="what it showed in the end")
    minutes: Decimal = Field(gt=0)
    finest: Decimal | None = Field(
        default=None, gt=0, description="the gauge's finest mark; not said, it excludes nothing"
    )
    by: str = ""


class Pour(Facts):
    """Water poured straight into the drain, nothing else getting wet."""

    when: Begun
    gallons: Decimal | None = Field(default=None, gt=0, description="poured in; or litres")
    litres: Decimal | None = Field(default=None, gt=0, description="poured in; or gallons")
    minutes: Decimal = Field(gt=0, description="watched from below")
    below: Literal["dry", "wet", "not watched", "slab"] = Field(description="slab: nothing to look at below")
    after: Decimal | None = Field(default=None, ge=0, description="minutes until it showed")
    place: str = Field(default="", description="where it showed")
    by: str = ""


class Fill(Facts):
    """The drain plugged, water standing in the pan, a bowl of water beside it."""

    when: Begun
    plug: Literal["at the strainer", "below the joint", "past the trap"] = Field(
        default="at the strainer",
        description="below the joint the drain's own joint stands under water too, past the trap all of it",
    )
    drop: Spare = Field(description="how far the water in the pan fell")
    bowl: Spare | None = Field(default=None, description="how far the water in the bowl fell")
    hours: Decimal = Field(gt=0)
    below: Literal["dry", "wet", "not watched", "slab"] = Field(description="slab: nothing to look at below")
    place: str = Field(default="", description="where it showed")
    by: str = ""


class Spray(Facts):
    """One zone sprayed, from the lowest up."""

    when: Begun
    zone: Zone
    minutes: Decimal = Field(gt=0)
    shows: Literal["dry", "wet", "not watched"]
    after: Decimal | None = Field(default=None, ge=0, description="minutes until water showed")
    place: str = Field(default="", description="where it showed")
    drain: Literal["plugged", "open"] = Field(
        default="open", description="open: water also ran down the drain"
    )
    by: str = ""


class Outside(Facts):
    """The outside wall, window or roof above it wetted with a hose."""

    when: Begun
    minutes: Decimal = Field(gt=0)
    shows: Literal["dry", "wet", "not watched"]
    after: Decimal | None = Field(default=None, ge=0)
    place: str = ""
    by: str = ""


class Cold(Facts):
    """The coldest surface near the wet place against the room's air."""

    when: Begun
    surface: Temperature = Field(description="of the coldest surface")
    air: Temperature
    humidity: Decimal = Field(description="relative, percent")
    by: str = ""


class NextDoor(Facts):
    """The neighbor's water run while this side is watched."""

    when: Begun
    minutes: Decimal = Field(gt=0)
    shows: Literal["dry", "wet", "not watched"]
    place: str = ""
    by: str = ""


class Mended(Facts):
    """A source that was mended; a test after it shows whether it holds."""

    when: Day
    what: str = Field(min_length=1)
    by: str = ""


class NotHere(Facts):
    """A source that cannot be."""

    reason: str = Field(min_length=1, description="no window, no neighbour")
    out: DayOrNothing = Field(
        default="", description="of the pan and of the walls: torn out on this day, and no source since"
    )


class LeakFacts(Facts):
    """Tests of where the water comes from, with their numbers."""

    symptom: Literal[
        "unknown",
        "always wet",
        "wet after use",
        "wet after rain",
        "wet in cold weather",
        "neighbour uses water",
    ] = Field(default="unknown", description="what people noticed: orders the tests, excludes nothing")
    noticed: DayOrNothing = Field(
        default="", description="since when the water is noticed; left out = since it was opened"
    )
    dials: dict[str, Dial] = Field(default_factory=dict)
    pressures: dict[str, Pressure] = Field(default_factory=dict)
    pours: dict[str, Pour] = Field(default_factory=dict)
    fills: dict[str, Fill] = Field(default_factory=dict)
    sprays: dict[str, Spray] = Field(default_factory=dict)
    outsides: dict[str, Outside] = Field(default_factory=dict)
    colds: dict[str, Cold] = Field(default_factory=dict)
    next_doors: dict[str, NextDoor] = Field(default_factory=dict)
    mended: dict[Candidate, Mended] = Field(default_factory=dict)
    not_here: dict[Candidate, NotHere] = Field(
        default_factory=dict, description="what cannot be the source in this house"
    )


class Cover(Facts):
    """What must stand before anything is covered."""

    photos: dict[Surface, Day] = Field(default_factory=dict, description="square on, by wall and floor")
    inspection: Literal["unknown", "not asked for", "called", "passed", "failed"] = "unknown"
    inspected: DayOrNothing = ""
    inspector: str = ""
    surfaces: tuple[Surface, ...] = Field(
        default=(), description="what will be covered; left out = the walls surveyed, and the floor"
    )


class WoodFacts(Facts):
    """Everything read, tested and done about the water."""

    meters: dict[str, Meter] = Field(default_factory=dict)
    visits: dict[str, Visit] = Field(default_factory=dict)
    points: dict[str, Point] = Field(default_factory=dict)
    opened: DayOrNothing = Field(default="", description="when the wet wood was opened to the air")
    trued: str = Field(
        default="", description="the visit nearest to the truing of the walls; left out = the last"
    )
    equipment: dict[str, Equipment] = Field(default_factory=dict)
    allowed: Allowed = Field(default_factory=Allowed)
    leak: LeakFacts = Field(default_factory=LeakFacts)
    cover: Cover = Field(default_factory=Cover)
