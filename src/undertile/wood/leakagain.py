"""A leak that came and went: a test shows water, a later one does not, and nobody writes what was mended.

It may leak now and then. It is believed dry once somebody writes what was mended and a test after that is
clean; or once the very test that showed it was made again twice, on two days, each at least as long and as
hard, and clean (ours, no source).
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from undertile.sentence import Sentence
from undertile.wood.facts import LeakFacts
from undertile.wood.leakorder import mended_between
from undertile.wood.leakshown import Outcome
from undertile.wood.typed import readable

TWICE = 2
"""Days on which the same test is clean before a leak that nobody mended is believed gone (ours)."""
SOURCE = "leak-came-and-went"
ASK = Sentence(
    "Write what was mended and when; or make the same test again, as long and as hard, clean on two days."
)


def answered(test: Outcome, tests: Sequence[Outcome], leak: LeakFacts) -> bool:
    """Whether what a test showed was mended since, or did not show again.

    Parameters
    ----------
    test : Outcome
        One that finds, or points to, something.
    tests : sequence of Outcome
        Every test.
    leak : LeakFacts

    Returns
    -------
    bool
        Of a repair only that it was written; the test after it is another matter.
    """
    mended = (leak.mended[each] for each in test.leaks if each in leak.mended)
    if any(readable(each.what) and mended_between(each)[0] >= test.day for each in mended):
        return True
    return len(clean_days(test, tests)) >= TWICE


def clean_days(test: Outcome, tests: Sequence[Outcome]) -> tuple[float, ...]:
    """The days on which the same test was clean since, oldest first; of both sides, days of the lesser. [d]

    Parameters
    ----------
    test : Outcome
    tests : sequence of Outcome

    Returns
    -------
    tuple of float
    """
    after = list(_clean_again(test, tests))
    sides = (test.side,) if test.side or test.kind != "pressures" else ("hot", "cold")
    days = [{each.day // 1 for each in after if each.side in ("", side)} for side in sides]
    least = min(range(len(days)), key=lambda at: len(days[at]))
    return tuple(sorted(days[least]))


def _clean_again(test: Outcome, tests: Sequence[Outcome]) -> Iterator[Outcome]:
    """Tests as hard as this one, of the same part, after the last that was not clean."""
    same = [each for each in tests if (each.kind, each.spot) == (test.kind, test.spot)]
    last = max(each.day for each in (test, *same) if each.day >= test.day and _leaks_too(each, test))
    for each in same:
        if each.day > last and _shows_dry(each, test) and _as_hard(each, test):
            yield each


def _shows_dry(each: Outcome, test: Outcome) -> bool:
    """Whether it was clean; of pipes, of all that did not hold."""
    if test.kind == "pressures":
        return set(test.leaks) <= set(each.excludes)
    return bool(each.excludes) or each.zone is not None


def _leaks_too(each: Outcome, test: Outcome) -> bool:
    return bool(set(each.leaks) & set(test.leaks))


def _as_hard(each: Outcome, test: Outcome) -> bool:
    return all(one >= other for one, other in zip(each.hard, test.hard, strict=True))
