"""The least cost of boards for some pieces, with its proof (docs/methods/cutting.md)."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace

from undertile.cutting.complete import NODES, Completion
from undertile.cutting.packing import BoardKind, Load, Need, Packing, Witness, cost_of, used
from undertile.cutting.trials import trials, trimmed
from undertile.cutting.weights import Relaxed, Walk, witness_of

DEEPEST = 400
"""Boards and different sizes together up to which the last search, one call deeper a board, is begun."""
TIE_NODES = 300
"""Boards a search for the tie-break may try: it is for order, not for money."""


def pack(kinds: Sequence[BoardKind], pieces: Sequence[int], *, nodes: int = NODES) -> Packing:
    """Cut pieces from boards at least cost.

    Parameters
    ----------
    kinds : sequence of BoardKind
        One at least without end that the longest piece fits on.
    pieces : sequence of int
        Sizes, in any order. [units]
    nodes : int
        Boards the last search may try before it is given up.

    Returns
    -------
    Packing
        ``least == cost``: proved. The loads' ``taken`` go with the different sizes, the longest first.

    Raises
    ------
    InputError
        If there is no such board, or a size is not over 0.
    """
    need = Need.of(kinds, pieces)
    if not pieces:
        return Packing((), 0, 0, Witness((), (), 0, 0))
    by_length = witness_of(need, need.sizes)
    best = _cheapest(need, trials(need, need.counts, ()), by_length.bound)
    if cost_of(best, need) == by_length.bound:
        return Packing(best, by_length.bound, by_length.bound, by_length)
    walk = Walk(need, by_length)
    for to_end in (False, True):
        walked = walk.go(cost_of(best, need), to_end=to_end)
        if cost_of(best, need) > walked.witness.bound:
            best = _cheapest(need, _rounded(need, walked), walked.witness.bound, best)
        if cost_of(best, need) <= walked.witness.bound:
            break
    return _searched(need, best, walked.witness, by_length, nodes)


def _searched(
    need: Need, best: tuple[Load, ...], witness: Witness, by_length: Witness, nodes: int
) -> Packing:
    """From the best known down: each cheaper cost asked for until there is none."""
    tried = 0
    if len(best) + len(need.sizes) > DEEPEST:
        cost = cost_of(best, need)
        return Packing(best, cost, witness.bound, witness)
    while cost_of(best, need) > witness.bound:
        search = Completion(need, (witness, by_length), cost_of(best, need) - 1, nodes)
        found = search.run()
        tried += search.nodes
        if found is not None:
            best = found
        elif search.given_up:
            return Packing(best, cost_of(best, need), witness.bound, witness, nodes=tried)
        else:
            cost = cost_of(best, need)
            return Packing(best, cost, cost, witness, searched=True, nodes=tried)
    cost = cost_of(best, need)
    return Packing(best, cost, cost, witness, nodes=tried)


def _cheapest(
    need: Need, ways: Iterable[tuple[Load, ...]], enough: int, best: tuple[Load, ...] = ()
) -> tuple[Load, ...]:
    """The cheapest of some ways; no more are looked at once nothing can be cheaper."""
    for way in ways:
        if not best or cost_of(way, need) < cost_of(best, need):
            best = way
        if cost_of(best, need) <= enough:
            break
    return best


def _rounded(need: Need, walked: Relaxed) -> Iterable[tuple[Load, ...]]:
    """The boards of the linear program in whole numbers, and what is left cut by the rules of ``trials``."""
    weights = walked.witness.weights
    yield from trials(need, need.counts, (weights,))
    for up in (1.0, 0.5, 0.25):
        left = list(need.counts)
        free = [kind.count for kind in need.kinds]
        whole: list[Load] = []
        for load, often in walked.ways:
            for _ in range(int(often + 1 - up + 1e-9)):
                fits = all(t <= n for t, n in zip(load.taken, left, strict=True))
                count = free[load.kind]
                if not fits or not any(load.taken) or count == 0:
                    break
                if count is not None:
                    free[load.kind] = count - 1
                left = [a - b for a, b in zip(left, load.taken, strict=True)]
                whole.append(load)
        kinds = tuple(replace(kind, count=count) for kind, count in zip(need.kinds, free, strict=True))
        rest = replace(need, kinds=kinds)
        for way in trials(rest, left, (weights,)):
            yield (*whole, *way)


def keep_longest(kinds: Sequence[BoardKind], pieces: Sequence[int], answer: Packing) -> tuple[Packing, bool]:
    """The same cost with the longest piece left over of a paid board: the tie-break of the cut list.

    Asked by halving: with one paid board shortened by what shall be left, does the rest still cost no more?
    Where boards of several lengths cost the same, no longer ones are opened for it than before.

    Parameters
    ----------
    kinds, pieces
        As given to :func:`pack`.
    answer : Packing
        What it gave.

    Returns
    -------
    answer : Packing
    sure : bool
        Whether no answer of that cost leaves a longer piece of one paid board.
    """
    if not answer.cost:
        return answer, True
    need = Need.of(kinds, pieces)
    answer = replace(answer, loads=trimmed(need, answer.loads))
    opened = _length(answer.loads, need)
    weights = tuple(dict.fromkeys((answer.witness.weights, need.sizes)))
    longest = max((_over(load, need) for load in answer.loads if need.kinds[load.kind].cost), default=-1)
    sure = True
    for k, kind in enumerate(need.kinds):
        low, high = longest, kind.size - min(need.sizes, default=0)
        while kind.count is None and low < high:
            middle = (low + high + 1) // 2
            found, gone_through = _leaving(need, k, middle, answer.cost - kind.cost, weights)
            if found is None:
                high, sure = middle - 1, sure and gone_through
            elif _length(found, need) > opened:
                high, sure = middle - 1, False
            else:
                answer = replace(answer, loads=found)
                low = max(_over(load, need) for load in found if load.kind == k)
        longest = max(longest, low)
    return answer, sure


def _length(loads: Sequence[Load], need: Need) -> int:
    """Length of the paid boards opened."""
    return sum(need.kinds[load.kind].size for load in loads if need.kinds[load.kind].cost)


def _over(load: Load, need: Need) -> int:
    return need.kinds[load.kind].size - used(load, need)


def _leaving(
    need: Need, kind: int, left: int, budget: int, weights: Sequence[Sequence[int]]
) -> tuple[tuple[Load, ...] | None, bool]:
    """Loads with one board of a kind shortened and paid already; and whether all were gone through."""
    short = replace(need, kinds=(*need.kinds, BoardKind(need.kinds[kind].size - left, 0, 1)))
    extra = len(need.kinds)
    way = next(iter(trials(short, short.counts, ())))
    sure = True
    found: tuple[Load, ...] | None = way
    if cost_of(way, short) > budget:
        witnesses = [witness_of(short, each) for each in weights]
        if any(witness.bound > budget for witness in witnesses):
            return None, True
        if len(way) + len(short.sizes) > DEEPEST:
            return None, False
        search = Completion(short, witnesses, budget, TIE_NODES)
        found, sure = search.run(), not search.given_up
    if found is None:
        return None, sure
    if not any(load.kind == extra for load in found):  # cheaper than the answer, which then was not proved
        return None, False
    kept = trimmed(need, [load for load in found if load.kind != extra])
    return (*kept, *(Load(kind, load.taken) for load in found if load.kind == extra)), sure
