"""Small linear programs, exactly: is there a point, and which costs least.

The planner's last step at a node is a handful of rows over two to six plane positions; whether they have a
common point decides whether a plan exists at that price, so no float may decide it. Integer pivoting keeps
every entry a whole number with one common denominator (Edmonds 1967; Bareiss 1968), least-index rules make
it finite (Bland 1977). Sources from memory.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from math import lcm
from operator import mul

Row = tuple[tuple[int, ...], int]
"""Coefficients and right side of ``sum a_j y_j <= b``, whole numbers."""


class Tableau:
    """Rows ``a y <= b`` over ``y >= 0``, whole numbers; rows may be added and the point asked again.

    The dictionary is kept as ``det * basic_i = const_i + sum_j coef_ij * nonbasic_j``.
    """

    def __init__(self, size: int) -> None:
        self._size = size
        self._det = 1
        self._nonbasic = list(range(size))  # variable numbers: y first, then one slack a row
        self._basic: list[int] = []
        self._rows: list[list[int]] = []  # [const, coef...]
        self._next = size
        self.reason: tuple[tuple[int, int], ...] | None = None
        """After ``feasible`` said no: rows, by order added, and multipliers that contradict each other."""

    def add(self, rows: Sequence[Row]) -> None:
        """Add rows; they are re-expressed in the present dictionary."""
        if not self._rows:
            for coefficients, bound in rows:
                self._basic.append(self._next)
                self._next += 1
                self._rows.append([bound, *(-a for a in coefficients)])
            return
        where = {v: ("n", j) for j, v in enumerate(self._nonbasic)}
        where.update({v: ("b", i) for i, v in enumerate(self._basic)})
        for coefficients, bound in rows:
            new = [bound * self._det] + [0] * self._size
            for variable, a in enumerate(coefficients):
                if not a:
                    continue
                kind, index = where[variable]
                if kind == "n":
                    new[index + 1] -= a * self._det
                else:
                    for j, value in enumerate(self._rows[index]):
                        new[j] -= a * value
            self._basic.append(self._next)
            self._next += 1
            self._rows.append(new)

    def _pivot(self, i: int, j: int) -> None:
        """Swap basic row i with nonbasic column j (whole numbers throughout)."""
        row = self._rows[i]
        pivot = row[j + 1]
        det = self._det
        sign = 1 if pivot > 0 else -1
        # solve row i for the entering variable, multiplied through so that the new determinant is |pivot|
        size = sign * pivot
        solved = [-sign * value for value in row]
        solved[j + 1] = sign * det
        for k, other in enumerate(self._rows):
            if k == i:
                continue
            c = other[j + 1]
            if c:
                changed = [(size * a + c * b) // det for a, b in zip(other, solved, strict=True)]
                changed[j + 1] = sign * c
                self._rows[k] = changed
            elif size != det:
                self._rows[k] = [size * a // det for a in other]
        self._rows[i] = solved
        self._det = size
        self._basic[i], self._nonbasic[j] = self._nonbasic[j], self._basic[i]

    def feasible(self) -> bool:
        """Move to a point that meets every row; False when there is none."""
        while True:
            worst = None
            for i, row in enumerate(self._rows):
                if row[0] < 0 and (worst is None or self._basic[i] < self._basic[worst]):
                    worst = i
            if worst is None:
                return True
            row = self._rows[worst]
            enter = None
            for j in range(self._size):
                if row[j + 1] > 0 and (enter is None or self._nonbasic[j] < self._nonbasic[enter]):
                    enter = j
            if enter is None:
                self.reason = self._why(worst)
                return False
            self._pivot(worst, enter)

    def _why(self, worst: int) -> tuple[tuple[int, int], ...] | None:
        """Farkas multipliers: a basic slack below 0 that no nonbasic can raise.

        None when a bound y >= 0 takes part.
        """
        parts = [(self._basic[worst] - self._size, self._det)]
        for j, coefficient in enumerate(self._rows[worst][1:]):
            if coefficient:
                if self._nonbasic[j] < self._size:
                    return None
                parts.append((self._nonbasic[j] - self._size, -coefficient))
        return tuple(parts) if parts[0][0] >= 0 else None

    def minimise(self, cost: Sequence[int]) -> None:
        """From a feasible point, walk to one where ``sum cost_j y_j`` is least (cost >= 0, so it exists)."""
        while True:
            where = {v: i for i, v in enumerate(self._basic)}
            reduced = [0] * self._size
            for variable, c in enumerate(cost):
                if not c:
                    continue
                if variable in where:
                    row = self._rows[where[variable]]
                    for j in range(self._size):
                        reduced[j] += c * row[j + 1]
                else:
                    reduced[self._nonbasic.index(variable)] += c * self._det
            enter = None
            for j in range(self._size):
                if reduced[j] < 0 and (enter is None or self._nonbasic[j] < self._nonbasic[enter]):
                    enter = j
            if enter is None:
                return
            leave = None
            for i, row in enumerate(self._rows):
                c = row[enter + 1]
                if c < 0:
                    if leave is None:
                        leave = i
                        continue
                    best = self._rows[leave]
                    # ratio const / -coef, compared crosswise
                    left, right = row[0] * -best[enter + 1], best[0] * -c
                    if left < right or (left == right and self._basic[i] < self._basic[leave]):
                        leave = i
            if leave is None:  # unbounded: cannot be, cost >= 0 over y >= 0
                return
            self._pivot(leave, enter)

    def point(self) -> tuple[Fraction, ...]:
        """The present point."""
        out = [Fraction(0)] * self._size
        for i, variable in enumerate(self._basic):
            if variable < self._size:
                out[variable] = Fraction(self._rows[i][0], self._det)
        return tuple(out)


def whole_row(coefficients: Sequence[Fraction], bound: Fraction) -> Row:
    """The same row ``a y <= b`` in whole numbers."""
    scale = lcm(bound.denominator, *[c.denominator for c in coefficients])
    whole = tuple([c.numerator * (scale // c.denominator) for c in coefficients])
    return whole, bound.numerator * (scale // bound.denominator)


def find_point(
    rows: Sequence[Row],
    low: Sequence[int],
    cost: Sequence[int] | None = None,
) -> tuple[Fraction, ...] | None:
    """A point x >= low with every row ``sum a_j x_j <= b`` met, or None when there is none.

    Parameters
    ----------
    rows : sequence of (whole coefficients, whole bound)
        See :func:`whole_row`.
    low : sequence of int
        Lower bound of each coordinate.
    cost : sequence of int, optional
        Coefficients >= 0 of what is to be least; left out, any point.

    Returns
    -------
    tuple of Fraction or None
    """
    return find_point_or_reason(rows, low, cost)[0]


def find_point_or_reason(
    rows: Sequence[Row],
    low: Sequence[int],
    cost: Sequence[int] | None = None,
) -> tuple[tuple[Fraction, ...] | None, tuple[tuple[int, int], ...] | None]:
    """As :func:`find_point`; and when there is no point, rows and multipliers that show it.

    The multipliers (all > 0) make the named rows add up to ``0 <= negative`` (Farkas 1902). None when the
    lower bounds of the coordinates take part in it.
    """
    tableau = Tableau(len(low))
    tableau.add([(a, b - sum(map(mul, a, low))) for a, b in rows])
    if not tableau.feasible():
        return None, tableau.reason
    if cost is not None:
        tableau.minimise(cost)
    return tuple(y + v for y, v in zip(tableau.point(), low, strict=True)), None
