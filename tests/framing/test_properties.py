"""What must hold of least cost whatever the room: mirrors, shifts, one stud more, looser, more, held.

Each is a theorem of the contract (docs/methods/proof.md says why, and under which conditions); the numbers
are therefore independent: the second answer is the planner's own to a problem that must cost the same, no
more or no less. Rooms are seeded (``undertile.bench.rooms``), so a failure names its room.
"""

from __future__ import annotations

import random
from collections.abc import Callable
from dataclasses import replace
from fractions import Fraction as F

import pytest

from tests.depth import deep
from undertile.bench.rooms import room
from undertile.bench.symmetry import add_stud, mirror, shift_line
from undertile.bench.verify import CHANNEL, price, verify
from undertile.framing.plan import FramingPlan, Recipe
from undertile.framing.problem import Demand, FramingProblem, Member, StockItem
from undertile.framing.search import solve

Loosen = Callable[[FramingProblem], FramingProblem]
LIMIT_S = 60.0
"""Ends a search that hangs; every room here is proved in about a second. [s]"""


def planned(problem: FramingProblem) -> FramingPlan:
    plan = solve(problem, time_limit_s=LIMIT_S)
    assert plan.state != "open"
    assert verify(problem, plan) == []
    return plan


def price_of(plan: FramingPlan) -> F | float:
    """Cost, with no plan dearer than any."""
    return float("inf") if plan.cost is None else plan.cost


def touched(plan: FramingPlan) -> int:
    return sum(member.touched for member in plan.members)


def each_member(problem: FramingProblem, change: Callable[[Member], Member]) -> FramingProblem:
    walls = tuple(replace(w, members=tuple(change(m) for m in w.members)) for w in problem.walls)
    return replace(problem, walls=walls)


@pytest.mark.parametrize("seed", range(600, deep(605, 610)))
def test_a_mirrored_room_costs_the_same(seed: int) -> None:
    problem = room(seed, studs=7, heights=5)
    assert mirror(mirror(problem)) == problem
    plan, seen = planned(problem), planned(mirror(problem))
    assert (seen.cost, touched(seen)) == (plan.cost, touched(plan))


@pytest.mark.parametrize("seed", range(620, deep(625, 630)))
def test_a_shifted_reference_line_changes_nothing(seed: int) -> None:
    problem = room(seed, studs=7, heights=5)
    rng = random.Random(seed)
    plan = planned(problem)
    moved = problem
    for wall in problem.walls:
        moved = shift_line(moved, wall.name, F(rng.randrange(-64, 65), rng.choice((16, 127))))
    again = planned(moved)
    assert (again.cost, touched(again)) == (plan.cost, touched(plan))


PLANNED = [*range(640, 647), *range(648, 652)]
"""647 has no plan."""
RULED = [660, 661, 662, 663, 664, 667, 668, 671]
"""With straightedge rules, and no channel."""


@pytest.mark.parametrize("seed", deep([*range(640, 646)], PLANNED))
def test_a_stud_exactly_on_the_plane_changes_nothing(seed: int) -> None:
    """Exactly so without straightedge rules, when the wall is not channelled.

    Left alone the new stud is at its target everywhere, so the old plan stays allowed at the same cost; and
    any plan of the new room, less the new stud, is one of the old room that costs no more.
    """
    problem = replace(room(seed, studs=7, heights=5), flatness=())
    plan = planned(problem)
    assert plan.cost is not None
    rng = random.Random(seed)
    walls = [
        w for w in problem.walls if all(CHANNEL not in plan.member(m.name).recipe.families for m in w.members)
    ]
    wall = rng.choice(walls)
    bay = rng.randrange(len(wall.members) - 1)
    first, last = wall.members[bay].along, wall.members[bay + 1].along
    more = add_stud(problem, plan.planes[wall.name], first + (last - first) * F(rng.randrange(1, 8), 8))
    again = planned(more)
    assert (again.cost, touched(again)) == (plan.cost, touched(plan))


@pytest.mark.parametrize("seed", deep([660, 662, 664, 668], RULED))
def test_a_stud_on_the_plane_costs_nothing_where_its_straightedge_allows(seed: int) -> None:
    """With straightedge rules a new reading may show a gap that was not read before.

    So the claim is: wherever the old plan, with the new stud left, passes the rules, the room costs no more.
    """
    problem = room(seed, studs=7, heights=5)
    plan = planned(problem)
    assert plan.cost is not None
    assert problem.flatness
    wall = problem.walls[-1]
    assert not any(CHANNEL in plan.member(m.name).recipe.families for m in wall.members)
    more = add_stud(problem, plan.planes[wall.name], (wall.members[0].along + wall.members[1].along) / 2)
    recipes = {(m.wall, m.name): m.recipe for m in plan.members}
    recipes[wall.name, f"{wall.members[0].name}+"] = Recipe()
    if not price(more, plan.planes, recipes).violations:
        assert price_of(planned(more)) <= plan.cost


def looser_straightedge(problem: FramingProblem) -> FramingProblem:
    return replace(problem, flatness=tuple((length, gap * F(5, 4)) for length, gap in problem.flatness))


def no_straightedge(problem: FramingProblem) -> FramingProblem:
    return replace(problem, flatness=())


def wider_windows(problem: FramingProblem) -> FramingProblem:
    def wider(demand: Demand) -> Demand:
        low = None if demand.low is None else demand.low - F(1, 32)
        high = None if demand.high is None else demand.high + F(1, 32)
        return replace(demand, low=low, high=high)

    return replace(problem, demands=tuple(wider(demand) for demand in problem.demands))


def one_demand_less(problem: FramingProblem) -> FramingProblem:
    return replace(problem, demands=problem.demands[1:])


def tapers_offered(problem: FramingProblem) -> FramingProblem:
    return each_member(problem, lambda m: replace(m, taper=True))


def wet_bed_offered(problem: FramingProblem) -> FramingProblem:
    return each_member(problem, lambda m: replace(m, wet_bed=True))


def feet_knocked_over(problem: FramingProblem) -> FramingProblem:
    return each_member(problem, lambda m: replace(m, knock=True))


def one_more_thickness(problem: FramingProblem) -> FramingProblem:
    new = len(problem.stock)
    richer = replace(problem, stock=(*problem.stock, StockItem("quarter", F(1, 4), F(1, 2))))
    return each_member(richer, lambda m: replace(m, stock=(*m.stock, new)))


def deeper_planing(problem: FramingProblem) -> FramingProblem:
    return each_member(
        problem,
        lambda m: replace(
            m,
            plane_depth=tuple(d + F(1, 16) for d in m.plane_depth),
            plane_depth_sistered=tuple(d + F(1, 16) for d in m.plane_depth_sistered),
            rip_ok=True,
        ),
    )


def holds_lifted(problem: FramingProblem) -> FramingProblem:
    return each_member(problem, lambda m: replace(m, held=None, must=frozenset()))


def another_lean(problem: FramingProblem) -> FramingProblem:
    walls = tuple(
        replace(w, leans=tuple(sorted({*w.leans, F(3, 16 * 96), F(-3, 16 * 96)}))) for w in problem.walls
    )
    return replace(problem, walls=walls)


LOOSER: tuple[Loosen, ...] = (
    looser_straightedge,
    no_straightedge,
    wider_windows,
    one_demand_less,
    tapers_offered,
    wet_bed_offered,
    feet_knocked_over,
    one_more_thickness,
    deeper_planing,
    holds_lifted,
    another_lean,
)


@pytest.mark.parametrize("loosen", LOOSER, ids=lambda f: f.__name__)
@pytest.mark.parametrize("seed", deep([701], [700, 701, 702]))
def test_looser_or_more_never_costs_more(loosen: Loosen, seed: int) -> None:
    problem = room(seed + 10 * LOOSER.index(loosen), studs=6, heights=5)
    assert price_of(planned(loosen(problem))) <= price_of(planned(problem))


@pytest.mark.parametrize("seed", range(820, deep(823, 826)))
def test_a_held_stud_never_costs_less_and_its_own_treatment_costs_the_same(seed: int) -> None:
    problem = room(seed, studs=6, heights=5)
    plan = planned(problem)
    assert plan.cost is not None
    rng = random.Random(seed)
    wall = rng.choice(problem.walls)
    chosen = rng.choice(wall.members)

    def held(family: str) -> FramingProblem:
        return each_member(problem, lambda m: replace(m, held=family) if m.name == chosen.name else m)

    for family in ("leave", "strip", "replace"):
        if chosen.held is None and not chosen.must:
            assert price_of(planned(held(family))) >= plan.cost
    recipe = plan.member(chosen.name).recipe
    if chosen.held is None and len(recipe.families) < 2 and "channel" not in recipe.families:
        assert planned(held(recipe.name)).cost == plan.cost


@pytest.mark.parametrize("seed", range(840, deep(843, 846)))
def test_a_held_plane_never_costs_less_and_held_where_it_is_costs_the_same(seed: int) -> None:
    problem = room(seed, studs=6, heights=5)
    plan = planned(problem)
    assert plan.cost is not None
    plane = plan.planes["B"]
    ends = [m.along for m in problem.walls[[w.name for w in problem.walls].index("B")].members]

    def held(by: F) -> FramingProblem:
        rows = tuple(
            Demand(f"held-{a}", (("B", a, F(0), F(1)),), at, at, "put here")
            for a, at in ((a, plane.offset + plane.skew * a + by) for a in (ends[0], ends[-1]))
        )
        return replace(problem, demands=problem.demands + rows)

    again = solve(held(F(0)), time_limit_s=5.0)
    assert verify(held(F(0)), again) == []
    if again.state == "open":  # the hardest case of the search: then its bracket is asked
        assert again.bound is not None
        assert again.bound <= plan.cost <= price_of(again)
    else:
        assert again.cost == plan.cost
    moved = solve(held(F(1, 16)), time_limit_s=5.0)
    assert price_of(moved) >= plan.cost
