"""When the whole may be closed: the day on which the last of its points may, as a range."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from math import prod

from undertile.sentence import Sentence
from undertile.wood.clock import Clock
from undertile.wood.dryfit import LONGEST, STATED
from undertile.wood.forecast import Forecast, whole_day
from undertile.wood.typed import day_text
from undertile.wood.verdict import PointVerdict


@dataclass(frozen=True)
class CloseDate:
    """When the whole may be closed.

    Attributes
    ----------
    soonest, latest : str
        Days; "" where no date is honest.
    why_not : tuple of str
        Points that have none, each with why.
    slowest : str
        The point that is last.
    number : int
        Points that are still to be closed, each with a date.
    too_far : bool
        Every point has a date, the last of them all has none.
    says : str
        The answer in a sentence, the same on every face.
    """

    soonest: str
    latest: str
    why_not: tuple[str, ...]
    slowest: str = ""
    number: int = 0
    too_far: bool = False
    says: str = ""


def close_date(points: Sequence[PointVerdict]) -> CloseDate:
    """The last of all points; no date while one has none.

    Parameters
    ----------
    points : sequence of PointVerdict

    Returns
    -------
    CloseDate
    """
    dated, why_not = [], []
    for each in points:
        if each.call in ("close", "gone", "cut out", "goes out"):
            continue
        if each.call in ("dry on", "not shown") and each.forecast.latest:
            dated.append(each)
        else:
            why_not.append(Sentence("{where}: {why}", where=each.where, why=each.why))
    slowest = max(dated, key=lambda each: each.forecast.latest).where if dated else ""
    number = len(dated)
    if why_not:
        said = Sentence("No date yet: one place has none.")
        if len(why_not) > 1:
            said = Sentence("No date yet: {number} places have none.", number=len(why_not))
        return CloseDate("", "", tuple(why_not), slowest, number, says=said)
    if not dated:
        return CloseDate("", "", (), says=_all_dry(points))
    soonest, latest = last_of([each.forecast for each in dated])
    if not latest:
        said = Sentence(
            "No date yet: each of the {number} places has one, but the last of them may come more than "
            "{days} days from now.",
            number=number,
            days=f"{LONGEST:g}",
        )
        return CloseDate("", "", (), slowest, number, too_far=True, says=said)
    said = Sentence(
        "Between {soonest} and {latest}, eight times in ten, if the air stays as it is.",
        soonest=soonest,
        latest=latest,
    )
    if number > 1:
        said = Sentence(
            "Between {soonest} and {latest} for all {number} places, eight times in ten, if the air stays as "
            "it is.",
            soonest=soonest,
            latest=latest,
            number=number,
        )
    return CloseDate(soonest, latest, (), slowest, number, says=said)


def _all_dry(points: Sequence[PointVerdict]) -> Sentence:
    """Where no place is waited for: dry, or dry when it was read, too long ago to cover by."""
    patched = any(each.call == "goes out" for each in points)
    asked = [each for each in points if each.call == "close"]
    old = sum(each.old > 0 for each in asked)
    if not old:
        return Sentence("Every place that stays is dry." if patched else "Every place is dry.")
    return Sentence(
        "Every place that stays was dry when it was read, {old} of {number} too long ago to cover by: read "
        "them again."
        if patched
        else "Every place was dry when it was read, {old} of {number} too long ago to cover by: read them "
        "again.",
        old=old,
        number=len(asked),
    )


def past_it(latest: str, newest: float | None, today: str) -> str:
    """What to say where the whole range has gone by since the newest reading; "" where it has not.

    Parameters
    ----------
    latest : str
        The range's last day; "" where there is no range.
    newest : float or None
        Day of the newest reading; None = nothing is read, and nothing is said. [d]
    today : str
        By the clock of who asks, ``2026-03-04``; "" = there is none, and nothing is said.

    Returns
    -------
    str
    """
    if not today or not latest or newest is None or whole_day(today) <= whole_day(latest):
        return ""
    days = whole_day(today) - int(newest // 1)
    return Sentence(
        "Those days are past: last read {days} days ago, read again before anything is closed.", days=days
    )


def place_past(each: PointVerdict, today: str) -> str:
    """The same of one place that is told to dry on until days that have gone by."""
    return past_it(each.forecast.latest, each.read_on, today) if each.call == "dry on" else ""


def now_if_dry(each: PointVerdict, clock: Clock) -> PointVerdict:
    """The same verdict; told to be read now, where the days between which it may be closed have gone by.

    Parameters
    ----------
    each : PointVerdict
    clock : Clock
        Where it knows no day nothing has gone by.
    """
    if not place_past(each, clock.today):
        return each
    step = Sentence("Read it now: it may be closed once it reads dry, and again a day later.")
    # a count of days from a reading that is older than they are would be read as days from now
    return replace(each, why=Sentence("reads {value}", value=each.reads), next_step=step)


def last_of(dates: Sequence[Forecast]) -> tuple[str, str]:
    """First and last day of the range for the last of several points, eight times in ten.

    The last day is the one by which every point is there nine times in ten if the points had nothing in
    common (the product of their chances). What they have in common, the room's air and the meter, makes the
    last one sooner: this end is on the late side (docs/methods/drying.md). The first day is the latest of
    their own first days: the last point is never there before any one of them, whatever they have in common.

    Parameters
    ----------
    dates : sequence of Forecast
        One or more, each with a date.

    Returns
    -------
    tuple of str
        ``("", "")`` where the last day is further off than ``LONGEST`` from the newest reading.
    """
    soonest = max(each.soonest for each in dates)
    first = max(whole_day(each.latest) for each in dates)
    fitted = [whole_day(each.latest) - each.days[1] for each in dates if each.days is not None]
    end = max([first, *(each + int(LONGEST) for each in fitted)])
    for day in range(first, end + 1):
        if prod(each.by(day) for each in dates) >= (1 + STATED) / 2 - 1e-9:
            return soonest, day_text(day)
    return "", ""


__all__ = ["CloseDate", "close_date", "last_of", "now_if_dry", "past_it", "place_past"]
