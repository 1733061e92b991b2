"""Several walls' planes as one list of coordinates, and what demands, stacks and faces say about them.

A wall's plane is T at its two stations, at the height where the walls meet the pan; the coordinates are those
of every wall in turn. Demands hold for given leans exactly, and for any lean loosened by what leans can do.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from undertile.framing.exactlp import Row, find_point, whole_row
from undertile.framing.flatness import WallRow
from undertile.framing.frame import WallFrame
from undertile.framing.option import Option
from undertile.framing.problem import Demand
from undertile.framing.region import HalfPlane, Polygon, WallLimits, clip
from undertile.framing.settle import Settled, settle

Parts = tuple[tuple[str, Fraction, Fraction, Fraction], ...]
"""Of a demand: (wall, along, height, coefficient)."""
Spans = dict[tuple[float, float], tuple[float, float]]
"""What ``ca x + cb y`` comes to over one polygon, least and most, by (ca, cb), as far as asked."""


Loose = tuple[tuple[tuple[int, float, float], ...], float, float]
"""A demand as a bound on ``sum ca x + cb y`` of some walls: (wall, ca, cb), least, most. [units]"""


@dataclass(frozen=True, slots=True)
class Spread:
    """One demand over the coordinates of a group in given leans. [units]

    ``wide``: exact coefficients of T at every wall's two stations; ``parts``: the same as floats, by wall.
    """

    demand: Demand
    wide: tuple[Fraction, ...]
    parts: tuple[tuple[int, float, float], ...]
    low: float
    high: float
    rows: tuple[Row, ...]


class Walls:
    """Some walls, each at any of its leans, and the demands within them.

    Parameters
    ----------
    names : wall names
    frames : per wall, per lean, a WallFrame
    demands : the demands within these walls
    """

    def __init__(
        self, names: Sequence[str], frames: Sequence[Sequence[WallFrame]], demands: Sequence[Demand]
    ) -> None:
        self.names = list(names)
        self.frames = frames
        self.demands = tuple(demands)
        self.unit = frames[0][0].unit
        self.eps = 1e-9 * self.unit
        self._spread_cache: dict[tuple[int, ...], tuple[Spread, ...]] = {}
        self._slack_cache: dict[tuple[int, ...], list[float]] = {}
        self._loose_spreads: list[Loose] | None = None
        # by the id of a demand's parts, which are kept with them: they are many fractions to hash
        self._wides: dict[int, tuple[Parts, tuple[Fraction, ...]]] = {}
        self._fixed: dict[tuple[int, tuple[int, ...] | None], tuple[Parts, Fraction]] = {}
        self._shifts: dict[int, tuple[Parts, tuple[float, float]]] = {}

    def spreads(self, leans: tuple[int, ...]) -> tuple[Spread, ...]:
        """The group's demands over its coordinates, at given leans."""
        cached = self._spread_cache.get(leans)
        if cached is None:
            cached = self._spread_cache[leans] = self.spreads_of(self.demands, leans)
        return cached

    def spreads_of(self, demands: Sequence[Demand], leans: tuple[int, ...]) -> tuple[Spread, ...]:
        """Some demands over the group's coordinates, at given leans."""
        out = []
        for demand in demands:
            wide = self.wide_of(demand, leans)
            fixed = self.fixed(demand, leans)
            rows = []
            low, high = -1e30, 1e30
            if demand.high is not None:
                rows.append(whole_row(wide, (demand.high - fixed) * self.unit))
                high = float((demand.high - fixed) * self.unit) + self.eps
            if demand.low is not None:
                rows.append(whole_row([-c for c in wide], -(demand.low - fixed) * self.unit))
                low = float((demand.low - fixed) * self.unit) - self.eps
            parts = tuple(
                (k, float(wide[2 * k]), float(wide[2 * k + 1]))
                for k in range(len(self.names))
                if wide[2 * k] or wide[2 * k + 1]
            )
            out.append(Spread(demand, wide, parts, low, high, tuple(rows)))
        return tuple(out)

    def wide_of(self, demand: Demand, leans: tuple[int, ...]) -> tuple[Fraction, ...]:
        """A demand's coefficients of T at every wall's two stations."""
        known = self._wides.get(id(demand.parts))
        if known is None:
            wide = [Fraction(0)] * (2 * len(self.names))
            for wall, along, _, c in demand.parts:
                k = self.names.index(wall)
                a, b = self.frames[k][leans[k]].stations
                wb = (along - a) / (b - a)
                wide[2 * k] += c * (1 - wb)
                wide[2 * k + 1] += c * wb
            known = self._wides[id(demand.parts)] = demand.parts, tuple(wide)
        return known[1]

    def fixed(self, demand: Demand, leans: tuple[int, ...] | None = None) -> Fraction:
        """What the leans alone put into a demand's value (the middle leans when left out). [in]"""
        key = (id(demand.parts), leans)
        known = self._fixed.get(key)
        if known is None:
            total = Fraction(0)
            for wall, _, height, c in demand.parts:
                k = self.names.index(wall)
                frame = self.frames[k][len(self.frames[k]) // 2 if leans is None else leans[k]]
                total += c * (height - frame.pivot) * frame.lean
            known = self._fixed[key] = demand.parts, total
        return known[1]

    def value(self, demand: Demand, leans: tuple[int, ...], point: Sequence[Fraction]) -> Fraction:
        """A demand's value at given planes. [in]"""
        wide = self.wide_of(demand, leans)
        return sum((c * x for c, x in zip(wide, point, strict=True)), Fraction(0)) / self.unit + self.fixed(
            demand, leans
        )

    def lean_shift(self, demand: Demand) -> tuple[float, float]:
        """How much the leans may move a demand's value from where the middle leans put it. [units]"""
        known = self._shifts.get(id(demand.parts))
        if known is None:
            known = self._shifts[id(demand.parts)] = demand.parts, self._lean_shift(demand)
        return known[1]

    def _lean_shift(self, demand: Demand) -> tuple[float, float]:
        least = most = 0.0
        for wall in {p[0] for p in demand.parts}:
            frames = self.frames[self.names.index(wall)]
            middle = frames[len(frames) // 2].lean
            pivot = frames[0].pivot
            moment = sum((c * (z - pivot) for w, _, z, c in demand.parts if w == wall), Fraction(0))
            moved = [float(moment * (f.lean - middle) * self.unit) for f in frames]
            least, most = least + min(moved), most + max(moved)
        return least, most

    def _loose(self) -> list[Loose]:
        """The demands as loose as the best leans make them (a lean shifts T at a height a little)."""
        if self._loose_spreads is None:
            flat = self.spreads(tuple(len(f) // 2 for f in self.frames))
            shifts = [self.lean_shift(demand) for demand in self.demands]
            self._loose_spreads = [
                (spread.parts, spread.low - most, spread.high - least)
                for spread, (least, most) in zip(flat, shifts, strict=True)
            ]
        return self._loose_spreads

    def own_sides(self, k: int, lean: int) -> tuple[HalfPlane, ...]:
        """What demands on one wall alone leave of its planes at one lean, where they depend on the lean.

        Outward by a hair. What does not depend on the lean, or ties walls, is left to :meth:`tighten`.
        """
        leans = tuple(lean if j == k else len(f) // 2 for j, f in enumerate(self.frames))
        out: list[HalfPlane] = []
        for demand in self.demands:
            least, most = self.lean_shift(demand)
            spread = self.spreads_of([demand], leans)[0]
            if most > least and [j for j, _, _ in spread.parts] == [k]:
                _, ca, cb = spread.parts[0]
                if demand.high is not None:
                    out.append((ca, cb, spread.high))
                if demand.low is not None:
                    out.append((-ca, -cb, -spread.low))
        return tuple(out)

    def tighten(
        self, polygons: list[Polygon], ties: Sequence[Loose] = (), spans: list[Spans] | None = None
    ) -> bool:
        """Clip every polygon to what demands, ties and the other walls leave; False when nothing is left.

        ``spans`` is what is known of each polygon; one that is clipped starts anew.
        """
        spreads = [*self._loose(), *ties]
        if spans is None:
            spans = [{} for _ in polygons]
        for _ in range(2):
            changed = False
            for parts, floor, ceiling in spreads:
                ends = []
                low = high = 0.0
                for k, ca, cb in parts:
                    span = spans[k].get((ca, cb)) or span_of(polygons[k], ca, cb, spans[k])
                    ends.append(span)
                    low += span[0]
                    high += span[1]
                if low > ceiling or high < floor:
                    return False
                if low >= floor and high <= ceiling:
                    continue
                for (k, ca, cb), (a, b) in zip(parts, ends, strict=True):
                    most, least = ceiling - (low - a), floor - (high - b)
                    if b > most:
                        polygons[k] = clip(polygons[k], ca, cb, most + self.eps)
                        spans[k] = {}
                        changed = True
                    if a < least and polygons[k]:
                        polygons[k] = clip(polygons[k], -ca, -cb, self.eps - least)
                        spans[k] = {}
                        changed = True
                    if not polygons[k]:
                        return False
            if not changed:
                break
        return True

    def slacks(self, leans: tuple[int, ...]) -> list[float]:
        """How far other leans may loosen each row of the demands, as ``rows_of`` lists them. [its measure]"""
        out = self._slack_cache.get(leans)
        if out is None:
            out = self._slack_cache[leans] = []
            for spread in self.spreads(leans):
                least, most = self.lean_shift(spread.demand)
                out += [self._row_scale(spread, row) * (most - least) for row in spread.rows]
        return out

    @staticmethod
    def _row_scale(spread: Spread, row: Row) -> float:
        j = next(i for i, c in enumerate(spread.wide) if c)
        return abs(float(row[0][j] / spread.wide[j]))

    def floor(self) -> list[int]:
        """A lower bound of every coordinate, far below any plane. [units]"""
        out = []
        for frames in self.frames:
            low, high = frames[0].t_range
            out += [low - 8 * (high - low)] * 2
        return out

    def rows_of(self, leans: tuple[int, ...], picks: Sequence[Sequence[Option]]) -> list[Row]:
        """Every exact row ``sum a x <= b`` that picks and demands put on the planes, in whole numbers."""
        rows: list[Row] = []
        for k, chosen in enumerate(picks):
            frame = self.frames[k][leans[k]]
            before, after = (0,) * (2 * k), (0,) * (2 * (len(self.names) - k - 1))
            for spot, pick in zip(frame.spots, chosen, strict=True):
                a, b = spot.whole
                for sign, bound in ((1, pick.high), (-1, -pick.low)):
                    right = bound * spot.scale
                    scale = right.denominator  # whole but for limits that a straightedge row has cut
                    rows.append(((*before, sign * a * scale, sign * b * scale, *after), int(right * scale)))
        for spread in self.spreads(leans):
            rows += spread.rows
        return rows

    def straight_row(
        self, leans: tuple[int, ...], picks: Sequence[Sequence[Option]], failed: tuple[int, WallRow, Settled]
    ) -> Row | None:
        """A straightedge row as a row on the planes, for these picks: a riding face moves with its plane.

        None where no face of the row rides, or one is planed or bedded (it follows the plane another way).
        """
        k, row, _ = failed
        frame = self.frames[k][leans[k]]
        wide = [Fraction(0)] * (2 * len(self.names))
        bound = row.limit * self.unit
        rides = False
        for (m, h), weight in row.weights:
            pick, spot = picks[k][m], frame.spots[m]
            if pick.rides:
                rides = True
                wide[2 * k] += weight * spot.wa
                wide[2 * k + 1] += weight * spot.wb
            elif pick.bedded or pick.depth[h]:
                return None
            else:
                bound -= weight * (frame.shapes[m].faces[h] + pick.added[h])
        return whole_row(wide, bound) if rides else None

    def settle_all(
        self,
        leans: tuple[int, ...],
        limits: tuple[WallLimits, ...],
        picks: Sequence[Sequence[Option]],
        point: Sequence[Fraction],
    ) -> tuple[list[Settled], tuple[int, WallRow, Settled] | None]:
        """Faces of every wall at a point; the first wall whose straightedge rows cannot be met."""
        faces = []
        for k, chosen in enumerate(picks):
            frame = self.frames[k][leans[k]]
            settled, row = settle(frame, chosen, (point[2 * k], point[2 * k + 1]), dict(limits[k]))
            faces.append(settled)
            if row is not None:
                return faces, (k, row, settled)
        return faces, None


def span_of(polygon: Polygon, ca: float, cb: float, known: Spans) -> tuple[float, float]:
    """The least and most of ``ca x + cb y`` over a polygon, kept in ``known``."""
    found = known.get((ca, cb))
    if found is None:
        values = [ca * x + cb * y for x, y in polygon]
        found = known[ca, cb] = min(values), max(values)
    return found


def far_point(rows: Sequence[Row], low: Sequence[int]) -> tuple[Fraction, ...] | None:
    """The point of the rows farthest into the room (the mirror of the least-room-lost one)."""
    point = find_point([(tuple(-c for c in a), b) for a, b in rows], low, [1] * len(low))
    return None if point is None else tuple(-y for y in point)
