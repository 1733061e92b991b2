"""After the work: what to read again, whether each wall is right, what is left."""

from __future__ import annotations

from undertile.findings import Verdict
from undertile.job.address import height_key, join
from undertile.lengths import Length
from undertile.recheck.result import RecheckResult
from undertile.screens.context import Context, View
from undertile.screens.forms import row
from undertile.screens.next_step import next_step
from undertile.screens.pad_sheet import label_of, text_of
from undertile.screens.pad_sheet import row as pad_row
from undertile.screens.pages.gate import before_the_plan
from undertile.screens.words import PAD

BOXES = 3
"""Straightedges laid and widths that can be typed at once beside those there."""


def view(ctx: Context) -> View:
    """The walls with their verdicts; what to read again."""
    says = ctx.says
    title = says("step-recheck")
    waiting = before_the_plan(ctx, title)
    if waiting is not None:
        return waiting
    ctx.answers.plan(ctx.state)
    result = ctx.state.rechecked
    out: View = {"title": title}
    if result is None or result.state == "no plan":
        return {**out, "next": next_step(ctx), "state": "no plan", "walls": [], "pad": ""}
    missing = len(result.missing)
    if missing:
        first = {
            "text": says("recheck-read", number=str(missing)),
            "why": "",
            "href": ctx.href("recheck", "pad"),
        }
    else:
        first = {"text": says("next-proof"), "why": "", "href": ctx.href("proof")}
    return {
        **out,
        "next": first,
        "state": result.state,
        "verdict": says.verdict(result.verdict) if result.state == "read" else "",
        "walls": [
            {
                "title": says.sheet(wall.wall),
                "verdict": says.verdict(wall.verdict),
                "passes": wall.verdict is Verdict.PASS,
                "show": list(wall.show),
                "checks": [{**says.check(check), "do": ""} for check in wall.checks],
                "studs": [
                    {
                        "name": stud.stud,
                        "verdict": says.verdict(stud.verdict),
                        "passes": stud.verdict is Verdict.PASS,
                        "show": list(stud.show),
                        "checks": [{**says.check(check), "do": ""} for check in stud.checks],
                    }
                    for stud in wall.studs
                    if stud.touched or stud.verdict is not Verdict.PASS
                ],
            }
            for wall in result.walls
        ],
        "room": [says.check(check) for check in result.room],
        "left": _left(ctx, result),
        "pad": ctx.href("recheck", "pad"),
        "about": [
            row(ctx, "recheck.by", says("read-by")),
            row(ctx, "recheck.date", says("done-date")),
            row(ctx, "recheck.instrument", says("instrument"), wide=True),
        ],
        "laid": list(_laid(ctx)),
    }


def _left(ctx: Context, result: RecheckResult) -> View | None:
    left = result.left
    if left is None:
        return None
    return {
        "state": left.state,
        "text": ctx.says(f"left-{left.state.replace(', ', '-').replace(' ', '-')}"),
        "studs": [member.name for member in left.members],
        "time": ctx.says.clock(left.minutes),
        "taken": list(left.taken),
    }


def _laid(ctx: Context) -> list[View]:
    """Straightedges: those typed and one blank."""
    known = list(ctx.state.folded.job.recheck.straightedges)
    typed = [path[2] for path in ctx.state.facts if path[:2] == ("recheck", "straightedges")]
    names = list(dict.fromkeys([*known, *typed]))
    fresh = next(str(number) for number in range(1, len(names) + 2) if str(number) not in names)
    return [
        {
            "name": name,
            "rows": [
                row(ctx, join(("recheck", "straightedges", name, key)), ctx.says(f"laid-{key}"))
                for key in ("wall", "way", "length", "gap", "at")
            ],
        }
        for name in (*names, fresh)
    ]


def pad(ctx: Context) -> View:
    """The pad sheet of what is read again: stud by stud in the order of walking the room, then the widths."""
    waiting = before_the_plan(ctx, ctx.says("step-recheck"))
    result = ctx.state.rechecked if waiting is None else None
    survey = ctx.state.folded.job.survey
    again = ctx.state.folded.job.recheck.walls
    rows: list[View] = []
    studs: dict[str, int] = {}
    for each in result.asked if result is not None else ():
        height = Length(each.height)
        key = height_key(height)
        address = join(("recheck", "walls", each.wall, "studs", each.stud, "readings", key))
        wall = survey.walls[each.wall]
        listed = again[each.wall].heights if each.wall in again else ()
        also = []
        if height.inches not in {one.inches for one in listed} and not any(
            r["wall"] == each.wall for r in rows
        ):
            also = [_heights(ctx, each.wall, result)]
        rows.append(
            {
                **pad_row(
                    ctx,
                    address,
                    each.stud,
                    at=label_of(ctx, height),
                    near=wall.nominal.text,
                    stud=studs.setdefault(each.stud, len(studs)),
                    height=[one.inches for one in _rising(wall.heights)].index(height.inches)
                    if height.inches in {one.inches for one in wall.heights}
                    else 0,
                    also=also,
                ),
                "wall": each.wall,
            }
        )
    return {
        "job": ctx.job,
        "sheet": "recheck",
        "title": ctx.says("step-recheck"),
        "unit": ctx.unit,
        "language": ctx.says.language,
        "rows": rows,
        "judged": {"doubts": [], "looks": [], "left_out": [], "clashes": []},
        "entries": ctx.href("entries"),
        "back": ctx.href("recheck"),
        "after": ctx.href("recheck"),
        "words": {key: ctx.says(key) for key in PAD},
        "at": ctx.query.get("at", ""),
    }


def _rising(heights: tuple[Length, ...]) -> list[Length]:
    return sorted({height.inches: height for height in heights}.values())


def _heights(ctx: Context, wall: str, result: RecheckResult | None) -> View:
    """The heights read again on a wall, as a fact that goes along with the first of them."""
    import json

    asked = result.asked if result is not None else ()
    heights = sorted({each.height for each in asked if each.wall == wall})
    labels = [label_of(ctx, Length(height)) for height in heights]
    fact = join(("recheck", "walls", wall, "heights"))
    return {"fact": fact, "value": json.dumps(labels), "stands": list(ctx.standing(fact)[1])}


def typed(value: Length) -> str:
    """A length as typed."""
    return text_of(value)
