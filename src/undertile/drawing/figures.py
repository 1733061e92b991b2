"""How a figure is put on a drawing: exact where a rule shows it, else to the nearest mark behind a ``~``.

The same rule as on every other page: 1/64 in and 1/10 mm print as they are, what is finer to the nearest
1/32 in or 1/2 mm. Nothing is decided from a printed figure.
"""

from __future__ import annotations

from fractions import Fraction

from undertile.lengths import MM, Unit, format_length

FINEST: dict[Unit, Fraction] = {"in": Fraction(1, 64), "mm": MM / 10}
STEP: dict[Unit, Fraction] = {"in": Fraction(1, 32), "mm": MM / 2}


def amount(value: Fraction, unit: Unit, *, signed: bool = False, mark: bool = False) -> str:
    """A length as it is written on wood: ``-1/16``, ``~7/32``; mm without the unit's letters.

    Parameters
    ----------
    value : Fraction
        [in]
    unit : {"in", "mm"}
    signed : bool
        A plus before what is more than zero.
    mark : bool
        The unit's mark behind it.
    """
    if (value / FINEST[unit]).denominator == 1:
        text = format_length(value, unit, signed=signed, mark=mark)
    else:
        text = "~" + format_length(value, unit, signed=signed, mark=mark, step=STEP[unit], rounding="nearest")
    return text if mark or unit == "in" else text.removesuffix(" mm")


def place(value: Fraction, unit: Unit) -> str:
    """A height or a distance as a label: ``54``, ``4-1/2``, ``1203``."""
    return format_length(value, unit, step=FINEST[unit], rounding="nearest").removesuffix(" mm")
