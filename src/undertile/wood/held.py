"""Verdicts that a newest reading holds back: one that is kept and not used says neither dry nor when."""

from __future__ import annotations

from dataclasses import replace

from undertile.sentence import Sentence
from undertile.wood.history import Series
from undertile.wood.verdict import PointVerdict


def held_back(verdict: PointVerdict, series: Series) -> PointVerdict:
    """The same verdict; *not shown* where it would be dry or a date by older readings than the newest.

    Parameters
    ----------
    verdict : PointVerdict
    series : Series
        Of the same point.

    Returns
    -------
    PointVerdict
    """
    newest = series.unused
    if newest is None or newest.corrected is None or verdict.call not in ("close", "not shown", "dry on"):
        return verdict
    return replace(
        verdict,
        call="not shown",
        why=Sentence(
            "shows {shown} on visit {visit}, with the wood too hot or too cold to correct it",
            shown=f"{newest.corrected.shown:g}",
            visit=newest.round.name,
        ),
        next_step=Sentence("Type the wood's temperature again, or leave it out if it was not measured."),
        source="pin-temperature-range",
        near=False,
    )
