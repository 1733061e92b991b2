"""The day a place was cut out, as typed: one that cannot be so is asked about, and the wood is still there.

A day is held against the readings of the place itself, against the newest day that anything else of the water
was typed for, and against today where who asks has a clock. What cannot be so counts for nothing either way:
the floor's patch looks at the same facts (``counted``).
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from undertile.findings import Finding, Severity
from undertile.sentence import Sentence
from undertile.wood.clock import NO_CLOCK, Clock
from undertile.wood.days import days_typed
from undertile.wood.facts import Point, WoodFacts
from undertile.wood.places import has_layers, place_of
from undertile.wood.typed import Moment, read_moment

LATER = 30.0
"""A cut-out day so long past everything else typed is asked about (ours, no source). [d]"""


def odd_outs(facts: WoodFacts, clock: Clock = NO_CLOCK) -> dict[str, Finding]:
    """Cut-out days that cannot be so, by point; the wood of those counts as still there.

    Parameters
    ----------
    facts : WoodFacts
    clock : Clock, optional

    Returns
    -------
    dict of str to Finding
        Before a reading of the place, after today, or more than ``LATER`` after the newest day of anything
        else.
    """
    typed = {name: point for name, point in facts.points.items() if point.out}
    if not typed:
        return {}
    layered = has_layers(facts.points.values())
    came = [each.day for each in days_typed(facts) if not clock.ahead(each.day)]
    newest = max(map(read_moment, came), default=None)
    found = {}
    for name, point in typed.items():
        expected = _expected(point, facts, newest, clock)
        if expected:
            found[name] = Finding(
                "out-day-odd",
                Severity.ACT,
                place_of(name, point, layered=layered),
                expected,
                Sentence("cut out {day}", day=point.out),
                Sentence("Correct the day; until then it counts as still there, as it was last read."),
                "convention-7",
            )
    return found


def counted(facts: WoodFacts, clock: Clock = NO_CLOCK) -> WoodFacts:
    """The facts as they count: without cut-out days that cannot be so.

    Parameters
    ----------
    facts : WoodFacts
    clock : Clock, optional

    Returns
    -------
    WoodFacts
    """
    odd = odd_outs(facts, clock)
    if not odd:
        return facts
    points = {
        name: point.model_copy(update={"out": ""}) if name in odd else point
        for name, point in facts.points.items()
    }
    return facts.model_copy(update={"points": points})


def _expected(point: Point, facts: WoodFacts, newest: Moment | None, clock: Clock) -> str:
    """What its day should have been; "" where nothing is against it."""
    out = read_moment(point.out)
    read = [facts.visits[name] for name in _read_on(point) if name in facts.visits]
    later = [each.when for each in read if _after(read_moment(each.when), out)]
    if later:
        return Sentence("a day not before its last reading, {when}", when=max(later, key=read_moment))
    if clock.ahead(point.out):
        return clock.expected
    if newest is not None and out.days > newest.days + LATER:
        return Sentence("a day within {days} days of the newest one typed", days=f"{LATER:.0f}")
    return ""


def _read_on(point: Point) -> Iterable[str]:
    tables: tuple[Mapping[str, object], ...] = (point.shown, point.awl, point.pick, point.chips)
    return dict.fromkeys(visit for table in tables for visit in table if table[visit] != "")


def _after(read: Moment, out: Moment) -> bool:
    """Whether a reading was surely taken after the wood was out: without both hours, on a later day."""
    if read.hour and out.hour:
        return read.days > out.days
    return read.days // 1 > out.days // 1
