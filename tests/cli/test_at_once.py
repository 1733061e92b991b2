"""Plannings shared out over processes: the same answers in the same order as one after the other."""

from __future__ import annotations

import os
from concurrent.futures.process import BrokenProcessPool

import pytest

from tests.cli.conftest import EXAMPLES
from undertile.cli.answer import ask, load
from undertile.cli.at_once import AtOnce
from undertile.framing.moves import Planner, steadiness


def twice(number: int) -> int:
    return 2 * number


def test_answers_come_in_the_order_of_the_tasks() -> None:
    with AtOnce("Doubling", 20) as pool:
        assert list(pool.each(twice, range(12))) == [2 * n for n in range(12)]
        assert list(pool.each(twice, range(8))) == [2 * n for n in range(8)]
        assert pool.done == 20


def test_a_machine_without_processes_answers_all_the_same(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(os, "cpu_count", lambda: 1)
    with AtOnce("Doubling", 3) as pool:
        assert pool.pool is None
        assert list(pool.each(twice, [1, 2, 3])) == [2, 4, 6]


def test_a_pool_that_breaks_half_way_is_finished_by_hand(monkeypatch: pytest.MonkeyPatch) -> None:
    class Broken:
        def map(self, work: object, tasks: object) -> object:
            yield 2
            raise BrokenProcessPool

        def shutdown(self, **how: bool) -> None: ...

    with AtOnce("Doubling", 3) as pool:
        if pool.pool is not None:
            pool.pool.shutdown()
        pool.pool = Broken()  # type: ignore[assignment]
        assert list(pool.each(twice, [1, 2, 3])) == [2, 4, 6]


def test_moved_walls_and_redrawn_rooms_are_the_same_shared_out_or_not() -> None:
    # independent: the plain loop, from one planner's own tables
    answer = ask(load(str(EXAMPLES / "hand.toml")))
    assert answer.plan is not None
    assert answer.problem is not None
    sigmas = {s.name: [o.sigma for o in s.offsets] for w in answer.survey.walls for s in w.studs}
    planner = Planner(answer.problem)
    with AtOnce("Planning", 8) as pool:
        shared = planner.steps(answer.plan, each=pool.each)
        steady = steadiness(answer.problem, answer.plan, sigmas, draws=20, looked=2, each=pool.each)
    alone = planner.steps(answer.plan)
    assert [(s.wall, s.by, s.alone) for s in shared] == [(s.wall, s.by, s.alone) for s in alone]
    costs = [[s.around.cost if s.around else None for s in steps] for steps in (shared, alone)]
    assert costs[0] == costs[1]
    assert steady == steadiness(answer.problem, answer.plan, sigmas, draws=20, looked=2)
