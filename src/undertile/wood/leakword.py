"""A word that says a source cannot be: what it rules out by itself, and what it does not (ours, no source).

It needs a reason that can be read. And where wood was wet, or somebody noticed water, what every shower has
is ruled out by a test and not by a word, whatever else was found: one leak does not exclude another. Pipes
and the drain stay behind what is covered, and can be tested after all else is torn out. A pan and walls that
stand can be tested too; those that are torn out cannot, and leak no more: the day says so.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from undertile.findings import Finding, Severity
from undertile.sentence import Sentence, joined
from undertile.wood.facts import Candidate, NotHere, WoodFacts
from undertile.wood.leakorder import latest
from undertile.wood.leakshown import Asked, Outcome
from undertile.wood.leakstands import NAMES, CandidateStands
from undertile.wood.nexttest import SYMPTOM
from undertile.wood.torn import TEARS
from undertile.wood.typed import read_moment, readable

STAYS: tuple[Candidate, ...] = ("supply", "riser", "drain")
"""In every shower, stay in it, and tested at any time."""
SOURCE = "leak-word-alone"
NO_REASON = Asked(
    Sentence("a reason in words: no window, a house alone on its lot"),
    Sentence("said that it cannot be, and no reason that can be read"),
    Sentence("Write why it cannot be, or test it; until then it is open."),
    SOURCE,
)
NO_TEST = Asked(
    Sentence("a test: water came, and one leak does not exclude another"),
    Sentence("ruled out by a word alone"),
    Sentence("Test it: pipes and drain are in every shower. Until then it is open."),
    SOURCE,
)
NOT_TORN = Asked(
    Sentence("a test, or the day on which it was torn out"),
    Sentence("ruled out by a word alone"),
    Sentence("Test it while it stands, or type the day it was torn out. Until then it is open."),
    SOURCE,
)
UNREAD = Asked(
    Sentence("what was mended, in words: a new elbow, the joint soldered"),
    Sentence("a day of mending, and no word that says what was mended"),
    Sentence("Write what was mended; until then it counts as not mended."),
    SOURCE,
)
NOTICED = Asked(
    Sentence("a test: what was noticed points to it"),
    Sentence("ruled out by a word alone"),
    Sentence("Test it, or correct what was noticed. Until then it is open."),
    SOURCE,
)


def leaked(facts: WoodFacts) -> bool:
    """Whether anybody says that water came, though no wood that is read was ever wet.

    Parameters
    ----------
    facts : WoodFacts

    Returns
    -------
    bool
        What people noticed, since when, or a source that was mended: the water came from somewhere.
    """
    leak = facts.leak
    return leak.symptom != "unknown" or bool(leak.noticed or leak.mended)


def torn_since(candidate: Candidate, said: NotHere, shown: Sequence[Outcome]) -> bool:
    """Whether what tests showed to leak is gone since the end of the last: no test can be made of it again.

    Parameters
    ----------
    candidate : Candidate
    said : NotHere
        What it says counts (``torn``).
    shown : sequence of Outcome
        Tests that find it or point to it.
    """
    if not said.out or candidate not in TEARS or not readable(said.reason):
        return False
    at = read_moment(said.out)
    return all(latest(at.days, hour=at.hour) >= each.day + each.lasts for each in shown)


def doubted(candidate: Candidate, said: NotHere, *, wet: bool, symptom: str = "unknown") -> Asked | None:
    """Why a word that it cannot be does not rule out a source that no test speaks of.

    Parameters
    ----------
    candidate : Candidate
    said : NotHere
        As typed.
    wet : bool
        Whether any wood was wet: then the water came from somewhere.
    symptom : str, optional
        What people noticed: where it points to one source alone, no word takes that one out.

    Returns
    -------
    Asked or None
        None where the word stands.
    """
    if not readable(said.reason):
        return NO_REASON
    if not wet:
        return None
    if candidate in TEARS:
        return None if said.out else NOT_TORN
    if SYMPTOM.get(symptom) == (candidate,):
        return NOTICED
    return NO_TEST if candidate in STAYS else None


def said_of(candidate: Candidate, said: NotHere) -> str:
    """Why it cannot be, with the day where it was torn out.

    Parameters
    ----------
    candidate : Candidate
    said : NotHere

    Returns
    -------
    str
    """
    if said.out and candidate in TEARS:
        return Sentence("torn out {day}: {reason}", day=said.out, reason=said.reason)
    return Sentence("{what}", what=said.reason)


def word_findings(stands: Sequence[CandidateStands]) -> Iterator[Finding]:
    """One finding for all sources of which a word is asked about for the same reason.

    Parameters
    ----------
    stands : sequence of CandidateStands

    Yields
    ------
    Finding
    """
    for its in (NO_REASON, NO_TEST, NOT_TORN, NOTICED, UNREAD):
        which = [NAMES[each.candidate] for each in stands if each.asked == its]
        if which:
            where = joined(which, "{first}; {then}")
            yield Finding(SOURCE, Severity.ACT, where, its.expected, its.came, its.do, its.source)
