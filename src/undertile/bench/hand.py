"""The room worked by hand in convention 8, and a pan's demands as rows, written apart from the product's.

Everything is in exact inches. The stock is convention 8's.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from fractions import Fraction
from math import isqrt

from undertile.framing.problem import Demand, FramingProblem, Member, Prices, StockItem, WallProblem

F = Fraction
EIGHTH = F(1, 8)
PLAY = (F(1, 16), F(1, 8))
"""Least and most play (convention 3.2). [in]"""

PLUMB = (F(0),)

# Convention 8's eight thicknesses; prices of common practice, those it does not name ours.
STOCK = tuple(
    StockItem(name, F(thickness), F(price))
    for name, thickness, price in (
        ("plastic 1/16", "1/16", "0.15"),
        ("hardboard 1/8", "1/8", "0.60"),
        ("5.2 mm ply", "0.205", "1"),
        ("1/4 ply", "7/32", "1.20"),
        ("3/8 ply", "11/32", "1.80"),
        ("1/2 ply", "15/32", "2.20"),
        ("3/4 ply", "23/32", "3"),
        ("1x", "3/4", "3"),
    )
)
CARD = StockItem("card 1/16", F(1, 16), F("0.25"), dry_only=True)


def play_demands(
    pan_width: Fraction,
    opening: Fraction,
    depths: Iterable[Fraction],
    heights: Iterable[Fraction],
    window: tuple[Fraction, Fraction] = PLAY,
) -> list[Demand]:
    """Opening less pan within its window at each depth and flange-zone height (convention 3.2). [in]

    opening(y) = ``opening`` - T_L(y, z) - T_R(y, z); ``opening`` is between the nominal planes.
    """
    slack = opening - pan_width
    return [
        Demand(
            f"play-{y}-{z}",
            (("L", y, z, F(1)), ("R", y, z, F(1))),
            slack - window[1],
            slack - window[0],
            f"play at depth {y}",
        )
        for y in depths
        for z in heights
    ]


def skew_demand(wall: str, span: Fraction, height: Fraction, most: Fraction = EIGHTH) -> Demand:
    """A wall's turn over the pan: |T(span) - T(0)| at most ``most``. [in]"""
    parts = ((wall, span, height, F(1)), (wall, F(0), height, F(-1)))
    return Demand(f"skew-{wall}", parts, -most, most, f"skew of {wall} over the pan")


def square_demand(width: Fraction, depth: Fraction, height: Fraction, most: Fraction = EIGHTH) -> Demand:
    """Diagonals within ``most`` of each other, made linear.

    D1^2 - D2^2 = 4 a b sin e with a wide, b deep and e the turn of B against the mean of L and R: skew_B +
    (skew_L - skew_R) / 2; with D1 + D2 = 2 sqrt(a^2 + b^2), D1 - D2 = 2 a b e / sqrt(a^2 + b^2).
    The root is rounded down to 1/1024, which makes the demand stricter by less than one part in 60,000.
    """
    a, b = width, depth
    square = (a * a + b * b) * 1024 * 1024
    root = F(isqrt(square.numerator // square.denominator), 1024)
    c = 2 * a * b / root
    parts = (
        ("B", a, height, c / a),
        ("B", F(0), height, -c / a),
        ("L", b, height, c / (2 * b)),
        ("L", F(0), height, -c / (2 * b)),
        ("R", b, height, -c / (2 * b)),
        ("R", F(0), height, c / (2 * b)),
    )
    return Demand("square", parts, -most, most, "difference of the diagonals")


def hand_room(
    *, leans: tuple[Fraction, ...] = PLUMB, flatness: tuple[tuple[Fraction, Fraction], ...] = ()
) -> FramingProblem:
    """The room of convention 8: minutes only, so every price but the rate is 0.

    Convention 8 names neither leans nor a straightedge rule; its answer holds with and without both, and
    the tests ask for each. Every bay is clear and every stud may be sistered, replaced or tapered.
    """
    heights = (F(2), F(48), F(90))
    stock = tuple(replace(item, price=F(0)) for item in STOCK)

    def stud(name: str, along: int, *readings: str) -> Member:
        return Member(
            name,
            F(along),
            tuple(F(6) - F(reading) for reading in readings),
            (F(1, 4),) * 3,
            (F(1, 2),) * 3,
            tuple(range(len(stock))),
            (False, True, True),
            taper=True,
            sister=F(22),
            replace=F(35),
            replace_dollars=F(0),
            beside_pan=True,
        )

    back = (
        stud("B1", 8, "6", "6", "6"),
        stud("B2", 24, "6", "93/16", "6"),  # 5-13/16 at 48
        stud("B3", 40, "6", "6", "6"),
        stud("B4", 56, "6", "49/8", "6"),  # 6-1/8 at 48
    )
    walls = [WallProblem("B", heights, (True, False, False), back, leans=leans)]
    for name in "LR":
        side = tuple(stud(f"{name}{n}", a, "6", "6", "6") for n, a in ((1, 2), (2, 18), (3, 34)))
        walls.append(WallProblem(name, heights, (True, False, False), side, leans=leans))
    width, depth = F(60), F(32)
    demands = play_demands(width, F("60.25"), (F(1), F(16), F(32)), (F(2),))
    demands += [skew_demand("B", width, F(2)), skew_demand("L", depth, F(2)), skew_demand("R", depth, F(2))]
    demands.append(square_demand(width, depth, F(2)))
    prices = Prices(
        plane_dollars=F(0),
        taper_dollars=F(0),
        sister_dollars=F(0),
        flange_shim_dollars=F(0),
        wet_bed_dollars=F(0),
    )
    return FramingProblem(tuple(walls), tuple(demands), stock, prices, flatness)
