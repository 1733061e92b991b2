"""Pan, drain, valve, edges, what goes on the studs, what stands in the way, what is on the van."""

from __future__ import annotations

from undertile.job.address import join
from undertile.screens.context import Context, View
from undertile.screens.forms import group, row
from undertile.screens.labels import NAMED, PARTS
from undertile.screens.next_step import next_step
from undertile.screens.pages.named import several


def view(ctx: Context) -> View:
    """Every part with its facts, then what there may be several of."""
    says = ctx.says
    parts = []
    for key, base, fields in PARTS:
        rows = [row(ctx, join((*base, name)), says.field(key, name)) for name in fields]
        parts.append(group(ctx, says(f"part-{key}"), rows, says(f"note-{key}")))
    return {
        "title": says("step-pan"),
        "next": next_step(ctx),
        "parts": parts,
        "several": [several(ctx, key, base) for key, base in NAMED],
    }
