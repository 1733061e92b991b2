"""The floor's two searches beside general ones: the least leveling, and the fewest panels for a patch.

Leveling: HiGHS gets the same rules as a mixed-integer program (steps of a sixteenth are whole). Panels:
CP-SAT gets pieces and panels a kerf larger that must not overlap; where no panel holds more than four pieces
every packing can be sawn from edge to edge, so the two answers are equal. Beside them the rule of hand that a
person goes by: large pieces first, each into the first strip it fits. A peer that does not close in its limit
counts at the limit: its ratio is a lower bound.
"""

from __future__ import annotations

import random
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from math import ceil
from statistics import median
from time import perf_counter
from typing import Any

from undertile.errors import UndertileError
from undertile.floor.guillotine import Packed, Sheet, Size, pack
from undertile.floor.levelling import STEP, Ground, Levelled, Limits, Rates
from undertile.floor.sloping import least_work

SEED = 4200
RATES = Rates(*(Fraction(each) for each in (15, 6, 2, 10, 4, 1)))
SLOPES = {"level": Fraction(0), "1/8 in a foot": Fraction(1, 96)}
"""Name of a case, and how far the finished floor may fall along either wall. [in an inch]"""


@dataclass(frozen=True)
class Reply:
    """What a peer came to: its answer, None where there is none; what it proves; whether the two are one."""

    answer: float | None
    bound: float
    closed: bool


def rough(seed: int, across: int = 6, along: int = 4) -> list[Ground]:
    """A rough floor read every foot along the back wall and 10-2/3 in out from it, in sixteenths."""
    rng = random.Random(seed)
    b, c = rng.uniform(-0.004, 0.004), rng.uniform(-0.004, 0.004)
    return [
        Ground(
            Fraction(12 * i),
            Fraction(32 * j, 3),
            Fraction(round((b * 12 * i + c * 32 / 3 * j + rng.gauss(0, 0.08)) * 16), 16),
        )
        for j in range(along)
        for i in range(across)
    ]


def by_highs(places: Sequence[Ground], limits: Limits, rates: Rates, limit_s: float = 20.0) -> Reply:
    """Least minutes by HiGHS on one core; an answer of None that is closed: no plane does."""
    try:
        import highspy
        import numpy as np
    except ImportError as error:
        raise UndertileError(
            "HiGHS is not here: pip install highspy numpy, or leave this peer out"
        ) from error
    n, inf = len(places), highspy.kHighsInf
    most = [ceil(limits.most_off / STEP), ceil(limits.most_fill / STEP)]
    columns = 3 + 6 * n + 2  # plane; off, fill, their steps, whether; the two set-ups
    cost, low, high = np.zeros(columns), np.zeros(columns), np.ones(columns)
    slope = float(limits.slope)
    low[:3], high[:3] = [-9, -slope, -slope], [9, slope, slope]
    rows: list[tuple[float, float, dict[int, float]]] = []
    kinds = [highspy.HighsVarType.kContinuous] * 3
    for i, place in enumerate(places):
        off, fill, off_n, fill_n, off_y, fill_y = range(3 + 6 * i, 9 + 6 * i)
        high[[off, fill, off_n, fill_n]] = [float(limits.most_off), float(limits.most_fill), *most]
        cost[[off_n, fill_n, off_y, fill_y]] = [
            float(each) for each in (rates.off_step, rates.fill_step, rates.off_place, rates.fill_place)
        ]
        kinds += [highspy.HighsVarType.kContinuous] * 2 + [highspy.HighsVarType.kInteger] * 4
        z, x, y = float(place.height), float(place.x), float(place.y)
        rows.append((z - float(limits.limit), z, {0: 1.0, 1: x, 2: y, off: 1.0, fill: -1.0}))
        for amount, steps, whether, whole, setup in (
            (off, off_n, off_y, most[0], columns - 2),
            (fill, fill_n, fill_y, most[1], columns - 1),
        ):
            rows.append((-inf, 0.0, {amount: 1.0, steps: -float(STEP)}))
            rows.append((-inf, 0.0, {steps: 1.0, whether: -float(whole)}))
            rows.append((-inf, 0.0, {whether: 1.0, setup: -1.0}))
    kinds += [highspy.HighsVarType.kInteger] * 2
    cost[-2:] = [float(rates.off_setup), float(rates.fill_setup)]
    lp = highspy.HighsLp()
    lp.num_col_, lp.num_row_ = columns, len(rows)
    lp.col_cost_, lp.col_lower_, lp.col_upper_ = cost, low, high
    lp.row_lower_ = np.array([each[0] for each in rows])
    lp.row_upper_ = np.array([each[1] for each in rows])
    lp.a_matrix_.format_ = highspy.MatrixFormat.kRowwise
    lp.a_matrix_.start_ = np.cumsum([0, *(len(each[2]) for each in rows)])
    lp.a_matrix_.index_ = np.concatenate([list(each[2]) for each in rows])
    lp.a_matrix_.value_ = np.concatenate([list(each[2].values()) for each in rows])
    lp.integrality_ = kinds
    solver = highspy.Highs()  # type: ignore[no-untyped-call]
    for option, value in (("output_flag", False), ("threads", 1), ("time_limit", limit_s)):
        solver.setOptionValue(option, value)
    for option in ("mip_feasibility_tolerance", "primal_feasibility_tolerance"):
        solver.setOptionValue(option, 1e-9)
    solver.setOptionValue("mip_rel_gap", 0.0)
    solver.setOptionValue("mip_abs_gap", 0.5)
    solver.passModel(lp)
    solver.run()
    status, info = solver.getModelStatus(), solver.getInfo()
    if status == highspy.HighsModelStatus.kInfeasible:
        return Reply(None, inf, True)
    found = info.primal_solution_status == highspy.SolutionStatus.kSolutionStatusFeasible
    answer = float(info.objective_function_value) if found else None
    return Reply(answer, float(info.mip_dual_bound), status == highspy.HighsModelStatus.kOptimal)


def patch_job(seed: int, least: int = 310) -> tuple[list[Sheet], list[tuple[Size, int]], int]:
    """Pieces of a patch, panels of 96 x 48, an offcut or two, and the kerf, all in eighths."""
    rng = random.Random(seed)
    pieces: dict[Size, int] = {}
    for _ in range(rng.randint(3, 6)):
        size = (rng.randint(least, 700), rng.randint(160, 384))
        pieces[size] = pieces.get(size, 0) + rng.randint(1, 2)
    offcuts = [Sheet((rng.randint(200, 600), rng.randint(160, 384)), 0, 1) for _ in range(rng.randint(0, 2))]
    return [*offcuts, Sheet((768, 384), 1)], sorted(pieces.items(), reverse=True), rng.choice((0, 1, 2))


def by_cpsat(
    sheets: Sequence[Sheet], pieces: Sequence[tuple[Size, int]], kerf: int, limit_s: float = 4.0
) -> Reply:
    """Fewest panels by CP-SAT on one core, with cuts of any kind."""
    try:
        from ortools.sat.python import cp_model
    except ImportError as error:
        raise UndertileError("CP-SAT is not here: pip install ortools, or leave this peer out") from error
    model = cp_model.CpModel()
    items = [size for size, many in pieces for _ in range(many)]
    bins = [sheet for sheet in sheets for _ in range(sheet.count if sheet.count is not None else len(items))]
    opened = [model.new_bool_var("") for _ in bins]
    inside = [[model.new_bool_var("") for _ in bins] for _ in items]
    for row in inside:
        model.add_exactly_one(row)
    for b, sheet in enumerate(bins):
        along, across = [], []
        for i, (w, h) in enumerate(items):
            wide, high = sheet.size[0] + kerf, sheet.size[1] + kerf
            if w + kerf > wide or h + kerf > high:
                model.add(inside[i][b] == 0)
                continue
            x, y = model.new_int_var(0, wide - w - kerf, ""), model.new_int_var(0, high - h - kerf, "")
            along.append(model.new_optional_fixed_size_interval_var(x, w + kerf, inside[i][b], ""))
            across.append(model.new_optional_fixed_size_interval_var(y, h + kerf, inside[i][b], ""))
            model.add_implication(inside[i][b], opened[b])
        model.add_no_overlap_2d(along, across)
        if b and bins[b - 1] is sheet:
            model.add_implication(opened[b], opened[b - 1])
    model.minimize(sum(o * sheet.cost for o, sheet in zip(opened, bins, strict=True)))
    solver = cp_model.CpSolver()
    solver.parameters.num_workers = 1
    solver.parameters.max_time_in_seconds = limit_s
    status = solver.solve(model)
    found = status in (cp_model.OPTIMAL, cp_model.FEASIBLE)
    answer = round(solver.objective_value) if found else None
    return Reply(answer, round(solver.best_objective_bound), status == cp_model.OPTIMAL)


def by_hand(
    sheets: Sequence[Sheet], pieces: Sequence[tuple[Size, int]], kerf: int, limit_s: float = 0.0
) -> Reply:
    """Whole panels by the rule of hand: the widest piece first, into the first strip that it fits.

    Offcuts go first. A strip is ripped as wide as its first piece; the pieces in it are cross-cut one after
    the other.
    """
    items = sorted((size for size, many in pieces for _ in range(many)), key=lambda s: (-s[1], -s[0]))
    boards: list[list[int]] = []  # of each opened sheet: its kind, the width still free
    strips: list[list[int]] = []  # of each strip: its width, the length still free
    offcuts = [at for at, sheet in enumerate(sheets) for _ in range(sheet.count or 0)]
    whole = next(at for at, sheet in enumerate(sheets) if sheet.count is None)
    for wide, high in items:
        strip = next((each for each in strips if high <= each[0] and wide <= each[1]), None)
        if strip is None:
            board = next(
                (each for each in boards if high <= each[1] and wide <= sheets[each[0]].size[0]), None
            )
            if board is None:
                fits = [at for at in offcuts if wide <= sheets[at].size[0] and high <= sheets[at].size[1]]
                kind = fits[0] if fits else whole
                if fits:
                    offcuts.remove(kind)
                board = [kind, sheets[kind].size[1]]
                boards.append(board)
            strip = [high, sheets[board[0]].size[0]]
            strips.append(strip)
            board[1] -= high + kerf
        strip[1] -= wide + kerf
    cost = sum(sheets[kind].cost for kind, _ in boards)
    return Reply(cost, 0.0, False)


PACKERS: dict[str, Callable[..., Reply]] = {"CP-SAT": by_cpsat, "rule of hand": by_hand}


def case(rooms: int, limit_s: float) -> Iterator[dict[str, Any]]:
    """One row for each search and peer.

    Parameters
    ----------
    rooms : int
        Floors of each kind; five times as many patches.
    limit_s : float
        For one answer of a peer. [s]
    """
    for name, slope in SLOPES.items():
        yield _levelling(name, slope, rooms, limit_s)
    jobs = [patch_job(SEED + i) for i in range(5 * rooms)]
    ours: list[tuple[Packed, float]] = []
    for job in jobs:
        start = perf_counter()
        ours.append((pack(*job), perf_counter() - start))
    for name, packer in PACKERS.items():
        yield _panels(name, packer, jobs, ours, limit_s)


def _levelling(name: str, slope: Fraction, rooms: int, limit_s: float) -> dict[str, Any]:
    limits = Limits(Fraction(1, 8), Fraction(1, 4), Fraction(1, 2), slope)
    own: list[float] = []
    found: list[Levelled] = []
    replies: list[tuple[Reply, float]] = []
    for i in range(rooms):
        places = rough(SEED + i)
        start = perf_counter()
        found.append(least_work(places, limits, RATES))
        own.append(perf_counter() - start)
        start = perf_counter()
        replies.append((by_highs(places, limits, RATES, limit_s), perf_counter() - start))
    return {
        "name": "leveling, least work with proof",
        "size": f"24 places, {name}",
        "rooms": rooms,
        "proved": sum(each.proved for each in found),
        **_beside("HiGHS", own, replies, limit_s),
        "equal": all(agrees(each, reply) for each, (reply, _) in zip(found, replies, strict=True)),
    }


def agrees(found: Levelled, reply: Reply) -> bool:
    """Whether an answer and the peer's can both be right, and are the same where both are proved."""
    if found.plane is None or reply.answer is None:
        return (found.plane is None) == (reply.answer is None) or not reply.closed
    minutes, near = float(found.minutes), 0.01
    if reply.bound > minutes + near or reply.answer < float(found.least_minutes) - near:
        return False
    return not (reply.closed and found.proved) or abs(reply.answer - minutes) <= near


def _panels(
    name: str,
    packer: Callable[..., Reply],
    jobs: Sequence[tuple[list[Sheet], list[tuple[Size, int]], int]],
    ours: Sequence[tuple[Packed, float]],
    limit_s: float,
) -> dict[str, Any]:
    replies = []
    for job in jobs:
        start = perf_counter()
        replies.append((packer(*job, limit_s), perf_counter() - start))
    pairs = [(packed, reply) for (packed, _), (reply, _) in zip(ours, replies, strict=True)]
    equal = all(
        reply.bound <= packed.cost
        and (reply.answer is None or reply.answer >= packed.cost)
        and not (reply.closed and packed.proved and reply.answer != packed.cost)
        for packed, reply in pairs
    )
    more = [reply.answer - packed.cost for packed, reply in pairs if reply.answer is not None]
    return {
        "name": "panels of a patch, fewest with proof",
        "size": "3 to 6 sizes of piece",
        "rooms": len(jobs),
        "proved": sum(packed.proved for packed, _ in ours),
        **_beside(name, [own for _, own in ours], replies, limit_s),
        "peer_panels_more": sum(more),
        "equal": equal,
    }


def _beside(
    peer: str, own: Sequence[float], replies: Sequence[tuple[Reply, float]], limit_s: float
) -> dict[str, Any]:
    return {
        "seconds": median(own),
        "seconds_worst": max(own),
        "peer": peer,
        "peer_seconds": median(each for _, each in replies),
        "peer_closed": sum(reply.closed for reply, _ in replies),
        "peer_limit": limit_s,
        "ratio": median(each / mine for mine, (_, each) in zip(own, replies, strict=True)),
    }
