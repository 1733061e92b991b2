"""One point's chart in a rectangle: readings with give or take, the course and its band, goal, limit, days.

Labels stand at what they name; there is no legend, no grid and no colour. What is no number is no dot: an
arrow where the meter ended, an open dot where a number is not to be trusted, a cross on the foot where nobody
got to.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from undertile.drawing.dryingdata import STEP, Axes, Chart, Mark, axis_day
from undertile.drawing.placing import free_spot, spread
from undertile.drawing.scene import Anchor, Box, Circle, Line, Point, Poly, Segment, Strokes
from undertile.drawing.sheet import Sketch
from undertile.wood.say import goal_text, up
from undertile.wood.typed import day_text

DENSE = 30
"""Marks from which a chart draws lines in place of dots: more would be one blot."""
PER_COLUMN = 1.4
"""Of many marks the highest and lowest in so much of paper are drawn. [pt]"""
DOT, OPEN = 1.9, 2.2
"""Radius. [pt]"""
FOOT = 11.0
"""Room for the days under a chart. [pt]"""


_Named = tuple[float, str, str, bool]
"""Height, name and figure of a level, and whether they are bold."""


@dataclass(frozen=True)
class Look:
    """How large things are: on a small multiple, or on a sheet of its own. [pt]"""

    type: float
    gutter: float
    past: float
    every: bool

    @property
    def line(self) -> float:
        """Room for one line of type. [pt]"""
        return self.type * 1.12


SMALL_LOOK = Look(8.0, 24.0, 6.0, every=False)
LARGE_LOOK = Look(9.0, 24.0, 76.0, every=True)


class Plot:
    """A chart on a sketch, its numbers inside ``box``. ``box`` holds gutter and foot too."""

    def __init__(self, sketch: Sketch, box: Box, chart: Chart, axes: Axes, look: Look) -> None:
        self.sketch, self.chart, self.axes, self.look = sketch, chart, axes, look
        pt = sketch.pt
        self.box = box
        self.field = Box(
            box.left + pt(look.gutter), box.bottom + pt(FOOT), box.right - pt(look.past), box.top - pt(2)
        )
        self.taken: list[Box] = []

    # Numbers to places ----------------------------------------------------------------------------------

    def x(self, day: float) -> float:
        """Where a day lies."""
        field, axes = self.field, self.axes
        return field.left + (day - axes.first) / (axes.last - axes.first) * (field.right - field.left)

    def y(self, percent: float) -> float:
        """Where a moisture lies."""
        field, axes = self.field, self.axes
        return field.bottom + (percent - axes.low) / (axes.high - axes.low) * (field.top - field.bottom)

    # The drawing ----------------------------------------------------------------------------------------

    def draw(self) -> None:
        """Everything, from the back to the front."""
        self._air()
        self._course()
        self._levels()
        self._foot()
        self._marks()
        self._scale()
        self._values()

    def _air(self) -> None:
        """What wood comes to in the air of the visits, and in the air taken for the days to come."""
        if not self.look.every or not self.chart.air:
            return
        axes = self.axes
        days = [each for each in self.chart.air if axes.first <= each[0] <= axes.last]
        days += [(days[-1][0] if days else axes.first, self._held()), (axes.last, self._held())]
        self.sketch.add(Poly("AIR", tuple((self.x(day), self.y(held)) for day, held in days)))

    def _held(self) -> float:
        """What wood comes to in the air to come; of the last visit where no date was asked for. [percent]"""
        held = self.chart.verdict.forecast.air
        return self.chart.air[-1][1] if held is None else held

    def _course(self) -> None:
        line = self.chart.course
        if line is None:
            return
        stations = [*line.through, *line.ahead[1:]]
        stations = [each for each in stations if each.day <= self.axes.last + 1e-9]
        upper = [(self.x(each.day), self.y(min(each.high, self.axes.high))) for each in stations]
        lower = [(self.x(each.day), self.y(max(each.low, self.axes.low))) for each in stations]
        self.sketch.add(Poly("COURSE-BAND", (*upper, *lower[::-1]), closed=True, fill=0.86, outline=False))
        self.sketch.add(Poly("COURSE", tuple((self.x(each.day), self.y(each.middle)) for each in stations)))

    def _levels(self) -> None:
        """The goal and the limit, all the way across."""
        ends = self.field.left, self.field.right
        never = self.y(self.chart.never)
        self.sketch.add(Line("NEVER", (ends[0], never), (ends[1], never)))
        if self.chart.goal is not None:
            goal = self.y(self.chart.goal)
            self.sketch.add(Line("GOAL", (ends[0], goal), (ends[1], goal)))

    def _foot(self) -> None:
        """The days: a tick for each visit, a bar where it may be closed, and the names of both."""
        sketch, field, chart = self.sketch, self.field, self.chart
        sketch.add(Line("DAYS", (field.left, field.bottom), (field.right, field.bottom)))
        tick = sketch.pt(2.2)
        days = sorted({mark.day for mark in chart.marks})
        if len(days) <= DENSE:
            ticks = tuple(((self.x(d), field.bottom), (self.x(d), field.bottom - tick)) for d in days)
            if ticks:
                sketch.add(Strokes("DAYS", ticks))
        if chart.closes is not None:
            left, right = self.x(chart.closes[0]), min(self.x(chart.closes[1]), field.right)
            bar = Box(left, field.bottom - sketch.pt(1.6), max(right, left + sketch.pt(2)), field.bottom)
            bar = Box(bar.left, bar.bottom, bar.right, bar.top + sketch.pt(1.6))
            sketch.add(Poly("CLOSE", bar.corners, closed=True, fill=0.0))
        if chart.out is not None and self.axes.first <= chart.out <= self.axes.last:
            at = self.x(chart.out)
            sketch.add(Line("CUT", (at, field.bottom), (at, field.top)))
        self._day_names(days)

    def _day_names(self, days: Sequence[float]) -> None:
        """The days that matter, as many as have room, those of closing before those of reading."""
        sketch, chart = self.sketch, self.chart
        wanted: list[float] = []
        if chart.closes is not None:
            wanted += [chart.closes[1] - 0.5, chart.closes[0] + 0.5]
        if chart.out is not None:
            wanted.append(chart.out)
        wanted += [days[-1], days[0]] if days else []
        if self.look.every:
            wanted += days[1:-1]
        size = self.look.type
        year = day_text(self.axes.first)[:4] != day_text(self.axes.last)[:4]
        shown: list[tuple[float, str]] = []
        for day in wanted:
            text = axis_day(day, year=year)
            if any(text == other for _, other in shown):
                continue
            trial = sorted([*shown, (self.x(day), text)])
            places = self._spread(trial, size)
            off = [abs(p - w) for p, (w, _) in zip(places or [], trial, strict=False)]
            if places is not None and max(off) <= max(sketch.pt(14), sketch.wide(text, size) / 2):
                shown = trial
        for place, (_, text) in zip(self._spread(shown, size) or [], shown, strict=True):
            sketch.text(place, self.box.bottom + sketch.pt(1.5), text, size, anchor="middle")

    def _spread(self, shown: Sequence[tuple[float, str]], size: float) -> list[float] | None:
        if not shown:
            return []
        sizes = [self.sketch.wide(text, size) + self.sketch.pt(5) for _, text in shown]
        return spread([at for at, _ in shown], sizes, self.box.left, self.field.right + self.sketch.pt(6))

    # Readings -------------------------------------------------------------------------------------------

    def _marks(self) -> None:
        marks = [mark for mark in self.chart.marks if self.axes.first <= mark.day <= self.axes.last]
        read = [mark for mark in marks if mark.kind == "read"]
        dense = len(read) > DENSE
        if self.chart.course is None and not dense:
            self._links()
        bars = tuple(self._bar(mark) for mark in read if mark.spread is not None)
        if dense:
            columns = tuple(self._columns(read[:-1]))
            self.sketch.add(Strokes("READINGS", columns))
            self.taken += [Box(a[0], a[1], b[0], b[1]).grown(self.sketch.pt(1)) for a, b in columns]
            bars, read = bars[-1:], read[-1:]
        if bars:
            self.sketch.add(Strokes("GIVE-OR-TAKE", bars))
        for mark in read:
            assert mark.value is not None
            at = (self.x(mark.day), self.y(mark.value))
            self.sketch.add(Circle("READING", at, self.sketch.pt(DOT), fill=0.0))
        for mark in marks:
            if mark.kind != "read":
                self._odd(mark)

    def _bar(self, mark: Mark) -> Segment:
        assert mark.value is not None
        assert mark.spread is not None
        at = self.x(mark.day)
        low, high = (
            max(mark.value - mark.spread, self.axes.low),
            min(mark.value + mark.spread, self.axes.high),
        )
        return (at, self.y(low)), (at, self.y(high))

    def _columns(self, read: Sequence[Mark]) -> Iterator[Segment]:
        """Many readings: from the lowest to the highest within each hair of paper."""
        found: dict[int, list[float]] = {}
        step = self.sketch.pt(PER_COLUMN)
        for mark in read:
            if mark.value is not None:
                found.setdefault(int((self.x(mark.day) - self.field.left) / step), []).append(mark.value)
        least = self.sketch.pt(1.6) / 2
        for column, values in sorted(found.items()):
            at = self.field.left + (column + 0.5) * step
            yield (at, self.y(min(values)) - least), (at, self.y(max(values)) + least)

    def _links(self) -> None:
        """A thin line from reading to reading where nothing is fitted; none over a visit without a number."""
        before: Mark | None = None
        for mark in self.chart.marks:
            following = before is not None and mark.visit == before.visit + 1
            if following and mark.kind == "read" and before is not None and before.value is not None:
                assert mark.value is not None
                a = (self.x(before.day), self.y(before.value))
                self.sketch.add(Line("COURSE-BAND", a, (self.x(mark.day), self.y(mark.value))))
            before = mark if mark.kind == "read" else None

    def _odd(self, mark: Mark) -> None:
        """What is no number: arrow, open dot, cross."""
        sketch, pt, x = self.sketch, self.sketch.pt, self.x(mark.day)
        if mark.kind == "cannot reach":
            y, by = self.field.bottom, pt(2.4)
            sketch.add(
                Strokes("MARK", (((x - by, y - by), (x + by, y + by)), ((x - by, y + by), (x + by, y - by))))
            )
            return
        assert mark.value is not None
        y = self._within(mark.value)
        if mark.kind == "set aside":
            self.taken.append(Box(x, y, x, y).grown(pt(OPEN)))
            sketch.add(Circle("READING", (x, y), pt(OPEN), fill=1.0))
            return
        way = -1 if mark.kind == "under" else 1
        # the arrow's head ends where the meter's range does, or at the edge of the chart
        tip = min(y + way * pt(1), self.field.top)
        self.taken.append(Box(x - pt(3), min(tip, tip - way * pt(9)), x + pt(3), max(tip, tip - way * pt(9))))
        ends = (((x, tip - way * pt(9)), (x, tip)),)
        head = tuple(((x + side * pt(2.6), tip - way * pt(3.6)), (x, tip)) for side in (-1, 1))
        sketch.add(Strokes("MARK", (*ends, *head)))

    # Figures --------------------------------------------------------------------------------------------

    def _scale(self) -> None:
        """Goal and limit by name; on a sheet of its own the air too, and a figure for every five percent."""
        if self.look.every:
            self._ticks(self.look.type)
            self._names()
            return
        chart, sketch, look = self.chart, self.sketch, self.look
        named: list[_Named] = [(self.y(chart.never), "", goal_text(chart.never), False)]
        if chart.goal is not None:
            named.append((self.y(chart.goal), "", goal_text(chart.goal), True))
        x = self.field.left - sketch.pt(3)
        for place, (_, _, text, bold) in self._apart(named, look.line):
            figure = text.removesuffix(" %")
            sketch.text(x, place, figure, look.type, bold=bold, anchor="end", middle=True)

    def _names(self) -> None:
        """What each level is, at its right end: its name over its figure."""
        chart, sketch, look, words = self.chart, self.sketch, self.look, self.sketch.words
        named: list[_Named] = [(self.y(chart.never), words("never is"), goal_text(chart.never), False)]
        if chart.goal is not None:
            named.append((self.y(chart.goal), words("goal is"), goal_text(chart.goal), True))
        if chart.air:
            held = self._held()
            last = up(held) == up(chart.air[-1][1])  # else it is the mean that dates are worked from
            named.append((self.y(held), words("air is" if last else "air mean"), goal_text(up(held)), False))
        x, half = self.field.right + sketch.pt(4), sketch.pt(look.type) * 0.52
        for place, (_, name, figure, bold) in self._apart(named, 2.2 * look.type):
            sketch.text(x, place + half, name, look.type, bold=bold, middle=True)
            sketch.text(x, place - half, figure, look.type, bold=bold, middle=True)

    def _apart(self, named: list[_Named], room: float) -> Iterator[tuple[float, _Named]]:
        """Levels with the heights their names stand at, none in another's way."""
        named = sorted(named)
        sizes = [self.sketch.pt(room)] * len(named)
        low, high = self.field.bottom - self.sketch.pt(2), self.field.top + self.sketch.pt(4)
        wanted = [y for y, *_ in named]
        yield from zip(spread(wanted, sizes, low, high) or wanted, named, strict=True)

    def _ticks(self, size: float) -> None:
        sketch, axes = self.sketch, self.axes
        at = axes.low
        while at <= axes.high + 1e-9:
            y = self.y(at)
            sketch.add(Line("DAYS", (self.field.left - sketch.pt(3), y), (self.field.left, y)))
            if at > axes.low:
                sketch.text(self.field.left - sketch.pt(5), y, f"{at:g}", size, anchor="end", middle=True)
            at += STEP

    def _values(self) -> None:
        """The newest figure; on a sheet of its own every one that has room, and what is odd in words."""
        last = self.chart.last
        marks = [mark for mark in self.chart.marks if mark.value is not None or mark.kind == "cannot reach"]
        if last is None and not self.look.every:
            return
        if not self.look.every or len(marks) > DENSE:
            marks = [last] if last is not None else []
        if self.look.every:
            self._close_name()
            bars = [self._bar(mark) for mark in marks if mark.kind == "read" and mark.spread is not None]
            self.taken += [Box(a[0], a[1], b[0], b[1]).grown(self.sketch.pt(0.8)) for a, b in bars]
        for mark in reversed(marks):
            self._value(mark, newest=mark is last)

    def _close_name(self) -> None:
        """What the bar at the foot says, over it where it has room."""
        if self.chart.closes is None:
            return
        sketch, size = self.sketch, self.look.type
        left, right = self.x(self.chart.closes[0]), min(self.x(self.chart.closes[1]), self.field.right)
        text = sketch.words("may close")
        wide = sketch.wide(text, size, True)
        x = min(max((left + right) / 2, self.field.left + wide / 2), self.field.right - wide / 2)
        made = sketch.text(
            x, self.field.bottom + sketch.pt(4.5), text, size, bold=True, anchor="middle", halo=True
        )
        self.taken.append(made.box)

    def _value(self, mark: Mark, newest: bool) -> None:
        sketch, size = self.sketch, self.look.type
        text = self._figure(mark)
        if not text:
            return
        wide, tall = sketch.wide(text, size, newest), sketch.pt(size)
        point = self._beside(mark)
        room = Box(
            self.field.left - sketch.pt(4),
            self.field.bottom + sketch.pt(7),
            self.field.right + sketch.pt(5),
            self.box.top,
        )
        for x, y in self._around(mark, point, wide, tall):
            box = Box(x - wide / 2, y - tall / 2, x + wide / 2, y + tall / 2)
            if room.holds(box) and not any(box.meets(other) for other in self.taken):
                break
        else:
            free = free_spot(point, wide, tall, sketch.pt(5), self.taken, room)
            if free is None:
                return  # what has no room is read off the scale; the newest always has
            box = free
        self.taken.append(box.grown(sketch.pt(1)))
        middle: Anchor = "middle"
        x, y = (box.left + box.right) / 2, (box.bottom + box.top) / 2
        sketch.text(x, y, text, size, bold=newest, anchor=middle, middle=True, halo=True)

    def _around(self, mark: Mark, point: Point, wide: float, tall: float) -> Iterator[Point]:
        """Places a figure may stand, the best first: over to the right, where a falling curve leaves room."""
        pt = self.sketch.pt
        x, y = point
        over = under = pt(4) if mark.kind not in ("over", "under") else pt(11)
        if mark.kind == "read" and mark.spread is not None and mark.value is not None:
            over = self.y(min(mark.value + mark.spread, self.axes.high)) - y + pt(2)
            under = y - self.y(max(mark.value - mark.spread, self.axes.low)) + pt(2)
        side = wide / 2 + pt(4)
        yield x + side, y + max(tall * 0.8, pt(5))
        yield x, y + over + tall / 2
        yield x + side, y + over
        yield x + side, y
        yield x, y - under - tall / 2
        yield x - side, y
        yield x - side, y + over

    def _beside(self, mark: Mark) -> Point:
        y = self.field.bottom if mark.value is None else self._within(mark.value)
        return self.x(mark.day), y

    def _within(self, percent: float) -> float:
        """Where a moisture is marked: what the scale does not hold, a value asked about, at its end."""
        return min(max(self.y(percent), self.field.bottom), self.field.top)

    def _figure(self, mark: Mark) -> str:
        words, star = self.sketch.words, "*" if self.chart.verdict.relative else ""
        if mark.kind == "read" and mark.value is not None:
            return f"{up(mark.value):.1f}{star}"
        if mark.kind == "set aside" and mark.value is not None:
            figure = f"{up(mark.value):.1f}*"
            return f"{figure} {words(mark.why)}" if self.look.every else figure
        if mark.kind in ("over", "under"):
            return words(f"{mark.kind} range", end=f"{mark.value:g}")
        return words("no reach") if self.look.every else ""
