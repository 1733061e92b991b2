"""How a figure is put on paper: exact where a rule shows it, else to the step of a rule and then with ``~``.

Nothing is decided from a printed figure.
"""

from __future__ import annotations

from fractions import Fraction

from undertile.framing.say import STEP
from undertile.lengths import MM, Unit, format_length

FINEST: dict[Unit, Fraction] = {"in": Fraction(1, 64), "mm": MM / 10}
"""Finest mark a figure keeps as it is. [in]"""


def amount(value: Fraction, unit: Unit, *, signed: bool = False, mark: bool = True) -> str:
    """A length as a carpenter writes it: ``-1/16"``, ``~7/32"``, ``+5.2 mm``.

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


def placed(value: Fraction, unit: Unit) -> str:
    """The same with its unit's mark, for a sentence: ``54"``, ``1203 mm``."""
    return format_length(value, unit, step=FINEST[unit], rounding="nearest", mark=True)


def both(value: Fraction, unit: Unit) -> tuple[str, str]:
    """A place in the job's unit and, to the nearest whole mm or sixteenth, in the other."""
    if unit == "in":
        return placed(value, "in"), format_length(value, "mm", step=MM, rounding="nearest")
    other = format_length(value, "in", step=Fraction(1, 16), rounding="nearest", mark=True)
    return placed(value, "mm"), other
