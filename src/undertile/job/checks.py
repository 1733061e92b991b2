"""Plausibility of a job as typed: judged, never changed. What belongs to no stage, above all units.

A slip of unit passes every other test: the numbers agree with each other and are 25.4 times wrong.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from typing import Any

from undertile.findings import Finding, Severity
from undertile.framing.limits import MOST_STRIPS
from undertile.job.address import Path, join, say
from undertile.job.model import Job, job_shape
from undertile.job.nominal import nominal_sizes
from undertile.job.shape import ByName, Leaf, Node, Table
from undertile.job.trouble import shown
from undertile.lengths import Length, format_both, format_length
from undertile.sentence import Sentence

LONGEST = Fraction(240)
"""No length of a shower is longer than 20 ft. [in]"""
ROOM_AT_LEAST = Fraction(12)
"""A width, a gap, a pan or the highest height read is a foot or more. [in]"""
_NAMED = 3


def plausibility(job: Job) -> tuple[Finding, ...]:
    """What looks wrong with a job before any stage looks at it.

    Parameters
    ----------
    job : Job

    Returns
    -------
    tuple of Finding
        Numbers that look like the other unit, a stud past the end of its wall, a height above the plate, a
        stock too thick for a strip, a nominal size where an actual one is asked.
    """
    return (
        *_too_long(job),
        *_too_short(job),
        *_past_the_corner(job),
        *_above_the_plate(job),
        *_placed_above_the_plate(job),
        *_too_thick(job),
        *nominal_sizes(job.facts()),
    )


def _too_long(job: Job) -> Iterator[Finding]:
    """A bare 1203 in an inch job is 100 ft."""
    found = [(path, length) for path, length in lengths_of(job) if abs(length.inches) > LONGEST]
    if not found:
        return
    marked = "mm" in found[0][1].text or '"' in found[0][1].text
    do = (
        Sentence("Correct it.")
        if marked or job.unit == "mm"
        else Sentence("If mm are meant, write {text} mm.", text=found[0][1].text)
    )
    yield _odd(
        "length-implausible",
        found,
        Sentence("lengths of a shower, 20 ft at most"),
        Sentence("{typed} is {length}", typed=shown(found[0][1].text), length=format_both(found[0][1])),
        do,
    )


def _too_short(job: Job) -> Iterator[Finding]:
    """Bare inches in an mm job: a room some 60 mm wide."""
    survey, pan = job.facts()["survey"], job.facts()["pan"]
    found: list[tuple[Path, Length]] = []
    for name, wall in survey.walls.items():  # type: ignore[attr-defined]
        if len(wall.heights) > 1 and max(wall.heights).inches < ROOM_AT_LEAST:
            found.append((("survey", "walls", name, "heights"), max(wall.heights)))
    for group in ("widths", "gaps", "diagonals"):
        for key, its in getattr(survey, group).items():
            found.append((("survey", group, key, "reading"), its.reading))
    for size in ("width", "depth"):
        value = getattr(pan.pan, size)  # type: ignore[attr-defined]
        found += [(("pan", "pan", size), value)] if value is not None else []
    found = [(path, length) for path, length in found if length.inches < ROOM_AT_LEAST]
    if found:
        text = found[0][1].text
        do = (
            Sentence('If inches are meant, write {text}".', text=text)
            if job.unit == "mm"
            else Sentence("Correct it.")
        )
        yield _odd(
            "length-too-short",
            found,
            Sentence("a foot or more here"),
            Sentence("{typed} is {length}", typed=shown(text), length=format_both(found[0][1])),
            do,
        )


def _past_the_corner(job: Job) -> Iterator[Finding]:
    """A stud of the back wall further along than the room is wide."""
    survey = job.facts()["survey"]
    widths = [width.reading for width in survey.widths.values()]  # type: ignore[attr-defined]
    if "B" not in survey.walls or not widths:  # type: ignore[attr-defined]
        return
    widest = max(widths)
    for name, stud in survey.walls["B"].studs.items():  # type: ignore[attr-defined]
        if stud.along > widest:
            yield Finding(
                "stud-past-wall",
                Severity.ACT,
                name,
                Sentence("along less than the widest width, {text}", text=widest.text),
                Sentence("along {text}", text=stud.along.text),
                Sentence("Measure along again, from the L corner (convention 1.2)."),
                "convention-7",
                {"fact": join(("survey", "walls", "B", "studs", name, "along"))},
            )


def _above_the_plate(job: Job) -> Iterator[Finding]:
    """A stud read above the underside of its top plate."""
    for name, wall in job.facts()["survey"].walls.items():  # type: ignore[attr-defined]
        over = [height for height in wall.heights if wall.top is not None and height > wall.top]
        if over:
            yield Finding(
                "height-above-plate",
                Severity.ACT,
                f"wall {name}",
                Sentence("heights below the top plate, {text}", text=wall.top.text),
                ", ".join(shown(height.text) for height in over),
                Sentence("Correct the height, or `top` (the underside of the top plate)."),
                "convention-7",
                {"fact": join(("survey", "walls", name, "heights"))},
            )


def _placed_above_the_plate(job: Job) -> Iterator[Finding]:
    """A pipe, a hole, a valve above the underside of the top plate of its wall."""
    tops = {
        name: wall.top
        for name, wall in job.facts()["survey"].walls.items()  # type: ignore[attr-defined]
        if wall.top is not None
    }
    for wall, path, height in _places(job):
        if wall in tops and height > tops[wall]:
            yield Finding(
                "height-above-plate",
                Severity.ACT,
                say(path),
                Sentence(
                    "a height below the top plate of wall {wall}, {text}", wall=wall, text=tops[wall].text
                ),
                shown(height.text),
                Sentence("Correct it, or `top` of wall {wall}; as it stands no plan minds it.", wall=wall),
                "convention-7",
                {"fact": join(path)},
            )


def _places(job: Job) -> Iterator[tuple[str, Path, Length]]:
    """Everything that stands at a height of a wall: the wall, where it is written, the height."""
    survey, framing = job.facts()["survey"], job.facts()["framing"]
    for wall, its in survey.walls.items():  # type: ignore[attr-defined]
        for name, spot in its.plates.items():
            yield wall, ("survey", "walls", wall, "plates", name, "height"), spot.height
    for name, stud in framing.studs.items():  # type: ignore[attr-defined]
        for group in ("holes", "services"):
            for key, each in getattr(stud, group).items():
                yield name[:1], ("framing", "studs", name, group, key, "height"), each.height
    for name, thing in framing.things.items():  # type: ignore[attr-defined]
        yield thing.wall, ("framing", "things", name, "height"), thing.height
    valve = framing.valve  # type: ignore[attr-defined]
    if valve is not None:
        yield valve.wall, ("framing", "valve", "height"), valve.height


def _too_thick(job: Job) -> Iterator[Finding]:
    """Stock that no strip is made of: said, because the plan is made without it."""
    for name, item in job.facts()["framing"].stock.items():  # type: ignore[attr-defined]
        if item.thickness.inches > MOST_STRIPS:
            path = ("framing", "stock", name, "thickness")
            yield Finding(
                "stock-not-used",
                Severity.NOTE,
                f"stock {name}",
                Sentence(
                    "at most {most} for strips, all layers together",
                    most=format_length(MOST_STRIPS, mark=True),
                ),
                Sentence("{typed}: the plan is made without it", typed=shown(item.thickness.text)),
                Sentence("Nothing to do if it is on the van for something else; else measure it again."),
                "convention-4",
                {"fact": join(path)},
            )


def _odd(code: str, found: list[tuple[Path, Length]], expected: str, what: str, do: str) -> Finding:
    """One finding for every place with the same oddity: a whole survey in the wrong unit is one slip."""
    places = [say(path) for path, _ in found]
    more = f", and {len(places) - _NAMED} more" if len(places) > _NAMED else ""
    return Finding(
        code,
        Severity.ACT,
        "; ".join(places[:_NAMED]) + more,
        expected,
        what,
        do,
        "convention-7",
        {"facts": ", ".join(join(path) for path, _ in found[:50])},
    )


def lengths_of(job: Job) -> Iterator[tuple[Path, Length]]:
    """Every length of a job with its path, lists and readings among them."""
    for key, facts in job.facts().items():
        yield from _lengths(facts, job_shape().fields[key], (key,))


def _lengths(value: Any, node: Node, path: Path) -> Iterator[tuple[Path, Length]]:
    if value is None:
        return
    if isinstance(node, Table):
        for key, inner in node.fields.items():
            yield from _lengths(getattr(value, key), inner, (*path, key))
    elif isinstance(node, ByName):
        for key, item in value.items():
            yield from _lengths(item, node.item, (*path, str(key)))
    elif isinstance(node, Leaf):
        for each in value if node.many else (value,):
            if isinstance(each, Length):
                yield path, each
