"""What is drawn, before anyone knows on what: lines, polygons, hatches, circles, text, dimensions.

A scene is in true inches of the room, y up, its origin where the sheet's subject has one (a wall's corner
at the subfloor). Paper comes in through ``scale`` alone: inches of the room for one inch of paper. Sizes of
text and line weights are paper sizes; the scene holds text already turned into inches of the room. Lengths
arrive as exact fractions and become floats at the door (``true``): nothing is decided from a drawing.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field
from fractions import Fraction
from typing import Literal

from undertile.drawing.layers import LAYERS
from undertile.drawing.metrics import rise_and_fall, text_width
from undertile.lengths import Unit

Point = tuple[float, float]
Segment = tuple[Point, Point]
Anchor = Literal["start", "middle", "end"]
POINTS = 72.0
"""Points in an inch of paper."""


def true(value: Fraction | int) -> float:
    """An exact length as the float a drawing is made of. [in]"""
    return float(value)


@dataclass(frozen=True, slots=True)
class Box:
    """An upright rectangle: left, bottom, right, top. [in]"""

    left: float
    bottom: float
    right: float
    top: float

    def meets(self, other: Box, slack: float = 0.0) -> bool:
        """Whether the two share more than ``slack`` of ground both ways."""
        return (
            min(self.right, other.right) - max(self.left, other.left) > slack
            and min(self.top, other.top) - max(self.bottom, other.bottom) > slack
        )

    def holds(self, other: Box, slack: float = 0.0) -> bool:
        """Whether the other lies inside, up to ``slack``."""
        return (
            other.left >= self.left - slack
            and other.right <= self.right + slack
            and other.bottom >= self.bottom - slack
            and other.top <= self.top + slack
        )

    def grown(self, by: float) -> Box:
        """With a margin all round."""
        return Box(self.left - by, self.bottom - by, self.right + by, self.top + by)

    @property
    def corners(self) -> tuple[Point, Point, Point, Point]:
        """Anticlockwise from the lower left."""
        left, bottom, right, top = self.left, self.bottom, self.right, self.top
        return (left, bottom), (right, bottom), (right, top), (left, top)


@dataclass(frozen=True, slots=True)
class Line:
    """One straight line."""

    layer: str
    a: Point
    b: Point


@dataclass(frozen=True, slots=True)
class Poly:
    """A polyline; ``fill`` is a grey (0 black, 1 white) for a closed one, None for none."""

    layer: str
    points: tuple[Point, ...]
    closed: bool = False
    fill: float | None = None
    outline: bool = True


@dataclass(frozen=True, slots=True)
class Hatch:
    """Parallel lines inside a polygon, and a second set square to them when ``cross``.

    ``angle`` in degrees anticlockwise from x; ``gap`` between lines. [in]
    """

    layer: str
    points: tuple[Point, ...]
    angle: float
    gap: float
    cross: bool = False


@dataclass(frozen=True, slots=True)
class Strokes:
    """A bag of straight lines that belong together."""

    layer: str
    segments: tuple[Segment, ...]


@dataclass(frozen=True, slots=True)
class Circle:
    """A circle; ``fill`` as in ``Poly``."""

    layer: str
    centre: Point
    radius: float
    fill: float | None = None


@dataclass(frozen=True, slots=True)
class Text:
    """One line of text; ``at`` is on its baseline. ``size`` is the type size. [in]

    ``turned``: a quarter turn anticlockwise. ``halo``: on a white ground of its own, so that it reads over
    lines and hatches.
    """

    at: Point
    text: str
    size: float
    bold: bool = False
    anchor: Anchor = "start"
    turned: bool = False
    halo: bool = False
    layer: str = "TEXT"

    @property
    def box(self) -> Box:
        """The room it takes in any common sans face."""
        width = text_width(self.text, self.size, self.bold)
        rise, fall = rise_and_fall(self.text)
        before = {"start": 0.0, "middle": width / 2, "end": width}[self.anchor]
        x, y = self.at
        if self.turned:
            return Box(x - rise * self.size, y - before, x + fall * self.size, y - before + width)
        return Box(x - before, y - fall * self.size, x - before + width, y + rise * self.size)


@dataclass(frozen=True, slots=True)
class Dim:
    """A dimension between two points along x or y, its line at ``level`` on the other axis.

    ``text`` is the length as people read it; what a backend measures is the distance of the points.
    ``shown`` False: no room for the figure on paper; a backend that draws true dimensions still has it.
    """

    a: Point
    b: Point
    axis: Literal["x", "y"]
    level: float
    text: str
    size: float
    shown: bool = True
    layer: str = "DIMENSION"

    @property
    def length(self) -> float:
        """What it measures. [in]"""
        at = 0 if self.axis == "x" else 1
        return abs(self.b[at] - self.a[at])

    @property
    def ends(self) -> tuple[Point, Point]:
        """Both ends of the dimension line."""
        if self.axis == "x":
            return (self.a[0], self.level), (self.b[0], self.level)
        return (self.level, self.a[1]), (self.level, self.b[1])

    @property
    def label(self) -> Text | None:
        """The figure, on its own ground in the middle of the line."""
        if not self.shown:
            return None
        (ax, ay), (bx, by) = self.ends
        x, y = (ax + bx) / 2, (ay + by) / 2
        down = 0.27 * self.size
        at = (x, y - down) if self.axis == "x" else (x + down, y)
        return Text(at, self.text, self.size, anchor="middle", turned=self.axis == "y", halo=True)

    def strokes(self) -> tuple[Segment, ...]:
        """Dimension line, extension lines and the slanted ticks at its ends."""
        a, b = self.ends
        tick, over = 0.35 * self.size, 0.3 * self.size
        out: list[Segment] = [(a, b)]
        for end, foot in ((a, self.a), (b, self.b)):
            out.append(((end[0] - tick, end[1] - tick), (end[0] + tick, end[1] + tick)))
            at = 1 if self.axis == "x" else 0
            if abs(foot[at] - end[at]) > 1e-9:
                way = over if end[at] > foot[at] else -over
                past = (end[0], end[1] + way) if self.axis == "x" else (end[0] + way, end[1])
                out.append((foot, past))
        return tuple(out)


Item = Line | Poly | Hatch | Strokes | Circle | Text | Dim


@dataclass
class Scene:
    """One sheet's drawing.

    Attributes
    ----------
    title : str
        For those who cannot see it.
    scale : float
        Inches of the room for one inch of paper.
    page : Box
        What the paper shows. [in]
    unit : {"in", "mm"}
        The job's, for a backend that has to say in what it writes.
    items : list
        In the order they are drawn.
    """

    title: str
    scale: float
    page: Box
    unit: Unit = "in"
    items: list[Item] = field(default_factory=list)

    def add(self, *items: Item) -> None:
        """Draw on top of what is there.

        Raises
        ------
        KeyError
            If an item is on a layer there is no pen for.
        """
        for item in items:
            if item.layer not in LAYERS:
                raise KeyError(f"no layer {item.layer}; there are {', '.join(LAYERS)}")
            self.items.append(item)

    def texts(self) -> Iterator[Text]:
        """Every text, those of dimensions too."""
        for item in self.items:
            if isinstance(item, Text):
                yield item
            elif isinstance(item, Dim) and item.label is not None:
                yield item.label

    @property
    def paper(self) -> tuple[float, float]:
        """Width and height on paper. [in]"""
        page = self.page
        return (page.right - page.left) / self.scale, (page.top - page.bottom) / self.scale
