"""``undertile cuts``: board by board, what is cut in which order, what is left; and what else is brought."""

from __future__ import annotations

from fractions import Fraction
from typing import TYPE_CHECKING

from rich.text import Text

from undertile.cli import page
from undertile.cli.answer import SETTLE_FIRST, Answer, ask, head, load
from undertile.cli.console import paper, working
from undertile.cli.figures import ORDER, WALLS, dollars, place
from undertile.cutting import Board, CutList, Line, StockCuts, Strip, cut_list
from undertile.cutting.lengths import STEP
from undertile.errors import PlanError
from undertile.framing.say import written as amount
from undertile.framing.words import stock_words
from undertile.lengths import Unit, format_length

if TYPE_CHECKING:
    from rich.console import Console

SOURCE = {"offcut": "offcut", "van": "van", "stock": "full", "shop": "to bring"}
LAYERS = ("", "", "2nd layer", "3rd layer")


def run(path: str, *, as_json: bool = False, unit: Unit | None = None) -> int:
    """The cut list of a job, as a page or as JSON."""
    with working("Planning and cutting"):
        answer = ask(load(path), unit)
        cuts, why = _cuts(answer)
    code = answer.code if cuts is not None else SETTLE_FIRST
    if as_json:
        from undertile.cli.as_json import plain, text

        body = {"cuts": plain(cuts, answer.unit), "unanswered": why or None}
        print(text({**head(answer, "cuts", code), **body}))
        return code
    console = paper()
    console.print(Text(answer.job.name or "A job without a name", style="bold"))
    if answer.suspects:
        page.say(
            console,
            "Readings are in doubt (undertile check names them): settle them before anything is cut.",
            indent=0,
        )
    if cuts is None:
        page.say(console, f"{why[:1].upper()}{why[1:]}.", indent=0)
    else:
        show(console, cuts)
    return code


def _cuts(answer: Answer) -> tuple[CutList | None, str]:
    try:
        return cut_list(answer.rebuild), ""
    except PlanError as error:
        return None, str(error)


def show(console: Console, cuts: CutList) -> None:
    """The page: boards of each stock, then the rest, then what was assumed."""
    page.heading(console, "What is cut from which board")
    if not cuts.stocks:
        page.say(console, "No strips in this plan: nothing is cut from the stock.")
    else:
        page.say(console, _how(cuts))
    for stock in cuts.stocks:
        _stock(console, stock, cuts.unit)
    if cuts.lines:
        page.heading(console, "Also to bring")
        rows = [
            [line.kind, _line_length(line, cuts.unit), str(line.count), _where(line)] for line in cuts.lines
        ]
        page.table(console, ["what", "length", "count", "where"], rows, right=[1, 2], firm=[0, 1])
        for note in dict.fromkeys(f"{line.kind}: {line.note}" for line in cuts.lines if line.note):
            page.hang(console, "-", f"{note}.", width=1)
    if cuts.findings:
        page.heading(console, "What this list takes for granted")
        page.findings(console, cuts.findings)


def _how(cuts: CutList) -> str:
    unit = cuts.unit
    words = (
        f"Cut in the order listed, the longest first. The saw takes {amount(cuts.kerf, unit, mark=True)} "
        f"a cut. Lengths are rounded down to {format_length(STEP[unit], unit, mark=True)}: no strip is "
        "longer than its place. Behind the stud stands the height where its lower end sits."
    )
    if cuts.square_end:
        words += f" Cut {amount(cuts.square_end, unit, mark=True)} off one end of a full length first."
    if any(cut.after_pan for board in cuts.boards for cut in board.cuts):
        words += " * goes on only after the pan is set."
    return words


def _stock(console: Console, stock: StockCuts, unit: Unit) -> None:
    console.print()
    words = stock_words(stock.stock, stock.thickness, unit)
    page.say(console, f"{words}: {_count(stock)}")
    rows = [
        [
            str(board.number),
            SOURCE[board.source],
            length(board.length, unit),
            _cut_words(board, unit),
            length(board.left, unit) if board.left >= STEP[unit] else "-",
        ]
        for board in stock.boards
    ]
    page.table(console, ["board", "from", "length", "cut", "left"], rows, right=[0, 2, 4], firm=[0, 1, 2, 4])


def _count(stock: StockCuts) -> str:
    if not stock.opened:
        return "offcuts do, no full length is opened."
    words = f"{stock.opened} full length{'s' if stock.opened > 1 else ''} opened"
    if stock.dollars is not None:
        words += f", {dollars(stock.dollars)}"
    if stock.proved:
        return f"{words}, proved least."
    least = str(stock.least) if stock.least_dollars is None else dollars(stock.least_dollars)
    return f"{words}, NOT proved least: it could be {least}, never less."


def _cut_words(board: Board, unit: Unit) -> str:
    return "; ".join(cut_words(cut, unit) for cut in board.cuts)


def cut_words(cut: Strip, unit: Unit) -> str:
    """``84-1/2" L2 at 10, 3rd layer *``."""
    words = f"{length(cut.length, unit)} {cut.stud} at {place(cut.low, unit)}"
    if cut.layer > 1:
        words += f", {LAYERS[min(cut.layer, 3)]}"
    if cut.parts > 1:
        words += f", part {cut.part} of {cut.parts}"
    return words + (" *" if cut.after_pan else "")


def length(value: Fraction, unit: Unit) -> str:
    """A length as cut or left over: rounded down, never more than there is."""
    return format_length(value, unit, mark=True, step=STEP[unit], rounding="down")


def _line_length(line: Line, unit: Unit) -> str:
    if line.kind == "board screw" and line.length is not None:
        return format_length(line.length, "in", mark=True)  # sold by the inch everywhere
    if line.length is None:
        return "-" if line.kind == "flange shim" else "measure"
    return length(line.length, unit)


def _where(line: Line) -> str:
    if line.kind == "channel row":
        return ", ".join(WALLS[wall] for wall in line.where)
    return ", ".join(sorted(line.where, key=lambda stud: (ORDER[stud[0]], len(stud), stud)))
