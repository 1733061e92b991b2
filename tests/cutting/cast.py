"""Judges that share nothing with the solver: every assignment tried, and a knapsack table."""

from __future__ import annotations

from collections.abc import Sequence

from undertile.cutting.packing import BoardKind, Need, Packing, cost_of, used


def tried(kinds: Sequence[BoardKind], pieces: Sequence[int]) -> int:
    """Least cost by putting each piece on every board there could be. For a handful of pieces."""
    best = [sum(max(k.cost for k in kinds) for _ in pieces) + 1]

    def put(at: int, boards: list[tuple[int, int]], spent: int) -> None:
        if spent >= best[0]:
            return
        if at == len(pieces):
            best[0] = spent
            return
        for number, (kind, room) in enumerate(boards):
            if room >= pieces[at]:
                boards[number] = (kind, room - pieces[at])
                put(at + 1, boards, spent)
                boards[number] = (kind, room)
        for k, kind in enumerate(kinds):
            free = kind.count is None or sum(b == k for b, _ in boards) < kind.count
            if free and kind.size >= pieces[at]:
                put(at + 1, [*boards, (k, kind.size - pieces[at])], spent + kind.cost)

    put(0, [], 0)
    return best[0]


def heaviest(size: int, sizes: Sequence[int], counts: Sequence[int], weights: Sequence[int]) -> int:
    """The most a board can carry: the textbook table over every length, one piece at a time."""
    table = [0] * (size + 1)
    for each, many, weight in zip(sizes, counts, weights, strict=True):
        for _ in range(many):
            for at in range(size, each - 1, -1):
                table[at] = max(table[at], table[at - each] + weight)
    return table[size]


def sound(kinds: Sequence[BoardKind], pieces: Sequence[int], answer: Packing) -> None:
    """Every piece cut once, no board over-filled, none used that is not there; the cost is what it says."""
    need = Need.of(kinds, pieces)
    for i, many in enumerate(need.counts):
        assert sum(load.taken[i] for load in answer.loads) == many
    for load in answer.loads:
        assert any(load.taken)
        assert used(load, need) <= kinds[load.kind].size
    for k, kind in enumerate(kinds):
        assert kind.count is None or sum(load.kind == k for load in answer.loads) <= kind.count
    assert cost_of(answer.loads, need) == answer.cost
    assert answer.least <= answer.cost


def witnessed(kinds: Sequence[BoardKind], pieces: Sequence[int], answer: Packing) -> None:
    """The witness proves its bound: for one kind without end and offcuts, counted anew by the table."""
    need, witness = Need.of(kinds, pieces), answer.witness
    most = [heaviest(kind.size, need.sizes, need.counts, witness.weights) for kind in kinds]
    assert most == list(witness.most)
    total = sum(w * n for w, n in zip(witness.weights, need.counts, strict=True))
    total -= sum(m * kind.count for m, kind in zip(most, kinds, strict=True) if kind.count is not None)
    (endless,) = [(m, kind.cost) for m, kind in zip(most, kinds, strict=True) if kind.count is None]
    assert witness.bound == max(0, -(-total // endless[0])) * endless[1]
