"""Numbers of a leak test that cannot be so: they are asked about, and rule nothing out until then.

Typed dry, and with the minute or the place where water showed; a mark finer than any dial has; more water
than anybody pours (all ours, no source).
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import replace
from decimal import Decimal
from fractions import Fraction

from undertile.sentence import Sentence
from undertile.wood.facts import Cold, Dial, Fill, NextDoor, Outside, Pour, Pressure, Spray
from undertile.wood.gauge import psi
from undertile.wood.leakpipes import GALLONS
from undertile.wood.leakshown import LITRES, Asked, Outcome, wet

Test = Dial | Pressure | Pour | Fill | Spray | Outside | Cold | NextDoor

FINEST_GALLONS = 0.001
"""No water meter of a house has a finer mark (ours). [gal]"""
FINEST_PSI = Fraction(1, 100)
"""No gauge of a pressure test has a finer mark (ours). [psi]"""
MOST_GALLONS = 100.0
"""Nobody pours more into a drain to test it (ours). [gal]"""
_WHICH = Sentence("Say which it was: dry, or wet; until then it rules nothing out.")
_JOISTS = Asked(
    Sentence("dry, wet or not watched: joists are typed for this floor, so it is no slab"),
    Sentence("a slab, nothing to see below"),
    Sentence(
        "Say what was seen below, or take the joists off the floor if it is a slab; until then it rules "
        "nothing out."
    ),
)
_AGAIN = Sentence("Read it again and correct it; until then it rules nothing out.")


def sensible(made: Iterable[tuple[Test, Outcome]], *, joists: bool = False) -> Iterator[Outcome]:
    """Tests as they tell: one whose numbers cannot be so excludes nothing; what it finds, it finds.

    Parameters
    ----------
    made : iterable of (Test, Outcome)
    joists : bool, optional
        The floor has some.

    Yields
    ------
    Outcome
    """
    for it, each in made:
        asked = None if each.leaks else _dry_and_wet(it) or _no_such(it) or (_no_slab(it) if joists else None)
        if asked is None:
            yield each
            continue
        nothing, say = Sentence("its numbers are asked about: {expected}", expected=asked.expected), False
        if asked.do == _WHICH:
            nothing, say = Sentence("say whether it was dry: {came} is typed too", came=asked.came), True
        yield replace(each, excludes=(), zone=None, nothing=nothing, asked=asked, say=say)


def _dry_and_wet(it: Test) -> Asked | None:
    """Typed dry, with a minute or a place where water showed."""
    shows = it.below if isinstance(it, Pour | Fill) else getattr(it, "shows", "")
    after, place = getattr(it, "after", None), getattr(it, "place", "")
    if shows == "wet" or (after is None and not place):
        return None
    showed = wet(after, place)
    if after is None:
        showed = Sentence("water showed: {place}", place=place)
    return Asked(Sentence("dry, or where and when water showed, not both"), showed, _WHICH)


def _no_such(it: Test) -> Asked | None:
    """A mark that no dial has, or more water than anybody pours."""
    if isinstance(it, Dial) and it.unit != "unknown" and float(it.finest) * GALLONS[it.unit] < FINEST_GALLONS:
        least = Sentence("a finest mark of {least} gallons or more", least=f"{FINEST_GALLONS:g}")
        return Asked(least, _mark(it.finest), _AGAIN)
    if isinstance(it, Pressure) and it.gauge != "unknown":
        finest = it.finest
        if finest is not None and psi(finest, it.gauge) < FINEST_PSI:
            least = Sentence("a finest mark of {least} psi or more", least=f"{float(FINEST_PSI):g}")
            return Asked(least, _mark(finest), _AGAIN)
    if isinstance(it, Pour):
        gallons = float(it.gallons or 0) + float(it.litres or 0) / LITRES
        if gallons > MOST_GALLONS:
            most = Sentence("{most} gallons or less", most=f"{MOST_GALLONS:g}")
            came = Sentence("{number} gallons", number=it.gallons)
            if it.litres is not None:
                most = Sentence("{most} liters or less", most=f"{MOST_GALLONS * LITRES:.0f}")
                came = Sentence("{number} liters", number=it.litres)
            return Asked(most, came, _AGAIN)
    return None


def _no_slab(it: Test) -> Asked | None:
    """A slab with nothing to see below, and joists under the same floor."""
    return _JOISTS if isinstance(it, Pour | Fill) and it.below == "slab" else None


def _mark(finest: Decimal) -> str:
    return Sentence("a finest mark of {mark}", mark=f"{finest:f}")
