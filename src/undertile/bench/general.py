"""What the general solvers share: rows added as plans break them, and an exact word on every answer.

A solver gets a relaxation of the contract: every row as the contract has it or a little outward (each
adaptor says how much), straightedge rows only as far as they were asked for. So its bound is a bound of the
contract's. Its decisions are then given exact planes (``planes.find_planes``) and priced by the contract
(``verify.price``): that cost is attained. Where the two meet, the least cost is known: *closed*.
"""

from __future__ import annotations

import time
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from fractions import Fraction
from math import ceil
from typing import Literal

from undertile.bench.linear import Model, grain
from undertile.bench.model import Framing
from undertile.bench.planes import Decisions, find_planes
from undertile.bench.treatments import GRID
from undertile.bench.verify import Key, Priced, price
from undertile.framing.plan import FramingPlan, Piece, Plane, Recipe
from undertile.framing.problem import FramingProblem

SLACK = Fraction(1, 10**6)
"""Taken off a bound that a solver gives in floating point. [dollars]"""


@dataclass
class Reply:
    """What a solver says about one model.

    ``values``: one per variable, whole ones whole; ``None`` without a solution. ``bound``: no solution costs
    less. ``done``: the search was finished, so that no values means that there is no solution.
    """

    done: bool
    values: Sequence[float] | None
    bound: float | None


Engine = Callable[[Model, float, int], Reply]
"""(model, seconds, how often to be finer about what is let in) -> reply."""


@dataclass
class Answer:
    """What a general solver shows about a problem.

    Attributes
    ----------
    status : {"closed", "open", "none"}
        ``closed``: cost = bound. ``none``: no plan meets the contract. ``open``: bound <= least <= cost.
    cost : Fraction or None
        Of a plan that was priced exactly. [dollars]
    bound : Fraction or None
        No plan costs less. [dollars]
    rounds : int
        Models solved: straightedge rows were added in between.
    """

    solver: str
    status: Literal["closed", "open", "none"] = "open"
    cost: Fraction | None = None
    bound: Fraction | None = None
    touched: int = 0
    seconds: float = 0.0
    rounds: int = 0
    rows: int = 0
    planes: dict[str, Plane] = field(default_factory=dict)
    recipes: dict[Key, Recipe] = field(default_factory=dict)
    note: str = ""

    def against(self, plan: FramingPlan) -> str:
        """What a plan's state, cost and bound contradict here; empty when nothing.

        A proved cost must be the closed one, or lie in the bracket; *none* must not meet a plan found
        here; an open plan must not cost less than the bound here, nor be bounded above the cost found here.
        """
        if plan.state == "none":
            return "" if self.cost is None else f"none, but {self.solver} has a plan of {self.cost}"
        if self.status == "none":
            return (
                f"{plan.state}, but {self.solver} shows that there is none" if plan.cost is not None else ""
            )
        if plan.cost is not None and self.bound is not None and plan.cost < self.bound:
            return f"cost {plan.cost} below {self.solver}'s bound {self.bound}"
        if plan.bound is not None and self.cost is not None and plan.bound > self.cost:
            return f"bound {plan.bound} above {self.solver}'s plan of {self.cost}"
        return ""


def decisions(framing: Framing, values: Sequence[float]) -> Decisions:
    """What the values of the variables decide."""
    made = Decisions()
    problem = framing.problem

    def on(var: object) -> bool:
        return var is not None and round(values[var.index]) == 1  # type: ignore[attr-defined]

    for name, wall in framing.walls.items():
        made.leans[name] = next(lean for lean, v in zip(wall.problem.leans, wall.leans, strict=True) if on(v))
        if on(wall.edge):
            made.edges.add(name)
        made.bought |= {(name, n) for n, v in enumerate(wall.bought) if on(v)}
        for stud in wall.studs:
            key = (name, stud.member.name)
            if on(wall.channel):
                made.recipes[key] = Recipe(("channel",))
                continue
            families = next(each for each, v in stud.choice.items() if on(v))
            if on(stud.sister_planed):
                families = ("plane", *families)
            planed = "plane" in families
            pieces = []
            for layer in stud.pieces:
                for s, z, covers in layer:
                    if on(z):
                        run = [h for h, v in enumerate(covers) if on(v)]
                        item = problem.stock[s]
                        pieces.append(Piece(item.name, item.thickness, run[0], run[-1]))
            taper = None
            if "taper" in families and stud.taper is not None:
                foot, head = (Fraction(round(values[v.index]), 16) for v in stud.taper)
                taper = (foot, head)
            knock = None
            if "knock over" in families and stud.knock is not None:
                knock = Fraction(round(values[stud.knock.index]), 16)
            made.recipes[key] = Recipe(
                families,
                round(values[stud.passes.index]) if planed else 0,
                tuple(round(values[v.index]) * GRID for v in stud.depth) if planed else (),
                tuple(pieces),
                taper,
                knock,
            )
            made.bedded[key] = frozenset(h for h, v in stud.bed.items() if on(v))
            if on(stud.shim):
                made.shims.add(key)
    return made


def run(
    problem: FramingProblem,
    solver: str,
    engine: Engine,
    time_limit: float,
    *,
    ties: bool = False,
    finest: int = 0,
) -> Answer:
    """Least cost by a general solver, with rows added as needed, within ``time_limit`` seconds in all.

    With ``ties`` a closed answer also touches the fewest members among equals. When a solver's plan holds
    only within what its model lets in, it is asked again to be finer, up to ``finest`` times.
    """
    began = time.perf_counter()
    framing = Framing(problem, ties=ties)
    objective = framing.model.objective
    step = grain(objective)
    least: Fraction | None = None
    answer = Answer(solver)
    known: set[object] = set()
    finer = 0
    while True:
        left = time_limit - (time.perf_counter() - began)
        if left <= 0:
            break
        reply = engine(framing.model, left, finer)
        answer.rounds += 1
        if reply.values is None and reply.done:
            answer.status = "none"
            break
        if reply.bound is not None:
            steps = ceil((Fraction(reply.bound) - SLACK - objective.constant) / step)
            least = max(objective.constant + step * steps, least or Fraction(0))
            answer.bound = framing.cost_at_least(least)
        if reply.values is None:
            break
        made = decisions(framing, reply.values)
        planes, rows = find_planes(problem, made)
        if planes is not None:
            _take(answer, planes, made, price(problem, planes, made.recipes))
        if (
            answer.cost is not None
            and least is not None
            and answer.cost + answer.touched * framing.tie <= least
        ):
            answer.status, answer.bound = "closed", answer.cost
            break
        fresh = [
            (name, row)
            for name, each in rows.items()
            for row in each
            if (name, row.coefficients, row.gap, row.dries) not in known
        ]
        if not fresh and not (reply.done and finer < finest):
            if reply.done:
                answer.note = "the plan found holds only within the solver's tolerance"
            break
        if not fresh:
            finer += 1
        for name, row in fresh:
            known.add((name, row.coefficients, row.gap, row.dries))
            framing.flat(name, row)
            answer.rows += 1
    answer.seconds = time.perf_counter() - began
    return answer


def _take(answer: Answer, planes: dict[str, Plane], made: Decisions, got: Priced) -> None:
    """Keep a plan that holds exactly and costs less."""
    if got.violations:
        answer.note = got.violations[0]
        return
    if answer.cost is None or (got.cost, got.touched) < (answer.cost, answer.touched):
        answer.cost, answer.touched = got.cost, got.touched
        answer.planes, answer.recipes = planes, made.recipes
