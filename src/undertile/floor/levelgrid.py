"""Where the floor under the pan is read: the footprint, places laid out to walk, places still missing."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from math import lcm

from undertile.floor.facts import Level
from undertile.floor.levelling import Ground
from undertile.lengths import MM, Unit

ZERO = Fraction(0)
GRID = Fraction(12)
"""Readings no farther apart, or what lies between is not shown (common practice). [in]"""
MARKS: dict[Unit, Fraction] = {"in": Fraction(1), "mm": 10 * MM}
"""Places to read are proposed on these. [in]"""


@dataclass(frozen=True)
class Footprint:
    """Where the pan stands. [in]"""

    left: Fraction
    right: Fraction
    back: Fraction
    front: Fraction

    def holds(self, x: Fraction, y: Fraction) -> bool:
        """Whether a place lies under the pan, its edges too."""
        return self.left <= x <= self.right and self.back <= y <= self.front


def footprint_of(level: Level, pan: tuple[Fraction | None, Fraction | None]) -> Footprint | None:
    """Where the pan stands, as entered or by its own size; None where neither is known. [in]"""
    left = ZERO if level.left is None else level.left.inches
    back = ZERO if level.back is None else level.back.inches
    right = level.right.inches if level.right is not None else (None if pan[0] is None else left + pan[0])
    front = level.front.inches if level.front is not None else (None if pan[1] is None else back + pan[1])
    if right is None or front is None:
        return None
    return Footprint(left, right, back, front)


def grid_places(
    level: Level, pan: tuple[Fraction | None, Fraction | None], unit: Unit = "in"
) -> tuple[tuple[str, Fraction, Fraction], ...]:
    """Where to read the floor under the pan, in the order it is walked: name, from the left, from the back.

    Rows from the back wall out, every second one walked back, on whole inches or centimeters but at the
    edges; no spot is left farther from a reading than the grid allows. Empty without a footprint.
    """
    ground = footprint_of(level, pan)
    if ground is None or ground.right <= ground.left or ground.front <= ground.back:
        return ()
    grid = GRID if level.grid is None else level.grid.inches
    xs = _on_marks(ground.left, ground.right, grid, MARKS[unit])
    ys = _on_marks(ground.back, ground.front, grid, MARKS[unit])
    out = []
    for row, y in enumerate(ys):
        line = [(f"{_letter(column)}{row + 1}", x, y) for column, x in enumerate(xs)]
        out += line if row % 2 == 0 else line[::-1]
    return tuple(out)


def _letter(column: int) -> str:
    """a to z, then aa, ab."""
    return ("" if column < 26 else _letter(column // 26 - 1)) + chr(ord("a") + column % 26)


def _on_marks(low: Fraction, high: Fraction, grid: Fraction, mark: Fraction) -> list[Fraction]:
    """From edge to edge, no farther apart than the grid, on whole marks between."""
    apart = max(grid // mark * mark, mark)  # rounded to marks, two neighbors stay so near
    return [
        each if each in (low, high) else round(each / mark) * mark for each in _stations(low, high, apart)
    ]


def missing(level: Level, ground: Footprint, places: Sequence[Ground]) -> Iterator[tuple[Fraction, Fraction]]:
    """Where to read so that no spot under the pan is farther from a reading than on a grid asked for."""
    grid = GRID if level.grid is None else level.grid.inches
    spots = [
        (x, y)
        for y in _stations(ground.back, ground.front, grid / 4)
        for x in _stations(ground.left, ground.right, grid / 4)
    ]
    # whole numbers: the same comparisons, many times faster than fractions
    scale = lcm(*(each.denominator for pair in (*spots, *((p.x, p.y) for p in places)) for each in pair))
    free = {(int(x * scale), int(y * scale)): (x, y) for x, y in spots}
    read = [(int(p.x * scale), int(p.y * scale)) for p in places]
    near = {(x, y): min([(x - px) ** 2 + (y - py) ** 2 for px, py in read]) for x, y in free}
    far = grid * grid / 2 * scale * scale
    while True:  # the farthest from every reading first: corners before what lies between
        spot = max(near, key=lambda each: (near[each], each))
        if near[spot] <= far:
            return
        yield free[spot]
        for each in near:
            near[each] = min(near[each], (each[0] - spot[0]) ** 2 + (each[1] - spot[1]) ** 2)


def _stations(low: Fraction, high: Fraction, step: Fraction) -> list[Fraction]:
    many = max(int(-(-(high - low) // step)), 1)
    return [low + (high - low) * k / many for k in range(many + 1)]
