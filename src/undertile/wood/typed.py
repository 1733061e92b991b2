"""What is typed on a moisture round: a day, a temperature, what the meter shows. Read without a guess.

The text stays as typed in the record (convention 7.1); this module says what it means. A text that is none
of these is refused in one line; a number that is merely odd is judged later.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import lru_cache
from typing import Annotated, Literal

from pydantic import AfterValidator, Field

from undertile.errors import BoundError
from undertile.sentence import Sentence

State = Literal["number", "over", "under", "not measured", "cannot reach"]

_DAY = re.compile(r"([0-9]{4})-([0-9]{2})-([0-9]{2})(?:[ T]([0-9]{1,2}):([0-9]{2}))?")
_DEGREES = re.compile(r"([+-]?[0-9]{1,3}(?:[.,][0-9]{1,2})?) ?°? ?([FfCc])")
_NUMBER = re.compile(r"[0-9]{1,3}(?:[.,][0-9]{1,2})?")
_MOST = 6
MONTHS = (31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31)


@dataclass(frozen=True, order=True)
class Moment:
    """A day, with its hour where one was written.

    Attributes
    ----------
    days : float
        Since 0000-03-01 of the Gregorian calendar, with the part of the day; noon where no hour was
        written. [d]
    hour : bool
        Whether one was.
    """

    days: float
    hour: bool = True


@lru_cache(maxsize=1024)
def read_moment(text: str) -> Moment:
    """A day as typed: ``2026-03-04`` or ``2026-03-04 16:30``.

    Parameters
    ----------
    text : str

    Returns
    -------
    Moment

    Raises
    ------
    BoundError
        If it is none, or a day that no calendar has.
    """
    found = _DAY.fullmatch(text.strip())
    if found is None:
        raise _refuse(
            Sentence("a day like 2026-03-04, with the hour like 2026-03-04 16:30"),
            text,
            Sentence("write it so"),
        )
    year, month, day = (int(part) for part in found.groups()[:3])
    if not 1 <= month <= 12 or not 1 <= day <= _days_in(year, month):
        raise _refuse(Sentence("a day of the calendar, year-month-day"), text, Sentence("correct it"))
    if found[4] is None:
        return Moment(_civil(year, month, day) + 0.5, False)
    hour, minute = int(found[4]), int(found[5])
    if hour > 23 or minute > 59:
        raise _refuse(Sentence("an hour from 00:00 to 23:59"), text, Sentence("correct it"))
    return Moment(_civil(year, month, day) + (hour * 60 + minute) / 1440)


def day_text(days: float) -> str:
    """The day a number of days stands for, as ``2026-03-04`` [1]_.

    Parameters
    ----------
    days : float
        As ``Moment.days``. [d]

    Returns
    -------
    str

    References
    ----------
    .. [1] The calendar counted from March, so that the leap day comes last: 400 years are 146097 days.
    """
    whole = int(days // 1)
    era, day_of_era = divmod(whole, 146097)
    year_of_era = (day_of_era - day_of_era // 1460 + day_of_era // 36524 - day_of_era // 146096) // 365
    day_of_year = day_of_era - (365 * year_of_era + year_of_era // 4 - year_of_era // 100)
    from_march = (5 * day_of_year + 2) // 153
    day = day_of_year - (153 * from_march + 2) // 5 + 1
    month = from_march + 3 if from_march < 10 else from_march - 9
    year = year_of_era + era * 400 + (1 if month <= 2 else 0)
    return f"{year:04d}-{month:02d}-{day:02d}"


def _civil(year: int, month: int, day: int) -> int:
    year -= month <= 2
    era, of_era = divmod(year, 400)
    day_of_year = (153 * (month + (-3 if month > 2 else 9)) + 2) // 5 + day - 1
    return era * 146097 + of_era * 365 + of_era // 4 - of_era // 100 + day_of_year


def _days_in(year: int, month: int) -> int:
    leap = month == 2 and year % 4 == 0 and (year % 100 != 0 or year % 400 == 0)
    return MONTHS[month - 1] + leap


def read_fahrenheit(text: str) -> float:
    """A temperature as typed, ``68 F`` or ``20 C``; without its letter it is no temperature.

    Parameters
    ----------
    text : str

    Returns
    -------
    float
        [deg F]

    Raises
    ------
    BoundError
    """
    found = _DEGREES.fullmatch(text.strip())
    if found is None:
        raise _refuse(Sentence("a temperature with its letter, 68 F or 20 C"), text, Sentence("write it so"))
    value = float(found[1].replace(",", "."))
    return value if found[2] in "Ff" else value * 9 / 5 + 32


def fahrenheit_to_celsius(fahrenheit: float) -> float:
    """[deg F] to [deg C]."""
    return (fahrenheit - 32) * 5 / 9


@dataclass(frozen=True)
class Shown:
    """What the meter showed at one point.

    Attributes
    ----------
    state : State
    values : tuple of float
        One for each pair of pin holes; empty unless ``number``. [percent]
    text : str
    """

    state: State
    values: tuple[float, ...] = ()
    text: str = ""

    @property
    def worst(self) -> float:
        """The largest, which counts: not the mean. [percent]

        Raises
        ------
        ValueError
            If no number was shown.
        """
        return max(self.values)


_SAYS = re.compile(r"[^\W\d_]{3,}")
_WORDS: dict[str, State] = {"": "not measured", "x": "cannot reach", "over": "over", "under": "under"}


@lru_cache(maxsize=8192)
def read_shown(text: str) -> Shown:
    """What the meter shows, as typed: ``18.5``; ``18.5 20 19`` for several holes; ``over``, ``under``, ``x``.

    Parameters
    ----------
    text : str

    Returns
    -------
    Shown

    Raises
    ------
    BoundError
    """
    words = text.strip().lower()
    if words in _WORDS:
        return Shown(_WORDS[words], text=text)
    parts = re.split(r"[ /;]+", words)
    if len(parts) > _MOST or not all(_NUMBER.fullmatch(part) for part in parts):
        raise _refuse(
            Sentence("percent as the meter shows it, like 18.5, or over, under, x (cannot reach)"),
            text,
            Sentence("write the number, up to six with a space between"),
        )
    return Shown("number", tuple(float(part.replace(",", ".")) for part in parts), text)


def _refuse(expected: str, typed: str, do: str) -> BoundError:
    return BoundError(expected, typed or "nothing", do)


def _day_or_nothing(text: str) -> str:
    if text:
        read_moment(text)
    return text


def _day(text: str) -> str:
    read_moment(text)
    return text


def _temperature(text: str) -> str:
    if text:
        read_fahrenheit(text)
    return text


def _shown(text: str) -> str:
    read_shown(text)
    return text


Day = Annotated[
    str,
    AfterValidator(_day),
    Field(description="a day, better with its hour", examples=["2026-03-04", "2026-03-04 16:30"]),
]
Begun = Annotated[
    str,
    AfterValidator(_day),
    Field(
        description="when it was begun: a day, better with its hour",
        examples=["2026-03-04", "2026-03-04 16:30"],
    ),
]
DayOrNothing = Annotated[
    str, AfterValidator(_day_or_nothing), Field(examples=["2026-03-04", "2026-03-04 16:30"])
]
Temperature = Annotated[str, AfterValidator(_temperature), Field(examples=["68 F", "20 C"])]
MeterShows = Annotated[
    str,
    AfterValidator(_shown),
    Field(
        description="as the meter shows it; several holes with a space; over, under, x, blank",
        examples=["18.5", "22 24 21.5", "over"],
    ),
]


def readable(text: str) -> bool:
    """Whether what a person wrote says anything: a word of three letters or more stands in it (ours)."""
    return _SAYS.search(text) is not None


def is_name(text: str) -> bool:
    """Whether a person can be found by what is written as the name: initials at least, two letters (ours)."""
    return sum(map(str.isalpha, text)) >= 2


def by_a_person(by: str, reason: str) -> bool:
    """Whether it is said who lifts a stop, and why (convention 6.2), in words that can be read."""
    return is_name(by) and readable(reason)
