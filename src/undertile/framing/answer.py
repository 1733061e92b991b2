"""From what the search found to the plan people read: planes, amounts, recipes, charges."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from typing import TYPE_CHECKING

from undertile.framing.bound import Group
from undertile.framing.found import Found
from undertile.framing.frame import CHANNEL, WallFrame
from undertile.framing.option import PLATE, SHORE, TAPER, Option
from undertile.framing.plan import Charge, FramingPlan, MemberPlan, Piece, Plane, Recipe
from undertile.framing.problem import FramingProblem
from undertile.framing.settle import Value
from undertile.framing.shape import Shape

if TYPE_CHECKING:
    from undertile.framing.search import Bench


def build_plan(bench: Bench, runs: Sequence[tuple[Group, Found]], bound: int, nodes: int) -> FramingPlan:
    """The plan from every group's answer."""
    planes: dict[str, Plane] = {}
    members: dict[str, list[MemberPlan]] = {}
    charges: dict[str, list[Charge]] = {}
    cost = 0
    for group, found in runs:
        cost += found.cost
        for k, name in enumerate(group.names):
            frame = group.frames[k][found.leans[k]]
            planes[name] = plane_of(frame, found.point[2 * k], found.point[2 * k + 1])
            members[name] = members_of(
                bench.problem, frame, planes[name], found.picks[k], found.faces[k].faces
            )
            charges[name] = charges_of(bench.problem, frame, found.masks[k], found.picks[k])
    order = [wall.name for wall in bench.problem.walls]
    every = tuple(m for name in order for m in members[name])
    paid = tuple(c for name in order for c in charges[name])
    factor, rate = bench.problem.prices.factor, bench.problem.prices.rate
    minutes = (
        sum((m.minutes for m in every), Fraction(0)) + sum((c.minutes for c in paid), Fraction(0))
    ) * factor
    dollars = sum((m.dollars for m in every), Fraction(0)) + sum((c.dollars for c in paid), Fraction(0))
    total = minutes * rate / 60 + dollars
    least = bench.money.dollars(bound)
    return FramingPlan(
        state="proved" if least == total else "open",
        planes={name: planes[name] for name in order},
        members=every,
        charges=paid,
        minutes=minutes,
        dollars=dollars,
        cost=total,
        bound=least,
        nodes=nodes,
    )


def plane_of(frame: WallFrame, ta: Fraction, tb: Fraction) -> Plane:
    """The wall's plane from T at its two stations. [units in, inches out]"""
    a, b = frame.stations
    skew = (tb - ta) / (b - a) / frame.unit
    offset = ta / frame.unit - skew * a - frame.lean * frame.pivot
    return Plane(frame.wall.name, offset, skew, frame.lean, frame.wall.step)


def members_of(
    problem: FramingProblem,
    frame: WallFrame,
    plane: Plane,
    picks: Sequence[Option],
    faces: Sequence[Sequence[Value]],
) -> list[MemberPlan]:
    """Every member of a wall: faces back in the room's frame, recipe, minutes and dollars."""
    wall = frame.wall
    out = []
    for m, member in enumerate(wall.members):
        pick, shape = picks[m], frame.shapes[m]
        target = tuple(
            plane.at(member.along, z) + (Fraction(0) if f else wall.step)
            for z, f in zip(wall.heights, wall.flange, strict=True)
        )
        finished = tuple((Fraction(f) + s) / frame.unit for f, s in zip(faces[m], frame.shift, strict=True))
        recipe, minutes, dollars = recipe_of(problem, shape, pick, finished, target, member.offsets)
        out.append(
            MemberPlan(
                wall.name,
                member.name,
                member.along,
                wall.heights,
                member.offsets,
                finished,
                target,
                recipe,
                minutes,
                dollars,
            )
        )
    return out


def recipe_of(
    problem: FramingProblem,
    shape: Shape,
    pick: Option,
    finished: Sequence[Fraction],
    target: Sequence[Fraction],
    offsets: Sequence[Fraction],
) -> tuple[Recipe, Fraction, Fraction]:
    """What is done, with its minutes and dollars (before ``factor``)."""
    unit, p = shape.unit, problem.prices
    n = len(finished)
    zero = (Fraction(0),) * n
    minutes = dollars = Fraction(0)
    families = pick.families
    depth = zero
    added = tuple(Fraction(a, unit) for a in pick.added) if pick.added else zero
    passes = pick.passes
    if pick.rides and passes:
        # the old face goes only as far back as the plane, no deeper than it must
        step = Fraction(1, 32)
        depth = tuple(
            max(Fraction(0), -((t - o) // step) * step) if o > t else Fraction(0)
            for o, t in zip(offsets, target, strict=True)
        )
    elif passes:
        depth = tuple(o + a - f for o, a, f in zip(offsets, added, finished, strict=True))
    if passes:
        minutes += p.plane_setup + passes * p.plane_pass
        dollars += p.plane_dollars
    pieces = tuple(
        Piece(problem.stock[index].name, problem.stock[index].thickness, first, last)
        for index, first, last in pick.pieces
    )
    if pieces:
        m, d = shape.strip_cost(pick.pieces)
        minutes, dollars = minutes + m, dollars + d
    taper = None
    if pick.taper is not None:
        taper = (Fraction(pick.taper[0], 16), Fraction(pick.taper[1], 16))
        minutes, dollars = minutes + p.taper_next, dollars + p.taper_dollars
    if pick.knock is not None:
        minutes += p.knock
    if pick.bedded:
        minutes, dollars = minutes + p.wet_bed, dollars + p.wet_bed_dollars
    if "sister" in families:
        minutes, dollars = minutes + (shape.member.sister or 0), dollars + p.sister_dollars
    if "replace" in families:
        minutes, dollars = minutes + (shape.member.replace or 0), dollars + shape.member.replace_dollars
    reset = "replace" in families and "replace is" in shape.member.why
    if pick.shim:
        minutes, dollars = minutes + p.flange_shim, dollars + p.flange_shim_dollars
    return (
        Recipe(families, passes, depth, pieces, taper, pick.knock, pick.shim, reset),
        minutes,
        dollars,
    )


def charges_of(problem: FramingProblem, frame: WallFrame, mask: int, picks: Sequence[Option]) -> list[Charge]:
    """What is paid once on a wall."""
    p, wall = problem.prices, frame.wall
    zero = Fraction(0)
    out = [Charge(wall.name, "verify", p.verify, zero, "straightedge and laser after the work, always")]
    if mask & PLATE:
        out.append(
            Charge(
                wall.name,
                "plate edge",
                p.plate_edge,
                zero,
                "planed in the flange zone: the plate's edge goes with it",
            )
        )
    if mask & SHORE:
        out.append(Charge(wall.name, "shoring", p.shoring, zero, "a bearing stud comes out"))
    if mask & TAPER:
        out.append(
            Charge(wall.name, "first taper", p.taper_first - p.taper_next, zero, "jig for the first taper")
        )
    if mask & CHANNEL and wall.channel is not None:
        out.append(
            Charge(wall.name, "channel", wall.channel.minutes, wall.channel.dollars, "the whole wall in rows")
        )
    members = len(wall.members)
    for term, pick in zip(wall.terms, picks[members:], strict=False):
        if pick.families == ("buy",) and term.minutes is not None:
            out.append(Charge(wall.name, term.remedy or term.name, term.minutes, term.dollars, term.why))
    return out
