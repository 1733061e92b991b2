"""Facts of which there may be several, by name: edges, strips, holes, widths. Those there, and one more."""

from __future__ import annotations

from collections.abc import Iterable

from undertile.job.address import height_key, join
from undertile.job.model import job_shape
from undertile.job.shape import ByName, Leaf, Node, Table
from undertile.screens.context import Context, View
from undertile.screens.forms import in_short, row
from undertile.screens.pad_sheet import heights_of

MOST_NAME = 60
MOST_HEIGHTS = 3
"""Heights offered for a face that continues, where none is read yet: low, middle, high is enough."""


def several(ctx: Context, key: str, base: tuple[str, ...], of: str = "") -> View:
    """Everything of one kind, each with its rows; one more when its name is in the address.

    Parameters
    ----------
    ctx : Context
    key : str
        Of the kind: ``edges``; its labels are ``edges.along`` and so on.
    base : tuple of str
        Path of the table whose keys are the names.
    of : str
        Sets it apart where a page has several of the kind.
    """
    node = _node(base)
    names = list(
        dict.fromkeys(
            path[len(base)]
            for path, fact in ctx.state.facts.items()
            if path[: len(base)] == base and any(entry.value is not None for entry in fact.standing)
        )
    )
    asked = ctx.query.get(f"new-{key}{of}", "").strip()[:MOST_NAME]
    fresh = asked and asked.isprintable() and asked not in names
    if fresh and (not node.names or asked in node.names):
        names.append(asked)
    item = node.item
    assert isinstance(item, Table)
    called = [_called(ctx, key, name, bool(node.names)) for name in names]
    return {
        "key": f"{key}{of}",
        "title": ctx.says(f"part-{key}") if not of else "",
        "note": ctx.says(f"note-{key}"),
        "open": bool(fresh),
        "items": [
            {
                "name": name,
                "said": said,
                "rows": list(_fields(ctx, key, (*base, name), item)),
            }
            for name, said in zip(names, called, strict=True)
        ],
        "said": in_short(called) or (ctx.says("entered-of", number=str(len(called))) if called else ""),
        "names": [
            {"value": name, "label": ctx.says.choice(name, key)} for name in node.names if name not in names
        ],
        "fixed": bool(node.names),
    }


MATERIALS = ("stock", "on-top")
"""Of what several may be there, those that are called by what they are made of."""


def _called(ctx: Context, key: str, name: str, fixed: bool) -> str:
    if fixed:
        return ctx.says.choice(name, key)
    if key == "repeats":
        return ctx.says.repeat(name)
    return ctx.says.stuff(name) if key in MATERIALS else name


def _node(base: tuple[str, ...]) -> ByName:
    node: Node = job_shape()
    for part in base:
        node = node.fields[part] if isinstance(node, Table) else node.item  # type: ignore[union-attr]
    assert isinstance(node, ByName)
    return node


def _fields(ctx: Context, key: str, base: tuple[str, ...], item: Table) -> Iterable[View]:
    for name, inner in item.fields.items():
        if isinstance(inner, Leaf):
            yield row(ctx, join((*base, name)), ctx.says.field(key, name))
        elif isinstance(inner, ByName) and inner.by_height:
            for height in heights_offered(ctx, base):
                yield row(ctx, join((*base, name, height)), ctx.says("reading-at", height=height))


def heights_offered(ctx: Context, base: tuple[str, ...]) -> list[str]:
    """Heights a face is read at: those it has, else some of its wall's."""
    known = [path[-1] for path in ctx.state.facts if path[: len(base)] == base and path[-2] == "readings"]
    if known:
        return known
    walls = ctx.state.folded.job.survey.walls
    heights = [height_key(height) for wall in walls.values() for height in heights_of(wall)]
    return list(dict.fromkeys(heights))[:MOST_HEIGHTS]
