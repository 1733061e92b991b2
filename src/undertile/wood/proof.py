"""Photos and inspection as proof: of a day before it was opened they show nothing of what is covered."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from undertile.findings import Finding, Severity
from undertile.sentence import Sentence
from undertile.wood.facts import WoodFacts
from undertile.wood.typed import read_moment

ANEW = Sentence("Take it anew, or correct the day; until then it opens nothing.")
CALL = Sentence("Have it inspected as it stands open, or correct the day; until then it opens nothing.")
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
    """

    day: str
    opened: bool

    def early(self, day: str) -> bool:
        """Whether a day, as typed, lies before it, by the calendar."""
        return bool(day and self.day) and read_moment(day).days // 1 < read_moment(self.day).days // 1

    @property
    def expected(self) -> Sentence:
        """What a day should be."""
        if self.opened:
            return Sentence("a day not before the wall was opened, {since}", since=self.day)
        return Sentence("a day not before the first visit, {since}", since=self.day)

    def says(self, day: str) -> Sentence:
        """What is wrong with a day before it."""
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
    """Photos and inspections that show nothing: dated too early, or passed on no day that is written.

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
