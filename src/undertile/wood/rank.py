"""Verdicts in the order of what keeps the gate shut: what can never close as it is comes first."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from undertile.wood.leakstands import CandidateStands
from undertile.wood.verdict import Call, PointVerdict

ORDER: tuple[Call, ...] = (
    "cut out",
    "open further",
    "no date",
    "dry on",
    "not shown",
    "goes out",
    "close",
    "gone",
)
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


def running(points: Iterable[PointVerdict], stands: Sequence[CandidateStands]) -> tuple[PointVerdict, ...]:
    """Points that water may be running to now, `by_gate`: water is looked for before anything is dried.

    A source found on the day of the newest reading or later explains it until it is read again (ours).

    Parameters
    ----------
    points : iterable of PointVerdict
    stands : sequence of CandidateStands

    Returns
    -------
    tuple of PointVerdict
    """
    return tuple(each for each in _unexplained(points, stands) if each.running or each.may_be_fed)


def wet_at_first(
    points: Iterable[PointVerdict], stands: Sequence[CandidateStands]
) -> tuple[PointVerdict, ...]:
    """Points so wet on a first reading that water may be near: it is looked for until the next one tells.

    Parameters
    ----------
    points : iterable of PointVerdict
    stands : sequence of CandidateStands

    Returns
    -------
    tuple of PointVerdict
        `by_gate`; none that `running` tells.
    """
    return tuple(
        each
        for each in _unexplained(points, stands)
        if each.source == "practice-live-water" and not (each.running or each.may_be_fed)
    )


def _unexplained(points: Iterable[PointVerdict], stands: Sequence[CandidateStands]) -> list[PointVerdict]:
    """What stands, but for what a source found since it was read explains."""
    found = max((each.found_on for each in stands if each.found_on is not None), default=float("-inf"))
    return [
        each
        for each in by_gate(points)
        if each.call != "gone" and (each.read_on is None or each.read_on > found)
    ]


def _latest(each: PointVerdict) -> str:
    """Its last day; one that dries on without a date comes before every day."""
    return each.forecast.latest or ("9999" if each.call == "dry on" else "")
