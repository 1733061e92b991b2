"""Two groups tied by demands over one quantity (the skew of the back wall): one priced by the other.

Each tie is ``low <= phi + scale * psi <= high`` with phi of the searched group and psi one quantity of the
partner. What the partner costs at least for psi in a stretch is found by searching it alone with psi held
there, and kept for the next time; the searched group adds it to its bounds. So the two are never searched as
one, which would multiply their work.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from fractions import Fraction
from math import ceil, floor, log2

from undertile.framing.bound import ROWS_ADDED, Group
from undertile.framing.cuts import Cut, cut_of
from undertile.framing.exactlp import Row, find_point, find_point_or_reason, whole_row
from undertile.framing.found import Apart, Dearer, FailedRow, Found
from undertile.framing.frame import WallFrame
from undertile.framing.node import Node
from undertile.framing.problem import Demand
from undertile.framing.region import Polygon, Region
from undertile.framing.walls import Loose, Spans, Spread, span_of

WIDEST = 64
"""No quantity of the partner lies farther from 0. [in]"""

FINEST = 30
"""A stretch of psi that is asked for is a whole number of inches / 2 to the 30 at the finest."""


class Stopped(Exception):
    """The time limit was hit while the partner was searched."""


@dataclass(frozen=True)
class Tie:
    """One demand: ``low <= phi + scale * psi <= high``; ``own`` is phi over the searched group. [units]"""

    demand: Demand
    own: Spread
    shift: tuple[float, float, float]
    scale: float
    low: float
    high: float


class Partner:
    """The other group, and what it costs as a function of psi.

    Parameters
    ----------
    group : Group
        The searched group; its walls and leans.
    other : Group
        The partner, under its own demands alone.
    ties : sequence of Demand
        Demands over walls of both.
    tick : as in :class:`Group`

    Raises
    ------
    ValueError
        If the ties are not over one quantity of the partner.
    """

    def __init__(
        self, group: Group, other: Group, ties: Sequence[Demand], tick: Callable[[int, int], bool]
    ) -> None:
        self.group, self.other, self.demands, self.tick = group, other, tuple(ties), tick
        self.unit = other.unit
        self.nodes = 0
        self._psis: dict[int, Fraction] = {}
        self._solved: dict[tuple[Fraction | int, Fraction | int], Found | None] = {}
        self.mine = [_part(d, group.names) for d in self.demands]
        self.theirs = [_part(d, other.names) for d in self.demands]
        self.quantity = self.theirs[0]
        first = other.spreads_of([self.quantity], _middle(other.frames))[0].wide
        self.ties = []
        for demand, mine, theirs in zip(self.demands, self.mine, self.theirs, strict=True):
            wide = other.spreads_of([theirs], _middle(other.frames))[0].wide
            at = next(j for j, c in enumerate(first) if c)
            scale = wide[at] / first[at]
            if any(c != scale * d for c, d in zip(wide, first, strict=True)) or not scale:
                raise ValueError(f"{demand.code} is over another quantity than {self.demands[0].code}")
            own = group.spreads_of([mine], _middle(group.frames))[0]
            least, most = group.lean_shift(mine)
            off0, off1 = other.lean_shift(theirs)
            fixed = float(
                (group.fixed(mine) + other.fixed(theirs) - scale * other.fixed(self.quantity)) * self.unit
            )
            self.ties.append(
                Tie(
                    demand,
                    own,
                    (fixed + least + off0, fixed + most + off1, fixed),
                    float(scale),
                    -1e30 if demand.low is None else float(demand.low * self.unit),
                    1e30 if demand.high is None else float(demand.high * self.unit),
                )
            )

    # -- prices -------------------------------------------------------------------------------------

    def psi_over(
        self, polygons: Sequence[Polygon], psi: tuple[float, float], spans: Sequence[Spans]
    ) -> tuple[float, float]:
        """Where psi may lie while the searched group's planes lie in the polygons. [units]"""
        low, high = psi
        for tie in self.ties:
            a, b, _ = tie.shift
            for k, ca, cb in tie.own.parts:
                least, most = spans[k].get((ca, cb)) or span_of(polygons[k], ca, cb, spans[k])
                a += least
                b += most
            ends = ((tie.low - b) / tie.scale, (tie.high - a) / tie.scale)
            low, high = max(low, min(ends)), min(high, max(ends))
        return low, high

    def within(self, psi: tuple[float, float]) -> list[Loose]:
        """The ties as demands on the searched group alone, with psi in a stretch."""
        out = []
        for tie in self.ties:
            ends = (tie.scale * psi[0], tie.scale * psi[1])
            low, high = tie.low - max(ends) - tie.shift[1], tie.high - min(ends) - tie.shift[0]
            out.append((tie.own.parts, low, high))
        return out

    def least(self, psi: tuple[float, float]) -> int | None:
        """What the partner costs at least with psi in a stretch; None when it has no plan there. [units]"""
        found = self._over(psi)
        return None if found is None else found.cost

    def at_least(self, psi: tuple[float, float]) -> tuple[int | None, bool]:
        """What is known of :meth:`least` without a search: a lower bound, and whether it is the least.

        No stretch inside another costs less than that. [units]
        """
        ends = self._outward(psi)
        if ends is None:
            return None, True
        bound = 0
        for (a, b), found in [(ends, self._solved[ends])] if ends in self._solved else self._solved.items():
            if a <= ends[0] and ends[1] <= b:
                if found is None:
                    return None, True
                if (a, b) == ends or ends[0] <= self.psi(found) * (1 << FINEST) <= ends[1]:
                    return found.cost, True
                bound = max(bound, found.cost)
        return bound, False

    def _over(self, psi: tuple[float, float]) -> Found | None:
        """The partner's least answer for psi in a stretch, as :meth:`_outward` has it."""
        ends = self._outward(psi)
        return None if ends is None else self._stretch(*ends)

    def _outward(self, psi: tuple[float, float]) -> tuple[int, int] | None:
        """A stretch, outward to a grid as fine as it is; None where none of the partner's planes lie."""
        hair = 2e-8 * self.unit
        far = float(WIDEST * self.unit)
        low, high = max(psi[0] - hair, -far), min(psi[1] + hair, far)
        if low > high:
            return None
        level = max(-FINEST, min(0, floor(log2(max(high - low, 1e-9 * self.unit) / self.unit)) - 3))
        grid = 2.0**level * self.unit
        return floor(low / grid) << (level + FINEST), ceil(high / grid) << (level + FINEST)

    def _within(self, psi: tuple[float, float]) -> Found | None:
        """The partner's least answer for psi in a stretch, not outward to a grid when that lies outside."""
        found = self._over(psi)
        hair = Fraction(2e-8) * self.unit
        low, high = Fraction(psi[0]) - hair, Fraction(psi[1]) + hair
        if found is None or low <= self.psi(found) * self.unit <= high:
            return found
        return self._stretch(low / self.unit * (1 << FINEST), high / self.unit * (1 << FINEST))

    def _stretch(self, low: Fraction | int, high: Fraction | int) -> Found | None:
        """The partner's least answer for psi in low..high. [in, times 2 to the ``FINEST``]"""
        key = (low, high)
        if key in self._solved:
            return self._solved[key]
        for (a, b), found in self._solved.items():
            if a <= low and high <= b and (found is None or low <= self.psi(found) * (1 << FINEST) <= high):
                self._solved[key] = found
                return found
        q = self.quantity
        ends = Fraction(low) / (1 << FINEST), Fraction(high) / (1 << FINEST)
        held = Demand(q.code, q.parts, *ends, q.title)
        search = Group(
            self.other.names, self.other.frames, [*self.other.demands, held], self.tick, self.other.bends
        )
        outcome = search.run()
        self.nodes += outcome.nodes
        if outcome.stopped:
            raise Stopped
        self._solved[key] = outcome.found
        return outcome.found

    def psi(self, found: Found) -> Fraction:
        """The quantity at a found plane of the partner. [in]"""
        known = self._psis.get(id(found))
        if known is None:
            known = self._psis[id(found)] = self.other.value(self.quantity, found.leans, found.point)
        return known

    # -- closing ------------------------------------------------------------------------------------

    def close(
        self, node: Node, total: int, regions: Sequence[Region], rows: list[Row]
    ) -> Found | FailedRow | Cut | Apart | Dearer | None:
        """Common planes of both groups that meet every tie, faces straight; see :meth:`Group._close`."""
        group, psi = self.group, node.psi
        there = self._within(psi)
        if there is None or there.cost > node.partner:
            return Dearer(None if there is None else there.cost)
        leans = tuple(r.lean for r in regions)
        picks = tuple(tuple(p for p in r.picks if p is not None) for r in regions)
        limits = tuple(r.limits for r in regions)
        masks = tuple(r.mask for r in regions)
        failed: FailedRow | None = None
        for _ in range(ROWS_ADDED):
            blocked = self._blocked(leans, rows, psi)
            if blocked is not None:
                wide, reason, slacks = blocked
                return cut_of(wide, picks, reason, slacks) if failed is None else failed
            both = self._planes(leans, rows, there)
            if isinstance(both, Apart):
                return both if failed is None else failed
            point, other = both
            faces, failed = group.settle_all(leans, limits, picks, point)
            if failed is None:
                return Found(total, leans, masks, limits, picks, point, tuple(faces), other)
            more = group.straight_row(leans, picks, failed)
            if more is None:
                return failed
            rows.append(more)
        return failed

    def _planes(
        self, leans: tuple[int, ...], rows: list[Row], found: Found
    ) -> tuple[tuple[Fraction, ...], Found] | Apart:
        """Planes of the searched group, and the partner's answer moved to go with them."""
        point = self._beside(leans, rows, found)
        if point is not None:
            return point, found
        both = self._together(leans, rows, found)
        if isinstance(both, Apart):
            return both
        point, theirs = both
        faces, failed = self.other.settle_all(found.leans, found.limits, found.picks, theirs)
        if failed is not None:
            return Apart()
        moved = Found(found.cost, found.leans, found.masks, found.limits, found.picks, theirs, tuple(faces))
        return point, moved

    def _blocked(
        self, leans: tuple[int, ...], rows: list[Row], psi: tuple[float, float]
    ) -> tuple[list[Row], tuple[tuple[int, int], ...] | None, list[float]] | None:
        """None when picks and ties have a common plane for some psi in the stretch, the partner aside.

        Otherwise the rows asked and those that contradict each other.
        """
        group, other = self.group, self.other
        hair = 2e-8 * self.unit
        ends = Fraction(psi[0] - hair), Fraction(psi[1] + hair)
        wide: list[Row] = [((*a, 0), b) for a, b in rows]
        slacks = [*group.slacks(leans), 0.0, 0.0]
        wide.append(whole_row([Fraction(0)] * (2 * len(group.names)) + [Fraction(1)], ends[1]))
        low = [*group.floor(), floor(ends[0])]
        wide.append(whole_row([Fraction(0)] * (2 * len(group.names)) + [Fraction(-1)], -ends[0]))
        for demand, tie, own, far in zip(self.demands, self.ties, self.mine, self.theirs, strict=True):
            off = [Fraction(v) for v in other.lean_shift(far)]
            fixed = (group.fixed(own, leans) - group.fixed(own)) * self.unit + Fraction(tie.shift[2])
            one = [*group.wide_of(own, leans), Fraction(tie.scale)]
            shift = tie.shift[1] - tie.shift[0]
            if demand.high is not None:
                wide.append(whole_row(one, demand.high * self.unit - fixed - off[0]))
                slacks.append(shift * _scale(one, wide[-1]))
            if demand.low is not None:
                wide.append(whole_row([-c for c in one], -(demand.low * self.unit - fixed - off[1])))
                slacks.append(shift * _scale(one, wide[-1]))
        point, reason = find_point_or_reason(wide, low)
        return None if point is not None else (wide, reason, slacks)

    def _beside(self, leans: tuple[int, ...], rows: list[Row], found: Found) -> tuple[Fraction, ...] | None:
        """The least-room-lost plane of the searched group with the partner where it was found."""
        group = self.group
        held = []
        for demand, mine, theirs in zip(self.demands, self.mine, self.theirs, strict=True):
            there = self.other.value(theirs, found.leans, found.point)
            held.append(
                Demand(
                    demand.code,
                    mine.parts,
                    None if demand.low is None else demand.low - there,
                    None if demand.high is None else demand.high - there,
                    demand.title,
                )
            )
        more = [row for spread in group.spreads_of(held, leans) for row in spread.rows]
        low = group.floor()
        return find_point([*rows, *more], low, [1] * len(low))

    def _together(
        self, leans: tuple[int, ...], rows: list[Row], found: Found
    ) -> tuple[tuple[Fraction, ...], tuple[Fraction, ...]] | Apart:
        """Planes of both groups when both may move; or between which psi the two sets of picks lie."""
        group, other = self.group, self.other
        mine, theirs = 2 * len(group.names), 2 * len(other.names)
        wide: list[Row] = [((*a, *(0,) * theirs), b) for a, b in rows]
        wide += [((*(0,) * mine, *a), b) for a, b in other.rows_of(found.leans, found.picks)]
        ties = len(wide)
        for demand, own, far in zip(self.demands, self.mine, self.theirs, strict=True):
            one = group.wide_of(own, leans)
            two = other.wide_of(far, found.leans)
            fixed = group.fixed(own, leans) + other.fixed(far, found.leans)
            coefficients = (*one, *two)
            if demand.high is not None:
                wide.append(whole_row(coefficients, (demand.high - fixed) * self.unit))
            if demand.low is not None:
                wide.append(whole_row([-c for c in coefficients], -(demand.low - fixed) * self.unit))
        low = [*group.floor(), *other.floor()]
        point, reason = find_point_or_reason(wide, low, [1] * len(low))
        if point is not None:
            return point[:mine], point[mine:]
        return Apart(self._between(found, wide, (len(rows), ties), reason))

    def _between(
        self,
        found: Found,
        wide: Sequence[Row],
        ends: tuple[int, int],
        reason: tuple[tuple[int, int], ...] | None,
    ) -> float | None:
        """A psi between what the partner's picks allow and what the group's picks and the ties do. [units]

        Added up by the multipliers of the contradiction, the partner's rows say ``k psi <= q`` and the others
        ``k psi >= p`` with p > q.
        """
        if reason is None:
            return None
        other = self.other
        wide_of = other.wide_of(self.quantity, found.leans)
        at = next(j for j, c in enumerate(wide_of) if c)
        column = 2 * len(self.group.names) + at
        k = q = p = Fraction(0)
        for row, y in reason:
            coefficients, bound = wide[row]
            if ends[0] <= row < ends[1]:
                k += y * coefficients[column] / wide_of[at]
                q += y * bound
            else:
                p -= y * bound
        if not k:
            return None
        return float((p + q) / 2 / k + other.fixed(self.quantity, found.leans) * self.unit)


def _part(demand: Demand, names: Sequence[str]) -> Demand:
    """A demand's part over some walls, without limits."""
    return Demand(demand.code, tuple(p for p in demand.parts if p[0] in names), None, None, demand.title)


def _scale(exact: Sequence[Fraction], row: Row) -> float:
    """What a row was multiplied by to make it whole."""
    j = next(i for i, c in enumerate(exact) if c)
    return abs(float(row[0][j] / exact[j]))


def _middle(frames: Sequence[Sequence[WallFrame]]) -> tuple[int, ...]:
    return tuple(len(f) // 2 for f in frames)
