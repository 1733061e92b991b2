"""What the drawing of the water shows: each point with its place, its figure, and how far each part goes."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from fractions import Fraction
from typing import Literal

from undertile.drawing.dryingdata import place
from undertile.drawing.labels import Words
from undertile.lengths import Unit
from undertile.survey.facts import SurveyFacts
from undertile.wood.extent import PAST, Patch
from undertile.wood.facts import Point as Spot
from undertile.wood.facts import WoodFacts
from undertile.wood.history import Series
from undertile.wood.limits import counting
from undertile.wood.result import WoodResult
from undertile.wood.say import length
from undertile.wood.verdict import PointVerdict

MARGIN = Fraction(10)
"""How far past what is read the drawing goes. [in]"""
ZERO = Fraction(0)
Mark = Literal["bad", "good", "unknown", "out"]


@dataclass(frozen=True)
class Placed:
    """One point on the drawing.

    Attributes
    ----------
    name : str
    part : str
        ``walls``, or ``floor 1`` by layer.
    at : (Fraction, Fraction)
        Walls: along the unfolded strip from the corner of L and B, and up. Floor: from wall L, and out from
        wall B. [in]
    mark : Mark
    text : str
    """

    name: str
    part: str
    at: tuple[Fraction, Fraction]
    mark: Mark
    text: str


@dataclass
class MapView:
    """What is drawn, before it has a scale.

    Attributes
    ----------
    width : Fraction or None
        From wall L to wall R. [in]
    places : list of Placed
    studs : dict of str to Fraction
        Along the unfolded strip. [in]
    elsewhere : list of str
        Points without a place on it, with their figures.
    names : dict of str to str
        Every point's place in words.
    """

    found: WoodResult
    unit: Unit
    words: Words
    past: Fraction
    width: Fraction | None
    joists: Mapping[str, Fraction]
    places: list[Placed] = field(default_factory=list)
    studs: dict[str, Fraction] = field(default_factory=dict)
    elsewhere: list[str] = field(default_factory=list)
    names: dict[str, str] = field(default_factory=dict)

    def spot(self, line: str, at: Fraction) -> tuple[str, tuple[Fraction, Fraction]] | None:
        """Where a place on a line of ``wood`` is on the drawing: its part, and there."""
        if line == "plate":
            return "walls", (at, ZERO)
        if line == "plate R":
            return None if self.width is None else ("walls", (self.width + at, ZERO))
        if line.startswith("stud "):
            stud = self.studs.get(line[5:])
            return None if stud is None else ("walls", (stud, at))
        if line.startswith("joist "):
            joist = self.joists.get(line[6:])
            return None if joist is None else ("floor 1", (joist, at))
        head, _, across = line.partition(", ")
        axis, _, other = across.partition(" ")
        there = Fraction(other).limit_denominator(1000)
        return f"floor {head[9:]}", ((there, at) if axis == "x" else (at, there))

    def words_of(self, line: str, at: Fraction) -> str:
        """The same place in words."""
        words, unit = self.words, self.unit
        if line.startswith("plate"):
            if line == "plate R":
                wall = "R"
            elif at < 0:
                wall, at = "L", -at
            elif self.width is not None and at > self.width:
                wall, at = "R", at - self.width
            else:
                wall = "B"
            return words("plate at", wall=wall, at=length(at, unit))
        if line.startswith("stud "):
            return words("stud at", name=line[5:], at=length(at, unit))
        if line.startswith("joist "):
            return words("joist spot", name=line[6:], at=length(at, unit))
        spot = self.spot(line, at)
        assert spot is not None
        (x, y), layer = spot[1], spot[0][6:]
        layered = layer != "1" or any(each.layered for each in self.found.series)
        key = "subfloor layer at" if layered else "subfloor at"
        return words(key, layer=layer, x=length(x, unit), y=length(y, unit))


def map_of(
    found: WoodResult,
    facts: WoodFacts,
    survey: SurveyFacts | None,
    joists: Mapping[str, Fraction],
    unit: Unit,
    words: Words,
) -> MapView:
    """Every point with its place, or named among those without one.

    Parameters
    ----------
    found : WoodResult
    facts : WoodFacts
    survey : SurveyFacts or None
        Where studs stand, and how wide the room is.
    joists : mapping of str to Fraction
        Where joists stand along the back wall. [in]
    unit : {"in", "mm"}
    words : Words
    """
    widths = [] if survey is None else [each.reading.inches for each in survey.widths.values()]
    own = counting(facts.allowed).past_the_last
    past = PAST if own is None else own.inches
    view = MapView(found, unit, words, past, min(widths, default=None), joists)
    if survey is not None:
        for wall, read in survey.walls.items():
            for name, stud in read.studs.items():
                if stud.along is not None:
                    at = _strip(wall, stud.along.inches, view.width)
                    if at is not None:
                        view.studs[name] = at
    by_name = {each.name: each for each in found.series}
    for verdict in found.points:
        series = by_name[verdict.name]
        name = place(series.name, series.facts, words, layered=series.layered)
        view.names[verdict.name] = name
        spot = _place(series.facts, view)
        if spot is None:
            figure = _mark(series, verdict, words)[1]
            view.elsewhere.append(f"{name}: {figure}")
            continue
        view.places.append(Placed(verdict.name, *spot, *_mark(series, verdict, words)))
    return view


def _strip(wall: str, along: Fraction, width: Fraction | None) -> Fraction | None:
    """Along the unfolded walls from the corner of L and B; None past a width nobody measured. [in]"""
    if wall == "L":
        return -along
    if wall == "B":
        return along
    return None if width is None else width + along


def _place(point: Spot, view: MapView) -> tuple[str, tuple[Fraction, Fraction]] | None:
    if point.member == "plate" and point.wall and point.along is not None:
        at = _strip(point.wall, point.along.inches, view.width)
        return None if at is None else ("walls", (at, ZERO))
    if point.member == "stud" and point.name in view.studs and point.height is not None:
        return "walls", (view.studs[point.name], point.height.inches)
    if point.member == "joist" and point.name in view.joists and point.along is not None:
        return "floor 1", (view.joists[point.name], point.along.inches)
    if point.member == "subfloor" and point.x is not None and point.y is not None:
        return f"floor {point.layer}", (point.x.inches, point.y.inches)
    return None


def _mark(series: Series, verdict: PointVerdict, words: Words) -> tuple[Mark, str]:
    last = series.last
    if verdict.call == "gone":
        return "out", words("map out")
    if last is None or verdict.value is None:
        return "unknown", "?"
    if last.shown.state in ("over", "under"):
        text = words(f"{last.shown.state} range", end=f"{last.value:g}")
    else:
        text = f"{verdict.value:.1f}{'*' if verdict.relative else ''}"
    if verdict.bad is None:
        return "unknown", f"{text} ?"
    return ("bad" if verdict.bad else "good"), text


class Ends:
    """How far each part of the drawing goes. [in]"""

    def __init__(self, view: MapView) -> None:
        spots = [
            each for each in (view.spot(c.line, c.at) for c in view.found.cuts if c.at is not None) if each
        ]
        probe = view.found.probe
        if probe is not None and probe.probe is not None:
            spots += [each for each in (view.spot(probe.line, probe.probe.at),) if each]
        spots += [(each.part, each.at) for each in view.places]
        walls = [at for part, at in spots if part == "walls"]
        self.floors = sorted({part for part, _ in spots if part != "walls"})
        floor = [at for part, at in spots if part != "walls"]
        xs = [ZERO, *(at[0] for at in walls), *(at[0] for at in floor)]
        self.walls = bool(walls)
        self.left = min(xs) - (MARGIN if min(xs) < 0 else 2)
        self.right = max(xs) + MARGIN
        if view.width is not None and view.width - max(xs) <= 2 * MARGIN:
            self.right = max(self.right, view.width)
        self.up = max([ZERO, *(at[1] for at in walls)]) + MARGIN if walls else ZERO
        self.out = {part: max(at[1] for name, at in spots if name == part) + MARGIN for part in self.floors}


def patch_line(patch: Patch, unit: Unit, words: Words) -> str:
    """What is opened of one layer of the subfloor, from the two fixed walls, in words."""
    sides = (patch.left, patch.right, patch.back, patch.front)
    left, right, back, front = (
        words("map unknown") if side is None else length(side, unit) for side in sides
    )
    key = "map patch" if patch.layer == 1 else "map patch layer"
    return words(key, layer=patch.layer, left=left, right=right, back=back, front=front)
