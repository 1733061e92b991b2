"""The planner against two general solvers, on a model written apart from it (``undertile.bench.model``).

Some rooms here; many hundreds by a command::

    python -m undertile.bench.against --rooms 300 --size 13 --seed 0 --json

A solver gets the seconds stated below on rooms of the full population (``undertile.bench.rooms``): equal
where it closes, and the planner's cost inside its bracket where it does not. Sizes are not shrunk to make
it close, so only the smallest rooms ask that it does.
"""

from __future__ import annotations

import pytest

from tests.depth import deep
from undertile.bench.against import Comparison, compare, tight
from undertile.bench.rooms import PURE, room

# independent: every cost here is held against a general solver's and against the checker's own pricing


PLENTY = 120.0
"""Seconds for the planner: it needs a second or two, the limit only ends a test that hangs."""


def held(done: Comparison) -> None:
    """The planner has its answer and proof, and nobody contradicts it; a solver may run out of time."""
    assert done.plan.state in ("proved", "none"), said(done)
    assert done.wrong == [], said(done)


def said(done: Comparison) -> str:
    answers = [(a.solver, a.status, str(a.cost), str(a.bound), a.note) for a in done.answers.values()]
    return f"{done.plan.state} {done.plan.cost}: {answers} {done.wrong}"


@pytest.mark.parametrize("seed", range(100, deep(106, 116)))
def test_a_small_room_costs_what_cp_sat_says_and_touches_the_fewest_studs(seed: int) -> None:
    # these rooms close in about a second: the limit only ends a test that hangs
    done = compare(room(seed, studs=6, heights=4), ["CP-SAT"], limit_s=90.0, ties=True)
    held(done)
    assert done.closed, said(done)


@pytest.mark.parametrize("seed", range(200, deep(202, 206)))
def test_a_small_room_costs_what_highs_says_or_lies_in_its_bracket(seed: int) -> None:
    done = compare(room(seed, studs=5, heights=3), ["HiGHS"], limit_s=3.0, plan_limit_s=PLENTY)
    held(done)


@pytest.mark.parametrize("seed", range(300, deep(302, 303)))
def test_a_room_whose_straightedge_binds_costs_what_cp_sat_says(seed: int) -> None:
    done = compare(
        tight(room(seed, studs=6, heights=6)), ["CP-SAT"], limit_s=6.0, plan_limit_s=PLENTY, ties=True
    )
    held(done)


def test_a_stud_that_has_its_stack_may_still_take_a_dearer_one_that_does_what_a_row_asks() -> None:
    # here a bound that took the stack for settled proved a plan a dollar dearer
    done = compare(tight(room(810162, studs=5, heights=6, severity=1.5)), ["CP-SAT"], limit_s=60.0)
    held(done)
    assert done.closed, said(done)


@pytest.mark.parametrize("seed", range(400, deep(402, 403)))
def test_a_room_of_wood_alone_lies_in_the_bracket_of_highs(seed: int) -> None:
    done = compare(room(seed, studs=8, heights=6, features=PURE), ["HiGHS"], limit_s=3.0, plan_limit_s=PLENTY)
    held(done)


@pytest.mark.parametrize("seed", range(500, deep(502, 504)))
def test_a_room_of_13_studs_lies_in_the_bracket_of_cp_sat(seed: int) -> None:
    done = compare(room(seed, studs=13), ["CP-SAT"], limit_s=4.0, plan_limit_s=PLENTY)
    held(done)
