"""What somebody typed and nothing counts: two values for one fact, what cannot be read, a visit that is none.

A value that is left out of the job is not one that nobody typed: it may be the wet reading, or the test that
found the leak. So the gate waits until it is settled.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from undertile.sentence import Sentence, listed
from undertile.wood.gate import Missing
from undertile.wood.history import Series

KIND = "typed"
NEWER = "newer"
"""First part of the path of an entry that only a newer version can read: it may be any fact."""
SOURCE = "convention-7"
TABLES = ("safety", "wood", "floor", "framing")
"""Facts that the gate stands on, all of them; of the survey, which walls there are."""
WALLS = ("survey", "walls")
_STEP = Sentence("Settle each where what looks wrong is listed; nothing of it is lost.")
_WHERE = Sentence("what is typed and not counted")
_UPDATE = Sentence("Update the tool on this device; they are kept, and not counted until then.")


def counts_for_gate(path: Iterable[str]) -> bool:
    """Whether a fact is one that the gate stands on."""
    parts = tuple(path)
    return parts[0] in TABLES or parts[:2] == WALLS


def uncounted_missing(left_out: Iterable[tuple[str, ...]], every: Iterable[Series]) -> Iterator[Missing]:
    """What keeps the gate shut because it is typed and not counted.

    Parameters
    ----------
    left_out : iterable of tuple of str
        Paths of facts that stand in the record and are not in the job (``job.fold``).
    every : iterable of Series
        Each with the visits it names that are none.

    Yields
    ------
    Missing
        One for all of the record, one for all that a newer version wrote, and one for each place with
        something read on a visit that is none.
    """
    paths = list(left_out)
    number = sum(map(counts_for_gate, paths))
    if number:
        what = Sentence(
            "one value does not count: typed twice, or it cannot be used"
            if number == 1
            else "{number} values do not count: typed twice, or they cannot be used",
            number=number,
        )
        yield Missing(KIND, _WHERE, what, _STEP, SOURCE)
    newer = sum(path[0] == NEWER for path in paths)
    if newer:
        what = Sentence("written by a newer version, which this one cannot read: {number}", number=newer)
        yield Missing(KIND, _WHERE, what, _UPDATE, SOURCE)
    for each in every:
        if each.strange:
            what = Sentence(
                "read on visit {visits}, which is none of the job's", visits=listed(list(each.strange))
            )
            step = Sentence("Add the visit with its day, or correct its name.")
            yield Missing(KIND, each.where, what, step, SOURCE)
