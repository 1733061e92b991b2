"""How minutes, dollars, odds and places are put in a table; amounts as ``framing.say.written`` has them."""

from __future__ import annotations

from fractions import Fraction

from undertile.framing.say import place as said_place
from undertile.lengths import Unit, format_length
from undertile.wood.say import hundredths

OCCUPIED = Fraction(3, 2)
"""What minutes are taken times in an occupied house with containment (convention 4.3)."""
WALLS = {"L": "left wall", "B": "back wall", "R": "right wall"}
ORDER = {"B": 0, "L": 1, "R": 2}


def exact(value: Fraction, unit: Unit) -> str:
    """A length as text for a machine: exact always, in the unit asked for where it can be.

    What neither unit prints exactly is a plain fraction of an inch: ``123/1600 in``.
    """
    other: Unit = "mm" if unit == "in" else "in"
    for each in (unit, other):
        try:
            return format_length(value, each, mark=True)
        except ValueError:
            continue
    return f"{value} in"


def minutes(value: Fraction) -> str:
    """Minutes as people say them: ``43``, ``21-1/2``; a finer part to the nearest tenth behind ``~``."""
    if (value * 4).denominator == 1:
        return format_length(value)
    return f"~{float(value):.1f}"


def clock(value: Fraction) -> str:
    """Hours and minutes: ``1 h 28 min``, up to the next whole minute."""
    whole = -(-value.numerator // value.denominator)
    hours, rest = divmod(whole, 60)
    return f"{hours} h {rest:02d} min" if hours else f"{rest} min"


def dollars(value: Fraction) -> str:
    """Dollars to the nearest cent."""
    cents = (value * 100 + Fraction(1, 2)).__floor__()
    return f"${cents // 100:,}.{cents % 100:02d}"


def odds(value: float) -> str:
    """A probability as a count in a hundred, never 100 nor 0: nothing here is certain."""
    return f"{hundredths(value)} in 100"


def place(value: Fraction, unit: Unit) -> str:
    """A height or a distance as a label: ``54``, ``4-1/2``, ``1203``; in inches, typed in mm, ``850 mm``."""
    text = said_place(value, unit)
    return text.removesuffix(" mm") if unit == "mm" else text
