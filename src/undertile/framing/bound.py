"""One group of walls that share demands: best-first search over boxes of their planes, with the proof.

A node is, for each wall, a lean, a set of once-a-wall charges, face limits that straightedge rows have
forced, and a box of T at the wall's two stations. Its bound is the sum of what every member costs at least
there. A node is closed when the cheapest stacks of all members have an exact common point: then its bound
is reached. Floats only bound, widened outward; whole numbers and fractions decide (design section 4).
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
from undertile.framing.settle import Settled, settle
from undertile.framing.tables import LimitKey, WallFrame

WallLimits = tuple[tuple[int, LimitKey], ...]
"""Face limits of one wall: (member index, limits by height), sorted."""
Box = tuple[float, float, float, float]
"""T at the first station low, high, at the second low, high. [units]"""


@dataclass(frozen=True)
class Spread:
    """One demand over the coordinates of a group in given leans: ``low <= sum c x <= high``. [units]"""

    demand: Demand
    coefficients: tuple[Fraction, ...]
    low: Fraction | None
    high: Fraction | None
    parts: tuple[tuple[int, float], ...]
    float_low: float
    float_high: float
    rows: tuple[Row, ...]


@dataclass(frozen=True)
class State:
    """What is fixed in a node: for each wall its lean, charges and face limits."""

    leans: tuple[int, ...]
    masks: tuple[int, ...]
    limits: tuple[WallLimits, ...]


@dataclass
class Look:
    """One wall in one box: its bound, the stack picked at each spot, and whether the picks may have a common point."""

    bound: int
    picks: list[Option | None]
    waiting: list[int]
    meets: bool


@dataclass(frozen=True)
class Found:
    """A group's answer."""

    cost: int
    state: State
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
    frames : per wall, per lean, a WallFrame
    demands : the demands within the group
    tick : called once a node; True stops the search (time limit, or the person)
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
        self._looks: dict[tuple[int, int, int, WallLimits, Box], tuple[Look, int]] = {}
        self.nodes = 0

    # -- demands ------------------------------------------------------------------------------------

    def spreads(self, leans: tuple[int, ...], demands: Sequence[Demand] | None = None) -> tuple[Spread, ...]:
        """The demands, and t_low..t_high at the end members, over the coordinates."""
        if demands is None:
            cached = self._spread_cache.get(leans)
            if cached is not None:
                return cached
        size = 2 * len(self.names)
        out = []
        for demand in self.demands if demands is None else demands:
            coefficients = [Fraction(0)] * size
            fixed = Fraction(0)
            for wall, along, height, c in demand.parts:
                k = self.names.index(wall)
                frame = self.frames[k][leans[k]]
                a, b = frame.stations
                wb = (along - a) / (b - a)
                coefficients[2 * k] += c * (1 - wb)
                coefficients[2 * k + 1] += c * wb
                fixed += c * frame.lean * height
            out.append(
                self._spread(
                    demand,
                    coefficients,
                    None if demand.low is None else (demand.low - fixed) * self.unit,
                    None if demand.high is None else (demand.high - fixed) * self.unit,
                )
            )
        if demands is None:
            self._spread_cache[leans] = tuple(out)
        return tuple(out)

    def _spread(
        self, demand: Demand, coefficients: Sequence[Fraction], low: Fraction | None, high: Fraction | None
    ) -> Spread:
        rows = []
        if high is not None:
            rows.append(whole_row(coefficients, high))
        if low is not None:
            rows.append(whole_row([-c for c in coefficients], -low))
        return Spread(
            demand,
            tuple(coefficients),
            low,
            high,
            tuple((j, float(c)) for j, c in enumerate(coefficients) if c),
            -1e30 if low is None else float(low) - self.eps,
            1e30 if high is None else float(high) + self.eps,
            tuple(rows),
        )

    def tighten(self, leans: tuple[int, ...], box: list[float]) -> bool:
        """Shrink the box to what the demands leave (outward by a hair); False when nothing is left."""
        spreads = self.spreads(leans)
        for _ in range(3):
            changed = False
            for spread in spreads:
                low = high = 0.0
                terms = []
                for j, c in spread.parts:
                    a, b = (c * box[2 * j], c * box[2 * j + 1]) if c > 0 else (c * box[2 * j + 1], c * box[2 * j])
                    low += a
                    high += b
                    terms.append((j, c, a, b))
                if low > spread.float_high or high < spread.float_low:
                    return False
                if low >= spread.float_low and high <= spread.float_high:
                    continue
                for j, c, a, b in terms:
                    most = spread.float_high - (low - a)
                    least = spread.float_low - (high - b)
                    if c > 0:
                        x0, x1 = least / c, most / c
                    else:
                        x0, x1 = most / c, least / c
                    x0, x1 = x0 - self.eps, x1 + self.eps
                    if x0 > box[2 * j] + self.eps:
                        box[2 * j] = x0
                        changed = True
                    if x1 < box[2 * j + 1] - self.eps:
                        box[2 * j + 1] = x1
                        changed = True
                    if box[2 * j] > box[2 * j + 1]:
                        return False
            if not changed:
                break
        return True

    # -- one wall in one box ------------------------------------------------------------------------

    def look(self, k: int, lean: int, mask: int, limits: WallLimits, box: Box) -> Look:
        """Bound and picks of one wall in one box."""
        key = (k, lean, mask, limits, box)
        hit = self._looks.get(key)
        frame = self.frames[k][lean]
        lookup = dict(limits)
        tables = [frame.table(i, mask, lookup.get(i, ())) for i in range(len(frame.spots))]
        stamp = sum(t.version for t in tables)
        if hit is not None and hit[1] == stamp:
            return hit[0]
        total = frame.charge(mask)
        picks: list[Option | None] = []
        waiting = []
        a0, a1, b0, b1 = box
        eps = self.eps
        for i, (table, (wa, wb, plus_a, plus_b)) in enumerate(zip(tables, frame.reach, strict=True)):
            low = (wa * a0 if plus_a else wa * a1) + (wb * b0 if plus_b else wb * b1) - eps
            high = (wa * a1 if plus_a else wa * a0) + (wb * b1 if plus_b else wb * b0) + eps
            cost, option = table.query(low, high)
            if cost >= FAR:
                total = FAR
                break
            total += cost
            picks.append(option)
            if option is None:
                waiting.append(i)
        meets = total < FAR and not waiting and self._meets(frame, picks, box)
        result = Look(total, picks, waiting, meets)
        self._looks[key] = (result, stamp)
        return result

    def _meets(self, frame: WallFrame, picks: Sequence[Option | None], box: Box) -> bool:
        """Whether the picks' intervals may have a common plane (floats, outward): a polygon clipped in turn."""
        reach = 4.0 * self.unit
        polygon = [
            (box[0] - reach, box[2] - reach),
            (box[1] + reach, box[2] - reach),
            (box[1] + reach, box[3] + reach),
            (box[0] - reach, box[3] + reach),
        ]
        slack = 1e-6 * self.unit
        for pick, (wa, wb, _, _) in zip(picks, frame.reach, strict=True):
            assert pick is not None
            polygon = _clip(polygon, wa, wb, float(pick.high) + slack)
            polygon = _clip(polygon, -wa, -wb, -float(pick.low) + slack)
            if not polygon:
                return False
        return True

    # -- the search ---------------------------------------------------------------------------------

    def run(self, ceiling: int = FAR) -> Outcome:
        """Least cost of the group, best first; plans at or over ``ceiling`` are not looked for."""
        heap: list[tuple[int, int, float, int, str, object]] = []
        serial = 0
        roots = self._roots()
        if roots is None:
            return Outcome(None, None, 0, False)
        first = tuple(0 for _ in self.names)
        seen = {first}
        start = sum(r[0][0] for r in roots)
        heapq.heappush(heap, (start, 0, 0.0, serial, "root", first))
        while heap:
            bound, tilt, _, _, kind, body = heapq.heappop(heap)
            if bound >= ceiling:
                return Outcome(None, bound, self.nodes, False)
            if self.tick(self.nodes, bound):
                return Outcome(None, bound, self.nodes, True)
            children: list[tuple[State, list[float]]] = []
            if kind == "root":
                index: tuple[int, ...] = body  # type: ignore[assignment]
                for k in range(len(index)):
                    step = (*index[:k], index[k] + 1, *index[k + 1 :])
                    if step[k] < len(roots[k]) and step not in seen:
                        seen.add(step)
                        serial += 1
                        total = sum(roots[m][i][0] for m, i in enumerate(step))
                        heapq.heappush(heap, (total, 0, 0.0, serial, "root", step))
                chosen = [roots[k][i] for k, i in enumerate(index)]
                state = State(
                    tuple(c[1] for c in chosen), tuple(c[2] for c in chosen), tuple(() for _ in chosen)
                )
                children.append((state, self._root_box()))
            else:
                state, box = body  # type: ignore[misc]
                self.nodes += 1
                looks = self._looks_at(state, box)
                total = sum(look.bound for look in looks)
                if total > bound:
                    if total < FAR:
                        serial += 1
                        heapq.heappush(heap, (total, tilt, _size(box), serial, "node", (state, box)))
                    continue
                if any(look.waiting for look in looks):
                    for k, look in enumerate(looks):
                        lookup = dict(state.limits[k])
                        for spot in look.waiting:
                            self.frames[k][state.leans[k]].table(spot, state.masks[k], lookup.get(spot, ())).expand()
                    serial += 1
                    heapq.heappush(heap, (bound, tilt, _size(box), serial, "node", (state, box)))
                    continue
                rows: list[tuple[int, WallRow, Settled]] = []
                if all(look.meets for look in looks):
                    answer = self._close(state, looks, total)
                    if isinstance(answer, Found):
                        return Outcome(answer, bound, self.nodes, False)
                    if answer is not None:
                        rows = [answer]
                if rows:
                    children = [(s, list(box)) for s in self._branch_rows(state, *rows[0])]
                else:
                    children = [(state, half) for half in _halves(box, self.unit)]
            for child, corners in children:
                if not self.tighten(child.leans, corners):
                    continue
                looks = self._looks_at(child, corners)
                total = sum(look.bound for look in looks)
                if total < FAR:
                    serial += 1
                    heapq.heappush(heap, (max(total, bound), self._tilt(child), _size(corners), serial, "node", (child, corners)))
        return Outcome(None, None, self.nodes, False)

    def _tilt(self, state: State) -> int:
        """How far from plumb the leans are: among equals plumb walls come first."""
        return sum(abs(lean - len(f) // 2) for lean, f in zip(state.leans, self.frames, strict=True))

    def _roots(self) -> list[list[tuple[int, int, int]]] | None:
        """For each wall (bound, lean, mask), rising; None when a wall has none."""
        out = []
        box = self._root_box()
        for k, frames in enumerate(self.frames):
            corner: Box = tuple(box[4 * k : 4 * k + 4])  # type: ignore[assignment]
            found = []
            for lean, frame in enumerate(frames):
                for mask in frame.masks():
                    bound = self.look(k, lean, mask, (), corner).bound
                    if bound < FAR:
                        found.append((bound, abs(lean - len(frames) // 2), lean, mask))
            if not found:
                return None
            found.sort()
            out.append([(b, lean, mask) for b, _, lean, mask in found])
        return out

    def _root_box(self) -> list[float]:
        box: list[float] = []
        for frames in self.frames:
            frame = frames[0]
            low, high = (float(v) for v in frame.t_range)
            a, b = (float(s) for s in frame.stations)
            ends = [float(frame.wall.members[0].along), float(frame.wall.members[-1].along)]
            # T at a station from T at the end members, both within t_low..t_high
            for s in (a, b):
                if ends[1] > ends[0]:
                    w = (s - ends[0]) / (ends[1] - ends[0])
                    corners = [(1 - w) * p + w * q for p in (low, high) for q in (low, high)]
                else:
                    corners = [low - (high - low), high + (high - low)] if abs(s - ends[0]) > 1e-9 else [low, high]
                box += [min(corners) - self.eps, max(corners) + self.eps]
        return box

    def _looks_at(self, state: State, box: Sequence[float]) -> list[Look]:
        return [
            self.look(k, state.leans[k], state.masks[k], state.limits[k], tuple(box[4 * k : 4 * k + 4]))  # type: ignore[arg-type]
            for k in range(len(self.names))
        ]

    def rows_of(self, state: State, picks: Sequence[Sequence[Option]]) -> list[Row]:
        """Every exact row ``sum a x <= b`` that the picks and the demands put on the planes, whole numbers."""
        rows: list[Row] = []
        for k, chosen in enumerate(picks):
            frame = self.frames[k][state.leans[k]]
            before, after = (0,) * (2 * k), (0,) * (2 * (len(self.names) - k - 1))
            for spot, pick in zip(frame.spots, chosen, strict=True):
                a, b = spot.whole
                for sign, bound in ((1, pick.high), (-1, -pick.low)):
                    right = bound * spot.scale
                    scale = right.denominator  # whole but for limits that a straightedge row has cut
                    rows.append(((*before, sign * a * scale, sign * b * scale, *after), int(right * scale)))
        for spread in self.spreads(state.leans):
            rows += spread.rows
        return rows

    def _close(
        self, state: State, looks: Sequence[Look], total: int
    ) -> Found | tuple[int, WallRow, Settled] | None:
        """An exact common point of the picks with straight faces; or the row that fails; or None."""
        picks = tuple(tuple(p for p in look.picks if p is not None) for look in looks)
        rows = self.rows_of(state, picks)
        low = self.floor()
        point = find_point(rows, low, [1] * len(low))
        if point is None:
            return None
        failed: tuple[int, WallRow, Settled] | None = None
        for attempt in range(2):
            if attempt:
                other = _far_point(rows, low)
                if other is None:
                    break
                point = tuple((a + b) / 2 for a, b in zip(point, other, strict=True))
            faces, failed = self.settle_all(state, picks, point)
            if failed is None:
                return Found(total, state, picks, point, tuple(faces))
        return failed

    def settle_all(
        self, state: State, picks: Sequence[Sequence[Option]], point: Sequence[Fraction]
    ) -> tuple[list[Settled], tuple[int, WallRow, Settled] | None]:
        """Faces of every wall at a point; the first wall whose straightedge rows cannot be met."""
        faces = []
        for k, chosen in enumerate(picks):
            frame = self.frames[k][state.leans[k]]
            settled, row = settle(frame, chosen, (point[2 * k], point[2 * k + 1]), dict(state.limits[k]))
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

    def _branch_rows(self, state: State, k: int, row: WallRow, settled: Settled) -> list[State]:
        """Split on a straightedge row: some rest lies lower than now, or else the dip lies higher."""
        unit = self.unit
        faces = settled.faces
        limit = row.limit * unit
        over = sum(w * faces[m][h] for (m, h), w in row.weights) - limit
        rests = [(cell, w) for cell, w in row.weights if w > 0]
        dip, dip_weight = next((cell, -w) for cell, w in row.weights if w < 0)
        children: list[State] = []
        at_least: list[tuple[tuple[int, int], Fraction]] = []
        total = Fraction(0)
        for (m, h), w in rests:
            delta = min(Fraction(1), over / ((len(rests) + 1) * w))
            cut = Fraction(faces[m][h]) - delta
            children.append(self._with_limits(state, k, [*at_least_rows(at_least), ((m, h), None, cut)]))
            at_least.append(((m, h), cut))
            total += w * cut
        need = (total - limit) / dip_weight
        children.append(self._with_limits(state, k, [*at_least_rows(at_least), (dip, need, None)]))
        return children

    def _with_limits(
        self,
        state: State,
        k: int,
        rows: Sequence[tuple[tuple[int, int], Fraction | None, Fraction | None]],
    ) -> State:
        table = {m: {h: (low, high) for h, low, high in key} for m, key in state.limits[k]}
        for (m, h), least, most in rows:
            low, high = table.setdefault(m, {}).get(h, (-FAR, FAR))
            if least is not None:
                low = max(low, least)
            if most is not None:
                high = min(high, most)
            table[m][h] = (low, high)
        key = tuple(
            (m, tuple((h, low, high) for h, (low, high) in sorted(limits.items())))
            for m, limits in sorted(table.items())
        )
        return State(state.leans, state.masks, (*state.limits[:k], key, *state.limits[k + 1 :]))


def at_least_rows(
    cells: Sequence[tuple[tuple[int, int], Fraction]],
) -> list[tuple[tuple[int, int], Fraction | None, Fraction | None]]:
    """Cells with their lower limits as limit rows."""
    return [(cell, cut, None) for cell, cut in cells]


def _far_point(rows: Sequence[Row], low: Sequence[int]) -> tuple[Fraction, ...] | None:
    """The point of the rows farthest into the room (the mirror of the least-room-lost one)."""
    point = find_point([(tuple(-c for c in a), b) for a, b in rows], low, [1] * len(low))
    return None if point is None else tuple(-y for y in point)


def _clip(polygon: list[tuple[float, float]], wa: float, wb: float, bound: float) -> list[tuple[float, float]]:
    """The part of a convex polygon with ``wa x + wb y <= bound``."""
    out: list[tuple[float, float]] = []
    if not polygon:
        return out
    px, py = polygon[-1]
    before = wa * px + wb * py - bound
    for x, y in polygon:
        now = wa * x + wb * y - bound
        if (now <= 0) != (before <= 0):
            share = before / (before - now)
            out.append((px + share * (x - px), py + share * (y - py)))
        if now <= 0:
            out.append((x, y))
        px, py, before = x, y, now
    return out


def _size(box: Sequence[float]) -> float:
    return sum(box[i + 1] - box[i] for i in range(0, len(box), 2))


def _halves(box: Sequence[float], unit: int) -> list[list[float]]:
    widths = [box[i + 1] - box[i] for i in range(0, len(box), 2)]
    j = max(range(len(widths)), key=widths.__getitem__)
    if widths[j] < 1e-7 * unit:
        raise ArithmeticError("a box of planes shrank to nothing without being decided")
    middle = (box[2 * j] + box[2 * j + 1]) / 2
    left, right = list(box), list(box)
    left[2 * j + 1] = middle
    right[2 * j] = middle
    return [left, right]
