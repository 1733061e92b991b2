"""Verdicts that a newest reading holds back: one that is kept and not used says neither dry nor when."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Sequence
from dataclasses import replace

from undertile.sentence import Sentence
from undertile.wood.clock import Clock
from undertile.wood.forecast import Forecast, whole_day
from undertile.wood.history import Sample, Series
from undertile.wood.holes import TYPE_UNDER
from undertile.wood.notyet import CORRECT
from undertile.wood.say import listed, moisture
from undertile.wood.slip import SOURCE as SLIP
from undertile.wood.slip import Slip
from undertile.wood.verdict import PointVerdict, runs


def held_back(verdict: PointVerdict, series: Series) -> PointVerdict:
    """The same verdict; *not shown* where it would be dry or a date by older readings than the newest, and
    doubted where the newest may have its decimal point in the wrong place.

    Parameters
    ----------
    verdict : PointVerdict
    series : Series
        Of the same point.

    Returns
    -------
    PointVerdict
    """
    last, newest = series.last, series.unused
    if last is not None and last.slip is not None and newest is None:
        return _only_wet(verdict, series, last, last.slip)
    if newest is None or newest.corrected is None or verdict.call not in ("close", "not shown", "dry on"):
        return verdict
    shown, visit = f"{newest.corrected.shown:g}", newest.round.name
    why = Sentence(
        "shows {shown} on visit {visit}, with the wood too hot or too cold to correct it",
        shown=shown,
        visit=visit,
    )
    step = Sentence("Type the wood's temperature again, or leave it out if it was not measured.")
    if newest.slip is not None:
        meant = moisture(newest.slip.meant)
        why = Sentence(
            "shows {shown} on visit {visit}: {meant} with its decimal point moved? It is not used",
            shown=shown,
            visit=visit,
            meant=meant,
        )
        step = REREAD
    elif newest.corrected.because == "nothing":
        why = Sentence("shows {shown} on visit {visit}: no room makes wood so dry", shown=shown, visit=visit)
        step = TYPE_UNDER
    return replace(
        verdict, call="not shown", why=why, next_step=step, source=newest.corrected.source, near=False
    )


REREAD = Sentence("Read it again in the same holes, or correct what was typed.")


def _only_wet(verdict: PointVerdict, series: Series, last: Sample, found: Slip) -> PointVerdict:
    """By a value that may be ten times what was meant: wet as it stands, and no lead to a leak."""
    if verdict.call not in ("close", "not shown", "no date", "dry on", "open further"):
        return verdict
    why = Sentence(
        "shows {shown} on visit {visit}: {meant} with its decimal point moved? It counts as only wet",
        shown=f"{last.shown.worst:g}",
        visit=last.round.name,
        meant=moisture(found.meant),
    )
    return replace(
        verdict,
        call="no date",
        why=why,
        next_step=REREAD,
        source=SLIP,
        near=False,
        running=runs(replace(series, samples=series.samples[:-1])),  # what was a lead before stays one
        fed=None,
        forecast=Forecast("too few readings"),
    )


def held_by_order(verdict: PointVerdict, series: Series, odd: Sequence[str]) -> PointVerdict:
    """The same verdict; no date, not dry and no lead, by visits whose order is in doubt.

    Parameters
    ----------
    verdict : PointVerdict
    series : Series
        Of the same point.
    odd : sequence of str
        Visits out of order (``days.misdated``). All of them are named at every place: what is said of one
        place is said of the others.

    Returns
    -------
    PointVerdict
        What is wet or ruined stays so, whatever its day; what one reading alone tells does too.
    """
    its = [each for each in series.samples if each.value is not None]
    if not any(each.round.name in odd for each in its):
        return verdict
    trend = verdict.call == "no date" and len(its) > 1
    if not (trend or verdict.call in ("dry on", "close", "not shown")):
        return verdict
    goal, value = verdict.goal.value, verdict.value
    dry = goal is not None and value is not None and value <= goal
    return replace(
        verdict,
        call="no date" if verdict.call == "dry on" or (trend and not dry) else "not shown",
        why=Sentence("the days of visits {visits} are out of order", visits=listed(list(odd)))
        if len(odd) > 1
        else Sentence("the day of visit {visit} is out of order", visit=odd[0]),
        next_step=IN_ORDER,
        source=DAY,
        near=False,
        running=False,
        fed=None,
        forecast=Forecast("too few readings"),
    )


def in_sure_order(every: Iterable[Series], odd: Collection[str]) -> list[Series]:
    """Every point along the visits whose order is not in doubt: what a trend may be worked out over."""
    if not odd:
        return list(every)
    return [
        replace(each, samples=tuple(one for one in each.samples if one.round.name not in odd))
        for each in every
    ]


def aged(verdict: PointVerdict, clock: Clock, within: float) -> PointVerdict:
    """The same verdict, with how long ago it was read where that is too long to cover by.

    Parameters
    ----------
    verdict : PointVerdict
    clock : Clock
        Where it knows no day nothing is old.
    within : float
        Days a reading is good for. [d]
    """
    # the newest entry only where nothing else is known of today: a device that ran ahead shuts nothing
    today = clock.today or clock.entered
    if not today or verdict.read_on is None:
        return verdict
    days = whole_day(today) - int(verdict.read_on // 1)
    return replace(verdict, old=days) if days > within else verdict


IN_ORDER = Sentence("Correct the day that is wrong; nothing is lost.")
DAY = "convention-7"
"""Source of a verdict that waits for a day to be corrected."""


def held_by_day(verdict: PointVerdict, series: Series, clock: Clock) -> PointVerdict:
    """The same verdict; *not shown* where it would be dry or a date by a visit that has not come yet.

    Parameters
    ----------
    verdict : PointVerdict
    series : Series
        Of the same point.
    clock : Clock

    Returns
    -------
    PointVerdict
        What is wet or ruined stays so, whatever its day.
    """
    ahead = next((each for each in series.samples if clock.ahead(each.round.facts.when)), None)
    if ahead is None or verdict.call not in ("close", "not shown", "dry on"):
        return verdict
    day, visit = ahead.round.facts.when, ahead.round.name
    return replace(
        verdict,
        call="not shown",
        why=Sentence("read on visit {visit}, whose day {day} has not come yet", visit=visit, day=day),
        next_step=CORRECT,
        source=DAY,
        near=False,
        forecast=Forecast("too few readings"),
    )
