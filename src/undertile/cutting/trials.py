"""Cut lists that are good without proof: boards filled one after the other, by several rules."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from undertile.cutting.fill import best_fill
from undertile.cutting.packing import Load, Need


def trials(need: Need, counts: Sequence[int], values: Sequence[Sequence[int]]) -> Iterator[tuple[Load, ...]]:
    """Ways to cut the pieces still wanted; each is whole and fits.

    Parameters
    ----------
    need : Need
    counts : sequence of int
        Of each size, what is still wanted.
    values : sequence of sequence of int
        Further rules of filling: what a piece of each size is worth.
    """
    short = sorted(_counted(need), key=lambda k: (need.kinds[k].size, k))
    for order in (short, short[::-1]) if len(short) > 1 else (short,):
        yield trimmed(need, _longest_first(need, list(counts), order))
    squares = [size * size for size in need.sizes]
    for worth in (need.sizes, squares, *values):
        for order in (short, short[::-1]) if len(short) > 1 else (short,):
            yield trimmed(need, _filled(need, list(counts), order, worth, hard=False))
            yield trimmed(need, _filled(need, list(counts), order, worth, hard=True))


def _counted(need: Need) -> list[int]:
    return [k for k, kind in enumerate(need.kinds) if kind.count is not None and kind.cost == 0]


def _endless(need: Need) -> int:
    """The kind whose length costs least, of those the longest piece fits on."""
    fits = [k for k, kind in enumerate(need.kinds) if kind.count is None and kind.size >= need.sizes[0]]
    return min(fits, key=lambda k: (need.kinds[k].cost / need.kinds[k].size, -need.kinds[k].size, k))


def _longest_first(need: Need, left: list[int], offcuts: Sequence[int]) -> list[Load]:
    """Each piece, the longest first, on the open board it fills best; offcuts stand open from the start."""
    rooms: list[list[int]] = []  # room left, kind, index of its load
    loads: list[list[int]] = []
    for k in offcuts:
        for _ in range(need.kinds[k].count or 0):
            rooms.append([need.kinds[k].size, k])
            loads.append([0] * len(left))
    new = _endless(need)
    for i, size in enumerate(need.sizes):
        for _ in range(left[i]):
            at = min(
                (b for b, room in enumerate(rooms) if room[0] >= size),
                key=lambda b: (rooms[b][0], b),
                default=-1,
            )
            if at < 0:
                rooms.append([need.kinds[new].size, new])
                loads.append([0] * len(left))
                at = len(rooms) - 1
            rooms[at][0] -= size
            loads[at][i] += 1
    return [Load(room[1], tuple(load)) for room, load in zip(rooms, loads, strict=True) if any(load)]


def _filled(
    need: Need, left: list[int], offcuts: Sequence[int], worth: Sequence[int], *, hard: bool
) -> list[Load]:
    """One board after the other as full of worth as can be; ``hard``: with the longest piece left on it."""
    loads = []
    for k in offcuts:
        for _ in range(need.kinds[k].count or 0):
            taken = _one(need, need.kinds[k].size, left, worth, hard=hard)
            if any(taken):
                loads.append(Load(k, taken))
                left = [a - b for a, b in zip(left, taken, strict=True)]
    new = _endless(need)
    while any(left):
        taken = _one(need, need.kinds[new].size, left, worth, hard=hard)
        if not any(taken):  # what is left is worth nothing by this rule
            taken = _one(need, need.kinds[new].size, left, need.sizes, hard=hard)
        times = min(n // t for n, t in zip(left, taken, strict=True) if t)  # the same again while it can be
        loads += [Load(new, taken)] * times
        left = [a - times * b for a, b in zip(left, taken, strict=True)]
    return loads


def _one(need: Need, room: int, left: Sequence[int], worth: Sequence[int], *, hard: bool) -> tuple[int, ...]:
    """How one board is filled."""
    must = -1
    if hard:
        must = next((i for i, size in enumerate(need.sizes) if left[i] and size <= room), -1)
        if must < 0:
            return tuple(0 for _ in left)
        room -= need.sizes[must]
        left = [n - (i == must) for i, n in enumerate(left)]
    _, taken = best_fill(room, need.sizes, left, worth, about=True)
    return tuple(t + (i == must) for i, t in enumerate(taken))


def trimmed(need: Need, loads: Sequence[Load]) -> tuple[Load, ...]:
    """The same with each paid board of the cheapest kind that holds what is cut from it."""
    out = []
    for load in loads:
        kind = need.kinds[load.kind]
        if kind.cost:
            length = sum(size * much for size, much in zip(need.sizes, load.taken, strict=True))
            fits = [k for k, e in enumerate(need.kinds) if e.count is None and e.size >= length]
            best = min(fits, key=lambda k: (need.kinds[k].cost, need.kinds[k].size, k))
            load = Load(best, load.taken)
        out.append(load)
    return tuple(out)
