"""How long the drawings of a job take once it is planned, beside a plotting library, and their bytes.

The peer is what a person would script instead: matplotlib, given the same wall as rectangles, lines, tags and
names, written as SVG with text as text. ``equal`` says that both files hold every amount.
"""

from __future__ import annotations

import io
import random
from collections.abc import Callable, Iterator
from statistics import median
from time import perf_counter
from typing import Any
from xml.etree import ElementTree

from undertile.bench.papers import planned
from undertile.drawing import Sheet, sheets, to_dxf, to_svg
from undertile.drawing.scene import Line, Poly, Text
from undertile.errors import UndertileError
from undertile.job import Rebuild

SEED = 9100
TIMES = 5


def case(rooms: int) -> Iterator[dict[str, Any]]:
    """All drawings of one room, one wall beside the peer, a floor of rooms, and the DXF files."""
    rng = random.Random(SEED)
    floor = [planned(rng) for _ in range(max(1, rooms))]
    one = floor[0]
    yield _row("drawings of a room", "13 studs, SVG", *_timed(lambda: _svg(one)))
    wall = next(sheet for sheet in sheets(one) if sheet.key == "wall-B")
    own = _timed(lambda: [to_svg(_wall(one).scene).encode()])
    peer = _timed(lambda: [by_matplotlib(wall)])
    row = _row("one wall", "5 studs, SVG", *own)
    yield row | {
        "peer": "matplotlib",
        "peer_seconds": peer[0],
        "peer_bytes": peer[1],
        "ratio": peer[0] / own[0],
        "equal": _amounts(to_svg(wall.scene).encode()) <= _amounts(by_matplotlib(wall)),
    }
    yield _row("drawings of a floor", f"{13 * len(floor)} studs, SVG", *_timed(lambda: _floor(floor), 1))
    yield _row("drawings of a room", "13 studs, DXF", *_timed(lambda: _dxf(one), 2))


def _svg(rebuild: Rebuild) -> list[bytes]:
    return [to_svg(sheet.scene).encode() for sheet in sheets(rebuild)]


def _floor(floor: list[Rebuild]) -> list[bytes]:
    return [content for rebuild in floor for content in _svg(rebuild)]


def _dxf(rebuild: Rebuild) -> list[bytes]:
    return [to_dxf(sheet.measured) for sheet in sheets(rebuild)]


def _wall(rebuild: Rebuild) -> Sheet:
    """The back wall alone, as it is asked for on a phone."""
    from undertile.drawing.labels import words
    from undertile.drawing.wall import wall_sheets
    from undertile.drawing.walldata import room_of

    room = room_of(rebuild, rebuild.job.unit, words("en"))
    return next(sheet for sheet in wall_sheets(room, only="B"))


def _timed(make: Callable[[], list[bytes]], times: int = TIMES) -> tuple[float, int, int]:
    """Median seconds, bytes and files."""
    spent = []
    made: list[bytes] = []
    for _ in range(times):
        start = perf_counter()
        made = make()
        spent.append(perf_counter() - start)
    return median(spent), sum(map(len, made)), len(made)


def _row(name: str, size: str, seconds: float, size_bytes: int, files: int) -> dict[str, Any]:
    return {
        "name": name,
        "size": size,
        "seconds": seconds,
        "bytes": size_bytes,
        "files": files,
        "peer": None,
        "peer_seconds": None,
        "ratio": None,
        "equal": None,
    }


def by_matplotlib(sheet: Sheet) -> bytes:
    """The same lines, boxes and texts through matplotlib, as SVG.

    Raises
    ------
    UndertileError
        If it is not installed.
    """
    try:
        import matplotlib
        from matplotlib.figure import Figure
    except ImportError as error:
        raise UndertileError(
            "matplotlib is not here: pip install matplotlib, or leave this peer out"
        ) from error
    scene = sheet.scene
    with matplotlib.rc_context({"svg.fonttype": "none"}):
        figure = Figure(figsize=scene.paper)
        axes = figure.add_axes((0, 0, 1, 1))
        axes.set_xlim(scene.page.left, scene.page.right)
        axes.set_ylim(scene.page.bottom, scene.page.top)
        axes.axis("off")
        for item in scene.items:
            if isinstance(item, Line):
                axes.plot([item.a[0], item.b[0]], [item.a[1], item.b[1]], linewidth=0.6, color="black")
            elif isinstance(item, Poly):
                xs, ys = zip(*item.points, strict=True)
                grey = str(1.0 if item.fill is None else item.fill)
                axes.fill(xs, ys, facecolor=grey, edgecolor="black", linewidth=0.6)
            elif isinstance(item, Text):
                size = item.size * 72 / scene.scale
                axes.text(*item.at, item.text, fontsize=size, rotation=90 * item.turned)
        out = io.BytesIO()
        figure.savefig(out, format="svg")
    return out.getvalue()


def _amounts(svg: bytes) -> set[str]:
    """Signed amounts among the texts of a file."""
    texts = ElementTree.fromstring(svg).itertext()
    return {text.strip() for text in texts if text.strip().lstrip("~")[:1] in ("+", "-")}
