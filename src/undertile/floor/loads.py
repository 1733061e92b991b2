"""What the floor carries, lb a sq ft: live load, and dead load with the bed and tile really planned."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from undertile.floor.facts import Loads, OnTop
from undertile.lengths import Unit
from undertile.pan.say import say
from undertile.sentence import Sentence, form

LIVE = Fraction(40)
"""IRC table R301.5, rooms other than sleeping rooms. [lb/sq ft]"""
BASE = Fraction(10)
"""Joists, subfloor and ceiling as the span tables count them (IRC table R502.3.1(2)). [lb/sq ft]"""
TABLES = (Fraction(10), Fraction(20))
"""Dead loads that the span tables come for. [lb/sq ft]"""
POINT = Fraction(300)
"""On one spot in the middle between two joists (tile industry's handbook until 2006, told by others). [lb]"""

WEIGHT: dict[OnTop, Fraction] = {
    "plywood": Fraction(36),
    "osb": Fraction(42),
    "cement board": Fraction(75),
    "gypsum panel": Fraction(50),
    "mortar bed": Fraction(125),
    "tile mortar": Fraction(110),
    "ceramic tile": Fraction(145),
    "stone tile": Fraction(170),
    "levelling compound": Fraction(125),
}
"""Usual weights (common practice, no source; a sheet's own figure goes before them). [lb/cu ft]"""


_SAID: dict[OnTop, str] = {
    "plywood": form("plywood {thickness}"),
    "osb": form("osb {thickness}"),
    "cement board": form("cement board {thickness}"),
    "gypsum panel": form("gypsum panel {thickness}"),
    "mortar bed": form("mortar bed {thickness}"),
    "tile mortar": form("tile mortar {thickness}"),
    "ceramic tile": form("ceramic tile {thickness}"),
    "stone tile": form("stone tile {thickness}"),
    "levelling compound": form("leveling compound {thickness}"),
    "other": form("other {thickness}"),
}


@dataclass(frozen=True)
class Carried:
    """The loads, and how the dead load is made up.

    Attributes
    ----------
    live, dead, base, point : Fraction
        [lb/sq ft]; ``point`` [lb]
    parts : tuple of (str, Fraction)
        What lies on top in words, and its weight. [lb/sq ft]
    unweighed : tuple of str
        Layers whose weight is not known: then the dead load is not known either.
    bare : bool
        Nothing is said to lie on top. Not said is not zero (convention 2.6): the dead load is then only the
        least that it can be.
    """

    live: Fraction
    dead: Fraction
    base: Fraction
    point: Fraction
    parts: tuple[tuple[str, Fraction], ...] = ()
    unweighed: tuple[str, ...] = ()
    bare: bool = False


def carried(loads: Loads, unit: Unit = "in") -> Carried:
    """The loads of the facts, what is left out at its usual figure."""
    live = LIVE if loads.live is None else Fraction(loads.live)
    base = BASE if loads.base is None else Fraction(loads.base)
    point = POINT if loads.point is None else Fraction(loads.point)
    parts: list[tuple[str, Fraction]] = []
    unweighed: list[str] = []
    for name, layer in loads.on_top.items():
        usual = WEIGHT.get(layer.what)
        if layer.weight is not None:
            weight = Fraction(layer.weight)
        elif usual is not None:
            weight = usual * layer.thickness.inches / 12
        else:
            unweighed.append(name)
            continue
        what = Sentence(_SAID[layer.what], thickness=say(layer.thickness.inches, unit))
        parts.append((what, weight))
    dead = base + sum((weight for _, weight in parts), Fraction(0))
    return Carried(live, dead, base, point, tuple(parts), tuple(unweighed), not loads.on_top)


def pounds(value: Fraction) -> str:
    """A weight as it prints: whole pounds, rounded up; a tenth under ten."""
    if value < 10:
        tenths = -(-value * 10 // 1)
        return f"{tenths // 10}.{tenths % 10}" if tenths % 10 else f"{tenths // 10}"
    return f"{-(-value // 1):,}"
