"""Why each stud gets what it gets, and what the plan itself asks of a person."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from fractions import Fraction

from undertile.findings import Finding, Severity
from undertile.framing.plan import FramingPlan, MemberPlan
from undertile.framing.problem import PASS, SIXTEENTH, FramingProblem, Member, WallProblem
from undertile.framing.say import STEP, place, said
from undertile.framing.words import stock_words
from undertile.lengths import Unit
from undertile.sentence import Sentence


@dataclass(frozen=True)
class _Stud:
    """One stud of the plan with what it was allowed."""

    plan: MemberPlan
    allowed: Member
    wall: WallProblem
    problem: FramingProblem
    unit: Unit

    def high(self, h: int) -> Fraction:
        """How far proud a face may stand (convention 3.3). [in]"""
        return Fraction(0) if self.wall.flange[h] else SIXTEENTH

    def beyond(self, face: Fraction, h: int) -> Fraction:
        """How far a face lies outside its band: plus proud, minus back, 0 inside. [in]"""
        rest = face - self.plan.target[h]
        if rest > self.high(h):
            return rest - self.high(h)
        return min(rest + self.back, Fraction(0))

    @property
    def back(self) -> Fraction:
        """How far back a face may lie: what drying still takes is off it [contract 12]. [in]"""
        return SIXTEENTH - self.allowed.goes_back

    def at(self, h: int) -> str:
        return place(self.plan.heights[h], self.unit)

    def plane(self, h: int) -> str:
        """Where the plane is, in words; 0 is the nominal."""
        return self.said(self.plan.target[h], signed=True) if self.plan.target[h] else "0"

    def said(self, value: Fraction, *, signed: bool = False) -> str:
        return said(value, self.unit, signed=signed)

    def rest(self, face: Fraction, h: int) -> str:
        """Where a face lies to the plane, in words that never bring it nearer to a limit than it is."""
        off = face - self.plan.target[h]
        if not off:
            return Sentence("on the plane")
        text, size = self.said(abs(off)), abs(off)
        if text.startswith("about "):
            less = size // STEP[self.unit] * STEP[self.unit]
            text = Sentence("less than {length}", length=self.said(STEP[self.unit]))
            if less:
                text = Sentence("just over {length}", length=self.said(less))
        return Sentence("{by} proud" if off > 0 else "{by} back", by=text)

    @property
    def proudest(self) -> tuple[int, Fraction]:
        """Where the stud as read stands furthest out of its band toward the room, 0 where nowhere."""
        return max(
            ((h, max(self.beyond(o, h), Fraction(0))) for h, o in enumerate(self.plan.offsets)),
            key=lambda item: item[1],
        )

    @property
    def lowest(self) -> tuple[int, Fraction]:
        """Where it lies furthest back out of its band, 0 where nowhere."""
        return min(
            ((h, min(self.beyond(o, h), Fraction(0))) for h, o in enumerate(self.plan.offsets)),
            key=lambda item: item[1],
        )


def reasons(member: MemberPlan, problem: FramingProblem, unit: Unit = "in") -> tuple[str, ...]:
    """Why one stud gets this and not less, and why not the next cheaper thing.

    Parameters
    ----------
    member : MemberPlan
    problem : FramingProblem
        It was planned for.
    unit : {"in", "mm"}

    Returns
    -------
    tuple of str
        Sentences without a full stop, the reading first.

    Raises
    ------
    KeyError
        If the problem has no such stud.
    """
    for wall in problem.walls:
        for allowed in wall.members:
            if wall.name == member.wall and allowed.name == member.name:
                return tuple(_reasons(_Stud(member, allowed, wall, problem, unit)))
    raise KeyError(member.name)


def _reasons(stud: _Stud) -> Iterator[str]:
    recipe, why = stud.plan.recipe, stud.allowed.why
    if "held" in why:
        yield why["held"][0]
    if "must" in why:
        yield why["must"][0]
    yield from _as_read(stud)
    if "dries" in why:
        yield why["dries"][0]
    families = set(recipe.families)
    if "plane" in families or recipe.passes:
        yield from _passes(stud)
    if "strip" in families:
        yield from _strips(stud)
    if "taper" in families and recipe.taper is not None:
        yield Sentence(
            "one straight rip reaches the plane from {low} at {low_height} to {high} at {high_height}",
            low=stud.said(recipe.taper[0]),
            low_height=stud.at(0),
            high=stud.said(recipe.taper[1]),
            high_height=stud.at(-1),
        )
    yield from _not_cheaper(stud, families)
    if "sister" in families and "sister minutes" in why:
        yield why["sister minutes"][0]
    if "sister" in families and "sister is" in why:
        yield why["sister is"][0]
    if "replace" in families and "replace minutes" in why:
        yield why["replace minutes"][0]
    if recipe.flange_shim:
        h, gap = min(
            (
                (h, f - t)
                for h, (f, t) in enumerate(zip(stud.plan.finished, stud.plan.target, strict=True))
                if stud.wall.flange[h]
            ),
            key=lambda item: item[1],
        )
        yield Sentence(
            "its face lies {gap} behind the plane at {height}: a plastic shim closes the gap behind the "
            "flange "
            "(convention 3.4)",
            gap=stud.said(-gap),
            height=stud.at(h),
        )


def _as_read(stud: _Stud) -> Iterator[str]:
    (up, proud), (down, back) = stud.proudest, stud.lowest
    if proud:
        stay = Sentence("nothing may stay proud in the flange zone")
        if not stud.wall.flange[up]:
            stay = Sentence(
                "{most} may stay above the flange" if any(stud.wall.flange) else "{most} may stay",
                most=stud.said(SIXTEENTH),
            )
        yield Sentence(
            "stands {off} at {height}; the plane there is at {plane}, {stay} (convention 3.3)",
            off=stud.rest(stud.plan.offsets[up], up),
            height=stud.at(up),
            plane=stud.plane(up),
            stay=stay,
        )
    if back:
        yield Sentence(
            "lies {off} at {height}; the plane there is at {plane}, {most} back may stay (convention 3.3)",
            off=stud.rest(stud.plan.offsets[down], down),
            height=stud.at(down),
            plane=stud.plane(down),
            most=stud.said(stud.back),
        )
    if proud or back:
        return
    if not stud.plan.recipe.families:
        yield Sentence(
            "as read it lies within {most} of the plane at every height (convention 3.3)",
            most=stud.said(SIXTEENTH),
        )
    else:
        yield Sentence(
            "as read it lies within its band; it is worked so that the straightedge rests right over its "
            "neighbors, or to save a dearer thing"
        )


def _passes(stud: _Stud) -> Iterator[str]:
    recipe = stud.plan.recipe
    sistered = "sister" in recipe.families
    limits = stud.allowed.plane_depth_sistered if sistered else stud.allowed.plane_depth
    fewer = recipe.passes - 1
    added = tuple(a + d for a, d in zip(stud.plan.amounts, recipe.depth, strict=True))
    worst: tuple[int, Fraction] | None = None
    for h, offset in enumerate(stud.plan.offsets):
        face = offset + (Fraction(0) if sistered else added[h]) - min(fewer * PASS, limits[h])
        beyond = face - stud.plan.target[h] if sistered else stud.beyond(face, h)
        if beyond > 0 and (worst is None or beyond > worst[1]):
            worst = (h, beyond)
            left = face
    if worst is not None and fewer:
        yield Sentence(
            "one pass would leave it {off} at {height}"
            if fewer == 1
            else "{passes} passes would leave it {off} at {height}",
            passes=fewer,
            off=stud.rest(left, worst[0]),
            height=stud.at(worst[0]),
        )
    elif fewer:
        yield Sentence("a pass less would do for the band, but not for the straightedge over its neighbors")
    binding = [h for h, d in enumerate(recipe.depth) if d and d == limits[h]]
    if binding:
        key = f"plane at {stud.at(binding[0])}"
        text = stud.allowed.why.get(key, stud.allowed.why.get("plane limit"))
        if text is not None:
            yield Sentence("planed to its limit at {height}: {why}", height=stud.at(binding[0]), why=text[0])


def _strips(stud: _Stud) -> Iterator[str]:
    recipe = stud.plan.recipe
    if len(recipe.pieces) > 1:
        needs = [
            t - stud.back - o + d
            for t, o, d in zip(stud.plan.target, stud.plan.offsets, recipe.depth, strict=True)
        ]
        rooms = [n + stud.back + stud.high(h) for h, n in enumerate(needs)]
        low, high = (
            max(range(len(needs)), key=lambda h: needs[h]),
            min(range(len(rooms)), key=lambda h: rooms[h]),
        )
        if needs[low] > rooms[high]:
            yield Sentence(
                "one thickness does not do: at least {least} is needed at {low}, and at {high} {room}",
                least=stud.said(needs[low]),
                low=stud.at(low),
                high=stud.at(high),
                room=_fits(stud, rooms[high]),
            )
        return
    piece = recipe.pieces[0]
    thinner = [
        stud.problem.stock[i]
        for i in stud.allowed.stock
        if stud.problem.stock[i].thickness < piece.thickness
        and (
            not stud.problem.stock[i].dry_only or all(stud.allowed.dry_stock_ok[piece.first : piece.last + 1])
        )
    ]
    if not thinner:
        return
    next_one = max(thinner, key=lambda item: item.thickness)
    words = stock_words(next_one.name, next_one.thickness, stud.unit)
    for h in range(piece.first, piece.last + 1):
        face = stud.plan.offsets[h] + next_one.thickness - recipe.depth[h]
        if stud.beyond(face, h) < 0:
            yield Sentence(
                "the next thinner on the van ({stock}) would leave it {off} at {height}",
                stock=words,
                off=stud.rest(face, h),
                height=stud.at(h),
            )
            return


def _fits(stud: _Stud, room: Fraction) -> str:
    """How much strip there is room for, in words."""
    if room <= 0:
        return Sentence("nothing fits")
    if room < STEP[stud.unit]:
        return Sentence("less than {least} fits", least=stud.said(STEP[stud.unit]))
    return Sentence("no more than {most} fits", most=stud.said(room))


def _not_cheaper(stud: _Stud, families: set[str]) -> Iterator[str]:
    """Refusals that speak to this stud's need."""
    why, (up, proud), (_, back) = stud.allowed.why, stud.proudest, stud.lowest
    done = families & {"sister", "replace", "channel", "knock over"}
    if proud and not families & {"plane", "channel"} and not stud.plan.recipe.passes:
        if "plane" in why:
            yield Sentence("not planed: {why}", why=why["plane"][0])
        elif done:
            limit = stud.allowed.plane_depth[up]
            text = why.get(f"plane at {stud.at(up)}", why.get("plane limit", ("", "")))[0]
            if proud > limit:
                yield Sentence(
                    "planing stops at {limit} at {height}: {why}",
                    limit=stud.said(limit),
                    height=stud.at(up),
                    why=text,
                )
            elif not stud.allowed.rip_ok and "rip" in why:
                yield why["rip"][0]
    if back and done:
        for family in ("strip", "taper"):
            if family in why:
                yield Sentence(
                    "no strip: {why}" if family == "strip" else "no taper: {why}", why=why[family][0]
                )
    if "replace" in families and "sister" in why:
        yield Sentence("no sister: {why}", why=why["sister"][0])
    cards = {item.thickness for item in stud.problem.stock if item.dry_only}
    if "card" in why and back and any(piece.thickness in cards for piece in stud.plan.recipe.pieces):
        yield why["card"][0]


def with_reasons(plan: FramingPlan, problem: FramingProblem, unit: Unit = "in") -> FramingPlan:
    """The plan with every stud's reasons and what the plan itself asks of a person.

    Parameters
    ----------
    plan : FramingPlan
    problem : FramingProblem
    unit : {"in", "mm"}

    Returns
    -------
    FramingPlan
        ``reasons`` of every member filled, ``plan_findings`` added to ``findings``.
    """
    members = tuple(replace(member, reasons=reasons(member, problem, unit)) for member in plan.members)
    return replace(plan, members=members, findings=(*plan.findings, *plan_findings(plan, problem)))


def plan_findings(plan: FramingPlan, problem: FramingProblem) -> tuple[Finding, ...]:
    """What follows from the plan and needs a person: a bearing stud out, a bed that must set.

    Parameters
    ----------
    plan : FramingPlan
    problem : FramingProblem

    Returns
    -------
    tuple of Finding
    """
    allowed = {(wall.name, member.name): member for wall in problem.walls for member in wall.members}
    found = []
    beds: dict[str, list[str]] = {}
    for member in plan.members:
        if "replace" in member.recipe.families and allowed[member.wall, member.name].shoring:
            text = allowed[member.wall, member.name].why.get(
                "replace minutes", (Sentence("it counts as bearing"), "")
            )[0]
            found.append(
                Finding(
                    "bearing-stud-out",
                    Severity.STOP,
                    member.name,
                    Sentence("the wall shored and an engineer's word before a bearing stud comes out"),
                    Sentence("the plan replaces it; {why}", why=text),
                    Sentence("Shore the wall, ask, and say who answered; or find out that it bears nothing."),
                    "convention-4",
                )
            )
        if "wet bed" in member.recipe.families:
            beds.setdefault(member.wall, []).append(member.name)
    for wall, names in beds.items():
        found.append(
            Finding(
                "bed-must-set",
                Severity.ACT,
                f"wall {wall}",
                Sentence("beds set before the screws are driven home"),
                Sentence("wet beds on {studs}", studs=", ".join(names)),
                Sentence("Bed one board at a time and wait 12 to 24 hours before the screws are snug."),
                "convention-4",
            )
        )
    return tuple(found)
