"""Verdicts that a newest reading holds back: one that is kept and not used says neither dry nor when."""

from __future__ import annotations

from dataclasses import replace

from undertile.sentence import Sentence
from undertile.wood.clock import Clock
from undertile.wood.forecast import Forecast
from undertile.wood.history import Series
from undertile.wood.notyet import CORRECT
from undertile.wood.verdict import PointVerdict


def held_back(verdict: PointVerdict, series: Series) -> PointVerdict:
    """The same verdict; *not shown* where it would be dry or a date by older readings than the newest.

    Parameters
    ----------
    verdict : PointVerdict
    series : Series
        Of the same point.

    Returns
    -------
    PointVerdict
    """
    newest = series.unused
    if newest is None or newest.corrected is None or verdict.call not in ("close", "not shown", "dry on"):
        return verdict
    return replace(
        verdict,
        call="not shown",
        why=Sentence(
            "shows {shown} on visit {visit}, with the wood too hot or too cold to correct it",
            shown=f"{newest.corrected.shown:g}",
            visit=newest.round.name,
        ),
        next_step=Sentence("Type the wood's temperature again, or leave it out if it was not measured."),
        source="pin-temperature-range",
        near=False,
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
