"""One job: what to do next, and every screen in the order of the work with how far it is."""

from __future__ import annotations

from undertile.screens.and_then import and_then
from undertile.screens.context import Context, View
from undertile.screens.next_step import STEPS, next_step, progress, reread_studs
from undertile.screens.pad_sheet import judged
from undertile.screens.photo_counts import photos_of
from undertile.screens.seen import seen
from undertile.screens.steps_floor import state_of as floor_state
from undertile.screens.steps_water import begun
from undertile.screens.ticked import done_studs


def view(ctx: Context) -> View:
    """The steps with where each stands."""
    counts = progress(ctx)
    told = judged(ctx)
    done, of = (sum(each) for each in zip(*counts.values(), strict=True)) if counts else (0, 0)
    doubts = len(told["doubts"]) + len(told["clashes"]) + len(told["left_out"])
    plan = seen(ctx)
    touched = plan.touched if plan is not None else ()
    ticked = done_studs(ctx) & set(touched)
    says = ctx.says
    water = ""
    if begun(ctx):
        from undertile.screens.pages.water import state_of  # only where there is water: quick at first

        water = state_of(ctx)
    states = {
        "water": water,
        "floor": floor_state(ctx),
        "read": says("state-read", done=str(done), of=str(of)) if of else "",
        "doubts": says("state-doubts", number=str(doubts))
        if doubts
        else (says("state-no-doubts") if done else ""),
        "plan": says("state-planned", number=str(len(touched))) if touched else "",
        "work": says("state-work", done=str(len(ticked)), of=str(len(touched))) if touched else "",
        "recheck": says("state-reread", number=str(len(reread_studs(ctx)))) if reread_studs(ctx) else "",
        "photos": _photos(ctx),
        "history": says("state-history", number=str(len(ctx.state.log))),
    }
    lead = next_step(ctx)
    return {
        "title": ctx.state.folded.job.name or says("no-name"),
        "place": ctx.state.folded.job.place,
        "next": lead,
        "then": and_then(ctx, lead),
        "steps": [
            {
                "key": key,
                "text": says(f"step-{key}"),
                "state": states.get(key, ""),
                "loud": key == "doubts" and doubts > 0,
                "href": ctx.href(key),
            }
            for key in STEPS
        ],
    }


def _photos(ctx: Context) -> str:
    """Photos kept here, and walls and floor whose photo is only noted by its day: they may lie elsewhere."""
    number = str(len(photos_of(ctx)))
    noted = len(ctx.state.folded.job.wood.cover.photos)
    if not noted:
        return ctx.says("state-photos", number=number)
    key = "state-photos-noted-one" if noted == 1 else "state-photos-noted"
    return ctx.says(key, number=number, noted=noted)
