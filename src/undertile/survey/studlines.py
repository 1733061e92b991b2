"""One stud's readings and the straightness of lumber, adjusted: what a stud alone says of itself.

Unknowns are the offsets at the heights of the wall. With two readings or more the straightness of lumber
(``tools.bend_sigma``) ties the heights together, so that a height not read is still determined, with the
uncertainty it deserves; with one reading only that height is known.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

from undertile.survey.grid import StudLine, WallGrid
from undertile.survey.leastsquares import Adjustment, Design, Row, design
from undertile.survey.tools import CROWN, CROWN_LENGTH, bend_sigma

LEAN = 1 / 8 / 96
"""Out of plumb per inch of height, where a stud was read at one height only (UFGS figure for studs)."""

REACH = 12.0
"""A stud is taken past its highest or lowest known height by no more. [in]"""


@dataclass(frozen=True)
class Bend:
    """Where the straightness of lumber was used: three neighbouring heights (by index) of one stud."""

    low: int
    middle: int
    high: int


@dataclass
class StudFit:
    """One edge of one stud, adjusted by itself.

    Attributes
    ----------
    line : StudLine
    known : list of int
        Heights (by index) that are unknowns of the adjustment, rising; none where nothing was read.
    read : list of int
        Heights with a reading; observation i of the fit is the reading at ``read[i]``.
    bends : list of Bend
        Observation ``len(read) + i`` is the straightness at ``bends[i]``.
    z : list of float
        Height of each unknown. [in]
    """

    line: StudLine
    known: list[int]
    read: list[int]
    bends: list[Bend]
    z: list[float]
    layout: Design | None
    fit: Adjustment | None
    position: dict[int, int] = field(default_factory=dict)
    labels: list[str] = field(default_factory=list)


class StudFits:
    """Adjusts stud after stud; studs read alike share one design."""

    def __init__(self, sigma: float) -> None:
        self.sigma = sigma
        self._designs: dict[tuple[tuple[float, ...], tuple[int, ...]], tuple[Design, list[Bend]]] = {}

    def adjust(self, wall: WallGrid, line: StudLine) -> StudFit:
        """Adjust one edge of one stud of ``wall``."""
        readings = line.readings
        read = list(readings)
        known = list(range(len(wall.heights))) if len(read) > 1 else list(read)
        z = [float(wall.heights[h]) for h in known]
        out = StudFit(line, known, read, [], z, None, None, {h: i for i, h in enumerate(known)}, wall.labels)
        if not read:
            return out
        key = (tuple(z), tuple(out.position[h] for h in read))
        if key not in self._designs:
            self._designs[key] = self._design(z, key[1])
        out.layout, out.bends = self._designs[key]
        observed = [float(wall.nominal - length.inches) for length in readings.values()]
        out.fit = out.layout.fit(observed + [0.0] * (len(out.layout.rows) - len(observed)))
        return out

    def _design(self, z: Sequence[float], read: Sequence[int]) -> tuple[Design, list[Bend]]:
        rows: list[Row] = [{i: 1.0} for i in read]
        sigmas = [self.sigma] * len(read)
        bends = [Bend(i - 1, i, i + 1) for i in range(1, len(z) - 1)]
        crown = len(z)  # one more unknown: the stud's own crown, common to all its bends
        for bend in bends:
            below, above = z[bend.middle] - z[bend.low], z[bend.high] - z[bend.middle]
            span = below + above
            row = {bend.low: -above / span, bend.middle: 1.0, bend.high: -below / span}
            rows.append(row | {crown: -4 * below * above / CROWN_LENGTH**2})
            sigmas.append(bend_sigma(below, above))
        if bends:
            rows.append({crown: 1.0})
            sigmas.append(CROWN)
        return design(rows, sigmas, len(z) + bool(bends)), bends


def up_the_stud(z: Sequence[float], at: float) -> tuple[Row, float] | None:
    """How a stud's face at a height follows from its face at the known heights.

    Parameters
    ----------
    z : sequence of float
        Known heights, rising. [in]
    at : float
        Height asked for. [in]

    Returns
    -------
    (dict, float) or None
        Weight of each known height (by position), and the standard deviation lumber adds. None when the
        height is more than ``REACH`` past the known ones.
    """
    if not z or at < z[0] - REACH or at > z[-1] + REACH:
        return None
    for i, value in enumerate(z):
        if abs(at - value) < 1e-9:
            return {i: 1.0}, 0.0
    if len(z) == 1:
        return {0: 1.0}, LEAN * abs(at - z[0])
    if at < z[0] or at > z[-1]:
        near, next_ = (0, 1) if at < z[0] else (len(z) - 1, len(z) - 2)
        past, leg = abs(at - z[near]), abs(z[next_] - z[near])
        share = past / leg
        return {near: 1.0 + share, next_: -share}, bend_sigma(past, leg) * (past + leg) / leg
    i = next(i for i in range(1, len(z)) if at < z[i])
    below, above = at - z[i - 1], z[i] - at
    span = below + above
    return {i - 1: above / span, i: below / span}, bend_sigma(below, above)
