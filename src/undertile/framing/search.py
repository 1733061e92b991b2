"""The least-work plan and its proof: walls grouped by the demands they share, each searched, then joined.

``solve`` is the one call. Demands marked ``lazy`` are looked at once the rest is solved: a plan that is
least without them and meets them is least with them; when it does not, the walls they tie are searched
together. The bound that comes with the plan is a lower bound for every plan under
``docs/methods/framing-contract.md``; ``state`` is ``proved`` when it equals the plan's cost.
"""

from __future__ import annotations

import time
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction

from undertile.errors import PlanError
from undertile.framing.answer import build_plan
from undertile.framing.bound import Group
from undertile.framing.fallback import priceless, some_plan
from undertile.framing.flatness import WallFlatness
from undertile.framing.found import Found, Outcome
from undertile.framing.frame import WallFrame
from undertile.framing.join import join, keep_markable, meets_all
from undertile.framing.option import Money
from undertile.framing.partner import Partner, Stopped
from undertile.framing.plan import FramingPlan, Plane
from undertile.framing.problem import Demand, FramingProblem, WallProblem
from undertile.framing.stacks import StockBook
from undertile.framing.units import money_scale, unit_of

Progress = Callable[[int, Fraction], None]
PROOF_SHARE = 0.75
"""Share of a time limit spent on the proof."""


@dataclass
class Bench:
    """A problem made ready to search: whole units, money, and each wall at each of its leans."""

    problem: FramingProblem
    unit: int
    money: Money
    frames: dict[str, list[WallFrame]]

    @classmethod
    def of(cls, problem: FramingProblem) -> Bench:
        """Make a problem ready.

        Raises
        ------
        PlanError
            If there is no wall, or a wall without studs or heights.
        """
        if not problem.walls:
            raise PlanError("no wall to plan: expected at least one wall with studs and readings; add one")
        for wall in problem.walls:
            if not wall.members or not wall.heights:
                raise PlanError(
                    f"wall {wall.name} has no studs or no heights read: add its studs, or leave the wall out"
                )
        unit = unit_of(problem)
        members = sum(len(wall.members) for wall in problem.walls)
        money = Money(problem.prices, money_scale(problem), members + 1)
        frames = {}
        books: dict[tuple[int, ...], StockBook] = {}
        for wall in problem.walls:
            flatness = cls.flatness_of(problem, wall)
            first, last = wall.members[0].along, wall.members[-1].along
            stations = (first, last if last > first else first + 16)
            frames[wall.name] = [
                WallFrame(problem, wall, lean, unit, money, stations, flatness, books)
                for lean in sorted(wall.leans)
            ]
        return cls(problem, unit, money, frames)

    @staticmethod
    def flatness_of(problem: FramingProblem, wall: WallProblem) -> WallFlatness:
        """The straightedge rules over one wall."""
        return WallFlatness([m.along for m in wall.members], wall.heights, problem.flatness)


def solve(
    problem: FramingProblem,
    *,
    time_limit_s: float | None = None,
    progress: Progress | None = None,
    clock: Callable[[], float] = time.monotonic,
) -> FramingPlan:
    """The least-cost plan of a framing problem, proved.

    Parameters
    ----------
    problem : FramingProblem
    time_limit_s : float, optional
        Stop after so many seconds; the answer's ``state`` is then ``open`` and its bound says how far it may
        be from the least. [s]
    progress : callable, optional
        Called now and then with (nodes looked at, bound in dollars).
    clock : callable
        Seconds; replaced in tests.

    Returns
    -------
    FramingPlan
        ``state`` ``proved``, ``open`` or ``none``.

    Raises
    ------
    PlanError
        If there is no wall, or a wall without studs.
    """
    bench = Bench.of(problem)
    start = clock()
    limit = None if time_limit_s is None else start + time_limit_s
    # a quarter of the time is kept for a plan to go on with, should the proof not be done
    end = None if time_limit_s is None else start + time_limit_s * PROOF_SHARE

    def tick(nodes: int, bound: int) -> bool:
        if nodes % 64 == 0 and progress is not None:
            progress(nodes, bench.money.dollars(bound))
        return end is not None and nodes % 8 == 0 and clock() > end

    plan = search(bench, tick)
    if plan.state != "open" or plan.planes or limit is None:
        return plan

    def late(nodes: int, _: int) -> bool:
        return nodes % 8 == 0 and clock() > limit

    def reach() -> Mapping[str, Plane]:
        return search(Bench.of(priceless(problem)), late).planes

    found = some_plan(lambda planes: search(bench, late, planes), reach, lambda: clock() < limit)
    if found is None or found.cost is None:
        return plan
    return replace(
        found, state="proved" if found.cost == plan.bound else "open", bound=plan.bound, nodes=plan.nodes
    )


def _without_leans(bench: Bench, held: Mapping[str, Plane]) -> tuple[Demand, ...]:
    """Planes put where a person wants them, as demands at height 0 (the lean is kept apart)."""
    out = []
    for name, plane in held.items():
        for along in bench.frames[name][0].stations:
            t = plane.at(along, Fraction(0))
            code = f"hold-{name}"
            out.append(Demand(code, ((name, along, Fraction(0), Fraction(1)),), t, t, f"wall {name} held"))
    return tuple(out)


def search(
    bench: Bench, tick: Callable[[int, int], bool], held: Mapping[str, Plane] | None = None
) -> FramingPlan:
    """As :func:`solve`, on a problem made ready, with some walls' planes held where they are put."""
    problem = bench.problem
    frames = dict(bench.frames)
    if held:
        problem = replace(problem, demands=(*problem.demands, *_without_leans(bench, held)))
        for name, plane in held.items():
            frames[name] = [frame for frame in bench.frames[name] if frame.lean == plane.lean]
            if not frames[name]:
                raise PlanError(f"wall {name} cannot lean {plane.lean}: it is not one of the leans offered")
    # a demand over three walls rarely binds and would tie every wall into one search: looked at last
    lazy = [d for d in problem.demands if d.lazy or len({p[0] for p in d.parts}) > 2]
    parts = _groups([wall.name for wall in problem.walls], [d for d in problem.demands if d not in lazy])
    nodes = 0

    def group_of(names: tuple[str, ...]) -> Group:
        active = [d for d in problem.demands if d not in lazy and {p[0] for p in d.parts} <= set(names)]
        return Group(names, [frames[n] for n in names], active, tick)

    if lazy and len(parts) == 2:
        paired, nodes = _pair([group_of(names) for names in parts], lazy, tick)
        if isinstance(paired, int):
            return FramingPlan("open", bound=bench.money.dollars(paired), nodes=nodes)
        if paired is not None:
            return build_plan(bench, paired, sum(found.cost for _, found in paired), nodes)
    solved: dict[tuple[str, ...], tuple[Group, Outcome]] = {}
    while True:
        for names in parts:
            if names not in solved:
                group = group_of(names)
                outcome = group.run()
                nodes += outcome.nodes
                solved[names] = (group, outcome)
        runs = [solved[names] for names in parts]
        if any(o.found is None and not o.stopped for _, o in runs):
            return FramingPlan("none", nodes=nodes)
        bound = sum((o.bound or 0) for _, o in runs)
        if any(o.stopped for _, o in runs):
            return FramingPlan("open", bound=bench.money.dollars(bound), nodes=nodes)
        pairs = [(g, o.found) for g, o in runs if o.found is not None]
        joined = join(pairs, lazy)
        if not isinstance(joined, Demand):
            return build_plan(bench, joined, bound, nodes)
        lazy.remove(joined)
        parts = _groups([wall.name for wall in problem.walls], [d for d in problem.demands if d not in lazy])
        for names in list(solved):
            if names not in parts or {p[0] for p in joined.parts} <= set(names):
                del solved[names]


def _pair(
    groups: Sequence[Group], lazy: Sequence[Demand], tick: Callable[[int, int], bool]
) -> tuple[list[tuple[Group, Found]] | int | None, int]:
    """Two groups searched under the demands that tie them, one priced by the other.

    Returns the groups' answers, or a bound when stopped, or None when this way does not settle it (the walls
    are then searched another way); and the nodes looked at.
    """
    first, second = sorted(groups, key=lambda group: -len(group.names))
    both = set(first.names), set(second.names)
    ties = [d for d in lazy if all({p[0] for p in d.parts if p[3]} & names for names in both)]
    inner = [d for d in lazy if {p[0] for p in d.parts} <= both[0]]
    beyond = [d for d in lazy if {p[0] for p in d.parts} <= both[1]]
    if not ties:
        return None, 0
    group = Group(first.names, first.frames, [*first.demands, *inner], tick)
    other = Group(second.names, second.frames, [*second.demands, *beyond], tick)
    try:
        group.partner = partner = Partner(group, other, ties, tick)
    except ValueError:
        return None, 0
    try:
        outcome = group.run()
    except Stopped:
        return group.bound_now, group.nodes + partner.nodes
    nodes = group.nodes + partner.nodes
    if outcome.stopped:
        return outcome.bound or 0, nodes
    answer = outcome.found
    if answer is None or answer.partner is None:
        return None, nodes
    own = replace(answer, cost=answer.cost - answer.partner.cost, partner=None)
    answers = [(group, own), (other, answer.partner)]
    if not meets_all(answers, lazy):
        return None, nodes
    return keep_markable(answers, lazy), nodes


def _groups(names: Sequence[str], demands: Sequence[Demand]) -> list[tuple[str, ...]]:
    """Walls tied together by demands, in the room's own order."""
    owner = {name: name for name in names}

    def root(name: str) -> str:
        while owner[name] != name:
            name = owner[name]
        return name

    for demand in demands:
        tied = [wall for wall, _, _, c in demand.parts if c]
        for other in tied[1:]:
            owner[root(other)] = root(tied[0])
    groups: dict[str, list[str]] = {}
    for name in names:
        groups.setdefault(root(name), []).append(name)
    return [tuple(group) for group in groups.values()]
