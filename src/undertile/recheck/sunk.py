"""The framing problem of what is there now: work done is sunk, and what it used up of every limit counts.

The re-read faces are the new offsets. Depth already planed is taken off every planing limit at its height
(craft, notch share, hole, pipe and wire: all are measured from the face as it was). A strip that is on is not
planed into; no fourth layer goes on it. A sistered or replaced stud is what it is now.
"""

from __future__ import annotations

from collections.abc import Container, Mapping, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from undertile.findings import Finding, Severity
from undertile.framing.facts import FramingFacts
from undertile.framing.limits import MOST_STRIPS
from undertile.framing.plan import FramingPlan, MemberPlan
from undertile.framing.problem import FramingProblem, Member, Prices, StockItem, WallProblem
from undertile.framing.say import place, said
from undertile.lengths import Unit
from undertile.recheck.asked import changed
from undertile.recheck.did import Tick
from undertile.recheck.faces import Face, StudFaces, WallFaces
from undertile.recheck.say import spot, spots
from undertile.sentence import Sentence
from undertile.survey.result import OffsetAt, SurveyResult

ZERO = Fraction(0)
NEW_FACE = frozenset({"sister", "replace", "channel"})
ADDED = frozenset({"strip", "taper", "wet bed"})
MOST_LAYERS = 3
STRIPS_OFF = Fraction(4)
"""Minutes to take the strips off one stud (ours, marked as such). [min]"""


@dataclass(frozen=True)
class Now:
    """One stud as it is now.

    Attributes
    ----------
    stud : StudFaces
    member : MemberPlan
        Of the plan carried out.
    done : bool
        Its planned work is done: ticked for this plan, or the readings lie nearer to it than to what was.
    offsets : tuple of Fraction
        At the plan's heights. [in]
    earlier : bool
        It is ticked for an earlier plan, or nobody knows for which: its face may be neither the first nor the
        planned one.
    assumed : tuple of int
        Heights where nothing was read again and the offset is taken from plan or survey.
    planed : tuple of Fraction
        Depth taken off so far. [in]
    """

    stud: StudFaces
    member: MemberPlan
    done: bool
    offsets: tuple[Fraction, ...]
    assumed: tuple[int, ...]
    planed: tuple[Fraction, ...]
    earlier: bool = False

    @property
    def added(self) -> bool:
        """Whether something lies on the old face."""
        return self.done and bool(ADDED & set(self.member.recipe.families))

    @property
    def new_face(self) -> bool:
        """Whether the face is a new member's."""
        return self.done and bool(NEW_FACE & set(self.member.recipe.families))

    @property
    def strips(self) -> tuple[Fraction, ...]:
        """Thickness of the strips on it at each height. [in]"""
        return tuple(
            sum((p.thickness for p in self.member.recipe.pieces if p.first <= h <= p.last), ZERO)
            for h in range(len(self.offsets))
        )


def studs_now(walls: Sequence[WallFaces], plan: FramingPlan, ticks: Mapping[str, Tick]) -> tuple[Now, ...]:
    """Every stud of the plan as it is now.

    Parameters
    ----------
    walls : sequence of WallFaces
    plan : FramingPlan
    ticks : mapping
        Studs that are ticked, and what for (``did.ticks_of``).
    """
    return tuple(
        _now(stud, plan.member(stud.name), ticks.get(stud.name)) for wall in walls for stud in wall.studs
    )


def _now(stud: StudFaces, member: MemberPlan, tick: Tick | None) -> Now:
    at = [stud.at(z) for z in member.heights]
    own = changed(member)
    done = bool(own) and (tick == "holds" or _nearer_the_plan(member, at, own))
    offsets, assumed = [], []
    for h, face in enumerate(at):
        if face is not None and face.offset is not None:
            offsets.append(face.offset)
        else:
            offsets.append(member.finished[h] if done else member.offsets[h])
            assumed.append(h)
    fresh = done and bool(NEW_FACE & set(member.recipe.families))
    covered = done and bool(ADDED & set(member.recipe.families))
    if fresh:
        planed = (ZERO,) * len(offsets)
    elif covered:
        planed = member.recipe.depth or (ZERO,) * len(offsets)
    else:
        planed = tuple(max(ZERO, was - now) for was, now in zip(member.offsets, offsets, strict=True))
    earlier = tick in ("earlier", "unknown") and not done
    return Now(stud, member, done, tuple(offsets), tuple(assumed), planed, earlier)


def _nearer_the_plan(member: MemberPlan, at: Sequence[Face | None], own: Sequence[int]) -> bool:
    """Whether what was read again lies nearer to the plan than to the face as it was."""
    to_plan = to_before = ZERO
    for h in own:
        face = at[h]
        if face is None or face.standing != "read again" or face.offset is None:
            continue
        to_plan += abs(face.offset - member.finished[h])
        to_before += abs(face.offset - member.offsets[h])
    return to_plan < to_before


def survey_now(survey: SurveyResult, now: Sequence[Now], bare: frozenset[str]) -> SurveyResult:
    """The survey with the offsets as they are now; ``bare``: studs whose strips come off."""
    by_name = {each.member.name: each for each in now}
    walls = []
    for wall in survey.walls:
        studs = []
        for stud in wall.studs:
            each = by_name.get(stud.name)
            if each is None:
                studs.append(stud)
                continue
            off = each.strips if stud.name in bare else (ZERO,) * len(each.offsets)
            spots = tuple(_spot(first, each, h, off[h]) for h, first in enumerate(stud.offsets))
            studs.append(replace(stud, offsets=spots))
        walls.append(replace(wall, studs=tuple(studs)))
    return replace(survey, walls=tuple(walls))


def _spot(first: OffsetAt, each: Now, h: int, off: Fraction) -> OffsetAt:
    face = each.stud.at(first.height)
    sigma = face.sigma if face is not None else first.sigma
    return OffsetAt(first.height, each.offsets[h] - off, sigma, "read", face.text if face is not None else "")


def facts_now(framing: FramingFacts, now: Sequence[Now]) -> FramingFacts:
    """The framing facts without what the work has settled: held treatments done, soft studs made good."""
    studs = dict(framing.studs)
    for each in now:
        name = each.member.name
        known = studs.get(name)
        if known is None or not each.done:
            continue
        families = set(each.member.recipe.families)
        change: dict[str, object] = {}
        if known.hold is not None and known.hold.treatment in families:
            change["hold"] = None
        if families & {"sister", "replace"}:
            change["soft"] = False
        if "replace" in families and not each.member.recipe.reset:
            change |= {"notch": None, "brace": False, "holes": {}}
        studs[name] = known.model_copy(update=change)
    return framing.model_copy(update={"studs": studs})


def bought(plan: FramingPlan, now: Sequence[Now]) -> frozenset[tuple[str, str]]:
    """What the plan paid for once on a wall (a valve re-blocked, a backer) where that wall's work is begun.

    Nobody ticks these off by stud: with work done on the wall they are taken as done, and it is said.
    """
    begun = {each.member.wall for each in now if each.done}
    return frozenset((c.wall, c.what) for c in plan.charges if c.wall in begun)


def problem_now(
    problem: FramingProblem,
    now: Sequence[Now],
    bare: frozenset[str],
    paid: frozenset[tuple[str, str]] = frozenset(),
) -> FramingProblem:
    """The problem with every member's permissions as the work has left them, and no verifying in its price.

    Verifying is paid on the walls touched again, whatever the planes: it is added afterwards.

    Parameters
    ----------
    problem : FramingProblem
        Built on the offsets as they are now.
    now : sequence of Now
    bare : frozenset of str
        Studs whose strips come off.
    paid : frozenset of (wall, what)
        Charges that are sunk.

    Returns
    -------
    FramingProblem
    """
    by_name = {each.member.name: each for each in now}
    prices: Prices = replace(problem.prices, verify=ZERO)
    walls = tuple(_wall(wall, by_name, bare, problem.stock, paid) for wall in problem.walls)
    return replace(problem, walls=walls, prices=prices)


def _wall(
    wall: WallProblem,
    now: Mapping[str, Now],
    bare: frozenset[str],
    stock: Sequence[StockItem],
    paid: frozenset[tuple[str, str]],
) -> WallProblem:
    members = tuple(
        _member(m, now[m.name], m.name in bare, stock) if m.name in now else m for m in wall.members
    )
    known = [now[m.name] for m in wall.members if m.name in now]
    channelled = any(each.new_face and "channel" in _families(each) for each in known)
    terms = tuple(
        replace(term, minutes=ZERO, dollars=ZERO)
        if term.minutes is not None and (wall.name, term.remedy or term.name) in paid
        else term
        for term in wall.terms
    )
    return replace(wall, members=members, terms=terms, channel=None if channelled else wall.channel)


def _families(each: Now) -> frozenset[str]:
    return frozenset(each.member.recipe.families)


def _member(member: Member, each: Now, bare: bool, stock: Sequence[StockItem]) -> Member:
    nothing = (ZERO,) * len(each.offsets)
    why = dict(member.why)
    if each.new_face:
        families = _families(each)
        if "channel" in families:
            why["now"] = ("a row of channel stands here: it is only packed", "convention-4")
            return replace(
                member, plane_depth=nothing, plane_depth_sistered=nothing, sister=None, knock=False, why=why
            )
        if "sister" in families:
            why["now"] = ("its face is a sister's: it takes no second one", "convention-4")
            return replace(member, sister=None, knock=False, why=why)
        why["now"] = ("it is a new stud", "convention-4")
        return member
    less = tuple(max(ZERO, d - p) for d, p in zip(member.plane_depth, each.planed, strict=True))
    deep = tuple(max(ZERO, d - p) for d, p in zip(member.plane_depth_sistered, each.planed, strict=True))
    if any(each.planed):
        why["planed"] = (
            f"up to {said(max(each.planed), 'in', 'up')} is off it already, which counts against its limit",
            "convention-4",
        )
        if not member.rip_ok:
            keep = _stays_unplaned(each)
            if keep is not None:
                less = tuple(ZERO if h == keep else d for h, d in enumerate(less))
                deep = tuple(ZERO if h == keep else d for h, d in enumerate(deep))
    knocked = each.done and "knock over" in _families(each)
    if not each.added or bare:
        return replace(
            member, plane_depth=less, plane_depth_sistered=deep, knock=member.knock and not knocked, why=why
        )
    layers = max(
        (
            sum(1 for p in each.member.recipe.pieces if p.first <= h <= p.last)
            for h in range(len(each.offsets))
        ),
        default=0,
    )
    left = MOST_STRIPS - max(each.strips)
    # one layer more at most where two are on, none where three are: a strip over a strip is one layer of it
    kept = member.stock if layers <= 1 else ()
    kept = tuple(i for i in kept if stock[i].thickness <= left)
    why["now"] = (
        "what was built out on it is not planed into; take it off to build it otherwise",
        "convention-4",
    )
    return replace(
        member,
        plane_depth=nothing,
        plane_depth_sistered=nothing,
        stock=kept,
        taper=False,
        wet_bed=False,
        knock=False,
        why=why,
    )


def _stays_unplaned(each: Now) -> int | None:
    """The height of a bearing stud that is kept unplaned, so that the rip never runs over the whole of it."""
    unplaned = [h for h, depth in enumerate(each.planed) if not depth]
    if not unplaned:
        return None
    target = [face.target if (face := each.stud.at(z)) else ZERO for z in each.member.heights]
    return min(unplaned, key=lambda h: each.offsets[h] - target[h])


def too_many_layers(plan: FramingPlan, now: Sequence[Now], bare: frozenset[str]) -> frozenset[str]:
    """Studs on which the plan's strips and those on already come to more than the contract allows."""
    over = set()
    for each in now:
        name = each.member.name
        if not each.added or name in bare or not each.member.recipe.pieces:
            continue
        pieces = (*each.member.recipe.pieces, *plan.member(name).recipe.pieces)
        for h in range(len(each.offsets)):
            there = [p for p in pieces if p.first <= h <= p.last]
            if len(there) > MOST_LAYERS or sum((p.thickness for p in there), ZERO) > MOST_STRIPS:
                over.add(name)
    return frozenset(over)


def past_limits(
    problem: FramingProblem,
    now: Sequence[Now],
    doubted: Container[tuple[str, Fraction]],
    unit: Unit,
    own_unit: Unit | None = None,
) -> tuple[Finding, ...]:
    """Studs planed deeper than they may be: the wood does not grow back.

    Parameters
    ----------
    problem : FramingProblem
        Of the plan carried out: its limits are those of the face as it was.
    now : sequence of Now
    doubted : container of (stud, height)
        Readings in doubt: they are read once more before anything is said of the wood.
    unit : {"in", "mm"}
        For words.
    own_unit : {"in", "mm"}, optional
        The job's, that names the places, for who lifts a stop writes its place; else ``unit``.
    """
    members = {m.name: m for wall in problem.walls for m in wall.members}
    out = []
    for each in now:
        member = members.get(each.member.name)
        if member is None or each.new_face:
            continue
        slack = {h: f.sigma if (f := each.stud.at(z)) else 0.0 for h, z in enumerate(each.member.heights)}
        over = [
            h
            for h, depth in enumerate(each.planed)
            if float(depth - member.plane_depth[h]) > 2 * slack[h]
            or (depth > member.plane_depth[h] and each.done)
        ]
        over = [h for h in over if each.planed[h] > Fraction(1, 16) or member.plane_depth[h] > 0]
        over = [h for h in over if (each.member.name, each.member.heights[h]) not in doubted]
        if not over or "sister" in each.member.recipe.families:
            continue
        deepest = max(over, key=lambda h: each.planed[h] - member.plane_depth[h])
        height = each.member.heights[deepest]
        limit = member.why.get(f"plane at {place(height, unit)}") or member.why.get("plane limit") or ("", "")
        craft = limit[1] == "practice-planing"
        where = spots([(each.member.name, each.member.heights[h]) for h in over], own_unit or unit)
        out.append(
            Finding(
                "again-planed-past-limit",
                Severity.ACT if craft else Severity.STOP,
                where,
                Sentence(
                    "at most {most} off the face as it was ({limit})",
                    most=said(member.plane_depth[deepest], unit),
                    limit=limit[0],
                ),
                Sentence(
                    "{off} is off it at {where}",
                    off=said(each.planed[deepest], unit),
                    where=spot(each.member.name, height, unit),
                ),
                Sentence(
                    "Read it once more; if it is so, plane no more there, sister it, and ask where it bears."
                ),
                limit[1] or "irc-r602.6",
            )
        )
    return tuple(out)
