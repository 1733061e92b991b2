"""Photos that could count as the one before a surface is covered: offered, and counted only by a person."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping

from undertile.job.address import join
from undertile.job.entry import Entry
from undertile.screens.context import Context, View
from undertile.screens.forms import row
from undertile.screens.steps_water import asked
from undertile.store.interface import Photo
from undertile.wood.facts import Surface

SURFACES: tuple[Surface, ...] = ("wall L", "wall B", "wall R", "floor")
COVERED = "covered"
"""Stage of a photo that is taken before something is covered (``pages.photos.STAGES``)."""
FLOOR: Surface = "floor"
ABOUT = ("wall", "stud", "surface", "stage", "note")


def told_of(log: Iterable[Entry], photo: Photo) -> tuple[dict[str, str], str]:
    """What is said of a photo, and when; of two that disagree one is shown and both are kept."""
    by_fact = {photo.fact(key): key for key in ABOUT}
    stands, its = _stands(log, by_fact)
    told = {by_fact[entry.fact]: entry.value for entry in stands if entry.value}
    return told, max((entry.time for entry in its), default="")


def _stands(log: Iterable[Entry], facts: Collection[str]) -> tuple[list[Entry], list[Entry]]:
    """What stands of these facts, and all that was ever said of them."""
    its = [entry for entry in log if entry.fact in facts]
    gone = {name for entry in its for name in entry.supersedes}
    return [entry for entry in its if entry.id not in gone], its


def photos_of(ctx: Context) -> list[Photo]:
    """The photos of the job that were not taken back: of one taken back the record keeps the content, and
    nothing stands of what was said of it."""
    log = ctx.state.log
    return [photo for photo in ctx.store.photos(ctx.job) if not _taken_back(log, photo)]


def _taken_back(log: Iterable[Entry], photo: Photo) -> bool:
    stands, _ = _stands(log, {photo.fact(key) for key in ABOUT})
    return bool(stands) and all(entry.value is None for entry in stands)


def to_confirm(ctx: Context) -> list[View]:
    """Photos of a surface at the stage before it is covered, where none is typed or the one typed is of
    before something was done there: a person confirms."""
    cover = ctx.state.folded.job.wood.cover.photos
    lacks = _lacks(ctx)
    found: dict[str, View] = {}
    for photo in photos_of(ctx):
        told, time = told_of(ctx.state.log, photo)
        if told.get("stage") != COVERED:
            continue
        surface = surface_of(told)
        if surface not in SURFACES:
            continue
        if surface in cover and (surface not in lacks or time[:10] <= cover[surface][:10]):
            continue
        where = ctx.says.choice(surface)
        found[surface] = {
            "text": ctx.says("photo-counts", where=where, day=time[:10]),
            "button": ctx.says("photo-count-it", where=where),
            "src": f"{ctx.root}/photo/{photo.name}",
            "row": row(ctx, join(("wood", "cover", "photos", surface)), where),
            "day": time[:10],
        }
    return list(found.values())


def surface_of(told: Mapping[str, str]) -> str:
    """The surface a photo can show whole: its wall or the floor; of the room, the floor; of a stud none."""
    if told.get("stud"):
        return ""
    return f"wall {told['wall']}" if told.get("wall") else FLOOR


def lacking(ctx: Context) -> list[View]:
    """Surfaces whose photo the gate lacks, as the gate tells them; the way to take each, already chosen.

    Returns
    -------
    list of dict
        ``place``, ``text`` and ``href``; empty where nobody speaks of water.
    """
    stage = ctx.says(f"stage-{COVERED}")
    return [
        {"place": place, "text": f"{ctx.says.choice(place)} - {stage}", "href": photo_href(ctx, place)}
        for place in _lacks(ctx)
    ]


def _lacks(ctx: Context) -> list[str]:
    """Surfaces whose photo the gate asks for."""
    found = asked(ctx)
    return [] if found is None else [each.where for each in found.gate.missing if each.kind == "photo"]


def photo_href(ctx: Context, surface: str) -> str:
    """The photos' screen with a surface and the stage before it is covered already chosen."""
    return ctx.href("photos", place=surface, stage=COVERED)
