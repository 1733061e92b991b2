"""Plumb and flatness of the finished faces of each wall, for the tile that goes on them.

Flatness is the one check of ``framing.flatcheck``, fed with the planned faces; plumb is the lean of the
plane.
"""

from __future__ import annotations

from fractions import Fraction

from undertile.findings import Check
from undertile.framing.build import LARGE_TILE, RULES_LARGE, RULES_SMALL
from undertile.framing.flatcheck import FaceGrid, wall_checks
from undertile.framing.holds import LEAN_OVER, PLUMB_LIMIT
from undertile.framing.say import rule_length
from undertile.pan.built import Built
from undertile.pan.judge import Topic
from undertile.pan.seat import inches
from undertile.sentence import Sentence


def face_checks(built: Built) -> list[Check]:
    """Plumb, then flatness, wall by wall."""
    checks = []
    for wall in built.walls:
        checks.append(_plumb(built, wall))
        if built.members(wall):
            checks += _flat(built, wall)
    return checks


def _plumb(built: Built, wall: str) -> Check:
    topic = Topic(f"plumb-{wall}", "Plumb of the finished wall", f"wall {wall}", "ufgs-thinset-plumb")
    work = next((work for name, work in built.framing.walls.items() if name == wall), None)
    limit = inches(work.plumb_limit) if work is not None else None
    limit = PLUMB_LIMIT if limit is None else abs(limit)
    plane = built.plane(wall)
    if plane is None:
        return topic.not_shown(
            Sentence(
                "at most {most} in {over}",
                most=built.near(limit),
                over=rule_length(LEAN_OVER, built.unit),
            ),
            Sentence("Read the studs of wall {wall}.", wall=wall),
        )
    lean = plane.lean * LEAN_OVER
    over = rule_length(LEAN_OVER, built.unit)
    return topic.judge(
        abs(lean),
        None,
        limit,
        built.unit,
        rounding="up",
        shown=lambda value: _lean(value, over, lean),
        because=(Sentence("lean of the plane; single studs may stand off it by their band"),),
        fix=Sentence("Hold the plane of wall {wall} plumber, or keep it with a reason.", wall=wall),
    )


def _lean(value: str, over: str, lean: Fraction) -> str:
    if not lean:
        return Sentence("no lean")
    return Sentence(
        "{value} in {over}, top into the room" if lean > 0 else "{value} in {over}, top back",
        value=value,
        over=over,
    )


def face_grid(built: Built, wall: str) -> FaceGrid:
    """Planned faces of one wall as residuals from its plane, with what the readings are worth."""
    members = built.members(wall)
    return FaceGrid(
        wall,
        tuple(m.name for m in members),
        tuple(m.along for m in members),
        members[0].heights,
        tuple(tuple(f - g for f, g in zip(m.finished, m.target, strict=True)) for m in members),
        tuple(tuple(built.sigma((wall, m.along, h)) for h in m.heights) for m in members),
        tuple(tuple(_read(built, wall, m.along, h) for h in m.heights) for m in members),
    )


def _read(built: Built, wall: str, along: Fraction, height: Fraction) -> bool:
    offset = built.reading(wall, along, height)
    return offset is not None and offset.state == "read"


def _flat(built: Built, wall: str) -> tuple[Check, ...]:
    edge = inches(built.framing.finish.tile_edge)
    large = edge is None or edge >= LARGE_TILE
    rules = RULES_LARGE if large else RULES_SMALL
    source = "a108.02-4.2.2" if large else "a108-flat-small"
    return wall_checks(face_grid(built, wall), rules, unit=built.unit, source=source)
