"""A sloped mortar bed for a base built on site: how high at the walls, how steep on every side, how much.

Pre-slope with a level perimeter and straight lines from the drain to it: the longest run falls as asked, the
shorter ones get steeper. Its mean rise is 2/3 of the rise at the walls, whatever the outline (a pyramid
upside down). Over the liner an even bed of one thickness. Roots are rounded up to 1/64 in: never set lower.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from math import isqrt

from undertile.findings import Check
from undertile.floor.facts import Bed
from undertile.floor.ownlimits import is_reason
from undertile.lengths import MM, Unit
from undertile.pan.judge import Topic
from undertile.pan.say import STEP, say
from undertile.sentence import Sentence

ZERO = Fraction(0)
SLOPE = Fraction(1, 4)
"""A foot on the longest run, IRC P2709.1 and P2709.3. [in]"""
STEEPEST = Fraction(1, 2)
"""A foot on any run, IRC P2709.1. [in]"""
AT_DRAIN = Fraction(1, 2)
"""Pre-slope at the drain's flange (common practice). [in]"""
TOP = Fraction(5, 4)
"""Even bed over the liner (common practice, tile industry's details). [in]"""
YIELD = Fraction(9, 20)
"""What a 60 lb bag gives at the low end of what labels say. [cu ft]"""
BAG = Fraction(60)
"""[lb]"""
DENSITY = Fraction(125)
"""Deck mud in place (common practice). [lb/cu ft]"""
WASTE = Fraction(11, 10)
"""10 % more than the volume (common practice)."""
PINS: dict[Unit, Fraction] = {"in": Fraction(1, 16), "mm": MM}
"""The rise at the walls is set out by these steps, rounded up. [in]"""


@dataclass(frozen=True)
class Side:
    """One run from the drain: where to, how long, and how steep. ``fall`` is in a foot. [in]"""

    where: str
    run: Fraction
    fall: Fraction


@dataclass(frozen=True)
class BedAnswer:
    """The bed.

    Attributes
    ----------
    rise : Fraction
        Of the perimeter over the drain, as it is set out. [in]
    at_drain, at_walls : Fraction
        Thickness of the pre-slope. [in]
    top : Fraction
        Even bed over it. [in]
    sides : tuple of Side
    pre_slope, top_bed : Fraction
        Volumes. [cu ft]
    bags : int
        With 10 % waste.
    weight : Fraction
        In place. [lb]
    load : Fraction
        [lb/sq ft]
    checks : tuple of Check
    """

    rise: Fraction
    at_drain: Fraction
    at_walls: Fraction
    top: Fraction
    sides: tuple[Side, ...]
    pre_slope: Fraction
    top_bed: Fraction
    bags: int
    weight: Fraction
    load: Fraction
    checks: tuple[Check, ...]

    @property
    def volume(self) -> Fraction:
        """Both beds. [cu ft]"""
        return self.pre_slope + self.top_bed


def root_up(square: Fraction) -> Fraction:
    """A length from its square, rounded up to 1/64 in; exact where it is. [in]"""
    parts = square * 4096
    whole = -(-parts.numerator // parts.denominator)
    root = isqrt(whole)
    return Fraction(root if root * root == whole else root + 1, 64)


def bed_answer(bed: Bed, unit: Unit = "in", own_unit: Unit | None = None) -> BedAnswer | Check:
    """Everything about the bed; a check that says what is wrong where the drain lies outside.

    Parameters
    ----------
    bed : Bed
    unit : {"in", "mm"}
        For words.
    own_unit : {"in", "mm"}, optional
        The job's, in whose steps the rise is set out; else ``unit``.

    Returns
    -------
    BedAnswer or Check
    """
    width, depth = bed.width.inches, bed.depth.inches
    x, y = bed.drain_x.inches, bed.drain_y.inches
    slope = SLOPE if bed.slope is None else bed.slope.inches
    if not (0 < x < width and 0 < y < depth):
        topic = Topic("bed-drain", "Drain inside the bed", "bed", "irc-p2709.1")
        return topic.not_shown(
            Sentence("inside {width} by {depth}", width=say(width, unit), depth=say(depth, unit)),
            Sentence(
                "Measure the drain's center again: it is at {x} and {y}.", x=say(x, unit), y=say(y, unit)
            ),
        )
    corners = [
        (f"the {front} {side} corner", root_up(dx * dx + dy * dy))
        for front, dy in (("back", y), ("front", depth - y))
        for side, dx in (("left", x), ("right", width - x))
    ]
    sides = [("the left side", x), ("the right side", width - x)]
    sides += [("the back", y), ("the front", depth - y)]
    longest = max(run for _, run in corners)
    allowed = _allowed(bed)
    rise = _rise(slope * longest / 12, min(run for _, run in sides), allowed[1], own_unit or unit)
    runs = tuple(Side(where, run, rise / run * 12) for where, run in (*corners, *sides))
    at_drain = AT_DRAIN if bed.at_drain is None else bed.at_drain.inches
    top = TOP if bed.top is None else bed.top.inches
    area = width * depth / 144
    pre = area * (at_drain + rise * 2 / 3) / 12
    over = area * top / 12
    gives = YIELD if bed.bag is None else Fraction(bed.bag)
    density = DENSITY if bed.density is None else Fraction(bed.density)
    weight = (pre + over) * density
    return BedAnswer(
        rise,
        at_drain,
        at_drain + rise,
        top,
        runs,
        pre,
        over,
        int(-(-(pre + over) * WASTE // gives)),
        weight,
        weight / area,
        tuple(_slope_check(side, *allowed, bed.reason, unit) for side in runs)
        if rise
        else (_level_check(*allowed, unit),),
    )


def _allowed(bed: Bed) -> tuple[Fraction, Fraction]:
    """Least and most of a slope, in a foot [in]: the code's, unless a reason stands beside another figure.

    Level is no slope, whatever the reason: water stands on it.
    """
    least = SLOPE if bed.slope is None else bed.slope.inches
    most = STEEPEST if bed.steepest is None else bed.steepest.inches
    if not is_reason(bed.reason):
        return max(least, SLOPE), min(most, STEEPEST)
    return least or SLOPE, most


def _rise(asked: Fraction, shortest: Fraction, steepest: Fraction, unit: Unit) -> Fraction:
    """The rise at the walls, rounded up to what is set out; finer where only that is too steep. [in]"""

    def up(step: Fraction) -> Fraction:
        return -(-asked // step) * step

    rises = [up(step) for step in (PINS[unit], STEP[unit])]
    return next((rise for rise in rises if rise / shortest * 12 <= steepest), rises[0])


def _level_check(slope: Fraction, steepest: Fraction, unit: Unit) -> Check:
    """One line for a bed that is level on every side: no reason helps it."""
    return Topic("bed-slope", "Slope to the drain", "bed", "irc-p2709.1").judge(
        ZERO,
        slope,
        steepest,
        unit,
        shown=lambda fall: _in_a_foot(fall, unit),
        fix=Sentence("Slope it: water stands on a level bed."),
    )


def _in_a_foot(fall: str, unit: Unit) -> str:
    return Sentence("{fall} in a foot" if unit == "in" else "{fall} in 305 mm", fall=fall)


def _slope_check(side: Side, slope: Fraction, steepest: Fraction, reason: str, unit: Unit) -> Check:
    code = "bed-slope-" + side.where.removeprefix("the ").replace(" ", "-")
    topic = Topic(code, f"Slope from {side.where} to the drain", "bed", "irc-p2709.1")
    return topic.judge(
        side.fall,
        slope,
        steepest,
        unit,
        shown=lambda fall: _in_a_foot(fall, unit),
        because=(Sentence("run {length}", length=say(side.run, unit, "up")), *((reason,) if reason else ())),
        fix=Sentence("Slope it more, or write why the code in force asks for less.")
        if side.fall < slope
        else Sentence(
            "Move the drain toward the middle, or slope two ways to a line drain: a licensed plumber."
        ),
    )


def volume_words(cubic_feet: Fraction) -> str:
    """A volume as it prints: hundredths of a cubic foot, rounded up."""
    hundredths = -(-cubic_feet * 100 // 1)
    return f"{hundredths // 100}.{hundredths % 100:02d} cu ft"
