"""Hatch lines clipped to polygons: where parallel lines run inside an outline (even-odd)."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import ceil, cos, floor, radians, sin

from undertile.drawing.scene import Hatch, Point, Segment


def hatch_lines(hatch: Hatch) -> tuple[Segment, ...]:
    """All lines of a hatch."""
    out = list(lines_inside(hatch.points, hatch.angle, hatch.gap))
    if hatch.cross:
        out += lines_inside(hatch.points, hatch.angle + 90, hatch.gap)
    return tuple(out)


def lines_inside(points: Sequence[Point], angle: float, gap: float) -> Iterator[Segment]:
    """Parallel lines inside one polygon.

    Parameters
    ----------
    points : sequence of (x, y)
        A closed polygon, first vertex not repeated. [in]
    angle : float
        Of the lines, anticlockwise from x. [deg]
    gap : float
        Between lines, > 0; line k lies at k gaps from the origin, so that neighbours meet. [in]

    Yields
    ------
    ((x, y), (x, y))
    """
    turn = radians(angle)
    ux, uy = cos(turn), sin(turn)
    # along the lines: s = x ux + y uy; across them: t = y ux - x uy
    flat = [(x * ux + y * uy, y * ux - x * uy) for x, y in points]
    low, high = min(t for _, t in flat), max(t for _, t in flat)
    for k in range(ceil(low / gap), floor(high / gap) + 1):
        level = k * gap
        cuts = []
        for (s0, t0), (s1, t1) in zip(flat, (*flat[1:], flat[0]), strict=True):
            if (t0 <= level) != (t1 <= level):
                cuts.append(s0 + (s1 - s0) * (level - t0) / (t1 - t0))
        cuts.sort()
        for a, b in zip(cuts[::2], cuts[1::2], strict=False):
            if b > a:
                yield (
                    (a * ux - level * uy, a * uy + level * ux),
                    (b * ux - level * uy, b * uy + level * ux),
                )
