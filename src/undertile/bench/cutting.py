"""How fast the cut list is found with its proof, beside general solvers given the same boards and pieces.

The peers get the textbook model: how many of each length on each board, a board opened or not, boards of one
kind opened in order. A peer that does not close in its limit counts at the limit: its ratio is a lower bound.
"""

from __future__ import annotations

import random
from collections import Counter
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from statistics import median
from time import perf_counter
from typing import Any

from undertile.cutting.packing import BoardKind
from undertile.cutting.solve import pack
from undertile.errors import UndertileError

SEED = 7000
KERF = 2
"""[1/16 in]"""
SIZES = (30, 200)
"""Strips of a bathroom, and of a floor of them."""

Job = tuple[tuple[BoardKind, ...], list[int]]


@dataclass(frozen=True)
class Reply:
    """What a peer came to: cost and bound, equal when closed; None where there is none."""

    closed: bool
    cost: int | None
    bound: float


def job(seed: int, pieces: int) -> Job:
    """Strips over runs of a wall's heights and some odd ones, 8 ft boards, up to four offcuts. [1/16 in]"""
    rng = random.Random(seed)
    ends = sorted({24, *(rng.randrange(120, 1400, 8) for _ in range(5)), 1512})
    runs = [b - a for a in ends for b in ends if b - a >= 96]
    strips = [rng.choice(runs) if rng.random() < 0.95 else rng.randint(96, 1488) for _ in range(pieces)]
    offcuts = [BoardKind(rng.randint(160, 1400) + KERF, 0, 1) for _ in range(rng.randint(0, 4))]
    return (BoardKind(1536 + KERF, 1), *offcuts), [strip + KERF for strip in strips]


def _boards(kinds: Sequence[BoardKind], pieces: Sequence[int], most: int) -> list[tuple[BoardKind, bool]]:
    """Boards a peer may open, and whether the one before is of the same kind."""
    return [
        (kind, at > 0)
        for kind in kinds
        for at in range(kind.count if kind.count is not None else min(len(pieces), most // kind.cost))
    ]


def by_cpsat(kinds: Sequence[BoardKind], pieces: Sequence[int], most: int, limit_s: float) -> Reply:
    """CP-SAT on one core; ``most`` is a cost that is enough."""
    try:
        from ortools.sat.python import cp_model
    except ImportError as error:
        raise UndertileError("CP-SAT is not here: pip install ortools, or leave this peer out") from error
    wanted = sorted(Counter(pieces).items(), reverse=True)
    cp = cp_model.CpModel()
    opened: list[Any] = []
    taken: list[list[Any]] = []
    boards = _boards(kinds, pieces, most)
    for kind, again in boards:
        opened.append(cp.new_bool_var(""))
        taken.append([cp.new_int_var(0, min(many, kind.size // size), "") for size, many in wanted])
        used = cp_model.LinearExpr.weighted_sum(taken[-1], [size for size, _ in wanted])
        cp.add(used <= kind.size * opened[-1])
        if again:
            cp.add(opened[-2] >= opened[-1])
    for i, (_, many) in enumerate(wanted):
        cp.add(sum(row[i] for row in taken) == many)
    cp.minimize(cp_model.LinearExpr.weighted_sum(opened, [kind.cost for kind, _ in boards]))
    solver = cp_model.CpSolver()
    solver.parameters.num_workers = 1
    solver.parameters.max_time_in_seconds = limit_s
    status = solver.solve(cp)
    found = status in (cp_model.OPTIMAL, cp_model.FEASIBLE)
    return Reply(
        status == cp_model.OPTIMAL,
        round(solver.objective_value) if found else None,
        solver.best_objective_bound,
    )


def by_highs(kinds: Sequence[BoardKind], pieces: Sequence[int], most: int, limit_s: float) -> Reply:
    """HiGHS on one core; ``most`` is a cost that is enough."""
    try:
        import highspy
        import numpy as np
    except ImportError as error:
        raise UndertileError(
            "HiGHS is not here: pip install highspy numpy, or leave this peer out"
        ) from error
    wanted = sorted(Counter(pieces).items(), reverse=True)
    boards = _boards(kinds, pieces, most)
    wide = len(wanted) + 1  # columns of a board: opened, then how many of each length
    inf = highspy.kHighsInf
    rows: list[tuple[float, float, list[int], list[float]]] = []
    for b, (kind, again) in enumerate(boards):
        columns = [b * wide, *range(b * wide + 1, (b + 1) * wide)]
        rows.append((-inf, 0.0, columns, [-float(kind.size), *(float(size) for size, _ in wanted)]))
        if again:
            rows.append((-inf, 0.0, [b * wide, (b - 1) * wide], [1.0, -1.0]))
    for i, (_, many) in enumerate(wanted, 1):
        columns = [b * wide + i for b in range(len(boards))]
        rows.append((float(many), float(many), columns, [1.0] * len(boards)))
    lp = highspy.HighsLp()
    lp.num_col_, lp.num_row_ = wide * len(boards), len(rows)
    cost, upper = np.zeros(lp.num_col_), np.ones(lp.num_col_)
    for b, (kind, _) in enumerate(boards):
        cost[b * wide] = kind.cost
        upper[b * wide + 1 : (b + 1) * wide] = [min(many, kind.size // size) for size, many in wanted]
    lp.col_cost_, lp.col_lower_, lp.col_upper_ = cost, np.zeros(lp.num_col_), upper
    lp.row_lower_ = np.array([low for low, *_ in rows])
    lp.row_upper_ = np.array([high for _, high, *_ in rows])
    lp.a_matrix_.format_ = highspy.MatrixFormat.kRowwise
    lp.a_matrix_.start_ = np.cumsum([0, *(len(columns) for _, _, columns, _ in rows)])
    lp.a_matrix_.index_ = np.concatenate([columns for _, _, columns, _ in rows])
    lp.a_matrix_.value_ = np.concatenate([values for *_, values in rows])
    lp.integrality_ = [highspy.HighsVarType.kInteger] * lp.num_col_
    solver = highspy.Highs()  # type: ignore[no-untyped-call]
    for option, value in (("output_flag", False), ("threads", 1), ("time_limit", limit_s)):
        solver.setOptionValue(option, value)
    solver.setOptionValue("mip_rel_gap", 0.0)
    solver.setOptionValue("mip_abs_gap", 0.5)  # costs are whole
    solver.passModel(lp)
    solver.run()
    info, closed = solver.getInfo(), solver.getModelStatus() == highspy.HighsModelStatus.kOptimal
    found = info.primal_solution_status == highspy.SolutionStatus.kSolutionStatusFeasible
    return Reply(closed, round(info.objective_function_value) if found else None, info.mip_dual_bound)


PEERS: dict[str, Callable[[Sequence[BoardKind], Sequence[int], int, float], Reply]] = {
    "HiGHS": by_highs,
    "CP-SAT": by_cpsat,
}


def agrees(cost: int, least: int, reply: Reply) -> bool:
    """Whether a peer's answer and ours can both be right, and are the same where both are proved."""
    bracket = reply.bound <= cost + 1e-6 and (reply.cost is None or reply.cost >= least)
    return bracket and not (reply.closed and cost == least and reply.cost != cost)


def case(rooms: int, limit_s: float) -> Iterator[dict[str, Any]]:
    """One row for each size and peer.

    Parameters
    ----------
    rooms : int
        Jobs of each size.
    limit_s : float
        For one job and peer. [s]
    """
    for pieces in SIZES:
        jobs = [job(SEED + i, pieces) for i in range(rooms)]
        ours = []
        for kinds, strips in jobs:
            start = perf_counter()
            ours.append((pack(kinds, strips), perf_counter() - start))
        for name, peer in PEERS.items():
            seconds, ratios, closed, equal = [], [], 0, True
            for (kinds, strips), (answer, own) in zip(jobs, ours, strict=True):
                start = perf_counter()
                reply = peer(kinds, strips, answer.cost, limit_s)
                seconds.append(perf_counter() - start)
                ratios.append(seconds[-1] / own)
                closed += reply.closed
                equal &= agrees(answer.cost, answer.least, reply)
            yield {
                "name": "cut list with proof",
                "size": f"{pieces} strips",
                "rooms": rooms,
                "proved": sum(answer.cost == answer.least for answer, _ in ours),
                "seconds": median(own for _, own in ours),
                "seconds_worst": max(own for _, own in ours),
                "peer": name,
                "peer_seconds": median(seconds),
                "peer_closed": closed,
                "peer_limit": limit_s,
                "ratio": median(ratios),
                "equal": equal,
            }
