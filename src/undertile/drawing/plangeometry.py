"""The opening from above: planes, faces before and after, and the pan, exact, then as drawn.

Room frame of the pan stage: x along the back wall from the nominal plane of L, y out from the nominal plane
of B; on paper y runs downward. Gaps and offsets are too small to see true: ``Enlarged`` stretches what lies
across a wall, measured from the pan's edge (or the nominal plane), and leaves what runs along it.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from undertile.drawing.walldata import Room
from undertile.framing.plan import MemberPlan
from undertile.pan.built import Built
from undertile.pan.seat import squareness, wall_of
from undertile.pan.set_place import set_place

ZERO = Fraction(0)
TIMES = (24, 16, 12, 8, 6, 4, 3, 2)
"""Enlargements to choose from."""
SEEN = 4.0
"""How far the largest offset may reach when enlarged. [in]"""


@dataclass(frozen=True)
class Face:
    """One stud from above: where along its wall, face before and after, the plane; from the nominal. [in]

    ``cut``: planed there. ``put_on``: strips and the like in front of the old face; a sister, a new stud or
    a foot knocked over has neither.
    """

    name: str
    along: Fraction
    before: Fraction | None
    after: Fraction | None
    plane: Fraction | None
    shim: bool = False
    cut: Fraction = ZERO
    put_on: bool = False


@dataclass(frozen=True)
class PlanView:
    """What the plan shows.

    Attributes
    ----------
    walls : mapping of wall to its studs' faces
    width : Fraction
        Between the nominal planes of L and R at the back. [in]
    width_known : bool
    place : (Fraction, Fraction) or None
        x and y of the pan's back left corner. [in]
    seat : str
        How the pan was put there: centred, pushed L, pushed R, side L, side R, free; "no drop" when the
        planes leave no room for it.
    """

    built: Built
    walls: dict[str, tuple[Face, ...]]
    width: Fraction
    width_known: bool
    place: tuple[Fraction, Fraction] | None
    seat: str

    @property
    def size(self) -> tuple[Fraction, Fraction] | None:
        """Width and depth of the pan. [in]"""
        width, depth = self.built.width, self.built.depth
        return None if width is None or depth is None else (width, depth)

    def line(self, wall: str, along: Fraction) -> Fraction:
        """The nominal line of a wall across it, in room x (L, R) or y (B). [in]"""
        turn = squareness(self.built.survey).turn
        if wall == "L":
            return turn.get("L", ZERO) * along
        if wall == "R":
            grown = self.built.opening(along) if self.width_known else None
            if grown is not None:
                return grown + turn.get("L", ZERO) * along
            return self.width - turn.get("R", ZERO) * along
        return ZERO

    def across(self, wall: str, along: Fraction, offset: Fraction) -> Fraction:
        """Room x (L, R) or y (B) of what stands ``offset`` proud of the nominal. [in]"""
        return self.line(wall, along) + (-offset if wall == "R" else offset)

    def plane_at(self, wall: str, along: Fraction) -> Fraction | None:
        """The wall's plane at a place along it, in room x or y. [in]"""
        plane = self.built.plane(wall)
        if plane is None:
            return None
        return self.across(wall, along, plane.at(along, self.built.seat_top(wall)))

    def largest(self, only: str = "") -> float:
        """Largest distance of a face or plane from the pan's edge, or from the nominal without a pan.

        Of all walls, or of the one asked for. [in]
        """
        far = [0.0]
        for wall, faces in self.walls.items():
            if only not in ("", wall):
                continue
            base = self.edge(wall)
            for face in faces:
                for offset in (face.before, face.after, face.plane):
                    if offset is not None:
                        at = self.across(wall, face.along, offset)
                        far.append(abs(float(at) - base))
        return max(far)

    def edge(self, wall: str) -> float:
        """What gaps are measured from: the pan's edge at a wall, or the nominal plane. [in]"""
        if self.place is None or self.size is None:
            return float(self.width) if wall == "R" else 0.0
        x, y = self.place
        return float({"L": x, "R": x + self.size[0], "B": y}[wall])


def plan_view(room: Room) -> PlanView | None:
    """The plan of a room; None when no wall has a stud."""
    built = Built(room.pan, room.survey, room.framing, room.plan, room.unit, room.job.unit)
    walls = {name: _faces(room, built, name) for name in room.walls if room.read.walls[name].studs}  # type: ignore[index]
    if not walls:
        return None
    opening = room.survey.frame.opening_at_back if built.alcove else None
    width = opening if opening is not None else _guess(built, walls)
    view = PlanView(built, walls, width, opening is not None, None, "free")
    place, seat = _place(view)
    return PlanView(built, walls, width, opening is not None, place, seat)


def _faces(room: Room, built: Built, name: str) -> tuple[Face, ...]:
    members = {m.name: m for m in built.members(name)}
    found = wall_of(room.survey, name)
    read = {s.name: s for s in found.studs} if found is not None else {}
    height = built.seat_top(name)
    out = []
    for stud, facts in room.read.walls[name].studs.items():  # type: ignore[index]
        before = (
            next((o.value for o in read[stud].offsets if o.height == height), None) if stud in read else None
        )
        unread = stud in read and any(o.height == height and o.state != "read" for o in read[stud].offsets)
        member = members.get(stud)
        after, plane = _finished(member, height)
        shown = None if unread and member is None else before
        along = facts.along.inches
        if member is None or after is None:
            out.append(Face(stud, along, shown, after, plane))
            continue
        recipe = member.recipe
        cut = recipe.depth[member.heights.index(height)] if recipe.depth else ZERO
        put_on = bool(set(recipe.families) & {"strip", "taper", "wet bed", "channel"})
        out.append(Face(stud, along, shown, after, plane, recipe.flange_shim, cut, put_on))
    return tuple(sorted(out, key=lambda face: face.along))


def _finished(member: MemberPlan | None, height: Fraction) -> tuple[Fraction | None, Fraction | None]:
    if member is None or height not in member.heights:
        return None, None
    at = member.heights.index(height)
    return member.finished[at], member.target[at]


def _guess(built: Built, walls: dict[str, tuple[Face, ...]]) -> Fraction:
    """Where the right wall may be when nobody measured it; the sheet says that it is a guess. [in]"""
    back = [face.along for face in walls.get("B", ())]
    return max([*back, built.width or ZERO]) + Fraction(3, 2)


def _place(view: PlanView) -> tuple[tuple[Fraction, Fraction] | None, str]:
    """Back left corner of the pan, and how it got there."""
    built, size = view.built, view.size
    if size is None:
        return None, "free"
    x, seat = _across(view, size)
    plane = built.plane("B")
    return (x, ZERO if plane is None else plane.at(x, built.seat_top("B"))), seat


def _across(view: PlanView, size: tuple[Fraction, Fraction]) -> tuple[Fraction, str]:
    built = view.built
    set_at = set_place(built) if view.width_known else None
    if set_at is not None:
        if set_at.least > set_at.most:
            return set_at.at, "no drop"
        if set_at.left == set_at.right:
            return set_at.at, "centred"
        return set_at.at, "pushed L" if not set_at.left else "pushed R" if not set_at.right else "free"
    if built.alcove:
        return (view.width - size[0]) / 2, "free"
    for side in "LR":
        if side in view.walls:
            turn = built.turn("B") if "B" in view.walls else ZERO
            faces = []
            for at in (ZERO, size[1]):
                face = view.plane_at(side, at)
                faces.append((view.line(side, at) if face is None else face) + turn * at)
            return (max(faces), "side L") if side == "L" else (min(faces) - size[0], "side R")
    return (view.width - size[0]) / 2, "free"


def drain_x(view: PlanView) -> Fraction:
    """Where the drain is across the room. [in]"""
    drain = view.built.pan.drain
    if drain is None:
        return ZERO
    at = view.line(drain.side, drain.y.inches)
    return at + drain.x.inches if drain.side == "L" else at - drain.x.inches


@dataclass(frozen=True)
class Enlarged:
    """How room places are drawn: ``times`` enlarges what lies across a wall."""

    view: PlanView
    times: int

    def spot(self, wall: str, along: Fraction, across: Fraction) -> tuple[float, float]:
        """A place at a wall, given along it and across it in room x or y."""
        base = self.view.edge(wall)
        moved = base + self.times * (float(across) - base)
        return (float(along), -moved) if wall == "B" else (moved, -float(along))

    def outward(self, wall: str, at: tuple[float, float], by: float) -> tuple[float, float]:
        """A place moved away from the room, into the wall."""
        x, y = at
        return {"L": (x - by, y), "R": (x + by, y), "B": (x, y + by)}[wall]


def times_for(view: PlanView) -> int:
    """The enlargement at which offsets are seen and stay beside the drawing."""
    largest = view.largest()
    if not largest:
        return 1
    return next((times for times in TIMES if times * largest <= SEEN), 1)
