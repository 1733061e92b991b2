"""How the pan's figures are put in words: the job's unit, and the side a rounding falls on.

A figure that comes out finer than a ruler shows (1/64 in, 1/10 mm) is rounded toward the side on which an
unsafe value still shows: play, margins and clearances down, gaps, steps and needs up. Limits print to the
nearest step; one that somebody cuts up to is rounded inward. Verdicts never use the rounded figure, and a
rounded figure never contradicts its verdict.
"""

from __future__ import annotations

from fractions import Fraction
from functools import lru_cache
from typing import Literal

from undertile.lengths import MM, Rounding, Unit, format_length
from undertile.sentence import Sentence

STEP: dict[Unit, Fraction] = {"in": Fraction(1, 64), "mm": MM / 10}
"""Step a computed length is rounded to for print. [in]"""
SAWN: dict[Unit, Fraction] = {"in": Fraction(1, 64), "mm": MM}
"""Step of what is sawn to a line: nobody saws to a tenth of a millimeter. [in]"""


@lru_cache(maxsize=4096)
def say(value: Fraction, unit: Unit, rounding: Rounding = "nearest", *, signed: bool = False) -> str:
    """A length in the job's unit, rounded to `STEP` in the direction given.

    Parameters
    ----------
    value : Fraction
        [in]
    unit : {"in", "mm"}
    rounding : {"up", "down", "nearest"}
        ``down`` never prints more than the value, ``up`` never less.
    signed : bool
        A plus before what is more than zero.
    """
    # kept: a wall that is moved leaves most figures of the others as they were
    return format_length(value, unit, signed=signed, mark=True, step=STEP[unit], rounding=rounding)


def cut_size(value: Fraction, unit: Unit) -> str:
    """A size to cut a piece to: never printed larger than it is; whole mm, as a saw is set.

    Parameters
    ----------
    value : Fraction
        [in]
    unit : {"in", "mm"}
    """
    return format_length(value, unit, mark=True, step=SAWN[unit], rounding="down")


def cut_line(value: Fraction, unit: Unit, side: Literal["low", "high"]) -> str:
    """Where something is cut out, from a fixed wall; in whole mm outward, so that no less is cut out.

    Parameters
    ----------
    value : Fraction
        [in]
    unit : {"in", "mm"}
    side : {"low", "high"}
        ``low`` is the side nearer the wall it is measured from.
    """
    outward: Rounding = "down" if side == "low" else "up"
    return format_length(
        value, unit, mark=True, step=SAWN[unit], rounding="nearest" if unit == "in" else outward
    )


def window(low: Fraction | None, high: Fraction | None, unit: Unit, *, failed: bool = False) -> str:
    """A window in words: ``1/16" to 1/8"``, ``at least ...``, ``at most ...``; to the nearest step.

    Of what failed by less than a step the limit is rounded inward: it never prints as the value does.
    """
    least = "" if low is None else say(low, unit, "up" if failed else "nearest")
    most = "" if high is None else say(high, unit, "down" if failed else "nearest")
    if low is None:
        return "" if high is None else Sentence("at most {most}", most=most)
    if high is None:
        return Sentence("at least {least}", least=least)
    return Sentence("{low} to {high}", low=least, high=most)
