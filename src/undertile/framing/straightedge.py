"""The widest gap under a straightedge on one profile, exact at every placement (docs/methods/flatness.md).

A profile is the face along one straight line, read at a few points and taken straight between them; its
values stand toward the room. For every placement of a straightedge of the rule's length the gap is the
upper hull of what it covers minus the profile [1]_. The straightedge slides: its ends may lie between
readings, and the worst place is found exactly, in ``Fraction`` inches. Floats only screen, with a margin.

Why few placements are enough. The gap at a reading is a chord between two rest points minus that reading,
the rests at most one straightedge apart. With one rest held, the chord's height over the reading is
monotone in the other rest as long as that rest stays on one straight piece; so at the worst place both
rests are readings, or they are exactly one straightedge apart. In the second case the height is a
quadratic in the slide on each stretch where both rests stay on their pieces: its ends and its vertex.

References
----------
.. [1] ANSI A108.02 section 4.2.2: gap below a straightedge that rests on the high points.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache
from itertools import pairwise

SCREEN = 1e-9
"""A float gap nearer than this to the limit is decided exactly; readings are tens of inches. [in]"""
_ZERO = Fraction(0)


@dataclass(frozen=True)
class Gap:
    """The widest gap of a profile.

    Attributes
    ----------
    gap : Fraction
        ``sum(w * (values[j] - values[at]) for j, w in rests)``; 0 when the straightedge never bridges. [in]
    at : int or None
        The reading under the straightedge; None when the gap is 0.
    rests : tuple of (int, Fraction)
        Positive weights on the other readings; a rest between two readings is shared by both.
    placement : tuple of (Fraction, Fraction) or None
        Where the straightedge rests, left and right, in the positions' own measure. [in]
    """

    gap: Fraction
    at: int | None
    rests: tuple[tuple[int, Fraction], ...] = ()
    placement: tuple[Fraction, Fraction] | None = None


@dataclass(frozen=True)
class Row:
    """One placement as a linear demand: ``sum(w * values[j]) <= limit`` for every profile that passes.

    ``weights`` are positive at the rests, negative at exactly one reading (the dip), and add up to 0.
    """

    weights: tuple[tuple[int, Fraction], ...]
    limit: Fraction


def widest_gap(positions: Sequence[Fraction], values: Sequence[Fraction], length: Fraction) -> Gap | None:
    """The widest gap under a straightedge of ``length``, over every placement of it.

    Parameters
    ----------
    positions : sequence of Fraction, strictly rising
        Where the readings lie along the line. [in]
    values : sequence of Fraction, one per position
        Plus toward the room. [in]
    length : Fraction
        Of the straightedge, > 0; the whole profile when it is shorter. [in]

    Returns
    -------
    Gap or None
        None with fewer than three readings: nothing can lie under a straightedge.

    Raises
    ------
    ValueError
        If the positions do not rise, the lengths differ, or ``length`` is not positive.
    """
    edge = straightedge(tuple(positions), length)
    if len(values) != len(edge.positions):
        raise ValueError(f"{len(edge.positions)} positions need as many values; {len(values)} came")
    if len(edge.positions) < 3:
        return None
    best = Gap(_ZERO, None)
    for at in range(1, len(values) - 1):
        found = edge.worst_at(at, values)
        if found is not None and found.gap > best.gap:
            best = found
    return best


def violated_row(
    positions: Sequence[Fraction], values: Sequence[Fraction], length: Fraction, limit: Fraction
) -> Row | None:
    """The linear row at the worst placement if its gap is over ``limit``; None when the profile passes.

    Parameters
    ----------
    positions, values, length
        As in :func:`widest_gap`.
    limit : Fraction
        Widest gap allowed. [in]

    Returns
    -------
    Row or None

    Raises
    ------
    ValueError
        As :func:`widest_gap`.
    """
    worst = widest_gap(positions, values, length)
    if worst is None or worst.at is None or worst.gap <= limit:
        return None
    return row_of(worst, limit)


def row_of(gap: Gap, limit: Fraction) -> Row:
    """A gap as a linear demand on the profile."""
    assert gap.at is not None
    dip = (gap.at, -sum((w for _, w in gap.rests), _ZERO))
    return Row(tuple(sorted((*gap.rests, dip))), limit)


class Straightedge:
    """A straightedge over fixed positions, made ready once: what does not depend on the values.

    Attributes
    ----------
    positions : tuple of Fraction
    length : Fraction
    placements : list per reading of lists of (left rest, right rest)
        Fixed places to try: pairs of readings, and one straightedge apart with one end over a reading.
    rows : list per reading of lists of (reading, weight)
        The gap at each placement: sum of weight x (value - value at the reading).
    slides : list per reading of lists of (left piece, right piece, from, to)
        Stretches of the left rest over which both rests stay on one piece, one straightedge apart.
    """

    def __init__(self, positions: tuple[Fraction, ...], length: Fraction) -> None:
        if length <= 0:
            raise ValueError(f"a straightedge has a length over 0; {length} in came")
        for before, after in pairwise(positions):
            if after <= before:
                raise ValueError(f"positions must rise; {after} in follows {before} in")
        self.positions, self.length = positions, length
        self.xs = [float(x) for x in positions]
        count = len(positions)
        self.placements: list[list[tuple[Fraction, Fraction]]] = [[] for _ in range(count)]
        self.slides: list[list[tuple[int, int, Fraction, Fraction]]] = [[] for _ in range(count)]
        self.reach: list[tuple[int, int]] = [(0, count - 1)] * count
        for at in range(1, count - 1):
            self._prepare(at)
        self.rows = [[self._weights(at, a, b) for a, b in self.placements[at]] for at in range(count)]
        self._float_rows = [
            [tuple((j, float(w)) for j, w in row) for row in self.rows[at]] for at in range(count)
        ]
        self._float_slides = [
            [(i, j, float(low), float(high)) for i, j, low, high in self.slides[at]] for at in range(count)
        ]

    def _prepare(self, at: int) -> None:
        xs, length, x = self.positions, self.length, self.positions[at]
        left = [a for a in xs[:at] if a >= x - length]
        right = [b for b in xs[at + 1 :] if b <= x + length]
        places = self.placements[at]
        places += [(a, b) for a in left for b in right if b - a <= length]
        low, high = max(xs[0], x - length), min(x, xs[-1] - length)
        if low < high or (low == high and xs[0] < low < x):
            stops = sorted(
                {low, high, *(a for a in left if low < a < high)}
                | {b - length for b in right if low < b - length < high}
            )
            known = set(places)
            places += [(a, a + length) for a in stops if a < x < a + length and (a, a + length) not in known]
            for start, end in pairwise(stops):
                middle = (start + end) / 2
                self.slides[at].append((self._piece(middle), self._piece(middle + length), start, end))
        first = max((i for i in range(at) if xs[i] <= x - length), default=0)
        last = min((i for i in range(at + 1, len(xs)) if xs[i] >= x + length), default=len(xs) - 1)
        self.reach[at] = (first, last)

    def _piece(self, x: Fraction) -> int:
        """Index of the straight piece that holds x."""
        xs = self.positions
        return max(i for i in range(len(xs) - 1) if xs[i] <= x)

    def _share(self, x: Fraction) -> tuple[tuple[int, Fraction], ...]:
        """The profile at x as weights on readings."""
        xs = self.positions
        if x == xs[-1]:
            return ((len(xs) - 1, Fraction(1)),)
        i = self._piece(x)
        part = (x - xs[i]) / (xs[i + 1] - xs[i])
        return ((i, 1 - part), (i + 1, part)) if part else ((i, Fraction(1)),)

    def _weights(self, at: int, a: Fraction, b: Fraction) -> tuple[tuple[int, Fraction], ...]:
        """Weights w on readings other than ``at``: the gap there is sum w (value - value at ``at``)."""
        part = (self.positions[at] - a) / (b - a)
        weights: dict[int, Fraction] = {}
        for rest, share in ((a, 1 - part), (b, part)):
            for j, w in self._share(rest):
                if j != at:
                    weights[j] = weights.get(j, _ZERO) + share * w
        return tuple(sorted(weights.items()))

    def _vertex(self, at: int, values: Sequence[Fraction], i: int, j: int) -> Fraction | None:
        """Left rest where the gap is widest while the rests lie on pieces i and j; None if at no vertex."""
        xs = self.positions
        slope = (values[i + 1] - values[i]) / (xs[i + 1] - xs[i])
        other = (values[j + 1] - values[j]) / (xs[j + 1] - xs[j])
        if other <= slope:
            return None
        start = values[i] - slope * xs[i]
        end = values[j] - other * xs[j] + other * self.length
        x = xs[at]
        return (start + slope * (self.length - x) + other * x - end) / (2 * (other - slope))

    def worst_at(self, at: int, values: Sequence[Fraction]) -> Gap | None:
        """The widest gap over reading ``at``; None where the profile does not bend toward the wall there.

        Parameters
        ----------
        at : int
            Not the first or last reading.
        values : sequence of Fraction
            [in]

        Returns
        -------
        Gap or None
        """
        xs = self.positions
        before = (values[at] - values[at - 1]) / (xs[at] - xs[at - 1])
        after = (values[at + 1] - values[at]) / (xs[at + 1] - xs[at])
        if after <= before:  # a bend toward the room: the gap is wider at a neighbour
            return None
        best: tuple[Fraction, Fraction, Fraction] | None = None
        for (a, b), row in zip(self.placements[at], self.rows[at], strict=True):
            gap = sum((w * (values[j] - values[at]) for j, w in row), _ZERO)
            if best is None or gap > best[0]:
                best = (gap, a, b)
        for i, j, low, high in self.slides[at]:
            vertex = self._vertex(at, values, i, j)
            if vertex is None or not low < vertex < high:
                continue
            row = self._weights(at, vertex, vertex + self.length)
            gap = sum((w * (values[k] - values[at]) for k, w in row), _ZERO)
            if best is None or gap > best[0]:
                best = (gap, vertex, vertex + self.length)
        if best is None or best[0] <= 0:
            return None
        gap, a, b = best
        return Gap(gap, at, tuple((j, w) for j, w in self._weights(at, a, b) if w), (a, b))

    def suspects(self, values: Sequence[float], limit: float) -> list[int]:
        """Readings where the gap may be over ``limit``: a float screen that never misses one.

        Parameters
        ----------
        values : sequence of float
            [in]
        limit : float
            [in]

        Returns
        -------
        list of int
        """
        floor = limit - SCREEN
        if len(values) < 3 or max(values) - min(values) <= floor:
            return []
        xs, length = self.xs, self.length
        found = []
        for at in range(1, len(values) - 1):
            here = values[at]
            first, last = self.reach[at]
            if max(max(values[first:at]), max(values[at + 1 : last + 1])) - here <= floor:
                continue
            if any(sum([w * (values[j] - here) for j, w in row]) > floor for row in self._float_rows[at]):
                found.append(at)
                continue
            x, reach = xs[at], float(length)
            for i, j, low, high in self._float_slides[at]:
                slope = (values[i + 1] - values[i]) / (xs[i + 1] - xs[i])
                other = (values[j + 1] - values[j]) / (xs[j + 1] - xs[j])
                if other <= slope:
                    continue
                start = values[i] - slope * xs[i]
                end = values[j] - other * xs[j] + other * reach
                a = (start + slope * (reach - x) + other * x - end) / (2 * (other - slope))
                a = min(max(a, low), high)
                part = (x - a) / reach
                gap = (1 - part) * (start + slope * a) + part * (end + other * a) - here
                if gap > floor:
                    found.append(at)
                    break
        return found


@lru_cache(maxsize=4096)
def straightedge(positions: tuple[Fraction, ...], length: Fraction) -> Straightedge:
    """A :class:`Straightedge` made ready, kept for the next profile with the same positions."""
    return Straightedge(positions, length)
