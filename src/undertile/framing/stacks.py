"""Stacks of strips: up to three pieces, each one actual thickness over one unbroken run of heights.

What lies on a stud at one height is a *heap* (a multiset of stock). Going up the stud a stack is a row of
heaps; a piece that is in two heaps one after the other is one run. So the pieces a stack takes are counted
by what each heap has that the one below has not.
"""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections import Counter
from collections.abc import Callable, Sequence

Pieces = tuple[tuple[int, int, int], ...]
"""Strip pieces: (stock index, first height, last height)."""
Heaps = tuple[int, ...]
"""Heaps by number, one a height."""
Fresh = tuple[int, int, bool]
Next = tuple[int, int, int, int, bool]
"""A heap that may come above another: sum, number, pieces left then, price, whether a new piece is thick."""


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
        self._new_in: dict[tuple[int, int], Fresh] = {}
        self._next: dict[tuple[int, int, bool, bool], tuple[list[int], list[Next]]] = {}

    def fresh(self, before: int, heap: int) -> Fresh:
        """What one heap, by number, has that another has not: pieces, their price, whether one is thick."""
        found = self._new_in.get((before, heap))
        if found is None:
            lies = list(self.heaps[before])
            count = price = 0
            thick = False
            for i in self.heaps[heap]:
                if i in lies:
                    lies.remove(i)
                else:
                    count += 1
                    price += self.price[i]
                    thick = thick or self.thickness[i] > self.thick
            found = self._new_in[before, heap] = count, price, thick
        return found

    def next_to(self, before: int, left: int, dry: bool, last: bool) -> tuple[list[int], list[Next]]:
        """Heaps that take at most ``left`` new pieces (``last``: just so many) beside one; by rising sum.

        Returns
        -------
        sums : their thicknesses [units]
        heaps : what each is and asks for
        """
        key = (before, left, dry, last)
        found = self._next.get(key)
        if found is None:
            heaps = []
            for i, s in enumerate(self.sums):
                count, price, thick = self.fresh(before, i)
                if (count == left if last else count <= left) and (dry or self.wet[i]):
                    heaps.append((s, i, left - count, price, thick))
            found = self._next[key] = [each[0] for each in heaps], heaps
        return found

    def each(
        self,
        count: int,
        windows: Sequence[tuple[int, int]],
        span: tuple[int, int],
        dry_ok: Sequence[bool],
        beaten: Callable[[int, bool, int, int], bool],
        take: Callable[[Heaps, int, bool], None],
        sizes: Sequence[tuple[int, int]] | None = None,
    ) -> None:
        """Hand over every stack of exactly ``count`` pieces possible for some T in ``span`` and not beaten.

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
        take : callable
            ``take(heaps by number, price, whether a piece is thick)``; may make more be beaten.
        sizes : per height (least, most), optional
            How thick a heap there may be. [units]
        """
        top = len(windows) - 1
        path = [self.empty] * (top + 1)
        ready, next_to = self._next, self.next_to

        def walk(h: int, before: int, left: int, price: int, thick: bool, t0: int, t1: int) -> None:
            least, most = windows[h]
            last = h == top
            sums, heaps = ready.get((before, left, dry_ok[h], last)) or next_to(before, left, dry_ok[h], last)
            thinnest, thickest = t0 - most, t1 - least
            if sizes is not None:
                thin, thicker = sizes[h]
                thinnest, thickest = max(thinnest, thin), min(thickest, thicker)
            for s, i, then, cost, heavy in heaps[bisect_left(sums, thinnest) : bisect_right(sums, thickest)]:
                u = t0 if t0 > least + s else least + s
                v = t1 if t1 < most + s else most + s
                if u > v or beaten(price + cost, thick or heavy, u, v):
                    continue
                path[h] = i
                if last:
                    take(tuple(path), price + cost, thick or heavy)
                else:
                    walk(h + 1, i, then, price + cost, thick or heavy, u, v)

        walk(0, self.empty, count, 0, False, *span)

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
