"""Loads, volumes and weights as a sheet of the job's unit has them; what is converted is rounded up."""

from __future__ import annotations

from fractions import Fraction

from undertile.floor.bed import BedAnswer, volume_words
from undertile.floor.loads import pounds
from undertile.lengths import Unit
from undertile.packet.words import Words

_KG = Fraction("0.45359237")
"""One pound (exact by definition). [kg]"""
_FOOT = Fraction("0.3048")
"""One foot (exact by definition). [m]"""


def a_square(load: Fraction, unit: Unit) -> str:
    """A load as it prints in this unit: pounds a square foot, or kg a square meter; rounded up.

    Parameters
    ----------
    load : Fraction
        [lb/sq ft]
    unit : {"in", "mm"}
    """
    return pounds(load) if unit == "in" else pounds(load * _KG / _FOOT**2)


def volume(cubic_feet: Fraction, words: Words, unit: Unit) -> str:
    """A volume as it prints in this unit, rounded up. [cu ft]"""
    if unit == "in":
        return words("floor-volume", amount=volume_words(cubic_feet).removesuffix(" cu ft"))
    return words("floor-volume-mm", amount=str(-(-cubic_feet * _FOOT**3 * 1000 // 1)))


def weight(bed: BedAnswer, words: Words, unit: Unit) -> str:
    """What a bed weighs, in all and over its floor, in this unit."""
    key, whole = ("floor-weight", bed.weight) if unit == "in" else ("floor-weight-mm", bed.weight * _KG)
    return words(key, all=pounds(whole), each=a_square(bed.load, unit))
