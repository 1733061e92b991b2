"""What a person could let go of, or loosen, when no plan meets everything asked (docs/methods/conflict.md).

An *item* is one thing asked of the room that could be asked for less: one side of a demand, a bound that
cannot be bought, a hold, a stud that may not be replaced, a plate that is cut only so far, the leans offered,
the straightedge rule. ``loosened`` gives the room with some items let go, loosened by an amount, or moved.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from fractions import Fraction
from math import isqrt
from typing import Literal

from undertile.framing.problem import Demand, FramingProblem, Member, PlateSpot, StepTerm, WallProblem

Kind = Literal[
    "hold", "demand", "term", "must", "stud", "plate", "lean", "straightedge", "move stud", "move drain"
]
Side = Literal["", "low", "high", "both"]
LEAN_STEP = Fraction(1, 16)
LEAN_OVER = Fraction(96)
"""Leans are offered in whole sixteenths over 8 ft [contract 2]. [in]"""
LEAN_MOST = Fraction(1, 2)
"""What is offered in 8 ft past the leans asked for when the limit is let go (ours). [in]"""
DIAGONAL_SHARE = Fraction(99, 100)
"""The pan keeps 1/100 of the diagonals' limit for what its straight-line row leaves out."""


@dataclass(frozen=True, order=True)
class Item:
    """One thing asked that could be let go of or loosened.

    ``move stud`` and ``move drain`` are no items of their own: they say where a thing is put instead.

    Attributes
    ----------
    kind : str
    wall : str
        ``""`` for demands and the straightedge rule.
    index : int
        Among the problem's demands, or the wall's members, terms or plates.
    name : str
        Code of the demand; name of the stud, term or plate; of a moved drain, its axis.
    side : str
        Which bound: ``low``, ``high``, or ``both`` where they are one value.
    """

    kind: Kind
    wall: str
    index: int
    name: str
    side: Side = ""


Rules = tuple[tuple[Fraction, Fraction], ...]
Spec = Mapping[Item, Fraction | None]
"""Items and by how much each is loosened or moved; None = let go. [in]"""


def items_of(problem: FramingProblem) -> tuple[Item, ...]:
    """Everything that could be let go of, what a person chose first, the straightedge rule last.

    The leans stand before all: many leans make a long search, so they are let go when little else is left.
    """
    found = [Item("lean", wall.name, 0, wall.name) for wall in problem.walls]
    found += [*_holds(problem), *_demands(problem)]
    for wall in problem.walls:
        found += _terms(wall)
    for wall in problem.walls:
        found += [Item("must", wall.name, i, m.name) for i, m in enumerate(wall.members) if m.must]
    for wall in problem.walls:
        found += [Item("stud", wall.name, i, m.name) for i, m in enumerate(wall.members) if m.replace is None]
    for wall in problem.walls:
        found += [Item("plate", wall.name, i, plate.name) for i, plate in enumerate(wall.plates)]
    if problem.flatness:
        found.append(Item("straightedge", "", 0, "straightedge"))
    return tuple(found)


def _holds(problem: FramingProblem) -> Iterator[Item]:
    for wall in problem.walls:
        for i, member in enumerate(wall.members):
            if member.held is not None:
                yield Item("hold", wall.name, i, member.name)


def _demands(problem: FramingProblem) -> Iterator[Item]:
    """Held planes first, a play too wide last: a pan too wide is better told by what holds the walls."""
    found: list[Item] = []
    for i, demand in enumerate(problem.demands):
        if demand.low is not None and demand.low == demand.high:
            found.append(Item("demand", "", i, demand.code, "both"))
            continue
        if demand.low is not None:
            found.append(Item("demand", "", i, demand.code, "low"))
        if demand.high is not None:
            found.append(Item("demand", "", i, demand.code, "high"))
    yield from sorted(found, key=lambda it: (not it.name.startswith("hold-"), _too_wide(it)))


def _too_wide(item: Item) -> bool:
    return wish_of(item.name) == "play" and item.side == "low"


def _terms(wall: WallProblem) -> Iterator[Item]:
    for i, term in enumerate(wall.terms):
        bought = term.minutes is not None
        if term.low is not None and not (bought and term.hard_low is None):
            yield Item("term", wall.name, i, term.name, "low")
        if term.high is not None and not (bought and term.hard_high is None):
            yield Item("term", wall.name, i, term.name, "high")


def family_of(item: Item, problem: FramingProblem) -> tuple[Item, ...]:
    """All items that one wish of the person sets.

    The play at every depth, an edge at every height, the studs of one wall that are not replaced; the width
    of the pan is in its least play and in its dropping in square.
    """
    key = _wish(item, problem)
    if key is None:
        return (item,)
    return tuple(each for each in items_of(problem) if _wish(each, problem) == key)


def wish_of(code: str) -> str:
    """The part of a demand's code that names what the person asked: ``play``, ``drain-x-L``."""
    stem = code.split("-at-")[0]
    for name in ("play", "drop-in", "drain-y"):
        if stem.startswith(name):
            return name
    if stem.startswith("drain-x-"):
        return "-".join(stem.split("-")[:3])
    return stem


def stem_of(term: str) -> str:
    """The name of a thing or edge without the height of its reading: ``cabinet at 48`` is ``cabinet``."""
    return term.rpartition(" at ")[0] or term


def _wish(item: Item, problem: FramingProblem) -> tuple[object, ...] | None:
    if item.kind == "demand":
        wish = wish_of(item.name)
        return item.kind, "play" if wish == "drop-in" else wish, item.side
    if item.kind == "stud":
        return item.kind, item.wall
    if item.kind == "term":
        term = _wall(problem, item.wall).terms[item.index]
        return item.kind, item.wall, stem_of(item.name), term.along, item.side
    return None


def _wall(problem: FramingProblem, name: str) -> WallProblem:
    return next(wall for wall in problem.walls if wall.name == name)


def scale_of(demand: Demand) -> Fraction:
    """What an inch of the thing a demand names is in its row: 1, but for the diagonals.

    The row of the diagonals may be written times the diagonal of the pan (docs/methods/pan.md); the root is
    rounded down to 1/4096, so that loosening never gives more than was said. [in/in]
    """
    if demand.code != "square":
        return Fraction(1)
    deep = max((a for w, a, _, _ in demand.parts if w == "L"), default=Fraction(0))
    wide = max((a for w, a, _, _ in demand.parts if w == "B"), default=Fraction(0))
    turn = next((abs(c) for w, a, _, c in demand.parts if w == "L" and a == deep), Fraction(0))
    if not deep or not wide or not turn:
        return Fraction(1)
    root = Fraction(isqrt(int((wide**2 + deep**2) * 4096**2)), 4096)
    return turn * root / wide * DIAGONAL_SHARE


# The room with things let go ----------------------------------------------------------------------------


def loosened(problem: FramingProblem, spec: Spec) -> FramingProblem:
    """The room with some items let go of, loosened or moved.

    Parameters
    ----------
    problem : FramingProblem
    spec : mapping of Item to Fraction or None
        By how much; None = let go. A moved stud or drain: plus = toward the room, away from the wall. [in]
    """
    walls = tuple(
        loosened_wall(wall, {item: v for item, v in spec.items() if item.wall == wall.name})
        for wall in problem.walls
    )
    return replace(
        problem,
        walls=walls,
        demands=loosened_demands(problem.demands, spec),
        flatness=loosened_rules(problem.flatness, spec),
    )


def loosened_rules(rules: Rules, spec: Spec) -> Rules:
    """The straightedge rules, all loosened alike or let go of."""
    for item, amount in spec.items():
        if item.kind == "straightedge":
            rules = () if amount is None else tuple((length, gap + amount) for length, gap in rules)
    return rules


def loosened_wall(wall: WallProblem, spec: Spec) -> WallProblem:
    """One wall with some of its own items let go of, loosened or moved."""
    members, terms = list(wall.members), list(wall.terms)
    plates: dict[int, PlateSpot] = dict(enumerate(wall.plates))
    leans = wall.leans
    for item, amount in spec.items():
        at = item.index
        if item.kind == "term":
            terms[at] = _term(terms[at], item.side, amount)
        elif item.kind == "plate" and amount is None:
            del plates[at]
        elif item.kind == "plate" and amount is not None:
            plates[at] = replace(plates[at], cut=plates[at].cut + amount)
        elif item.kind == "lean":
            leans = _leans(wall.leans, amount)
        else:
            members[at] = _member(members[at], item.kind, amount)
    return replace(
        wall, members=tuple(members), terms=tuple(terms), plates=tuple(plates.values()), leans=leans
    )


def _member(member: Member, kind: Kind, amount: Fraction | None) -> Member:
    if kind == "hold":
        return replace(member, held=None)
    if kind == "must":
        return replace(member, must=frozenset())
    if kind == "stud":
        return replace(member, replace=Fraction(0))
    if kind == "move stud" and amount is not None:
        return replace(member, offsets=tuple(o + amount for o in member.offsets))
    raise ValueError(f"{kind} is nothing of a stud's")


def _term(term: StepTerm, side: Side, amount: Fraction | None) -> StepTerm:
    """A bound let go of or loosened; of what can be bought, the bound of what is bought."""
    if term.minutes is None:
        if side == "low" and term.low is not None:
            return replace(term, low=None if amount is None else term.low - amount)
        assert term.high is not None
        return replace(term, high=None if amount is None else term.high + amount)
    if side == "low" and term.low is not None and term.hard_low is not None:
        return replace(term, hard_low=None if amount is None else min(term.low, term.hard_low) - amount)
    assert term.high is not None
    assert term.hard_high is not None
    return replace(term, hard_high=None if amount is None else max(term.high, term.hard_high) + amount)


def _leans(leans: tuple[Fraction, ...], amount: Fraction | None) -> tuple[Fraction, ...]:
    least, most = min(leans), max(leans)
    more = [n * LEAN_STEP for n in range(1, int((LEAN_MOST if amount is None else amount) / LEAN_STEP) + 1)]
    wider = {*leans, *(most + m / LEAN_OVER for m in more), *(least - m / LEAN_OVER for m in more)}
    return tuple(sorted(wider))


def loosened_demands(demands: tuple[Demand, ...], spec: Spec) -> tuple[Demand, ...]:
    """The demands with some let go of, loosened, or written for a drain that is moved."""
    out: dict[int, Demand] = dict(enumerate(demands))
    for item, amount in spec.items():
        if item.kind == "move drain" and amount is not None:
            for i, demand in out.items():
                out[i] = _with_drain(demand, item.name, amount)
        elif item.kind == "demand":
            out[item.index] = _demand(out[item.index], item.side, amount)
    return tuple(d for d in out.values() if d.low is not None or d.high is not None)


def _demand(demand: Demand, side: Side, amount: Fraction | None) -> Demand:
    by = None if amount is None else amount * scale_of(demand)
    low, high = demand.low, demand.high
    if side in ("low", "both") and low is not None:
        low = None if by is None else low - by
    if side in ("high", "both") and high is not None:
        high = None if by is None else high + by
    return replace(demand, low=low, high=high)


def _with_drain(demand: Demand, axis: str, amount: Fraction) -> Demand:
    """The demand when the drain is moved: out from wall B (``y``), or from wall L toward wall R (``x``)."""
    wish = wish_of(demand.code)
    if wish == f"drain-{axis}" or wish == f"drain-{axis}-L":
        by = amount
    elif wish == f"drain-{axis}-R":
        by = -amount
    else:
        return demand
    return replace(
        demand,
        low=None if demand.low is None else demand.low + by,
        high=None if demand.high is None else demand.high + by,
    )
