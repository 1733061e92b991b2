"""Framing that was cut out: what was put back is read, or a person says that nothing stands there any more.

Only plates, studs and joists: the panel of a subfloor is the patch's, which the floor lays out.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from fractions import Fraction

from undertile.findings import Finding, Severity
from undertile.lengths import MM, Unit
from undertile.sentence import Sentence
from undertile.wood.clock import NO_CLOCK, Clock
from undertile.wood.facts import Point
from undertile.wood.gate import Missing
from undertile.wood.history import Series
from undertile.wood.places import new_on_gone
from undertile.wood.say import length
from undertile.wood.typed import is_name, read_moment

FRAMING = ("plate", "stud", "joist")
BARE = "practice-bare-bearing"
"""Source of the stop of framing that bears and stays out."""
NEAR: dict[Unit, Fraction] = {"in": Fraction(12), "mm": 300 * MM}
"""New wood is read no further than this from the place that was cut out (ours, no source). [in]"""


def new_wood_missing(
    every: Iterable[Series], unit: Unit = "in", clock: Clock = NO_CLOCK, own_unit: Unit | None = None
) -> Iterator[Missing]:
    """What was cut out of the framing and is neither read anew nor said to be left out.

    Parameters
    ----------
    every : iterable of Series
        With the cut-out days that count (``wood.gone``).
    unit : {"in", "mm"}
        For words.
    clock : Clock, optional
        What is dated after today tells nothing.
    own_unit : {"in", "mm"}, optional
        The job's, that says how near; else ``unit``.

    Yields
    ------
    Missing
        One a place, of kind ``new``.
    """
    every = list(every)
    for old in every:
        point = old.facts
        if not point.out or point.member not in FRAMING or point.reference or _bare(point, clock):
            continue
        put_in = put_in_for(old, every, own_unit or unit, clock)
        if any(_read(each, clock) for each in put_in):
            continue
        what = Sentence("cut out {day}, and no new wood is read there", day=point.out)
        step = Sentence(
            "Put the new wood in, write its day and read it as a new place within {near} of it; or write who "
            "saw, and on which day, that nothing stands there any more.",
            near=length(NEAR[own_unit or unit], unit),
        )
        if put_in:
            new = put_in[0]
            what = Sentence(
                "cut out {day}; the new wood of {new} is not read since", day=point.out, new=new.facts.new
            )
            step = Sentence("Read {where} after the day it was put in.", where=new.where)
        yield Missing("new", old.where, what, step, "practice-open-past")


def bare_stops(every: Iterable[Series], clock: Clock = NO_CLOCK) -> Iterator[Finding]:
    """Framing that bears, or may, cut out to stay out: a stop, for what carries now is a person's word.

    Parameters
    ----------
    every : iterable of Series
        With the cut-out days that count (``wood.gone``).
    clock : Clock, optional

    Yields
    ------
    Finding
        Unknown counts as bearing (convention 4.5); lifted like every stop, with name and reason (6.2).
    """
    for each in every:
        point = each.facts
        if not point.out or point.member not in FRAMING or point.reference or point.bearing == "no":
            continue
        if _bare(point, clock):
            bears = Sentence("it bears" if point.bearing == "yes" else "it may bear")
            yield Finding(
                "bare-bearing",
                Severity.STOP,
                each.where,
                Sentence("something that carries what it carried"),
                Sentence("cut out {day}, nothing put back; {bears}", day=point.out, bears=bears),
                Sentence(
                    "Shore it, ask what carries now, and write who said so; or write that it bears nothing."
                ),
                BARE,
            )


def _bare(point: Point, clock: Clock) -> bool:
    """Whether a person says, with name and day, that nothing stands there since it was cut out."""
    if not point.bare or not is_name(point.bare_by) or clock.ahead(point.bare):
        return False
    return _not_before(read_moment(point.bare).days, point.out)


def misplaced(every: Iterable[Series]) -> Iterator[Finding]:
    """New wood's day typed at the place of the wood that went out: it is no place of its own there."""
    for each in every:
        if new_on_gone(each.facts):
            yield Finding(
                "new-on-gone",
                Severity.ACT,
                each.where,
                Sentence("new wood as a place of its own"),
                Sentence(
                    "cut out {day}, and new wood typed here, {new}", day=each.facts.out, new=each.facts.new
                ),
                Sentence("Take the day of new wood out here, and add the new wood as a new place."),
                "practice-open-past",
            )


def put_in_for(
    old: Series, every: Iterable[Series], own_unit: Unit = "in", clock: Clock = NO_CLOCK
) -> list[Series]:
    """The places of new wood that stand for one that was cut out, read or not: near by the job's own unit."""
    return [each for each in every if _stands_for(each, old, own_unit, clock)]


def _stands_for(new: Series, old: Series, own_unit: Unit, clock: Clock) -> bool:
    """Whether a place is new wood in the same piece, near enough, put in no sooner than the old went out."""
    one, two = new.facts, old.facts
    if not one.new or one.out or clock.ahead(one.new):
        return False
    if (one.member, one.wall, one.name) != (two.member, two.wall, two.name):
        return False
    at, was = _at(one), _at(two)
    if was is not None and (at is None or abs(at - was) > NEAR[own_unit]):
        return False
    return _not_before(read_moment(one.new).days, two.out)


def _at(point: Point) -> Fraction | None:
    """Where along its piece. [in]"""
    place = point.height if point.member == "stud" else point.along
    return None if place is None else place.inches


def _read(new: Series, clock: Clock) -> bool:
    """Whether new wood has a reading, and none of before it was put in: that one was of something else."""
    days = [each.day for each in new.samples if each.value is not None]
    own = all(_not_before(day, new.facts.new) for day in days)
    return own and any(not clock.after(day) for day in days)


def _not_before(day: float, limit: str) -> bool:
    return day // 1 >= read_moment(limit).days // 1
