"""The best filling of one board, exactly: which pieces, each at most so often, are worth most together."""

from __future__ import annotations

from collections.abc import Sequence

NODES = 3000
"""Branches looked at before the filling is worked out from every length that can be reached instead."""
SOON = 150
"""Branches for a filling that need not be the best."""


def best_fill(
    capacity: int,
    sizes: Sequence[int],
    counts: Sequence[int],
    values: Sequence[int],
    *,
    about: bool = False,
) -> tuple[int, tuple[int, ...]]:
    """The filling of greatest value, of all that fit.

    Parameters
    ----------
    capacity : int
        Of the board. [units]
    sizes : sequence of int
        Different, each over 0. [units]
    counts : sequence of int
        How many of each there are.
    values : sequence of int
        Of one of each, 0 or more.
    about : bool
        A good one found soon will do.

    Returns
    -------
    value : int
    taken : tuple of int
        How many of each.
    """
    chosen = [i for i, v in enumerate(values) if v > 0 and counts[i] > 0 and sizes[i] <= capacity]
    # dearest for its length first; two values a length differ by 1 in capacity^2 at least, so this is exact
    shift = 2 * capacity.bit_length()
    chosen.sort(key=lambda i: (-((values[i] << shift) // sizes[i]), sizes[i]))
    taken = [0] * len(sizes)
    if not chosen:
        return 0, tuple(taken)
    search = _Search(capacity, [(i, sizes[i], counts[i], values[i]) for i in chosen])
    found, whole = search.run(SOON if about else NODES)
    if not whole and not about:
        found = _every_length(capacity, search.items)
    for i, much in found[1]:
        taken[i] = much
    return found[0], tuple(taken)


Item = tuple[int, int, int, int]
"""Index, size, count, value."""
Taken = tuple[int, list[tuple[int, int]]]


class _Search:
    """Depth first: as many as fit of the dearest, then fewer, cut off where the rest cannot win."""

    def __init__(self, capacity: int, items: list[Item]) -> None:
        self.items = items
        self._capacity = capacity
        self._best = -1
        self._kept: list[tuple[int, int]] = []
        self._path: list[tuple[int, int]] = []
        self._nodes = self._limit = 0
        # the shortest piece from each place on: below it nothing more fits
        self._short = [0] * len(items)
        low = items[-1][1]
        for at in range(len(items) - 1, -1, -1):
            low = min(low, items[at][1])
            self._short[at] = low

    def run(self, limit: int) -> tuple[Taken, bool]:
        """Value and what is taken; and whether all that could be better was looked at."""
        self._limit = limit
        self._go(0, self._capacity, 0)
        return (self._best, self._kept), self._nodes <= limit

    def _go(self, at: int, room: int, value: int) -> None:
        self._nodes += 1
        if self._nodes > self._limit:
            return
        if value > self._best:
            self._best, self._kept = value, list(self._path)
        while at < len(self.items) and self.items[at][1] > room:
            at += 1
        if at == len(self.items) or self._short[at] > room:
            return
        index, size, count, worth = self.items[at]
        if value + room * worth // size <= self._best:
            return
        most = min(count, room // size)
        for much in range(most, -1, -1):
            left = room - much * size
            if much < most:
                # what is left out here can only be made up by pieces no dearer for their length
                after = self.items[at + 1] if at + 1 < len(self.items) else None
                rest = left * after[3] // after[1] if after else 0
                if value + much * worth + rest <= self._best:
                    return
            if much:
                self._path.append((index, much))
            self._go(at + 1, left, value + much * worth)
            if much:
                self._path.pop()
            if self._nodes > self._limit:
                return


def _every_length(capacity: int, items: list[Item]) -> Taken:
    """Through every length that can be reached, with the best value at each."""
    best: dict[int, int] = {0: 0}
    steps: list[tuple[int, int, dict[int, int]]] = []
    for index, size, count, worth in items:
        before = list(best.items())
        used: dict[int, int] = {}  # length -> how many of this piece are in the best way there
        for length, value in before:
            for much in range(1, min(count, (capacity - length) // size) + 1):
                at, total = length + much * size, value + much * worth
                if total > best.get(at, -1):
                    best[at] = total
                    used[at] = much
        steps.append((index, size, used))
    end = max(best, key=lambda length: (best[length], -length))
    value, out = best[end], []
    for index, size, used in reversed(steps):
        much = used.get(end, 0)
        if much:
            out.append((index, much))
            end -= much * size
    return value, out
