"""What keeps two walls' stacks apart, read off the rows that contradict each other."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from undertile.framing.exactlp import Row
from undertile.framing.option import Option


@dataclass(frozen=True)
class Cut:
    """A line ``ca Ta + cb Tb = at`` over one wall's planes; below it another wall's lie above one of its own.

    Beyond the first line the first wall's picks cannot hold, before it the other wall's cannot. [units]
    """

    wall: int
    ca: float
    cb: float
    at: float
    other: int
    oa: float
    ob: float
    least: float


def cut_of(
    rows: Sequence[Row],
    picks: Sequence[Sequence[Option]],
    reason: tuple[tuple[int, int], ...] | None,
    slacks: Sequence[float],
) -> Cut | None:
    """What keeps two walls' picks apart, read off the rows that contradict each other.

    With g x <= own for the one wall's picks, h y <= other for the other's, and g x + h y >= need from the
    demands, own + other < need: wherever the first wall's picks hold, the other's cannot. ``slacks`` says how
    far other leans may loosen each row that is no pick.

    Parameters
    ----------
    rows : picks' rows first, two a pick, wall by wall; then the others
    picks : per wall, the stacks whose rows come first
    reason : row numbers and multipliers that contradict each other, as ``find_point_or_reason`` gives them
    slacks : one for each row after the picks' own
    """
    if reason is None:
        return None
    starts = [0]
    for chosen in picks:
        starts.append(starts[-1] + 2 * len(chosen))
    sums: dict[int, tuple[int, int, int]] = {}
    demands, loose = 0, 0.0
    for index, weight in reason:
        a, b = rows[index]
        if index >= starts[-1]:
            demands += weight * b
            loose += weight * slacks[index - starts[-1]]
            continue
        k = next(j for j in range(len(picks)) if index < starts[j + 1])
        ga, gb, own = sums.get(k, (0, 0, 0))
        sums[k] = (ga + weight * a[2 * k], gb + weight * a[2 * k + 1], own + weight * b)
    if len(sums) != 2:
        return None
    (k, (ga, gb, own)), (other, (ha, hb, theirs)) = sums.items()
    gap = -demands - loose - own - theirs
    if not (ga or gb) or not (ha or hb) or gap <= 0:
        return None
    at = own + gap / 2
    return Cut(k, float(ga), float(gb), at, other, float(ha), float(hb), -demands - loose - at)
