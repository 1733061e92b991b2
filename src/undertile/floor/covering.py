"""What the patch would cover, and whether it may: what stays under it is dry and sound (convention 5.4).

Cutting and fitting a patch covers nothing; laying it does. A joist under it on which nothing was read is not
a dry one (convention 2.6), and where water may still come nothing is covered: so the sources not ruled out,
the floor's photo and the inspection are the gate's own (``wood.gate``). What is not sound holds it too,
whether anybody speaks of water or not (``floor.sound``).
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import TYPE_CHECKING

from undertile.findings import Check, Finding
from undertile.floor.joists import JoistIs
from undertile.floor.outline import Outline
from undertile.floor.patch import Layout
from undertile.floor.sound import Hold, holds, said
from undertile.sentence import Sentence, joined, listed
from undertile.wood.gate import FIRST, LEAST
from undertile.wood.verdict import CALLS

if TYPE_CHECKING:
    from undertile.wood.facts import Point, WoodFacts
    from undertile.wood.result import WoodResult
    from undertile.wood.verdict import PointVerdict

DRY = ("close", "gone")
"""Calls of a point that keeps nothing open: dry and sound, or cut out."""


@dataclass(frozen=True)
class PatchCover:
    """Whether the patches may be laid.

    Attributes
    ----------
    may : bool
    under : tuple of str
        Points that stay under a patch, by name.
    wet : tuple of str
        Those of them that are not dry, as every face names their place.
    unread : tuple of str
        Joists under a patch on which nothing is read there.
    says : str
        The one line that stands wherever a patch could be laid.
    sources : int
        Sources of water not ruled out.
    also : tuple of str
        What else the gate asks for: ``safety`` (what can hurt someone, and stops), ``typed`` (typed and not
        counted), ``few`` (places read), ``photo``, ``inspection``.
    read_on : str
        The day the moisture stands on; "" where nobody speaks of water.
    holds : tuple of Hold
        What is not sound under it.
    """

    may: bool
    under: tuple[str, ...]
    wet: tuple[str, ...]
    unread: tuple[str, ...]
    says: str
    sources: int = 0
    also: tuple[str, ...] = ()
    read_on: str = ""
    holds: tuple[Hold, ...] = ()


def patch_cover(
    layouts: Sequence[Layout],
    joists: Sequence[JoistIs],
    facts: WoodFacts | None,
    water: WoodResult | None,
    *,
    out_from_back: bool,
    findings: Iterable[Finding] = (),
    checks: Iterable[Check] = (),
) -> PatchCover | None:
    """Judge what the patches would cover.

    Parameters
    ----------
    layouts : sequence of Layout
    joists : sequence of JoistIs
    facts : WoodFacts or None
        Where the points are.
    water : WoodResult or None
        What they came to, and the gate.
    out_from_back : bool
        Which way the joists run.
    findings : iterable of Finding
        The floor's and the safety's, what a person lifted taken off.
    checks : iterable of Check
        The floor's.

    Returns
    -------
    PatchCover or None
        None where nothing is laid out, or where nobody speaks of water and all under it is sound.
    """
    if not layouts:
        return None
    unsound = holds(under_patch(joists, layouts), joists, findings, checks)
    if facts is None or water is None or not water.begun:
        return PatchCover(False, (), (), (), _not_yet(said(unsound)), holds=unsound) if unsound else None
    names = [joist.name for joist in joists]
    under = [
        each
        for each in water.points
        if any(_stays(facts.points[each.name], made, joists, names, out_from_back) for made in layouts)
    ]
    unread = unread_under(facts, water, joists, layouts, out_from_back=out_from_back)
    wet = [each for each in under if each.call not in DRY]
    sources = sum(each.kind == "source" for each in water.gate.missing)
    also = tuple(_also(water, unsound))
    missing = [*said(unsound), *_moisture(wet, unread), *_gate(sources, also)]
    if not missing:
        says = Sentence(
            "The patch may be laid, as read on {day}. Read the wood under it again that morning.",
            day=water.gate.read_on,
        )
    else:
        says = _not_yet(missing)
    return PatchCover(
        not missing,
        tuple(each.name for each in under),
        tuple(each.where for each in wet),
        tuple(unread),
        says,
        sources,
        also,
        water.gate.read_on,
        unsound,
    )


def _not_yet(missing: Iterable[str]) -> Sentence:
    return Sentence(
        "Do not cover yet, do not lay the patch: {missing}. Cut it and fit it dry meanwhile.",
        missing=joined(missing, "{first}; {then}"),
    )


def opened(joist: JoistIs, layouts: Sequence[Layout]) -> tuple[Fraction, Fraction] | None:
    """From where to where the floor is cut open over a joist, from the wall; None where it is not. [in]"""
    over = [made.lower for made in layouts if _carries(joist, made.lower)]
    if not over:
        return None
    return min(out.near.at for out in over), max(out.far.at for out in over)


def unread_under(
    facts: WoodFacts,
    water: WoodResult,
    joists: Sequence[JoistIs],
    layouts: Sequence[Layout],
    *,
    out_from_back: bool,
) -> list[str]:
    """Joists under a patch on which nothing is read there: not dry ones (convention 2.6)."""
    names = [joist.name for joist in joists]
    read = set()
    for each in water.points:
        point = facts.points[each.name]
        name = _joist(point, names)
        if not name or each.value is None or name in read:
            continue
        if any(_stays(point, made, joists, names, out_from_back) for made in layouts):
            read.add(name)
    return [
        joist.name
        for joist in joists
        if joist.name not in read and any(_carries(joist, made.lower) for made in layouts)
    ]


def under_patch(joists: Sequence[JoistIs], layouts: Sequence[Layout]) -> list[JoistIs]:
    """Joists that a patch lies on."""
    return [joist for joist in joists if any(_carries(joist, _widest(made)) for made in layouts)]


def _widest(made: Layout) -> Outline:
    """The layer that reaches furthest: a second one lies past the first on all sides."""
    return made.upper or made.lower


def _carries(joist: JoistIs, out: Outline) -> bool:
    """Whether a panel lies on it, or on a cleat at its side."""
    return out.low.at <= joist.at <= out.high.at or joist.name in (out.low.joist, out.high.joist)


def _joist(point: Point, names: Sequence[str]) -> str:
    """The joist a point is in or beside, ``J2 sister`` too; "" where none is entered under that name."""
    if point.member != "joist":
        return ""
    first = point.name.split()[:1]
    return point.name if point.name in names else first[0] if first and first[0] in names else ""


def _stays(
    point: Point, made: Layout, joists: Sequence[JoistIs], names: Sequence[str], out_from_back: bool
) -> bool:
    """Whether a point's wood stays, under the new panel. Of a joist: a place not said may be there."""
    out = _widest(made)
    if point.member == "joist":
        name = _joist(point, names)
        if not name:  # nobody said where that joist lies
            return True
        if not any(_carries(joist, out) for joist in joists if joist.name == name):
            return False
        return point.along is None or out.near.at <= point.along.inches <= out.far.at
    if point.member not in ("subfloor", "other") or point.x is None or point.y is None:
        return False
    at = (point.x.inches, point.y.inches) if out_from_back else (point.y.inches, point.x.inches)
    if not _within(at, out):
        return False
    if point.member == "other":
        return True
    if point.layer == 1:  # the top one goes out wherever a patch lies
        return False
    return point.layer > (1 if made.upper is None else 2) or not inside(at, made.lower)


def _within(at: tuple[Fraction, Fraction], out: Outline) -> bool:
    """In an outline, its edges too."""
    return out.low.at <= at[0] <= out.high.at and out.near.at <= at[1] <= out.far.at


def inside(at: tuple[Fraction, Fraction], out: Outline) -> bool:
    """Surely cut out: not on the cut line, but for a wall, past which there is no floor."""

    def past(value: Fraction, edge: Fraction, *, wall: bool) -> bool:
        return value > edge or (wall and value == edge)

    return (
        past(at[0], out.low.at, wall=out.low.kind == "wall")
        and past(-at[0], -out.high.at, wall=out.high.kind == "wall")
        and past(at[1], out.near.at, wall=out.near.kind == "wall")
        and past(-at[1], -out.far.at, wall=out.far.kind == "wall")
    )


def _moisture(wet: Sequence[PointVerdict], unread: Sequence[str]) -> Iterator[str]:
    for each in wet:
        call = CALLS[each.call]
        if each.reads:
            yield Sentence("{where}: {reads}, {call}", where=each.where, reads=each.reads, call=call)
        else:
            yield Sentence("{where}: {call}", where=each.where, call=call)
    if unread:
        yield Sentence("not read under it: {names}", names=listed(unread))


def _also(water: WoodResult, unsound: Sequence[Hold]) -> Iterator[str]:
    missing = water.gate.missing
    held = {each.where for each in unsound}
    if any(each.kind in FIRST and each.where not in held for each in missing):
        yield "safety"
    if any(each.kind == "typed" for each in missing):
        yield "typed"
    if sum(each.value is not None for each in water.points) < LEAST:
        yield "few"
    if any(each.kind == "photo" and each.where == "floor" for each in missing):
        yield "photo"
    if any(each.kind == "inspection" for each in missing):
        yield "inspection"


def _gate(sources: int, also: Sequence[str]) -> Iterator[str]:
    """What the gate asks for besides moisture, in the words of the line for all of it."""
    if "safety" in also:
        yield Sentence("what can hurt someone stands")
    if "typed" in also:
        yield Sentence("something typed and not counted")
    if "few" in also:
        yield Sentence("fewer than {least} places read", least=LEAST)
    if sources:
        yield Sentence(
            "one source of water not ruled out"
            if sources == 1
            else "{number} sources of water not ruled out",
            number=sources,
        )
    if "photo" in also:
        yield Sentence("photo of the floor missing")
    if "inspection" in also:
        yield Sentence("inspection open")
