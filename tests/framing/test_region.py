"""Clipping a polygon of planes, and what a wall costs at least over it."""

from __future__ import annotations

import random
from fractions import Fraction

import pytest

from tests.framing.everystack import least_wall
from tests.framing.smallwall import small_wall
from undertile.framing.region import FREE, Polygon, Region, clip, look
from undertile.framing.search import Bench

F = Fraction
SQUARE: Polygon = [(0.0, 0.0), (4.0, 0.0), (4.0, 4.0), (0.0, 4.0)]


def area(polygon: Polygon) -> float:
    """Signed area (shoelace)."""
    pairs = zip(polygon, [*polygon[1:], polygon[0]], strict=True)
    return sum(x0 * y1 - x1 * y0 for (x0, y0), (x1, y1) in pairs) / 2


def inside(polygon: Polygon, x: float, y: float) -> bool:
    """Whether a point lies in a convex polygon run anticlockwise."""
    pairs = zip(polygon, [*polygon[1:], polygon[0]], strict=True)
    return all((x1 - x0) * (y - y0) - (y1 - y0) * (x - x0) >= -1e-9 for (x0, y0), (x1, y1) in pairs)


def test_the_two_sides_of_a_line_share_the_polygon_between_them() -> None:
    rng = random.Random(3)
    for _ in range(200):
        polygon = SQUARE
        for _ in range(rng.randrange(1, 5)):
            wa, wb, at = rng.uniform(-1, 1), rng.uniform(-1, 1), rng.uniform(-1, 3)
            near, far = clip(polygon, wa, wb, at), clip(polygon, -wa, -wb, -at)
            whole = sum(area(p) for p in (near, far) if p)
            assert whole == pytest.approx(area(polygon), abs=1e-9)  # independent: areas add up
            for _ in range(10):
                x, y = rng.uniform(0, 4), rng.uniform(0, 4)
                if abs(wa * x + wb * y - at) > 1e-6 and inside(polygon, x, y):
                    side = near if wa * x + wb * y < at else far
                    assert inside(side, x, y)  # independent: a point is on its own side
            polygon = near
            if not polygon:
                break


def test_a_polygon_that_is_all_within_is_handed_back_itself() -> None:
    assert clip(SQUARE, 1.0, 0.0, 4.0) is SQUARE
    assert clip(SQUARE, 1.0, 0.0, -0.5) == []
    assert area(clip(SQUARE, 1.0, 0.0, 1.0)) == pytest.approx(4.0)  # independent: 1 by 4


@pytest.mark.parametrize("seed", range(4))
def test_the_bound_over_a_polygon_is_never_over_what_a_plane_in_it_costs(seed: int) -> None:
    problem = small_wall(seed)
    wall = problem.walls[0]
    bench = Bench.of(problem)
    rng = random.Random(seed)
    a, b = bench.frames["B"][0].stations
    seen = 0
    for _ in range(4):
        middle = [F(rng.randrange(-8, 12), 32) for _ in "ab"]
        ends = [m + F(rng.randrange(-2, 3), 64) for m in middle]
        skew = (ends[1] - ends[0]) / (b - a)
        cost = least_wall(problem, wall, (ends[0] - skew * a, skew, F(0)))  # independent: every treatment
        if cost is None:
            continue
        seen += 1
        (low0, high0), (low1, high1) = (
            (float((m - F(1, 32)) * bench.unit), float((m + F(1, 32)) * bench.unit)) for m in middle
        )
        polygon = [(low0, low1), (high0, low1), (high0, high1), (low0, high1)]
        frame = next(f for f in bench.frames["B"] if f.lean == 0)
        bounds = []
        for mask in frame.masks():
            region = look(frame, 0, mask, (), (FREE,) * len(frame.spots), polygon)
            if isinstance(region, Region):
                bounds.append(region.bound)
        assert bounds
        assert bench.money.dollars(min(bounds)) <= cost
    assert seen


def test_a_look_over_its_ceiling_says_only_that() -> None:
    problem = small_wall(0)
    frame = Bench.of(problem).frames["B"][0]
    low, high = (float(t) for t in frame.t_range)
    polygon = [(low, low), (high, low), (high, high), (low, high)]
    free = (FREE,) * len(frame.spots)
    whole = look(frame, 0, 0, (), free, polygon)
    assert isinstance(whole, Region)
    stopped = look(frame, 0, 0, (), free, polygon, ceiling=0)
    assert isinstance(stopped, int)
    assert 0 < stopped <= whole.bound
    assert look(frame, 0, 0, (), free, []) is None


def test_ways_of_one_wall_share_where_t_may_be_and_find_the_same() -> None:
    """Every lean and set of charges, alone and one after the other; another polygon has other ranges."""
    frames = Bench.of(small_wall(0)).frames["B"]
    low, high = (float(t) for t in frames[0].t_range)
    third = (high - low) / 3
    seen = set()
    for bottom, top in ((low, high), (low + third, high - third)):
        polygon = [(bottom, bottom), (top, bottom), (top, top)]
        ranges: list[tuple[float, float]] = []
        for frame in frames:
            free = (FREE,) * len(frame.spots)
            for mask in frame.masks():
                alone = look(frame, 0, mask, (), free, polygon)
                assert look(frame, 0, mask, (), free, polygon, ranges=ranges) == alone
                ceiling = look(frame, 0, mask, (), free, polygon, ceiling=0, ranges=ranges)
                assert ceiling == look(frame, 0, mask, (), free, polygon, ceiling=0)
        assert len(ranges) == len(frames[0].spots)
        seen.add(tuple(ranges))
    assert len(seen) == 2
