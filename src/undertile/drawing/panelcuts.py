"""The panels as they are cut: each piece where it lies, so that every cut runs from edge to edge."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from undertile.drawing.placing import free_spot
from undertile.drawing.scene import Box, Poly
from undertile.drawing.sheet import BODY, SMALL, WIDTH, Head, Sheet, Sketch, scale_for
from undertile.drawing.walldata import Room
from undertile.floor.facts import FloorFacts
from undertile.floor.panels import KERF, CutList, PanelCut
from undertile.floor.result import FloorResult
from undertile.pan.say import cut_size

TALL = 7.6
"""Room for panels on one sheet. [in of paper]"""
HEADING = 0.3
"""Room over each panel. [in of paper]"""


def panel_sheets(room: Room, found: FloorResult) -> list[Sheet]:
    """The panels of all layers, as many on a sheet as go there; none where nothing is cut."""
    panels = [panel for cuts in found.cut_lists for panel in cuts.cuts]
    if not panels:
        return []
    widest = float(max(panel.size[0] for panel in panels))
    tallest = float(max(panel.size[1] for panel in panels))
    room_for = TALL / min(len(panels), 3) - HEADING  # as large as it goes: each piece carries its size
    scale = scale_for(widest, tallest, (WIDTH, room_for), room.unit) or (1200, "1:1200")
    each = max(int(TALL / (tallest / scale[0] + HEADING)), 1)
    out = []
    for first in range(0, len(panels), each):
        number = first // each + 1
        title = room.words("floor panels") + (f" {number}" if len(panels) > each else "")
        key = "floor-panels" + (f"-{number}" if len(panels) > each else "")
        some = panels[first : first + each]
        sketch = Sketch(scale[0], room.unit, room.words, 0.0)
        y = 0.0
        for panel in some:
            y = _panel(sketch, room, panel, y)
        says = tuple(_says(room, found)) if number == 1 else ()
        head = Head(
            title,
            room.job.name,
            room.job.place,
            room.words("scale", scale=scale[1]),
            room.words("hold"),
            says,
        )
        top = sketch.head(sketch.paper(0.1), head)
        scene = sketch.scene(f"{room.job.name}: {title}".strip(": "), y, top)
        out.append(Sheet(key, title, scene))
    return out


def _says(room: Room, found: FloorResult) -> Iterator[str]:
    words = room.words
    facts: FloorFacts = room.job.facts()["floor"]  # type: ignore[assignment]
    kerf = KERF if facts.patch.kerf is None else facts.patch.kerf.inches
    yield words("panels say", kerf=room.amount(kerf))
    for cuts in found.cut_lists:
        yield words(_proof(cuts), layer=words(f"{cuts.layer} layer"), count=cuts.whole)


def _proof(cuts: CutList) -> str:
    return "fewest panels" if cuts.proved else "some panels"


def _panel(sketch: Sketch, room: Room, panel: PanelCut, top: float) -> float:
    """One panel below ``top``; gives where the next begins."""
    words = room.words
    length, width = float(panel.size[0]), float(panel.size[1])
    stock = panel.stock if panel.stock != "whole panel" else words("whole panel")
    name = words("of panel", stock=stock, length=room.amount(panel.size[0]), width=room.amount(panel.size[1]))
    sketch.text(0.0, top - sketch.paper(0.2), name, BODY, bold=True)
    bottom = top - sketch.paper(HEADING) - width
    sketch.add(Poly("CUT", _ring(0.0, bottom, length, width), closed=True))
    boxes = []
    for placed in panel.placed:
        x, y = float(placed.x), bottom + width - float(placed.y) - float(placed.size[1])
        ring = _ring(x, y, float(placed.size[0]), float(placed.size[1]))
        sketch.add(Poly("SEAM", ring, closed=True, fill=0.93))
        boxes.append((placed, Box(x, y, x + float(placed.size[0]), y + float(placed.size[1]))))
    for placed, box in boxes:
        size = words(
            "piece size",
            name=placed.piece,
            length=_cut(room, placed.size[0]),
            width=_cut(room, placed.size[1]),
        )
        for text in (size, placed.piece):
            wide, tall = sketch.wide(text, SMALL, True) + sketch.pt(4), sketch.pt(SMALL) * 1.2
            middle = ((box.left + box.right) / 2, (box.bottom + box.top) / 2)
            free = free_spot(middle, wide, tall, sketch.paper(0.1), (), box)
            if free is not None:
                sketch.text(*middle, text, SMALL, bold=True, anchor="middle", middle=True)
                break
    return bottom - sketch.paper(0.06)


def _cut(room: Room, value: Fraction) -> str:
    """A size to cut to: never printed larger than it is."""
    return cut_size(value, room.unit)


def _ring(x: float, y: float, wide: float, high: float) -> tuple[tuple[float, float], ...]:
    return (x, y), (x + wide, y), (x + wide, y + high), (x, y + high)
