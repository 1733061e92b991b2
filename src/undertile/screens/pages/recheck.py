"""After the work: what to read again, whether each wall is right, what is left."""

from __future__ import annotations

from fractions import Fraction

from undertile.findings import Verdict
from undertile.framing.say import said
from undertile.job.address import height_key, join
from undertile.lengths import Length, Unit, format_length
from undertile.recheck.flat import HANDY
from undertile.recheck.result import RecheckResult
from undertile.screens.context import Context, View
from undertile.screens.forms import row
from undertile.screens.next_step import next_step
from undertile.screens.older import older_laid
from undertile.screens.pad_sheet import label_of, text_of
from undertile.screens.pad_sheet import row as pad_row
from undertile.screens.pages.gate import before_the_plan
from undertile.screens.steps_water import cover_of
from undertile.screens.words import PAD


def view(ctx: Context) -> View:
    """The walls with their verdicts; what to read again."""
    says = ctx.says
    title = says("step-recheck")
    waiting = before_the_plan(ctx, title)
    if waiting is not None:
        return waiting
    ctx.answers.plan(ctx.state)
    result = ctx.state.rechecked
    out: View = {"title": title, "cover": cover_of(ctx)}
    if result is None or result.state == "no plan":
        return {**out, "next": next_step(ctx), "state": "no plan", "walls": [], "pad": ""}
    missing = len(result.missing)
    lay = sum(not each["value"] for each in to_lay(ctx, result))
    if lay and not missing:
        first = {
            "text": says("recheck-lay", number=str(lay)),
            "why": "",
            "href": ctx.href("recheck", "pad"),
        }
    elif missing:
        first = {
            "text": says("recheck-read", number=str(missing)),
            "why": says("recheck-lay", number=str(lay)) if lay else "",
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
                "show": [says.told(line) for line in wall.show],
                "checks": [{**says.check(check), "do": ""} for check in wall.checks],
                "studs": [
                    {
                        "name": stud.stud,
                        "verdict": says.verdict(stud.verdict),
                        "passes": stud.verdict is Verdict.PASS,
                        "show": [says.told(line) for line in stud.show if line not in wall.show],
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
    told = ctx.says(f"left-{left.state.replace(', ', '-').replace(' ', '-')}")
    if left.state.startswith("nothing") and left.taken:
        told = ctx.says("left-taken")  # a face nobody read again is not right by that
    return {
        "state": left.state,
        "text": told,
        "studs": [member.name for member in left.members],
        "time": ctx.says.clock(left.minutes),
        "taken": [ctx.says.told(line) for line in left.taken],
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
    if waiting is not None:  # not known is not "nothing to read": first the plan, then the pad
        return {**waiting, "as": "recheck"}
    result = ctx.state.rechecked
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
    rows += to_lay(ctx, result) if result is not None else []
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
        "words": {key: ctx.says(key) for key in PAD}
        | ({} if result is not None else {"pad-none": ctx.says("pad-nothing")}),
        "at": ctx.query.get("at", ""),
    }


def to_lay(ctx: Context, result: RecheckResult) -> list[View]:
    """What only a straightedge can show, a value each: the widest gap under it, 0 where none goes.

    A rule longer than ``HANDY`` is asked for with one that spans the run; one over slanting runs that long is
    typed with its real length, in the form below.
    """
    out = []
    older = older_laid(ctx.state)
    for wall in result.walls:
        lacking = dict.fromkeys(
            (line.length, line.way)
            for line in wall.lines
            if line.verdict is Verdict.NOT_SHOWN and not line.reading_shows
        )
        for rule, way in lacking:
            long = rule > HANDY
            length = _run(ctx, wall.wall, way) if long else rule
            text = "" if length is None or length > HANDY else _exact(length, ctx.unit)
            if not text or length is None:
                continue
            base = ("recheck", "straightedges", f"{wall.wall} {way} {text}")
            told = {"wall": wall.wall, "way": way, "length": text}
            its = pad_row(
                ctx,
                join((*base, "gap")),
                ctx.says("laid-long" if long else "laid-row", length=said(length, ctx.unit, "up")),
                at=ctx.says(f"laid-{way}", wall=ctx.says.sheet(wall.wall)),
                kind="length",
                group="laid",
                also=[
                    {"fact": join((*base, key)), "value": value}
                    for key, value in told.items()
                    if ctx.standing(join((*base, key)))[0] != value
                ],
            )
            # laid before the wall was changed: asked for anew, in place of what it showed then
            out.append({**its, "value": None} if base[2] in older else its)
    return out


def _exact(length: Fraction, unit: Unit) -> str:
    """A length as typed, in the job's unit or the other; "" where neither prints it."""
    for each in (unit, "in", "mm"):
        try:
            return format_length(length, each) + (" in" if each == "in" else "")
        except ValueError:
            continue
    return ""


def _run(ctx: Context, name: str, way: str) -> Fraction | None:
    """How long what is read of a wall runs that way; None across it. [in]"""
    wall = ctx.state.folded.job.survey.walls[name]
    at = [height.inches for height in wall.heights]
    if way == "along":
        at = [stud.along.inches for stud in wall.studs.values()]
    return None if way == "across" else max(at) - min(at)


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
