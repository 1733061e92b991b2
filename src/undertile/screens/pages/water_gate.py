"""Do not cover yet: every missing thing, with the screen where it is settled; photos and inspection."""

from __future__ import annotations

from typing import TYPE_CHECKING

from undertile.floor.sound import joist_at
from undertile.job.address import join
from undertile.packet.cover import KINDS, cover_short, stands_on
from undertile.screens.amiss import mend, odd
from undertile.screens.context import Context, View
from undertile.screens.forms import group, row
from undertile.screens.pages.water import water_of
from undertile.screens.pages.water_point import new_wood_href
from undertile.screens.photo_counts import SURFACES, photo_href, to_confirm
from undertile.screens.steps_water import point_href, steps
from undertile.sentence import with_first
from undertile.wood.gate import FIRST, SAID

if TYPE_CHECKING:
    from undertile.wood.gate import Missing
    from undertile.wood.result import WoodResult


def view(ctx: Context) -> View:
    """Whether anything may be covered, and what is missing, by kind."""
    says, found = ctx.says, water_of(ctx)
    missing = [{**_missing(ctx, found, each), "kind": each.kind} for each in found.gate.missing]
    inspection = [
        row(ctx, f"wood.cover.{key}", says.field("cover", key))
        for key in ("inspection", "inspected", "inspector")
    ]
    photos = [row(ctx, join(("wood", "cover", "photos", each)), says.choice(each)) for each in SURFACES]
    return {
        "title": says("gate-title"),
        "next": _next(ctx, found, missing),
        "before": {"text": says("step-water"), "href": ctx.href("water")},
        "after": None,
        "begun": found.begun,
        "may": found.begun and found.gate.open,
        "answer": cover_short(found, says.papers) or says("gate-none"),
        "stands": [with_first(each, "upper") for each in stands_on(found, says.papers)]
        if found.begun
        else [],
        "kinds": [
            {
                "kind": kind,
                "title": says(f"gate-kind-{kind}"),
                "missing": [each for each in missing if each["kind"] == kind],
                "settled": says("gate-settled"),
            }
            for kind in KINDS
            if kind not in SAID or any(each["kind"] == kind for each in missing)
        ]
        if found.begun
        else [],
        "confirm": to_confirm(ctx),
        "inspection": group(ctx, says("part-inspection"), inspection, says("note-inspection")),
        "photos": group(ctx, says("part-photos"), photos, says("note-photos")),
        "typing": ctx.query.get("type", ""),
        "shrinks": {"text": ctx.says("water-goes-back"), "href": ctx.href("water")}
        if found.shrinkage
        else None,
    }


def _next(ctx: Context, found: WoodResult, missing: list[View]) -> View:
    """What is next: a stop that stands before all else; then what is next about the water; with nothing of it
    left, the first that is missing."""
    stop = next((each for each in missing if each["kind"] in FIRST), None)
    if stop is not None:
        return {"text": f"{stop['where']}: {stop['what']}", "why": stop["do"], "href": stop["href"]}
    first = steps(ctx, found)[0] if found.begun else None
    if first is None:
        return {"text": ctx.says("water-next-begin"), "why": "", "href": ctx.href("water", "point")}
    if missing and first["kind"] == "gate":
        one = missing[0]
        return {
            "text": with_first(one["where"], "upper"),
            "why": one["do"] or one["what"],
            "href": one["href"],
        }
    if first["kind"] == "gate":  # the answer and what it stands on are told right below
        return {"text": first["text"], "why": "", "href": ""}
    return {"text": first["text"], "why": first["why"], "href": first["href"]}


def _of_day(ctx: Context, found: WoodResult, each: Missing) -> str:
    """Where a day that has not come yet is typed anew; where it is the clock's, the days as they are."""
    said = [one for one in found.findings if one.code == "day-ahead" and one.where == each.where]
    of = next((one.fact for one in odd(ctx, [join(path) for path in ctx.state.facts], said)), "")
    return mend(ctx, of) if of else ctx.href("water", "rounds")


def _of_stop(ctx: Context, where: str) -> str:
    """Where what a stop asks for is typed; else where stops are lifted."""
    if where == "pan":
        return ctx.href("pan")
    return ctx.href("stud", where) if _is_stud(ctx, where) else ctx.href("safety")


def _of_new(ctx: Context, found: WoodResult, where: str, otherwise: str) -> str:
    """Where new wood is entered in one go; where it is entered and not read, its own place."""
    from undertile.wood.newwood import put_in_for  # only where something was cut out: quick at first

    old = next((one for one in found.series if one.where == where and one.facts.out), None)
    if old is None:
        return otherwise
    put_in = put_in_for(old, found.series, ctx.unit, ctx.state.clock)
    return point_href(ctx, put_in[0].name) if put_in else new_wood_href(ctx, old.facts)


def _is_stud(ctx: Context, name: str) -> bool:
    return any(name in wall.studs for wall in ctx.state.folded.job.survey.walls.values())


def _missing(ctx: Context, found: WoodResult, each: Missing) -> View:
    """One missing thing: where, what of it, what to do, and the screen where that is typed."""
    says = ctx.says
    where = says.told(each.where) if hasattr(each.where, "form") else says.place(each.where)
    if each.where in SURFACES:
        where = says.choice(each.where)
    href = ctx.href("water", "leak")
    if each.kind == "typed" and all(one.where != each.where for one in found.points):
        href = ctx.href("doubts")
    elif each.kind in ("moisture", "patch", "new", "stop", "typed"):
        # new wood stands where the old one did: what is asked of it is not asked of what is gone
        there = sorted(
            (one for one in found.points if one.where == each.where), key=lambda one: one.call == "gone"
        )
        name = there[0].name if there else ""
        href = point_href(ctx, name) if name else ctx.href("water", "point")
        if each.kind == "new":
            href = _of_new(ctx, found, each.where, href)
        elif each.kind == "stop" and each.source == "practice-bare-bearing":
            href = ctx.href("safety")  # a person lifts it; at the gone place nothing does
        elif each.kind == "stop" and not name:
            href = _of_stop(ctx, each.where)
    elif each.kind == "safety":
        href = ctx.href("safety")
    elif each.kind == "plan":
        href = ctx.href("plan")
    elif each.kind == "joists":
        joist = joist_at(each.where, list(ctx.state.folded.job.floor.joists))
        href = ctx.href("floor", "joist", joist) if joist else ctx.href("floor")
    elif each.kind == "day":
        href = _of_day(ctx, found, each)
    elif each.kind == "photo":
        href = photo_href(ctx, each.where)
    elif each.kind == "inspection":
        href = ctx.href("water", "gate", type="inspection")
    return {
        "where": where,
        "what": says.told(each.what),
        "do": says.told(each.next_step),
        "source": says.source(each.source),
        "href": href,
    }
