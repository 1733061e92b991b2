"""Wood that may still go out: where the wet extent is open at an end, its last point read is still bad.

What is read there from the level line is of a floor that may not stay: told as uncertain, never counted.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from typing import TYPE_CHECKING

from undertile.lengths import Unit
from undertile.wood.lines import spot_words
from undertile.wood.places import has_layers

if TYPE_CHECKING:
    from undertile.wood.result import WoodResult

FAR = Fraction(10**6)
"""Past every wall: a side that is not known yet. [in]"""


@dataclass(frozen=True)
class MayGo:
    """A stretch of floor that may go out.

    Attributes
    ----------
    left, right, back, front : Fraction
        From the two walls; a side not known yet is at the wall or `FAR`. [in]
    probe : str
        The place to read with the moisture meter first, as the water names it; "" where it names none.
    """

    left: Fraction
    right: Fraction
    back: Fraction
    front: Fraction
    probe: str

    def holds(self, x: Fraction, y: Fraction) -> bool:
        """Whether a place lies on it, its edges too."""
        return self.left <= x <= self.right and self.back <= y <= self.front


def may_go(water: WoodResult | None, unit: Unit) -> tuple[MayGo, ...]:
    """Each layer's extent that is not known on every side.

    Parameters
    ----------
    water : WoodResult or None
    unit : {"in", "mm"}
    """
    return () if water is None else tuple(_open(water, unit))


def _open(water: WoodResult, unit: Unit) -> Iterator[MayGo]:
    for each in water.patches:
        if each.bounded:
            continue
        ends = (
            cut
            for cut in water.cuts
            if cut.at is None and cut.probe is not None and cut.line.startswith(f"subfloor {each.layer}, ")
        )
        cut = next(ends, None)
        place = ""
        if cut is not None and cut.probe is not None:
            place = spot_words(
                cut.line,
                cut.probe.at,
                water.width,
                unit,
                layered=has_layers(one.facts for one in water.series),
            )
        yield MayGo(
            Fraction(0) if each.left is None else each.left,
            FAR if each.right is None else each.right,
            Fraction(0) if each.back is None else each.back,
            FAR if each.front is None else each.front,
            place,
        )
