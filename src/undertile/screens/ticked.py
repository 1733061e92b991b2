"""Studs ticked off: what each tick was for, and whether the plan still asks that."""

from __future__ import annotations

from undertile.lengths import Unit
from undertile.recheck.did import Tick, read_did, tick_of
from undertile.screens.context import Context
from undertile.screens.seen import seen
from undertile.screens.words import Says


def ticked_studs(ctx: Context) -> set[str]:
    """Studs of which somebody said that they were worked on, for whatever plan."""
    return {
        path[2]
        for path, fact in ctx.state.facts.items()
        if path[:2] == ("recheck", "done") and any(entry.value is not None for entry in fact.standing)
    }


def asks(ctx: Context) -> dict[str, str]:
    """What the plan asks of each stud, as a tick keeps it; nothing while no plan is known."""
    known = seen(ctx)
    return {} if known is None else known.asks


def did_typed(ctx: Context, stud: str) -> tuple[str, ...]:
    """What a stud's tick was for, as kept; several only where two devices said several things."""
    fact = ctx.state.facts.get(("recheck", "done", stud, "did"))
    standing = () if fact is None else fact.standing
    return tuple(dict.fromkeys(entry.value for entry in standing if entry.value))


def ticks(ctx: Context, asked: dict[str, str]) -> dict[str, Tick]:
    """Every stud ticked, and what its tick is worth where the plan asks that of each."""
    out: dict[str, Tick] = {}
    for stud in ticked_studs(ctx):
        worth = {tick_of(text, asked.get(stud)) for text in did_typed(ctx, stud) or ("",)}
        out[stud] = next(each for each in ("earlier", "unknown", "holds") if each in worth)
    return out


def done_studs(ctx: Context) -> set[str]:
    """Studs ticked for what the plan asks of them now."""
    return {stud for stud, tick in ticks(ctx, asks(ctx)).items() if tick == "holds"}


def did_words(says: Says, text: str, unit: Unit) -> str:
    """What was done, or is asked, in words: ``Plane, -1/8 at 26, -1/8 at 50``; as typed where it is none."""
    from undertile.framing.say import place, said  # only where something is ticked: quick at first

    its = read_did(text, unit)
    if its is None:
        return text
    try:
        named = " + ".join(says.papers(f"do-{each}") for each in its.families or ("leave",))
    except KeyError:  # of a newer version
        return text
    spots = [
        says(
            "did-at",
            amount=says.mark(said(amount, unit, signed=True, mark=False)),
            height=place(height, unit),
        )
        for height, amount in its.amounts.items()
    ]
    return ", ".join([named, *spots])
