"""What stands before a plan, asked first by every screen that needs one: readings in doubt, and the search.

What is cut to a wrong number stays cut: while a reading is in doubt no amount is shown, unless the person
asks for the plan as typed.
"""

from __future__ import annotations

from undertile.screens.context import Context, View
from undertile.screens.next_step import next_step
from undertile.screens.slices import found, log_text

TYPED = "typed"
"""In the address: show it as typed, the readings in doubt too."""


def before_the_plan(ctx: Context, title: str) -> View | None:
    """What the screen shows instead; None when the plan is known and may be shown.

    The plan is then in ``ctx.state``.
    """
    if ctx.state.suspects and TYPED not in ctx.query:
        return {
            "title": title,
            "next": next_step(ctx),
            "gate": {
                "state": "settle",
                "text": ctx.says("settle-first"),
                "doubts": [
                    f"{ctx.says.place(group[0].where)}: {ctx.says.slip(group[0].code, group[0].slip)}"
                    for group in ctx.state.suspects
                ],
                "typed": f"?{TYPED}=1",
            },
        }
    told = searching(ctx)
    if told is None:
        return None
    return {"title": title, "next": {"text": told["text"], "why": "", "href": ""}, "gate": told}


def searching(ctx: Context) -> View | None:
    """How far the search is; None when it is over. Where nobody looks elsewhere, it is done here and now."""
    state, host = ctx.state, ctx.host
    if state.plans is not None:
        if host.searches is not None and not state.plans.rebuild.whole:
            answer = host.searches.found(state.key)
            if answer is not None and answer != state.plans.told:
                ctx.answers.accept(state.key, found(answer), answer)
        return None
    if host.searches is None:
        ctx.answers.plan(state)
        return None
    answer = host.searches.found(state.key)
    if answer is not None:
        ctx.answers.accept(state.key, found(answer), answer)
        return None
    if "stop" in ctx.query:
        host.searches.cancel(state.key)
        return {"state": "stopped", "text": ctx.says("search-stopped"), "looked": "", "bound": ""}
    host.searches.start(ctx.job, state.key, log_text(state.log))
    far = host.searches.progress(state.key)
    bound = ""
    if far is not None and far.bound > 0:
        bound = ctx.says("search-bound", dollars=ctx.says.dollars(far.bound))
    return {
        "state": "searching",
        "text": ctx.says("searching"),
        "looked": ctx.says("search-looked", number=str(far.looked)) if far is not None else "",
        "bound": bound,
    }
