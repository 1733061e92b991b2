"""The end of ``water``: whether anything may be covered; what is missing, why, and what to do about it.

What lacks the same and asks the same stands in one line, each place by its name: sixteen places that were
read too long ago are one thing to do.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import TYPE_CHECKING

from undertile.cli import page
from undertile.wood.gate import Gate, Missing

if TYPE_CHECKING:
    from rich.console import Console

KINDS = {
    "safety": "safety",
    "stop": "stops",
    "typed": "typed",
    "source": "source",
    "moisture": "moisture",
    "day": "days",
    "patch": "goes out",
    "new": "new wood",
    "joists": "floor",
    "plan": "plan",
    "photo": "photos",
    "inspection": "inspection",
}
"""What keeps the gate shut, in the order it is told, and its head."""
LONG = 90
"""Characters of a reason; a longer one is a whole story of tests, told above where the water comes from."""


def cover(console: Console, gate: Gate, path: str) -> None:
    """The gate as the last thing on the page."""
    if gate.open:
        page.heading(console, f"It may be covered, as read on {gate.read_on}.")
        page.say(console, "Read it again on the morning of covering.")
        for at, each in enumerate(gate.stands_on):
            page.hang(console, "" if at else "stands on", f"{str(each).rstrip('.')}.", width=10)
        return
    page.heading(console, "Do not cover yet.")
    for kind, head in KINDS.items():
        own = [each for each in gate.missing if each.kind == kind]
        lines = reasons(own, path, alone=len(own) == len(gate.missing))
        for at, line in enumerate(lines):
            page.hang(console, "" if at else head, line, width=10)


def reasons(missing: Iterable[Missing], path: str, *, alone: bool = False) -> Iterator[str]:
    """A line for each reason: the places that have it, why, and the next step.

    Parameters
    ----------
    missing : iterable of Missing
        Of one kind.
    path : str
        Of the job, for a command that shows more.
    alone : bool
        Nothing of another kind is missing.

    Yields
    ------
    str
    """
    by: dict[tuple[str, str], list[str]] = {}
    for each in missing:
        what, step = str(each.what), str(each.next_step)
        if each.kind == "source" and len(what) > LONG:
            what = "as told above"
        if each.kind == "plan":
            step = f"They are planned here once nothing else is missing; undertile plan {path} shows it now."
            if alone:  # planned for it, and still none
                step = f"undertile plan {path} shows what stands in its way."
        call, _, why = what.partition(": ")
        if why and step.lower().startswith(call):  # "dry on: reads 19.9 %" beside "Dry on; ..."
            what = why
        if what.lower() in step.lower():  # the step says it all
            what = ""
        by.setdefault((what, step), []).append(str(each.where))
    for (what, step), places in by.items():
        said = f"{what}. {step}" if what else step
        yield f"{'; '.join(dict.fromkeys(places))}: {said}".rstrip()
