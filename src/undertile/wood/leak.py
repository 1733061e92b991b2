"""Where the water comes from: what the tests leave, the cheapest next test, and the cause in plain words.

A candidate is *open* until a test excludes it, and an open one keeps the gate shut. Finding one source
excludes no other. A source that was mended is open again until a test after the repair shows it dry.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from math import log2
from typing import Literal, get_args

from undertile.sentence import Sentence, form, joined
from undertile.wood.facts import Candidate, LeakFacts
from undertile.wood.leaktests import ZONE_NAMES, ZONES, Outcome
from undertile.wood.say import listed
from undertile.wood.typed import read_moment

Standing = Literal["found", "excluded", "mended", "open", "not here"]

READINGS = Sentence("readings")
"""Name of what the moisture readings themselves show: no test of their own."""
CANDIDATES: tuple[Candidate, ...] = get_args(Candidate)
NAMES: dict[Candidate, Sentence] = {
    "supply": Sentence("the supply pipes, under pressure all the time"),
    "riser": Sentence("the pipe from the valve to the head, wet only in use"),
    "drain": Sentence("the drain below the strainer"),
    "pan": Sentence("the pan or liner, up to the curb"),
    "enclosure": Sentence("walls, corners, curb and door, when they are sprayed"),
    "roof or window": Sentence("rain through roof, wall or window"),
    "condensation": Sentence("moist air on a cold surface"),
    "neighbour": Sentence("the neighbour's water"),
}
_USUAL: dict[Candidate, float] = {
    "supply": 6,
    "riser": 4,
    "drain": 15,
    "pan": 25,
    "enclosure": 42,
    "roof or window": 3,
    "condensation": 3,
    "neighbour": 2,
}
"""How often it is the one, in 100 (common practice): it orders the tests and excludes nothing."""
_SYMPTOM: dict[str, tuple[Candidate, ...]] = {
    "always wet": ("supply", "roof or window", "condensation", "neighbour"),
    "wet after use": ("riser", "drain", "pan", "enclosure"),
    "wet after rain": ("roof or window",),
    "wet in cold weather": ("condensation",),
    "neighbour uses water": ("neighbour",),
}
_SPEAKS = 30.0
"""A symptom or a test that points somewhere makes it so many times likelier for the order of tests (ours)."""
_WAIT = 0.02
"""A minute of waiting costs so much of a minute of work (ours)."""


@dataclass(frozen=True)
class Offered:
    """A test that can be made.

    Attributes
    ----------
    test : str
    kind : str
        The table of the facts that its numbers are typed into.
    do : str
        One imperative sentence.
    covers : tuple of Candidate
    minutes, wait : float
        Work and waiting (common practice). [min]
    """

    test: str
    kind: str
    do: str
    covers: tuple[Candidate, ...]
    minutes: float
    wait: float


TESTS = (
    Offered(
        Sentence("water meter"),
        "dials",
        Sentence("Shut everything off and watch the water meter."),
        ("supply",),
        5,
        120,
    ),
    Offered(
        Sentence("pressure test"),
        "pressures",
        Sentence(
            "Cap the head, open the valve, pump the pipes up with water and watch the gauge for 15 minutes."
        ),
        ("supply", "riser"),
        45,
        15,
    ),
    Offered(
        Sentence("water down the drain"),
        "pours",
        Sentence("Pour 5 gallons straight into the drain and watch 15 minutes from below."),
        ("drain",),
        15,
        15,
    ),
    Offered(
        Sentence("pan filled"),
        "fills",
        Sentence(
            "Plug the drain, fill the pan to 2 inches, a bowl beside it, mark both, look after 24 hours."
        ),
        ("pan",),
        20,
        1440,
    ),
    Offered(
        Sentence("spray by zone"),
        "sprays",
        Sentence("Plug the drain and spray zone by zone from the curb up, 10 minutes each, and watch."),
        ("enclosure",),
        75,
        0,
    ),
    Offered(
        Sentence("hose outside"),
        "outsides",
        Sentence("Wet wall and window outside for 15 minutes and watch."),
        ("roof or window",),
        30,
        0,
    ),
    Offered(
        Sentence("coldest surface"),
        "colds",
        Sentence("Measure the coldest surface and the room's air on a cold morning."),
        ("condensation",),
        5,
        0,
    ),
    Offered(
        Sentence("neighbour's water"),
        "next_doors",
        Sentence("Have the neighbour's water run 15 minutes and watch."),
        ("neighbour",),
        30,
        0,
    ),
)


@dataclass(frozen=True)
class CandidateStands:
    """One candidate.

    Attributes
    ----------
    candidate : Candidate
    standing : Standing
    why : str
        The test and its numbers, or what is missing.
    suspected : bool
        A test points here without telling it from another.
    source : str
    """

    candidate: Candidate
    standing: Standing
    why: str
    suspected: bool = False
    source: str = "practice-leak-tests"


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
        The cheapest that splits what is left first.
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
    offered = next_tests(leak, stands, tests)
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
            return CandidateStands(each, "found", by, source=found.source)
        day = read_moment(mended.when).days
        did = Sentence("mended {day}: {what}", day=mended.when, what=mended.what)
        if excluded is not None and excluded.day >= day:
            since = Sentence("clean since: {test}, {why}", test=excluded.test, why=excluded.why)
            why = joined([by, did, since], "{first}; {then}")
            return CandidateStands(each, "mended", why, source=excluded.source)
        why = joined([by, did, Sentence("not tested since")], "{first}; {then}")
        return CandidateStands(each, "open", why, True, found.source)
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


_TEST_OF: dict[str, tuple[Candidate, ...]] = {each.kind: each.covers for each in TESTS}


def _about(test: Outcome, each: Candidate) -> bool:
    return each in _TEST_OF.get(test.kind, ())


def weights(leak: LeakFacts, stands: Iterable[CandidateStands]) -> Mapping[Candidate, float]:
    """How likely each open candidate is, for the order of tests only; they add up to 1."""
    speaks = _SYMPTOM.get(leak.symptom, ())
    raw = {
        each.candidate: _USUAL[each.candidate]
        * (_SPEAKS if each.candidate in speaks else 1)
        * (_SPEAKS if each.suspected else 1)
        for each in stands
        if each.standing == "open"
    }
    total = sum(raw.values())
    return {each: weight / total for each, weight in raw.items()}


def next_tests(
    leak: LeakFacts, stands: Sequence[CandidateStands], tests: Sequence[Outcome]
) -> tuple[Offered, ...]:
    """Tests that would settle something open, by what they are expected to tell for each minute they take.

    Parameters
    ----------
    leak : LeakFacts
    stands : sequence of CandidateStands
    tests : sequence of Outcome

    Returns
    -------
    tuple of Offered
    """
    chance = weights(leak, stands)

    def worth(test: Offered) -> float:
        share = sum(chance.get(each, 0.0) for each in test.covers)
        told = 1.0 if share >= 1 else -share * log2(share) - (1 - share) * log2(1 - share)
        return told / (test.minutes + _WAIT * test.wait)

    useful = [test for test in TESTS if any(each in chance for each in test.covers)]
    return tuple(sorted(useful, key=lambda test: (-worth(test), test.test)))


def statement(stands: Sequence[CandidateStands], tests: Sequence[Outcome]) -> tuple[str, ...]:
    """The cause in plain words, for whoever pays: found, mended, excluded, and not tested.

    Parameters
    ----------
    stands : sequence of CandidateStands
    tests : sequence of Outcome

    Returns
    -------
    tuple of str
        One sentence or two each.
    """
    of = {
        kind: [each for each in stands if each.standing == kind]
        for kind in ("found", "mended", "excluded", "open", "not here")
    }
    out: list[str] = []
    if of["found"] or of["mended"]:
        for each in (*of["found"], *of["mended"]):
            out.append(Sentence("Water came from {what}: {why}.", what=NAMES[each.candidate], why=each.why))
    else:
        out.append(Sentence("No test has shown yet where the water comes from."))
    for each in of["excluded"]:
        out.append(Sentence("Not {what}: {why}.", what=NAMES[each.candidate], why=each.why))
    for each in of["not here"]:
        out.append(Sentence("Cannot be {what}: {why}.", what=NAMES[each.candidate], why=each.why))
    for each in of["open"]:
        said = form("Suspected: {what} ({why})." if each.suspected else "Not ruled out: {what} ({why}).")
        out.append(Sentence(said, what=NAMES[each.candidate], why=each.why))
    number = sum(1 for test in tests if test.test != READINGS)
    said = form("This stands on {number} tests; what was not tested may leak as well.")
    if number == 1:
        said = form("This stands on {number} test; what was not tested may leak as well.")
    out.append(Sentence(said, number=number))
    return tuple(out)
