"""What is typed of the floor: joists, loads, patch, panels, level, bed; one joist; the pad of the level."""

from __future__ import annotations

from undertile.findings import Verdict
from undertile.job.address import join
from undertile.screens.context import Context, NotHere, View
from undertile.screens.floor_labels import (
    ALL_JOISTS,
    BED,
    ENGINEER,
    LEVEL,
    LEVEL_RULES,
    LIMITS,
    LOADS,
    MINUTES,
    OWN,
    PATCH,
    SISTER,
)
from undertile.screens.forms import group, row
from undertile.screens.labels import label
from undertile.screens.pad_sheet import judged
from undertile.screens.pad_sheet import row as pad_row
from undertile.screens.pages.more import checks_said
from undertile.screens.pages.named import several
from undertile.screens.steps_floor import next_of, of_joist, on_new, proposed, spots, unanswered
from undertile.screens.words import PAD

MOST_JOISTS = 40
F = ("floor",)


def view(ctx: Context) -> View:
    """Every part with its facts, closed but the first."""
    says = ctx.says
    names = _joists(ctx)
    return {
        "title": says("floor-type"),
        "next": next_of(ctx),
        "back": ctx.href("floor"),
        "read": ctx.href("floor", "read") if spots(ctx) else "",
        "more": "joists" in ctx.query,
        "joists": _where_joists_are(ctx, names),
        "each": [{"name": name, "href": ctx.href("floor", "joist", name)} for name in names],
        "parts": [
            _group(ctx, "floor-all-joists", "floor-all-joists-note", (*F, "all_joists"), ALL_JOISTS),
            {
                **_group(ctx, "floor-loads", "floor-loads-note", (*F, "loads"), LOADS),
                "rows": [
                    _row(ctx, (*F, "tile")),
                    *(_row(ctx, (*F, "loads", name)) for name in LOADS),
                ],
            },
        ],
        "on_top": several(ctx, "on-top", (*F, "loads", "on_top")),
        "patch": group(
            ctx,
            says("floor-patch"),
            [
                *(_row(ctx, (*F, "patch", name)) for name in ("width", "depth")),
                *(
                    _row(ctx, (*F, "patch", layer, name))
                    for layer in ("lower", "upper")
                    for name in ("thickness", "stuff")
                ),
                _row(ctx, (*F, "patch", "edges")),
            ],
            says("floor-patch-note"),
        ),
        "bad": several(ctx, "bad", (*F, "patch", "bad")),
        "panels": several(ctx, "sheet-good", (*F, "patch", "panels")),
        "offcuts": [
            _offcuts(ctx, name, number) for number, name in enumerate(_names(ctx, (*F, "patch", "panels")), 1)
        ],
        "patch_rules": _group(ctx, "floor-patch-rules", "floor-patch-rules-note", (*F, "patch"), PATCH),
        "level": _group(ctx, "floor-under-pan", "floor-under-pan-note", (*F, "level"), LEVEL),
        "grid": _grid(ctx),
        "places": _places(ctx),
        "spots": _one_more_place(ctx),
        "level_rules": _group(
            ctx, "floor-under-pan-rules", "floor-under-pan-rules-note", (*F, "level"), LEVEL_RULES
        ),
        "minutes": _group(ctx, "floor-minutes-head", "floor-minutes-note", (*F, "level", "minutes"), MINUTES),
        "bed": _group(ctx, "floor-bed-head", "floor-bed-note", (*F, "bed"), BED),
        "stock": group(
            ctx, says("floor-stock"), [_row(ctx, (*F, "sister_stock", name)) for name in SISTER[:4]]
        ),
        "limits": _group(ctx, "floor-limits", "floor-limits-note", (*F, "cut_limits"), LIMITS),
    }


def _row(ctx: Context, path: tuple[str, ...]) -> View:
    address = join(path)
    return row(ctx, address, label(ctx.says, address))


def _group(
    ctx: Context, title: str, note: str, base: tuple[str, ...], names: tuple[str, ...]
) -> dict[str, object]:
    return group(ctx, ctx.says(title), [_row(ctx, (*base, name)) for name in names], ctx.says(note))


def _names(ctx: Context, base: tuple[str, ...]) -> list[str]:
    """Names that anything stands of, those typed and not usable too."""
    return list(
        dict.fromkeys(
            path[len(base)]
            for path, fact in ctx.state.facts.items()
            if path[: len(base)] == base
            and len(path) > len(base) + 1
            and any(entry.value is not None for entry in fact.standing)
        )
    )


def _where_joists_are(ctx: Context, names: list[str]) -> View:
    """Which way they run and where each is; folded away, how many there are."""
    says = ctx.says
    rows = [
        _row(ctx, (*F, "joists_run")),
        *(
            row(ctx, join((*F, "joists", name, "at")), says("floor-joist-at", name=name))
            for name in _rows(ctx, names)
        ),
    ]
    part = group(ctx, says("floor-joists"), rows, says("floor-joists-note"))
    return {**part, "said": says("entered-of", number=str(len(names)))} if names else part


def _joists(ctx: Context) -> list[str]:
    return _names(ctx, (*F, "joists"))


def _rows(ctx: Context, names: list[str]) -> list[str]:
    """A row for each joist, and as many blank ones as are asked for."""
    asked = ctx.query.get("joists", "")
    extra = int(asked) if asked.isdecimal() and len(asked) < 3 else (0 if names else 4)
    out, number = list(names), 0
    while extra > 0 and len(out) < MOST_JOISTS:
        number += 1
        if f"J{number}" not in out:
            out.append(f"J{number}")
            extra -= 1
    return out


def _offcuts(ctx: Context, panel: str, number: int) -> View:
    part = several(ctx, "sheet-offcut", (*F, "patch", "panels", panel, "offcuts"), of=str(number))
    return {**part, "title": ctx.says("part-sheet-offcut", name=panel)}


def _places(ctx: Context) -> View:
    """Where each place lies, all in one form; what it reads is read on the pad."""
    says, base, names = ctx.says, (*F, "level", "spots"), spots(ctx)
    rows = [
        row(ctx, join((*base, name, key)), f"{name}: {says.field('spot', key)}")
        for name in names
        for key in ("x", "y")
    ]
    done = sum(bool(ctx.standing(join((*base, name, "reading")))[0]) for name in names)
    said = says("state-read", done=str(done), of=str(len(names)))
    return {**group(ctx, says("part-spot"), rows), "said": said}


def _one_more_place(ctx: Context) -> View:
    """A place by its name, beside those there."""
    part = several(ctx, "spot", (*F, "level", "spots"))
    there = set(spots(ctx))
    part["items"] = [item for item in part["items"] if item["name"] not in there]
    return {**part, "title": ctx.says("floor-one-place"), "said": ""}


def _grid(ctx: Context) -> View | None:
    """Places to lay out at one tap; None where there are some already, or nothing to lay them over."""
    places = proposed(ctx)
    if not places:
        return None
    base = (*F, "level", "spots")
    return {
        "text": ctx.says("floor-grid", number=str(len(places))),
        "note": ctx.says("floor-grid-note"),
        "facts": [
            {"fact": join((*base, name, key)), "value": value}
            for name, x, y in places
            for key, value in (("x", x), ("y", y))
        ],
    }


def joist(ctx: Context) -> View:
    """One joist: its own sizes, notches, holes, soft places, the sister beside it.

    Raises
    ------
    NotHere
        If the job has no such joist.
    """
    name, says = ctx.path["joist"], ctx.says
    names = _joists(ctx)
    if name not in names:
        raise NotHere(says("no-such-joist", name=name))
    base = (*F, "joists", name)
    found = ctx.state.floor
    its = next((each for each in found.joists if each.joist.name == name), None) if found else None
    own = of_joist(found, name) if found else []
    at = names.index(name)
    beside = [
        None if not 0 <= i < len(names) else {"text": names[i], "href": ctx.href("floor", "joist", names[i])}
        for i in (at - 1, at + 1)
    ]
    return {
        "title": says("floor-joist", name=name),
        "next": next_of(ctx),
        "checks": checks_said(ctx, own),
        "ways": [] if its is None else [says.told(way.words) for way in its.ways],
        "own": group(
            ctx, says("floor-joist-own"), [_row(ctx, (*base, key)) for key in OWN], says("floor-joist-note")
        ),
        "several": [
            several(ctx, key, (*base, table))
            for key, table in (("notch", "notches"), ("bore", "holes"), ("soft", "soft"))
        ],
        "sister": group(
            ctx,
            says("floor-sister"),
            [_row(ctx, (*base, "sister", key)) for key in SISTER],
            says("floor-sister-note"),
        ),
        "engineer": group(
            ctx,
            says("floor-engineer"),
            [_row(ctx, (*base, "engineer", key)) for key in ENGINEER],
            says("floor-engineer-note"),
        ),
        "asks_engineer": any(each.verdict is Verdict.FAIL for each in unanswered(found, own))
        if found
        else False,
        "before": beside[0],
        "after": beside[1],
        "back": ctx.href("floor"),
    }


def pad(ctx: Context) -> View:
    """The pad sheet of the floor under the pan, in the order the places were laid out."""
    says, level = ctx.says, ctx.state.folded.job.floor.level
    near = "" if level.line is None else level.line.text
    rows = [
        pad_row(
            ctx,
            join((*F, "level", "spots", name, "reading")),
            name,
            at=says("spot-at", x=spot.x.text, y=spot.y.text),
            near=near,
            group="floor",
        )
        for name, spot in ((name, level.spots[name]) for name in spots(ctx))
    ]
    rows += [
        pad_row(
            ctx,
            join((*F, "level", "spots", name, "on_new")),
            says("spot-new", name=name),
            at=says("spot-new-at", x=spot.x.text, y=spot.y.text),
            near=near,
            group="floor",
        )
        for name, spot in ((name, level.spots[name]) for name in on_new(ctx))
    ]
    return {
        "job": ctx.job,
        "sheet": "floor",
        "title": says("floor-level"),
        "unit": ctx.unit,
        "language": says.language,
        "rows": rows,
        "form": {
            "text": says("read-form"),
            "note": says("read-form-note"),
            "heads": [says("floor-place"), says("floor-where"), says("value")],
            "back": says("step-floor"),
        },
        "judged": judged(ctx),
        "entries": ctx.href("entries"),
        "back": ctx.href("floor"),
        "after": ctx.href("floor"),
        "words": {key: says(key) for key in PAD},
        "at": ctx.query.get("at", ""),
    }
