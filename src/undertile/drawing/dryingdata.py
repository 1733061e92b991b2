"""What the drying charts show of a water answer: marks, course, goal and days of each point, and when.

Nothing is reckoned here: the numbers are those of ``wood``, put where a chart asks for them.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property
from math import ceil, floor
from typing import Literal

from undertile.drawing.labels import Words
from undertile.sentence import Sentence
from undertile.wood.closing import place_past
from undertile.wood.correct import LEAST
from undertile.wood.course import Course, course
from undertile.wood.facts import Point
from undertile.wood.forecast import Asked, air_ahead, air_by_round, asked, usable
from undertile.wood.held import DAY
from undertile.wood.history import Round, Sample, Series, telling
from undertile.wood.rank import by_gate
from undertile.wood.result import WoodResult
from undertile.wood.say import hundredths, moisture
from undertile.wood.slip import SOURCE as SLIP
from undertile.wood.typed import day_text, read_moment
from undertile.wood.verdict import PointVerdict

Kind = Literal["read", "set aside", "over", "under", "cannot reach"]
LOWEST, HIGHEST = 5, 30
"""The percent scale is at least so long, so that charts of different jobs look alike. [percent]"""
STEP = 5
"""[percent]"""
MOST_AHEAD = 75.0
"""No chart reaches further past the last visit. [d]"""
LEAST_AHEAD = 3.0
"""[d]"""


@dataclass(frozen=True, slots=True)
class Mark:
    """What was read on one visit.

    Attributes
    ----------
    day : float
        [d]
    kind : Kind
        ``set aside``: a number was shown, and no date may be worked from it.
    value : float or None
        Corrected, or where the meter's range ends. [percent]
    spread : float or None
        Give or take; None where there is none to say. [percent]
    why : str
        Why it is set aside: a key of the words; "" where it is not.
    visit : int
        Which of the job's visits it was, from 0.
    """

    day: float
    kind: Kind
    value: float | None
    spread: float | None = None
    why: str = ""
    visit: int = 0


@dataclass(frozen=True)
class Chart:
    """One point.

    Attributes
    ----------
    name : str
    place : str
        In the sheet's words.
    when, says : str
        The answer, as short as it can be said, and in a sentence.
    verdict : PointVerdict
    series : Series
    visits : mapping of str to int
        Which of the job's visits each is, from 0.
    fitted : (Asked, float) or None
        What its fit stands on, and the equilibrium of the air to come; None where nothing is fitted.
    days_ahead : float
        How far its course goes on from the last reading. [d]
    goal, never : float or None
        [percent]
    closes : tuple of float, or None
        First and last day on which it may be closed, the whole days. [d]
    air : tuple of (float, float)
        Day and what wood comes to in the air of that visit. [d], [percent]
    out : float or None
        The day it was cut out. [d]
    """

    name: str
    place: str
    when: str
    says: str
    verdict: PointVerdict
    series: Series
    visits: Mapping[str, int]
    fitted: tuple[Asked, float] | None
    days_ahead: float
    goal: float | None
    never: float
    closes: tuple[float, float] | None
    air: tuple[tuple[float, float], ...]
    out: float | None

    @cached_property
    def marks(self) -> tuple[Mark, ...]:
        """What was read, oldest first."""
        return tuple(_marks(self.series, self.visits))

    @cached_property
    def course(self) -> Course | None:
        """Through the readings and ahead, worked out when it is drawn."""
        return None if self.fitted is None else course(*self.fitted, self.days_ahead)

    @property
    def ends(self) -> float | None:
        """The last day its course reaches. [d]"""
        return None if self.fitted is None else self.fitted[0].readings[-1].day + self.days_ahead

    @property
    def last(self) -> Mark | None:
        """The newest mark that has a value."""
        return next((mark for mark in reversed(self.marks) if mark.value is not None), None)


@dataclass(frozen=True)
class Axes:
    """Days and percent from where to where."""

    first: float
    last: float
    low: float
    high: float


def charts_of(found: WoodResult, words: Words, only: str = "", today: str = "") -> list[Chart]:
    """A chart for each point that is no dry reference, by what keeps the gate shut.

    Parameters
    ----------
    found : WoodResult
    words : Words
    only : str
        One point's name; "" = all.
    today : str
        ``2026-03-04``: days that have gone by unread are told so; "" = there is no clock.

    Returns
    -------
    list of Chart
    """
    by_name = {each.name: each for each in found.series}
    rounds = telling(found.rounds, found.series)
    air = air_by_round(rounds)
    ahead = air_ahead(rounds, air) if air else 0.0
    held = tuple((each.moment.days, air[each.name]) for each in found.rounds if each.equilibrium is not None)
    visits = {each.name: number for number, each in enumerate(found.rounds)}
    out = []
    for verdict in by_gate(found.points):
        if only in ("", verdict.name):
            series = by_name[verdict.name]
            fitted, days = _ahead(series, verdict, rounds, air, ahead) if air else (None, 0.0)
            out.append(_chart(series, verdict, fitted, days, held, visits, words, today))
    return out


def axes_of(charts: Iterable[Chart]) -> Axes:
    """Axes that hold all of the charts."""
    charts = list(charts)
    days: list[float] = []
    values: list[float] = []
    for chart in charts:
        # straight from the samples: marks are made only of what is drawn
        days += [sample.day for sample in chart.series.samples]
        for sample in chart.series.samples:
            value, corrected = sample.value, sample.corrected
            # one asked about would press all others to the foot; it is marked at the edge
            if value is not None and sample.slip is None:
                spread = 0.0 if corrected is None else corrected.give_or_take
                values += (value - spread, value + spread)
    days += [chart.out for chart in charts if chart.out is not None]
    first, last = min(days, default=0.0), max(days, default=1.0)
    closing = [chart.closes[1] for chart in charts if chart.closes is not None]
    closing += [chart.ends for chart in charts if chart.ends is not None]
    end = min(max([*closing, last + LEAST_AHEAD]), last + MOST_AHEAD)
    values += [each for chart in charts for _, each in chart.air]
    low = min([LOWEST, *(floor(each / STEP) * STEP for each in values)])
    high = max([HIGHEST, *(ceil(each / STEP) * STEP for each in values)])
    return Axes(floor(first), ceil(end), max(low, 0), high)


def place(name: str, point: Point, words: Words, *, layered: bool = False) -> str:
    """Where a point is, as ``wood.places.place_of`` says it, in the words of a sheet."""
    where = _place(name, point, words, layered=layered)
    return where if where == name or not point.new else words("new at", place=where)


def _place(name: str, point: Point, words: Words, *, layered: bool) -> str:
    if point.member == "plate" and point.wall and point.along is not None:
        return words("plate at", wall=point.wall, at=point.along.text)
    if point.member == "stud" and point.name:
        return point.name if point.height is None else words("stud at", name=point.name, at=point.height.text)
    if point.member == "joist" and point.name:
        if point.along is None:
            return words("joists are at", name=point.name)
        return words("joist spot", name=point.name, at=point.along.text)
    if point.member == "subfloor" and point.x is not None and point.y is not None:
        if point.layer == 1 and not layered:
            return words("subfloor at", x=point.x.text, y=point.y.text)
        return words("subfloor layer at", layer=point.layer, x=point.x.text, y=point.y.text)
    return name


def axis_day(days: float, *, year: bool) -> str:
    """A day under an axis: as everywhere, ``2026-03-12``; ``03-12`` where every day of it is of one year."""
    text = day_text(days)
    return text if year else text[5:]


def range_words(closes: tuple[float, float], words: Words) -> str:
    """``2026-03-12 to 2026-04-06``; one day alone where both are the same."""
    one, two = day_text(closes[0]), day_text(closes[1] - 0.5)
    return one if one == two else words("from to", one=one, two=two)


def late_words(late: str, words: Words) -> str:
    """That days have gone by unread (``wood.closing.past_it``), in the words of a sheet; "" stays so."""
    return words("days past", **late.slots) if isinstance(late, Sentence) else late


def _ahead(
    series: Series, verdict: PointVerdict, rounds: Sequence[Round], air: dict[str, float], ahead: float
) -> tuple[tuple[Asked, float] | None, float]:
    """What is fitted, and how far ahead it is drawn: only where the verdict says something of those days."""
    if verdict.call in ("gone", "cut out", "goes out") or verdict.forecast.fit is None:
        return None, 0.0
    what = asked(series, verdict.goal, rounds, air)
    if isinstance(what, int):
        return None, 0.0
    days = 0.0
    if not verdict.may_be_fed and verdict.call == "dry on" and verdict.forecast.days is not None:
        days = verdict.forecast.fit.days[1]
    elif not verdict.may_be_fed and (verdict.forecast.no == "plateau" or verdict.call == "dry on"):
        days = 14.0
    return (what, ahead), min(days, MOST_AHEAD)


def _chart(
    series: Series,
    verdict: PointVerdict,
    fitted: tuple[Asked, float] | None,
    days_ahead: float,
    air: tuple[tuple[float, float], ...],
    visits: Mapping[str, int],
    words: Words,
    today: str,
) -> Chart:
    closes = None
    if verdict.call == "dry on" and verdict.forecast.soonest:
        closes = (
            floor(read_moment(verdict.forecast.soonest).days),
            floor(read_moment(verdict.forecast.latest).days) + 1,
        )
    key, slots = _answer(series, verdict, words)
    when = words(f"when {key}", **slots) if closes is None else range_words(closes, words)
    says = words(f"say {key}", **slots) if closes is None else words("say dated")
    if closes is not None and (late := late_words(place_past(verdict, today), words)):
        when, says = words("when past", days=when), f"{says} {late}"
    if verdict.may_be_fed and verdict.fed is not None and key in ("cut out", "open further", "live"):
        when = f"{when}, {words('may be fed')}"
        says = f"{says} {words('say fed', odds=str(hundredths(verdict.fed.odds)))}"
    return Chart(
        series.name,
        place(series.name, series.facts, words, layered=series.layered),
        when,
        says,
        verdict,
        series,
        visits,
        fitted,
        days_ahead,
        verdict.goal.value,
        verdict.goal.never,
        closes,
        air,
        read_moment(series.facts.out).days if series.facts.out else None,
    )


def _marks(series: Series, visits: Mapping[str, int]) -> Iterator[Mark]:
    for sample in series.samples:
        mark = _mark(sample, visits[sample.round.name])
        if mark is not None:
            yield mark


def _mark(sample: Sample, visit: int) -> Mark | None:
    day, corrected = sample.day, sample.corrected
    if sample.shown.state == "cannot reach":
        return Mark(day, "cannot reach", None, visit=visit)
    if corrected is None:
        if sample.shown.state in ("over", "under"):
            kind: Kind = "over" if sample.shown.state == "over" else "under"
            return Mark(day, kind, sample.value, visit=visit)
        return None
    if (usable(sample) and sample.slip is None) or corrected.scale == "oven":
        return Mark(day, "read", corrected.value, corrected.give_or_take, visit=visit)
    why = "no trust" if sample.slip is None else "asked about"
    if sample.slip is not None or not corrected.counts:
        return Mark(day, "set aside", corrected.value, None, why, visit)
    if sample.surface == "wet":
        why = "wet face"
    elif corrected.because == "above saturation" or corrected.value > LEAST:
        why = "over saturation"
    return Mark(day, "set aside", corrected.value, None, why, visit)


def _answer(series: Series, verdict: PointVerdict, words: Words) -> tuple[str, dict[str, str]]:
    """The key of what is to be said, and what fills it."""
    call, ahead = verdict.call, verdict.forecast
    slots: dict[str, str] = {}
    if call == "gone":
        return "gone", {"day": day_text(read_moment(series.facts.out).days)}
    if call == "goes out":
        return call, {"number": str(verdict.patch)}
    if call in ("close", "cut out", "open further"):
        return call, slots
    if call == "not shown":
        return _not_shown(series, verdict), slots
    if call == "no date":
        if verdict.source == SLIP:
            return "slip", slots
        if verdict.source == "practice-live-water":
            return ("first" if len(_values(series)) < 2 else "live"), slots
        if verdict.may_be_fed and verdict.fed is not None:
            return "fed", {"odds": str(hundredths(verdict.fed.odds))}
        if ahead.no == "there":
            return "rising", slots
    slots["air"] = moisture(ahead.air or 0)
    slots["rest"] = moisture(ahead.fit.plateau) if ahead.fit else ""
    slots["used"] = str(ahead.used)
    return ahead.no or "too early", slots


def _not_shown(series: Series, verdict: PointVerdict) -> str:
    if verdict.source == "pin-temperature-range":
        return "wood temperature"
    if verdict.source == SLIP:
        return "slip"
    if verdict.source == DAY:
        return "day ahead"
    if verdict.value is None:
        tried = any(sample.shown.state == "cannot reach" for sample in series.samples)
        return "cannot reach" if tried else "not read"
    if verdict.goal.value is None:
        return "no goal"
    return "awl" if verdict.source == "practice-awl" else "again"


def _values(series: Series) -> Sequence[Sample]:
    return [sample for sample in series.samples if sample.value is not None]
