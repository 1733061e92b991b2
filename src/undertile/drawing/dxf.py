"""A scene as DXF, true sizes and true dimensions, for who goes on drawing; needs the ``paper`` extra.

One unit of the drawing is an inch of the room, or a millimetre for a job in mm, and the header says which
($INSUNITS, DXF reference, HEADER section: 1 = inches, 4 = millimetres). Dimensions are dimension entities
whose points are measured by whoever opens them; the figure people read stands in place of theirs.
"""

from __future__ import annotations

import io
from typing import TYPE_CHECKING, Any

from undertile.drawing.hatching import hatch_lines
from undertile.drawing.layers import LAYERS
from undertile.drawing.scene import (
    POINTS,
    Circle,
    Dim,
    Hatch,
    Item,
    Line,
    Point,
    Poly,
    Scene,
    Segment,
    Strokes,
    Text,
)
from undertile.errors import InputError

if TYPE_CHECKING:
    from collections.abc import Iterable

MM_PER_INCH = 25.4
INCHES, MILLIMETRES = 1, 4
"""Values of $INSUNITS."""
CAPS = 0.72
"""Height of a capital in type sizes: DXF gives text by it."""
_ATTACH = {"start": 4, "middle": 5, "end": 6}
"""Middle left, middle centre, middle right (DXF reference, MTEXT group 71)."""


def to_dxf(scene: Scene) -> bytes:
    """The scene as a DXF document.

    Parameters
    ----------
    scene : Scene
        One in which nothing is enlarged (``Sheet.measured``).

    Returns
    -------
    bytes
        DXF R2010, UTF-8.

    Raises
    ------
    InputError
        If ezdxf is not installed; says how to get it.
    """
    try:
        import ezdxf
    except ImportError:
        raise InputError(
            "DXF needs the package ezdxf, which is not here; "
            'install the paper extra: python -m pip install "undertile[paper]", or draw SVG'
        ) from None
    doc = ezdxf.new("R2010", setup=["linetypes", "styles", "dimstyles"])  # type: ignore[attr-defined]
    metric = scene.unit == "mm"
    doc.header["$INSUNITS"] = MILLIMETRES if metric else INCHES
    doc.header["$MEASUREMENT"] = int(metric)
    doc.header["$LUNITS"] = 2 if metric else 5  # decimal, or fractional inches
    writer = _Writer(doc, scene, MM_PER_INCH if metric else 1.0)
    writer.layers()
    for item in scene.items:
        writer.draw(item)
    out = io.StringIO()
    doc.write(out)
    return out.getvalue().encode("utf-8")


class _Writer:
    """Items to entities; ``k`` is drawing units to an inch."""

    def __init__(self, doc: Any, scene: Scene, k: float) -> None:
        self.doc, self.scene, self.k = doc, scene, k
        self.space = doc.modelspace()

    def layers(self) -> None:
        """The trade's layers, with their pens as line weights (1/100 mm)."""
        used = {item.layer for item in self.scene.items}
        for name, pen in LAYERS.items():
            if name not in used:
                continue
            weight = min((13, 18, 25, 35, 50, 70), key=lambda w: abs(w - pen.weight * 2540 / POINTS))
            self.doc.layers.add(
                name, color=7, lineweight=weight, linetype="DASHED" if pen.dash else "Continuous"
            )

    def at(self, point: Point) -> Point:
        return point[0] * self.k, point[1] * self.k

    def draw(self, item: Item) -> None:
        look = {"layer": item.layer}
        if isinstance(item, Line):
            self.lines([(item.a, item.b)], look)
        elif isinstance(item, Strokes):
            self.lines(item.segments, look)
        elif isinstance(item, Poly):
            self.poly(item, look)
        elif isinstance(item, Hatch):
            self.lines(hatch_lines(item), look)
        elif isinstance(item, Circle):
            self.space.add_circle(self.at(item.centre), item.radius * self.k, dxfattribs=look)
        elif isinstance(item, Dim):
            self.dimension(item, look)
        elif isinstance(item, Text):
            self.text(item, look)

    def lines(self, segments: Iterable[Segment], look: dict[str, str]) -> None:
        for a, b in segments:
            self.space.add_line(self.at(a), self.at(b), dxfattribs=look)

    def poly(self, item: Poly, look: dict[str, str]) -> None:
        if item.fill is not None and item.fill < 1:
            solid = self.space.add_hatch(color=7, dxfattribs=look)
            level = round(255 * item.fill)
            solid.rgb = (level, level, level)
            solid.paths.add_polyline_path([self.at(p) for p in item.points], is_closed=True)
        if item.outline:
            self.space.add_lwpolyline([self.at(p) for p in item.points], close=item.closed, dxfattribs=look)

    def text(self, item: Text, look: dict[str, str]) -> None:
        """Text in the middle of its own height, on its own ground where it has one."""
        up = item.size * 0.36
        x, y = item.at
        spot = (x - up, y) if item.turned else (x, y + up)
        made = self.space.add_mtext(
            _plain(item.text),
            dxfattribs={
                **look,
                "style": "OpenSans-Bold" if item.bold else "OpenSans",
                "char_height": item.size * CAPS * self.k,
                "attachment_point": _ATTACH[item.anchor],
                "insert": self.at(spot),
                "rotation": 90 if item.turned else 0,
            },
        )
        if item.halo:
            made.set_bg_color("canvas", scale=1.1)

    def dimension(self, item: Dim, look: dict[str, str]) -> None:
        """A linear dimension; what it measures is the distance of its points."""
        base = (0.0, item.level * self.k) if item.axis == "x" else (item.level * self.k, 0.0)
        size = item.size * CAPS * self.k
        made = self.space.add_linear_dim(
            base=base,
            p1=self.at(item.a),
            p2=self.at(item.b),
            angle=0 if item.axis == "x" else 90,
            text=_plain(item.text),
            dimstyle="EZDXF",
            override={"dimtxt": size, "dimtsz": size * 0.5, "dimexo": 0.0, "dimexe": size * 0.4, "dimtad": 0},
            dxfattribs=look,
        )
        made.render()


def _plain(text: str) -> str:
    """Text in which MTEXT sees no code of its own: backslash, braces, caret and percent pairs."""
    return (
        text.replace("\\", "\\\\")
        .replace("{", "\\{")
        .replace("}", "\\}")
        .replace("^", "^ ")
        .replace("%%", "% %")
    )
