"""Moisture rounds: beginning one, and its pad."""

from __future__ import annotations

from datetime import datetime

from undertile.job.address import join, split
from undertile.screens.amiss import mend as mend_href
from undertile.screens.amiss import sent
from undertile.screens.context import Context, View
from undertile.screens.forms import row
from undertile.screens.next_step import counted
from undertile.screens.round.order import names_taken, next_name, visits_in_order, water_facts
from undertile.screens.round.sheet import sheet, stations

NOBODY = ("-", "unnamed", "")


def view(ctx: Context) -> View:
    """The round to go on with, a new one with its day offered, and those before."""
    says = ctx.says
    facts = water_facts(ctx)
    rounds = []
    for name in reversed(visits_in_order(facts)):
        done, of = counted(stations(ctx, name))
        rounds.append(
            {
                "name": name,
                "title": says("round-name", visit=name),
                "when": facts.visits[name].when,
                "state": says("state-read", done=str(done), of=str(of)),
                "left": of - done,
                "href": ctx.href("water", "round", name),
            }
        )
    undated = {name: read for name, read in names_taken(ctx).items() if name not in facts.visits}
    begun = _just_begun(ctx)
    # just sent and nothing read on it yet: its own form is where its day is mended
    blank = next((name for name, read in undated.items() if name in begun and not read), "")
    new = blank or next_name(ctx)
    number = len(stations(ctx, new))
    why = says("round-begin-why", number=number) if rounds and number else says("round-begin-first")
    first: View = {"text": says("round-begin", visit=new), "why": why, "href": ctx.href("water", "round")}
    on = next((each for each in rounds if each["name"] in begun), rounds[0] if rounds else None)
    if on is not None and on["left"]:
        text = says("round-go-on", visit=on["name"], left=on["left"])
        first = {"text": text, "why": "", "href": on["href"]}
    mend = [_undated(ctx, name, read) for name, read in undated.items() if name != blank]
    if mend:
        first = {key: mend[0][key] for key in ("text", "why", "href")}
    return {
        "title": says("round-title"),
        "next": first,
        "visit": new,
        "begin": says("round-begin", visit=new),
        "about": list(_about(ctx, new)),
        "since": [row(ctx, _fact(new, key), says(f"round-{key}")) for key in ("supply", "shower", "rain")],
        "start": ctx.href("water", "round", new),
        "rounds": [*mend, *rounds],
    }


def _undated(ctx: Context, name: str, read: int) -> View:
    """A round that was read and whose day is none: what is asked for, never another round in its place."""
    says, fact = ctx.says, _fact(name, "when")
    return {
        "name": name,
        "title": says("round-name", visit=name),
        "when": ctx.standing(fact)[0] or "",
        "state": says("round-undated"),
        "left": 0,
        "href": mend_href(ctx, fact),
        "text": says("round-mend-day", visit=name),
        "why": says("round-mend-day-why", number=read),
    }


def _just_begun(ctx: Context) -> set[str]:
    """The rounds of the form this screen answers: a day that is wrong puts one behind others."""
    kept = ctx.query.get("kept", "")
    facts = sent(ctx, int(kept)) if kept.isdecimal() and len(kept) < 7 else []
    return {path[2] for path in map(split, facts) if path[:2] == ("wood", "visits") and len(path) > 2}


def _fact(visit: str, key: str) -> str:
    return join(("wood", "visits", visit, key))


def _about(ctx: Context, visit: str) -> list[View]:
    """What is known when a round begins; day and reader are offered in their boxes."""
    says = ctx.says
    when = row(ctx, _fact(visit, "when"), says("round-when"), hint=says("round-when-hint"), wide=True)
    by = row(ctx, _fact(visit, "by"), says("round-by"))
    meters = list(water_facts(ctx).meters)
    meter = row(ctx, _fact(visit, "meter"), says("round-meter"))
    meter["choices"] = [{"value": name, "label": name} for name in meters]
    air = row(ctx, _fact(visit, "air"), says("round-air"))
    humidity = row(ctx, _fact(visit, "humidity"), says("round-humidity"))
    wood = row(ctx, _fact(visit, "wood"), says("round-wood"))
    if ctx.host.who not in NOBODY:
        by["offer"] = ctx.host.who
    return [
        {**when, "offer": _here(ctx.host.now()), "needed": True},
        air,
        humidity,
        wood,
        by,
        *([meter] if len(meters) > 1 else []),
    ]


def _here(now: str) -> str:
    """A time as this device's own clock shows it, ``2026-03-04 16:30``; else as it is."""
    try:
        return datetime.fromisoformat(now).astimezone().strftime("%Y-%m-%d %H:%M")
    except ValueError:
        return now


def pad(ctx: Context) -> View:
    """The pad sheet of one round."""
    return sheet(ctx, ctx.path["visit"])
