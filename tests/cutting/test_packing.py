"""The filling of one board, the cover, and what is refused."""

from __future__ import annotations

from itertools import product

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.cutting.cast import heaviest
from undertile.cutting import fill
from undertile.cutting.fill import best_fill
from undertile.cutting.packing import BoardKind, least_cover
from undertile.cutting.solve import pack
from undertile.errors import InputError

ITEMS = st.lists(
    st.tuples(st.integers(1, 40), st.integers(0, 4), st.integers(0, 50)),
    min_size=1,
    max_size=7,
    unique_by=lambda each: each[0],
)


@given(ITEMS, st.integers(1, 120))
def test_the_best_filling_is_the_table_s(items: list[tuple[int, int, int]], size: int) -> None:
    sizes, counts, values = zip(*items, strict=True)
    worth, taken = best_fill(size, sizes, counts, values)
    assert worth == heaviest(size, sizes, counts, values)  # independent: textbook table
    assert sum(s * t for s, t in zip(sizes, taken, strict=True)) <= size
    assert all(0 <= t <= n for t, n in zip(taken, counts, strict=True))
    assert sum(v * t for v, t in zip(values, taken, strict=True)) == worth


@given(ITEMS, st.integers(1, 120))
def test_a_filling_worked_out_by_every_length_is_the_same(
    items: list[tuple[int, int, int]], size: int
) -> None:
    sizes, counts, values = zip(*items, strict=True)
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(fill, "NODES", 0)  # as if the search had taken too long
        worth, taken = best_fill(size, sizes, counts, values)
    assert worth == heaviest(size, sizes, counts, values)  # independent: textbook table
    assert sum(v * t for v, t in zip(values, taken, strict=True)) == worth
    assert sum(s * t for s, t in zip(sizes, taken, strict=True)) <= size
    assert all(0 <= t <= n for t, n in zip(taken, counts, strict=True))


@given(ITEMS, st.integers(1, 120))
def test_a_filling_found_soon_fits(items: list[tuple[int, int, int]], size: int) -> None:
    sizes, counts, values = zip(*items, strict=True)
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(fill, "SOON", 2)
        worth, taken = best_fill(size, sizes, counts, values, about=True)
    assert sum(s * t for s, t in zip(sizes, taken, strict=True)) <= size
    assert all(0 <= t <= n for t, n in zip(taken, counts, strict=True))
    assert worth <= heaviest(size, sizes, counts, values)


@settings(max_examples=60)
@given(
    st.lists(st.tuples(st.integers(1, 9), st.integers(1, 12)), min_size=1, max_size=3),
    st.integers(0, 60),
)
def test_the_cover_is_the_cheapest_of_all(paid: list[tuple[int, int]], total: int) -> None:
    kinds = [BoardKind(10, cost) for cost, _ in paid]
    most = [carries for _, carries in paid]
    found = least_cover(kinds, most, total)
    every = product(*(range(-(-total // m) + 1) for m in most))
    cheapest = min(
        sum(n * cost for n, (cost, _) in zip(many, paid, strict=True))
        for many in every
        if sum(n * m for n, m in zip(many, most, strict=True)) >= total
    )
    assert found == cheapest  # independent: every combination


def test_offcuts_carry_for_nothing() -> None:
    kinds = (BoardKind(10, 3), BoardKind(5, 0, 2))
    # independent: 24 less 2 x 4 leaves 16, two boards of 10
    assert least_cover(kinds, (10, 4), 24) == 6
    assert least_cover(kinds, (10, 4), 8) == 0


def test_no_pieces_need_no_board() -> None:
    answer = pack((BoardKind(10, 1),), [])
    assert (answer.loads, answer.cost, answer.least) == ((), 0, 0)


@pytest.mark.parametrize(
    ("kinds", "pieces", "says"),
    [
        ((BoardKind(10, 1),), [11], "pieces go from 11 to 11"),
        ((BoardKind(10, 1),), [0, 3], "expected each over 0"),
        ((BoardKind(20, 0, 1),), [11], "boards without end"),
        ((BoardKind(20, 0),), [11], "cost nothing"),
        ((BoardKind(20, 1), BoardKind(9, -1, 1)), [11], "less than nothing"),
    ],
)
def test_what_cannot_be_cut_is_refused(kinds: tuple[BoardKind, ...], pieces: list[int], says: str) -> None:
    with pytest.raises(InputError, match=says):
        pack(kinds, pieces)
