"""Board screws for each board-and-strip stack, and their tips against pipes and cables.

A screw is as long as the board, what packs it out from the stud, and 3/4 in of wood (3/8 past steel). Strips
count as packing, not as wood to hold in. A sistered, replaced or channelled face has no packing.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from undertile.findings import Check, Verdict
from undertile.framing.limits import PLATED, SERVICE
from undertile.framing.plan import MemberPlan
from undertile.pan.built import ZERO, Built, between
from undertile.pan.judge import Topic
from undertile.pan.say import say
from undertile.pan.seat import inches

SCREWS = tuple(Fraction(length) for length in ("5/4", "13/8", "2", "9/4", "5/2"))
"""Lengths board screws are sold in, from a plain list: 1-1/4, 1-5/8, 2, 2-1/4, 2-1/2. [in]"""
INTO_WOOD = Fraction(3, 4)
PAST_STEEL = Fraction(3, 8)
"""What the screw holds in (practice-screw). [in]"""
SHIELD_WARN = Fraction(3, 2)
"""Between 1-1/4 and this some codes want a plate too. [in]"""
NEW_FACE = frozenset({"sister", "replace"})
"""Families whose face is the stud itself: nothing packs the board out."""


@dataclass(frozen=True)
class Need:
    """The screw one stud needs. Lengths in inches.

    Attributes
    ----------
    member : MemberPlan
    packing : Fraction
        Most that packs the board out from what the screw holds in, over the stud's heights.
    holds : Fraction
        3/4 into wood, 3/8 past steel.
    screw : Fraction or None
        The shortest of `SCREWS` that reaches; None when none does.
    """

    member: MemberPlan
    packing: Fraction
    holds: Fraction
    screw: Fraction | None


def packing_at(member: MemberPlan) -> tuple[Fraction, ...]:
    """What packs the board out from the stud at each height: strips, taper, wet bed. [in]

    Planing is not packing, and a knocked-over stud, a sister, a new stud or a channel is its own face.
    """
    families = set(member.recipe.families)
    if families & NEW_FACE or families & {"channel", "knock over"}:
        return tuple(ZERO for _ in member.heights)
    depth = member.recipe.depth or tuple(ZERO for _ in member.heights)
    return tuple(max(a + d, ZERO) for a, d in zip(member.amounts, depth, strict=True))


def screw_need(built: Built, member: MemberPlan, board: Fraction) -> Need:
    """The screw for one stud, from its thickest stack."""
    steel = built.stud(member).kind == "steel" or "channel" in member.recipe.families
    holds = PAST_STEEL if steel else INTO_WOOD
    packing = max(packing_at(member), default=ZERO)
    length = board + packing + holds
    return Need(member, packing, holds, next((s for s in SCREWS if s >= length), None))


def screw_checks(built: Built) -> tuple[list[Check], list[str]]:
    """One check for each wall, and which screw goes where.

    Returns
    -------
    checks : list of Check
    order_of_work : list of str
    """
    checks, order = [], []
    for wall in built.walls:
        if built.members(wall):
            check, lines = _wall(built, wall)
            checks.append(check)
            order += lines
    return checks, order


def _wall(built: Built, wall: str) -> tuple[Check, list[str]]:
    topic = Topic(f"screws-{wall}", "Board screws", f"wall {wall}", "practice-screw")
    limit = f"board, packing and {built.near(INTO_WOOD)} into wood ({built.near(PAST_STEEL)} past steel)"
    board = inches(built.framing.finish.board)
    if board is None:
        return topic.not_shown(limit, "Measure the thickness of the board."), []
    needs = [screw_need(built, member, board) for member in built.members(wall)]
    groups: dict[Fraction | None, list[Need]] = {}
    for need in needs:
        groups.setdefault(need.screw, []).append(need)
    listed = [
        _group(built, screw, groups[screw]) for screw in sorted(groups, key=lambda s: s or Fraction(99))
    ]
    because = [
        f"{need.member.name}: board {built.near(board)}"
        + (f", packing {built.up(need.packing)}" if need.packing else "")
        + f", {built.near(need.holds)} {'past steel' if need.holds == PAST_STEEL else 'into wood'}"
        for need in needs
        if need.packing
    ]
    unsure = [need.member.name for need in needs if built.stud(need.member).kind == "unknown"]
    if unsure:
        because.append(f"taken as wood, not known: {', '.join(unsure)}")
    too_thick = [need.member.name for need in groups.get(None, ())]
    if too_thick:
        step = f"Screw the strips of {', '.join(too_thick)} to the stud on their own, and the board to them."
        return topic.said(Verdict.FAIL, "; ".join(listed), limit, because=because, step=step), []
    have = inches(built.framing.finish.screw)
    value = "; ".join(listed)
    order = [f"Board screws, wall {wall}: {value}."]
    if have is None:
        return topic.said(Verdict.PASS, value, limit, because=because), order
    short = [n for n in needs if board + n.packing + n.holds > have]
    because.append(f"on the van: {_screw(built, have)}")
    if not short:
        spare = min(have - board - n.packing - n.holds for n in needs)
        margin = built.down(spare, signed=True)
        return topic.said(Verdict.PASS, value, limit, margin=margin, because=because), order
    lacks = max(board + n.packing + n.holds for n in short) - have
    left = {n.member.name: have - board - n.packing for n in short}
    worst = min(left, key=lambda name: left[name])
    because.append(f"the screw on the van leaves {built.down(max(left[worst], ZERO))} at {worst}")
    longer = max(n.screw for n in short if n.screw is not None)
    step = f"Change to {_screw(built, longer)} screws at {', '.join(left)}."
    margin = built.down(-lacks, signed=True)
    eats = ", ".join(f"{n.member.name} packed out {built.up(n.packing)}" for n in short if n.packing)
    return topic.said(Verdict.FAIL, value, limit, margin=margin, because=because, eats=eats, step=step), order


def _screw(built: Built, length: Fraction) -> str:
    """A screw by the name it is sold under, with millimetres beside it in a job in mm."""
    name = say(length, "in")
    return name if built.unit == "in" else f"{name} ({built.near(length)})"


def _group(built: Built, screw: Fraction | None, needs: list[Need]) -> str:
    names = ", ".join(need.member.name for need in needs)
    return f"no listed screw reaches at {names}" if screw is None else f"{_screw(built, screw)} at {names}"


def service_checks(built: Built) -> list[Check]:
    """Pipe and cable against the stud's new face and against the screw tips."""
    return [
        check for wall in built.walls for member in built.members(wall) for check in _services(built, member)
    ]


def _services(built: Built, member: MemberPlan) -> list[Check]:
    stud = built.stud(member)
    if {"replace"} & set(member.recipe.families):
        return []  # a new stud is bored anew: the service is set by then
    depth = member.recipe.depth or tuple(ZERO for _ in member.heights)
    checks = []
    for name, service in stud.services:
        height = service.height.inches
        planed = max(between(member.heights, list(depth), height), ZERO)
        left = service.clear.inches - planed
        where = f"{member.name} at {built.near(height)}"
        topic = Topic(
            f"plate-{member.name}-{name}", f"Nail plate at {service.what} {name}", where, "shield-plate"
        )
        because = [
            f"{service.what} {built.down(service.clear.inches)} behind the face as read",
            *((f"planed {built.up(planed)}",) if planed else ()),
            *_tip(built, member, height, left),
        ]
        if service.plated:
            because.append("a plate covers it")
            check = topic.judge(
                left,
                min(PLATED, service.clear.inches),
                None,
                built.unit,
                because=because,
                eats=f"planing {built.up(planed)}" if planed else "",
                fix="Plane less there: the plate needs wood before the pipe.",
            )
        else:
            if SERVICE <= left < SHIELD_WARN:
                because.append(
                    f"sources disagree: some codes ask for a plate under {built.near(SHIELD_WARN)}"
                )
            check = topic.judge(
                left,
                SERVICE,
                None,
                built.unit,
                because=because,
                eats=f"planing {built.up(planed)}" if planed else "",
                fix=f"Let a nail plate in flush on {member.name} at {built.near(height)}, or strip round it.",
            )
        checks.append(check)
    return checks


def _tip(built: Built, member: MemberPlan, height: Fraction, left: Fraction) -> tuple[str, ...]:
    """Where the board screw's tip ends up against the pipe, in words."""
    board = inches(built.framing.finish.board)
    if board is None:
        return ()
    need = screw_need(built, member, board)
    screw = inches(built.framing.finish.screw) or need.screw
    if screw is None:
        return ()
    packing = between(member.heights, list(packing_at(member)), height)
    room = left - (screw - board - packing)
    if room >= PLATED:
        return (f"a {_screw(built, screw)} screw stops {built.down(room)} before it",)
    ends = f"{built.down(room)} before it" if room >= 0 else f"{built.up(-room)} past its edge"
    return (f"a {_screw(built, screw)} screw ends {ends}: no screw at this height without a plate",)
