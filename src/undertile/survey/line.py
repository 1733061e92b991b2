"""Where the line of a wall hangs: readings by which it is hung again as it hung when the wall was read."""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction

from undertile.survey.result import OffsetAt, StudOffsets, SurveyResult, WallOffsets

_STUD = re.compile(r"\b[BLR]\d+\w*")


@dataclass(frozen=True)
class LineSpot:
    """The line hangs right where the rule shows ``reading`` at this stud and height. Lengths in inches."""

    stud: str
    height: Fraction
    reading: Fraction


def line_spots(wall: WallOffsets, doubted: frozenset[str] = frozenset()) -> tuple[LineSpot, ...]:
    """Two readings far apart at one height, and one far above: they hold a line and its plumb.

    The lowest height at which two studs were read counts, its first and its last stud; then the highest
    reading of one of those two studs. A twisted stud has two faces, and a reading in doubt may be wrong:
    neither holds a line. (Three points fix a plane; ours which three.)

    Parameters
    ----------
    wall : WallOffsets
        As surveyed.
    doubted : frozenset of str
        Studs with a reading in doubt.

    Returns
    -------
    tuple of LineSpot
        Three; fewer where less was read, none where no two studs were read at one height.
    """
    studs = [stud for stud in wall.studs if stud.name not in doubted]
    for h in range(len(wall.heights)):
        at = [stud for stud in studs if _holds(stud.offsets[h])]
        if len(at) < 2:
            continue
        first, last = at[0], at[-1]
        low = [_spot(wall, stud, h) for stud in (first, last)]
        for top in range(len(wall.heights) - 1, h, -1):
            for stud in (first, last):
                if _holds(stud.offsets[top]):
                    return (*low, _spot(wall, stud, top))
        return tuple(low)
    return ()


def doubted_studs(survey: SurveyResult) -> frozenset[str]:
    """Studs with a reading in doubt."""
    named = (
        where for group in survey.suspects for each in group for where in (each.where, *dict(each.changes))
    )
    return frozenset(name for where in named for name in _STUD.findall(where))


def _holds(offset: OffsetAt) -> bool:
    return offset.state == "read" and not offset.twist


def _spot(wall: WallOffsets, stud: StudOffsets, h: int) -> LineSpot:
    return LineSpot(stud.name, wall.heights[h], wall.nominal - stud.offsets[h].value)
