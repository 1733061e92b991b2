"""Stops that a person has lifted, whatever part says them: they stay as notes, with who and why."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace

from undertile.findings import Finding, Severity
from undertile.safety.facts import Lifted
from undertile.sentence import Sentence


def lift(findings: Iterable[Finding], lifts: Iterable[Lifted], whole: bool = False) -> tuple[Finding, ...]:
    """Findings as they stand once what a person lifted is lifted.

    Parameters
    ----------
    findings : iterable of Finding
    lifts : iterable of Lifted
    whole : bool
        Whether these are all the findings of a job: then a lift that meets no stop is said.

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
        out.append(finding if who is None or finding.severity is not Severity.STOP else _lifted(finding, who))
    left = [who for place, who in by_place.items() if place not in met] if whole else []
    return (*out, *map(_not_there, left))


def _lifted(finding: Finding, who: Lifted) -> Finding:
    by = f"{who.by}, {who.date}" if who.date else who.by
    said = Sentence("{found}; lifted by {by}: {reason}", found=finding.found, by=by, reason=who.reason)
    return replace(finding, severity=Severity.NOTE, found=said)


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
