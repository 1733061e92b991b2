"""The room: what the job is called, its unit, its walls and studs, and what each of them is."""

from __future__ import annotations

from undertile.job.address import join
from undertile.screens.context import Context, View
from undertile.screens.forms import group, row
from undertile.screens.next_step import next_step
from undertile.screens.pad_sheet import studs_in_order
from undertile.screens.pages.named import several

WALLS = ("B", "L", "R")
MOST_STUDS = 60


def view(ctx: Context) -> View:
    """The head of the job, and a part for each wall."""
    says = ctx.says
    head = [row(ctx, "name", says("job-name"), wide=True), row(ctx, "place", says("job-place"), wide=True)]
    head.append(row(ctx, "unit", says("job-unit"), hint=says("job-unit-hint") if ctx.state.has_unit else ""))
    return {
        "title": says("step-room"),
        "next": next_step(ctx),
        "head": group(ctx, says("job-head"), head),
        "walls": [_wall(ctx, name) for name in WALLS] if ctx.state.has_unit else [],
    }


def _wall(ctx: Context, name: str) -> View:
    says = ctx.says
    survey = ctx.state.folded.job.survey
    base = ("survey", "walls", name)
    wall = survey.walls.get(name)
    lines = [
        row(ctx, join((*base, "nominal")), says("nominal"), hint=says("nominal-hint")),
        row(ctx, join((*base, "heights")), says("heights"), hint=says("heights-hint"), wide=True),
        row(ctx, join((*base, "top")), says("top-plate")),
    ]
    lines[:2] = [_as_before(ctx, name, each) for each in lines[:2]]
    studs = _studs(ctx, name, [] if wall is None else studs_in_order(wall))
    more = ("framing", "walls", name)
    work = [
        row(ctx, join((*more, key)), says(f"wall-{key}"))
        for key in (
            "kind",
            "bearing",
            "bay",
            "free_behind",
            "fixed",
            "wood_allowed",
            "depth",
            "channel",
            "channel_height",
            "wet_bed",
            "plumb_limit",
        )
    ]
    return {
        "name": name,
        "title": says.sheet(name),
        "there": wall is not None,
        "more": f"studs{name}" in ctx.query,
        "read": ctx.href("read", name) if wall is not None and wall.studs else "",
        "survey": group(ctx, says("line-and-heights"), lines, says("line-note")),
        "studs": group(ctx, says("studs"), studs, says("studs-note-" + name)),
        "plates": several(ctx, "plates", (*base, "plates")) if wall is not None else None,
        "work": group(ctx, says("what-studs-are"), work, says("unknown-note")),
        "each": [
            {"name": stud, "href": ctx.href("stud", stud)}
            for stud in ([] if wall is None else studs_in_order(wall))
        ],
    }


def _as_before(ctx: Context, name: str, line: View) -> View:
    """What the wall before has is offered in an empty box: nothing is kept until the person keeps it."""
    for other in WALLS[: WALLS.index(name)][::-1] if not line["stands"] else ():
        told = row(ctx, line["fact"].replace(f"walls.{name}.", f"walls.{other}.", 1), "")
        if told["value"]:
            return {**line, "offer": told["value"], "hint": ctx.says("as-before", wall=ctx.says.sheet(other))}
    return line


def _studs(ctx: Context, name: str, there: list[str]) -> list[View]:
    """A row for each stud, those typed and not usable too, and as many blank ones as are asked for."""
    typed = {
        path[4]
        for path, fact in ctx.state.facts.items()
        if path[:3] == ("survey", "walls", name)
        and len(path) > 4
        and path[3] == "studs"
        and any(entry.value is not None for entry in fact.standing)
    }
    names = [*there, *sorted(typed - set(there))]
    asked = ctx.query.get(f"studs{name}", "")
    extra = int(asked) if asked.isdecimal() and len(asked) < 3 else (5 if not names else 1)
    number = 0
    while extra > 0 and len(names) < MOST_STUDS:
        number += 1
        if f"{name}{number}" not in names:
            names.append(f"{name}{number}")
            extra -= 1
    base = ("survey", "walls", name, "studs")
    return [row(ctx, join((*base, stud, "along")), ctx.says("stud-along", stud=stud)) for stud in names]
