"""What is dated after today by the clock of who asks: said, and nothing that rests on it opens anything."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Iterator
from dataclasses import replace

from undertile.findings import Finding, Severity
from undertile.sentence import Sentence, form
from undertile.wood.clock import Clock
from undertile.wood.days import Dated, days_typed
from undertile.wood.facts import WoodFacts
from undertile.wood.gate import Missing
from undertile.wood.leakorder import earliest
from undertile.wood.leakshown import Asked, Outcome
from undertile.wood.typed import day_text

CLOCK = Sentence("this device's clock")
OPENS = ("visits", "leak", "cover")
"""Tables whose days the gate stands on; others are only said. (The day wood was cut out: ``wood.gone``.)"""
CORRECT = Sentence("Correct the day, or this device's clock if that is wrong; until then it opens nothing.")
SET_IT = Sentence("Set the clock if it is wrong; if it is right, correct the days after it.")


def days_ahead(facts: WoodFacts, clock: Clock) -> Iterator[Finding]:
    """A finding for each day of the water that has not come yet; the day a place was cut out has its own.

    Parameters
    ----------
    facts : WoodFacts
    clock : Clock

    Yields
    ------
    Finding
        One for all that a clock behind the record explains; in a note where nothing waits for it.
    """
    typed = list(days_typed(facts))
    if clock.behind:
        waits = any(clock.waits(day) for day in (*(each.day for each in typed), *_outs(facts)))
        yield behind(clock, Severity.ACT if waits else Severity.NOTE)
    yield from not_come(typed, clock)


def not_come(typed: Iterable[Dated], clock: Clock) -> Iterator[Finding]:
    """A finding for each of some days that has not come yet."""
    for each in typed:
        if clock.ahead(each.day):
            yield Finding(
                "day-ahead", Severity.ACT, each.what, clock.expected, each.day, CORRECT, "convention-7"
            )


def _outs(facts: WoodFacts) -> Iterator[str]:
    yield from (point.out for point in facts.points.values() if point.out)


def behind(clock: Clock, severity: Severity) -> Finding:
    """The one line of a clock that is behind the record."""
    expected = Sentence("a day not before the newest entry, {entered}", entered=clock.entered)
    return Finding("clock-behind", severity, CLOCK, expected, _says(clock), SET_IT, "convention-7")


def days_missing(facts: WoodFacts, clock: Clock, read: Collection[str]) -> tuple[Missing, ...]:
    """What keeps the gate shut because its day has not come yet.

    Parameters
    ----------
    facts : WoodFacts
    clock : Clock
    read : collection of str
        Visits on which something was read; one that is only planned is waited for by nobody.

    Returns
    -------
    tuple of Missing
    """
    typed = [
        each
        for each in days_typed(facts)
        if each.path[0] in OPENS and (each.path[0] != "visits" or each.path[1] in read)
    ]
    ahead = [each for each in typed if clock.ahead(each.day)]
    out = [Missing("day", each.what, _dated(each.day, clock), CORRECT, "convention-7") for each in ahead]
    if any(clock.waits(day) for day in (*(each.day for each in typed), *_outs(facts))):
        out.insert(0, Missing("day", CLOCK, _says(clock), SET_IT, "convention-7"))
    return tuple(out)


def _says(clock: Clock) -> Sentence:
    said = form("it says {today}; the job has entries of {entered}")
    return Sentence(said, today=clock.today, entered=clock.entered)


def _dated(day: str, clock: Clock) -> Sentence:
    if clock.today:
        return Sentence("dated {day}, and today is {today}", day=day, today=clock.today)
    return Sentence("dated {day}, and the newest entry is of {entered}", day=day, entered=clock.entered)


def untold(outcomes: Iterable[Outcome], clock: Clock) -> Iterator[Outcome]:
    """Tests as they tell: one of a day that has not come yet, or that is not over, excludes nothing.

    What such a test finds, it finds.

    Parameters
    ----------
    outcomes : iterable of Outcome
    clock : Clock

    Yields
    ------
    Outcome
    """
    for each in outcomes:
        if clock.after(each.day) and (each.excludes or each.zone is not None):
            yield replace(each, excludes=(), zone=None, nothing=Sentence("its day has not come yet"))
        elif clock.under_way(start := earliest(each.day, hour=each.hour), each.lasts) and (
            each.excludes or each.zone is not None
        ):
            over = day_text(start + each.lasts)
            still = Sentence("begun then, it is over on {day}: until then it rules nothing out", day=over)
            asked = Asked(
                Sentence("a result of after its end: its day and hour are those of its start"),
                still,
                Sentence("Correct its start or how long it took, or look again when it is over."),
            )
            yield replace(each, excludes=(), zone=None, nothing=still, asked=asked)
        else:
            yield each
