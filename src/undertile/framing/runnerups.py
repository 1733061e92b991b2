"""Plans that lose, and why: each wall's plane a step either way, and the plan without each kind of work.

Each is itself the least plan under its one difference (or says that none was proved in the time), so "costs
$14 more" is a fact and not an impression.
"""

from __future__ import annotations

import time
from collections.abc import Callable, Iterator
from dataclasses import replace
from fractions import Fraction

from undertile.framing.listing import aside
from undertile.framing.moves import Planner
from undertile.framing.plan import FramingPlan, RunnerUp
from undertile.framing.problem import SIXTEENTH, FramingProblem, Member
from undertile.framing.say import written
from undertile.lengths import Unit
from undertile.sentence import Sentence, joined, with_first

WALLS = {"L": Sentence("left wall"), "B": Sentence("back wall"), "R": Sentence("right wall")}
STEPS: dict[Unit, Fraction] = {"in": SIXTEENTH, "mm": Fraction(10, 127)}
"""How far a plane is moved: a sixteenth, or 2 mm. [in]"""


def runner_ups(
    planner: Planner,
    plan: FramingPlan,
    unit: Unit = "in",
    own: Unit | None = None,
    *,
    time_limit_s: float = 4.0,
    most: int = 6,
    clock: Callable[[], float] = time.monotonic,
) -> tuple[RunnerUp, ...]:
    """The plans that lose, the nearest first.

    Parameters
    ----------
    planner : Planner
        Of the plan's problem.
    plan : FramingPlan
        Proved, with planes.
    unit : {"in", "mm"}
        For the words.
    own : {"in", "mm"}, optional
        The job's own unit, for the step; else ``unit``.
    time_limit_s : float
        For all of them together; what is not settled by then is left out. [s]
    most : int
        How many to give back; those that cannot be come last.
    clock : callable
        Seconds.

    Returns
    -------
    tuple of RunnerUp
    """
    if plan.cost is None:
        return ()
    end = clock() + time_limit_s

    def left() -> float:
        return end - clock()

    out = [*_moved(planner, plan, unit, own or unit, left), *_without(planner.problem, plan, left)]
    out.sort(key=lambda each: (each.more is None, each.more or Fraction(0)))
    return tuple(out[:most])


def _moved(
    planner: Planner, plan: FramingPlan, unit: Unit, own: Unit, left: Callable[[], float]
) -> Iterator[RunnerUp]:
    step = STEPS[own]
    said = written(step, unit, mark=True)
    for name, plane in plan.planes.items():
        for by in (-step, step):
            if left() <= 0:
                return
            what = Sentence(
                "{wall} {by} into the room" if by > 0 else "{wall} {by} back", wall=WALLS[name], by=said
            )
            again = planner.plan({name: replace(plane, offset=plane.offset + by)}, time_limit_s=left())
            if again.state == "none":
                price = planner.price({**plan.planes, name: replace(plane, offset=plane.offset + by)})
                reason = _what_stops(planner.problem, price.stuck, tuple(code for code, *_ in price.broken))
                yield RunnerUp(what, None, None, reason)
            elif again.state == "proved" and again.cost is not None and plan.cost is not None:
                yield RunnerUp(what, again.cost, again.cost - plan.cost, _difference(plan, again))


def _what_stops(problem: FramingProblem, stuck: tuple[str, ...], broken: tuple[str, ...]) -> str:
    """What is in the way, in the words of the trade: no code, no bare name of a thing."""
    terms = {term.name: term.why for wall in problem.walls for term in wall.terms}
    in_way = [name for name in stuck if terms.get(name)]
    if in_way:
        named: str = in_way[0]
        if len(in_way) > 1:
            named = Sentence("{first} (and {others})", first=in_way[0], others=joined(in_way[1:]))
        return Sentence("{what} is in the way: {why}", what=named, why=terms[in_way[0]])
    if stuck:
        return Sentence("nothing offered brings {studs} there", studs=joined(stuck))
    if broken:
        titles = {demand.code: demand.title for demand in problem.demands}
        every = dict.fromkeys(titles.get(code) or Sentence("a plane that is held") for code in broken)
        return Sentence(
            "would not hold, and no other plane mends it: {demands}",
            demands=joined((with_first(title, "lower") for title in every), "{first}; {then}"),
        )
    return Sentence("no treatment there passes the straightedge")


CHARGES = {
    "shoring": Sentence("shoring"),
    "plate edge": Sentence("plate edge"),
    "channel": Sentence("channel"),
    "first taper": Sentence("first taper"),
    "verify": Sentence("verify"),
}
"""What is paid once a wall, as it is called; what mends a term has its own words."""


def _difference(plan: FramingPlan, other: FramingPlan) -> str:
    """What the other plan does differently, in minutes a stud."""
    before = {m.name: m for m in plan.members}
    worse: list[tuple[Fraction, str]] = []
    better: list[tuple[Fraction, str]] = []
    for m in other.members:
        more = m.minutes - before[m.name].minutes
        slots = {"stud": m.name, "now": _minutes(m.minutes), "then": _minutes(before[m.name].minutes)}
        if more > 0:
            worse.append((more, Sentence("{stud} {now} min for {then}", **slots)))
        elif more < 0:
            better.append((more, Sentence("{stud} {now} for {then}", **slots)))
    paid = {(c.wall, c.what) for c in plan.charges}
    extra = list(dict.fromkeys(c.what for c in other.charges if (c.wall, c.what) not in paid))
    parts: list[str] = []
    if worse:
        worse.sort(key=lambda item: -item[0])
        most = joined(text for _, text in worse[:3])
        if len(worse) > 3:
            most = Sentence("{most} and {number} more", most=most, number=len(worse) - 3)
        parts.append(Sentence("more work: {studs}", studs=most))
    if extra:
        parts.append(Sentence("besides: {work}", work=joined(CHARGES.get(what, what) for what in extra)))
    if better:
        better.sort()
        parts.append(Sentence("less: {studs}", studs=joined(text for _, text in better[:3])))
    return joined(parts, "{first}; {then}") or Sentence("the same minutes in dearer stuff")


def _minutes(value: Fraction) -> str:
    """Minutes as whole and half."""
    whole, part = divmod(value, 1)
    return f"{whole}" + ("-1/2" if part else "")


def _without(problem: FramingProblem, plan: FramingPlan, left: Callable[[], float]) -> Iterator[RunnerUp]:
    """The least plan without each kind of work that the plan uses."""
    used = {family for m in plan.members for family in m.recipe.families}
    reset = all(m.recipe.reset for m in plan.members if "replace" in m.recipe.families)
    for family in ("plane", "strip", "taper", "sister", "replace"):
        if family not in used or plan.cost is None or left() <= 0:
            continue
        walls = tuple(
            replace(wall, members=tuple(_kept_from(m, family) for m in wall.members))
            for wall in problem.walls
        )
        with aside():
            again = Planner(replace(problem, walls=walls)).plan(time_limit_s=left())
        what = {
            "plane": Sentence("no planing"),
            "strip": Sentence("no strips"),
            "taper": Sentence("no tapers"),
            "sister": Sentence("no sisters"),
        }.get(family, Sentence("no stud re-set" if reset else "no stud replaced"))
        if again.state == "none":
            yield RunnerUp(what, None, None, Sentence("some stud has nothing left that brings it there"))
        elif again.state == "proved" and again.cost is not None:
            yield RunnerUp(what, again.cost, again.cost - plan.cost, _difference(plan, again))


def _kept_from(member: Member, family: str) -> Member:
    """The same member with one kind of work not offered."""
    if family == "plane":
        none = (Fraction(0),) * len(member.offsets)
        return replace(member, plane_depth=none, plane_depth_sistered=none)
    if family == "strip":
        return replace(member, stock=())
    if family == "taper":
        return replace(member, taper=False)
    if family == "sister":
        return replace(member, sister=None)
    return replace(member, replace=None)
