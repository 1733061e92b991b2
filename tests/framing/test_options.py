"""What a member may be: depths, hold, and the least that stacks not yet listed could cost."""

from __future__ import annotations

import random
from dataclasses import replace
from fractions import Fraction

import pytest

from tests.framing.smallwall import small_wall
from undertile.framing.frame import WallFrame
from undertile.framing.option import BARE, PLATE, Known
from undertile.framing.problem import Member
from undertile.framing.search import Bench

F = Fraction


def frame_of(seed: int, **changes: object) -> WallFrame:
    """The frame of a small wall with its first stud changed."""
    problem = small_wall(seed)
    wall = problem.walls[0]
    first: Member = replace(wall.members[0], **changes)  # type: ignore[arg-type]
    wall = replace(wall, members=(first, *wall.members[1:]))
    return Bench.of(replace(problem, walls=(wall,))).frames["B"][0]


def test_depths_keep_a_height_unplaned_where_the_stud_may_not_be_ripped() -> None:
    depth = (F(1, 8), F(1, 4), F(3, 32))
    free = frame_of(0, plane_depth=depth, rip_ok=True).shapes[0]
    held = frame_of(0, plane_depth=depth, rip_ok=False).shapes[0]
    six = free.sixteenth
    # independent: two passes reach 1/8; clear of the flange zone, and with the plate's edge
    assert free.depth_choices(2, False) == [
        ((0, 2 * six, six * 3 // 2), 0),
        ((2 * six, 2 * six, six * 3 // 2), PLATE),
    ]
    got = held.depth_choices(2, False)
    assert ((0, 2 * six, six * 3 // 2), 0) in got
    assert all(0 in each for each, _ in got)
    assert {each for each, bit in got if bit == PLATE} == {  # independent: one height left out, each in turn
        (0, 2 * six, six * 3 // 2),
        (2 * six, 0, six * 3 // 2),
        (2 * six, 2 * six, 0),
    }


@pytest.mark.parametrize(
    ("held", "allowed"),
    [
        (
            None,
            {(), ("plane",), ("strip",), ("plane", "strip"), ("sister",), ("plane", "sister"), ("replace",)},
        ),
        ("leave", {()}),
        ("plane", {("plane",)}),
        ("sister", {("sister",), ("plane", "sister")}),
        ("replace", {("replace",)}),
    ],
)
def test_a_hold_allows_the_families_of_the_contract(held: str | None, allowed: set[tuple[str, ...]]) -> None:
    shape = frame_of(0, held=held).shapes[0]
    every = [(), ("plane",), ("strip",), ("plane", "strip"), ("sister",), ("plane", "sister"), ("replace",)]
    # published: docs/methods/framing-contract.md 5, "held = X: only treatment X"
    assert {families for families in every if shape.allowed(families)} == allowed


@pytest.mark.parametrize("seed", range(6))
def test_stacks_not_yet_listed_never_cost_less_than_was_promised(seed: int) -> None:
    frame = frame_of(seed)
    shape = frame.shapes[0]
    rng = random.Random(seed)
    looked = 0
    for _ in range(4):
        low = rng.randrange(shape.t_range[0], shape.t_range[1])
        span = (low, low + shape.unit // 8)
        levels = shape.levels(span)
        promised = {(kind, count, cut): least for least, kind, count, cut, _ in levels}
        for cut in shape.cuts():
            for count in (1, 2, 3):
                if count == 1 and cut == BARE:
                    continue  # listed from the start
                for draft in shape.strips(count, cut, {}, span, Known([])):
                    if draft[1] > span[1] or draft[2] < span[0]:
                        continue
                    looked += 1
                    assert ("strips", count, cut) in promised
                    # the promise is at no more than what listing them gives
                    assert promised["strips", count, cut] <= draft[0]
            if shape.member.taper:
                for draft in shape.tapers(cut, {}, span):
                    assert promised["tapers", 0, cut] <= draft[0]
    assert looked
