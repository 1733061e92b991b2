"""One member in one leaning frame: its faces, its bands, and how planing and strips move them.

In the wall's own leaning frame every height of a member has the same target T, so a stack of treatment is
possible on one closed interval of T: from the largest need to the smallest. Everything is whole units.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from operator import sub

from undertile.framing.flatness import straightedge
from undertile.framing.option import FAR, PLATE, Cut, Draft, Limits, Money, Span
from undertile.framing.problem import FramingProblem, Member
from undertile.framing.stacks import Pieces, StockBook

Under = tuple[tuple[int, ...], int, tuple[int, ...], int, int, tuple[str, ...], list[int]]
"""A way of planing under a stack: least T at each height with nothing added, passes, depth, charge bit,
money, families, bands by number."""
Variant = tuple[int, tuple[int, ...], int, int]
"""A way of planing: passes, the depth they reach at each height [units], charge bit, money."""


class Shape:
    """One member in one leaning frame: faces, bands, depths and stock in whole units and whole money."""

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
        self.back = int(member.goes_back * unit)
        low = tuple(self.back - self.sixteenth for _ in flange)
        tight = tuple(self.back - (self.step if f else self.sixteenth) for f in flange)
        self.bands: list[tuple[bool, tuple[int, ...]]] = [(False, low)]
        if member.beside_pan and any(flange):
            self.bands = [(False, tight), (True, low)]
        self.tops = [tuple(map(sub, self.faces, low)) for _, low in self.bands]
        self.depths = tuple(int(d * unit) // self.step * self.step for d in member.plane_depth)
        self.depths_sistered = tuple(
            int(d * unit) // self.step * self.step for d in member.plane_depth_sistered
        )
        self.stock = [(index, int(problem.stock[index].thickness * unit)) for index in member.stock]
        self.thickness = dict(self.stock)
        self.price = {index: problem.stock[index].price for index in member.stock}
        self.dry_ok = member.dry_stock_ok or tuple(True for _ in self.all)
        self.dry_only = {index for index in member.stock if problem.stock[index].dry_only}
        self.edges = [
            (straightedge(self.heights, length), gap, gap * unit, float(gap))
            for length, gap in problem.flatness
            if n >= 3
        ]
        self.thick = unit // 4
        self.book = book
        self.price_money = {index: money.part(Fraction(0), price) for index, price in self.price.items()}
        self.first_money = (
            money.part(self.prices.strip_thin, Fraction(0)),
            money.part(self.prices.strip_thick, Fraction(0)),
        )
        self.more_money = money.part(self.prices.strip_more, Fraction(0))
        self._reaches: dict[Cut, tuple[int, ...]] = {}
        self._wedge_list: list[tuple[int, int, tuple[int, ...]]] | None = None
        self.shim_money = money.part(self.prices.flange_shim, self.prices.flange_shim_dollars)
        self._variant_lists: dict[Cut | None, list[Variant]] = {}
        self._sister_list: list[Variant] | None = None
        self._cut_money: dict[int, int] = {}
        self._allowed: dict[tuple[str, ...], bool] = {}
        self._under: dict[tuple[tuple[str, ...], Cut | None], list[Under]] = {}
        self._simple_drafts: list[Draft] | None = None
        self.most = unit * 3 // 4

    def allowed(self, family_set: tuple[str, ...]) -> bool:
        """Whether the person's hold and what the stud must get allow these families."""
        found = self._allowed.get(family_set)
        if found is None:
            found = self._allowed[family_set] = self._allows(family_set)
        return found

    def _allows(self, family_set: tuple[str, ...]) -> bool:
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
            kept += [((*depth[:h], 0, *depth[h + 1 :]), need) for h in self.all]
        return kept

    def interval(
        self, base: Sequence[int], depth: Sequence[int], low: Sequence[int], limits: Limits
    ) -> tuple[int, int] | None:
        """Where T may be for faces on the planing steps between base - depth and base; limits whole."""
        t0, t1 = self.t_range
        high = self.high
        n = len(high)
        for h, top in enumerate(base):
            bottom = top - depth[h]
            if h in limits or h + n in limits:
                least, most = limits.get(h, (-FAR, FAR))
                least = max(least, limits.get(h + n, (-FAR, FAR))[0] + self.back)
                if most < top:
                    top -= -((most - top) // self.step) * self.step
                if least > bottom:
                    bottom += -((bottom - least) // self.step) * self.step
                if bottom > top:
                    return None
            bottom -= high[h]
            if bottom > t0:
                t0 = bottom
            top -= low[h]
            if top < t1:
                t1 = top
            if t0 > t1:
                return None
        return t0, t1

    def limited(
        self, where: Span, added: Sequence[int], depth: Sequence[int], low: Sequence[int], limits: Limits
    ) -> Span | None:
        """What whole face limits leave of T for a stack that may otherwise lie there (:meth:`interval`)."""
        t0, t1 = where
        n = len(self.high)
        for h in {key if key < n else key - n for key in limits}:
            top = self.faces[h] + added[h]
            bottom = top - depth[h]
            least, most = limits.get(h, (-FAR, FAR))
            dry = limits.get(h + n)
            if dry is not None:
                least = max(least, dry[0] + self.back)
            if most < top:
                top -= -((most - top) // self.step) * self.step
            if least > bottom:
                bottom += -((bottom - least) // self.step) * self.step
            if bottom > top:
                return None
            t0, t1 = max(t0, bottom - self.high[h]), min(t1, top - low[h])
            if t0 > t1:
                return None
        return t0, t1

    def shims_when_planed(self, depth: Sequence[int]) -> bool:
        """Whether it is shimmed in any case: planed in the flange zone and still to dry [contract 12]."""
        return (
            self.back > 0
            and len(self.bands) > 1
            and any(f and d for f, d in zip(self.flange, depth, strict=True))
        )

    def straight(self, faces: Sequence[int]) -> bool:
        """Whether fixed faces pass every straightedge rule along the member itself."""
        spread = max(faces) - min(faces)
        if len(faces) < 3:
            return True
        rough: list[float] | None = None
        for edge, gap, least, near in self.edges:
            if spread <= least:
                continue
            if rough is None:
                rough = [f / self.unit for f in faces]
            for at in edge.suspects(rough, near):
                worst = edge.worst_at(at, [Fraction(f, self.unit) for f in faces])
                if worst is not None and worst.gap > gap:
                    return False
        return True

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

    def variants(self, only: Cut | None = None) -> list[Variant]:
        """Ways of planing, least first; all of them, or those of one cut."""
        found = self._variant_lists.get(only)
        if found is None:
            if only is None:
                found = [(0, (0,) * len(self.faces), 0, 0)]
                deepest = max(self.depths, default=0)
                for passes in range(1, min(4, -(-deepest // self.sixteenth)) + 1):
                    money = self.cut_money(passes)
                    found += [(passes, d, bit, money) for d, bit in self.depth_choices(passes, False)]
            else:
                found = [each for each in self.variants() if (each[0], each[2]) == only]
            self._variant_lists[only] = found
        return found

    def sister_variants(self, sister: Fraction) -> list[Variant]:
        """Ways of planing before the stud is sistered, least first; the cost is the whole stack's."""
        if self._sister_list is None:
            p = self.prices
            cost = self.money.of(sister, p.sister_dollars)
            self._sister_list = [(0, (0,) * len(self.faces), 0, cost)]
            deepest = max(self.depths_sistered, default=0)
            for passes in range(1, min(8, -(-deepest // self.sixteenth)) + 1):
                minutes = sister + p.plane_setup + passes * p.plane_pass
                cost = self.money.of(minutes, p.sister_dollars + p.plane_dollars)
                self._sister_list += [(passes, d, bit, cost) for d, bit in self.depth_choices(passes, True)]
        return self._sister_list

    def cuts(self) -> list[Cut]:
        """Every number of passes, clear of the flange zone and (with the plate's charge) in it."""
        return list(dict.fromkeys((passes, bit) for passes, _, bit, _ in self.variants()))

    def cut_money(self, passes: int) -> int:
        """Money of so many passes."""
        found = self._cut_money.get(passes)
        if found is None:
            p = self.prices
            found = self.money.part(p.plane_setup + passes * p.plane_pass, p.plane_dollars) if passes else 0
            self._cut_money[passes] = found
        return found

    def wedges(self) -> list[tuple[int, int, tuple[int, ...]]]:
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
