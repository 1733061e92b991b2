"""Which readings are in doubt, by their addresses: to mark what stands on them."""

from __future__ import annotations

from undertile.packet.held import over_doubt
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
    """What of a held plane or stud was read in doubt, in the crew sheet's words; None where nothing is."""
    base = f"survey.walls.{wall}.studs." + (f"{stud}." if stud else "")
    found = doubted(ctx)
    its = [place for place, address in places(ctx).items() if address in found and address.startswith(base)]
    if not its:
        return None
    return {
        "text": over_doubt(its, ctx.says.papers),
        "href": ctx.href("read", wall, at=places(ctx)[its[0]]),
    }
