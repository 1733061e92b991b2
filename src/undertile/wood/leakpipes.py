"""Pipes under pressure: the water meter watched, and the gauge of a pressure test.

The finest mark decides what either can show. Two different numbers are never "held" or "no move": apart by a
mark or more they moved, by less they are unclear and rule nothing out. A gauge whose marks are coarser than
the code's shows nothing where they are the same.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from decimal import Decimal
from math import ceil

from undertile.lengths import Unit
from undertile.sentence import Sentence, joined
from undertile.wood.facts import Candidate, LeakFacts, Pressure
from undertile.wood.leakshown import Asked, Outcome, few, named, then, volume
from undertile.wood.say import listed
from undertile.wood.typed import read_moment

_UNITS = {
    "unknown": Sentence("(unit not said)"),
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
MARKS = ((Decimal(10), Decimal("0.1")), (Decimal(100), Decimal(1)))
HIGH_MARK = Decimal(2)
"""Up to each pressure, the coarsest marks of a gauge, and over the last of them (IRC P2503.9). [psi]"""
MOST_PSI = 200
"""No house is tested at more: pipes are made for about 160 psi at most (common practice). [psi]"""
SOURCE, GAUGE = "irc-p2503.7", "irc-p2503.9"

_SAY = Sentence("Say which it was; until then it rules nothing out.")
_ASKED_UNIT = Asked(
    Sentence("gallons, cubic feet or liters"), Sentence("not said what the meter counts"), _SAY
)
_MEDIA = {"water": Sentence("water"), "air": Sentence("air")}
_WITH_WATER = Sentence("made with air: let it off and make it with water")
_NOT_SAID = Sentence("say whether it was made with water or with air")
_ASKED_MEDIUM = Asked(
    Sentence("a test made with water; air only where code and the pipe's maker allow it"),
    Sentence("not said whether water or air"),
    _SAY,
    SOURCE,
)
_ASKED_SIDES = Asked(
    Sentence("hot and cold both held, or each by itself"),
    Sentence("not said which side was held"),
    _SAY,
    SOURCE,
)
_PIPES = {"supply": Sentence("supply"), "riser": Sentence("riser")}
_SIDES = {
    "unknown": Sentence("side not said"),
    "both": Sentence("hot and cold"),
    "hot": Sentence("hot"),
    "cold": Sentence("cold"),
}


def dials(leak: LeakFacts, unit: Unit) -> Iterator[Outcome]:
    """The water meter watched with everything off.

    Parameters
    ----------
    leak : LeakFacts
    unit : {"in", "mm"}

    Yields
    ------
    Outcome
    """
    for name, it in leak.dials.items():
        test = Sentence("water meter, {name}", name=named(name, it.when))
        day = read_moment(it.when).days
        known = it.unit != "unknown"
        per_day = GALLONS[it.unit] * 1440 / float(it.minutes) if known else 0.0
        asked = None if known else _ASKED_UNIT
        moved = it.last - it.first
        seen = Sentence(
            "from {first} to {last} {unit} in {minutes} min, everything off",
            first=it.first,
            last=it.last,
            unit=_UNITS[it.unit],
            minutes=it.minutes,
        )
        if moved < 0:
            back = Sentence("a meter does not run backward: read it again")
            yield Outcome(test, day, seen, nothing=back, asked=asked)
        elif moved >= it.finest:
            said = Sentence("it moved, somewhere behind the meter")
            if known:
                flow = volume(float(moved) * per_day, unit)
                said = Sentence("{flow} a day, somewhere behind the meter", flow=flow)
            yield Outcome(test, day, then(seen, said), one_of=("supply",), asked=asked)
        elif moved > 0:
            less = Sentence("unclear: less than its finest mark, {mark}; watch it longer", mark=it.finest)
            yield Outcome(test, day, seen, nothing=less, asked=asked)
        elif not known:
            say = Sentence("say whether it counts gallons, cubic feet or liters")
            yield Outcome(test, day, then(seen, Sentence("no move")), nothing=say, asked=asked)
        elif float(it.finest) * per_day <= SLOWEST:
            flow = volume(float(it.finest) * per_day, unit)
            said = Sentence("no move; {flow} a day would have shown", flow=flow)
            yield Outcome(test, day, then(seen, said), excludes=("supply",))
        else:
            hours = float(it.finest) * GALLONS[it.unit] * 24 / SLOWEST
            slow = Sentence(
                "up to {flow} a day would not show: watch it {hours} h",
                flow=volume(float(it.finest) * per_day, unit),
                hours=few(ceil(hours) if hours >= 10 else ceil(10 * hours) / 10),
            )
            yield Outcome(test, day, then(seen, Sentence("no move")), nothing=slow)


def pressures(leak: LeakFacts) -> Iterator[Outcome]:
    """Pipes shut off and held under pressure.

    Parameters
    ----------
    leak : LeakFacts

    Yields
    ------
    Outcome
    """
    for name, it in leak.pressures.items():
        parts: tuple[Candidate, ...] = ("supply", "riser") if it.of == "both" else (it.of,)
        test = Sentence("pressure test, {name}", name=named(name, it.when))
        day = read_moment(it.when).days
        seen = Sentence(
            "{pipes} ({sides}), not said whether water or air: {first} psi, {last} psi after {minutes} min"
            if it.medium == "unknown"
            else "{medium} in {pipes} ({sides}): {first} psi, {last} psi after {minutes} min",
            medium=_MEDIA.get(it.medium, ""),
            pipes=listed([_PIPES[each] for each in parts]),
            sides=_SIDES[it.sides],
            first=it.first,
            last=it.last,
            minutes=it.minutes,
        )
        fell = it.first - it.last
        mark = coarsest(it.first) if it.finest is None else it.finest
        side = it.sides if it.sides in ("hot", "cold") else ""
        asked = _asked(it)
        if fell <= -mark:
            rose = Sentence("it rose: the pipe warmed up; wait and begin again")
            yield Outcome(test, day, seen, nothing=rose, asked=asked)
        elif fell >= mark:
            alone = len(parts) == 1
            yield Outcome(
                test,
                day,
                then(seen, Sentence("it fell; first look at the gauge's own joints")),
                finds=parts if alone else (),
                one_of=() if alone else parts,
                side=side,
                source=SOURCE,
                asked=asked,
            )
        elif nothing := _nothing(it, mark):
            same = then(seen, Sentence("the same in the end")) if fell == 0 else seen
            source = GAUGE if mark > coarsest(it.first) else SOURCE
            yield Outcome(test, day, same, nothing=nothing, source=source, asked=asked)
        else:
            held = then(seen, Sentence("it held"))
            yield Outcome(test, day, held, excludes=parts, side=side, source=SOURCE)


def coarsest(psi: Decimal) -> Decimal:
    """The coarsest marks that a gauge may have for a test at a pressure (IRC P2503.9). [psi]"""
    return next((mark for most, mark in MARKS if psi <= most), HIGH_MARK)


def _nothing(it: Pressure, mark: Decimal) -> str:
    """Why pipes that lost less than a mark rule nothing out; "" where they held."""
    if it.medium == "air":
        return _WITH_WATER
    if odd := _out_of_range(it):
        return Sentence("its numbers are asked about: {expected}", expected=odd.expected)
    if mark > coarsest(it.first):
        return Sentence(
            "its gauge is too coarse, {mark} psi a mark: at {first} psi take one with marks of {most} psi or "
            "finer",
            mark=mark,
            first=it.first,
            most=coarsest(it.first),
        )
    if it.first != it.last and it.finest is not None:
        return Sentence(
            "unclear: it changed by less than a mark of {mark} psi; hold it longer, or with a finer gauge",
            mark=mark,
        )
    if float(it.minutes) < HOLD_MINUTES or float(it.first) < HOLD_PSI:
        psi, minutes = f"{HOLD_PSI:g}", f"{HOLD_MINUTES:g}"
        return Sentence("hold {psi} psi or more for {minutes} min", psi=psi, minutes=minutes)
    if it.medium == "unknown":
        return _NOT_SAID
    if it.sides == "unknown":
        return Sentence("say whether hot, cold or both were held")
    if it.finest is None:
        return Sentence("say the finest mark of its gauge")
    return ""


def _asked(it: Pressure) -> Asked | None:
    """All that one test is asked; first of all numbers that cannot be so."""
    if odd := _out_of_range(it):
        return odd
    lacks = [_ASKED_MEDIUM] if it.medium == "unknown" else []
    lacks += [_ASKED_SIDES] if it.sides == "unknown" else []
    lacks += [_asked_mark(it)] if it.finest is None else []
    if not lacks:
        return None
    first: Asked = lacks[0]
    expected, came = _all([each.expected for each in lacks]), _all([each.came for each in lacks])
    return replace(first, expected=expected, came=came)


def _out_of_range(it: Pressure) -> Asked | None:
    """A pressure that no house's pipes are tested at."""
    if min(it.first, it.last) >= 0 and max(it.first, it.last) <= MOST_PSI:
        return None
    return Asked(
        Sentence("a water test from 0 to {most} psi", most=MOST_PSI),
        Sentence("{first} psi, {last} psi in the end", first=it.first, last=it.last),
        Sentence(
            "If it is so, let it off: pipes and fittings can burst. Read the gauge again and test with water "
            "at what the pipe's maker allows; until then it rules nothing out."
        ),
        SOURCE,
    )


def _asked_mark(it: Pressure) -> Asked:
    most = coarsest(it.first)
    expected = Sentence("a gauge with marks of {most} psi or finer at {first} psi", most=most, first=it.first)
    say = Sentence("Say its finest mark; until then it rules nothing out.")
    return Asked(expected, Sentence("not said what its gauge's finest mark is"), say, GAUGE)


def _all(said: Sequence[str]) -> str:
    return joined(said, "{first}; {then}")
