"""Straightedge rows that came up once in a search, kept as what every plan has to do about them.

A row that no depth of planing meets comes up again in every node whose stacks are the same on three or four
studs. Said as a choice ("the first stud's face lies lower than that, or the third's does, or the dip lies
higher") it holds for every plan of its wall at its lean, so it raises the bound wherever the cheapest stacks
do none of it, before anybody looks for a common plane.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from undertile.framing.flatness import WallRow
from undertile.framing.frame import WallFrame
from undertile.framing.listing import LimitKey
from undertile.framing.option import FAR, Option
from undertile.framing.tables import NONE

SLIVER = Fraction(1, 100)
"""Share of a straightedge row's excess asked of a face that does not move with the plane."""
Faces = Sequence[Sequence[Fraction | int]]
"""Of one wall, by member and height. [units]"""


@dataclass(frozen=True, slots=True)
class Part:
    """One way to meet a row: a member's face at a height lies no lower, or no higher, than so. [units]

    ``height`` past the heights (heights + h) is height h as it is when dry.
    """

    member: int
    height: int
    least: Fraction | None
    most: Fraction | None

    @property
    def key(self) -> LimitKey:
        """As a face limit of the member alone."""
        return (
            (
                self.height,
                -FAR if self.least is None else self.least,
                FAR if self.most is None else self.most,
            ),
        )

    def may(self, frame: WallFrame, pick: Option) -> bool:
        """Whether a stack's face may lie so, wherever the plane is."""
        if pick.rides or pick.bedded:
            return True
        shape = frame.shapes[self.member]
        heights = len(shape.faces)
        dry = self.height >= heights
        h = self.height - heights if dry else self.height
        top = shape.faces[h] + pick.added[h]
        if self.most is not None:
            return top - pick.depth[h] <= self.most
        assert self.least is not None
        return top - (shape.back if dry else 0) >= self.least


@dataclass(frozen=True, slots=True)
class Bend:
    """Every plan of a wall at a lean does one of ``parts``: else a straightedge row is broken."""

    parts: tuple[Part, ...]

    def raised(
        self,
        frame: WallFrame,
        mask: int,
        picks: Sequence[Option | None],
        costs: Sequence[int],
        lows: Sequence[float],
        highs: Sequence[float],
    ) -> int:
        """How much more than its picks a wall costs at least; 0 where they may do one of the parts, FAR where
        nothing can do any.

        A member whose choice has a stack is no exception: what it has is only known to cost no more than what
        it takes in the end, and a dearer stack may do the part.
        """
        for part in self.parts:
            pick = picks[part.member]
            if pick is None or part.may(frame, pick):
                return 0
        least = FAR
        for part in self.parts:
            m = part.member
            cost = frame.table(m, mask, part.key).seek(lows[m], highs[m], mask, NONE, 0)[0]
            if cost < FAR:  # else no stack of it does that part
                least = min(least, max(0, cost - costs[m]))
        return least


def bend_of(frame: WallFrame, picks: Sequence[Option | None], row: WallRow, faces: Faces) -> Bend:
    """What every plan of a wall at a lean has to do about a row that fails on some faces.

    Parameters
    ----------
    frame : WallFrame
    picks : per spot, the stack whose face it is
    row : WallRow
    faces : Faces
        They break the row.
    """
    over = sum((w * faces[m][h] for (m, h), w in row.weights), Fraction(0)) - row.limit * frame.unit
    limit = (row.limit + row.eaten) * frame.unit
    (m, h), dip_weight = next((cell, -w) for cell, w in row.weights if w < 0)
    parts = []
    total = Fraction(0)
    share = _shares(frame, picks, [cell for cell, _ in row.weights], faces)
    for (rest, at), w in row.weights:
        if w > 0:
            give = over * share[(rest, at)] / w
            cut = Fraction(faces[rest][at]) - (give if share[(rest, at)] > SLIVER else min(Fraction(1), give))
            parts.append(Part(rest, at, None, cut))
            total += w * cut
    shape = frame.shapes[m]
    if shape.back and row.line.direction != "up":  # as it is when dry: a new face does not go back
        h += len(shape.faces)
    return Bend((*parts, Part(m, h, (total - limit) / dip_weight, None)))


def _shares(
    frame: WallFrame, picks: Sequence[Option | None], cells: Sequence[tuple[int, int]], faces: Faces
) -> dict[tuple[int, int], Fraction]:
    """How a row's excess is shared among its cells when it is split on.

    A face that moves with the plane (sister, bed) is asked for nearly all of it at once: in small steps
    it would never get there. A face that is what it is needs no more than a sliver, for it has to change
    altogether.
    """
    moving = [
        (m, h)
        for m, h in cells
        if (pick := picks[m]) is not None
        and (pick.rides or (pick.bedded and faces[m][h] != frame.shapes[m].faces[h]))
    ]
    still = [cell for cell in cells if cell not in moving]
    if not moving:
        return dict.fromkeys(cells, SLIVER)
    left = 1 - SLIVER * len(still)
    return {**dict.fromkeys(still, SLIVER), **dict.fromkeys(moving, left / len(moving))}
