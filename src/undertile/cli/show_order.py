"""The order of work: what is done first, what waits until the pan is set."""

from __future__ import annotations

from typing import TYPE_CHECKING

from undertile.cli import page
from undertile.cli.answer import Answer
from undertile.packet.cover import COVERS, cover_line
from undertile.packet.words import Words

if TYPE_CHECKING:
    from rich.console import Console


def show(console: Console, answer: Answer) -> None:
    """The steps, numbered."""
    if not answer.steps:
        return
    page.heading(console, "Order of work")
    water = answer.rebuild.results.get("wood")
    covering = cover_line(water, Words("en"))
    for number, step in enumerate(answer.steps, 1):
        if covering and step.kind in COVERS:
            page.hang(console, "", covering, width=2)
            covering = ""
        page.hang(console, str(number), step.text, width=2)
