"""Visits, meters, equipment and limits of the water part: what a reading is judged by."""

from __future__ import annotations

from undertile.job.address import join
from undertile.screens.context import Context, View
from undertile.screens.forms import group, row
from undertile.screens.next_step import next_step
from undertile.screens.pages.named import several
from undertile.screens.pages.water import Typed, typed_of
from undertile.screens.steps_water import steps

TABLES = ("visits", "meters", "equipment")
ALLOWED = ("over_reference", "most", "never", "temperature_rule", "past_the_last", "reason")


def view(ctx: Context) -> View:
    """The forms; each visit with the way to its round."""
    says, found = ctx.says, typed_of(ctx)
    first = next_step(ctx) if isinstance(found, Typed) else steps(ctx, found)[0]
    allowed = [row(ctx, join(("wood", "allowed", key)), says.field("allowed", key)) for key in ALLOWED]
    opened = [
        row(ctx, "wood.opened", says("opened"), hint=says("water-day-hint")),
        row(ctx, "wood.trued", says("trued")),
    ]
    return {
        "title": says("water-facts"),
        "next": {key: first[key] for key in ("text", "why", "href")},
        "before": {"text": says("step-water"), "href": ctx.href("water")},
        "after": None,
        "rounds": [
            {
                "text": says("water-the-visit", name=each.name, day=each.facts.when),
                "href": ctx.href("water", "round", each.name),
            }
            for each in found.rounds
        ],
        "begin": ctx.href("water", "round"),
        "several": [several(ctx, key, ("wood", key)) for key in TABLES],
        "parts": [
            group(ctx, says("part-opened"), opened, says("note-opened")),
            group(ctx, says("part-allowed"), allowed, says("note-allowed")),
        ],
    }
