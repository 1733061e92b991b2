"""A plan held against the framing contract, rule by rule, in exact arithmetic and apart from the planner.

Given a problem, the planes and what is done to each member, ``price`` works out every finished face, every
broken rule and the cost by ``docs/methods/framing-contract.md`` alone; section numbers are cited as
[contract n]. ``verify`` holds a whole ``FramingPlan`` against that, figure by figure. Nothing here knows how
a plan is found. Where the contract can be read two ways, the reading taken is in ``docs/methods/proof.md``.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from fractions import Fraction

from undertile.bench.straightedge import broken_rows, lines_of
from undertile.bench.treatments import (
    BAND,
    CHANNEL,
    REPLACE,
    SHIM_OVER,
    SISTER,
    ZERO,
    Tally,
    faces_of,
    tally_of,
)
from undertile.framing.plan import FramingPlan, Plane, Recipe
from undertile.framing.problem import FramingProblem, StepTerm, WallProblem

NEW_FACE = frozenset({SISTER, REPLACE, CHANNEL})
"""A face that does not go back with the old stud [contract 12]."""
Key = tuple[str, str]
"""(wall, member)."""


@dataclass
class Priced:
    """What a choice of planes and recipes comes to.

    Attributes
    ----------
    violations : list of str
        Each broken rule of the contract, empty when the plan is allowed.
    targets, faces : dict
        g and f at every height, by (wall, member). [in]
    shims : set
        Members that need a flange shim.
    members : dict
        Minutes and dollars of each member alone.
    shared : dict
        What is paid once a wall or once a job, by what it is.
    """

    violations: list[str] = field(default_factory=list)
    targets: dict[Key, tuple[Fraction, ...]] = field(default_factory=dict)
    faces: dict[Key, tuple[Fraction, ...]] = field(default_factory=dict)
    shims: set[Key] = field(default_factory=set)
    members: dict[Key, Tally] = field(default_factory=dict)
    shared: dict[str, Tally] = field(default_factory=dict)
    touched: int = 0
    minutes: Fraction = ZERO
    dollars: Fraction = ZERO
    cost: Fraction = ZERO


def target(wall: WallProblem, plane: Plane, along: Fraction, height: Fraction, flange: bool) -> Fraction:
    """g: the plane in the flange zone, the plane and ``step`` above it [contract 2]. [in]"""
    return plane.offset + plane.skew * along + plane.lean * height + (ZERO if flange else wall.step)


def price(
    problem: FramingProblem, planes: dict[str, Plane], recipes: dict[Key, Recipe], *, flat: bool = True
) -> Priced:
    """Work out a plan by the contract.

    Parameters
    ----------
    problem : FramingProblem
    planes : dict of Plane, by wall
        ``step`` is taken from the wall.
    recipes : dict of Recipe, by (wall, member)
        ``flange_shim`` is not looked at: who needs one is worked out.
    flat : bool
        Look at the straightedge rules too.
    """
    out = Priced()
    for wall in problem.walls:
        if wall.name not in planes:
            out.violations.append(f"wall {wall.name}: no plane")
            continue
        _wall(problem, wall, planes[wall.name], recipes, out, flat)
    for demand in problem.demands:
        if any(part[0] not in planes for part in demand.parts):
            continue
        value = sum(
            (c * (planes[w].offset + planes[w].skew * a + planes[w].lean * z) for w, a, z, c in demand.parts),
            ZERO,
        )
        if _outside(value, demand.low, demand.high):
            out.violations.append(f"demand {demand.code}: {value} not in {demand.low}..{demand.high}")
    tallies = [*out.members.values(), *out.shared.values()]
    out.minutes = sum((t.minutes for t in tallies), ZERO)
    out.dollars = sum((t.dollars for t in tallies), ZERO)
    out.cost = out.minutes * problem.prices.factor * problem.prices.rate / 60 + out.dollars
    return out


def _outside(value: Fraction, low: Fraction | None, high: Fraction | None) -> bool:
    return (low is not None and value < low) or (high is not None and value > high)


def _wall(
    problem: FramingProblem,
    wall: WallProblem,
    plane: Plane,
    recipes: dict[Key, Recipe],
    out: Priced,
    flat: bool,
) -> None:
    prices = problem.prices
    say = out.violations
    out.shared[f"{wall.name} verify"] = Tally(prices.verify)
    if plane.lean not in wall.leans:
        say.append(f"wall {wall.name}: lean {plane.lean} is not one offered")
    edge = tapers = shoring = False
    channelled = [CHANNEL in recipes[(wall.name, m.name)].families for m in wall.members]
    if any(channelled):
        if wall.channel is None:
            say.append(f"wall {wall.name}: channel not offered")
        else:
            out.shared[f"{wall.name} channel"] = Tally(wall.channel.minutes, wall.channel.dollars)
        if not all(channelled):
            say.append(f"wall {wall.name}: channelled in part")
    residuals: dict[tuple[int, int], Fraction] = {}
    back: dict[int, Fraction] = {}
    for i, member in enumerate(wall.members):
        key = (wall.name, member.name)
        recipe = recipes[key]
        mine: list[str] = []
        t = plane.offset + plane.skew * member.along
        if not wall.t_low <= t <= wall.t_high:
            mine.append(f"plane at {t}, not in {wall.t_low}..{wall.t_high}")
        goals = [
            target(wall, plane, member.along, z, zone)
            for z, zone in zip(wall.heights, wall.flange, strict=True)
        ]
        faces, depth = faces_of(problem, wall, member, recipe, goals, mine)
        out.targets[key], out.faces[key] = tuple(goals), tuple(faces)
        rest = [f - g for f, g in zip(faces, goals, strict=True)]
        residuals.update({(i, h): r for h, r in enumerate(rest)})
        families = frozenset(recipe.families)
        gone = ZERO if families & NEW_FACE else member.goes_back  # [contract 12]
        back[i] = gone
        for h, r in enumerate(rest):
            if not gone - BAND <= r <= (ZERO if wall.flange[h] else BAND):
                mine.append(f"height {wall.heights[h]}: face {r} from its target, {gone} to go back")
        if member.beside_pan and any(
            r - gone < -SHIM_OVER or (gone and d)
            for r, d, zone in zip(rest, depth, wall.flange, strict=True)
            if zone
        ):
            out.shims.add(key)
        edge = edge or any(d > 0 for d, zone in zip(depth, wall.flange, strict=True) if zone)
        tapers = tapers or "taper" in families
        shoring = shoring or (REPLACE in families and member.shoring)
        out.touched += bool(families)
        out.members[key] = tally_of(problem, member, recipe, key in out.shims)
        say += [f"{wall.name} {member.name}: {line}" for line in mine]
    if not any(channelled):
        edge = _plates(wall, plane, say) or edge
    for on, what, minutes in (
        (edge, "plate edge", prices.plate_edge),
        (tapers, "first taper", prices.taper_first - prices.taper_next),
        (shoring, "shoring", prices.shoring),
    ):
        if on:
            out.shared[f"{wall.name} {what}"] = Tally(minutes)
    for n, term in enumerate(wall.terms):
        _term(wall, plane, term, f"{wall.name} {n} {term.name}", out)
    if flat and problem.flatness:
        for row in broken_rows(lines_of(wall), residuals, problem.flatness, back):
            spots = ", ".join(
                f"{wall.members[i].name} at {wall.heights[h]}" for (i, h), _ in row.coefficients
            )
            say.append(f"wall {wall.name}: gap {row.gap + row.over} over {row.gap} by {spots}")


def _plates(wall: WallProblem, plane: Plane, say: list[str]) -> bool:
    """Whether a plate edge is cut [contract 9]."""
    cut = False
    for spot in wall.plates:
        over = spot.offset - target(wall, plane, spot.along, spot.height, spot.flange)
        over -= ZERO if spot.flange else BAND
        if over > 0:
            cut = True
            if over > spot.cut:
                say.append(f"{wall.name} plate {spot.name}: {over} to cut, at most {spot.cut}")
    return cut


def _term(wall: WallProblem, plane: Plane, term: StepTerm, what: str, out: Priced) -> None:
    """A step term: free, bought or broken [contract 10]."""
    zone = [z for z, flange in zip(wall.heights, wall.flange, strict=True) if flange]
    low_down = bool(zone) and term.height <= max(zone)
    v = target(wall, plane, term.along, term.height, low_down)
    if not _outside(v, term.low, term.high):
        return
    if term.minutes is None:
        out.violations.append(f"{what}: {v} not in {term.low}..{term.high}")
        return
    out.shared[what] = Tally(term.minutes, term.dollars)
    if _outside(v, term.hard_low, term.hard_high):
        out.violations.append(f"{what}: {v} not in {term.hard_low}..{term.hard_high}, where it can be bought")


def verify(problem: FramingProblem, plan: FramingPlan) -> list[str]:
    """Hold a plan against the contract: every rule, every figure, the cost and the bound.

    Returns
    -------
    list of str
        What is wrong, one line each; empty when the plan is allowed and its figures are right. An answer
        without a plan (``none``; ``open`` with no plan found in time) has no figures to hold.
    """
    if plan.state == "none" or (plan.state == "open" and plan.cost is None):
        return [] if plan.cost is None and not plan.members else [f"state {plan.state} with a plan"]
    recipes = {(m.wall, m.name): m.recipe for m in plan.members}
    wanted = {(w.name, m.name) for w in problem.walls for m in w.members}
    wrong = [f"{key}: no recipe" for key in sorted(wanted - set(recipes))]
    wrong += [f"{key}: not in the problem" for key in sorted(set(recipes) - wanted)]
    if wrong or len(plan.members) != len(wanted):
        return wrong or ["a member planned twice"]
    got = price(problem, plan.planes, recipes)
    wrong += got.violations
    offsets = {(w.name, m.name): m.offsets for w in problem.walls for m in w.members}
    for m in plan.members:
        key = (m.wall, m.name)
        if key not in got.faces:
            continue
        for what, said, is_ in (
            ("offsets", m.offsets, offsets[key]),
            ("targets", m.target, got.targets[key]),
            ("faces", m.finished, got.faces[key]),
            ("flange shim", m.recipe.flange_shim, key in got.shims),
            ("minutes", m.minutes, got.members[key].minutes),
            ("dollars", m.dollars, got.members[key].dollars),
        ):
            if said != is_:
                wrong.append(f"{m.wall} {m.name}: {what} {said}, by the contract {is_}")
    shared = sum((t.minutes for t in got.shared.values()), ZERO)
    dollars = sum((t.dollars for t in got.shared.values()), ZERO)
    for what, said_sum, is_sum in (
        ("minutes of the charges", sum((c.minutes for c in plan.charges), ZERO), shared),
        ("dollars of the charges", sum((c.dollars for c in plan.charges), ZERO), dollars),
        ("dollars", plan.dollars, got.dollars),
        ("cost", plan.cost, got.cost),
    ):
        if said_sum != is_sum:
            wrong.append(f"{what} {said_sum}, by the contract {is_sum}")
    if plan.minutes not in {got.minutes, got.minutes * problem.prices.factor}:
        wrong.append(f"minutes {plan.minutes}, by the contract {got.minutes}")
    if plan.state == "proved" and plan.bound != plan.cost:
        wrong.append(f"proved, with bound {plan.bound} and cost {plan.cost}")
    if plan.bound is None or (plan.cost is not None and plan.bound > plan.cost):
        wrong.append(f"bound {plan.bound} beside cost {plan.cost}")
    return wrong
