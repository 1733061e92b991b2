"""Pan, drain, valve, edges, what goes on the studs, what stands in the way, what is on the van."""

from __future__ import annotations

from undertile.job.address import join
from undertile.screens.context import Context, View
from undertile.screens.forms import group, row
from undertile.screens.next_step import next_step
from undertile.screens.pages.named import several

PARTS: tuple[tuple[str, tuple[str, ...], tuple[str, ...]], ...] = (
    (
        "pan",
        ("pan", "pan"),
        ("width", "depth", "flange_height", "flange_thickness", "detail", "depths", "threshold"),
    ),
    ("outlet", ("pan", "pan", "outlet"), ("x", "y")),
    ("drain", ("pan", "drain"), ("x", "y", "float_x", "float_y", "side")),
    ("sheet", ("pan", "pan"), ("play_low", "play_high", "shimmed_play", "carton_width", "carton_depth")),
    (
        "valve",
        ("framing", "valve"),
        (
            *("wall", "along", "height", "reading", "window_low", "window_high"),
            *("may_reblock", "reblock_reach", "keep_off"),
        ),
    ),
    ("finish", ("framing", "finish"), ("board", "membrane", "mortar", "tile", "tile_edge", "screw")),
    ("way-in", ("pan", "way_in"), ("door", "tilt_height")),
    ("money", ("framing",), ("rate", "occupied")),
)
NAMED: tuple[tuple[str, tuple[str, ...]], ...] = (
    ("edges", ("framing", "edges")),
    ("things", ("framing", "things")),
    ("stock", ("framing", "stock")),
    ("corners", ("framing", "corners")),
)


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
