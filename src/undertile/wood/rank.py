"""Verdicts in the order of what keeps the gate shut: what can never close as it is comes first."""

from __future__ import annotations

from collections.abc import Iterable

from undertile.wood.verdict import Call, PointVerdict

ORDER: tuple[Call, ...] = ("cut out", "open further", "no date", "dry on", "not shown", "close", "gone")
"""Work first, then what has no date, then waiting, then what is only still to be read."""


def by_gate(points: Iterable[PointVerdict]) -> tuple[PointVerdict, ...]:
    """Sorted by what keeps the gate shut the longest; what is alike keeps its order.

    Parameters
    ----------
    points : iterable of PointVerdict

    Returns
    -------
    tuple of PointVerdict
        Of those with a date the latest first, of those without the one that may be fed, then the wettest.
    """
    found = list(points)
    found.sort(key=lambda each: -(each.value or 0.0))
    found.sort(key=lambda each: -(0.0 if each.fed is None else each.fed.odds) * each.may_be_fed)
    found.sort(key=_latest, reverse=True)
    return tuple(sorted(found, key=lambda each: ORDER.index(each.call)))


def _latest(each: PointVerdict) -> str:
    """Its last day; one that dries on without a date comes before every day."""
    return each.forecast.latest or ("9999" if each.call == "dry on" else "")
