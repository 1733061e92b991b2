"""What one member can be, at each place of the plane: every stack of treatment, and where it is possible.

The cheap kinds (leave, plane, one strip, sister, ...) are listed over the whole range of T; stacks of two
and three pieces, strips over planed wood and tapers only for a short stretch of T, when the search has come
to the least they could cost (:meth:`Options.levels`).
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from fractions import Fraction
from operator import add, sub

from undertile.framing.option import (
    BARE,
    FAR,
    SHORE,
    TAPER,
    Cut,
    Draft,
    Known,
    Level,
    Limits,
    Span,
    inward,
)
from undertile.framing.shape import Shape, Under
from undertile.framing.stacks import Heaps, Pieces


class Options(Shape):
    """A member's shape, and every stack it may carry."""

    def _ways_under(self, families: tuple[str, ...], only: Cut | None) -> list[Under]:
        """Ways of planing under a stack of these families: all of them (``None``), or those of one cut."""
        found = self._under.get((families, only))
        if found is None:
            found = self._under[families, only] = []
            bare, cut = self.allowed(families), self.allowed(("plane", *families))
            lowest = tuple(map(sub, self.faces, self.high))
            for passes, depth, bit, money in self.variants(only):
                if cut if passes else bare:
                    always = self.shims_when_planed(depth)
                    bands = [b for b, (shim, _) in enumerate(self.bands) if shim or not always]
                    named = ("plane", *families) if passes else families
                    found.append((tuple(map(sub, lowest, depth)), passes, depth, bit, money, named, bands))
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
        extra: dict[str, object],
    ) -> list[Draft]:
        """One stack with so many passes of planing, or with every number of them (``None``), as drafts.

        ``limits`` are whole (``inward``): the faces lie on the planing steps.
        """
        out: list[Draft] = []
        first, last = self.t_range
        tops = [min(map(add, top, added)) for top in self.tops]
        low_end, high_end = span[0], min(tops[-1], span[1])
        if low_end > high_end:
            return out
        per = self.money.per_touch
        for needs, passes, depth, bit, plane_money, named, bands in self._ways_under(families, only):
            t0 = max(map(add, needs, added))
            if t0 > high_end:
                continue
            if t0 < first:
                t0 = first
            for b in bands:
                shim, low = self.bands[b]
                t1 = tops[b]
                if t1 > last:
                    t1 = last
                if t0 > t1 or t0 > span[1] or low_end > t1:
                    continue
                where = t0, t1
                if limits:
                    limited = self.limited(where, added, depth, low, limits)
                    if limited is None:
                        continue
                    where = limited
                cost = (money + plane_money + (self.shim_money if shim else 0)) * per
                if named:
                    cost += 1
                charges = need | bit
                out.append((cost, *where, charges, (named, passes, added, depth, shim, charges), extra))
        return out

    def riding(self, limits: Limits) -> Iterator[Draft]:
        """Sister and replace: the face is the plane."""
        member = self.member
        zero = (0,) * len(self.faces)
        ride0, ride1 = self.t_range
        for least, most in limits.values():
            ride0, ride1 = max(ride0, least), min(ride1, most)
        if member.sister is not None and self.allowed(("sister",)):
            t1 = min(ride1, min(self.faces) + self.unit * 3 // 2)
            for passes, depth, bit, cost in self.sister_variants(member.sister):
                t0 = max(ride0, *map(sub, self.faces, depth))
                if t0 > t1:
                    continue
                named = ("plane", "sister") if passes else ("sister",)
                fields = (named, passes, zero, depth, False, bit)
                yield cost, t0, t1, bit, fields, {"rides": True}
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
                        # a unit past the sixteenth: at the sixteenth itself the height is left as it is
                        t0, t1 = max(t0, least, f + self.sixteenth + 1), min(t1, most)
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
        whole = inward(limits)
        yield from self._with_planing((), zero, 0, whole, 0, self.t_range, None, {})
        yield from self.riding(limits)
        yield from self.bedding(limits)
        for added, pieces in self.single_strips(self.t_range, BARE):
            money = self.strip_money(pieces)
            yield from self._with_planing(
                ("strip",), added, money, whole, 0, self.t_range, BARE, {"pieces": pieces}
            )
        if self.member.knock and self.knock_shares is not None and self.allowed(("knock over",)):
            shares = [int(share * self.sixteenth * 16) for share in self.knock_shares]  # whole in 16ths of it
            p = self.prices
            costs = [
                self.money.of(
                    p.knock + (p.flange_shim if shim else 0),
                    p.flange_shim_dollars if shim else Fraction(0),
                )
                for shim, _ in self.bands
            ]
            for count in (*range(-6, 0), *range(1, 7)):
                added = tuple([count * share // 16 for share in shares])
                base = [f + s for f, s in zip(self.faces, added, strict=True)]
                for (shim, low), cost in zip(self.bands, costs, strict=True):
                    span = self.interval(base, zero, low, whole)
                    if span is not None:
                        fields = (("knock over",), 0, added, zero, shim, 0)
                        yield cost, *span, 0, fields, {"knock": Fraction(count, 16)}

    def single_strips(self, span: Span, cut: Cut) -> Iterator[tuple[tuple[int, ...], Pieces]]:
        """Every one-piece stack possible for some T in ``span``."""
        windows = self.windows(cut)
        n = len(windows)
        before, after = [span], [span]  # T left by the heights below a run, and by those above it
        for h in self.all:
            before.append((max(before[h][0], windows[h][0]), min(before[h][1], windows[h][1])))
            up = windows[n - 1 - h]
            after.append((max(after[h][0], up[0]), min(after[h][1], up[1])))
        after.reverse()
        for first in self.all:
            least, most = windows[first]
            for last in range(first, n):
                least, most = max(least, windows[last][0]), min(most, windows[last][1])
                if least > most:
                    break
                out0, out1 = (
                    max(before[first][0], after[last + 1][0]),
                    min(before[first][1], after[last + 1][1]),
                )
                if out0 > out1:
                    continue
                for index, s in self.stock:
                    if s > self.most or max(out0, least + s) > min(out1, most + s):
                        continue
                    if index in self.dry_only and not all(self.dry_ok[first : last + 1]):
                        continue
                    added = (0,) * first + (s,) * (last + 1 - first) + (0,) * (n - 1 - last)
                    yield added, ((index, first, last),)

    def strips(self, count: int, cut: Cut, limits: Limits, span: Span, known: Known) -> list[Draft]:
        """Stacks of one to three pieces over one way of planing, possible for some T in ``span``.

        ``known`` holds what is listed in the span under the same charges; stacks that it beats are left out,
        and what is found is added.
        """
        out: list[Draft] = []
        per = self.money.per_touch
        more = self.more_money * (count - 1)
        thin, thick_too = self.first_money[0] + more, self.first_money[1] + more
        planed = self.cut_money(cut[0])
        whole = inward(limits)
        beats = known.beats
        sums = self.book.sums

        def beaten(price: int, thick: bool, t0: int, t1: int) -> bool:
            return beats(((thick_too if thick else thin) + price + planed) * per + 1, t0, t1)

        def take(added: tuple[int, ...], money: int, extra: dict[str, object]) -> None:
            for draft in self._with_planing(("strip",), added, money, whole, 0, span, cut, extra):
                low, high = max(draft[1], span[0]), min(draft[2], span[1])
                if beats(draft[0], low, high):
                    continue
                if cut[0] or self.straight(list(map(add, self.faces, added))):
                    known.add(draft[0], low, high)
                out.append(draft)

        def take_heaps(heaps: Heaps, price: int, thick: bool) -> None:
            added = tuple([sums[i] for i in heaps])
            take(added, (thick_too if thick else thin) + price, {"heaps": heaps})

        if count == 1:
            for added, pieces in self.single_strips(span, cut):
                take(added, self.strip_money(pieces), {"pieces": pieces})
        else:
            self.book.each(
                count, self.windows(cut), span, self.dry_ok, beaten, take_heaps, self._sizes(cut, whole)
            )
        return out

    def _sizes(self, cut: Cut, limits: Limits) -> list[tuple[int, int]] | None:
        """How thick a heap may be at each height for a face within its limits; None where there are none."""
        if not limits:
            return None
        n = len(self.faces)
        reach = self.reach(cut)
        out = []
        for h, f in enumerate(self.faces):
            least, most = limits.get(h, (-FAR, FAR))
            if h + n in limits:
                least = max(least, limits[h + n][0] + self.back)
            out.append((least - f, most - f + reach[h]))
        return out

    def tapers(self, cut: Cut, limits: Limits, span: Span) -> Iterator[Draft]:
        """Tapers over the full height; needs the wall's taper charge."""
        money = self.money.part(self.prices.taper_next, self.prices.taper_dollars)
        windows, whole = self.windows(cut), inward(limits)
        first, last = windows[0], windows[-1]
        for bottom, top, added in self.wedges():
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
                    ("taper",), added, money, whole, TAPER, span, cut, {"taper": (bottom, top)}
                )

    def _pieces_needed(self, cut: Cut, span: Span) -> tuple[int, int] | None:
        """Fewest pieces that could do for some T in ``span``, and the thickest heap asked for.

        None when no stack of at most 3/4 in does.
        """
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

    def levels(self, span: Span, cap: Callable[[int], int] = lambda _: FAR) -> list[Level]:
        """Kinds of stack listed only when met, with the least they could cost in ``span``; by rising cost.

        ``cap``: what the whole span costs at most under some charges; what costs no less is left out.
        """
        out: list[Level] = []
        per = self.money.per_touch
        plain, planed = self.allowed(("strip",)), self.allowed(("plane", "strip"))
        tapered = self.member.taper and self.allowed(("taper",))
        both = self.member.taper and self.allowed(("plane", "taper"))
        cheap = min(self.price_money.values(), default=0)
        taper_money = self.money.part(self.prices.taper_next, self.prices.taper_dollars)
        only_thick = all(s > self.thick for _, s in self.stock)
        for cut in self.cuts():
            passes, bit = cut
            cut_money = self.cut_money(passes)
            if self.stock and (planed if passes else plain):
                most = cap(bit)
                fewest = 1 if passes else 2
                least = self.first_money[only_thick] + self.more_money * (fewest - 1) + cheap * fewest
                need = self._pieces_needed(cut, span) if (least + cut_money) * per + 1 < most else None
                if need is None:
                    need = 4, 0  # more than are offered
                for count in range(max(need[0], fewest), 4):
                    thick = only_thick or need[1] > count * self.thick
                    base = self.first_money[thick] + self.more_money * (count - 1) + cheap * count
                    if (cost := (base + cut_money) * per + 1) < most:
                        out.append((cost, "strips", count, cut, bit))
            if both if passes else tapered:
                cost = (taper_money + cut_money) * per + 1
                if cost < cap(bit | TAPER):
                    out.append((cost, "tapers", 0, cut, bit | TAPER))
        return sorted(out)
