"""The floor under the pan as it was read: is it within its limit, what is not shown, the least work.

Readings hang down from the level line: a larger one is a lower floor. Heights here are minus the reading.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from math import sqrt

from undertile.findings import Check, Finding, Severity
from undertile.floor.facts import Level, LevelMinutes, Spot
from undertile.floor.levelgrid import Footprint, footprint_of, missing
from undertile.floor.levelling import Ground, Levelled, Limits, Rates, spread
from undertile.floor.openend import MayGo
from undertile.floor.sloping import least_work
from undertile.lengths import Length, Unit
from undertile.pan.judge import Topic
from undertile.pan.say import say
from undertile.sentence import Sentence, joined, listed
from undertile.survey.facts import Reading

ZERO = Fraction(0)
LIMIT = Fraction(1, 8)
"""Highest to lowest under the pan, until its sheet says otherwise (common practice). [in]"""
MOST_OFF = {"wood": Fraction(1, 16), "concrete": Fraction(1, 4), "unknown": Fraction(1, 16)}
"""Most taken off: wood is sanded, concrete ground; not known is wood (ours). [in]"""
MOST_FILL = Fraction(1, 2)
"""Most filled in one go (ours; the bag's label decides). [in]"""
SIGMA = Fraction(1, 32)
"""Standard uncertainty of one reading from a laser line by a rule. [in]"""
RATES = Rates(*(Fraction(each) for each in (15, 6, 2, 10, 4, 1)))
"""Off: set up with dust extraction, a place, each 1/16; filling: mix, a place, each 1/16 (ours). [min]"""
_ASKED = 4


Cut = tuple[Fraction, Fraction, Fraction, Fraction]
"""A piece of the floor's top layer that goes out: left, right, back, front, from the two walls. [in]"""


@dataclass(frozen=True)
class PlaceWork:
    """What is done at one place: minus off, plus filled. [in]"""

    name: str
    x: Fraction
    y: Fraction
    reading: Fraction
    amount: Fraction


@dataclass(frozen=True)
class LevelAnswer:
    """The floor under the pan.

    Attributes
    ----------
    footprint : Footprint or None
    places : tuple of PlaceWork
        Every place read under the pan, with what is done there.
    on_old : tuple of str
        Spots under the pan to be read on the new panel: the patch takes out what was read there, if it was.
    work : Levelled or None
        None while the footprint is not read as a whole, or the pan's size is missing.
    lies_between : (Fraction, Fraction) or None
        Readings that the finished floor lies between at the footprint's middle: lowest surface, highest. [in]
    checks : tuple of Check
    findings : tuple of Finding
    unsure : tuple of str
        Spots read on wood that may still go out, for the wet extent is open at that end: not counted.
    """

    footprint: Footprint | None = None
    places: tuple[PlaceWork, ...] = ()
    on_old: tuple[str, ...] = ()
    work: Levelled | None = None
    lies_between: tuple[Fraction, Fraction] | None = None
    checks: tuple[Check, ...] = ()
    findings: tuple[Finding, ...] = ()
    unsure: tuple[str, ...] = ()


def level_answer(
    level: Level,
    pan: tuple[Fraction | None, Fraction | None],
    unit: Unit = "in",
    cut_out: Sequence[Cut] = (),
    open_ends: Sequence[MayGo] = (),
) -> LevelAnswer:
    """Judge the readings and find the least work.

    Parameters
    ----------
    level : Level
    pan : (Fraction or None, Fraction or None)
        The pan's actual width and depth, for a footprint that is not entered. [in]
    unit : {"in", "mm"}
    cut_out : sequence of Cut
        Where the patch takes the floor's top layer out: a reading there is of wood that goes out.
    open_ends : sequence of MayGo
        Where it may still go out: a reading there is not counted.

    Returns
    -------
    LevelAnswer
        Empty where nothing of the floor was read.
    """
    if not level.spots:
        return LevelAnswer()
    limit = LIMIT if level.limit is None else level.limit.inches
    topic = Topic("pan-floor-level", "Floor under the pan", "floor under the pan", "practice-pan-floor")
    asked = _asked(level, limit, unit)
    ground = footprint_of(level, pan)
    if ground is None:
        step = Sentence("Measure the pan's width and depth, or enter its footprint.")
        return LevelAnswer(checks=(topic.not_shown(asked, step),))
    names, places, readings, on_old, unsure = [], [], [], [], []
    unread: dict[str, Spot] = {}
    for name, spot in level.spots.items():
        x, y = spot.x.inches, spot.y.inches
        if not ground.holds(x, y):
            continue
        reading = _taken(spot)
        if not spot.on_new and any(a <= x <= b and c <= y <= d for a, b, c, d in cut_out):
            on_old.append(name)
        elif not spot.on_new and isinstance(reading, Length) and any(e.holds(x, y) for e in open_ends):
            unsure.append(name)
        elif isinstance(reading, Length):
            names.append(name)
            readings.append(reading.inches)
            places.append(Ground(x, y, -reading.inches))
        else:
            unread[name] = spot
    odd = tuple(odd_spots(level, unit))
    if on_old or unsure:
        because = _ends(names, places, unit) if len(places) > 1 else ()
        later = [
            Ground(level.spots[name].x.inches, level.spots[name].y.inches, ZERO)
            for name in (*on_old, *unsure)
        ]
        first = _read_first(level, ground, [*places, *later], unread, unit)
        steps = (_probe_first(unsure, open_ends), first, _read_on_new(level, on_old) if on_old else "")
        do = joined([each for each in steps if each], "{first} {then}")
        check = topic.not_shown(asked, do, because)
        rows = tuple(
            PlaceWork(name, at.x, at.y, -at.height, ZERO) for name, at in zip(names, places, strict=True)
        )
        return LevelAnswer(ground, rows, tuple(on_old), checks=(check,), findings=odd, unsure=tuple(unsure))
    if not places:
        step = Sentence("Read the floor under the pan from the level line, its four corners first.")
        return LevelAnswer(ground, checks=(topic.not_shown(asked, step),), findings=odd)
    slope = ZERO if level.slope is None else level.slope.inches / 12
    apart = spread(places, slope)
    first = _read_first(level, ground, places, unread, unit)
    check = _judged(topic, level, apart, limit, asked, names, places, first, unit)
    if first:  # what is filled or taken off may be another once it is read
        rows = tuple(
            PlaceWork(name, at.x, at.y, -at.height, ZERO) for name, at in zip(names, places, strict=True)
        )
        return LevelAnswer(ground, rows, checks=(check,), findings=odd)
    limits = Limits(limit, _most_off(level), _most_fill(level), slope)
    work = least_work(places, limits, rates_of(level.minutes))
    findings = (*odd, *_findings(level, work, unit))
    amounts = work.amounts or (ZERO,) * len(places)
    rows = tuple(
        PlaceWork(name, at.x, at.y, reading, amount)
        for name, at, reading, amount in zip(names, places, readings, amounts, strict=True)
    )
    between = None
    if work.plane is not None:
        middle = work.plane.at((ground.left + ground.right) / 2, (ground.back + ground.front) / 2)
        between = (-middle, -middle - limit)
    return LevelAnswer(ground, rows, (), work, between, (check,), findings)


def _taken(spot: Spot) -> Reading:
    """The reading that counts: the one on the new panel, where there is one."""
    return spot.on_new or spot.reading


def _probe_first(names: Sequence[str], open_ends: Sequence[MayGo]) -> str:
    """What to read with the moisture meter before any of these counts."""
    if not names:
        return ""
    probes = [each.probe for each in open_ends if each.probe]
    if not probes:
        return Sentence(
            "The wet extent is open at an end: read the subfloor further that way first; {names} may be of "
            "wood that goes out.",
            names=listed(names),
        )
    return Sentence(
        "The wet extent is open at an end: probe {place} first; {names} may be of wood that goes out.",
        place=probes[0],
        names=listed(names),
    )


def _read_on_new(level: Level, names: Sequence[str]) -> str:
    """What to do while the patch is not laid: which to read on it, and why what was read does not count."""
    old = [name for name in names if isinstance(level.spots[name].reading, Length)]
    if not old:
        return Sentence("Once the new panel lies, read {names} on it.", names=listed(names))
    if len(old) == len(names):
        return Sentence(
            "Once the new panel lies, read {names} on it: what was read there is of wood that goes out.",
            names=listed(names),
        )
    return Sentence(
        "Once the new panel lies, read {names} on it: what was read at {old} is of wood that goes out.",
        names=listed(names),
        old=listed(old),
    )


def _read_first(
    level: Level, ground: Footprint, places: Sequence[Ground], unread: dict[str, Spot], unit: Unit
) -> str:
    """What of the footprint is to be read before it is judged as a whole; "" where it is read.

    A spot that is laid out and not read is named, at its own place; only what no spot covers is asked for
    by a place of its own.
    """
    if not any(missing(level, ground, places)):
        return ""
    steps: list[str] = []
    if len(unread) == 1:
        ((name, spot),) = unread.items()
        x, y = say(spot.x.inches, unit), say(spot.y.inches, unit)
        steps.append(
            Sentence(
                "{name} is not read: read it first, {x} from the left wall, {y} from the back.",
                name=name,
                x=x,
                y=y,
            )
        )
    elif unread:
        names: list[str] = [*unread][:_ASKED]
        if len(unread) > _ASKED:
            names.append(Sentence("{count} more", count=len(unread) - _ASKED))
        steps.append(Sentence("{names} are not read: read them first.", names=listed(names)))
    laid_out = [Ground(spot.x.inches, spot.y.inches, ZERO) for spot in unread.values()]
    gaps = list(missing(level, ground, [*places, *laid_out]))
    if gaps:
        spots: list[str] = [
            Sentence("{x} from the left wall, {y} from the back", x=say(x, unit), y=say(y, unit))
            for x, y in gaps[:_ASKED]
        ]
        if len(gaps) > _ASKED:
            spots.append(Sentence("{count} more", count=len(gaps) - _ASKED))
        steps.append(Sentence("Read the floor at {spots}.", spots=joined(spots, "{first}; {then}")))
    return joined(steps, "{first} {then}")


def _ends(names: Sequence[str], places: Sequence[Ground], unit: Unit) -> tuple[str, ...]:
    """The highest and the lowest of what is read."""
    high = max(range(len(places)), key=lambda i: places[i].height)
    low = min(range(len(places)), key=lambda i: places[i].height)
    return (
        Sentence(
            "{count} places read; highest at {high}, lowest at {low}",
            count=len(places),
            high=names[high],
            low=names[low],
        ),
        Sentence(
            "readings {high} and {low}",
            high=say(-places[high].height, unit),
            low=say(-places[low].height, unit),
        ),
    )


def _judged(
    topic: Topic,
    level: Level,
    apart: Fraction,
    limit: Fraction,
    asked: str,
    names: Sequence[str],
    places: Sequence[Ground],
    first: str,
    unit: Unit,
) -> Check:
    """Fail shows as soon as two readings say so; pass only with the whole footprint read."""
    because = _ends(names, places, unit)
    if first and apart <= limit:
        return topic.not_shown(asked, first, because)
    sigma = float(SIGMA if level.sigma is None else level.sigma.inches)
    return topic.judge(
        apart,
        None,
        limit,
        unit,
        sigma=sigma * sqrt(2),
        because=because,
        fix=first or Sentence("Take off and fill as listed, then read it again."),
    )


def _asked(level: Level, limit: Fraction, unit: Unit) -> str:
    if level.slope is None or level.slope.inches == 0:
        return Sentence("within {limit}, level", limit=say(limit, unit))
    return Sentence(
        "within {limit} of a plane that falls {slope} in a foot at most, along either wall",
        limit=say(limit, unit),
        slope=say(level.slope.inches, unit),
    )


def _most_off(level: Level) -> Fraction:
    return MOST_OFF[level.surface] if level.most_off is None else level.most_off.inches


def _most_fill(level: Level) -> Fraction:
    return MOST_FILL if level.most_fill is None else level.most_fill.inches


def rates_of(minutes: LevelMinutes) -> Rates:
    """Minutes of the work, what is left out at ours."""
    named = {}
    for name in LevelMinutes.model_fields:
        own = getattr(minutes, name)
        named[name] = getattr(RATES, name) if own is None else Fraction(own)
    return Rates(**named)


def odd_spots(level: Level, unit: Unit) -> Iterator[Finding]:
    """Two readings at one place, or a reading that is far from all others: read again, nothing is dropped."""
    at: dict[tuple[Fraction, Fraction], str] = {}
    for name, spot in level.spots.items():
        key = (spot.x.inches, spot.y.inches)
        if key in at:
            yield Finding(
                "floor-spot-twice",
                Severity.ACT,
                f"floor at {name}",
                Sentence("one reading at one place"),
                Sentence(
                    "{name} is at the same place, {x} and {y}",
                    name=at[key],
                    x=say(key[0], unit),
                    y=say(key[1], unit),
                ),
                Sentence("Keep one, or correct where it is."),
                "convention-7",
            )
        at.setdefault(key, name)
    taken = {name: _taken(spot) for name, spot in level.spots.items()}
    read = sorted(each.inches for each in taken.values() if isinstance(each, Length))
    if len(read) < 3:
        return
    middle = read[len(read) // 2]
    for name, reading in taken.items():
        if isinstance(reading, Length) and abs(reading.inches - middle) >= 1:
            yield Finding(
                "floor-spot-odd",
                Severity.ACT,
                f"floor at {name}",
                Sentence("a reading near the others' {middle}", middle=say(middle, unit)),
                Sentence("it reads {reading}", reading=say(reading.inches, unit)),
                Sentence("Read it again: an inch or more off is a slip, a hole or a missing panel."),
                "practice-reading-slips",
            )


def _findings(level: Level, work: Levelled, unit: Unit) -> Iterator[Finding]:
    if work.plane is None:
        yield Finding(
            "pan-floor-no-plane",
            Severity.ACT,
            "floor under the pan",
            Sentence(
                "a plane with {off} off, {filled} filled at most",
                off=say(_most_off(level), unit),
                filled=say(_most_fill(level), unit),
            ),
            Sentence("no plane does: the floor is too far out"),
            Sentence("Lift the panel and pack or plane down the joists, or lay a mortar bed."),
            "practice-pan-floor",
        )
    elif not work.proved:
        yield Finding(
            "pan-floor-bound",
            Severity.NOTE,
            "floor under the pan",
            Sentence("the least work, proved"),
            Sentence(
                "{minutes} minutes, and no plan takes fewer than {least}",
                minutes=work.minutes,
                least=work.least_minutes,
            ),
            Sentence("Use it; a plan with fewer minutes may exist."),
            "convention-4",
        )
