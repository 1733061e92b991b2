"""A stretch of one wall at one scale: what is drawn where, from the tags' places down to the last leader."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from undertile.cutting.lengths import PLATE
from undertile.drawing import tags
from undertile.drawing.placing import free_spot, spread
from undertile.drawing.scene import Box, Circle, Dim, Hatch, Line, Point, Poly, Strokes
from undertile.drawing.sheet import LEADING, NAME, SMALL, WIDTH, Sketch
from undertile.drawing.walldata import Entry, Room, Spot, StudView, WallView
from undertile.framing.plan import Piece
from undertile.lengths import MM

RIGHT = 0.98
"""Room right of the studs, for the flange and the top. [in of paper]"""
PAST = 3.0
"""What is drawn of the wall beyond its last stud. [in]"""
UNKNOWN_TOP = 96.0
"""Drawn height of a wall of which no height is known: the lines are broken there. [in]"""


@dataclass(frozen=True)
class Stretch:
    """The part of a wall that one sheet shows."""

    studs: tuple[StudView, ...]
    spots: tuple[Spot, ...]
    number: int
    of: int
    opens: bool
    ends: bool


def measure_on(room: Room) -> Sketch:
    """A sketch at full size, to measure text on."""
    return Sketch(1.0, room.unit, room.words, 0.0)


def left_room(room: Room, view: WallView) -> float:
    """Room left of the studs, for the heights. [in of paper]"""
    return max([0.55, *(label_wide(room, height) for height in view.heights)]) + 0.22


def label_wide(room: Room, height: Fraction) -> float:
    """Width of a height's figure. [in of paper]"""
    return measure_on(room).wide(room.place(height), NAME, True)


def column(room: Room, probe: Sketch, stud: StudView, bars: int) -> float:
    """Room one stud takes, with bars of its own column's. [in of paper]"""
    sizes = [tags.entry_size(probe, row) for row in stud.entries]
    sizes.append(probe.wide(stud.name, NAME + 1, True))
    sizes.append(probe.wide(room.place(stud.along), SMALL, True))
    sizes += [probe.wide(word, SMALL) for word in tags.foot_words(stud, room.words, room.unit)]
    sizes.append(2 * (0.1 + tags.BAR * bars))
    return max(sizes) + 0.07


def bars_on(room: Room, stud: StudView, top: float) -> list[tags.Bar]:
    """Strips and the rest of one stud."""
    return tags.bars_of(stud, top, room.words, room.unit, late(room, stud))


def late(room: Room, stud: StudView) -> tuple[Piece, ...]:
    """Strips that wait until the pan is set (convention 3.5)."""
    if stud.member is None:
        return ()
    return room.waits.get(stud.name, ())


def top_of(view: WallView) -> float:
    """Height the studs are drawn to. [in]"""
    if view.top is not None:
        return float(view.top)
    return float(view.heights[-1]) + 6.0 if view.heights else UNKNOWN_TOP


def extent(view: WallView, stretch: Stretch) -> tuple[float, float]:
    """From where to where along the wall a sheet shows. [in]"""
    places = [float(stud.along) for stud in stretch.studs] + [float(spot.along) for spot in stretch.spots]
    low, high = min(places), max(places)
    return (min(0.0, low) if stretch.opens else low) - PAST, high + PAST


class Elevation:
    """One stretch of a wall at one scale."""

    def __init__(self, room: Room, view: WallView, stretch: Stretch, times: float) -> None:
        self.room, self.view, self.stretch = room, view, stretch
        self.side = -1.0 if view.name == "L" else 1.0
        low, high = sorted(self.side * at for at in extent(view, stretch))
        self.low, self.high = low, high
        self.margin = left_room(room, view)
        fits = (WIDTH - self.margin - RIGHT) * times
        middle = (low + high) / 2
        self.sketch = Sketch(times, room.unit, room.words, middle - fits / 2 - self.margin * times)
        self.inner = (self.sketch.left + self.margin * times, self.sketch.right - RIGHT * times)
        self.top = top_of(view)
        facing = sorted(stretch.studs, key=lambda stud: self.x(stud.along))
        self.half = float(tags.STUD_WIDE if room.unit == "in" else 38 * MM) / 2
        probe = measure_on(room)
        self.bar_wide = self._bar_widths(facing)
        sizes = [
            column(room, probe, stud, 0 if self.bar_wide[stud.name] else len(bars_on(room, stud, 1.0)))
            * times
            for stud in facing
        ]
        centres = spread([self.x(stud.along) for stud in facing], sizes, *self.inner)
        self.studs = list(zip(facing, centres or [self.x(stud.along) for stud in facing], strict=True))
        self.rows = self._rows()

    def x(self, along: Fraction) -> float:
        """Along the wall as a person faces it. [in]"""
        return self.side * float(along)

    def _bar_widths(self, facing: Sequence[StudView]) -> dict[str, float]:
        """How wide the bars of each stud can be between it and the next; 0 where there is no room. [in]"""
        out = {}
        places = [self.x(stud.along) for stud in facing]
        for stud, x, after in zip(facing, places, [*places[1:], self.inner[1]], strict=True):
            count = max(1, len(bars_on(self.room, stud, 1.0)))
            free = (after - x - 2 * self.half - self.sketch.paper(0.03)) / count
            out[stud.name] = 0.0 if free < self.sketch.paper(0.05) else min(free, self.sketch.paper(tags.BAR))
        return out

    def _rows(self) -> list[float]:
        """Where the tags of each height stand. [in]"""
        count = len(self.view.heights)
        lines = [max((len(s.entries[h]) for s in self.stretch.studs), default=1) for h in range(count)]
        sizes = [self.sketch.paper(tags.ROW * n + 0.03) for n in lines]
        wanted = [float(height) for height in self.view.heights]
        return spread(wanted, sizes, low=self.sketch.paper(0.0)) or wanted

    def draw(self) -> float:
        """Everything but head and foot; gives the y under it and sets ``ceiling``, the y over it. [in]"""
        boxes = self._tag_boxes()
        self._wall()
        words = self._bars(boxes)
        self._leaders(boxes)
        balloons = self._balloons([*boxes.values(), *words])
        self._dots(balloons)
        for (x, y), row in self._tag_places().values():
            tags.draw_tag(self.sketch, x, y, row)
        below = self._under()
        self._names()
        for _, box, number, spot in balloons:
            tags.draw_balloon(self.sketch, box, number, spot.layer)
        return below

    def _tag_places(self) -> dict[tuple[str, int], tuple[Point, Sequence[Entry]]]:
        """Middle of each tag and what stands in it, by stud and height."""
        return {
            (stud.name, h): ((x, self.rows[h]), row)
            for stud, x in self.studs
            for h, row in enumerate(stud.entries)
        }

    def _tag_boxes(self) -> dict[tuple[str, int], Box]:
        out = {}
        for key, ((x, y), row) in self._tag_places().items():
            wide = self.sketch.paper(tags.entry_size(self.sketch, row)) / 2
            tall = self.sketch.paper(tags.ROW * len(row)) / 2
            out[key] = Box(x - wide, y - tall, x + wide, y + tall)
        return out

    def _wall(self) -> None:
        """Subfloor, top, heights, the flange zone, the corner, and the studs as they stand."""
        sketch, words = self.sketch, self.room.words
        known = self.view.top is not None
        for height, row in zip(self.view.heights, self.rows, strict=True):
            y = float(height)
            sketch.add(Line("HEIGHT", (self.low, y), (self.high, y)))
            self._margin_leader(y, row)
            sketch.text(
                sketch.left + sketch.paper(self.margin - 0.2),
                row,
                self.room.place(height),
                NAME,
                bold=True,
                anchor="end",
                middle=True,
            )
        plate = Box(self.low, 0.0, self.high, float(PLATE))
        sketch.add(Poly("PLATE", plate.corners, closed=True, fill=1.0))
        sketch.text(sketch.left, -sketch.pt(SMALL) * 0.9, words("subfloor"), SMALL - 1)
        sketch.add(Line("PLATE" if known else "HEIGHT", (self.low, self.top), (self.high, self.top)))
        flange = self.view.flange
        if flange is not None:
            y = float(flange)
            sketch.add(Line("FLANGE-ZONE", (self.low, y), (self.high, y)))
            x = self.inner[1] + sketch.paper(0.3)
            sketch.add(Line("LEADER", (self.high, y), (x - sketch.paper(0.03), y)))
            sketch.text(x, y, words("flange"), SMALL)
            sketch.text(x, y - sketch.pt(SMALL), self.room.amount(flange), SMALL)
        if self.stretch.opens:
            sketch.add(Line("CORNER", (0.0, 0.0), (0.0, self.top)))
        for spot in self.stretch.spots:
            if spot.height is None:
                x = self.x(spot.along)
                sketch.add(Line("EDGE", (x, 0.0), (x, self.top)))
        for stud, _ in self.studs:
            x = self.x(stud.along)
            box = Box(x - self.half, float(PLATE), x + self.half, self.top)
            sketch.add(Poly("STUD", box.corners, closed=True, fill=1.0))
            for run in _planed(stud, box.bottom, self.top):
                ground = tuple((box.left + share * (box.right - box.left), y) for share, y in run)
                sketch.add(Hatch("TAKE-OFF", ground, 45.0, sketch.paper(0.045), cross=True))
        if known and self.view.top is not None:
            level = self.inner[1] + sketch.paper(0.14)
            top = self.room.amount(self.view.top)
            sketch.add(Dim((self.high, 0.0), (self.high, self.top), "y", level, top, sketch.pt(SMALL)))

    def _margin_leader(self, y: float, row: float) -> None:
        """From a height's figure in the margin to its line."""
        sketch = self.sketch
        start = sketch.left + sketch.paper(self.margin - 0.17)
        sketch.add(Line("LEADER", (start, row), (min(start + sketch.paper(0.12), self.low), y)))
        if self.low > start + sketch.paper(0.12):
            sketch.add(Line("LEADER", (start + sketch.paper(0.12), y), (self.low, y)))

    def _bars(self, boxes: dict[tuple[str, int], Box]) -> list[Box]:
        """Strips and the rest, beside each stud or, where studs crowd, under its tags; where words stand."""
        placed = []
        for stud, x in self.studs:
            wide = self.bar_wide[stud.name]
            left = (self.x(stud.along) if wide else x) + self.half
            wide = wide or self.sketch.paper(tags.BAR)
            for bar in bars_on(self.room, stud, self.top):
                tags.draw_bar(self.sketch, left, wide, bar)
                placed.append((left, wide, bar))
                left += wide
        words: list[Box] = []
        for left, wide, bar in placed:
            ground = tags.write_bar(self.sketch, left, wide, bar, [*boxes.values(), *words])
            words += [ground] if ground is not None else []
        return words

    def _leaders(self, boxes: dict[tuple[str, int], Box]) -> None:
        """From a stud to the tags that could not stand on it."""
        sketch = self.sketch
        lines = []
        for stud, x in self.studs:
            at = self.x(stud.along)
            for h, height in enumerate(self.view.heights):
                box = boxes[stud.name, h]
                y = float(height)
                if not (box.left < at < box.right and box.bottom <= y <= box.top):
                    lines.append(((at, y), (min(max(at, box.left), box.right), self.rows[h])))
            if abs(x - at) > self.half:
                lines.append(((at, self.top), (x, self.ceiling)))
                lines.append(((at, 0.0), (x, self.floor)))
        if lines:
            sketch.add(Strokes("LEADER", tuple(lines)))

    @property
    def ceiling(self) -> float:
        """Over the studs and the highest tag. [in]"""
        upper = self.rows[-1] + self.sketch.paper(tags.ROW) if self.rows else 0.0
        return max(self.top, upper) + self.sketch.paper(0.07)

    @property
    def floor(self) -> float:
        """Under the studs and the lowest tag. [in]"""
        lower = self.rows[0] - self.sketch.paper(tags.ROW) if self.rows else 0.0
        return min(0.0, lower)

    def _names(self) -> None:
        level = self.ceiling + self.sketch.pt(3)
        self.sketch.text(self.sketch.left, level, self.room.words("height"), SMALL)
        for stud, x in self.studs:
            self.sketch.text(
                x, self.ceiling + self.sketch.pt(3), stud.name, NAME + 1, bold=True, anchor="middle"
            )

    @property
    def above(self) -> float:
        """Where the head stands. [in]"""
        return self.ceiling + self.sketch.paper(0.27)

    def _under(self) -> float:
        """Dimensions, places and words under the studs."""
        sketch, words = self.sketch, self.room.words
        level = self.floor - sketch.paper(0.13)
        marks = [self.x(stud.along) for stud, _ in self.studs]
        exact = [stud.along for stud, _ in self.studs]
        if self.stretch.opens:
            at = len(marks) if self.side < 0 else 0
            marks.insert(at, 0.0)
            exact.insert(at, Fraction(0))
        for i in range(len(marks) - 1):
            a, b = marks[i], marks[i + 1]
            gap = abs(exact[i + 1] - exact[i])
            text = self.room.amount(gap, mark=self.room.unit == "in")
            shown = sketch.wide(text, SMALL) + sketch.pt(SMALL) < b - a
            if b > a:
                sketch.add(Dim((a, 0.0), (b, 0.0), "x", level, text, sketch.pt(SMALL), shown))
        y = level - sketch.paper(0.22)
        sketch.text(sketch.left, y, words("from corner"), SMALL - 1)
        for stud, x in self.studs:
            sketch.text(x, y, self.room.place(stud.along), SMALL, bold=True, anchor="middle", halo=True)
        lines = 0
        for stud, x in self.studs:
            under = tags.foot_words(stud, words, self.room.unit)
            lines = max(lines, len(under))
            for i, word in enumerate(under, 1):
                sketch.text(x, y - sketch.pt(SMALL) * LEADING * i, word, SMALL, anchor="middle")
        return y - sketch.pt(SMALL) * (LEADING * lines + 0.4)

    def _balloons(self, taken: list[Box]) -> list[tuple[Point, Box, str, Spot]]:
        """Where each thing in front is, and a place near it for its number where nothing else stands."""
        sketch = self.sketch
        size = sketch.paper(0.19)
        page = Box(self.inner[0], 0.0, self.inner[1] + sketch.paper(0.08), self.top)
        taken, out = list(taken), []
        for number, spot in numbered(self.stretch.spots):
            x = self.x(spot.along)
            if spot.height is None:
                y = next((y for y in self._down() if not _meets((x, y), size, taken)), self.top / 2)
            else:
                y = float(spot.height)
            box = free_spot((x, y), size, size, sketch.paper(0.1), taken, page)
            if box is None:
                box = Box(x - size / 2, y - size / 2, x + size / 2, y + size / 2)
            taken.append(box)
            out.append(((x, y), box, number, spot))
        return out

    def _down(self) -> list[float]:
        """Heights from near the top downward. [in]"""
        return [self.top * (0.96 - 0.02 * k) for k in range(40)]

    def _dots(self, balloons: list[tuple[Point, Box, str, Spot]]) -> None:
        """What the numbers stand for: a dot, and a line to its number."""
        for (x, y), box, _, spot in balloons:
            middle = ((box.left + box.right) / 2, (box.bottom + box.top) / 2)
            if spot.height is not None:
                self.sketch.add(Circle(spot.layer, (x, y), self.sketch.paper(0.04), 0.0))
                self.sketch.add(Line("LEADER", (x, y), middle))


def _meets(at: Point, size: float, taken: Sequence[Box]) -> bool:
    box = Box(at[0] - size / 2, at[1] - size / 2, at[0] + size / 2, at[1] + size / 2)
    return any(box.meets(other) for other in taken)


def _planed(stud: StudView, bottom: float, top: float) -> list[list[Point]]:
    """Where a stud is planed, as outlines: (share of its width from the left, height).

    Full width from the lowest to the highest height of a run with X, then to nothing at the next height
    without one, as the cut runs out; past the last height read on to the stud's end, as deep. [in]
    """
    member = stud.member
    if member is None or not member.recipe.passes:
        return []
    z = [float(height) for height in member.heights]
    cut = [h for h, depth in enumerate(member.recipe.depth) if depth > 0]
    runs: list[list[int]] = []
    for h in cut:
        if runs and runs[-1][-1] == h - 1:
            runs[-1].append(h)
        else:
            runs.append([h])
    out: list[list[Point]] = []
    for run in runs:
        first, last = run[0], run[-1]
        under = [(0.0, bottom), (1.0, bottom)] if first == 0 else [(0.0, z[first - 1]), (1.0, z[first])]
        over = [(1.0, top), (0.0, top)] if last == len(z) - 1 else [(1.0, z[last]), (0.0, z[last + 1])]
        out.append([*under, *over])
    return out


def numbered(spots: Sequence[Spot]) -> list[tuple[str, Spot]]:
    """Each spot with its number: letters are strips."""
    return [(f"{i}", spot) for i, spot in enumerate(spots, 1)]
