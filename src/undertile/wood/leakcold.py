"""The coldest surface against the room's air: whether moist air wets it, where its numbers can be so."""

from __future__ import annotations

from collections.abc import Iterator

from undertile.lengths import Unit
from undertile.sentence import Sentence
from undertile.wood.air import dew_point
from undertile.wood.correct import COLDEST_F, HOTTEST_F
from undertile.wood.equilibrium import HIGHEST_F, LOWEST_F
from undertile.wood.facts import Cold, LeakFacts
from undertile.wood.leakshown import Asked, Outcome, named, then
from undertile.wood.say import degrees
from undertile.wood.typed import fahrenheit_to_celsius, read_fahrenheit, read_moment

ABOVE_DEW_F = 5.0
"""A surface warmer than the dew point by less may still get wet at another hour (ours). [deg F]"""
WARMER_F = 5.0
"""Two thermometers differ by less; a surface warmer than the air by more is no cold one (ours). [deg F]"""
DRIEST = 10
"""Air drier than this is asked about before it rules a source out (ours): 40 with a digit left out is 4; on
a visit, where it only dates, the table's own 2 is the limit. [percent]"""
_SOURCE = "ashrae-psychrometrics"


def colds(leak: LeakFacts, unit: Unit) -> Iterator[Outcome]:
    """Every surface measured.

    Parameters
    ----------
    leak : LeakFacts
    unit : {"in", "mm"}
        Of the temperatures said; those typed stay as typed.

    Yields
    ------
    Outcome
        One whose numbers are asked about excludes nothing.
    """
    for name, it in leak.colds.items():
        yield _cold(name, it, unit)


def _cold(name: str, it: Cold, unit: Unit) -> Outcome:
    test, day = Sentence("coldest surface, {name}", name=named(name, it.when)), read_moment(it.when).days
    seen = Sentence(
        "surface {surface}, air {air} at {humidity} percent",
        surface=it.surface,
        air=it.air,
        humidity=it.humidity,
    )
    asked = _asked(it)
    again = Sentence("its numbers are asked about: {expected}", expected=asked.expected) if asked else ""
    air_f, surface_f = read_fahrenheit(it.air), read_fahrenheit(it.surface)
    if not LOWEST_F <= air_f <= HIGHEST_F or not 0 < it.humidity <= 100:
        return Outcome(test, day, seen, nothing=again, source=_SOURCE, asked=asked)
    dew = dew_point(fahrenheit_to_celsius(air_f), float(it.humidity) / 100) * 9 / 5 + 32
    over = surface_f - dew
    seen = Sentence("{seen}: dew point {dew}", seen=seen, dew=degrees(dew, unit))
    if over <= 0:
        why = then(seen, Sentence("the surface gets wet"))
        if asked is not None:  # it may be so: it does not rule it out, and is no find either
            return Outcome(
                test, day, why, one_of=("condensation",), nothing=again, source=_SOURCE, asked=asked
            )
        return Outcome(test, day, why, finds=("condensation",), source=_SOURCE)
    if asked is not None:
        return Outcome(test, day, seen, nothing=again, source=_SOURCE, asked=asked)
    above = _apart(over, unit)
    if over < ABOVE_DEW_F:
        close = Sentence("only {over} above: measure on the coldest morning, after a shower", over=above)
        return Outcome(test, day, seen, nothing=close, source=_SOURCE)
    why = Sentence("{seen}, {over} above it at that hour", seen=seen, over=above)
    return Outcome(test, day, why, excludes=("condensation",), source=_SOURCE)


def _asked(it: Cold) -> Asked | None:
    """The first of its numbers that no room gives."""
    air, surface = read_fahrenheit(it.air), read_fahrenheit(it.surface)

    def ask(expected: str, came: str, do: str, source: str) -> Asked:
        return Asked(expected, came, Sentence("{do} Until then it rules nothing out.", do=do), source)

    if not DRIEST <= it.humidity <= 100:
        return ask(
            Sentence("relative humidity from {least} to 100 percent", least=DRIEST),
            Sentence("{number} percent", number=it.humidity),
            Sentence("Read the hygrometer again."),
            _SOURCE,
        )
    if not LOWEST_F <= air <= HIGHEST_F:
        return ask(
            Sentence("room air from 30 to 210 F, where the table of equilibrium reaches"),
            it.air,
            Sentence("Read the room's thermometer again."),
            "wood-handbook-emc",
        )
    if not COLDEST_F <= surface <= HOTTEST_F:
        return ask(
            Sentence("a surface from 32 to 122 F (0 to 50 C)"),
            it.surface,
            Sentence("Type the surface's temperature again, or measure it again."),
            "practice-leak-tests",
        )
    if surface - air > WARMER_F:
        return ask(
            Sentence("the coldest surface, not warmer than the room's air, {air}", air=it.air),
            it.surface,
            Sentence("Look for the coldest one and measure it again."),
            "practice-leak-tests",
        )
    return None


def _apart(fahrenheit: float, unit: Unit) -> str:
    """A difference of temperatures as it prints, in the job's degrees."""
    return f"{fahrenheit:.0f} F" if unit == "in" else f"{fahrenheit / 1.8:.0f} C"
