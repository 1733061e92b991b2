"""Tests of a day that tells nothing of this water: asked about, and nothing is ruled out by them until then.

Before the water was noticed and the wall opened a clean test says nothing of it; nor does one of a time that
no visit is near to, though the water was noticed by then: it may have come since. What such a test finds, it
finds (ours, no source).
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import replace

from undertile.findings import Finding, Severity
from undertile.sentence import Sentence, form, joined
from undertile.wood.clock import NO_CLOCK, Clock
from undertile.wood.days import FAR
from undertile.wood.facts import WoodFacts
from undertile.wood.leakshown import Asked, Outcome
from undertile.wood.typed import day_text, read_moment

SOURCE = "leak-test-day"
WET_SINCE = "leak-wet-since"
TOGETHER = (SOURCE, WET_SINCE)
"""Sources of what is asked of several tests at once: one finding for all of them."""
_EARLY = {
    "noticed": form("a day not before the water was noticed, {since}"),
    "opened": form("a day not before the wall was opened, {since}"),
    "visit": form("a day not before the first visit, {since}"),
}
_DO_EARLY = Sentence(
    "Correct the day, or say since when the water was noticed; until then it rules nothing out."
)
_DO_FAR = Sentence("Correct the day, or make the test again; until then it rules nothing out.")
_NOTHING = Sentence("its day is asked about")


def timely(outcomes: Iterable[Outcome], facts: WoodFacts, clock: Clock = NO_CLOCK) -> Iterator[Outcome]:
    """Tests as they tell: one of a day that is asked about excludes nothing; what it finds, it finds.

    Parameters
    ----------
    outcomes : iterable of Outcome
    facts : WoodFacts
    clock : Clock, optional
        Of who asks: a test near to its days is made before the visit that comes after it.

    Yields
    ------
    Outcome
    """
    starts = _starts(facts)
    visits = [read_moment(each.when).days for each in facts.visits.values()]
    also = [read_moment(each).days for each in (clock.today, clock.entered) if each]
    for each in outcomes:
        asked = _asked(each, starts, visits, also) if each.excludes or each.zone is not None else None
        if asked is None:
            yield each
        else:
            yield replace(each, excludes=(), zone=None, nothing=_NOTHING, asked=asked)


def _starts(facts: WoodFacts) -> tuple[str, str] | None:
    """From which day on a test tells of this water, the earliest that is known, and what that day is of."""
    known = [("noticed", facts.leak.noticed), ("opened", facts.opened)]
    known += [("visit", each.when) for each in facts.visits.values()]
    return min((each for each in known if each[1]), key=lambda each: read_moment(each[1]).days, default=None)


def _asked(
    test: Outcome, starts: tuple[str, str] | None, visits: list[float], also: list[float]
) -> Asked | None:
    came = day_text(test.day)
    if starts is not None and test.day // 1 < read_moment(starts[1]).days // 1:
        expected = Sentence(_EARLY[starts[0]], since=starts[1])
        return Asked(expected, came, _DO_EARLY, SOURCE)
    if visits and min(abs(test.day - each) for each in (*visits, *also)) > FAR:
        visit = day_text(min(visits, key=lambda each: abs(test.day - each)))
        expected = Sentence(
            "a day within {days} days of a visit ({visit} is the nearest)", days=f"{FAR:.0f}", visit=visit
        )
        return Asked(expected, came, _DO_FAR, SOURCE)
    return None


def day_findings(outcomes: Iterable[Outcome]) -> Iterator[Finding]:
    """What is asked of the days of tests: all of one day in one finding.

    Parameters
    ----------
    outcomes : iterable of Outcome

    Yields
    ------
    Finding
    """
    of: dict[Asked, list[str]] = {}
    for each in outcomes:
        if each.asked is not None and each.asked.source in TOGETHER:
            of.setdefault(each.asked, []).append(each.test)
    for its, tests in of.items():
        where = joined(tests, "{first}; {then}")
        yield Finding("leak-test-asked", Severity.ACT, where, its.expected, its.came, its.do, its.source)
