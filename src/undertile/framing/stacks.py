"""Stacks of strips: up to three pieces, each one actual thickness over one unbroken run of heights.

What lies on a stud at one height is a *heap* (a multiset of stock). Going up the stud a stack is a row of
heaps; a piece that is in two heaps one after the other is one run. So the pieces a stack takes are counted
by what each heap has that the one below has not.
"""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections import Counter
from collections.abc import Callable, Iterator, Sequence

Pieces = tuple[tuple[int, int, int], ...]
"""Strip pieces: (stock index, first height, last height)."""
Fresh = tuple[int, int, bool]


class StockBook:
    """Every heap of at most three pieces and 3/4 in from one choice of stock.

    Parameters
    ----------
    stock : sequence of (index, thickness in units)
    price : dict of stock index to whole-number money
    most, thick : int
        Thickest heap allowed; over ``thick`` a piece costs the longer time. [units]
    dry_only : set of int
        Stock indices that may not get wet.
    """

    def __init__(
        self,
        stock: Sequence[tuple[int, int]],
        price: dict[int, int],
        most: int,
        thick: int,
        dry_only: set[int],
    ) -> None:
        self.thickness = thickness = dict(stock)
        self.price, self.thick = price, thick
        indices = sorted(thickness)
        heaps: list[tuple[int, ...]] = [()]
        frontier: list[tuple[int, ...]] = [()]
        for _ in range(3):
            frontier = [(*heap, i) for heap in frontier for i in indices if not heap or i >= heap[-1]]
            frontier = [heap for heap in frontier if sum(thickness[i] for i in heap) <= most]
            heaps += frontier
        heaps.sort(key=lambda heap: sum(thickness[i] for i in heap))
        self.heaps = heaps
        self.sums = [sum(thickness[i] for i in heap) for heap in heaps]
        self.wet = [not dry_only.intersection(heap) for heap in heaps]
        self.empty = heaps.index(())
        self._fresh: list[list[Fresh] | None] = [None] * len(heaps)

    def fresh(self, before: int) -> list[Fresh]:
        """What each heap has that one heap, by number, has not: pieces, their price, whether one is thick."""
        found = self._fresh[before]
        if found is None:
            found = self._fresh[before] = [self._new(self.heaps[before], heap) for heap in self.heaps]
        return found

    def _new(self, before: tuple[int, ...], heap: tuple[int, ...]) -> Fresh:
        lies = list(before)
        count = price = 0
        thick = False
        for i in heap:
            if i in lies:
                lies.remove(i)
            else:
                count += 1
                price += self.price[i]
                thick = thick or self.thickness[i] > self.thick
        return count, price, thick

    def rows(
        self,
        count: int,
        windows: Sequence[tuple[int, int]],
        span: tuple[int, int],
        dry_ok: Sequence[bool],
        beaten: Callable[[int, bool, int, int], bool],
    ) -> Iterator[tuple[tuple[int, ...], int, bool, tuple[int, ...]]]:
        """Every stack of exactly ``count`` pieces possible for some T in ``span`` and not beaten there.

        Parameters
        ----------
        count : int
        windows : per height (least, most)
            With a heap of sum s at that height, T must lie in ``least + s .. most + s``. [units]
        span : (int, int)
        dry_ok : per height, whether stock that may not get wet may lie there
        beaten : callable
            ``beaten(price, thick, t0, t1)``: something no dearer is known all over t0..t1. Asked on the way
            up too, with what has been paid so far.

        Yields
        ------
        (what is added at each height, price, whether a piece is thick, heaps by number)
        """
        heights = len(windows)
        path = [self.empty] * heights
        sums, fresh, listed, wet = self.sums, self.fresh, self._fresh, self.wet

        def walk(
            h: int, before: int, used: int, price: int, thick: bool, t0: int, t1: int
        ) -> Iterator[tuple[tuple[int, ...], int, bool, tuple[int, ...]]]:
            if h == heights:
                if used == count:
                    yield tuple([sums[i] for i in path]), price, thick, tuple(path)
                return
            least, most = windows[h]
            new = listed[before] or fresh(before)
            for i in range(bisect_left(sums, t0 - most), bisect_right(sums, t1 - least)):
                more, cost, heavy = new[i]
                if used + more > count or not (wet[i] or dry_ok[h]):
                    continue
                s = sums[i]
                u = t0 if t0 > least + s else least + s
                v = t1 if t1 < most + s else most + s
                if u > v or beaten(price + cost, thick or heavy, u, v):
                    continue
                path[h] = i
                yield from walk(h + 1, i, used + more, price + cost, thick or heavy, u, v)

        return walk(0, self.empty, 0, 0, False, *span)

    def pieces(self, path: Sequence[int]) -> Pieces:
        """The pieces of a row of heaps."""
        done: list[tuple[int, int, int]] = []
        opened: list[tuple[int, int]] = []
        for h, i in enumerate(path):
            want = Counter(self.heaps[i])
            kept = []
            for index, first in opened:
                if want[index] > 0:
                    want[index] -= 1
                    kept.append((index, first))
                else:
                    done.append((index, first, h - 1))
            kept += [(index, h) for index in want.elements()]
            opened = kept
        done += [(index, first, len(path) - 1) for index, first in opened]
        return tuple(sorted(done, key=lambda piece: (piece[1], piece[0])))
