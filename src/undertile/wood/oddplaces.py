"""What cannot be so of a place as typed, or is not said: asked about, while it is judged as it stands."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from fractions import Fraction
from typing import Any

from undertile.findings import Finding, Severity
from undertile.lengths import Unit
from undertile.sentence import Sentence
from undertile.wood.facts import Point
from undertile.wood.history import Series
from undertile.wood.say import as_typed, length, listed, some_of

BESIDE = Fraction(6)
"""A place may lie so far past wall R: under its plate (ours, no source). [in]"""
THICKEST = {"plywood": Fraction(2), "OSB": Fraction(2), "other panel": Fraction(2)}
"""Panels laid under a shower are no thicker (common practice, no source). [in]"""
TIMBER = Fraction(8)
"""Nor is other wood in a bath's walls and floor (common practice, no source). [in]"""
_MEMBER = re.compile(r"([LBR])[0-9]+")


def room_width(survey: Any, floor: Any) -> Fraction | None:
    """The most the room can be from wall L to wall R by anything measured; None where nothing is.

    Parameters
    ----------
    survey : SurveyFacts or None
        Its widths; its gaps with the nominals of walls L and R.
    floor : FloorFacts or None
        Its patch's width.

    Returns
    -------
    Fraction or None
        Only to tell what lies outside: joists and cuts take a measured width. [in]
    """
    widths = [each.reading.inches for each in getattr(survey, "widths", {}).values()]
    walls = getattr(survey, "walls", {})
    if "L" in walls and "R" in walls:
        both = walls["L"].nominal.inches + walls["R"].nominal.inches
        widths += [each.reading.inches + both for each in survey.gaps.values()]
    patch = getattr(getattr(floor, "patch", None), "width", None)
    if patch is not None:
        widths.append(patch.inches)
    return max(widths, default=None)


def odd_places(series: Sequence[Series], width: Fraction | None, unit: Unit) -> Iterator[Finding]:
    """Places typed twice, outside the room, on another wall than their name says, too thick, of no stuff.

    Parameters
    ----------
    series : sequence of Series
    width : Fraction or None
        From wall L to wall R, ``room_width``; None = not measured. [in]
    unit : {"in", "mm"}
    """
    there = [each for each in series if not each.facts.out]
    yield from _twice(there)
    for each in there:
        yield from _outside(each, width, unit)
        yield from _other_wall(each)
        yield from _thick(each, unit)
        yield from _pins(each)
    yield from _of_nothing(there)


def _twice(series: Sequence[Series]) -> Iterator[Finding]:
    at: dict[tuple[object, ...], list[str]] = {}
    for each in series:
        key = _key(each.facts)
        if key:
            at.setdefault(key, []).append(each.name)
    by_name = {each.name: each for each in series}
    for names in at.values():
        if len(names) > 1:
            yield Finding(
                "point-twice",
                Severity.ACT,
                by_name[names[0]].where,
                Sentence("one point at one place"),
                listed(names),
                Sentence(
                    "Keep one with all its readings, or correct where the other is; until then both count."
                ),
                "convention-7",
            )


def _key(point: Point) -> tuple[object, ...]:
    """A place; empty where it does not say where it is."""
    if point.member == "plate" and point.wall and point.along is not None:
        return ("plate", point.wall, point.along.inches)
    if point.member == "stud" and point.name and point.height is not None:
        return ("stud", point.name, point.height.inches)
    if point.member == "joist" and point.name and point.along is not None:
        return ("joist", point.name, point.along.inches)
    if point.member == "subfloor" and point.x is not None and point.y is not None:
        return ("subfloor", point.layer, point.x.inches, point.y.inches)
    return ()


def _outside(each: Series, width: Fraction | None, unit: Unit) -> Iterator[Finding]:
    point = each.facts
    at = point.x if point.member == "subfloor" else None
    if point.member == "plate" and point.wall == "B":
        at = point.along
    if width is not None and at is not None and at.inches > width + BESIDE:
        yield Finding(
            "point-outside",
            Severity.ACT,
            each.where,
            Sentence("a place in the room, {width} from wall L to wall R", width=length(width, unit)),
            Sentence("{at} from wall L", at=as_typed(at)),
            Sentence("Measure it again; until then how far to open is worked with it where it is typed."),
            "convention-7",
        )


def _other_wall(each: Series) -> Iterator[Finding]:
    point = each.facts
    named = _MEMBER.fullmatch(point.name) if point.member == "stud" else None
    if named is not None and point.wall is not None and point.wall != named[1]:
        yield Finding(
            "point-other-wall",
            Severity.ACT,
            each.where,
            Sentence("{name} on wall {wall}", name=point.name, wall=named[1]),
            Sentence("it is typed on wall {wall}", wall=point.wall),
            Sentence("Correct its name or its wall; until then it goes by its name."),
            "convention-7",
        )


def _thick(each: Series, unit: Unit) -> Iterator[Finding]:
    point = each.facts
    most = THICKEST.get(point.material, TIMBER)
    if point.thickness is not None and point.thickness.inches > most:
        yield Finding(
            "thickness-odd",
            Severity.ACT,
            each.where,
            Sentence("wood at most {size} thick", size=length(most, unit)),
            Sentence("{size} thick", size=as_typed(point.thickness)),
            Sentence("Measure it again, open face to the other: its time to dry is begun from that."),
            "practice-thickness",
        )


def _pins(each: Series) -> Iterator[Finding]:
    point = each.facts
    if (
        point.depth is not None
        and point.thickness is not None
        and point.depth.inches > point.thickness.inches
    ):
        yield Finding(
            "pins-too-deep",
            Severity.ACT,
            each.where,
            Sentence("pins that end in the wood, {size} thick", size=as_typed(point.thickness)),
            Sentence("{size} deep", size=as_typed(point.depth)),
            Sentence("Measure both again: pins through the wood read what is behind it."),
            "practice-thickness",
        )


def of_no_stuff(series: Sequence[Series]) -> tuple[Series, ...]:
    """Those that are read and still there, of which nobody said what they are made of."""
    return tuple(
        each for each in series if each.facts.material == "unknown" and each.samples and not each.facts.out
    )


def _of_nothing(series: Sequence[Series]) -> Iterator[Finding]:
    """Places of which nobody said what they are made of, in one line."""
    bare = [each.where for each in of_no_stuff(series)]
    if bare:
        yield Finding(
            "material-missing",
            Severity.ACT,
            some_of(bare),
            Sentence("what it is made of: lumber, treated, plywood, OSB, other panel"),
            Sentence("not said"),
            Sentence(
                "Say it: without it no reading is corrected, nor compared with the same stuff read dry."
            ),
            "practice-dry-reference",
        )
