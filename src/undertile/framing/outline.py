"""Planes by straight lines alone: what demands, bounds, plates and the reach of treatments leave of them.

Every row here is one that any plan meets, with leans anywhere between the least and the most offered. So when
the rows contradict each other there is no plan, at once and exactly; when they do not, their point is a first
guess of planes to look at.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping, Sequence
from fractions import Fraction

from undertile.framing.exactlp import Row, find_point, whole_row
from undertile.framing.plan import Plane
from undertile.framing.problem import SIXTEENTH, Demand, Member, PlateSpot, StepTerm, WallProblem

OVER = Fraction(96)
"""A lean is told over 8 ft. [in]"""
FAR = 1000
"""No plane lies so far behind its nominal. [in]"""
CUT, CUT_SISTERED = Fraction(1, 4), Fraction(1, 2)
ADDED, SISTERED, BEDDED, KNOCKED = Fraction(3, 4), Fraction(3, 2), Fraction(3, 16), Fraction(3, 8)
"""Most that each treatment takes off or adds [contract 5]. [in]"""

Coefficients = list[Fraction]


class Outline:
    """Some walls and demands, as rows over each wall's T at two places and its lean.

    Parameters
    ----------
    walls : sequence of WallProblem
    demands : sequence of Demand
    channelled : collection of str
        Walls that are channelled whole; plates do not matter there [contract 8].
    """

    def __init__(
        self, walls: Sequence[WallProblem], demands: Sequence[Demand], channelled: Collection[str] = ()
    ) -> None:
        self.walls = list(walls)
        self.channelled = channelled
        self.at = {wall.name: 3 * k for k, wall in enumerate(self.walls)}
        self.rows: list[Row] = []
        for wall in self.walls:
            self._wall(wall)
        for demand in demands:
            self._demand(demand)

    def planes(self, leans: Mapping[str, Fraction] | None = None) -> dict[str, Plane] | None:
        """Planes that meet every row, least room lost; None when there are none.

        Parameters
        ----------
        leans : mapping of wall to lean, optional
            The lean each wall has. [in/in]
        """
        rows = list(self.rows)
        for name, lean in (leans or {}).items():
            for sign in (1, -1):
                held = self._none()
                held[self.at[name] + 2] = Fraction(sign)
                rows.append(whole_row(held, sign * lean * OVER))
        size = 3 * len(self.walls)
        cost = [0 if j % 3 == 2 else 1 for j in range(size)]
        point = find_point(rows, [-FAR] * size, cost)
        if point is None:
            return None
        out = {}
        for wall in self.walls:
            k = self.at[wall.name]
            a, b = _ends(wall)
            skew = (point[k + 1] - point[k]) / (b - a)
            lean = point[k + 2] / OVER
            out[wall.name] = Plane(wall.name, point[k] - skew * a, skew, lean, wall.step)
        return out

    def _none(self) -> Coefficients:
        return [Fraction(0)] * (3 * len(self.walls))

    def _spot(self, wall: WallProblem, along: Fraction, height: Fraction) -> Coefficients:
        """T at a spot of a wall."""
        out = self._none()
        k = self.at[wall.name]
        a, b = _ends(wall)
        share = (along - a) / (b - a)
        out[k], out[k + 1], out[k + 2] = 1 - share, share, height / OVER
        return out

    def _between(self, row: Coefficients, low: Fraction | None, high: Fraction | None) -> None:
        if high is not None:
            self.rows.append(whole_row(row, high))
        if low is not None:
            self.rows.append(whole_row([-c for c in row], -low))

    def _demand(self, demand: Demand) -> None:
        total = self._none()
        for name, along, height, c in demand.parts:
            wall = self.walls[self.at[name] // 3]
            for j, value in enumerate(self._spot(wall, along, height)):
                total[j] += c * value
        if any(total):
            self._between(total, demand.low, demand.high)

    def _wall(self, wall: WallProblem) -> None:
        lean = self._none()
        lean[self.at[wall.name] + 2] = Fraction(1)
        self._between(lean, min(wall.leans) * OVER, max(wall.leans) * OVER)
        for member in (wall.members[0], wall.members[-1]):
            self._between(self._spot(wall, member.along, Fraction(0)), wall.t_low, wall.t_high)
        top = max((z for z, f in zip(wall.heights, wall.flange, strict=True) if f), default=None)
        for term in wall.terms:
            step = Fraction(0) if top is not None and term.height <= top else wall.step
            low, high = hull(term)
            self._between(
                self._spot(wall, term.along, term.height),
                None if low is None else low - step,
                None if high is None else high - step,
            )
        if wall.channel is not None and wall.name in self.channelled:
            for member in wall.members:
                for h, height in enumerate(wall.heights):
                    low = member.offsets[h] + wall.channel.height - (0 if wall.flange[h] else wall.step)
                    self._between(self._spot(wall, member.along, height), low, low + wall.channel.packing)
            return
        for plate in wall.plates:
            self._between(self._spot(wall, plate.along, plate.height), _over(plate, wall), None)
        for member in wall.members:
            if member.replace is None:
                for height, low, high in reach(member, wall):
                    self._between(self._spot(wall, member.along, height), low, high)


def _ends(wall: WallProblem) -> tuple[Fraction, Fraction]:
    first, last = wall.members[0].along, wall.members[-1].along
    return first, last if last > first else first + 16


def hull(term: StepTerm) -> tuple[Fraction | None, Fraction | None]:
    """The least and the most that a term allows, bought or not. [in]"""
    if term.minutes is None:
        return term.low, term.high
    low = None if term.low is None or term.hard_low is None else min(term.low, term.hard_low)
    high = None if term.high is None or term.hard_high is None else max(term.high, term.hard_high)
    return low, high


def _over(plate: PlateSpot, wall: WallProblem) -> Fraction:
    """How far back the flange plane may be at a plate, its edge cut as far as it may be. [in]"""
    return plate.offset - plate.cut - (0 if plate.flange else SIXTEENTH + wall.step)


def reach(member: Member, wall: WallProblem) -> Iterator[tuple[Fraction, Fraction, Fraction]]:
    """At each height, how far back and in the flange plane may be for a stud that is not replaced. [in]"""
    knocked = KNOCKED if member.knock else Fraction(0)
    added = max(
        ADDED if member.stock or member.taper else Fraction(0),
        SISTERED if member.sister is not None else Fraction(0),
        BEDDED if member.wet_bed else Fraction(0),
        knocked,
    )
    for h, (height, flange) in enumerate(zip(wall.heights, wall.flange, strict=True)):
        off = min(member.plane_depth[h], CUT)
        if member.sister is not None:
            off = max(off, min(member.plane_depth_sistered[h], CUT_SISTERED))
        step = Fraction(0) if flange else wall.step
        proud = Fraction(0) if flange else SIXTEENTH
        offset = member.offsets[h]
        yield height, offset - max(off, knocked) - proud - step, offset + added + SIXTEENTH - step
