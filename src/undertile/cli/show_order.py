"""The order of work: what is done first, what waits until the pan is set."""

from __future__ import annotations

from typing import TYPE_CHECKING

from undertile.cli import page
from undertile.cli.answer import Answer

if TYPE_CHECKING:
    from rich.console import Console


def show(console: Console, answer: Answer) -> None:
    """The steps, numbered."""
    if not answer.steps:
        return
    page.heading(console, "Order of work")
    for number, step in enumerate(answer.steps, 1):
        page.hang(console, str(number), step.text, width=2)
