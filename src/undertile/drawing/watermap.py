"""Where the water went: the walls as if unfolded, and under the back wall the subfloor from above.

Both in true inches with one corner, that of walls L and B: cut lines are dimensioned from it. Each point
stands with its newest figure; a bad one is filled, what is not known is a question mark, the next place to
read is ringed.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction
from itertools import pairwise
from typing import Literal

from undertile.drawing.placing import free_spot
from undertile.drawing.scene import Box, Circle, Dim, Line, Point, Scene, Strokes, Text
from undertile.drawing.sheet import BODY, HEIGHT, SMALL, WIDTH, Head, Sheet, Sketch, coarser, scale_for
from undertile.drawing.walldata import Room
from undertile.drawing.watermapdata import Ends, MapView, Placed, map_of, patch_line
from undertile.wood.extent import CutLine, Patch
from undertile.wood.facts import WoodFacts
from undertile.wood.result import WoodResult
from undertile.wood.say import length

PLATE = 1.5
"""The plate's edge as drawn; nothing is measured from it. [in]"""
ROUND = 3.2
"""Radius of a point. [pt]"""


def water_sheets(room: Room) -> list[Sheet]:
    """One sheet; none where no point says where it is."""
    found = room.rebuild.results.get("wood")
    if not isinstance(found, WoodResult) or not found.points:
        return []
    facts: WoodFacts = room.job.facts()["wood"]  # type: ignore[assignment]
    view = map_of(found, facts, room.read, _joists(room), room.unit, room.words)
    if not view.places:
        return []
    title = room.words("where wet")
    return [Sheet("where-wet", title, _fitting(view, title, room.job.name, room.job.place))]


def _joists(room: Room) -> dict[str, Fraction]:
    """Where each joist stands along the back wall, where they run out from it."""
    found = room.rebuild.results.get("floor")
    if found is None or getattr(found, "runs", "") != "out from the back wall":
        return {}
    return {each.joist.name: each.joist.at for each in found.joists}


def _fitting(view: MapView, title: str, name: str, where: str) -> Scene:
    """As large as the page holds it."""
    wide, tall = _extent(view)
    scale = scale_for(wide[1] - wide[0], tall, (WIDTH - 1.5, 6.6), view.unit) or (1200, "1:1200")
    while True:
        scene = _Map(view, scale, wide).scene(title, name, where)
        smaller = coarser(scale[0], view.unit)
        if scene.paper[1] <= HEIGHT or smaller is None:
            return scene
        scale = smaller


def _extent(view: MapView) -> tuple[tuple[float, float], float]:
    """Left and right end of the drawing, and its height, without dimensions. [in]"""
    ends = Ends(view)
    tall = float(ends.up) + sum(float(ends.out[part]) for part in ends.floors)
    return (float(ends.left), float(ends.right)), tall


class _Map:
    """The drawing at one scale. y of the walls goes up from 0; floors lie below."""

    def __init__(self, view: MapView, scale: tuple[int, str], wide: tuple[float, float]) -> None:
        self.view, self.scale, self.ends = view, scale, Ends(view)
        paper = WIDTH * scale[0]
        left = wide[0] - max((paper - (wide[1] - wide[0])) / 2, 0.0)
        self.sketch = Sketch(scale[0], view.unit, view.words, left)
        self.origin = self._origins()
        self.taken: list[Box] = []

    def _origins(self) -> dict[str, float]:
        """The y of each part's wall or floor line."""
        sketch, y = self.sketch, 0.0
        out = {"walls": 0.0}
        y = -sketch.paper(0.85) if self.ends.walls else 0.0
        for part in self.ends.floors:
            out[part] = y - sketch.paper(0.62)
            y = out[part] - float(self.ends.out[part]) - sketch.paper(0.3)
        self.bottom = y
        return out

    def at(self, part: str, spot: tuple[Fraction, Fraction]) -> Point:
        """On the sheet."""
        x, other = float(spot[0]), float(spot[1])
        base = self.origin[part]
        if part == "walls":
            return x, base + (PLATE / 2 if other == 0 else other)
        return x, base - other

    def scene(self, title: str, name: str, where: str) -> Scene:
        """Draw it all."""
        view, sketch, words = self.view, self.sketch, self.view.words
        if self.ends.walls:
            self._walls()
        for part in self.ends.floors:
            self._floor(part)
        for cut in view.found.cuts:
            self._cut(cut)
        self._probe()
        for each in view.places:
            self._point(each)
        for each in view.places:
            self._figure(each)
        if self.ends.walls:
            self._wall_names()
        # figures on their own ground over every line, those of dimensions too
        sketch.items.sort(key=lambda item: 2 if isinstance(item, Text) else int(isinstance(item, Dim)))
        y = self.bottom if self.ends.floors else -sketch.paper(0.75)
        for line in self._lines():
            y = sketch.paragraph(y - sketch.paper(0.05), line, BODY)
        own = "map own" if view.found.own_past else "map practice"
        practice = words(own, past=length(view.past, view.unit))
        head = Head(title, name, where, words("scale", scale=self.scale[1]), "", (practice,))
        foot = float(self.ends.up) + sketch.paper(0.42) if self.ends.walls else sketch.paper(0.2)
        top = sketch.head(foot, head)
        return sketch.scene(f"{name}: {title}".strip(": "), y - sketch.paper(0.04), top)

    # The wood -------------------------------------------------------------------------------------------

    def _walls(self) -> None:
        sketch, ends, view = self.sketch, self.ends, self.view
        left, right, top = float(ends.left), float(ends.right), float(ends.up)
        sketch.text(max(left, sketch.left), top + sketch.paper(0.2), view.words("map walls"), BODY, bold=True)
        sketch.add(Line("PLATE", (left, 0.0), (right, 0.0)), Line("PLATE", (left, PLATE), (right, PLATE)))
        for stud in view.studs.values():
            at = float(stud)
            if left < at < right:
                sketch.add(Line("STUD-BEFORE", (at, PLATE), (at, top - sketch.pt(3))))
        corners = [0.0] if view.width is None else [0.0, float(view.width)]
        for corner in corners:
            if left <= corner <= right:
                sketch.add(Line("CORNER", (corner, 0.0), (corner, top)))

    def _wall_names(self) -> None:
        """Each wall by its name, high on it where nothing else stands."""
        sketch, view = self.sketch, self.view
        left, right, top = float(self.ends.left), float(self.ends.right), float(self.ends.up)
        corners = [0.0] if view.width is None else [0.0, float(view.width)]
        ends_of = [left, *(c for c in corners if left < c < right), right]
        names = (["L"] if left < -3 else []) + ["B", "R"]
        if left >= -3:
            ends_of = ends_of[1:] if len(ends_of) > 2 else ends_of
        for wall, (a, b) in zip(names, pairwise(ends_of), strict=False):
            text = view.words(f"wall {wall}")
            wide, tall = sketch.wide(text, SMALL) + sketch.pt(4), sketch.pt(SMALL)
            for share in (0.5, 0.3, 0.7, 0.2, 0.8):
                x, y = a + (b - a) * share, top - sketch.pt(6)
                box = Box(x - wide / 2, y - tall / 2, x + wide / 2, y + tall / 2)
                within = a <= box.left and box.right <= b
                if within and not any(box.meets(other) for other in self.taken):
                    self.taken.append(box)
                    sketch.text(x, y, text, SMALL, anchor="middle", middle=True, halo=True)
                    break

    def _floor(self, part: str) -> None:
        sketch, ends, view = self.sketch, self.ends, self.view
        y, right = self.origin[part], float(ends.right)
        front = y - float(ends.out[part])
        several = len(ends.floors) > 1
        key = "map floor layer" if several or part != "floor 1" else "map floor"
        text = view.words(key, layer=part[6:])
        sketch.text(sketch.left, y + sketch.paper(0.47), text, BODY, bold=True)
        sketch.add(Line("CORNER", (0.0, y), (right, y)), Line("CORNER", (0.0, y), (0.0, front)))
        if view.width is not None and float(view.width) <= right:
            wall = float(view.width)
            sketch.add(Line("CORNER", (wall, y), (wall, front)))
        for name, at in view.joists.items():
            x = float(at)
            if 0 < x < right - sketch.pt(2):
                sketch.add(Line("JOIST", (x, y - sketch.pt(1)), (x, front)))
                made = sketch.text(x, front - sketch.pt(9), name, SMALL, anchor="middle")
                self.taken.append(made.box)
        patch = next((each for each in view.found.patches if f"floor {each.layer}" == part), None)
        if patch is not None:
            self._patch(part, patch, front)

    def _patch(self, part: str, patch: Patch, front: float) -> None:
        """The rectangle to open; a side not known yet is left open, with an arrow."""
        sketch, y, right = self.sketch, self.origin[part], float(self.ends.right)
        x0 = 0.0 if patch.left is None else float(patch.left)
        x1 = right - sketch.pt(8) if patch.right is None else float(patch.right)
        y0 = y if patch.back is None else y - float(patch.back)
        y1 = front + sketch.pt(8) if patch.front is None else y - float(patch.front)
        sides = (
            (patch.left, (x0, y0), (x0, y1), (-1.0, 0.0)),
            (patch.right, (x1, y0), (x1, y1), (1.0, 0.0)),
            (patch.back, (x0, y0), (x1, y0), (0.0, 1.0)),
            (patch.front, (x0, y1), (x1, y1), (0.0, -1.0)),
        )
        for known, a, b, way in sides:
            if known is not None:
                sketch.add(Line("CUT", a, b))
            else:
                self._arrow(((a[0] + b[0]) / 2, (a[1] + b[1]) / 2), way)
        for level, side in enumerate(sorted({each for each in (patch.left, patch.right) if each}), 1):
            self._dimension((0.0, y), (float(side), y), "x", y + sketch.paper(0.04 + 0.19 * level), side)
        for level, side in enumerate(sorted({each for each in (patch.back, patch.front) if each}), 1):
            self._dimension((0.0, y), (0.0, y - float(side)), "y", -sketch.paper(0.04 + 0.19 * level), side)

    def _dimension(self, a: Point, b: Point, axis: Literal["x", "y"], level: float, value: Fraction) -> None:
        """From the corner; where the figure has no room on its line it stands past the end."""
        sketch, text = self.sketch, length(abs(value), self.view.unit)
        wide = sketch.wide(text, SMALL)
        dim = Dim(a, b, axis, level, text, sketch.pt(SMALL), shown=wide < abs(float(value)) * 0.9)
        sketch.add(dim)
        if dim.label is not None:
            self.taken.append(dim.label.box)
            return
        past = sketch.pt(5) + wide / 2
        if axis == "x":
            x = b[0] + (past if b[0] >= a[0] else -past)
            made = sketch.text(x, level, text, SMALL, anchor="middle", middle=True, halo=True)
        else:
            made = sketch.text(
                level, b[1] - past, text, SMALL, anchor="middle", turned=True, middle=True, halo=True
            )
        self.taken.append(made.box)

    # Cut lines ------------------------------------------------------------------------------------------

    def _cut(self, cut: CutLine) -> None:
        """Of plates, studs and joists; the floor's own rectangle is drawn with it."""
        if cut.line.startswith("subfloor"):
            return
        spot = self.view.spot(cut.line, cut.bad.at if cut.at is None else cut.at)
        if spot is None:
            return
        sketch, (x, y) = self.sketch, self.at(*spot)
        along = (1.0, 0.0) if cut.line.startswith("plate") else (0.0, 1.0)
        if spot[0] != "walls":
            along = (0.0, -1.0)
        sign = 1.0 if cut.side == "high" else -1.0
        if cut.at is None:
            off = sketch.pt(ROUND + 2)
            self._arrow(
                (x + along[0] * sign * off, y + along[1] * sign * off), (along[0] * sign, along[1] * sign)
            )
            return
        if cut.end:
            return
        half = sketch.pt(8)
        if along[0]:
            sketch.add(Line("CUT", (x, -half / 2), (x, PLATE + half)))
            levels = self._level(x)
            self._dimension((0.0, 0.0), (x, 0.0), "x", -sketch.paper(0.1 + 0.19 * levels), cut.at)
        else:
            sketch.add(Line("CUT", (x - half, y), (x + half, y)))
            self._beside_cut(x + half, y, length(cut.at, self.view.unit))

    def _level(self, x: float) -> int:
        """Cut lines to one side of the corner are dimensioned one under the other, the nearest first."""
        plate = [
            c.at
            for c in self.view.found.cuts
            if c.line.startswith("plate") and c.at is not None and not c.end
        ]
        spots = [self.view.spot("plate", at) for at in plate]
        same = sorted({abs(float(s[1][0])) for s in spots if s is not None and (s[1][0] < 0) == (x < 0)})
        return 1 + next((n for n, at in enumerate(same) if abs(at - abs(x)) < 1e-9), 0)

    def _beside_cut(self, x: float, y: float, text: str) -> None:
        sketch = self.sketch
        made = sketch.text(x + sketch.pt(2), y, text, SMALL, middle=True, halo=True)
        self.taken.append(made.box)

    def _arrow(self, at: Point, way: Point) -> None:
        """Open further: no dry reading that way."""
        reach, wing = self.sketch.pt(15), self.sketch.pt(4)
        tip = (at[0] + way[0] * reach, at[1] + way[1] * reach)
        across = (way[1], way[0])
        head = tuple(
            (
                (
                    tip[0] - way[0] * wing + s * across[0] * wing,
                    tip[1] - way[1] * wing + s * across[1] * wing,
                ),
                tip,
            )
            for s in (-1, 1)
        )
        self.sketch.add(Strokes("MARK", ((at, tip), *head)))
        xs, ys = sorted((at[0], tip[0])), sorted((at[1], tip[1]))
        self.taken.append(Box(xs[0], ys[0], xs[1], ys[1]).grown(wing))

    def _probe(self) -> None:
        cut = self.view.found.probe
        if cut is None or cut.probe is None:
            return
        spot = self.view.spot(cut.line, cut.probe.at)
        if spot is None:
            return
        sketch, at = self.sketch, self.at(*spot)
        for radius in (ROUND * 1.9, ROUND * 2.6):
            sketch.add(Circle("MARK", at, sketch.pt(radius)))
        self.taken.append(Box(*at, *at).grown(sketch.pt(ROUND * 2.6)))
        self._place_text(at, self.view.words("read next"), sketch.pt(ROUND * 2.6), bold=True)

    # Points ---------------------------------------------------------------------------------------------

    def _point(self, each: Placed) -> None:
        sketch, (x, y) = self.sketch, self.at(each.part, each.at)
        by = sketch.pt(ROUND)
        self.taken.append(Box(x - by, y - by, x + by, y + by))
        if each.mark == "out":
            cross = (((x - by, y - by), (x + by, y + by)), ((x - by, y + by), (x + by, y - by)))
            sketch.add(Strokes("MARK", cross))
        else:
            sketch.add(Circle("READING", (x, y), by, fill=0.0 if each.mark == "bad" else 1.0))

    def _figure(self, each: Placed) -> None:
        bold = each.mark in ("bad", "unknown")
        self._place_text(self.at(each.part, each.at), each.text, self.sketch.pt(ROUND), bold=bold)

    def _place_text(self, at: Point, text: str, off: float, bold: bool) -> None:
        """Beside a mark, where nothing else stands."""
        sketch = self.sketch
        wide, tall = sketch.wide(text, SMALL, bold) + sketch.pt(2), sketch.pt(SMALL) * 1.05
        side, over = off + sketch.pt(2) + wide / 2, off + sketch.pt(2) + tall / 2
        page = Box(sketch.left, -1e6, sketch.right, 1e6)
        spots = (
            (side, 0.0),
            (0.0, over),
            (0.0, -over),
            (-side, 0.0),
            (side, over),
            (side, -over),
            (-side, over),
        )
        for dx, dy in spots:
            x, y = at[0] + dx, at[1] + dy
            box = Box(x - wide / 2, y - tall / 2, x + wide / 2, y + tall / 2)
            if page.holds(box) and not any(box.meets(other) for other in self.taken):
                break
        else:
            free = free_spot(at, wide, tall, sketch.pt(6), self.taken, page)
            if free is None:
                return
            box = free
            sketch.add(Line("LEADER", at, ((box.left + box.right) / 2, (box.bottom + box.top) / 2)))
        self.taken.append(box)
        x, y = (box.left + box.right) / 2, (box.bottom + box.top) / 2
        sketch.text(x, y, text, SMALL, bold=bold, anchor="middle", middle=True, halo=True)

    # Under it -------------------------------------------------------------------------------------------

    def _lines(self) -> Iterator[str]:
        view, words = self.view, self.view.words
        yield words("map key")
        yield words("map cuts")
        for key, spots in self._cut_words():
            if spots:
                yield words(key, spots="; ".join(spots))
        for patch in view.found.patches:
            yield patch_line(patch, view.unit, words)
        cut = view.found.probe
        if cut is not None and cut.probe is not None:
            key = "map next" if cut.at is not None else "map next open"
            yield words(key, place=view.words_of(cut.line, cut.probe.at))
        elif view.found.cuts:
            yield words("map settled")
        for number in sorted({each.patch for each in view.found.points if each.patch}):
            names = [view.names[each.name] for each in view.found.points if each.patch == number]
            yield words("map goes out", number=number, list="; ".join(names))
        if view.elsewhere:
            yield words("map elsewhere", list=", ".join(view.elsewhere))

    def _cut_words(self) -> Sequence[tuple[str, list[str]]]:
        view = self.view
        cuts = [cut for cut in view.found.cuts if not cut.line.startswith("subfloor")]
        # a stud that is open down to its foot stands on the plate, which has lines of its own
        cuts = [cut for cut in cuts if not (cut.end and cut.side == "low" and cut.line.startswith("stud"))]
        to = [view.words_of(c.line, c.at) for c in cuts if c.at is not None and not c.end]
        end = [view.words_of(c.line, c.bad.at) for c in cuts if c.at is not None and c.end]
        past = [view.words_of(c.line, c.bad.at) for c in cuts if c.at is None]
        return (("map to", to), ("map end", end), ("map past", past))
