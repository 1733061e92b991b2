"""What can hurt someone and stands: it keeps the gate shut until it is gone, or a person has lifted it.

Before any plan: what that says is added by who knows the order of the stages (``job.stops``).
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from typing import Any

from undertile.findings import Finding, Severity
from undertile.sentence import Sentence
from undertile.wood.clock import Clock
from undertile.wood.gate import Missing
from undertile.wood.typed import by_a_person

MOLD = ("mold-small", "mold-medium", "mold-large")
"""Whatever its surface and whoever lifted the stop: it is gone before anything is covered."""


def safety_missing(facts: Mapping[str, Any], said: Iterable[Finding] | None) -> Iterator[Missing]:
    """What of the house keeps it shut: its stops that stand, and mold that is not gone.

    Parameters
    ----------
    facts : mapping
        ``safety``, where there is.
    said : iterable of Finding or None
        The house's cautions, what a person lifted taken off; None = not worked out, the cautious case where
        anything is entered.

    Yields
    ------
    Missing
    """
    safety = facts.get("safety")
    if said is None and safety is not None and safety != type(safety)():
        what, step = Sentence("not worked out"), Sentence("See what can hurt someone, then ask again.")
        yield Missing("safety", Sentence("the house"), what, step, "convention-6")
    for each in said or ():
        if each.code in MOLD:
            what = Sentence("{area}, not gone", area=each.found)
            step = Sentence("Write the day once it is gone. {how}", how=each.next_step)
            yield Missing("safety", each.where, what, step, each.source)
        elif each.severity is Severity.STOP:
            yield Missing("safety", each.where, each.found, _or_lifted(each.next_step), each.source)


def stops_missing(facts: Mapping[str, Any], own: Iterable[Finding]) -> Iterator[Missing]:
    """Stops of wood and framing that no person has lifted.

    Parameters
    ----------
    facts : mapping
        ``framing`` and ``safety``, where there are.
    own : iterable of Finding
        The water's stops.

    Yields
    ------
    Missing
    """
    yield from not_lifted(facts, (*own, *_soft(facts)))


def not_lifted(facts: Mapping[str, Any], said: Iterable[Finding]) -> Iterator[Missing]:
    """The stops among findings that no person has lifted.

    Parameters
    ----------
    facts : mapping
        ``safety``, where there is; a lift dated after today (``today``), or that says neither who nor why,
        lifts nothing.
    said : iterable of Finding
        Of any stage.

    Yields
    ------
    Missing
    """
    clock = Clock.of(facts)
    lifts = getattr(facts.get("safety"), "lifted", {}).values()
    lifted = {(each.stop, each.where) for each in lifts if _counts(each, clock)}
    for each in said:
        if each.severity is Severity.STOP and (each.code, str(each.where)) not in lifted:
            yield Missing("stop", each.where, each.found, _or_lifted(each.next_step), each.source)


def _counts(who: Any, clock: Clock) -> bool:
    return by_a_person(who.by, who.reason) and not clock.not_come(who.date)


def _soft(facts: Mapping[str, Any]) -> Iterator[Finding]:
    """The stop of a soft stud, code and place as the plan has it (``framing.studfindings``)."""
    for name, stud in getattr(facts.get("framing"), "studs", {}).items():
        if stud.soft:
            yield Finding(
                "stud-soft",
                Severity.STOP,
                name,
                Sentence("sound wood"),
                Sentence("the stud is soft"),
                Sentence("Replace or sister it before the wall is closed, then say that it is sound."),
                "convention-4",
            )


def _or_lifted(step: str) -> Sentence:
    return Sentence("{step} Only a person lifts it, with name and reason.", step=step)
