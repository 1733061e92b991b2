"""What each test of a leak shows: which candidates it excludes or finds, and what it cannot tell.

A test that is too short, too coarse or not watched shows nothing, and says so. Figures without a code behind
them are common practice or ours.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from undertile.lengths import Unit
from undertile.wood.air import dew_point
from undertile.wood.facts import Candidate, LeakFacts, NextDoor, Outside, Zone
from undertile.wood.say import length
from undertile.wood.typed import fahrenheit_to_celsius, read_fahrenheit, read_moment

ZONES: tuple[Zone, ...] = ("curb", "corners", "lower walls", "valve", "upper walls", "door")
"""Sprayed from the lowest up; all of them before the enclosure is excluded."""
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
    found = [
        *_dials(leak),
        *_pressures(leak),
        *_pours(leak),
        *_fills(leak, unit),
        *_sprays(leak),
        *_outsides(leak),
        *_colds(leak),
        *_next_doors(leak),
    ]
    return tuple(sorted(found, key=lambda each: (each.day, each.test)))


def _day(when: str) -> float:
    return read_moment(when).days


def _dials(leak: LeakFacts) -> Iterator[Outcome]:
    for name, it in leak.dials.items():
        test, day = f"water meter, {name}", _day(it.when)
        per_day = GALLONS[it.unit] * 1440 / float(it.minutes)
        moved = float(it.last - it.first)
        seen = f"from {it.first} to {it.last} {it.unit} in {it.minutes} min, everything off"
        if moved < 0:
            yield Outcome(test, day, seen, nothing="a meter does not run backward: read it again")
        elif moved >= float(it.finest):
            why = f"{seen}: {moved * per_day:.1f} gal a day, somewhere behind the meter"
            yield Outcome(test, day, why, one_of=("supply",))
        elif float(it.finest) * per_day <= SLOWEST:
            why = f"{seen}: no move; {float(it.finest) * per_day:.1f} gal a day would have shown"
            yield Outcome(test, day, why, excludes=("supply",))
        else:
            hours = float(it.finest) * GALLONS[it.unit] * 24 / SLOWEST
            slow = f"up to {float(it.finest) * per_day:.1f} gal a day would not show: watch it {hours:.1f} h"
            yield Outcome(test, day, f"{seen}: no move", nothing=slow)


def _pressures(leak: LeakFacts) -> Iterator[Outcome]:
    for name, it in leak.pressures.items():
        parts: tuple[Candidate, ...] = ("supply", "riser") if it.of == "both" else (it.of,)
        test, day = f"pressure test, {name}", _day(it.when)
        seen = (
            f"{it.medium} in {' and '.join(parts)} ({'hot and cold' if it.sides == 'both' else it.sides}): "
            f"{it.first} psi, {it.last} psi after {it.minutes} min"
        )
        fell = float(it.first - it.last)
        source = "irc-p2503.7"
        if fell < -float(it.finest):
            yield Outcome(test, day, seen, nothing="it rose: the pipe warmed up; wait and begin again")
        elif fell >= float(it.finest):
            why = f"{seen}: it fell; first look at the gauge's own joints"
            if len(parts) == 1:
                yield Outcome(test, day, why, finds=parts, source=source)
            else:
                yield Outcome(test, day, why, one_of=parts, source=source)
        elif float(it.minutes) < HOLD_MINUTES or float(it.first) < HOLD_PSI:
            least = f"hold {HOLD_PSI:g} psi or more for {HOLD_MINUTES:g} min"
            yield Outcome(test, day, f"{seen}: it held", nothing=least, source=source)
        else:
            side = "" if it.sides == "both" else it.sides
            yield Outcome(test, day, f"{seen}: it held", excludes=parts, side=side, source=source)


def _pours(leak: LeakFacts) -> Iterator[Outcome]:
    for name, it in leak.pours.items():
        test, day = f"water down the drain, {name}", _day(it.when)
        seen = f"{it.gallons} gal poured in, watched {it.minutes} min from below"
        if it.below == "not watched":
            yield Outcome(test, day, seen, nothing="nobody watched from below")
        elif it.below == "wet":
            yield Outcome(test, day, f"{seen}: {_wet(it.after, it.place)}", finds=("drain",))
        elif float(it.gallons) < POUR_GALLONS or float(it.minutes) < POUR_MINUTES:
            least = f"pour {POUR_GALLONS:g} gal or more and watch {POUR_MINUTES:g} min"
            yield Outcome(test, day, f"{seen}: dry", nothing=least)
        else:
            yield Outcome(test, day, f"{seen}: dry", excludes=("drain",))


def _fills(leak: LeakFacts, unit: Unit) -> Iterator[Outcome]:
    for name, it in leak.fills.items():
        test, day = f"pan filled, {name}", _day(it.when)
        bowl = "no bowl beside it" if it.bowl is None else f"the bowl {it.bowl.text}"
        seen = f"plugged {it.plug}, {it.hours} h: the pan fell {it.drop.text}, {bowl}"
        parts: tuple[Candidate, ...] = ("pan", "drain") if it.plug == "below the joint" else ("pan",)
        lost = it.drop.inches - (Fraction(0) if it.bowl is None else it.bowl.inches)
        if it.below == "wet":
            why = f"{seen}; {_wet(None, it.place)}"
            if len(parts) == 1:
                yield Outcome(test, day, why, finds=parts, source="flood-control-bowl")
            else:
                yield Outcome(test, day, why, one_of=parts, source="flood-control-bowl")
        elif lost > FELL and it.bowl is None:
            least = "set a bowl of water beside it: a room alone takes up to 1/8 in a day"
            yield Outcome(test, day, seen, nothing=least, source="flood-control-bowl")
        elif lost > FELL:
            why = f"{seen}: {length(lost, unit)} more than the bowl; first look at the plug"
            yield Outcome(test, day, why, one_of=parts, source="flood-control-bowl")
        elif it.below == "not watched":
            yield Outcome(test, day, seen, nothing="nobody looked below", source="flood-control-bowl")
        elif float(it.hours) < FILL_HOURS:
            least = f"leave it {FILL_HOURS:g} h: a slow leak has not shown yet"
            yield Outcome(test, day, f"{seen}; dry below", nothing=least, source="flood-control-bowl")
        else:
            yield Outcome(test, day, f"{seen}; dry below", excludes=("pan",), source="flood-control-bowl")


def _sprays(leak: LeakFacts) -> Iterator[Outcome]:
    for name, it in leak.sprays.items():
        test, day = f"spray, {it.zone}, {name}", _day(it.when)
        seen = f"{it.zone} sprayed {it.minutes} min, drain {it.drain}"
        if it.shows == "not watched":
            yield Outcome(test, day, seen, nothing="nobody watched")
        elif it.shows == "wet":
            parts: tuple[Candidate, ...] = ("enclosure", "pan")
            if it.drain == "open":
                parts = (*parts, "drain")
            yield Outcome(test, day, f"{seen}: {_wet(it.after, it.place)}", one_of=parts)
        elif float(it.minutes) < SPRAY_MINUTES:
            yield Outcome(test, day, f"{seen}: dry", nothing=f"spray each zone {SPRAY_MINUTES:g} min")
        else:
            yield Outcome(test, day, f"{seen}: dry", zone=it.zone)


def _outsides(leak: LeakFacts) -> Iterator[Outcome]:
    for name, it in leak.outsides.items():
        test, day = f"hose outside, {name}", _day(it.when)
        seen = f"wall and window outside wetted {it.minutes} min"
        yield _watched(test, day, seen, it, "roof or window", OUTSIDE_MINUTES)


def _next_doors(leak: LeakFacts) -> Iterator[Outcome]:
    for name, it in leak.next_doors.items():
        test, day = f"neighbour's water, {name}", _day(it.when)
        yield _watched(test, day, f"run {it.minutes} min", it, "neighbour", NEXT_DOOR_MINUTES)


def _watched(
    test: str, day: float, seen: str, it: Outside | NextDoor, what: Candidate, least: float
) -> Outcome:
    if it.shows == "not watched":
        return Outcome(test, day, seen, nothing="nobody watched")
    if it.shows == "wet":
        wet = _wet(it.after if isinstance(it, Outside) else None, it.place)
        return Outcome(test, day, f"{seen}: {wet}", finds=(what,))
    if float(it.minutes) < least:
        return Outcome(test, day, f"{seen}: dry", nothing=f"keep it up {least:g} min")
    return Outcome(test, day, f"{seen}: dry", excludes=(what,))


def _colds(leak: LeakFacts) -> Iterator[Outcome]:
    for name, it in leak.colds.items():
        test, day = f"coldest surface, {name}", _day(it.when)
        air = fahrenheit_to_celsius(read_fahrenheit(it.air))
        if not 0 < it.humidity <= 100:
            seen = f"{it.humidity} percent relative humidity"
            yield Outcome(test, day, seen, nothing="humidity lies from 0 to 100 percent: read it again")
            continue
        dew = dew_point(air, float(it.humidity) / 100) * 9 / 5 + 32
        over = read_fahrenheit(it.surface) - dew
        seen = f"surface {it.surface}, air {it.air} at {it.humidity} percent: dew point {dew:.0f} F"
        source = "ashrae-psychrometrics"
        if over <= 0:
            yield Outcome(test, day, f"{seen}: the surface gets wet", finds=("condensation",), source=source)
        elif over < ABOVE_DEW_F:
            close = f"only {over:.0f} F above: measure on the coldest morning, after a shower"
            yield Outcome(test, day, seen, nothing=close, source=source)
        else:
            why = f"{seen}, {over:.0f} F above it at that hour"
            yield Outcome(test, day, why, excludes=("condensation",), source=source)


def _wet(after: object, place: str) -> str:
    when = "" if after is None else f" after {after} min"
    return f"water showed{when}{f' at {place}' if place else ''}"
