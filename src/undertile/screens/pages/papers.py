"""Papers: those the host can hand out; the crew sheet, the survey form and the proof as pages to print."""

from __future__ import annotations

from dataclasses import asdict

from undertile.errors import UndertileError
from undertile.job import Rebuild
from undertile.packet.crew import crew_sheet
from undertile.packet.drawings import crew_drawings, floor_drawings
from undertile.packet.floor import floor_sheet
from undertile.packet.form import survey_form
from undertile.packet.proof import proof_sheet
from undertile.packet.record import record_drawings, water_record
from undertile.screens.context import Context, View
from undertile.screens.next_step import next_step
from undertile.screens.pages.gate import before_the_plan
from undertile.screens.steps_floor import begun


def view(ctx: Context) -> View:
    """Which papers there are."""
    says = ctx.says
    out: View = {
        "title": says("step-papers"),
        "next": next_step(ctx)
        if ctx.state.folded.clashes  # a sheet printed over two values for one fact is worked with neither
        else {"text": says("next-papers"), "why": "", "href": ctx.href("papers", "crew")},
        "print": [
            {"title": says("paper-crew"), "href": ctx.href("papers", "crew")},
            {"title": says("paper-form"), "href": ctx.href("papers", "form")},
            {"title": says("paper-proof"), "href": ctx.href("papers", "proof")},
            *_of_floor(ctx),
            *_of_water(ctx),
        ],
        "files": [],
        "other": [
            {"title": says("in-english"), "href": ctx.href("papers", lang="en")},
            {"title": says("in-spanish"), "href": ctx.href("papers", lang="es")},
        ],
    }
    return out


def crew(ctx: Context) -> View:
    """The crew sheet's content, to be printed from the browser."""
    title = ctx.says("paper-crew")
    waiting = before_the_plan(ctx, title)
    if waiting is not None:
        return waiting
    rebuild = _rebuild(ctx)
    sheet = crew_sheet(rebuild, date=ctx.host.now()[:10], language=ctx.says.language)
    drawings: dict[str, list[str]] = {}
    if sheet.state == "ready":
        for key, svg in crew_drawings(rebuild, ctx.says.language).items():
            wall = key.split("-")[1][0] if key.startswith("wall-") else ""
            drawings.setdefault(wall, []).append(svg)
    return {"title": title, "next": _print(ctx), "sheet": asdict(sheet), "drawings": drawings}


def form(ctx: Context) -> View:
    """The survey form's content."""
    sheet = survey_form(ctx.state.folded.job, date=ctx.host.now()[:10], language=ctx.says.language)
    return {"title": ctx.says("paper-form"), "next": _print(ctx), "sheet": asdict(sheet)}


def floor(ctx: Context) -> View:
    """The floor sheet's content: it waits for no plan of the walls."""
    beside, language = ctx.state.beside, ctx.says.language
    sheet = floor_sheet(beside, date=ctx.host.now()[:10], language=language)
    title = ctx.says("paper-floor")
    if sheet is None:
        return {"title": title, "next": next_step(ctx), "sheet": None, "drawings": []}
    drawn = floor_drawings(beside, language) if sheet.patches else {}
    name = {"floor-panels": ctx.says("floor-panels")}
    drawings = [
        {"title": name.get(key, f"{ctx.says('floor-drawing')} {number}"), "svg": svg}
        for number, (key, svg) in enumerate(drawn.items(), 1)
    ]
    return {"title": title, "next": _print(ctx), "sheet": asdict(sheet), "drawings": drawings}


def water(ctx: Context) -> View:
    """The water record's content: it waits for no plan of the walls."""
    beside, language = ctx.state.beside, ctx.says.language
    sheet = water_record(beside, date=ctx.host.now()[:10], language=language)
    title = ctx.says("water-record")
    if sheet is None:
        return {"title": title, "next": next_step(ctx), "sheet": None, "drawings": []}
    drawings = list(record_drawings(beside, language, ctx.host.now()[:10]).values())
    return {"title": title, "next": _print(ctx), "sheet": asdict(sheet), "drawings": drawings}


def proof(ctx: Context) -> View:
    """The proof's content; none where nothing was read again."""
    title = ctx.says("paper-proof")
    waiting = before_the_plan(ctx, title)
    if waiting is not None:
        return waiting
    rebuild = _rebuild(ctx)
    found = rebuild.results.get("recheck")
    if found is None or found.proof is None:
        return {"title": title, "next": next_step(ctx), "sheet": None}
    sheet = proof_sheet(rebuild, date=ctx.host.now()[:10], language=ctx.says.language)
    passes = ctx.says.papers("proof-pass").replace(" ", "\u00a0")
    return {"title": title, "next": _print(ctx), "sheet": asdict(sheet), "passes": passes}


def _of_floor(ctx: Context) -> list[View]:
    """The floor sheet, where a floor is begun."""
    if not begun(ctx):
        return []
    return [{"title": ctx.says("paper-floor"), "href": ctx.href("papers", "floor")}]


def _of_water(ctx: Context) -> list[View]:
    """The water record, where anything of the water is read or tested."""
    found = ctx.state.water
    if found is None or not found.begun:
        return []
    return [{"title": ctx.says("water-record"), "href": ctx.href("papers", "water")}]


def _rebuild(ctx: Context) -> Rebuild:
    """All the job comes to; the plan is looked for now if it is not known yet."""
    ctx.answers.plan(ctx.state)
    rebuild = ctx.state.printed
    if rebuild is None:
        raise UndertileError(ctx.says("fault"))
    return rebuild


def _print(ctx: Context) -> View:
    return {"text": ctx.says("print"), "why": ctx.says("print-note"), "href": ""}
