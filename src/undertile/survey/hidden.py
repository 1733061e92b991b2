"""Where a slip would hide: the smallest one that would show at each reading, and what would show more.

Baarda's smallest detectable mistake says what a test at the survey's own redundancy can do. The finder holds
back a little more, since real lumber bends and real readings have longer tails than the normal curve:
``HELD_BACK`` is what the simulated surveys come to (docs/methods/slips.md, section 7).
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from math import sqrt

from undertile.findings import Finding, Severity
from undertile.lengths import MM, SIXTEENTH, Length, Unit, format_length
from undertile.sentence import Sentence, joined
from undertile.survey.checks import gather
from undertile.survey.coverage import ALONE, reliability_of
from undertile.survey.faces import Fits
from undertile.survey.facts import LevelCheck, SurveyFacts, Width
from undertile.survey.grid import RoomGrid, StudGrid, WallGrid
from undertile.survey.hypotheses import Explanations
from undertile.survey.result import Reliability
from undertile.survey.room import adjust_room

QUARTER = 0.25
"""A slip of this size changes what is done to a stud: the person is told where it could hide. [in]"""
_QUARTER_SAID = {"in": '1/4"', "mm": "6 mm"}
HELD_BACK = ((0.25, 1.25), (0.4, 1.65))
"""Size caught four times in five, over Baarda's smallest detectable one: at readings that a width covers,
and at those only their own stud covers (bench.slip_sizes); between the two in proportion. [in], factor"""
EXCHANGED = 1 / 8
"""Two studs that differ by no more at any height may as well be exchanged. [in]"""
SHOWS = 5.0
"""Standard deviations by which an exchange must disturb the checks to be named in four surveys of five."""
FURTHER = 1.5
"""A reading whose size is this much over its wall's middling one is named apart."""
TRIED = 2
"""Levels and widths looked at, each: every one is an adjustment of its own."""
_NEAR_DEPTH, _NEAR_HEIGHT = Fraction(4), Fraction(2)


@dataclass(frozen=True)
class Extra:
    """One more measurement, and how many readings it would tell on."""

    say: str
    facts: SurveyFacts
    told: int = 0


def visible(reading: Reliability) -> float:
    """The smallest slip there that is caught in four surveys of five. [in]"""
    least = reading.detectable
    if least is None:
        return float("inf")
    (low, few), (high, many) = HELD_BACK
    share = min(1.0, max(0.0, (least - low) / (high - low)))
    return least * (few + share * (many - few))


def hidden_findings(
    facts: SurveyFacts, room: RoomGrid, fits: Fits, reliability: Sequence[Reliability]
) -> list[Finding]:
    """Where a slip of a quarter inch may not show, in one line, and the one measurement that helps most.

    Parameters
    ----------
    facts : SurveyFacts
    room : RoomGrid
    fits : mapping of (stud, edge) to StudFit
    reliability : sequence of Reliability

    Returns
    -------
    list of Finding
        One, or none: where every slip of 1/4 shows, and where nothing checks anything (said elsewhere).
    """
    sizes = {each.place: visible(each) for each in reliability}
    parts = [part for wall in room.walls.values() if (part := _of_wall(wall, sizes))]
    if not parts:
        return []
    unit = _unit(room)
    best = _best(facts, room, fits, sizes)
    do = Sentence("Look twice at a reading that changes what is done to its stud")
    if best is not None:
        do = Sentence("{what} tells most: it sharpens {told} readings", what=best.say, told=best.told)
    return [
        Finding(
            "slip-would-hide",
            Severity.NOTE,
            "survey",
            Sentence("a slip of {slip} shows wherever it is made", slip=_QUARTER_SAID[unit]),
            Sentence(
                "smaller slips than these would likely not show: {walls}",
                walls=joined(parts, "{first}; {then}"),
            ),
            Sentence("{text}.", text=do),
            "baarda",
            {"told": str(best.told if best is not None else 0)},
        )
    ]


def exchange_findings(room: RoomGrid, look: Explanations) -> list[Finding]:
    """Neighbouring studs whose readings could stand in each other's place and nothing would show it.

    Parameters
    ----------
    room : RoomGrid
    look : Explanations

    Returns
    -------
    list of Finding
        One for all walls, or none.
    """
    pairs, again = [], []
    for wall in room.walls.values():
        own = [
            group
            for group in look.groups
            if group.kind == "rows swapped"
            and group.where.startswith(f"stud {wall.name}")
            and max(abs(d) for d in group.change.values()) > EXCHANGED
            and sqrt(max(0.0, group.curvature)) < SHOWS
        ]
        pairs += [group.where.removeprefix("stud ") for group in own]
        if own:
            seen = look.fit.observations
            change = [(seen[i], abs(d)) for group in own for i, d in group.change.items()]
            count = Counter(name for one in own for name in one.where.removeprefix("stud ").split(" and "))
            most = max(change, key=lambda each: (count[each[0].place.split(" at ")[0]], each[1]))
            again.append(most[0].place)
    if not pairs:
        return []
    named = Sentence("{places}", places=", ".join(pairs[:6]))
    if len(pairs) > 6:
        named = Sentence("{places} and {number} more", places=", ".join(pairs[:6]), number=len(pairs) - 6)
    return [
        Finding(
            "exchange-would-hide",
            Severity.NOTE,
            "survey",
            Sentence("two studs written in each other's place show"),
            Sentence("these would not: {studs}", studs=named),
            Sentence(
                "Read {places} again last, as a repeat: a stud taken for its neighbor shows there.",
                places=", ".join(again),
            ),
            "practice-reading-slips",
        )
    ]


def _cells(wall: WallGrid) -> Iterator[tuple[StudGrid, int, str]]:
    for stud in wall.studs:
        for line in stud.lines():
            for h in line.readings:
                yield stud, h, wall.place(stud.name, h, line.edge)


def _of_wall(wall: WallGrid, sizes: Mapping[str, float]) -> str:
    """``wall L 5/16 (L4 at 2, L4 at 90: 5/8)``; "" where 1/4 shows all over, or nothing would."""
    known = [(place, sizes.get(place, float("inf"))) for _, _, place in _cells(wall)]
    checked = [(place, size) for place, size in known if size <= HELD_BACK[1][1] * ALONE]
    if not checked or max(size for _, size in checked) <= QUARTER:
        return ""
    middle = sorted(size for _, size in checked)[len(checked) // 2]
    far = [(place, size) for place, size in checked if size > FURTHER * middle]
    unit = _wall_unit(wall)
    if not far:
        return Sentence("wall {wall} {size}", wall=wall.name, size=_said(middle, unit))
    named = Sentence("{places}", places=", ".join(place for place, _ in far[:4]))
    if far[4:]:
        named = Sentence(
            "{places} and {number} more",
            places=", ".join(place for place, _ in far[:4]),
            number=len(far) - 4,
        )
    return Sentence(
        "wall {wall} {size} ({places}: {most})",
        wall=wall.name,
        size=_said(middle, unit),
        places=named,
        most=_said(max(size for _, size in far), unit),
    )


def _said(inches: float, unit: Unit) -> str:
    step = SIXTEENTH if unit == "in" else MM
    return format_length(Fraction(inches), unit, mark=True, step=step, rounding="up")


def _wall_unit(wall: WallGrid) -> Unit:
    units = [r.unit for stud in wall.studs for line in stud.lines() for r in line.readings.values()]
    return "mm" if units.count("mm") * 2 > len(units) else "in"


def _unit(room: RoomGrid) -> Unit:
    return _wall_unit(next(iter(room.walls.values())))


def _best(facts: SurveyFacts, room: RoomGrid, fits: Fits, sizes: Mapping[str, float]) -> Extra | None:
    """The level or width that makes the sizes smallest, all readings together."""
    best, gained = None, 0.0
    for extra in (*_levels(facts, room, sizes), *_widths(facts, room, sizes)):
        checks = gather(extra.facts, room, fits)
        after = {r.place: visible(r) for r in reliability_of(adjust_room(fits, checks.used))[0]}
        less = [
            min(size, ALONE) - max(after[place], QUARTER)
            for place, size in sizes.items()
            if place in after and " at " in place and size > QUARTER and size - after[place] > 1 / 32
        ]
        if less and sum(less) > gained:
            best, gained = Extra(extra.say, extra.facts, len(less)), sum(less)
    return best


def _weight(places: Sequence[str], sizes: Mapping[str, float]) -> float:
    return sum(min(sizes.get(place, ALONE), ALONE) - QUARTER for place in places)


def _levels(facts: SurveyFacts, room: RoomGrid, sizes: Mapping[str, float]) -> Iterator[Extra]:
    """A level on the studs where most would hide, from their lowest reading to their highest."""
    held = {level.stud for level in facts.levels.values()}
    rows = []
    for wall in room.walls.values():
        for stud in wall.studs:
            read = sorted(stud.first.readings)
            if len(read) > 1 and stud.name not in held:
                places = [wall.place(stud.name, h) for h in read]
                rows.append((_weight(places, sizes), stud.name, wall, read[0], read[-1]))
    for _, name, wall, low, high in sorted(rows, key=lambda row: (-row[0], row[1]))[:TRIED]:
        level = LevelCheck(
            stud=name,
            low=_length(wall.heights[low]),
            high=_length(wall.heights[high]),
            reading=Length(Fraction(0), "in", "0"),
        )
        said = Sentence(
            "A level on {stud} from {low} to {high}", stud=name, low=wall.labels[low], high=wall.labels[high]
        )
        yield Extra(said, facts.model_copy(update={"levels": {**facts.levels, " new": level}}))


def _widths(facts: SurveyFacts, room: RoomGrid, sizes: Mapping[str, float]) -> Iterator[Extra]:
    """A width at the studs of L and R, at heights where none was taken."""
    left, right = room.walls.get("L"), room.walls.get("R")
    if left is None or right is None:
        return
    rows = []
    for stud in left.studs:
        other = min(right.studs, key=lambda each: abs(each.along - stud.along), default=None)
        for h, z in enumerate(left.heights):
            taken = any(
                abs(w.depth.inches - stud.along) <= _NEAR_DEPTH and abs(w.height.inches - z) <= _NEAR_HEIGHT
                for w in facts.widths.values()
            )
            if other is not None and z in right.heights and not taken and h in stud.first.readings:
                places = [left.place(stud.name, h), right.place(other.name, right.heights.index(z))]
                rows.append((_weight(places, sizes), stud, z, left.labels[h]))
    for _, stud, z, label in sorted(rows, key=lambda row: (-row[0], row[1].along, row[2]))[:TRIED]:
        width = Width(
            depth=_length(stud.along),
            height=_length(z),
            reading=Length(Fraction(60), "in", "60"),
            tool="sticks",
        )
        unit = _wall_unit(left)
        step = SIXTEENTH if unit == "in" else MM
        depth = format_length(stud.along, unit, mark=True, step=step, rounding="nearest")
        said = Sentence("A width {depth} from the back at {height}", depth=depth, height=label)
        yield Extra(said, facts.model_copy(update={"widths": {**facts.widths, " new": width}}))


def _length(inches: Fraction) -> Length:
    return Length(inches, "in", "")
