"""What looks wrong: two values for one thing, readings that do not fit, what cannot be used or is missing."""

from __future__ import annotations

from typing import Any

from undertile.findings import Finding, Severity
from undertile.job.address import join, split
from undertile.job.fold import Clash
from undertile.screens.clock import here
from undertile.screens.context import Context, View
from undertile.screens.device import device_words
from undertile.screens.forms import row, said, told
from undertile.screens.labels import label
from undertile.screens.next_step import next_step, sheet_of
from undertile.screens.pad_sheet import judged
from undertile.screens.pages.named import heights_offered


def view(ctx: Context) -> View:
    """Clashes side by side, doubts with what would fit, then the rest."""
    told = judged(ctx)
    seen = {each.code for each in ctx.state.folded.findings}
    known = {group[0].where for group in ctx.state.suspects}
    rest = [
        each
        for each in ctx.state.looked.findings
        if each.where not in known and each.code not in ("misfit-undecided",) and each.code not in seen
    ]
    doubts = [_doubt(ctx, each) for each in told["doubts"]]
    step = next_step(ctx)
    if not told["clashes"] and doubts and doubts[0]["read"]:
        step = {**step, "href": doubts[0]["read"]}
    return {
        "title": ctx.says("step-doubts"),
        "next": step,
        "clashes": [_clash(ctx, clash) for clash in ctx.state.folded.clashes],
        "doubts": doubts,
        "left_out": [_left_out(ctx, each) for each in told["left_out"]],
        "rest": [ctx.says.finding(each) for each in _gravest_first(rest)],
        "none": bool(ctx.state.looked.results.get("survey")) and not (told["doubts"] or told["clashes"]),
        "checked": bool(getattr(ctx.state.looked.results.get("survey"), "global_test", None)),
    }


def _gravest_first(findings: list[Finding]) -> list[Finding]:
    order = list(Severity)
    once = {(each.code, each.where, each.found): each for each in findings}
    return sorted(once.values(), key=lambda each: order.index(each.severity))


def _clash(ctx: Context, clash: Clash) -> View:
    ids = " ".join(entry.id for entry in clash.entries)
    return {
        "fact": clash.fact,
        "where": said(ctx, clash.fact),
        "history": ctx.href("history", fact=clash.fact),
        "stands": ids,
        "sides": [
            {
                "id": entry.id,
                "value": entry.value,
                "shown": told(ctx, clash.fact, entry.value),
                "who": entry.who,
                "time": here(ctx, entry.time),
                "device": entry.device,
                "device_said": device_words(ctx, entry.device),
                "instrument": entry.instrument,
            }
            for entry in clash.entries
        ],
    }


def _doubt(ctx: Context, each: View) -> View:
    out: dict[str, Any] = dict(each)
    wall = sheet_of(each["fact"])
    out["read"] = ctx.href("read", wall, at=each["fact"]) if wall else ""
    out["history"] = ctx.href("history", fact=each["fact"]) if each["fact"] else ""
    out["rows"] = [row(ctx, fact, said(ctx, fact)) for fact in each["facts"]]
    return out


def _left_out(ctx: Context, each: View) -> View:
    out: dict[str, Any] = {**each, "rows": []}
    if each["lacks"]:
        what = label(ctx.says, each["lacks"])
        out["text"] = ctx.says("lacks", where=said(ctx, each["lacks"]).removesuffix(f": {what}"), what=what)
        path = split(each["lacks"])
        lacking = [path] if path[-1] != "readings" else [(*path, z) for z in heights_offered(ctx, path[:-1])]
        out["rows"] = [row(ctx, join(one), label(ctx.says, join(one))) for one in lacking]
        return out
    if each["fact"]:
        try:
            out["rows"] = [row(ctx, join(split(each["fact"])), said(ctx, each["fact"]))]
        except ValueError:  # a table, or a fact of a newer version: nothing to type here
            out["rows"] = []
    return out
