"""A conflict in the trade's words: what was asked with its numbers and source, and what frees it."""

from __future__ import annotations

from fractions import Fraction

from undertile.framing.demandside import side_of
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
from undertile.framing.say import FAMILIES, place, said
from undertile.lengths import Unit
from undertile.sentence import Sentence, joined, listed
from undertile.sources import cite

WALLS = {"L": Sentence("left wall"), "B": Sentence("back wall"), "R": Sentence("right wall")}
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
            side = side_of(demand, item.side)
            return Sentence(side, title=demand.title) if side else demand.title
        if item.kind == "term":
            return Sentence("{name}, wall {wall}", name=item.name, wall=item.wall)
        if item.kind == "hold":
            return Sentence("{stud} held to {family}", stud=item.name, family=_held(self._member(item).held))
        if item.kind == "must":
            return Sentence("{stud} is soft", stud=item.name)
        if item.kind == "stud":
            return Sentence("{stud} as it stands", stud=item.name)
        if item.kind == "plate":
            return Sentence("plate {name}, wall {wall}", name=item.name, wall=item.wall)
        if item.kind == "lean":
            return Sentence("wall {wall} plumb", wall=item.wall)
        return Sentence("the straightedge rule")

    def line(self, item: Item) -> str:
        """What was asked, with its numbers and its source."""
        return Sentence("{line} [{source}]", line=self._line(item), source=cited(self.source(item)))

    def _line(self, item: Item) -> str:
        title = self.title(item)
        if item.kind == "demand":
            demand = self._demand(item)
            why = demand.why or self._bounds(demand.low, demand.high)
            return Sentence("{title}: {why}", title=title, why=why)
        if item.kind == "term":
            return self._term_line(item)
        if item.kind == "plate":
            plate = self._plate(item)
            return Sentence(
                "{title} at {height}: it stands at {at}, and its edge is cut at most {cut}"
                if plate.cut
                else "{title} at {height}: it stands at {at}, and its edge is cut never",
                title=title,
                height=place(plate.height, self.unit),
                at=self.said(plate.offset, signed=True),
                cut=self.said(plate.cut),
            )
        if item.kind == "lean":
            return self._lean_line(item)
        if item.kind == "straightedge":
            rules = joined(
                (
                    Sentence("{limit} under {length}", limit=self.said(gap), length=self.said(length))
                    for length, gap in self.problem.flatness
                ),
                "{first} and {then}",
            )
            return Sentence("{title}: at most {rules}", title=title, rules=rules)
        member = self._member(item)
        as_read = _as_read(member, self._wall(item), self.unit)
        if "dries" in member.why:
            as_read = Sentence("{first}; {then}", first=as_read, then=member.why["dries"][0])
        if item.kind == "stud":
            return Sentence(
                "{title}: {as_read}; {why}", title=title, as_read=as_read, why=self._refused(member)
            )
        why = member.why.get("held" if item.kind == "hold" else "must", ("", ""))[0]
        if not why:
            return Sentence("{title}: {why}", title=title, why=as_read)
        return Sentence("{title}: {as_read}; {why}", title=title, as_read=as_read, why=why)

    def _bounds(self, low: Fraction | None, high: Fraction | None) -> str:
        if low is None or high is None:
            value = high if low is None else low
            assert value is not None
            said = self.said(value, signed=True)
            if low is None:
                return Sentence("at most {most}", most=said)
            return Sentence("at least {least}", least=said)
        if low == high:
            return self.said(low, signed=True)
        return Sentence("{low} to {high}", low=self.said(low, signed=True), high=self.said(high, signed=True))

    def _term_line(self, item: Item) -> str:
        term = self._term(item)
        low, high = term.low, term.high
        if term.minutes is not None:
            low = low if term.hard_low is None or low is None else min(low, term.hard_low)
            high = high if term.hard_high is None or high is None else max(high, term.hard_high)
        if item.side == "low" and low is not None:
            where = Sentence("{at} or further in", at=self.said(low, signed=True))
        else:
            assert high is not None
            where = Sentence("{at} or further back", at=self.said(high, signed=True))
        if where in term.why:
            return Sentence("{title}: {why}", title=self.title(item), why=term.why)
        line = Sentence("{title}: the plane at {where}", title=self.title(item), where=where)
        return Sentence("{first}; {then}", first=line, then=term.why) if term.why else line

    def _lean_line(self, item: Item) -> str:
        leans = self._wall(item).leans
        most = max(abs(lean) for lean in leans) * LEAN_OVER
        if len(leans) == 1 and most:
            return Sentence(
                "Wall {wall} held at a lean of {lean} in 8 ft",
                wall=item.wall,
                lean=self.said(leans[0] * LEAN_OVER, signed=True),
            )
        if not most:
            return Sentence("Wall {wall} plumb: no lean is offered", wall=item.wall)
        return Sentence(
            "Wall {wall} plumb: it leans at most {most} in 8 ft either way",
            wall=item.wall,
            most=self.said(most),
        )

    def _refused(self, member: Member) -> str:
        """What is not offered to a stud, and why."""
        out: list[str] = []
        offered = {
            "plane": (Sentence("not planed"), any(member.plane_depth)),
            "strip": (Sentence("no strips"), bool(member.stock)),
            "sister": (Sentence("no sister"), member.sister is not None),
            "replace": (Sentence("not replaced"), member.replace is not None),
        }
        for key, (words, yes) in offered.items():
            if not yes:
                out.append(_with_why(words, member.why.get(key)))
        if any(member.plane_depth):
            limit = Sentence("planed at most {most}", most=self.said(max(member.plane_depth)))
            out.insert(0, _with_why(limit, member.why.get("plane limit")))
            nearer = {why[0]: None for key, why in member.why.items() if key.startswith("plane at ")}
            out[1:1] = list(nearer)
        return joined(out)

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
        names, one = listed([each.name for each, _ in spec]), len(spec) == 1
        if first.kind == "move stud" and amount is not None:
            by = self.said(abs(amount))
            if one:
                return Sentence(
                    "bring {studs} out {by}, or allow it to be replaced"
                    if amount > 0
                    else "bring {studs} back {by}, or allow it to be replaced",
                    studs=names,
                    by=by,
                )
            return Sentence(
                "bring {studs} out {by}, or allow them to be replaced"
                if amount > 0
                else "bring {studs} back {by}, or allow them to be replaced",
                studs=names,
                by=by,
            )
        if amount is None and item.kind == "stud":
            return Sentence(
                "allow {studs} to be replaced by a straight one; bringing it back or out as read, up to "
                "{most}, is "
                "not enough"
                if one
                else "allow {studs} to be replaced by straight ones; bringing them back or out as read, "
                "up to "
                "{most}, is not enough",
                studs=names,
                most=said(Fraction(3), self.unit),
            )
        if amount is None:
            return self._let_go(item)
        by = self.said(amount)
        if item.kind == "demand":
            return self._demand_change(first, by, len(spec) > 1)
        if item.kind == "term":
            return self._term_change(item, by)
        if item.kind == "plate":
            return Sentence(
                "cut {by} more off plate {name} of wall {wall}", by=by, name=item.name, wall=item.wall
            )
        if item.kind == "lean":
            return Sentence("let wall {wall} lean {by} more in 8 ft", wall=item.wall, by=by)
        return Sentence("let {by} more show under the straightedge", by=by)

    def _let_go(self, item: Item) -> str:
        if item.kind == "hold":
            return Sentence("let go of the hold on {stud}", stud=item.name)
        if item.kind == "must":
            return Sentence(
                "probe {stud} again: only if the wood is sound may it go without a sister", stud=item.name
            )
        return Sentence(
            "let go of {title}; no change up to {most} frees it",
            title=self.title(item),
            most=said(Fraction(3), self.unit),
        )

    def _demand_change(self, item: Item, by: str, every: bool) -> str:
        demand = self._demand(item)
        wish, low = wish_of(demand.code), item.side == "low"
        wall, along = demand.parts[0][0], demand.parts[0][1]
        if wish == "play":
            slots = {"by": by, "depth": place(along, self.unit)}
            if low:
                return Sentence(
                    "let the play at every depth be {by} more"
                    if every
                    else "let the play at {depth} from the back be {by} more",
                    **slots,
                )
            return Sentence(
                "make the opening at every depth {by} wider, or the pan that much narrower"
                if every
                else "make the opening at {depth} from the back {by} wider, or the pan that much narrower",
                **slots,
            )
        if wish == "drop-in":
            return Sentence("make the opening {by} wider, or the pan that much narrower", by=by)
        if wish.startswith("skew-"):
            return Sentence(
                "let the far end of wall {wall} come {by} further back over the pan"
                if low
                else "let the far end of wall {wall} come {by} further in over the pan",
                wall=wall,
                by=by,
            )
        if wish == "square":
            return Sentence("let the diagonals differ by {by} more", by=by)
        if wish.startswith("square-"):
            return Sentence(
                "let the corner of walls B and {wall} be {by} more out of square", wall=wish[-1], by=by
            )
        if wish.startswith("drain-"):
            return Sentence("give the outlet {by} more float", by=by)
        if wish.startswith("hold-") and wish.endswith("-skew"):
            return Sentence(
                "let the skew of wall {wall} be {by} less than held, or let go of it"
                if low
                else "let the skew of wall {wall} be {by} more than held, or let go of it",
                wall=wall,
                by=by,
            )
        if wish.startswith("hold-"):
            return Sentence(
                "put wall {wall} {by} further back than held, or let go of it"
                if low
                else "put wall {wall} {by} further in than held, or let go of it",
                wall=wall,
                by=by,
            )
        return Sentence(
            "let {demand} be {by} less" if low else "let {demand} be {by} more", demand=demand.title, by=by
        )

    def _term_change(self, item: Item, by: str) -> str:
        term = self._term(item)
        name, low = stem_of(term.name), item.side == "low"
        if term.name == "valve":
            if term.minutes is None:
                return Sentence(
                    "set the valve {by} further back, or allow it to be re-blocked"
                    if low
                    else "set the valve {by} further out, or allow it to be re-blocked",
                    by=by,
                )
            return Sentence(
                "set the valve {by} further back" if low else "set the valve {by} further out", by=by
            )
        if term.minutes is not None:
            return Sentence(
                "move {thing} {by} further back than it reaches"
                if low
                else "move {thing} {by} further out than it reaches",
                thing=name,
                by=by,
            )
        if low and term.high is None:
            return Sentence(
                "let {thing} stand {by} further proud of the studs, or allow it to be moved",
                thing=name,
                by=by,
            )
        return Sentence(
            "let the new face lie {by} further behind {thing}"
            if low
            else "let the new face lie {by} further proud of {thing}",
            thing=name,
            by=by,
        )

    def _drain(self, item: Item, axis: str, amount: Fraction) -> str:
        by = self.said(abs(amount))
        if axis == "y":
            return Sentence(
                "move the drain {by} out from the back wall"
                if amount > 0
                else "move the drain {by} toward the back wall",
                by=by,
            )
        side = "R" if amount > 0 else "L"
        if side in self.walls:
            return Sentence("move the drain {by} toward the {wall}", by=by, wall=WALLS[side])
        return Sentence(
            "move the drain {by} away from the {wall}", by=by, wall=WALLS["L" if side == "R" else "R"]
        )


def _held(family: str | None) -> str:
    return FAMILIES.get(family or "", family or "")


def _with_why(words: str, why: tuple[str, str] | None) -> str:
    """A refusal with its reason in brackets, where there is one."""
    return Sentence("{words} ({why})", words=words, why=why[0]) if why else words


def cited(key: str) -> str:
    """A source in few words; a default of our own as the section it stands in."""
    return (
        Sentence("convention {section}", section=key.removeprefix("convention-"))
        if key.startswith("convention-")
        else cite(key)
    )


def _as_read(member: Member, wall: WallProblem, unit: Unit) -> str:
    """A stud's faces as read, between furthest back and furthest in."""
    spots = list(zip(member.offsets, wall.heights, strict=True))
    (low, z0), (high, z1) = min(spots), max(spots)
    if low == high:
        return Sentence("as read at {at} throughout", at=said(low, unit, signed=True))
    return Sentence(
        "as read from {low} at {low_height} to {high} at {high_height}",
        low=said(low, unit, signed=True),
        low_height=place(z0, unit),
        high=said(high, unit, signed=True),
        high_height=place(z1, unit),
    )


def band_words(unit: Unit) -> str:
    """Where finished faces may lie (convention 3.3)."""
    return Sentence(
        "a finished face lies within {most} of its plane, in the flange zone never proud of it "
        "[convention 3]",
        most=said(SIXTEENTH, unit),
    )
