"""Demands over the planes' coordinates, and what keeps two walls apart."""

from __future__ import annotations

import random
from dataclasses import replace
from fractions import Fraction

import pytest

from undertile.bench.rooms import room
from undertile.framing.answer import plane_of
from undertile.framing.cuts import cut_of
from undertile.framing.exactlp import find_point, find_point_or_reason
from undertile.framing.option import Option
from undertile.framing.problem import Demand, FramingProblem
from undertile.framing.search import Bench
from undertile.framing.walls import Walls

F = Fraction


def walls_of(problem: FramingProblem) -> Walls:
    """Every wall of a problem under all its demands."""
    bench = Bench.of(problem)
    return Walls(
        [w.name for w in problem.walls], [bench.frames[w.name] for w in problem.walls], problem.demands
    )


def alcove(seed: int) -> FramingProblem:
    """Six studs in three walls, five leans a wall."""
    return room(seed, studs=6, heights=3, features=frozenset({"demands", "lean"}), layout="alcove")


@pytest.mark.parametrize("seed", range(5))
def test_a_demand_is_worth_what_its_planes_say_at_its_spots(seed: int) -> None:
    walls = walls_of(alcove(seed))
    rng = random.Random(seed)
    for _ in range(10):
        leans = tuple(rng.randrange(len(frames)) for frames in walls.frames)
        point = [F(rng.randrange(-400, 400), rng.randrange(1, 9)) for _ in range(2 * len(walls.names))]
        planes = {
            name: plane_of(walls.frames[k][leans[k]], point[2 * k], point[2 * k + 1])
            for k, name in enumerate(walls.names)
        }
        for demand in walls.demands:
            # independent: offset + skew x along + lean x height at every spot
            value = sum((c * planes[w].at(a, z) for w, a, z, c in demand.parts), F(0))
            assert walls.value(demand, leans, point) == value
            # and the exact rows say the same
            for spread in walls.spreads_of([demand], leans):
                holds = all(
                    sum((c * x for c, x in zip(a, point, strict=True)), F(0)) <= b for a, b in spread.rows
                )
                assert holds == (
                    (demand.low is None or value >= demand.low)
                    and (demand.high is None or value <= demand.high)
                )


@pytest.mark.parametrize("seed", range(5))
def test_tightening_keeps_every_point_that_meets_the_demands_at_some_leans(seed: int) -> None:
    walls = walls_of(alcove(seed))
    rng = random.Random(seed)
    unit = walls.unit
    size = 2 * len(walls.names)
    box = [(tuple(int(j == k) for j in range(size)), 2 * unit) for k in range(size)]
    kept = 0
    for _ in range(40):
        leans = tuple(rng.randrange(len(frames)) for frames in walls.frames)
        rows = [row for spread in walls.spreads(leans) for row in spread.rows]
        point = find_point([*rows, *box], [-unit] * size, [rng.randrange(0, 4) for _ in range(size)])
        if point is None:
            continue
        kept += 1
        low, high = -1.0 * unit, 2.0 * unit
        polygons = [[(low, low), (high, low), (high, high), (low, high)] for _ in walls.names]
        assert walls.tighten(polygons)
        for k, polygon in enumerate(polygons):
            x, y = float(point[2 * k]), float(point[2 * k + 1])
            pairs = zip(polygon, [*polygon[1:], polygon[0]], strict=True)
            # independent: the point is on the inner side of every edge
            assert all(
                (x1 - x0) * (y - y0) - (y1 - y0) * (x - x0) >= -1e-6 * unit for (x0, y0), (x1, y1) in pairs
            )
    assert kept


def test_what_a_lean_leaves_of_a_wall_is_what_its_demands_say_there() -> None:
    held = Demand("hold", (("B", F(0), F(0), F(1)),), F(1, 32), F(1, 32), "put here")
    walls = walls_of(replace(alcove(1), demands=(held,)))
    k = walls.names.index("B")
    for lean, frame in enumerate(walls.frames[k]):
        sides = walls.own_sides(k, lean)
        assert len(sides) == 2
        for t in (F(1, 32) - F(1, 1000), F(1, 32), F(1, 32) + F(1, 1000)):
            # independent: a plane that stands at t at along 0, height 0, square to the line
            there = float((t + frame.lean * frame.pivot) * walls.unit)
            assert all(ca * there + cb * there <= at for ca, cb, at in sides) == (t == F(1, 32))
    assert walls.own_sides(walls.names.index("L"), 0) == ()


def given(low: int, high: int) -> Option:
    """A stack possible for T in low..high."""
    return Option(0, low, high, (), 0, (), (), False, 0)


def test_a_cut_lies_between_what_two_walls_stacks_allow() -> None:
    # left: T0 <= 10; right: T0 <= 12; the pan asks left + right >= 30
    picks = [[given(-50, 10)], [given(-50, 12)]]
    rows = [
        ((1, 0, 0, 0), 10),
        ((-1, 0, 0, 0), 50),
        ((0, 0, 1, 0), 12),
        ((0, 0, -1, 0), 50),
        ((-1, 0, -1, 0), -30),
    ]
    point, reason = find_point_or_reason(rows, [-1000] * 4)
    assert point is None
    cut = cut_of(rows, picks, reason, [0.0])
    assert cut is not None
    # independent: 8 are missing, half each: left at 10 + 4 = 14, and right then at 30 - 14 = 16 > 12
    assert {cut.wall: cut.at / cut.ca, cut.other: cut.least / cut.oa} == {0: 14, 1: 16}
    # independent: a demand that other leans may loosen by 8 keeps nothing apart
    assert cut_of(rows, picks, reason, [8.0]) is None
    # independent: loosened by 2, left at 10 + 3 and right at 30 - 2 - 13 = 15
    loose = cut_of(rows, picks, reason, [2.0])
    assert loose is not None
    assert {loose.wall: loose.at / loose.ca, loose.other: loose.least / loose.oa} == {0: 13, 1: 15}


def test_a_contradiction_within_one_wall_is_no_cut() -> None:
    rows = [((1, 0, 0, 0), 10), ((-1, 0, 0, 0), -20)]
    _, reason = find_point_or_reason(rows, [-1000] * 4)
    assert cut_of(rows, [[given(20, 10)], []], reason, []) is None  # independent: one wall alone
    assert cut_of(rows, [[given(20, 10)], []], None, []) is None


def test_a_demand_on_a_wall_that_leans_counts_from_the_height_where_the_walls_meet() -> None:
    walls = walls_of(alcove(0))
    spot = Demand("spot", (("B", F(8), F(90), F(1)),), None, None, "")
    frames = walls.frames[walls.names.index("B")]
    steepest = max(range(len(frames)), key=lambda i: frames[i].lean)
    leans = tuple(steepest if name == "B" else 0 for name in walls.names)
    # independent: lean x (90 - 2), 2 being the flange height of these rooms
    assert walls.fixed(spot, leans) == frames[steepest].lean * 88
