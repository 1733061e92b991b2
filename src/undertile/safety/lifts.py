"""Stops that a person has lifted, whatever part says them: they stay as notes, with who and why.

A lift dated after today lifts nothing yet, and one without a name or a reason that can be read lifts nothing
(convention 6.2): the stop stands, and says so.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import replace

from undertile.findings import Finding, Severity
from undertile.safety.facts import Lifted
from undertile.sentence import Sentence, form
from undertile.wood.clock import NO_CLOCK, Clock
from undertile.wood.typed import by_a_person

UNREAD = form("{found}; a lift is written, without a name and a reason that can be read")
AHEAD = form("{found}; lifted by {by} on {day}, which has not come yet")


def counted(lifts: Iterable[Lifted], clock: Clock) -> Iterator[Lifted]:
    """The lifts that count: whose day has come, or that have none, with a name and a reason that can be read.

    Parameters
    ----------
    lifts : iterable of Lifted
    clock : Clock
        Of who asks.

    Yields
    ------
    Lifted
    """
    yield from (each for each in lifts if _said(each) and not clock.not_come(each.date))


def _said(who: Lifted) -> bool:
    return by_a_person(who.by, who.reason)


def lift(
    findings: Iterable[Finding], lifts: Iterable[Lifted], whole: bool = False, clock: Clock = NO_CLOCK
) -> tuple[Finding, ...]:
    """Findings as they stand once what a person lifted is lifted.

    Parameters
    ----------
    findings : iterable of Finding
    lifts : iterable of Lifted
    whole : bool
        Whether these are all the findings of a job: then a lift that meets no stop is said.
    clock : Clock, optional
        Of who asks: a lift dated after today lifts nothing.

    Returns
    -------
    tuple of Finding
        In the same order; lifting twice is lifting once.
    """
    by_place = {(each.stop, each.where): each for each in lifts}
    met = set()
    out = []
    for finding in findings:
        place = (finding.code, str(finding.where))
        who = by_place.get(place)
        if who is not None:
            met.add(place)
        if who is None or finding.severity is not Severity.STOP:
            out.append(finding)
        else:
            out.append(_stands(finding, who, clock) or _lifted(finding, who))
    left = [who for place, who in by_place.items() if place not in met] if whole else []
    return (*out, *map(_not_there, left))


def _lifted(finding: Finding, who: Lifted) -> Finding:
    by = f"{who.by}, {who.date}" if who.date else who.by
    said = Sentence("{found}; lifted by {by}: {reason}", found=finding.found, by=by, reason=who.reason)
    return replace(finding, severity=Severity.NOTE, found=said)


def _stands(finding: Finding, who: Lifted, clock: Clock) -> Finding | None:
    """The stop as it stands beside a lift that does not count; None where it counts."""
    if _said(who) and not clock.not_come(who.date):
        return None
    if getattr(finding.found, "form", "") in (AHEAD, UNREAD):  # lifting twice is lifting once
        return finding
    if not _said(who):
        return replace(finding, found=Sentence(UNREAD, found=finding.found))
    return replace(finding, found=Sentence(AHEAD, found=finding.found, by=who.by, day=who.date))


def _not_there(who: Lifted) -> Finding:
    return Finding(
        "stop-not-there",
        Severity.NOTE,
        who.where,
        Sentence("the code and place of a stop that stands"),
        Sentence("{by} lifted {stop}, and there is no such stop", by=who.by, stop=who.stop),
        Sentence("Take it out, or write the place as the stop has it."),
        "convention-6",
    )
