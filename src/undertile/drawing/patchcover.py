"""Do not cover yet, at the head of a patch's drawing: what is under it, and what is still missing."""

from __future__ import annotations

from undertile.drawing.sheet import Head
from undertile.drawing.walldata import Room
from undertile.floor.result import FloorResult


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
    missing = [words("not dry", list=words.places(covers.wet))] if covers.wet else []
    if covers.unread:
        missing.append(words("not read under", list=", ".join(covers.unread)))
    if covers.sources:
        missing.append(words("sources open", number=covers.sources))
    missing += [words(f"open {each}") for each in covers.also]
    return words("patch not yet", missing="; ".join(missing))


def patch_head(room: Room, found: FloorResult, title: str, scale: str) -> Head:
    """The head of a patch's sheet; ``scale`` by its name."""
    words, job = room.words, room.job
    practice, first = words("patch practice"), covers_line(room, found)
    return Head(title, job.name, job.place, words("scale", scale=scale), words("hold"), (practice,), first)
