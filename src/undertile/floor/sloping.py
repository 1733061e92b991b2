"""The same least work over planes that may slope: branch and bound over the two slopes, exact at the end.

For given slopes the best height is found in one sweep. Over a box of slopes each place's stretches are
widened by what the box lets the plane move there, which makes the sweep a bound; floats, widened outward, may
bound and never decide. A box that bisection cannot close is finished exactly: the rungs that each place may
still be on are tried, cheapest first, and an exact linear program says whether they share a plane.
"""

from __future__ import annotations

import heapq
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from itertools import count

from undertile.floor.levelling import (
    ZERO,
    Ground,
    Levelled,
    Limits,
    Plane,
    Rates,
    Rung,
    amount_at,
    cost_of,
    ladder_of,
    level_work,
    setups,
)
from undertile.framing.exactlp import Row, find_point, find_point_or_reason, whole_row

MOST_NODES = 6000
"""Boxes and exact nodes after which the answer says that it is not proved least."""
SMALL = Fraction(1, 256)
"""A box that moves no place by more than this is finished exactly. [in]"""
HAIR = 1e-9
"""What floats are widened by. [in]"""


def least_work(places: Sequence[Ground], limits: Limits, rates: Rates) -> Levelled:
    """The plane and amounts that take the fewest minutes.

    Parameters
    ----------
    places : sequence of Ground
    limits : Limits
    rates : Rates

    Returns
    -------
    Levelled
    """
    ladders = [ladder_of(each, limits, rates) for each in places]
    best = level_work(places, ladders, limits, rates)
    if limits.slope == 0 or len(places) < 2 or (best.plane is not None and best.minutes == 0):
        return best
    return _Search(places, ladders, limits, rates, best).answer()


@dataclass(frozen=True)
class _Box:
    """Slopes along x and y, low and high. [in an inch]"""

    b: tuple[Fraction, Fraction]
    c: tuple[Fraction, Fraction]

    @property
    def middle(self) -> tuple[Fraction, Fraction]:
        return (self.b[0] + self.b[1]) / 2, (self.c[0] + self.c[1]) / 2

    def halves(self, reach: tuple[Fraction, Fraction]) -> tuple[_Box, _Box]:
        """Split where it moves places more."""
        b, c = self.middle
        if (self.b[1] - self.b[0]) * reach[0] >= (self.c[1] - self.c[0]) * reach[1]:
            return _Box((self.b[0], b), self.c), _Box((b, self.b[1]), self.c)
        return _Box(self.b, (self.c[0], c)), _Box(self.b, (c, self.c[1]))


class _Search:
    """One floor's search; heights are counted at the middle of the places."""

    def __init__(
        self,
        places: Sequence[Ground],
        ladders: Sequence[list[Rung]],
        limits: Limits,
        rates: Rates,
        best: Levelled,
    ) -> None:
        self.places, self.ladders, self.limits, self.rates, self.best = places, ladders, limits, rates, best
        xs, ys = [each.x for each in places], [each.y for each in places]
        self.centre = ((min(xs) + max(xs)) / 2, (min(ys) + max(ys)) / 2)
        self.reach = ((max(xs) - min(xs)) / 2, (max(ys) - min(ys)) / 2)
        self.away = [(each.x - self.centre[0], each.y - self.centre[1]) for each in places]
        self.steps = [_steps(ladder) for ladder in ladders]
        self.used = 0
        self.open: Fraction | None = None

    def answer(self) -> Levelled:
        """Best first over boxes."""
        slope = self.limits.slope
        tie = count()
        heap: list[tuple[float, int, _Box]] = [(0.0, next(tie), _Box((-slope, slope), (-slope, slope)))]
        while heap:
            bound, _, box = heapq.heappop(heap)
            if self._beaten(bound):
                break
            if self.used >= MOST_NODES:
                self.open = Fraction(bound).limit_denominator(1000)
                break
            self.used += 1
            self._try(box.middle)
            if self._moves(box) <= SMALL:
                self._finish(box)
                continue
            for half in box.halves(self.reach):
                bound = self._sweep(half.middle, self._slack(half))[0]
                if not self._beaten(bound):
                    heapq.heappush(heap, (bound, next(tie), half))
        if self.best.plane is None:
            return replace(self.best, nodes=self.used)
        least = self.best.minutes if self.open is None else min(self.open, self.best.minutes)
        return replace(self.best, least_minutes=least, nodes=self.used)

    def _beaten(self, bound: float) -> bool:
        if self.best.plane is None:
            return bound == float("inf")
        return bound >= float(self.best.minutes) - HAIR

    def _moves(self, box: _Box) -> Fraction:
        return (box.b[1] - box.b[0]) * self.reach[0] + (box.c[1] - box.c[0]) * self.reach[1]

    def _slack(self, box: _Box) -> list[float]:
        """How far a box lets the plane move at each place, from its middle slopes."""
        b, c = float(box.b[1] - box.b[0]) / 2, float(box.c[1] - box.c[0]) / 2
        return [abs(float(x)) * b + abs(float(y)) * c + HAIR for x, y in self.away]

    def _sweep(
        self, slopes: tuple[Fraction, Fraction], slack: Sequence[float] | None = None
    ) -> tuple[float, float, float]:
        """Least minutes over all heights at given slopes, and from where to where below the best known.

        Each place's minutes fall from rung to rung up to nothing and rise again after: a list of changes,
        sorted once. Where stretches are widened those that begin are counted before those that end.
        """
        b, c = float(slopes[0]), float(slopes[1])
        events: list[tuple[float, int, float, int, int, int]] = []
        for i, ((x, y), steps) in enumerate(zip(self.away, self.steps, strict=True)):
            shift = b * float(x) + c * float(y)
            wide = HAIR if slack is None else slack[i]
            for at, ends, change, off, fill, out in steps:
                events.append((at - shift + (wide if ends else -wide), ends, change, off, fill, out))
        events.sort()
        outside, minutes, off, fill = len(self.places), 0.0, 0, 0
        setup = float(self.rates.off_setup), float(self.rates.fill_setup)
        least, low, high = float("inf"), float("inf"), float("-inf")
        known = float("inf") if self.best.plane is None else float(self.best.minutes) - HAIR
        below = False
        for at, _, change, more_off, more_fill, out in events:
            if below:
                high = max(high, at)
            minutes += change
            off += more_off
            fill += more_fill
            outside += out
            if outside == 0:
                total = minutes + (setup[0] if off else 0.0) + (setup[1] if fill else 0.0)
                if total < least:
                    least, best_at = total, at
                below = total < known
                if below:
                    low, high = min(low, at), max(high, at)
            else:
                below = False
        if least == float("inf"):
            return least, low, high
        return (least, best_at, best_at) if slack is None else (least, low, high)

    def _try(self, slopes: tuple[Fraction, Fraction]) -> None:
        """Whether the best height at these slopes is a better plan: worked again exactly."""
        least, _, _ = self._sweep(slopes)
        if self._beaten(least):
            return
        b, c = slopes
        tilted = [
            Ground(each.x, each.y, each.height - b * x - c * y)
            for each, (x, y) in zip(self.places, self.away, strict=True)
        ]
        ladders = [ladder_of(each, self.limits, self.rates) for each in tilted]
        found = level_work(tilted, ladders, self.limits, self.rates)
        if found.plane is not None and (self.best.plane is None or found.minutes < self.best.minutes):
            at = found.plane.height - b * self.centre[0] - c * self.centre[1]
            self._take(Plane(at, b, c))

    def _take(self, plane: Plane) -> None:
        """A plane as the best, if it is."""
        heights = [plane.at(each.x, each.y) for each in self.places]
        cost = cost_of(self.ladders, heights, self.rates)
        if cost is None or (self.best.plane is not None and cost >= self.best.minutes):
            return
        amounts = tuple(
            amount_at(each, h, self.limits.limit) for each, h in zip(self.places, heights, strict=True)
        )
        self.best = Levelled(plane, amounts, cost, cost)

    # The exact finish of a small box --------------------------------------------------------------------

    def _finish(self, box: _Box) -> None:
        slack = self._slack(box)
        _, low, high = self._sweep(box.middle, slack)
        if low > high:
            return
        heights = Fraction(low) - SMALL, Fraction(high) + SMALL
        ranges = []
        b, c = box.middle
        for i, ((x, y), ladder) in enumerate(zip(self.away, self.ladders, strict=True)):
            shift, wide = b * x + c * y, Fraction(slack[i])
            within = [
                k
                for k, rung in enumerate(ladder)
                if rung.low <= heights[1] + shift + wide and rung.high >= heights[0] + shift - wide
            ]
            if not within:
                return
            ranges.append((within[0], within[-1]))
        self._rungs(box, tuple(ranges), heights)

    def _rungs(
        self, box: _Box, start: tuple[tuple[int, int], ...], heights: tuple[Fraction, Fraction]
    ) -> None:
        tie = count()
        heap = [(self._least(start), next(tie), start)]
        rows = _Rows(self.places, self.away, box, heights)
        while heap:
            bound, _, node = heapq.heappop(heap)
            if self._beaten(float(bound)):
                return
            if self.used >= MOST_NODES:
                self.open = bound if self.open is None else min(self.open, bound)
                return
            self.used += 1
            picks = [self._pick(i, *span) for i, span in enumerate(node)]
            ladder = self.ladders
            stretches = [(ladder[i][k].low, ladder[i][k].high) for i, k in enumerate(picks)]
            point, reason = find_point_or_reason(rows.of(stretches), (0, 0, 0))
            if point is None:
                whole = [(ladder[i][a].low, ladder[i][z].high) for i, (a, z) in enumerate(node)]
                point = find_point(rows.of(whole), (0, 0, 0))
                if point is None:
                    continue
                for child in _split(node, picks, reason):
                    heapq.heappush(heap, (self._least(child), next(tie), child))
            self._take(rows.plane(point, self.centre))

    def _pick(self, i: int, a: int, z: int) -> int:
        return min(range(a, z + 1), key=lambda k: self.ladders[i][k].minutes)

    def _least(self, node: Sequence[tuple[int, int]]) -> Fraction:
        rungs = [self.ladders[i][self._pick(i, *span)] for i, span in enumerate(node)]
        return sum((rung.minutes for rung in rungs), ZERO) + setups({r.kind for r in rungs}, self.rates)


Step = tuple[float, int, float, int, int, int]
"""Height, whether a stretch ends there, change of minutes, of places taken off, of places filled, of places
outside of what is allowed."""


def _steps(ladder: Sequence[Rung]) -> list[Step]:
    """What changes at each end of a place's stretches, by rising plane height."""
    out: list[Step] = []
    before: Rung | None = None
    for rung in ladder:
        if rung.kind <= 0:  # cheaper than the one before from its own low end on
            less = float(before.minutes) if before is not None else 0.0
            gone = int(before is not None and before.kind < 0)
            out.append(
                (
                    float(rung.low),
                    0,
                    float(rung.minutes) - less,
                    int(rung.kind < 0) - gone,
                    0,
                    0 if before is not None else -1,
                )
            )
        elif before is not None:  # dearer: only where the one before has ended
            more = int(before.kind == 0)
            change = float(rung.minutes - before.minutes)
            out.append((float(before.high), 1, change, 0, more, 0))
        before = rung
    if before is not None:
        out.append((float(before.high), 1, 0.0, 0, 0, 1))
    return out


class _Rows:
    """Exact rows over height at the middle and the two slopes, each counted from its low end."""

    def __init__(
        self,
        places: Sequence[Ground],
        away: Sequence[tuple[Fraction, Fraction]],
        box: _Box,
        heights: tuple[Fraction, Fraction],
    ) -> None:
        self.away, self.box, self.low = away, box, heights[0]
        self.caps = [
            whole_row((Fraction(1), ZERO, ZERO), heights[1] - heights[0]),
            whole_row((ZERO, Fraction(1), ZERO), box.b[1] - box.b[0]),
            whole_row((ZERO, ZERO, Fraction(1)), box.c[1] - box.c[0]),
        ]

    def of(self, stretches: Sequence[tuple[Fraction, Fraction]]) -> list[Row]:
        """Two rows a place: not above its stretch, not below."""
        out: list[Row] = []
        for (x, y), (low, high) in zip(self.away, stretches, strict=True):
            fixed = self.low + self.box.b[0] * x + self.box.c[0] * y
            out.append(whole_row((Fraction(1), x, y), high - fixed))
            out.append(whole_row((Fraction(-1), -x, -y), fixed - low))
        return [*out, *self.caps]

    def plane(self, point: Sequence[Fraction], centre: tuple[Fraction, Fraction]) -> Plane:
        """From the program's unknowns."""
        b, c = point[1] + self.box.b[0], point[2] + self.box.c[0]
        return Plane(point[0] + self.low - b * centre[0] - c * centre[1], b, c)


Ranges = tuple[tuple[int, int], ...]


def _split(node: Ranges, picks: Sequence[int], reason: Sequence[tuple[int, int]] | None) -> Iterator[Ranges]:
    """One place of the contradiction: on its cheapest rung, or on either side of it."""
    named = {row // 2 for row, _ in reason or () if row // 2 < len(node)}
    free = [i for i, (a, z) in enumerate(node) if a < z]
    free = [i for i in free if i in named] or free
    if not free:
        return
    place = max(free, key=lambda i: node[i][1] - node[i][0])
    a, z = node[place]
    at = picks[place]
    for low, high in ((at, at), (a, at - 1), (at + 1, z)):
        if low <= high:
            yield (*node[:place], (low, high), *node[place + 1 :])
