"""The day a pan or the walls were torn out, as typed: what is gone is no source any more.

A day that has not come, or that is of before this water or long after everything else typed, counts for
nothing (ours, no source): the pan or the walls then still stand, and are open until tested.
"""

from __future__ import annotations

from collections.abc import Iterator

from undertile.findings import Finding, Severity
from undertile.sentence import Sentence
from undertile.wood.clock import NO_CLOCK, Clock
from undertile.wood.days import FAR, days_typed
from undertile.wood.facts import Candidate, LeakFacts, WoodFacts
from undertile.wood.gone import LATER
from undertile.wood.leakstands import NAMES
from undertile.wood.typed import read_moment

TEARS: tuple[Candidate, ...] = ("pan", "enclosure")
"""What of a shower can be torn out and then leaks no more; pipes and the drain stay."""


def _odd(facts: WoodFacts, clock: Clock) -> dict[Candidate, str]:
    """What a day of tearing out should have been, where it cannot be so.

    Before the water was noticed what is gone made none of it; where nobody said since when, more than ``FAR``
    before the wall was opened and the first visit is asked about, as is more than ``LATER`` after all else.
    """
    torn = {name: each.out for name, each in facts.leak.not_here.items() if each.out and name in TEARS}
    if not torn:
        return {}
    came = [
        read_moment(each.day).days
        for each in days_typed(facts)
        if each.path[:2] != ("leak", "not_here") and not clock.ahead(each.day)
    ]
    begun = [each for each in (facts.opened, *(visit.when for visit in facts.visits.values())) if each]
    first = min(begun, key=lambda each: read_moment(each).days, default="")
    noticed = facts.leak.noticed
    out: dict[Candidate, str] = {}
    for name, day in torn.items():
        at = read_moment(day).days
        if noticed and at // 1 < read_moment(noticed).days // 1:
            out[name] = Sentence("a day not before the water was noticed, {since}", since=noticed)
        elif not noticed and first and at < read_moment(first).days - FAR:
            out[name] = Sentence(
                "a day within {days} days of {first}, or since when the water was noticed",
                days=f"{FAR:.0f}",
                first=first,
            )
        elif came and at > max(came) + LATER and not clock.ahead(day):
            out[name] = Sentence("a day within {days} days of the newest one typed", days=f"{LATER:.0f}")
    return out


def torn_counted(facts: WoodFacts, clock: Clock = NO_CLOCK) -> LeakFacts:
    """What is known of the leak, without days of tearing out that cannot be so.

    Parameters
    ----------
    facts : WoodFacts
    clock : Clock, optional

    Returns
    -------
    LeakFacts
    """
    odd_days = _odd(facts, clock)
    odd = {name for name, each in facts.leak.not_here.items() if name in odd_days or clock.ahead(each.out)}
    if not odd:
        return facts.leak
    said = {
        name: each.model_copy(update={"out": ""}) if name in odd else each
        for name, each in facts.leak.not_here.items()
    }
    return facts.leak.model_copy(update={"not_here": said})


def odd_torn(facts: WoodFacts, clock: Clock = NO_CLOCK) -> Iterator[Finding]:
    """A finding for each day of tearing out that is asked about.

    Parameters
    ----------
    facts : WoodFacts
    clock : Clock, optional

    Yields
    ------
    Finding
    """
    for name, expected in _odd(facts, clock).items():
        yield Finding(
            "out-day-odd",
            Severity.ACT,
            NAMES[name],
            expected,
            Sentence("torn out {day}", day=facts.leak.not_here[name].out),
            Sentence("Correct the day; until then it counts as still there."),
            "convention-7",
        )
