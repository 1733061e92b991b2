"""The floor patch in plan: cut lines dimensioned from the two fixed walls, joists, pieces, blocks, screws.

x to the right from the left wall, the back wall at the top. Under it everything that is cut and screwed.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from undertile.drawing.panelcuts import panel_sheets
from undertile.drawing.patchcover import patch_head
from undertile.drawing.patchlines import PatchLines
from undertile.drawing.placing import free_spot, spread
from undertile.drawing.scene import Box, Circle, Dim, Hatch, Line, Point, Poly, Scene
from undertile.drawing.sheet import BODY, HEIGHT, SMALL, WIDTH, Sheet, Sketch, scale_for
from undertile.drawing.walldata import Room
from undertile.floor.facts import Bad, FloorFacts
from undertile.floor.outline import Outline
from undertile.floor.patch import CLEAT, GAP, Layout, Piece
from undertile.floor.result import FloorResult
from undertile.lengths import Length
from undertile.pan.say import cut_line, cut_size

PAST = Fraction(8)
"""How far past the patch joists and walls are drawn. [in]"""
PLANS = (4.3, 3.6, 3.0, 2.4, 1.8)
"""Heights tried for the plan, so that what is listed under it stays on the page. [in of paper]"""
PHONE = (4.0, 3.0)
"""A phone held upright, and the plan on it. [in of paper]"""
LIST = 10.5
"""Type size of what is listed under the plan: read at arm's length. [pt]"""


def patch_sheets(room: Room) -> list[Sheet]:
    """One sheet for each patch, and one of the panels to cut; none where there is no patch."""
    found = room.rebuild.results.get("floor")
    if not isinstance(found, FloorResult) or not found.layouts:
        return []
    out = []
    several = len(found.layouts) > 1
    for number, layout in enumerate(found.layouts, 1):
        title = room.words("floor patch n", n=number) if several else room.words("floor patch")
        key = f"floor-patch-{number}" if several else "floor-patch"
        out.append(Sheet(key, title, _fitting(room, found, layout, number, title)))
    return [*out, *panel_sheets(room, found)]


def patch_plans(room: Room) -> list[tuple[str, Scene]]:
    """The plan of each patch alone, as wide as a phone in the hand: a screen lists the rest under it."""
    found = room.rebuild.results.get("floor")
    if not isinstance(found, FloorResult):
        return []
    several = len(found.layouts) > 1
    out = []
    for number, layout in enumerate(found.layouts, 1):
        title = room.words("floor patch n", n=number) if several else room.words("floor patch")
        out.append((title, _Plan(room, found, layout, number, PHONE[1], PHONE[0]).alone(title)))
    return out


def _fitting(room: Room, found: FloorResult, layout: Layout, number: int, title: str) -> Scene:
    """The plan as large as the page leaves room for under it."""
    scenes = (_Plan(room, found, layout, number, tall).scene(title) for tall in PLANS)
    scene = next(scenes)
    while scene.paper[1] > HEIGHT:
        smaller = next(scenes, None)
        if smaller is None:
            return scene
        scene = smaller
    return scene


@dataclass(frozen=True)
class _Turn:
    """From the joists' frame to the sheet: u across the joists, v along them."""

    out_from_back: bool

    def spot(self, u: Fraction, v: Fraction) -> Point:
        """On the sheet."""
        x, y = (u, v) if self.out_from_back else (v, u)
        return float(x), -float(y)

    def box(self, low: Fraction, high: Fraction, near: Fraction, far: Fraction) -> tuple[Point, ...]:
        """The four corners of a rectangle."""
        return self.spot(low, near), self.spot(high, near), self.spot(high, far), self.spot(low, far)

    def sides(self, out: Outline) -> tuple[Fraction, Fraction, Fraction, Fraction]:
        """Left, right, back, front."""
        if self.out_from_back:
            return out.low.at, out.high.at, out.near.at, out.far.at
        return out.near.at, out.far.at, out.low.at, out.high.at


class _Plan:
    """One patch."""

    def __init__(
        self,
        room: Room,
        found: FloorResult,
        layout: Layout,
        number: int,
        room_tall: float,
        width: float = WIDTH,
    ) -> None:
        self.room, self.found, self.layout, self.number = room, found, layout, number
        facts: FloorFacts = room.job.facts()["floor"]  # type: ignore[assignment]
        self.facts = facts
        self.turn = _Turn(found.runs == "out from the back wall")
        outlines = [layout.lower, *([layout.upper] if layout.upper is not None else [])]
        sides = [self.turn.sides(out) for out in outlines]
        self.right = _end(max(each[1] for each in sides), facts.patch.width)
        self.front = _end(max(each[3] for each in sides), facts.patch.depth)
        wide, tall = float(self.right), float(self.front)
        free, margin = (width - 1.9, 1.15) if width == WIDTH else (width - 1.25, 0.75)
        found_scale = scale_for(wide, tall, (free, room_tall), room.unit)
        self.scale, self.scale_name = found_scale or (1200, "1:1200")
        left = -margin * self.scale - max(free * self.scale - wide, 0.0) / 2
        self.sketch = Sketch(self.scale, room.unit, room.words, left, width)
        self.taken: list[Box] = []
        self.driven: list[Box] = []
        self.levels = 0

    def alone(self, title: str) -> Scene:
        """The plan and its key, nothing else."""
        self._draw()
        sketch = self.sketch
        y = self._key(-float(self.front) - sketch.paper(0.42))
        top = sketch.paper(0.32 + 0.24 * self.levels)
        return sketch.scene(f"{self.room.job.name}: {title}".strip(": "), y, top)

    def _draw(self) -> None:
        self._wet()
        self._joists()
        self._wood()
        self._pieces()
        self._screws()
        self._walls()
        self._dimensions()
        self._names()

    def scene(self, title: str) -> Scene:
        """Draw it all."""
        sketch = self.sketch
        self._draw()
        y = -float(self.front) - sketch.paper(0.42)
        y = self._key(y)
        for line in PatchLines(self.room, self.found, self.layout, self.number).lines(self.turn.sides):
            y = sketch.paragraph(y - sketch.paper(0.04), line, LIST)
        head = patch_head(self.room, self.found, title, self.scale_name)
        top = sketch.head(sketch.paper(0.32 + 0.24 * self.levels), head)
        return sketch.scene(f"{self.room.job.name}: {title}".strip(": "), y - sketch.paper(0.05), top)

    # The plan -------------------------------------------------------------------------------------------

    def _wet(self) -> None:
        for name, bad in self._bad():
            if name in self.layout.names:
                left, right = float(bad.left.inches), float(bad.right.inches)
                back, front = -float(bad.back.inches), -float(bad.front.inches)
                ring = ((left, back), (right, back), (right, front), (left, front))
                self.sketch.add(Hatch("WET", ring, 45.0, self.sketch.paper(0.09)))

    def _bad(self) -> Iterable[tuple[str, Bad]]:
        """As entered, or as the moisture readings have it."""
        if self.facts.patch.bad:
            return self.facts.patch.bad.items()
        wet = getattr(self.room.rebuild.results.get("wood"), "patches", ())
        out = []
        for each in wet:
            sides = [s for s in (each.left, each.right, each.back, each.front) if s is not None]
            if len(sides) == 4:
                left, right, back, front = (Length(side) for side in sides)
                bad = Bad(left=left, right=right, back=back, front=front)
                out.append((f"wet, layer {each.layer}", bad))
        return out

    def _joists(self) -> None:
        last = self.front if self.turn.out_from_back else self.right
        for joist in self._seen():
            ends = (self.turn.spot(joist[1], Fraction(0)), self.turn.spot(joist[1], last))
            self.sketch.add(Line("JOIST", *ends))
            if joist[2] is not None:
                for side in (-joist[2] / 2, joist[2] / 2):
                    at = joist[1] + side
                    self.sketch.add(Line("LEADER", self.turn.spot(at, Fraction(0)), self.turn.spot(at, last)))

    def _seen(self) -> Iterator[tuple[str, Fraction, Fraction | None]]:
        """Joists on the sheet: name, where, thickness."""
        end = self.right if self.turn.out_from_back else self.front
        for each in self.found.joists:
            if each.joist.at <= end:
                yield each.joist.name, each.joist.at, each.joist.width

    def _wood(self) -> None:
        half = CLEAT / 2
        for block in self.layout.blocks:
            ring = self.turn.box(block.low, block.high, block.at - half, block.at + half)
            self.sketch.add(Poly("BLOCKING", ring, closed=True, fill=0.85))
        for cleat in self.layout.cleats:
            ring = self.turn.box(cleat.at - half, cleat.at + half, cleat.near, cleat.far)
            self.sketch.add(Poly("BLOCKING", ring, closed=True, fill=0.85))

    def _pieces(self) -> None:
        for piece in self.layout.pieces:
            layer = "SEAM" if piece.layer == "lower" else "SECOND-LAYER"
            ring = self.turn.box(piece.low, piece.high, piece.near, piece.far)
            self.sketch.add(Poly(layer, ring, closed=True))
        low = self.layout.lower
        ring = self.turn.box(low.low.at, low.high.at, low.near.at, low.far.at)
        self.sketch.add(Poly("CUT", ring, closed=True))

    def _screws(self) -> None:
        for screws in self.layout.screws:
            if screws.layer == "lower":
                radius = self.sketch.pt(1.1)
                for u, v in screws.places:
                    x, y = self.turn.spot(u, v)
                    self.sketch.add(Circle("SCREW", (x, y), radius, fill=0.2))
                    self.driven.append(Box(x - radius, y - radius, x + radius, y + radius))

    def _walls(self) -> None:
        self.sketch.add(Line("CORNER", (0.0, 0.0), (float(self.right), 0.0)))
        self.sketch.add(Line("CORNER", (0.0, 0.0), (0.0, -float(self.front))))

    def _dimensions(self) -> None:
        """Each cut line from its fixed wall, the nearest on the inside."""
        sketch = self.sketch
        left, right, back, front = self.turn.sides(self.layout.lower)
        xs, ys = self._seams()
        for i, at in enumerate(sorted({left, right, *xs} - {Fraction(0)})):
            level, self.levels = sketch.paper(0.2 + 0.24 * i), i + 1
            self._dimension((float(at), 0.0), "x", level, at, at == left)
        for i, at in enumerate(sorted({back, front, *ys} - {Fraction(0)})):
            self._dimension((0.0, -float(at)), "y", -sketch.paper(0.2 + 0.24 * i), at, at == back)
        downs = len({back, front, *ys} - {Fraction(0)})
        self._from_where(sketch.paper(0.2 + 0.24 * self.levels), -sketch.paper(0.2 + 0.24 * downs))

    def _from_where(self, above: float, beside: float) -> None:
        """Which wall each row of figures is measured from, past the last of its row."""
        sketch, words = self.sketch, self.room.words
        sketch.text(0.0, above, words("along from L"), SMALL, middle=True, halo=True)
        text = words("along from B")
        down = -sketch.wide(text, SMALL) / 2
        sketch.text(beside, down, text, SMALL, anchor="middle", turned=True, middle=True, halo=True)

    def _dimension(self, end: Point, axis: Literal["x", "y"], level: float, at: Fraction, near: bool) -> None:
        """From the corner to a line; a figure that has no room on it stands past its end."""
        sketch = self.sketch
        figure = cut_line(at, self.room.unit, "low" if near else "high")
        wide = sketch.wide(figure, SMALL)
        shown = wide < float(at) * 0.9
        sketch.add(Dim((0.0, 0.0), end, axis, level, figure, sketch.pt(SMALL), shown))
        if shown:
            return
        past = float(at) + sketch.pt(6)
        if axis == "x":
            sketch.text(past, level, figure, SMALL, middle=True, halo=True)
        else:
            sketch.text(level, -past - wide / 2, figure, SMALL, anchor="middle", turned=True, middle=True)

    def _seams(self) -> tuple[set[Fraction], set[Fraction]]:
        """Seams between pieces of the lower layer, at their line: from the left wall, from the back wall."""
        low = self.layout.lower
        gap = GAP if self.facts.patch.gap is None else self.facts.patch.gap.inches
        lower = [piece for piece in self.layout.pieces if piece.layer == "lower"]
        across = {piece.high + gap / 2 for piece in lower if piece.high + gap < low.high.at}
        along = {piece.far + gap / 2 for piece in lower if piece.far + gap < low.far.at}
        return (across, along) if self.turn.out_from_back else (along, across)

    def _names(self) -> None:
        """Joists at their far ends, pieces in their middles; all on white ground, drawn last."""
        self._joist_names(list(self._seen()))
        for piece in self.layout.pieces:
            self._piece_name(piece)

    def _joist_names(self, seen: list[tuple[str, Fraction, Fraction | None]]) -> None:
        """At the joists' far ends: with where they stand; where that has no room the name alone, or every
        other name: the first line under the plan has the joists that matter."""
        sketch, words = self.sketch, self.room.words
        down = self.turn.out_from_back
        for step in range(1, len(seen) + 2):
            shown = seen[:: max(step - 1, 1)]
            texts = [words("joist at", name=n, at=self._stands(a)) if step == 1 else n for n, a, _ in shown]
            wanted = [float(at) for _, at, _ in shown]
            if down:
                sizes = [sketch.wide(text, SMALL) + sketch.pt(5) for text in texts]
            else:
                sizes = [sketch.pt(SMALL) * 1.3 for _ in texts]
            ends = (sketch.left, sketch.right) if down else (None, None)
            places = spread(wanted, sizes, *ends)
            if places is None:
                continue
            if max((abs(p - w) for p, w in zip(places, wanted, strict=True)), default=0) <= sketch.paper(0.3):
                break
        for text, place, at in zip(texts, places or wanted, wanted, strict=True):
            if down:
                y = -float(self.front) - sketch.paper(0.14)
                if abs(place - at) > sketch.pt(6):
                    sketch.add(Line("LEADER", (at, -float(self.front)), (place, y + sketch.pt(SMALL))))
                sketch.text(place, y - sketch.pt(2), text, SMALL, anchor="middle", halo=True)
            else:
                x = float(self.right) + sketch.paper(0.06)
                sketch.text(x, -place, text, SMALL, middle=True, halo=True)

    def _stands(self, at: Fraction) -> str:
        """Where a joist stands: a cut on its center and the joist under it have one figure."""
        low = self.layout.lower
        if at == low.low.at:
            return cut_line(at, self.room.unit, "low")
        return cut_line(at, self.room.unit, "high") if at == low.high.at else self.room.amount(at)

    def _piece_name(self, piece: Piece) -> None:
        sketch = self.sketch
        size = self._size(piece)
        text = self.room.words("piece size", name=piece.name, length=size[0], width=size[1])
        ring = self.turn.box(piece.low, piece.high, piece.near, piece.far)
        xs, ys = [p[0] for p in ring], [p[1] for p in ring]
        within = Box(min(xs), min(ys), max(xs), max(ys))
        # a name over a screw reads as one less to drive: rather the name alone, its size is listed
        for words, kept_clear in (
            (text, self.driven),
            (piece.name, self.driven),
            (text, []),
            (piece.name, []),
        ):
            wide, tall = sketch.wide(words, BODY, True) + sketch.pt(4), sketch.pt(BODY) * 1.2
            middle = ((within.left + within.right) / 2, (within.bottom + within.top) / 2)
            box = free_spot(middle, wide, tall, sketch.paper(0.1), [*self.taken, *kept_clear], within)
            if box is not None:
                self.taken.append(box)
                x, y = (box.left + box.right) / 2, (box.bottom + box.top) / 2
                sketch.text(x, y, words, BODY, bold=True, anchor="middle", middle=True, halo=True)
                return

    def _size(self, piece: Piece) -> tuple[str, str]:
        return self._cut(piece.size[0]), self._cut(piece.size[1])

    def _cut(self, value: Fraction) -> str:
        """A size to cut to: never printed larger than it is."""
        return cut_size(value, self.room.unit)

    # What stands under it ------------------------------------------------------------------------------

    def _key(self, y: float) -> float:
        """A row of samples and what they mean, broken where it is full."""
        sketch, words = self.sketch, self.room.words
        x, tall = sketch.left, sketch.paper(0.12)
        keys = ["key cut", "key joist", "key block", "key screw", "key wet"]
        if self.layout.upper is not None:
            keys.insert(1, "key second")
        for key in keys:
            text = words(key)
            wide = sketch.paper(0.34) + sketch.wide(text, SMALL)
            if x + wide > sketch.right:
                x, y = sketch.left, y - tall * 1.6
            self._sample(key, x, y, tall)
            sketch.text(x + sketch.paper(0.34), y - tall / 2, text, SMALL, middle=True)
            x += wide + sketch.paper(0.16)
        return y - tall * 1.7

    def _sample(self, key: str, x: float, y: float, tall: float) -> None:
        sketch = self.sketch
        end, middle = x + sketch.paper(0.28), y - tall / 2
        ring = ((x, y - tall), (end, y - tall), (end, y), (x, y))
        if key == "key wet":
            sketch.add(Hatch("WET", ring, 45.0, sketch.paper(0.06)))
        elif key == "key block":
            sketch.add(Poly("BLOCKING", ring, closed=True, fill=0.85))
        elif key == "key screw":
            sketch.add(Circle("SCREW", ((x + end) / 2, middle), sketch.pt(1.1), fill=0.2))
        else:
            layer = {"key cut": "CUT", "key joist": "JOIST", "key second": "SECOND-LAYER"}[key]
            sketch.add(Line(layer, (x, middle), (end, middle)))


def _end(reach: Fraction, wall: Length | None) -> Fraction:
    """Where the plan ends: the floor's end where it is near, else a little past the patch. [in]"""
    if wall is not None and wall.inches - reach <= 2 * PAST:
        return max(wall.inches, reach)
    return reach + PAST
