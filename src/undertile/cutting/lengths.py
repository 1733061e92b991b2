"""How long a strip is: the one rule for everybody who cuts, prints or draws one (ours, key strip-place).

A plan says which heights read a strip covers. On the stud it lies

- from halfway to the next height read below its run (at the wall's lowest height: from the top of the
  bottom plate),
- to halfway to the next height read above (at the highest: to the underside of the top plate; where nobody
  measured that, to the highest height read),
- a run that starts above the flange zone never below the flange's top, loose card never below 6 in above it.

It is cut to that distance rounded *down*, to a sixteenth or a whole millimetre: never longer than its place.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from undertile.framing.limits import CARD_ABOVE_FLANGE
from undertile.lengths import MM, SIXTEENTH, Unit

PLATE = Fraction(3, 2)
"""Actual thickness of the bottom plate a stud stands on, a 2x (PS 20), above the subfloor. [in]"""
SHORTEST_PART: dict[Unit, Fraction] = {"in": Fraction(12), "mm": 300 * MM}
"""No part of a butted strip is shorter, as no step is (common practice). [in]"""
STEP: dict[Unit, Fraction] = {"in": SIXTEENTH, "mm": MM}
"""What a cut length is rounded down to."""


@dataclass(frozen=True)
class Reach:
    """What bounds strips on one wall.

    Attributes
    ----------
    heights : tuple of Fraction, rising
        Those read. [in]
    top : Fraction or None
        Underside of the top plate; None = not measured. [in]
    flange_top : Fraction or None
        Top of the pan's flange; None = no pan, or not measured. [in]
    """

    heights: tuple[Fraction, ...]
    top: Fraction | None = None
    flange_top: Fraction | None = None

    @property
    def bottom(self) -> Fraction:
        """The lowest a strip reaches: the bottom plate's top, or the lowest height read if that is lower."""
        return min(PLATE, self.heights[0])

    @property
    def end(self) -> Fraction:
        """The highest a strip reaches."""
        return self.heights[-1] if self.top is None else self.top


def place_of(reach: Reach, first: int, last: int, *, card: bool = False) -> tuple[Fraction, Fraction]:
    """Between which heights a strip lies.

    Parameters
    ----------
    reach : Reach
    first, last : int
        The run of heights it covers: indices, inclusive.
    card : bool
        Loose card.

    Returns
    -------
    low, high : Fraction
        ``low >= high`` where there is no room for one. [in]

    Examples
    --------
    >>> reach = Reach((Fraction(2), Fraction(48), Fraction(90)), Fraction(189, 2), Fraction(4))
    >>> [str(each) for each in place_of(reach, 1, 1)]
    ['25', '69']
    >>> [str(each) for each in place_of(reach, 0, 2)]
    ['3/2', '189/2']
    """
    z = reach.heights
    low = reach.bottom if first == 0 else (z[first - 1] + z[first]) / 2
    high = reach.end if last == len(z) - 1 else (z[last] + z[last + 1]) / 2
    if reach.flange_top is not None and z[first] > reach.flange_top:
        low = max(low, reach.flange_top + (CARD_ABOVE_FLANGE if card else 0))
    return low, high


def as_cut(distance: Fraction, unit: Unit) -> Fraction:
    """A length as it is cut: rounded down to a sixteenth, or to a whole mm in a job in mm. [in]"""
    return distance // STEP[unit] * STEP[unit]


def parts_of(length: Fraction, longest: Fraction, unit: Unit, *, from_top: bool = False) -> list[Fraction]:
    """A strip in parts, from the bottom up, where no board is as long as it.

    Full lengths from one end and the rest at the other; a rest under 12 in (300 mm) is brought to that
    from its neighbour. Butted tight: nothing is lost between them.

    Parameters
    ----------
    length : Fraction
        As cut. [in]
    longest : Fraction
        The longest that can be cut, over 0. [in]
    unit : {"in", "mm"}
    from_top : bool
        Full lengths at the top: every second layer, so that joints do not lie on each other.

    Returns
    -------
    list of Fraction
        One part where it is not over ``longest``.
    """
    full = as_cut(longest, unit)
    if length <= full:
        return [length]
    many, rest = divmod(length, full)
    parts = [full] * int(many) + ([rest] if rest else [])
    least = SHORTEST_PART[unit]
    if 0 < rest < least:
        both = parts[-2] + rest
        last = least if both >= 2 * least else as_cut(both / 2, unit)
        parts[-2:] = [both - last, last]
    return parts[::-1] if from_top else parts
