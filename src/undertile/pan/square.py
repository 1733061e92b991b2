"""Squareness after the work: both diagonals in exact geometry, the corners, and the sizes at the pan.

The alcove at the pan: its back corners are where the planes meet, its front marks lie one pan depth along
each side wall from there. A diagonal runs from a back corner to the opposite front mark.
"""

from __future__ import annotations

from fractions import Fraction
from math import hypot, sqrt

from undertile.findings import Check
from undertile.pan.built import ZERO, Built
from undertile.pan.judge import Topic
from undertile.pan.say import say
from undertile.pan.seat import DIAGONAL_LIMIT, SKEW_LIMIT, inches, squareness
from undertile.sentence import Sentence

FLOAT_STEP = 2**-30
"""Floats of a room's diagonal are good to far better than this; the difference is judged on it. [in]"""
ASK = Sentence("Hold a 3-4-5 or a square line between the two reference lines, or measure both diagonals.")


def square_checks(built: Built) -> list[Check]:
    """Diagonals of an alcove, then each corner over the pan."""
    checks = [_diagonals(built)] if built.alcove else []
    checks += [_corner(built, side) for side in "LR" if side in built.walls and "B" in built.walls]
    checks += [_straight(built, wall) for wall in built.walls if wall == "B" or "B" not in built.walls]
    return checks


def diagonals(
    opening: Fraction, turn: tuple[Fraction, Fraction, Fraction], offset: Fraction, depth: Fraction
) -> tuple[float, float]:
    """Both diagonals, from the back-left and the back-right corner.

    Parameters
    ----------
    opening : Fraction
        Between the L and R faces at y = 0. [in]
    turn : tuple of Fraction
        Of L, B and R: plus when the far end stands into the room (for B: when its R end does). [in/in]
    offset : Fraction
        Of the B face at x = 0 from the line y = 0 on which the opening is given. [in]
    depth : Fraction
        Along each side wall from its back corner to the front mark. [in]

    Returns
    -------
    tuple of float
        To about 1e-12 in. [in]
    """
    left, back, right = (float(value) for value in turn)
    width, start, reach = float(opening), float(offset), float(depth)
    # Corner of L (x = left y) and B (y = start + back x), then of R (x = width - right y) and B.
    y = start / (1 - left * back)
    corner_left = (left * y, y)
    y = (start + back * width) / (1 + right * back)
    corner_right = (width - right * y, y)
    front_left = _along(corner_left, left, reach)
    front_right = _along(corner_right, -right, reach)
    return _distance(corner_left, front_right), _distance(corner_right, front_left)


def _along(start: tuple[float, float], slope: float, reach: float) -> tuple[float, float]:
    """The point ``reach`` along a wall that runs outward with dx/dy = slope."""
    norm = sqrt(1 + slope * slope)
    return start[0] + slope * reach / norm, start[1] + reach / norm


def _distance(a: tuple[float, float], b: tuple[float, float]) -> float:
    return hypot(a[0] - b[0], a[1] - b[1])


def _missing(built: Built) -> str:
    """What must be measured before squareness can be shown; "" when nothing."""
    if built.depth is None or built.width is None:
        return Sentence("Measure the pan's width and depth over the outside faces of the flanges.")
    if any(built.plane(wall) is None for wall in built.walls):
        return Sentence("There is no plan yet: see what the planner says is in the way.")
    return ASK if squareness(built.survey).assumed else ""


def _diagonals(built: Built) -> Check:
    topic = Topic("diagonals", "Diagonals at the pan", "walls L, B and R", "practice-square")
    limit = inches(built.pan.pan.diagonal_limit)
    limit = DIAGONAL_LIMIT if limit is None else limit
    words = Sentence("differ at most {most}", most=built.near(limit))
    measure = _missing(built)
    if not measure and "B" not in built.walls:
        measure = Sentence("Read the back wall: diagonals run from its corners.")
    opening = built.opening(ZERO)
    if not measure and opening is None:
        measure = Sentence(
            "Measure the inside width from wall L to wall R at three depths in the flange zone."
        )
    left, back, right = (built.plane(wall) for wall in "LBR")
    if measure or left is None or right is None or back is None or opening is None or built.depth is None:
        return topic.not_shown(words, measure)
    height = built.seat_top("B")
    faces = [plane.at(ZERO, height) for plane in (left, right)]
    turn = (built.turn("L"), built.turn("B"), built.turn("R"))
    # The L face crosses y = 0 at faces[0]: shift x so that it passes through the origin.
    offset = back.at(faces[0], height)
    first, second = diagonals(opening - faces[0] - faces[1], turn, offset, built.depth)
    apart = Fraction(round(abs(first - second) / FLOAT_STEP)) * Fraction(FLOAT_STEP)
    at_back, at_front = _span(built, ZERO) or ZERO, _span(built, built.depth) or ZERO
    width, depth = built.width or ZERO, built.depth
    lever = float(width * depth) / hypot(float(width), float(depth))
    return topic.judge(
        apart,
        None,
        limit,
        built.unit,
        rounding="up",
        shown=lambda value: Sentence("differ {value}", value=value),
        sigma=lever * built.survey.frame.square_sigma * sqrt(2),
        because=(
            Sentence(
                "from back left {first}, from back right {second}",
                first=say(Fraction(first), built.unit),
                second=say(Fraction(second), built.unit),
            ),
            Sentence(
                "width back {back}, front {front}, front mark {mark} along each side wall",
                back=built.down(at_back),
                front=built.down(at_front),
                mark=built.near(built.depth),
            ),
            *(Sentence("wall {wall} {turned}", wall=wall, turned=_turns(built, wall)) for wall in "LBR"),
        ),
        eats=_most_turned(built) if apart else "",
        fix=Sentence("Turn a side wall toward square, or move the pan's front: see the corners below."),
    )


def _span(built: Built, depth: Fraction) -> Fraction | None:
    """Opening between the planes at a depth, in the flange zone. [in]"""
    opening = built.opening(depth)
    left, right = built.plane("L"), built.plane("R")
    if opening is None or left is None or right is None:
        return None
    return opening - left.at(depth, built.seat_top("L")) - right.at(depth, built.seat_top("R"))


def _turns(built: Built, wall: str) -> str:
    """How far a wall's plane is turned over the pan, in words."""
    over = built.width if wall == "B" else built.depth
    if over is None:
        return Sentence("not known over the pan")
    turned = built.turn(wall) * over
    if not turned:
        return Sentence("square to the room")
    return Sentence(
        "turned {by} into the room over {over}" if turned > 0 else "turned {by} back over {over}",
        by=built.up(abs(turned)),
        over=built.near(over),
    )


def _most_turned(built: Built) -> str:
    """The wall whose turn counts most in the difference: the back wall counts twice, over the pan's depth."""
    shares = {wall: abs(built.turn(wall)) * (2 if wall == "B" else 1) for wall in "LBR"}
    wall = max(shares, key=lambda name: shares[name])
    return Sentence("wall {wall} {turned}", wall=wall, turned=_turns(built, wall))


def _corner(built: Built, side: str) -> Check:
    """Angle between a side wall and the back wall, as what it opens over the pan's depth."""
    topic = Topic(f"corner-{side}", f"Corner of walls B and {side}", f"walls B and {side}", "convention-3")
    limit = inches(built.pan.pan.skew_limit)
    limit = SKEW_LIMIT if limit is None else limit
    words = Sentence("at most {most} over the pan", most=built.near(limit))
    measure = _missing(built)
    if measure or built.depth is None:
        return topic.not_shown(words, measure)
    back = built.turn("B") if side == "L" else -built.turn("B")
    out = (built.turn(side) + back) * built.depth
    # A side wall may turn by the limit and the back wall by its own; the corner is judged on one limit.
    return topic.judge(
        abs(out),
        None,
        limit,
        built.unit,
        rounding="up",
        shown=lambda value: _corner_words(value, out),
        sigma=built.survey.frame.square_sigma * float(built.depth),
        because=(
            Sentence("wall {side} {turned}", side=side, turned=_turns(built, side)),
            Sentence("wall B {turned}", turned=_turns(built, "B")),
        ),
        fix=Sentence("Turn wall {side} toward square with the back wall.", side=side),
    )


def _corner_words(value: str, out: Fraction) -> str:
    if not out:
        return Sentence("square")
    return Sentence("closes {value}" if out > 0 else "opens {value}", value=value)


def _straight(built: Built, wall: str) -> Check:
    """A plane's skew over the pan along its own line (the back wall, or a wall on its own)."""
    topic = Topic(f"skew-{wall}", f"Wall {wall} along its line over the pan", f"wall {wall}", "convention-3")
    limit = inches(built.pan.pan.skew_limit)
    limit = SKEW_LIMIT if limit is None else limit
    over, plane = (built.width if wall == "B" else built.depth), built.plane(wall)
    words = Sentence("at most {most} over the pan", most=built.near(limit))
    if over is None or plane is None:
        measure = Sentence("There is no plan yet.")
        if over is None:
            measure = Sentence(
                "Measure the pan's width over the flanges."
                if wall == "B"
                else "Measure the pan's depth over the flanges."
            )
        return topic.not_shown(words, measure)
    return topic.judge(
        abs(plane.skew * over),
        None,
        limit,
        built.unit,
        rounding="up",
        because=(Sentence("plane of wall {wall} {turned}", wall=wall, turned=_turns(built, wall)),),
        fix=Sentence("Turn the plane of wall {wall} toward its line.", wall=wall),
    )
