"""Changes to a problem whose effect on the least cost is known beforehand."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

from undertile.framing.plan import Plane
from undertile.framing.problem import FramingProblem, Member, WallProblem

SWAP = {"L": "R", "R": "L", "B": "B"}


def mirror(problem: FramingProblem) -> FramingProblem:
    """The room seen in a mirror: L and R change places and B runs the other way. The cost is the same.

    Along B a place x becomes width - x, where the width makes the first stud land where the last one was.
    """
    width = Fraction(0)
    for wall in problem.walls:
        if wall.name == "B":
            width = wall.members[0].along + wall.members[-1].along

    def place(wall: str, along: Fraction) -> Fraction:
        return width - along if wall == "B" else along

    walls = []
    for wall in problem.walls:
        name = SWAP[wall.name]
        members = tuple(replace(m, along=place(wall.name, m.along)) for m in wall.members)
        walls.append(
            replace(
                wall,
                name=name,
                members=members[::-1] if wall.name == "B" else members,
                plates=tuple(replace(p, along=place(wall.name, p.along)) for p in wall.plates),
                terms=tuple(replace(t, wall=name, along=place(wall.name, t.along)) for t in wall.terms),
            )
        )
    demands = tuple(
        replace(d, parts=tuple((SWAP[w], place(w, a), z, c) for w, a, z, c in d.parts))
        for d in problem.demands
    )
    order = {"L": 0, "B": 1, "R": 2}
    return replace(problem, walls=tuple(sorted(walls, key=lambda wall: order[wall.name])), demands=demands)


def shift_line(problem: FramingProblem, name: str, amount: Fraction) -> FramingProblem:
    """The same room with one wall's nominal moved: every offset there is ``amount`` more.

    Nothing in the room moves, so the cost is the same, and the wall's plane counts ``amount`` more too.
    """

    def up(value: Fraction | None, by: Fraction = amount) -> Fraction | None:
        return None if value is None else value + by

    walls = []
    for wall in problem.walls:
        if wall.name == name:
            wall = replace(
                wall,
                members=tuple(replace(m, offsets=tuple(o + amount for o in m.offsets)) for m in wall.members),
                t_low=wall.t_low + amount,
                t_high=wall.t_high + amount,
                plates=tuple(replace(p, offset=p.offset + amount) for p in wall.plates),
                terms=tuple(
                    replace(
                        t,
                        low=up(t.low),
                        high=up(t.high),
                        hard_low=up(t.hard_low),
                        hard_high=up(t.hard_high),
                    )
                    for t in wall.terms
                ),
            )
        walls.append(wall)
    demands = []
    for demand in problem.demands:
        by = amount * sum((c for w, _, _, c in demand.parts if w == name), Fraction(0))
        demands.append(replace(demand, low=up(demand.low, by), high=up(demand.high, by)))
    return replace(problem, walls=tuple(walls), demands=tuple(demands))


def add_stud(problem: FramingProblem, plane: Plane, along: Fraction) -> FramingProblem:
    """One more stud on ``plane.wall``, read exactly on the finished plane at every height.

    Leaving it is free. What else it may be treated to is copied from its neighbour; ``along`` must lie
    between two studs.
    """
    walls = []
    for wall in problem.walls:
        if wall.name == plane.wall:
            wall = _with_stud(wall, plane, along)
        walls.append(wall)
    return replace(problem, walls=tuple(walls))


def _with_stud(wall: WallProblem, plane: Plane, along: Fraction) -> WallProblem:
    before = [m for m in wall.members if m.along < along]
    after = [m for m in wall.members if m.along > along]
    if not before or not after or len(before) + len(after) != len(wall.members):
        raise ValueError(f"{along} is not between two studs of wall {wall.name}: choose a place in a bay")
    offsets = tuple(
        plane.at(along, z) + (0 if zone else wall.step)
        for z, zone in zip(wall.heights, wall.flange, strict=True)
    )
    new: Member = replace(
        before[-1], name=f"{before[-1].name}+", along=along, offsets=offsets, held=None, must=frozenset()
    )
    return replace(wall, members=(*before, new, *after))
