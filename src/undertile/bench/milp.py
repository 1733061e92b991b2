"""The contract's model answered by HiGHS, a general mixed-integer solver in floating point.

Rows that hold only unless or when some choice is made get the smallest big-M their variables' bounds allow,
worked out exactly. Rows with a plane in them are let out by ``WIDEN`` either way, ten times the solver's own
tolerance, so that rounding cannot cut an allowed plan off and the bound stays a bound. What that lets in is
caught by the exact check in ``general``: a whole variable off by the tolerance times the largest big-M moves
a face by less than 1/1000 of 1/1600 in, and no such plan is believed before its planes were found exactly.
"""

from __future__ import annotations

from fractions import Fraction

from undertile.bench.general import Answer, Reply, run
from undertile.bench.linear import Model, Row, grain
from undertile.errors import UndertileError
from undertile.framing.problem import FramingProblem

TOLERANCE = 1e-7
WIDEN = Fraction(1, 10**6)
"""[1/1600 in]"""


def solve(problem: FramingProblem, *, time_limit: float = 60.0, ties: bool = False) -> Answer:
    """Least cost by HiGHS on one core.

    Parameters
    ----------
    problem : FramingProblem
    time_limit : float
        Seconds in all.
    ties : bool
        Also touch the fewest members among equal costs [contract 11].
    """
    return run(problem, "HiGHS", _highs, time_limit, ties=ties)


def as_plain(model: Model, row: Row) -> tuple[dict[int, Fraction], Fraction | None, Fraction | None]:
    """A row without conditions: whichever is not met loosens it by the least that is enough."""
    terms = dict(row.terms)
    low, high = row.low, row.high
    if row.unless or row.when:
        least, most = model.span(row)
        big = Fraction(0)
        if low is not None:
            big = min(least - low, big)
        if high is not None:
            big = max(most - high, big)
        for var in row.unless:
            terms[var.index] = terms.get(var.index, Fraction(0)) - big
        for var in row.when:
            terms[var.index] = terms.get(var.index, Fraction(0)) + big
            low = None if low is None else low + big
            high = None if high is None else high + big
    if any(not model.variables[index].whole for index in terms):
        low = None if low is None else low - WIDEN
        high = None if high is None else high + WIDEN
    return terms, low, high


def _highs(model: Model, seconds: float, finer: int) -> Reply:
    try:
        import highspy
        import numpy as np
    except ImportError as error:
        raise UndertileError(
            f"HiGHS is not here ({error.name}): pip install highspy numpy, or leave this peer out"
        ) from error
    inf = highspy.kHighsInf
    starts, index, value, lower, upper = [0], [], [], [], []
    for row in model.rows:
        terms, low, high = as_plain(model, row)
        for column, c in terms.items():
            if c:
                index.append(column)
                value.append(float(c))
        starts.append(len(index))
        lower.append(-inf if low is None else float(low))
        upper.append(inf if high is None else float(high))
    lp = highspy.HighsLp()
    lp.num_col_, lp.num_row_ = len(model.variables), len(lower)
    cost = np.zeros(len(model.variables))
    for column, c in model.objective.terms.items():
        cost[column] = float(c)
    lp.col_cost_ = cost
    lp.offset_ = float(model.objective.constant)
    lp.col_lower_ = np.array([float(v.low) for v in model.variables])
    lp.col_upper_ = np.array([float(v.high) for v in model.variables])
    lp.row_lower_, lp.row_upper_ = np.array(lower), np.array(upper)
    lp.a_matrix_.format_ = highspy.MatrixFormat.kRowwise
    lp.a_matrix_.start_ = np.array(starts)
    lp.a_matrix_.index_ = np.array(index)
    lp.a_matrix_.value_ = np.array(value)
    kinds = (highspy.HighsVarType.kContinuous, highspy.HighsVarType.kInteger)
    lp.integrality_ = [kinds[v.whole] for v in model.variables]
    solver = highspy.Highs()  # type: ignore[no-untyped-call]
    for option, setting in (
        ("output_flag", False),
        ("threads", 1),
        ("time_limit", seconds),
        ("mip_rel_gap", 0.0),
        # plans differ by whole grains: half a grain of gap already proves the least
        ("mip_abs_gap", float(grain(model.objective)) / 2),
        ("primal_feasibility_tolerance", TOLERANCE),
        ("mip_feasibility_tolerance", TOLERANCE),
    ):
        solver.setOptionValue(option, setting)
    solver.passModel(lp)
    solver.run()
    status, info = solver.getModelStatus(), solver.getInfo()
    known = highspy.HighsModelStatus
    if status == known.kInfeasible:
        return Reply(True, None, None)
    bound = info.mip_dual_bound if info.mip_dual_bound > -inf else None
    values = None
    if info.primal_solution_status == highspy.SolutionStatus.kSolutionStatusFeasible:
        values = list(solver.getSolution().col_value)
    return Reply(status == known.kOptimal, values, bound)
