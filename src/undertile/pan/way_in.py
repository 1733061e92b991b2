"""The way in: what the pan must pass before it stands on the floor (convention 3.5).

The pan is taken straight down between the side walls, not tilted: the cautious case. It is rigid and its
sides are straight, so what it passes at a height is no width at one stud: two straight parallel sides, turned
as suits best, between all that stands on the left and all that stands on the right over its depth. Strips
whose run starts above the flange zone can wait until it is set; everything else is on before. A thing in
front of the studs counts where it stands.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from undertile.findings import Check, Verdict
from undertile.framing.build import PAST_PAN
from undertile.framing.facts import Thing
from undertile.framing.plan import MemberPlan, Piece
from undertile.framing.say import THINGS
from undertile.framing.words import WorkStep
from undertile.pan.built import ZERO, Built, between
from undertile.pan.judge import Topic
from undertile.pan.say import window
from undertile.pan.seat import inches, wall_of
from undertile.sentence import Sentence, joined


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
    """What is left for the pan at one height on the way down; ``what`` holds it."""

    clear: Fraction
    height: Fraction
    what: str
    sigma: float


@dataclass(frozen=True)
class _Point:
    """Something that stands on one side at one depth: a stud's face, a pipe. ``x`` from the left. [in]"""

    depth: Fraction
    x: Fraction
    name: str


def _door(built: Built) -> Check:
    topic = Topic("way-in-door", "Through the narrowest door or turn", "way in", "practice-way-in")
    door, width, depth = inches(built.pan.way_in.door), built.width, built.depth
    missing = []
    if door is None:
        missing.append(Sentence("the clear width of the narrowest door or turn on the way"))
    if width is None or depth is None:
        missing.append(Sentence("the pan's width and depth over the flanges"))
    if door is None or width is None or depth is None:
        return topic.not_shown(
            Sentence("the pan's shorter side"),
            Sentence("Measure {what}.", what=joined(missing, "{first} and {then}")),
        )
    short = min(width, depth)
    return topic.judge(
        door,
        short,
        None,
        built.unit,
        because=(
            Sentence("pan {width} by {depth}, carried flat", width=built.up(width), depth=built.up(depth)),
        ),
        eats=Sentence("door stops and casings"),
        fix=Sentence(
            "Carry it on edge if the turn allows, or take off a door stop or casing: it lacks {short} flat.",
            short=built.up(short - door),
        ),
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
    limit = window(built.width, None, built.unit) if built.width else Sentence("the pan's width")
    if built.width is None:
        return topic.not_shown(
            limit, Sentence("Measure the pan's width over the outside faces of the flanges.")
        )
    if built.opening(ZERO) is None:
        return topic.not_shown(
            limit, Sentence("Measure the inside width from wall L to wall R at three depths.")
        )
    if built.plane("L") is None or built.plane("R") is None:
        return topic.not_shown(limit, Sentence("There is no plan for the side walls yet."))
    spots, unread = _spots(built, waits), _unread(built)
    narrow = min(spots, key=lambda spot: spot.clear)
    everything = min(spot.clear for spot in _spots(built, []))
    because = [
        Sentence(
            "narrowest at height {height}, between {what}", height=built.near(narrow.height), what=narrow.what
        ),
        Sentence("taken straight down, not tilted; its sides are straight, turned as suits best"),
    ]
    tilt = inches(built.pan.way_in.tilt_height)
    if tilt is not None:
        because.append(Sentence("above {at} it is tilted in", at=built.near(tilt)))
    if waits:
        because.append(
            Sentence(
                "{number} strips left off until the pan is set; with all on it would be {everything}",
                number=len(waits),
                everything=built.down(everything),
            )
        )
    check = topic.judge(
        narrow.clear,
        built.width,
        None,
        built.unit,
        sigma=narrow.sigma,
        because=because,
        eats=narrow.what,
        fix=Sentence(
            "It lacks {short}: clear {what}, or {low}.",
            short=built.up(built.width - narrow.clear),
            what=narrow.what,
            low=_low(built, spots, built.width),
        ),
    )
    if unread and check.verdict is Verdict.PASS:
        return topic.not_shown(
            limit, Sentence("Read how far it stands out: {things}.", things=", ".join(unread)), because
        )
    return check


def _low(built: Built, spots: list[_Spot], width: Fraction) -> str:
    """From which height down it would pass."""
    passes: Fraction | None = None
    for spot in sorted(spots, key=lambda spot: spot.height):
        if spot.clear < width:
            break
        passes = spot.height
    if passes is None:
        return Sentence("tilt the pan in below it and say from which height")
    return Sentence(
        "bring the pan in low: from {at} down it passes straight; say that it is tilted in from there",
        at=built.near(passes),
    )


def _heights(built: Built) -> list[Fraction]:
    """Heights on the way down where something was read, from the tilt height to the floor."""
    tilt = inches(built.pan.way_in.tilt_height)
    read = {h for wall in "LR" for member in built.members(wall) for h in member.heights}
    read |= {t.height.inches for t in built.framing.things.values() if _thing_offset(built, t) is not None}
    kept = {h for h in read if tilt is None or h <= tilt}
    return sorted(kept | ({tilt} if tilt is not None else set()))


def _spots(built: Built, waits: list[Wait]) -> list[_Spot]:
    """What is left for a straight rigid pan at every height. Faces run straight between studs and heights."""
    return [
        _between(built, _side(built, "L", height, waits), _side(built, "R", height, waits), height)
        for height in _heights(built)
    ]


def _side(built: Built, wall: str, height: Fraction, waits: list[Wait]) -> list[_Point]:
    """All that stands on one side over the pan's depth: studs, the face at the pan's front, things there.

    A stud just past the front counts as beside the pan (convention 8): it seldom comes down on its place.
    """
    front = built.depth
    members = [m for m in built.members(wall) if front is None or m.along <= front + PAST_PAN]
    at = [(m.along, m.name) for m in members]
    if front is not None and (not at or at[-1][0] < front):
        beyond = next((m.name for m in built.members(wall) if m.along > front), "")
        at.append((front, beyond or (at[-1][1] if at else wall)))
    found = [(depth, _face(built, wall, depth, height, waits), name) for depth, name in at]
    for name, thing in built.framing.things.items():
        offset = _thing_offset(built, thing) if thing.wall == wall else None
        if offset is not None and thing.height.inches == height:
            what = Sentence("{name} ({kind})", name=name, kind=THINGS[thing.what])
            found.append((thing.along.inches, offset, what))
    return [
        _Point(depth, face if wall == "L" else (built.opening(depth) or ZERO) - face, name)
        for depth, face, name in found
    ]


def _between(built: Built, left: list[_Point], right: list[_Point], height: Fraction) -> _Spot:
    """How far apart two parallel straight sides may stand between all on the left and all on the right.

    At a turn s the left side stands at the largest ``x - s depth`` of the left, the right one at the least of
    the right. What is between them is concave in s with its corners at the slopes of pairs on one side, so
    the best of those is the best of all (exact).
    """
    slopes = {ZERO} | {
        (b.x - a.x) / (b.depth - a.depth)
        for side in (left, right)
        for a in side
        for b in side
        if b.depth > a.depth
    }
    best: tuple[Fraction, list[_Point], list[_Point]] | None = None
    for slope in sorted(slopes, key=abs):
        low = max(p.x - slope * p.depth for p in left)
        high = min(p.x - slope * p.depth for p in right)
        if best is None or high - low > best[0]:
            holds = (
                [p for p in left if p.x - slope * p.depth == low],
                [p for p in right if p.x - slope * p.depth == high],
            )
            best = (high - low, *holds)
    assert best is not None
    clear, on_left, on_right = best
    names = list(dict.fromkeys(p.name for p in (*on_left, *on_right)))
    sigma = built.sigma(
        ("L", on_left[0].depth, height), ("R", on_right[0].depth, height), opening=on_right[0].depth
    )
    return _Spot(clear, height, joined(names, "{first} and {then}"), sigma)


def _unread(built: Built) -> list[str]:
    """Things on the way whose reading is missing."""
    tilt = inches(built.pan.way_in.tilt_height)
    return [
        name
        for name, thing in built.framing.things.items()
        if thing.wall in ("L", "R")
        and (tilt is None or thing.height.inches <= tilt)
        and _thing_offset(built, thing) is None
    ]


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
