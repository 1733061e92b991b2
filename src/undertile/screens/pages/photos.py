"""Photos by wall, stud and stage; what a photo shows is entries of the log, its content lies beside."""

from __future__ import annotations

from undertile.screens.amiss import sent
from undertile.screens.clock import here
from undertile.screens.context import Context, View
from undertile.screens.next_step import next_step
from undertile.screens.pad_sheet import studs_in_order
from undertile.screens.photo_counts import FLOOR, SURFACES, lacking, photos_of, to_confirm, told_of
from undertile.screens.steps_water import begun

STAGES = ("opened", "repaired", "trued", "straightedge", "blocked", "plumbed", "covered", "other")
"""When a photo was taken, in the order of the job (common practice)."""


def place_of(told: dict[str, str]) -> str:
    """Where a photo was taken: a stud, a wall, the floor, or the room."""
    if told.get("stud"):
        return told["stud"]
    if told.get("surface") == FLOOR:
        return FLOOR
    return f"wall {told['wall']}" if told.get("wall") else "room"


def view(ctx: Context) -> View:
    """Every photo with its place and stage, by place; what to take next."""
    says = ctx.says
    shots = []
    for photo in photos_of(ctx):
        its, time = told_of(ctx.state.log, photo)
        place = place_of(its)
        stage = its.get("stage", "")
        shots.append(
            {
                "name": photo.name,
                "src": f"{ctx.root}/photo/{photo.name}",
                "place": place,
                "stage": stage,
                "text": " - ".join(
                    word
                    for word in (
                        says.photo_place(place),
                        says(f"stage-{stage}") if stage in STAGES else stage,
                    )
                    if word
                ),
                "note": its.get("note", ""),
                "time": here(ctx, time),
            }
        )
    shots.sort(
        key=lambda each: (each["place"], STAGES.index(each["stage"]) if each["stage"] in STAGES else 99)
    )
    asked = ctx.query.get("place", "")
    survey = ctx.state.folded.job.survey
    places = ["room", FLOOR]
    for name in ("B", "L", "R"):
        if name in survey.walls:
            places += [f"wall {name}", *studs_in_order(survey.walls[name])]
    return {
        "title": says("step-photos"),
        "next": _next(ctx, asked, bool(shots), places),
        "photos": [each for each in shots if not asked or each["place"] == asked],
        "asked": asked,
        "stage": ctx.query.get("stage", ""),
        "confirm": to_confirm(ctx) if begun(ctx) else [],
        "undo": _just_sent(ctx),
        "can_take": ctx.host.clean_photo is not None,
        "places": [{"value": place, "label": says.photo_place(place)} for place in places],
        "stages": [{"value": stage, "label": says(f"stage-{stage}")} for stage in STAGES],
        "missing": lacking(ctx)
        if begun(ctx)
        else [
            {
                "place": f"wall {name}",
                "text": f"{says.photo_place(f'wall {name}')} - {says('stage-opened')}",
                "href": ctx.href("photos", place=f"wall {name}", stage="opened"),
            }
            for name in ("B", "L", "R")
            if name in survey.walls and not any(each["place"] == f"wall {name}" for each in shots)
        ],
    }


def _just_sent(ctx: Context) -> bool:
    """Whether this device's last word is of a photo: one sent with nothing said of it leaves none."""
    return any(fact.startswith("photos.") for fact in sent(ctx, 1))


def _next(ctx: Context, asked: str, any_yet: bool, places: list[str]) -> View:
    """The photo that was asked for; of one not asked for the job's own next step, once there is any."""
    says = ctx.says
    stage = ctx.query.get("stage", "")
    if asked in places and stage in STAGES:
        text = says("next-photo-of", what=says.photo_place(asked), stage=says(f"stage-{stage}"))
        return {"text": text, "why": says("next-photo-square") if asked in SURFACES else "", "href": "#take"}
    return next_step(ctx) if any_yet else {"text": says("next-photo"), "why": "", "href": "#take"}
