"""What else is brought, counted by length: new studs, sisters, tapers, channel, shims, board screws."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping
from fractions import Fraction
from math import ceil

from undertile.cutting.lengths import PLATE, Reach, as_cut, place_of
from undertile.cutting.result import Kind, Line
from undertile.framing.build import ROW_APART
from undertile.framing.plan import MemberPlan
from undertile.framing.say import place, said
from undertile.lengths import MM, Unit
from undertile.pan.built import Built
from undertile.pan.fasteners import screw_need
from undertile.pan.seat import inches

SCREWS_APART: dict[Unit, Fraction] = {"in": Fraction(8), "mm": 200 * MM}
"""Board screws up a stud (practice-screw-rows). [in]"""

Found = dict[tuple[Kind, Fraction | None, str], list[str]]


def other_lines(
    members: Iterable[MemberPlan], reaches: Mapping[str, Reach], built: Built
) -> tuple[Line, ...]:
    """Everything but strips.

    Parameters
    ----------
    members : iterable of MemberPlan
    reaches : mapping of wall to Reach
    built : pan.built.Built
        For the screws and the units.

    Returns
    -------
    tuple of Line
        Lumber first, screws last; a length that could not be worked out is None.
    """
    members, unit, own = list(members), built.unit, built.own
    lumber: Found = defaultdict(list)
    shims: list[str] = []
    for member in members:
        reach = reaches[member.wall]
        for family in member.recipe.families:
            if family == "replace":
                lumber["new stud", between_plates(reach, own), ""].append(member.name)
            elif family == "sister":
                lumber["sister", between_plates(reach, own), ""].append(member.name)
            elif family == "taper" and member.recipe.taper is not None:
                low, high = place_of(reach, 0, len(reach.heights) - 1)
                thin = [said(t, unit) for t in member.recipe.taper]
                ends = [place(reach.heights[h], unit) for h in (0, -1)]
                note = f"{thin[0]} thick at {ends[0]}, {thin[1]} at {ends[1]}"
                lumber["taper", as_cut(high - low, own), note].append(member.name)
        if member.recipe.flange_shim:
            shims.append(member.name)
    lines = [
        Line(kind, length, len(where), tuple(where), note)
        for (kind, length, note), where in sorted(lumber.items(), key=_rank)
    ]
    lines += _channel(members, reaches, built)
    if shims:
        note = "plastic, behind the flange: as thick as the gap at the stud"
        lines.append(Line("flange shim", None, len(shims), tuple(shims), note))
    return (*lines, *_screws(members, reaches, built))


def between_plates(reach: Reach, unit: Unit) -> Fraction | None:
    """Length of a stud between its plates as cut; None where the top plate was not measured. [in]"""
    return None if reach.top is None else as_cut(reach.top - PLATE, unit)


def _rank(item: tuple[tuple[Kind, Fraction | None, str], list[str]]) -> tuple[str, Fraction, str]:
    kind, length, note = item[0]
    return kind, -(length or Fraction(0)), note


def _channel(members: Iterable[MemberPlan], reaches: Mapping[str, Reach], built: Built) -> Iterable[Line]:
    """Rows of channel, as the planner counts them (convention 4.3)."""
    walls: dict[str, list[Fraction]] = defaultdict(list)
    for member in members:
        if "channel" in member.recipe.families:
            walls[member.wall].append(member.along)
    for wall, along in walls.items():
        long = max(along) - min(along)
        opening = built.survey.frame.opening_at_back
        if wall == "B" and opening is not None:
            long = max(long, opening)
        rows = ceil(reaches[wall].end / ROW_APART) + 1
        note = f"rows at most {said(ROW_APART, built.unit)} apart; each packed to the plane"
        yield Line("channel row", as_cut(long, built.own), rows, (wall,), note)


def _screws(members: Iterable[MemberPlan], reaches: Mapping[str, Reach], built: Built) -> Iterable[Line]:
    """Board screws by length, in rows up each stud from the flange's top, or the bottom plate, to the top."""
    board = inches(built.framing.finish.board)
    if board is None:
        return
    count: dict[Fraction | None, int] = defaultdict(int)
    where: dict[Fraction | None, list[str]] = defaultdict(list)
    for member in members:
        need = screw_need(built, member, board)
        reach = reaches[member.wall]
        start = reach.bottom if reach.flange_top is None else reach.flange_top
        tall = max(reach.end - start, Fraction(0))
        count[need.screw] += tall // SCREWS_APART[built.own] + 1
        where[need.screw].append(member.name)
    for screw in sorted(count, key=lambda s: (s is None, s or Fraction(0))):
        apart = built.near(SCREWS_APART[built.own])
        note = f"{apart} apart up each stud; count a stud twice where a board joint lies on it"
        if screw is None:
            note = "no listed screw is long enough for board and packing here: bring one that is"
        yield Line("board screw", screw, count[screw], tuple(where[screw]), note)
