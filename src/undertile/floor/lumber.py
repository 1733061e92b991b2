"""What sawn joists are worth: design values by species and grade, section properties of what was measured.

Values for 2 to 4 in thick dimension lumber, psi [1]_ (from memory). Unknown species or grade takes the least
value of all that it may be (convention 4.5).

References
----------
.. [1] American Wood Council, NDS Supplement: Design Values for Wood Construction, 2018, tables 4A and 4B;
   size factors of 4A; repetitive member factor 1.15 of NDS 4.3.9.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from itertools import product

from undertile.sentence import Sentence

REPETITIVE = Fraction(23, 20)
"""Joists no more than 24 in apart, at least three, joined by the floor: 1.15 on bending (NDS 4.3.9)."""
WIDEST_SPACING = Fraction(24)
"""No repetitive member factor above. [in]"""

SPECIES = ("douglas fir-larch", "hem-fir", "southern pine", "spruce-pine-fir")
GRADES = ("select structural", "no 1", "no 2", "no 3")
NAMES = {
    "douglas fir-larch": "Douglas fir-larch",
    "hem-fir": "Hem-fir",
    "southern pine": "Southern pine",
    "spruce-pine-fir": "Spruce-pine-fir",
    "select structural": "Select Structural",
    "no 1": "No. 1",
    "no 2": "No. 2",
    "no 3": "No. 3",
}
"""Species and grades as the trade writes them; a stamp says them in English in any language."""

_CLASSES = (
    (Fraction(29, 8), 4),
    (Fraction(37, 8), 5),
    (Fraction(45, 8), 6),
    (Fraction(15, 2), 8),
    (Fraction(19, 2), 10),
    (Fraction(23, 2), 12),
)
"""Largest actual depth that counts as a size: PS 20's green sizes, so that green lumber stays in its own."""
_SIZE = {
    4: Fraction(3, 2),
    5: Fraction(7, 5),
    6: Fraction(13, 10),
    8: Fraction(6, 5),
    10: Fraction(11, 10),
    12: Fraction(1),
    14: Fraction(9, 10),
}
"""Size factor on bending, table 4A; southern pine's values are by size already."""
_BENDING: dict[tuple[str, str], int] = {
    ("douglas fir-larch", "select structural"): 1500,
    ("douglas fir-larch", "no 1"): 1000,
    ("douglas fir-larch", "no 2"): 900,
    ("douglas fir-larch", "no 3"): 525,
    ("hem-fir", "select structural"): 1400,
    ("hem-fir", "no 1"): 975,
    ("hem-fir", "no 2"): 850,
    ("hem-fir", "no 3"): 500,
    ("spruce-pine-fir", "select structural"): 1250,
    ("spruce-pine-fir", "no 1"): 875,
    ("spruce-pine-fir", "no 2"): 875,
    ("spruce-pine-fir", "no 3"): 500,
}
_BENDING_SP: dict[str, dict[int, int]] = {
    "select structural": {4: 2350, 6: 2100, 8: 1950, 10: 1700, 12: 1600},
    "no 1": {4: 1500, 6: 1350, 8: 1250, 10: 1050, 12: 1000},
    "no 2": {4: 1100, 6: 1000, 8: 925, 10: 800, 12: 750},
    "no 3": {4: 650, 6: 575, 8: 525, 10: 475, 12: 450},
}
"""Table 4B since June 2013, by nominal depth."""
_STIFF: dict[tuple[str, str], int] = {
    ("douglas fir-larch", "select structural"): 1_900_000,
    ("douglas fir-larch", "no 1"): 1_700_000,
    ("douglas fir-larch", "no 2"): 1_600_000,
    ("douglas fir-larch", "no 3"): 1_400_000,
    ("hem-fir", "select structural"): 1_600_000,
    ("hem-fir", "no 1"): 1_500_000,
    ("hem-fir", "no 2"): 1_300_000,
    ("hem-fir", "no 3"): 1_200_000,
    ("southern pine", "select structural"): 1_800_000,
    ("southern pine", "no 1"): 1_600_000,
    ("southern pine", "no 2"): 1_400_000,
    ("southern pine", "no 3"): 1_300_000,
    ("spruce-pine-fir", "select structural"): 1_500_000,
    ("spruce-pine-fir", "no 1"): 1_400_000,
    ("spruce-pine-fir", "no 2"): 1_400_000,
    ("spruce-pine-fir", "no 3"): 1_200_000,
}


@dataclass(frozen=True)
class Values:
    """What one wood is worth.

    Attributes
    ----------
    bending : Fraction
        Reference value with its size factor, without the repetitive member factor. [psi]
    stiffness : Fraction
        Modulus of elasticity. [psi]
    words : str
        ``Hem-fir No. 2``, or what was taken for what is not known.
    known : bool
        Species and grade are both known.
    """

    bending: Fraction
    stiffness: Fraction
    words: str
    known: bool = True


def nominal_class(depth: Fraction) -> int:
    """The size an actual depth counts as; a depth between two counts as the deeper, whose values are less.

    Parameters
    ----------
    depth : Fraction
        Actual. [in]

    Returns
    -------
    int
        4, 5, 6, 8, 10, 12; 14 for anything deeper.
    """
    return next((size for most, size in _CLASSES if depth <= most), 14)


def kinds(species: str, grade: str) -> tuple[tuple[str, str], ...]:
    """Every species and grade that a joist may be."""
    woods = SPECIES if species == "unknown" else (species,)
    grades = GRADES if grade == "unknown" else (grade,)
    return tuple(product(woods, grades))


def _bending(species: str, grade: str, depth: Fraction) -> Fraction:
    size = nominal_class(depth)
    if species != "southern pine":
        return _BENDING[species, grade] * _SIZE[size]
    table = _BENDING_SP[grade]
    if size == 14:  # deeper than 12: the 12 in value times 0.9 (table 4B, note)
        return table[12] * Fraction(9, 10)
    return Fraction(table[6 if size == 5 else size])


def stamped(*marks: str) -> str:
    """Species, grade or both as the trade writes them; what is not known is left out.

    Parameters
    ----------
    *marks : str
        As ``facts`` has them.
    """
    return " ".join(NAMES[each] for each in marks if each != "unknown")


def values(species: str, grade: str, depth: Fraction) -> Values:
    """Design values; of what is not known, the least.

    Parameters
    ----------
    species, grade : str
        As ``facts`` has them.
    depth : Fraction
        Actual. [in]
    """
    may_be = kinds(species, grade)
    bending = min(_bending(wood, mark, depth) for wood, mark in may_be)
    stiffness = Fraction(min(_STIFF[each] for each in may_be))
    if len(may_be) == 1:
        return Values(bending, stiffness, stamped(species, grade))
    known = stamped(species, grade)
    if species == grade == "unknown":
        words = Sentence("species and grade not known: the least of all it may be")
    elif grade == "unknown":
        words = Sentence("{known}, grade not known: the least of all it may be", known=known)
    else:
        words = Sentence("{known}, species not known: the least of all it may be", known=known)
    return Values(bending, stiffness, words, False)


def inertia(width: Fraction, depth: Fraction) -> Fraction:
    """Second moment of area of an upright rectangle. [in^4]"""
    return width * depth**3 / 12


def section(width: Fraction, depth: Fraction) -> Fraction:
    """Section modulus of an upright rectangle. [in^3]"""
    return width * depth**2 / 6
