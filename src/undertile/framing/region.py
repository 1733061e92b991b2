"""Where one wall's plane may still be, and what its members then cost at least.

A wall's plane is a point (T at its two stations); what is left of it in a node is a convex polygon, kept in
floats and outward by a hair. Each member, step term or plate spot reads T at its own place along the wall.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

from undertile.framing.bends import Bend
from undertile.framing.frame import WallFrame
from undertile.framing.listing import LimitKey
from undertile.framing.option import FAR, Option
from undertile.framing.tables import NONE

Polygon = list[tuple[float, float]]
HalfPlane = tuple[float, float, float]
"""``wa x + wb y <= bound``."""
WallLimits = tuple[tuple[int, LimitKey], ...]
"""Face limits of one wall: (member index, limits by height), sorted."""


@dataclass(frozen=True, slots=True)
class Choice:
    """What a node has decided of one spot: the stack it has, or the stacks it has not."""

    has: Option | None = None
    out: frozenset[int] = NONE


FREE = Choice()


Seen = list[tuple[Choice, Option | None, int, float, float, int, int]]
"""What a look at a way of a wall came to at each spot, for the next look at it over less of the polygon.

The choice, the pick and its cost (least cost, where it is None), the range of T, how far down the table's
list the search came and how much the table had listed by then.
"""


@dataclass(slots=True)
class Region:
    """One wall in a node, looked at.

    Attributes
    ----------
    within : what is left of the polygon at this lean
    picks : the cheapest stack of each spot somewhere in the polygon; None where it may be an unlisted one
    costs, lows, highs : what each pick costs, and the range of T at each spot. [units]
    waiting : spots whose pick is unlisted
    known : how many bends were asked of it
    bend : what every plan has to do and the picks do not, when ``bound`` is over what they cost
    """

    frame: WallFrame
    lean: int
    mask: int
    limits: WallLimits
    choices: tuple[Choice, ...]
    polygon: Polygon
    within: Polygon
    bound: int
    picks: list[Option | None]
    costs: list[int]
    lows: list[float]
    highs: list[float]
    waiting: list[int]
    known: int = 0
    bend: Bend | None = None
    _meets: bool | None = field(default=None, compare=False, repr=False)

    @property
    def meets(self) -> bool:
        """Whether the picks may have a common plane; asked of few regions, so found when asked."""
        if self._meets is None:
            self._meets = not self.waiting and _meet(self.frame, self.picks, self.within)
        return self._meets


def look(
    frame: WallFrame,
    lean: int,
    mask: int,
    limits: WallLimits,
    choices: tuple[Choice, ...],
    polygon: Polygon,
    ceiling: int = FAR,
    own: tuple[HalfPlane, ...] = (),
    ranges: list[tuple[float, float]] | None = None,
    before: Seen | None = None,
    now: Seen | None = None,
    bends: Sequence[Bend] = (),
) -> Region | int | None:
    """Bound and picks of one wall over a polygon; None when no plan of it is left.

    ``own`` is what else holds at this lean alone: of the polygon only that part is looked at. ``ranges`` is
    the range of T over the whole polygon at each spot, as far as other ways of the wall have asked; more is
    added. ``before`` is what was seen of the same way over a wider polygon: what was cheapest of a spot there
    and is still in reach is cheapest here. What is seen is put into ``now``.

    Once the cost is known to be over ``ceiling`` it stops and returns that lower bound alone.
    """
    within = polygon
    for wa, wb, bound in own:
        within = clip(within, wa, wb, bound)
    if not within:
        return None
    if ranges is None or within is not polygon:
        ranges = []
    if not ranges:
        eps = 1e-9 * frame.unit
        for wa, wb, _, _ in frame.reach:
            values = [wa * x + wb * y for x, y in within]
            ranges.append((min(values) - eps, max(values) + eps))
    total = frame.charge(mask)
    if now is None:
        now = []
    before = before or []
    older = len(before)
    waiting = []
    for i, (choice, table) in enumerate(zip(choices, frame.tables(mask, limits), strict=True)):
        low, high = ranges[i]
        pick = choice.has
        place = 0
        if i < older:
            chosen, pick_then, cost_then, least, most, place, stamp = before[i]
            if pick is not None:
                if pick.low > high or pick.high < low:
                    return None
                cost = pick.cost
            elif low < least or high > most:
                cost, pick, place = table.seek(low, high, mask, choice.out, 0)
            elif (
                pick_then is not None
                and pick_then.low <= high
                and pick_then.high >= low
                and chosen is choice
                and table.still(pick_then, stamp, low, high)
            ):
                cost, pick = cost_then, pick_then
            else:
                cost, pick, place = table.seek(low, high, mask, choice.out, place)
        elif pick is not None:
            if pick.low > high or pick.high < low:
                return None
            cost = pick.cost
        else:
            cost, pick, place = table.seek(low, high, mask, choice.out, 0)
        if pick is None:
            if cost >= FAR:
                return None
            waiting.append(i)
        total += cost
        now.append((choice, pick, cost, low, high, place, table.stamp))
        if total > ceiling:
            now += before[i + 1 :]
            return total
    picks, costs = [each[1] for each in now], [each[2] for each in now]
    lows, highs = [each[3] for each in now], [each[4] for each in now]
    bend, more = None, 0
    for each in bends:
        raised = each.raised(frame, mask, picks, costs, lows, highs)
        if raised > more:
            bend, more = each, raised
    if more >= FAR:
        return None
    return Region(
        frame,
        lean,
        mask,
        limits,
        choices,
        polygon,
        within,
        total + more,
        picks,
        costs,
        lows,
        highs,
        waiting,
        len(bends),
        bend,
    )


def _meet(frame: WallFrame, picks: Sequence[Option | None], polygon: Polygon) -> bool:
    slack = 1e-7 * frame.unit
    for pick, (wa, wb, _, _) in zip(picks, frame.reach, strict=True):
        assert pick is not None
        polygon = clip(clip(polygon, wa, wb, float(pick.high) + slack), -wa, -wb, slack - float(pick.low))
        if not polygon:
            return False
    return True


def clip(polygon: Polygon, wa: float, wb: float, bound: float) -> Polygon:
    """The part of a convex polygon with ``wa x + wb y <= bound``."""
    out: Polygon = []
    if not polygon:
        return out
    values = [wa * x + wb * y - bound for x, y in polygon]
    if max(values) <= 0:
        return polygon
    px, py = polygon[-1]
    before = values[-1]
    for (x, y), now in zip(polygon, values, strict=True):
        if (now <= 0) != (before <= 0):
            share = before / (before - now)
            out.append((px + share * (x - px), py + share * (y - py)))
        if now <= 0:
            out.append((x, y))
        px, py, before = x, y, now
    return out
