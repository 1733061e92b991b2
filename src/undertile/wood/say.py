"""How moisture figures are put in words: percent to the tenth, on the side that is not too good.

A moisture content is rounded up, a goal down, and verdicts compare the rounded figures: what is printed never
contradicts what is judged.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from functools import lru_cache
from math import ceil, floor

from undertile.lengths import MM, Length, Unit, format_length
from undertile.sentence import Sentence, listed

__all__ = [
    "as_typed",
    "degrees",
    "down",
    "dry_text",
    "from_to",
    "goal_text",
    "hundredths",
    "in_hundred",
    "length",
    "listed",
    "moisture",
    "past",
    "points",
    "some_of",
    "up",
]

_HAIR = 1e-9
STEP: dict[Unit, Fraction] = {"in": Fraction(1, 32), "mm": MM}
_FINE: dict[Unit, Fraction] = {"in": Fraction(1, 64), "mm": MM / 10}


NAMED = 4
"""Places named one by one in a line; the rest are counted."""


def some_of(names: Sequence[str]) -> str:
    """The first of some names, and how many more there are."""
    some = listed(names[:NAMED])
    if len(names) <= NAMED:
        return some
    return Sentence("{some} and {number} more", some=some, number=len(names) - NAMED)


def up(percent: float) -> float:
    """To the tenth above."""
    return ceil(percent * 10 - _HAIR) / 10


def down(percent: float) -> float:
    """To the tenth below."""
    return floor(percent * 10 + _HAIR) / 10


def moisture(percent: float) -> str:
    """A moisture content as it prints: ``18.5 %``."""
    return f"{up(percent):.1f} %"


def dry_text(percent: float) -> str:
    """A dry reference as it prints, rounded down as its goal is: ``11.1 %``."""
    return f"{down(percent):.1f} %"


def past(state: str, low: float, high: float) -> str:
    """A reading past an end of the meter's range as it prints: ``>30 %``, ``<7 %``; it measures nothing."""
    return f">{high:g} %" if state == "over" else f"<{low:g} %"


def goal_text(percent: float) -> str:
    """A goal or limit as it prints: ``16 %``."""
    return f"{down(percent):.1f} %".replace(".0 %", " %")


def points(percent: float) -> str:
    """A change as it prints: ``+0.5``."""
    return f"{percent:+.1f}"


def in_hundred(share: float) -> str:
    """A chance as it prints: ``85 in 100``."""
    return Sentence("{number} in 100", number=hundredths(share))


def hundredths(share: float) -> int:
    """A chance as a count in a hundred, 1 to 99: nothing here is certain."""
    return min(99, max(1, round(100 * share)))


def degrees(fahrenheit: float, unit: Unit) -> str:
    """A temperature as it prints: ``68 F``, in mm jobs ``20 C``."""
    return f"{fahrenheit:.0f} F" if unit == "in" else f"{(fahrenheit - 32) / 1.8:.0f} C"


@lru_cache(maxsize=4096)
def length(value: Fraction, unit: Unit, *, mark: bool = True) -> str:
    """A place or size as it prints, to the nearest 1/32 in or mm; kept: the same ones come again."""
    return format_length(value, unit, mark=mark, step=STEP[unit], rounding="nearest")


def as_typed(value: Length) -> str:
    """A length as it was typed, its unit said where a bare number left it out."""
    bare = not any(each.isalpha() or each in "'\"" for each in value.text)
    return value.text + ((" mm" if value.unit == "mm" else '"') if bare else "")


def from_to(least: Fraction, most: Fraction, unit: Unit) -> str:
    """A range as it prints, outward to 1/64 in or 1/10 mm."""
    low = format_length(least, unit, mark=True, step=_FINE[unit], rounding="down")
    high = format_length(most, unit, mark=True, step=_FINE[unit], rounding="up")
    return Sentence("{low} to {high}", low=low, high=high)
