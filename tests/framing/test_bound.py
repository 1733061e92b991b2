"""The search over one group of walls, against planes tried one by one and general solvers."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from functools import partial
from itertools import product

import pytest

from tests.depth import deep
from tests.framing.everystack import least_under, member_ways, money
from tests.framing.smallwall import small_wall
from undertile.bench import cpsat, milp
from undertile.bench.rooms import room
from undertile.bench.verify import verify
from undertile.framing.bound import Group
from undertile.framing.problem import Demand, FramingProblem
from undertile.framing.search import Bench, solve

F = Fraction
BOW = ((F(120), F(1, 16)),)
STEP = F(1, 32)
PLENTY = 300.0
"""Seconds for a solver: the limit only ends a test that hangs."""


def group_of(problem: FramingProblem) -> tuple[Bench, Group]:
    """Every wall of a problem as one group under all its demands."""
    bench = Bench.of(problem)
    frames = [bench.frames[wall.name] for wall in problem.walls]
    names = [wall.name for wall in problem.walls]
    return bench, Group(names, frames, problem.demands, lambda nodes, bound: False)


def least_on_grid(problem: FramingProblem) -> Fraction | None:
    """The least over a grid of plumb planes 1/32 apart at the end studs, every treatment tried on each."""
    wall = problem.walls[0]
    p = problem.prices
    charges = {"plate": p.plate_edge, "taper": p.taper_first - p.taper_next}
    first, middle, last = wall.members
    low, high = F(-1, 8), F(1, 8)
    ends = [low + STEP * n for n in range(int((high - low) / STEP) + 1)]
    halves = [low + STEP / 2 * n for n in range(int((high - low) / STEP) * 2 + 1)]
    assert middle.along * 2 == first.along + last.along
    known = {
        name: {t: member_ways(problem, wall, m, t, F(0)) for t in places}
        for name, m, places in (("a", first, ends), ("m", middle, halves), ("b", last, ends))
    }
    best: Fraction | None = None
    for on in product((False, True), repeat=len(charges)):
        paid = frozenset(name for name, yes in zip(charges, on, strict=True) if yes)
        fixed = money(p, p.verify + sum((charges[name] for name in paid), F(0)), F(0))
        least = {n: {t: least_under(ways, paid) for t, ways in at.items()} for n, at in known.items()}
        for ta, tb in product(ends, ends):
            each = [least["a"][ta], least["m"][(ta + tb) / 2], least["b"][tb]]
            if None not in each:
                total = fixed + sum((c for c in each if c is not None), F(0))
                best = total if best is None else min(best, total)
    return best


@pytest.mark.parametrize("seed", range(deep(2, 4)))
def test_no_plane_of_a_grid_costs_less_than_the_proved_least(seed: int) -> None:
    problem = small_wall(seed)
    bench, group = group_of(problem)
    outcome = group.run()
    assert outcome.found is not None
    assert outcome.bound is not None
    assert outcome.found.cost == outcome.bound
    grid = least_on_grid(problem)  # independent: a grid of planes, every treatment on each
    assert grid is not None
    assert bench.money.dollars(outcome.bound) <= grid
    assert verify(problem, solve(problem)) == []  # and the least is a plan: priced apart by the contract


@pytest.mark.parametrize("rules", [(), BOW], ids=["no rule", "1/16 in 10 ft"])
@pytest.mark.parametrize("seed", range(deep(6, 10)))
def test_a_wall_costs_what_a_general_solver_says(
    seed: int, rules: tuple[tuple[Fraction, Fraction], ...]
) -> None:
    problem = small_wall(seed, flatness=rules)
    bench, group = group_of(problem)
    outcome = group.run()
    answer = (milp if seed % 5 == 0 else cpsat).solve(problem, time_limit=PLENTY)
    assert answer.status == "closed", answer.note
    assert outcome.bound is not None
    assert bench.money.dollars(outcome.bound) == answer.cost  # independent: HiGHS, CP-SAT


def test_the_straightedge_changes_what_some_of_those_walls_cost() -> None:
    free = [solve(small_wall(seed)).cost for seed in range(10)]
    ruled = [solve(small_wall(seed, flatness=BOW)).cost for seed in range(10)]
    assert all(a is not None and b is not None and a <= b for a, b in zip(free, ruled, strict=True))
    assert free != ruled


def test_a_plane_held_at_the_floor_is_held_at_each_lean() -> None:
    # the plane is held at height 0 and T is taken at the flange height: where it may lie depends on the lean
    problem = room(1287, studs=4, heights=4, layout="corner")
    assert "hold-B-offset" in {d.code for d in problem.demands}
    bench = Bench.of(problem)
    inner = tuple(d for d in problem.demands if {p[0] for p in d.parts} == {"B"})
    outcome = Group(["B"], [bench.frames["B"]], inner, partial(late, 2000)).run()
    assert not outcome.stopped
    assert outcome.found is not None
    walls = tuple(wall for wall in problem.walls if wall.name == "B")
    answer = cpsat.solve(replace(problem, walls=walls, demands=inner), time_limit=PLENTY)
    assert answer.status == "closed", answer.note
    assert bench.money.dollars(outcome.found.cost) == answer.cost  # independent: CP-SAT


def test_a_contradiction_between_demands_leaves_no_plan() -> None:
    problem = small_wall(0)
    at = (("B", F(8), F(0), F(1)),)
    apart = (
        Demand("low", at, None, F(0), "behind"),
        Demand("high", at, F(1, 1000), None, "in front"),
    )
    _, group = group_of(replace(problem, demands=apart))
    outcome = group.run()
    assert (outcome.found, outcome.bound, outcome.stopped) == (None, None, False)  # independent: 0 < 1/1000


def test_the_bound_handed_to_tick_never_falls_and_never_passes_the_least() -> None:
    problem = small_wall(4, flatness=BOW)
    bench = Bench.of(problem)
    bounds: list[int] = []

    def tick(nodes: int, bound: int) -> bool:
        bounds.append(bound)
        return False

    outcome = Group(["B"], [bench.frames["B"]], (), tick).run()
    assert outcome.bound is not None
    assert len(bounds) == outcome.nodes > 10
    assert bounds == sorted(bounds)
    assert bounds[-1] == outcome.bound


def late(limit: int, nodes: int, bound: int) -> bool:
    """Stopped once so many nodes are looked at."""
    return nodes >= limit


def test_a_search_that_is_stopped_gives_a_bound_under_the_least() -> None:
    problem = small_wall(4, flatness=BOW)
    bench = Bench.of(problem)
    whole = Group(["B"], [bench.frames["B"]], (), lambda nodes, bound: False).run()
    assert whole.bound is not None
    for limit in (0, 3, 10):
        cut = Group(["B"], [bench.frames["B"]], (), partial(late, limit)).run()
        assert cut.stopped
        assert cut.found is None
        assert cut.nodes == limit
        assert cut.bound is not None
        assert cut.bound <= whole.bound
