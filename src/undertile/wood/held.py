"""Verdicts that a newest reading holds back: one that is kept and not used says neither dry nor when."""

from __future__ import annotations

from dataclasses import replace

from undertile.sentence import Sentence
from undertile.wood.correct import Corrected
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
    newest = _unused(series)
    if newest is None or verdict.call not in ("close", "not shown", "dry on"):
        return verdict
    sample, corrected = newest
    return replace(
        verdict,
        call="not shown",
        why=Sentence(
            "shows {shown} on visit {visit}, with the wood too hot or too cold to correct it",
            shown=f"{corrected.shown:g}",
            visit=sample,
        ),
        next_step=Sentence("Type the wood's temperature again, or leave it out if it was not measured."),
        source="pin-temperature-range",
        near=False,
    )


def _unused(series: Series) -> tuple[str, Corrected] | None:
    """The newest number of a point with its visit, where it is not used; else None."""
    for each in reversed(series.samples):
        if each.value is not None:
            return None
        if each.corrected is not None and not each.corrected.counts:
            return each.round.name, each.corrected
    return None
