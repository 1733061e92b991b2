"""The tests that can be made, and which of them comes next: what each is expected to tell for each minute."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from math import log2

from undertile.sentence import Sentence
from undertile.wood.facts import Candidate, LeakFacts
from undertile.wood.leakshown import Outcome
from undertile.wood.leakstands import CandidateStands
from undertile.wood.typed import read_moment

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
SYMPTOM: dict[str, tuple[Candidate, ...]] = {
    "always wet": ("supply", "roof or window", "condensation", "neighbour"),
    "wet after use": ("riser", "drain", "pan", "enclosure"),
    "wet after rain": ("roof or window",),
    "wet in cold weather": ("condensation",),
    "neighbour uses water": ("neighbour",),
}
_SPEAKS = 30.0
"""A symptom or a test that points somewhere makes it so many times likelier for the order of tests (ours)."""
MORNING = 720.0
"""Half a day until the next cold morning, at the least (ours). [min]"""
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
        MORNING,
    ),
    Offered(
        Sentence("neighbor's water"),
        "next_doors",
        Sentence("Have the neighbor's water run 15 minutes and watch."),
        ("neighbour",),
        30,
        0,
    ),
)


def weights(leak: LeakFacts, stands: Sequence[CandidateStands]) -> Mapping[Candidate, float]:
    """How likely each open candidate is, for the order of tests only; they add up to 1.

    What was noticed speaks until one of those it points to is found: that one explains it, and a test after
    the repair that is clean keeps it explained. A find that the noticed does not point to uses up nothing.
    """
    speaks = SYMPTOM.get(leak.symptom, ())
    if any(each.candidate in speaks and each.standing in ("found", "mended") for each in stands):
        speaks = ()
    raw = {
        each.candidate: _USUAL[each.candidate]
        * (_SPEAKS if each.candidate in speaks else 1)
        * (_SPEAKS if each.suspected else 1)
        for each in stands
        if each.standing == "open"
    }
    total = sum(raw.values())
    return {each: weight / total for each, weight in raw.items()}


_ON_A_SLAB = replace(
    next(each for each in TESTS if each.kind == "fills"),
    do=Sentence(
        "Plug the drain past the trap, fill it and the pan to 2 inches, a bowl beside it, mark both, look "
        "after 24 hours."
    ),
    covers=("pan", "drain"),
)
"""Where nobody sees below; a plug past the trap is a plumber's."""
_NO_PAN = replace(
    _ON_A_SLAB,
    do=Sentence(
        "Plug the drain past the trap, fill it to the strainer, a bowl of water beside it, mark both, look "
        "after 24 hours."
    ),
    covers=("drain",),
)
"""The same where the pan is torn out."""


def _tests(leak: LeakFacts) -> tuple[Offered, ...]:
    """The tests that this house allows: on a slab water poured in shows nothing."""
    below = [*(each.below for each in leak.pours.values()), *(each.below for each in leak.fills.values())]
    if "slab" not in below:
        return TESTS
    torn = "pan" in leak.not_here and leak.not_here["pan"].out
    filled = _NO_PAN if torn else _ON_A_SLAB
    return tuple(filled if each.kind == "fills" else each for each in TESTS if each.kind != "pours")


def lacking(
    leak: LeakFacts, stands: Sequence[CandidateStands], tests: Sequence[Outcome]
) -> tuple[Offered, ...]:
    """Tests that were made and lack only a word: to say it takes a minute, and no test anew.

    Parameters
    ----------
    leak : LeakFacts
    stands : sequence of CandidateStands
    tests : sequence of Outcome
        By day.

    Returns
    -------
    tuple of Offered
        The newest of each kind, if it was made after what was found and mended of a source that is open.
    """
    of_kind = {each.kind: each for each in tests if each.say}
    out = []
    for kind, test in of_kind.items():
        known = next(each for each in TESTS if each.kind == kind)
        opened = [each for each in stands if each.candidate in known.covers and each.standing == "open"]
        covers = tuple(each.candidate for each in opened if test.day >= _settled_on(each, leak))
        if covers:
            do = Sentence("Of {test}: {say}.", test=test.test, say=test.nothing)
            out.append(replace(known, do=do, covers=covers, minutes=1, wait=0))
    return tuple(out)


def _settled_on(stands: CandidateStands, leak: LeakFacts) -> float:
    """From when on a clean test tells of it. [d]"""
    mended = leak.mended.get(stands.candidate)
    done = read_moment(mended.when).days if mended is not None else 0.0
    return max(done, stands.found_on or 0.0)


def next_tests(leak: LeakFacts, stands: Sequence[CandidateStands]) -> tuple[Offered, ...]:
    """Tests that would settle something open, by what they are expected to tell for each minute they take.

    Parameters
    ----------
    leak : LeakFacts
    stands : sequence of CandidateStands

    Returns
    -------
    tuple of Offered
    """
    chance = weights(leak, stands)

    def worth(test: Offered) -> float:
        share = sum(chance.get(each, 0.0) for each in test.covers)
        told = 1.0 if share >= 1 else -share * log2(share) - (1 - share) * log2(1 - share)
        return told / (test.minutes + _WAIT * test.wait)

    useful = [test for test in _tests(leak) if any(each in chance for each in test.covers)]
    return tuple(sorted(useful, key=lambda test: (-worth(test), test.test)))
