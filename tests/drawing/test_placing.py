"""Columns pushed apart, and free spots."""

from __future__ import annotations

from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from undertile.drawing.placing import free_spot, spread
from undertile.drawing.scene import Box


def by_projections(wanted: list[float], sizes: list[float], low: float, high: float) -> list[float]:
    """The same least-squares problem by a second method: Dykstra's alternating projections (1983)."""
    n = len(wanted)
    x = list(wanted)
    pairs = [(i, i + 1) for i in range(n - 1)]
    shift = dict.fromkeys(pairs, 0.0)
    ends = dict.fromkeys((0, -1), 0.0)
    for _ in range(4000):
        for i, j in pairs:
            need = (sizes[i] + sizes[j]) / 2
            x[i] -= shift[i, j]
            x[j] += shift[i, j]
            short = max(0.0, need - (x[j] - x[i])) / 2
            shift[i, j] = -short
            x[i] -= short
            x[j] += short
        for i in (0, -1):
            x[i] += ends[i]
            held = max(x[i], low + sizes[0] / 2) if i == 0 else min(x[i], high - sizes[-1] / 2)
            ends[i] = x[i] - held
            x[i] = held
    return x


@given(
    st.lists(st.tuples(st.floats(0, 50), st.floats(1, 8)), min_size=1, max_size=5),
)
@settings(max_examples=25, deadline=None)
def test_columns_lie_as_near_as_a_second_method_puts_them(rows: list[tuple[float, float]]) -> None:
    rows.sort()
    wanted, sizes = [row[0] for row in rows], [row[1] for row in rows]
    found = spread(wanted, sizes, -1.0, 51.0)
    assert found is not None
    second = by_projections(wanted, sizes, -1.0, 51.0)
    # independent: the optimum of a strictly convex problem is one
    assert found == pytest.approx(second, abs=0.02)
    for (a, b), (one, two) in zip(pairwise(found), pairwise(sizes), strict=True):
        assert b - a >= (one + two) / 2 - 1e-9


def test_columns_worked_by_hand() -> None:
    # independent: two of width 4 wanted at 10 and 11 share the push: 8.5 and 12.5
    assert spread([10, 11], [4, 4]) == [8.5, 12.5]
    assert spread([10, 30], [4, 4]) == [10, 30]
    assert spread([0, 1], [4, 4], low=0) == [2, 6]
    assert spread([0, 1], [4, 4], low=0, high=7) is None
    assert spread([], []) == []


def test_a_free_spot_is_free_and_on_the_page() -> None:
    page = Box(0, 0, 100, 100)
    taken = [Box(40, 40, 60, 60)]
    found = free_spot((50, 50), 8, 8, 4, taken, page)
    assert found is not None
    assert not found.meets(taken[0])
    assert page.holds(found)
    assert free_spot((50, 50), 8, 8, 4, [page], page) is None
