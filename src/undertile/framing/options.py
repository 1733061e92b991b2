"""What one member can be, at each place of the plane: its least cost as a step function of T.

In the wall's own leaning frame every height of a member has the same target T, so a stack of treatment is
possible on one closed interval of T: from the largest need to the smallest. This module lists the stacks
that are cheapest somewhere. Everything is whole numbers of a unit that makes all lengths of the job whole.
"""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field
from fractions import Fraction
from operator import add, sub

from undertile.framing.flatness import straightedge
from undertile.framing.problem import FramingProblem, Member, Prices
from undertile.framing.stacks import Pieces, StockBook

PLATE, SHORE, TAPER = 1, 2, 4
"""Charges paid once a wall, as bits: an option that needs one carries its bit."""

FAR = 1 << 60
Span = tuple[int, int]
"""T from and to. [units]"""
Limits = dict[int, tuple[int, int]]
"""Face limits by height index, low and high, in units (from straightedge rows)."""


@dataclass(frozen=True, slots=True)
class Option:
    """One stack of treatment and the closed interval of T where it is possible.

    ``added`` is what it adds at each height, ``depth`` the most it may plane there; a face then lies
    anywhere on the planing steps between ``base - depth`` and ``base`` that the band allows. ``rides``: the
    face is the plane itself (sister, replace, channel). ``bedded``: above the flange zone it is brought to the plane
    where it lies low.
    """

    cost: int
    low: int
    high: int
    families: tuple[str, ...]
    passes: int
    added: tuple[int, ...]
    depth: tuple[int, ...]
    shim: bool
    need: int
    pieces: Pieces = ()
    taper: tuple[int, int] | None = None
    knock: Fraction | None = None
    rides: bool = False
    bedded: bool = False


Cut = tuple[int, int]
"""A way of planing: passes, and PLATE when the flange zone is planed too."""
BARE: Cut = (0, 0)
Level = tuple[int, str, int, Cut, int]
"""Least cost, kind, pieces, way of planing, charge bits."""
Draft = tuple[int, int, int, int, tuple[object, ...], dict[str, object]]
"""An option not yet made: cost, low, high, charge bits, the rest of its fields, extra fields by name."""


class Known:
    """What is listed in a stretch of T, as the stretches covered at each cost."""

    def __init__(self, entries: Iterable[tuple[int, int, int]]) -> None:
        self._items: list[tuple[int, int, int]] = sorted(entries)
        self._costs: list[int] = []
        self._covers: list[list[Span]] = []
        self._from(0)

    def _from(self, at: int) -> None:
        covered = self._covers[at - 1] if at else []
        del self._costs[at:], self._covers[at:]
        for cost, low, high in self._items[at:]:
            covered = cover(covered, low, high)
            self._costs.append(cost)
            self._covers.append(covered)

    def beats(self, cost: int, low: int, high: int) -> bool:
        """Whether something no dearer covers all of low..high."""
        at = bisect_right(self._costs, cost) - 1
        return at >= 0 and inside(self._covers[at], low, high)

    def add(self, cost: int, low: int, high: int) -> None:
        """Something more is listed."""
        item = (cost, low, high)
        at = bisect_right(self._items, item)
        self._items.insert(at, item)
        self._from(at)


def inside(covered: list[Span], low: int, high: int) -> bool:
    """Whether one stretch holds all of low..high."""
    at = bisect_left(covered, (low, FAR)) - 1
    return at >= 0 and covered[at][1] >= high


def cover(covered: list[Span], low: int, high: int) -> list[Span]:
    """The stretches with low..high added, joined where they touch; sorted."""
    out = []
    for a, b in covered:
        if b < low or a > high:
            out.append((a, b))
        else:
            low, high = min(a, low), max(b, high)
    out.append((low, high))
    out.sort()
    return out


def make(draft: Draft, book: StockBook) -> Option:
    """The option a draft stands for."""
    cost, low, high, _, fields, extra = draft
    if "heaps" in extra:
        extra = {"pieces": book.pieces(extra["heaps"])}  # type: ignore[arg-type]
    return Option(cost, low, high, *fields, **extra)  # type: ignore[arg-type]


@dataclass(frozen=True)
class Money:
    """Prices as whole numbers: cost = money * ``per_touch`` + members touched, so that ties are counted too."""

    prices: Prices
    scale: int
    per_touch: int
    _known: dict[tuple[Fraction, Fraction], int] = field(default_factory=dict, compare=False, repr=False)

    def of(self, minutes: Fraction, dollars: Fraction, touched: bool = True) -> int:
        """Whole-number cost of minutes and dollars."""
        return self.part(minutes, dollars) * self.per_touch + int(touched)

    def part(self, minutes: Fraction, dollars: Fraction) -> int:
        """Whole-number money alone, before the count of members touched."""
        key = (minutes, dollars)
        found = self._known.get(key)
        if found is None:
            exact = (minutes * self.prices.factor * self.prices.rate / 60 + dollars) * self.scale
            found = self._known[key] = int(exact)
        return found

    def dollars(self, cost: int) -> Fraction:
        """The dollars in a whole-number cost."""
        return Fraction(cost // self.per_touch, self.scale)


class Shape:
    """One member in one leaning frame: faces and bands in units, and every stack it may carry."""

    def __init__(
        self,
        problem: FramingProblem,
        member: Member,
        faces: Sequence[int],
        flange: Sequence[bool],
        heights: Sequence[Fraction],
        knock: Sequence[Fraction] | None,
        unit: int,
        money: Money,
        t_range: tuple[int, int],
        book: StockBook,
    ) -> None:
        self.member = member
        self.faces = tuple(faces)
        self.flange = tuple(flange)
        self.heights = tuple(heights)
        self.unit = unit
        self.money = money
        self.prices = problem.prices
        self.t_range = t_range
        self.knock_shares = knock
        self.sixteenth = unit // 16
        self.step = unit // 32
        n = len(self.faces)
        self.all = range(n)
        self.high = tuple(0 if f else self.sixteenth for f in flange)
        low = tuple(-self.sixteenth for _ in flange)
        tight = tuple(-self.step if f else -self.sixteenth for f in flange)
        self.bands: list[tuple[bool, tuple[int, ...]]] = [(False, low)]
        if member.beside_pan and any(flange):
            self.bands = [(False, tight), (True, low)]
        self.depths = tuple(int(d * unit) // self.step * self.step for d in member.plane_depth)
        self.depths_sistered = tuple(
            int(d * unit) // self.step * self.step for d in member.plane_depth_sistered
        )
        self.stock = [(index, int(problem.stock[index].thickness * unit)) for index in member.stock]
        self.thickness = dict(self.stock)
        self.price = {index: problem.stock[index].price for index in member.stock}
        self.dry_ok = member.dry_stock_ok or tuple(True for _ in self.all)
        self.dry_only = {index for index in member.stock if problem.stock[index].dry_only}
        self.rules = problem.flatness
        self.thick = unit // 4
        self.book = book
        self.price_money = {index: money.part(Fraction(0), price) for index, price in self.price.items()}
        self.first_money = (
            money.part(self.prices.strip_thin, Fraction(0)),
            money.part(self.prices.strip_thick, Fraction(0)),
        )
        self.more_money = money.part(self.prices.strip_more, Fraction(0))
        self._cut_costs: dict[int, int] = {}
        self._reaches: dict[Cut, tuple[int, ...]] = {}
        self._wedge_list: list[tuple[int, int, tuple[int, ...]]] | None = None
        self.shim_money = money.part(self.prices.flange_shim, self.prices.flange_shim_dollars)
        self._variant_list: list[tuple[int, tuple[int, ...], int, int]] | None = None
        self._simple_drafts: list[Draft] | None = None
        self.most = unit * 3 // 4

    # -- building blocks ----------------------------------------------------------------------------

    def allowed(self, family_set: tuple[str, ...]) -> bool:
        """Whether the person's hold and what the stud must get allow these families."""
        held, must = self.member.held, self.member.must
        if must and not must.intersection(family_set):
            return False
        if held is None:
            return True
        if held == "leave":
            return family_set == ()
        if held == "sister":
            return "sister" in family_set
        return family_set == (held,)

    def depth_choices(self, passes: int, sistered: bool) -> list[tuple[tuple[int, ...], int]]:
        """Depths that so many passes can reach at each height, with the charge they may need."""
        limits = self.depths_sistered if sistered else self.depths
        reach = passes * self.sixteenth
        full = tuple(min(reach, d) for d in limits)
        dry = tuple(0 if f else d for f, d in zip(self.flange, full, strict=True))
        choices = [(dry, 0)] if any(dry) else []
        if full != dry:
            choices.append((full, PLATE))
        if self.member.rip_ok:
            return choices
        kept = []
        for depth, need in choices:
            if not all(depth):
                kept.append((depth, need))
                continue
            kept += [(depth[:h] + (0,) + depth[h + 1 :], need) for h in self.all]
        return kept

    def interval(
        self, base: Sequence[int], depth: Sequence[int], low: Sequence[int], limits: Limits
    ) -> tuple[int, int] | None:
        """Where T may be for faces on the planing steps between base - depth and base."""
        t0, t1 = self.t_range
        for h in self.all:
            top = base[h]
            bottom = top - depth[h]
            if h in limits:
                least, most = limits[h]
                if most < top:
                    top -= -((most - top) // self.step) * self.step
                if least > bottom:
                    bottom += -((bottom - least) // self.step) * self.step
                if bottom > top:
                    return None
            t0 = max(t0, bottom - self.high[h])
            t1 = min(t1, top - low[h])
            if t0 > t1:
                return None
        return t0, t1

    def straight(self, faces: Sequence[int]) -> bool:
        """Whether fixed faces pass every straightedge rule along the member itself."""
        spread = max(faces) - min(faces)
        rough: list[float] | None = None
        for length, gap in self.rules:
            if spread <= gap * self.unit or len(faces) < 3:
                continue
            if rough is None:
                rough = [f / self.unit for f in faces]
            edge = straightedge(self.heights, length)
            for at in edge.suspects(rough, float(gap)):
                worst = edge.worst_at(at, [Fraction(f, self.unit) for f in faces])
                if worst is not None and worst.gap > gap:
                    return False
        return True

    # -- stacks -------------------------------------------------------------------------------------

    def strip_cost(self, pieces: Pieces) -> tuple[Fraction, Fraction]:
        """Minutes and dollars of strip pieces."""
        if not pieces:
            return Fraction(0), Fraction(0)
        p = self.prices
        thick = any(self.thickness[index] > self.thick for index, _, _ in pieces)
        minutes = (p.strip_thick if thick else p.strip_thin) + p.strip_more * (len(pieces) - 1)
        return minutes, sum((self.price[index] for index, _, _ in pieces), Fraction(0))

    def strip_money(self, pieces: Pieces) -> int:
        """The same as whole-number money."""
        thick = any(self.thickness[index] > self.thick for index, _, _ in pieces)
        first = self.first_money[thick] + self.more_money * (len(pieces) - 1)
        return first + sum(self.price_money[index] for index, _, _ in pieces)

    def reach(self, cut: Cut) -> tuple[int, ...]:
        """Deepest planing at each height with so many passes, in the flange zone or clear of it."""
        found = self._reaches.get(cut)
        if found is None:
            passes, bit = cut
            depth = passes * self.sixteenth
            found = self._reaches[cut] = tuple(
                0 if f and not bit else min(depth, d) for f, d in zip(self.flange, self.depths, strict=True)
            )
        return found

    def windows(self, cut: Cut) -> list[tuple[int, int]]:
        """Per height, where T may be with nothing added: base - high - depth .. base - low."""
        low = self.bands[-1][1]
        return [
            (f - self.high[h] - d, f - low[h])
            for h, (f, d) in enumerate(zip(self.faces, self.reach(cut), strict=True))
        ]

    def cuts(self) -> list[Cut]:
        """Every number of passes, clear of the flange zone and (with the plate's charge) in it."""
        return list(dict.fromkeys((passes, bit) for passes, _, bit, _ in self._variants()))

    def single_strips(self, span: Span, cut: Cut) -> Iterator[tuple[tuple[int, ...], Pieces]]:
        """Every one-piece stack possible for some T in ``span``."""
        windows = self.windows(cut)
        n = len(windows)
        for first in self.all:
            least = most = None
            for last in range(first, n):
                p, q = windows[last]
                least = p if least is None else max(least, p)
                most = q if most is None else min(most, q)
                if least > most:
                    break
                out0, out1 = span
                for h in (*range(first), *range(last + 1, n)):
                    out0, out1 = max(out0, windows[h][0]), min(out1, windows[h][1])
                if out0 > out1:
                    continue
                for index, s in self.stock:
                    if s > self.most or max(out0, least + s) > min(out1, most + s):
                        continue
                    if index in self.dry_only and not all(self.dry_ok[first : last + 1]):
                        continue
                    yield tuple(s if first <= h <= last else 0 for h in self.all), ((index, first, last),)

    # -- options ------------------------------------------------------------------------------------

    def _variants(self) -> list[tuple[int, tuple[int, ...], int, int]]:
        """Ways of planing, least first: (passes, depth, charge bit, money)."""
        found = self._variant_list
        if found is None:
            p = self.prices
            found = [(0, (0,) * len(self.faces), 0, 0)]
            deepest = max(self.depths, default=0)
            for passes in range(1, min(4, -(-deepest // self.sixteenth)) + 1):
                money = self.money.part(p.plane_setup + passes * p.plane_pass, p.plane_dollars)
                found += [(passes, d, bit, money) for d, bit in self.depth_choices(passes, False)]
            self._variant_list = found
        return found

    def _with_planing(
        self,
        families: tuple[str, ...],
        added: tuple[int, ...],
        money: int,
        limits: Limits,
        need: int,
        span: Span,
        only: Cut | None,
        **extra: object,
    ) -> Iterator[Draft]:
        """One stack with so many passes of planing, or with every number of them (``None``), as drafts."""
        base = tuple(map(add, self.faces, added))
        low_end, high_end = span
        tops = [min(map(sub, base, low)) for _, low in self.bands]
        bare, cut = self.allowed(families), self.allowed(("plane", *families))
        per = self.money.per_touch
        bare_high = tuple(map(sub, base, self.high))
        for passes, depth, bit, plane_money in self._variants():
            if (only is not None and (passes, bit) != only) or not (cut if passes else bare):
                continue
            t0 = max(map(sub, bare_high, depth))
            if max(t0, low_end) > min(tops[-1], high_end):
                continue
            for b, (shim, low) in enumerate(self.bands):
                where: Span | None = (max(t0, self.t_range[0]), min(tops[b], self.t_range[1]))
                if max(where[0], low_end) > min(where[1], high_end):
                    continue
                cost = (money + plane_money + (self.shim_money if shim else 0)) * per + (
                    1 if passes or families else 0
                )
                if limits:
                    where = self.interval(base, depth, low, limits)
                    if where is None:
                        continue
                named = ("plane", *families) if passes else families
                yield cost, *where, need | bit, (named, passes, added, depth, shim, need | bit), extra

    def riding(self, limits: Limits) -> Iterator[Draft]:
        """Sister and replace: the face is the plane."""
        member, p = self.member, self.prices
        zero = (0,) * len(self.faces)
        ride0, ride1 = self.t_range
        for least, most in limits.values():
            ride0, ride1 = max(ride0, least), min(ride1, most)
        if member.sister is not None and self.allowed(("sister",)):
            deepest = max(self.depths_sistered, default=0)
            plans: list[tuple[int, tuple[int, ...], int]] = [(0, zero, 0)]
            for passes in range(1, min(8, -(-deepest // self.sixteenth)) + 1):
                plans += [(passes, depth, bit) for depth, bit in self.depth_choices(passes, True)]
            for passes, depth, bit in plans:
                t0 = max(ride0, *(f - d for f, d in zip(self.faces, depth, strict=True)))
                t1 = min(ride1, min(self.faces) + self.unit * 3 // 2)
                if t0 > t1:
                    continue
                minutes = member.sister + ((p.plane_setup + passes * p.plane_pass) if passes else 0)
                dollars = p.sister_dollars + (p.plane_dollars if passes else 0)
                named = ("plane", "sister") if passes else ("sister",)
                yield (
                    self.money.of(minutes, dollars), t0, t1, bit, (named, passes, zero, depth, False, bit), {"rides": True}
                )  # fmt: skip
        if member.replace is not None and self.allowed(("replace",)) and ride0 <= ride1:
            cost = self.money.of(member.replace, member.replace_dollars)
            need = SHORE if member.shoring else 0
            yield cost, ride0, ride1, need, (("replace",), 0, zero, zero, False, need), {"rides": True}

    def bedding(self, limits: Limits) -> Iterator[Draft]:
        """Wet bed above the flange zone, the flange zone as it stands."""
        if not self.member.wet_bed or not self.allowed(("wet bed",)):
            return
        p = self.prices
        zero = (0,) * len(self.faces)
        above = [h for h in self.all if not self.flange[h]]
        for shim, low in self.bands:
            t0, t1 = self.t_range
            for h in self.all:
                f = self.faces[h]
                t0 = max(t0, f - self.high[h])
                t1 = min(t1, f - low[h] if self.flange[h] else f + 3 * self.sixteenth)
                if h in limits:
                    least, most = limits[h]
                    # left as it is within the band, otherwise on the plane: T where the face meets its limits
                    if f > most:
                        t1 = -FAR
                    elif f < least:
                        if self.flange[h]:
                            t1 = -FAR
                        t0 = max(t0, least, f + self.sixteenth)
                    elif not self.flange[h]:
                        t1 = min(t1, max(most, f + self.sixteenth))
            # at least one height is bedded: T beyond some face by more than a sixteenth
            t0 = max(t0, min((self.faces[h] for h in above), default=FAR) + self.sixteenth)
            if t0 <= t1:
                cost = self.money.of(
                    p.wet_bed + (p.flange_shim if shim else 0),
                    p.wet_bed_dollars + (p.flange_shim_dollars if shim else 0),
                )
                yield cost, t0, t1, 0, (("wet bed",), 0, zero, zero, shim, 0), {"bedded": True}

    def simple(self, limits: Limits) -> list[Draft]:
        """Leave, plane, one strip, knock over, wet bed, sister, replace: over the whole range of T."""
        if limits:
            return list(self._simple(limits))
        if self._simple_drafts is None:
            self._simple_drafts = list(self._simple({}))
        return self._simple_drafts

    def _simple(self, limits: Limits) -> Iterator[Draft]:
        zero = (0,) * len(self.faces)
        yield from self._with_planing((), zero, 0, limits, 0, self.t_range, None)
        yield from self.riding(limits)
        yield from self.bedding(limits)
        for added, pieces in self.single_strips(self.t_range, BARE):
            money = self.strip_money(pieces)
            yield from self._with_planing(
                ("strip",), added, money, limits, 0, self.t_range, BARE, pieces=pieces
            )
        if self.member.knock and self.knock_shares is not None and self.allowed(("knock over",)):
            for count in range(-6, 7):
                if count:
                    moved = Fraction(count, 16)
                    added = tuple(int(moved * share * self.unit) for share in self.knock_shares)
                    base = [f + s for f, s in zip(self.faces, added, strict=True)]
                    p = self.prices
                    for shim, low in self.bands:
                        span = self.interval(base, zero, low, limits)
                        cost = self.money.of(
                            p.knock + (p.flange_shim if shim else 0),
                            p.flange_shim_dollars if shim else Fraction(0),
                        )
                        if span is not None:
                            yield cost, *span, 0, (("knock over",), 0, added, zero, shim, 0), {"knock": moved}

    def strips(self, count: int, cut: Cut, limits: Limits, span: Span, known: Known) -> Iterator[Draft]:
        """Stacks of one to three pieces over one way of planing, possible for some T in ``span``.

        ``known`` holds what is listed in the span under the same charges; stacks that it beats are left out, and what is found is added.
        """
        per = self.money.per_touch
        cut_money = self._cut_money(cut[0])
        more = cut_money + self.more_money * (count - 1)
        first = self.first_money

        def beaten(price: int, thick: bool, t0: int, t1: int) -> bool:
            return known.beats((first[thick] + more + price) * per + 1, t0, t1)

        found: Iterator[tuple[tuple[int, ...], int, dict[str, object]]]
        if count == 1:
            found = (
                (added, self.strip_money(pieces) + cut_money, {"pieces": pieces})
                for added, pieces in self.single_strips(span, cut)
            )
        else:
            rows = self.book.rows(count, self.windows(cut), span, self.dry_ok, beaten)
            found = (
                (added, first[thick] + more + price, {"heaps": heaps}) for added, price, thick, heaps in rows
            )
        for added, money, extra in found:
            for draft in self._with_planing(
                ("strip",), added, money - cut_money, limits, 0, span, cut, **extra
            ):
                low, high = max(draft[1], span[0]), min(draft[2], span[1])
                if known.beats(draft[0], low, high):
                    continue
                if cut[0] or self.straight(list(map(add, self.faces, added))):
                    known.add(draft[0], low, high)
                yield draft

    def _cut_money(self, passes: int) -> int:
        """Money of so many passes."""
        if not passes:
            return 0
        return self.money.part(
            self.prices.plane_setup + passes * self.prices.plane_pass, self.prices.plane_dollars
        )

    def tapers(self, cut: Cut, limits: Limits, span: Span) -> Iterator[Draft]:
        """Tapers over the full height; needs the wall's taper charge."""
        money = self.money.part(self.prices.taper_next, self.prices.taper_dollars)
        windows = self.windows(cut)
        first, last = windows[0], windows[-1]
        for bottom, top, added in self._wedges():
            if (
                first[1] + added[0] < span[0]
                or first[0] + added[0] > span[1]
                or last[1] + added[-1] < span[0]
                or last[0] + added[-1] > span[1]
            ):
                continue
            t0 = max([w[0] + s for w, s in zip(windows, added, strict=True)])
            t1 = min([w[1] + s for w, s in zip(windows, added, strict=True)])
            if max(t0, span[0]) <= min(t1, span[1]):
                yield from self._with_planing(
                    ("taper",), added, money, limits, TAPER, span, cut, taper=(bottom, top)
                )

    def _wedges(self) -> list[tuple[int, int, tuple[int, ...]]]:
        """Every taper: sixteenths at the bottom, at the top, and what it adds at each height."""
        if self._wedge_list is None:
            z0, z1 = self.heights[0], self.heights[-1]
            shares = [(z - z0) / (z1 - z0) if z1 > z0 else Fraction(0) for z in self.heights]
            one = [
                int(share * self.sixteenth * 16) for share in shares
            ]  # shares are whole in sixteenths of a unit
            self._wedge_list = [
                (b, t, tuple(b * self.sixteenth + (t - b) * o // 16 for o in one))
                for b in range(2, 13)
                for t in range(2, 13)
            ]
        return self._wedge_list

    def _pieces_needed(self, cut: Cut, span: Span) -> tuple[int, int] | None:
        """Fewest pieces that could do for some T in ``span``, and the thickest heap asked for; None: none do."""
        low = self.bands[-1][1]
        reach = self.reach(cut)
        ceiling = count = thickest = 0
        for h, f in enumerate(self.faces):
            least = span[0] - (f - low[h])
            most = span[1] - (f - self.high[h] - reach[h])
            if most < 0 or least > self.most:
                return None
            if least > ceiling:
                count += 1
                ceiling = most
            else:
                ceiling = min(ceiling, most)
            thickest = max(thickest, least)
        return count, thickest

    def levels(self, span: Span) -> list[Level]:
        """Kinds of stack listed only when met, with the least they could cost in ``span``; by rising cost."""
        out: list[Level] = []
        per = self.money.per_touch
        p = self.prices
        plain, planed = self.allowed(("strip",)), self.allowed(("plane", "strip"))
        cheap = min(self.price_money.values(), default=0)
        taper_money = self.money.part(p.taper_next, p.taper_dollars)
        for cut in self.cuts():
            passes, bit = cut
            cut_money = self._cut_money(passes)
            need = self._pieces_needed(cut, span) if self.stock else None
            if need is not None and (planed if passes else plain):
                for count in range(max(need[0], 1 if passes else 2), 4):
                    thick = need[1] > count * self.thick or all(s > self.thick for _, s in self.stock)
                    base = self.first_money[thick] + self.more_money * (count - 1) + cheap * count
                    out.append(((base + cut_money) * per + 1, "strips", count, cut, bit))
            if self.member.taper and self.allowed(("plane", "taper") if passes else ("taper",)):
                out.append(((taper_money + cut_money) * per + 1, "tapers", 0, cut, bit | TAPER))
        return sorted(out)
