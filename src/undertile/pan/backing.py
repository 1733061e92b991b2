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
from undertile.sentence import Sentence

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
        return topic.not_shown(limit, Sentence("Measure the thickness of the board.")), []
    if wall is None or built.plane(other) is None:
        return topic.not_shown(limit, Sentence("Read the studs of wall {other}.", other=other)), []
    along = ZERO
    if other == "B" and own == "R":
        opening = built.opening(ZERO)
        along = opening if opening is not None else wall.studs[-1].along
    heights = wall.heights
    planes = [built.target(other, along, height) or ZERO for height in heights]
    plane = max(planes)
    left = corner.wood.inches - plane - board.inches - BOARD_GAP
    because = (
        Sentence(
            "wood of wall {own} reaches {reach} from the nominal plane of wall {other}",
            own=own,
            reach=built.near(corner.wood.inches),
            other=other,
        ),
        Sentence(
            "wall {other}: plane {plane} at height {height}, board {board}, gap {gap}",
            other=other,
            plane=built.moved(plane),
            height=built.near(heights[planes.index(plane)]),
            board=built.near(board.inches),
            gap=built.near(BOARD_GAP),
        ),
    )
    remedy = f"put a backer at corner {key}"
    if left < BACKING and any(charge.what == remedy for charge in built.plan.charges):
        check = topic.judge(
            BACKING,
            BACKING,
            None,
            built.unit,
            shown=lambda value: Sentence("{value} or more with the backer", value=value),
            because=(*because, Sentence("{left} without it; a backer is in the plan", left=built.down(left))),
            eats=Sentence("wall {other} {plane}", other=other, plane=built.moved(plane)),
        )
        text = Sentence(
            "Put a backer at corner {key} before the board: wood flush with wall {own}'s studs.",
            key=key,
            own=own,
        )
        return check, [WorkStep("backer", (own,), (), text, {"what": remedy, "corner": key})]
    check = topic.judge(
        left,
        BACKING,
        None,
        built.unit,
        sigma=built.sigma((other, along, heights[0])),
        because=because,
        eats=Sentence("wall {other} {plane}", other=other, plane=built.moved(plane)) if plane > 0 else "",
        fix=Sentence(
            "Put a backer at corner {key}: it lacks {left}.", key=key, left=built.up(BACKING - left)
        ),
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
    limit = Sentence("{most} from a stud's face", most=window(None, HOLDS, built.unit))
    members = built.members(side)
    if built.depth is None:
        return topic.not_shown(
            limit, Sentence("Measure the pan's depth over the outside faces of the flanges.")
        )
    if not members:
        return topic.not_shown(
            limit, Sentence("Read the studs of wall {side}: no face is planned there.", side=side)
        )
    back = built.plane("B")
    end = built.depth + (ZERO if back is None else back.at(ZERO, built.seat_top("B")))
    nearest = min(members, key=lambda m: _away(m, end))
    return topic.judge(
        _away(nearest, end),
        None,
        HOLDS,
        built.unit,
        rounding="up",
        shown=_words_away if _away(nearest, end) else _on_a_stud,
        because=(
            Sentence(
                "the flange ends {end} from the back line, {name} stands at {along}",
                end=built.near(end),
                name=nearest.name,
                along=built.near(nearest.along),
            ),
            *((Sentence("the back plane sets where it ends"),) if end != built.depth else ()),
        ),
        fix=Sentence(
            "Block the bay behind the flange's front end on wall {side}, face on the plane.", side=side
        ),
    )


def _words_away(value: str) -> str:
    return Sentence("{value} away", value=value)


def _on_a_stud(_: str) -> str:
    return Sentence("on a stud")


def _back_corner(built: Built, side: str) -> Check:
    topic = Topic(
        f"flange-corner-{side}", "Flange in the back corner", f"corner of walls B and {side}", "flange-held"
    )
    limit = Sentence("{most} from a stud's face", most=window(None, HOLDS, built.unit))
    own = [(m, _away(m, ZERO)) for m in built.members(side)]
    back = [(m, away) for m in built.members("B") if (away := _from_corner(built, m, side)) is not None]
    if not own and not back:
        return topic.not_shown(
            limit, Sentence("Read the studs of walls B and {side} next to the corner.", side=side)
        )
    nearest, away = min([*own, *back], key=lambda pair: pair[1])
    return topic.judge(
        away,
        None,
        HOLDS,
        built.unit,
        rounding="up",
        shown=_words_away if away else _on_a_stud,
        because=(
            Sentence(
                "nearest is {name} at {at} along wall {wall}",
                name=nearest.name,
                at=built.near(nearest.along),
                wall=nearest.wall,
            ),
        ),
        fix=Sentence(
            "Block the corner of walls B and {side} behind the flange, face on the plane.", side=side
        ),
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
