"""Figures of the floor that a person made looser than the usual ones, and what they count for.

Every number is a default that a person may change, each change with its reason (convention): a looser
figure with one is taken and said wherever it decides; without one the usual figure counts, and why is asked.
One that is no limit at all (no load, a notch as deep as the joist) is never taken. A stricter figure needs
no reason.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import Any

from pydantic import BaseModel

from undertile.findings import Check, Finding, Severity
from undertile.floor.facts import CutLimits, FloorFacts, Level, Loads, Patch
from undertile.floor.level import LIMIT, MOST_FILL, MOST_OFF
from undertile.floor.levelgrid import GRID
from undertile.floor.loads import BASE, LIVE, POINT, WEIGHT, pounds
from undertile.floor.notches import KEEP
from undertile.floor.patch import EDGE, FIELD, GAP, OFFSET
from undertile.lengths import Length, Unit
from undertile.pan.say import say
from undertile.sentence import Sentence, listed
from undertile.wood.say import as_typed
from undertile.wood.typed import readable

CODE = "floor-limits-changed"
LIGHT = Fraction(1, 2)
"""A sheet's weight under this share of the usual one for the stuff is asked about (ours)."""
_BENDING = ("joist-tile-", "joist-strength-", "joist-shear-")
_TABLES = {
    "loads": Sentence("what the floor carries"),
    "cut_limits": Sentence("what may be cut out of a joist"),
    "patch": Sentence("how the patch is laid"),
    "level": Sentence("how level the floor is"),
}
_CARRY = ("loads", "cut_limits")
"""Tables whose figures hold back covering; of patch and level each figure is told where it decides."""
_PARTS = {
    "notch_depth": Sentence("depth of a notch, one part in"),
    "notch_length": Sentence("length of a notch, one part in"),
    "end_notch": Sentence("notch at an end, one part in"),
    "hole": Sentence("hole, one part in"),
}
_DEEP = ("notch_depth", "end_notch", "hole")
"""Of these the whole depth is no limit: nothing would be left of the joist."""


@dataclass(frozen=True)
class Looser:
    """One figure that is looser than the usual.

    Attributes
    ----------
    table, name : str
        Where it is typed, under ``floor``; of a layer's weight the layer's name.
    said : str
        The figure, and the usual one.
    source : str
        Of the usual one.
    decides : tuple of str
        How the codes of the checks begin that stand on it.
    none : bool
        It is no limit at all: never taken.
    """

    table: str
    name: str
    said: str
    source: str
    decides: tuple[str, ...] = ()
    none: bool = False


def is_reason(text: str) -> bool:
    """Whether a reason can be read: a word stands in it."""
    return readable(text)


def looser(facts: FloorFacts, unit: Unit = "in") -> tuple[Looser, ...]:
    """Every figure of the floor that is looser than the usual one.

    Parameters
    ----------
    facts : FloorFacts
        As typed.
    unit : {"in", "mm"}
    """
    return (
        *_loads(facts.loads),
        *_cuts(facts.cut_limits, unit),
        *_patch(facts.patch, unit),
        *_level(facts.level, unit),
    )


def counted(facts: FloorFacts, unit: Unit = "in") -> FloorFacts:
    """The facts as they count: the usual figure in place of a looser one that is not taken.

    Parameters
    ----------
    facts : FloorFacts
        As typed.
    unit : {"in", "mm"}

    Returns
    -------
    FloorFacts
        The same where every figure is taken.
    """
    for each in looser(facts, unit):
        if not _taken(facts, each):
            table: BaseModel = getattr(facts, each.table)
            facts = facts.model_copy(update={each.table: _usual(table, each.name)})
    return facts


def _usual(table: BaseModel, name: str) -> BaseModel:
    """A table with one figure left out."""
    if isinstance(table, Loads) and name in table.on_top:
        layer = table.on_top[name].model_copy(update={"weight": None})
        return table.model_copy(update={"on_top": {**table.on_top, name: layer}})
    return table.model_copy(update={name: type(table).model_fields[name].get_default()})


def _taken(facts: FloorFacts, its: Looser) -> bool:
    return not its.none and is_reason(getattr(facts, its.table).reason)


def limit_findings(facts: FloorFacts, unit: Unit = "in") -> Iterator[Finding]:
    """What is said of looser figures, those of one table and one source in one finding.

    Parameters
    ----------
    facts : FloorFacts
        As typed.
    unit : {"in", "mm"}

    Yields
    ------
    Finding
        A note where they are taken; what to do where the usual ones count.
    """
    groups: dict[tuple[str, str, bool, bool], list[str]] = {}
    for each in looser(facts, unit):
        key = (each.table, each.source, _taken(facts, each), each.none)
        groups.setdefault(key, []).append(each.said)
    for (table, source, taken, none), said in groups.items():
        what, reason = listed(said), getattr(facts, table).reason
        expected: str = Sentence("the usual ones, or a reason")
        if taken:
            found: str = Sentence("{what}: {reason}", what=what, reason=reason)
            do: str = Sentence("Keep them if you mean it.")
        elif none:
            expected = Sentence("a figure that limits something")
            found = Sentence("{what}: that is no limit; the usual one counts", what=what)
            do = Sentence("Correct it, or leave it open.")
        else:
            found = Sentence("{what}, no reason given; the usual counts", what=what)
            do = Sentence("Write why beside it; until then the usual figure counts.")
        severity = Severity.NOTE if taken else Severity.ACT
        yield Finding(CODE, severity, _TABLES[table], expected, found, do, source)


def said_beside(checks: Iterable[Check], facts: FloorFacts, unit: Unit = "in") -> Iterator[Check]:
    """Checks with the looser figures that were taken, and why, beside those that stand on them.

    Parameters
    ----------
    checks : iterable of Check
    facts : FloorFacts
        As typed.
    unit : {"in", "mm"}
    """
    taken = [each for each in looser(facts, unit) if _taken(facts, each)]
    for check in checks:
        own = [each for each in taken if check.code.startswith(each.decides or ("-",))]
        lines = tuple(
            Sentence("{what}: {reason}", what=each.said, reason=getattr(facts, each.table).reason)
            for each in own
        )
        yield replace(check, because=(*check.because, *lines)) if lines else check


def carrying_looser(facts: FloorFacts, unit: Unit = "in") -> Iterator[Sentence]:
    """Looser figures that were taken and that say whether the floor carries, with why: a table in a line.

    Parameters
    ----------
    facts : FloorFacts
        As typed.
    unit : {"in", "mm"}
    """
    for table in _CARRY:
        said = [each.said for each in looser(facts, unit) if each.table == table and _taken(facts, each)]
        if said:
            yield Sentence("{what}: {reason}", what=listed(said), reason=getattr(facts, table).reason)


def _said(name: str, now: Any, usual: Any) -> str:
    return Sentence("{name} {now} for {usual}", name=name, now=now, usual=usual)


def _loads(loads: Loads) -> Iterator[Looser]:
    figures = (
        ("live", Sentence("live load, lb a sq ft,"), LIVE, "irc-r301.5", ("joist-code-", *_BENDING)),
        ("base", Sentence("floor itself, lb a sq ft,"), BASE, "irc-r502.3.1", _BENDING),
        ("point", Sentence("load on one spot, lb,"), POINT, "panel-point", ("panel-point",)),
    )
    for name, words, usual, source, decides in figures:
        own = getattr(loads, name)
        if own is not None and own < usual:
            yield Looser("loads", name, _said(words, own, usual), source, decides, none=own == 0)
    if loads.judged_under == "live":
        said = Sentence("the tile's limit held against the live load alone for live and dead")
        yield Looser("loads", "judged_under", said, "tile-deflection", ("joist-tile-",))
    for name, layer in loads.on_top.items():
        by_volume = WEIGHT.get(layer.what)
        if layer.weight is None or by_volume is None:
            continue
        usual = by_volume * layer.thickness.inches / 12
        if layer.weight < usual * LIGHT:
            words = Sentence("weight of {name}, lb a sq ft,", name=name)
            less = _said(words, layer.weight, pounds(usual))
            yield Looser("loads", name, less, "practice-weights", _BENDING, none=layer.weight == 0)


def _cuts(limits: CutLimits, unit: Unit) -> Iterator[Looser]:
    usual = CutLimits()
    for name, words in _PARTS.items():
        own, parts = getattr(limits, name), getattr(usual, name)
        if own < parts:
            decides = ("joist-hole-",) if name == "hole" else ("joist-notch-",)
            none = own == 1 and name in _DEEP
            yield Looser("cut_limits", name, _said(words, own, parts), "irc-r502.8.1", decides, none)
    if limits.keep is not None and limits.keep.inches < KEEP:
        said = _said(Sentence("wood left around a hole"), as_typed(limits.keep), say(KEEP, unit))
        none = limits.keep.inches == 0
        yield Looser("cut_limits", "keep", said, "irc-r502.8.1", ("joist-hole-edge-",), none)


def _patch(patch: Patch, unit: Unit) -> Iterator[Looser]:
    figures: tuple[tuple[str, str, Fraction, bool, tuple[str, ...]], ...] = (
        ("gap", Sentence("gap between panels"), GAP, False, ()),
        ("offset", Sentence("second layer's seams off the first's"), OFFSET, False, ("patch-seams-",)),
        ("screw_edge", Sentence("screws apart at edges"), EDGE, True, ()),
        ("screw_field", Sentence("screws apart inside"), FIELD, True, ()),
    )
    for name, words, usual, more, decides in figures:
        if _past(getattr(patch, name), usual, more=more):
            said = _said(words, as_typed(getattr(patch, name)), say(usual, unit))
            yield Looser("patch", name, said, "practice-patch", decides)


def _level(level: Level, unit: Unit) -> Iterator[Looser]:
    figures: Sequence[tuple[str, str, Fraction]] = (
        ("limit", Sentence("highest to lowest"), LIMIT),
        ("slope", Sentence("fall in a foot"), Fraction(0)),
        ("most_off", Sentence("most taken off"), MOST_OFF[level.surface]),
        ("most_fill", Sentence("most filled"), MOST_FILL),
        ("grid", Sentence("read no farther apart than"), GRID),
    )
    for name, words, usual in figures:
        if _past(getattr(level, name), usual, more=True):
            said = _said(words, as_typed(getattr(level, name)), say(usual, unit))
            yield Looser("level", name, said, "practice-pan-floor", ("pan-floor-level",))


def _past(own: Length | None, usual: Fraction, *, more: bool) -> bool:
    """Whether a figure is looser than the usual: more, or less, of it."""
    if own is None:
        return False
    return own.inches > usual if more else own.inches < usual
