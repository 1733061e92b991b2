"""The pad sheet of a moisture round, in plain data: it works on the phone before Python is up.

A point has a row for what the meter shows and, as long as no awl was pushed in, one for the awl: the gate
asks for it once. Rows that are no station of their own are ``hidden``: the face, the pick, an awl again.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Any

from undertile.job.address import join
from undertile.screens.amiss import amiss
from undertile.screens.context import Context, NotHere, View
from undertile.screens.pad_sheet import row
from undertile.screens.round.order import (
    meter_of,
    points_in_order,
    step_of,
    visits_before,
    water_facts,
    where_of,
)
from undertile.screens.round.places import asked_for, places
from undertile.screens.round.told import judged
from undertile.screens.words import PAD
from undertile.screens.words.round import ROUND_PAD
from undertile.wood.facts import Point
from undertile.wood.typed import read_shown


def sheet(ctx: Context, visit: str) -> View:
    """The pad sheet of one round.

    Raises
    ------
    NotHere
        If the job has no such round.
    """
    says = ctx.says
    facts = water_facts(ctx)
    if visit not in facts.visits:
        of_it = [join(path) for path in ctx.state.facts if path[:3] == ("wood", "visits", visit)]
        bad = amiss(ctx, of_it)  # a day that cannot be read: that is what is wrong, not the round
        raise NotHere(bad[0]["text"] if bad else says("round-none", visit=visit[:40]))
    rows = [*rows_of(ctx, visit), *_asked_for(ctx, visit)]
    words = {key: says(key) for key in (*PAD, *ROUND_PAD)}
    words["pad-list"] = words["pad-list-new"]
    words["pad-none"] = words["pad-nothing"]
    meter = meter_of(facts, visit)
    return {
        "job": ctx.job,
        "sheet": f"round {visit}",
        "title": says("round-name", visit=visit),
        "form": {
            "text": says("round-form"),
            "note": says("round-form-note"),
            "heads": [says("round-where"), says("pad-at"), says("round-shown")],
            "back": says("round-title"),
        },
        "unit": ctx.unit,
        "language": says.language,
        "rows": rows,
        "walked": True,
        "step": step_of(facts, visit),
        "low": f"{meter.low:f}",
        "high": f"{meter.high:f}",
        "places": places(ctx, visit),
        "judged": judged(ctx, visit),
        "entries": ctx.href("entries", round=visit),
        "back": ctx.href("water", "round"),
        "after": ctx.href("water"),
        "words": words,
        "at": ctx.query.get("at", ""),
    }


def rows_of(ctx: Context, visit: str) -> list[View]:
    """Every row of a round that is there, in the order the points are read."""
    facts = water_facts(ctx)
    earlier = visits_before(facts, visit)
    laid = meter_of(facts, visit).kind == "pad"
    return [
        each
        for name in points_in_order(ctx, visit)
        for each in _point(ctx, name, facts.points[name], visit, earlier, laid)
    ]


def stations(ctx: Context, visit: str) -> list[View]:
    """The points to be read on a round: no awl, no face, no dry reference that was read before."""
    return [each for each in rows_of(ctx, visit) if each["kind"] == "percent" and not each["extra"]]


def _point(
    ctx: Context, name: str, point: Point, visit: str, earlier: Sequence[str], laid: bool
) -> Iterator[View]:
    """The rows of one point; ``laid``: the meter is laid on, not driven in."""
    label, at = where_of(ctx, name, point)
    fact = {part: _fact(name, part, visit) for part in ("shown", "surface", "awl", "pick")}
    shown = [point.shown[each] for each in earlier if point.shown.get(each, "").strip()]
    parts = ("surface",) if point.reference else ("surface", "awl", "pick")
    of: dict[str, Any] = {"at": at, "of": fact["shown"]}
    yield row(
        ctx,
        fact["shown"],
        label,
        at=at,
        kind="percent",
        near=_near(shown),
        last=_last(ctx, shown),
        pins=_pins(ctx, point, laid, bool(shown)),
        note=ctx.says("round-dry-reference") if point.reference else "",
        # what dry is in this house is read once; it can be read again, and is not asked for
        extra=point.reference and bool(shown) and visit not in point.shown,
        beside={part: fact[part] for part in parts},
    )
    faces, picks = _choices(ctx, "dry", "wet"), _choices(ctx, "splinters", "snaps")
    said = ctx.says("round-surface")
    yield row(ctx, fact["surface"], label, kind="surface", hidden=True, choices=faces, said=said, **of)
    if not point.reference:
        asked = not any(day != visit and depth.text for day, depth in point.awl.items())
        beside = {"pick": fact["pick"]}
        said = ctx.says("pad-awl")
        yield row(ctx, fact["awl"], label, kind="awl", hidden=not asked, beside=beside, said=said, **of)
        said = ctx.says("round-pick")
        yield row(ctx, fact["pick"], label, kind="pick", hidden=True, choices=picks, said=said, **of)


def _choices(ctx: Context, *words: str) -> list[View]:
    return [{"value": word, "label": ctx.says(f"pad-{word}")} for word in words]


def _fact(name: str, part: str, visit: str) -> str:
    return join(("wood", "points", name, part, visit))


def _near(shown: Sequence[str]) -> str:
    """What a point showed last, as a number or a word; "" where it never did."""
    for text in shown:
        found = read_shown(text)
        if found.state == "number":
            return f"{found.worst:g}"
        if found.state in ("over", "under"):
            return found.state
    return ""


def _last(ctx: Context, shown: Sequence[str]) -> str:
    if not shown:
        return ctx.says("pad-first")
    state = read_shown(shown[0]).state
    words = {"over": "pad-over", "under": "pad-under", "cannot reach": "pad-reached"}
    value = ctx.says(words[state]) if state in words else shown[0].strip()
    return ctx.says("round-last", value=value)


def _pins(ctx: Context, point: Point, laid: bool, again: bool) -> str:
    """How deep and where: only the same holes can be compared."""
    if laid:
        return ctx.says("round-same-spot") if again else ""
    said = [ctx.says("round-same-holes" if again else "pad-new-holes")]
    if point.depth is not None and point.depth.text:
        bare = ctx.unit == "mm" and not any(letter.isalpha() for letter in point.depth.text)
        said.insert(0, ctx.says("round-deep", depth=point.depth.text + (" mm" if bare else "")))
    return ", ".join(said)


def _asked_for(ctx: Context, visit: str) -> Iterator[View]:
    """A place that is asked for in the address: kept with its first reading."""
    found = asked_for(ctx)
    if found is not None:
        yield row(
            ctx,
            _fact(found["name"], "shown", visit),
            found["where"],
            at=found["at"],
            kind="percent",
            last=ctx.says("pad-first"),
            pins=ctx.says("pad-new-holes"),
            extra=False,
            beside={},
            also=[
                {"fact": join(("wood", "points", found["name"], part)), "value": value}
                for part, value in found["facts"].items()
            ],
        )
