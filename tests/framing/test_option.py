"""Stretches that are spoken for, and money as whole numbers."""

from __future__ import annotations

import random
from fractions import Fraction

from undertile.framing.option import Known, Money, Span, cover, inside, inward
from undertile.framing.problem import Prices

F = Fraction


def test_stretches_cover_what_they_cover_place_by_place() -> None:
    rng = random.Random(1)
    for _ in range(200):
        covered: list[Span] = []
        places: set[F] = set()
        for _ in range(rng.randrange(1, 7)):
            low = rng.randrange(0, 20)
            high = low + rng.randrange(0, 6)
            covered = cover(covered, low, high)
            places |= {F(n, 2) for n in range(2 * low, 2 * high + 1)}
        assert covered == sorted(covered)
        for low in range(0, 25):
            for high in range(low, 26):
                # independent: every half place between is covered
                every = all(F(n, 2) in places for n in range(2 * low, 2 * high + 1))
                assert inside(covered, low, high) == every


def test_what_is_known_beats_what_it_covers_at_no_more() -> None:
    rng = random.Random(2)
    for _ in range(60):
        entries = [
            (rng.randrange(1, 9), low := rng.randrange(0, 15), low + rng.randrange(0, 9)) for _ in "abc"
        ]
        known = Known(entries[:1])
        for entry in entries[1:]:
            known.add(*entry)
        for cost in range(0, 10):
            places = {F(n, 2) for c, a, b in entries if c <= cost for n in range(2 * a, 2 * b + 1)}
            for low in range(0, 20, 3):
                high = low + rng.randrange(0, 5)
                # independent: place by place over what costs no more
                every = all(F(n, 2) in places for n in range(2 * low, 2 * high + 1))
                assert known.beats(cost, low, high) == every


def test_money_is_whole_and_comes_back_as_dollars() -> None:
    # independent: 10-1/2 minutes x 1-1/2 x 95/60 = 24.9375, and 0.50: 25.4375 = 407/16
    money = Money(Prices(factor=F(3, 2)), 16, 10)
    cost = money.of(F(21, 2), F(1, 2))
    assert cost == 407 * 10 + 1  # one stud touched
    assert money.dollars(cost) == F(407, 16)
    assert money.of(F(21, 2), F(1, 2), False) == 4070


def test_limits_rounded_inward_leave_the_same_whole_faces() -> None:
    """Independent: face by face."""
    rng = random.Random(5)
    for _ in range(200):
        low, high = (Fraction(rng.randrange(-60, 60), rng.choice((1, 2, 3, 7))) for _ in "lh")
        ((h, (least, most)),) = inward({4: (low, high)}).items()  # type: ignore[dict-item]
        assert h == 4
        assert (type(least), type(most)) == (int, int)
        every = range(-61, 61)
        assert [f for f in every if least <= f <= most] == [f for f in every if low <= f <= high]
