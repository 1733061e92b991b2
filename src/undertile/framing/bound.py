"""One group of walls that share demands: best-first search over their planes, with the proof.

A node is, for each wall, a lean, a set of once-a-wall charges, face limits that straightedge rows have
forced, what is decided of each member, and the polygon of planes left. Its bound is what every member costs
at least there. A node is closed when the cheapest stacks of all members have an exact common point: its
bound is then reached. Otherwise one member is split: it has its cheapest stack (and T lies in that stack's interval), or it
has another and T lies beyond. Floats only bound, outward; whole numbers and fractions decide.
"""

from __future__ import annotations

import heapq
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from fractions import Fraction

from undertile.framing.exactlp import Row, find_point, whole_row
from undertile.framing.flatness import WallRow
from undertile.framing.options import FAR, Option
from undertile.framing.problem import Demand
from undertile.framing.region import FREE, Choice, Polygon, Region, WallLimits, clip, look
from undertile.framing.settle import Settled, settle
from undertile.framing.tables import WallFrame

Node = tuple[Region, ...]


@dataclass(frozen=True)
class Spread:
    """One demand over the coordinates of a group in given leans. [units]

    ``parts``: per wall index the coefficients of T at its two stations.
    """

    demand: Demand
    parts: tuple[tuple[int, float, float], ...]
    low: float
    high: float
    rows: tuple[Row, ...]


@dataclass(frozen=True)
class Found:
    """A group's answer: per wall its lean index, charges, limits, stacks, faces; and the planes."""

    cost: int
    leans: tuple[int, ...]
    masks: tuple[int, ...]
    limits: tuple[WallLimits, ...]
    picks: tuple[tuple[Option, ...], ...]
    point: tuple[Fraction, ...]
    faces: tuple[Settled, ...]


@dataclass
class Outcome:
    """What a search came to: the plan, the bound, the nodes, and whether it was stopped."""

    found: Found | None
    bound: int | None
    nodes: int
    stopped: bool


class Group:
    """Walls tied by demands, and the search over their planes.

    Parameters
    ----------
    names : wall names
    frames : per wall, per lean, a WallFrame
    demands : the demands within the group
    tick : called once a node with (nodes, bound); True stops the search (time limit, or the person)
    """

    def __init__(
        self,
        names: Sequence[str],
        frames: Sequence[Sequence[WallFrame]],
        demands: Sequence[Demand],
        tick: Callable[[int, int], bool],
    ) -> None:
        self.names = list(names)
        self.frames = frames
        self.demands = tuple(demands)
        self.tick = tick
        self.unit = frames[0][0].unit
        self.eps = 1e-9 * self.unit
        self._spread_cache: dict[tuple[int, ...], tuple[Spread, ...]] = {}
        self.nodes = 0

    # -- demands ------------------------------------------------------------------------------------

    def spreads(self, leans: tuple[int, ...]) -> tuple[Spread, ...]:
        """The demands over the coordinates."""
        cached = self._spread_cache.get(leans)
        if cached is not None:
            return cached
        size = 2 * len(self.names)
        out = []
        for demand in self.demands:
            wide = [Fraction(0)] * size
            fixed = Fraction(0)
            for wall, along, height, c in demand.parts:
                k = self.names.index(wall)
                frame = self.frames[k][leans[k]]
                a, b = frame.stations
                wb = (along - a) / (b - a)
                wide[2 * k] += c * (1 - wb)
                wide[2 * k + 1] += c * wb
                fixed += c * frame.lean * height
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
            out.append(Spread(demand, parts, low, high, tuple(rows)))
        self._spread_cache[leans] = tuple(out)
        return tuple(out)

    def tighten(self, leans: tuple[int, ...], polygons: list[Polygon]) -> bool:
        """Clip every polygon to what the demands and the other walls leave; False when nothing is left."""
        for _ in range(2):
            changed = False
            for spread in self.spreads(leans):
                ends = []
                low = high = 0.0
                for k, ca, cb in spread.parts:
                    values = [ca * x + cb * y for x, y in polygons[k]]
                    a, b = min(values), max(values)
                    ends.append((a, b))
                    low += a
                    high += b
                if low > spread.high or high < spread.low:
                    return False
                if low >= spread.low and high <= spread.high:
                    continue
                for (k, ca, cb), (a, b) in zip(spread.parts, ends, strict=True):
                    most, least = spread.high - (low - a), spread.low - (high - b)
                    if b > most:
                        polygons[k] = clip(polygons[k], ca, cb, most + self.eps)
                        changed = True
                    if a < least and polygons[k]:
                        polygons[k] = clip(polygons[k], -ca, -cb, self.eps - least)
                        changed = True
                    if not polygons[k]:
                        return False
            if not changed:
                break
        return True

    # -- the search ---------------------------------------------------------------------------------

    def run(self) -> Outcome:
        """Least cost of the group, best first."""
        heap: list[tuple[int, int, int, int, object]] = []
        serial = 0
        roots = self._roots()
        if roots is None:
            return Outcome(None, None, 0, False)
        first = tuple(0 for _ in self.names)
        seen = {first}
        heapq.heappush(heap, (sum(r[0][0] for r in roots), 0, 0, serial, first))
        while heap:
            bound, tilt, depth, _, body = heapq.heappop(heap)
            if self.tick(self.nodes, bound):
                return Outcome(None, bound, self.nodes, True)
            children: list[Node | None]
            if isinstance(body[0], int):  # type: ignore[index]
                index: tuple[int, ...] = body  # type: ignore[assignment]
                for k in range(len(index)):
                    step = (*index[:k], index[k] + 1, *index[k + 1 :])
                    if step[k] < len(roots[k]) and step not in seen:
                        seen.add(step)
                        serial += 1
                        total = sum(roots[m][i][0] for m, i in enumerate(step))
                        heapq.heappush(heap, (total, 0, 0, serial, step))
                regions = [roots[k][i][3] for k, i in enumerate(index)]
                tilt = sum(abs(r.lean - len(f) // 2) for r, f in zip(regions, self.frames, strict=True))
                children = [self._child(tuple(regions))]
            else:
                node: Node = body  # type: ignore[assignment]
                self.nodes += 1
                if any(r.waiting for r in node):
                    children = self._list_or_split(node)
                else:
                    failed = None
                    leaf = True
                    if all(r.meets for r in node):
                        answer = self._close(node, bound)
                        if isinstance(answer, Found):
                            return Outcome(answer, bound, self.nodes, False)
                        failed = answer
                    if failed is not None:
                        children = self._branch_rows(node, *failed)
                    else:
                        split = self._widest(node)
                        leaf = split is None
                        children = [] if leaf else self._split(node, *split)  # type: ignore[misc]
            for child in children:
                if child is not None:
                    serial += 1
                    total = sum(r.bound for r in child)
                    heapq.heappush(heap, (max(total, bound), tilt, depth - 1, serial, child))
        return Outcome(None, None, self.nodes, False)

    def _roots(self) -> list[list[tuple[int, int, int, Region]]] | None:
        """For each wall (bound, tilt, serial, region), rising; None when a wall has none."""
        out = []
        for frames in self.frames:
            found = []
            serial = 0
            for lean, frame in enumerate(frames):
                low, high = (float(v) for v in frame.t_range)
                a, b = frame.stations
                far = frame.wall.members[-1].along
                spare = 0.0 if far == b else 2 * (high - low)
                polygon = [(low, low - spare), (high, low - spare), (high, high + spare), (low, high + spare)]
                for mask in frame.masks():
                    region = look(frame, lean, mask, (), (FREE,) * len(frame.spots), polygon)
                    if region is not None:
                        serial += 1
                        found.append((region.bound, abs(lean - len(frames) // 2), serial, region))
            if not found:
                return None
            found.sort(key=lambda item: item[:3])
            out.append(found)
        return out

    def _child(self, node: Node, k: int | None = None, region: Region | None = None) -> Node | None:
        """A node with one wall replaced, every wall clipped to the demands and looked at again."""
        regions = list(node)
        if k is not None:
            assert region is not None
            regions[k] = region
        leans = tuple(r.lean for r in regions)
        polygons = [r.polygon for r in regions]
        if not self.tighten(leans, polygons):
            return None
        for j, (r, polygon) in enumerate(zip(regions, polygons, strict=True)):
            if polygon is not r.polygon:
                again = look(r.frame, r.lean, r.mask, r.limits, r.choices, polygon)
                if again is None:
                    return None
                regions[j] = again
        return tuple(regions)

    def _replace(self, node: Node, k: int, polygon: Polygon, spot: int, choice: Choice) -> Node | None:
        r = node[k]
        choices = (*r.choices[:spot], choice, *r.choices[spot + 1 :])
        region = look(r.frame, r.lean, r.mask, r.limits, choices, polygon)
        return None if region is None else self._child(node, k, region)

    # -- splitting ----------------------------------------------------------------------------------

    def _widest(self, node: Node, listed_only: bool = False) -> tuple[int, int] | None:
        """The spot whose split raises the bound most; None when every pick holds over its whole range."""
        best: tuple[int, float] | None = None
        where = None
        for k, r in enumerate(node):
            lookup = dict(r.limits)
            for i, pick in enumerate(r.picks):
                if r.choices[i].has is not None or pick is None:
                    continue
                low, high = r.lows[i], r.highs[i]
                if pick.low + self.eps < low and high < pick.high - self.eps:
                    continue
                table = r.frame.table(i, r.mask, lookup.get(i, ()))
                out = r.choices[i].out | {id(pick)}
                beyond = FAR
                if low <= pick.low:
                    beyond = table.query(low, min(high, float(pick.low)), r.mask, out)[0]
                if high >= pick.high and beyond > r.costs[i]:
                    beyond = min(beyond, table.query(max(low, float(pick.high)), high, r.mask, out)[0])
                rank = (beyond - r.costs[i], high - low)
                if best is None or rank > best:
                    best, where = rank, (k, i)
        if listed_only and best is not None and best[0] <= 0:
            return None
        return where

    def _split(self, node: Node, k: int, spot: int) -> list[Node | None]:
        """The spot has its pick and T lies in the pick's interval; or it has another, T below or above."""
        r = node[k]
        pick = r.picks[spot]
        assert pick is not None
        wa, wb, _, _ = r.frame.reach[spot]
        slack = self.eps
        inside = clip(clip(r.polygon, wa, wb, float(pick.high) + slack), -wa, -wb, slack - float(pick.low))
        children: list[Node | None] = []
        if inside:
            children.append(self._replace(node, k, inside, spot, Choice(has=pick)))
        other = Choice(out=r.choices[spot].out | {id(pick)})
        below = clip(r.polygon, wa, wb, float(pick.low) + slack)
        if below:
            children.append(self._replace(node, k, below, spot, other))
        above = clip(r.polygon, -wa, -wb, slack - float(pick.high))
        if above:
            children.append(self._replace(node, k, above, spot, other))
        return children

    def _list_or_split(self, node: Node) -> list[Node | None]:
        """List what the cheapest picks wait for where the range of T is narrow; otherwise narrow it."""
        wide: tuple[float, int, int] | None = None
        for k, r in enumerate(node):
            lookup = dict(r.limits)
            for spot in r.waiting:
                table = r.frame.table(spot, r.mask, lookup.get(spot, ()))
                if not table.expand(r.lows[spot], r.highs[spot], r.mask):
                    width = r.highs[spot] - r.lows[spot]
                    if wide is None or width > wide[0]:
                        wide = (width, k, spot)
        if wide is None:
            regions = []
            for r in node:
                if r.waiting:
                    again = look(r.frame, r.lean, r.mask, r.limits, r.choices, r.polygon)
                    if again is None:
                        return []
                    regions.append(again)
                else:
                    regions.append(r)
            return [tuple(regions)]
        split = self._widest(node, listed_only=True)
        if split is not None:
            return self._split(node, *split)
        _, k, spot = wide
        r = node[k]
        wa, wb, _, _ = r.frame.reach[spot]
        middle = (r.lows[spot] + r.highs[spot]) / 2
        return [
            self._replace(node, k, clip(r.polygon, wa, wb, middle), spot, r.choices[spot]),
            self._replace(node, k, clip(r.polygon, -wa, -wb, -middle), spot, r.choices[spot]),
        ]

    # -- closing ------------------------------------------------------------------------------------

    def rows_of(self, leans: tuple[int, ...], picks: Sequence[Sequence[Option]]) -> list[Row]:
        """Every exact row ``sum a x <= b`` that the picks and the demands put on the planes, whole numbers."""
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

    def _close(self, node: Node, total: int) -> Found | tuple[int, WallRow, Settled] | None:
        """An exact common point of the picks with straight faces; or the row that fails; or None."""
        leans = tuple(r.lean for r in node)
        picks = tuple(tuple(p for p in r.picks if p is not None) for r in node)
        rows = self.rows_of(leans, picks)
        low = self.floor()
        point = find_point(rows, low, [1] * len(low))
        if point is None:
            return None
        limits = tuple(r.limits for r in node)
        failed: tuple[int, WallRow, Settled] | None = None
        for attempt in range(2):
            if attempt:
                other = _far_point(rows, low)
                if other is None:
                    break
                point = tuple((a + b) / 2 for a, b in zip(point, other, strict=True))
            faces, failed = self.settle_all(leans, limits, picks, point)
            if failed is None:
                masks = tuple(r.mask for r in node)
                return Found(total, leans, masks, limits, picks, point, tuple(faces))
        return failed

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

    def floor(self) -> list[int]:
        """A lower bound of every coordinate, far below any plane. [units]"""
        out = []
        for frames in self.frames:
            low, high = frames[0].t_range
            out += [low - 8 * (high - low)] * 2
        return out

    def _branch_rows(self, node: Node, k: int, row: WallRow, settled: Settled) -> list[Node | None]:
        """Split on a straightedge row: some rest lies lower than now, or else the dip lies higher."""
        faces = settled.faces
        limit = row.limit * self.unit
        over = sum((w * faces[m][h] for (m, h), w in row.weights), Fraction(0)) - limit
        rests = [(cell, w) for cell, w in row.weights if w > 0]
        dip, dip_weight = next((cell, -w) for cell, w in row.weights if w < 0)
        children: list[Node | None] = []
        at_least: list[tuple[tuple[int, int], Fraction | None, Fraction | None]] = []
        total = Fraction(0)
        for (m, h), w in rests:
            cut = Fraction(faces[m][h]) - min(Fraction(1), over / ((len(rests) + 1) * w))
            children.append(self._limited(node, k, [*at_least, ((m, h), None, cut)]))
            at_least.append(((m, h), cut, None))
            total += w * cut
        children.append(self._limited(node, k, [*at_least, (dip, (total - limit) / dip_weight, None)]))
        return children

    def _limited(
        self,
        node: Node,
        k: int,
        rows: Sequence[tuple[tuple[int, int], Fraction | None, Fraction | None]],
    ) -> Node | None:
        r = node[k]
        table = {m: {h: (low, high) for h, low, high in key} for m, key in r.limits}
        choices = list(r.choices)
        for (m, h), least, most in rows:
            low, high = table.setdefault(m, {}).get(h, (-FAR, FAR))
            if least is not None:
                low = max(low, least)
            if most is not None:
                high = min(high, most)
            if (low, high) == table[m].get(h):
                continue
            table[m][h] = (low, high)
            choices[m] = FREE  # its stacks are listed anew under the limits
        key = tuple(
            (m, tuple((h, low, high) for h, (low, high) in sorted(limits.items())))
            for m, limits in sorted(table.items())
        )
        region = look(r.frame, r.lean, r.mask, key, tuple(choices), r.polygon)
        return None if region is None else self._child(node, k, region)


def _far_point(rows: Sequence[Row], low: Sequence[int]) -> tuple[Fraction, ...] | None:
    """The point of the rows farthest into the room (the mirror of the least-room-lost one)."""
    point = find_point([(tuple(-c for c in a), b) for a, b in rows], low, [1] * len(low))
    return None if point is None else tuple(-y for y in point)
