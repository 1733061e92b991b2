"""Hatch lines against an independent geometry library."""

from __future__ import annotations

from math import cos, hypot, radians, sin

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely.geometry import LineString, Polygon

from undertile.drawing.hatching import hatch_lines, lines_inside
from undertile.drawing.scene import Hatch

POINT = st.tuples(st.integers(-40, 40), st.integers(-40, 40))


@given(st.lists(POINT, min_size=3, max_size=7, unique=True), st.sampled_from((0.0, 30.0, 45.0, 90.0, 135.0)))
@settings(max_examples=30, deadline=None)
def test_lines_inside_are_what_shapely_cuts(points: list[tuple[int, int]], angle: float) -> None:
    polygon = Polygon(points)
    if not polygon.is_valid or polygon.area < 1:
        return
    gap = 2.3417
    found = sum(hypot(b[0] - a[0], b[1] - a[1]) for a, b in lines_inside(points, angle, gap))
    ux, uy = cos(radians(angle)), sin(radians(angle))
    whole = 0.0
    for k in range(-60, 61):
        x, y = -k * gap * uy, k * gap * ux
        line = LineString([(x - 200 * ux, y - 200 * uy), (x + 200 * ux, y + 200 * uy)])
        whole += polygon.intersection(line).length
    # independent: shapely's intersections of the same lines; a line along an edge may count or not
    assert found == pytest.approx(whole, abs=1e-6)


def test_a_crossed_square_by_hand() -> None:
    # independent: lines at 1, 2, 3 each way across a square of 4 that starts beside the raster: 6 of length 4
    square = ((0.5, 0.5), (4.5, 0.5), (4.5, 4.5), (0.5, 4.5))
    lines = hatch_lines(Hatch("PROUD", square, 0.0, 1.0, cross=True))
    assert len(lines) == 8
    assert all(hypot(b[0] - a[0], b[1] - a[1]) == pytest.approx(4) for a, b in lines)
