"""What mends a joist: a sister past what is soft, fastened on a day; an engineer's word, with who and when.

A sister is common practice, no source (``floor.care``): as deep as the sound wood left, as thick as the joist
or 1-1/2 in, whichever is less, and 48 in past what is soft each way, or to a bearing. A sister typed without
a day is a plan: it sets what is cut, and closes nothing.
"""

from __future__ import annotations

from fractions import Fraction

from undertile.floor.facts import Sister, Soft
from undertile.floor.joists import JoistIs, sister_stretch
from undertile.floor.netsection import cannot_be
from undertile.wood.typed import is_name

PAST = Fraction(48)
"""A sister reaches so far past what is soft, each way (common practice). [in]"""
DEEP = Fraction(1, 6)
"""Soft deeper than this share of the joist is for an engineer (common practice)."""
TWO_BY = Fraction(3, 2)
"""A sister as thick as this does beside an older, thicker joist too (common practice). [in]"""


def reach(soft: Soft, span: Fraction) -> tuple[Fraction, Fraction]:
    """From where to where a sister lies at least, from the first bearing's inside face. [in]"""
    low, high = soft.start.inches, soft.start.inches + soft.length.inches
    return max(low - PAST, Fraction(0)), min(high + PAST, span)


def shallow(joist: JoistIs, soft: Soft) -> bool:
    """Whether a soft place is one that a sister may mend: off the bearings and the middle third, a sixth deep
    at most (common practice). Not known is not shallow."""
    if joist.span is None or joist.depth is None or soft.depth is None or soft.at_bearing:
        return False
    low, high = soft.start.inches, soft.start.inches + soft.length.inches
    if low == 0 or high >= joist.span or (low < 2 * joist.span / 3 and high > joist.span / 3):
        return False
    return soft.depth.inches <= joist.depth * DEEP


def covered(joist: JoistIs, soft: Soft) -> bool:
    """Whether the sister typed beside a joist is long, deep and thick enough, and the place one it may mend.

    Parameters
    ----------
    joist : JoistIs
    soft : Soft
        One of its own.

    Returns
    -------
    bool
        False too where a size is not known.
    """
    sister = joist.facts.sister
    if sister is None or joist.span is None or joist.depth is None or joist.width is None:
        return False
    if soft.depth is None or not shallow(joist, soft):
        return False
    low, high = reach(soft, joist.span)
    lies = sister_stretch(sister, joist.span)
    return (
        lies[0] <= low
        and lies[1] >= high
        and sister.depth.inches >= joist.depth - soft.depth.inches
        and sister.width.inches >= min(joist.width, TWO_BY)
    )


def all_covered(joist: JoistIs) -> bool:
    """Whether every soft place of a joist has its sister beside it."""
    return all(covered(joist, soft) for soft in joist.facts.soft.values())


def fastened(sister: Sister | None) -> bool:
    """Whether a sister stands there: a person wrote the day."""
    return sister is not None and bool(sister.fastened.strip())


def engineer_said(joist: JoistIs) -> bool:
    """Whether an engineer said that a joist carries, with who and when; less than all three is no word."""
    word = joist.facts.engineer
    return word is not None and word.carries == "yes" and is_name(word.by) and bool(word.when.strip())


def word_stands(joist: JoistIs) -> bool:
    """Whether an engineer's word answers for a joist: not while a notch or hole typed cannot be in it.

    That one is misread: nobody knows of which joist, or of which cut, it was said.
    """
    return engineer_said(joist) and not cannot_be(joist)


NEAR = Fraction(6)
"""A sister's end this near a place may reach it or not: bearing and wall are not one line (ours). [in]"""


def beside(joist: JoistIs, at: Fraction) -> tuple[Fraction, Fraction] | None:
    """How much of the bays beside a joist its sister takes at a place along it.

    Parameters
    ----------
    joist : JoistIs
    at : Fraction
        From the wall the joists begin at. [in]

    Returns
    -------
    tuple of Fraction or None
        Toward the wall it is measured from, and away from it; None where it is not known: measured once the
        sister stands. [in]
    """
    none = (Fraction(0), Fraction(0))
    sister = joist.facts.sister
    if sister is None:
        return None if _asked(joist, at) else none
    low, high = sister_stretch(sister, at if joist.span is None else joist.span)
    if sister.length is None and sister.start is None:
        low, high = min(low, at), max(high, at)  # bearing to bearing
    if at < low - NEAR or at > high + NEAR:
        return None if _asked(joist, at) and not all_covered(joist) else none
    ends = [] if sister.start is None else [low]
    ends += [] if sister.length is None else [high]
    if sister.side == "unknown" or any(abs(at - end) < NEAR for end in ends):
        return None
    width = sister.width.inches
    return (width, none[1]) if sister.side == "toward the wall" else (none[0], width)


def _asked(joist: JoistIs, at: Fraction) -> bool:
    """Whether a sister is still to come that may lie at a place."""
    if engineer_said(joist):
        return False
    for soft in joist.facts.soft.values():
        if joist.span is None:
            return True
        low, high = reach(soft, joist.span)
        if low - NEAR <= at <= high + NEAR:
            return True
    return False
