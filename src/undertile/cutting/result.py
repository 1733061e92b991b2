"""What is cut from which board: the cut list as results, board by board, in the order it is cut."""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from undertile.findings import Finding
from undertile.lengths import Unit

From = Literal["offcut", "van", "stock", "shop"]
"""An offcut on the van; a full length counted on the van; one nobody counted; one to bring."""
Kind = Literal["new stud", "sister", "taper", "channel row", "flange shim", "board screw"]


@dataclass(frozen=True)
class Strip:
    """One piece of strip as it is cut.

    Attributes
    ----------
    wall, stud, stock : str
    length : Fraction
        As cut: ``high - low`` rounded down to a sixteenth or a whole mm, never longer than its place. [in]
    low, high : Fraction
        Heights between which it may lie on the stud (``cutting.lengths``). [in]
    layer : int
        1 lies against the stud (or on planed wood), 2 on the first, 3 on the second.
    part, parts : int
        ``1, 1``; of a strip butted because no stock is as long, counted from the bottom.
    after_pan : bool
        Goes on only after the pan is set (convention 3.5).
    """

    wall: str
    stud: str
    stock: str
    length: Fraction
    low: Fraction
    high: Fraction
    layer: int = 1
    part: int = 1
    parts: int = 1
    after_pan: bool = False


@dataclass(frozen=True)
class Board:
    """One board taken in hand: what is cut from it in order, and what is left.

    Attributes
    ----------
    number : int
        From 1, through the whole list.
    stock : str
    source : str
        See :data:`From`.
    length : Fraction
        Before anything is cut. [in]
    square_end : Fraction
        Cut off one end first; 0 = nothing. [in]
    cuts : tuple of Strip
        Longest first.
    left : Fraction
        What is left after the last cut, 0 when the rest is no longer than a kerf. [in]
    """

    number: int
    stock: str
    source: From
    length: Fraction
    square_end: Fraction
    cuts: tuple[Strip, ...]
    left: Fraction


@dataclass(frozen=True)
class StockCuts:
    """One stock: its boards, and the proof that no fewer do.

    Attributes
    ----------
    stock : str
    thickness : Fraction
        Actual. [in]
    boards : tuple of Board
        Offcuts first.
    opened : int
        Full lengths opened.
    least : int or None
        The fewest that could do, proved; equal to ``opened`` when that is proved least. None where money
        decides.
    dollars, least_dollars : Fraction or None
        Of the full lengths opened, where lengths of different price are chosen among; else None.
    to_bring : int
        Full lengths opened beyond those counted on the van; 0 where nobody counted.
    longest_left : Fraction
        The longest piece left over of a full length. [in]
    proved : bool
        Whether nothing less does: dollars where lengths differ in price, else boards.
    proof : str
        Why no fewer do, in words; or by how much it may not be the least.
    """

    stock: str
    thickness: Fraction
    boards: tuple[Board, ...]
    opened: int
    least: int | None
    dollars: Fraction | None
    least_dollars: Fraction | None
    to_bring: int
    longest_left: Fraction
    proved: bool
    proof: str

    @property
    def strips(self) -> int:
        """Pieces cut from this stock."""
        return sum(len(board.cuts) for board in self.boards)


@dataclass(frozen=True)
class Line:
    """Something else to bring, counted by length: lumber, tapers, shims, screws.

    Attributes
    ----------
    kind : str
        See :data:`Kind`.
    length : Fraction or None
        As cut, or a screw's length; None where it has none or it could not be worked out. [in]
    count : int
    where : tuple of str
        Studs (a wall for channel).
    note : str
        Thickness of a taper, how screws are counted; ``""`` when there is nothing to add.
    """

    kind: Kind
    length: Fraction | None
    count: int
    where: tuple[str, ...]
    note: str = ""


@dataclass(frozen=True)
class CutList:
    """Everything that is cut, and what else is brought.

    Attributes
    ----------
    unit : {"in", "mm"}
    kerf, square_end : Fraction
        As used. [in]
    stocks : tuple of StockCuts
        Thin stock first; none where no strip is planned.
    lines : tuple of Line
    findings : tuple of Finding
        What was assumed, joined, or could not be worked out.
    """

    unit: Unit
    kerf: Fraction
    square_end: Fraction
    stocks: tuple[StockCuts, ...] = ()
    lines: tuple[Line, ...] = ()
    findings: tuple[Finding, ...] = ()

    @property
    def boards(self) -> tuple[Board, ...]:
        """Every board in the order of its number."""
        return tuple(board for stock in self.stocks for board in stock.boards)

    def strips(self, stud: str) -> tuple[Strip, ...]:
        """The strips of one stud as they go on: from the inmost layer out, each from the bottom."""
        found = [cut for board in self.boards for cut in board.cuts if cut.stud == stud]
        return tuple(sorted(found, key=lambda s: (s.layer, s.low, s.high, s.stock)))
