"""Where the water comes from: what the tests leave of the candidates.

A candidate is *open* until a test excludes it, and an open one keeps the gate shut. Finding one source
excludes no other. A source that was mended is open again until a test after the repair shows it dry, and
again once a later one does not. One that came and went with no repair written stays open (``leakagain``).
What somebody says cannot be is out only as long as no test shows otherwise, and as far as a word goes
(``leakword``).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from undertile.sentence import Sentence, joined
from undertile.wood.facts import Candidate, LeakFacts
from undertile.wood.leakagain import ASK, TWICE, answered, clean_days
from undertile.wood.leakagain import SOURCE as AGAIN
from undertile.wood.leakorder import in_order, mended_between, unordered
from undertile.wood.leakstands import CANDIDATES, NAMES, READINGS, CandidateStands, Standing, statement
from undertile.wood.leaktests import ZONE_NAMES, ZONES, Outcome
from undertile.wood.leakword import UNREAD, doubted, said_of, torn_since
from undertile.wood.nexttest import TESTS, Offered, lacking, next_tests
from undertile.wood.say import listed
from undertile.wood.typed import day_text, readable

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


def source(leak: LeakFacts, tests: Sequence[Outcome], *, wet: bool = True) -> Source:
    """Where the water comes from, as far as it was tested.

    Parameters
    ----------
    leak : LeakFacts
    tests : sequence of Outcome
        What the readings show may be among them.
    wet : bool, optional
        Whether any wood was wet: then the water came from somewhere.

    Returns
    -------
    Source
    """
    tests = in_order(tests)
    found, excluded = _direct(tests, leak)
    _by_elimination(tests, found, excluded, leak)
    suspected = _suspected(tests, found, excluded, leak)
    known = (
        _stands(each, leak, found.get(each), excluded.get(each), suspected.get(each, ()), tests, wet)
        for each in CANDIDATES
    )
    stands = tuple(unordered(each, leak, tests) for each in known)
    left = [each for each in stands if each.standing in ("open", "found")]
    offered = (*lacking(leak, stands, tests), *next_tests(leak, stands))
    return Source(stands, tuple(tests), offered, statement(stands, tests), not left)


_Known = dict[Candidate, Outcome]


def _direct(tests: Sequence[Outcome], leak: LeakFacts) -> tuple[_Known, _Known]:
    """The newest test that finds, and the newest that excludes, each candidate.

    Of pipes tested side by side both sides are of after a repair, or it is not tested since.
    """
    found: _Known = {}
    excluded: _Known = {}
    sides: dict[Candidate, dict[str, Outcome]] = {}
    zones: dict[str, Outcome] = {}
    for test in tests:
        for each in test.finds:
            found[each] = test
        for each in (*test.finds, *test.one_of):
            _not_clean(sides.get(each, {}), test.side)
        for each in test.excludes:
            if not test.side:
                excluded[each] = test
                continue
            sides.setdefault(each, {})[test.side] = test
            done = mended_between(leak.mended[each])[1] if each in leak.mended else 0.0
            since = [it.day >= done for it in sides[each].values()]
            if len(since) == 2 and len(set(since)) == 1:
                excluded[each] = test
        if test.zone is not None:
            zones[test.zone] = test
        elif "enclosure" in test.one_of:
            zones.clear()
        if all(zone in zones for zone in ZONES) and test.zone is not None:
            excluded["enclosure"] = test
    return found, excluded


def _not_clean(sides: dict[str, Outcome], side: str) -> None:
    """Sides held before a test that did not hold are tested again; of one side, that side."""
    for each in [side] if side else list(sides):
        sides.pop(each, None)


def _by_elimination(tests: Sequence[Outcome], found: _Known, excluded: _Known, leak: LeakFacts) -> None:
    """One of several leaks, and all but one of them are excluded: that one."""
    for test in tests:
        rest = [each for each in test.one_of if each not in excluded]
        if len(test.one_of) < 2 or len(rest) != 1 or not _newer(test, found.get(rest[0])):
            continue
        if test.test != READINGS or rest[0] not in leak.not_here:  # readings test no source by itself
            found[rest[0]] = test


def _newer(test: Outcome, other: Outcome | None) -> bool:
    return other is None or test.day >= other.day


def _suspected(
    tests: Sequence[Outcome], found: _Known, excluded: _Known, leak: LeakFacts
) -> dict[Candidate, tuple[Outcome, ...]]:
    """Left of what a test points to, and by which; where all was excluded, what was not cleared since."""
    out: dict[Candidate, tuple[Outcome, ...]] = {}
    for test in tests:
        if not test.one_of or any(each in found and found[each].day >= test.day for each in test.one_of):
            continue
        here = [each for each in test.one_of if test.test != READINGS or each not in leak.not_here]
        left = [each for each in here if each not in excluded]
        if not left:
            left = [each for each in here if each in excluded and excluded[each].day <= test.day]
        if not left:  # what nobody tested since is not out by a word where nothing else remains
            left = [each for each in test.one_of if each not in excluded]
        if not left and test.test != READINGS and not answered(test, tests, leak):
            left = list(test.one_of)
        for each in left:
            out[each] = (*out.get(each, ()), test)
    return out


def _stands(
    each: Candidate,
    leak: LeakFacts,
    found: Outcome | None,
    excluded: Outcome | None,
    points: Sequence[Outcome],
    tests: Sequence[Outcome],
    wet: bool,
) -> CandidateStands:
    """How it stands; what is said of it yields to a test that finds it or points to it."""
    if each not in leak.not_here:
        return _tested(each, leak, found, excluded, points, tests)
    said: str = Sentence("{what}", what=leak.not_here[each].reason)
    shown = [*([] if found is None else [found]), *points]
    if shown and torn_since(each, leak.not_here[each], shown):
        why = joined([*map(_shown, shown), said_of(each, leak.not_here[each])], "{first}; {then}")
        if found is None:
            return CandidateStands(each, "not here", why, source="convention-6")
        return CandidateStands(each, "mended", why, source=found.source, found_on=found.day)
    stands = _tested(each, leak, found, excluded, points, tests)
    if found is None and not points:
        asked = doubted(each, leak.not_here[each], wet=wet, symptom=leak.symptom)
        if asked is None:
            why = said_of(each, leak.not_here[each])
            return CandidateStands(each, "not here", why, source="convention-6")
        if stands.standing != "open":
            return stands
        why = joined([asked.came, stands.why], "{first}; {then}")
        return replace(stands, why=why, source=asked.source, asked=asked)
    if stands.standing not in ("open", "found"):
        return stands
    otherwise = Sentence("it was said that it cannot be: {reason}", reason=said)
    why = joined([stands.why, otherwise], "{first}; {then}")
    return replace(stands, why=why, said=said, shown=stands.why)


def _tested(
    each: Candidate,
    leak: LeakFacts,
    found: Outcome | None,
    excluded: Outcome | None,
    points: Sequence[Outcome],
    tests: Sequence[Outcome],
) -> CandidateStands:
    why: str
    mended = leak.mended.get(each)
    if found is not None:
        by = _shown(found)
        if mended is None or mended_between(mended)[0] < found.day or not readable(mended.what):
            if excluded is not None and excluded.day > found.day:
                return _came_and_went(each, found, excluded, points, tests)
            stands = CandidateStands(each, "found", by, source=found.source, found_on=found.day)
            if mended is None or mended_between(mended)[0] < found.day:
                return stands
            return replace(stands, why=joined([by, UNREAD.came], "{first}; {then}"), asked=UNREAD)
        begun, done = mended_between(mended)
        did = Sentence("mended {day}: {what}", day=mended.when, what=mended.what)
        if excluded is not None and excluded.day >= done:
            since = Sentence("clean since: {test}, {why}", test=excluded.test, why=excluded.why)
            again = [one for one in points if one.day > excluded.day]
            gone = [one for one in points if begun <= one.day <= excluded.day]
            if gone and not again:
                then = [Sentence("then not clean any more: {shown}", shown=_shown(one)) for one in gone]
                why = joined([by, did, *then, _no_repair(excluded)], "{first}; {then}")
                return CandidateStands(each, "open", why, True, AGAIN, found.day, do=ASK)
            if again:
                then = [Sentence("then not clean any more: {shown}", shown=_shown(one)) for one in again]
                clean = Sentence("clean then: {test}, {why}", test=excluded.test, why=excluded.why)
                why = joined([by, did, clean, *then], "{first}; {then}")
                return CandidateStands(each, "open", why, True, again[-1].source, found.day)
            why = joined([by, did, since], "{first}; {then}")
            return CandidateStands(each, "mended", why, source=excluded.source, found_on=found.day)
        why = joined([by, did, Sentence("not tested since")], "{first}; {then}")
        return CandidateStands(each, "open", why, True, found.source, found.day)
    if mended is not None and (excluded is None or excluded.day < mended_between(mended)[1]):
        why = Sentence(
            "mended {day} without a test that found it: {what}; not tested since",
            day=mended.when,
            what=mended.what,
        )
        return CandidateStands(each, "open", why, True)
    if excluded is not None and not points:
        return CandidateStands(each, "excluded", _excluded_by(each, excluded, tests), source=excluded.source)
    short = [
        Sentence("{test}: {why}", test=test.test, why=test.nothing)
        for test in tests
        if test.nothing and _about(test, each)
    ]
    shown = [_shown(test) for test in points]
    went = excluded is not None and bool(points) and all(test.day <= excluded.day for test in points)
    if excluded is not None:
        before = Sentence("clean before: {test}, {why}", test=excluded.test, why=excluded.why)
        shown = [*shown, _no_repair(excluded) if went else before]
    why = joined([*shown, *short], "{first}; {then}") or Sentence("not tested")
    if each == "enclosure" and not points:
        dry = [test.zone for test in tests if test.zone is not None]
        if dry:
            lack = [zone for zone in ZONES if zone not in dry]
            why = Sentence(
                "dry: {dry}; not sprayed: {lack}",
                dry=listed([ZONE_NAMES[zone] for zone in dry if zone is not None]),
                lack=listed([ZONE_NAMES[zone] for zone in lack]) or Sentence("none"),
            )
    if went:
        return CandidateStands(each, "open", why, True, AGAIN, do=ASK)
    return CandidateStands(each, "open", why, bool(points))


def _came_and_went(
    each: Candidate, found: Outcome, excluded: Outcome, points: Sequence[Outcome], tests: Sequence[Outcome]
) -> CandidateStands:
    """One that leaked and is clean since, and of which no repair is written."""
    days = clean_days(found, tests)
    if len(days) < TWICE or points:
        shown = [*map(_shown, (found, *points)), _no_repair(excluded)]
        why = joined(shown, "{first}; {then}")
        return CandidateStands(each, "open", why, True, AGAIN, found.day, do=ASK)
    since = Sentence(
        "clean since on {days}, as long and as hard, and no repair is written",
        days=listed([day_text(day) for day in days]),
    )
    why = joined([_shown(found), since], "{first}; {then}")
    return CandidateStands(each, "excluded", why, source=AGAIN, found_on=found.day)


def _no_repair(clean: Outcome) -> Sentence:
    return Sentence("then clean ({test}), and no repair is written between", test=clean.test)


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
