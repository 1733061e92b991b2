"""The contract's model answered by CP-SAT, a general solver in whole numbers.

CP-SAT knows only whole variables, so planes and residuals are put on a grid of 1/``GRID`` of 1/1600 in.
Moving every one of them of an allowed plan to its nearest grid point changes a row by at most half a step
times the sum of their coefficients; every row with one in it is let out by that much, and rounded outward. So
each allowed plan has a neighbour on the grid that the let-out rows accept at the same cost: what CP-SAT
proves least there is a bound of the contract's least, with no tolerance anywhere. The other end is the same
as for HiGHS: its decisions get exact planes, off the grid, and are priced exactly (``general``). *Equal* is
said only where both ends meet. Where a plan is let in by the let-out alone the grid is made 16 times
finer, once; after that the answer is a bracket.
"""

from __future__ import annotations

from fractions import Fraction
from math import ceil, floor, lcm

from undertile.bench.general import Answer, Reply, run
from undertile.bench.linear import Model, Row, grain
from undertile.errors import UndertileError
from undertile.framing.problem import FramingProblem

GRID = 24
"""Steps to 1/1600 in. A lean of 1/16 in 8 ft makes whole steps at whole inches of height."""
SMALL = 1 << 6
"""Coefficients stay small: with some of 1e9 and more, CP-SAT 9.15 with its presolve called a plan least that
costs 3.37 more than another it accepts itself when shown it."""


def solve(problem: FramingProblem, *, time_limit: float = 60.0, ties: bool = False) -> Answer:
    """Least cost by CP-SAT on one core.

    Parameters
    ----------
    problem : FramingProblem
    time_limit : float
        Seconds in all.
    ties : bool
        Also touch the fewest members among equal costs [contract 11].
    """
    return run(problem, "CP-SAT", _cpsat, time_limit, ties=ties, finest=1)


def as_whole(model: Model, row: Row, grid: int) -> tuple[list[tuple[int, int]], int | None, int | None]:
    """A row in whole numbers over the grid, let out by what that may move it and rounded outward.

    Coefficients with a large common denominator are rounded to parts of a smaller one, and the row let out
    by the most that can change within the bounds of the variables: a quarter of the grid's share at most.
    """
    exact = [(i, c if model.variables[i].whole else c / grid) for i, c in row.terms]
    out = sum((abs(c) for i, c in exact if not model.variables[i].whole), Fraction(0)) / 2
    scale, terms = lcm(*(c.denominator for _, c in exact)), exact
    coarse = grid * SMALL
    while out and coarse < scale:
        near = [(i, Fraction(round(c * coarse), coarse)) for i, c in exact]
        moved = Fraction(0)
        for (i, c), (_, rounded) in zip(exact, near, strict=True):
            var = model.variables[i]
            moved += abs(rounded - c) * (max(abs(var.low), abs(var.high)) * (1 if var.whole else grid) + 1)
        if moved * 4 <= out:
            scale, terms, out = coarse, near, out + moved
            break
        coarse *= 4
    low = None if row.low is None else ceil((row.low - out) * scale)
    high = None if row.high is None else floor((row.high + out) * scale)
    return [(i, int(c * scale)) for i, c in terms], low, high


def _cpsat(model: Model, seconds: float, finer: int) -> Reply:
    try:
        from ortools.sat.python import cp_model
    except ImportError as error:
        raise UndertileError(
            f"CP-SAT is not here ({error.name}): pip install ortools, or leave this peer out"
        ) from error
    grid = GRID * 16**finer
    cp = cp_model.CpModel()
    made = [
        cp.new_int_var(int(v.low), int(v.high), v.name)
        if v.whole
        else cp.new_int_var(floor(v.low * grid), ceil(v.high * grid), v.name)
        for v in model.variables
    ]
    free = (cp_model.INT_MIN, cp_model.INT_MAX)
    for row in model.rows:
        terms, low, high = as_whole(model, row, grid)
        linear = cp_model.LinearExpr.weighted_sum([made[i] for i, _ in terms], [c for _, c in terms])
        held = cp.add_linear_constraint(
            linear, free[0] if low is None else low, free[1] if high is None else high
        )
        if row.unless or row.when:
            held.only_enforce_if([~made[v.index] for v in row.unless] + [made[v.index] for v in row.when])
    step = grain(model.objective)
    objective = [(made[index], int(c / step)) for index, c in model.objective.terms.items() if c]
    cp.minimize(cp_model.LinearExpr.weighted_sum([v for v, _ in objective], [c for _, c in objective]))
    solver = cp_model.CpSolver()
    solver.parameters.num_workers = 1
    solver.parameters.max_time_in_seconds = seconds
    # tried on rooms of 6 and 13 studs against the defaults: cores without linear relaxation close 13 studs
    # in seconds where the defaults leave a wide bracket after a minute
    solver.parameters.optimize_with_core = True
    solver.parameters.linearization_level = 0
    status = solver.solve(cp)
    if status == cp_model.INFEASIBLE:
        return Reply(True, None, None)
    if status == cp_model.MODEL_INVALID:
        raise UndertileError(f"CP-SAT refuses the model: {cp.validate()}")
    bound = float(model.objective.constant + Fraction(round(solver.best_objective_bound)) * step)
    values = None
    if status in (cp_model.OPTIMAL, cp_model.FEASIBLE):
        values = [solver.value(v) for v in made]
    return Reply(status == cp_model.OPTIMAL, values, bound)
