"""Which readings are in doubt, by their addresses: to mark what stands on them."""

from __future__ import annotations

from undertile.screens.context import Context, View
from undertile.screens.pad_sheet import places


def doubted(ctx: Context) -> set[str]:
    """Addresses of the readings that a slip would change, and of those it is named by."""
    if not ctx.state.suspects:
        return set()
    at = places(ctx)
    named = [group[0].where for group in ctx.state.suspects]
    named += [place for group in ctx.state.suspects for place, _ in group[0].changes]
    return {at[place] for place in named if place in at}


def under_a_hold(ctx: Context, wall: str, stud: str = "") -> View | None:
    """What of a held plane or stud was read in doubt, said; None where nothing is.

    A hold is a person's word about what stands there: a reading that looks wrong is a reason to look again
    before anything is built around it.
    """
    base = f"survey.walls.{wall}.studs." + (f"{stud}." if stud else "")
    found = doubted(ctx)
    its = [place for place, address in places(ctx).items() if address in found and address.startswith(base)]
    if not its:
        return None
    first, more = its[0], len(its) - 1
    where = ctx.says.place(first)
    return {
        "text": ctx.says("held-doubt-more", where=where, more=str(more))
        if more
        else ctx.says("held-doubt", where=where),
        "href": ctx.href("read", wall, at=places(ctx)[first]),
    }
