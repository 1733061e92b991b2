"""One member's least cost over the plane, listed lazily; and one wall in one leaning frame.

A table holds the stacks that are cheapest somewhere, in rising cost. Stacks of two and three pieces and
tapers are priced at the least they could cost until the search meets that price, and only then listed.
"""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from fractions import Fraction

from undertile.framing.flatness import WallFlatness
from undertile.framing.options import FAR, PLATE, SHORE, TAPER, Draft, Limits, Money, Option, Shape, make
from undertile.framing.problem import FramingProblem, StepTerm, WallProblem

CHANNEL = 8
"""Mode bit: the wall is channelled whole."""

LimitKey = tuple[tuple[int, Fraction | int, Fraction | int], ...]


class Table:
    """The stacks of one member that are cheapest for some T, under the charges ``mask`` allows.

    ``entries`` is a list of (cost, low, high, Option) by rising cost. ``floor`` is what the stacks not yet
    listed cost at least (FAR when all are listed).
    """

    def __init__(self, shape: Shape, mask: int, limits: LimitKey = ()) -> None:
        self.shape = shape
        self.mask = mask
        self.limits: Limits = {h: (low, high) for h, low, high in limits}  # type: ignore[misc]
        self.entries: list[tuple[int, float, float, Option]] = []
        self.version = 0
        self._covered: list[tuple[int, int]] = []
        plate = bool(mask & PLATE)
        self._merge(shape.simple(self.limits, plate))
        self._later: list[tuple[int, str]] = []
        for count in (2, 3):
            cost = shape.cheapest_stack(count)
            if cost is not None:
                self._later.append((cost, f"strips {count}"))
        if mask & TAPER and shape.member.taper and (shape.allowed(("taper",)) or shape.allowed(("plane", "taper"))):
            self._later.append((shape.money.of(shape.prices.taper_next, shape.prices.taper_dollars), "tapers"))
        self._later.sort()
        self._drop_covered()

    @property
    def floor(self) -> int:
        """Least cost of what is not listed yet."""
        return self._later[0][0] if self._later else FAR

    def expand(self) -> None:
        """List the next kind of stack."""
        _, kind = self._later.pop(0)
        plate = bool(self.mask & PLATE)
        cap = self._cap()
        if kind == "tapers":
            self._merge(self.shape.tapers(self.limits, plate, cap))
        else:
            self._merge(self.shape.strips(int(kind[-1]), self.limits, plate, cap))
        self._drop_covered()
        self.version += 1

    def _cap(self) -> int:
        """Above this cost nothing is worth listing: everything is covered by cheaper."""
        low, high = self.shape.t_range
        if len(self._covered) == 1 and self._covered[0][0] <= low and self._covered[0][1] >= high:
            return self.entries[-1][0]
        return FAR

    def _drop_covered(self) -> None:
        cap = self._cap()
        self._later = [item for item in self._later if item[0] < cap]

    def _merge(self, drafts: Iterable[Draft]) -> None:
        """Keep what is cheapest somewhere (floats hold the ends: whole numbers below 2**53 are exact)."""
        every: list[tuple[int, int, int, int, Draft | None, Option | None]] = [
            (o.cost, o.low - o.high, o.low, o.high, None, o) for _, _, _, o in self.entries
        ]
        mask = ~self.mask
        every += [(d[0], d[1] - d[2], d[1], d[2], d, None) for d in drafts if not d[3] & mask]
        every.sort(key=_rank)
        covered: list[tuple[int, int]] = []
        kept: list[tuple[int, float, float, Option]] = []
        for cost, _, low, high, draft, option in every:
            if _inside(covered, low, high):
                continue
            if option is None:
                assert draft is not None
                option = make(draft)
                if not self._fixed_straight(option):
                    continue
            kept.append((cost, float(low), float(high), option))
            covered = _cover(covered, low, high)
        self.entries, self._covered = kept, covered

    def _fixed_straight(self, option: Option) -> bool:
        if option.rides or option.bedded or any(option.depth):
            return True
        return self.shape.straight([f + s for f, s in zip(self.shape.faces, option.added, strict=True)])

    def query(self, t0: float, t1: float) -> tuple[int, Option | None]:
        """Least cost for some T in t0..t1 and a stack that has it; (floor, None) when it may be an unlisted one."""
        floor = self.floor
        for cost, low, high, option in self.entries:
            if cost > floor:
                return floor, None
            if low <= t1 and high >= t0:
                return cost, option
        return floor, None


def _rank(item: tuple[int, int, int, int, Draft | None, Option | None]) -> tuple[int, int]:
    return item[0], item[1]


def _inside(covered: list[tuple[int, int]], low: int, high: int) -> bool:
    at = bisect_left(covered, (low, FAR)) - 1
    return at >= 0 and covered[at][1] >= high


def _cover(covered: list[tuple[int, int]], low: int, high: int) -> list[tuple[int, int]]:
    out = []
    for a, b in covered:
        if b < low or a > high:
            out.append((a, b))
        else:
            low, high = min(a, low), max(b, high)
    out.append((low, high))
    out.sort()
    return out


class FixedTable:
    """A table that is given: a step term, a plate spot, a channelled member."""

    floor = FAR
    version = 0

    def __init__(self, entries: Sequence[Option]) -> None:
        self.entries = sorted(((o.cost, float(o.low), float(o.high), o) for o in entries), key=lambda e: e[0])

    def query(self, t0: float, t1: float) -> tuple[int, Option | None]:
        """As :meth:`Table.query`."""
        for cost, low, high, option in self.entries:
            if low <= t1 and high >= t0:
                return cost, option
        return FAR, None

    def expand(self) -> None:
        """Nothing more to list."""


def _plain(cost: int, low: int, high: int, families: tuple[str, ...], need: int = 0, rides: bool = False) -> Option:
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
    ) -> None:
        self.problem, self.wall, self.lean, self.unit, self.money = problem, wall, lean, unit, money
        self.stations, self.flatness = stations, flatness
        self.t_range = (int(wall.t_low * unit), int(wall.t_high * unit))
        self.shift = tuple(
            int((lean * z + (0 if f else wall.step)) * unit) for z, f in zip(wall.heights, wall.flange, strict=True)
        )
        knock = None
        if wall.top is not None:
            knock = [(wall.top - z) / wall.top for z in wall.heights]
        self.shapes = [
            Shape(
                problem,
                m,
                [int(o * unit) - s for o, s in zip(m.offsets, self.shift, strict=True)],
                wall.flange,
                wall.heights,
                knock,
                unit,
                money,
                self.t_range,
            )
            for m in wall.members
        ]
        self.spots = [self._spot(m.name, "member", m.along) for m in wall.members]
        self.spots += [self._spot(t.name, "term", t.along) for t in wall.terms]
        self.spots += [self._spot(p.name, "plate", p.along) for p in wall.plates]
        self._terms = [self._term_table(term) for term in wall.terms]
        self._tables: dict[tuple[int, int, LimitKey], Table | FixedTable] = {}
        self.reach = [
            (float(s.wa), float(s.wb), s.wa >= 0, s.wb >= 0)
            for s in self.spots
        ]

    def _spot(self, name: str, kind: str, along: Fraction) -> Spot:
        a, b = self.stations
        wb = (along - a) / (b - a)
        scale = wb.denominator
        return Spot(name, kind, along, 1 - wb, wb, scale, (int((1 - wb) * scale), int(wb * scale)))

    def lift(self, height: Fraction) -> Fraction:
        """Target minus t at a height: lean and, above the flange zone, the step. [in]"""
        top = max((z for z, f in zip(self.wall.heights, self.wall.flange, strict=True) if f), default=None)
        flange = top is not None and height <= top
        return self.lean * height + (0 if flange else self.wall.step)

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
        key = (spot, mask, limits)
        found = self._tables.get(key)
        if found is None:
            found = self._tables[key] = self._make(spot, mask, limits)
        return found

    def _make(self, spot: int, mask: int, limits: LimitKey) -> Table | FixedTable:
        members = len(self.shapes)
        if spot < members:
            shape = self.shapes[spot]
            if mask & CHANNEL:
                channel = self.wall.channel
                assert channel is not None
                low, high = int(channel.height * self.unit), int((channel.height + channel.packing) * self.unit)
                t0 = max(max(shape.faces) + low, self.t_range[0])
                t1 = min(min(shape.faces) + high, self.t_range[1])
                for _, least, most in limits:
                    t0, t1 = max(t0, least), min(t1, most)  # type: ignore[assignment]
                ok = t0 <= t1 and shape.allowed(("channel",))
                return FixedTable([_plain(1, t0, t1, ("channel",), rides=True)] if ok else [])
            return Table(shape, mask, limits)
        spot -= members
        if spot < len(self._terms):
            return self._terms[spot]
        plate = self.wall.plates[spot - len(self._terms)]
        wide = self.t_range[1] + 10 * self.unit
        if mask & CHANNEL:
            return FixedTable([_plain(0, -wide, wide, ())])
        lift = self.lean * plate.height + (0 if plate.flange else self.wall.step)
        need = plate.offset - lift - (0 if plate.flange else Fraction(1, 16))
        entries = [_plain(0, int(need * self.unit), wide, ())]
        if mask & PLATE and plate.cut > 0:
            entries.append(_plain(0, int((need - plate.cut) * self.unit), wide, ("cut",), PLATE))
        return FixedTable(entries)

    def charge(self, mask: int) -> int:
        """What the modes in ``mask`` cost, with verifying the wall."""
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
