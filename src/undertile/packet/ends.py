"""Where a strip ends between two heights read: what a straight line between the readings says of the face.

The plan holds every height read (convention 3.3); a strip ends half-way to the next one (docs/methods/
cutting.md), and nobody read there. Where the line between the readings puts the face off the plane by more
than the band, the stud's card says so.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction

from undertile.framing.plan import MemberPlan, Piece
from undertile.packet.plan_view import PlanView
from undertile.pan.built import between

BAND = Fraction(1, 16)
"""How far a finished face may lie off the plane (convention 3.3). [in]"""


@dataclass(frozen=True)
class End:
    """One end of strips between two heights read; + is proud of the plane. [in]

    Attributes
    ----------
    height : Fraction
    step : Fraction
        What the face steps back past the end.
    off : tuple of Fraction
        Face minus plane just off the strip, and just on it.
    """

    height: Fraction
    step: Fraction
    off: tuple[Fraction, Fraction]


def strip_ends(view: PlanView, member: MemberPlan) -> tuple[End, ...]:
    """Ends of a stud's strips between its lowest and highest height read, from the bottom up."""
    places = {piece: _place(view, member, piece) for piece in member.recipe.pieces}
    known = {piece: place for piece, place in places.items() if place is not None}
    z = member.heights
    heights = sorted({e for place in known.values() for e in place if z[0] < e < z[-1]})
    return tuple(_ends(view, member, known, heights))


def ends_off(view: PlanView, member: MemberPlan) -> tuple[End, ...]:
    """Those where the face, straight between the readings, lies off the plane by more than `BAND`."""
    if set(member.recipe.families) & {"taper", "wet bed", "sister", "replace", "channel", "knock over"}:
        return ()
    return tuple(end for end in strip_ends(view, member) if max(map(abs, end.off)) > BAND)


def _place(view: PlanView, member: MemberPlan, piece: Piece) -> tuple[Fraction, Fraction] | None:
    parts = view.strips(member, piece)
    return (parts[0].low, parts[-1].high) if parts else None


def _ends(
    view: PlanView,
    member: MemberPlan,
    places: dict[Piece, tuple[Fraction, Fraction]],
    heights: list[Fraction],
) -> Iterator[End]:
    depth = list(member.recipe.depth or (Fraction(0),) * len(member.heights))
    for e in heights:
        wood = between(member.heights, list(member.offsets), e) - between(member.heights, depth, e)
        plane = view.built.target(member.wall, member.along, e)
        below = sum((p.thickness for p, (low, high) in places.items() if low < e <= high), Fraction(0))
        above = sum((p.thickness for p, (low, high) in places.items() if low <= e < high), Fraction(0))
        thin, thick = sorted((below, above))
        if plane is not None and thin != thick:
            yield End(e, thick - thin, (wood + thin - plane, wood + thick - plane))
