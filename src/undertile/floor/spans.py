"""How far a joist may span, as the code's table has it: the shorter of deflection and bending.

IRC R502.3.1, 40 lb live: live load alone may bend it L/360, live and dead may stress it to its bending value
with the repetitive member factor (AWC, Span Tables for Joists and Rafters, basis of calculation; memory).
Clear span, inside face to inside face of the bearings. Whole inches, exactly: no root is taken.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from undertile.floor.lumber import REPETITIVE, WIDEST_SPACING, inertia, section, values

LIMIT = 360
LONGEST = 480
"""Nothing longer is looked for. [in]"""


@dataclass(frozen=True)
class Allowed:
    """The longest span in whole inches, and what governs it."""

    span: int
    governs: Literal["deflection", "bending"]


def line_load(psf: Fraction, spacing: Fraction) -> Fraction:
    """Load on one joist, of lb a sq ft over its spacing [in]. [lb/in]"""
    return psf * spacing / 144


def deflection(load: Fraction, span: Fraction, stiffness: Fraction) -> Fraction:
    """Middle of a simple span under an even load, ``5 w L^4 / (384 E I)``. [in]

    Parameters
    ----------
    load : Fraction
        [lb/in]
    span : Fraction
        [in]
    stiffness : Fraction
        E I. [lb in^2]
    """
    return 5 * load * span**4 / (384 * stiffness)


def bending_stress(load: Fraction, span: Fraction, modulus: Fraction) -> Fraction:
    """Stress in the middle of a simple span under an even load, ``w L^2 / (8 S)``. [psi]

    Parameters
    ----------
    load : Fraction
        [lb/in]
    span : Fraction
        [in]
    modulus : Fraction
        Section modulus. [in^3]
    """
    return load * span**2 / (8 * modulus)


def allowed_span(
    species: str,
    grade: str,
    size: tuple[Fraction, Fraction],
    spacing: Fraction,
    live: Fraction,
    dead: Fraction,
    *,
    limit: int = LIMIT,
    bending: Fraction | None = None,
) -> Allowed:
    """The longest span to the nearest whole inch, as the tables round it.

    Parameters
    ----------
    species, grade : str
    size : (Fraction, Fraction)
        Actual width and depth. [in]
    spacing : Fraction
        Centre to centre. [in]
    live, dead : Fraction
        [lb/sq ft]
    limit : int
        Span over deflection, under live load alone.
    bending : Fraction, optional
        Bending value with size factor, for a table of other years. [psi]

    Returns
    -------
    Allowed
    """
    worth = values(species, grade, size[1])
    stress = (worth.bending if bending is None else bending) * (
        REPETITIVE if spacing <= WIDEST_SPACING else 1
    )
    stiffness = worth.stiffness * inertia(*size)
    by_live, by_all = line_load(live, spacing), line_load(live + dead, spacing)

    # no root is taken: the cube of the span that deflection allows, the square of the one bending allows
    cube = 384 * stiffness / (5 * by_live * limit)
    square = 8 * section(*size) * stress / by_all
    if cube**2 <= square**3:
        return Allowed(_nearest(cube, 3), "deflection")
    return Allowed(_nearest(square, 2), "bending")


def _nearest(power: Fraction, root: int) -> int:
    """The whole number nearest to a root; half an inch goes up."""
    half = Fraction(1, 2)
    return max((n for n in range(1, LONGEST) if (n - half) ** root <= power), default=0)
