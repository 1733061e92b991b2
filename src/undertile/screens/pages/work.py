"""Do it: the order of work, a tick for each stud, and the minutes it really took."""

from __future__ import annotations

from fractions import Fraction

from undertile.framing.plan import MemberPlan
from undertile.framing.words import marks
from undertile.job.address import join
from undertile.packet.figures import place
from undertile.packet.keep_off import keep_off
from undertile.packet.order import order_steps
from undertile.packet.plan_view import PlanView
from undertile.packet.studs import treatment, waits_of
from undertile.recheck.did import LEAVE, read_did
from undertile.screens.and_then import and_then
from undertile.screens.context import Context, View
from undertile.screens.forms import row
from undertile.screens.next_step import next_step
from undertile.screens.pages.gate import before_the_plan
from undertile.screens.pages.plan import floor_of, hold
from undertile.screens.steps_water import asked, cover_of
from undertile.screens.ticked import asks, did_typed, did_words, ticks


def view(ctx: Context) -> View:
    """The studs that are worked on, those left first, with what to do and what was ticked."""
    says = ctx.says
    title = says("step-work")
    waiting = before_the_plan(ctx, title)
    if waiting is not None:
        return waiting
    ctx.answers.plan(ctx.state)
    shown = ctx.state.view
    if shown is None or shown.plan is None or ctx.state.suspects:
        lead = next_step(ctx)
        return {
            "title": title,
            "next": lead,
            "then": and_then(ctx, lead),
            "studs": [],
            "ready": False,
            "cover": cover_of(ctx),
        }
    asked_now = asks(ctx)
    worth = ticks(ctx, asked_now)
    done = {name for name, tick in worth.items() if tick == "holds"}
    studs = []
    for name in shown.walls:
        for member in shown.members(name):
            stale = member.name in worth and member.name not in done
            if not (member.touched or member.recipe.flange_shim or stale):
                continue
            base = ("recheck", "done", member.name)
            studs.append(
                {
                    "name": member.name,
                    "wall": says.sheet(name),
                    "do": treatment(member, says.papers),
                    "marks": [
                        {"height": place(each.height, ctx.unit), "mark": says.mark(each.text)}
                        for each in marks(member, ctx.unit)
                    ],
                    "mind": _mind(ctx, shown, member),
                    "minutes": says.minutes(member.minutes),
                    "href": ctx.href("stud", member.name),
                    "done": member.name in done,
                    "stale": _stale(ctx, member, asked_now[member.name]) if stale else [],
                    "asked": member.touched,
                    "with_pan": not member.touched and member.recipe.flange_shim,
                    "did": {**row(ctx, join((*base, "did")), ""), "asks": asked_now[member.name]},
                    "tick": row(ctx, join((*base, "by")), says("done-by")),
                    "actual": row(ctx, join((*base, "minutes")), says("actual-minutes")),
                    "date": row(ctx, join((*base, "date")), says("done-date")),
                }
            )
    studs.sort(key=lambda each: (bool(each["done"]), bool(each["with_pan"]), not each["asked"]))
    planned = sum((m.minutes for m in shown.plan.members if m.name in done), Fraction(0))
    first = next((each for each in studs if not each["done"] and each["asked"]), None)
    step = next_step(ctx)
    if first is not None and step["href"] == ctx.href("work"):
        step = {"text": f"{first['name']}: {first['do']}", "why": "", "href": first["href"]}
    return {
        "title": title,
        "next": step,
        "then": and_then(ctx, step),
        "ready": True,
        "cover": cover_of(ctx),
        "hold": list(hold(ctx)),
        "order": [
            {"text": step.text, "waits": step.waits, "stop": step.stop}
            for step in order_steps(shown, says.papers, asked(ctx), floor_of(ctx), ctx.state.today)
        ],
        "studs": studs,
        "left": sum(bool(not each["done"] and each["asked"]) for each in studs),
        "who": ctx.host.who,
        "today": ctx.host.now()[:10],
        "planned": says("planned-minutes", minutes=says.minutes(planned)) if done else "",
        "actual": _actual(ctx, studs),
    }


def _mind(ctx: Context, shown: PlanView, member: MemberPlan) -> list[View]:
    """Before a tool is set on the stud: what must not be hit, and which strip waits for the pan (convention
    3.5), in the crew sheet's own words."""
    guards = [step for step in keep_off(shown, member, ctx.says.papers) if step.stop]
    late = waits_of(shown, member, ctx.says.papers)
    return [{"text": step.text, "waits": step.waits, "stop": step.stop} for step in (*guards, *late)]


def _stale(ctx: Context, member: MemberPlan, asks_now: str) -> list[str]:
    """A tick that is not for what the plan asks now: what it was for, and what is asked."""
    says = ctx.says
    typed = did_typed(ctx, member.name)
    out = [says("tick-earlier", did=did_words(says, each, ctx.unit)) for each in typed if each != asks_now]
    out = out or [says("tick-unknown")]
    if asks_now != LEAVE:
        its_now = read_did(asks_now, ctx.unit)
        key = "tick-asks-from" if its_now is not None and its_now.changed else "tick-asks"
        return [*out, says(key, asks=did_words(says, asks_now, ctx.unit))]
    its = [read_did(each, ctx.unit) for each in typed]
    changed = not its or any(each is None or each.changed for each in its)
    return [*out, says("tick-asks-leave" if changed else "tick-asks-nothing")]


def _actual(ctx: Context, studs: list[View]) -> str:
    """Minutes noted so far, as typed and added up, and of how many studs: one not noted took no 0 minutes."""
    ticked = [each["actual"]["value"] or "" for each in studs if each["done"]]
    noted = [
        Fraction(text)
        for text in ticked
        if text.replace(".", "", 1).isdecimal() and text.isascii() and len(text) < 8
    ]
    if not noted:
        return ""
    minutes = f"{float(sum(noted)):g}"
    if len(noted) == len(ticked):
        return ctx.says("actual-so-far", minutes=minutes)
    return ctx.says("actual-of-some", minutes=minutes, noted=str(len(noted)), all=str(len(ticked)))
