"""Which end of a demand is meant, in words, where its title alone would read the same for both."""

from __future__ import annotations

from undertile.framing.loosen import wish_of
from undertile.framing.problem import Demand
from undertile.sentence import form


def side_of(demand: Demand, side: str) -> str:
    """A form for a demand's title with which end of it, where it has two that read alike.

    Parameters
    ----------
    demand : Demand
    side : str
        ``low`` or ``high``; anything else is no end.

    Returns
    -------
    str
        "" where one title does.
    """
    wish = wish_of(demand.code)
    if side not in ("low", "high") or demand.low is None or demand.high is None:
        return ""
    low = side == "low"
    if wish == "play":
        return form("{title}, not too wide") if low else form("{title}, wide enough")
    if wish.startswith("skew-"):
        return (
            form("{title}, its far end not too far back")
            if low
            else form("{title}, its far end not too far in")
        )
    if wish == "square":
        return (
            form("{title}, the one from back right not the longer")
            if low
            else form("{title}, the one from back left not the longer")
        )
    if wish.startswith("square-"):
        return form("{title}, not opening") if low else form("{title}, not closing")
    if wish == "drain-y":
        return form("{title}, not too near the wall") if low else form("{title}, not too far out")
    return form("{title}, not too far back") if low else form("{title}, not too far in")
