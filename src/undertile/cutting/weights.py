"""A bound that proves: weights of the pieces from column generation, held to by exact whole numbers.

The linear program over all ways of cutting a board (Gilmore and Gomory 1961, 1963; from memory) is walked
in floating point, which only *proposes* what a piece is worth. Each proposal is rounded to whole weights,
the most any board can carry under them is found by an exact knapsack, and the bound is counted from these
whole numbers alone (Farley 1990, from memory). A bad proposal gives a low bound, never a wrong one.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from undertile.cutting.fill import best_fill
from undertile.cutting.packing import Load, Need, Witness, least_cover

SCALE = 720720
"""Parts of a full board that weights are counted in: halves, thirds and on to sixteenths are whole."""
EPS = 1e-9
Column = tuple[int, tuple[int, ...]]
"""Kind of board (-1 no board) and what it takes of each size, then of each kind with a count."""


@dataclass(frozen=True)
class Relaxed:
    """The end of the walk: the best witness, and the ways of cutting with how often each, in floats."""

    witness: Witness
    ways: tuple[tuple[Load, float], ...]


def witness_of(need: Need, weights: Sequence[int]) -> Witness:
    """What weights prove, exactly.

    Parameters
    ----------
    need : Need
    weights : sequence of int
        0 or more, one for each size.
    """
    most = tuple(best_fill(kind.size, need.sizes, need.counts, weights)[0] for kind in need.kinds)
    total = sum(w * d for w, d in zip(weights, need.counts, strict=True))
    return Witness(tuple(weights), most, total, least_cover(need.kinds, most, total))


def relax(need: Need, first: Witness, enough: int) -> Relaxed:
    """Walk the linear program until it ends or a witness proves ``enough``.

    Parameters
    ----------
    need : Need
    first : Witness
        The best known before.
    enough : int
        The cost of an answer known: no bound can be more.
    """
    walk = _Walk(need)
    best = first
    for _ in range(60 * (len(need.sizes) + 2) + 200):
        duals = walk.duals()
        weights = [max(0, int(value / walk.top * SCALE + 0.5)) for value in duals[: len(need.sizes)]]
        entering, witness = walk.price(duals, weights)
        if witness is not None and witness.bound > best.bound:
            best = witness
            if best.bound >= enough:
                break
        if entering is None or not walk.enter(entering):
            break
    return Relaxed(best, walk.ways())


class _Walk:
    """Revised simplex with an explicit inverse; rows are the sizes, then the kinds that have a count."""

    def __init__(self, need: Need) -> None:
        self.need = need
        self.top = float(max(kind.cost for kind in need.kinds))
        self._counted = [k for k, kind in enumerate(need.kinds) if kind.count is not None]
        self._m, self._q = len(need.sizes), len(self._counted)
        rows = self._m + self._q
        endless = [k for k, kind in enumerate(need.kinds) if kind.count is None]
        self._basis: list[Column] = []
        self._x: list[float] = []
        self._inverse = [[0.0] * rows for _ in range(rows)]
        for i, size in enumerate(need.sizes):
            fits = [k for k in endless if need.kinds[k].size >= size]
            kind = min(fits, key=lambda k: (need.kinds[k].cost / (need.kinds[k].size // size), k))
            much = min(need.kinds[kind].size // size, need.counts[i])
            taken = tuple(much if j == i else 0 for j in range(rows))
            self._basis.append((kind, taken))
            self._x.append(need.counts[i] / much)
            self._inverse[i][i] = 1.0 / much
        for j, k in enumerate(self._counted):
            self._basis.append((-1, tuple(int(i == self._m + j) for i in range(rows))))
            self._x.append(float(need.kinds[k].count or 0))
            self._inverse[self._m + j][self._m + j] = 1.0

    def _cost(self, column: Column) -> float:
        return 0.0 if column[0] < 0 else float(self.need.kinds[column[0]].cost)

    def duals(self) -> list[float]:
        """What one more of each row is worth."""
        out = [0.0] * len(self._basis)
        for column, row in zip(self._basis, self._inverse, strict=True):
            cost = self._cost(column)
            if cost:
                for i, value in enumerate(row):
                    out[i] += cost * value
        return out

    def price(self, duals: Sequence[float], weights: Sequence[int]) -> tuple[Column | None, Witness | None]:
        """The column that helps most, None at the end; and what these weights prove."""
        need, rows = self.need, self._m + self._q
        for i in range(rows):
            wrong = -duals[i] if i < self._m else duals[i]
            if wrong > EPS * self.top:  # too much of a piece, or a board not taken, helps by itself
                sign = -1 if i < self._m else 1
                return (-1, tuple(sign if j == i else 0 for j in range(rows))), None
        most, best, gain = [], None, EPS * self.top * 10
        for k, kind in enumerate(need.kinds):
            worth, taken = best_fill(kind.size, need.sizes, need.counts, weights)
            most.append(worth)
            row = self._counted.index(k) if kind.count is not None else -1
            value = sum(d * much for d, much in zip(duals, taken, strict=False))
            value += (duals[self._m + row] if row >= 0 else 0.0) - kind.cost
            if value > gain:
                gain = value
                best = (k, (*taken, *(int(j == row) for j in range(self._q))))
        total = sum(w * d for w, d in zip(weights, need.counts, strict=True))
        return best, Witness(tuple(weights), tuple(most), total, least_cover(need.kinds, most, total))

    def enter(self, column: Column) -> bool:
        """Bring a column in; False when nothing can leave for it (only by rounding)."""
        taken = column[1]
        filled = [(j, t) for j, t in enumerate(taken) if t]
        move = [sum(row[j] * t for j, t in filled) for row in self._inverse]
        leave, ratio = -1, 0.0
        for i, step in enumerate(move):
            if step > EPS:
                this = max(self._x[i], 0.0) / step
                if leave < 0 or this < ratio - EPS or (this <= ratio + EPS and step > move[leave]):
                    leave, ratio = i, this
        if leave < 0:
            return False
        pivot = move[leave]
        lead = [value / pivot for value in self._inverse[leave]]
        for i, step in enumerate(move):
            if i != leave and step:
                self._inverse[i] = [a - step * b for a, b in zip(self._inverse[i], lead, strict=True)]
                self._x[i] -= ratio * step
        self._inverse[leave] = lead
        self._x[leave] = ratio
        self._basis[leave] = column
        return True

    def ways(self) -> tuple[tuple[Load, float], ...]:
        """The boards in use now, most used first."""
        found = [
            (Load(kind, taken[: self._m]), x)
            for (kind, taken), x in zip(self._basis, self._x, strict=True)
            if kind >= 0 and x > EPS
        ]
        return tuple(sorted(found, key=lambda way: (-way[1], way[0].kind, way[0].taken)))
