"""The walls to read, and the pad of one of them."""

from __future__ import annotations

from undertile.screens.context import Context, View
from undertile.screens.next_step import counted, next_step
from undertile.screens.pad_sheet import names_of, rows_of, sheet
from undertile.screens.pages.named import several

CHECKED = ("widths", "diagonals", "gaps", "levels", "squares", "repeats")
"""What checks the line readings, each by its name; the pad reads the most of them."""


def view(ctx: Context) -> View:
    """Which walls there are to read and how far each is."""
    rows = []
    for name in names_of(ctx):
        done, of = counted(rows_of(ctx, name))
        rows.append(
            {
                "name": name,
                "title": ctx.says.sheet(name),
                "state": ctx.says("state-read", done=str(done), of=str(of)),
                "href": ctx.href("read", name),
                "rest": of - done,
            }
        )
    return {
        "title": ctx.says("step-read"),
        "next": next_step(ctx),
        "sheets": rows,
        "several": [several(ctx, key, ("survey", key)) for key in CHECKED] if rows else [],
    }


def pad(ctx: Context) -> View:
    """The pad sheet of one wall; ``at`` is the fact to begin with."""
    found = sheet(ctx, ctx.path["wall"])
    at = ctx.query.get("at", "")
    if at:  # one reading looked at again: then on with what looks wrong
        found["after"] = ctx.href("doubts")
    return {**found, "at": at}
