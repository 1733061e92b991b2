"""From the plan's strips to the pieces that are cut: place on the stud, layer, length, parts."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from fractions import Fraction

from undertile.cutting.lengths import Reach, as_cut, parts_of, place_of
from undertile.cutting.result import Strip
from undertile.framing.plan import MemberPlan, Piece
from undertile.framing.words import bottom_up
from undertile.lengths import Unit


def layers(pieces: Sequence[Piece]) -> list[tuple[Piece, int]]:
    """Strips in the order they go on, each with its layer: 1 on the stud, one more than what it lies on."""
    out: list[tuple[Piece, int]] = []
    for piece in bottom_up(pieces):
        under = [n for each, n in out if each.first <= piece.last and piece.first <= each.last]
        out.append((piece, max(under, default=0) + 1))
    return out


def strips_of(
    member: MemberPlan,
    reach: Reach,
    waits: Sequence[Piece],
    is_card: Callable[[str], bool],
    longest: Callable[[str], Fraction],
    unit: Unit,
) -> tuple[list[Strip], list[Piece]]:
    """What is cut for one stud.

    Parameters
    ----------
    member : MemberPlan
    reach : Reach
        Of its wall.
    waits : sequence of Piece
        Those that go on after the pan is set.
    is_card : callable
        Whether a stock is loose card.
    longest : callable
        The longest piece a stock gives. [in]
    unit : {"in", "mm"}

    Returns
    -------
    strips : list of Strip
    without : list of Piece
        Strips there is no room for between the heights and plates known.
    """
    strips, without = [], []
    for piece, layer in layers(member.recipe.pieces):
        low, high = place_of(reach, piece.first, piece.last, card=is_card(piece.stock))
        length = as_cut(high - low, unit)
        if length <= 0:
            without.append(piece)
            continue
        parts = parts_of(length, longest(piece.stock), unit, from_top=layer % 2 == 0)
        at = low
        for number, part in enumerate(parts, 1):
            to = high if number == len(parts) else at + part
            strips.append(
                Strip(
                    member.wall,
                    member.name,
                    piece.stock,
                    part,
                    at,
                    to,
                    layer,
                    number,
                    len(parts),
                    piece in waits,
                )
            )
            at = to
    return strips, without
