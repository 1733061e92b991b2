"""Faces at a chosen plane, against every choice of planed depths."""

from __future__ import annotations

import random
from dataclasses import replace
from fractions import Fraction
from itertools import product

import pytest

from undertile.bench.straightedge import broken_rows, lines_of
from undertile.framing.option import Option
from undertile.framing.problem import FramingProblem, Member, WallProblem
from undertile.framing.search import Bench
from undertile.framing.settle import ranges, settle

F = Fraction
RULES = ((F(120), F(1, 32)),)
T = F(1, 32)


def planed_wall(seed: int) -> FramingProblem:
    """Two studs at three heights, planable at most heights, all within reach of a plane at ``T``."""
    rng = random.Random(seed)
    members = []
    for name, along in (("B1", F(8)), ("B2", F(24))):
        depth = tuple(F(rng.choice((0, 4, 4)), 32) for _ in range(3))
        offsets = tuple(F(rng.randrange(-1, 6 if d else 4), 32) for d in depth)
        members.append(Member(name, along, offsets, depth, (F(0),) * 3))
    wall = WallProblem("B", (F(2), F(48), F(90)), (False, False, False), tuple(members))
    return FramingProblem((wall,), flatness=RULES)


def planed(problem: FramingProblem, passes: int) -> tuple[Bench, list[Option]]:
    """The bench, and every stud planed by so many passes."""
    bench = Bench.of(problem)
    frame = bench.frames["B"][0]
    low, high = frame.t_range
    picks = []
    for shape in frame.shapes:
        depth = tuple(min(passes * bench.unit // 16, d) for d in shape.depths)
        picks.append(Option(0, low, high, ("plane",), passes, (0,) * 3, depth, False, 0))
    return bench, picks


def straight(problem: FramingProblem, faces: list[list[Fraction]]) -> bool:
    """Whether faces pass the straightedge, by the referee's own check."""
    wall = problem.walls[0]
    values = {(m, h): f for m, row in enumerate(faces) for h, f in enumerate(row)}
    return not broken_rows(lines_of(wall), values, problem.flatness)


@pytest.mark.parametrize("seed", range(40))
def test_faces_are_settled_exactly_when_some_depths_pass_the_straightedge(seed: int) -> None:
    problem = planed_wall(seed)
    bench, picks = planed(problem, 2)
    frame, unit = bench.frames["B"][0], bench.unit
    members = problem.walls[0].members
    fits = [  # independent: every depth in steps of 1/32 up to 1/8 that ends within 1/16 of the plane
        [d for d in (F(n, 32) for n in range(5)) if d <= most and abs(o - d - T) <= F(1, 16)]
        for m in members
        for o, most in zip(m.offsets, m.plane_depth, strict=True)
    ]
    assert all(fits)
    flat = [o for m in members for o in m.offsets]
    some = any(
        straight(problem, [[flat[3 * m + h] - d[3 * m + h] for h in range(3)] for m in range(2)])
        for d in product(*fits)
    )
    settled, row = settle(frame, picks, (T * unit, T * unit), {})
    assert (row is None) == some
    if row is None:
        faces = [[F(f) / unit for f in each] for each in settled.faces]
        assert straight(problem, faces)
        for m, member in enumerate(members):
            for face, o in zip(faces[m], member.offsets, strict=True):
                assert (o - face) % F(1, 32) == 0
                assert 0 <= o - face <= F(1, 8)
                assert abs(face - T) <= F(1, 16)


def test_both_outcomes_come_up_among_those_walls() -> None:
    outcomes = set()
    for seed in range(40):
        bench, picks = planed(planed_wall(seed), 2)
        there = (T * bench.unit, T * bench.unit)
        outcomes.add(settle(bench.frames["B"][0], picks, there, {})[1] is None)
    assert outcomes == {True, False}


def test_a_planed_face_stops_nearest_the_plane_on_the_planing_steps() -> None:
    problem = replace(planed_wall(0), flatness=())
    old = problem.walls[0].members[0]
    member = replace(old, offsets=(F(1, 8), F(1, 16), F(1, 32)), plane_depth=(F(1, 8),) * 3)
    wall = replace(problem.walls[0], members=(member, *problem.walls[0].members[1:]))
    problem = replace(problem, walls=(wall,))
    bench, picks = planed(problem, 2)
    frame, unit = bench.frames["B"][0], bench.unit
    # independent: plane at 0, within 1/16 either side; 1/8 may stop at 1/16 .. 0, 1/16 at 1/16 .. -1/16
    assert ranges(frame, 0, picks[0], F(0), ()) == [
        (0, unit // 16),
        (-unit // 16, unit // 16),
        (-unit // 16, unit // 32),
    ]
    settled, row = settle(frame, [picks[0], *picks[1:]], (F(0), F(0)), {})
    assert row is None
    assert settled.faces[0] == (0, 0, 0)  # independent: each is whole steps of 1/32 from the plane


def test_face_limits_narrow_what_a_planed_face_may_be() -> None:
    problem = planed_wall(0)
    wall = problem.walls[0]
    deep = tuple(replace(m, plane_depth=(F(1, 8),) * 3) for m in wall.members)
    bench, picks = planed(replace(problem, walls=(replace(wall, members=deep),), flatness=()), 2)
    frame, unit = bench.frames["B"][0], bench.unit
    top = frame.shapes[0].faces[1]
    t = F(top)
    free = ranges(frame, 0, picks[0], t, ())[1]
    assert free == (top - unit // 16, top)  # independent: two passes, at most 1/16 behind the plane
    held = ranges(frame, 0, picks[0], t, ((1, top - F(unit, 20), top - F(unit, 100)),))[1]
    # independent: between 0.05 and 0.01 in below the top only 1/32 = 0.03125 is a whole step
    assert held == (top - unit // 32, top - unit // 32)
