"""One stock of the van: its boards in whole units with the saw in them, and its pieces cut from them."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from math import lcm

from undertile.cutting.packing import BoardKind, Load, Need, Packing, used
from undertile.cutting.result import Board, From, StockCuts, Strip
from undertile.cutting.solve import keep_longest, pack
from undertile.framing.facts import Stock
from undertile.framing.prices import usable
from undertile.lengths import format_both

LENGTH = Fraction(96)
CARD_LENGTH = Fraction(45)
"""Full lengths where the job does not say: 8 ft; loose card 45 (key stock-length). [in]"""
LONGEST = Fraction(600)
"""No board of a shower is longer than 50 ft; a longer one is a slip. [in]"""


@dataclass(frozen=True)
class Full:
    """One full length of a stock. ``on_van`` None = not counted; ``price`` in dollars, 0 = not said."""

    length: Fraction
    price: Fraction
    on_van: int | None


@dataclass(frozen=True)
class OnVan:
    """One stock as it can be cut from. Lengths in inches.

    Attributes
    ----------
    name : str
    thickness : Fraction
    fulls : tuple of Full
        The stock's own length first.
    offcuts : tuple of Fraction
        The longest first.
    kerf, square_end : Fraction
    assumed : bool
        Whether the full length is the default.
    """

    name: str
    thickness: Fraction
    fulls: tuple[Full, ...]
    offcuts: tuple[Fraction, ...]
    kerf: Fraction
    square_end: Fraction
    assumed: bool

    @property
    def longest(self) -> Fraction:
        """The longest piece a full length gives. [in]"""
        return max(full.length for full in self.fulls) - self.square_end

    @property
    def by_price(self) -> bool:
        """Whether full lengths are chosen among by their price: all have one, and not all the same."""
        prices = {full.price for full in self.fulls}
        return len(prices) > 1 and 0 not in prices


def on_van(
    name: str, stock: Stock, kerf: Fraction, square_end: Fraction
) -> tuple[OnVan | None, tuple[str, ...]]:
    """A stock from the facts.

    Parameters
    ----------
    name : str
    stock : Stock
    kerf, square_end : Fraction
        Of the saw. [in]

    Returns
    -------
    stock : OnVan or None
        None when there is a problem.
    problems : tuple of str
        One line for each length or price that cannot be used.
    """
    default = CARD_LENGTH if stock.card else LENGTH
    own = default if stock.length is None else stock.length.inches
    fulls = [Full(own, Fraction(stock.price), stock.on_van)]
    named = [("length", own)]
    problems = []
    for other, sold in stock.other_lengths.items():
        price = stock.price if sold.price is None else sold.price
        if not usable(price):
            problems.append(
                f"framing.stock.{name}.other_lengths.{other}.price cannot be used; expected dollars and cents"
            )
            continue
        fulls.append(Full(sold.length.inches, Fraction(price), sold.on_van))
        named.append((f"other_lengths.{other}.length", sold.length.inches))
    for where, length in named:
        if not square_end < length <= LONGEST:
            problems.append(
                f"framing.stock.{name}.{where} is {format_both(length)}; expected a full length, more "
                f"than the {format_both(square_end)} cut off to square it, {format_both(LONGEST)} at most"
            )
    for offcut in stock.offcuts:
        if not 0 < offcut.inches <= LONGEST:
            problems.append(
                f"framing.stock.{name}.offcuts has {format_both(offcut.inches)}; expected lengths over 0, "
                f"{format_both(LONGEST)} at most"
            )
    if problems:
        return None, tuple(problems)
    offcuts = tuple(sorted((each.inches for each in stock.offcuts), reverse=True))
    return OnVan(
        name, stock.thickness.inches, tuple(fulls), offcuts, kerf, square_end, stock.length is None
    ), ()


def cut_stock(stock: OnVan, strips: Sequence[Strip], start: int) -> StockCuts:
    """Every strip of one stock cut from its boards: the fewest opened, then the longest piece left over.

    Parameters
    ----------
    stock : OnVan
    strips : sequence of Strip
        In any order, each no longer than ``stock.longest``.
    start : int
        Number of the first board.

    Returns
    -------
    StockCuts
    """
    unit = lcm(
        *(
            value.denominator
            for value in (
                stock.kerf,
                stock.square_end,
                *(full.length for full in stock.fulls),
                *stock.offcuts,
                *(strip.length for strip in strips),
            )
        )
    )
    # a piece takes its kerf with it, and the board gets one back: the last piece needs no cut behind it
    fulls = [int((full.length - stock.square_end + stock.kerf) * unit) for full in stock.fulls]
    cents = lcm(*(full.price.denominator for full in stock.fulls))
    # dollars first, then boards: no more boards than strips are ever opened
    costs = [int(full.price * cents) * (len(strips) + 1) + 1 if stock.by_price else 1 for full in stock.fulls]
    pieces = [int((strip.length + stock.kerf) * unit) for strip in strips]
    free = sorted(set(stock.offcuts))
    kinds = [BoardKind(size, cost) for size, cost in zip(fulls, costs, strict=True)]
    kinds += [BoardKind(int((each + stock.kerf) * unit), 0, stock.offcuts.count(each)) for each in free]
    found = pack(kinds, pieces)
    found, sure = keep_longest(kinds, pieces, found)
    need = Need.of(kinds, pieces)
    placed = _placed(stock, found.loads, need)
    boards = _boards(stock, strips, placed, need, free, unit, start)
    full_boards = [board for board in boards if board.source != "offcut"]
    opened, dollars, least, least_dollars = _figures(stock, found, placed, len(strips), cents)
    # of lists at one price the fewest boards are looked for, but money alone is what is proved
    proved = opened == least if dollars is None else dollars == least_dollars
    longest = max((board.left for board in full_boards), default=Fraction(0))
    return StockCuts(
        stock.name,
        stock.thickness,
        boards,
        opened,
        least,
        dollars,
        least_dollars,
        sum(board.source == "shop" for board in boards),
        longest,
        proved,
        _proof(stock, found, need, proved, sure and bool(full_boards)),
    )


Placed = tuple[Load, int, From]
"""A load, its kind after swapping, and where the board comes from."""


def _placed(stock: OnVan, loads: Sequence[Load], need: Need) -> list[Placed]:
    """Each board from where it is: of lengths that cost the same, one that is on the van already."""
    there = {k: full.on_van for k, full in enumerate(stock.fulls)}
    out: list[Placed] = []
    for load in sorted(loads, key=lambda each: (-used(each, need), each.kind, each.taken)):
        if load.kind >= len(stock.fulls):
            out.append((load, load.kind, "offcut"))
            continue
        cost, length = need.kinds[load.kind].cost, used(load, need)
        same = [
            k
            for k in range(len(stock.fulls))
            if need.kinds[k].cost == cost and need.kinds[k].size >= length and there[k] != 0
        ]
        if not same:
            out.append((load, load.kind, "shop"))
            continue
        # on the van and counted before not counted; then the kind the load was cut for; then the shortest
        best = min(same, key=lambda k: (there[k] is None, k != load.kind, need.kinds[k].size, k))
        count = there[best]
        if count is not None:
            there[best] = count - 1
        out.append((load, best, "stock" if count is None else "van"))
    return sorted(out, key=lambda each: (each[2] != "offcut", -used(each[0], need), each[1], each[0].taken))


def _boards(
    stock: OnVan,
    strips: Sequence[Strip],
    placed: Sequence[Placed],
    need: Need,
    free: Sequence[Fraction],
    unit: int,
    start: int,
) -> tuple[Board, ...]:
    """Boards with the strips on them, each strip once."""
    waiting: dict[int, list[Strip]] = {size: [] for size in need.sizes}
    for strip in sorted(strips, key=_order):
        waiting[int((strip.length + stock.kerf) * unit)].append(strip)
    boards = []
    for number, (load, kind, source) in enumerate(placed, start):
        cuts = tuple(
            waiting[size].pop(0)
            for size, much in zip(need.sizes, load.taken, strict=True)
            for _ in range(much)
        )
        whole = source != "offcut"
        length = stock.fulls[kind].length if whole else free[kind - len(stock.fulls)]
        square = stock.square_end if whole else Fraction(0)
        left = length - square - sum((cut.length + stock.kerf for cut in cuts), Fraction(0))
        boards.append(Board(number, stock.name, source, length, square, cuts, max(left, Fraction(0))))
    return tuple(boards)


def _order(strip: Strip) -> tuple[str, int, str, int, Fraction, int]:
    """Strips of one length in the order of the room: wall, stud, layer, height."""
    digits = "".join(c for c in strip.stud if c.isdigit())
    return strip.wall, int(digits or 0), strip.stud, strip.layer, strip.low, strip.part


def _figures(
    stock: OnVan, found: Packing, placed: Sequence[Placed], strips: int, cents: int
) -> tuple[int, Fraction | None, int | None, Fraction | None]:
    """Boards opened, their dollars, and the least of both."""
    kinds = [kind for _, kind, source in placed if source != "offcut"]
    opened = len(kinds)
    if not stock.by_price:
        return opened, None, found.least, None
    dollars = sum((stock.fulls[kind].price for kind in kinds), Fraction(0))
    return opened, dollars, None, Fraction(found.least // (strips + 1), cents)


def _proof(stock: OnVan, found: Packing, need: Need, proved: bool, sure: bool) -> str:
    """Why no fewer do, in a sentence a person can check."""
    what = "cheaper cut list" if stock.by_price else "cut list with fewer boards"
    if found.cost == 0:
        return "Offcuts do: no full length is opened."
    if not proved:
        return f"NOT proved least: the search for a {what} was given up after {found.nodes} boards tried."
    tie = " No other of as many leaves a longer piece." if sure and not stock.by_price else ""
    if found.searched:
        return f"Proved least: every {what} was gone through, and there is none.{tie}"
    if found.witness.weights == need.sizes:
        return f"Proved least: there is no {what}, by length and kerf alone.{tie}"
    return f"Proved least: there is no {what}, by what any board can hold of these lengths together.{tie}"
