"""Contours against hand calculation and two libraries of geometry."""

from __future__ import annotations

from itertools import pairwise
from math import hypot

import contourpy
import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely.geometry import MultiLineString, Polygon

from undertile.drawing.contour import band, band_hatch, joined, level_lines, triangles

XS, YS = [0.0, 16.0, 31.0, 47.0], [2.0, 18.0, 36.0, 54.0, 90.0]
GRID = st.lists(
    st.lists(st.integers(-9, 9).map(lambda n: n / 16 + 0.01), min_size=5, max_size=5), min_size=4, max_size=4
)


def length(lines: list[tuple[tuple[float, float], tuple[float, float]]]) -> float:
    return sum(hypot(b[0] - a[0], b[1] - a[1]) for a, b in lines)


def test_a_face_that_is_a_plane_has_a_straight_contour() -> None:
    # independent: value = x / 16, so the contour at 1/2 is the line x = 8 over the whole height
    faces = list(triangles([0, 16], [0, 48, 96], [[0, 0, 0], [1, 1, 1]]))
    lines = level_lines(faces, 0.5)
    assert all(point == pytest.approx((8, point[1])) for line in lines for point in line)
    assert length(lines) == pytest.approx(96)


@given(GRID, st.sampled_from((0.0625, 0.125, 0.25, -0.125)))
@settings(max_examples=25, deadline=None)
def test_contour_lines_are_those_of_another_library(values: list[list[float]], level: float) -> None:
    # independent: contourpy, quads as four triangles about their mean
    other = contourpy.contour_generator(
        np.array(XS), np.array(YS), np.array(values).T, name="serial", quad_as_tri=True
    ).lines(level)
    whole = sum(float(np.hypot(*np.diff(line, axis=0).T).sum()) for line in other)
    assert length(level_lines(list(triangles(XS, YS, values)), level)) == pytest.approx(whole, abs=1e-6)


@given(GRID)
@settings(max_examples=12, deadline=None)
def test_bands_cover_the_wall_once(values: list[list[float]]) -> None:
    faces = list(triangles(XS, YS, values))
    edges = [-1e6, -0.25, -0.125, -0.0625, 0.0625, 0.125, 0.25, 1e6]
    parts = []
    for low, high in pairwise(edges):
        parts.append(sum(Polygon(each).area for face in faces if (each := band(face, low, high))))
    # independent: areas by shapely sum to the wall's, whatever lies on it
    assert sum(parts) == pytest.approx((XS[-1] - XS[0]) * (YS[-1] - YS[0]))


@given(GRID)
@settings(max_examples=10, deadline=None)
def test_hatches_of_a_band_are_those_of_its_whole_ground(values: list[list[float]]) -> None:
    faces = list(triangles(XS, YS, values))
    ground = [Polygon(each) for face in faces if (each := band(face, 0.125, 0.25))]
    lines = band_hatch(faces, 0.125, 0.25, 45.0, 2.3417)
    raster = MultiLineString(
        [((k * 2.3417 * -(2**0.5) - 200, -200), (k * 2.3417 * -(2**0.5) + 200, 200)) for k in range(-90, 91)]
    )
    # independent: shapely cuts the same raster with every piece of the band
    assert length(lines) == pytest.approx(sum(each.intersection(raster).length for each in ground), abs=1e-3)


@pytest.mark.parametrize("level", [-0.25, -0.125, 0.125, 0.25])
def test_ground_that_lies_flat_at_a_level_is_hatched_once(level: float) -> None:
    faces = list(triangles([0, 16], [0, 32], [[level, level], [level, level]]))
    sign = 1 if level > 0 else -1
    edges = [0.0625, 0.125, 0.25, 0.5]
    inked = []
    for near, far in pairwise(edges):
        low, high = (near, far) if sign > 0 else (-far, -near)
        inked.append(length(band_hatch(faces, low, high, 0.0, 2.3417)))
    # independent: 13 level lines of 16 in, k times 2.3417 with k from 1 to 13 (and k = 0 along the foot)
    full = 16 * sum(0 < k * 2.3417 <= 32 for k in range(20))
    assert sorted(inked)[:2] == [0, 0]
    assert max(inked) == pytest.approx(full, abs=16)
    # ... and it is the band that ends at the level: 1/8 is "over 1/16"
    assert inked.index(max(inked)) == edges.index(abs(level)) - 1


def test_pieces_end_to_end_become_one_line() -> None:
    pieces = [((0.0, 0.0), (1.0, 1.0)), ((2.0, 2.0), (1.0, 1.0)), ((5.0, 5.0), (6.0, 6.0))]
    assert sorted(joined(pieces)) == [((0.0, 0.0), (2.0, 2.0)), ((5.0, 5.0), (6.0, 6.0))]
