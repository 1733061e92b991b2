"""What each test of a leak shows: which candidates it excludes or finds, and what it cannot tell.

A test that is too short, too coarse or not watched shows nothing, and says so. Figures without a code behind
them are common practice or ours.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from fractions import Fraction
from math import ceil

from undertile.lengths import Unit
from undertile.sentence import Sentence, joined
from undertile.wood.air import dew_point
from undertile.wood.facts import Candidate, LeakFacts, NextDoor, Outside, Zone
from undertile.wood.say import as_typed, length, listed
from undertile.wood.typed import fahrenheit_to_celsius, read_fahrenheit, read_moment

ZONES: tuple[Zone, ...] = ("curb", "corners", "lower walls", "valve", "upper walls", "door")
"""Sprayed from the lowest up; all of them before the enclosure is excluded."""
ZONE_NAMES: dict[Zone, Sentence] = {
    "curb": Sentence("curb"),
    "corners": Sentence("corners"),
    "lower walls": Sentence("lower walls"),
    "valve": Sentence("valve"),
    "upper walls": Sentence("upper walls"),
    "door": Sentence("door"),
    "window": Sentence("window"),
}
_UNITS = {
    "gallons": Sentence("gallons"),
    "cubic feet": Sentence("cubic feet"),
    "litres": Sentence("litres"),
}
GALLONS = {"gallons": 1.0, "cubic feet": 7.48052, "litres": 0.264172}
SLOWEST = 1.0
"""A leak the meter's dial must have shown before the supply is excluded (ours). [gal/d]"""
HOLD_MINUTES = 15.0
HOLD_PSI = 50.0
"""A supply test: 15 minutes; with a pump at 50 psi or more (IRC P2503.7, from memory)."""
POUR_GALLONS, POUR_MINUTES = 5.0, 15.0
FILL_HOURS = 24.0
FELL = Fraction(1, 32)
"""More than this, less what the bowl lost, is a leak (common practice). [in]"""
SPRAY_MINUTES = 10.0
OUTSIDE_MINUTES = 15.0
NEXT_DOOR_MINUTES = 15.0
ABOVE_DEW_F = 5.0
"""A surface warmer than the dew point by less may still get wet at another hour (ours). [deg F]"""


@dataclass(frozen=True)
class Outcome:
    """What one test shows.

    Attributes
    ----------
    test : str
        ``water meter``, ``spray, corners`` ... with its name.
    day : float
        [d]
    why : str
        With its numbers.
    finds, excludes : tuple of Candidate
    one_of : tuple of Candidate
        At least one of these leaks, this test cannot tell which.
    nothing : str
        Why it shows nothing, or not all; "" where it does.
    zone : Zone or None
        Passed dry.
    side : str
        Of a supply test that excludes one side only: ``hot`` or ``cold``.
    kind : str
        The table of the facts that its numbers stand in; "" of what the readings show.
    source : str
    """

    test: str
    day: float
    why: str
    finds: tuple[Candidate, ...] = ()
    excludes: tuple[Candidate, ...] = ()
    one_of: tuple[Candidate, ...] = ()
    nothing: str = ""
    zone: Zone | None = None
    side: str = ""
    kind: str = ""
    source: str = "practice-leak-tests"


def outcomes(leak: LeakFacts, unit: Unit) -> tuple[Outcome, ...]:
    """Every test, oldest first.

    Parameters
    ----------
    leak : LeakFacts
    unit : {"in", "mm"}

    Returns
    -------
    tuple of Outcome
    """
    kinds = {
        "dials": _dials(leak),
        "pressures": _pressures(leak),
        "pours": _pours(leak),
        "fills": _fills(leak, unit),
        "sprays": _sprays(leak),
        "outsides": _outsides(leak),
        "colds": _colds(leak),
        "next_doors": _next_doors(leak),
    }
    found = [replace(each, kind=kind) for kind, some in kinds.items() for each in some]
    return tuple(sorted(found, key=lambda each: (each.day, each.test)))


def _day(when: str) -> float:
    return read_moment(when).days


def _few(value: float) -> str:
    """A figure with no more digits than it means: whole from ten on, tenths below."""
    return f"{value:,.0f}" if value >= 10 else f"{value:.1f}".removesuffix(".0")


def _dials(leak: LeakFacts) -> Iterator[Outcome]:
    for name, it in leak.dials.items():
        test, day = Sentence("water meter, {name}", name=name), _day(it.when)
        per_day = GALLONS[it.unit] * 1440 / float(it.minutes)
        moved = float(it.last - it.first)
        seen = Sentence(
            "from {first} to {last} {unit} in {minutes} min, everything off",
            first=it.first,
            last=it.last,
            unit=_UNITS[it.unit],
            minutes=it.minutes,
        )
        if moved < 0:
            back = Sentence("a meter does not run backward: read it again")
            yield Outcome(test, day, seen, nothing=back)
        elif moved >= float(it.finest):
            flow = _few(moved * per_day)
            said = Sentence("{flow} gal a day, somewhere behind the meter", flow=flow)
            yield Outcome(test, day, _then(seen, said), one_of=("supply",))
        elif float(it.finest) * per_day <= SLOWEST:
            flow = _few(float(it.finest) * per_day)
            said = Sentence("no move; {flow} gal a day would have shown", flow=flow)
            yield Outcome(test, day, _then(seen, said), excludes=("supply",))
        else:
            hours = float(it.finest) * GALLONS[it.unit] * 24 / SLOWEST
            slow = Sentence(
                "up to {flow} gal a day would not show: watch it {hours} h",
                flow=_few(float(it.finest) * per_day),
                hours=_few(ceil(hours) if hours >= 10 else ceil(10 * hours) / 10),
            )
            yield Outcome(test, day, _then(seen, Sentence("no move")), nothing=slow)


_MEDIA = {"water": Sentence("water"), "air": Sentence("air")}
_PIPES = {"supply": Sentence("supply"), "riser": Sentence("riser")}
_SIDES = {"both": Sentence("hot and cold"), "hot": Sentence("hot"), "cold": Sentence("cold")}
_HELD = Sentence("it held")
_DRY = Sentence("dry")
_NOBODY = Sentence("nobody watched")


def _pressures(leak: LeakFacts) -> Iterator[Outcome]:
    for name, it in leak.pressures.items():
        parts: tuple[Candidate, ...] = ("supply", "riser") if it.of == "both" else (it.of,)
        test, day = Sentence("pressure test, {name}", name=name), _day(it.when)
        seen = Sentence(
            "{medium} in {pipes} ({sides}): {first} psi, {last} psi after {minutes} min",
            medium=_MEDIA[it.medium],
            pipes=listed([_PIPES[each] for each in parts]),
            sides=_SIDES[it.sides],
            first=it.first,
            last=it.last,
            minutes=it.minutes,
        )
        fell = float(it.first - it.last)
        source = "irc-p2503.7"
        if fell < -float(it.finest):
            rose = Sentence("it rose: the pipe warmed up; wait and begin again")
            yield Outcome(test, day, seen, nothing=rose)
        elif fell >= float(it.finest):
            why = _then(seen, Sentence("it fell; first look at the gauge's own joints"))
            if len(parts) == 1:
                yield Outcome(test, day, why, finds=parts, source=source)
            else:
                yield Outcome(test, day, why, one_of=parts, source=source)
        elif float(it.minutes) < HOLD_MINUTES or float(it.first) < HOLD_PSI:
            least = Sentence(
                "hold {psi} psi or more for {minutes} min", psi=f"{HOLD_PSI:g}", minutes=f"{HOLD_MINUTES:g}"
            )
            yield Outcome(test, day, _then(seen, _HELD), nothing=least, source=source)
        else:
            side = "" if it.sides == "both" else it.sides
            yield Outcome(test, day, _then(seen, _HELD), excludes=parts, side=side, source=source)


def _pours(leak: LeakFacts) -> Iterator[Outcome]:
    for name, it in leak.pours.items():
        test, day = Sentence("water down the drain, {name}", name=name), _day(it.when)
        seen = Sentence(
            "{gallons} gal poured in, watched {minutes} min from below",
            gallons=it.gallons,
            minutes=it.minutes,
        )
        if it.below == "not watched":
            yield Outcome(test, day, seen, nothing=Sentence("nobody watched from below"))
        elif it.below == "wet":
            yield Outcome(test, day, _then(seen, _wet(it.after, it.place)), finds=("drain",))
        elif float(it.gallons) < POUR_GALLONS or float(it.minutes) < POUR_MINUTES:
            least = Sentence(
                "pour {gallons} gal or more and watch {minutes} min",
                gallons=f"{POUR_GALLONS:g}",
                minutes=f"{POUR_MINUTES:g}",
            )
            yield Outcome(test, day, _then(seen, _DRY), nothing=least)
        else:
            yield Outcome(test, day, _then(seen, _DRY), excludes=("drain",))


_PLUGS = {
    "at the strainer": Sentence("at the strainer"),
    "below the joint": Sentence("below the joint"),
}


def _fills(leak: LeakFacts, unit: Unit) -> Iterator[Outcome]:
    source = "flood-control-bowl"
    for name, it in leak.fills.items():
        test, day = Sentence("pan filled, {name}", name=name), _day(it.when)
        bowl = Sentence("no bowl beside it")
        if it.bowl is not None:
            bowl = Sentence("the bowl {fell}", fell=as_typed(it.bowl))
        seen = Sentence(
            "plugged {plug}, {hours} h: the pan fell {fell}, {bowl}",
            plug=_PLUGS[it.plug],
            hours=it.hours,
            fell=as_typed(it.drop),
            bowl=bowl,
        )
        parts: tuple[Candidate, ...] = ("pan", "drain") if it.plug == "below the joint" else ("pan",)
        lost = it.drop.inches - (Fraction(0) if it.bowl is None else it.bowl.inches)
        dry = joined([seen, Sentence("dry below")], "{first}; {then}")
        if it.below == "wet":
            why = joined([seen, _wet(None, it.place)], "{first}; {then}")
            if len(parts) == 1:
                yield Outcome(test, day, why, finds=parts, source=source)
            else:
                yield Outcome(test, day, why, one_of=parts, source=source)
        elif lost > FELL and it.bowl is None:
            least = Sentence("set a bowl of water beside it: a room alone takes up to 1/8 in a day")
            yield Outcome(test, day, seen, nothing=least, source=source)
        elif lost > FELL:
            more = Sentence("{lost} more than the bowl; first look at the plug", lost=length(lost, unit))
            yield Outcome(test, day, _then(seen, more), one_of=parts, source=source)
        elif it.below == "not watched":
            yield Outcome(test, day, seen, nothing=Sentence("nobody looked below"), source=source)
        elif float(it.hours) < FILL_HOURS:
            least = Sentence("leave it {hours} h: a slow leak has not shown yet", hours=f"{FILL_HOURS:g}")
            yield Outcome(test, day, dry, nothing=least, source=source)
        else:
            yield Outcome(test, day, dry, excludes=("pan",), source=source)


_DRAINS = {"open": Sentence("open"), "plugged": Sentence("plugged")}


def _sprays(leak: LeakFacts) -> Iterator[Outcome]:
    for name, it in leak.sprays.items():
        zone, day = ZONE_NAMES[it.zone], _day(it.when)
        test = Sentence("spray, {zone}, {name}", zone=zone, name=name)
        seen = Sentence(
            "{zone} sprayed {minutes} min, drain {drain}",
            zone=zone,
            minutes=it.minutes,
            drain=_DRAINS[it.drain],
        )
        if it.shows == "not watched":
            yield Outcome(test, day, seen, nothing=_NOBODY)
        elif it.shows == "wet":
            parts: tuple[Candidate, ...] = ("enclosure", "pan")
            if it.drain == "open":
                parts = (*parts, "drain")
            yield Outcome(test, day, _then(seen, _wet(it.after, it.place)), one_of=parts)
        elif float(it.minutes) < SPRAY_MINUTES:
            least = Sentence("spray each zone {minutes} min", minutes=f"{SPRAY_MINUTES:g}")
            yield Outcome(test, day, _then(seen, _DRY), nothing=least)
        else:
            yield Outcome(test, day, _then(seen, _DRY), zone=it.zone)


def _outsides(leak: LeakFacts) -> Iterator[Outcome]:
    for name, it in leak.outsides.items():
        test, day = Sentence("hose outside, {name}", name=name), _day(it.when)
        seen = Sentence("wall and window outside wetted {minutes} min", minutes=it.minutes)
        yield _watched(test, day, seen, it, "roof or window", OUTSIDE_MINUTES)


def _next_doors(leak: LeakFacts) -> Iterator[Outcome]:
    for name, it in leak.next_doors.items():
        test, day = Sentence("neighbor's water, {name}", name=name), _day(it.when)
        seen = Sentence("run {minutes} min", minutes=it.minutes)
        yield _watched(test, day, seen, it, "neighbour", NEXT_DOOR_MINUTES)


def _watched(
    test: str, day: float, seen: str, it: Outside | NextDoor, what: Candidate, least: float
) -> Outcome:
    if it.shows == "not watched":
        return Outcome(test, day, seen, nothing=_NOBODY)
    if it.shows == "wet":
        wet = _wet(it.after if isinstance(it, Outside) else None, it.place)
        return Outcome(test, day, _then(seen, wet), finds=(what,))
    if float(it.minutes) < least:
        longer = Sentence("keep it up {minutes} min", minutes=f"{least:g}")
        return Outcome(test, day, _then(seen, _DRY), nothing=longer)
    return Outcome(test, day, _then(seen, _DRY), excludes=(what,))


def _colds(leak: LeakFacts) -> Iterator[Outcome]:
    source = "ashrae-psychrometrics"
    for name, it in leak.colds.items():
        test, day = Sentence("coldest surface, {name}", name=name), _day(it.when)
        air = fahrenheit_to_celsius(read_fahrenheit(it.air))
        if not 0 < it.humidity <= 100:
            seen = Sentence("{humidity} percent relative humidity", humidity=it.humidity)
            odd = Sentence("humidity lies from 0 to 100 percent: read it again")
            yield Outcome(test, day, seen, nothing=odd)
            continue
        dew = dew_point(air, float(it.humidity) / 100) * 9 / 5 + 32
        over = read_fahrenheit(it.surface) - dew
        seen = Sentence(
            "surface {surface}, air {air} at {humidity} percent: dew point {dew} F",
            surface=it.surface,
            air=it.air,
            humidity=it.humidity,
            dew=f"{dew:.0f}",
        )
        if over <= 0:
            why = _then(seen, Sentence("the surface gets wet"))
            yield Outcome(test, day, why, finds=("condensation",), source=source)
        elif over < ABOVE_DEW_F:
            close = Sentence(
                "only {over} F above: measure on the coldest morning, after a shower", over=f"{over:.0f}"
            )
            yield Outcome(test, day, seen, nothing=close, source=source)
        else:
            why = Sentence("{seen}, {over} F above it at that hour", seen=seen, over=f"{over:.0f}")
            yield Outcome(test, day, why, excludes=("condensation",), source=source)


def _then(seen: str, said: str) -> str:
    return joined([seen, said], "{first}: {then}")


def _wet(after: object, place: str) -> str:
    if after is None:
        return Sentence("water showed at {place}", place=place) if place else Sentence("water showed")
    if place:
        return Sentence("water showed after {minutes} min at {place}", minutes=after, place=place)
    return Sentence("water showed after {minutes} min", minutes=after)
