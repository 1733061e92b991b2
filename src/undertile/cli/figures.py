"""How a figure is put on paper: exact where a rule shows it, else to the step of a rule, and then with ``~``.

An amount that is exact in neither unit's finest mark comes from a face that runs along a plane between
readings, or from stock measured in the other unit: it prints to the nearest 1/32 in or 1/2 mm behind a
``~``. Nothing is decided from a printed figure.
"""

from __future__ import annotations

from fractions import Fraction

from undertile.framing.say import place as said_place
from undertile.lengths import MM, Unit, format_length

FINEST: dict[Unit, Fraction] = {"in": Fraction(1, 64), "mm": MM / 10}
STEP: dict[Unit, Fraction] = {"in": Fraction(1, 32), "mm": MM / 2}
OCCUPIED = Fraction(3, 2)
"""What minutes are taken times in an occupied house with containment (convention 4.3)."""
WALLS = {"L": "left wall", "B": "back wall", "R": "right wall"}
ORDER = {"B": 0, "L": 1, "R": 2}


def amount(value: Fraction, unit: Unit, *, signed: bool = False, mark: bool = False) -> str:
    """A length for a table: ``-1/16``, ``~7/32``; in mm without the unit's letters.

    Parameters
    ----------
    value : Fraction
        [in]
    unit : {"in", "mm"}
    signed : bool
        A plus before what is more than zero.
    mark : bool
        The unit's mark behind it.

    Returns
    -------
    str
    """
    if (value / FINEST[unit]).denominator == 1:
        text = format_length(value, unit, signed=signed, mark=mark)
    else:
        text = "~" + format_length(value, unit, signed=signed, mark=mark, step=STEP[unit], rounding="nearest")
    return text if mark or unit == "in" else text.removesuffix(" mm")


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
    return f"{min(99, max(1, round(value * 100)))} in 100"


def place(value: Fraction, unit: Unit) -> str:
    """A height or a distance as a label: ``54``, ``4-1/2``, ``1203``; in inches, typed in mm, ``850 mm``."""
    text = said_place(value, unit)
    return text.removesuffix(" mm") if unit == "mm" else text
