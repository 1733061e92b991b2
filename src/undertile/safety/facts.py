"""What is known of the house that can hurt someone: age, samples taken, mold, foul water, what is off.

Nothing said is not cleared: the hold line of every sheet asks for it (convention 6.1).
"""

from __future__ import annotations

from decimal import Decimal
from typing import Literal

from pydantic import Field

from undertile.survey.facts import Facts, WallName
from undertile.wood.typed import DayOrNothing

Answer = Literal["not yet", "none found", "found"]
Sampled = Literal["flooring", "mastic", "plaster or texture", "pipe wrap", "board", "other"]
Water = Literal["unknown", "clean", "used", "sewage"]


class Sample(Facts):
    """One stuff that will be disturbed, sampled and answered by a laboratory."""

    answer: Answer = "not yet"
    by: str = Field(default="", description="who answers for it")
    when: DayOrNothing = ""


class Mold(Facts):
    """Mold in one place."""

    square_feet: Decimal = Field(gt=0, description="surface it covers, or may")
    noted: DayOrNothing = Field(default="", description="first seen on this day")
    gone: DayOrNothing = Field(default="", description="cleaned or cut out on this day")


class Off(Facts):
    """What was shut off and proved."""

    by: str = Field(min_length=1)
    when: DayOrNothing = ""
    how: str = Field(default="", description="how it was proved: tester on each wire, tap run dry")


class Shared(Facts):
    """A wall that is somebody else's too."""

    whose: str = Field(min_length=1, description="the neighbour, the house's common wall")
    asked: str = Field(default="", description="who was asked, and what was answered")


class Lifted(Facts):
    """A stop, of whatever part, that a person has lifted (convention 6.2)."""

    stop: str = Field(min_length=1, description="its code")
    where: str = Field(min_length=1, description="its place, as the stop has it")
    by: str = Field(min_length=1)
    reason: str = Field(min_length=1)
    date: str = ""


class SafetyFacts(Facts):
    """Everything known of what can hurt someone here."""

    year: int | None = Field(default=None, ge=1600, le=2100, description="the house was built in")
    lead: dict[str, Sample] = Field(default_factory=dict, description="paint sampled, by place")
    asbestos: dict[Sampled, Sample] = Field(default_factory=dict, description="by what was sampled")
    mold: dict[str, Mold] = Field(default_factory=dict, description="by place")
    water: Water = Field(default="unknown", description="what leaked: clean, used (tub, shower), or sewage")
    off: dict[Literal["power", "water"], Off] = Field(default_factory=dict)
    shared: dict[WallName, Shared] = Field(
        default_factory=dict, description="walls that are the neighbour's too"
    )
    lifted: dict[str, Lifted] = Field(default_factory=dict)
