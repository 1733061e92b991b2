"""The way in: what the pan must pass before it stands on the floor (convention 3.5).

The pan is taken straight down between the side walls, not tilted: the cautious case. Strips whose run starts
above the flange zone can wait until it is set; everything else is on before. A thing in front of the studs
counts where it stands.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from undertile.findings import Check, Verdict
from undertile.framing.facts import Thing
from undertile.framing.plan import MemberPlan, Piece
from undertile.framing.words import WorkStep
from undertile.pan.built import ZERO, Built, between
from undertile.pan.judge import Topic
from undertile.pan.say import window
from undertile.pan.seat import inches, wall_of


def way_in_checks(built: Built) -> tuple[list[Check], list[WorkStep]]:
    """Door, clear width on the way down, and what goes on after the pan is set.

    Returns
    -------
    checks : list of Check
    order : list of WorkStep
    """
    waits = [
        Wait(member, piece)
        for wall in built.walls
        for member in built.members(wall)
        for piece in built.waits(member)
    ]
    checks = [_door(built)]
    if built.alcove:
        checks.append(_clear_width(built, waits))
    return checks, _order(built, waits)


@dataclass(frozen=True)
class Wait:
    """A strip that goes on after the pan is set."""

    member: MemberPlan
    piece: Piece


@dataclass(frozen=True)
class _Spot:
    """One narrow place on the way down."""

    clear: Fraction
    depth: Fraction
    height: Fraction
    what: str
    sigma: float


def _door(built: Built) -> Check:
    topic = Topic("way-in-door", "Through the narrowest door or turn", "way in", "practice-way-in")
    door, width, depth = inches(built.pan.way_in.door), built.width, built.depth
    missing = []
    if door is None:
        missing.append("the clear width of the narrowest door or turn on the way")
    if width is None or depth is None:
        missing.append("the pan's width and depth over the flanges")
    if door is None or width is None or depth is None:
        return topic.not_shown("the pan's shorter side", f"Measure {' and '.join(missing)}.")
    short = min(width, depth)
    return topic.judge(
        door,
        short,
        None,
        built.unit,
        because=(f"pan {built.up(width)} by {built.up(depth)}, carried flat",),
        eats="door stops and casings",
        fix=f"Carry it on edge if the turn allows, or take off a door stop or casing: it lacks "
        f"{built.up(short - door)} flat.",
    )


def _faces_before(built: Built, member: MemberPlan, waits: list[Wait]) -> list[Fraction]:
    """Faces of a stud at its heights while the pan goes in: what waits is left off. [in]"""
    faces = list(member.finished)
    for wait in waits:
        if wait.member.name == member.name:
            for i in range(wait.piece.first, wait.piece.last + 1):
                faces[i] -= wait.piece.thickness
    return faces


def _face(built: Built, wall: str, along: Fraction, height: Fraction, waits: list[Wait]) -> Fraction:
    """Face at a spot on the way, straight between studs and heights. [in]"""
    members = built.members(wall)
    if not members:
        return ZERO
    values = [between(m.heights, _faces_before(built, m, waits), height) for m in members]
    return between([m.along for m in members], values, along)


def _clear_width(built: Built, waits: list[Wait]) -> Check:
    topic = Topic("way-in-width", "Clear width on the way down", "walls L and R", "convention-3")
    limit = window(built.width, None, built.unit) if built.width else "the pan's width"
    if built.width is None:
        return topic.not_shown(limit, "Measure the pan's width over the outside faces of the flanges.")
    if built.opening(ZERO) is None:
        return topic.not_shown(limit, "Measure the inside width from wall L to wall R at three depths.")
    if built.plane("L") is None or built.plane("R") is None:
        return topic.not_shown(limit, "There is no plan for the side walls yet.")
    spots = _spots(built, waits)
    things, unread = _things(built, waits)
    narrow = min([*spots, *things], key=lambda spot: spot.clear)
    everything = min(spot.clear for spot in [*_spots(built, []), *_things(built, [])[0]])
    because = [
        f"narrowest {built.near(narrow.depth)} from the back at height {built.near(narrow.height)}, "
        f"at {narrow.what}",
        "taken straight down, not tilted",
    ]
    tilt = inches(built.pan.way_in.tilt_height)
    if tilt is not None:
        because.append(f"above {built.near(tilt)} it is tilted in")
    if waits:
        because.append(
            f"{len(waits)} strips left off until the pan is set; with all on it would be "
            f"{built.down(everything)}"
        )
    check = topic.judge(
        narrow.clear,
        built.width,
        None,
        built.unit,
        sigma=narrow.sigma,
        because=because,
        eats=narrow.what,
        fix=f"It lacks {built.up(built.width - narrow.clear)}: clear {narrow.what}, "
        "or tilt the pan in below it and say from which height.",
    )
    if unread and check.verdict is Verdict.PASS:
        return topic.not_shown(limit, f"Read how far it stands out: {', '.join(unread)}.", because)
    return check


def _heights(built: Built) -> list[Fraction]:
    """Heights read on either side wall on the way down, from the tilt height to the floor."""
    tilt = inches(built.pan.way_in.tilt_height)
    read = {h for wall in "LR" for member in built.members(wall) for h in member.heights}
    kept = {h for h in read if tilt is None or h <= tilt}
    return sorted(kept | ({tilt} if tilt is not None else set()))


def _spots(built: Built, waits: list[Wait]) -> list[_Spot]:
    """Clear width opposite every stud of a side wall at every height read.

    Faces run straight between studs, so the narrowest place lies at one.
    """
    found = []
    alongs = sorted({member.along for wall in "LR" for member in built.members(wall)})
    names = {(m.wall, m.along): m.name for wall in "LR" for m in built.members(wall)}
    for depth in alongs:
        for height in _heights(built):
            faces = {wall: _face(built, wall, depth, height, waits) for wall in "LR"}
            clear = (built.opening(depth) or ZERO) - faces["L"] - faces["R"]
            at = [names[wall, depth] for wall in "LR" if (wall, depth) in names]
            sigma = built.sigma(("L", depth, height), ("R", depth, height), opening=depth)
            found.append(_Spot(clear, depth, height, " and ".join(at), sigma))
    return found


def _things(built: Built, waits: list[Wait]) -> tuple[list[_Spot], list[str]]:
    """Clear width at what stands in front of a side wall, and the names of things not read."""
    found, unread = [], []
    tilt = inches(built.pan.way_in.tilt_height)
    for name, thing in built.framing.things.items():
        if thing.wall not in ("L", "R"):
            continue
        depth, height = thing.along.inches, thing.height.inches
        if tilt is not None and height > tilt:
            continue
        offset = _thing_offset(built, thing)
        if offset is None:
            unread.append(name)
            continue
        other = "R" if thing.wall == "L" else "L"
        clear = (built.opening(depth) or ZERO) - offset - _face(built, other, depth, height, waits)
        sigma = built.sigma((thing.wall, depth, height), (other, depth, height), opening=depth)
        found.append(_Spot(clear, depth, height, f"{name} ({thing.what}) on wall {thing.wall}", sigma))
    return found, unread


def _thing_offset(built: Built, thing: Thing) -> Fraction | None:
    """How far a thing stands before its wall's nominal plane; None when not read. [in]"""
    wall = wall_of(built.survey, thing.wall)
    if wall is None or isinstance(thing.reading, str):
        return None
    return wall.nominal - thing.reading.inches


def _order(built: Built, waits: list[Wait]) -> list[WorkStep]:
    """One line for each wall whose strips wait."""
    lines: list[WorkStep] = []
    for wall in built.walls:
        own = [wait for wait in waits if wait.member.wall == wall]
        if not own:
            continue
        listed = ", ".join(f"{wait.member.name} {_run(built, wait)}" for wait in own)
        studs = tuple(dict.fromkeys(wait.member.name for wait in own))
        text = f"After the pan is set, put on the strips above the flange of wall {wall}: {listed}."
        lines.append(WorkStep("after pan", (wall,), studs, text))
    return lines


def _run(built: Built, wait: Wait) -> str:
    """The strip and the heights it covers: ``ply 1/4 from 24" to 90"``, ``card 1/16 at 90"``."""
    low, high = (built.near(wait.member.heights[h]) for h in (wait.piece.first, wait.piece.last))
    return f"{wait.piece.stock} " + (f"at {low}" if low == high else f"from {low} to {high}")
