"""Contours of a face read at a grid of places: bands and lines, straight between the readings.

Each cell of the grid is cut into four triangles at its middle, where the face is the mean of its corners;
over a triangle it is a plane. So a face that is a plane has straight contours, and turning the grid turns
the picture. Pure geometry, in the unit of the grid.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import pairwise

from undertile.drawing.hatching import lines_inside
from undertile.drawing.scene import Point, Segment

Vertex = tuple[float, float, float]
Triangle = tuple[Vertex, Vertex, Vertex]


def triangles(
    xs: Sequence[float], ys: Sequence[float], values: Sequence[Sequence[float]]
) -> Iterator[Triangle]:
    """The face in triangles.

    Parameters
    ----------
    xs, ys : sequence of float, rising
    values : sequence of sequence of float
        ``values[i][j]`` at ``xs[i], ys[j]``.

    Yields
    ------
    three (x, y, value)
    """
    for i, (x0, x1) in enumerate(pairwise(xs)):
        for j, (y0, y1) in enumerate(pairwise(ys)):
            a, b = (x0, y0, values[i][j]), (x1, y0, values[i + 1][j])
            c, d = (x1, y1, values[i + 1][j + 1]), (x0, y1, values[i][j + 1])
            middle = ((x0 + x1) / 2, (y0 + y1) / 2, (a[2] + b[2] + c[2] + d[2]) / 4)
            yield from ((a, b, middle), (b, c, middle), (c, d, middle), (d, a, middle))


def band(triangle: Triangle, low: float, high: float) -> list[Point]:
    """The part of a triangle where low <= value <= high: a convex polygon, [] where there is none."""
    corners: list[Vertex] = list(triangle)
    for level, side in ((low, 1.0), (high, -1.0)):
        kept: list[Vertex] = []
        for p, q in zip(corners, (*corners[1:], *corners[:1]), strict=True):
            inside, after = side * (p[2] - level) >= 0, side * (q[2] - level) >= 0
            if inside:
                kept.append(p)
            if inside != after:
                t = (level - p[2]) / (q[2] - p[2])
                kept.append((p[0] + t * (q[0] - p[0]), p[1] + t * (q[1] - p[1]), level))
        corners = kept
    return [(x, y) for x, y, _ in corners] if len(corners) > 2 else []


def level_lines(faces: Sequence[Triangle], level: float) -> list[Segment]:
    """Where the face stands at a level. A triangle that lies flat at it adds nothing."""
    out = []
    for triangle in faces:
        cuts: list[Point] = []
        for p, q in pairwise((*triangle, triangle[0])):
            if (p[2] < level) != (q[2] < level):
                t = (level - p[2]) / (q[2] - p[2])
                cuts.append((p[0] + t * (q[0] - p[0]), p[1] + t * (q[1] - p[1])))
        if len(cuts) == 2 and cuts[0] != cuts[1]:
            out.append((cuts[0], cuts[1]))
    return out


def band_hatch(faces: Sequence[Triangle], low: float, high: float, angle: float, gap: float) -> list[Segment]:
    """Hatch lines over the part of the face between two levels, each as long as it runs unbroken.

    Ground that lies flat at a level belongs to the band that ends there, seen from 0: readings in sixteenths
    lie on levels as a rule, and none may fall between two bands.
    """
    pieces: list[Segment] = []
    for triangle in faces:
        values = [vertex[2] for vertex in triangle]
        beside = (
            min(values) >= high or max(values) < low
            if high <= 0
            else max(values) <= low or min(values) > high
        )
        if beside:
            continue
        polygon = band(triangle, low, high)
        if polygon:
            pieces += lines_inside(polygon, angle, gap)
    return joined(pieces)


def joined(pieces: Sequence[Segment], near: float = 1e-6) -> list[Segment]:
    """Straight pieces end to end along one line made into one, as hatches cut at triangles are."""
    rows: dict[tuple[int, int], list[tuple[float, float, Segment]]] = {}
    for (x0, y0), (x1, y1) in pieces:
        dx, dy = x1 - x0, y1 - y0
        size = (dx * dx + dy * dy) ** 0.5
        if size <= near:
            continue
        ux, uy = dx / size, dy / size
        if ux < -1e-12 or (abs(ux) <= 1e-12 and uy < 0):
            ux, uy, x0, y0, x1, y1 = -ux, -uy, x1, y1, x0, y0
        key = (round((y0 * ux - x0 * uy) / 1e-4), round(uy / 1e-4))
        rows.setdefault(key, []).append((x0 * ux + y0 * uy, x1 * ux + y1 * uy, ((x0, y0), (x1, y1))))
    out: list[Segment] = []
    for row in rows.values():
        row.sort()
        start, end, (first, last) = row[0]
        for s, e, (a, b) in row[1:]:
            if s <= end + 1e-4:
                if e > end:
                    end, last = e, b
            else:
                out.append((first, last))
                start, end, first, last = s, e, a, b
        out.append((first, last))
        del start
    return out
