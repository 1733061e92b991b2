"""The parts every page is made of: headings, hanging paragraphs, tables without lines, findings."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import TYPE_CHECKING

from rich.padding import Padding
from rich.table import Table
from rich.text import Text

from undertile.findings import Check, Finding, Severity, Verdict
from undertile.sources import cite

if TYPE_CHECKING:
    from rich.console import Console

INDENT = 3
VERDICT = {Verdict.PASS: "pass", Verdict.FAIL: "FAIL", Verdict.NOT_SHOWN: "not shown"}
LOUD = {Verdict.PASS: "green", Verdict.FAIL: "bold red", Verdict.NOT_SHOWN: "yellow"}
SEVERITY = {Severity.STOP: "STOP", Severity.ACT: "to do", Severity.NOTE: "note"}
_HOWLOUD = {Severity.STOP: "bold red", Severity.ACT: "yellow", Severity.NOTE: ""}


def heading(console: Console, text: str) -> None:
    """A question the page answers, with a line of air above."""
    console.print()
    console.print(Text(text, style="bold"))


def say(console: Console, text: str, indent: int = INDENT) -> None:
    """A paragraph, wrapped and set in."""
    console.print(Padding(Text(text), (0, 0, 0, indent), expand=False))


def hang(
    console: Console, label: str, text: str, *, width: int, style: str = "", indent: int = INDENT
) -> None:
    """A label and a paragraph that hangs to the right of it."""
    grid = Table.grid(padding=(0, 1))
    grid.add_column(width=width, no_wrap=True)
    grid.add_column(overflow="fold")
    grid.add_row(Text(label, style=style), Text(text))
    console.print(Padding(grid, (0, 0, 0, indent), expand=False))


def table(
    console: Console,
    head: Sequence[str],
    rows: Iterable[Sequence[str | Text]],
    *,
    right: Iterable[int] = (),
    firm: Iterable[int] = (),
    indent: int = INDENT,
) -> None:
    """A table without lines; ``right`` columns are set to the right, ``firm`` ones never broken."""
    made = Table(box=None, pad_edge=False, padding=(0, 2, 0, 0), show_edge=False, header_style="underline")
    right, firm = set(right), set(firm)
    for at, name in enumerate(head):
        made.add_column(name, justify="right" if at in right else "left", no_wrap=at in firm, overflow="fold")
    for row in rows:
        made.add_row(*[cell if isinstance(cell, Text) else Text(cell) for cell in row])
    console.print(Padding(made, (0, 0, 0, indent), expand=False))


def verdict(check: Check) -> Text:
    """The verdict as a word; "close" where the value is within its uncertainty of the limit."""
    word = VERDICT[check.verdict]
    return Text(f"{word}, close" if check.within_uncertainty else word, style=LOUD[check.verdict])


def cited(key: str) -> str:
    """A source beside a figure; a default of our own in few words."""
    if key.startswith("convention-"):
        return f"docs/convention.md {key.removeprefix('convention-')}, our default"
    return cite(key)


def finding(console: Console, each: Finding, *, source: bool = False) -> None:
    """One finding: how grave, where, what is, what should be, what to do."""
    text = f"{each.where}: {_stop(each.found)} Expected: {_stop(each.expected)} {_stop(each.next_step)}"
    if source:
        text += f" [{cited(each.source)}]"
    hang(console, SEVERITY[each.severity], text, width=5, style=_HOWLOUD[each.severity])


def _stop(text: str) -> str:
    """A text with the full stop it lacks."""
    return text if text.endswith((".", "?", "!")) else f"{text}."


def findings(console: Console, every: Iterable[Finding], *, source: bool = False) -> None:
    """Findings, the gravest first; each only once."""
    order = list(Severity)
    seen: set[tuple[str, str, str]] = set()
    for each in sorted(every, key=lambda one: order.index(one.severity)):
        key = (each.code, each.where, each.found)
        if key not in seen:
            seen.add(key)
            finding(console, each, source=source)
