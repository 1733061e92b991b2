"""One member's least cost over the plane, listed lazily.

A table holds the stacks that are cheapest somewhere, in rising cost. Stacks of two and three pieces and
tapers are priced at the least they could cost until the search meets that price, and only then listed.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from fractions import Fraction

from undertile.framing.option import (
    FAR,
    Draft,
    Known,
    Level,
    Limits,
    Option,
    Span,
    cover,
    inside,
    make,
)
from undertile.framing.options import Options

NONE: frozenset[int] = frozenset()
Entry = tuple[int, float, float, Option, int]
LimitKey = tuple[tuple[int, Fraction | int, Fraction | int], ...]


class Cell:
    """A stretch of T on one table, where the dearer kinds of stack are listed as they are met."""

    __slots__ = ("entries", "later")

    def __init__(self, later: list[Level]) -> None:
        self.entries: list[Entry] = []
        self.later = later


class Table:
    """The stacks of one member that are cheapest for some T, whatever once-a-wall charges are paid.

    ``entries`` is a list of (cost, low, high, Option, charge bits) by rising cost over the whole range of T.
    Strips of two and three pieces, strips over planed wood and tapers are listed cell by cell (a cell is an
    eighth of an inch of T), only once the search has come down to a cell or two and to their least cost.
    """

    def __init__(self, shape: Options, masks: Sequence[int], limits: LimitKey = ()) -> None:
        self.shape = shape
        self.masks = masks
        self.limits: Limits = {h: (low, high) for h, low, high in limits}  # type: ignore[misc]
        self.cell = shape.unit // 8
        self.origin, self.end = shape.t_range
        self._cells: dict[int, Cell] = {}
        self.entries = self._paint([], shape.simple(self.limits), shape.t_range)
        whole = shape.levels(shape.t_range)
        self._least = whole[0][0] if whole else FAR

    def _paint(self, known: list[Entry], drafts: Iterable[Draft], span: Span) -> list[Entry]:
        """Keep what is cheapest somewhere in ``span`` (floats hold whole numbers below 2**53 exactly)."""
        first, last = span
        every: list[tuple[int, int, int, int, int, Draft | None, Option | None]] = [
            (o.cost, o.low - o.high, o.low, o.high, o.need, None, o)
            for _, _, _, o, _ in known
            if o.low <= last and o.high >= first
        ]
        every += [(d[0], d[1] - d[2], d[1], d[2], d[3], d, None) for d in drafts]
        every.sort(key=_rank)
        covered: dict[int, list[Span]] = {mask: [] for mask in self.masks}
        kept: list[Entry] = []
        for cost, _, low, high, need, draft, option in every:
            low_in, high_in = max(low, first), min(high, last)
            if low_in > high_in or need not in covered or inside(covered[need], low_in, high_in):
                continue
            if option is None:
                assert draft is not None
                option = make(draft, self.shape.book)
                if not self._fixed_straight(option):
                    continue
            kept.append((cost, float(low), float(high), option, need))
            for mask in self.masks:
                if not need & ~mask:
                    covered[mask] = cover(covered[mask], low_in, high_in)
            if covered[0] == [span]:
                break
        return kept

    def _cell_at(self, index: int) -> Cell:
        found = self._cells.get(index)
        if found is None:
            span = self._span(index)
            found = self._cells[index] = Cell(self._worth(self.entries, span, self.shape.levels(span)))
        return found

    def _span(self, index: int) -> Span:
        return self.origin + index * self.cell, self.origin + (index + 1) * self.cell

    def _worth(self, entries: Iterable[Entry], span: Span, levels: list[Level]) -> list[Level]:
        """Levels that could still be cheaper somewhere in the cell."""
        caps = {bits: _cap(entries, span, bits) for bits in {level[4] for level in levels}}
        return [level for level in levels if level[0] < caps[level[4]]]

    def expand(self, t0: float, t1: float, mask: int) -> bool:
        """List the next kind of stack in the cells under t0..t1; False when that is more than two cells."""
        first, last = self._range(t0, t1)
        if last - first > 1:
            return False
        for index in range(first, last + 1):
            cell = self._cell_at(index)
            at = next((i for i, level in enumerate(cell.later) if not level[4] & ~mask), None)
            if at is None:
                continue
            _, kind, count, cut, bits = cell.later.pop(at)
            span = self._span(index)
            known = sorted([*self.entries, *cell.entries], key=lambda e: e[0])
            if kind == "tapers":
                drafts = self.shape.tapers(cut, self.limits, span)
            else:
                listed = [
                    (c, max(int(a), span[0]), min(int(b), span[1]))
                    for c, a, b, _, need in known
                    if not need & ~bits and a <= span[1] and b >= span[0]
                ]
                drafts = self.shape.strips(count, cut, self.limits, span, Known(listed))
            old = {id(e[3]) for e in self.entries}
            every = self._paint(known, list(drafts), span)
            cell.entries = [e for e in every if id(e[3]) not in old]
            cell.later = self._worth(every, span, cell.later)
        return True

    def _range(self, t0: float, t1: float) -> tuple[int, int]:
        low, high = self.shape.t_range
        first = max(0, int((max(t0, low) - self.origin) // self.cell))
        last = max(first, int((min(t1, high) - self.origin) // self.cell))
        return first, last

    def query(self, t0: float, t1: float, mask: int, out: frozenset[int] = NONE) -> tuple[int, Option | None]:
        """Least cost for some T in t0..t1 under the charges ``mask``, and a stack that has it.

        ``out`` holds the ids of stacks not to be used. (floor, None) when the least may be an unlisted stack;
        (FAR, None) when there is none.
        """
        best, pick = FAR, None
        free = ~mask
        for cost, low, high, option, need in self.entries:
            if low <= t1 and high >= t0 and not need & free and id(option) not in out:
                best, pick = cost, option
                break
        if best <= self._least or t1 < self.origin or t0 > self.end:
            return best, pick
        first = int((t0 - self.origin) // self.cell) if t0 > self.origin else 0
        last = int((min(t1, self.end) - self.origin) // self.cell)
        if last - first > 6:
            return self._least, None
        floor = FAR
        for index in range(first, last + 1):
            cell = self._cells.get(index) or self._cell_at(index)
            for cost, low, high, option, need in cell.entries:
                if cost >= best:
                    break
                if low <= t1 and high >= t0 and not need & free and id(option) not in out:
                    best, pick = cost, option
                    break
            for level in cell.later:
                if level[0] >= floor:
                    break
                if not level[4] & free:
                    floor = level[0]
                    break
        if floor < best:
            return floor, None
        return best, pick

    def _fixed_straight(self, option: Option) -> bool:
        if option.rides or option.bedded or any(option.depth):
            return True
        return self.shape.straight([f + s for f, s in zip(self.shape.faces, option.added, strict=True)])


def _rank(item: tuple[int, int, int, int, int, Draft | None, Option | None]) -> tuple[int, int]:
    return item[0], item[1]


def _cap(entries: Iterable[Entry], span: Span, bits: int) -> int:
    """What the whole stretch costs at most under the charges ``bits``."""
    covered: list[Span] = []
    for cost, low, high, _, need in entries:
        if need & ~bits:
            continue
        low_in, high_in = max(int(low), span[0]), min(int(high), span[1])
        if low_in <= high_in:
            covered = cover(covered, low_in, high_in)
            if covered == [span]:
                return cost
    return FAR


class FixedTable:
    """A table that is given: a step term, a plate spot, a channelled member."""

    def __init__(self, entries: Sequence[Option]) -> None:
        self.entries: list[Entry] = sorted(
            ((o.cost, float(o.low), float(o.high), o, o.need) for o in entries), key=lambda e: e[0]
        )

    def query(self, t0: float, t1: float, mask: int, out: frozenset[int] = NONE) -> tuple[int, Option | None]:
        """As :meth:`Table.query`."""
        for cost, low, high, option, need in self.entries:
            if low <= t1 and high >= t0 and not need & ~mask and id(option) not in out:
                return cost, option
        return FAR, None

    def expand(self, t0: float, t1: float, mask: int) -> bool:
        """Nothing more to list."""
        return True


def fixed_option(
    cost: int, low: int, high: int, families: tuple[str, ...], need: int = 0, rides: bool = False
) -> Option:
    """A stack that is given: its cost and the closed interval of T where it is possible. [units]"""
    return Option(cost, low, high, families, 0, (), (), False, need, rides=rides)
