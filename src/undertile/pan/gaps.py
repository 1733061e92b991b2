"""The gap between the flange and each stud beside the pan, and the shims it takes (convention 3.3, 3.4)."""

from __future__ import annotations

from fractions import Fraction

from undertile.findings import Check
from undertile.framing.plan import MemberPlan
from undertile.framing.words import WorkStep
from undertile.pan.built import ZERO, Built
from undertile.pan.judge import Topic
from undertile.pan.set_place import play_left
from undertile.sentence import Sentence

SHIM_OVER = Fraction(1, 32)
"""A flange gap of more than this is shimmed (convention 3.4). [in]"""
BAND = Fraction(1, 16)
"""Farthest a face may lie behind the plane in the flange zone (convention 3.3). [in]"""


def gap_checks(built: Built) -> tuple[list[Check], list[WorkStep]]:
    """One check for each wall, and the step that lists its shims."""
    checks: list[Check] = []
    order: list[WorkStep] = []
    for wall in built.walls:
        check, line = _wall_gaps(built, wall)
        checks.append(check)
        order += line
    return checks, order


def gap_at(member: MemberPlan, heights: tuple[Fraction, ...]) -> Fraction:
    """The flange gap at a stud: farthest its face lies behind the plane in the flange zone. [in]

    Minus when it stands proud.
    """
    behind = [
        plane - face
        for height, plane, face in zip(member.heights, member.target, member.finished, strict=True)
        if height in heights
    ]
    proud = [gap for gap in behind if gap < 0]
    return min(proud) if proud else max(behind, default=ZERO)


def _wall_gaps(built: Built, wall: str) -> tuple[Check, list[WorkStep]]:
    """Gap between flange and each stud beside the pan, and the shims it takes."""
    topic = Topic(f"gap-{wall}", f"Flange against the studs of wall {wall}", f"wall {wall}", "convention-3")
    heights = built.flange(wall)
    members = [m for m in built.members(wall) if built.beside_pan(m)]
    if measure := _measure(built, wall, members):
        return topic.not_shown(Sentence("flush to {at} behind the plane", at=built.near(BAND)), measure), []
    gaps = {member.name: gap_at(member, heights) for member in members}
    widest, proudest = max(gaps.values()), min(gaps.values())
    shims = {name: gap for name, gap in gaps.items() if gap > SHIM_OVER}
    unread = [m.name for m in members if _unread(built, m, heights)]
    because: list[str] = [
        Sentence("{stud}: {gap}", stud=name, gap=_words(built, gap)) for name, gap in gaps.items()
    ]
    if unread:
        because.append(
            Sentence("not read in the flange zone, taken from around it: {studs}", studs=", ".join(unread))
        )
    if proudest < 0:
        check = topic.judge(
            -proudest,
            None,
            ZERO,
            built.unit,
            rounding="up",
            shown=lambda value: Sentence("{value} proud", value=value),
            because=because,
            fix=Sentence(
                "Bring the studs named back to the plane: the flange may not stand on a proud stud."
            ),
        )
    else:
        check = topic.judge(
            widest,
            None,
            BAND,
            built.unit,
            rounding="up",
            shown=lambda value: Sentence("{value} behind" if widest else "no gap", value=value),
            because=because,
            eats=Sentence("{number} flange shims", number=len(shims)) if shims else "",
            fix=Sentence("Build the studs named out to within {at} of the plane.", at=built.near(BAND)),
        )
    if not shims:
        return check, []
    listed = ", ".join(f"{name} {built.near(gap)}" for name, gap in shims.items())
    data = {name: built.near(gap) for name, gap in shims.items()}
    play = play_left(built, wall)
    tail = ""
    if play:
        tail, data["play"] = f", and the play left on that side ({built.near(play)}) on top", built.near(play)
    text = f"Set plastic flange shims at the studs of wall {wall} before fastening: {listed}{tail}."
    return check, [WorkStep("shim", (wall,), tuple(shims), text, data)]


def _measure(built: Built, wall: str, members: list[MemberPlan]) -> str:
    """What is missing before the gaps of a wall can be shown; "" when nothing is."""
    top = built.pan.pan.flange_height
    if top is None:
        return Sentence(
            "Measure from the subfloor to the top of the flange with the pan standing as it will be set."
        )
    if not built.flange(wall):
        return Sentence(
            "Read every stud of wall {wall} once at or below {at}.", wall=wall, at=built.near(top.inches)
        )
    if (built.width if wall == "B" else built.depth) is None:
        return Sentence(
            "Measure the pan's width over the outside faces of the flanges."
            if wall == "B"
            else "Measure the pan's depth over the outside faces of the flanges."
        )
    if not members:
        return Sentence(
            "Read the studs of wall {wall} beside the pan; without a plan there is no gap to show.", wall=wall
        )
    return ""


def _unread(built: Built, member: MemberPlan, heights: tuple[Fraction, ...]) -> bool:
    found = [built.reading(member.wall, member.along, height) for height in heights]
    return any(offset is not None and offset.state != "read" for offset in found)


def _words(built: Built, gap: Fraction) -> str:
    if not gap:
        return Sentence("on the plane")
    if gap < 0:
        return Sentence("{gap} proud", gap=built.up(-gap))
    return Sentence("{gap} behind, shim" if gap > SHIM_OVER else "{gap} behind", gap=built.up(gap))
