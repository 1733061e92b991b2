"""A backend for tests and for care: it keeps what is drawn and says what collides or leaves the page."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from undertile.drawing.hatching import hatch_lines
from undertile.drawing.scene import Box, Circle, Dim, Hatch, Line, Point, Poly, Scene, Segment, Strokes, Text

HAIR = 0.004
"""Overlap that no eye sees. [in of paper]"""


@dataclass(frozen=True)
class Recorder:
    """A scene as boxes and strokes.

    ``texts`` and ``strokes`` as drawn; the checks give sentences, none = nothing to mend.
    """

    scene: Scene

    @property
    def texts(self) -> list[Text]:
        """Every text with its measured box."""
        return list(self.scene.texts())

    def strokes(self, *layers: str) -> Iterator[tuple[int, str, Segment]]:
        """Every straight line that is drawn: place in the order, layer, ends."""
        for place, item in enumerate(self.scene.items):
            if layers and item.layer not in layers:
                continue
            for segment in _segments(item):
                yield place, item.layer, segment

    def collisions(self) -> list[str]:
        """Texts that stand in one another."""
        hair = HAIR * self.scene.scale
        found = sorted(((text.box, text.text) for text in self.texts), key=lambda each: each[0].left)
        out = []
        for i, (box, words) in enumerate(found):
            for other, more in found[i + 1 :]:
                if other.left > box.right:
                    break
                if box.meets(other, hair):
                    out.append(f"{words!r} stands in {more!r}")
        return out

    def off_page(self) -> list[str]:
        """Texts and lines that leave the page."""
        page, hair = self.scene.page, HAIR * self.scene.scale
        out = [f"{text.text!r} leaves the page" for text in self.texts if not page.holds(text.box, hair)]
        for _, layer, (a, b) in self.strokes():
            if not all(page.holds(Box(x, y, x, y), hair) for x, y in (a, b)):
                out.append(f"a line of {layer} leaves the page at {a} {b}")
        return out

    def crossed(self) -> list[str]:
        """Texts with a line through them: any line where they have no ground of their own, and lines
        drawn after them where they have."""
        hair = HAIR * self.scene.scale
        strokes = list(self.strokes())
        out = []
        for place, text in self._placed():
            box = text.box.grown(-hair)
            for order, layer, segment in strokes:
                if (order > place or not text.halo) and order != place and cuts(segment, box):
                    out.append(f"{text.text!r} has a line of {layer} through it")
                    break
        return out

    def _placed(self) -> Iterator[tuple[int, Text]]:
        for place, item in enumerate(self.scene.items):
            if isinstance(item, Text):
                yield place, item
            elif isinstance(item, Dim) and item.label is not None:
                yield place, item.label


def _segments(item: object) -> Iterator[Segment]:
    if isinstance(item, Line):
        yield item.a, item.b
    elif isinstance(item, Poly) and item.outline:
        ends = (*item.points[1:], item.points[0]) if item.closed else item.points[1:]
        yield from zip(item.points, ends, strict=False)
    elif isinstance(item, Hatch):
        yield from hatch_lines(item)
    elif isinstance(item, Strokes):
        yield from item.segments
    elif isinstance(item, Dim):
        yield from item.strokes()
    elif isinstance(item, Circle):
        (x, y), r = item.centre, item.radius
        box = Box(x - r, y - r, x + r, y + r).corners
        yield from zip(box, (*box[1:], box[0]), strict=True)


def cuts(segment: Segment, box: Box) -> bool:
    """Whether a straight line has a part inside a box (Liang and Barsky 1984, clipping by parameters)."""
    (x0, y0), (x1, y1) = segment
    low, high = 0.0, 1.0
    for start, way, least, most in ((x0, x1 - x0, box.left, box.right), (y0, y1 - y0, box.bottom, box.top)):
        if way == 0:
            if not least < start < most:
                return False
            continue
        near, far = sorted(((least - start) / way, (most - start) / way))
        low, high = max(low, near), min(high, far)
        if low >= high:
            return False
    return low < high


def inside(point: Point, box: Box) -> bool:
    """Whether a point lies in a box."""
    return box.left <= point[0] <= box.right and box.bottom <= point[1] <= box.top
