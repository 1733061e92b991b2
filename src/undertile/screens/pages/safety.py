"""What can hurt someone: what stops first, with boxes to lift it in; then what is typed of it."""

from __future__ import annotations

from undertile.findings import Finding, Severity
from undertile.job.address import join
from undertile.safety.lifts import lift
from undertile.screens.context import Context, View
from undertile.screens.forms import group, row
from undertile.screens.next_step import next_step
from undertile.screens.pages.named import several

BASE = "safety"
HOUSE = ("year", "water")
NAMED = ("off", "lead", "asbestos", "mold", "shared")


def view(ctx: Context) -> View:
    """The hold line, stops of every part, cautions, and the facts they come from."""
    says = ctx.says
    rebuild = ctx.state.printed or ctx.state.beside
    lifts = ctx.state.folded.job.safety.lifted.values()
    ahead = () if ctx.state.printed is not None else lift(ctx.state.foreseen, lifts, clock=ctx.state.clock)
    said = (*rebuild.findings, *ahead)
    stops = [each for each in said if each.severity is Severity.STOP]
    own = ctx.state.beside.results[BASE].findings
    return {
        "title": says("safety-title"),
        "next": _lead(ctx, bool(stops)),
        "hold": (says.papers("hold-head"), says.papers("hold")),
        "stops": [_stop(ctx, each) for each in stops],
        "findings": [says.finding(each) for each in own if each.severity is not Severity.STOP],
        "house": group(
            ctx,
            says("part-house"),
            [row(ctx, join((BASE, name)), says.field("house", name)) for name in HOUSE],
            says("note-house"),
        ),
        "parts": [several(ctx, name, (BASE, name)) for name in NAMED],
        "lifts": several(ctx, "lifts", (BASE, "lifted")),
    }


def _lead(ctx: Context, stops: bool) -> View:
    """The next step; a stop of the plan is answered here, and leads nowhere else from here."""
    lead = next_step(ctx)
    return {**lead, "href": ctx.href(BASE)} if stops and lead["href"] == ctx.href("plan") else lead


def cautions_said(ctx: Context) -> View:
    """What the screens of water and floor say of it: stops and things to do, and the way to the rest."""
    own: tuple[Finding, ...] = ctx.state.beside.results[BASE].findings
    return {
        "title": ctx.says("safety-title"),
        "stops": [ctx.says.finding(each) for each in own if each.severity is Severity.STOP],
        "findings": [ctx.says.finding(each) for each in own if each.severity is Severity.ACT],
        "href": ctx.href(BASE),
    }


def _stop(ctx: Context, stop: Finding) -> View:
    """A stop, and the boxes in which a person lifts it (convention 6.2)."""
    base = (BASE, "lifted", f"{stop.code} {stop.where}")
    rows = [row(ctx, join((*base, key)), ctx.says.field("lifts", key)) for key in ("by", "reason", "date")]
    return {
        **ctx.says.finding(stop),
        "rows": rows,
        "with": [
            {"fact": join((*base, "stop")), "value": stop.code},
            {"fact": join((*base, "where")), "value": str(stop.where)},
        ],
    }
