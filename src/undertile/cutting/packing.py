"""The cutting-stock problem in whole units: boards of some kinds, pieces, the least cost; and the answer.

The saw is in the numbers already: each piece is longer by a kerf and so is each board (``boards``).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from undertile.errors import InputError


@dataclass(frozen=True)
class BoardKind:
    """Boards of one length.

    Attributes
    ----------
    size : int
        [units]
    cost : int
        Of one opened; 0 for an offcut.
    count : int or None
        How many there are; None = as many as it takes.
    """

    size: int
    cost: int
    count: int | None = None


@dataclass(frozen=True)
class Need:
    """What is cut: different sizes, the longest first, and how many of each."""

    kinds: tuple[BoardKind, ...]
    sizes: tuple[int, ...]
    counts: tuple[int, ...]

    @classmethod
    def of(cls, kinds: Sequence[BoardKind], pieces: Sequence[int]) -> Need:
        """The same for any order of the pieces.

        Raises
        ------
        InputError
            If there is no kind without end that the longest piece fits on: then there may be no answer.
        """
        sizes = sorted(set(pieces), reverse=True)
        endless = [kind for kind in kinds if kind.count is None]
        longest = max((kind.size for kind in endless), default=0)
        if pieces and (sizes[-1] <= 0 or longest < sizes[0]):
            raise InputError(
                f"pieces go from {sizes[-1]} to {sizes[0]}; expected each over 0, and boards without end "
                f"that the longest fits on (theirs: {longest})"
            )
        if any(kind.cost <= 0 for kind in endless) or any(kind.cost < 0 for kind in kinds):
            raise InputError("a board costs less than nothing, or boards without end cost nothing")
        return cls(tuple(kinds), tuple(sizes), tuple(pieces.count(each) for each in sizes))


@dataclass(frozen=True)
class Load:
    """One board: the index of its kind, and how many of each size are cut from it."""

    kind: int
    taken: tuple[int, ...]


@dataclass(frozen=True)
class Witness:
    """Why no less does: weights under which no board carries much, though all pieces together weigh a lot.

    Attributes
    ----------
    weights : tuple of int
        Of one piece of each size.
    most : tuple of int
        The most a board of each kind can carry (an exact knapsack each).
    total : int
        All pieces together. Boards opened must carry this: the cheapest that can cost ``bound``.
    bound : int
    """

    weights: tuple[int, ...]
    most: tuple[int, ...]
    total: int
    bound: int


@dataclass(frozen=True)
class Packing:
    """The answer.

    Attributes
    ----------
    loads : tuple of Load
    cost : int
    least : int
        Nothing costs less, proved; ``cost`` when the answer is proved least.
    witness : Witness
        The weights that give the first bound; ``least`` is more where the search went through all that
        could lie between (``searched``).
    searched : bool
        Whether everything cheaper was gone through.
    nodes : int
        Of that search.
    """

    loads: tuple[Load, ...]
    cost: int
    least: int
    witness: Witness
    searched: bool = False
    nodes: int = 0


def used(load: Load, need: Need) -> int:
    """Length taken from a board. [units]"""
    return sum(size * much for size, much in zip(need.sizes, load.taken, strict=True))


def cost_of(loads: Sequence[Load], need: Need) -> int:
    """Cost of the boards opened."""
    return sum(need.kinds[load.kind].cost for load in loads)


def least_cover(kinds: Sequence[BoardKind], most: Sequence[int], total: int) -> int:
    """Least cost of boards that carry ``total`` together, each at most its ``most``.

    Parameters
    ----------
    kinds : sequence of BoardKind
    most : sequence of int
        One for each kind.
    total : int

    Returns
    -------
    int
        A bound of what the pieces of that weight cost, whichever way they are cut.
    """
    for kind, carries in zip(kinds, most, strict=True):
        if kind.cost == 0 and kind.count is not None:
            total -= kind.count * carries
    paid = [
        (kind.cost, carries) for kind, carries in zip(kinds, most, strict=True) if kind.cost and carries > 0
    ]
    # kinds of a cost with a count are taken as if without end: a bound still
    paid = [
        p for p in paid if not any(q != p and q[0] <= p[0] and q[1] >= p[1] for q in paid)
    ]  # as dear and carries less
    paid = sorted(set(paid), key=lambda p: (Fraction(*p), p[1]))
    if total <= 0 or not paid:
        return 0
    return _cover(paid, 0, total, 0, None)


def _cover(paid: Sequence[tuple[int, int]], at: int, total: int, spent: int, best: int | None) -> int:
    cost, carries = paid[at]
    most = -(-total // carries)
    if best is None or spent + most * cost < best:
        best = spent + most * cost
    if at + 1 == len(paid):
        return best
    for much in range(most - 1, -1, -1):
        rest = total - much * carries
        # the rest goes on boards that carry no more for their cost than the next
        if spent + much * cost + -(-rest * paid[at + 1][0] // paid[at + 1][1]) >= best:
            break
        best = min(best, _cover(paid, at + 1, rest, spent + much * cost, best))
    return best
