"""The plan as a job of its own: it says how far it is, can be given up, and its answer travels as bytes.

The search takes from a tenth of a second to many seconds. It is one call that looks up now and then; where
it runs is the host's affair (a second worker on the phone, a process on a server). Its answer is a pickle
of this package's own results: read only what your own search wrote, never what came from elsewhere.
"""

from __future__ import annotations

import hashlib
import json
import pickle
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from fractions import Fraction

from undertile.framing.dries import dries_of
from undertile.job import Job, Rebuild, fold
from undertile.job import plan as plan_job
from undertile.job.entry import Entry, read_log, write_log
from undertile.job.plain import taken_apart
from undertile.job.rebuild import completed
from undertile.job.stages import STAGES


class GivenUp(Exception):
    """The search was told to stop; nothing is known of its answer."""


@dataclass(frozen=True)
class Progress:
    """How far a search is.

    Attributes
    ----------
    looked : int
        Boxes of planes looked at.
    bound : Fraction
        No plan costs less. [dollars]
    """

    looked: int
    bound: Fraction


Look = Callable[[Progress], bool]
"""Told now and then how far the search is; answers whether to go on."""


APART = frozenset({"recheck", "safety", "wood", "floor"})
"""Answered at once, beside the plan: ticking off work or the floor sets no search going, nor does moisture as
long as no stud is found to go back otherwise as it dries (``framing.dries``)."""
PLANNED = tuple(stage for stage in STAGES if stage.key not in APART)
"""The stages a plan comes from."""


def key_of(job: Job) -> str:
    """The hash of everything a plan depends on: the same facts, the same key."""
    taken = taken_apart(job)
    told = {key: taken.get(key) for key in ("unit", *(stage.key for stage in PLANNED))}
    dries = dries_of(job.facts())
    if dries:  # of the water the plan knows only how far each stud still goes back
        told["dries"] = [
            [each.stud, str(each.least), str(each.most), each.known, each.goal, each.since] for each in dries
        ]
    return hashlib.sha256(json.dumps(told, sort_keys=True, default=str).encode()).hexdigest()


def log_text(log: Iterable[Entry]) -> str:
    """A log as text, to be handed to ``search`` elsewhere."""
    return write_log(log)


def rebuild_of(log: Iterable[Entry], look: Look | None = None, whole: bool = True) -> Rebuild:
    """All a log comes to before the work: survey, plan, consequences.

    Parameters
    ----------
    log : iterable of Entry
    look : callable, optional
    whole : bool
        False leaves the plans that lose for later (``job.rebuild.completed``).

    Raises
    ------
    GivenUp
        When ``look`` said no.
    """
    return plan_job(fold(log).job, PLANNED, progress=None if look is None else _told(look), whole=whole)


def _told(look: Look) -> Callable[[int, Fraction], None]:
    """The count and the bound of the whole room: walls that nothing ties together are searched one by one.

    Each of those counts from nothing and knows only its own walls' cost. Looked at so far is all of them
    together; and as no wall costs less than nothing, the largest bound of any holds for the room.
    """
    before, last, most = 0, 0, Fraction(0)

    def told(nodes: int, bound: Fraction) -> None:
        nonlocal before, last, most
        if nodes < last:
            before += last
        last, most = nodes, max(most, bound)
        if not look(Progress(before + nodes, most)):
            raise GivenUp

    return told


def search(log: str, look: Look | None = None) -> Iterator[bytes]:
    """The whole search, from a log as text to answers that ``found`` reads.

    Yields
    ------
    bytes
        The plan as soon as it stands; then, where that was not all, the same with the plans that lose.

    Raises
    ------
    GivenUp
        When ``look`` said no.
    """
    rebuild = rebuild_of(read_log(log), look, whole=False)
    yield pickle.dumps(rebuild, protocol=5)
    if not rebuild.whole:
        yield pickle.dumps(completed(rebuild), protocol=5)


def found(answer: bytes) -> Rebuild:
    """The answer of ``search``; only of one that ran under this very program.

    Raises
    ------
    ValueError
        If it is something else.
    """
    rebuild = pickle.loads(answer)
    if not isinstance(rebuild, Rebuild):
        raise ValueError("expected what a search came to, found something else")
    return rebuild
