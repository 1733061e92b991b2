"""From the survey and the facts to the problem the planner solves (docs/methods/limits.md).

Nothing is planned here: members get their permissions, walls their zones and leans, holds become demands,
and what is missing becomes a finding. What cannot be used at all is an error, all of it in one run.
"""

from __future__ import annotations

import difflib
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from math import ceil
from typing import Literal

from undertile.errors import FileError
from undertile.findings import Finding, Severity
from undertile.framing.dries import Dries, dry_first, with_drying
from undertile.framing.facts import FramingFacts, WallWork
from undertile.framing.holds import hold_demands, leans_of
from undertile.framing.limits import permissions
from undertile.framing.prices import PriceList, read_prices
from undertile.framing.problem import (
    Channel,
    Demand,
    FramingProblem,
    Member,
    PlateSpot,
    StockItem,
    WallProblem,
)
from undertile.framing.say import said
from undertile.framing.stud_is import standing_at, stud_is
from undertile.framing.studfindings import stud_findings, unknown_findings, wall_work
from undertile.framing.terms import make_terms
from undertile.lengths import Unit
from undertile.sentence import Sentence, joined
from undertile.survey.result import SurveyResult, WallOffsets

PLANE_BACK = Fraction(1, 2)
PLANE_IN = Fraction(3, 2)
"""How far behind the lowest and in front of the highest reading a plane is looked for (ours). [in]"""
PAST_PAN = Fraction(2)
"""A side stud this far past the pan's front still backs its flange (ours, after convention 8). [in]"""
PLATE_CUT = Fraction(1, 4)
"""Most that is planed off a wood plate's edge (the craft limit). [in]"""
CHANNEL_PACKING = Fraction(3, 4)
"""Most that is packed behind a channel row (ours). [in]"""
ROW_APART = Fraction(16)
ROW_LENGTH = Fraction(60)
"""Channel rows at most 16 apart, priced by pieces of up to 5 ft (convention 4.3). [in]"""
LARGE_TILE = Fraction(15)
"""Longest edge from which the stricter flatness holds, ANSI A108.02 4.2.2. [in]"""
RULES_LARGE = ((Fraction(24), Fraction(1, 16)), (Fraction(120), Fraction(1, 8)))
RULES_SMALL = ((Fraction(12), Fraction(1, 16)), (Fraction(120), Fraction(1, 4)))


@dataclass(frozen=True)
class PanSeat:
    """What the framing needs to know of the pan; None = not measured, or no pan. Lengths in inches."""

    flange_height: Fraction | None = None
    flange_thickness: Fraction | None = None
    detail: Literal["stops", "laps"] = "stops"
    width: Fraction | None = None
    depth: Fraction | None = None


@dataclass(frozen=True)
class Built:
    """A problem ready for the planner.

    Attributes
    ----------
    problem : FramingProblem
        Its ``walls`` are those with studs read; none when nothing is read yet.
    prices : PriceList
        With what the planner does not read: valve, plates, moves.
    flat_source : str
        Key of the flatness rule.
    findings : tuple of Finding
        What is missing, cautious, or cannot be kept.
    """

    problem: FramingProblem
    prices: PriceList
    flat_source: str
    findings: tuple[Finding, ...]


def build_problem(
    survey: SurveyResult,
    facts: FramingFacts,
    seat: PanSeat | None = None,
    demands: Sequence[Demand] = (),
    unit: Unit = "in",
    dries: Sequence[Dries] = (),
    own: Unit | None = None,
) -> Built:
    """The framing problem of a job.

    Parameters
    ----------
    survey : SurveyResult
    facts : FramingFacts
    seat : PanSeat, optional
        None = no pan: no flange zone.
    demands : sequence of Demand
        Of the other stages (play, square, drain).
    unit : {"in", "mm"}
        For words.
    dries : sequence of Dries
        Studs that are still to dry.
    own : {"in", "mm"}, optional
        The job's own unit, that decides; else ``unit``.

    Returns
    -------
    Built

    Raises
    ------
    FileError
        Every price that is not known, a stud held to the channel, two studs in one place.
    """
    seat, own = seat or PanSeat(), own or unit
    prices, problems = read_prices(facts)
    walls = [wall for wall in survey.walls if wall.studs and wall.heights]
    problems = (*problems, *_held_to_channel(facts), *_doubles(walls))
    if problems:
        raise FileError(problems)
    stock = tuple(
        StockItem(name, item.thickness.inches, Fraction(item.price), item.card, item.wood)
        for name, item in sorted(facts.stock.items(), key=lambda entry: (entry[1].thickness.inches, entry[0]))
    )
    leans = {wall.name: leans_of(wall_work(facts, wall.name)) for wall in walls}
    terms = make_terms(survey, facts, prices, leans, unit, own)
    findings: list[Finding] = [
        *_not_read(survey, facts),
        *_seat_findings(seat, walls),
        *unknown_findings(facts, survey),
    ]
    built = []
    wet = {each.stud: each for each in dries}
    findings += dry_first(dries, [stud.name for wall in walls for stud in wall.studs], unit)
    for wall in walls:
        members, said_of_studs = _members(wall, facts, stock, prices, seat, unit, wet, own)
        findings += said_of_studs
        work = wall_work(facts, wall.name)
        channel, no_channel = _channel(wall, work, prices, survey)
        findings += no_channel
        flange = _flange(wall, seat)
        low, high = _bounds(wall, work, channel)
        built.append(
            WallProblem(
                wall.name,
                wall.heights,
                flange,
                members,
                step=_step(seat),
                leans=leans[wall.name],
                t_low=low,
                t_high=high,
                plates=_plates(wall, work, seat),
                terms=terms.by_wall.get(wall.name, ()),
                channel=channel,
                top=wall.top,
            )
        )
    holds, hold_findings = hold_demands(walls, facts, unit)
    kept, left = _known_demands(demands, {wall.name for wall in walls})
    rules, source, tile_findings = _rules(facts)
    findings += [*terms.findings, *hold_findings, *left, *tile_findings]
    problem = FramingProblem(tuple(built), (*kept, *holds), stock, prices.problem_prices(), rules)
    return Built(problem, prices, source, tuple(findings))


# References ---------------------------------------------------------------------------------------------


def _not_read(survey: SurveyResult, facts: FramingFacts) -> Iterable[Finding]:
    """Studs that are spoken of but not read: the survey may be under way, so judged and not refused."""
    studs = [stud.name for wall in survey.walls for stud in wall.studs]
    for name in facts.studs:
        if studs and name not in studs:
            close = difflib.get_close_matches(name, studs, n=1, cutoff=0.0)
            yield Finding(
                "stud-not-read",
                Severity.ACT,
                name,
                Sentence("a stud with readings"),
                Sentence(
                    "something is said of {name}, which is not read; the nearest name read is {close}",
                    name=name,
                    close=close[0],
                ),
                Sentence("Read {name}, or correct its name.", name=name),
                "convention-5",
            )


def _held_to_channel(facts: FramingFacts) -> Iterable[str]:
    for name, stud in facts.studs.items():
        if stud.hold is not None and stud.hold.treatment == "channel":
            yield (
                f"framing.studs.{name}.hold is channel, which covers a whole wall; hold the stud to another "
                "treatment, or offer the channel on its wall"
            )


def _doubles(walls: Sequence[WallOffsets]) -> Iterable[str]:
    for wall in walls:
        seen: dict[Fraction, str] = {}
        for stud in wall.studs:
            if stud.along in seen:
                yield (
                    f"{stud.name} and {seen[stud.along]} are both at along {said(stud.along)} of wall "
                    f"{wall.name}; expected each stud in its own place; correct one of the two"
                )
            seen.setdefault(stud.along, stud.name)


def _known_demands(
    demands: Sequence[Demand], walls: set[str]
) -> tuple[tuple[Demand, ...], tuple[Finding, ...]]:
    kept = tuple(d for d in demands if {part[0] for part in d.parts} <= walls)
    left = tuple(
        Finding(
            "demand-left-out",
            Severity.ACT,
            demand.title,
            Sentence("readings of every wall it speaks of"),
            Sentence(
                "wall {walls} is not read, so it is not shown",
                walls=joined(sorted({p[0] for p in demand.parts} - walls)),
            ),
            Sentence("Read the studs of that wall."),
            "convention-5",
            {"demand": demand.code},
        )
        for demand in demands
        if demand not in kept
    )
    return kept, left


# Zones --------------------------------------------------------------------------------------------------


def _flange(wall: WallOffsets, seat: PanSeat) -> tuple[bool, ...]:
    top = seat.flange_height
    return tuple(top is not None and z <= top for z in wall.heights)


def _step(seat: PanSeat) -> Fraction:
    if seat.detail == "laps" and seat.flange_height is not None and seat.flange_thickness is not None:
        return seat.flange_thickness
    return Fraction(0)


def _seat_findings(seat: PanSeat, walls: Sequence[WallOffsets]) -> Iterable[Finding]:
    if seat.detail == "laps" and (seat.flange_height is None or seat.flange_thickness is None):
        missing = "thickness" if seat.flange_height is not None else "height"
        yield Finding(
            "flange-not-measured",
            Severity.STOP,
            "pan",
            Sentence(
                "the flange's thickness, for the board laps it"
                if missing == "thickness"
                else "the flange's height, for the board laps it"
            ),
            Sentence("it is not measured, so both zones are planned as one plane: the board would kick out"),
            Sentence(
                "Measure the thickness of the flange."
                if missing == "thickness"
                else "Measure the height of the flange."
            ),
            "convention-3",
        )
    if seat.flange_height is None:
        return
    for wall in walls:
        if not any(_flange(wall, seat)):
            yield Finding(
                "flange-zone-not-read",
                Severity.ACT,
                f"wall {wall.name}",
                Sentence(
                    "a reading at {height} or lower, where the pan sits", height=said(seat.flange_height)
                ),
                Sentence("the lowest height read is {height}", height=said(wall.heights[0])),
                Sentence("Read every stud of wall {wall} near the floor.", wall=wall.name),
                "convention-5",
            )


def _bounds(wall: WallOffsets, work: WallWork, channel: Channel | None) -> tuple[Fraction, Fraction]:
    values = [spot.value for stud in wall.studs for spot in stud.offsets]
    low, high = min(values) - PLANE_BACK, max(values) + PLANE_IN
    if channel is not None:
        high = max(high, max(values) + channel.height + channel.packing)
    if work.hold is not None and work.hold.offset is not None:
        held = work.hold.offset.inches
        # the plane at every stud, with the whole of a held skew either way
        skew = abs(work.hold.skew.inches) if work.hold.skew is not None else Fraction(0)
        low, high = min(low, held - PLANE_BACK - skew), max(high, held + PLANE_IN + skew)
    return low, high


# Members ------------------------------------------------------------------------------------------------


def _members(
    wall: WallOffsets,
    facts: FramingFacts,
    stock: Sequence[StockItem],
    prices: PriceList,
    seat: PanSeat,
    unit: Unit,
    wet: Mapping[str, Dries],
    own: Unit,
) -> tuple[tuple[Member, ...], list[Finding]]:
    members: list[Member] = []
    findings: list[Finding] = []
    for stud in wall.studs:
        standing = standing_at(facts, wall.name, stud.along, own)
        known = stud_is(stud.name, facts.studs.get(stud.name), wall_work(facts, wall.name), standing)
        member = permissions(
            known,
            along=stud.along,
            heights=wall.heights,
            offsets=[spot.value for spot in stud.offsets],
            stock=stock,
            prices=prices,
            flange_top=seat.flange_height,
            top=wall.top,
            beside_pan=_beside(wall.name, stud.along, seat),
            unit=unit,
        )
        member = with_drying(member, wet.get(stud.name), _flange(wall, seat), unit)
        members.append(member)
        findings += stud_findings(known, member, stud, unit)
    return tuple(members), findings


def _beside(wall: str, along: Fraction, seat: PanSeat) -> bool:
    if seat.flange_height is None:
        return False
    if wall == "B":
        return seat.width is not None and 0 <= along <= seat.width
    return seat.depth is not None and along <= seat.depth + PAST_PAN


def _plates(wall: WallOffsets, work: WallWork, seat: PanSeat) -> tuple[PlateSpot, ...]:
    cut = PLATE_CUT if work.kind == "wood" else Fraction(0)
    top = seat.flange_height
    return tuple(
        PlateSpot(p.name, p.along, p.height, p.value, cut, top is not None and p.height <= top)
        for p in wall.plates
    )


def _channel(
    wall: WallOffsets, work: WallWork, prices: PriceList, survey: SurveyResult
) -> tuple[Channel | None, tuple[Finding, ...]]:
    if work.channel != "offered":
        return None, ()
    if work.channel_height is None:
        return None, (
            Finding(
                "channel-not-measured",
                Severity.ACT,
                f"wall {wall.name}",
                Sentence("the actual height of the channel"),
                Sentence("it is not given, so the channel is not in the plan"),
                Sentence("Measure a stick of channel from its back to its face."),
                "convention-4",
            ),
        )
    tall = wall.top if wall.top is not None else wall.heights[-1]
    long = wall.studs[-1].along - wall.studs[0].along
    if wall.name == "B" and survey.frame.opening_at_back is not None:
        long = max(long, survey.frame.opening_at_back)
    pieces = (ceil(tall / ROW_APART) + 1) * max(1, ceil(long / ROW_LENGTH))
    return Channel(
        work.channel_height.inches,
        CHANNEL_PACKING,
        pieces * prices["channel_row"],
        pieces * prices["channel_row_dollars"],
    ), ()


# Rules ------------------------------------------------------------------------------------------------


def _rules(facts: FramingFacts) -> tuple[tuple[tuple[Fraction, Fraction], ...], str, tuple[Finding, ...]]:
    edge = facts.finish.tile_edge
    if edge is None:
        return (
            RULES_LARGE,
            "a108.02-4.2.2",
            (
                Finding(
                    "tile-not-chosen",
                    Severity.NOTE,
                    "finish",
                    Sentence("the longest edge of the tile"),
                    Sentence(
                        "no tile is chosen: the stricter flatness is planned, for an edge of 15 in or more"
                    ),
                    Sentence("Give the tile's longest edge once it is chosen."),
                    "a108.02-4.2.2",
                ),
            ),
        )
    if edge.inches >= LARGE_TILE:
        return RULES_LARGE, "a108.02-4.2.2", ()
    return RULES_SMALL, "a108-flat-small", ()
