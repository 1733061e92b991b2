"""The drying charts: small multiples of all points by what keeps the gate shut, and one on its own.

Two columns on paper, the days of both the same, so that the eye runs down them to the last bar. A screen
takes the same pictures one by one (``pictures``, ``picture``).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import ceil
from typing import TYPE_CHECKING

from undertile.drawing.dryingdata import Axes, Chart, axes_of, charts_of, late_words, range_words
from undertile.drawing.dryingplot import LARGE_LOOK, SMALL_LOOK, Plot
from undertile.drawing.labels import Words
from undertile.drawing.metrics import fitted
from undertile.drawing.scene import Box, Scene
from undertile.drawing.sheet import BODY, HEIGHT, LEADING, SMALL, TITLE, WIDTH, Sheet, Sketch
from undertile.drawing.svg import to_svg
from undertile.lengths import Unit
from undertile.wood.result import WoodResult
from undertile.wood.typed import read_moment

if TYPE_CHECKING:
    from undertile.drawing.walldata import Room

COLUMN, BETWEEN = 3.5, 0.25
"""Of the small multiples. [in of paper]"""
HEAD_TALL, CHART_TALL, GAP = 12.5, 82.0, 7.0
"""Of one small multiple: its head, its chart, and the room below it. [pt]"""
ONE_TALL = 3.2
"""Of a chart on its own. [in of paper]"""
PHONE = 3.6
"""Width of a chart on its own for a phone held upright. [in of paper]"""
_DONE = ("close", "gone", "goes out")


@dataclass(frozen=True)
class Picture:
    """One chart for a screen.

    Attributes
    ----------
    name, place, when, says : str
        As ``Chart``.
    svg : str
    """

    name: str
    place: str
    when: str
    says: str
    svg: str


def drying_sheets(room: Room) -> list[Sheet]:
    """All points, then each that is not done on a sheet of its own; none where there is none."""
    found = room.rebuild.results.get("wood")
    if not isinstance(found, WoodResult) or not found.points:
        return []
    charts = charts_of(found, room.words, today=room.today)
    sheets = drying_overview(room)
    for chart in charts:
        if chart.verdict.call not in _DONE and chart.marks:
            title = room.words("drying of", place=chart.place)
            scene = _alone(chart, axes_of([chart]), room.words, WIDTH, room.unit, title, room.job.name)
            sheets.append(Sheet(f"drying-{_key(chart.name)}", title, scene, chart=True))
    return sheets


def drying_overview(room: Room) -> list[Sheet]:
    """Small multiples of all points, on as many sheets as it takes; none where there is no point."""
    found = room.rebuild.results.get("wood")
    if not isinstance(found, WoodResult) or not found.points:
        return []
    return _overview(room, found, charts_of(found, room.words, today=room.today))


def job_words(found: WoodResult, charts: Sequence[Chart], words: Words, today: str = "") -> str:
    """When the whole may be closed, in one line; by a clock also that those days have gone by unread."""
    close = found.close
    asked = [chart for chart in charts if chart.verdict.call not in _DONE]
    if not charts:
        return words("job none")
    if not asked:
        return words("job closed")
    if close.latest:
        days = read_moment(close.soonest).days // 1, read_moment(close.latest).days // 1 + 1
        when = words("job dated", days=range_words(days, words))
        return f"{when} {late_words(found.past_it(today), words)}".rstrip()
    if close.too_far:
        return words("job too far", count=close.number)
    without = [chart for chart in asked if chart.closes is None and chart.verdict.forecast.no != "there"]
    return words("job no date", count=len(close.why_not), place=(without or asked)[0].place)


def pictures(
    found: WoodResult, unit: Unit, words: Words, first: int = 0, most: int = 0, today: str = ""
) -> list[Picture]:
    """Small multiples for a screen, all on the same axes.

    Parameters
    ----------
    found : WoodResult
    unit : {"in", "mm"}
    words : Words
    first, most : int
        Which of them, in the order of what keeps the gate shut; 0 = all.
    today : str
        ``2026-03-04``: days that have gone by unread are told so; "" = there is no clock.

    Returns
    -------
    list of Picture
    """
    charts = charts_of(found, words, today=today)
    axes = axes_of(charts)
    shown = charts[first : first + most] if most else charts[first:]
    out = []
    for chart in shown:
        sketch = Sketch(1.0, unit, words, 0.0, COLUMN)
        tall = sketch.pt(HEAD_TALL + CHART_TALL)
        _small(sketch, 0.0, 0.0, chart, axes)
        scene = sketch.scene(_title(chart), -tall, 0.0)
        out.append(Picture(chart.name, chart.place, chart.when, chart.says, to_svg(scene, screen=True)))
    return out


def picture(found: WoodResult, unit: Unit, words: Words, name: str, today: str = "") -> Picture | None:
    """One point's own chart for a screen; None where there is no such point."""
    for chart in charts_of(found, words, name, today):
        sketch = Sketch(1.0, unit, words, 0.0, PHONE)
        box = Box(0.0, -ONE_TALL, PHONE, 0.0)
        Plot(sketch, box, chart, axes_of([chart]), LARGE_LOOK).draw()
        svg = to_svg(sketch.scene(_title(chart), -ONE_TALL, sketch.pt(4)), screen=True)
        return Picture(chart.name, chart.place, chart.when, chart.says, svg)
    return None


def _title(chart: Chart) -> str:
    """For those who cannot see it."""
    return f"{chart.place}: {chart.when}. {chart.says}"


def _overview(room: Room, found: WoodResult, charts: Sequence[Chart]) -> list[Sheet]:
    words, axes = room.words, axes_of(charts)
    left = list(charts)
    out: list[list[Chart]] = []
    rows = 0
    while left:
        sketch = Sketch(1.0, room.unit, words, 0.0)
        top = 0.0 if out else _above(sketch, found, charts, 0.0, room.today)
        rows = int((HEIGHT - 0.75 + top) / sketch.pt(HEAD_TALL + CHART_TALL + GAP))
        out.append(left[: 2 * rows])
        left = left[2 * rows :]
    sheets = []
    for number, some in enumerate(out, 1):
        sketch = Sketch(1.0, room.unit, words, 0.0)
        y = _above(sketch, found, charts, 0.0, room.today) if number == 1 else 0.0
        rows = ceil(len(some) / 2)
        step = sketch.pt(HEAD_TALL + CHART_TALL + GAP)
        for at, chart in enumerate(some):
            # down the left column, then down the right: the order is read downward
            column, row = divmod(at, rows)
            _small(sketch, column * (COLUMN + BETWEEN), y - row * step, chart, axes)
        title = words("drying") if len(out) == 1 else words("drying n", n=number, of=len(out))
        top = _head(sketch, title, room.job.name)
        key = "drying" if len(out) == 1 else f"drying-{number}"
        scene = sketch.scene(f"{room.job.name}: {title}".strip(": "), y - rows * step, top)
        sheets.append(Sheet(key, title, scene, chart=True))
    return sheets


def _above(sketch: Sketch, found: WoodResult, charts: Sequence[Chart], y: float, today: str) -> float:
    """The answer for the whole, and how the charts are read; gives the y below."""
    words = sketch.words
    y = sketch.paragraph(y, job_words(found, charts, words, today), 12.5, bold=True) - sketch.pt(4)
    y = sketch.paragraph(y, words("how to read"), SMALL)
    if any(mark.kind != "read" for chart in charts for mark in chart.marks):
        y = sketch.paragraph(y, words("marks to read"), SMALL)
    if any(chart.verdict.relative for chart in charts):
        y = sketch.paragraph(y, words("star"), SMALL)
    return y - sketch.pt(9)


def _head(sketch: Sketch, title: str, name: str) -> float:
    """Title and job over y = 0; gives the top of the page."""
    room = sketch.right - sketch.left
    foot = sketch.pt(10)
    if name:
        sketch.text(sketch.left, foot, fitted(name, sketch.pt(BODY), room), BODY)
        foot += sketch.pt(BODY * LEADING + 2)
    sketch.text(sketch.left, foot, fitted(title, sketch.pt(TITLE), room, True), TITLE, bold=True)
    return foot + sketch.pt(TITLE * 1.1)


def _small(sketch: Sketch, left: float, top: float, chart: Chart, axes: Axes) -> None:
    """One small multiple: where and when over its chart."""
    pt, look = sketch.pt, SMALL_LOOK
    size = look.type + 1
    line = top - pt(HEAD_TALL) + pt(3)
    done = chart.verdict.call in _DONE
    when = fitted(chart.when, pt(size), COLUMN * 0.66, not done)
    wide = sketch.wide(when, size, not done)
    sketch.text(left + COLUMN, line, when, size, bold=not done, anchor="end")
    name = fitted(chart.place, pt(size), COLUMN - wide - pt(6))
    sketch.text(left, line, name, size)
    box = Box(left, top - pt(HEAD_TALL + CHART_TALL), left + COLUMN, top - pt(HEAD_TALL))
    Plot(sketch, box, chart, axes, look).draw()


def _alone(chart: Chart, axes: Axes, words: Words, width: float, unit: Unit, title: str, name: str) -> Scene:
    """One point's sheet: the answer first, then its chart."""
    sketch = Sketch(1.0, unit, words, 0.0, width)
    y = sketch.paragraph(0.0, chart.when[:1].upper() + chart.when[1:], 14, bold=True)
    y = sketch.paragraph(y - sketch.pt(2), chart.says, BODY)
    box = Box(0.0, y - sketch.pt(6) - ONE_TALL, width, y - sketch.pt(6))
    Plot(sketch, box, chart, axes, LARGE_LOOK).draw()
    y = box.bottom - sketch.pt(4)
    if chart.verdict.relative:
        y = sketch.paragraph(y, words("star"), SMALL)
    top = _head(sketch, title, name)
    return sketch.scene(f"{name}: {title}".strip(": "), y - sketch.pt(2), top)


def _key(name: str) -> str:
    """A point's name for a file name."""
    return "".join(sign if sign.isascii() and (sign.isalnum() or sign in "-_") else "-" for sign in name)
