"""What to do at each point: close, dry on, no date and why, open further, cut out (convention 5.4)."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from undertile.lengths import Unit
from undertile.sentence import Sentence, form, joined
from undertile.wood.dryhere import SAME, dry_here, no_meter, rise_text
from undertile.wood.fed import FedOdds
from undertile.wood.forecast import FEWEST, Forecast
from undertile.wood.goal import Goal
from undertile.wood.history import Sample, Series, alike
from undertile.wood.rise import tells
from undertile.wood.say import as_typed, down, in_hundred, length, moisture, points, up
from undertile.wood.suspects import POSSIBLY

Call = Literal["close", "dry on", "no date", "open further", "cut out", "not shown", "goes out", "gone"]
"""``not shown``: dry as far as read, and something is still to be read before it may be closed (or nothing is
read). ``goes out``: wood that the planned patch takes out (``wood.planned``). ``gone``: cut out already."""

CALLS: dict[Call, Sentence] = {
    "close": Sentence("dry here"),
    "dry on": Sentence("dry on"),
    "no date": Sentence("no date"),
    "open further": Sentence("open further"),
    "cut out": Sentence("cut out"),
    "not shown": Sentence("not shown"),
    "goes out": Sentence("goes out with the patch"),
    "gone": Sentence("gone"),
}
"""What each is called. ``close`` is *dry here*: that anything may be closed the gate alone says."""
SOFT = Fraction(1, 8)
"""An awl under the thumb sinks no further into sound wood (common practice, 1/8 to 1/4). [in]"""
SWOLLEN = Fraction(1, 16)
"""A panel thicker by more than this stays so (common practice). [in]"""
LIVE = 28.0
"""Over it free water is near; not falling for two days, water is coming in (common practice). [percent]"""
TWO_DAYS = 1.8
FIRST = Sentence("no date yet, it may be fed: on a first visit only the next reading tells")


@dataclass(frozen=True)
class PointVerdict:
    """One point, judged.

    Attributes
    ----------
    name, where : str
    call : Call
    why : str
        The reason, with its figures.
    limit : str
        What it is held against.
    next_step : str
        One imperative sentence; "" where nothing is to do.
    source : str
    value : float or None
        Newest, corrected or relative, rounded up to the tenth. [percent]
    give_or_take : float or None
        [percent]
    relative : str
        Why the number is only good for comparing; "" where it was corrected.
    goal : Goal
    near : bool
        Within the meter's uncertainty of its limit (convention 5.2).
    forecast : Forecast
    fed : FedOdds or None
    bad : bool or None
        Whether it counts as wet or ruined for how far to open; None = not known.
    reads : str
        Its newest reading as every face prints it: ``18.5 %``; past the meter's range ``>30 %`` or ``<7 %``,
        where ``value`` is only the end of the range; "" where nothing is read.
    patch : int
        Number of the planned patch that takes its wood out; 0 = none.
    running : bool
        Whether water may be running to it now: rising, or wet and not falling (convention 5.4).
    read_on : float or None
        Day of its newest reading. [d]
    old : int
        Days since then, where that is too long ago to cover by it today; else 0. [d]
    """

    name: str
    where: str
    call: Call
    why: str
    limit: str
    next_step: str
    source: str
    value: float | None
    give_or_take: float | None
    relative: str
    goal: Goal
    near: bool
    forecast: Forecast
    fed: FedOdds | None
    bad: bool | None
    running: bool = False
    read_on: float | None = None
    reads: str = ""
    patch: int = 0
    old: int = 0

    @property
    def called(self) -> Sentence:
        """Its call in words, with the patch where one takes its wood out."""
        return Sentence("goes out with patch {number}", number=self.patch) if self.patch else CALLS[self.call]

    @property
    def may_be_fed(self) -> bool:
        """Whether its neighbours say that water may still be coming."""
        return self.fed is not None and self.fed.odds > POSSIBLY


_Said = Callable[[Call, str, str, str], PointVerdict]


def soundness(series: Series) -> tuple[str, str] | None:
    """Why wood is not sound, with the source; None where nothing says so."""
    facts = series.facts
    for sample in series.samples:
        if sample.pick == "snaps":
            said = Sentence("a sliver snaps short (visit {visit}): decay", visit=sample.round.name)
            return said, "practice-awl"
        if sample.awl is not None and sample.awl > SOFT:
            deep, visit = sample.awl_text, sample.round.name
            return Sentence("the awl sinks {deep} (visit {visit})", deep=deep, visit=visit), "practice-awl"
    if facts.delaminated:
        return Sentence("its layers come apart"), "practice-panel"
    if facts.swollen is not None and facts.swollen.inches > SWOLLEN:
        return Sentence("swollen by {by}", by=as_typed(facts.swollen)), "practice-panel"
    return None


def is_bad(series: Series, goal: Goal) -> bool | None:
    """Whether a point counts as wet or ruined: ever over its goal, or not sound.

    What was cut out counts as it was read before: dry wood that went out with a patch still bounds the wet.
    Where nothing tells how it was, it was cut out for a reason.

    Parameters
    ----------
    series : Series
    goal : Goal

    Returns
    -------
    bool or None
        None = nothing read, no reference to tell by, or dry only by readings older than one that is not used.
    """
    if soundness(series) is not None:
        return True
    untold = True if series.facts.out else None
    values = [sample.value for sample in series.samples if sample.value is not None]
    if not values:
        return untold
    if up(max(values)) > goal.wets:
        return True
    return untold if goal.value is None or series.unused is not None else False


def judge(
    series: Series,
    goal: Goal,
    ahead: Forecast,
    fed: FedOdds | None,
    open_further: str,
    unit: Unit,
) -> PointVerdict:
    """The verdict of one point.

    Parameters
    ----------
    series : Series
    goal : Goal
    ahead : Forecast
    fed : FedOdds or None
    open_further : str
        Where to read next past this point, in words, if it is the last one on its line and wet; else "".
    unit : {"in", "mm"}

    Returns
    -------
    PointVerdict
    """
    last = series.last
    value = None if last is None or last.value is None else up(last.value)
    corrected = None if last is None else last.corrected
    limit = goal.words()

    def said(call: Call, why: str, step: str, source: str, held: str = limit) -> PointVerdict:
        doubt = None if corrected is None else corrected.give_or_take
        near = (
            value is not None
            and doubt is not None
            and goal.value is not None
            and abs(value - goal.value) <= doubt
        )
        relative = ""
        if corrected is not None and corrected.scale == "relative":
            relative = corrected.because
        return PointVerdict(
            series.name,
            series.where,
            call,
            why,
            held,
            step,
            source,
            value,
            doubt,
            relative,
            goal,
            near,
            ahead,
            fed,
            is_bad(series, goal),
            running=call != "gone" and runs(series),
            read_on=None if last is None else last.day,
            reads="" if last is None else last.reads,
        )

    if series.facts.out:
        return said("gone", Sentence("cut out {day}", day=series.facts.out), "", "convention-5")
    unsound = soundness(series)
    if unsound is not None:
        held: str = Sentence("an awl sinks at most {deep}, a sliver splinters long", deep=length(SOFT, unit))
        if unsound[1] == "practice-panel":
            by = length(SWOLLEN, unit)
            held = Sentence("a panel swollen by at most {by}, its layers together", by=by)
        step = Sentence("Cut it out back to sound wood; drying does not bring strength back.")
        return said("cut out", unsound[0], step, unsound[1], held)
    if last is None or value is None:
        tried = any(sample.shown.state == "cannot reach" for sample in series.samples)
        why = Sentence("cannot be reached") if tried else Sentence("not read yet")
        step = Sentence("Read it, or open so that it can be read.")
        return said("not shown", why, step, "convention-5")
    if goal.value is None and value <= goal.most and goal.unsaid:
        told = no_meter(last)
        return said(told.call, told.why, told.next_step, told.source)
    if goal.value is None and value <= goal.most and goal.meter:
        step = Sentence("Read the dry references with the same meter, or the place with theirs.")
        why = Sentence(
            "reads {value} with meter {meter}, which no dry reference was read with",
            value=last.reads,
            meter=goal.meter,
        )
        return said("not shown", why, step, "practice-same-meter")
    if goal.value is None and value <= goal.most:
        step = Sentence("Read three places of the same stuff that were never wet.")
        why = Sentence("reads {value}; no dry reference", value=last.reads)
        return said("not shown", why, step, "practice-dry-reference")
    if goal.value is not None and value <= goal.value:
        told = dry_here(series, last, goal, fed)
        return said(told.call, told.why, told.next_step, told.source)
    if open_further:
        why = Sentence("reads {value} and nothing past it is read dry", value=_as_read(last))
        step = Sentence("Open and read {where}.", where=open_further)
        return said("open further", why, step, "practice-open-past")
    return _wet(series, last, goal, ahead, fed, said)


def _as_read(sample: Sample) -> str:
    if sample.shown.state == "over":
        return Sentence("over the meter's range")
    return sample.reads


NO: dict[str, tuple[str, str, str]] = {
    "no air": (
        form("the room's air is not read"),
        form("Read temperature and humidity of the room on each visit."),
        "wood-handbook-emc",
    ),
    "damp air": (
        form("wood comes to {air} in the room's air as last read, over the goal: it cannot get there"),
        form("Dry or warm the room: see the air that would be dry enough."),
        "wood-handbook-emc",
    ),
    "damp lately": (
        form("wood comes to {air} in the mean air of the last visits, over the goal: no date by that"),
        form("Keep the room as dry as it is now, and read it and its air again."),
        "wood-handbook-emc",
    ),
    "goal under dry": (
        form("its goal lies under what dry wood reads in this house"),
        form("Take the usual limits again, or dry the whole house further and read its dry places anew."),
        "convention-5",
    ),
    "plateau": (
        form("it comes to rest near {plateau}, over the goal"),
        form("Look for a source, a trapped layer, salts, a wrong scale, or no air behind it."),
        "drying-fit",
    ),
    "not falling": (
        form("it does not fall"),
        form("Look for water: test the pipes and the drain before more drying."),
        "drying-fit",
    ),
}


def _wet(
    series: Series, last: Sample, goal: Goal, ahead: Forecast, fed: FedOdds | None, said: _Said
) -> PointVerdict:
    why: str
    reads: str = Sentence("reads {value}", value=_as_read(last))
    live = _live(series, last)
    if live:
        step = Sentence("Stop drying and look for the water: pipes, drain, what runs to it.")
        if live == FIRST:
            step = Sentence("Read it again tomorrow, in the same holes; look for water at it meanwhile.")
        return said("no date", joined([reads, live], "{first}; {then}"), step, "practice-live-water")
    if fed is not None and fed.odds > POSSIBLY:
        did = Sentence("it falls behind its neighbors: possibly fed, {odds}", odds=in_hundred(fed.odds))
        if fed.change is not None:
            did = Sentence(
                "it falls behind its neighbors ({change}, neighbors {expected}): possibly fed, {odds}",
                change=points(fed.change),
                expected=points(fed.expected or 0),
                odds=in_hundred(fed.odds),
            )
        why = joined([reads, did], "{first}; {then}")
        step = Sentence("Look for water at it before trusting any date; read it again tomorrow.")
        return said("no date", why, step, "fed-odds")
    if ahead.no == "":
        why = reads
        if ahead.days:
            days = Sentence("at its goal in {least} to {most} days", least=ahead.days[0], most=ahead.days[1])
            why = joined([reads, days], "{first}; {then}")
        step = Sentence(
            "Dry on; it may be closed between {soonest} and {latest}, eight times in ten.",
            soonest=ahead.soonest,
            latest=ahead.latest,
        )
        return said("dry on", why, step, "drying-fit")
    if ahead.no in ("too few readings", "no goal"):
        lacks = Sentence("no date before three readings over two days")
        if sum(each.value is not None for each in series.samples) > max(ahead.used, FEWEST - 1):
            lacks = Sentence(
                "no date before three readings over two days; so far {number} tell of this drying",
                number=ahead.used,
            )
        if ahead.no == "no goal":
            lacks = Sentence("no goal before a dry reference is read")
            if goal.meter:
                lacks = Sentence(
                    "no goal before a dry reference is read with meter {meter}", meter=goal.meter
                )
        step = Sentence("Dry on, and read it every day or two, in the same holes.")
        return said("dry on", joined([reads, lacks], "{first}; {then}"), step, "drying-fit")
    if ahead.no == "too early":
        falls = Sentence("falling, and {number} readings do not tell yet when it is there", number=ahead.used)
        step = Sentence("Read on: every day or two, in the same holes.")
        return said("dry on", joined([reads, falls], "{first}; {then}"), step, "drying-fit")
    no, do, source = NO[ahead.no]
    found = ahead.fit
    slots = {"air": moisture(ahead.air or 0), "plateau": moisture(found.plateau) if found else ""}
    stays = joined([reads, Sentence(no, **slots)], "{first}; {then}")
    return said("no date", stays, Sentence(do), source)


def runs(series: Series) -> bool:
    """Whether the readings of a point say that water may be running to it now (convention 5.4)."""
    return series.last is not None and _live(series, series.last) not in ("", FIRST)


def _live(series: Series, last: Sample) -> str:
    """Why water may be running: rising, or over 28 and not falling for two days; "" where nothing says so.

    A rise over months that meter and season account for is none (``wood.rise``).
    """
    assert last.value is not None
    with_value = [s for s in series.samples if s.value is not None and alike(s, last)]
    before = [s for s in with_value if s is not last]
    if not before:
        return FIRST if last.value > LIVE else ""
    earlier = before[-1]
    assert earlier.value is not None
    rise = last.value - earlier.value
    if rise > 2 * SAME and not tells(earlier, last):
        rise = 0.0
    if rise > 2 * SAME and last.shown.state == "over":
        return Sentence("risen over the meter's range since visit {visit}", visit=earlier.round.name)
    if rise > 2 * SAME:
        return Sentence(
            "rising ({rise} since visit {visit})", rise=rise_text(rise, earlier), visit=earlier.round.name
        )
    if last.value > LIVE:
        old = [s for s in before if last.day - s.day >= TWO_DAYS and s.value is not None]
        if old and last.value >= down(min(s.value for s in old if s.value is not None) - SAME):
            limit, visit = f"{LIVE:g}", old[-1].round.name
            return Sentence("over {limit} and not falling since visit {visit}", limit=limit, visit=visit)
    return ""
