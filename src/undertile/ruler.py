"""Units, rulers and the print of an exact length: fractions of an inch reduced, or mm; never a decimal inch.

One inch is 25.4 mm exactly [1]_, so one millimetre is 5/127 in. This module knows rationals only;
``lengths`` is the door the rest of the house uses.

References
----------
.. [1] NIST Special Publication 811 (2008), appendix B.8: 1 inch = 2.54 E-02 m, exact.
"""

from __future__ import annotations

from fractions import Fraction
from math import floor
from typing import Literal

from undertile.errors import LengthError

Unit = Literal["in", "mm"]
Rounding = Literal["up", "down", "nearest"]

MM: Fraction = Fraction(5, 127)
SIXTEENTH: Fraction = Fraction(1, 16)
FINEST_READ = 64  # the finest rule anyone reads; a finer fraction in a text is a slip
FINEST_PRINT = 128  # so that the mean of two 64ths still prints exactly
MAX_TEXT = 64  # characters of one length; also the most an exact print may take

_STEPS: dict[str, tuple[Fraction, ...]] = {
    "in": tuple(Fraction(1, 2**k) for k in range(8)),
    "mm": tuple(MM * Fraction(tenths, 10) for tenths in (1, 2, 5, 10, 20, 50, 100)),
}


def is_dyadic(value: Fraction, finest: int) -> bool:
    """Whether the value's denominator is a power of two, ``finest`` at most."""
    return value.denominator <= finest and value.denominator & (value.denominator - 1) == 0


def prints_exactly(value: Fraction, unit: Unit) -> bool:
    """Whether the value (in inches) has an exact print in the unit."""
    return is_dyadic(value, FINEST_PRINT) if unit == "in" else _decimal(abs(value) / MM) is not None


def print_exact(
    value: Fraction, unit: Unit, *, signed: bool = False, mark: bool = False, feet: bool = False
) -> str:
    """Print a value exactly; see ``lengths.format_length``.

    Raises
    ------
    LengthError
        If there is no exact print in the unit, or feet are asked for in mm.
    """
    if unit not in _STEPS:
        raise LengthError(f"the unit {unit!r} is neither in nor mm; write one of the two")
    size = abs(value)
    sign = "-" if value < 0 else "+" if signed and value else ""
    if unit == "mm":
        if feet:
            raise LengthError("feet go with inches; print mm without feet")
        digits = _decimal(size / MM)
        if digits is None:
            raise LengthError(
                f"{value} in has no exact print in mm; give a step and a rounding, or print inches"
            )
        return f"{sign}{digits} mm"
    if not is_dyadic(value, FINEST_PRINT):
        raise LengthError(f"{value} in has no exact print in inches; give a step and a rounding, or print mm")
    if feet and size >= 12:
        return f"{sign}{size // 12}' {_mixed(size % 12, zero=True)}\""
    return f'{sign}{_mixed(size)}"' if mark or feet else f"{sign}{_mixed(size)}"


def rounded(value: Fraction, unit: Unit, step: Fraction, rounding: Rounding) -> Fraction:
    """The value on a step of the unit's ruler; see ``lengths.format_length``.

    Raises
    ------
    LengthError
        If the step is none of the unit's own, or the rounding is no direction.
    """
    if step not in _STEPS.get(unit, ()):
        raise LengthError(
            f"a step of {step} in is on no {unit} ruler; give it in inches: Fraction(1, 16), or MM / 2"
        )
    count = value / step
    if rounding == "down":
        return floor(count) * step
    if rounding == "up":
        return -floor(-count) * step
    if rounding == "nearest":
        near = floor(abs(count) + Fraction(1, 2)) * step
        return near if count >= 0 else -near
    raise LengthError(f"{rounding!r} is no direction to round; give up, down or nearest")


def on_ruler(value: Fraction, *, feet: bool = False) -> str:
    """What to write for a value someone put another way: itself, or its two neighbours on the ruler."""
    if is_dyadic(value, FINEST_READ):
        return print_exact(value, "in", mark=True, feet=feet)
    step = Fraction(1, FINEST_READ) if value.denominator & (value.denominator - 1) == 0 else SIXTEENTH
    low = print_exact(rounded(value, "in", step, "down"), "in", mark=True, feet=feet)
    high = print_exact(rounded(value, "in", step, "up"), "in", mark=True, feet=feet)
    exact = f", or exactly {print_exact(value, 'mm')}" if prints_exactly(value, "mm") else ""
    return f"{low} or {high}, whichever is nearer{exact}"


def print_about(value: Fraction, unit: Unit, *, signed: bool = False) -> str:
    """Print to the nearest 1/32 in or 1/2 mm, with "about" in front where that rounded."""
    step = MM / 2 if unit == "mm" else Fraction(1, 32)
    near = rounded(value, unit, step, "nearest")
    text = print_exact(near, unit, signed=signed, mark=True)
    return text if near == value else f"about {text}"


def _mixed(size: Fraction, *, zero: bool = False) -> str:
    whole, part = divmod(size, 1)
    if not part:
        return str(whole)
    return f"{whole}-{part}" if whole or zero else str(part)


def _decimal(size: Fraction) -> str | None:
    """A finite decimal, exact and short enough to be read back; None where there is none."""
    tens = 0
    while size.denominator != 1:
        if tens == MAX_TEXT:
            return None
        size, tens = size * 10, tens + 1
    digits = str(size.numerator).rjust(tens + 1, "0")
    text = f"{digits[:-tens]}.{digits[-tens:]}" if tens else digits
    return text if len(text) + len("- mm") <= MAX_TEXT else None
