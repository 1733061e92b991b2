"""Weighted least squares with its tests: normal equations, cofactors, redundancy, standardised residuals.

Dense and small (a stud's handful of heights, a room's few dozen checks, a surveyor's network), on plain
lists of floats. Notation of adjustment computation: observations l with standard uncertainties, design
matrix A, weights p = 1/sigma^2, normal matrix N = A'PA, residuals v = adjusted - observed.

References
----------
.. [1] Ghilani, Adjustment Computations, 5th ed., chapters 12 and 21 (normal equations, blunder tests).
.. [2] Baarda, A testing procedure for use in geodetic networks, 1968 (redundancy numbers, data snooping).
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from math import sqrt
from operator import mul

Vector = list[float]
Matrix = list[list[float]]
Row = dict[int, float]
"""One row of a design matrix: column to coefficient."""

_RANK = 1e-9


class NotDetermined(ArithmeticError):
    """The observations do not determine every unknown."""


def dot(left: Sequence[float], right: Sequence[float]) -> float:
    """Inner product of two equally long rows."""
    return float(sum(map(mul, left, right)))


def cholesky(matrix: Matrix) -> Matrix:
    """Lower triangle L (rows of growing length) with L L' = matrix.

    Parameters
    ----------
    matrix : list of list of float, n x n
        Symmetric; only the lower triangle is read.

    Returns
    -------
    list of list of float
        Row i has i + 1 entries.

    Raises
    ------
    NotDetermined
        If a pivot is not positive beside its diagonal: the unknown hangs on nothing.
    """
    lower: Matrix = []
    for i, row in enumerate(matrix):
        new: Vector = []
        for j in range(i):
            other = lower[j]
            new.append((row[j] - dot(new, other)) / other[j])
        pivot = row[i] - dot(new, new)
        if pivot <= _RANK * abs(row[i]) or pivot <= 0.0:
            raise NotDetermined(f"unknown {i} is not determined by the observations")
        new.append(sqrt(pivot))
        lower.append(new)
    return lower


def forward(lower: Matrix, right: Sequence[float]) -> Vector:
    """Solve L x = right."""
    out: Vector = []
    for row, value in zip(lower, right, strict=True):
        out.append((value - dot(out, row)) / row[-1])
    return out


def backward(lower: Matrix, right: Sequence[float]) -> Vector:
    """Solve L' x = right."""
    out = list(right)
    for i in range(len(out) - 1, -1, -1):
        out[i] /= lower[i][i]
        value, row = out[i], lower[i]
        for j in range(i):
            out[j] -= value * row[j]
    return out


def inverse(lower: Matrix) -> Matrix:
    """Inverse of L L', whole and symmetric, from the Cholesky triangle."""
    size = len(lower)
    columns: Matrix = []
    for k in range(size):  # column k of the inverse of L; zero above k
        column = [0.0] * k + [1.0 / lower[k][k]]
        for i in range(k + 1, size):
            column.append(-dot(column, lower[i]) / lower[i][i])
        columns.append(column)
    out: Matrix = [[0.0] * size for _ in range(size)]
    for i in range(size):
        for j in range(i + 1):
            out[i][j] = out[j][i] = dot(columns[i][i:], columns[j][i:])
    return out


@dataclass(frozen=True)
class Adjustment:
    """One adjusted set of observations.

    Attributes
    ----------
    unknowns : list of float, n
    cofactors : list of list of float, n x n
        Inverse of the normal matrix: covariance at unit weight 1.
    residuals : list of float, m
        Adjusted minus observed.
    snoop : list of list of float, m x m
        P - P A N^-1 A' P = P Qvv P: how the weighted sum of squares answers to the observations,
        omega = l' snoop l.
    omega : float
        Weighted sum of squared residuals.
    freedom : int
        Observations less unknowns.
    sigmas : list of float, m
    """

    unknowns: Vector
    cofactors: Matrix
    residuals: Vector
    snoop: Matrix
    omega: float
    freedom: int
    sigmas: Vector

    @property
    def unit_weight(self) -> float:
        """A-posteriori standard deviation of unit weight; nan with nothing to spare."""
        return sqrt(self.omega / self.freedom) if self.freedom > 0 else float("nan")

    @property
    def redundancy(self) -> Vector:
        """Share of each observation that is checked by the others, 0..1; they add up to ``freedom``."""
        return [self.snoop[i][i] * sigma * sigma for i, sigma in enumerate(self.sigmas)]

    @property
    def standardised(self) -> Vector:
        """Baarda's test value of each observation: residual over its own standard deviation (at unit
        weight 1); 0 where nothing checks it."""
        out = []
        for i, (residual, sigma) in enumerate(zip(self.residuals, self.sigmas, strict=True)):
            kept = self.snoop[i][i]
            checked = kept * sigma * sigma > _RANK
            out.append(residual / (sigma * sigma) / sqrt(kept) if checked else 0.0)
        return out


@dataclass(frozen=True)
class Design:
    """What the design alone says, before any value is read; shared by observations laid out alike.

    Attributes
    ----------
    rows : sequence of dict, m
    sigmas : list of float, m
    cofactors : list of list of float, n x n
    gain : list of list of float, n x m
        unknowns = gain x observed.
    snoop : list of list of float, m x m
    """

    rows: Sequence[Row]
    sigmas: Vector
    cofactors: Matrix
    gain: Matrix
    snoop: Matrix

    def fit(self, observed: Sequence[float]) -> Adjustment:
        """Adjust one set of observations laid out so."""
        unknowns = [dot(line, observed) for line in self.gain]
        residuals = [
            sum([a * unknowns[i] for i, a in row.items()]) - value
            for row, value in zip(self.rows, observed, strict=True)
        ]
        omega = sum([(v / s) ** 2 for v, s in zip(residuals, self.sigmas, strict=True)])
        freedom = len(self.rows) - len(unknowns)
        return Adjustment(unknowns, self.cofactors, residuals, self.snoop, omega, freedom, self.sigmas)


def design(rows: Sequence[Row], sigmas: Sequence[float], size: int) -> Design:
    """Normal equations and cofactors of a design [1]_.

    Parameters
    ----------
    rows : sequence of dict, m
        Design matrix, one sparse row an observation.
    sigmas : sequence of float, m
        Standard uncertainties, > 0, in the units of the observations.
    size : int
        Number of unknowns n.

    Returns
    -------
    Design

    Raises
    ------
    NotDetermined
        If the observations do not determine every unknown.

    References
    ----------
    .. [1] Ghilani, Adjustment Computations, 5th ed., eq. 11.36-11.38.
    """
    weights = [1.0 / (sigma * sigma) for sigma in sigmas]
    normal: Matrix = [[0.0] * size for _ in range(size)]
    for row, weight in zip(rows, weights, strict=True):
        for i, a in row.items():
            weighted = weight * a
            line = normal[i]
            for j, b in row.items():
                line[j] += weighted * b
    cofactors = inverse(cholesky(normal))
    spread: Matrix = []  # A Q, m x n
    for row in rows:
        mixed = [0.0] * size
        for i, a in row.items():
            mixed = [x + a * q for x, q in zip(mixed, cofactors[i], strict=True)]
        spread.append(mixed)
    gain = [[mixed[i] * weight for mixed, weight in zip(spread, weights, strict=True)] for i in range(size)]
    snoop: Matrix = []
    for k, mixed in enumerate(spread):
        line = [
            -weights[k] * sum([a * mixed[i] for i, a in row.items()]) * weight
            for row, weight in zip(rows, weights, strict=True)
        ]
        line[k] += weights[k]
        snoop.append(line)
    return Design(rows, list(sigmas), cofactors, gain, snoop)


def adjust(rows: Sequence[Row], observed: Sequence[float], sigmas: Sequence[float], size: int) -> Adjustment:
    """Least squares of linear observations, with Baarda's figures for each [1]_.

    Parameters
    ----------
    rows : sequence of dict, m
        Design matrix, one sparse row an observation.
    observed : sequence of float, m
    sigmas : sequence of float, m
        Standard uncertainties, > 0, in the units of ``observed``.
    size : int
        Number of unknowns n.

    Returns
    -------
    Adjustment

    Raises
    ------
    NotDetermined
        If the observations do not determine every unknown.

    References
    ----------
    .. [1] Baarda 1968.
    """
    return design(rows, sigmas, size).fit(observed)


Model = Callable[[Sequence[float]], tuple[Sequence[float], Sequence[Row]]]
"""At trial unknowns: the observations they would give, and the design rows there."""


def adjust_curved(
    model: Model,
    observed: Sequence[float],
    sigmas: Sequence[float],
    start: Sequence[float],
    *,
    settled: float = 1e-9,
    most: int = 25,
) -> Adjustment:
    """Least squares of observations that are not linear, by Gauss-Newton steps.

    Parameters
    ----------
    model : callable
        ``model(unknowns) -> (computed, rows)``.
    observed, sigmas : sequence of float, m
    start : sequence of float, n
        Approximate unknowns.
    settled : float
        Stop when no unknown moves by more, in the unknowns' units.
    most : int
        Steps allowed.

    Returns
    -------
    Adjustment
        ``unknowns`` are the whole values, not corrections.

    Raises
    ------
    NotDetermined
        If the observations do not determine every unknown, or the steps do not settle.
    """
    at = list(start)
    for _ in range(most):
        computed, rows = model(at)
        misses = [value - have for value, have in zip(observed, computed, strict=True)]
        step = adjust(rows, misses, sigmas, len(at))
        at = [a + b for a, b in zip(at, step.unknowns, strict=True)]
        if max(map(abs, step.unknowns)) <= settled:
            return Adjustment(
                at, step.cofactors, step.residuals, step.snoop, step.omega, step.freedom, step.sigmas
            )
    raise NotDetermined(f"no answer within {most} steps: the start is too far off")
