"""How fast the planner proves a room, beside general solvers on one core each.

Every room is planned with its proof, then given whole to HiGHS and CP-SAT with the same rules (``model``),
in one run. A peer that does not close in its time limit counts at the limit, so its ratio is a lower bound;
the closed are counted. ``equal`` says whether every closed peer came to the very same cost, and every open
one brackets it.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import replace
from statistics import median
from time import perf_counter
from typing import Any

from undertile.bench.rooms import room
from undertile.framing.moves import Planner
from undertile.framing.problem import SIXTEENTH, FramingProblem
from undertile.framing.search import solve

SEED = 9000
"""Rooms are ``room(SEED + i, studs=...)``: none of them was used while the search was tuned."""

Row = dict[str, Any]
Peer = Callable[[FramingProblem, float], Any]


def _peers() -> dict[str, Peer]:
    from undertile.bench import cpsat, milp

    return {
        "HiGHS": lambda problem, limit: milp.solve(problem, time_limit=limit),
        "CP-SAT": lambda problem, limit: cpsat.solve(problem, time_limit=limit),
    }


def plan_cases(size: int, rooms: int, limit_s: float) -> Iterator[Row]:
    """Plan with proof against each general solver on the same rooms.

    Parameters
    ----------
    size : int
        Studs a room.
    rooms : int
    limit_s : float
        For one room and solver. [s]
    """
    problems = [room(SEED + i, studs=size) for i in range(rooms)]
    ours = []
    for problem in problems:
        start = perf_counter()
        plan = solve(problem, time_limit_s=limit_s)
        ours.append((plan, perf_counter() - start))
    for name, peer in _peers().items():
        ratios, seconds, closed, right = [], [], 0, True
        for problem, (plan, own) in zip(problems, ours, strict=True):
            start = perf_counter()
            answer = peer(problem, limit_s)
            took = perf_counter() - start
            seconds.append(took)
            ratios.append(took / own)
            if answer.status == "open":
                right &= _brackets(plan, answer)
            else:
                closed += 1
                right &= (
                    plan.state != "open" and (plan.cost if plan.cost is not None else None) == answer.cost
                )
        yield {
            "name": "plan with proof",
            "size": f"{size} studs x 6 heights",
            "rooms": rooms,
            "proved": sum(plan.state != "open" for plan, _ in ours),
            "seconds": median(t for _, t in ours),
            "seconds_worst": max(t for _, t in ours),
            "peer": name,
            "peer_seconds": median(seconds),
            "peer_closed": closed,
            "peer_limit": limit_s,
            "ratio": median(ratios),
            "equal": right,
        }


def _brackets(plan: Any, answer: Any) -> bool:
    if plan.cost is None:
        return plan.state != "none" or answer.cost is None
    return (answer.bound is None or answer.bound <= plan.cost) and (
        answer.cost is None or plan.bound <= answer.cost
    )


def alone(size: int, rooms: int, limit_s: float) -> Row:
    """Plan with proof on many rooms, no peer: median and worst."""
    times, proved = [], 0
    for i in range(rooms):
        problem = room(SEED + i, studs=size)
        start = perf_counter()
        proved += solve(problem, time_limit_s=limit_s).state != "open"
        times.append(perf_counter() - start)
    times.sort()
    return {
        "name": "plan with proof, many rooms",
        "size": f"{size} studs x 6 heights",
        "rooms": rooms,
        "proved": proved,
        "seconds": median(times),
        "seconds_p95": times[min(len(times) - 1, int(len(times) * 0.95))],
        "seconds_worst": times[-1],
        "peer": None,
        "peer_seconds": None,
        "ratio": None,
        "equal": None,
    }


def moves(size: int, rooms: int) -> Iterator[Row]:
    """A wall moved a step: its price, and the room planned again around it, beside planning from nothing."""
    prices, around, fresh, equal = [], [], [], True
    for i in range(rooms):
        problem = room(SEED + i, studs=size)
        planner = Planner(problem)
        start = perf_counter()
        plan = planner.plan(time_limit_s=20)
        whole = perf_counter() - start
        if plan.state != "proved":
            continue
        for name, plane in plan.planes.items():
            moved = replace(plane, offset=plane.offset + SIXTEENTH)
            planes = {**plan.planes, name: moved}
            planner.price(planes)  # what lies under a new place is listed once
            start = perf_counter()
            price = planner.price(planes)
            prices.append(perf_counter() - start)
            start = perf_counter()
            again = planner.plan({name: moved}, time_limit_s=20)
            around.append(perf_counter() - start)
            fresh.append(whole)
            if again.cost is not None and plan.cost is not None:
                equal &= again.state == "open" or again.cost >= plan.cost
            if price.cost is not None and not price.broken and again.state == "proved" and price.straight:
                equal &= again.cost is not None and again.cost <= price.cost
    for what, times in (("moved wall, price", prices), ("moved wall, planned again", around)):
        times.sort()
        yield {
            "name": what,
            "size": f"{size} studs x 6 heights",
            "rooms": rooms,
            "seconds": median(times),
            "seconds_worst": times[-1],
            "peer": "planned from nothing",
            "peer_seconds": median(fresh),
            "ratio": median(fresh) / median(times),
            "equal": equal,
        }
