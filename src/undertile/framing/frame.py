"""One wall in one leaning frame: what its members, step terms and plate spots cost, and what is paid once."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from undertile.framing.flatness import WallFlatness
from undertile.framing.listing import Asked, LimitKey, facts_of, listing_of
from undertile.framing.option import PLATE, SHORE, TAPER, Money
from undertile.framing.options import Options
from undertile.framing.problem import FramingProblem, Member, StepTerm, WallProblem
from undertile.framing.stacks import StockBook
from undertile.framing.tables import FixedTable, Table, fixed_option

CHANNEL = 8
"""Mode bit: the wall is channelled whole."""


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
        self.knock = knock = None
        if wall.top is not None:
            self.knock = knock = [(wall.top - z) / wall.top for z in wall.heights]
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
        self._facts: dict[int, object] = {}
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
        entries = [fixed_option(0, at(term.low, wide[0]), at(term.high, wide[1]), ())]
        if term.minutes is not None:
            cost = self.money.of(term.minutes, term.dollars, False)
            entries.append(
                fixed_option(cost, at(term.hard_low, wide[0]), at(term.hard_high, wide[1]), ("buy",))
            )
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
                return FixedTable([fixed_option(1, t0, t1, ("channel",), rides=True)] if ok else [])
            return Table(listing_of(Asked(self._facts_of(spot), shape, self._free_masks(), limits)))
        spot -= members
        if spot < len(self._terms):
            return self._terms[spot]
        plate = self.wall.plates[spot - len(self._terms)]
        wide = self.t_range[1] + 10 * self.unit
        if mask & CHANNEL:
            return FixedTable([fixed_option(0, -wide, wide, ())])
        lift = self.lean * (plate.height - self.pivot) + (0 if plate.flange else self.wall.step)
        need = plate.offset - lift - (0 if plate.flange else Fraction(1, 16))
        entries = [fixed_option(0, int(need * self.unit), wide, ())]
        if plate.cut > 0:
            entries.append(fixed_option(0, int((need - plate.cut) * self.unit), wide, ("cut",), PLATE))
        return FixedTable(entries)

    def _free_masks(self) -> tuple[int, ...]:
        return tuple([mask for mask in self.masks() if not mask & CHANNEL])

    def _facts_of(self, spot: int) -> object:
        """What a member's listings depend on besides its faces and the range of T."""
        found = self._facts.get(spot)
        if found is None:
            whole = self.unit, self.money.scale, self.money.per_touch
            knock = None if self.knock is None else tuple(self.knock)
            member = self.wall.members[spot]
            found = self._facts[spot] = facts_of(self.problem, self.wall, member, knock, whole)
        return found

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
