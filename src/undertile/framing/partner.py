"""Two groups tied by one demand (the square of the room): one priced as a function of the other.

The demand is ``low <= phi + psi <= high`` with phi of the searched group and psi of the partner. What the
partner costs at least for psi in a stretch is found by searching it alone with psi held there, kept for the
next time; the searched group adds it to its bounds. So the two are not searched as one.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from fractions import Fraction
from math import ceil, floor, log2
from typing import Literal

from undertile.framing.bound import Found, Group
from undertile.framing.exactlp import Row, find_point, whole_row
from undertile.framing.flatness import WallRow
from undertile.framing.problem import Demand
from undertile.framing.region import Region
from undertile.framing.settle import Settled
from undertile.framing.tables import WallFrame


class Stopped(Exception):
    """The time limit was hit while the partner was searched."""


class Partner:
    """The other group, and what it costs as a function of its part of the demand.

    Parameters
    ----------
    names, frames, demands, tick : as in :class:`Group`
    tie : the demand that ties the two groups
    """

    def __init__(
        self,
        names: Sequence[str],
        frames: Sequence[Sequence[WallFrame]],
        demands: Sequence[Demand],
        tie: Demand,
        tick: Callable[[int, int], bool],
    ) -> None:
        self.names, self.frames, self.demands, self.tie, self.tick = (
            list(names),
            frames,
            list(demands),
            tie,
            tick,
        )
        self.unit = frames[0][0].unit
        self.nodes = 0
        self._solved: dict[tuple[Fraction, Fraction], Found | None] = {}
        self._plain = Group(self.names, frames, [*self.demands, self.own(self.names)], tick)
        self.low = -1e30 if tie.low is None else float(tie.low * self.unit)
        self.high = 1e30 if tie.high is None else float(tie.high * self.unit)

    def own(self, names: Sequence[str], low: Fraction | None = None, high: Fraction | None = None) -> Demand:
        """The tie's part over some walls as a demand of its own."""
        return Demand(
            self.tie.code, tuple(p for p in self.tie.parts if p[0] in names), low, high, self.tie.title
        )

    def least(self, phi_low: float, phi_high: float) -> int | None:
        """What the partner costs at least when the searched group's part lies in phi_low..phi_high."""
        costs = [f.cost for f in self._over(phi_low, phi_high)]
        return min(costs) if costs else None

    def _over(self, phi_low: float, phi_high: float) -> list[Found]:
        """The partner's least answer for psi where the tie leaves it, outward by the width of phi."""
        hair = 2e-8 * self.unit
        low = max(self.low - phi_high - hair, -64.0 * self.unit)
        high = min(self.high - phi_low + hair, 64.0 * self.unit)
        if low > high:
            return []
        # ends on a grid about as fine as phi is known, so that neighbours share their searches
        level = max(-30, min(0, floor(log2(max(phi_high - phi_low, 1e-9 * self.unit) / self.unit))))
        grid = Fraction(2) ** level
        first = floor(low / float(grid * self.unit)) * grid
        last = ceil(high / float(grid * self.unit)) * grid
        found = self._stretch(first, last)
        return [] if found is None else [found]

    def _stretch(self, low: Fraction, high: Fraction) -> Found | None:
        """The partner's least answer for psi in low..high. [in]"""
        key = (low, high)
        if key in self._solved:
            return self._solved[key]
        for (a, b), found in self._solved.items():
            if a <= low and high <= b and (found is None or low <= self._psi(found) <= high):
                self._solved[key] = found
                return found
        group = Group(self.names, self.frames, [*self.demands, self.own(self.names, low, high)], self.tick)
        outcome = group.run()
        self.nodes += outcome.nodes
        if outcome.stopped:
            raise Stopped
        self._solved[key] = outcome.found
        return outcome.found

    def _psi(self, found: Found) -> Fraction:
        """The partner's part of the tie at a found plane. [in]"""
        total = Fraction(0)
        for wall, along, height, c in self.tie.parts:
            if wall in self.names:
                k = self.names.index(wall)
                frame = self.frames[k][found.leans[k]]
                a, b = frame.stations
                wb = (along - a) / (b - a)
                t = (found.point[2 * k] * (1 - wb) + found.point[2 * k + 1] * wb) / self.unit
                total += c * (t + frame.lean * height)
        return total

    def close(
        self, group: Group, phi: tuple[float, float], total: int, regions: Sequence[Region], rows: list[Row]
    ) -> Found | tuple[int, WallRow, Settled] | Literal["apart"] | None:
        """Common planes of both groups that meet the tie, faces straight; see :meth:`Group._close`."""
        leans = tuple(r.lean for r in regions)
        picks = tuple(tuple(p for p in r.picks if p is not None) for r in regions)
        limits = tuple(r.limits for r in regions)
        masks = tuple(r.mask for r in regions)
        options = self._over(*phi)
        least = min(f.cost for f in options)
        mine = Group(group.names, group.frames, [self.own(group.names)], self.tick)
        for found in {id(f): f for f in options if f.cost == least}.values():
            # the partner stays where it was found
            psi = self._psi(found)
            for point in self._beside(mine, leans, rows, group.floor(), psi):
                faces, failed = group.settle_all(leans, limits, picks, point)
                if failed is not None:
                    return failed
                return Found(total, leans, masks, limits, picks, point, tuple(faces), found)
        for found in {id(f): f for f in options if f.cost == least}.values():
            both = self._together(group, leans, picks, rows, found)
            if both is None:
                continue
            point, other = both
            faces, failed = group.settle_all(leans, limits, picks, point)
            if failed is not None:
                return failed
            other_faces, other_failed = self._plain.settle_all(found.leans, found.limits, found.picks, other)
            if other_failed is not None:
                continue
            moved = Found(
                found.cost, found.leans, found.masks, found.limits, found.picks, other, tuple(other_faces)
            )
            return Found(total, leans, masks, limits, picks, point, tuple(faces), moved)
        return "apart"

    def _beside(
        self, mine: Group, leans: tuple[int, ...], rows: list[Row], low: Sequence[int], psi: Fraction
    ) -> list[tuple[Fraction, ...]]:
        """The least-room-lost plane of the searched group with the partner where it was found."""
        held = self.own(
            mine.names,
            None if self.tie.low is None else self.tie.low - psi,
            None if self.tie.high is None else self.tie.high - psi,
        )
        spread = Group(mine.names, mine.frames, [held], self.tick).spreads(leans)[0]
        point = find_point([*rows, *spread.rows], low, [1] * len(low))
        return [] if point is None else [point]

    def _together(
        self,
        group: Group,
        leans: tuple[int, ...],
        picks: Sequence[Sequence[object]],
        rows: list[Row],
        found: Found,
    ) -> tuple[tuple[Fraction, ...], tuple[Fraction, ...]] | None:
        """Planes of both groups when both may move."""
        own_size, other_size = 2 * len(group.names), 2 * len(self.names)
        plain = Group(self.names, self.frames, self.demands, self.tick)
        wide: list[Row] = [((*a, *(0,) * other_size), b) for a, b in rows]
        wide += [((*(0,) * own_size, *a), b) for a, b in plain.rows_of(found.leans, found.picks)]
        coefficients = [Fraction(0)] * (own_size + other_size)
        fixed = Fraction(0)
        for wall, along, height, c in self.tie.parts:
            owner, at, chosen = (group, 0, leans) if wall in group.names else (plain, own_size, found.leans)
            k = owner.names.index(wall)
            frame = owner.frames[k][chosen[k]]
            a, b = frame.stations
            wb = (along - a) / (b - a)
            coefficients[at + 2 * k] += c * (1 - wb)
            coefficients[at + 2 * k + 1] += c * wb
            fixed += c * frame.lean * height
        if self.tie.high is not None:
            wide.append(whole_row(coefficients, (self.tie.high - fixed) * self.unit))
        if self.tie.low is not None:
            wide.append(whole_row([-c for c in coefficients], -(self.tie.low - fixed) * self.unit))
        low = [*group.floor(), *plain.floor()]
        point = find_point(wide, low, [1] * len(low))
        return None if point is None else (point[:own_size], point[own_size:])
