"""The clock of who asks, as a stage is given it.

A stage has no clock: who asks passes the day (``today``), and the day of the record's newest entry
(``entered``) where there is a record.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from undertile.errors import BoundError
from undertile.sentence import Sentence
from undertile.wood.typed import read_moment

LEFT = 1.0
"""Left over past a clock's own day, for clocks and zones that differ (ours). [d]"""


@dataclass(frozen=True)
class Clock:
    """What is known of today.

    Attributes
    ----------
    today : str
        By the clock of who asks, ``2026-03-04``; "" = there is none.
    entered : str
        Day of the record's newest entry, by the clock of the device it was typed on; "" = there is none.
    """

    today: str = ""
    entered: str = ""

    @classmethod
    def of(cls, facts: Mapping[str, Any]) -> Clock:
        """As who asks passed it among the facts; a day that no calendar has is none."""
        return cls(_known(facts.get("today")), _known(facts.get("entered")))

    @property
    def behind(self) -> bool:
        """Whether the record has an entry of a day that this clock has not come to."""
        return bool(self.today and self.entered) and _after(read_moment(self.entered).days, self.today)

    def ahead(self, day: str) -> bool:
        """Whether a day as typed has not come yet, ``LEFT`` left over: by no clock that is known."""
        return bool(day) and self.after(read_moment(day).days)

    def not_come(self, written: str) -> bool:
        """The same of a day written as anybody pleases: what no calendar has tells nothing of when."""
        return self.ahead(_known(written))

    def after(self, days: float) -> bool:
        """The same of a day as ``Moment.days``. [d]"""
        known = [each for each in (self.today, self.entered) if each]
        return bool(known) and all(_after(days, each) for each in known)

    def under_way(self, start: float, lasts: float) -> bool:
        """Whether what began then and takes so long ends on a day after today, by every clock that is known.

        Nothing is left over here: what is typed of today at ten and takes a day has no result today.
        """
        known = [read_moment(each).days // 1 for each in (self.today, self.entered) if each]
        return bool(known) and lasts > 0 and (start + lasts) // 1 > max(known)

    def waits(self, day: str) -> bool:
        """Whether a day is after today only by this clock, which is behind the record."""
        return self.behind and bool(day) and _after(read_moment(day).days, self.today) and not self.ahead(day)

    @property
    def expected(self) -> Sentence:
        """What a day should be."""
        if self.today:
            return Sentence("a day not after today, {today}", today=self.today)
        return Sentence("a day not after the newest entry, {entered}", entered=self.entered)


def _after(days: float, other: str) -> bool:
    return days >= read_moment(other).days // 1 + 1 + LEFT


NO_CLOCK = Clock()
"""Nothing is known of today: no day is held against it."""


def _known(day: str | None) -> str:
    try:
        return day if day and read_moment(day) else ""
    except BoundError:
        return ""
