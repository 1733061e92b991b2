"""A load on one spot of the panel, in the middle between two joists: how far the panel goes down.

The panel is an orthotropic plate strip that spans from joist to joist: Levy's series for a plate on four
supports [1]_, with blocking as the supports across, or without any. Over two spans or more the panel's far
span holds it back: times 23/32, the ratio of a two-span beam to a simple one (ours for a plate). Stiffness by
span rating [2]_ from memory; layers that are not glued add. An estimate, and said to be one: two layers of
19/32 over 16 in come to about L/390 under 300 lb here, a trade manual says about L/400.

References
----------
.. [1] Timoshenko and Woinowsky-Krieger, Theory of Plates and Shells, 2nd ed., art. 34, eq. 149: deflection
   of a simply supported plate under a central load; 0.01160 P a^2 / D square, 0.01695 for a long strip (from
   memory). An orthotropic plate with H = sqrt(Dx Dy) is an isotropic one stretched by (Dx / Dy)^(1/4).
.. [2] APA D510, Panel Design Specification, table 4: EI along and across the strong axis by span rating, lb
   in^2 a foot of width (from memory).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from math import cosh, pi, tanh

from undertile.floor.facts import PanelStuff

TWO_SPANS = Fraction(23, 32)
"""Middle of one loaded span of two against a simple span: (1/48 - 3/512) / (1/48)."""
LIMIT = 360
"""Span over deflection that a panel is held to under tile, stone too (ours: no source holds it to L/720)."""
TERMS = 60
"""Odd terms of the series, which fall with the cube."""
FAR = 40.0
"""Where tanh is 1 to the last digit."""


@dataclass(frozen=True)
class Rating:
    """A span rating: least measured thickness that counts as it, and EI each way.

    ``along`` and ``across`` by what the panel is: least plies not known, plywood, OSB. [lb in^2 a ft]
    """

    name: str
    least: Fraction
    along: dict[PanelStuff, int]
    across: dict[PanelStuff, int]
    joists: Fraction


def _rating(
    name: str, least: str, along: tuple[int, int], across: tuple[int, int, int], joists: int
) -> Rating:
    plywood, osb = along
    three, four, strand = across
    return Rating(
        name,
        Fraction(least),
        {"unknown": osb, "plywood": plywood, "osb": osb},
        {"unknown": three, "plywood": four, "osb": strand},
        Fraction(joists),
    )


RATINGS = (
    _rating("48 oc", "35/32", (1_265_000, 1_150_000), (160_000, 350_000, 495_000), 48),
    _rating("32 oc", "27/32", (715_000, 650_000), (75_000, 165_000, 235_000), 32),
    _rating("24 oc", "11/16", (330_000, 300_000), (26_000, 57_000, 80_500), 24),
    _rating("20 oc", "9/16", (230_000, 210_000), (13_000, 28_500, 40_500), 20),
    _rating("32/16", "7/16", (125_000, 115_000), (8_100, 18_000, 25_000), 0),
)
"""The thickest first. A panel counts as what it reaches less 1/32, the mill's tolerance; ``joists`` is the
farthest apart joists may stand under it as the only layer, IRC table R503.2.1.1(2), 0 = not alone. [in]"""


def rating(thickness: Fraction) -> Rating | None:
    """What a measured thickness counts as; None for a panel too thin for a floor. [in]"""
    return next((each for each in RATINGS if thickness >= each.least), None)


def stiffness(layers: Sequence[tuple[Fraction, PanelStuff]]) -> tuple[Fraction, Fraction] | None:
    """EI along and across of layers that lie on each other unglued, an inch of width.

    Parameters
    ----------
    layers : sequence of (thickness [in], what it is)

    Returns
    -------
    (Fraction, Fraction) or None
        [lb in^2 an inch]; None where a layer is none that a table has (boards, too thin).
    """
    along = across = Fraction(0)
    for thickness, stuff in layers:
        found = rating(thickness)
        if found is None or stuff not in found.along:
            return None
        along += Fraction(found.along[stuff], 12)
        across += Fraction(found.across[stuff], 12)
    return along, across


def plate_factor(ratio: float | None) -> float:
    """Middle of a simply supported plate under a central load, in P a^2 / D.

    Parameters
    ----------
    ratio : float or None
        Length over span of the isotropic plate; None = a strip without end.

    Returns
    -------
    float
    """
    total = 0.0
    for m in range(1, 2 * TERMS, 2):
        turn = m * pi * ratio / 2 if ratio is not None else FAR
        total += (tanh(turn) - turn / cosh(turn) ** 2 if turn < FAR else 1.0) / m**3
    return float(total / (2 * pi**3))


def point_deflection(
    load: Fraction,
    spacing: Fraction,
    stiff: tuple[Fraction, Fraction],
    *,
    blocks: Fraction | None = None,
    spans: int = 2,
) -> float:
    """How far a panel goes down under a load on one spot. [in]

    Parameters
    ----------
    load : Fraction
        [lb]
    spacing : Fraction
        Joists, centre to centre: its span. [in]
    stiff : (Fraction, Fraction)
        As ``stiffness`` gives it. [lb in^2 an inch]
    blocks : Fraction, optional
        Rows of blocking, centre to centre; none = no support across. [in]
    spans : int
        That the panel runs over without a joint.

    Returns
    -------
    float
    """
    along, across = float(stiff[0]), float(stiff[1])
    stretch = (along / across) ** 0.25
    ratio = None if blocks is None else float(blocks) / float(spacing) * stretch
    # the plate stretched across by (Dx/Dy)^(1/4) is isotropic with D = Dx, its load spread by the same
    down = plate_factor(ratio) * float(load) * float(spacing) ** 2 * stretch / along
    return float(down * (float(TWO_SPANS) if spans > 1 else 1.0))


def over(spacing: Fraction, down: float) -> int:
    """Span over deflection, whole, rounded down."""
    return int(float(spacing) / down)
