"""What must hold of any least plan, whatever the room (all *independent*: symmetry and monotony).

Rooms are drawn from ``bench.rooms``; every plan compared was proved, so costs may be compared exactly.
"""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import pytest

from undertile.bench.rooms import room
from undertile.bench.symmetry import add_stud, mirror, shift_line
from undertile.bench.verify import verify
from undertile.framing.plan import FramingPlan
from undertile.framing.problem import Demand, FramingProblem, StockItem, WallProblem
from undertile.framing.search import solve

SEEDS = (301, 302, 304, 305, 307, 308)


def least(problem: FramingProblem) -> FramingPlan:
    plan = solve(problem, time_limit_s=60)
    assert plan.state != "open", "the room was not settled in a minute"
    return plan


def no_dearer(looser: FramingPlan, tighter: FramingPlan) -> bool:
    """Whether the looser problem's plan costs no more (no plan counts as infinitely dear)."""
    if tighter.cost is None:
        return True
    return looser.cost is not None and looser.cost <= tighter.cost


def each_member(problem: FramingProblem, **change: object) -> FramingProblem:
    walls = tuple(
        replace(w, members=tuple(replace(m, **change) for m in w.members))  # type: ignore[arg-type]
        for w in problem.walls
    )
    return replace(problem, walls=walls)


def each_wall(problem: FramingProblem, **change: object) -> FramingProblem:
    return replace(problem, walls=tuple(replace(w, **change) for w in problem.walls))  # type: ignore[arg-type]


@pytest.mark.parametrize("seed", SEEDS)
def test_a_mirrored_room_costs_the_same_and_touches_as_many_studs(seed: int) -> None:
    problem = room(seed, studs=7, heights=5)
    plan, mirrored = least(problem), least(mirror(problem))
    assert plan.cost == mirrored.cost
    assert sum(m.touched for m in plan.members) == sum(m.touched for m in mirrored.members)
    assert plan.cost is None or verify(problem, plan) == []


@pytest.mark.parametrize("seed", SEEDS)
@pytest.mark.parametrize("amount", [Fraction(5, 16), Fraction(-3, 32)])
def test_a_reference_line_hung_elsewhere_changes_nothing(seed: int, amount: Fraction) -> None:
    problem = room(seed, studs=7, heights=5)
    moved = problem
    for wall in problem.walls:
        moved = shift_line(moved, wall.name, amount)
    assert least(problem).cost == least(moved).cost


@pytest.mark.parametrize("seed", SEEDS)
def test_looser_tolerances_never_cost_more(seed: int) -> None:
    problem = room(seed, studs=7, heights=5)
    plan = least(problem)
    assert no_dearer(least(replace(problem, flatness=())), plan)
    wider = tuple(
        replace(
            d,
            low=None if d.low is None else d.low - Fraction(1, 16),
            high=None if d.high is None else d.high + Fraction(1, 16),
        )
        for d in problem.demands
    )
    assert no_dearer(least(replace(problem, demands=wider)), plan)
    leans = tuple(Fraction(n, 16 * 96) for n in range(-3, 4))
    leaning = replace(
        problem, walls=tuple(replace(w, leans=tuple(sorted({*w.leans, *leans}))) for w in problem.walls)
    )
    assert no_dearer(least(leaning), plan)


@pytest.mark.parametrize("seed", SEEDS)
def test_one_more_treatment_never_costs_more(seed: int) -> None:
    problem = each_member(room(seed, studs=7, heights=5), taper=False, sister=None)
    plan = least(problem)
    assert no_dearer(least(each_member(problem, taper=True)), plan)
    assert no_dearer(least(each_member(problem, sister=Fraction(22))), plan)
    more = StockItem("packer 3/32", Fraction(3, 32), Fraction(1, 10))
    stock = (*problem.stock, more)
    walls = tuple(
        replace(w, members=tuple(replace(m, stock=(*m.stock, len(stock) - 1)) for m in w.members))
        for w in problem.walls
    )
    assert no_dearer(least(replace(problem, stock=stock, walls=walls)), plan)


@pytest.mark.parametrize("seed", SEEDS)
def test_a_hold_never_costs_less(seed: int) -> None:
    problem = room(seed, studs=7, heights=5)
    plan = least(problem)
    for wall in problem.walls:
        first = wall.members[0]
        for held in ("leave", "strip"):
            members = (replace(first, held=held), *wall.members[1:])
            walls: tuple[WallProblem, ...] = tuple(
                replace(w, members=members) if w is wall else w for w in problem.walls
            )
            if first.held is None:
                assert no_dearer(plan, least(replace(problem, walls=walls)))
        at = Demand(
            f"hold-{wall.name}",
            ((wall.name, first.along, Fraction(0), Fraction(1)),),
            Fraction(1, 16),
            Fraction(1, 16),
            "held",
        )
        assert no_dearer(plan, least(replace(problem, demands=(*problem.demands, at))))


def test_a_stud_on_the_plane_that_no_straightedge_sees_changes_nothing() -> None:
    """A new stud whose faces are the plane's costs nothing where no straightedge rule compares it."""
    done = 0
    for seed in SEEDS:
        problem = replace(room(seed, studs=7, heights=5), flatness=())
        plan = least(problem)
        if plan.cost is None:
            continue
        wall = problem.walls[0]
        along = (wall.members[0].along + wall.members[1].along) / 2
        if any(c.what == "channel" for c in plan.charges):
            continue
        more = add_stud(problem, plan.planes[wall.name], along)
        assert least(more).cost == plan.cost
        done += 1
    assert done >= 3
