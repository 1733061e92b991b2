"""Small random walls that a slow judge can still price: three studs, three heights, two kinds of stock."""

from __future__ import annotations

import random
from fractions import Fraction

from undertile.framing.problem import FramingProblem, Member, StockItem, WallProblem

F = Fraction
STOCK = (StockItem("thin", F(1, 8), F(3, 5)), StockItem("thick", F(11, 32), F(9, 5)))


def small_stud(rng: random.Random, name: str, along: Fraction, spread: int = 6) -> Member:
    """A stud that is out by up to ``spread`` thirty-seconds, with some of its treatments offered."""
    return Member(
        name,
        along,
        tuple(F(rng.randrange(-spread, spread + 1), 32) for _ in range(3)),
        tuple(F(rng.choice((0, 2, 4)), 16) for _ in range(3)),
        tuple(F(rng.choice((0, 4)), 16) for _ in range(3)),
        stock=(0, 1),
        dry_stock_ok=(False, True, True),
        taper=rng.random() < 0.3,
        sister=F(22),
        replace=F(35),
        rip_ok=rng.random() < 0.5,
        beside_pan=rng.random() < 0.7,
    )


def small_wall(
    seed: int, *, studs: int = 3, flatness: tuple[tuple[Fraction, Fraction], ...] = ()
) -> FramingProblem:
    """One wall alone; plane positions within 3/8 either side."""
    rng = random.Random(seed)
    members = tuple(small_stud(rng, f"B{n + 1}", F(8 + 16 * n)) for n in range(studs))
    wall = WallProblem(
        "B",
        (F(2), F(48), F(90)),
        (True, False, False),
        members,
        step=rng.choice((F(0), F(1, 8))),
        t_low=F(-3, 8),
        t_high=F(3, 8),
    )
    return FramingProblem((wall,), stock=STOCK, flatness=flatness)
