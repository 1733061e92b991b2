"""Whether a place at its goal may be called dry (convention 5.4): twice, a day apart, not rising, sound.

What nobody said is not taken as the favourable case: which meter, its scale, wood that may have been cold. A
number read on a wet face is only good for comparing, and closes nothing.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from math import sqrt
from typing import Literal

from undertile.sentence import Sentence
from undertile.wood.dryfit import REPEAT
from undertile.wood.fed import FedOdds
from undertile.wood.goal import Goal
from undertile.wood.history import Sample, Series, alike
from undertile.wood.rise import LONG, tells
from undertile.wood.say import in_hundred, moisture, points, up
from undertile.wood.suspects import POSSIBLY

APART = 1.0
"""The two readings that close a point. [d]"""
SAME = 0.5
"""A rise by no more than this is no rise: the same holes read again. [percent]"""
FEWEST = 3
"""Readings that show a trend (trade practice: none from fewer)."""
AGAIN = Sentence("Read it again a day later or more, in the same holes.")
WETS = Sentence("Find what wets it; read it again a day later.")


@dataclass(frozen=True)
class Told:
    """What is told of a place at its goal.

    Attributes
    ----------
    call : {"close", "not shown", "no date"}
    why, next_step, source : str
    """

    call: Literal["close", "not shown", "no date"]
    why: str
    next_step: str
    source: str


def dry_here(series: Series, last: Sample, goal: Goal, fed: FedOdds | None) -> Told:
    """At or under its goal: closed on two visits a day apart, not rising, sound under the awl.

    Parameters
    ----------
    series : Series
    last : Sample
        Its newest with a value, at or under the goal.
    goal : Goal
        With a value.
    fed : FedOdds or None

    Returns
    -------
    Told
    """
    assert last.value is not None
    assert goal.value is not None
    asked = _unsaid(series, last, goal.value)
    if asked is not None:
        return asked
    if fed is not None and fed.odds > POSSIBLY and not at_reference(last, goal):
        why = Sentence(
            "reads {value}; it falls behind its neighbors: possibly fed, {odds}",
            value=last.reads,
            odds=in_hundred(fed.odds),
        )
        step = Sentence("Look for water at it before trusting any date; read it again tomorrow.")
        return Told("no date", why, step, "fed-odds")
    earlier = a_day_before(series, last)
    if earlier is None:
        why = Sentence("reads {value}, at its goal on one visit", value=last.reads)
        return Told("not shown", why, AGAIN, "convention-5")
    over = _over(series, earlier, last, goal.value)
    if over is not None and over is not earlier:
        why = Sentence(
            "reads {value}; {before} on visit {visit}, less than a day before",
            value=last.reads,
            before=over.reads,
            visit=over.round.name,
        )
        return Told("not shown", why, AGAIN, "convention-5")
    if over is not None:
        why = Sentence("reads {value}; {before} a day or more before", value=last.reads, before=over.reads)
        return Told("not shown", why, AGAIN, "convention-5")
    asked = _unsaid(series, earlier, goal.value) or _rises(series, earlier, last, goal.value)
    if asked is not None:
        return asked
    if not any(sample.awl is not None for sample in series.samples):
        why = Sentence(
            "dry on two visits ({before}, {value}); no awl pushed in",
            before=earlier.reads,
            value=last.reads,
        )
        return Told("not shown", why, Sentence("Push an awl in with the thumb."), "practice-awl")
    why = Sentence("{before} and {value}, a day or more apart, sound", before=earlier.reads, value=last.reads)
    return Told("close", why, "", "convention-5")


def at_reference(last: Sample, goal: Goal) -> bool:
    """Whether a place reads no more than dry wood does in this house: no sign that it is fed."""
    return last.value is not None and goal.reference is not None and last.value <= goal.reference.value


def a_day_before(series: Series, last: Sample) -> Sample | None:
    """The newest reading a day or more before: with ``last`` it closes a point (convention 5.4).

    Of the same meter, or both a moisture content; on a dry face.
    """
    return next(
        (
            each
            for each in reversed(series.samples)
            if each.value is not None
            and not _on_wet_face(each)
            and alike(each, last)
            and _day_apart(each, last)
        ),
        None,
    )


def _day_apart(sample: Sample, last: Sample) -> bool:
    """Surely 24 hours: where an hour is missing, two days of the calendar."""
    apart = last.day - sample.day
    hours = sample.round.moment.hour and last.round.moment.hour
    return apart >= APART - 1e-9 if hours else apart >= 2 * APART - 1e-9 or _next_but_one(sample, last)


def _next_but_one(sample: Sample, last: Sample) -> bool:
    return int(last.day // 1) - int(sample.day // 1) >= 2


def _on_wet_face(sample: Sample) -> bool:
    return sample.surface == "wet" and not sample.weighed


def _over(series: Series, earlier: Sample, last: Sample, goal: float) -> Sample | None:
    """The newest over the goal from the earlier of two readings to the last."""
    between = [each for each in series.samples if earlier.day <= each.day <= last.day]
    return next(
        (each for each in reversed(between) if each.value is not None and up(each.value) > goal), None
    )


def _unsaid(series: Series, sample: Sample, goal: float) -> Told | None:
    """What is to be said or read of one of the two readings before it may close; None where nothing is."""
    visit = sample.round.name
    if sample.weighed:
        return None
    if _on_wet_face(sample):
        why = Sentence(
            "reads {value} on a wet face (visit {visit}): only good for comparing",
            value=sample.reads,
            visit=visit,
        )
        return Told("not shown", why, Sentence("Let its face dry, then read it again."), "meter-limits")
    if not sample.round.instrument:
        return no_meter(sample)
    if sample.round.meter.kind == "unknown":
        why = Sentence(
            "reads {value}; not known whether meter {meter} has pins or a pad",
            value=sample.reads,
            meter=sample.round.instrument,
        )
        return Told("not shown", why, Sentence("Say whether the meter has pins or a pad."), "meter-limits")
    of_species = series.facts.material == "lumber" and sample.round.meter.kind == "pin"
    if of_species and sample.round.meter.set_to == "unknown":
        why = Sentence(
            "reads {value}; not known which species meter {meter} is set to",
            value=sample.reads,
            meter=sample.round.instrument,
        )
        return Told("not shown", why, Sentence("Say which species the meter is set to."), "meter-limits")
    cold = None if sample.corrected is None else sample.corrected.coldest
    if cold is not None and up(cold) > goal:
        why = Sentence(
            "reads {value}, and up to {cold} if the wood was cold: its temperature was not read "
            "(visit {visit})",
            value=sample.reads,
            cold=moisture(cold),
            visit=visit,
        )
        step = Sentence("Read the wood's temperature on each visit, or the air's.")
        return Told("not shown", why, step, "pin-temperature")
    return None


def no_meter(sample: Sample) -> Told:
    """That nobody said which meter a reading is of."""
    why = Sentence(
        "reads {value}; not known which meter it was read with (visit {visit})",
        value=sample.reads,
        visit=sample.round.name,
    )
    return Told("not shown", why, Sentence("Say which meter was used on that visit."), "meter-limits")


def _rises(series: Series, earlier: Sample, last: Sample, goal: float) -> Told | None:
    """That it rises, by the two readings or by all since it was last over its goal; else None."""
    assert earlier.value is not None
    assert last.value is not None
    rise = last.value - earlier.value
    if rise > SAME and not tells(earlier, last):
        why = Sentence(
            "reads {value}, {rise} since visit {visit} {days} days before: within the meter's own error "
            "and the room's air",
            value=last.reads,
            rise=rise_text(rise, earlier),
            visit=earlier.round.name,
            days=f"{last.day // 1 - earlier.day // 1:.0f}",
        )
        return Told("not shown", why, AGAIN, "meter-error")
    if rise > SAME:
        why = Sentence(
            "reads {value}, {rise} since visit {visit}",
            value=last.reads,
            rise=rise_text(rise, earlier),
            visit=earlier.round.name,
        )
        return Told("no date", why, WETS, "convention-5")
    since = _since(series, last, goal)
    crept = creeps(since)
    if crept is None:
        return None
    why = Sentence(
        "reads {value}, rising over {number} visits since visit {visit} ({rise})",
        value=last.reads,
        number=crept.number,
        visit=since[-crept.number].round.name,
        rise=points(crept.by),
    )
    return Told("no date", why, WETS, "convention-5")


def _since(series: Series, last: Sample, goal: float) -> list[Sample]:
    """Readings like the last one since it was last over its goal, within the days in which a rise tells."""
    out: list[Sample] = []
    for each in reversed(series.samples):
        if each.value is None or each.day > last.day:
            continue
        if up(each.value) > goal or last.day - each.day >= LONG:
            break
        if alike(each, last) and not _on_wet_face(each):
            out.insert(0, each)
    return out


@dataclass(frozen=True)
class Crept:
    """A rise over several readings.

    Attributes
    ----------
    by : float
        [percent]
    number : int
        Readings it shows in, the newest ones.
    """

    by: float
    number: int


def creeps(samples: Sequence[Sample]) -> Crept | None:
    """Whether readings rise: the last three one after the other, or all of them by their straight line.

    The line's rise counts where it is more than ``SAME`` and more than its own standard deviation, each
    reading good to ``REPEAT``.

    Parameters
    ----------
    samples : sequence of Sample
        Each with a value, oldest first.

    Returns
    -------
    Crept or None
        None with fewer than three, or where they do not.
    """
    values = [each.value or 0.0 for each in samples]
    if len(values) < FEWEST:
        return None
    first, then, now = values[-FEWEST:]
    if first < then < now and now - first > SAME + 1e-9:
        return Crept(now - first, FEWEST)
    days = [each.day for each in samples]
    middle = sum(days) / len(days)
    spread = sum((day - middle) ** 2 for day in days)
    if spread <= 0:
        return None
    slope = sum((day - middle) * value for day, value in zip(days, values, strict=True)) / spread
    span = days[-1] - days[0]
    if slope * span > max(SAME, REPEAT * span / sqrt(spread)):
        return Crept(slope * span, len(values))
    return None


def rise_text(rise: float, earlier: Sample) -> str:
    """A rise as it prints; from under the range it is that much or more."""
    return Sentence("at least {by}", by=points(rise)) if earlier.past else points(rise)
