"""Which studs and heights are asked for again after the work, in the order of walking the room.

Only what was touched and what stands next to it: a changed stud at the heights changed and one
height either side, its neighbours at the heights changed. A neighbour is left as it was, so reading it again
also shows whether the line still hangs where it hung. Everything else stands on the first survey.
"""

from __future__ import annotations

from collections.abc import Container, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction

from undertile.framing.plan import FramingPlan, MemberPlan
from undertile.sentence import Sentence

WALK = ("L", "B", "R")
"""In at the opening, along the left wall to the back, along the back, out along the right wall."""
WHOLE = frozenset({"taper", "knock over", "wet bed", "sister", "replace", "channel"})
"""Treatments that change a stud over its whole height."""


@dataclass(frozen=True)
class Asked:
    """One reading to take again.

    Attributes
    ----------
    wall, stud : str
    height : Fraction
        [in]
    why : str
        ``changed``, ``changed for an earlier plan``, ``above or below what was changed``, ``next to B2``.
    """

    wall: str
    stud: str
    height: Fraction
    why: str


def changed(member: MemberPlan) -> tuple[int, ...]:
    """Heights (by index) at which the plan changes a stud's face; a flange shim changes none."""
    recipe = member.recipe
    heights = range(len(member.heights))
    if WHOLE & set(recipe.families):
        return tuple(heights)
    under = {h for piece in recipe.pieces for h in range(piece.first, piece.last + 1)}
    cut = {h for h in heights if recipe.depth and recipe.depth[h]}
    return tuple(h for h in heights if h in under or h in cut or member.amounts[h])


def walking(members: Sequence[MemberPlan]) -> tuple[MemberPlan, ...]:
    """Studs in the order a person passes them: L from the opening to the back, B, R back to the opening."""
    return tuple(
        member
        for wall in WALK
        for member in sorted(
            (m for m in members if m.wall == wall), key=lambda m: -m.along if wall == "L" else m.along
        )
    )


def asked(plan: FramingPlan, before: Mapping[str, Container[Fraction]] | None = None) -> tuple[Asked, ...]:
    """Everything to read again, stud by stud, from the floor up.

    Parameters
    ----------
    plan : FramingPlan
        As carried out.
    before : mapping of str to container of Fraction, optional
        Heights at which a stud was, or may have been, changed for an earlier plan: its first readings are of
        a face that is gone. [in]

    Returns
    -------
    tuple of Asked
    """
    order = walking(plan.members)
    why: dict[tuple[str, int], str] = {}
    for wall in WALK:
        studs = sorted((m for m in order if m.wall == wall), key=lambda m: m.along)
        for at, member in enumerate(studs):
            own = changed(member)
            for h in own:
                why[member.name, h] = Sentence("changed")
            gone = (before or {}).get(member.name, ())
            for h in (h for h, z in enumerate(member.heights) if z in gone and h not in own):
                why[member.name, h] = Sentence("changed for an earlier plan")
            for h in own:
                for beside in (h - 1, h + 1):
                    if 0 <= beside < len(member.heights):
                        why.setdefault((member.name, beside), Sentence("above or below what was changed"))
                for beside in (at - 1, at + 1):
                    if 0 <= beside < len(studs):
                        why.setdefault((studs[beside].name, h), Sentence("next to {stud}", stud=member.name))
    return tuple(
        Asked(member.wall, member.name, member.heights[h], why[member.name, h])
        for member in order
        for h in range(len(member.heights))
        if (member.name, h) in why
    )
