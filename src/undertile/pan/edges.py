"""Edges that continue past the shower: the step between the new board and the face that stays.

The board's face is the plane at the edge and the board's own thickness. Judged at every height read, on the
plane, as the planner does [framing contract 10].
"""

from __future__ import annotations

from fractions import Fraction

from undertile.errors import LengthError
from undertile.findings import Check
from undertile.framing.facts import Edge
from undertile.framing.flatcheck import COVERAGE
from undertile.framing.say import code_place
from undertile.framing.terms import EDGE_BACK, EDGE_PROUD
from undertile.lengths import Length, parse_length
from undertile.pan.built import Built
from undertile.pan.judge import Topic
from undertile.pan.say import window
from undertile.pan.seat import wall_of
from undertile.sentence import Sentence


def edge_checks(built: Built) -> list[Check]:
    """One check for each edge and height listed, read or not."""
    return [check for name, edge in built.framing.edges.items() for check in _edge(built, name, edge)]


def _edge(built: Built, name: str, edge: Edge) -> list[Check]:
    back = EDGE_BACK if edge.step_back is None else edge.step_back.inches
    proud = EDGE_PROUD if edge.step_proud is None else edge.step_proud.inches
    limit = window(-back, proud, built.unit)
    where = f"{name} on wall {edge.wall}"
    if not edge.readings:
        topic = Topic(f"edge-{name}", "Board against the face that stays", where, "practice-edges")
        return [topic.not_shown(limit, Sentence("Read {name} at two heights or more.", name=name))]
    return [_at(built, name, edge, key, back, proud) for key in edge.readings]


def _at(built: Built, name: str, edge: Edge, key: str, back: Fraction, proud: Fraction) -> Check:
    reading = edge.readings[key]
    limit = window(-back, proud, built.unit)
    try:
        height = parse_length(key, built.own).inches
    except LengthError as error:
        topic = Topic(f"edge-{name}-{key}", "Board against the face that stays", name, "practice-edges")
        return topic.not_shown(limit, Sentence("Write the height of this reading: {error}.", error=error))
    topic = Topic(
        f"edge-{name}-{code_place(height)}",
        "Board against the face that stays",
        f"{name} on wall {edge.wall} at {built.near(height)}",
        "practice-edges",
    )
    wall, board = wall_of(built.survey, edge.wall), built.framing.finish.board
    plane = built.target(edge.wall, edge.along.inches, height)
    if not isinstance(reading, Length):
        measure = Sentence(
            "It cannot be reached there: read it beside, at {at}." if reading == "x" else "Read it at {at}.",
            at=built.near(height),
        )
        return topic.not_shown(limit, measure)
    if board is None:
        return topic.not_shown(limit, Sentence("Measure the thickness of the board."))
    if wall is None or plane is None:
        return topic.not_shown(limit, Sentence("Read the studs of wall {wall}.", wall=edge.wall))
    stays = wall.nominal - reading.inches
    step = plane + board.inches - stays
    spot = (edge.wall, edge.along.inches, height)
    off = built.residual(*spot)
    because = [
        Sentence("the face that stays is {stays}", stays=built.moved(stays)),
        Sentence(
            "wall {wall}: plane {plane}, board {board} on it",
            wall=edge.wall,
            plane=built.moved(plane),
            board=built.near(board.inches),
        ),
    ]
    if off:
        because.append(
            Sentence(
                "the stud there lies {off} proud of it" if off > 0 else "the stud there lies {off} behind it",
                off=built.up(abs(off)),
            )
        )
    return topic.judge(
        step,
        -back,
        proud,
        built.unit,
        rounding="up" if step > 0 else "down",
        shown=lambda value: _step(value, step),
        sigma=max(built.sigma(spot), float(abs(off)) / COVERAGE),
        because=because,
        eats=Sentence("wall {wall} {plane}", wall=edge.wall, plane=built.moved(plane)) if plane else "",
        fix=_fix(built, name, step, back, proud),
    )


def _step(value: str, step: Fraction) -> str:
    if not step:
        return Sentence("flush")
    return Sentence("{value} (proud)" if step > 0 else "{value} (back)", value=value)


def _fix(built: Built, name: str, step: Fraction, back: Fraction, proud: Fraction) -> str:
    if step > proud:
        return Sentence(
            "Cut {name} back to the stud beside it, or cover a step of {step} with trim, or bring the "
            "plane back {proud}.",
            name=name,
            step=built.up(step),
            proud=built.up(step - proud),
        )
    return Sentence(
        "Bring the plane out {step}, or put a strip under the board's edge at {name}.",
        step=built.up(-step - back),
        name=name,
    )
