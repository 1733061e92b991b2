"""Every conflict is minimal and every change is the smallest: asked again of the search and of HiGHS."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction as F

import pytest

from tests.depth import deep
from tests.framing import noplan
from undertile.bench import milp
from undertile.bench.rooms import room
from undertile.bench.symmetry import mirror
from undertile.framing.contradiction import Contradictions, find_contradictions
from undertile.framing.fallback import priceless
from undertile.framing.loosen import LEAN_STEP, Item, Spec, family_of, items_of, loosened
from undertile.framing.problem import FramingProblem
from undertile.framing.search import solve

STEP = F(1, 32)
HAND_MADE = {
    "steel": noplan.steel_room,
    "drain": noplan.drain_room,
    "edge": noplan.edge_room,
    "held stud": noplan.held_stud_room,
    "lean": noplan.leaning_edge_room,
    "hollow": noplan.hollow_stud_room,
    "soft": noplan.soft_stud_room,
    "wide": noplan.wide_room,
}
PLENTY = 300.0
"""Seconds: the limit only ends a test that hangs."""
SMALL = {"studs": 6, "heights": 3}
NO_PLAN = deep((14, 57, 105), (14, 33, 34, 57, 73, 105, 117))
"""Seeds of small rooms without a plan; test_rooms_have_no_plan holds them to it."""


def has_plan(problem: FramingProblem) -> bool:
    """By the planner with every price, which shares the search but neither prices nor the first look."""
    return solve(problem).cost is not None


def has_plan_by_highs(problem: FramingProblem) -> bool:
    """By a general solver on a model of its own."""
    answer = milp.solve(priceless(problem), time_limit=PLENTY)
    assert answer.status in ("closed", "none"), answer.note
    return answer.status == "closed"


def only(problem: FramingProblem, kept: tuple[Item, ...]) -> Spec:
    """Everything let go but these."""
    return {item: None for item in items_of(problem) if item not in kept}


def base_of(problem: FramingProblem, found: Contradictions, number: int, enough: str) -> Spec:
    """What is let go besides a change, by how much it is said to be enough for."""
    if enough == "these":
        return only(problem, found.contradictions[number].items)
    if enough == "room":
        return {}
    others = (c for k, c in enumerate(found.contradictions) if k != number)
    wishes = (family_of(item, problem) for c in others for item in c.items)
    return {item: None for family in wishes for item in family}


@pytest.mark.parametrize("name", HAND_MADE)
def test_hand_made_conflicts_are_minimal(name: str) -> None:
    problem = HAND_MADE[name]()
    found = find_contradictions(problem, time_limit_s=PLENTY)
    assert found.sure
    assert found.contradictions
    for conflict in found.contradictions:
        assert not has_plan(loosened(problem, only(problem, conflict.items)))
        for item in conflict.items:
            rest = tuple(each for each in conflict.items if each != item)
            assert has_plan(loosened(problem, only(problem, rest))), item


@pytest.mark.parametrize("seed", NO_PLAN)
def test_rooms_have_no_plan(seed: int) -> None:
    assert not has_plan_by_highs(room(seed, **SMALL))


@pytest.mark.parametrize("seed", NO_PLAN)
def test_in_random_rooms_conflicts_are_minimal_and_changes_the_smallest(seed: int) -> None:
    problem = room(seed, **SMALL)
    found = find_contradictions(problem, time_limit_s=PLENTY)
    assert found.sure
    assert found.all
    assert found.contradictions
    for number, conflict in enumerate(found.contradictions):
        # independent: HiGHS on a model written apart from the planner
        assert not has_plan_by_highs(loosened(problem, only(problem, conflict.items)))
        for item in conflict.items:
            rest = tuple(each for each in conflict.items if each != item)
            assert has_plan_by_highs(loosened(problem, only(problem, rest))), item
        assert [freed.item for freed in conflict.frees] == list(conflict.items)
        for freed in conflict.frees:
            change = dict(freed.spec)
            besides = base_of(problem, found, number, freed.enough)
            base = {item: v for item, v in besides.items() if item not in change}
            assert has_plan_by_highs(loosened(problem, {**base, **change})), freed
            if freed.amount is None:
                continue
            step = LEAN_STEP if freed.item.kind == "lean" else STEP
            less = {k: v - (step if v > 0 else -step) for k, v in change.items() if v is not None}
            assert not has_plan_by_highs(loosened(problem, {**base, **less})), freed


def test_half_of_a_change_is_not_enough() -> None:
    problem = noplan.steel_room()
    (conflict,) = find_contradictions(problem, time_limit_s=PLENTY).contradictions
    for freed in conflict.frees:
        if freed.enough == "room" and freed.amount is not None:
            half = {item: value / 2 for item, value in freed.spec if value is not None}
            assert has_plan(loosened(problem, dict(freed.spec)))
            assert not has_plan(loosened(problem, half))


def test_a_mirrored_room_asks_for_the_same_changes() -> None:
    # independent: symmetry. What is said of the left wall is said of the right one
    def amounts(problem: FramingProblem) -> list[F]:
        found = find_contradictions(problem, time_limit_s=PLENTY).contradictions
        return sorted(abs(f.amount) for c in found for f in c.frees if f.amount is not None)

    assert amounts(noplan.edge_room()) == amounts(mirror(noplan.edge_room()))


def test_nothing_helps_where_no_plane_lies_in_range() -> None:
    problem = noplan.wide_room()
    walls = tuple(replace(w, t_low=F(1), t_high=F(0)) for w in problem.walls)
    found = find_contradictions(replace(problem, walls=walls))
    assert found.nothing_helps
    assert found.contradictions == ()
