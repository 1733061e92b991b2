"""Do not cover yet, in one line: the same wherever covering could start, on screens and papers."""

from __future__ import annotations

from typing import get_args

from undertile.packet.places import place_words
from undertile.packet.words import Words
from undertile.wood.dryhere import a_day_before
from undertile.wood.facts import Surface
from undertile.wood.gate import LEAST, NO_READING, READ_LATELY
from undertile.wood.result import WoodResult
from undertile.wood.typed import day_text

KINDS = (
    *("safety", "stop", "typed", "moisture", "day", "patch", "new", "joists", "plan"),
    *("source", "photo", "inspection"),
)
"""What keeps the gate shut, in the order it is told."""
SURFACES: tuple[Surface, ...] = get_args(Surface)
COVERS = ("set", "fasten", "board screws")
"""Kinds of steps of the order of work (``pan.order.KINDS``) that cover floor or walls."""


def cover_line(water: WoodResult | None, words: Words) -> str:
    """Whether anything may be covered, and how much is missing.

    Parameters
    ----------
    water : WoodResult or None
    words : Words

    Returns
    -------
    str
        "" where nobody speaks of water in this job. Where nothing is read it says so: silence is no pass.
    """
    if water is None or not water.begun:
        return ""
    if water.gate.open:
        may = words("cover-may", day=water.gate.read_on)
        on = stands_on(water, words)
        return f"{may} {words('cover-on', list='; '.join(on))}" if on else may
    told = [_count(water, kind, words) for kind in KINDS]
    return words("cover-not", missing=", ".join(each for each in told if each))


def cover_short(water: WoodResult, words: Words) -> str:
    """The same at one glance: what stands first, and how many more; for where the rest is listed below it.

    Parameters
    ----------
    water : WoodResult
    words : Words

    Returns
    -------
    str
        As ``cover_line``, where nothing more stands than the first kind; an open answer without what it
        stands on (`stands_on`).
    """
    if water.begun and water.gate.open:
        return words("cover-may", day=water.gate.read_on)
    kinds = [kind for kind in KINDS if any(each.kind == kind for each in water.gate.missing)]
    if len(kinds) < 2:
        return cover_line(water, words)
    more = sum(each.kind != kinds[0] for each in water.gate.missing)
    return words("cover-short", first=_count(water, kinds[0], words), more=more)


def stands_on(water: WoodResult, words: Words) -> tuple[str, ...]:
    """What an open answer leaves out, or takes on a person's word; empty while it is shut."""
    on = water.gate.stands_on if water.begun and water.gate.open else ()
    if on and words.language != "en":
        from undertile.packet.told import told  # all the Spanish sentences: only where one is said

        return tuple(told(each, words).rstrip(".") for each in on)
    return tuple(str(each).rstrip(".") for each in on)


def last_of_several(water: WoodResult, words: Words) -> str:
    """Why the whole range ends after every place's own; "" where it does not."""
    ends = [each.forecast.latest for each in water.points if each.call in ("dry on", "not shown")]
    later = water.close.number > 1 and water.close.latest > max(ends, default="")
    return words("cover-last-of") if later else ""


def closed_lines(water: WoodResult | None, words: Words) -> tuple[str, ...]:
    """What is dry and sound, when, on which two readings: a line for each pair of days.

    Parameters
    ----------
    water : WoodResult or None
    words : Words

    Returns
    -------
    tuple of str
        Places in the order they were written; empty where none is closed.
    """
    series = {} if water is None else {each.name: each for each in water.series}
    by: dict[tuple[str, str], list[str]] = {}
    for point in () if water is None else water.points:
        samples = [each for each in series[point.name].samples if each.value is not None]
        before = a_day_before(series[point.name], samples[-1]) if samples else None
        if point.call == "close" and before is not None:
            days = day_text(before.day), day_text(samples[-1].day)
            where = place_words(point.where, words)
            reads = words("closed-reads", where=where, one=before.reads, two=samples[-1].reads)
            by.setdefault(days, []).append(reads)
    return tuple(words("closed-on", one=one, two=two, list="; ".join(by[one, two])) for one, two in by)


def may_cover(water: WoodResult | None) -> bool:
    """Whether the gate is open; a job without a word of water has none."""
    return water is None or not water.begun or water.gate.open


def _moisture(water: WoodResult, words: Words) -> str:
    """Places that are not dry, as many as every screen counts; then what has no reading, by its name."""
    if not any(each.value is not None for each in water.points):
        return words("cover-unread")
    lacks = [each for each in water.gate.missing if each.kind == "moisture"]
    bare = [each.where for each in lacks if each.source == NO_READING and each.where in SURFACES]
    few = sum(each.source == NO_READING for each in lacks) > len(bare)
    old = sum(each.source == READ_LATELY for each in lacks)
    told = [_number("moisture", len(lacks) - len(bare) - few - old, words), _number("old", old, words)]
    if bare:
        names = [words("cover-floor") if each == "floor" else words.wall(each[-1]) for each in bare]
        told.append(words("cover-unread-at", where=words.listed(names)))
    if few:
        told.append(words("cover-few", least=LEAST))
    return ", ".join(each for each in told if each)


def _count(water: WoodResult, kind: str, words: Words) -> str:
    if kind == "moisture":
        return _moisture(water, words)
    return _number(kind, sum(each.kind == kind for each in water.gate.missing), words)


def _number(kind: str, number: int, words: Words) -> str:
    if not number:
        return ""
    return words(f"cover-{kind}-one" if number == 1 else f"cover-{kind}", number=number)
