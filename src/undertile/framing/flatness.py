"""Flatness under a straightedge: one check for planned and for re-read faces (docs/methods/flatness.md).

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

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache
from itertools import pairwise
from math import gcd, isqrt, lcm

WINDOW_STEP = Fraction(1, 1000)
"""On a sloping line the straightedge's length is rounded up to this, so that a pass is a true pass. [in]"""
_SCREEN = 1e-9  # a float gap nearer than this to the limit is decided exactly; readings are tens of inches
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


@dataclass(frozen=True)
class Line:
    """One straight line over a wall's read points [contract 7].

    Attributes
    ----------
    cells : tuple of (member index, height index), along the line
    positions : tuple of Fraction, rising
        The larger of the line's two directions (along or height), so that positions stay exact. [in]
    stretch : Fraction
        Square of (distance along the line / difference of positions), 1 on a member or a height, at most 2.
    """

    cells: tuple[tuple[int, int], ...]
    positions: tuple[Fraction, ...]
    stretch: Fraction = Fraction(1)

    @property
    def direction(self) -> str:
        """``up`` a member, ``along`` a height, or ``across`` both."""
        (m, h), (k, g) = self.cells[0], self.cells[-1]
        return "up" if m == k else "along" if h == g else "across"

    def window(self, length: Fraction) -> Fraction:
        """A straightedge's length in the measure of ``positions``; up to the next 1/1000 in on a slope."""
        if self.stretch == 1:
            return length
        square = length * length / self.stretch / WINDOW_STEP**2
        whole = isqrt(square.numerator // square.denominator)
        return (whole if whole * whole == square else whole + 1) * WINDOW_STEP


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
    return _row(worst, limit)


def _row(gap: Gap, limit: Fraction) -> Row:
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
        floor = limit - _SCREEN
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


@lru_cache(maxsize=64)
def profiles(alongs: tuple[Fraction, ...], heights: tuple[Fraction, ...]) -> tuple[Line, ...]:
    """Every line over a wall that is judged [contract 7].

    Each member over the heights; each height over the members; every other straight line in the
    (along, height) plane through three or more read points. Lines with fewer than three are left out.

    Parameters
    ----------
    alongs, heights : tuple of Fraction, each strictly rising
        [in]

    Returns
    -------
    tuple of Line
    """
    members, rows = len(alongs), len(heights)
    lines = []
    if rows >= 3:
        lines += [Line(tuple((m, h) for h in range(rows)), heights) for m in range(members)]
    if members >= 3:
        lines += [Line(tuple((m, h) for m in range(members)), alongs) for h in range(rows)]
    if rows < 3 or members < 3:
        return tuple(lines)
    unit = lcm(*(v.denominator for v in (*alongs, *heights)))
    xs, zs = [int(a * unit) for a in alongs], [int(h * unit) for h in heights]
    seen: dict[tuple[int, int, int], set[tuple[int, int]]] = {}
    points = [(m, h) for m in range(members) for h in range(rows)]
    for n, (m, h) in enumerate(points):
        for k, g in points[n + 1 :]:
            if k == m or g == h:
                continue
            dx, dz = xs[k] - xs[m], zs[g] - zs[h]  # dx > 0: points run by rising member
            common = gcd(dx, dz)
            dx, dz = dx // common, dz // common
            seen.setdefault((dx, dz, dz * xs[m] - dx * zs[h]), set()).update(((m, h), (k, g)))
    for (dx, dz, _), found in seen.items():
        if len(found) < 3:
            continue
        steep = abs(dz) > dx
        cells = tuple(sorted(found, key=(lambda c: zs[c[1]]) if steep else (lambda c: xs[c[0]])))
        positions = tuple(heights[h] if steep else alongs[m] for m, h in cells)
        lines.append(Line(cells, positions, Fraction(dx * dx + dz * dz, max(dx, abs(dz)) ** 2)))
    return tuple(lines)


@dataclass(frozen=True)
class WallRow:
    """A :class:`Row` over a wall: weights on (member index, height index)."""

    weights: tuple[tuple[tuple[int, int], Fraction], ...]
    limit: Fraction
    gap: Fraction
    line: Line
    length: Fraction


class WallFlatness:
    """All straightedge rules over one wall, made ready once.

    Parameters
    ----------
    alongs, heights : sequence of Fraction, each strictly rising
        [in]
    rules : sequence of (length, limit)
        [in]
    """

    def __init__(
        self,
        alongs: Sequence[Fraction],
        heights: Sequence[Fraction],
        rules: Sequence[tuple[Fraction, Fraction]],
    ) -> None:
        self.lines = profiles(tuple(alongs), tuple(heights))
        self.rules = tuple(rules)
        self._ready = [
            (
                line,
                [
                    (straightedge(line.positions, line.window(w)), float(limit), limit, w)
                    for w, limit in rules
                ],
            )
            for line in self.lines
        ]

    def violated(
        self,
        values: Sequence[Sequence[Fraction]],
        floats: Sequence[Sequence[float]] | None = None,
        *,
        lines: Callable[[Line], bool] | None = None,
    ) -> list[WallRow]:
        """Every violated row: the worst placement at each reading where some rule is broken.

        Parameters
        ----------
        values : sequence over members of sequences over heights of Fraction
            Faces minus plane, or any faces on one plane. [in]
        floats : the same as floats, optional
            Given when the caller has them; must be the nearest floats. [in]
        lines : callable, optional
            Which lines to look at; all without it.

        Returns
        -------
        list of WallRow
            Empty when the wall passes every rule, exactly.
        """
        rough = floats if floats is not None else [[float(v) for v in member] for member in values]
        found: list[WallRow] = []
        for line, edges in self._ready:
            if lines is not None and not lines(line):
                continue
            profile = [rough[m][h] for m, h in line.cells]
            spread = max(profile) - min(profile)
            exact: list[Fraction] | None = None
            for edge, limit, exact_limit, length in edges:
                if spread <= limit - _SCREEN:
                    continue
                for at in edge.suspects(profile, limit):
                    if exact is None:
                        exact = [values[m][h] for m, h in line.cells]
                    gap = edge.worst_at(at, exact)
                    if gap is None or gap.gap <= exact_limit:
                        continue
                    row = _row(gap, exact_limit)
                    cells = tuple((line.cells[j], w) for j, w in row.weights)
                    found.append(WallRow(cells, exact_limit, gap.gap, line, length))
        return found
