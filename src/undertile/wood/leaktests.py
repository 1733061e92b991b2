"""What each test of a leak shows: which candidates it excludes or finds, and what it cannot tell.

A test that is too short, too coarse or not watched shows nothing, and says so. Figures without a code behind
them are common practice or ours.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import replace
from fractions import Fraction
from typing import Any

from undertile.lengths import MM, Unit, format_length
from undertile.sentence import Sentence, joined
from undertile.wood.facts import Candidate, Fill, LeakFacts, NextDoor, Outside, Pour
from undertile.wood.leakcold import colds
from undertile.wood.leaklong import lasts, not_too_long
from undertile.wood.leakodd import sensible
from undertile.wood.leakpipes import GALLONS, dials, pressures, psi_of
from undertile.wood.leakshown import LITRES, ZONE_NAMES, ZONES, Asked, Outcome, named, then, volume, wet
from undertile.wood.say import STEP, as_typed, length
from undertile.wood.typed import read_moment

__all__ = ["ZONES", "ZONE_NAMES", "Asked", "Outcome", "outcomes"]

POUR_GALLONS, POUR_MINUTES = 5.0, 15.0
POUR_LITRES = 20
"""What a job in mm is asked to pour, for 5 gallons. [L]"""
FILL_HOURS = 24.0
FELL = Fraction(1, 32)
"""More than this, less what the bowl lost, is a leak (common practice). [in]"""
ROOM_TAKES = Fraction(1, 8)
"""The most a room takes out of a bowl in a day (common practice). [in/d]"""
SENSE: dict[Unit, Fraction] = {"in": FELL, "mm": MM}
"""Two marks are read no closer than this (common practice). [in]"""
SPRAY_MINUTES = 10.0
OUTSIDE_MINUTES = 15.0
NEXT_DOOR_MINUTES = 15.0


_DEEP = ("at the strainer", "below the joint", "past the trap")
"""Plugs by how much of the drain stands under water."""
_HARD: dict[str, Callable[[Any], tuple[float, ...]]] = {
    "dials": lambda it: (float(it.minutes), -float(it.finest) * GALLONS.get(it.unit, 0.0)),
    "pressures": lambda it: (float(it.minutes), psi_of(it)),
    "pours": lambda it: (poured(it) or 0.0, float(it.minutes)),
    "fills": lambda it: (float(it.hours), float(_DEEP.index(it.plug))),
    "sprays": lambda it: (float(it.minutes),),
    "outsides": lambda it: (float(it.minutes),),
    "colds": lambda it: (),
    "next_doors": lambda it: (float(it.minutes),),
}
"""By kind, what makes a test ask more; a meter of an unknown unit is as fine as can be."""


def outcomes(leak: LeakFacts, unit: Unit, *, joists: bool = False) -> tuple[Outcome, ...]:
    """Every test, oldest first.

    Parameters
    ----------
    leak : LeakFacts
    unit : {"in", "mm"}
    joists : bool, optional
        The floor has some: then it is no slab, and somebody can look below.

    Returns
    -------
    tuple of Outcome
    """
    kinds = {
        "dials": dials(leak, unit),
        "pressures": pressures(leak),
        "pours": _pours(leak, unit),
        "fills": _fills(leak, unit),
        "sprays": _sprays(leak),
        "outsides": _outsides(leak),
        "colds": colds(leak, unit),
        "next_doors": _next_doors(leak),
    }
    found = [
        (
            it,
            replace(
                each,
                kind=kind,
                spot=getattr(it, "zone", ""),
                hard=_HARD[kind](it),
                hour=read_moment(it.when).hour,
                lasts=lasts(it),
            ),
        )
        for kind, some in kinds.items()
        for it, each in zip(getattr(leak, kind).values(), some, strict=True)
    ]
    told = not_too_long(sensible(found, joists=joists))
    return tuple(sorted(told, key=lambda each: (each.day, each.test)))


def _day(when: str) -> float:
    return read_moment(when).days


def _pours(leak: LeakFacts, unit: Unit) -> Iterator[Outcome]:
    for name, it in leak.pours.items():
        test, day = Sentence("water down the drain, {name}", name=named(name, it.when)), _day(it.when)
        gallons = poured(it)
        seen = Sentence(
            "{water} poured in, watched {minutes} min from below", water=_water(it, unit), minutes=it.minutes
        )
        if it.below == "not watched":
            yield Outcome(test, day, seen, nothing=Sentence("nobody watched from below"))
        elif it.below == "wet":
            yield Outcome(test, day, then(seen, wet(it.after, it.place)), finds=("drain",))
        elif it.below == "slab":
            yield Outcome(test, day, seen, nothing=_ON_A_SLAB)
        elif gallons is None:
            how = Sentence("say how much was poured")
            yield Outcome(test, day, then(seen, _DRY), nothing=how, asked=_MUCH, say=True)
        elif gallons < POUR_GALLONS or float(it.minutes) < POUR_MINUTES:
            least = Sentence(
                "pour {water} or more and watch {minutes} min",
                water=f"{POUR_GALLONS:g} gal" if unit == "in" else f"{POUR_LITRES} L",
                minutes=f"{POUR_MINUTES:g}",
            )
            yield Outcome(test, day, then(seen, _DRY), nothing=least)
        else:
            yield Outcome(test, day, then(seen, _DRY), excludes=("drain",))


_MUCH = Asked(
    Sentence("gallons or liters poured, one of the two"),
    Sentence("not said how much"),
    Sentence("Say how much; until then it rules nothing out."),
)


def poured(it: Pour) -> float | None:
    """What went down the drain; None where it was not said, or said twice. [gal]"""
    if (it.gallons is None) == (it.litres is None):
        return None
    return float(it.gallons) if it.gallons is not None else float(it.litres or 0) / LITRES


def _water(it: Pour, unit: Unit) -> str:
    """What was poured: as typed where it is of the job's unit, else turned into it."""
    if (gallons := poured(it)) is None:
        return Sentence("water")
    if unit == "in":
        return f"{it.gallons} gal" if it.gallons is not None else volume(gallons, unit)
    return f"{it.litres} L" if it.litres is not None else volume(gallons, unit)


_ON_A_SLAB = Sentence(
    "on a slab nobody sees below: plug the drain past the trap, fill it and the pan, and watch the level"
)
_PLUGS = {
    "at the strainer": Sentence("at the strainer"),
    "below the joint": Sentence("below the joint"),
    "past the trap": Sentence("past the trap"),
}


def _fills(leak: LeakFacts, unit: Unit) -> Iterator[Outcome]:
    source = "flood-control-bowl"
    for name, it in leak.fills.items():
        test, day = Sentence("pan filled, {name}", name=named(name, it.when)), _day(it.when)
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
        parts: tuple[Candidate, ...] = ("pan",) if it.plug == "at the strainer" else ("pan", "drain")
        excludes: tuple[Candidate, ...] = ("pan", "drain") if it.plug == "past the trap" else ("pan",)
        lost = it.drop.inches - (Fraction(0) if it.bowl is None else it.bowl.inches)
        below = Sentence("a slab, nothing to see below") if it.below == "slab" else Sentence("dry below")
        dry = joined([seen, below], "{first}; {then}")
        if it.below == "wet":
            why = joined([seen, wet(None, it.place)], "{first}; {then}")
            if len(parts) == 1:
                yield Outcome(test, day, why, finds=parts, source=source)
            else:
                yield Outcome(test, day, why, one_of=parts, source=source)
        elif lost > FELL and it.bowl is None:
            least = Sentence("set a bowl of water beside it: a room alone takes up to 1/8 in a day")
            yield Outcome(test, day, seen, nothing=least, source=source)
        elif lost > FELL:
            more = Sentence("{lost} more than the bowl; first look at the plug", lost=length(lost, unit))
            yield Outcome(test, day, then(seen, more), one_of=parts, source=source)
        elif (asked := _bowl(it, unit)) is not None:
            again = Sentence("its numbers are asked about: {expected}", expected=asked.expected)
            yield Outcome(test, day, seen, nothing=again, source=source, asked=asked)
        elif it.below == "not watched":
            yield Outcome(test, day, seen, nothing=Sentence("nobody looked below"), source=source)
        elif it.below == "slab" and it.bowl is None:
            least = Sentence("on a slab only the level tells: set a bowl of water beside it")
            yield Outcome(test, day, seen, nothing=least, source=source)
        elif float(it.hours) < FILL_HOURS:
            least = Sentence("leave it {hours} h: a slow leak has not shown yet", hours=f"{FILL_HOURS:g}")
            yield Outcome(test, day, dry, nothing=least, source=source)
        else:
            yield Outcome(test, day, dry, excludes=excludes, source=source)


def _bowl(it: Fill, unit: Unit) -> Asked | None:
    """A bowl that fell as none does: more than the pan beside it, or more than the air of a room takes."""
    if it.bowl is None:
        return None
    most = ROOM_TAKES * Fraction(it.hours) / 24 + SENSE[it.bowl.unit]  # as fine as it was read
    came = Sentence("the pan {pan}, the bowl {bowl}", pan=as_typed(it.drop), bowl=as_typed(it.bowl))
    if it.bowl.inches - it.drop.inches > SENSE[it.bowl.unit]:
        return Asked(
            Sentence("a bowl that falls no more than the pan beside it"),
            came,
            Sentence(
                "Were the two swapped? Type them again or fill it again; until then it rules nothing out."
            ),
            "flood-control-bowl",
        )
    if it.bowl.inches > most:
        taken = format_length(most, unit, mark=True, step=STEP[unit], rounding="down")
        return Asked(
            Sentence(
                "a bowl that falls {most} at the most in {hours} h, as a room takes it",
                most=taken,
                hours=it.hours,
            ),
            came,
            Sentence("Read both marks again, or fill both again; until then it rules nothing out."),
            "flood-control-bowl",
        )
    return None


_DRY = Sentence("dry")
_NOBODY = Sentence("nobody watched")
_DRAINS = {"open": Sentence("open"), "plugged": Sentence("plugged")}


def _sprays(leak: LeakFacts) -> Iterator[Outcome]:
    for name, it in leak.sprays.items():
        zone, day = ZONE_NAMES[it.zone], _day(it.when)
        test = Sentence("spray, {zone}, {name}", zone=zone, name=named(name, it.when))
        if name.replace("-", " ").strip().lower() == it.zone:  # named by its zone: not said twice
            test = Sentence("spray, {name}", name=zone)
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
            yield Outcome(test, day, then(seen, wet(it.after, it.place)), one_of=parts)
        elif float(it.minutes) < SPRAY_MINUTES:
            least = Sentence("spray each zone {minutes} min", minutes=f"{SPRAY_MINUTES:g}")
            yield Outcome(test, day, then(seen, _DRY), nothing=least)
        else:
            yield Outcome(test, day, then(seen, _DRY), zone=it.zone)


def _outsides(leak: LeakFacts) -> Iterator[Outcome]:
    for name, it in leak.outsides.items():
        test, day = Sentence("hose outside, {name}", name=named(name, it.when)), _day(it.when)
        seen = Sentence("wall and window outside wetted {minutes} min", minutes=it.minutes)
        yield _watched(test, day, seen, it, "roof or window", OUTSIDE_MINUTES)


def _next_doors(leak: LeakFacts) -> Iterator[Outcome]:
    for name, it in leak.next_doors.items():
        test, day = Sentence("neighbor's water, {name}", name=named(name, it.when)), _day(it.when)
        seen = Sentence("run {minutes} min", minutes=it.minutes)
        yield _watched(test, day, seen, it, "neighbour", NEXT_DOOR_MINUTES)


def _watched(
    test: str, day: float, seen: str, it: Outside | NextDoor, what: Candidate, least: float
) -> Outcome:
    if it.shows == "not watched":
        return Outcome(test, day, seen, nothing=_NOBODY)
    if it.shows == "wet":
        showed = wet(it.after if isinstance(it, Outside) else None, it.place)
        return Outcome(test, day, then(seen, showed), finds=(what,))
    if float(it.minutes) < least:
        longer = Sentence("keep it up {minutes} min", minutes=f"{least:g}")
        return Outcome(test, day, then(seen, _DRY), nothing=longer)
    return Outcome(test, day, then(seen, _DRY), excludes=(what,))
