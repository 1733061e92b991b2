"""The checker itself: the plan written out by hand passes, and each thing done wrong is named."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction as F

import pytest

from undertile.bench.hand import hand_room
from undertile.bench.rooms import LARGE_TILE
from undertile.bench.verify import Key, price, verify
from undertile.framing.plan import Charge, FramingPlan, MemberPlan, Piece, Plane, Recipe

PLANES = {
    "B": Plane("B", F(0), F(0), F(0)),
    "L": Plane("L", F(1, 16), F(0), F(0)),
    "R": Plane("R", F(1, 16), F(0), F(0)),
}


def hand_recipes() -> dict[Key, Recipe]:
    """The plan that convention 8 writes out."""
    recipes: dict[Key, Recipe] = {(w.name, m.name): Recipe() for w in hand_room().walls for m in w.members}
    recipes["B", "B2"] = Recipe(("plane",), passes=2, depth=(F(0), F(1, 8), F(0)))
    recipes["B", "B4"] = Recipe(("strip",), pieces=(Piece("hardboard 1/8", F(1, 8), 1, 1),))
    for wall in "LR":
        for n in (1, 2, 3):
            recipes[wall, f"{wall}{n}"] = Recipe(flange_shim=True)
    return recipes


def hand_plan() -> FramingPlan:
    problem = hand_room()
    got = price(problem, PLANES, hand_recipes())
    members = tuple(
        MemberPlan(
            w.name,
            m.name,
            m.along,
            w.heights,
            m.offsets,
            got.faces[w.name, m.name],
            got.targets[w.name, m.name],
            hand_recipes()[w.name, m.name],
            got.members[w.name, m.name].minutes,
            got.members[w.name, m.name].dollars,
        )
        for w in problem.walls
        for m in w.members
    )
    charges = tuple(Charge(w.name, "verify", F(6), F(0)) for w in problem.walls)
    cost = F(43) * 95 / 60
    return FramingPlan("proved", PLANES, members, charges, F(43), F(0), cost, cost)


def test_the_plan_written_out_by_hand_is_allowed_and_costs_43_minutes() -> None:
    for rules in ((), LARGE_TILE):
        got = price(hand_room(flatness=rules), PLANES, hand_recipes())
        assert got.violations == []
        assert got.minutes == 43  # published: convention 8
        assert got.touched == 2  # published: convention 8, B2 and B4
        assert len(got.shims) == 6  # published: convention 8, flange shims at all six


def test_a_right_plan_has_nothing_against_it() -> None:
    assert verify(hand_room(), hand_plan()) == []


@pytest.mark.parametrize(
    ("stud", "recipe", "words"),
    [
        ("B2", Recipe(), "face 3/16 from its target"),
        ("B2", Recipe(("plane",), passes=1, depth=(F(0), F(1, 8), F(0))), "at most 1/16"),
        ("B2", Recipe(("plane",), passes=2, depth=(F(0), F(9, 80), F(0))), "thirty-seconds"),
        ("B2", Recipe(("plane",), passes=5, depth=(F(0), F(1, 8), F(0))), "5 passes"),
        ("B2", Recipe(("sister",)), "sister face -3/16 from the old one"),
        ("B3", Recipe(("knock over",), knock=F(1, 16)), "knock-over not offered"),
        ("B3", Recipe(("wet bed",)), "wet bed not offered"),
        ("B3", Recipe(("channel",)), "channel not offered"),
        ("B3", Recipe(("strip", "taper"), taper=(F(1, 8), F(1, 8))), "not a treatment"),
        ("B4", Recipe(("strip",), pieces=(Piece("slate", F(1, 8), 1, 1),)), "no stock slate"),
        ("B4", Recipe(("strip",), pieces=(Piece("hardboard 1/8", F(1, 8), 0, 1),)), "face 1/8 from its"),
        ("B4", Recipe(("strip",), pieces=(Piece("3/4 ply", F(23, 32), 1, 1),) * 2), "over 3/4 in all"),
        ("B4", Recipe(("strip",), pieces=(Piece("plastic 1/16", F(1, 16), 1, 1),) * 4), "4 pieces"),
        ("B4", Recipe(("taper",), taper=(F(1, 16), F(1, 8))), "taper end 1/16"),
    ],
)
def test_each_broken_rule_is_named(stud: str, recipe: Recipe, words: str) -> None:
    recipes = hand_recipes() | {("B", stud): recipe}
    violations = price(hand_room(), PLANES, recipes).violations
    assert any(words in line for line in violations), violations


def test_a_plane_or_demand_out_of_its_window_is_named() -> None:
    problem = hand_room()
    wide = PLANES | {"L": Plane("L", F(0), F(0), F(0))}
    assert any("demand play-1-2" in line for line in price(problem, wide, hand_recipes()).violations)
    leaning = PLANES | {"B": Plane("B", F(0), F(0), F(1, 1000))}
    assert any("lean 1/1000" in line for line in price(problem, leaning, hand_recipes()).violations)


def test_a_wrong_figure_in_a_plan_is_named() -> None:
    problem, plan = hand_room(), hand_plan()
    assert any("cost" in line for line in verify(problem, replace(plan, cost=F(60), bound=F(60))))
    assert any("bound" in line for line in verify(problem, replace(plan, bound=F(60))))
    cheap = replace(plan.members[0], minutes=F(1))
    assert any(
        "B1: minutes 1" in line for line in verify(problem, replace(plan, members=(cheap, *plan.members[1:])))
    )
    unshimmed = replace(plan.members[4], recipe=Recipe())
    assert any(
        "flange shim False" in line
        for line in verify(problem, replace(plan, members=(*plan.members[:4], unshimmed, *plan.members[5:])))
    )
    assert verify(problem, replace(plan, members=plan.members[1:])) == ["('B', 'B1'): no recipe"]
