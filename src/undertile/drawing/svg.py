"""A scene as SVG: plain shapes and text, no styles, scripts or fonts of its own; a phone writes it too."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from undertile.drawing.hatching import hatch_lines
from undertile.drawing.layers import LAYERS
from undertile.drawing.scene import (
    POINTS,
    Box,
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

FONTS = "Arial, Helvetica, Liberation Sans, DejaVu Sans, sans-serif"


def to_svg(scene: Scene, screen: bool = False) -> str:
    """The scene as an SVG document.

    One unit of it is a point of paper (1/72 in), ``width`` and ``height`` are the paper's in inches. Strokes
    are grouped by layer (``data-layer``).

    Parameters
    ----------
    scene : Scene
    screen : bool
        For a page: as wide as it is given room, in the ink and on the ground of the page (class ``ground``).

    Returns
    -------
    str
    """
    pen = _Writer(scene, screen)
    width, height = scene.paper
    body = "\n".join(pen.body())
    size = f'width="{_num(width)}in" height="{_num(height)}in"'
    view = f'viewBox="0 0 {_num(width * POINTS)} {_num(height * POINTS)}"'
    if screen:
        return (
            f'<svg xmlns="http://www.w3.org/2000/svg" class="chart" {view} role="img" font-family="{FONTS}" '
            f'fill="currentColor">\n<title>{_escaped(scene.title)}</title>\n{body}\n</svg>\n'
        )
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" {size} {view} role="img" font-family="{FONTS}">\n'
        f"<title>{_escaped(scene.title)}</title>\n"
        f'<rect width="100%" height="100%" fill="#fff"/>\n{body}\n</svg>\n'
    )


class _Writer:
    """Scene coordinates to points of paper, y down."""

    def __init__(self, scene: Scene, screen: bool = False) -> None:
        self.scene = scene
        self.screen = screen
        self.k = POINTS / scene.scale

    def x(self, x: float) -> str:
        return _num((x - self.scene.page.left) * self.k)

    def y(self, y: float) -> str:
        return _num((self.scene.page.top - y) * self.k)

    def at(self, point: Point) -> str:
        return f"{self.x(point[0])} {self.y(point[1])}"

    def body(self) -> Iterator[str]:
        """Elements in order, neighbours of one layer in one group."""
        layer, open_group = "", False
        for item in self.scene.items:
            if isinstance(item, Text):
                if open_group:
                    yield "</g>"
                    layer, open_group = "", False
                yield from self.text(item)
                continue
            if item.layer != layer:
                if open_group:
                    yield "</g>"
                yield self.group(item.layer)
                layer, open_group = item.layer, True
            yield from self.shape(item)
            label = item.label if isinstance(item, Dim) else None
            if label is not None:
                yield "</g>"
                layer, open_group = "", False
                yield from self.text(label)
        if open_group:
            yield "</g>"

    def group(self, layer: str) -> str:
        pen = LAYERS[layer]
        dash = f' stroke-dasharray="{" ".join(_num(d) for d in pen.dash)}"' if pen.dash else ""
        return (
            f'<g data-layer="{layer}" fill="none" {self.ink("stroke", pen.grey)} '
            f'stroke-width="{_num(pen.weight)}"{dash}>'
        )

    def shape(self, item: Item) -> Iterator[str]:
        if isinstance(item, Line):
            yield self.path([(item.a, item.b)])
        elif isinstance(item, Poly):
            yield self.poly(item)
        elif isinstance(item, Hatch):
            yield self.path(hatch_lines(item))
        elif isinstance(item, Strokes):
            yield self.path(item.segments)
        elif isinstance(item, Dim):
            yield self.path(item.strokes())
        elif isinstance(item, Circle):
            fill = "" if item.fill is None else f" {self.ink('fill', item.fill)}"
            x, y = item.centre
            yield f'<circle cx="{self.x(x)}" cy="{self.y(y)}" r="{_num(item.radius * self.k)}"{fill}/>'

    def path(self, segments: Iterable[Segment]) -> str:
        return f'<path d="{"".join(f"M{self.at(a)}L{self.at(b)}" for a, b in segments)}"/>'

    def poly(self, item: Poly) -> str:
        points = " ".join(f"{self.x(x)},{self.y(y)}" for x, y in item.points)
        fill = "" if item.fill is None else f" {self.ink('fill', item.fill)}"
        stroke = "" if item.outline else ' stroke="none"'
        return f'<{"polygon" if item.closed else "polyline"} points="{points}"{fill}{stroke}/>'

    def text(self, item: Text) -> Iterator[str]:
        if item.halo:
            yield self.ground(item.box)
        x, y = self.x(item.at[0]), self.y(item.at[1])
        anchor = "" if item.anchor == "start" else f' text-anchor="{item.anchor}"'
        bold = ' font-weight="bold"' if item.bold else ""
        turn = f' transform="rotate(-90 {x} {y})"' if item.turned else ""
        size = _num(item.size * self.k)
        yield f'<text x="{x}" y="{y}" font-size="{size}"{bold}{anchor}{turn}>{_escaped(item.text)}</text>'

    def ground(self, box: Box) -> str:
        width, height = (box.right - box.left) * self.k, (box.top - box.bottom) * self.k
        place = f'x="{self.x(box.left)}" y="{self.y(box.top)}"'
        white = self.ink("fill", 1) if self.screen else 'fill="#fff"'
        return f'<rect {place} width="{_num(width)}" height="{_num(height)}" {white}/>'

    def ink(self, what: str, grey: float) -> str:
        """A grey as an attribute: on a screen so much of the page's ink, white its ground."""
        if not self.screen:
            return f'{what}="{_grey(grey)}"'
        if grey >= 1:
            return 'class="ground"'
        rest = "" if grey <= 0 else f' {what}-opacity="{_num(1 - grey)}"'
        return f'{what}="currentColor"{rest}'


def _num(value: float) -> str:
    """Three decimals of a point at most: 1/200,000 in of paper. Never an exponent, never -0."""
    text = f"{value:.3f}".rstrip("0").rstrip(".")
    return "0" if text in ("-0", "") else text


def _grey(grey: float) -> str:
    level = round(255 * grey)
    return f"#{level:02x}{level:02x}{level:02x}"


def _escaped(text: str) -> str:
    """Text for XML: what XML cannot hold (control signs, half pairs) shows as the sign for that."""
    safe = "".join(sign if _allowed(ord(sign)) else "\ufffd" for sign in text)
    return safe.replace("&", "&amp;").replace("<", "&lt;").replace(">", "&gt;")


def _allowed(code: int) -> bool:
    """XML 1.0, production 2 (Char); line breaks have no place in a line of text."""
    return 0x20 <= code <= 0xD7FF or 0xE000 <= code <= 0xFFFD or 0x10000 <= code <= 0x10FFFF
