"""The one call: from what was read and tested to verdicts, extent, dates, source, shrinkage and the gate."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from fractions import Fraction
from types import MappingProxyType
from typing import Any

from undertile.findings import Finding
from undertile.lengths import MM, Unit
from undertile.sentence import Sentence, form, joined
from undertile.stage import units
from undertile.wood.changed import shown_since
from undertile.wood.clock import NO_CLOCK, Clock
from undertile.wood.closing import close_date, now_if_dry
from undertile.wood.days import equipment_days, misdated
from undertile.wood.dryhere import APART, at_reference
from undertile.wood.equilibrium import DryEnough, dry_enough
from undertile.wood.extent import PAST, CutLine, Line, State, cut_lines, next_probe, patches
from undertile.wood.facts import WoodFacts
from undertile.wood.fed import FedOdds
from undertile.wood.forecast import Forecast, air_by_round, forecast
from undertile.wood.gate import gate, proof_missing
from undertile.wood.goal import Goal, Goals, own_past, reference_findings
from undertile.wood.heat import not_said
from undertile.wood.held import aged, held_back, held_by_day, held_by_order, in_sure_order
from undertile.wood.history import History, Round, Series, history
from undertile.wood.leak import READINGS, source
from undertile.wood.leakdays import timely
from undertile.wood.leaktests import Outcome, outcomes
from undertile.wood.leakwet import before_rises, rises
from undertile.wood.leakword import leaked
from undertile.wood.limits import counting, limit_findings
from undertile.wood.lines import direction, lines_of, spot_words
from undertile.wood.newwood import new_wood_missing
from undertile.wood.notdry import sorted_out
from undertile.wood.notyet import days_missing, untold
from undertile.wood.oddplaces import odd_places, room_width
from undertile.wood.places import has_layers
from undertile.wood.result import WoodResult
from undertile.wood.shrink import depths_of, read_on_of, shrinkage
from undertile.wood.stops import safety_missing, stops_missing
from undertile.wood.suspects import suspects
from undertile.wood.torn import torn_counted
from undertile.wood.typed import day_text
from undertile.wood.uncounted import uncounted_missing
from undertile.wood.verdict import PointVerdict, is_bad, judge
from undertile.wood.woodfindings import all_findings, wood_stops

STEPS: dict[Unit, Fraction] = {"in": Fraction(1), "mm": 10 * MM}
"""Probes are placed on whole inches or centimetres. [in]"""

NOTHING: Mapping[str, Any] = MappingProxyType({})


def water(
    facts: WoodFacts,
    unit: Unit = "in",
    *,
    width: Fraction | None = None,
    walls: Sequence[str] = (),
    depths: Mapping[str, Fraction] | None = None,
    room: Fraction | None = None,
    clock: Clock = NO_CLOCK,
    beside: Mapping[str, Any] = NOTHING,
    safety: Sequence[Finding] | None = None,
    read_on: Mapping[str, str] = NOTHING,
    own_unit: Unit | None = None,
    left_out: Sequence[tuple[str, ...]] = (),
) -> WoodResult:
    """Answer everything about the water.

    Parameters
    ----------
    facts : WoodFacts
    unit : {"in", "mm"}
        For words.
    width : Fraction, optional
        From wall L to wall R. [in]
    walls : sequence of str
        Walls of the survey.
    depths : mapping of str to Fraction, optional
        Actual depth of studs by name. [in]
    room : Fraction, optional
        The most the room can be from wall L to wall R; left out = ``width``. [in]
    clock : Clock, optional
        Of who asks: nothing that rests on a day after it is dry, dated or excluded.
    beside : mapping, optional
        Facts of the other stages: ``framing`` holds stops that keep the gate shut, ``safety`` what a person
        lifted.
    safety : sequence of Finding, optional
        The house's cautions; left out = not worked out.
    read_on : mapping of str to str, optional
        The day the face of a stud was read, by name; a stud that is not in it: not known.
    own_unit : {"in", "mm"}, optional
        The job's, that decides where words do not; else ``unit``.
    left_out : sequence of tuple of str, optional
        Paths of facts that stand in the record and are not in the job.

    Returns
    -------
    WoodResult
    """
    typed, facts = facts.allowed, facts.model_copy(update={"allowed": counting(facts.allowed)})
    read = history(facts, clock)
    marks = sorted_out(read.series, facts.allowed, read.rounds)
    read = replace(read, series=marks.series)
    wet = [each for each in read.series if not each.facts.reference]
    its = Goals(read.series, facts.allowed)
    goals, known = its.by_material(wet), its.known
    # a round of which only a day and a name are typed moves nothing
    air = air_by_round(read.telling)
    disordered, within = misdated(read.read), float(facts.allowed.read_within)
    # no trend is worked out over visits whose order is in doubt
    sure = [each for each in read.read if each.name not in disordered]
    odds, pair = suspects(wet, sure, air)
    states = {each.name: _state(each, its.of(each)) for each in wet}
    lines, without = lines_of(wet, states, width)
    past = PAST if facts.allowed.past_the_last is None else facts.allowed.past_the_last.inches
    cuts = cut_lines(lines, past, STEPS[own_unit or unit])
    layered = has_layers(facts.points.values())
    further = _open_further(cuts, width, unit, layered)

    def judged(each: Series) -> PointVerdict:
        goal = its.of(each)
        ahead = forecast(each, goal, read.telling, air)
        verdict = judge(each, goal, ahead, _fed(each, goal, odds), further.get(each.name, ""), unit)
        verdict = held_by_order(held_back(verdict, each), each, disordered)
        return aged(now_if_dry(held_by_day(verdict, each, clock), clock), clock, within)

    points = tuple(map(judged, wet))
    leak = torn_counted(facts, clock)
    made = tuple(timely(untold(outcomes(leak, unit, joists=_has_joists(facts, beside)), clock), facts, clock))
    was_wet = "bad" in states.values() or leaked(facts)
    told = before_rises(made, leak, rises(in_sure_order(wet, disordered), read.rounds, made), wet=was_wet)
    tests = (*told, *_from_readings(points, sure, pair, odds))
    found = source(leak, tests, wet=was_wet)
    shrunk, no_depth = shrinkage(wet, goals, depths or {}, facts.trued, read_on)
    stops = wood_stops(facts, read, clock)
    also = (
        *safety_missing(beside, safety),
        *stops_missing(beside, stops),
        *uncounted_missing(left_out, read.series),
        *new_wood_missing(read.series, unit, clock, own_unit),
        *days_missing(facts, clock, [each.name for each in read.read]),
    )
    last = proof_missing(facts, walls, *shown_since(facts, beside.get("floor"), clock))
    shut = gate(facts, points, found, read.read, walls, cuts, also=also, last=last, unit=unit)
    came = [each for each in read.rounds if not clock.ahead(each.facts.when)]
    probe = next_probe(cuts)
    return WoodResult(
        state="not begun" if not (facts.points or facts.visits or tests) else "read",
        points=points,
        references=tuple(known.values()),
        goals=goals,
        cuts=cuts,
        cut_words=tuple(_cut_words(cut, width, unit, layered) for cut in cuts),
        patches=patches(cuts, _bad_subfloor(wet, states)),
        probe=probe,
        probe_words="" if probe is None else _probe_words(probe, width, unit, layered),
        close=close_date(points),
        air=_air(read.rounds, goals.values()),
        equipment_days=equipment_days(facts, came[-1].moment.days if came else None),
        source=found,
        shrinkage=shrunk,
        gate=shut,
        rounds=read.rounds,
        series=read.series,
        findings=all_findings(
            facts,
            read,
            [
                *odd_places(read.series, width if room is None else room, unit),
                *marks.findings,
                *not_said(read.rounds, read.series),
                *reference_findings(read.series, known, facts.allowed, unit),
                *limit_findings(typed, unit),
            ],
            points,
            without,
            found,
            shrunk,
            no_depth,
            shut,
            stops,
            clock,
            unit,
        ),
        begun=facts != WoodFacts() or any(each[0] == "wood" for each in left_out),
        again="" if read.read and clock.ahead(read.read[-1].facts.when) else _again(points, read.read),
        width=width,
        own_past=own_past(facts.allowed, unit),
    )


def _has_joists(facts: WoodFacts, beside: Mapping[str, Any]) -> bool:
    """Whether a joist is typed anywhere: a floor on joists is no slab."""
    return bool(getattr(beside.get("floor"), "joists", ())) or any(
        each.member == "joist" for each in facts.points.values()
    )


def run(all_facts: Mapping[str, Any], results: Mapping[str, Any]) -> WoodResult:
    """The stage: facts of every stage by key, results of the stages before."""
    survey, framing = all_facts.get("survey"), all_facts.get("framing")
    unit, own_unit = units(all_facts)
    widths = [] if survey is None else [each.reading.inches for each in survey.widths.values()]
    walls = () if survey is None else tuple(survey.walls)
    return water(
        all_facts["wood"],
        unit,
        width=min(widths, default=None),
        walls=walls,
        depths=depths_of(framing, survey),
        room=room_width(survey, all_facts.get("floor")),
        clock=Clock.of(all_facts),
        beside=all_facts,
        safety=getattr(results.get("safety"), "findings", None),
        read_on=read_on_of(framing),
        own_unit=own_unit,
        left_out=all_facts.get("left_out", ()),
    )


def _fed(series: Series, goal: Goal, odds: Mapping[str, FedOdds]) -> FedOdds | None:
    """Its odds; none where it reads no more than dry wood does in this house."""
    last = series.last
    return None if last is not None and at_reference(last, goal) else odds.get(series.name)


def _state(series: Series, goal: Goal) -> State:
    bad = is_bad(series, goal)
    return "unknown" if bad is None else "bad" if bad else "good"


def _open_further(
    cuts: Sequence[CutLine], width: Fraction | None, unit: Unit, layered: bool
) -> dict[str, str]:
    """Points that are the last ones on an open line, with where to read next."""
    out: dict[str, str] = {}
    for cut in cuts:
        if cut.at is None and cut.probe is not None:
            out.setdefault(cut.bad.name, spot_words(cut.line, cut.probe.at, width, unit, layered=layered))
    return out


def _cut_words(cut: CutLine, width: Fraction | None, unit: Unit, layered: bool) -> str:
    bad = spot_words(cut.line, cut.bad.at, width, unit, layered=layered)
    way = direction(cut)
    if cut.at is None:
        return Sentence("{way} from {bad}: not known yet, nothing past it is read dry", way=way, bad=bad)
    if cut.end:
        said = form("{way} from {bad}: open to the end of the wood, and look at what stands against it")
        return Sentence(said, way=way, bad=bad)
    at = spot_words(cut.line, cut.at, width, unit, layered=layered)
    if cut.good is None:
        return Sentence("{way} from {bad}: open to {at}", way=way, bad=bad, at=at)
    dry = spot_words(cut.line, cut.good.at, width, unit, layered=layered)
    return Sentence("{way} from {bad}: open to {at}; {dry} is dry", way=way, bad=bad, at=at, dry=dry)


def _probe_words(cut: CutLine, width: Fraction | None, unit: Unit, layered: bool) -> str:
    probe = cut.probe
    assert probe is not None
    place = spot_words(cut.line, probe.at, width, unit, layered=layered)
    dry, wet = Sentence("still open"), Sentence("further still")
    if probe.if_dry is not None:
        dry = Sentence("open to {at}", at=spot_words(cut.line, probe.if_dry, width, unit, layered=layered))
    if probe.if_wet is not None:
        wet = Sentence("to {at}", at=spot_words(cut.line, probe.if_wet, width, unit, layered=layered))
    return Sentence("{place}: dry, {dry}; wet, {wet}", place=place, dry=dry, wet=wet)


def _bad_subfloor(
    wet: Sequence[Series], states: Mapping[str, State]
) -> dict[int, list[tuple[Fraction, Fraction]]]:
    out: dict[int, list[tuple[Fraction, Fraction]]] = {}
    for each in wet:
        point = each.facts
        if (
            point.member == "subfloor"
            and point.x is not None
            and point.y is not None
            and states[each.name] == "bad"
        ):
            out.setdefault(point.layer, []).append((point.x.inches, point.y.inches))
    return out


def _again(points: Sequence[PointVerdict], rounds: Sequence[Round]) -> str:
    """A day after the last round read: readings that close a point are a day apart (convention 5.4)."""
    if not rounds or all(each.call in ("close", "gone") for each in points):
        return ""
    return day_text(rounds[-1].moment.days + APART)


def _air(rounds: Sequence[Round], goals: Any) -> DryEnough | None:
    """What the newest air asks for, for the strictest goal."""
    wanted = [goal.value if goal.value is not None else goal.most for goal in goals]
    newest = next((each for each in reversed(rounds) if each.equilibrium is not None), None)
    if newest is None or newest.air_f is None or newest.humidity is None or not wanted:
        return None
    return dry_enough(min(wanted), newest.air_f, newest.humidity)


def _from_readings(
    points: Sequence[PointVerdict],
    rounds: Sequence[Round],
    pair: tuple[str, str] | None,
    odds: Mapping[str, FedOdds],
) -> list[Outcome]:
    """Points that rise while the rest falls: water is coming, and what was shut off is not its source."""
    fed = [each for each in points if each.may_be_fed]
    fallen = [name for name, each in odds.items() if each.change is not None and each.change < 0]
    if not fed or pair is None or not fallen:
        return []
    newest = rounds[-1]
    left: list[Any] = []
    said: list[str] = []
    if newest.facts.supply != "off":
        left.append("supply")
    else:
        said.append(Sentence("supply off"))
    if newest.facts.shower != "not used":
        left += ["riser", "drain", "pan", "enclosure"]
    else:
        said.append(Sentence("shower not used"))
    if newest.facts.rain != "no":
        left.append("roof or window")
    else:
        said.append(Sentence("no rain"))
    left += ["condensation", "neighbour"]
    why: str = Sentence(
        "{where} held or rose from visit {before} to {now} while the rest fell",
        where=joined([Sentence("{where}", where=each.where) for each in fed]),
        before=pair[0],
        now=pair[1],
    )
    if said:
        between = Sentence("{what} in between", what=joined(said))
        why = joined([why, between], "{first}; {then}")
    return [
        Outcome(
            READINGS, newest.moment.days, why, one_of=tuple(left), source="fed-odds", hour=newest.moment.hour
        )
    ]


__all__ = ["Forecast", "History", "Line", "run", "water"]
