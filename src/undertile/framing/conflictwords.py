"""A conflict in the trade's words: what was asked with its numbers and source, and what frees it."""

from __future__ import annotations

from fractions import Fraction

from undertile.framing.loosen import LEAN_OVER, Item, stem_of, wish_of
from undertile.framing.problem import (
    SIXTEENTH,
    Demand,
    FramingProblem,
    Member,
    PlateSpot,
    StepTerm,
    WallProblem,
)
from undertile.framing.say import place, said
from undertile.lengths import Unit
from undertile.sources import cite

WALLS = {"L": "left wall", "B": "back wall", "R": "right wall"}
LARGE_TILE_RULE = Fraction(24)
"""The rule over 24 in is that of the larger tile, ANSI A108.02 4.2.2. [in]"""


class Words:
    """One room's items in words.

    Parameters
    ----------
    problem : FramingProblem
    unit : {"in", "mm"}
    """

    def __init__(self, problem: FramingProblem, unit: Unit) -> None:
        self.problem, self.unit = problem, unit
        self.walls = {wall.name: wall for wall in problem.walls}

    def said(self, value: Fraction, *, signed: bool = False) -> str:
        """A length; a change that no rule shows is rounded up, so that it frees."""
        return said(value, self.unit, "up", signed=signed)

    def _demand(self, item: Item) -> Demand:
        return self.problem.demands[item.index]

    def _wall(self, item: Item) -> WallProblem:
        return self.walls[item.wall]

    def _member(self, item: Item) -> Member:
        return self._wall(item).members[item.index]

    def _term(self, item: Item) -> StepTerm:
        return self._wall(item).terms[item.index]

    def _plate(self, item: Item) -> PlateSpot:
        return self._wall(item).plates[item.index]

    def walls_of(self, item: Item) -> tuple[str, ...]:
        """The walls an item speaks of."""
        if item.kind in ("demand", "move drain"):
            return tuple(dict.fromkeys(part[0] for part in self._demand(item).parts if part[3]))
        if item.kind == "straightedge":
            return tuple(self.walls)
        return (item.wall,)

    # -- what was asked ---------------------------------------------------------------------------------

    def title(self, item: Item) -> str:
        """What was asked, in few words."""
        if item.kind == "demand":
            demand = self._demand(item)
            return f"{demand.title}{_side_of(demand, item.side)}"
        if item.kind == "term":
            return f"{item.name}, wall {item.wall}"
        if item.kind == "hold":
            return f"{item.name} held to {self._member(item).held}"
        if item.kind == "must":
            return f"{item.name} is soft"
        if item.kind == "stud":
            return f"{item.name} as it stands"
        if item.kind == "plate":
            return f"plate {item.name}, wall {item.wall}"
        if item.kind == "lean":
            return f"wall {item.wall} plumb"
        return "the straightedge rule"

    def line(self, item: Item) -> str:
        """What was asked, with its numbers and its source."""
        return f"{self._line(item)} [{cited(self.source(item))}]"

    def _line(self, item: Item) -> str:
        title = self.title(item)
        if item.kind == "demand":
            demand = self._demand(item)
            return f"{title}: {demand.why or self._bounds(demand.low, demand.high)}"
        if item.kind == "term":
            return self._term_line(item)
        if item.kind == "plate":
            plate = self._plate(item)
            cut = f"at most {self.said(plate.cut)}" if plate.cut else "never"
            return (
                f"{title} at {place(plate.height, self.unit)}: it stands at "
                f"{self.said(plate.offset, signed=True)}, and its edge is cut {cut}"
            )
        if item.kind == "lean":
            return self._lean_line(item)
        if item.kind == "straightedge":
            rules = " and ".join(
                f"{self.said(gap)} under {self.said(length)}" for length, gap in self.problem.flatness
            )
            return f"{title}: at most {rules}"
        member = self._member(item)
        as_read = _as_read(member, self._wall(item), self.unit)
        if "dries" in member.why:
            as_read = f"{as_read}; {member.why['dries'][0]}"
        if item.kind == "stud":
            return f"{title}: {as_read}; {self._refused(member)}"
        why = member.why.get("held" if item.kind == "hold" else "must", ("", ""))[0]
        return f"{title}: {as_read}" + (f"; {why}" if why else "")

    def _bounds(self, low: Fraction | None, high: Fraction | None) -> str:
        if low is None or high is None:
            value = high if low is None else low
            assert value is not None
            return f"{'at most' if low is None else 'at least'} {self.said(value, signed=True)}"
        if low == high:
            return self.said(low, signed=True)
        return f"{self.said(low, signed=True)} to {self.said(high, signed=True)}"

    def _term_line(self, item: Item) -> str:
        term = self._term(item)
        low, high = term.low, term.high
        if term.minutes is not None:
            low = low if term.hard_low is None or low is None else min(low, term.hard_low)
            high = high if term.hard_high is None or high is None else max(high, term.hard_high)
        if item.side == "low" and low is not None:
            where = f"{self.said(low, signed=True)} or further in"
        else:
            assert high is not None
            where = f"{self.said(high, signed=True)} or further back"
        if where in term.why:
            return f"{self.title(item)}: {term.why}"
        return f"{self.title(item)}: the plane at {where}" + (f"; {term.why}" if term.why else "")

    def _lean_line(self, item: Item) -> str:
        leans = self._wall(item).leans
        most = max(abs(lean) for lean in leans) * LEAN_OVER
        title = f"Wall {item.wall}"
        if len(leans) == 1 and most:
            return f"{title} held at a lean of {self.said(leans[0] * LEAN_OVER, signed=True)} in 8 ft"
        if not most:
            return f"{title} plumb: no lean is offered"
        return f"{title} plumb: it leans at most {self.said(most)} in 8 ft either way"

    def _refused(self, member: Member) -> str:
        """What is not offered to a stud, and why."""
        out = []
        offered = {
            "plane": ("not planed", any(member.plane_depth)),
            "strip": ("no strips", bool(member.stock)),
            "sister": ("no sister", member.sister is not None),
            "replace": ("not replaced", member.replace is not None),
        }
        for key, (words, yes) in offered.items():
            if not yes:
                why = member.why.get(key)
                out.append(f"{words} ({why[0]})" if why else words)
        if any(member.plane_depth):
            why = member.why.get("plane limit")
            limit = f"planed at most {self.said(max(member.plane_depth))}"
            out.insert(0, f"{limit} ({why[0]})" if why else limit)
            nearer = {why[0]: None for key, why in member.why.items() if key.startswith("plane at ")}
            out[1:1] = list(nearer)
        return ", ".join(out)

    def source(self, item: Item) -> str:
        """The key of where it comes from."""
        if item.kind == "demand":
            return self._demand(item).source
        if item.kind == "term":
            return self._term(item).source
        if item.kind == "lean":
            return "ufgs-thinset-plumb"
        if item.kind == "straightedge":
            large = any(length == LARGE_TILE_RULE for length, _ in self.problem.flatness)
            return "a108.02-4.2.2" if large else "a108-flat-small"
        return "convention-4"

    # -- what frees it ----------------------------------------------------------------------------------

    def change(self, item: Item, spec: tuple[tuple[Item, Fraction | None], ...]) -> str:
        """The change as something to do, an imperative without a full stop."""
        first, amount = spec[0]
        if first.kind == "move drain" and amount is not None:
            return self._drain(item, first.name, amount)
        names = _listed([each.name for each, _ in spec])
        them = "it" if len(spec) == 1 else "them"
        if first.kind == "move stud" and amount is not None:
            way = "out" if amount > 0 else "back"
            return f"bring {names} {way} {self.said(abs(amount))}, or allow {them} to be replaced"
        if amount is None and item.kind == "stud":
            straight = "a straight one" if len(spec) == 1 else "straight ones"
            most = said(Fraction(3), self.unit)
            return (
                f"allow {names} to be replaced by {straight}; bringing {them} back or out as read, up to "
                f"{most}, is not enough"
            )
        if amount is None:
            return self._let_go(item)
        by = self.said(amount)
        if item.kind == "demand":
            return self._demand_change(first, by, len(spec) > 1)
        if item.kind == "term":
            return self._term_change(item, by)
        if item.kind == "plate":
            return f"cut {by} more off plate {item.name} of wall {item.wall}"
        if item.kind == "lean":
            return f"let wall {item.wall} lean {by} more in 8 ft"
        return f"let {by} more show under the straightedge"

    def _let_go(self, item: Item) -> str:
        if item.kind == "hold":
            return f"let go of the hold on {item.name}"
        if item.kind == "must":
            return f"probe {item.name} again: only if the wood is sound may it go without a sister"
        return f"let go of {self.title(item)}; no change up to {said(Fraction(3), self.unit)} frees it"

    def _demand_change(self, item: Item, by: str, every: bool) -> str:
        demand = self._demand(item)
        wish, low = wish_of(demand.code), item.side == "low"
        wall, along = demand.parts[0][0], demand.parts[0][1]
        if wish == "play":
            at = " at every depth" if every else f" at {place(along, self.unit)} from the back"
            if low:
                return f"let the play{at} be {by} more"
            return f"make the opening{at} {by} wider, or the pan that much narrower"
        if wish == "drop-in":
            return f"make the opening {by} wider, or the pan that much narrower"
        if wish.startswith("skew-"):
            return f"let the far end of wall {wall} come {by} further {'back' if low else 'in'} over the pan"
        if wish == "square":
            return f"let the diagonals differ by {by} more"
        if wish.startswith("square-"):
            return f"let the corner of walls B and {wish[-1]} be {by} more out of square"
        if wish.startswith("drain-"):
            return f"give the outlet {by} more float"
        if wish.startswith("hold-") and wish.endswith("-skew"):
            way = "less" if low else "more"
            return f"let the skew of wall {wall} be {by} {way} than held, or let go of it"
        if wish.startswith("hold-"):
            way = "back" if low else "in"
            return f"put wall {wall} {by} further {way} than held, or let go of it"
        return f"let {demand.title} be {by} {'less' if low else 'more'}"

    def _term_change(self, item: Item, by: str) -> str:
        term = self._term(item)
        name, low = stem_of(term.name), item.side == "low"
        if term.name == "valve":
            way = "back" if low else "out"
            allow = ", or allow it to be re-blocked" if term.minutes is None else ""
            return f"set the valve {by} further {way}{allow}"
        if term.minutes is not None:
            return f"move {name} {by} further {'back' if low else 'out'} than it reaches"
        if low and term.high is None:
            return f"let {name} stand {by} further proud of the studs, or allow it to be moved"
        way = "behind" if low else "proud of"
        return f"let the new face lie {by} further {way} {name}"

    def _drain(self, item: Item, axis: str, amount: Fraction) -> str:
        by = self.said(abs(amount))
        if axis == "y":
            return f"move the drain {by} {'out from' if amount > 0 else 'toward'} the back wall"
        side = "R" if amount > 0 else "L"
        if side in self.walls:
            return f"move the drain {by} toward the {WALLS[side]}"
        return f"move the drain {by} away from the {WALLS['L' if side == 'R' else 'R']}"


def _listed(names: list[str]) -> str:
    return names[0] if len(names) == 1 else f"{', '.join(names[:-1])} and {names[-1]}"


def cited(key: str) -> str:
    """A source in few words; a default of our own as the section it stands in."""
    return f"convention {key.removeprefix('convention-')}" if key.startswith("convention-") else cite(key)


def _side_of(demand: Demand, side: str) -> str:
    """Which end of a demand, where it has two that read alike."""
    wish = wish_of(demand.code)
    if side not in ("low", "high") or demand.low is None or demand.high is None:
        return ""
    low = side == "low"
    if wish == "play":
        return ", not too wide" if low else ", wide enough"
    if wish.startswith("skew-"):
        return ", its far end not too far back" if low else ", its far end not too far in"
    if wish == "square":
        return (
            ", the one from back right not the longer" if low else ", the one from back left not the longer"
        )
    if wish.startswith("square-"):
        return ", not opening" if low else ", not closing"
    if wish == "drain-y":
        return ", not too near the wall" if low else ", not too far out"
    return ", not too far back" if low else ", not too far in"


def _as_read(member: Member, wall: WallProblem, unit: Unit) -> str:
    """A stud's faces as read, between furthest back and furthest in."""
    spots = list(zip(member.offsets, wall.heights, strict=True))
    (low, z0), (high, z1) = min(spots), max(spots)
    if low == high:
        return f"as read at {said(low, unit, signed=True)} throughout"
    return (
        f"as read from {said(low, unit, signed=True)} at {place(z0, unit)} "
        f"to {said(high, unit, signed=True)} at {place(z1, unit)}"
    )


def band_words(unit: Unit) -> str:
    """Where finished faces may lie (convention 3.3)."""
    return (
        f"a finished face lies within {said(SIXTEENTH, unit)} of its plane, in the flange zone never proud "
        "of it [convention 3]"
    )
