"""Pipes under pressure: the water meter watched, and the gauge of a pressure test.

The finest mark decides what either can show. Two different numbers are never "held" or "no move": apart by a
mark or more they moved, by less they are unclear and rule nothing out. A gauge whose marks are coarser than
the code's shows nothing where they are the same. A gauge is read in the unit of its dial (``gauge``).
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace
from decimal import Decimal
from fractions import Fraction
from math import ceil

from undertile.lengths import Unit
from undertile.sentence import Sentence, form, joined
from undertile.wood.facts import Candidate, LeakFacts, Pressure
from undertile.wood.gauge import PSI, Reads, at_least, at_most, psi
from undertile.wood.gauge import mark as mark_of
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
_SAY_GAUGE = Sentence("say whether its gauge reads psi, bar or kPa")
_SAY_PIPES = Sentence("say which pipes were held")
_SAY_SIDES = Sentence("say whether hot, cold or both were held")
_SAY_MARK = Sentence("say the finest mark of its gauge")
_LACKS = (_NOT_SAID, _SAY_GAUGE, _SAY_PIPES, _SAY_SIDES, _SAY_MARK)
"""What only a word is missing for."""
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
_ASKED_OF = Asked(
    Sentence("the supply, or the riser with the head capped and the valve open, or both"),
    Sentence("not said which pipes were held"),
    _SAY,
    SOURCE,
)
_ASKED_GAUGE = Asked(
    Sentence("a gauge in psi, bar or kPa"), Sentence("not said what its gauge reads in"), _SAY, SOURCE
)
_PIPES = {"supply": Sentence("supply"), "riser": Sentence("riser")}
_NO_PIPES = Sentence("pipes not said")
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
            yield Outcome(test, day, then(seen, Sentence("no move")), nothing=say, asked=asked, say=True)
        elif float(it.finest) * per_day <= SLOWEST:
            flow = volume(float(it.finest) * per_day, unit, least=True)
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


def psi_of(it: Pressure) -> float:
    """Pressure at the first, where nobody said in what, as if in psi: such a test rules nothing out. [psi]"""
    return float(psi(it.first, "psi" if it.gauge == "unknown" else it.gauge))


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
        parts: tuple[Candidate, ...] = (it.of,) if it.of in ("supply", "riser") else ("supply", "riser")
        its: Reads | None = None if it.gauge == "unknown" else it.gauge
        test = Sentence("pressure test, {name}", name=named(name, it.when))
        day = read_moment(it.when).days
        seen = Sentence(
            "{pipes} ({sides}), not said whether water or air: {first} {gauge}, {last} {gauge} after "
            "{minutes} min"
            if it.medium == "unknown"
            else "{medium} in {pipes} ({sides}): {first} {gauge}, {last} {gauge} after {minutes} min",
            medium=_MEDIA.get(it.medium, ""),
            pipes=_NO_PIPES if it.of == "unknown" else listed([_PIPES[each] for each in parts]),
            sides=_SIDES[it.sides],
            gauge=its or _UNITS["unknown"],
            first=it.first,
            last=it.last,
            minutes=it.minutes,
        )
        fell = Fraction(it.first - it.last)
        most = Fraction(coarsest(psi(it.first, its or "psi"))) / PSI[its or "psi"]
        mark = most if it.finest is None else Fraction(it.finest)
        side = it.sides if it.sides in ("hot", "cold") else ""
        asked = _asked(it, its)
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
        elif nothing := _nothing(it, its):
            say = nothing in _LACKS
            same = then(seen, Sentence("the same in the end")) if fell == 0 else seen
            source = GAUGE if mark > most else SOURCE
            yield Outcome(test, day, same, nothing=nothing, source=source, asked=asked, say=say)
        else:
            held = then(seen, Sentence("it held"))
            yield Outcome(test, day, held, excludes=parts, side=side, source=SOURCE)


def coarsest(pressure: Fraction | Decimal) -> Decimal:
    """The coarsest marks that a gauge may have for a test at a pressure (IRC P2503.9). [psi]"""
    return next((mark for most, mark in MARKS if pressure <= most), HIGH_MARK)


def _nothing(it: Pressure, its: Reads | None) -> str:
    """Why pipes that lost less than a mark rule nothing out; "" where they held."""
    if it.medium == "air":
        return _WITH_WATER
    if its is None:
        return _SAY_GAUGE
    if odd := _out_of_range(it, its):
        return Sentence("its numbers are asked about: {expected}", expected=odd.expected)
    most = coarsest(psi(it.first, its))
    if it.finest is not None and psi(it.finest, its) > most:
        return Sentence(
            "its gauge is too coarse, {mark} {gauge} a mark: at {first} {gauge} take one with marks of "
            "{most} {gauge} or finer",
            mark=it.finest,
            first=it.first,
            most=mark_of(most, its),
            gauge=its,
        )
    if it.first != it.last and it.finest is not None:
        return Sentence(
            "unclear: it changed by less than a mark of {mark} {gauge}; hold it longer, or with a finer "
            "gauge",
            mark=it.finest,
            gauge=its,
        )
    if float(it.minutes) < HOLD_MINUTES or psi(it.first, its) < HOLD_PSI:
        hold = form("hold {least} {gauge} or more for {minutes} min")
        return Sentence(hold, least=at_least(HOLD_PSI, its), gauge=its, minutes=f"{HOLD_MINUTES:g}")
    if it.medium == "unknown":
        return _NOT_SAID
    if it.of == "unknown":
        return _SAY_PIPES
    if it.sides == "unknown":
        return _SAY_SIDES
    if it.finest is None:
        return _SAY_MARK
    return ""


def _asked(it: Pressure, its: Reads | None) -> Asked | None:
    """All that one test is asked; first of all numbers that cannot be so."""
    if its is not None and (odd := _out_of_range(it, its)):
        return odd
    lacks = [_ASKED_MEDIUM] if it.medium == "unknown" else []
    lacks += [_ASKED_OF] if it.of == "unknown" else []
    lacks += [_ASKED_SIDES] if it.sides == "unknown" else []
    if its is None:
        lacks.append(_ASKED_GAUGE)
    elif it.finest is None:
        lacks.append(_asked_mark(it, its))
    if not lacks:
        return None
    first: Asked = lacks[0]
    expected, came = _all([each.expected for each in lacks]), _all([each.came for each in lacks])
    return replace(first, expected=expected, came=came)


def _out_of_range(it: Pressure, its: Reads) -> Asked | None:
    """A pressure that no house's pipes are tested at."""
    if min(it.first, it.last) >= 0 and psi(max(it.first, it.last), its) <= MOST_PSI:
        return None
    return Asked(
        Sentence("a water test from 0 to {most} {gauge}", most=at_most(MOST_PSI, its), gauge=its),
        Sentence("{first} {gauge}, {last} {gauge} in the end", first=it.first, last=it.last, gauge=its),
        Sentence(
            "If it is so, let it off: pipes and fittings can burst. Read the gauge again and test with water "
            "at what the pipe's maker allows; until then it rules nothing out."
        ),
        SOURCE,
    )


def _asked_mark(it: Pressure, its: Reads) -> Asked:
    most = mark_of(coarsest(psi(it.first, its)), its)
    wanted = form("a gauge with marks of {most} {gauge} or finer at {first} {gauge}")
    expected = Sentence(wanted, most=most, first=it.first, gauge=its)
    say = Sentence("Say its finest mark; until then it rules nothing out.")
    return Asked(expected, Sentence("not said what its gauge's finest mark is"), say, GAUGE)


def _all(said: Sequence[str]) -> str:
    return joined(said, "{first}; {then}")
