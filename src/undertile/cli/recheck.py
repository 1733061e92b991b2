"""``recheck``: the walls read again after the work: verdicts, what shows the rest, what is left, proof."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date as today
from typing import TYPE_CHECKING, Any, Literal

from undertile.cli.answer import NOTHING, SETTLE_FIRST, Answer, ask, head, load
from undertile.cli.console import paper, working
from undertile.findings import Verdict
from undertile.lengths import Unit
from undertile.recheck.result import RecheckResult

if TYPE_CHECKING:
    from rich.console import Console


@dataclass(frozen=True)
class Page:
    """The proof as a file: ``pdf`` "" = none."""

    pdf: str = ""
    paper: Literal["letter", "a4"] = "letter"
    language: Literal["en", "es"] = "en"
    date: str = ""


def run(
    path: str,
    *,
    as_json: bool = False,
    unit: Unit | None = None,
    what_if: Sequence[str] = (),
    page: Page = Page(),
) -> int:
    """Judge a job's walls as read again.

    Exit code 1 where something fails, is in doubt or stops work; *not shown* does not change it.
    """
    job = load(path)
    if what_if:
        from undertile.cli.what_if import as_if

        job = as_if(job, what_if)
    with working("Planning, then judging what was read again"):
        answer = ask(job, unit)
    found = answer.recheck
    code = code_of(found)
    if page.pdf:
        _write(answer, page, quiet=as_json)
    if as_json:
        from undertile.cli.as_json import plain, text

        print(text({**head(answer, "recheck", code), "as_if": list(what_if), **plain(found, answer.unit)}))
        return code
    console = paper()
    _show(console, answer, found)
    return code


def _write(answer: Answer, page: Page, *, quiet: bool) -> None:
    from undertile.cli.files import write_safely
    from undertile.packet.proof import proof_pdf, proof_sheet

    date = page.date or today.today().isoformat()
    sheet = proof_sheet(answer.rebuild, date=date, language=page.language, paper=page.paper)
    write_safely(page.pdf, proof_pdf(sheet))
    if not quiet:
        print(f"Proof written to {page.pdf}.")


def code_of(found: RecheckResult) -> int:
    """1 where something must be settled before the board goes on."""
    stops = any(each.severity.value == "stop" for each in found.findings)
    bad = found.state == "no plan" or found.verdict is Verdict.FAIL or bool(found.doubts) or stops
    return SETTLE_FIRST if bad else NOTHING


def _show(console: Console, answer: Answer, found: RecheckResult) -> None:
    from rich.text import Text

    from undertile.cli import show_recheck

    console.print(Text(answer.job.name or "A job without a name", style="bold"))
    if answer.job.place:
        console.print(Text(answer.job.place))
    parts: Any = show_recheck
    if found.state == "no plan":
        parts.no_plan(console, found)
        return
    parts.to_read(console, found, answer.unit)
    if found.state == "not begun":
        return
    parts.which_number(console, found)
    parts.walls(console, found, answer.unit)
    parts.pan(console, found)
    parts.to_show(console, found)
    parts.what_is_left(console, found, answer.unit)
    parts.proof(console, found, answer.unit)
