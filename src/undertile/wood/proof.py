"""Photos and inspection as proof: of a day before it was opened, or before what was done behind a surface
since (``wood.changed``), they show nothing of what is covered."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from undertile.findings import Finding, Severity
from undertile.sentence import Sentence, form
from undertile.wood.facts import WoodFacts
from undertile.wood.typed import read_moment

ANEW = Sentence("Take it anew, or correct the day; until then it opens nothing.")
CALL = Sentence("Have it inspected as it stands open, or correct the day; until then it opens nothing.")
AGAIN = Sentence("Take it again, square on, a tape in it.")
WRITE = Sentence("Write the day on which it was passed.")


@dataclass(frozen=True)
class Since:
    """From which day on proof can show what is covered now.

    Attributes
    ----------
    day : str
        Of opening, where it is known; else of the first visit; "" = neither is.
    opened : bool
        Whether it is the day of opening.
    what : str
        What was done on that day behind the surface; "" = it is of opening or of the first visit.
    """

    day: str
    opened: bool
    what: str = ""

    def early(self, day: str) -> bool:
        """Whether a day, as typed, lies before it: by the calendar, or by the hour of what was done where
        both have one."""
        if not day or not self.day:
            return False
        its, limit = read_moment(day), read_moment(self.day)
        if self.what and its.hour and limit.hour:
            return its.days < limit.days
        return its.days // 1 < limit.days // 1

    @property
    def expected(self) -> Sentence:
        """What a day should be."""
        if self.opened:
            return Sentence("a day not before the wall was opened, {since}", since=self.day)
        return Sentence("a day not before the first visit, {since}", since=self.day)

    def says(self, day: str) -> Sentence:
        """What is wrong with a day before it."""
        if self.what:
            said = form("of {day}, before {what} ({since}): it does not show that")
            return Sentence(said, day=day, what=self.what, since=self.day)
        if self.opened:
            return Sentence("of {day}, before the wall was opened ({since})", day=day, since=self.day)
        return Sentence("of {day}, before the first visit ({since})", day=day, since=self.day)


def since(facts: WoodFacts) -> Since:
    """From which day on a photo or an inspection can show what is covered now."""
    if facts.opened:
        return Since(facts.opened, opened=True)
    days = (each.when for each in facts.visits.values())
    return Since(min(days, key=read_moment, default=""), opened=False)


def proof_findings(facts: WoodFacts) -> Iterator[Finding]:
    """Photos and inspections of before it was opened, or passed on no day that is written.

    One that something was done after was good when it was made: the gate asks for a new one, no finding does.

    Parameters
    ----------
    facts : WoodFacts

    Yields
    ------
    Finding
    """
    cover, limit = facts.cover, since(facts)
    for surface, day in cover.photos.items():
        if limit.early(day):
            where = Sentence("photo, {name}", name=surface)
            yield Finding("proof-too-early", Severity.ACT, where, limit.expected, day, ANEW, "practice-cover")
    if cover.inspection == "passed":
        where = Sentence("inspection")
        if not cover.inspected:
            expected, found = Sentence("the day it was passed"), Sentence("passed, and no day is written")
            yield Finding("inspection-no-day", Severity.ACT, where, expected, found, WRITE, "practice-cover")
        elif limit.early(cover.inspected):
            yield Finding(
                "proof-too-early",
                Severity.ACT,
                where,
                limit.expected,
                cover.inspected,
                CALL,
                "practice-cover",
            )
