"""Rooms without a plan, put together so that the conflict and the smallest change can be counted by hand."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from fractions import Fraction as F

from undertile.bench.hand import hand_room, play_demands
from undertile.framing.problem import Demand, FramingProblem, Member, StepTerm, WallProblem

STEEL = {
    "plane": ("steel is never planed", "convention-4"),
    "sister": ("a steel stud takes no sister: it is re-set in its track", "convention-4"),
    "replace": ("it may not be replaced or moved", "convention-4"),
}


def steel(member: Member) -> Member:
    """The stud as steel that may not be moved: nothing is taken off, only strips go on."""
    none = (F(0),) * len(member.offsets)
    return replace(
        member,
        plane_depth=none,
        plane_depth_sistered=none,
        taper=False,
        sister=None,
        replace=None,
        why=dict(STEEL),
    )


def with_members(
    problem: FramingProblem, change: Callable[[Member], Member], names: str | tuple[str, ...]
) -> FramingProblem:
    """The room with some studs changed: by name, or all of a wall by its letter."""
    chosen = (names,) if isinstance(names, str) else names

    def wall(each: WallProblem) -> WallProblem:
        members = tuple(change(m) if each.name in chosen or m.name in chosen else m for m in each.members)
        return replace(each, members=members)

    return replace(problem, walls=tuple(wall(each) for each in problem.walls))


def with_terms(problem: FramingProblem, wall: str, *terms: StepTerm) -> FramingProblem:
    """The room with terms on one wall."""
    walls = tuple(replace(w, terms=(*w.terms, *terms)) if w.name == wall else w for w in problem.walls)
    return replace(problem, walls=walls)


def with_demands(problem: FramingProblem, *demands: Demand) -> FramingProblem:
    """The room with more demands."""
    return replace(problem, demands=(*problem.demands, *demands))


def held(wall: str, at: F, code: str = "offset") -> Demand:
    """A plane put somewhere, at along 0 and height 0, as the stage does it."""
    return Demand(
        f"hold-{wall}-{code}", ((wall, F(0), F(0), F(1)),), at, at, f"Wall {wall} held at {at}", "as drawn"
    )


def steel_room(opening: F = F(959, 16)) -> FramingProblem:
    """Convention 8 with steel side walls and an opening of 59-15/16: the pan of 60 has no room."""
    problem = with_members(hand_room(), steel, ("L", "R"))
    rest = tuple(d for d in problem.demands if not d.code.startswith("play"))
    play = play_demands(F(60), opening, (F(1), F(16), F(32)), (F(2),))
    return replace(problem, demands=(*play, *rest))


def wide_room(opening: F = F(65)) -> FramingProblem:
    """Convention 8, all wood, with an opening far wider than the pan."""
    problem = hand_room()
    rest = tuple(d for d in problem.demands if not d.code.startswith("play"))
    return replace(problem, demands=(*play_demands(F(60), opening, (F(1), F(16), F(32)), (F(2),)), *rest))


def drain_room(off: F = F(3, 8), float_: F = F(1, 4)) -> FramingProblem:
    """Convention 8 with the back wall held at 0 and the drain ``off`` further out than the outlet."""
    drain = Demand(
        "drain-y",
        (("B", F(0), F(2), F(1)),),
        off - float_,
        off + float_,
        "Outlet over the drain, out from wall B",
        "drain 16-3/8 from wall B, outlet 16 from the back flange, float 1/4",
    )
    return with_demands(hand_room(), held("B", F(0)), drain)


def edge_room() -> FramingProblem:
    """Convention 8 with a cabinet beside wall L, and wall R held at 0 along the pan."""
    cabinet = StepTerm(
        "cabinet at 48", "L", F(36), F(48), F(1, 4), F(9, 32), None, why="the face that stays is at +3/4"
    )
    square = Demand(
        "hold-R-skew",
        (("R", F(34), F(0), F(1)), ("R", F(2), F(0), F(-1))),
        F(0),
        F(0),
        "Wall R held at a skew of 0",
    )
    return with_terms(with_demands(hand_room(), held("R", F(0)), square), "L", cabinet)


def held_stud_room() -> FramingProblem:
    """Convention 8 with B2 half an inch proud at 48, and held as it is."""

    def proud(member: Member) -> Member:
        return replace(
            member,
            offsets=(F(0), F(1, 2), F(0)),
            held="leave",
            why={"held": ("held to leave: the owner wants the old notch seen", "convention-4")},
        )

    return with_members(hand_room(), proud, "B2")


def leaning_edge_room() -> FramingProblem:
    """One wall between faces that stay at 2 and at 98: the upper one a quarter further in."""
    wall = next(w for w in hand_room().walls if w.name == "B")
    spots = (("frame at 2", F(2), F(0)), ("frame at 98", F(98), F(1, 4)))
    terms = tuple(StepTerm(name, "B", F(60), z, at, at, None) for name, z, at in spots)
    leans = tuple(F(n, 16 * 96) for n in (-2, -1, 0, 1, 2))
    return replace(hand_room(), walls=(replace(wall, terms=terms, leans=leans),), demands=())


def hollow_stud_room() -> FramingProblem:
    """One steel stud with a hollow of an eighth at mid height, under a rule of 1/16 in 24."""
    stud = steel(
        Member("B1", F(8), (F(1, 16), F(-1, 16), F(1, 16)), (F(0),) * 3, (F(0),) * 3, (), (True,) * 3)
    )
    wall = WallProblem("B", (F(24), F(36), F(48)), (False,) * 3, (stud,))
    return FramingProblem((wall,), flatness=((F(24), F(1, 16)),))


def soft_stud_room() -> FramingProblem:
    """Convention 8 with B3 soft, and neither a sister nor a new stud allowed."""

    def soft(member: Member) -> Member:
        return replace(steel(member), must=frozenset({"sister", "replace"}))

    return with_members(hand_room(), soft, "B3")
