"""One member's least cost over the plane, listed lazily; and one wall in one leaning frame.

A table holds the stacks that are cheapest somewhere, in rising cost. Stacks of two and three pieces and
tapers are priced at the least they could cost until the search meets that price, and only then listed.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from fractions import Fraction

from undertile.framing.flatness import WallFlatness
from undertile.framing.option import (
    FAR,
    PLATE,
    SHORE,
    TAPER,
    Draft,
    Known,
    Level,
    Limits,
    Money,
    Option,
    Span,
    cover,
    inside,
    make,
)
from undertile.framing.options import Options
from undertile.framing.problem import FramingProblem, Member, StepTerm, WallProblem
from undertile.framing.stacks import StockBook

CHANNEL = 8
"""Mode bit: the wall is channelled whole."""

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
        """List the next kind of stack in the cells under t0..t1; False when the stretch is wider than two cells."""
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


def _book(
    problem: FramingProblem, member: Member, unit: int, money: Money, books: dict[tuple[int, ...], StockBook]
) -> StockBook:
    """The heaps of a member's stock, made once for all members that share it."""
    found = books.get(member.stock)
    if found is None:
        stock = [(i, int(problem.stock[i].thickness * unit)) for i in member.stock]
        price = {i: money.part(Fraction(0), problem.stock[i].price) for i in member.stock}
        dry = {i for i in member.stock if problem.stock[i].dry_only}
        found = books[member.stock] = StockBook(stock, price, unit * 3 // 4, unit // 4, dry)
    return found


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


def _plain(
    cost: int, low: int, high: int, families: tuple[str, ...], need: int = 0, rides: bool = False
) -> Option:
    return Option(cost, low, high, families, 0, (), (), False, need, rides=rides)


@dataclass(frozen=True)
class Spot:
    """Where along the wall a table's T is read: ``T = wa * Ta + wb * Tb`` at the wall's two stations.

    ``whole`` is (wa, wb) times ``scale``, whole numbers.
    """

    name: str
    kind: str
    along: Fraction
    wa: Fraction
    wb: Fraction
    scale: int
    whole: tuple[int, int]


class WallFrame:
    """One wall at one lean: shapes, spots and tables in whole units, target the same at every height.

    T is taken at the ``pivot``, the height where the walls meet the pan, so that what ties the walls does not
    move with the lean.

    Attributes
    ----------
    spots : list of Spot
        Members first, then step terms, then plate spots.
    """

    def __init__(
        self,
        problem: FramingProblem,
        wall: WallProblem,
        lean: Fraction,
        unit: int,
        money: Money,
        stations: tuple[Fraction, Fraction],
        flatness: WallFlatness,
        books: dict[tuple[int, ...], StockBook],
    ) -> None:
        self.problem, self.wall, self.lean, self.unit, self.money = problem, wall, lean, unit, money
        self.stations, self.flatness = stations, flatness
        self.pivot = next((z for z, f in zip(wall.heights, wall.flange, strict=True) if f), wall.heights[0])
        off = lean * self.pivot
        self.t_range = (int((wall.t_low + off) * unit), int((wall.t_high + off) * unit))
        self.shift = tuple(
            int((lean * (z - self.pivot) + (0 if f else wall.step)) * unit)
            for z, f in zip(wall.heights, wall.flange, strict=True)
        )
        knock = None
        if wall.top is not None:
            knock = [(wall.top - z) / wall.top for z in wall.heights]
        self.shapes = [
            Options(
                problem,
                m,
                [int(o * unit) - s for o, s in zip(m.offsets, self.shift, strict=True)],
                wall.flange,
                wall.heights,
                knock,
                unit,
                money,
                self.t_range,
                _book(problem, m, unit, money, books),
            )
            for m in wall.members
        ]
        self.spots = [self._spot(m.name, "member", m.along) for m in wall.members]
        self.spots += [self._spot(t.name, "term", t.along) for t in wall.terms]
        self.spots += [self._spot(p.name, "plate", p.along) for p in wall.plates]
        self._terms = [self._term_table(term) for term in wall.terms]
        self._charges: dict[int, int] = {}
        self._lists: dict[tuple[int, tuple[tuple[int, LimitKey], ...]], list[Table | FixedTable]] = {}
        self._tables: dict[tuple[int, int, LimitKey], Table | FixedTable] = {}
        self.reach = [(float(s.wa), float(s.wb), s.wa >= 0, s.wb >= 0) for s in self.spots]

    def _spot(self, name: str, kind: str, along: Fraction) -> Spot:
        a, b = self.stations
        wb = (along - a) / (b - a)
        scale = wb.denominator
        return Spot(name, kind, along, 1 - wb, wb, scale, (int((1 - wb) * scale), int(wb * scale)))

    def lift(self, height: Fraction) -> Fraction:
        """Target minus T at the pivot: lean and, above the flange zone, the step. [in]"""
        top = max((z for z, f in zip(self.wall.heights, self.wall.flange, strict=True) if f), default=None)
        flange = top is not None and height <= top
        return self.lean * (height - self.pivot) + (0 if flange else self.wall.step)

    def _term_table(self, term: StepTerm) -> FixedTable:
        lift = self.lift(term.height)
        low0, high0 = self.t_range

        def at(value: Fraction | None, default: int) -> int:
            return default if value is None else int((value - lift) * self.unit)

        wide = (low0 - 10 * self.unit, high0 + 10 * self.unit)
        entries = [_plain(0, at(term.low, wide[0]), at(term.high, wide[1]), ())]
        if term.minutes is not None:
            cost = self.money.of(term.minutes, term.dollars, False)
            entries.append(_plain(cost, at(term.hard_low, wide[0]), at(term.hard_high, wide[1]), ("buy",)))
        return FixedTable([e for e in entries if e.low <= e.high])

    def table(self, spot: int, mask: int, limits: LimitKey = ()) -> Table | FixedTable:
        """The table of one spot under the charges ``mask`` allows."""
        key = (spot, mask & CHANNEL, limits)
        found = self._tables.get(key)
        if found is None:
            found = self._tables[key] = self._make(spot, mask, limits)
        return found

    def tables(self, mask: int, limits: tuple[tuple[int, LimitKey], ...]) -> list[Table | FixedTable]:
        """Every spot's table, under some members' face limits."""
        key = (mask & CHANNEL, limits)
        found = self._lists.get(key)
        if found is None:
            lookup = dict(limits)
            found = [self.table(i, mask, lookup.get(i, ())) for i in range(len(self.spots))]
            self._lists[key] = found
        return found

    def _make(self, spot: int, mask: int, limits: LimitKey) -> Table | FixedTable:
        members = len(self.shapes)
        if spot < members:
            shape = self.shapes[spot]
            if mask & CHANNEL:
                channel = self.wall.channel
                assert channel is not None
                low, high = (
                    int(channel.height * self.unit),
                    int((channel.height + channel.packing) * self.unit),
                )
                t0 = max(max(shape.faces) + low, self.t_range[0])
                t1 = min(min(shape.faces) + high, self.t_range[1])
                for _, least, most in limits:
                    t0, t1 = max(t0, least), min(t1, most)  # type: ignore[assignment]
                ok = t0 <= t1 and shape.allowed(("channel",))
                return FixedTable([_plain(1, t0, t1, ("channel",), rides=True)] if ok else [])
            return Table(shape, [m for m in self.masks() if not m & CHANNEL], limits)
        spot -= members
        if spot < len(self._terms):
            return self._terms[spot]
        plate = self.wall.plates[spot - len(self._terms)]
        wide = self.t_range[1] + 10 * self.unit
        if mask & CHANNEL:
            return FixedTable([_plain(0, -wide, wide, ())])
        lift = self.lean * (plate.height - self.pivot) + (0 if plate.flange else self.wall.step)
        need = plate.offset - lift - (0 if plate.flange else Fraction(1, 16))
        entries = [_plain(0, int(need * self.unit), wide, ())]
        if plate.cut > 0:
            entries.append(_plain(0, int((need - plate.cut) * self.unit), wide, ("cut",), PLATE))
        return FixedTable(entries)

    def charge(self, mask: int) -> int:
        """What the modes in ``mask`` cost, with verifying the wall."""
        found = self._charges.get(mask)
        if found is None:
            found = self._charges[mask] = self._charge(mask)
        return found

    def _charge(self, mask: int) -> int:
        p = self.problem.prices
        minutes = p.verify
        dollars = Fraction(0)
        if mask & PLATE:
            minutes += p.plate_edge
        if mask & SHORE:
            minutes += p.shoring
        if mask & TAPER:
            minutes += p.taper_first - p.taper_next
        if mask & CHANNEL and self.wall.channel is not None:
            minutes += self.wall.channel.minutes
            dollars += self.wall.channel.dollars
        return self.money.of(minutes, dollars, False)

    def masks(self) -> list[int]:
        """Every set of charges that could matter on this wall."""
        wall = self.wall
        bits = 0
        flange = [h for h, f in enumerate(wall.flange) if f]
        if any(
            m.plane_depth[h] > 0 or (m.sister is not None and m.plane_depth_sistered[h] > 0)
            for m in wall.members
            for h in flange
        ) or any(p.cut > 0 for p in wall.plates):
            bits |= PLATE
        if any(m.replace is not None and m.shoring for m in wall.members):
            bits |= SHORE
        if any(m.taper for m in wall.members):
            bits |= TAPER
        out = [mask for mask in range(8) if not mask & ~bits]
        if wall.channel is not None:
            out.append(CHANNEL)
        return out
