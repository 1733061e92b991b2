"""Cutting-stock and bin-packing optima that others published."""

from __future__ import annotations

import pytest

from tests.cutting.cast import heaviest, sound, witnessed
from undertile.bench.cutting import by_cpsat
from undertile.cutting.packing import BoardKind, Need
from undertile.cutting.solve import pack

PAPER = (
    "1380x22 1520x25 1560x12 1710x14 1820x18 1880x18 1930x20 2000x10 2050x12 2100x14 2140x16 2150x18 2200x20"
)
"""Published: the paper-mill example of the cutting-stock problem's encyclopaedia page, width x count."""
ROLLS = "14x211 31x395 36x610 45x97"
"""Published: the cutstock example of a modelling system's library (Gilmore and Gomory's rolls)."""
U120_00 = """
42 69 67 57 93 90 38 36 45 42 33 79 27 57 44 84 86 92 46 38 85 33 82 73 49 70 59 23 57 72 74 69 33
42 28 46 30 64 29 74 41 49 55 98 80 32 25 38 82 30 35 39 57 84 62 50 55 27 30 36 20 78 47 26 45 41
58 98 91 96 73 84 37 93 91 43 73 85 81 79 71 80 76 83 41 78 70 23 42 87 43 84 60 55 49 78 73 62 36
44 94 69 32 96 70 84 58 78 25 80 58 66 83 24 98 60 42 43 43 39
"""
U120_01 = """
97 57 81 62 75 81 23 43 50 38 60 58 70 88 36 90 37 45 45 39 44 53 70 24 82 81 47 97 35 65 74 68 49
55 52 94 95 29 99 20 22 25 49 46 98 59 98 60 23 72 33 98 80 95 78 57 67 53 47 53 36 38 92 30 80 32
97 39 80 72 55 41 60 67 53 65 95 20 66 78 98 47 100 85 53 53 67 27 22 61 43 52 76 64 61 29 30 46 79
66 27 79 98 90 22 75 57 67 36 70 99 48 43 45 71 100 88 48 27 39
"""
"""Published: OR-Library, bin packing (Falkenauer 1996), 120 items in bins of 150."""


def times(text: str) -> list[int]:
    return [int(w) for each in text.split() for w, n in [each.split("x")] for _ in range(int(n))]


def plain(text: str) -> list[int]:
    return [int(each) for each in text.split()]


@pytest.mark.parametrize(
    ("size", "pieces", "optimum"),
    [
        (5600, times(PAPER), 73),  # published: 73
        (100, times(ROLLS), 453),  # published: 453, LP 452.25
        (150, plain(U120_00), 48),  # published: 48
        (150, plain(U120_01), 49),  # published: 49
    ],
    ids=["paper", "rolls", "u120_00", "u120_01"],
)
def test_published_optima_are_found_and_proved(size: int, pieces: list[int], optimum: int) -> None:
    kinds = (BoardKind(size, 1),)
    answer = pack(kinds, pieces)
    assert (answer.cost, answer.least) == (optimum, optimum)
    sound(kinds, pieces, answer)
    witnessed(kinds, pieces, answer)  # independent: the bound counted anew by a table


def test_the_published_lists_are_typed_right() -> None:
    assert sum(times(PAPER)) == 407160  # published: the total
    assert len(plain(U120_00)) == len(plain(U120_01)) == 120  # published: the name says it


def test_the_linear_bound_of_the_rolls_is_the_published_one() -> None:
    pieces = times(ROLLS)
    witness = pack((BoardKind(100, 1),), pieces).witness
    need = Need.of((BoardKind(100, 1),), pieces)
    most = heaviest(100, need.sizes, need.counts, witness.weights)
    assert witness.total / most == pytest.approx(452.25, abs=0.01)  # published: LP 452.25


GAP = [44] * 5 + [33] * 7 + [12] * 17
"""After Fieldhouse 1990 (from memory): 44 x 2, 33 x 3, 12 x 6 from 132 long need 3 where the linear program
says 259/132 = 1.96; here with one more board of each length alone, so that no piece is scarce: 4.96."""


def test_a_list_whose_linear_bound_is_one_too_low_is_gone_through() -> None:
    kinds = (BoardKind(132, 1),)
    answer = pack(kinds, GAP)
    assert (answer.cost, answer.least, answer.witness.bound) == (6, 6, 5)
    assert answer.searched
    reply = by_cpsat(kinds, GAP, 6, 20.0)
    assert (reply.closed, reply.cost) == (True, 6)  # independent: a general solver


def test_what_is_given_up_says_by_how_much_it_may_not_be_least() -> None:
    answer = pack((BoardKind(132, 1),), GAP, nodes=0)
    assert (answer.cost, answer.least, answer.searched) == (6, 5, False)


@pytest.mark.parametrize("seed", [1, 5, 8])
def test_boards_cut_without_any_waste_are_found(seed: int) -> None:
    """Twenty boards of three pieces each that fill them to the last unit: the optimum is known beforehand."""
    import random

    rng = random.Random(seed)
    pieces = []
    for _ in range(20):
        first = rng.randint(380, 490)
        second = rng.randint(250, (1000 - first) // 2)
        pieces += [first, second, 1000 - first - second]
    answer = pack((BoardKind(1000, 1),), pieces)
    assert answer.cost == 20  # independent: by construction, and no fewer than the total length over 1000
