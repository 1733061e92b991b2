"""Everything one member may carry, as it is listed: kept for the next search that asks the same.

A listing is a function of facts alone. What a search has come to list of a cell is a *state*: from one state
the next follows by the level that is listed, whoever asks. So searches share listings, each goes from the
first states on its own way (``tables.Table``), and what was listed before, or how often, changes no answer.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from contextlib import contextmanager
from contextvars import ContextVar
from dataclasses import fields
from fractions import Fraction
from functools import lru_cache

from undertile.framing.option import (
    FAR,
    Draft,
    Known,
    Level,
    Limits,
    Option,
    Span,
    cover,
    inside,
    make,
)
from undertile.framing.options import Options
from undertile.framing.problem import FramingProblem, Member, WallProblem

Entry = tuple[int, float, float, Option, int]
LimitKey = tuple[tuple[int, Fraction | int, Fraction | int], ...]
KEPT = 200
"""Listings kept, the last asked for: two rooms of 13 studs (90 each); of memory some 16 MB."""


class Cell:
    """A stretch of T on one listing in one state: what is listed, and the levels that are not.

    ``after`` holds the states that follow, by the place of the level listed next.
    """

    __slots__ = ("after", "entries", "later", "under")

    def __init__(self, entries: list[Entry], later: list[Level]) -> None:
        self.entries = entries
        self.later = later
        self.after: dict[int, Cell] = {}
        self.under: dict[int, tuple[list[Entry], int]] = {}

    def listed(self, mask: int) -> tuple[list[Entry], int]:
        """What is listed under the charges ``mask``, and the least that what is not could cost."""
        free = ~mask
        least = next((level[0] for level in self.later if not level[4] & free), FAR)
        found = self.under[mask] = [e for e in self.entries if not e[4] & free], least
        return found


class Listing:
    """The stacks of one member that are cheapest for some T, whatever once-a-wall charges are paid.

    Attributes
    ----------
    entries : list of (cost, low, high, Option, charge bits)
        By rising cost, over the whole range of T.
    least : int
        What a stack that is not among them could cost at least.
    homes : dict of int to int
        The cell of each stack that a cell holds, by its id.
    """

    def __init__(self, shape: Options, masks: Sequence[int], limits: LimitKey = ()) -> None:
        self.shape = shape
        self.masks = masks
        self.limits: Limits = {h: (low, high) for h, low, high in limits}  # type: ignore[misc]
        self.cell = shape.unit // 8
        self.origin, self.end = shape.t_range
        self.homes: dict[int, int] = {}
        self._first: dict[int, Cell] = {}
        self._under: dict[int, list[Entry]] = {}
        self.entries = self._paint([], shape.simple(self.limits), shape.t_range)
        whole = shape.levels(shape.t_range)
        self.least = whole[0][0] if whole else FAR

    def under(self, mask: int) -> list[Entry]:
        """Of ``entries`` those under the charges ``mask``."""
        found = self._under.get(mask)
        if found is None:
            found = self._under[mask] = [e for e in self.entries if not e[4] & ~mask]
        return found

    def _paint(self, known: list[Entry], drafts: Iterable[Draft], span: Span) -> list[Entry]:
        """Keep what is cheapest somewhere in ``span`` (floats hold whole numbers below 2**53 exactly)."""
        first, last = span
        every: list[tuple[int, int, int, int, int, Draft | None, Option | None]] = [
            (o.cost, o.low - o.high, o.low, o.high, o.need, None, o)
            for _, _, _, o, _ in known
            if o.low <= last and o.high >= first
        ]
        every += [(d[0], d[1] - d[2], d[1], d[2], d[3], d, None) for d in drafts]
        every.sort(key=_rank)
        needs = {item[4] for item in every}
        covered: dict[int, list[Span]] = {mask: [] for mask in self.masks if not mask or mask in needs}
        kept: list[Entry] = []
        for cost, _, low, high, need, draft, option in every:
            low_in, high_in = max(low, first), min(high, last)
            if low_in > high_in or need not in covered or inside(covered[need], low_in, high_in):
                continue
            if option is None:
                assert draft is not None
                option = make(draft, self.shape.book)
                if not self._fixed_straight(option):
                    continue
            kept.append((cost, float(low), float(high), option, need))
            for mask in covered:
                if not need & ~mask:
                    covered[mask] = cover(covered[mask], low_in, high_in)
            if covered[0] == [span]:
                break
        return kept

    def first(self, index: int) -> Cell:
        """A cell with nothing listed in it."""
        found = self._first.get(index)
        if found is None:
            span = self._span(index)
            caps: dict[int, int] = {}

            def cap(bits: int) -> int:
                if bits not in caps:
                    caps[bits] = _cap(self.entries, span, bits)
                return caps[bits]

            found = self._first[index] = Cell([], self.shape.levels(span, cap))
        return found

    def after(self, index: int, cell: Cell, at: int) -> Cell:
        """The cell with one more of its levels listed, by its place in ``later``."""
        found = cell.after.get(at)
        if found is None:
            found = cell.after[at] = self._list(index, cell, at)
        return found

    def _list(self, index: int, cell: Cell, at: int) -> Cell:
        _, kind, count, cut, bits = cell.later[at]
        span = self._span(index)
        known = sorted([*self.entries, *cell.entries], key=lambda e: e[0])
        if kind == "tapers":
            drafts = list(self.shape.tapers(cut, self.limits, span))
        else:
            listed = [
                (c, max(int(a), span[0]), min(int(b), span[1]))
                for c, a, b, _, need in known
                if not need & ~bits and a <= span[1] and b >= span[0]
            ]
            drafts = self.shape.strips(count, cut, self.limits, span, Known(listed))
        old = {id(e[3]) for e in self.entries}
        every = self._paint(known, drafts, span)
        entries = [e for e in every if id(e[3]) not in old]
        # a state holds the one before it through ``after``, so no id here ever stands for two stacks
        self.homes.update((id(e[3]), index) for e in entries)
        later = [*cell.later[:at], *cell.later[at + 1 :]]
        caps = {bits: _cap(every, span, bits) for bits in {level[4] for level in later}}
        return Cell(entries, [level for level in later if level[0] < caps[level[4]]])

    def _span(self, index: int) -> Span:
        return self.origin + index * self.cell, self.origin + (index + 1) * self.cell

    def _fixed_straight(self, option: Option) -> bool:
        if option.rides or option.bedded or any(option.depth):
            return True
        return self.shape.straight([f + s for f, s in zip(self.shape.faces, option.added, strict=True)])


def _rank(item: tuple[int, int, int, int, int, Draft | None, Option | None]) -> tuple[int, int]:
    return item[0], item[1]


def _cap(entries: Iterable[Entry], span: Span, bits: int) -> int:
    """What the whole stretch costs at most under the charges ``bits``."""
    covered: list[Span] = []
    for cost, low, high, _, need in entries:
        if need & ~bits:
            continue
        low_in, high_in = max(int(low), span[0]), min(int(high), span[1])
        if low_in <= high_in:
            covered = cover(covered, low_in, high_in)
            if covered == [span]:
                return cost
    return FAR


class Asked:
    """What a listing is asked for: equal when all it depends on is equal.

    Two of a member's facts say nothing of its listing: its name, and where along the wall it stands; ``why``
    is words. Its offsets are in ``shape.faces``, with the lean and the step of its wall.
    """

    __slots__ = ("_key", "limits", "masks", "shape")

    def __init__(self, facts: object, shape: Options, masks: tuple[int, ...], limits: LimitKey) -> None:
        self.shape, self.masks, self.limits = shape, masks, limits
        self._key = (facts, shape.faces, shape.t_range, masks, limits)

    def __hash__(self) -> int:
        return hash(self._key)

    def __eq__(self, other: object) -> bool:
        return isinstance(other, Asked) and self._key == other._key


ASIDE = frozenset({"name", "along", "offsets", "why"})
"""Facts of a member that its listing does not depend on, but for its offsets: see ``Asked``."""
_HELD = tuple(each.name for each in fields(Member) if each.name not in ASIDE)


def facts_of(
    problem: FramingProblem,
    wall: WallProblem,
    member: Member,
    knock: tuple[Fraction, ...] | None,
    whole: tuple[int, int, int],
) -> object:
    """Something that stands for all else a member's listings depend on: the same while the facts are.

    Parameters
    ----------
    problem, wall, member
    knock : tuple of Fraction, optional
        What knocking over moves at each height, as a share.
    whole : (int, int, int)
        The job's unit, the scale of its money, and what one touch less is worth.
    """
    held = tuple([getattr(member, name) for name in _HELD])
    room = problem.prices, problem.stock, problem.flatness, wall.heights, wall.flange
    return _token((room, knock, whole, held))


@lru_cache(maxsize=256)
def _token(facts: tuple[object, ...]) -> object:
    """One object for equal facts: they are many fractions to hash and compare each time."""
    return object()


@lru_cache(maxsize=KEPT)
def _kept(asked: Asked) -> Listing:
    return Listing(asked.shape, asked.masks, asked.limits)


_aside: ContextVar[dict[Asked, Listing] | None] = ContextVar("_aside", default=None)


@contextmanager
def aside() -> Iterator[None]:
    """What is listed meanwhile is kept no longer, and nothing that is kept makes room for it.

    For a question nobody asks twice: the rooms of the plans that lose have some 230 listings of their own,
    which would push out all that the next plan of the room begins from.
    """
    before = _aside.set({})
    try:
        yield
    finally:
        _aside.reset(before)


def listing_of(asked: Asked) -> Listing:
    """The listing that is asked for: kept, or made."""
    here = _aside.get()
    if here is None:
        return _kept(asked)
    found = here.get(asked)
    if found is None:
        found = here[asked] = Listing(asked.shape, asked.masks, asked.limits)
    return found


def how_kept() -> tuple[int, int, int]:
    """How many were found kept, how many were made to be kept, how many are kept now."""
    told = _kept.cache_info()
    return told.hits, told.misses, told.currsize


def forget_listings() -> None:
    """Keep nothing (for measuring a search that starts from nothing)."""
    _kept.cache_clear()
    _token.cache_clear()
