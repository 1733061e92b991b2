"""What one member can be, at each place of the plane: every stack of treatment, and where it is possible.

The cheap kinds (leave, plane, one strip, sister, ...) are listed over the whole range of T; stacks of two
and three pieces, strips over planed wood and tapers only for a short stretch of T, when the search has come
to the least they could cost (:meth:`Options.levels`).
"""

from __future__ import annotations

from collections.abc import Iterator
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
from undertile.framing.shape import Shape
from undertile.framing.stacks import Pieces


class Options(Shape):
    """A member's shape, and every stack it may carry."""

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
        """One stack with so many passes of planing, or with every number of them (``None``), as drafts.

        ``limits`` are whole (``inward``): the faces lie on the planing steps.
        """
        base = tuple(map(add, self.faces, added))
        low_end, high_end = span
        tops = [min(map(sub, base, low)) for _, low in self.bands]
        bare, cut = self.allowed(families), self.allowed(("plane", *families))
        per = self.money.per_touch
        bare_high = tuple(map(sub, base, self.high))
        for passes, depth, bit, plane_money in self.variants(only):
            if not (cut if passes else bare):
                continue
            t0 = max(map(sub, bare_high, depth))
            if max(t0, low_end) > min(tops[-1], high_end):
                continue
            always = self.shims_when_planed(depth)
            for b, (shim, low) in enumerate(self.bands):
                if always and not shim:
                    continue
                where: Span = (max(t0, self.t_range[0]), min(tops[b], self.t_range[1]))
                if max(where[0], low_end) > min(where[1], high_end):
                    continue
                cost = (money + plane_money + (self.shim_money if shim else 0)) * per + (
                    1 if passes or families else 0
                )
                if limits:
                    limited = self.interval(base, depth, low, limits)
                    if limited is None:
                        continue
                    where = limited
                named = ("plane", *families) if passes else families
                yield cost, *where, need | bit, (named, passes, added, depth, shim, need | bit), extra

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
        yield from self._with_planing((), zero, 0, whole, 0, self.t_range, None)
        yield from self.riding(limits)
        yield from self.bedding(limits)
        for added, pieces in self.single_strips(self.t_range, BARE):
            money = self.strip_money(pieces)
            yield from self._with_planing(
                ("strip",), added, money, whole, 0, self.t_range, BARE, pieces=pieces
            )
        if self.member.knock and self.knock_shares is not None and self.allowed(("knock over",)):
            for count in range(-6, 7):
                if count:
                    moved = Fraction(count, 16)
                    added = tuple(int(moved * share * self.unit) for share in self.knock_shares)
                    base = [f + s for f, s in zip(self.faces, added, strict=True)]
                    p = self.prices
                    for shim, low in self.bands:
                        span = self.interval(base, zero, low, whole)
                        cost = self.money.of(
                            p.knock + (p.flange_shim if shim else 0),
                            p.flange_shim_dollars if shim else Fraction(0),
                        )
                        if span is not None:
                            yield cost, *span, 0, (("knock over",), 0, added, zero, shim, 0), {"knock": moved}

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

    def strips(self, count: int, cut: Cut, limits: Limits, span: Span, known: Known) -> Iterator[Draft]:
        """Stacks of one to three pieces over one way of planing, possible for some T in ``span``.

        ``known`` holds what is listed in the span under the same charges; stacks that it beats are left out,
        and what is found is added.
        """
        per = self.money.per_touch
        cut_money = self.cut_money(cut[0])
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
        whole = inward(limits)
        for added, money, extra in found:
            for draft in self._with_planing(
                ("strip",), added, money - cut_money, whole, 0, span, cut, **extra
            ):
                low, high = max(draft[1], span[0]), min(draft[2], span[1])
                if known.beats(draft[0], low, high):
                    continue
                if cut[0] or self.straight(list(map(add, self.faces, added))):
                    known.add(draft[0], low, high)
                yield draft

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
                    ("taper",), added, money, whole, TAPER, span, cut, taper=(bottom, top)
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
            cut_money = self.cut_money(passes)
            need = self._pieces_needed(cut, span) if self.stock else None
            if need is not None and (planed if passes else plain):
                for count in range(max(need[0], 1 if passes else 2), 4):
                    thick = need[1] > count * self.thick or all(s > self.thick for _, s in self.stock)
                    base = self.first_money[thick] + self.more_money * (count - 1) + cheap * count
                    out.append(((base + cut_money) * per + 1, "strips", count, cut, bit))
            if self.member.taper and self.allowed(("plane", "taper") if passes else ("taper",)):
                out.append(((taper_money + cut_money) * per + 1, "tapers", 0, cut, bit | TAPER))
        return sorted(out)
