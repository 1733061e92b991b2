"""Small linear programs, against a general solver, and certificates added up by hand."""

from __future__ import annotations

import random
from fractions import Fraction

import highspy
import pytest

from undertile.framing.exactlp import Row, Tableau, find_point, find_point_or_reason, whole_row

F = Fraction
LOW = -50


def random_rows(rng: random.Random, size: int) -> list[Row]:
    """A box of -20..20 and some rows across it, now and then contradictory."""
    rows: list[Row] = []
    for j in range(size):
        one = [0] * size
        one[j] = 1
        rows += [(tuple(one), 20), (tuple(-c for c in one), 20)]
    for _ in range(rng.randrange(1, 9)):
        rows.append((tuple(rng.randrange(-4, 5) for _ in range(size)), rng.randrange(-14 * size, 25)))
    return rows


def by_highs(rows: list[Row], size: int, cost: list[int]) -> float | None:
    """Least of ``cost x`` by HiGHS; None when there is no point."""
    highs = highspy.Highs()  # type: ignore[no-untyped-call]
    highs.setOptionValue("output_flag", False)
    for c in cost:
        highs.addVar(LOW, highspy.kHighsInf)
        highs.changeColCost(highs.getNumCol() - 1, float(c))
    for coefficients, bound in rows:
        used = [(j, float(c)) for j, c in enumerate(coefficients) if c]
        highs.addRow(-highspy.kHighsInf, bound, len(used), [j for j, _ in used], [c for _, c in used])
    highs.run()
    if highs.getModelStatus() == highspy.HighsModelStatus.kOptimal:
        return float(highs.getInfo().objective_function_value)
    assert highs.getModelStatus() == highspy.HighsModelStatus.kInfeasible
    return None


@pytest.mark.parametrize("size", [1, 2, 4, 6])
def test_least_points_and_contradictions_are_those_of_a_general_solver(size: int) -> None:
    rng = random.Random(size)
    seen = {True: 0, False: 0}
    told = 0
    for _ in range(60):
        rows = random_rows(rng, size)
        cost = [rng.randrange(0, 4) for _ in range(size)]
        point, reason = find_point_or_reason(rows, [LOW] * size, cost)
        judged = by_highs(rows, size, cost)  # independent: HiGHS
        seen[point is not None] += 1
        if point is None:
            assert judged is None
            if reason is None:  # a lower bound took part
                continue
            told += 1
            assert all(weight > 0 for _, weight in reason)
            # independent: the rows added up by their multipliers read 0 <= negative (Farkas 1902)
            for j in range(size):
                assert sum(weight * rows[i][0][j] for i, weight in reason) == 0
            assert sum(weight * rows[i][1] for i, weight in reason) < 0
        else:
            assert judged is not None
            for coefficients, bound in rows:
                assert sum((c * x for c, x in zip(coefficients, point, strict=True)), F(0)) <= bound
            value = sum((c * x for c, x in zip(cost, point, strict=True)), F(0))
            assert float(value) == pytest.approx(judged, abs=1e-7)
    assert all(seen.values())  # both kinds came up
    assert 2 * told > seen[False]


def test_rows_added_later_give_the_same_answer_as_rows_given_at_once() -> None:
    rng = random.Random(7)
    for _ in range(60):
        rows = random_rows(rng, 3)
        moved = [(a, b - LOW * sum(a)) for a, b in rows]
        later = Tableau(3)
        later.add(moved[:6])
        assert later.feasible()
        later.add(moved[6:])
        found = later.feasible()
        assert found == (by_highs(rows, 3, [0, 0, 0]) is not None)  # independent: HiGHS
        if found:
            later.minimise([1, 2, 0])
            value = sum(c * (y + LOW) for c, y in zip((1, 2, 0), later.point(), strict=True))
            assert float(value) == pytest.approx(by_highs(rows, 3, [1, 2, 0]), abs=1e-7)


def test_a_single_point_is_found_exactly() -> None:
    # independent: 3x <= 1 and 3x >= 1 leave x = 1/3 alone, which no float is
    assert find_point([((3,), 1), ((-3,), -1)], [-10]) == (F(1, 3),)
    assert find_point([((3,), 1), ((-3,), -2)], [-10]) is None


def test_a_contradiction_with_a_lower_bound_names_no_rows() -> None:
    # independent: x <= -11 contradicts the bound x >= -10 and no other row
    assert find_point_or_reason([((1,), -11)], [-10]) == (None, None)


def test_a_row_of_fractions_is_made_whole() -> None:
    # independent: x/2 - y/3 <= 5/4 times 12 is 6x - 4y <= 15
    assert whole_row([F(1, 2), F(-1, 3)], F(5, 4)) == ((6, -4), 15)
