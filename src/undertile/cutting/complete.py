"""Is there anything cheaper? Every way that could be, gone through board by board.

The longest piece left must lie on some board: each kind of board in turn, each filling with it that takes no
further piece (a filling that still has room for one left over is never better). Weights of the pieces
(``weights``) cut off what cannot be paid for any more: unopened offcuts and the money left must carry all
that is left.
Exact and whole-numbered; what was found hopeless once is not gone through again.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from undertile.cutting.packing import Load, Need, Witness, least_cover

NODES = 60_000
"""Boards tried, a few seconds, before it is given up and said so."""


class Completion:
    """A search for loads of cost at most ``target``."""

    def __init__(self, need: Need, witnesses: Sequence[Witness], target: int, nodes: int = NODES) -> None:
        self.nodes = 0
        self.given_up = False
        self._need, self._target, self._limit = need, target, nodes
        self._witnesses = [w for w in witnesses if w.total]
        self._free = [k for k, kind in enumerate(need.kinds) if kind.count is not None]
        self._hopeless: set[tuple[tuple[int, ...], tuple[int, ...], int]] = set()
        self._path: list[Load] = []
        self._known: dict[tuple[int, int], int] = {}

    def run(self) -> tuple[Load, ...] | None:
        """Loads that cost no more than the target; None when there are none, or when it was given up."""
        free = tuple(self._need.kinds[k].count or 0 for k in self._free)
        return tuple(self._path) if self._go(tuple(self._need.counts), free, 0) else None

    def _go(self, left: tuple[int, ...], free: tuple[int, ...], spent: int) -> bool:
        longest = next((i for i, n in enumerate(left) if n), None)
        if longest is None:
            return True
        state = (left, free, spent)
        if state in self._hopeless:
            return False
        for load in self._boards(longest, left, free, spent):
            kind = self._need.kinds[load.kind]
            rest = tuple(a - b for a, b in zip(left, load.taken, strict=True))
            fewer = tuple(n - (k == load.kind) for k, n in zip(self._free, free, strict=True))
            self.nodes += 1
            if self.nodes > self._limit:
                self.given_up = True
                return False
            if not self._payable(rest, fewer, spent + kind.cost):
                continue
            self._path.append(load)
            if self._go(rest, fewer, spent + kind.cost):
                return True
            self._path.pop()
            if self.given_up:
                return False
        self._hopeless.add(state)
        return False

    def _payable(self, left: tuple[int, ...], free: tuple[int, ...], spent: int) -> bool:
        """Whether what is left can be carried by the offcuts and the money left, under every weights."""
        for number, witness in enumerate(self._witnesses):
            total = sum(w * n for w, n in zip(witness.weights, left, strict=True))
            total -= sum(witness.most[k] * n for k, n in zip(self._free, free, strict=True))
            if total > 0 and spent + self._cost(number, total) > self._target:
                return False
        return True

    def _cost(self, number: int, total: int) -> int:
        key = (number, total)
        found = self._known.get(key)
        if found is None:
            endless = [k for k, kind in enumerate(self._need.kinds) if kind.count is None]
            most = self._witnesses[number].most
            found = least_cover([self._need.kinds[k] for k in endless], [most[k] for k in endless], total)
            self._known[key] = found
        return found

    def _boards(
        self, longest: int, left: tuple[int, ...], free: tuple[int, ...], spent: int
    ) -> Iterator[Load]:
        """Boards with the longest piece on them, those that waste least weight first."""
        found: list[tuple[int, int, Load]] = []
        for k, kind in enumerate(self._need.kinds):
            if kind.count is not None and not free[self._free.index(k)]:
                continue
            if kind.size < self._need.sizes[longest] or spent + kind.cost > self._target:
                continue
            for taken in self._fillings(kind.size, longest, left):
                wasted = 0
                if self._witnesses:
                    first = self._witnesses[0]
                    carried = sum(w * t for w, t in zip(first.weights, taken, strict=True))
                    wasted = first.most[k] - carried
                found.append((wasted, len(found), Load(k, taken)))
                if len(found) > self._limit:
                    self.given_up = True
                    return
        found.sort(key=lambda each: each[:2])
        yield from (load for _, _, load in found)

    def _fillings(self, size: int, longest: int, left: tuple[int, ...]) -> Iterator[tuple[int, ...]]:
        """Every filling with one of the longest that has no room for another piece left over."""
        sizes = self._need.sizes
        taken = [0] * len(left)

        def go(at: int, room: int, spare: int) -> Iterator[tuple[int, ...]]:
            # spare: the shortest piece passed over that is still left over; it must not fit at the end
            while at < len(sizes) and (not left[at] or sizes[at] > room):
                at += 1
            if at == len(sizes):
                if not spare or room < spare:
                    yield tuple(taken)
                return
            most = min(left[at] - (at == longest), room // sizes[at])
            if at == longest and most == 0 and left[at] == 1:
                yield from go(at + 1, room, spare)
                return
            for much in range(most, -1, -1):
                taken[at] += much
                over = left[at] - taken[at]
                yield from go(at + 1, room - much * sizes[at], sizes[at] if over else spare)
                taken[at] -= much

        taken[longest] = 1
        yield from go(longest, size - sizes[longest], 0)
