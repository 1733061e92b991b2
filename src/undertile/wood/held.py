"""Verdicts that a newest reading holds back: one that is kept and not used says neither dry nor when."""

from __future__ import annotations

from dataclasses import replace

from undertile.sentence import Sentence
from undertile.wood.clock import Clock
from undertile.wood.forecast import Forecast
from undertile.wood.history import Sample, Series
from undertile.wood.notyet import CORRECT
from undertile.wood.say import moisture
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
