"""Flatness of a wall: one check for planned and for re-read faces (docs/methods/flatness.md).

Which straight lines over a wall are judged [contract 7], and every placement of a straightedge that breaks
a rule on one of them. ``straightedge`` holds the one profile; its names can be taken from here.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache
from math import gcd, isqrt, lcm

from undertile.framing.straightedge import (
    SCREEN,
    Gap,
    Row,
    Straightedge,
    row_of,
    straightedge,
    violated_row,
    widest_gap,
)

__all__ = [
    "Gap",
    "Line",
    "Row",
    "Straightedge",
    "WallFlatness",
    "WallRow",
    "profiles",
    "straightedge",
    "violated_row",
    "widest_gap",
]

WINDOW_STEP = Fraction(1, 1000)
"""On a sloping line the straightedge's length is rounded up to this, so that a pass is a true pass. [in]"""


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
    """A :class:`Row` over a wall: weights on (member index, height index).

    ``limit`` is what is left of the rule's once ``eaten`` is taken off it: what the dip adds to the gap when
    its stud goes back as it dries [contract 12].
    """

    weights: tuple[tuple[tuple[int, int], Fraction], ...]
    limit: Fraction
    gap: Fraction
    line: Line
    length: Fraction
    eaten: Fraction = Fraction(0)


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
        self._through: dict[tuple[int, int], list[int]] = {}
        for n, line in enumerate(self.lines):
            for cell in line.cells:
                self._through.setdefault(cell, []).append(n)

    def through(self, cells: Iterable[tuple[int, int]]) -> list[int]:
        """Lines (by place in ``lines``) through any of these (member index, height index)."""
        return sorted({n for cell in cells for n in self._through.get(cell, ())})

    def violated(
        self,
        values: Sequence[Sequence[Fraction]],
        floats: Sequence[Sequence[float]] | None = None,
        *,
        among: Iterable[int] | None = None,
        first: bool = False,
        back: Sequence[Fraction] | None = None,
    ) -> list[WallRow]:
        """Every violated row: the worst placement at each reading where some rule is broken.

        Parameters
        ----------
        values : sequence over members of sequences over heights of Fraction
            Faces minus plane, or any faces on one plane. [in]
        floats : the same as floats, optional
            Given when the caller has them; must be the nearest floats. [in]
        among : iterable of int, optional
            Which of ``lines`` to look at; all without it.
        first : bool
            The first row found is enough.
        back : sequence over members of Fraction, optional
            How far each may go back as one piece, no neighbour with it: on a line from stud to stud the gap
            over a reading counts with its stud gone back. [in]

        Returns
        -------
        list of WallRow
            Empty when the wall passes every rule, exactly.
        """
        rough = floats if floats is not None else [[float(v) for v in member] for member in values]
        found: list[WallRow] = []
        for line, edges in self._ready if among is None else [self._ready[n] for n in among]:
            profile = [rough[m][h] for m, h in line.cells]
            spread = max(profile) - min(profile)
            gone = _gone_back(line, back)
            spread += float(max(gone.values(), default=0))
            exact: list[Fraction] | None = None
            for edge, limit, exact_limit, length in edges:
                if spread <= limit - SCREEN:
                    continue
                suspects: list[tuple[int, Fraction | None]]
                suspects = [(at, None) for at in edge.suspects(profile, limit) if at not in gone]
                suspects += [
                    (at, drop)
                    for at, drop in gone.items()
                    if at
                    in edge.suspects([v - float(drop) * (j == at) for j, v in enumerate(profile)], limit)
                ]
                for at, drop in suspects:
                    if exact is None:
                        exact = [values[m][h] for m, h in line.cells]
                    faces = exact if drop is None else [v - drop * (j == at) for j, v in enumerate(exact)]
                    gap = edge.worst_at(at, faces)
                    if gap is None or gap.gap <= exact_limit:
                        continue
                    eaten = (
                        Fraction(0) if drop is None else sum((w for _, w in gap.rests), Fraction(0)) * drop
                    )
                    row = row_of(gap, exact_limit - eaten)
                    cells = tuple((line.cells[j], w) for j, w in row.weights)
                    found.append(WallRow(cells, row.limit, gap.gap - eaten, line, length, eaten))
                    if first:
                        return found
        return found


def _gone_back(line: Line, back: Sequence[Fraction] | None) -> dict[int, Fraction]:
    """The inner readings of a line from stud to stud whose stud goes back as it dries, and how far. [in]"""
    if back is None or line.direction == "up":
        return {}
    inner = enumerate(line.cells[1:-1], 1)
    return {at: back[m] for at, (m, _) in inner if back[m] > 0}
