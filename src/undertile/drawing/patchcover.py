"""Do not cover yet, at the head of a patch's drawing: what is under it, and what is still missing."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from undertile.drawing.labels import Words
from undertile.drawing.sheet import Head
from undertile.drawing.walldata import Room
from undertile.floor.result import FloorResult
from undertile.floor.sound import Hold


def covers_line(room: Room, found: FloorResult) -> str:
    """Whether a patch may be laid over what is under it.

    Parameters
    ----------
    room : Room
    found : FloorResult

    Returns
    -------
    str
        "" where nobody speaks of water.
    """
    covers, words = found.covers, room.words
    if covers is None:
        return ""
    if covers.may:
        return words("patch may", day=covers.read_on)
    missing = list(_unsound(words, covers.holds))
    missing += [words("not dry", list=words.places(covers.wet))] if covers.wet else []
    if covers.unread:
        missing.append(words("not read under", list=", ".join(covers.unread)))
    if covers.sources:
        missing.append(words("sources open", number=covers.sources))
    missing += [words(f"open {each}") for each in covers.also]
    return words("patch not yet", missing="; ".join(missing))


def _unsound(words: Words, holds: Sequence[Hold]) -> Iterator[str]:
    """What is not sound, by kind; what fails is not said again as not shown."""
    house = sum(each.kind == "stop" and not each.joist for each in holds)
    if house:
        yield words("hold safety", number=house)
    for kind in ("stop", "soft", "engineer", "fails"):
        at = [
            each.where
            for each in holds
            if (each.kind if not each.engineer else "engineer") == kind and (kind != "stop" or each.joist)
        ]
        if at:
            yield words(f"hold {kind}", list=words.places(list(dict.fromkeys(at))))
    fails = {each.where for each in holds if each.kind == "fails"}
    left = (each for each in holds if each.kind == "not shown" and each.where not in fails)
    names = dict.fromkeys(each.joist or each.where for each in left)
    if names:
        yield words("hold not shown", list=words.places(list(names)))


def patch_head(room: Room, found: FloorResult, title: str, scale: str) -> Head:
    """The head of a patch's sheet; ``scale`` by its name."""
    words, job = room.words, room.job
    practice, first = words("patch practice"), covers_line(room, found)
    return Head(title, job.name, job.place, words("scale", scale=scale), words("hold"), (practice,), first)
