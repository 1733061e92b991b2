"""Rectangles out of panels by cuts from edge to edge, each taking a saw's kerf: the fewest panels.

Every guillotine pattern is built up from its pieces by setting two of them side by side or one above the
other [1]_. So for every set of pieces the smallest rectangles it can be cut from are found from those of its
parts, and a set fits a panel when one of them does. Exact, for the few pieces of a patch; pieces are never
turned: a panel's strong axis lies across the joists.

Whole numbers throughout; the caller chooses the unit.

References
----------
.. [1] P. Y. Wang, Two algorithms for constrained two-dimensional cutting stock problems, Operations Research
   31 (1983) 573-586 (from memory).
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property

Counts = tuple[int, ...]
Size = tuple[int, int]
"""Length along the strong axis, and width."""
MOST_SETS = 40_000
"""Sets of pieces looked at before the search for the fewest panels says it has no proof."""


@dataclass(frozen=True)
class Build:
    """A set of pieces in the smallest rectangle one way of cutting needs.

    ``kind`` None: one piece; else the two parts ``side by side`` or ``above``.
    """

    size: Size
    kind: int | None = None
    parts: tuple[Build, Build] | None = None
    beside: bool = False

    def places(self, kerf: int, x: int = 0, y: int = 0) -> Iterator[tuple[int, int, int]]:
        """Each piece's kind and lower left corner."""
        if self.parts is None:
            assert self.kind is not None
            yield self.kind, x, y
            return
        one, other = self.parts
        yield from one.places(kerf, x, y)
        if self.beside:
            yield from other.places(kerf, x + one.size[0] + kerf, y)
        else:
            yield from other.places(kerf, x, y + one.size[1] + kerf)


@dataclass(frozen=True)
class Sets:
    """Every set of pieces that one panel holds.

    Attributes
    ----------
    panel : Size
    pieces : tuple of Size
    most : tuple of int
        Of each piece.
    kerf : int
    stopped : bool
        There are more sets than ``MOST_SETS``; what is here is not all.
    builds : dict of counts to list of Build
        The smallest rectangles of each set that fits, none of which holds another.
    """

    panel: Size
    pieces: tuple[Size, ...]
    most: Counts
    kerf: int
    builds: dict[Counts, list[Build]]
    stopped: bool = False

    @cached_property
    def largest(self) -> tuple[Counts, ...]:
        """Sets to which no further piece can be added, within ``most``."""
        out = []
        for counts in self.builds:
            grown = (
                (*counts[:i], counts[i] + 1, *counts[i + 1 :])
                for i in range(len(counts))
                if counts[i] < self.most[i]
            )
            if not any(each in self.builds for each in grown):
                out.append(counts)
        return tuple(out)


def sets_of(
    panel: Size, pieces: Sequence[Size], most: Sequence[int], kerf: int = 0, limit: int = MOST_SETS
) -> Sets:
    """All sets of pieces that can be cut out of one panel.

    Parameters
    ----------
    panel : (int, int)
    pieces : sequence of (int, int)
        Different sizes.
    most : sequence of int
        How many of each at most.
    kerf : int
    limit : int
        Sets looked at.

    Returns
    -------
    Sets
    """
    wide, high = panel
    by_size: list[list[Counts]] = [[], []]
    builds: dict[Counts, list[Build]] = {}
    for i, (w, h) in enumerate(pieces):
        if w <= wide and h <= high and most[i] > 0:
            counts = tuple(int(i == j) for j in range(len(pieces)))
            builds[counts] = [Build((w, h), i)]
            by_size[1].append(counts)
    stopped = False
    while by_size[-1] and not stopped:
        number = len(by_size)
        found: dict[Counts, list[Build]] = {}
        for small in range(1, number // 2 + 1):
            for one in by_size[small]:
                for other in by_size[number - small]:
                    counts = tuple(a + b for a, b in zip(one, other, strict=True))
                    if any(c > m for c, m in zip(counts, most, strict=True)):
                        continue
                    made = found.get(counts, [])
                    for a in builds[one]:
                        for b in builds[other]:
                            _join(a, b, panel, kerf, made)
                    if made:
                        found[counts] = made
            if len(builds) + len(found) > limit:
                stopped = True
                break
        builds.update(found)
        by_size.append(list(found))
    return Sets(panel, tuple(pieces), tuple(most), kerf, builds, stopped)


def _join(a: Build, b: Build, panel: Size, kerf: int, made: list[Build]) -> None:
    """Add what two parts make, side by side and one above the other, if nothing smaller is there."""
    for beside, size in (
        (True, (a.size[0] + kerf + b.size[0], max(a.size[1], b.size[1]))),
        (False, (max(a.size[0], b.size[0]), a.size[1] + kerf + b.size[1])),
    ):
        if size[0] > panel[0] or size[1] > panel[1]:
            continue
        if any(each.size[0] <= size[0] and each.size[1] <= size[1] for each in made):
            continue
        made[:] = [each for each in made if not (size[0] <= each.size[0] and size[1] <= each.size[1])]
        made.append(Build(size, None, (a, b), beside))


@dataclass(frozen=True)
class Sheet:
    """One kind of panel: its size, what it costs, how many there are (None = as many as asked)."""

    size: Size
    cost: int = 1
    count: int | None = None


@dataclass(frozen=True)
class Cut:
    """One panel as it is cut: which kind, and each piece's kind and lower left corner."""

    sheet: int
    places: tuple[tuple[int, int, int], ...]


@dataclass(frozen=True)
class Packed:
    """The panels.

    Attributes
    ----------
    cuts : tuple of Cut
    cost : int
    proved : bool
        No cheaper way exists: every way was looked at.
    left : tuple of int
        Of each piece, how many no panel holds.
    """

    cuts: tuple[Cut, ...]
    cost: int
    proved: bool
    left: Counts = ()


def pack(sheets: Sequence[Sheet], pieces: Sequence[tuple[Size, int]], kerf: int = 0) -> Packed:
    """The cheapest panels that every piece can be cut from.

    Parameters
    ----------
    sheets : sequence of Sheet
        Offcuts at no cost first.
    pieces : sequence of (size, how many)
    kerf : int

    Returns
    -------
    Packed
        Ties: fewest panels in all.
    """
    sizes, wanted = [size for size, _ in pieces], tuple(many for _, many in pieces)
    sets = [sets_of(each.size, sizes, wanted, kerf) for each in sheets]
    fits = tuple(
        many if any(tuple(int(i == j) for j in range(len(sizes))) in each.builds for each in sets) else 0
        for i, many in enumerate(wanted)
    )
    left = tuple(a - b for a, b in zip(wanted, fits, strict=True))
    stock = tuple(sum(wanted) if each.count is None else min(each.count, sum(wanted)) for each in sheets)
    search = _Search(tuple(sheets), sets)
    answer = search.best(fits, stock)
    if answer is None:
        got, chosen = search.greedy(fits, stock)
        left = tuple(a + b for a, b in zip(left, got, strict=True))
        used = tuple(chosen)
    else:
        used = answer[2]
    cuts = tuple(Cut(kind, tuple(sorted(sets[kind].builds[counts][0].places(kerf)))) for kind, counts in used)
    proved = answer is not None and not search.stopped and not any(each.stopped for each in sets)
    return Packed(cuts, sum(sheets[cut.sheet].cost for cut in cuts), proved, left)


Best = tuple[int, int, tuple[tuple[int, Counts], ...]]


class _Search:
    """Every way to share the pieces out among panels, each rest looked at once."""

    def __init__(self, sheets: tuple[Sheet, ...], sets: list[Sets]) -> None:
        self.sheets, self.sets = sheets, sets
        self.known: dict[tuple[Counts, Counts], Best | None] = {}
        self.stopped = False

    def best(self, rest: Counts, stock: Counts) -> Best | None:
        """Least cost, panels, and the panels themselves; None where the stock does not do."""
        if not any(rest):
            return 0, 0, ()
        key = (rest, stock)
        if key in self.known:
            return self.known[key]
        if len(self.known) > MOST_SETS:
            self.stopped = True
            return None
        found: Best | None = None
        first = next(i for i, many in enumerate(rest) if many)
        for kind, sets in enumerate(self.sets):
            if not stock[kind]:
                continue
            less = (*stock[:kind], stock[kind] - 1, *stock[kind + 1 :])
            for counts in self._patterns(sets, rest, first):
                after = self.best(tuple(a - b for a, b in zip(rest, counts, strict=True)), less)
                if after is None:
                    continue
                made = (after[0] + self.sheets[kind].cost, after[1] + 1, ((kind, counts), *after[2]))
                if found is None or made[:2] < found[:2]:
                    found = made
        self.known[key] = found
        return found

    @staticmethod
    def _patterns(sets: Sets, rest: Counts, first: int) -> list[Counts]:
        """Sets within the rest that hold its first piece and to which nothing of the rest can be added."""
        within = [c for c in sets.builds if c[first] and all(a <= b for a, b in zip(c, rest, strict=True))]
        inside = set(within)
        return [
            c
            for c in within
            if not any(c[i] < rest[i] and (*c[:i], c[i] + 1, *c[i + 1 :]) in inside for i in range(len(rest)))
        ]

    def greedy(self, rest: Counts, stock: Counts) -> tuple[Counts, list[tuple[int, Counts]]]:
        """Where the search ended without an answer: the fullest panel first, as far as the stock goes."""
        used: list[tuple[int, Counts]] = []
        while any(rest):
            choice: tuple[int, int, Counts] | None = None
            for kind, sets in enumerate(self.sets):
                for counts in sets.builds if stock[kind] else ():
                    if all(a <= b for a, b in zip(counts, rest, strict=True)):
                        area = sum(n * w * h for n, (w, h) in zip(counts, sets.pieces, strict=True))
                        if choice is None or area > choice[0]:
                            choice = (area, kind, counts)
            if choice is None:
                break
            _, kind, counts = choice
            used.append((kind, counts))
            rest = tuple(a - b for a, b in zip(rest, counts, strict=True))
            stock = (*stock[:kind], stock[kind] - 1, *stock[kind + 1 :])
        return rest, used
