"""The order of tests and repairs of one day: by their hours, and where one has none, the worse order counts.

A clean test without an hour was made first thing, one that shows water last thing; a repair without one is
before the find and after the clean test. So a source stays open until the hours are written (ours, no
source).
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import replace

from undertile.findings import Finding, Severity
from undertile.sentence import Sentence, joined
from undertile.wood.facts import Candidate, LeakFacts, Mended
from undertile.wood.leakshown import Asked, Outcome
from undertile.wood.leakstands import NAMES, READINGS, CandidateStands
from undertile.wood.typed import day_text, read_moment

SOURCE = "leak-order"
_END = 1 - 1e-6
"""The last of a day. [d]"""
_DO = Sentence("Write the hour of each; until then the worse order counts, and it is open.")


def earliest(day: float, *, hour: bool) -> float:
    """The earliest that something of a day can be. [d]"""
    return day if hour else day // 1


def latest(day: float, *, hour: bool) -> float:
    """The latest that something of a day can be. [d]"""
    return day if hour else day // 1 + _END


def mended_between(mended: Mended) -> tuple[float, float]:
    """The earliest and the latest that a repair can be of. [d]"""
    at = read_moment(mended.when)
    return earliest(at.days, hour=at.hour), latest(at.days, hour=at.hour)


def in_order(tests: Sequence[Outcome]) -> tuple[Outcome, ...]:
    """Tests in the worse of their orders: without an hour a clean one first in its day, a wet one last.

    Parameters
    ----------
    tests : sequence of Outcome

    Returns
    -------
    tuple of Outcome
        By day; of one moment those that show water last.
    """
    placed = [
        each
        if each.hour
        else replace(each, day=latest(each.day, hour=False) if each.leaks else earliest(each.day, hour=False))
        for each in tests
    ]
    return tuple(sorted(placed, key=lambda each: (each.day, bool(each.leaks), each.test)))


def unordered(stands: CandidateStands, leak: LeakFacts, tests: Sequence[Outcome]) -> CandidateStands:
    """The same; where it is not settled and hours of one day are missing, they are asked.

    Parameters
    ----------
    stands : CandidateStands
        By the worse order.
    leak : LeakFacts
    tests : sequence of Outcome

    Returns
    -------
    CandidateStands
    """
    if stands.standing not in ("open", "found"):
        return stands
    its = _asked(stands.candidate, leak, tests)
    if its is None:
        return stands
    mended = stands.candidate in leak.mended
    why = joined([stands.why, its.came], "{first}; {then}")
    standing = "open" if mended else stands.standing
    return replace(stands, standing=standing, why=why, do="", source=SOURCE, asked=its)


def _asked(candidate: Candidate, leak: LeakFacts, tests: Sequence[Outcome]) -> Asked | None:
    """What is asked of the newest day on which the order tells and is not known."""
    events: dict[int, list[tuple[str, bool, str]]] = {}
    last = -1
    for each in tests:
        sort = _sort(each, candidate)
        if sort:
            events.setdefault(int(each.day // 1), []).append((sort, each.hour, each.test))
        if sort == "wet":
            last = max(last, int(each.day // 1))
    mended = leak.mended.get(candidate)
    if mended is not None:
        at = read_moment(mended.when)
        did = Sentence("mended {day}: {what}", day=mended.when, what=mended.what)
        events.setdefault(int(at.days // 1), []).append(("mended", at.hour, did))
        last = max(last, int(at.days // 1))  # what was shown before it is answered by it
    for day in sorted(events, reverse=True):
        some = events[day]
        if day < last or len({sort for sort, _, _ in some}) < 2 or all(hour for _, hour, _ in some):
            continue
        which = joined([what for _, _, what in some], "{first}; {then}")
        return Asked(
            Sentence("the hours of what was done on {day}: {which}", day=day_text(day), which=which),
            Sentence("which came first on {day} is not known: an hour is missing", day=day_text(day)),
            _DO,
            SOURCE,
        )
    return None


def _sort(test: Outcome, candidate: Candidate) -> str:
    if test.test == READINGS:
        return ""
    if candidate in test.leaks:
        return "wet"
    clean = candidate in test.excludes or (candidate == "enclosure" and test.zone is not None)
    return "clean" if clean else ""


def order_findings(stands: Sequence[CandidateStands]) -> Iterator[Finding]:
    """One finding for each day whose hours are asked, for all sources that wait for them.

    Parameters
    ----------
    stands : sequence of CandidateStands

    Yields
    ------
    Finding
    """
    of: dict[Asked, list[str]] = {}
    for each in stands:
        if each.asked is not None and each.asked.source == SOURCE:
            of.setdefault(each.asked, []).append(NAMES[each.candidate])
    for its, which in of.items():
        where = joined(which, "{first}; {then}")
        yield Finding("leak-test-asked", Severity.ACT, where, its.expected, its.came, its.do, its.source)
