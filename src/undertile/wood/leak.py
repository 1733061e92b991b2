"""Where the water comes from: what the tests leave of the candidates.

A candidate is *open* until a test excludes it, and an open one keeps the gate shut. Finding one source
excludes no other. A source that was mended is open again until a test after the repair shows it dry.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from undertile.sentence import Sentence, joined
from undertile.wood.facts import Candidate, LeakFacts
from undertile.wood.leakstands import CANDIDATES, NAMES, READINGS, CandidateStands, Standing, statement
from undertile.wood.leaktests import ZONE_NAMES, ZONES, Outcome
from undertile.wood.nexttest import TESTS, Offered, next_tests
from undertile.wood.say import listed
from undertile.wood.typed import read_moment

__all__ = ["CANDIDATES", "NAMES", "READINGS", "Source", "source"]

_TEST_OF: dict[str, tuple[Candidate, ...]] = {each.kind: each.covers for each in TESTS}


@dataclass(frozen=True)
class Source:
    """What is known of the source.

    Attributes
    ----------
    stands : tuple of CandidateStands
        Every candidate.
    outcomes : tuple of Outcome
        Every test, oldest first.
    next_tests : tuple of Offered
        The one that tells most a minute first (``nexttest``).
    statement : tuple of str
        The cause in plain words, with what was tested and what was not.
    settled : bool
        No candidate is open or found and unmended.
    """

    stands: tuple[CandidateStands, ...]
    outcomes: tuple[Outcome, ...]
    next_tests: tuple[Offered, ...]
    statement: tuple[str, ...]
    settled: bool

    def of(self, standing: Standing) -> tuple[Candidate, ...]:
        """Candidates that stand so."""
        return tuple(each.candidate for each in self.stands if each.standing == standing)


def source(leak: LeakFacts, tests: Sequence[Outcome]) -> Source:
    """Where the water comes from, as far as it was tested.

    Parameters
    ----------
    leak : LeakFacts
    tests : sequence of Outcome
        Oldest first; what the readings show may be among them.

    Returns
    -------
    Source
    """
    found, excluded = _direct(tests)
    _by_elimination(tests, found, excluded)
    suspected = _suspected(tests, found, excluded)
    stands = tuple(
        _stands(each, leak, found.get(each), excluded.get(each), each in suspected, tests)
        for each in CANDIDATES
    )
    left = [each for each in stands if each.standing in ("open", "found")]
    offered = next_tests(leak, stands)
    return Source(stands, tuple(tests), offered, statement(stands, tests), not left)


_Known = dict[Candidate, Outcome]


def _direct(tests: Sequence[Outcome]) -> tuple[_Known, _Known]:
    """The newest test that finds, and the newest that excludes, each candidate."""
    found: _Known = {}
    excluded: _Known = {}
    sides: dict[Candidate, dict[str, Outcome]] = {}
    zones: dict[str, Outcome] = {}
    for test in tests:
        for each in test.finds:
            found[each] = test
        for each in test.excludes:
            if not test.side:
                excluded[each] = test
                continue
            sides.setdefault(each, {})[test.side] = test
            if len(sides[each]) == 2:
                excluded[each] = test
        if test.zone is not None:
            zones[test.zone] = test
        elif "enclosure" in test.one_of:
            zones.clear()
        if all(zone in zones for zone in ZONES) and test.zone is not None:
            excluded["enclosure"] = test
    return found, excluded


def _by_elimination(tests: Sequence[Outcome], found: _Known, excluded: _Known) -> None:
    """One of several leaks, and all but one of them are excluded: that one."""
    for test in tests:
        rest = [each for each in test.one_of if each not in excluded]
        if len(test.one_of) > 1 and len(rest) == 1 and _newer(test, found.get(rest[0])):
            found[rest[0]] = test


def _newer(test: Outcome, other: Outcome | None) -> bool:
    return other is None or test.day >= other.day


def _suspected(tests: Sequence[Outcome], found: _Known, excluded: _Known) -> set[Candidate]:
    """Left of what a test points to; all of it where every one was excluded before, which cannot be."""
    out: set[Candidate] = set()
    for test in tests:
        left = [each for each in test.one_of if each not in excluded]
        later = [each for each in test.one_of if each in excluded and excluded[each].day >= test.day]
        if not left and not later:
            left = list(test.one_of)
        if not any(each in found and found[each].day >= test.day for each in test.one_of):
            out |= {each for each in left if each not in found}
    return out


def _stands(
    each: Candidate,
    leak: LeakFacts,
    found: Outcome | None,
    excluded: Outcome | None,
    suspected: bool,
    tests: Sequence[Outcome],
) -> CandidateStands:
    why: str
    if each in leak.not_here:
        why = Sentence("{what}", what=leak.not_here[each].reason)
        return CandidateStands(each, "not here", why, source="convention-6")
    mended = leak.mended.get(each)
    if found is not None:
        by = _shown(found)
        if mended is None or read_moment(mended.when).days < found.day:
            if excluded is not None and excluded.day > found.day:
                why = Sentence(
                    "{found}; then clean ({test}) with no repair between: test again",
                    found=by,
                    test=excluded.test,
                )
                return CandidateStands(each, "open", why, True, found.source)
            return CandidateStands(each, "found", by, source=found.source, found_on=found.day)
        day = read_moment(mended.when).days
        did = Sentence("mended {day}: {what}", day=mended.when, what=mended.what)
        if excluded is not None and excluded.day >= day:
            since = Sentence("clean since: {test}, {why}", test=excluded.test, why=excluded.why)
            why = joined([by, did, since], "{first}; {then}")
            return CandidateStands(each, "mended", why, source=excluded.source, found_on=found.day)
        why = joined([by, did, Sentence("not tested since")], "{first}; {then}")
        return CandidateStands(each, "open", why, True, found.source, found.day)
    if mended is not None and (excluded is None or excluded.day < read_moment(mended.when).days):
        why = Sentence(
            "mended {day} without a test that found it: {what}; not tested since",
            day=mended.when,
            what=mended.what,
        )
        return CandidateStands(each, "open", why, True)
    if excluded is not None and not suspected:
        return CandidateStands(each, "excluded", _excluded_by(each, excluded, tests), source=excluded.source)
    short = [
        Sentence("{test}: {why}", test=test.test, why=test.nothing)
        for test in tests
        if test.nothing and _about(test, each)
    ]
    points = [_shown(test) for test in tests if each in test.one_of] if suspected else []
    why = joined([*points, *short], "{first}; {then}") or Sentence("not tested")
    if each == "enclosure":
        dry = [test.zone for test in tests if test.zone is not None]
        if dry:
            lack = [zone for zone in ZONES if zone not in dry]
            why = Sentence(
                "dry: {dry}; not sprayed: {lack}",
                dry=listed([ZONE_NAMES[zone] for zone in dry if zone is not None]),
                lack=listed([ZONE_NAMES[zone] for zone in lack]) or Sentence("none"),
            )
    return CandidateStands(each, "open", why, suspected)


def _excluded_by(each: Candidate, test: Outcome, tests: Sequence[Outcome]) -> str:
    if each == "enclosure" and test.zone is not None:
        zones = listed([one.why for one in tests if one.zone is not None])
        return Sentence("spray by zone, all dry: {zones}", zones=zones)
    if test.side:
        both = [one for one in tests if each in one.excludes and one.side]
        return joined([_shown(one) for one in both], "{first}; {then}")
    return _shown(test)


def _shown(test: Outcome) -> str:
    return Sentence("{test}: {why}", test=test.test, why=test.why)


def _about(test: Outcome, each: Candidate) -> bool:
    return each in _TEST_OF.get(test.kind, ())
