"""How a figure is put on paper: an amount as everywhere (``framing.say.written``), with its unit's mark.

Nothing is decided from a printed figure.
"""

from __future__ import annotations

from fractions import Fraction

from undertile.framing.say import FINEST, written
from undertile.framing.say import bare_place as place
from undertile.lengths import MM, Unit, format_length

__all__ = ["amount", "both", "place", "placed"]


def amount(value: Fraction, unit: Unit, *, signed: bool = False, mark: bool = True) -> str:
    """A length on paper: ``-1/16"``, ``~7/32"``, ``+5.2 mm``."""
    return written(value, unit, signed=signed, mark=mark)


def placed(value: Fraction, unit: Unit) -> str:
    """The same with its unit's mark, for a sentence: ``54"``, ``1203 mm``."""
    return format_length(value, unit, step=FINEST[unit], rounding="nearest", mark=True)


def both(value: Fraction, unit: Unit) -> tuple[str, str]:
    """A place in the job's unit and, to the nearest whole mm or sixteenth, in the other."""
    if unit == "in":
        return placed(value, "in"), format_length(value, "mm", step=MM, rounding="nearest")
    other = format_length(value, "in", step=Fraction(1, 16), rounding="nearest", mark=True)
    return placed(value, "mm"), other
