"""The room of convention 8, counted there by hand: 43 minutes, and no way to do it in less."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction as F
from types import ModuleType

import pytest

from undertile.bench import cpsat, milp
from undertile.bench.hand import hand_room
from undertile.bench.rooms import FIVE_LEANS, LARGE_TILE, SMALL_TILE
from undertile.bench.symmetry import mirror
from undertile.bench.verify import verify
from undertile.framing.problem import Demand, FramingProblem
from undertile.framing.search import solve

PLUMB = (F(0),)
LEAST = 43  # published: convention 8, "Least: 43 minutes = back 19 + left 3 + right 3 + verify 18"
HELD_FORWARD = 43 - 12 - 7 + F(43, 2)  # published: convention 8, back plane 1/16 forward costs 21.5, not 19


def cost_of(minutes: F | int) -> F:
    """Minutes only: dollars at the rate of $95 an hour, nothing else."""
    return F(minutes) * 95 / 60


def held(problem: FramingProblem, wall: str, offset: F) -> FramingProblem:
    """The wall's plane put at ``offset``, plumb and square to the line."""
    ends = {w.name: (w.members[0].along, w.members[-1].along) for w in problem.walls}[wall]
    fixed = tuple(
        Demand(f"hold-{wall}-{a}", ((wall, a, F(0), F(1)),), offset, offset, "put here") for a in ends
    )
    return replace(problem, demands=problem.demands + fixed)


@pytest.mark.parametrize("leans", [PLUMB, FIVE_LEANS], ids=["plumb", "five leans"])
@pytest.mark.parametrize("rules", [(), LARGE_TILE, SMALL_TILE], ids=["no rule", "large tile", "small tile"])
@pytest.mark.parametrize("reflect", [False, True], ids=["as read", "mirrored"])
def test_the_hand_room_takes_43_minutes(
    leans: tuple[F, ...], rules: tuple[tuple[F, F], ...], reflect: bool
) -> None:
    problem = hand_room(leans=leans, flatness=rules)
    if reflect:
        problem = mirror(problem)  # independent: symmetry
    plan = solve(problem)
    assert plan.state == "proved"
    assert plan.cost == plan.bound == cost_of(LEAST)
    assert verify(problem, plan) == []


def test_the_hand_room_touches_two_studs_and_shims_six() -> None:
    plan = solve(hand_room())
    assert plan.cost == cost_of(LEAST)
    assert sorted(m.name for m in plan.members if m.touched) == ["B2", "B4"]  # published: convention 8
    shimmed = {m.name for m in plan.members if m.recipe.flange_shim}
    assert shimmed == {"L1", "L2", "L3", "R1", "R2", "R3"}  # published: convention 8, "at all six"
    assert plan.member("B2").minutes == 12  # published: convention 8, two passes, 9 + 3
    assert plan.member("B4").minutes == 7  # published: convention 8, one strip


@pytest.mark.parametrize("reflect", [False, True], ids=["as read", "mirrored"])
def test_the_plans_that_lose_in_convention_8_cost_what_it_says(reflect: bool) -> None:
    forward = held(hand_room(), "B", F(1, 16))
    one_wall = held(hand_room(), "L", F(0))
    if reflect:
        forward, one_wall = mirror(forward), mirror(one_wall)
    assert solve(forward).cost == cost_of(HELD_FORWARD)
    # published: convention 8, one wall built out instead: three strips, 21, where both sides took 3 + 3
    assert solve(one_wall).cost == cost_of(LEAST - 6 + 21)


@pytest.mark.parametrize("solver", [milp, cpsat], ids=["HiGHS", "CP-SAT"])
@pytest.mark.parametrize("reflect", [False, True], ids=["as read", "mirrored"])
def test_the_general_solvers_agree_on_43(solver: ModuleType, reflect: bool) -> None:
    problem = mirror(hand_room()) if reflect else hand_room()
    answer = solver.solve(problem, time_limit=300)
    assert answer.status == "closed", answer.note
    assert answer.cost == cost_of(LEAST)
    assert answer.touched == 2  # published: convention 8, B2 and B4
