"""How a framing figure is put in words: exact where a rule shows it, else rounded with the direction said.

An amount may be any rational (a face on a plane that runs between readings): then it is rounded to 1/32 in
or 1/2 mm, and the words say so. Verdicts and prices never use the rounded figure.
"""

from __future__ import annotations

from fractions import Fraction

from undertile.lengths import MM, Rounding, Unit, format_length
from undertile.sentence import Sentence, form

STEP: dict[Unit, Fraction] = {"in": Fraction(1, 32), "mm": MM / 2}
"""What an amount is rounded to when a rule does not show it. [in]"""
FINEST: dict[Unit, Fraction] = {"in": Fraction(1, 64), "mm": MM / 10}
"""Finest mark a figure keeps as it is. [in]"""
_SAID: dict[str, str] = {
    "up": form("{length} (rounded up)"),
    "down": form("{length} (rounded down)"),
    "nearest": form("about {length}"),
}
SERVICES: dict[str, Sentence] = {"pipe": Sentence("pipe"), "wire": Sentence("wire")}
THINGS: dict[str, Sentence] = {
    "supply pipe": Sentence("supply pipe"),
    "drain or vent": Sentence("drain or vent"),
    "stack": Sentence("stack"),
    "other": Sentence("other"),
}
"""What runs in a bay and what stands in front of a wall, as it is called."""
FAMILIES: dict[str, Sentence] = {
    "leave": Sentence("leave"),
    "plane": Sentence("plane"),
    "strip": Sentence("strip"),
    "taper": Sentence("taper"),
    "wet bed": Sentence("wet bed"),
    "sister": Sentence("sister"),
    "replace": Sentence("replace"),
    "knock over": Sentence("knock over"),
    "channel": Sentence("channel"),
}
"""What may be done to a stud, as it is called."""


def said(
    value: Fraction,
    unit: Unit = "in",
    rounding: Rounding = "nearest",
    *,
    signed: bool = False,
    mark: bool = True,
) -> str:
    """A length in words: ``3/16"``, ``about 7/32"``, ``1/32" (rounded up)``.

    Parameters
    ----------
    value : Fraction
        [in]
    unit : {"in", "mm"}
    rounding : {"up", "down", "nearest"}
        For a value no rule shows (finer than 1/64 in or 1/10 mm).
    signed : bool
        A plus before what is more than zero.
    mark : bool
        ``"`` after inches.
    """
    if (value / FINEST[unit]).denominator == 1:
        return format_length(value, unit, signed=signed, mark=mark)
    text = format_length(value, unit, signed=signed, mark=mark, step=STEP[unit], rounding=rounding)
    return Sentence(_SAID[rounding], length=text)


def place(value: Fraction, unit: Unit = "in") -> str:
    """A height or an along as part of a place: ``48``, ``4-1/2``, ``1203 mm``.

    One that was typed in mm and lies between two marks of an inch rule stays in mm, so that it is found
    again: ``850 mm``.
    """
    shown = own_unit(value, unit)
    return format_length(value, shown, step=FINEST[shown], rounding="nearest")


def bare_place(value: Fraction, unit: Unit) -> str:
    """A height or a distance as a label on a drawing: ``54``, ``4-1/2``, ``1203``."""
    return format_length(value, unit, step=FINEST[unit], rounding="nearest").removesuffix(" mm")


def own_unit(value: Fraction, unit: Unit) -> Unit:
    """The unit a place prints in: mm where only that shows it exactly, else the one asked for."""
    metric_only = (value / FINEST["in"]).denominator != 1 and (value / FINEST["mm"]).denominator == 1
    return "mm" if unit == "in" and metric_only else unit


def code_place(value: Fraction) -> str:
    """A length as part of a code: no space, ``48``, ``850mm``; the same in whatever unit a page is."""
    unit = own_unit(value, "in")
    return format_length(value, unit, step=FINEST[unit], rounding="nearest").replace(" ", "")


def rule_length(value: Fraction, unit: Unit = "in") -> str:
    """The length of a straightedge or the height a lean is told over: a published figure in inches.

    Parameters
    ----------
    value : Fraction
        [in]
    unit : {"in", "mm"}

    Returns
    -------
    str
        ``24"``; in mm to the whole one: ``610 mm``.
    """
    if unit == "in":
        return said(value, unit)
    return format_length(value, unit, step=MM, rounding="nearest")


def written(value: Fraction, unit: Unit, *, signed: bool = False, mark: bool = False) -> str:
    """A length as a carpenter writes it on wood: ``-1/16``, ``~7/32``; mm without the unit's letters.

    What no rule shows (a face that runs along a plane between readings, stock measured in the other unit) is
    put to the nearest `STEP` behind a ``~``. Nothing is decided from a printed figure.

    Parameters
    ----------
    value : Fraction
        [in]
    unit : {"in", "mm"}
    signed : bool
        A plus before what is more than zero.
    mark : bool
        The unit's mark behind it: ``1/16"``, ``5.2 mm``.

    Returns
    -------
    str
    """
    if (value / FINEST[unit]).denominator == 1:
        text = format_length(value, unit, signed=signed, mark=mark)
    else:
        text = "~" + format_length(value, unit, signed=signed, mark=mark, step=STEP[unit], rounding="nearest")
    return text if mark or unit == "in" else text.removesuffix(" mm")


def stock_named(name: str, thickness: Fraction, unit: Unit) -> str:
    """Stock by its own name, with its actual thickness behind it where the name does not hold it."""
    thick = written(thickness, unit, mark=True)
    bare = written(thickness, unit, mark=unit == "mm").lstrip("~")
    padded = f" {name} ".replace('"', " ")
    return name if f" {bare} " in padded and not thick.startswith("~") else f"{name} ({thick})"
