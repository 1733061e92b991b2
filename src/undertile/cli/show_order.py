"""The order of work: what is done first, what waits until the pan is set."""

from __future__ import annotations

from typing import TYPE_CHECKING

from undertile.cli import page
from undertile.cli.answer import Answer
from undertile.cli.recipe import sentence

if TYPE_CHECKING:
    from rich.console import Console

_BEFORE = {
    "replace": "Replace",
    "plane": "Plane",
    "knock over": "Knock over the foot of",
    "sister": "Sister",
    "build out": "Strips and tapers, from the bottom up:",
    "wet bed": "Wet beds, one board at a time:",
}
"""What is done before the pan goes in, in this order."""
_VERIFY = "Verify with straightedge and laser, and read again what was touched: wall"


def order(answer: Answer) -> list[str]:
    """The work in order, a line each; what is done to each stud stands in its wall's table."""
    lines = answer.order
    steps = [sentence(line.text) for line in lines if line.stage == "first"]
    for stage, words in _BEFORE.items():
        walls = [line for line in lines if line.stage == stage and not line.stud]
        steps += [sentence(line.text) for line in walls if stage == "replace"]
        studs = dict.fromkeys(line.stud for line in lines if line.stage == stage and line.stud)
        if studs:
            steps.append(f"{words} {', '.join(studs)}.")
        steps += [sentence(line.text) for line in walls if stage != "replace"]
    pan = list(getattr(answer.rebuild.results.get("pan"), "order_of_work", ()))
    steps += pan or [sentence(line.text) for line in lines if line.stage in ("pan", "after pan")]
    verify = [line.wall for line in lines if line.stage == "verify"]
    if verify:
        steps.append(f"{_VERIFY}{'s' if len(verify) > 1 else ''} {', '.join(verify)}.")
    return steps


def show(console: Console, answer: Answer) -> None:
    """The steps, numbered."""
    steps = order(answer)
    if not steps:
        return
    page.heading(console, "Order of work")
    for number, step in enumerate(steps, 1):
        page.hang(console, str(number), step, width=2)
