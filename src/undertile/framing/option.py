"""One stack of treatment on one member, what it costs, and the stretches of T that are spoken for.

Costs are whole numbers of a money that makes every price of the job whole; T and faces are whole numbers of a
unit that makes every length whole.
"""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections.abc import Iterable
from dataclasses import dataclass, field
from fractions import Fraction
from math import ceil, floor

from undertile.framing.problem import Prices
from undertile.framing.stacks import Pieces, StockBook

PLATE, SHORE, TAPER = 1, 2, 4
"""Charges paid once a wall, as bits: an option that needs one carries its bit."""

FAR = 1 << 60
Span = tuple[int, int]
"""T from and to. [units]"""
Limits = dict[int, tuple[int, int]]
"""Face limits by height index, low and high, in units (from straightedge rows).

At an index past the heights (heights + h) the low is for height h as it is when dry: less what it goes back.
"""


@dataclass(frozen=True, slots=True)
class Option:
    """One stack of treatment and the closed interval of T where it is possible.

    ``added`` is what it adds at each height, ``depth`` the most it may plane there; a face then lies
    anywhere on the planing steps between ``base - depth`` and ``base`` that the band allows. ``rides``: the
    face is the plane itself (sister, replace, channel). ``bedded``: above the flange zone it is brought to
    the plane where it lies low.
    """

    cost: int
    low: int
    high: int
    families: tuple[str, ...]
    passes: int
    added: tuple[int, ...]
    depth: tuple[int, ...]
    shim: bool
    need: int
    pieces: Pieces = ()
    taper: tuple[int, int] | None = None
    knock: Fraction | None = None
    rides: bool = False
    bedded: bool = False


def inward(limits: Limits) -> Limits:
    """Face limits rounded inward, for faces that lie on whole units: the same faces are left."""
    return {h: (ceil(low), floor(high)) for h, (low, high) in limits.items()}


Cut = tuple[int, int]
"""A way of planing: passes, and PLATE when the flange zone is planed too."""
BARE: Cut = (0, 0)
Level = tuple[int, str, int, Cut, int]
"""Least cost, kind, pieces, way of planing, charge bits."""
Draft = tuple[int, int, int, int, tuple[object, ...], dict[str, object]]
"""An option not yet made: cost, low, high, charge bits, the rest of its fields, extra fields by name."""


class Known:
    """What is listed in a stretch of T, as the stretches covered at each cost."""

    def __init__(self, entries: Iterable[tuple[int, int, int]]) -> None:
        self._items: list[tuple[int, int, int]] = sorted(entries)
        self._costs: list[int] = []
        self._covers: list[list[Span]] = []
        self._from(0)

    def _from(self, at: int) -> None:
        covered = self._covers[at - 1] if at else []
        del self._costs[at:], self._covers[at:]
        for cost, low, high in self._items[at:]:
            covered = cover(covered, low, high)
            self._costs.append(cost)
            self._covers.append(covered)

    def beats(self, cost: int, low: int, high: int) -> bool:
        """Whether something no dearer covers all of low..high."""
        at = bisect_right(self._costs, cost) - 1
        if at >= 0:
            for a, b in self._covers[at]:
                if a <= low and b >= high:
                    return True
        return False

    def add(self, cost: int, low: int, high: int) -> None:
        """Something more is listed."""
        item = (cost, low, high)
        at = bisect_right(self._items, item)
        self._items.insert(at, item)
        self._from(at)


def inside(covered: list[Span], low: int, high: int) -> bool:
    """Whether one stretch holds all of low..high."""
    at = bisect_left(covered, (low, FAR)) - 1
    return at >= 0 and covered[at][1] >= high


def cover(covered: list[Span], low: int, high: int) -> list[Span]:
    """The stretches with low..high added, joined where they touch; sorted."""
    out = []
    for a, b in covered:
        if b < low or a > high:
            out.append((a, b))
        else:
            low, high = min(a, low), max(b, high)
    out.append((low, high))
    out.sort()
    return out


def make(draft: Draft, book: StockBook) -> Option:
    """The option a draft stands for."""
    cost, low, high, _, fields, extra = draft
    if "heaps" in extra:
        extra = {"pieces": book.pieces(extra["heaps"])}  # type: ignore[arg-type]
    return Option(cost, low, high, *fields, **extra)  # type: ignore[arg-type]


@dataclass(frozen=True)
class Money:
    """Prices as whole numbers: cost = money * ``per_touch`` + members touched, so that ties count too."""

    prices: Prices
    scale: int
    per_touch: int
    _known: dict[tuple[Fraction, Fraction], int] = field(default_factory=dict, compare=False, repr=False)

    def of(self, minutes: Fraction, dollars: Fraction, touched: bool = True) -> int:
        """Whole-number cost of minutes and dollars."""
        return self.part(minutes, dollars) * self.per_touch + int(touched)

    def part(self, minutes: Fraction, dollars: Fraction) -> int:
        """Whole-number money alone, before the count of members touched."""
        key = (minutes, dollars)
        found = self._known.get(key)
        if found is None:
            exact = (minutes * self.prices.factor * self.prices.rate / 60 + dollars) * self.scale
            found = self._known[key] = int(exact)
        return found

    def dollars(self, cost: int) -> Fraction:
        """The dollars in a whole-number cost."""
        return Fraction(cost // self.per_touch, self.scale)
