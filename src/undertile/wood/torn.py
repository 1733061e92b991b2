"""The day a pan or the walls were torn out, as typed: what is gone is no source any more.

A day that has not come, or that is long after everything else typed, counts for nothing (ours, no source):
the pan or the walls then still stand, and are open until tested.
"""

from __future__ import annotations

from collections.abc import Iterator

from undertile.findings import Finding, Severity
from undertile.sentence import Sentence
from undertile.wood.clock import NO_CLOCK, Clock
from undertile.wood.days import days_typed
from undertile.wood.facts import Candidate, LeakFacts, WoodFacts
from undertile.wood.gone import LATER
from undertile.wood.leakstands import NAMES
from undertile.wood.typed import read_moment

TEARS: tuple[Candidate, ...] = ("pan", "enclosure")
"""What of a shower can be torn out and then leaks no more; pipes and the drain stay."""


def _late(facts: WoodFacts, clock: Clock) -> dict[Candidate, str]:
    """Days of tearing out more than ``LATER`` after the newest day of anything else."""
    torn = {name: each.out for name, each in facts.leak.not_here.items() if each.out and name in TEARS}
    came = [
        read_moment(each.day).days
        for each in days_typed(facts)
        if each.path[:2] != ("leak", "not_here") and not clock.ahead(each.day)
    ]
    if not came:
        return {}
    newest = max(came) + LATER
    return {name: out for name, out in torn.items() if read_moment(out).days > newest}


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
    late = _late(facts, clock)
    odd = {name for name, each in facts.leak.not_here.items() if name in late or clock.ahead(each.out)}
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
    for name, out in _late(facts, clock).items():
        yield Finding(
            "out-day-odd",
            Severity.ACT,
            NAMES[name],
            Sentence("a day within {days} days of the newest one typed", days=f"{LATER:.0f}"),
            Sentence("torn out {day}", day=out),
            Sentence("Correct the day; until then it counts as still there."),
            "convention-7",
        )
