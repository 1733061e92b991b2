"""What the pan asks of the framing planes, as linear rows (docs/methods/pan.md).

Play, skew, squareness and the drain, each in inches over T (convention 2.4), exact. A size that was not
measured asks for nothing: a finding says what to measure instead.
"""

from __future__ import annotations

from fractions import Fraction
from math import isqrt

from undertile.findings import Finding
from undertile.framing.facts import FramingFacts
from undertile.framing.problem import Demand
from undertile.framing.say import code_place
from undertile.lengths import Unit
from undertile.pan.drain_rows import drain_rows
from undertile.pan.facts import PanFacts
from undertile.pan.missing import missing
from undertile.pan.say import say
from undertile.pan.seat import (
    DIAGONAL_LIMIT,
    SKEW_LIMIT,
    Room,
    asked_depths,
    flange_heights,
    inches,
    play_window,
    squareness,
    turned,
)
from undertile.sentence import Sentence, joined
from undertile.survey.result import SurveyResult

LINEAR_SHARE = Fraction(1, 100)
"""Share taken off the limit of the diagonals for what the straight-line form leaves out.

Within the skew limits it leaves out less than 1/110 of the difference for pans of 24 in and more, planes up
to 1-1/2 off nominal and play up to 1/4 (tests/pan/test_demands.py holds it against exact geometry)."""
ROOT_STEPS = 4096
"""The square root of the diagonal is rounded down to 1/4096 in: the safe side, for it scales the limit."""


def demands(
    facts: PanFacts, survey: SurveyResult, framing: FramingFacts, unit: Unit = "in"
) -> tuple[tuple[Demand, ...], tuple[Finding, ...]]:
    """Everything the pan and the drain ask of the planes before they are chosen.

    Parameters
    ----------
    facts : PanFacts
    survey : SurveyResult
        The frame and the heights read.
    framing : FramingFacts
        The price of a flange shim, for what is said about shimmed play.
    unit : {"in", "mm"}
        For words.

    Returns
    -------
    demands : tuple of Demand
        Play first, then skew, square, drop-in, drain.
    findings : tuple of Finding
        What is missing, and what to measure.
    """
    walls = frozenset(wall.name for wall in survey.walls)
    heights = flange_heights(survey, facts.pan)
    if not heights:
        return (), ()
    room = Room(facts, survey, framing, unit, walls, heights, squareness(survey))
    rows = (*_play(room), *_skew(room), *_square(room), *_drop_in(room), *drain_rows(room))
    return rows, missing(room)


# Play ---------------------------------------------------------------------------------------------------


def _play(room: Room) -> tuple[Demand, ...]:
    """``low <= opening(y) - pan - T_L - T_R <= high`` at every depth asked and flange height read."""
    frame = room.survey.frame
    if room.width is None or not {"L", "R"} <= room.walls or frame.opening_at_back is None:
        return ()
    allowed = play_window(room.facts.pan)
    unit = room.unit
    words = Sentence(
        "play {low} to {high}", low=say(allowed.low, unit, "up"), high=say(allowed.high, unit, "down")
    )
    if allowed.shimmed is not None and allowed.widest > allowed.high:
        words = Sentence(
            "{play}, or up to {most} with every fastened stud shimmed; the plan's cost counts the shims of "
            "studs that stay back of their plane, the others are listed with the play",
            play=words,
            most=say(allowed.widest, unit, "down"),
        )
    rows = []
    for depth in asked_depths(room.facts.pan):
        opening = frame.opening_at_back + frame.opening_growth * depth
        for height in room.heights:
            rows.append(
                Demand(
                    code=f"play-{code_place(depth)}{room.at(height)}",
                    parts=(("L", depth, height, Fraction(1)), ("R", depth, height, Fraction(1))),
                    low=opening - room.width - allowed.widest,
                    high=opening - room.width - allowed.low,
                    title=Sentence("Play {depth} from the back", depth=say(depth, unit)),
                    why=Sentence(
                        "opening {opening} between the nominal planes at height {height}, pan {pan} over the "
                        "flanges, {words}",
                        opening=say(opening, unit, "down"),
                        height=say(height, unit),
                        pan=say(room.width, unit, "up"),
                        words=words,
                    ),
                    source="practice-pan-fit",
                )
            )
    return tuple(rows)


# Skew and square ----------------------------------------------------------------------------------------


def _skew(room: Room) -> tuple[Demand, ...]:
    """Each wall's plane over the length of the pan, turned by what its line is out of square."""
    limit = inches(room.facts.pan.skew_limit)
    limit = SKEW_LIMIT if limit is None else limit
    low_z = room.heights[0]
    rows = []
    for wall in (name for name in "LBR" if name in room.walls):
        over = room.width if wall == "B" else room.depth
        if over is None:
            continue
        shift = room.square.turn.get(wall, Fraction(0)) * over
        rows.append(
            Demand(
                code=f"skew-{wall}",
                parts=((wall, over, low_z, Fraction(1)), (wall, Fraction(0), low_z, Fraction(-1))),
                low=-limit - shift,
                high=limit - shift,
                title=Sentence("Wall {wall} straight to the room over the pan", wall=wall),
                why=_turn_at_most(room, wall, limit, over),
                source="convention-3",
            )
        )
    return tuple(rows)


def _turn_at_most(room: Room, wall: str, limit: Fraction, over: Fraction) -> str:
    """What a wall is asked to keep over the pan, and what is known of its own line."""
    asked = Sentence(
        "at most {limit} over {over}", limit=say(limit, room.unit, "down"), over=say(over, room.unit)
    )
    return joined(filter(None, (asked, turned(room, wall, over))), "{first}; {then}")


def _root_down(value: Fraction) -> Fraction:
    """Square root, rounded down to 1/ROOT_STEPS. [in] from [in^2]"""
    return Fraction(isqrt(int(value * ROOT_STEPS * ROOT_STEPS)), ROOT_STEPS)


def _square(room: Room) -> tuple[Demand, ...]:
    """Diagonals of the alcove at the pan's front, or the angle of a two-wall corner.

    With p the turn of a wall's plane (line and skew together) and W by D the pan: first-order
    ``d(BL) - d(BR) = W D (p_L - p_R + 2 p_B) / sqrt(W^2 + D^2)``.
    """
    width, depth = room.width, room.depth
    if width is None or depth is None or "B" not in room.walls:
        return ()
    z = room.heights[0]
    turn = room.square.turn
    if {"L", "R"} <= room.walls:
        limit = inches(room.facts.pan.diagonal_limit)
        limit = DIAGONAL_LIMIT if limit is None else limit
        reach = limit * (1 - LINEAR_SHARE) * _root_down(width**2 + depth**2)
        shift = width * depth * (turn["L"] - turn["R"])
        differ = Sentence(
            "differ at most {limit} over {width} by {depth}",
            limit=say(limit, room.unit, "down"),
            width=say(width, room.unit),
            depth=say(depth, room.unit),
        )
        return (
            Demand(
                code="square",
                parts=(
                    ("L", depth, z, width),
                    ("L", Fraction(0), z, -width),
                    ("R", depth, z, -width),
                    ("R", Fraction(0), z, width),
                    ("B", width, z, 2 * depth),
                    ("B", Fraction(0), z, -2 * depth),
                ),
                low=-reach - shift,
                high=reach - shift,
                title=Sentence("Diagonals at the pan"),
                why=joined(
                    filter(None, (differ, turned(room, "L", depth), turned(room, "R", depth))),
                    "{first}; {then}",
                ),
                source="practice-square",
                lazy=True,
            ),
        )
    rows = []
    limit = inches(room.facts.pan.skew_limit)
    limit = SKEW_LIMIT if limit is None else limit
    for wall in sorted(room.walls - {"B"}):
        sign = Fraction(1) if wall == "L" else Fraction(-1)
        shift = turn[wall] * depth
        rows.append(
            Demand(
                code=f"square-{wall}",
                parts=(
                    (wall, depth, z, Fraction(1)),
                    (wall, Fraction(0), z, Fraction(-1)),
                    ("B", width, z, sign * depth / width),
                    ("B", Fraction(0), z, -sign * depth / width),
                ),
                low=-limit - shift,
                high=limit - shift,
                title=Sentence("Corner of walls B and {wall} square over the pan", wall=wall),
                why=_turn_at_most(room, wall, limit, depth),
                source="convention-3",
                lazy=True,
            )
        )
    return tuple(rows)


def _drop_in(room: Room) -> tuple[Demand, ...]:
    """A square pan whose back lies on the back plane passes between the sides.

    Play is measured straight across; in an alcove leaning like a parallelogram it can be right at every
    depth while the rectangle only goes in turned off the back wall. Room between the front of one side and
    the back of the other, along the pan's own width, must not be less than the pan.
    """
    width, depth, frame = room.width, room.depth, room.survey.frame
    if width is None or depth is None or not {"L", "B", "R"} <= room.walls or frame.opening_at_back is None:
        return ()
    turn = room.square.turn
    rows = []
    for z in room.heights:
        for left, right in ((depth, Fraction(0)), (Fraction(0), depth)):
            back = (left - right) / width
            rows.append(
                Demand(
                    code=f"drop-in-{'L' if left else 'R'}{room.at(z)}",
                    parts=(
                        ("L", left, z, Fraction(1)),
                        ("R", right, z, Fraction(1)),
                        ("B", width, z, back),
                        ("B", Fraction(0), z, -back),
                    ),
                    low=None,
                    high=frame.opening_at_back - width - turn["L"] * left - turn["R"] * right,
                    title=Sentence("A square pan set against the back wall passes between the sides"),
                    why=Sentence(
                        "front of wall L, back of wall R; pan {width} by {depth}"
                        if left
                        else "back of wall L, front of wall R; pan {width} by {depth}",
                        width=say(width, room.unit, "up"),
                        depth=say(depth, room.unit, "up"),
                    ),
                    source="convention-3",
                    lazy=True,
                )
            )
    return tuple(rows)
