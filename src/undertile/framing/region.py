"""Where one wall's plane may still be, and what its members then cost at least.

A wall's plane is a point (T at its two stations); what is left of it in a node is a convex polygon, kept in
floats and outward by a hair. Each member, step term or plate spot reads T at its own place along the wall.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from undertile.framing.frame import WallFrame
from undertile.framing.option import FAR, Option
from undertile.framing.tables import NONE, LimitKey

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


@dataclass(slots=True)
class Region:
    """One wall in a node, looked at.

    Attributes
    ----------
    picks : the cheapest stack of each spot somewhere in the polygon; None where it may be an unlisted one
    costs, lows, highs : what each pick costs, and the range of T at each spot. [units]
    waiting : spots whose pick is unlisted
    meets : whether the picks may have a common plane
    """

    frame: WallFrame
    lean: int
    mask: int
    limits: WallLimits
    choices: tuple[Choice, ...]
    polygon: Polygon
    bound: int
    picks: list[Option | None]
    costs: list[int]
    lows: list[float]
    highs: list[float]
    waiting: list[int]
    meets: bool


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
) -> Region | int | None:
    """Bound and picks of one wall over a polygon; None when no plan of it is left.

    ``own`` is what else holds at this lean alone: of the polygon only that part is looked at. ``ranges`` is
    the range of T over the whole polygon at each spot, as far as other ways of the wall have asked; more is
    added.

    Once the cost is known to be over ``ceiling`` it stops and returns that lower bound alone.
    """
    within = polygon
    for wa, wb, bound in own:
        within = clip(within, wa, wb, bound)
    if not within:
        return None
    if ranges is None or within is not polygon:
        ranges = []
    known = len(ranges)
    eps = 1e-9 * frame.unit
    tables = frame.tables(mask, limits)
    total = frame.charge(mask)
    picks: list[Option | None] = []
    costs: list[int] = []
    lows: list[float] = []
    highs: list[float] = []
    waiting = []
    for i, ((wa, wb, _, _), choice) in enumerate(zip(frame.reach, choices, strict=True)):
        if i < known:
            low, high = ranges[i]
        else:
            values = [wa * x + wb * y for x, y in within]
            low, high = min(values) - eps, max(values) + eps
            ranges.append((low, high))
        pick = choice.has
        if pick is not None:
            if pick.low > high or pick.high < low:
                return None
            cost = pick.cost
        else:
            cost, pick = tables[i].query(low, high, mask, choice.out)
            if pick is None:
                if cost >= FAR:
                    return None
                waiting.append(i)
        total += cost
        if total > ceiling:
            return total
        picks.append(pick)
        costs.append(cost)
        lows.append(low)
        highs.append(high)
    meets = not waiting and _meet(frame, picks, within)
    return Region(
        frame, lean, mask, limits, choices, polygon, total, picks, costs, lows, highs, waiting, meets
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
