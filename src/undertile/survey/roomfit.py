"""The adjusted room: frame, offsets, and how its misfit answers to every observation.

The misfit omega is the quadratic l' M l of the observations. Its gradient and the parts M is made of are
kept, so that trying a correction of any readings is a few products and no new adjustment.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from math import sqrt

from undertile.survey.checks import FrameRow, RoomCheck
from undertile.survey.faces import LineKey
from undertile.survey.leastsquares import Matrix, Vector, dot
from undertile.survey.studlines import StudFit


@dataclass(frozen=True)
class Observation:
    """One observation of the room: a line reading, the straightness of a stud, or a check.

    Attributes
    ----------
    place : str
    kind : str
        reading, bend or crown (of lumber), or the kind of the check.
    line : (stud, edge) or None
    index : int
        Its number within its line, or among the checks.
    sigma : float
        [in]
    slope : float
        Change of the observation per inch of change in what was typed (0 for lumber).
    """

    place: str
    kind: str
    line: LineKey | None
    index: int
    sigma: float
    slope: float


@dataclass
class RoomFit:
    """The adjusted room.

    Attributes
    ----------
    fits : mapping of (stud, edge) to StudFit
    checks : list of RoomCheck
    observations : list of Observation
    gradient : list of float
        Half the derivative of omega by each observation.
    diagonal : list of float
        M of each observation with itself.
    omega : float
    freedom : int
    frame : (float, float, float)
        Opening at the back, growth, turn of L; meaningful only where ``known``.
    about : (float, float, float)
        The frame at which the diagonals were made linear.
    known : tuple of bool
    frame_cofactors : list of list of float, 3 x 3
    """

    fits: Mapping[LineKey, StudFit]
    checks: list[RoomCheck]
    observations: list[Observation]
    gradient: Vector
    diagonal: Vector
    omega: float
    freedom: int
    frame: FrameRow
    about: FrameRow
    known: tuple[bool, bool, bool]
    frame_cofactors: Matrix
    weights: Matrix
    pull: Vector
    reach: list[dict[int, float]]
    spreads: list[dict[LineKey, Vector]]

    def between(self, i: int, j: int) -> float:
        """M of two observations."""
        one, two = self.observations[i], self.observations[j]
        total = 0.0
        for k, a in self.reach[i].items():
            line = self.weights[k]
            for m, b in self.reach[j].items():
                total += a * line[m] * b
        if one.line is not None and one.line == two.line:
            total += self.snoop_of(one.line)[one.index][two.index]
        return total

    def gain(self, change: Mapping[int, float]) -> float:
        """How much a change of observations lowers omega (minus: raises it).

        Parameters
        ----------
        change : mapping of observation number to float
            [in]

        Returns
        -------
        float
        """
        slope = sum(d * self.gradient[i] for i, d in change.items())
        return -2 * slope - self.curvature(change)

    def curvature(self, change: Mapping[int, float]) -> float:
        """d' M d: twice by how much omega grows for a change along which it does not slope."""
        hits, own = self._touched(change)
        total = sum([a * dot(self.weights[k], hits) for k, a in enumerate(hits) if a])
        for key, changes in own.items():
            snoop = self.snoop_of(key)
            total += sum([a * b * snoop[i][j] for i, a in changes for j, b in changes])
        return total

    def gradient_after(self, change: Mapping[int, float]) -> Vector:
        """``gradient`` with some observations changed: gradient + M d. [1/in]"""
        if not change:
            return self.gradient
        hits, own = self._touched(change)
        pull = [dot(line, hits) for line in self.weights]
        out = []
        for seen, reach, before in zip(self.observations, self.reach, self.gradient, strict=True):
            value = before
            for k, a in reach.items():
                value += a * pull[k]
            if seen.line is not None and seen.line in own:
                row = self.snoop_of(seen.line)[seen.index]
                for j, d in own[seen.line]:
                    value += row[j] * d
            out.append(value)
        return out

    def _touched(self, change: Mapping[int, float]) -> tuple[Vector, dict[LineKey, list[tuple[int, float]]]]:
        """What a change does to the misses of the checks, and line by line to the lines' own observations."""
        hits = [0.0] * len(self.checks)
        own: dict[LineKey, list[tuple[int, float]]] = {}
        for i, d in change.items():
            for k, a in self.reach[i].items():
                hits[k] += a * d
            seen = self.observations[i]
            if seen.line is not None:
                own.setdefault(seen.line, []).append((seen.index, d))
        return hits, own

    def snoop_of(self, key: LineKey) -> Matrix:
        """M of a line's observations among themselves, by itself."""
        fit = self.fits[key].fit
        return fit.snoop if fit is not None else []

    def standardised(self, i: int) -> float:
        """Baarda's test value of an observation; 0 where nothing checks it."""
        m = self.diagonal[i]
        return -self.gradient[i] / sqrt(m) if self.redundancy(i) > 1e-9 else 0.0

    def redundancy(self, i: int) -> float:
        """Share of an observation that the others check, 0..1."""
        sigma = self.observations[i].sigma
        return self.diagonal[i] * sigma * sigma

    def estimate(self, key: LineKey) -> tuple[Vector, Vector]:
        """Adjusted offsets of a line's known heights, and their standard uncertainties. [in]"""
        fit = self.fits[key]
        if fit.fit is None:
            return [], []
        values = fit.fit.unknowns[: len(fit.known)]  # past them stands the crown
        touching = [(k, spread[key]) for k, spread in enumerate(self.spreads) if key in spread]
        variances = [fit.fit.cofactors[i][i] for i in range(len(values))]
        for k, spread in touching:
            for i in range(len(values)):
                values[i] += spread[i] * self.pull[k]
        for i in range(len(values)):
            variances[i] -= sum(
                one[i] * self.weights[k][m] * two[i] for k, one in touching for m, two in touching
            )
        return values, [sqrt(max(0.0, v)) for v in variances]
