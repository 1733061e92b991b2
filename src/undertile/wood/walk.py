"""In which order the points of a round are read: as the last round was walked."""

from __future__ import annotations

from collections.abc import Iterable, Sequence


def walk(written: Sequence[str], rounds: Iterable[Sequence[str]]) -> tuple[str, ...]:
    """Every point once, in the order of the newest round.

    A point that round passed over stands after the one it followed the last time it was read, or else after
    the one it is written after: it is on the way, not at the end.

    Parameters
    ----------
    written : sequence of str
        Points, in the order they were written.
    rounds : iterable of sequence of str
        Points in the order they were read, the newest round first; others than those written are left out.

    Returns
    -------
    tuple of str
        The points of ``written``.
    """
    known = dict.fromkeys(written)
    out: list[str] = []
    for order in (*rounds, written):
        before = None
        for name in dict.fromkeys(each for each in order if each in known):
            if name not in out:
                out.insert(0 if before is None else out.index(before) + 1, name)
            before = name
    return tuple(out)
