"""How a place is put on a drawing; an amount is written as everywhere (``framing.say.written``)."""

from __future__ import annotations

from fractions import Fraction

from undertile.framing.say import FINEST
from undertile.lengths import Unit, format_length


def place(value: Fraction, unit: Unit) -> str:
    """A height or a distance as a label: ``54``, ``4-1/2``, ``1203``."""
    return format_length(value, unit, step=FINEST[unit], rounding="nearest").removesuffix(" mm")
