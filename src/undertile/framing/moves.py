"""What moving a plane does: its price at once, the room planned again around it, and how steady a plan is.

``Planner`` keeps a problem made ready, so that a wall dragged by a step is priced from the same tables that
proved the plan.
"""

from __future__ import annotations

import random
import time
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from typing import Any

from undertile.framing.frame import WallFrame
from undertile.framing.option import FAR, Option
from undertile.framing.plan import FramingPlan, MemberPlan, Plane
from undertile.framing.problem import SIXTEENTH, Demand, FramingProblem, WallProblem
from undertile.framing.search import Bench, search
from undertile.framing.settle import settle

Each = Callable[[Callable[[Any], Any], Sequence[Any]], Iterable[Any]]
"""Like ``map`` over a list: in turn, or over processes."""

SPARE = Fraction(1, 64)
"""A face that leaves its band by no more than this still counts as lying right. [in]"""


@dataclass(frozen=True)
class Price:
    """What a room costs with every plane given.

    Attributes
    ----------
    cost : Fraction or None
        Dollars; None when some stud cannot be brought to its plane.
    stuck : tuple of str
        Members, terms or plates that cannot be brought there.
    broken : tuple of (code, value, low, high)
        Demands that do not hold there. [in]
    straight : bool
        Whether the cheapest treatments also pass the straightedge; when not, the price is a lower bound.
    """

    cost: Fraction | None
    stuck: tuple[str, ...]
    broken: tuple[tuple[str, Fraction, Fraction | None, Fraction | None], ...]
    straight: bool


@dataclass(frozen=True)
class Step:
    """One plane moved by a step.

    Attributes
    ----------
    wall : str
    by : Fraction
        Plus = toward the room. [in]
    alone : Price
        Every other plane where it was.
    around : FramingPlan or None
        The room planned again around it; None when not asked for.
    changed : tuple of str
        Members whose treatment differs in ``around``.
    """

    wall: str
    by: Fraction
    alone: Price
    around: FramingPlan | None
    changed: tuple[str, ...] = ()


class Planner:
    """A problem made ready to be planned, priced and planned again.

    Parameters
    ----------
    problem : FramingProblem
    """

    def __init__(self, problem: FramingProblem) -> None:
        self.problem = problem
        self.bench = Bench.of(problem)
        self._demands = {demand.code: demand for demand in problem.demands}

    def plan(
        self,
        held: Mapping[str, Plane] | None = None,
        *,
        time_limit_s: float | None = None,
        clock: Callable[[], float] = time.monotonic,
    ) -> FramingPlan:
        """The least plan with some planes held.

        Parameters
        ----------
        held : mapping of wall to Plane, optional
        time_limit_s : float, optional
            [s]
        clock : callable
            Seconds.

        Raises
        ------
        PlanError
            If a held plane has a lean that is not offered.
        """
        end = None if time_limit_s is None else clock() + time_limit_s
        return search(self.bench, lambda nodes, _: end is not None and nodes % 8 == 0 and clock() > end, held)

    def price(self, planes: Mapping[str, Plane]) -> Price:
        """What the room costs with every plane given, at once.

        Parameters
        ----------
        planes : mapping of wall to Plane
            One for each wall of the problem; its lean must be one of the wall's.
        """
        total = 0
        stuck: list[str] = []
        straight = True
        for wall in self.problem.walls:
            plane = planes[wall.name]
            frame = self._frame(plane)
            cost, picks, missing = cheapest_at(frame, plane)
            stuck += missing
            if picks is None:
                continue
            total += cost
            ends = tuple(plane.at(along, frame.pivot) * frame.unit for along in frame.stations)
            _, row = settle(frame, picks, (ends[0], ends[1]), {})
            straight = straight and row is None
        broken = []
        for demand in self.problem.demands:
            value = demand_value(demand, planes)
            if (demand.low is not None and value < demand.low) or (
                demand.high is not None and value > demand.high
            ):
                broken.append((demand.code, value, demand.low, demand.high))
        cost_in_dollars = None if stuck else self.bench.money.dollars(total)
        return Price(cost_in_dollars, tuple(stuck), tuple(broken), straight)

    def _frame(self, plane: Plane) -> WallFrame:
        for frame in self.bench.frames[plane.wall]:
            if frame.lean == plane.lean:
                return frame
        raise KeyError(f"wall {plane.wall} is not offered the lean {plane.lean}")

    def steps(
        self,
        plan: FramingPlan,
        by: Fraction = SIXTEENTH,
        *,
        around: bool = True,
        time_limit_s: float | None = 10.0,
        each: Each | None = None,
    ) -> tuple[Step, ...]:
        """Each plane moved a step either way: the price alone, and the room planned again around it.

        Parameters
        ----------
        plan : FramingPlan
            A plan of this problem with planes.
        by : Fraction
            [in]
        around : bool
            Whether to plan again around each.
        time_limit_s : float, optional
            For each planning. [s]
        each : callable, optional
            Like ``map``, for the plannings: they need nothing of each other, so a caller may share them out
            over processes. None = one after the other, from the tables of this planner.

        Returns
        -------
        tuple of Step
        """
        moves = [
            (name, amount, replace(plane, offset=plane.offset + amount))
            for name, plane in plan.planes.items()
            for amount in (-by, by)
        ]
        plans: list[FramingPlan | None] = [None] * len(moves)
        if around and each is None:
            plans = [self.plan({name: moved}, time_limit_s=time_limit_s) for name, _, moved in moves]
        elif around and each is not None:
            tasks = [(self.problem, {name: moved}, time_limit_s) for name, _, moved in moves]
            plans = list(each(_planned_around, tasks))
        out = []
        before = {m.name: m.recipe for m in plan.members}
        for (name, amount, moved), again in zip(moves, plans, strict=True):
            alone = self.price({**plan.planes, name: moved})
            changed: tuple[str, ...] = ()
            if again is not None and again.members:
                changed = tuple(m.name for m in again.members if m.recipe != before[m.name])
            out.append(Step(name, amount, alone, again, changed))
        return tuple(out)


def _planned_around(task: tuple[FramingProblem, Mapping[str, Plane], float | None]) -> FramingPlan:
    """A room planned again with some planes held."""
    problem, held, limit = task
    return Planner(problem).plan(held, time_limit_s=limit)


def cheapest_at(frame: WallFrame, plane: Plane) -> tuple[int, tuple[Option, ...] | None, list[str]]:
    """The cheapest stacks of a wall with its plane given: cost, picks (None when stuck), what is stuck."""
    unit = frame.unit
    spots = frame.spots
    places = [plane.at(spot.along, frame.pivot) * unit for spot in spots]
    best: tuple[int, tuple[Option, ...]] | None = None
    stuck: set[str] | None = None
    for mask in frame.masks():
        total = frame.charge(mask)
        picks = []
        missing = set()
        for i, t in enumerate(places):
            found = _cheapest(frame, i, mask, t)
            if found is None:
                missing.add(spots[i].name)
            else:
                total += found.cost
                picks.append(found)
        if missing:
            stuck = missing if stuck is None else stuck & missing
        elif best is None or total < best[0]:
            best = (total, tuple(picks))
    if best is None:
        return 0, None, sorted(stuck or {frame.wall.name})
    return best[0], best[1], []


def _cheapest(frame: WallFrame, spot: int, mask: int, t: Fraction) -> Option | None:
    """The cheapest stack of one spot at exactly one T. [units]"""
    table = frame.table(spot, mask)
    eps = 1e-9 * frame.unit
    low, high = float(t) - eps, float(t) + eps
    out: frozenset[int] = frozenset()
    while True:
        cost, pick = table.query(low, high, mask, out)
        if pick is None:
            if cost >= FAR:
                return None
            table.expand(low, high, mask)
        elif pick.low <= t <= pick.high:
            return pick
        else:
            out |= {id(pick)}


def demand_value(demand: Demand, planes: Mapping[str, Plane]) -> Fraction:
    """A demand's value at given planes. [in]"""
    return sum((c * planes[wall].at(along, z) for wall, along, z, c in demand.parts), Fraction(0))


@dataclass(frozen=True)
class Steadiness:
    """How a plan fares when the readings are redrawn within their uncertainty.

    Attributes
    ----------
    draws : int
        Redraws of every reading.
    faces : float
        Share of all faces that still lie in their band, a 64th over at most, cut and stripped as planned.
    weakest : tuple of (member, share of its faces that left their band)
        Most first.
    looked : int
        Redraws in which the room was planned anew.
    feasible : int
        Of those, how often the same planes can still be reached with every demand met, each stud then treated
        as the redrawn wood asks.
    best : int
        Of those, how often no other planes cost less.
    regret : Fraction
        What the same planes cost more than the least, on average over the feasible. [dollars]
    seed : int
    """

    draws: int
    faces: float
    weakest: tuple[tuple[str, float], ...]
    looked: int
    feasible: int
    best: int
    regret: Fraction
    seed: int


def steadiness(
    problem: FramingProblem,
    plan: FramingPlan,
    sigmas: Mapping[str, Sequence[float]],
    *,
    draws: int = 200,
    looked: int = 8,
    seed: int = 1,
    time_limit_s: float = 5.0,
    each: Each = map,
) -> Steadiness:
    """Redraw every offset within its uncertainty and look whether the plan still stands.

    Parameters
    ----------
    problem : FramingProblem
    plan : FramingPlan
        A plan of it, with planes.
    sigmas : mapping of member name to one standard uncertainty per height
        [in]
    draws : int
        Redraws for ``faces``.
    looked : int
        How many of them are planned anew, at the same planes and at any.
    seed : int
        Same seed, same answer.
    time_limit_s : float
        For each planning; a redraw that is not answered in time counts as neither feasible nor best. [s]
    each : callable
        Like ``map``, for the plannings.

    Returns
    -------
    Steadiness
    """
    rng = random.Random(seed)
    walls = {wall.name: wall for wall in problem.walls}
    off: dict[str, int] = {m.name: 0 for m in plan.members}
    count = sum(len(m.heights) for m in plan.members)
    tasks = []
    for draw in range(draws):
        moved = {
            m.name: [Fraction(round(rng.gauss(0.0, s) * 256), 256) for s in sigmas[m.name]]
            for m in plan.members
        }
        for m in plan.members:
            off[m.name] += _outside(m, walls[m.wall], moved[m.name])
        if draw < looked:
            tasks.append((_redrawn(problem, moved), plan.planes, time_limit_s))
    dearer = [more for more in each(_dearer_anew, tasks) if more is not None]
    feasible, best, regret = len(dearer), sum(more == 0 for more in dearer), sum(dearer, Fraction(0))
    shares = [(m.name, off[m.name] / draws / len(m.heights)) for m in plan.members if off[m.name]]
    shares.sort(key=lambda item: (-item[1], item[0]))
    return Steadiness(
        draws,
        1 - sum(off.values()) / draws / count,
        tuple(shares[:5]),
        min(looked, draws),
        feasible,
        best,
        regret / feasible if feasible else Fraction(0),
        seed,
    )


def _dearer_anew(task: tuple[FramingProblem, Mapping[str, Plane], float]) -> Fraction | None:
    """What the same planes cost more than the least in a redrawn room; None where they cannot be. [$]"""
    problem, planes, limit = task
    planner = Planner(problem)
    same = planner.plan(planes, time_limit_s=limit)
    if same.state != "proved" or same.cost is None:
        return None
    free = planner.plan(time_limit_s=limit)
    return None if free.state != "proved" or free.cost is None else same.cost - free.cost


def _drift(member: MemberPlan, moved: Sequence[Fraction]) -> list[Fraction]:
    """How far each face lies from where it was planned; what rides or is planed to it does not drift."""
    recipe = member.recipe
    rides = {"sister", "replace", "channel"} & set(recipe.families)
    if rides:
        return [Fraction(0)] * len(moved)
    depth = recipe.depth or (Fraction(0),) * len(moved)
    return [Fraction(0) if cut else off for off, cut in zip(moved, depth, strict=True)]


def _outside(member: MemberPlan, wall: WallProblem, moved: Sequence[Fraction]) -> int:
    """How many faces left their band by more than a 64th."""
    count = 0
    for f, g, off, flange in zip(
        member.finished, member.target, _drift(member, moved), wall.flange, strict=True
    ):
        r = f - g + off
        high = (Fraction(0) if flange else SIXTEENTH) + SPARE
        count += not -SIXTEENTH - SPARE <= r <= high
    return count


def _redrawn(problem: FramingProblem, moved: Mapping[str, Sequence[Fraction]]) -> FramingProblem:
    walls = []
    for wall in problem.walls:
        members = tuple(
            replace(m, offsets=tuple(o + d for o, d in zip(m.offsets, moved[m.name], strict=True)))
            for m in wall.members
        )
        walls.append(replace(wall, members=members))
    return replace(problem, walls=tuple(walls))
