"""What the cut list assumes, joins or cannot say, as findings."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from fractions import Fraction

from undertile.cutting.boards import OnVan
from undertile.cutting.lengths import Reach
from undertile.cutting.result import Line, StockCuts, Strip
from undertile.findings import Finding, Severity
from undertile.framing.plan import FramingPlan, Piece
from undertile.framing.say import place, said
from undertile.lengths import Unit
from undertile.sentence import Sentence


def findings_of(
    cut: Sequence[StockCuts],
    stocks: Mapping[str, OnVan],
    plan: FramingPlan,
    reaches: Mapping[str, Reach],
    lines: Sequence[Line],
    without: Sequence[tuple[str, Piece]],
    no_board: bool,
    unit: Unit,
) -> tuple[Finding, ...]:
    """Every finding of the list.

    Parameters
    ----------
    cut : sequence of StockCuts
    stocks : mapping of name to OnVan
    plan : FramingPlan
    reaches : mapping of wall to Reach
    lines : sequence of Line
    without : sequence of (stud, Piece)
        Strips there is no room for.
    no_board : bool
        Whether the board's thickness is not known.
    unit : {"in", "mm"}
    """
    return (
        *_without(without, unit),
        *_tops(cut, plan, reaches, lines, unit),
        *_stock(cut, stocks),
        *_assumed(cut, stocks, unit),
        *_joined(cut, stocks, unit),
        *_screws(no_board),
    )


def _without(without: Sequence[tuple[str, Piece]], unit: Unit) -> Iterator[Finding]:
    for stud, piece in without:
        yield Finding(
            "strip-without-room",
            Severity.ACT,
            stud,
            Sentence("room for a strip of {stock} between the heights and plates known", stock=piece.stock),
            "there is none, so it is not on the list",
            f"Read {stud} at a second height, measure the top plate, and cut this strip to its place.",
            "strip-place",
        )


def _tops(
    cut: Sequence[StockCuts],
    plan: FramingPlan,
    reaches: Mapping[str, Reach],
    lines: Sequence[Line],
    unit: Unit,
) -> Iterator[Finding]:
    """Walls whose top plate was not measured and something is cut that reaches up to it."""
    wall_of = {member.name: member.wall for member in plan.members}
    high = {
        strip.wall
        for stock in cut
        for board in stock.boards
        for strip in board.cuts
        if strip.high == reaches[strip.wall].end
    }
    high |= {
        wall_of[stud] for line in lines if line.kind in ("new stud", "sister", "taper") for stud in line.where
    }
    for wall in sorted(high):
        if reaches[wall].top is None:
            yield Finding(
                "top-not-measured",
                Severity.ACT,
                f"wall {wall}",
                Sentence("the height of the top plate's underside"),
                f"not measured: strips end at {said(reaches[wall].end, unit)}, the highest height read, and "
                "lumber has no length",
                f"Measure the underside of the top plate of wall {wall} before cutting to length.",
                "strip-place",
            )


def _assumed(cut: Sequence[StockCuts], stocks: Mapping[str, OnVan], unit: Unit) -> Iterator[Finding]:
    """One line for every stock taken at the same length."""
    taken: dict[Fraction, list[str]] = {}
    for each in cut:
        if stocks[each.stock].assumed:
            taken.setdefault(stocks[each.stock].fulls[0].length, []).append(each.stock)
    for length, names in sorted(taken.items()):
        yield Finding(
            "stock-length-not-said",
            Severity.NOTE,
            ", ".join(names),
            Sentence("the full length it is cut from"),
            f"not said; taken as {said(length, unit)}",
            "Measure one, and put its length in the job.",
            "stock-length",
        )


def _stock(cut: Sequence[StockCuts], stocks: Mapping[str, OnVan]) -> Iterator[Finding]:
    for each in cut:
        stock = stocks[each.stock]
        prices = {full.price for full in stock.fulls}
        if len(prices) > 1 and 0 in prices:
            yield Finding(
                "stock-price-not-said",
                Severity.NOTE,
                each.stock,
                Sentence("a price for each length it is sold in"),
                "one has none, so boards are counted and not dollars",
                "Put the price of each length in the job.",
                "stock-length",
            )
        if each.to_bring:
            yield Finding(
                "stock-to-bring",
                Severity.ACT,
                each.stock,
                Sentence("{opened} full lengths", opened=each.opened),
                f"{each.opened - each.to_bring} on the van",
                f"Bring {each.to_bring} more.",
                "stock-length",
            )


def _joined(cut: Sequence[StockCuts], stocks: Mapping[str, OnVan], unit: Unit) -> Iterator[Finding]:
    for each in cut:
        parts = [strip for board in each.boards for strip in board.cuts if strip.parts > 1]
        if not parts:
            continue
        ends: dict[tuple[str, int], list[Strip]] = {}
        for strip in parts:
            ends.setdefault((strip.stud, strip.layer), []).append(strip)
        where = ", ".join(
            f"{stud} at {' and '.join(place(s.high, unit) for s in sorted(run, key=lambda s: s.low)[:-1])}"
            for (stud, _), run in sorted(ends.items())
        )
        yield Finding(
            "strip-joined",
            Severity.NOTE,
            each.stock,
            Sentence(
                "strips no longer than {longest}, its longest length",
                longest=said(stocks[each.stock].longest, unit, "down"),
            ),
            f"longer ones are butted: {where}",
            "Butt the parts tight, or put a longer length of it in the job.",
            "strip-place",
        )


def _screws(no_board: bool) -> Iterator[Finding]:
    if no_board:
        yield Finding(
            "screws-not-counted",
            Severity.NOTE,
            "board",
            Sentence("the thickness of the board"),
            "it is not given, so screws are not listed",
            "Measure the board.",
            "practice-screw",
        )
