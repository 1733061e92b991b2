"""Whether a room can be done at all: as the planner with prices says, and as HiGHS does."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction as F
from itertools import count

import pytest

from tests.framing import noplan
from undertile.bench import milp
from undertile.bench.hand import hand_room
from undertile.bench.rooms import room
from undertile.errors import PlanError
from undertile.framing.fallback import priceless
from undertile.framing.loosen import items_of
from undertile.framing.problem import FramingProblem
from undertile.framing.search import solve
from undertile.framing.trial import Trial, feasible


@pytest.mark.parametrize("seed", range(30, 38))
def test_a_room_is_feasible_when_the_planner_and_highs_have_a_plan(seed: int) -> None:
    problem = room(seed, studs=6, heights=3)
    answer = feasible(problem)
    assert answer is (solve(problem).cost is not None)
    # independent: HiGHS on a model written apart from the planner
    judged = milp.solve(priceless(problem), time_limit=300)
    assert judged.status == ("closed" if answer else "none"), judged.note


def test_the_hand_room_is_feasible_and_with_the_planes_put_wrong_it_is_not() -> None:
    assert feasible(hand_room()) is True  # published: convention 8, 43 minutes
    assert feasible(noplan.drain_room()) is False  # independent: by hand, test_conflict.py


def test_not_known_in_the_time_is_neither_yes_nor_no() -> None:
    ticks = count()
    trial = Trial(hand_room(), time_limit_s=1.0, clock=lambda: float(next(ticks)))
    assert trial.possible({}) is None


def test_what_lets_go_of_more_is_not_asked_again() -> None:
    problem = noplan.drain_room()
    trial = Trial(problem)
    hold = next(i for i in items_of(problem) if i.name == "hold-B-offset")
    skew = next(i for i in items_of(problem) if i.name == "skew-L")
    assert trial.possible({hold: None}) is True
    asked = trial.questions
    assert trial.possible({hold: None, skew: None}) is True
    assert trial.questions == asked
    assert trial.possible({skew: None}) is False
    asked = trial.questions
    assert trial.possible({}) is False
    assert trial.questions == asked


def test_a_loosened_length_is_whole_in_the_unit() -> None:
    problem = noplan.drain_room()
    assert Trial(problem, "in").unit % 32 == 0
    assert (F(5, 254) * Trial(problem, "mm").unit).denominator == 1  # half a millimetre


@pytest.mark.parametrize(
    "problem",
    [FramingProblem(()), replace(hand_room(), walls=(replace(hand_room().walls[0], members=()),))],
)
def test_a_room_without_studs_is_refused(problem: FramingProblem) -> None:
    with pytest.raises(PlanError, match="read two heights a stud"):
        feasible(problem)
