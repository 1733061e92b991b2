"""The rounds in the order of their days, and each point's readings along them, corrected; and what is odd.

Nothing is taken out: a reading that cannot be used says so, and stays.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from functools import cached_property

from undertile.findings import Finding, Severity
from undertile.sentence import Sentence
from undertile.wood.chip import DRIEST, weigh
from undertile.wood.clock import NO_CLOCK, Clock
from undertile.wood.correct import Corrected, correct, left
from undertile.wood.days import dates_out_of_order, days_far_apart
from undertile.wood.equilibrium import HIGHEST_F, LOWEST_F, equilibrium
from undertile.wood.facts import Meter, Point, Visit, WoodFacts
from undertile.wood.gone import counted, odd_outs
from undertile.wood.heat import far_from_air, taken, wood_temperature
from undertile.wood.holes import Outside, holes_of, nothing_read, outside, outside_findings
from undertile.wood.places import has_layers, place_of
from undertile.wood.readings import Round, Sample, Series, alike
from undertile.wood.say import as_typed, listed
from undertile.wood.slip import slipped
from undertile.wood.typed import Shown, read_fahrenheit, read_moment, read_shown

__all__ = ["NO_METER", "History", "Round", "Sample", "Series", "alike", "history", "telling"]

ADD_METER = Sentence("Add the meter with its scale, or correct its name; until then no species is corrected.")
NO_METER = Meter(set_to="unknown")
"""Nothing said of the meter: no scale is taken for granted."""


@dataclass
class History:
    """All rounds and points."""

    rounds: tuple[Round, ...] = ()
    series: tuple[Series, ...] = ()
    findings: list[Finding] = field(default_factory=list)

    @cached_property
    def read(self) -> tuple[Round, ...]:
        """Rounds on which something was read at a point; one just begun is none yet."""
        return rounds_read(self.rounds, self.series)

    @cached_property
    def telling(self) -> tuple[Round, ...]:
        """Rounds that tell something: the room's air, or something read."""
        return telling(self.rounds, self.series)


def rounds_read(rounds: Iterable[Round], series: Iterable[Series]) -> tuple[Round, ...]:
    """Those of the rounds on which something was read at a point."""
    named = {
        each.round.name
        for one in series
        for each in one.samples
        if each.value is not None or each.shown.state == "cannot reach" or each.awl_text or each.pick
    }
    return tuple(each for each in rounds if each.name in named)


def telling(rounds: Iterable[Round], series: Iterable[Series]) -> tuple[Round, ...]:
    """Those of the rounds that tell something: a day and a name alone move no date."""
    rounds = tuple(rounds)
    read = {each.name for each in rounds_read(rounds, series)}
    return tuple(each for each in rounds if each.equilibrium is not None or each.name in read)


def history(facts: WoodFacts, clock: Clock = NO_CLOCK) -> History:
    """Read everything typed.

    Parameters
    ----------
    facts : WoodFacts
    clock : Clock, optional

    Returns
    -------
    History
    """
    out = History()
    rounds = [_round(name, visit, facts.meters, out.findings) for name, visit in facts.visits.items()]
    rounds.sort(key=lambda each: each.moment.days)
    out.rounds = tuple(rounds)
    out.findings += [*dates_out_of_order(facts, rounds), *days_far_apart(facts, clock.ahead)]
    by_name = {each.name: each for each in rounds}
    layered = has_layers(facts.points.values())
    series = []
    past_it: list[Outside] = []
    usual: dict[str, list[float]] = {}
    for point in facts.points.values():
        for visit, typed in point.shown.items():
            if (shown := read_shown(typed)).state == "number" and not point.reference:
                usual.setdefault(visit, []).append(shown.worst)
    out.findings += odd_outs(facts, clock).values()
    # a day that cannot be so takes nothing out: the wood counts as still there until it is corrected
    for name, point in counted(facts, clock).points.items():
        series.append(_series(name, point, by_name, facts, layered, usual, out.findings, past_it))
    out.series = tuple(series)
    out.findings += outside_findings(past_it)
    return out


def _round(name: str, visit: Visit, meters: Mapping[str, Meter], findings: list[Finding]) -> Round:
    meter, instrument = NO_METER, ""
    if visit.meter:
        meter = meters.get(visit.meter, NO_METER)
        instrument = visit.meter if visit.meter in meters else ""
        if visit.meter not in meters:
            known = listed(list(meters)) or "none yet"
            findings.append(
                Finding(
                    "meter-unknown",
                    Severity.ACT,
                    f"visit {name}",
                    Sentence("one of the meters of the job: {known}", known=known),
                    Sentence("meter {name}", name=visit.meter),
                    ADD_METER,
                    "meter-limits",
                )
            )
    elif len(meters) == 1:
        instrument, meter = next(iter(meters.items()))
    elif meters:
        findings.append(
            Finding(
                "meter-not-said",
                Severity.ACT,
                f"visit {name}",
                Sentence("which of the meters was used"),
                Sentence("{number} meters and none named", number=len(meters)),
                Sentence("Say which; until then no species is corrected."),
                "meter-limits",
            )
        )
    air = read_fahrenheit(visit.air) if visit.air else None
    wood = read_fahrenheit(visit.wood) if visit.wood else None
    share = None if visit.humidity is None else float(visit.humidity) / 100
    if share is not None and not 0.02 <= share <= 1.0:
        findings.append(
            Finding(
                "humidity-odd",
                Severity.ACT,
                f"visit {name}",
                Sentence("relative humidity from 2 to 100 percent"),
                Sentence("{number} percent", number=visit.humidity),
                Sentence("Read the hygrometer again; this air is not used."),
                "wood-handbook-emc",
            )
        )
        share = None
    held = None
    if air is not None and not LOWEST_F <= air <= HIGHEST_F:
        findings.append(
            Finding(
                "air-out-of-table",
                Severity.ACT,
                f"visit {name}",
                Sentence("room air from 30 to 210 F, where the table of equilibrium reaches"),
                visit.air,
                Sentence("Read the thermometer again, or warm the room: wood hardly dries in freezing air."),
                "wood-handbook-emc",
            )
        )
    elif air is not None and share is not None:
        held = equilibrium(air, share)
    if wood is not None:
        findings += wood_temperature(f"visit {name}", visit.wood, air, visit.air, meter)
    return Round(name, read_moment(visit.when), visit, meter, instrument, air, wood, share, held)


def _series(
    name: str,
    point: Point,
    rounds: Mapping[str, Round],
    facts: WoodFacts,
    layered: bool,
    usual: Mapping[str, Sequence[float]],
    findings: list[Finding],
    past_it: list[Outside],
) -> Series:
    where = place_of(name, point, layered=layered)
    strange = [
        visit
        for table in (*(point.shown, point.temperatures, point.surface, point.awl, point.pick, point.chips),)
        for visit in table
        if visit not in rounds
    ]
    if strange:
        findings.append(
            Finding(
                "visit-unknown",
                Severity.ACT,
                where,
                Sentence("visits of the job: {rounds}", rounds=listed(list(rounds)) or "none yet"),
                Sentence("something read on {visits}", visits=listed(sorted(set(strange)))),
                Sentence(
                    "Add the visit with its day, or correct its name; until then this is kept and not used."
                ),
                "convention-7",
            )
        )
    samples: list[Sample] = []
    touched = [
        each
        for each in rounds.values()
        if any(each.name in t for t in (point.shown, point.awl, point.pick, point.chips))
    ]
    ordered = sorted(touched, key=lambda one: one.moment.days)
    holes = [read_shown(point.shown.get(each.name, "")).values for each in ordered]
    for k, each in enumerate(ordered):
        before = next((s for s in reversed(samples) if s.number and s.slip is None and s.value), None)
        beside = () if point.reference else usual.get(each.name, ())
        others = [max(it) for it in (*holes[max(0, k - 1) : k], *holes[k + 1 : k + 2]) if it]
        samples.append(_sample(where, point, each, facts, before, beside, others, findings, past_it))
    read = (point.shown, point.awl, point.pick, point.chips)
    lost = sorted({visit for table in read for visit in table if visit in strange and table[visit] != ""})
    return Series(name, point, tuple(samples), layered, tuple(lost))


def _sample(
    where: str,
    point: Point,
    on: Round,
    facts: WoodFacts,
    before: Sample | None,
    usual: Sequence[float],
    others: Sequence[float],
    findings: list[Finding],
    past_it: list[Outside],
) -> Sample:
    shown = read_shown(point.shown.get(on.name, ""))
    wood = point.temperatures.get(on.name, "")
    surface = point.surface.get(on.name, "")
    corrected = odd = None
    if on.name in point.chips:
        metered = None if surface == "wet" else _beside(shown, wood, point, on, facts)
        error = float(on.meter.give_or_take)
        chip = weigh(where, on.name, point.chips[on.name], point.material, metered, error)
        corrected = chip.corrected
        findings += [chip.finding] if chip.finding is not None else []
    if corrected is None and shown.state == "number":
        if wood:
            at = Sentence("{where}, visit {visit}", where=where, visit=on.name)
            findings += wood_temperature(at, wood, on.air_f, on.facts.air, on.meter)
        corrected = _metered(shown, wood, surface == "wet", point, on, facts)
        same = before is not None and before.round.facts.meter == on.facts.meter
        was = before.shown.worst if before is not None and same else None
        kept, error = holes_of(shown.values, on.meter, was, usual, others), float(on.meter.give_or_take)
        odd = kept.slip if kept.hole == shown.worst else None
        if kept.slip is not None and kept.hole is not None:
            findings.append(slipped(where, on.name, kept.hole, on.meter, kept.slip))
        elif kept.nothing:
            findings.append(nothing_read(where, on.name, kept.hole or 0.0))
        if not kept.used:
            corrected = left(shown.worst, "slip" if odd is not None else "nothing", error)
        elif outside(shown, on.meter) and odd is None:
            past_it.append(Outside(where, on.name, shown.worst, on.meter))
            if past_it[-1].dry:  # as if the meter had said no more than that
                corrected, shown = None, Shown("under", text=shown.text)
            elif corrected.scale == "moisture":
                corrected = left(shown.worst, "past range", error)
    awl = point.awl.get(on.name)
    return Sample(
        on,
        shown,
        corrected,
        surface,
        None if awl is None else awl.inches,
        "" if awl is None else as_typed(awl),
        point.pick.get(on.name, ""),
        odd,
    )


def _metered(shown: Shown, wood: str, wet: bool, point: Point, on: Round, facts: WoodFacts) -> Corrected:
    """A number that the meter shows, corrected."""
    wood_f, assumed = taken(read_fahrenheit(wood) if wood else on.wood_f, on.air_f)
    return correct(
        shown.worst,
        material=point.material,
        species=point.species,
        scale=on.meter.set_to,
        meter="pad" if on.meter.kind == "pad" else "pin",
        surface="wet" if wet else "dry",
        wood_f=wood_f,
        doubted=far_from_air(wood_f, on.air_f),
        assumed=assumed,
        compensates=on.meter.compensates,
        rule=facts.allowed.temperature_rule,
        meter_error=float(on.meter.give_or_take),
    )


def _beside(shown: Shown, wood: str, point: Point, on: Round, facts: WoodFacts) -> float | None:
    """What the meter says of the wood that a chip was cut from; past its range, the end of that. [percent]"""
    low, high = float(on.meter.low), float(on.meter.high)
    if shown.state in ("over", "under"):
        return high if shown.state == "over" else low
    if shown.state != "number" or not max(low, DRIEST) <= shown.worst <= high:
        return None
    return _metered(shown, wood, False, point, on, facts).value
