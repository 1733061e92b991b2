"""Whether any plan exists, asked many times of one room with different things let go.

The same search as ``search.solve`` with every minute and dollar at nothing. Walls that do not differ between
two questions are made ready once.
"""

from __future__ import annotations

import time
from collections.abc import Callable, Mapping
from dataclasses import replace
from fractions import Fraction
from itertools import combinations

from undertile.errors import PlanError
from undertile.framing.fallback import priceless
from undertile.framing.frame import CHANNEL, WallFrame
from undertile.framing.listing import LimitKey, Listing
from undertile.framing.loosen import (
    Item,
    Rules,
    Spec,
    items_of,
    loosened,
    loosened_demands,
    loosened_rules,
    loosened_wall,
)
from undertile.framing.option import Money
from undertile.framing.outline import Outline
from undertile.framing.plan import FramingPlan, Plane
from undertile.framing.problem import FramingProblem, Member, StockItem, WallProblem
from undertile.framing.say import STEP
from undertile.framing.search import Bench, search
from undertile.framing.stacks import StockBook
from undertile.framing.tables import FixedTable, Table
from undertile.framing.units import unit_of
from undertile.lengths import Unit

TURN_SHARE = 0.1
"""Most of the whole time that one question may take; longer and its answer is not known."""

Asked = frozenset[tuple[Item, Fraction | None]]


class _FreeFrame(WallFrame):
    """A wall where charges cost nothing: the widest set of them stands for all."""

    def masks(self) -> list[int]:
        every = super().masks()
        widest = max(mask for mask in every if not mask & CHANNEL)
        return [widest, *(mask for mask in every if mask & CHANNEL)]

    def _make(self, spot: int, mask: int, limits: LimitKey) -> Table | FixedTable:
        if spot < len(self.shapes) and not mask & CHANNEL:
            return Table(Listing(self.shapes[spot], [m for m in super().masks() if not m & CHANNEL], limits))
        return super()._make(spot, mask, limits)


class Trial:
    """A room, asked whether it can be done with some things let go, loosened or moved.

    Parameters
    ----------
    problem : FramingProblem
    unit : {"in", "mm"}
        The job's unit: what is loosened goes in its steps.
    time_limit_s : float
        For all questions together. [s]
    clock : callable
        Seconds.

    Raises
    ------
    PlanError
        If there is no wall, or a wall without studs.
    """

    def __init__(
        self,
        problem: FramingProblem,
        unit: Unit = "in",
        time_limit_s: float = 10.0,
        clock: Callable[[], float] = time.monotonic,
    ) -> None:
        if not problem.walls or not all(wall.members and wall.heights for wall in problem.walls):
            raise PlanError("a wall without studs or readings cannot be planned: read two heights a stud")
        self.problem = priceless(problem)
        self.clock = clock
        self.end = clock() + time_limit_s
        self.turn = time_limit_s * TURN_SHARE
        self.questions = 0
        widest = loosened(self.problem, {i: None for i in items_of(problem) if i.kind == "lean"})
        # with it a loosened length is whole in the unit too
        step = StockItem("step", STEP[unit])
        self.unit = unit_of(replace(widest, stock=(*widest.stock, step)))
        self.money = Money(self.problem.prices, 1, sum(len(wall.members) for wall in problem.walls) + 1)
        self._known: dict[Asked, bool | None] = {}
        self._frames: dict[object, list[WallFrame]] = {}
        self._books: dict[tuple[int, ...], StockBook] = {}

    @property
    def late(self) -> bool:
        """Whether the time is up."""
        return self.clock() > self.end

    def possible(self, spec: Spec) -> bool | None:
        """Whether a plan exists with these let go, loosened or moved; None = not known in the time."""
        asked = frozenset(spec.items())
        if asked in self._known:
            return self._known[asked]
        answer = self._from_others(asked)
        if answer is None and not self.late:
            answer = self._known[asked] = self._ask(spec)
        return answer

    def _ask(self, spec: Spec) -> bool | None:
        """Straight lines first: they often say no at once; where every stud may ride its plane, yes."""
        self.questions += 1
        bench = self._bench(spec)
        outlines = [
            Outline(bench.problem.walls, bench.problem.demands, each) for each in _ways(bench.problem)
        ]
        rough = [(outline, planes) for outline in outlines if (planes := outline.planes()) is not None]
        if not rough:
            return False
        if all(_rides(m) for wall in bench.problem.walls for m in wall.members):
            for outline, at in rough:
                for wanted in (dict.fromkeys(at, Fraction(0)), {w: plane.lean for w, plane in at.items()}):
                    leans = {w.name: _nearest(w.leans, wanted[w.name]) for w in bench.problem.walls}
                    planes = outline.planes(leans)
                    if planes is not None and self._search(bench, planes).planes:
                        return True
        plan = self._search(bench)
        return None if plan.state == "open" and not plan.planes else bool(plan.planes)

    def _from_others(self, asked: Asked) -> bool | None:
        """What follows from an answer already had: whoever lets go of more has no less."""
        if any(amount is not None for _, amount in asked):
            return None
        for known, answer in self._known.items():
            if answer and known <= asked:
                return True
            if answer is False and known >= asked and all(amount is None for _, amount in known):
                return False
        return None

    def plan(self, spec: Spec) -> FramingPlan:
        """Some plan with these let go, loosened or moved (state ``open`` and no planes: not known)."""
        self.questions += 1
        return self._search(self._bench(spec))

    def _search(self, bench: Bench, held: Mapping[str, Plane] | None = None) -> FramingPlan:
        limit = min(self.end, self.clock() + self.turn)
        return search(bench, lambda nodes, _: nodes % 8 == 0 and self.clock() > limit, held)

    def _bench(self, spec: Spec) -> Bench:
        """The room with these let go, made ready; walls that were asked about before are taken over."""
        rules = loosened_rules(self.problem.flatness, spec)
        walls, frames = [], {}
        for wall in self.problem.walls:
            own = {item: amount for item, amount in spec.items() if item.wall == wall.name}
            key = (wall.name, frozenset(own.items()), rules)
            found = self._frames.get(key)
            if found is None:
                found = self._frames[key] = self._made(loosened_wall(wall, own), rules)
            walls.append(found[0].wall)
            frames[wall.name] = found
        demands = loosened_demands(self.problem.demands, spec)
        problem = replace(self.problem, walls=tuple(walls), demands=demands, flatness=rules)
        return Bench(problem, self.unit, self.money, frames)

    def _made(self, wall: WallProblem, rules: Rules) -> list[WallFrame]:
        problem = replace(self.problem, flatness=rules)
        flatness = Bench.flatness_of(problem, wall)
        first, last = wall.members[0].along, wall.members[-1].along
        stations = (first, last if last > first else first + 16)
        return [
            _FreeFrame(problem, wall, lean, self.unit, self.money, stations, flatness, self._books)
            for lean in sorted(wall.leans)
        ]


def _ways(problem: FramingProblem) -> list[tuple[str, ...]]:
    """Every choice of walls to be channelled, none first."""
    offered = [wall.name for wall in problem.walls if wall.channel is not None]
    return [each for count in range(len(offered) + 1) for each in combinations(offered, count)]


def _nearest(leans: tuple[Fraction, ...], wanted: Fraction) -> Fraction:
    return min(leans, key=lambda lean: abs(lean - wanted))


def _rides(member: Member) -> bool:
    """Whether it may be replaced, so that its face is the plane wherever that is."""
    if member.held not in (None, "replace") or (member.must and "replace" not in member.must):
        return False
    return member.replace is not None


def feasible(problem: FramingProblem, time_limit_s: float = 10.0) -> bool | None:
    """Whether any plan meets everything asked, whatever it costs.

    Parameters
    ----------
    problem : FramingProblem
    time_limit_s : float
        [s]

    Returns
    -------
    bool or None
        None = not known in the time.

    Raises
    ------
    PlanError
        If there is no wall, or a wall without studs.
    """
    return Trial(problem, time_limit_s=time_limit_s / TURN_SHARE).possible({})
