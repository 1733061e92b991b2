"""Photos by wall, stud and stage; what a photo shows is entries of the log, its content lies beside."""

from __future__ import annotations

from collections.abc import Iterable

from undertile.job.entry import Entry
from undertile.screens.context import Context, View
from undertile.screens.next_step import next_step
from undertile.screens.pad_sheet import studs_in_order
from undertile.store.interface import Photo

STAGES = ("opened", "repaired", "trued", "straightedge", "blocked", "plumbed", "covered", "other")
"""When a photo was taken, in the order of the job (common practice)."""


ABOUT = ("wall", "stud", "stage", "note")


def told_of(log: Iterable[Entry], photo: Photo) -> tuple[dict[str, str], str]:
    """What is said of a photo, and when; of two that disagree one is shown and both are kept."""
    by_fact = {photo.fact(key): key for key in ABOUT}
    its = [entry for entry in log if entry.fact in by_fact]
    gone = {name for entry in its for name in entry.supersedes}
    told = {by_fact[entry.fact]: entry.value or "" for entry in its if entry.id not in gone}
    return told, max((entry.time for entry in its), default="")


def place_of(told: dict[str, str]) -> str:
    """Where a photo was taken: a stud, a wall, or the room."""
    if told.get("stud"):
        return told["stud"]
    return f"wall {told['wall']}" if told.get("wall") else "room"


def view(ctx: Context) -> View:
    """Every photo with its place and stage, by place; what to take next."""
    says = ctx.says
    shots = []
    for photo in ctx.store.photos(ctx.job):
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
                "time": says.time(time),
            }
        )
    shots.sort(
        key=lambda each: (each["place"], STAGES.index(each["stage"]) if each["stage"] in STAGES else 99)
    )
    asked = ctx.query.get("place", "")
    survey = ctx.state.folded.job.survey
    places = ["room"]
    for name in ("B", "L", "R"):
        if name in survey.walls:
            places += [f"wall {name}", *studs_in_order(survey.walls[name])]
    return {
        "title": says("step-photos"),
        "next": next_step(ctx) if shots else {"text": says("next-photo"), "why": "", "href": "#take"},
        "photos": [each for each in shots if not asked or each["place"] == asked],
        "asked": asked,
        "can_take": ctx.host.clean_photo is not None,
        "places": [{"value": place, "label": says.photo_place(place)} for place in places],
        "stages": [{"value": stage, "label": says(f"stage-{stage}")} for stage in STAGES],
        "missing": [
            {"place": f"wall {name}", "text": f"{says.photo_place(f'wall {name}')} - {says('stage-opened')}"}
            for name in ("B", "L", "R")
            if name in survey.walls and not any(each["place"] == f"wall {name}" for each in shots)
        ],
    }
