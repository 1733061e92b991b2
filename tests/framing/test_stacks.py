"""Stacks of strips, against every choice of pieces written out."""

from __future__ import annotations

import random
from collections import Counter
from collections.abc import Callable
from itertools import combinations_with_replacement

import pytest

from undertile.framing.stacks import Pieces, StockBook

UNIT = 160
MOST, THICK = 120, 40  # 3/4 and 1/4 in


def every_stack(
    stock: dict[int, int], price: dict[int, int], dry: set[int], dry_ok: list[bool]
) -> dict[tuple[tuple[int, ...], int], int]:
    """Least price of each (what is added, pieces), over every choice of runs."""
    n = len(dry_ok)
    runs = [
        (i, a, b)
        for i in stock
        for a in range(n)
        for b in range(a, n)
        if i not in dry or all(dry_ok[a : b + 1])
    ]
    best: dict[tuple[tuple[int, ...], int], int] = {}
    for count in (1, 2, 3):
        for chosen in combinations_with_replacement(runs, count):
            added = tuple(sum(stock[i] for i, a, b in chosen if a <= h <= b) for h in range(n))
            if max(added) <= MOST:
                cost = sum(price[i] for i, _, _ in chosen)
                best[added, count] = min(cost, best.get((added, count), cost))
    return best


def never(price: int, thick: bool, t0: int, t1: int) -> bool:
    """Nothing is known to be cheaper."""
    return False


def rows(
    book: StockBook,
    count: int,
    windows: list[tuple[int, int]],
    span: tuple[int, int],
    dry_ok: list[bool],
    beaten: Callable[[int, bool, int, int], bool],
) -> list[tuple[tuple[int, ...], int, bool, tuple[int, ...]]]:
    """Every stack handed over: what it adds at each height, price, whether a piece is thick, heaps."""
    out: list[tuple[tuple[int, ...], int, bool, tuple[int, ...]]] = []

    def take(heaps: tuple[int, ...], price: int, thick: bool) -> None:
        out.append((tuple(book.sums[i] for i in heaps), price, thick, heaps))

    book.each(count, windows, span, dry_ok, beaten, take)
    return out


def lies(pieces: Pieces, stock: dict[int, int], heights: int) -> tuple[int, ...]:
    """What pieces add at each height."""
    return tuple(sum(stock[i] for i, a, b in pieces if a <= h <= b) for h in range(heights))


@pytest.mark.parametrize("seed", range(10))
def test_stacks_are_those_of_every_choice_of_pieces(seed: int) -> None:
    rng = random.Random(seed)
    stock = dict(enumerate(rng.sample([10, 20, 33, 35, 55, 75, 115, 120], 3)))
    price = {i: rng.randrange(1, 9) for i in stock}
    dry = {0} if seed % 2 else set()
    n = 3 + seed % 2
    dry_ok = [rng.random() < 0.6 for _ in range(n)]
    windows = [(a, a + rng.randrange(5, 60)) for a in (rng.randrange(-40, 90) for _ in range(n))]
    span = (rng.randrange(-20, 60), 100)
    book = StockBook(list(stock.items()), price, MOST, THICK, dry)
    every = every_stack(stock, price, dry, dry_ok)  # independent: every choice of runs
    for count in (1, 2, 3):
        found: dict[tuple[int, ...], int] = {}
        for added, cost, thick, path in rows(book, count, windows, span, dry_ok, never):
            pieces = book.pieces(path)
            assert len(pieces) == count
            assert lies(pieces, stock, n) == added
            assert sum(price[i] for i, _, _ in pieces) == cost
            assert any(stock[i] > THICK for i, _, _ in pieces) == thick
            assert all(i not in dry or all(dry_ok[a : b + 1]) for i, a, b in pieces)
            found[added] = min(cost, found.get(added, cost))
        for (added, pieces_used), cost in every.items():
            if pieces_used != count:
                continue
            low = max(span[0], *(w[0] + s for w, s in zip(windows, added, strict=True)))
            high = min(span[1], *(w[1] + s for w, s in zip(windows, added, strict=True)))
            if low <= high:
                # a run in two pieces end to end is one piece: fewer pieces then cost no more
                fewer = [c for (a, k), c in every.items() if a == added and k < count and c <= cost]
                assert fewer or found.get(added) == cost, added
            else:
                assert added not in found


def test_a_stack_that_is_beaten_on_the_way_is_left_out() -> None:
    book = StockBook([(0, 10), (1, 20)], {0: 1, 1: 5}, MOST, THICK, set())
    windows = [(0, 100), (0, 100)]

    def dear(price: int, thick: bool, t0: int, t1: int) -> bool:
        return price >= 5

    kept = [added for added, *_ in rows(book, 1, windows, (0, 100), [True, True], dear)]
    # independent: the thicker piece costs 5 and is beaten wherever it lies
    assert sorted(kept) == [(0, 10), (10, 0), (10, 10)]


def test_heaps_are_every_multiset_that_is_not_too_thick() -> None:
    book = StockBook([(0, 33), (1, 55), (2, 75)], {0: 0, 1: 0, 2: 0}, MOST, THICK, set())
    # independent: written out; 55+75 = 130 and 75+75, 55+55+33 = 143 are over 120
    expected = Counter([(), (0,), (1,), (2,), (0, 0), (0, 1), (0, 2), (1, 1), (0, 0, 0)])
    expected[(0, 0, 1)] = 0  # 121
    assert Counter(book.heaps) == +expected
    assert book.sums == sorted(book.sums)
