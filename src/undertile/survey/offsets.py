"""Offsets of every stud at every height: as read where read, else estimated with a larger uncertainty."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from fractions import Fraction
from math import floor, hypot, sqrt

from undertile.lengths import Length
from undertile.survey.facts import Wall
from undertile.survey.grid import StudGrid, StudLine, WallGrid, state_of, typed
from undertile.survey.result import OffsetAt, PlateOffset, StudOffsets, WallOffsets
from undertile.survey.studlines import LEAN
from undertile.survey.tools import STUD_SCATTER

ESTIMATE_STEP = Fraction(1, 32)
"""Offsets that were not read are given to the nearest of this. [in]"""


@dataclass(frozen=True)
class LineEstimate:
    """One edge of one stud after the adjustment: by height index."""

    value: Mapping[int, float]
    sigma: Mapping[int, float]


Estimates = Mapping[tuple[str, str], LineEstimate]
"""By (stud, edge)."""


def wall_offsets(facts: Wall, grid: WallGrid, estimates: Estimates, sigma: float) -> WallOffsets:
    """Offsets of one wall.

    Parameters
    ----------
    facts : Wall
    grid : WallGrid
    estimates : mapping of (stud, edge) to LineEstimate
        What the adjustment determined.
    sigma : float
        Standard uncertainty of one reading. [in]

    Returns
    -------
    WallOffsets
        A wall where nothing was read has no studs: nothing stands around them to go by.
    """
    studs = tuple(
        StudOffsets(
            stud.name,
            stud.along,
            tuple(_at(grid, stud, h, estimates, sigma) for h in range(len(grid.heights))),
        )
        for stud in grid.studs
    )
    if not any(line.readings for stud in grid.studs for line in stud.lines()):
        studs = ()
    plates = tuple(
        PlateOffset(name, spot.along.inches, spot.height.inches, grid.nominal - spot.reading.inches, sigma)
        for name, spot in facts.plates.items()
        if isinstance(spot.reading, Length)
    )
    top = facts.top.inches if facts.top is not None else None
    return WallOffsets(grid.name, grid.nominal, tuple(grid.heights), studs, plates, top)


def proud_line(grid: WallGrid, stud: StudGrid, h: int) -> StudLine:
    """The edge that counts at a height (convention 2.3): the prouder of the two where both were read."""
    if stud.other is None:
        return stud.first
    first, other = stud.first.cells[h], stud.other.cells[h]
    if isinstance(first, Length) and isinstance(other, Length):
        return stud.first if first.inches <= other.inches else stud.other
    return stud.other if isinstance(other, Length) else stud.first


def _at(grid: WallGrid, stud: StudGrid, h: int, estimates: Estimates, sigma: float) -> OffsetAt:
    line = proud_line(grid, stud, h)
    cell = line.cells[h]
    estimate = estimates.get((stud.name, line.edge))
    adjusted = estimate.value.get(h) if estimate is not None else None
    if isinstance(cell, Length):
        value = grid.nominal - cell.inches
        twist = None
        if stud.other is not None:
            first, other = stud.first.cells[h], stud.other.cells[h]
            if isinstance(first, Length) and isinstance(other, Length):
                twist = other.inches - first.inches  # plus: the first edge is the prouder
        near = float(value) if adjusted is None else adjusted
        return OffsetAt(grid.heights[h], value, sigma, "read", typed(cell), near, twist)
    state = state_of([edge.cells[h] for edge in stud.lines()])
    if estimate is not None and adjusted is not None:
        guess, spread = adjusted, estimate.sigma[h]
        around = _from_neighbours(grid, stud, h, estimates)
        if around is not None:
            guess, spread = _weighted((guess, spread), around)
    else:
        guess, spread = _from_around(grid, stud, h, estimates)
    return OffsetAt(grid.heights[h], _nearest(guess), spread, state, "", guess)


def _weighted(one: tuple[float, float], two: tuple[float, float]) -> tuple[float, float]:
    """Mean of two independent estimates, each with the weight its uncertainty gives it."""
    a, b = 1 / one[1] ** 2, 1 / two[1] ** 2
    return (a * one[0] + b * two[0]) / (a + b), (a + b) ** -0.5


def _nearest(value: float) -> Fraction:
    return floor(Fraction(value) / ESTIMATE_STEP + Fraction(1, 2)) * ESTIMATE_STEP


def _from_around(grid: WallGrid, stud: StudGrid, h: int, estimates: Estimates) -> tuple[float, float]:
    """Estimate and uncertainty where the stud's own readings do not determine a height."""
    own = estimates.get((stud.name, stud.first.edge)) or estimates.get((stud.name, "other edge"))
    level = _from_neighbours(grid, stud, h, estimates)
    if own is None or not own.value:
        return level if level is not None else _from_anywhere(grid, stud, h, estimates)
    nearest = min(own.value, key=lambda k: abs(grid.heights[k] - grid.heights[h]))
    rise = float(abs(grid.heights[nearest] - grid.heights[h]))
    lean = hypot(own.sigma[nearest], STUD_SCATTER * rise / 96, LEAN * rise)
    there = _from_neighbours(grid, stud, nearest, estimates)
    if level is None or there is None:
        return own.value[nearest], hypot(lean, STUD_SCATTER)
    # the stud keeps the distance to its neighbours that it has where it was read
    return own.value[nearest] + level[0] - there[0], hypot(lean, level[1] / sqrt(2))


def _from_neighbours(
    grid: WallGrid, stud: StudGrid, h: int, estimates: Estimates
) -> tuple[float, float] | None:
    """Straight between the nearest studs of the wall known at this height, or as the nearest one stands."""
    known: list[tuple[Fraction, float, float]] = []
    for other in grid.studs:
        if other is stud:
            continue
        estimate = estimates.get((other.name, proud_line(grid, other, h).edge))
        if estimate is not None and h in estimate.value:
            known.append((other.along, estimate.value[h], estimate.sigma[h]))
    if not known:
        return None
    left = max((k for k in known if k[0] <= stud.along), default=None, key=lambda k: k[0])
    right = min((k for k in known if k[0] > stud.along), default=None, key=lambda k: k[0])
    if left is None or right is None:
        only = left or right or known[0]
        return only[1], hypot(only[2], STUD_SCATTER * sqrt(2))
    share = float((stud.along - left[0]) / (right[0] - left[0]))
    value = left[1] * (1 - share) + right[1] * share
    return value, hypot(left[2] * (1 - share), right[2] * share, STUD_SCATTER)


def _from_anywhere(grid: WallGrid, stud: StudGrid, h: int, estimates: Estimates) -> tuple[float, float]:
    """The nearest stud known at any height: the last resort, with twice a stud's scatter."""
    options = [
        (abs(other.along - stud.along), abs(grid.heights[k] - grid.heights[h]), estimate.value[k])
        for other in grid.studs
        for line in other.lines()
        if (estimate := estimates.get((other.name, line.edge))) is not None
        for k in estimate.value
    ]
    return (min(options)[2] if options else 0.0), 2 * STUD_SCATTER
