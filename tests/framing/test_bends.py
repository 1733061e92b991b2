"""Straightedge rows that came up, as what every plan has to do: no plan is lost, no bound raised too far."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction
from itertools import product
from typing import Any

import pytest

from tests.framing.smallwall import small_wall
from tests.framing.test_bound import BOW, group_of
from undertile.framing.bends import Bend, Part, bend_of
from undertile.framing.flatness import WallRow
from undertile.framing.frame import WallFrame
from undertile.framing.option import Option
from undertile.framing.problem import FramingProblem

F = Fraction


def wall_that_dries() -> FramingProblem:
    """A small wall whose first stud still goes back 1/32 as it dries."""
    problem = small_wall(0, flatness=BOW)
    wall = problem.walls[0]
    first = replace(wall.members[0], goes_back=F(1, 32))
    return replace(problem, walls=(replace(wall, members=(first, *wall.members[1:])),))


def frame_of(problem: FramingProblem) -> WallFrame:
    return group_of(problem)[1].frames[0][0]


def pick_that(
    rides: bool = False, added: Sequence[int] = (0, 0, 0), depth: Sequence[int] = (0, 0, 0)
) -> Option:
    return Option(1, 0, 0, (), 0, tuple(added), tuple(depth), False, 0, rides=rides)


def row_over(frame: WallFrame, cells: Sequence[tuple[int, int]], limit: Fraction) -> WallRow:
    """The middle of three readings may lie so far under the middle between the others."""
    (a, b, c) = cells
    line = next(line for line in frame.flatness.lines if line.cells == tuple(cells))
    return WallRow(((a, F(1, 2)), (b, F(-1)), (c, F(1, 2))), limit, limit + F(1, 100), line, F(120))


@pytest.mark.parametrize("rides", [None, 0, 2])
def test_faces_that_do_none_of_a_bend_break_its_row(rides: int | None) -> None:
    # independent: the row itself, over every choice of whole faces around those that broke it
    frame = frame_of(small_wall(1, flatness=BOW))
    cells = ((0, 1), (1, 1), (2, 1))
    row = row_over(frame, cells, F(1, 64))
    faces = [[0, 40, 0], [0, -3, 0], [0, 30, 0]]
    limit = row.limit * frame.unit
    faces[1][1] = int(35 - limit) - 2  # broken by two units
    picks: list[Option | None] = [pick_that(rides=m == rides) for m in range(3)]
    bend = bend_of(frame, picks, row, faces)
    assert [(p.member, p.height) for p in bend.parts] == [(0, 1), (2, 1), (1, 1)]
    done = broken = 0
    for by in product(range(-5, 6), repeat=3):
        at = [F(faces[m][1] + d) for m, d in enumerate(by)]
        keeps = any(
            (part.most is not None and at[part.member] <= part.most)
            or (part.least is not None and at[part.member] >= part.least)
            for part in bend.parts
        )
        holds = at[0] / 2 - at[1] + at[2] / 2 <= limit
        done += keeps
        broken += not holds
        assert keeps or not holds
    assert done
    assert broken
    now = [F(faces[m][1]) for m in range(3)]
    assert not any(
        (part.most is not None and now[part.member] <= part.most)
        or (part.least is not None and now[part.member] >= part.least)
        for part in bend.parts
    )  # those it was made of do none of it


@pytest.mark.parametrize(
    ("cells", "height"), [(((0, 0), (0, 1), (0, 2)), 1), (((1, 1), (0, 1), (2, 1)), 4)], ids=["up", "along"]
)
def test_a_stud_goes_back_as_one_so_a_dip_up_it_counts_as_it_stands(
    cells: tuple[tuple[int, int], ...], height: int
) -> None:
    # convention 4.8 and contract 12: only over a line from stud to stud does a stud that dries fall behind
    frame = frame_of(wall_that_dries())
    direction = "up" if cells[0][0] == cells[1][0] else "along"
    line = next(line for line in frame.flatness.lines if line.direction == direction)
    weights = tuple((cell, F(-1) if n == 1 else F(1, 2)) for n, cell in enumerate(cells))
    row = WallRow(weights, F(1, 64), F(1, 32), line, F(120))
    faces = [[0, 0, 0], [0, 0, 0], [0, 0, 0]]
    for (m, h), w in weights:
        faces[m][h] = 60 if w > 0 else 0
    dip = bend_of(frame, [pick_that()] * 3, row, faces).parts[-1]
    assert (dip.member, dip.height) == (0, height)


def test_a_stack_may_do_a_part_where_its_face_can_lie_so() -> None:
    frame = frame_of(wall_that_dries())
    face, back = frame.shapes[0].faces[1], frame.shapes[0].back
    lower = Part(0, 1, None, F(face - 10))
    assert not lower.may(frame, pick_that())
    assert lower.may(frame, pick_that(depth=(0, 10, 0)))  # planed so deep
    assert not lower.may(frame, pick_that(added=(0, 1, 0), depth=(0, 10, 0)))
    assert lower.may(frame, pick_that(rides=True))  # wherever the plane is
    higher, dry = Part(0, 1, F(face + 10), None), Part(0, 4, F(face + 10), None)
    assert higher.may(frame, pick_that(added=(0, 10, 0)))
    assert not dry.may(frame, pick_that(added=(0, 10 + back - 1, 0)))
    assert dry.may(frame, pick_that(added=(0, 10 + back, 0)))


def test_bends_that_came_up_change_no_cost(monkeypatch: pytest.MonkeyPatch) -> None:
    # second method: the same search where no bend raises a bound; solvers judge such walls in test_bound
    problems = [small_wall(seed, studs=4, flatness=((F(120), F(1, 32)),)) for seed in range(12)]
    groups = [group_of(problem)[1] for problem in problems]
    found = [group.run() for group in groups]
    raised: list[int] = []
    plainly = Bend.raised

    def never(self: Bend, *told: Any) -> int:
        raised.append(plainly(self, *told))
        return 0

    monkeypatch.setattr(Bend, "raised", never)
    plain = [group_of(problem)[1].run() for problem in problems]
    assert any(raised)
    assert [each.bound for each in found] == [each.bound for each in plain]
    for group, outcome in zip(groups, found, strict=True):
        assert outcome.found is not None
        assert outcome.found.cost == outcome.bound
        frame, picks = group.frames[0][outcome.found.leans[0]], outcome.found.picks[0]
        for bend in group.bends.get(frame, ()):
            assert any(part.may(frame, picks[part.member]) for part in bend.parts)
