"""A word that says a source cannot be: what it rules out by itself, and what it does not (ours, no source).

It needs a reason that can be read. And where wood was wet the water came from somewhere: as long as no test
found the source and no repair is written, the pipes and the drain are ruled out by a test, not by a word.
They are in every shower, stay behind what is covered, and can be tested after all else is torn out.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

from undertile.findings import Finding, Severity
from undertile.sentence import Sentence, joined
from undertile.wood.facts import Candidate
from undertile.wood.leakshown import Asked
from undertile.wood.leakstands import NAMES, CandidateStands

STAYS: tuple[Candidate, ...] = ("supply", "riser", "drain")
"""In every shower, and tested at any time."""
SOURCE = "leak-word-alone"
_WORD = re.compile(r"[^\W\d_]{3,}")
NO_REASON = Asked(
    Sentence("a reason in words: no window, a house alone on its lot"),
    Sentence("said that it cannot be, and no reason that can be read"),
    Sentence("Write why it cannot be, or test it; until then it is open."),
    SOURCE,
)
NO_TEST = Asked(
    Sentence("a test: the wood was wet, and no test has shown yet where the water came from"),
    Sentence("ruled out by a word alone"),
    Sentence("Test it: pipes and drain are in every shower. Until then it is open."),
    SOURCE,
)


def doubted(candidate: Candidate, reason: str, *, unknown: bool) -> Asked | None:
    """Why a word that it cannot be does not rule out a source that no test speaks of.

    Parameters
    ----------
    candidate : Candidate
    reason : str
        As typed.
    unknown : bool
        Whether wood was wet and neither a test nor a repair says where the water came from.

    Returns
    -------
    Asked or None
        None where the word stands.
    """
    if _WORD.search(reason) is None:
        return NO_REASON
    return NO_TEST if unknown and candidate in STAYS else None


def word_findings(stands: Sequence[CandidateStands]) -> Iterator[Finding]:
    """One finding for all sources of which a word is asked about for the same reason.

    Parameters
    ----------
    stands : sequence of CandidateStands

    Yields
    ------
    Finding
    """
    for its in (NO_REASON, NO_TEST):
        which = [NAMES[each.candidate] for each in stands if each.asked == its]
        if which:
            where = joined(which, "{first}; {then}")
            yield Finding(SOURCE, Severity.ACT, where, its.expected, its.came, its.do, its.source)
