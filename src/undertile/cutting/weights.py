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
FRESH = 40
"""Steps after which the worth of the rows is worked out anew, against rounding."""
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


class Walk:
    """Revised simplex with an explicit inverse; rows are the sizes, then the kinds that have a count."""

    def __init__(self, need: Need, first: Witness) -> None:
        self.need = need
        self._witness = first
        self._step = 0
        self.top = float(max(kind.cost for kind in need.kinds))
        self._counted = [k for k, kind in enumerate(need.kinds) if kind.count is not None]
        self._m, self._q = len(need.sizes), len(self._counted)
        rows = self._m + self._q
        endless = [k for k, kind in enumerate(need.kinds) if kind.count is None]
        self._basis: list[Column] = []
        self._x: list[float] = []
        self._duals: list[float] = []
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

    def go(self, enough: int, *, to_end: bool = False) -> Relaxed:
        """Walk on until the end, or a witness proves ``enough``.

        Parameters
        ----------
        enough : int
            The cost of an answer known: no bound can be more.
        to_end : bool
            Go on where the bound can no longer rise: what is in use then is nearer to whole boards.
        """
        most = 60 * (len(self.need.sizes) + 2) + 200
        while self._step < most:
            self._step += 1
            if not to_end and self._witness.bound >= self.value() - EPS * self.top * 1000:
                break  # the program's end is no higher than where it stands, and bounds are whole
            duals = self.duals(fresh=not self._duals or self._step % FRESH == 0)
            weights = [max(0, int(value / self.top * SCALE + 0.5)) for value in duals[: self._m]]
            entering, witness = self.price(duals, weights)
            if witness is not None and witness.bound > self._witness.bound:
                self._witness = witness
                if witness.bound >= enough:
                    break
            if entering is None or not self.enter(entering):
                break
        return Relaxed(self._witness, self.ways())

    def _cost(self, column: Column) -> float:
        return 0.0 if column[0] < 0 else float(self.need.kinds[column[0]].cost)

    def value(self) -> float:
        """The cost of the boards in use now, parts of boards too."""
        return sum(self._cost(column) * x for column, x in zip(self._basis, self._x, strict=True))

    def duals(self, *, fresh: bool) -> list[float]:
        """What one more of each row is worth; ``fresh``: worked out anew, not carried along."""
        if not fresh:
            return self._duals
        self._duals = out = [0.0] * len(self._basis)
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
        gain = self._cost(column) - sum(self._duals[j] * t for j, t in filled)
        self._duals = [a + gain * b for a, b in zip(self._duals, lead, strict=True)]
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
