"""One group of walls that share demands: best-first search over their planes, with the proof.

A node is, for each wall, a lean, a set of once-a-wall charges, face limits that straightedge rows have
forced, what is decided of each member, and the polygon of planes left. Its bound is what every member costs
at least there. A node is closed when the cheapest stacks of all members have an exact common point: its
bound is then reached. Otherwise one member is split: it has its cheapest stack (and T lies in that
stack's interval), or it has another and T lies beyond. Floats only bound, outward; whole numbers and
fractions decide.
"""

from __future__ import annotations

import heapq
from collections.abc import Callable, Sequence
from dataclasses import replace
from fractions import Fraction
from typing import TYPE_CHECKING

from undertile.framing.bends import Bend, bend_of
from undertile.framing.cuts import Cut, cut_of
from undertile.framing.exactlp import find_point, find_point_or_reason
from undertile.framing.flatness import WallRow
from undertile.framing.found import Apart, Dearer, FailedRow, Found, Outcome
from undertile.framing.frame import WallFrame
from undertile.framing.node import Node, Side, Way, sort_out
from undertile.framing.option import FAR
from undertile.framing.problem import Demand
from undertile.framing.region import FREE, Choice, Polygon, clip
from undertile.framing.settle import Settled
from undertile.framing.walls import Walls, far_point

if TYPE_CHECKING:
    from undertile.framing.partner import Partner


ROWS_ADDED = 12
"""Straightedge rows laid on the planes of one set of picks before it is split."""


class Group(Walls):
    """Walls tied by demands, and the search over their planes.

    ``partner``, when set, is another group tied to this one, priced as it goes.

    Parameters
    ----------
    names : wall names
    frames : per wall, per lean, a WallFrame
    demands : the demands within the group
    tick : called once a node with (nodes, bound); True stops the search (time limit, or the person)
    bends : straightedge rows that have come up, by wall and lean; more are added
    """

    def __init__(
        self,
        names: Sequence[str],
        frames: Sequence[Sequence[WallFrame]],
        demands: Sequence[Demand],
        tick: Callable[[int, int], bool],
        bends: dict[WallFrame, list[Bend]] | None = None,
    ) -> None:
        super().__init__(names, frames, demands)
        self.partner: Partner | None = None
        self.tick = tick
        self.bends: dict[WallFrame, list[Bend]] = {} if bends is None else bends
        self.nodes = 0
        self.bound_now = 0

    # -- the search ---------------------------------------------------------------------------------

    def run(self) -> Outcome:
        """Least cost of the group, best first."""
        heap: list[tuple[int, int, int, int, Node]] = []
        serial = 0
        root = self._root()
        if root is not None:
            heapq.heappush(heap, (self._bound(root), self._tilt(root), 0, serial, root))
        while heap:
            bound, _, depth, _, node = heapq.heappop(heap)
            self.bound_now = bound
            fresh = self._fresh(node)
            if fresh is None:
                continue
            if self._bound(fresh) > bound:
                serial += 1
                heapq.heappush(heap, (self._bound(fresh), self._tilt(fresh), depth, serial, fresh))
                continue
            node = fresh
            if self.tick(self.nodes, bound):
                return Outcome(None, bound, self.nodes, True)
            self.nodes += 1
            children: list[Node | None]
            if any(side.best.waiting for side in node):
                children = self._list_or_split(node)
            elif all(side.best.meets for side in node) and (bent := self._bent(node)) is not None:
                children = self._branch(node, *bent)
            else:
                failed: FailedRow | None = None
                halved: list[Node | None] | None = None
                if all(side.best.meets for side in node):
                    answer = self._close(node, bound)
                    if isinstance(answer, Found):
                        return Outcome(answer, bound, self.nodes, False)
                    if isinstance(answer, Apart):
                        halved = self._halve(node, answer.at)
                        if halved is None:
                            return Outcome(None, bound, self.nodes, False)
                    elif isinstance(answer, Dearer):
                        halved = [] if answer.cost is None else [Node(node.sides, node.psi, answer.cost)]
                    elif isinstance(answer, Cut):
                        halved = self._cut(node, answer)
                    else:
                        failed = answer
                if halved is not None:
                    children = halved
                elif failed is not None:
                    children = self._branch_rows(node, *failed)
                else:
                    split = self._widest(node)
                    children = self._drop_best(node) if split is None else self._split(node, *split)
            for child in children:
                if child is not None:
                    serial += 1
                    total = max(self._bound(child), bound)
                    heapq.heappush(heap, (total, self._tilt(child), depth - 1, serial, child))
        return Outcome(None, None, self.nodes, False)

    @staticmethod
    def _bound(node: Node) -> int:
        return sum(side.ways[0].bound for side in node) + node.partner

    @staticmethod
    def _tilt(node: Node) -> int:
        """How far from plumb the least ways are: among equals plumb walls come first."""
        return sum(side.ways[0].tilt for side in node)

    def _root(self) -> Node | None:
        sides: list[Side] = []
        for k, frames in enumerate(self.frames):
            low = float(min(f.t_range[0] for f in frames))
            high = float(max(f.t_range[1] for f in frames))
            _, b = frames[0].stations
            far = frames[0].wall.members[-1].along
            spare = 0.0 if far == b else 2 * (high - low)
            polygon = [(low, low - spare), (high, low - spare), (high, high + spare), (low, high + spare)]
            ways = [
                Way(0, abs(lean - len(frames) // 2), frame, lean, own, mask, (), (FREE,) * len(frame.spots))
                for lean, frame in enumerate(frames)
                for own in (self.own_sides(k, lean),)
                for mask in frame.masks()
            ]
            side = sort_out(polygon, ways, self.bends)
            if side is None:
                return None
            sides.append(side)
        return self._clipped(sides, (-1e30, 1e30))

    def _clipped(self, sides: Sequence[Side], psi: tuple[float, float]) -> Node | None:
        """A node: every wall clipped to the demands and the others, looked at again where that changed it."""
        polygons = [side.polygon for side in sides]
        spans = [side.spans for side in sides]
        ties = () if self.partner is None else self.partner.within(psi)
        if not self.tighten(polygons, ties, spans):
            return None
        out = []
        for side, polygon, known in zip(sides, polygons, spans, strict=True):
            if polygon is not side.polygon or side.ways[0].region is None or side.best.polygon is not polygon:
                again = sort_out(polygon, side.ways, self.bends)
                if again is None:
                    return None
                again.spans = known
                out.append(again)
            else:
                out.append(side)
        if self.partner is None:
            return Node(tuple(out), psi)
        psi = self.partner.psi_over(polygons, psi, spans)
        if psi[0] > psi[1]:
            return None
        cost, sure = self.partner.at_least(psi)
        return None if cost is None else Node(tuple(out), psi, cost, sure)

    def _with_way(self, node: Node, k: int, polygon: Polygon, way: Way | None) -> Node | None:
        """The node with wall k on another polygon and its least way replaced (or dropped)."""
        if not polygon:
            return None
        ways = ([way] if way is not None else []) + node[k].ways[1:]
        side = sort_out(polygon, ways, self.bends)
        if side is None:
            return None
        return self._clipped((*node.sides[:k], side, *node.sides[k + 1 :]), node.psi)

    # -- splitting ----------------------------------------------------------------------------------

    def _widest(self, node: Node, listed_only: bool = False) -> tuple[int, int] | None:
        """The spot whose split raises the bound most; None when every pick holds over its whole range."""
        best: tuple[float, float] | None = None
        where = None
        apart = any(not side.best.meets for side in node)
        for k, side in enumerate(node):
            r = side.best
            if apart and r.meets:
                continue
            tables = r.frame.tables(r.mask, r.limits)
            for i, pick in enumerate(r.picks):
                if r.choices[i].has is not None or pick is None:
                    continue
                low, high = r.lows[i], r.highs[i]
                if pick.low + self.eps < low and high < pick.high - self.eps:
                    continue
                table = tables[i]
                out = r.choices[i].out | {id(pick)}
                beyond = FAR
                if low <= pick.low:
                    beyond = table.query(low, min(high, float(pick.low)), r.mask, out)[0]
                if high >= pick.high and beyond > r.costs[i]:
                    beyond = min(beyond, table.query(max(low, float(pick.high)), high, r.mask, out)[0])
                out_of_it = high - low - (min(high, float(pick.high)) - max(low, float(pick.low)))
                gain = beyond - r.costs[i] if beyond < FAR else r.bound  # nothing else: as dear as the wall
                rank = (gain * out_of_it * (high - low), high - low)
                if best is None or rank > best:
                    best, where = rank, (k, i)
        if listed_only and best is not None and best[0] <= 0:
            return None
        return where

    @staticmethod
    def _chosen(way: Way, spot: int, choice: Choice) -> Way:
        choices = (*way.choices[:spot], choice, *way.choices[spot + 1 :])
        return replace(way, choices=choices, region=None)

    def _split(self, node: Node, k: int, spot: int) -> list[Node | None]:
        """In the least way the spot has its pick and T lies in the pick's interval; or another, T beyond."""
        way, r = node[k].ways[0], node[k].best
        pick = r.picks[spot]
        assert pick is not None
        wa, wb, _, _ = r.frame.reach[spot]
        slack = self.eps
        inside = clip(clip(r.polygon, wa, wb, float(pick.high) + slack), -wa, -wb, slack - float(pick.low))
        below = clip(r.polygon, wa, wb, float(pick.low) + slack)
        above = clip(r.polygon, -wa, -wb, slack - float(pick.high))
        other = self._chosen(way, spot, Choice(out=r.choices[spot].out | {id(pick)}))
        return [
            self._with_way(node, k, inside, self._chosen(way, spot, Choice(has=pick))),
            self._with_way(node, k, below, other),
            self._with_way(node, k, above, other),
        ]

    def _drop_best(self, node: Node) -> list[Node | None]:
        """The least ways have no common plane in the node: one child for each wall going another way."""
        children: list[Node | None] = []
        for k, side in enumerate(node):
            # walls before k keep their least way alone, wall k loses it: the children cover what is left once
            rest: list[Side] = []
            for j, other in enumerate(node):
                ways = other.ways[:1] if j < k else other.ways[1:] if j == k else other.ways
                again = sort_out(other.polygon, ways, self.bends) if ways else None
                if again is None:
                    break
                rest.append(again)
            if len(rest) == len(node) and len(side.ways) > 1:
                children.append(self._clipped(rest, node.psi))
        return children

    def _list_or_split(self, node: Node) -> list[Node | None]:
        """List what the cheapest picks wait for where the range of T is narrow; otherwise narrow it."""
        wide: tuple[float, int, int] | None = None
        for k, side in enumerate(node):
            r = side.best
            lookup = dict(r.limits)
            for spot in r.waiting:
                table = r.frame.table(spot, r.mask, lookup.get(spot, ()))
                if not table.expand(r.lows[spot], r.highs[spot], r.mask):
                    width = r.highs[spot] - r.lows[spot]
                    if wide is None or width > wide[0]:
                        wide = (width, k, spot)
        if wide is None:
            sides = []
            for side in node:
                if side.best.waiting:
                    way = side.ways[0]
                    again = sort_out(side.polygon, [replace(way, region=None), *side.ways[1:]], self.bends)
                    if again is None:
                        return []
                    sides.append(again)
                else:
                    sides.append(side)
            return [self._clipped(sides, node.psi)]
        split = self._widest(node, listed_only=True)
        if split is not None:
            return self._split(node, *split)
        _, k, spot = wide
        r = node[k].best
        wa, wb, _, _ = r.frame.reach[spot]
        middle = (r.lows[spot] + r.highs[spot]) / 2
        return [
            self._with_way(node, k, clip(r.polygon, wa, wb, middle), node[k].ways[0]),
            self._with_way(node, k, clip(r.polygon, -wa, -wb, -middle), node[k].ways[0]),
        ]

    def _cut(self, node: Node, cut: Cut) -> list[Node | None]:
        """The node on either side of what keeps two walls' picks apart."""
        k, j = cut.wall, cut.other
        eps = self.eps * max(abs(cut.ca), abs(cut.cb), abs(cut.oa), abs(cut.ob))
        near = clip(node[k].polygon, cut.ca, cut.cb, cut.at + eps)
        there = clip(node[j].polygon, -cut.oa, -cut.ob, eps - cut.least)
        children: list[Node | None] = []
        if near and there:
            sides = list(node.sides)
            for wall, polygon in ((k, near), (j, there)):
                side = sort_out(polygon, node[wall].ways, self.bends)
                if side is None:
                    break
                sides[wall] = side
            else:
                children.append(self._clipped(sides, node.psi))
        far = clip(node[k].polygon, -cut.ca, -cut.cb, eps - cut.at)
        if far:
            children.append(self._with_way(node, k, far, node[k].ways[0]))
        return children

    def _halve(self, node: Node, at: float | None) -> list[Node | None] | None:
        """The range of the partner's quantity cut in two, there or halfway; None when it is too narrow."""
        low, high = node.psi
        if high - low < 1e-8 * self.unit:
            return None
        middle = (low + high) / 2
        if at is not None and low + self.eps < at < high - self.eps:
            middle = at
        return [self._clipped(node.sides, (low, middle)), self._clipped(node.sides, (middle, high))]

    def _fresh(self, node: Node) -> Node | None:
        """The node, its partner searched, and looked at again where rows have come up since; or nothing."""
        if not node.sure:
            assert self.partner is not None
            cost = self.partner.least(node.psi)
            if cost is None:
                return None
            node = replace(node, partner=cost, sure=True)
        if all(side.best.known == len(self.bends.get(side.best.frame, ())) for side in node.sides):
            return node
        sides = []
        for side in node:
            if side.best.known == len(self.bends.get(side.best.frame, ())):
                sides.append(side)
                continue
            ways = [way if way.region is None else replace(way, region=None) for way in side.ways]
            again = sort_out(side.polygon, ways, self.bends)
            if again is None:
                return None
            again.spans = side.spans
            sides.append(again)
        return replace(node, sides=tuple(sides))

    @staticmethod
    def _bent(node: Node) -> tuple[int, Bend] | None:
        """A wall whose least way does nothing about a straightedge row, and the row."""
        for k, side in enumerate(node):
            if side.best.bend is not None:
                return k, side.best.bend
        return None

    def _branch_rows(self, node: Node, k: int, row: WallRow, settled: Settled) -> list[Node | None]:
        """Split on a straightedge row: some rest lies lower than now, or else the dip lies higher."""
        region = node[k].best
        bend = bend_of(region.frame, region.picks, row, settled.faces)
        known = self.bends.setdefault(region.frame, [])
        if bend not in known:
            known.append(bend)
        return self._branch(node, k, bend)

    def _branch(self, node: Node, k: int, bend: Bend) -> list[Node | None]:
        """A child for each part of a bend, those before it not done; or the wall goes another way."""
        children: list[Node | None] = []
        at_least: list[tuple[tuple[int, int], Fraction | None, Fraction | None]] = []
        for part in bend.parts:
            cell = part.member, part.height
            children.append(self._limited(node, k, [*at_least, (cell, part.least, part.most)]))
            at_least.append((cell, part.most, None))
        if len(node[k].ways) > 1:
            children.append(self._with_way(node, k, node[k].polygon, None))
        return children

    def _limited(
        self,
        node: Node,
        k: int,
        rows: Sequence[tuple[tuple[int, int], Fraction | None, Fraction | None]],
    ) -> Node | None:
        """The node with wall k going its least way under further face limits."""
        way = node[k].ways[0]
        table = {m: {h: (low, high) for h, low, high in key} for m, key in way.limits}
        choices = list(way.choices)
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
        fresh = Way(way.bound, way.tilt, way.frame, way.lean, way.own, way.mask, key, tuple(choices))
        side = sort_out(node[k].polygon, [fresh], self.bends)
        return (
            None if side is None else self._clipped((*node.sides[:k], side, *node.sides[k + 1 :]), node.psi)
        )

    # -- closing ------------------------------------------------------------------------------------

    def _close(self, node: Node, total: int) -> Found | FailedRow | Cut | Apart | Dearer | None:
        """An exact common point of the picks with straight faces.

        Otherwise the straightedge row that fails, ``Apart`` when only the partner does not go with it, the
        cut that keeps the walls' picks apart, or None.
        """
        regions = [side.best for side in node]
        leans = tuple(r.lean for r in regions)
        picks = tuple(tuple(p for p in r.picks if p is not None) for r in regions)
        rows = self.rows_of(leans, picks)
        low = self.floor()
        point, reason = find_point_or_reason(rows, low, [1] * len(low))
        if point is None:
            return cut_of(rows, picks, reason, self.slacks(leans))
        limits = tuple(r.limits for r in regions)
        failed: FailedRow | None = None
        if self.partner is not None:
            return self.partner.close(node, total, regions, rows)
        masks = tuple(r.mask for r in regions)
        for attempt in range(ROWS_ADDED):
            faces, failed = self.settle_all(leans, limits, picks, point)
            if failed is None:
                return Found(total, leans, masks, limits, picks, point, tuple(faces))
            more = self.straight_row(leans, picks, failed)
            if more is not None:
                rows.append(more)
                moved = find_point(rows, low, [1] * len(low))
            else:
                far = None if attempt else far_point(rows, low)
                moved = None if far is None else tuple((a + b) / 2 for a, b in zip(point, far, strict=True))
            if moved is None:
                return failed
            point = moved
        return failed
