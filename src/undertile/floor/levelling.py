"""The least grinding and filling that brings a floor within its limit of a plane, proved.

A finished place lies between a plane and ``limit`` above it; the plane is level, or falls no more than the
pan's sheet allows. Each place is on one rung: nothing, taken off by steps, filled by steps; a rung holds over
one closed stretch of plane heights at that place, and its minutes grow with every rung away from nothing. For
a level plane the best height is an end of a stretch: all are tried. For sloped ones see ``sloping``.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction
from math import lcm

from undertile.framing.exactlp import Row, find_point, whole_row

STEP = Fraction(1, 16)
"""What minutes are counted by. [in]"""
ZERO = Fraction(0)


@dataclass(frozen=True)
class Plane:
    """Height at the origin [in], and rise an inch along x and y; up is plus."""

    height: Fraction
    rise_x: Fraction = ZERO
    rise_y: Fraction = ZERO

    def at(self, x: Fraction, y: Fraction) -> Fraction:
        """Height at a place. [in]"""
        return self.height + self.rise_x * x + self.rise_y * y


@dataclass(frozen=True)
class Ground:
    """One place of the floor: where, and its height, up is plus. [in]"""

    x: Fraction
    y: Fraction
    height: Fraction


@dataclass(frozen=True)
class Rates:
    """Minutes: once, a place, a step begun."""

    off_setup: Fraction
    off_place: Fraction
    off_step: Fraction
    fill_setup: Fraction
    fill_place: Fraction
    fill_step: Fraction


@dataclass(frozen=True)
class Limits:
    """What is asked and what may be done. [in]; ``slope`` is rise an inch, either way, 0 = level."""

    limit: Fraction
    most_off: Fraction
    most_fill: Fraction
    slope: Fraction = ZERO


@dataclass(frozen=True)
class Levelled:
    """The answer.

    Attributes
    ----------
    plane : Plane or None
        Lowest finished surface; None where no plane does within the amounts allowed.
    amounts : tuple of Fraction
        At each place: minus is taken off, plus is filled. [in]
    minutes : Fraction
    least_minutes : Fraction
        No plan costs less.
    nodes : int
    """

    plane: Plane | None
    amounts: tuple[Fraction, ...] = ()
    minutes: Fraction = ZERO
    least_minutes: Fraction = ZERO
    nodes: int = 0

    @property
    def proved(self) -> bool:
        """Whether the plan is the least there is."""
        return self.plane is not None and self.minutes == self.least_minutes


@dataclass(frozen=True)
class Rung:
    """Plane heights it holds over, its minutes, and what it is: -1 off, 0 nothing, +1 fill."""

    low: Fraction
    high: Fraction
    minutes: Fraction
    kind: int


def spread(places: Sequence[Ground], slope: Fraction = ZERO) -> Fraction:
    """The least limit the floor meets as it is: its zone between two planes as steep as allowed.

    Parameters
    ----------
    places : sequence of Ground
    slope : Fraction
        Rise an inch along x and along y, either way; 0 = level planes: highest less lowest.

    Returns
    -------
    Fraction
        [in]
    """
    heights = [each.height for each in places]
    if slope == 0 or len(places) < 2:
        return max(heights) - min(heights)
    shift = min(heights) - slope * max(abs(each.x) + abs(each.y) for each in places) - 1
    rows: list[Row] = []
    for each in places:  # unknowns: a above shift, b and c above -slope, t
        fixed = shift - slope * (each.x + each.y)
        rows.append(whole_row((Fraction(1), each.x, each.y, ZERO), each.height - fixed))
        rows.append(whole_row((Fraction(-1), -each.x, -each.y, Fraction(-1)), fixed - each.height))
    rows += [
        whole_row((ZERO, Fraction(1), ZERO, ZERO), 2 * slope),
        whole_row((ZERO, ZERO, Fraction(1), ZERO), 2 * slope),
    ]
    point = find_point(rows, (0, 0, 0, 0), (0, 0, 0, 1))
    if point is None:  # the rows hold for a low enough plane and a wide enough zone
        raise AssertionError("a zone exists")  # pragma: no cover
    return point[3]


def ladder_of(place: Ground, limits: Limits, rates: Rates) -> list[Rung]:
    """The rungs of one place, by rising plane height."""
    top, bottom = place.height, place.height - limits.limit
    off: list[Rung] = []
    done = ZERO
    while done < limits.most_off:
        more = min(done + STEP, limits.most_off)
        minutes = rates.off_place + rates.off_step * (len(off) + 1)
        off.append(Rung(bottom - more, bottom - done, minutes, -1))
        done = more
    fill: list[Rung] = []
    done = ZERO
    while done < limits.most_fill:
        more = min(done + STEP, limits.most_fill)
        minutes = rates.fill_place + rates.fill_step * (len(fill) + 1)
        fill.append(Rung(top + done, top + more, minutes, 1))
        done = more
    return [*reversed(off), Rung(bottom, top, ZERO, 0), *fill]


def amount_at(place: Ground, height: Fraction, limit: Fraction) -> Fraction:
    if height > place.height:
        return height - place.height
    return min(height + limit - place.height, ZERO)


def rung_at(ladder: Sequence[Rung], height: Fraction) -> Rung | None:
    """The cheapest rung that holds at a plane height; None past the amounts allowed."""
    return min(
        (rung for rung in ladder if rung.low <= height <= rung.high),
        key=lambda rung: rung.minutes,
        default=None,
    )


def cost_of(ladders: Sequence[Sequence[Rung]], heights: Sequence[Fraction], rates: Rates) -> Fraction | None:
    rungs = [rung_at(ladder, height) for ladder, height in zip(ladders, heights, strict=True)]
    if any(rung is None for rung in rungs):
        return None
    used = [rung for rung in rungs if rung is not None]
    return sum((rung.minutes for rung in used), ZERO) + setups({rung.kind for rung in used}, rates)


def setups(kinds: set[int], rates: Rates) -> Fraction:
    return (rates.off_setup if -1 in kinds else ZERO) + (rates.fill_setup if 1 in kinds else ZERO)


def level_work(
    places: Sequence[Ground], ladders: Sequence[Sequence[Rung]], limits: Limits, rates: Rates
) -> Levelled:
    """Every end of every stretch, and the middle of the best one's common stretch.

    In whole numbers, each height read once however many places have it: the same comparisons, sooner.
    """
    wide = lcm(*(end.denominator for ladder in ladders for r in ladder for end in (r.low, r.high)))
    paid = lcm(*(value.denominator for value in vars(rates).values()))
    alike: dict[Fraction, list[Sequence[Rung]]] = {}
    for place, ladder in zip(places, ladders, strict=True):
        alike.setdefault(place.height, []).append(ladder)
    kinds = [
        (len(same), [(int(r.low * wide), int(r.high * wide), int(r.minutes * paid), r.kind) for r in same[0]])
        for same in alike.values()
    ]
    off, fill = int(rates.off_setup * paid), int(rates.fill_setup * paid)
    ends = sorted({end for _, rungs in kinds for rung in rungs for end in rung[:2]})
    found: tuple[int, int] | None = None
    for at in ends:
        total = _whole_cost(kinds, at, off, fill)
        if total is not None and (found is None or total < found[0]):
            found = total, at
    if found is None:
        return Levelled(None, nodes=len(ends))
    cost, height = Fraction(found[0], paid), Fraction(found[1], wide)
    rungs = [rung for ladder in ladders if (rung := rung_at(ladder, height)) is not None]
    low, high = max(rung.low for rung in rungs), min(rung.high for rung in rungs)
    height = _mark(low, high)
    amounts = tuple(amount_at(each, height, limits.limit) for each in places)
    return Levelled(Plane(height), amounts, cost, cost, len(ends))


def _whole_cost(
    kinds: Sequence[tuple[int, Sequence[tuple[int, int, int, int]]]], at: int, off: int, fill: int
) -> int | None:
    """What a level plane costs; None past the amounts allowed. Of each kind of place: how many, its rungs."""
    total, used = 0, set()
    for many, rungs in kinds:
        best = min(
            ((cost, n) for n, (low, high, cost, _) in enumerate(rungs) if low <= at <= high), default=None
        )
        if best is None:
            return None
        total += many * best[0]
        used.add(rungs[best[1]][3])
    return total + (off if -1 in used else 0) + (fill if 1 in used else 0)


def _mark(low: Fraction, high: Fraction) -> Fraction:
    """The coarsest mark of a rule between two heights, near their middle; the middle where there is none."""
    middle = (low + high) / 2
    for parts in (8, 16, 32, 64):
        mark = Fraction(round(middle * parts), parts)
        if low <= mark <= high:
            return mark
    return middle
