"""The straightedge rule of the framing contract [contract 7], checked exactly and apart from the product.

A profile is the residual r along one straight line through read points, taken straight between them. The
rule (length W, gap) says: for every placement of a window of length W the upper hull of the profile inside
it, less the profile, is at most the gap. The upper hull at a read point p is the highest chord from a point
x before p to a point y after it with y - x <= W, so the rule is the family of linear rows

    (r(x) (y - p) + r(y) (p - x)) / (y - x) - r(p) <= gap        for all x < p < y, y - x <= W,

and between read points the hull and the profile are both straight, so only read points p count. On a pair
of straight pieces the chord is monotone in x and in y, so the worst pair is two read points, or a window of
full length whose ends slide: a quadratic in the place of the window, worst at an end of its interval or at
its vertex. All in ``Fraction``.

On a slanting line places are counted along the larger of its two directions, and W in that measure, W times
larger / distance, is rounded up to 1/1000 in: the contract's own rule, so that every row is rational.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from fractions import Fraction
from math import isqrt

from undertile.framing.problem import WallProblem

Spot = tuple[int, int]
"""(index of the member, index of the height)."""
_MARK = 1000
"""A window on a slanting line is rounded up to one part in this of an inch [contract 7]."""


@dataclass(frozen=True)
class Line:
    """Read points on one straight line of a wall.

    Attributes
    ----------
    spots : tuple of Spot
        In order.
    at : tuple of Fraction
        Place of each on the line: height or ``along``, whichever the line runs further in. [in]
    stretch : Fraction
        Square of the true length of one inch of ``at``: 1, or 1 + slope^2 on a slanting line.
    """

    spots: tuple[Spot, ...]
    at: tuple[Fraction, ...]
    stretch: Fraction = Fraction(1)

    def window(self, length: Fraction) -> Fraction:
        """Length of a straightedge counted in ``at`` [contract 7]. [in]"""
        if self.stretch == 1:
            return length
        square = length * length * _MARK * _MARK / self.stretch
        return Fraction(isqrt(-(-square.numerator // square.denominator) - 1) + 1, _MARK)


@dataclass(frozen=True)
class Row:
    """One chord of the rule: ``sum of coefficient x residual <= gap``, implied by [contract 7]."""

    coefficients: tuple[tuple[Spot, Fraction], ...]
    gap: Fraction
    over: Fraction
    """By how much the profile it was found on breaks it. [in]"""
    dries: tuple[Spot, Fraction] | None = None
    """The read point whose stud goes back as it dries, and the weight that counts with [contract 12]."""


def lines_of(wall: WallProblem) -> tuple[Line, ...]:
    """Every straight line of a wall that has a rule: members, heights, and slanting lines of three or more.

    A line of two read points is left out: a straight profile has no gap.
    """
    along = [member.along for member in wall.members]
    heights = wall.heights
    found: list[Line] = []
    if len(heights) > 2:
        found += [Line(tuple((i, h) for h in range(len(heights))), heights) for i in range(len(along))]
    if len(along) > 2:
        found += [Line(tuple((i, h) for i in range(len(along))), tuple(along)) for h in range(len(heights))]
    slanting: dict[tuple[Fraction, Fraction], set[Spot]] = {}
    for i in range(len(along)):
        for j in range(i + 1, len(along)):
            if along[i] == along[j]:
                continue
            for h in range(len(heights)):
                for k in range(len(heights)):
                    if h != k:
                        slope = (heights[k] - heights[h]) / (along[j] - along[i])
                        key = (slope, heights[h] - slope * along[i])
                        slanting.setdefault(key, set()).update({(i, h), (j, k)})
    for (slope, _), spots in sorted(slanting.items()):
        if len(spots) > 2:
            if abs(slope) > 1:
                order = sorted(spots, key=lambda spot: spot[1])
                found.append(Line(tuple(order), tuple(heights[h] for _, h in order), 1 + 1 / slope**2))
            else:
                order = sorted(spots, key=lambda spot: spot[0])
                found.append(Line(tuple(order), tuple(along[i] for i, _ in order), 1 + slope**2))
    return tuple(found)


def worst_at(
    line: Line, values: list[Fraction], p: int, window: Fraction
) -> tuple[Fraction, Fraction, Fraction]:
    """The widest gap under a straightedge at read point ``p`` of a profile, and the chord that shows it.

    Parameters
    ----------
    line : Line
    values : list of Fraction, one per read point
        [in]
    p : int
        Inner read point.
    window : Fraction
        Length of the straightedge counted in ``line.at``. [in]

    Returns
    -------
    gap, x, y : Fraction
        The gap and both ends of the chord, in ``line.at``; a gap of 0 or less means none. [in]
    """
    at = line.at
    here, floor = at[p], values[p]
    best = (Fraction(0), here, here)

    def consider(x: Fraction, u: Fraction, y: Fraction, v: Fraction) -> None:
        nonlocal best
        if x < here < y:
            gap = (u * (y - here) + v * (here - x)) / (y - x) - floor
            if gap > best[0]:
                best = (gap, x, y)

    for i in range(p):
        for j in range(p + 1, len(at)):
            if at[j] - at[i] <= window:
                consider(at[i], values[i], at[j], values[j])
    for i in range(p):
        rise = (values[i + 1] - values[i]) / (at[i + 1] - at[i])
        for j in range(p, len(at) - 1):
            first = max(at[i], at[j] - window)
            last = min(at[i + 1], at[j + 1] - window)
            if first > last:
                continue
            climb = (values[j + 1] - values[j]) / (at[j + 1] - at[j])

            def left(x: Fraction, i: int = i, rise: Fraction = rise) -> Fraction:
                return values[i] + rise * (x - at[i])

            def right(y: Fraction, j: int = j, climb: Fraction = climb) -> Fraction:
                return values[j] + climb * (y - at[j])

            places = [first, last]
            if rise != climb:
                # d/dx of left(x) (x + W - p) + right(x + W) (p - x) = 0; both are straight in x
                a, c = left(Fraction(0)), right(window)
                vertex = (rise * (here - window) - a - climb * here + c) / (2 * (rise - climb))
                if first < vertex < last:
                    places.append(vertex)
            for x in places:
                consider(x, left(x), x + window, right(x + window))
    return best


def row_of(line: Line, p: int, x: Fraction, y: Fraction, gap: Fraction, over: Fraction) -> Row:
    """The chord from x to y at read point p as a row over residuals."""
    here = line.at[p]
    weights: dict[Spot, Fraction] = {line.spots[p]: Fraction(-1)}
    for place, share in ((x, (y - here) / (y - x)), (y, (here - x) / (y - x))):
        i = max(k for k in range(len(line.at)) if line.at[k] <= place)
        if line.at[i] == place:
            weights[line.spots[i]] = weights.get(line.spots[i], Fraction(0)) + share
        else:
            part = (place - line.at[i]) / (line.at[i + 1] - line.at[i])
            for k, weight in ((i, 1 - part), (i + 1, part)):
                weights[line.spots[k]] = weights.get(line.spots[k], Fraction(0)) + share * weight
    return Row(tuple(sorted(weights.items())), gap, over)


def broken_rows(
    lines: tuple[Line, ...],
    residuals: dict[Spot, Fraction],
    rules: tuple[tuple[Fraction, Fraction], ...],
    back: dict[int, Fraction] | None = None,
) -> list[Row]:
    """For each line, rule and read point that breaks the rule, its worst chord.

    Parameters
    ----------
    lines : tuple of Line
    residuals : dict
        r at every read point. [in]
    rules : tuple of (length, gap)
        [in]
    back : dict of Fraction by member, optional
        How far a face may still go back as its stud dries; a stud goes back as one piece, so only a line
        from stud to stud asks for it [contract 12]. [in]
    """
    rows: list[Row] = []
    for line in lines:
        values = [residuals[spot] for spot in line.spots]
        top = max(values)
        from_stud_to_stud = len({i for i, _ in line.spots}) > 1
        for length, gap in rules:
            window = line.window(length)
            for p in range(1, len(values) - 1):
                gone = (back or {}).get(line.spots[p][0], Fraction(0)) if from_stud_to_stud else Fraction(0)
                if top - values[p] + gone <= gap:
                    continue  # no chord stands higher than the highest read point
                dried = [*values[:p], values[p] - gone, *values[p + 1 :]]
                found, x, y = worst_at(line, dried, p, window)
                if found > gap:
                    row = row_of(line, p, x, y, gap, found - gap)
                    weight = -dict(row.coefficients)[line.spots[p]]
                    rows.append(replace(row, dries=(line.spots[p], weight)) if gone else row)
    return rows
