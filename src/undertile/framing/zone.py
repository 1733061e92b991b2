"""Minimum zone: the least band between two parallel lines or planes that holds every reading [1]_.

Straightness of a stud (one coordinate) and flatness of a wall (two), measured in the direction of the
readings. Solved exactly in ``Fraction`` as a small linear program, and handed back with its proof: weights
on the readings that touch the two sides, whose weighted middles coincide (a Radon point). ``proved`` checks
that proof on its own, so that no one has to trust the solver.

References
----------
.. [1] ISO 12781 (flatness) and ISO 12780 (straightness), minimum zone reference. Numbers of the sections
   from memory.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from math import sqrt

_ZERO, _ONE = Fraction(0), Fraction(1)
MOST_POINTS = 2000
"""More readings than this on one wall is not a wall read by hand; the exact answer would take minutes."""


@dataclass(frozen=True)
class Zone:
    """The least zone and what proves it.

    Attributes
    ----------
    width : Fraction
        Distance between the two sides in the direction of the readings. [in]
    slopes : tuple of Fraction, one per coordinate
        0 for a coordinate the readings do not tell (all on one line). [in/in]
    constant : Fraction
        The middle of the zone at the origin. [in]
    high, low : tuple of (int, Fraction)
        Readings on the room side and on the wall side, with weights that add up to 1 on each.
    """

    width: Fraction
    slopes: tuple[Fraction, ...]
    constant: Fraction
    high: tuple[tuple[int, Fraction], ...]
    low: tuple[tuple[int, Fraction], ...]

    def middle(self, point: Sequence[Fraction]) -> Fraction:
        """The middle of the zone at a place. [in]"""
        return self.constant + sum((s * p for s, p in zip(self.slopes, point, strict=True)), _ZERO)

    @property
    def square_width(self) -> float:
        """The width at right angles to the sides: never less than the true least at right angles. [in]"""
        return float(self.width) / sqrt(1 + sum(float(s) ** 2 for s in self.slopes))


def minimum_zone(points: Sequence[Sequence[Fraction]], values: Sequence[Fraction]) -> Zone:
    """The least zone around readings.

    Parameters
    ----------
    points : sequence of sequences of Fraction, all of one length
        Place of each reading: ``(height,)`` on a stud, ``(along, height)`` on a wall. [in]
    values : sequence of Fraction, one per point
        [in]

    Returns
    -------
    Zone

    Raises
    ------
    ValueError
        If there is no reading, the lengths differ, or there are more than ``MOST_POINTS``.
    """
    if not points or len(points) != len(values) or len({len(p) for p in points}) != 1:
        raise ValueError(f"{len(points)} places of one kind need as many readings; {len(values)} came")
    if len(points) > MOST_POINTS:
        raise ValueError(f"{len(points)} readings; a wall read by hand has at most {MOST_POINTS}")
    told, anchors = _independent(points)
    rows = [(_ONE, *(p[i] for i in told)) for p in points]
    # Dual: weights u on the high side, v on the low side, sum u = sum v, equal moments, sum u + v = 1,
    # greatest sum (u - v) value. Column j < n is u_j, column n + j is v_j.
    n, size = len(points), len(told) + 2

    def column(j: int) -> list[Fraction]:
        side = _ONE if j < n else -_ONE
        return [side * entry for entry in rows[j % n]] + [_ONE]

    basis = [anchors[0], n + anchors[0], *anchors[1:]]
    inverse = _inverse([column(j) for j in basis])
    while True:
        price = [values[j] if j < n else -values[j - n] for j in basis]
        dual = [sum((price[i] * inverse[i][k] for i in range(size)), _ZERO) for k in range(size)]
        entering = None
        for j in range(n):
            model = sum((d * entry for d, entry in zip(dual, rows[j], strict=False)), _ZERO)
            if values[j] - model > dual[-1]:
                entering = j
                break
        else:
            for j in range(n):
                model = sum((d * entry for d, entry in zip(dual, rows[j], strict=False)), _ZERO)
                if model - values[j] > dual[-1]:
                    entering = n + j
                    break
        if entering is None:
            break
        # first index in, first index out (Bland 1977): the anchors start at weight 0 and must not cycle
        move = [sum((a * b for a, b in zip(row, column(entering), strict=True)), _ZERO) for row in inverse]
        weight = [row[-1] for row in inverse]
        _, _, leave = min((weight[i] / move[i], basis[i], i) for i in range(size) if move[i] > 0)
        pivot = move[leave]
        inverse[leave] = [entry / pivot for entry in inverse[leave]]
        for i in range(size):
            if i != leave and move[i]:
                inverse[i] = [a - move[i] * b for a, b in zip(inverse[i], inverse[leave], strict=True)]
        basis[leave] = entering
    slopes = [_ZERO] * len(points[0])
    for k, i in enumerate(told):
        slopes[i] = dual[1 + k]
    weights = [(j, 2 * inverse[i][-1]) for i, j in enumerate(basis) if inverse[i][-1]]
    return Zone(
        2 * dual[-1],
        tuple(slopes),
        dual[0],
        tuple(sorted((j, w) for j, w in weights if j < n)),
        tuple(sorted((j - n, w) for j, w in weights if j >= n)),
    )


def proved(zone: Zone, points: Sequence[Sequence[Fraction]], values: Sequence[Fraction]) -> bool:
    """Whether the zone holds every reading and its weights show that no narrower one can, exactly.

    The two sides' weighted middles lie at one place; there any zone must reach from the low mean to the high
    mean of the readings, and that distance is the width.

    Parameters
    ----------
    zone : Zone
    points, values
        As in :func:`minimum_zone`.

    Returns
    -------
    bool
    """
    half = zone.width / 2
    if any(abs(v - zone.middle(p)) > half for p, v in zip(points, values, strict=True)):
        return False
    for side in (zone.high, zone.low):
        if any(w <= 0 for _, w in side) or sum(w for _, w in side) != 1:
            return False
    for i in range(len(points[0])):
        if sum(w * points[j][i] for j, w in zone.high) != sum(w * points[j][i] for j, w in zone.low):
            return False
    return sum(w * values[j] for j, w in zone.high) - sum(w * values[j] for j, w in zone.low) == zone.width


def _independent(points: Sequence[Sequence[Fraction]]) -> tuple[list[int], list[int]]:
    """Coordinates the places tell apart, and as many places + 1 that span them."""
    kept: list[
        tuple[list[Fraction], int]
    ] = []  # reduced differences from the first place, leading coordinate
    anchors = [0]
    for j in range(1, len(points)):
        row = [p - q for p, q in zip(points[j], points[0], strict=True)]
        for reduced, lead in kept:
            if row[lead]:
                factor = row[lead]
                row = [a - factor * b for a, b in zip(row, reduced, strict=True)]
        lead_at = next((i for i, entry in enumerate(row) if entry), None)
        if lead_at is not None:
            kept.append(([entry / row[lead_at] for entry in row], lead_at))
            anchors.append(j)
    return sorted(lead for _, lead in kept), anchors


def _inverse(columns: list[list[Fraction]]) -> list[list[Fraction]]:
    """The inverse of the matrix with these columns (small, regular), by elimination."""
    size = len(columns)
    work = [
        [columns[k][i] for k in range(size)] + [_ONE if i == k else _ZERO for k in range(size)]
        for i in range(size)
    ]
    for k in range(size):
        pivot = next(i for i in range(k, size) if work[i][k])
        work[k], work[pivot] = work[pivot], work[k]
        lead = work[k][k]
        work[k] = [entry / lead for entry in work[k]]
        for i in range(size):
            if i != k and work[i][k]:
                factor = work[i][k]
                work[i] = [a - factor * b for a, b in zip(work[i], work[k], strict=True)]
    return [row[size:] for row in work]
