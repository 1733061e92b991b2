"""What one test of a leak shows, as a record; and the words that the tests share."""

from __future__ import annotations

import re
from dataclasses import dataclass
from math import ceil

from undertile.lengths import Unit
from undertile.sentence import Sentence, joined
from undertile.wood.facts import Candidate, Zone

ZONES: tuple[Zone, ...] = ("curb", "corners", "lower walls", "valve", "upper walls", "door")
"""Sprayed from the lowest up; all of them before the enclosure is excluded."""
ZONE_NAMES: dict[Zone, Sentence] = {
    "curb": Sentence("curb"),
    "corners": Sentence("corners"),
    "lower walls": Sentence("lower walls"),
    "valve": Sentence("valve"),
    "upper walls": Sentence("upper walls"),
    "door": Sentence("door"),
    "window": Sentence("window"),
}
LITRES = 3.785412
"""In a gallon."""
_NO_NAME = re.compile(r"(?:unnamed|-)? ?[0-9]*")


@dataclass(frozen=True)
class Asked:
    """Numbers of a test that cannot be so, or that lack a word: what they say is not believed until then.

    Attributes
    ----------
    expected, came, do : str
    source : str
    """

    expected: str
    came: str
    do: str
    source: str = "practice-leak-tests"


@dataclass(frozen=True)
class Outcome:
    """What one test shows.

    Attributes
    ----------
    test : str
        ``water meter``, ``spray, corners`` ... with its name.
    day : float
        Of its start. [d]
    why : str
        With its numbers.
    finds, excludes : tuple of Candidate
    one_of : tuple of Candidate
        At least one of these leaks, this test cannot tell which.
    nothing : str
        Why it shows nothing, or not all; "" where it does.
    zone : Zone or None
        Passed dry.
    side : str
        Of a supply test of one side only: ``hot`` or ``cold``.
    kind : str
        The table of the facts that its numbers stand in; "" of what the readings show.
    source : str
    asked : Asked or None
        What of its numbers is asked about.
    spot : str
        Where it was made, of tests made in parts: the zone sprayed.
    hard : tuple of float
        How long, how much, how fine: one at least as hard in each asks as much (``leakagain``).
    hour : bool
        Whether an hour was written: else its order on its day is not known (``leakorder``).
    lasts : float
        From its start, ``day``, to its end. [d]
    say : bool
        Clean, and only a word is missing: ``nothing`` says which.
    """

    test: str
    day: float
    why: str
    finds: tuple[Candidate, ...] = ()
    excludes: tuple[Candidate, ...] = ()
    one_of: tuple[Candidate, ...] = ()
    nothing: str = ""
    zone: Zone | None = None
    side: str = ""
    kind: str = ""
    source: str = "practice-leak-tests"
    asked: Asked | None = None
    spot: str = ""
    hard: tuple[float, ...] = ()
    hour: bool = True
    lasts: float = 0.0
    say: bool = False

    @property
    def leaks(self) -> tuple[Candidate, ...]:
        """Of which one at least leaks, by this test."""
        return (*self.finds, *self.one_of)


def then(seen: str, said: str) -> str:
    """What was done, and what it showed."""
    return joined([seen, said], "{first}: {then}")


def wet(after: object, place: str) -> str:
    """That water showed: after how many minutes and where, as far as it was said."""
    if after is None:
        return Sentence("water showed: {place}", place=place) if place else Sentence("water showed")
    if place:
        return Sentence("water showed after {minutes} min: {place}", minutes=after, place=place)
    return Sentence("water showed after {minutes} min", minutes=after)


def named(name: str, when: str) -> str:
    """What a test is called beside its kind: its name, or its day where the name is none.

    A test that a screen numbered, or that somebody without a name typed, says nothing by its name.
    """
    return when if _NO_NAME.fullmatch(name) else name


def few(value: float) -> str:
    """A figure with no more digits than it means: whole from ten on, tenths below."""
    return f"{value:,.0f}" if value >= 10 else f"{value:.1f}".removesuffix(".0")


def volume(gallons: float, unit: Unit, *, least: bool = False) -> str:
    """Water as it prints: ``6 gal``, in mm jobs ``23 L``; as the least that shows, never less than it is."""
    own = gallons if unit == "in" else gallons * LITRES
    step = 1 if own >= 10 else 0.1
    said = ceil(own / step - 1e-9) * step if least else own
    return f"{few(said)} {'gal' if unit == 'in' else 'L'}"
