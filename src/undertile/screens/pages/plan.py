"""What to do at each stud, in carpenters' marks, wall by wall; why there is none; how far the search is."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from fractions import Fraction
from typing import Any

from undertile.findings import Severity
from undertile.floor.result import FloorResult
from undertile.framing.plan import Conflict, FramingPlan, MemberPlan
from undertile.framing.words import marks
from undertile.lengths import Length
from undertile.packet.figures import place
from undertile.packet.held import stud_held
from undertile.packet.open_parts import OpenPart, open_parts
from undertile.packet.order import order_steps
from undertile.packet.plan_view import PlanView
from undertile.packet.studs import plane_words, treatment
from undertile.screens import held
from undertile.screens.and_then import and_then
from undertile.screens.context import Context, View
from undertile.screens.doubted import doubted, under_a_hold
from undertile.screens.next_step import next_step
from undertile.screens.pages.gate import before_the_plan
from undertile.screens.steps_floor import begun
from undertile.screens.steps_water import asked
from undertile.sentence import Sentence


def view(ctx: Context) -> View:
    """The plan, or how far the search for it is, or why there is none."""
    title = ctx.says("step-plan")
    waiting = before_the_plan(ctx, title)
    if waiting is not None:
        return waiting
    rebuild = ctx.answers.plan(ctx.state)
    lead = next_step(ctx)
    stops = [ctx.says.finding(each) for each in rebuild.findings if each.severity is Severity.STOP]
    if stops and lead["href"] == ctx.href("plan"):  # a stop is read here, and answered where it is lifted
        lead = {**lead, "href": ctx.href("safety")}
    out: View = {
        "title": title,
        "next": lead,
        "then": and_then(ctx, lead),
        "stops": stops,
        "lift": ctx.href("safety") if stops else "",
        "hold": list(hold(ctx)),
        "open": [
            {
                "text": part.text,
                "may": False,
                "href": ctx.href("floor") if part.part == "floor" else ctx.href("water", "gate"),
            }
            for part in open_of(ctx)
        ],
    }
    plan: FramingPlan | None = rebuild.results.get("framing")
    if plan is None:
        return {
            **out,
            "state": "nothing",
            "why": ctx.says.told(rebuild.unanswered.get("framing", "")),
            "walls": [],
        }
    if not plan.planes:
        return {**out, "state": "none", "conflicts": conflicts(ctx, plan), "walls": []}
    shown = ctx.state.view
    assert shown is not None
    return {
        **out,
        "state": plan.state,
        "doubted": bool(ctx.state.suspects),
        "walls": [wall(ctx, shown, name) for name in shown.walls],
        "total": total(ctx, plan),
        "held": held.price(ctx, plan),
        "order": [
            {"text": step.text, "waits": step.waits, "stop": step.stop}
            for step in order_steps(shown, ctx.says.papers, asked(ctx), floor_of(ctx), ctx.state.today)
        ],
        "cuts": ctx.href("papers", "crew"),
        "later": not rebuild.whole,
        "losers": [
            {
                "what": ctx.says.told(each.what),
                "more": ctx.says("cannot-be") if each.more is None else "+" + ctx.says.dollars(each.more),
                "why": ctx.says.told(each.why),
            }
            for each in plan.runner_ups
        ],
    }


def hold(ctx: Context) -> tuple[str, str]:
    """The caution above every plan (convention 6.1)."""
    return ctx.says.papers("hold-head"), ctx.says.papers("hold")


def floor_of(ctx: Context) -> FloorResult | None:
    """What the floor comes to, where anybody speaks of it."""
    return ctx.state.floor if begun(ctx) else None


def open_of(ctx: Context) -> tuple[OpenPart, ...]:
    """What floor and water leave open, in the papers' own words; nothing where nobody speaks of them."""
    if not begun(ctx) and asked(ctx) is None:
        return ()
    return open_parts(ctx.state.beside, ctx.says.papers)


def total(ctx: Context, plan: FramingPlan) -> View:
    """Minutes and dollars, and how sure it is the least."""
    says = ctx.says
    if plan.state == "proved":
        proof = says("proved-least-held") if held.anything(ctx) else says("proved-least")
    elif plan.gap is not None:
        proof = says("not-proved", gap=says.dollars(plan.gap))
    else:
        proof = says("not-proved-open")
    cost = plan.cost if plan.cost is not None else Fraction(0)
    return {
        "time": says.clock(plan.minutes),
        "cost": says.dollars(cost),
        "proof": proof,
        "proved": plan.state == "proved",
    }


def wall(ctx: Context, shown: PlanView, name: str) -> View:
    """One wall as a person stands before it: a column for each stud, a row for each height from the top."""
    assert shown.plan is not None
    members = shown.members(name)
    facing = list(reversed(members)) if name == "L" else list(members)
    plane = shown.plan.planes[name]
    words = plane_words(plane, shown.read(name).nominal, members, ctx.says.papers, ctx.unit)
    heights = sorted({height for member in members for height in member.heights}, reverse=True)
    in_doubt = doubted(ctx)
    marked = {m.name: {each.height: each.text for each in marks(m, ctx.unit)} for m in members}
    return {
        "wall": name,
        "title": ctx.says.sheet(name),
        "plane": words,
        "held": held.of_plane(ctx, name),
        "studs": [
            {
                "name": member.name,
                "href": ctx.href("stud", member.name),
                "do": treatment(member, ctx.says.papers),
                **_held(ctx, name, member.name),
                "touched": member.touched or member.recipe.flange_shim,
                "minutes": ctx.says.minutes(member.minutes),
            }
            for member in facing
        ],
        "rows": [
            {
                "height": place(height, ctx.unit),
                "cells": [_cell(ctx, shown, m, height, marked[m.name], in_doubt) for m in facing],
            }
            for height in heights
        ],
        "move": ctx.href("moves", wall=name),
    }


def _held(ctx: Context, wall: str, stud: str) -> View:
    text = stud_held(held.framing_of(ctx), stud, ctx.says.papers)
    return {"held": text, "doubt": under_a_hold(ctx, wall, stud) if text else None}


def _cell(
    ctx: Context,
    shown: PlanView,
    member: MemberPlan,
    height: Fraction,
    marked: Mapping[Fraction, str],
    in_doubt: set[str],
) -> View:
    from undertile.job.address import height_key, join

    if height not in member.heights:
        return {"mark": "", "state": "none"}
    at = member.heights.index(height)
    mark = ctx.says.mark(marked.get(height, ""))
    read = shown.offsets(member)[at].state
    address = join(
        ("survey", "walls", member.wall, "studs", member.name, "readings", height_key(Length(height)))
    )
    state = "doubt" if address in in_doubt else "read" if read == "read" else "unread"
    return {"mark": mark, "state": state}


def conflicts(ctx: Context, plan: FramingPlan) -> list[View]:
    """What cannot all hold, and for each the smallest change that frees it."""
    if plan.conflict is None:
        return []
    say = ctx.says.told
    return [
        {
            "demands": [say(line) for line in each.demands],
            "given": [say(line) for line in each.given],
            "frees": [say(_change(*pair)) for pair in each.frees],
            "partial": [say(_change(*pair)) for pair in each.partial],
            "undecided": say(each.undecided),
        }
        for each in _every(plan.conflict)
    ]


def _every(conflict: Conflict) -> Iterable[Conflict]:
    return [each for each in (conflict, *conflict.more) if each.demands or each.undecided]


def _change(demand: str, change: str) -> str:
    return (
        change
        if demand.lower() in change.lower()
        else Sentence("{what}: {change}", what=demand, change=change)
    )


def figures(values: dict[str, Any]) -> dict[str, Any]:
    """Left out of a view what is empty."""
    return {key: value for key, value in values.items() if value}
