"""Do it: the order of work, a tick for each stud, and the minutes it really took."""

from __future__ import annotations

from fractions import Fraction

from undertile.framing.words import marks
from undertile.job.address import join
from undertile.packet.figures import place
from undertile.packet.order import order_steps
from undertile.packet.studs import treatment
from undertile.screens.and_then import and_then
from undertile.screens.context import Context, View
from undertile.screens.forms import row
from undertile.screens.next_step import done_studs, next_step
from undertile.screens.pages.gate import before_the_plan
from undertile.screens.pages.plan import floor_of, hold
from undertile.screens.steps_water import asked, cover_of


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
    done = done_studs(ctx)
    studs = []
    for name in shown.walls:
        for member in shown.members(name):
            if not (member.touched or member.recipe.flange_shim):
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
                    "minutes": says.minutes(member.minutes),
                    "href": ctx.href("stud", member.name),
                    "done": member.name in done,
                    "with_pan": not member.touched,
                    "tick": row(ctx, join((*base, "by")), says("done-by")),
                    "actual": row(ctx, join((*base, "minutes")), says("actual-minutes")),
                    "date": row(ctx, join((*base, "date")), says("done-date")),
                }
            )
    studs.sort(key=lambda each: (bool(each["done"]), bool(each["with_pan"])))
    planned = sum((m.minutes for m in shown.plan.members if m.name in done), Fraction(0))
    first = next((each for each in studs if not each["done"] and not each["with_pan"]), None)
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
        "left": sum(not each["done"] and not each["with_pan"] for each in studs),
        "who": ctx.host.who,
        "today": ctx.host.now()[:10],
        "planned": says("planned-minutes", minutes=says.minutes(planned)) if done else "",
        "actual": _actual(ctx, studs),
    }


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
