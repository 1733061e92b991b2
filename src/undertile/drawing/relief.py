"""Relief of a wall before and after the work, side by side at one scale: a client sees it at a glance.

Dark crossed hatching sticks out, light level lines lie hollow, white is true. The studs stand over it, bent
as they are but many times as much, and the sheet says how many.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise

from undertile.drawing.contour import Triangle, band_hatch, level_lines, triangles
from undertile.drawing.hatching import lines_inside
from undertile.drawing.metrics import fitted
from undertile.drawing.placing import spread
from undertile.drawing.scene import Box, Circle, Line, Poly, Scene, Strokes
from undertile.drawing.sheet import BODY, NAME, SMALL, WIDTH, Head, Sheet, Sketch, scale_for
from undertile.drawing.walldata import Room, in_doubt
from undertile.lengths import MM, Unit
from undertile.survey.result import WallOffsets

LEVELS: dict[Unit, tuple[Fraction, ...]] = {
    "in": (Fraction(1, 16), Fraction(1, 8), Fraction(1, 4), Fraction(1, 2)),
    "mm": (Fraction(3, 2) * MM, 3 * MM, 6 * MM, 12 * MM),
}
"""Contours, the same on every sheet so that walls compare; within the first a wall is true. [in]"""
GAPS = (0.1, 0.066, 0.044, 0.03)
"""Between the hatch lines of each band. [in of paper]"""
TIMES = (48, 40, 32, 24, 20, 16, 12, 10, 8, 6, 5, 4, 3, 2, 1)
FAR = 1e6
"""Farther than any wall is out. [in]"""
PANEL_GAP = 0.45
"""Between the two walls. [in of paper]"""


@dataclass(frozen=True)
class Surface:
    """A face as its residuals from a plane: ``values[stud][height]``. [in]"""

    values: tuple[tuple[Fraction, ...], ...]
    unread: tuple[tuple[int, int], ...] = ()

    @property
    def extremes(self) -> tuple[Fraction, Fraction]:
        """Most hollow and most proud. [in]"""
        flat = [value for row in self.values for value in row]
        return min(flat), max(flat)


def relief_sheets(room: Room) -> list[Sheet]:
    """One for each wall that was read on at least two studs and two heights."""
    out = []
    for name in room.walls:
        wall = next((w for w in room.survey.walls if w.name == name), None)
        if wall is not None and len(wall.studs) > 1 and len(wall.heights) > 1 and _spread(wall):
            title = room.words("relief", wall=room.words(f"wall {name}"))
            out.append(Sheet(f"relief-{name}", title, _Relief(room, wall).scene(title)))
    return out


def _spread(wall: WallOffsets) -> bool:
    """Whether the studs stand at places of their own; two at one place make no face."""
    alongs = [stud.along for stud in wall.studs]
    return len(set(alongs)) == len(alongs) and len(set(wall.heights)) == len(wall.heights)


class _Relief:
    """Both faces of one wall."""

    def __init__(self, room: Room, wall: WallOffsets) -> None:
        self.room, self.wall = room, wall
        members = {m.name: m for m in room.plan.members if m.wall == wall.name}
        self.planned = all(stud.name in members for stud in wall.studs)
        studs = wall.studs
        unread = tuple(
            (i, j) for i, stud in enumerate(studs) for j, at in enumerate(stud.offsets) if at.state != "read"
        )
        if self.planned:
            plans = [members[stud.name] for stud in studs]
            self.before = Surface(
                tuple(tuple(o - t for o, t in zip(m.offsets, m.target, strict=True)) for m in plans), unread
            )
            self.after: Surface | None = Surface(
                tuple(tuple(f - t for f, t in zip(m.finished, m.target, strict=True)) for m in plans)
            )
        else:
            self.before = Surface(tuple(tuple(at.value for at in stud.offsets) for stud in studs), unread)
            self.after = None
        self.side = -1.0 if wall.name == "L" else 1.0
        order = range(len(studs)) if self.side > 0 else range(len(studs) - 1, -1, -1)
        self.order = list(order)
        self.xs = [self.side * float(studs[i].along) for i in self.order]
        self.ys = [float(height) for height in wall.heights]
        self.levels = LEVELS[room.unit]
        self.doubts = self._doubts()
        wide = (self.xs[-1] - self.xs[0]) + 6.0
        panels = 2 if self.after is not None else 1
        tall = self.ys[-1] - self.ys[0] + 6.0
        fits = ((WIDTH - PANEL_GAP * (panels - 1)) / panels - 0.35, 5.4)
        found = scale_for(wide, tall, fits, room.unit) or (1200, "1:1200")
        self.scale, self.scale_name = found
        self.sketch = Sketch(self.scale, room.unit, room.words, 0.0)
        self.times = self._times()

    def _doubts(self) -> list[tuple[int, int]]:
        """Readings in doubt, as stud and height."""
        doubts = set(self.room.doubts)
        return [
            (i, j)
            for i, stud in enumerate(self.wall.studs)
            for j, at in enumerate(stud.offsets)
            if in_doubt(stud.name, at.height, doubts)
        ]

    def _times(self) -> int:
        """How much the studs can be bent and stay apart."""
        low, high = self.before.extremes
        most = float(max(-low, high))
        near = min((b - a for a, b in pairwise(self.xs)), default=12.0)
        room = max(min(near, 12.0) * 0.4, self.sketch.paper(0.08))
        return next((t for t in TIMES if t * most <= room), 1) if most else 1

    def scene(self, title: str) -> Scene:
        """Both panels, their words, and the key."""
        sketch, words, job = self.sketch, self.room.words, self.room.job
        wide = self.xs[-1] - self.xs[0]
        panels: list[tuple[str, Surface]] = [("before wall", self.before)]
        if self.after is not None:
            panels.append(("after wall", self.after))
        each = (sketch.right - sketch.left - sketch.paper(PANEL_GAP) * (len(panels) - 1)) / len(panels)
        for i, (key, surface) in enumerate(panels):
            left = sketch.left + i * (each + sketch.paper(PANEL_GAP))
            shift = left + (each - wide) / 2 - self.xs[0]
            self._panel(surface, shift)
            self._caption(key, surface, left, left + each)
        bottom = self._key(self.ys[0] - 3.0 - sketch.paper(0.3))
        says = [words("from plane" if self.planned else "from nominal")]
        says.append(words("bent", times=self.times))
        if self.before.unread:
            says.append(words("unread spot"))
        head = Head(
            title,
            job.name,
            job.place,
            words("scale", scale=self.scale_name),
            self.room.warning(amounts=self.planned),
            tuple(says),
        )
        top = sketch.head(self.ys[-1] + 3.0 + sketch.paper(0.62), head)
        return sketch.scene(f"{job.name}: {title}".strip(": "), bottom, top)

    def _panel(self, surface: Surface, shift: float) -> None:
        """One wall: frame, hatches, contours, bent studs."""
        sketch = self.sketch
        xs = [x + shift for x in self.xs]
        values = [[float(value) for value in surface.values[i]] for i in self.order]
        faces = list(triangles(xs, self.ys, values))
        low, high = (float(each) for each in surface.extremes)
        frame = Box(xs[0] - 3.0, self.ys[0] - 3.0, xs[-1] + 3.0, self.ys[-1] + 3.0)
        sketch.add(Poly("FRAME", frame.corners, closed=True, fill=1.0))
        self._hatch(faces, low, high)
        lines = []
        for level in map(float, self.levels):
            lines += level_lines(faces, level) if level < high else []
            lines += level_lines(faces, -level) if level < -low else []
        if lines:
            sketch.add(Strokes("CONTOUR", tuple(lines)))
        for x, row in zip(xs, values, strict=True):
            sketch.add(Line("HEIGHT", (x, self.ys[0]), (x, self.ys[-1])))
            points = tuple((x + self.times * value, y) for value, y in zip(row, self.ys, strict=True))
            sketch.add(Poly("STUD-LINE", points))
        for i, j in surface.unread:
            at = (xs[self.order.index(i)], self.ys[j])
            sketch.add(Circle("STUD-LINE", at, sketch.paper(0.05), 1.0))
        if surface is self.before:
            for i, j in self.doubts:
                at = (xs[self.order.index(i)], self.ys[j])
                sketch.text(*at, "!", NAME, bold=True, anchor="middle", middle=True, halo=True)
        self._names(xs, frame.bottom - sketch.pt(SMALL) * 1.15)

    def _names(self, xs: Sequence[float], y: float) -> None:
        """The studs' names under the wall, as many as there is room for."""
        sketch = self.sketch
        for step in range(1, len(xs) + 1):
            shown = list(zip(xs, self.order, strict=True))[::step]
            sizes = [sketch.wide(self.wall.studs[i].name, SMALL) + sketch.pt(4) for _, i in shown]
            places = spread([x for x, _ in shown], sizes) or []
            if all(abs(place - x) < sketch.paper(0.12) for place, (x, _) in zip(places, shown, strict=True)):
                break
        for place, (_, i) in zip(places, shown, strict=True):
            sketch.text(place, y, self.wall.studs[i].name, SMALL, anchor="middle")

    def _hatch(self, faces: Sequence[Triangle], low: float, high: float) -> None:
        """Denser the farther from true."""
        ends = [*map(float, self.levels[1:]), FAR]
        for near, far, gap in zip(map(float, self.levels), ends, GAPS, strict=True):
            gap = self.sketch.paper(gap)
            if near < high:
                lines = [line for angle in (45.0, 135.0) for line in band_hatch(faces, near, far, angle, gap)]
                self.sketch.add(*([Strokes("PROUD", tuple(lines))] if lines else []))
            if near < -low:
                lines = band_hatch(faces, -far, -near, 0.0, gap)
                self.sketch.add(*([Strokes("BACK", tuple(lines))] if lines else []))

    def _caption(self, key: str, surface: Surface, left: float, right: float) -> None:
        """What the panel is and how far it is out, in a word."""
        sketch, words, room = self.sketch, self.room.words, self.room
        low, high = surface.extremes
        y = self.ys[-1] + 3.0 + sketch.paper(0.48)
        sketch.text(
            left, y - sketch.pt(2), fitted(words(key), sketch.pt(NAME), right - left, True), NAME, bold=True
        )
        out = [words("out", amount=room.amount(high))] if high > 0 else []
        out += [words("hollow", amount=room.amount(-low))] if low < 0 else []
        said = ", ".join(out) or words("true")
        if out and max(high, -low) <= self.levels[0]:
            said = words("all true", amount=room.amount(self.levels[0]))
        sketch.text(left, y - sketch.paper(0.2), fitted(said, sketch.pt(BODY), right - left), BODY)

    def _key(self, y: float) -> float:
        """Hatches by how far they are out."""
        sketch, words, room = self.sketch, self.room.words, self.room
        surfaces = [self.before, *([self.after] if self.after is not None else [])]
        low = min(surface.extremes[0] for surface in surfaces)
        high = max(surface.extremes[1] for surface in surfaces)
        box_wide, box_tall = sketch.paper(0.42), sketch.paper(0.24)
        y -= sketch.paper(0.05)
        wide = max(sketch.wide(words(key), BODY, True) for key in ("sticks out", "lies hollow"))
        for head, most, layer, angles in (
            ("sticks out", high, "PROUD", (45.0, 135.0)),
            ("lies hollow", -low, "BACK", (0.0,)),
        ):
            if most <= self.levels[0]:
                continue
            x = sketch.left
            sketch.text(x, y - box_tall / 2, words(head), BODY, bold=True, middle=True)
            x += wide + sketch.paper(0.15)
            for level, gap in zip(self.levels, GAPS, strict=True):
                if level >= most:
                    break
                box = Box(x, y - box_tall, x + box_wide, y)
                sketch.add(Poly("FRAME", box.corners, closed=True, fill=1.0))
                lines = [
                    line for angle in angles for line in lines_inside(box.corners, angle, sketch.paper(gap))
                ]
                sketch.add(Strokes(layer, tuple(lines)))
                text = words("over", amount=room.amount(level))
                x += box_wide + sketch.paper(0.06)
                sketch.text(x, y - box_tall / 2, text, SMALL, middle=True)
                x += sketch.wide(text, SMALL) + sketch.paper(0.12)
            y -= box_tall + sketch.paper(0.09)
        return sketch.paragraph(y, words("true within", amount=room.amount(self.levels[0])), BODY)
