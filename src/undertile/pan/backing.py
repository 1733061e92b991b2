"""What holds the board's edge at an inside corner and the flange's ends at the front and in the corners."""

from __future__ import annotations

from fractions import Fraction

from undertile.findings import Check
from undertile.framing.facts import Corner
from undertile.framing.plan import MemberPlan
from undertile.framing.terms import BACKING, BOARD_GAP
from undertile.framing.words import WorkStep
from undertile.pan.built import ZERO, Built
from undertile.pan.judge import Topic
from undertile.pan.say import window
from undertile.pan.seat import wall_of

HALF_STUD = Fraction(3, 4)
"""Half the face of a two-by stud, 1-1/2 dry (PS 20). [in]"""
HOLDS = Fraction(2)
"""A flange's end is held by a stud whose face is at most this far from it; ours. [in]"""


def backing_checks(built: Built) -> tuple[list[Check], list[WorkStep]]:
    """Corner backing for the board, then what the flange's ends bear on.

    Returns
    -------
    checks : list of Check
    order : list of WorkStep
    """
    checks: list[Check] = []
    order: list[WorkStep] = []
    for key, corner in built.framing.corners.items():
        check, line = _corner(built, key, corner)
        checks.append(check)
        order += line
    return [*checks, *_flange_ends(built)], order


def _corner(built: Built, key: str, corner: Corner) -> tuple[Check, list[WorkStep]]:
    """Wood left past the other wall's board and the gap (framing ``terms``), at the worst height read."""
    own, other = key.split("-")
    topic = Topic(f"backing-{key}", "Backing of the board at the corner", f"corner {key}", "practice-backing")
    limit = window(BACKING, None, built.unit)
    board, wall = built.framing.finish.board, wall_of(built.survey, other)
    if board is None:
        return topic.not_shown(limit, "Measure the thickness of the board."), []
    if wall is None or built.plane(other) is None:
        return topic.not_shown(limit, f"Read the studs of wall {other}."), []
    along = ZERO
    if other == "B" and own == "R":
        opening = built.opening(ZERO)
        along = opening if opening is not None else wall.studs[-1].along
    heights = wall.heights
    planes = [built.target(other, along, height) or ZERO for height in heights]
    plane = max(planes)
    left = corner.wood.inches - plane - board.inches - BOARD_GAP
    because = (
        f"wood of wall {own} reaches {built.near(corner.wood.inches)} from the nominal plane of wall {other}",
        f"wall {other}: plane {built.moved(plane)} at height {built.near(heights[planes.index(plane)])}, "
        f"board {built.near(board.inches)}, gap {built.near(BOARD_GAP)}",
    )
    remedy = f"put a backer at corner {key}"
    if left < BACKING and any(charge.what == remedy for charge in built.plan.charges):
        check = topic.judge(
            BACKING,
            BACKING,
            None,
            built.unit,
            shown="{} or more with the backer",
            because=(*because, f"{built.down(left)} without it; a backer is in the plan"),
            eats=f"wall {other} {built.moved(plane)}",
        )
        text = f"Put a backer at corner {key} before the board: wood flush with wall {own}'s studs."
        return check, [WorkStep("backer", (own,), (), text, {"what": remedy, "corner": key})]
    check = topic.judge(
        left,
        BACKING,
        None,
        built.unit,
        sigma=built.sigma((other, along, heights[0])),
        because=because,
        eats=f"wall {other} {built.moved(plane)}" if plane > 0 else "",
        fix=f"Put a backer at corner {key}: it lacks {built.up(BACKING - left)}.",
    )
    return check, []


def _flange_ends(built: Built) -> list[Check]:
    """The flange at the front of each side wall and in each back corner."""
    checks = [_front(built, side) for side in "LR" if side in built.walls]
    for side in "LR":
        if side in built.walls and "B" in built.walls:
            checks.append(_back_corner(built, side))
    return checks


def _front(built: Built, side: str) -> Check:
    topic = Topic(f"flange-front-{side}", "Flange at the pan's front", f"wall {side}", "flange-held")
    limit = window(None, HOLDS, built.unit) + " from a stud's face"
    members = built.members(side)
    if built.depth is None:
        return topic.not_shown(limit, "Measure the pan's depth over the outside faces of the flanges.")
    if not members:
        return topic.not_shown(limit, f"Read the studs of wall {side}: no face is planned there.")
    back = built.plane("B")
    end = built.depth + (ZERO if back is None else back.at(ZERO, built.seat_top("B")))
    nearest = min(members, key=lambda m: _away(m, end))
    return topic.judge(
        _away(nearest, end),
        None,
        HOLDS,
        built.unit,
        rounding="up",
        shown="{} away" if _away(nearest, end) else "on a stud",
        because=(
            f"the flange ends {built.near(end)} from the back line, {nearest.name} stands at "
            f"{built.near(nearest.along)}",
            *(("the back plane sets where it ends",) if end != built.depth else ()),
        ),
        fix=f"Block the bay behind the flange's front end on wall {side}, face on the plane.",
    )


def _back_corner(built: Built, side: str) -> Check:
    topic = Topic(
        f"flange-corner-{side}", "Flange in the back corner", f"corner of walls B and {side}", "flange-held"
    )
    limit = window(None, HOLDS, built.unit) + " from a stud's face"
    own = [(m, _away(m, ZERO)) for m in built.members(side)]
    back = [(m, away) for m in built.members("B") if (away := _from_corner(built, m, side)) is not None]
    if not own and not back:
        return topic.not_shown(limit, f"Read the studs of walls B and {side} next to the corner.")
    nearest, away = min([*own, *back], key=lambda pair: pair[1])
    return topic.judge(
        away,
        None,
        HOLDS,
        built.unit,
        rounding="up",
        shown="{} away" if away else "on a stud",
        because=(f"nearest is {nearest.name} at {built.near(nearest.along)} along wall {nearest.wall}",),
        fix=f"Block the corner of walls B and {side} behind the flange, face on the plane.",
    )


def _away(member: MemberPlan, spot: Fraction) -> Fraction:
    """How far a spot lies from a stud's face, 0 when on it. [in]"""
    return max(abs(member.along - spot) - HALF_STUD, ZERO)


def _from_corner(built: Built, member: MemberPlan, side: str) -> Fraction | None:
    """How far a back-wall stud's face lies from a corner; None where the corner's place is not known. [in]"""
    if side == "L":
        return _away(member, ZERO)
    opening = built.opening(ZERO)
    return None if opening is None else _away(member, opening)
