"""When a point is down to its goal, or why no date is given, from its readings and the room's air."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Literal

from undertile.wood.correct import LEAST
from undertile.wood.days import FAR
from undertile.wood.dryfit import (
    ABOVE_AIR,
    ABOVE_AIR_SPREAD,
    NEVER,
    REPEAT,
    Dried,
    DryFit,
    expected_tau,
    fit,
    whole_days,
)
from undertile.wood.goal import Goal
from undertile.wood.history import Round, Sample, Series, alike
from undertile.wood.species import SATURATION
from undertile.wood.typed import day_text, read_moment

FEWEST = 3
"""Readings for a date (trade practice: no forecast from fewer)."""
SHORTEST = 1.8
"""Days they span at least (ours). [d]"""
NOT_FALLING = 0.7
"""Chance of falling under which it is called not falling."""
NEWEST = 12
"""Readings a fit stands on; older ones tell little of what is left."""
LATELY = 3
"""Visits whose air stands for the air to come."""

No = Literal[
    "",
    "there",
    "too few readings",
    "no air",
    "damp air",
    "damp lately",
    "plateau",
    "not falling",
    "goal under dry",
    "too early",
    "no goal",
]


@dataclass(frozen=True)
class Forecast:
    """A close date as a range, or why there is none.

    Attributes
    ----------
    no : No
        Why there is no date; "" where there is one; ``there`` where the last reading is at its goal;
        ``goal under dry`` where dry wood reads more than the goal; ``damp air`` where the room as last read
        does not let it get there, ``damp lately`` where the mean of the last visits does not.
    fit : DryFit or None
    days : tuple of int, or None
        From the last reading until the goal, eight times in ten. [d]
    soonest, latest : str
        The days on which it may be closed: a day after it is at its goal, for the second reading (the day
        after the last reading where it is there).
    used : int
        Readings the fit stands on.
    air : float or None
        Equilibrium of the air to come, the mean of the last visits; where ``damp air``, of the air as it was
        last read. [percent]
    """

    no: No
    fit: DryFit | None = None
    days: tuple[int, int] | None = None
    soonest: str = ""
    latest: str = ""
    used: int = 0
    air: float | None = None

    def by(self, day: int) -> float:
        """Chance that it may be closed on a day of the calendar, or before.

        Parameters
        ----------
        day : int
            As ``Moment.days``, whole. Further off than the fit looks, the chance of its last day. [d]

        Returns
        -------
        float
            0 where there is no date.
        """
        if not self.latest:
            return 0.0
        last = whole_day(self.latest)
        if self.fit is None or self.days is None:
            return float(day >= last)
        gone = day - (last - self.days[1])
        return 0.0 if gone < 0 else self.fit.by_day[min(gone, len(self.fit.by_day) - 1)]


def whole_day(text: str) -> int:
    """A day of the calendar as ``Moment.days`` counts it. [d]"""
    return int(read_moment(text).days // 1)


def air_by_round(rounds: Sequence[Round]) -> dict[str, float]:
    """Equilibrium at each round; where the air was not read, that of the round nearest in time.

    Parameters
    ----------
    rounds : sequence of Round

    Returns
    -------
    dict of str to float
        Empty where the air was never read. [percent]
    """
    known = [(each.moment.days, each.equilibrium) for each in rounds if each.equilibrium is not None]
    if not known:
        return {}
    return {
        each.name: min(known, key=lambda one: abs(one[0] - each.moment.days))[1]
        if each.equilibrium is None
        else each.equilibrium
        for each in rounds
    }


def usable(sample: Sample) -> bool:
    """Whether a fit may use a reading: a number under fibre saturation, on a dry face."""
    value = sample.value
    return (
        sample.number
        and value is not None
        and LEAST <= value <= SATURATION
        and sample.surface != "wet"
        and sample.corrected is not None
        and not sample.corrected.doubted
        and sample.corrected.because not in ("wet surface", "above saturation", "below range", "past range")
    )


def air_ahead(rounds: Sequence[Round], air: dict[str, float]) -> float:
    """Equilibrium of the air to come: that of the last visits. [percent]"""
    lately = [air[each.name] for each in rounds[-LATELY:]]
    return sum(lately) / len(lately)


@dataclass(frozen=True)
class Asked:
    """What a fit of one point stands on: its readings, and what is expected of it before any.

    Attributes
    ----------
    readings : tuple of Dried
        Oldest first.
    expected : float
        Time constant. [d]
    above : tuple of float
        How far above the air's equilibrium it comes to rest, and its standard deviation. [percent]
    """

    readings: tuple[Dried, ...]
    expected: float
    above: tuple[float, float]


def asked(series: Series, goal: Goal, rounds: Sequence[Round], air: dict[str, float]) -> Asked | int:
    """What the fit of a point stands on; where that is too few, how many readings there are.

    Parameters
    ----------
    series : Series
    goal : Goal
    rounds : sequence of Round
    air : dict of str to float
        By round, not empty. [percent]

    Returns
    -------
    Asked or int
    """
    samples = _of_one_drying([each for each in series.samples if usable(each)][-NEWEST:], series.last)
    if len(samples) < FEWEST or samples[-1].day - samples[0].day < SHORTEST:
        return len(samples)
    readings = []
    for at, each in enumerate(samples):
        here = air[each.round.name]
        until = air[samples[at + 1].round.name] if at + 1 < len(samples) else here
        assert each.value is not None  # usable
        readings.append(Dried(each.day, each.value, (here + until) / 2, REPEAT))
    above = (ABOVE_AIR, ABOVE_AIR_SPREAD)
    last = samples[-1].corrected
    if last is not None and last.scale == "relative" and goal.reference is not None:
        # the stuff's own dry reading is where it comes to rest on this meter
        above = (goal.reference.value - air_ahead(rounds, air), ABOVE_AIR_SPREAD)
    thickness = None if series.facts.thickness is None else float(series.facts.thickness.inches)
    return Asked(tuple(readings), expected_tau(thickness, series.facts.open_faces), above)


def _of_one_drying(samples: Sequence[Sample], last: Sample | None) -> list[Sample]:
    """Those that can be held against the last, since the last long time in which nothing was read."""
    like = [each for each in samples if last is None or alike(each, last)]
    starts = [at + 1 for at, (one, two) in enumerate(pairwise(like)) if two.day - one.day > FAR]
    return like[starts[-1] :] if starts else like


def forecast(series: Series, goal: Goal, rounds: Sequence[Round], air: dict[str, float]) -> Forecast:
    """The close date of one point.

    Parameters
    ----------
    series : Series
    goal : Goal
    rounds : sequence of Round
        All of them: the air of the last ones stands for the air to come.
    air : dict of str to float
        By round. [percent]

    Returns
    -------
    Forecast
    """
    last = series.last
    if goal.value is None:
        return Forecast("no goal")
    if last is not None and last.value is not None and last.value <= goal.value:
        tomorrow = day_text(last.day + 1)
        return Forecast("there", soonest=tomorrow, latest=tomorrow)
    if goal.under_dry:
        return Forecast("goal under dry")
    if not air:
        return Forecast("no air")
    ahead = air_ahead(rounds, air)
    newest = next((each for each in reversed(rounds) if each.equilibrium is not None), None)
    # a relative number too: stuff that reads 14 on its own scale does not dry to it in air that holds 19
    if newest is not None and newest.equilibrium is not None and newest.equilibrium >= goal.value:
        return Forecast("damp air", air=newest.equilibrium)
    relative = last is not None and last.corrected is not None and last.corrected.scale == "relative"
    if not relative and ahead >= goal.value:
        return Forecast("damp lately", air=ahead)
    what = asked(series, goal, rounds, air)
    if isinstance(what, int):
        return Forecast("too few readings", used=what, air=ahead)
    readings = what.readings
    found = fit(readings, goal.value, expected=what.expected, air_ahead=ahead, above=what.above)
    days = whole_days(found)
    if days is not None and found.falling >= NOT_FALLING:
        day = readings[-1].day
        soonest, latest = day_text(day + days[0] + 1), day_text(day + days[1] + 1)
        return Forecast("", found, days, soonest, latest, len(readings), ahead)
    no: No = "too early"
    if found.falling < NOT_FALLING or readings[-1].moisture > readings[0].moisture:
        no = "not falling"
    elif found.never > NEVER and found.plateau + found.plateau_sigma > goal.value:
        no = "plateau"
    return Forecast(no, found, used=len(readings), air=ahead)
