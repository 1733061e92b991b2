"""How it dries: every point's chart by what keeps the gate shut, on the same axes; one point on its own."""

from __future__ import annotations

from undertile.drawing.drying import Picture, job_words, picture, pictures
from undertile.drawing.dryingdata import charts_of
from undertile.drawing.labels import words as drawn_words
from undertile.screens.context import Context, NotHere, View
from undertile.screens.pages.water import water_of
from undertile.wood.closing import place_past
from undertile.wood.rank import by_gate
from undertile.wood.result import WoodResult
from undertile.wood.typed import day_text

ON_A_SCREEN = 40
"""Charts on one page: a phone draws so many at once; the rest is one tap away."""


def view(ctx: Context) -> View:
    """All charts, or the one asked for."""
    found = water_of(ctx)
    name = ctx.query.get("point", "")
    return _one(ctx, found, name) if name else _all(ctx, found)


def _all(ctx: Context, found: WoodResult) -> View:
    says, words = ctx.says, drawn_words(ctx.says.language)
    first = _number(ctx.query.get("from", ""))
    charts = charts_of(found, words, today=ctx.state.today)
    first = first if first < len(charts) else 0
    shown = pictures(found, ctx.unit, words, first, ON_A_SCREEN, ctx.state.today)
    left = len(charts) - first - len(shown)
    before = ctx.href("water", "charts", **{"from": str(max(first - ON_A_SCREEN, 0))}) if first else ""
    after = ctx.href("water", "charts", **{"from": str(first + ON_A_SCREEN)}) if left > 0 else ""
    odd = any(mark.kind != "read" for chart in charts for mark in chart.marks)
    relative = any(chart.verdict.relative for chart in charts)
    return {
        "title": says("charts"),
        "next": _next(ctx, found, job_words(found, charts, words) if charts else says("charts-none")),
        "how": [
            words(key)
            for key, wanted in (("how to read", charts), ("marks to read", odd), ("star", relative))
            if wanted
        ],
        "charts": [
            {
                "href": ctx.href("water", "charts", point=each.name),
                "place": each.place,
                "when": each.when,
                "svg": each.svg,
            }
            for each in shown
        ],
        "one": None,
        "back": {"href": before, "text": says("charts-before")} if before else None,
        "more": {"href": after, "text": says("charts-more", number=left)} if after else None,
    }


def _next(ctx: Context, found: WoodResult, when: str) -> View:
    """When the whole may be closed; days that have gone by are no step, reading again is."""
    late = ctx.says.told(found.past_it(ctx.state.today))
    if not late:
        return {"text": when, "why": "", "href": ctx.href("water")}
    return {"text": ctx.says("charts-again"), "why": f"{when} {late}", "href": ctx.href("water", "round")}


def _one(ctx: Context, found: WoodResult, name: str) -> View:
    says, words = ctx.says, drawn_words(ctx.says.language)
    made = picture(found, ctx.unit, words, name, ctx.state.today)
    if made is None:
        raise NotHere(says("charts-not-there", name=name))
    series = next(each for each in found.series if each.name == name)
    rows = []
    for sample in series.samples:
        corrected = sample.corrected
        relative = corrected is not None and corrected.scale == "relative"
        rows.append(
            {
                "visit": sample.round.name,
                "day": day_text(sample.day),
                "shown": says.value(sample.shown.text),
                "corrected": sample.reads + "*" * relative,
                "give": "" if corrected is None else f"{corrected.give_or_take:.1f}",
            }
        )
    return {
        "title": says("charts-of", place=made.place),
        "next": {**_told(ctx, found, made), "href": ctx.href("water", "point", name=name)},
        "how": [words("star")] if any("*" in row["corrected"] for row in rows) else [],
        "charts": [],
        "one": {"svg": made.svg, "place": made.place, "rows": rows},
        "back": {"href": ctx.href("water", "charts"), "text": says("charts-all")},
        "more": None,
        **_beside(ctx, found, name),
    }


def _told(ctx: Context, found: WoodResult, made: Picture) -> View:
    """What its chart says of a point; where its days have gone by, first what to do there instead."""
    when = made.when[:1].upper() + made.when[1:]
    verdict = found.point(made.name)
    if verdict is None or not place_past(verdict, ctx.state.today):
        return {"text": when, "why": made.says}
    return {"text": ctx.says.told(verdict.next_step), "why": f"{when}. {made.says}"}


def _beside(ctx: Context, found: WoodResult, name: str) -> View:
    """The charts before and after this one, in the order of what keeps the gate shut."""
    order = by_gate(found.points)
    at = next(place for place, each in enumerate(order) if each.name == name)
    out: View = {}
    for key, place in (("before", at - 1), ("after", at + 1)):
        there = order[place] if 0 <= place < len(order) else None
        out[key] = there and {
            "href": ctx.href("water", "charts", point=there.name),
            "text": ctx.says.place(there.where),
        }
    return out


def _number(text: str) -> int:
    """A count out of the address; 0 where it is none."""
    return int(text) if text.isascii() and text.isdecimal() and len(text) < 7 else 0
