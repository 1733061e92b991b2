"""Pan, drain, valve, edges, what goes on the studs, what stands in the way, what is on the van."""

from __future__ import annotations

from collections.abc import Iterable

from undertile.job.address import join
from undertile.job.model import job_shape
from undertile.job.shape import ByName, Leaf, Table
from undertile.screens.context import Context, View
from undertile.screens.forms import group, row
from undertile.screens.next_step import next_step

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
        ("wall", "along", "height", "reading", "window_low", "window_high", "may_reblock", "reblock_reach"),
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
    several = []
    for key, base in NAMED:
        several.append({"key": key, **_named(ctx, key, base)})
    return {"title": says("step-pan"), "next": next_step(ctx), "parts": parts, "several": several}


def _named(ctx: Context, key: str, base: tuple[str, ...]) -> View:
    """Things with names: those there, and one more when asked for."""
    node: object = job_shape()
    for part in base:
        assert isinstance(node, Table)
        node = node.fields[part]
    assert isinstance(node, ByName)
    names = list(
        dict.fromkeys(
            path[2]
            for path, fact in ctx.state.facts.items()
            if path[:2] == base and any(entry.value is not None for entry in fact.standing)
        )
    )
    asked = ctx.query.get(f"new-{key}", "").strip()[:60]
    if asked and asked.isprintable() and asked not in names and (not node.names or asked in node.names):
        names.append(asked)
    item = node.item
    assert isinstance(item, Table)
    return {
        **group(ctx, ctx.says(f"part-{key}"), [], ctx.says(f"note-{key}")),
        "items": [{"name": name, "rows": list(_fields(ctx, key, (*base, name), item))} for name in names],
        "names": [name for name in node.names if name not in names],
        "fixed": bool(node.names),
    }


def _fields(ctx: Context, key: str, base: tuple[str, ...], item: Table) -> Iterable[View]:
    for name, inner in item.fields.items():
        if isinstance(inner, Leaf):
            yield row(ctx, join((*base, name)), ctx.says.field(key, name))
        elif isinstance(inner, ByName) and inner.by_height:
            for height in _heights(ctx, base):
                label = ctx.says("reading-at", height=height)
                yield row(ctx, join((*base, name, height)), label)


def _heights(ctx: Context, base: tuple[str, ...]) -> list[str]:
    """Heights an edge is read at: those it has, else those of its wall at most three."""
    from undertile.job.address import height_key
    from undertile.screens.pad_sheet import heights_of

    known = [
        path[4] for path in ctx.state.facts if path[:3] == base and len(path) > 4 and path[3] == "readings"
    ]
    if known:
        return known
    walls = ctx.state.folded.job.survey.walls
    heights = [height_key(height) for wall in walls.values() for height in heights_of(wall)]
    return list(dict.fromkeys(heights))[:3]
