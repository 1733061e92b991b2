"""Do it: the order of work, a tick for each stud, and the minutes it really took."""

from __future__ import annotations

from fractions import Fraction

from undertile.framing.words import marks
from undertile.job.address import join
from undertile.packet.figures import place
from undertile.packet.order import order_steps
from undertile.packet.studs import treatment
from undertile.screens.context import Context, View
from undertile.screens.forms import row
from undertile.screens.next_step import done_studs, next_step
from undertile.screens.pages.plan import hold, searching


def view(ctx: Context) -> View:
    """The studs that are worked on, those left first, with what to do and what was ticked."""
    says = ctx.says
    title = says("step-work")
    waiting = searching(ctx)
    if waiting is not None:
        return {
            "title": title,
            "next": {"text": waiting["text"], "why": "", "href": ctx.href("plan")},
            "search": waiting,
        }
    ctx.answers.plan(ctx.state)
    shown = ctx.state.view
    if shown is None or shown.plan is None or ctx.state.suspects:
        return {"title": title, "next": next_step(ctx), "search": None, "studs": [], "ready": False}
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
                        {"height": place(each.height, ctx.unit), "mark": each.text}
                        for each in marks(member, ctx.unit)
                    ],
                    "minutes": says.minutes(member.minutes),
                    "href": ctx.href("stud", member.name),
                    "done": member.name in done,
                    "tick": row(ctx, join((*base, "by")), says("done-by")),
                    "actual": row(ctx, join((*base, "minutes")), says("actual-minutes")),
                    "date": row(ctx, join((*base, "date")), says("done-date")),
                }
            )
    studs.sort(key=lambda each: bool(each["done"]))
    planned = sum((m.minutes for m in shown.plan.members if m.name in done), Fraction(0))
    return {
        "title": title,
        "next": next_step(ctx),
        "search": None,
        "ready": True,
        "hold": list(hold(ctx)),
        "order": [
            {"text": step.text, "waits": step.waits, "stop": step.stop}
            for step in order_steps(shown, says.papers)
        ],
        "studs": studs,
        "left": sum(not each["done"] for each in studs),
        "who": ctx.host.who,
        "today": ctx.host.now()[:10],
        "planned": says("planned-minutes", minutes=says.minutes(planned)) if done else "",
        "actual": says("actual-so-far", minutes=_actual(studs)) if done else "",
    }


def _actual(studs: list[View]) -> str:
    """Minutes noted so far, as typed and added up; those not noted do not count."""
    found = Fraction(0)
    for each in studs:
        text = each["actual"]["value"]
        if (
            each["done"]
            and text
            and text.replace(".", "", 1).isdecimal()
            and text.isascii()
            and len(text) < 8
        ):
            found += Fraction(text)
    return f"{float(found):g}"
