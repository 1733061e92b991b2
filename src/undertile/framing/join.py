"""Groups of walls searched apart, put together: common planes that meet the demands between them too.

The stacks stay as found, so the cost stays the sum of the groups' least; only the planes move, to where a
person can mark them.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from math import ceil

from undertile.framing.bound import Group
from undertile.framing.exactlp import Row, find_point, whole_row
from undertile.framing.found import Found
from undertile.framing.problem import Demand


def join(runs: Sequence[tuple[Group, Found]], lazy: Sequence[Demand]) -> list[tuple[Group, Found]] | Demand:
    """Planes for all groups that meet the lazy demands too, least room lost; or the demand in the way."""
    if meets_all(runs, lazy):
        return [(g, markable(g, f)) for g, f in runs] if not lazy else keep_markable(runs, lazy)
    offsets = {}
    size = 0
    for group, _ in runs:
        for name in group.names:
            offsets[name] = size
            size += 2
    rows: list[Row] = []
    low: list[int] = []
    for group, found in runs:
        start = offsets[group.names[0]]
        for coefficients, bound in group.rows_of(found.leans, found.picks):
            wide = [0] * size
            wide[start : start + len(coefficients)] = coefficients
            rows.append((tuple(wide), bound))
        low += group.floor()
    point = None
    for demand in lazy:
        rows += _demand_rows(demand, runs, offsets, size)
        point = find_point(rows, low, [1] * size)
        if point is None:
            return demand
    assert point is not None
    out = []
    for group, found in runs:
        start = offsets[group.names[0]]
        part = point[start : start + 2 * len(group.names)]
        faces, row = group.settle_all(found.leans, found.limits, found.picks, part)
        if row is not None:
            return next(d for d in lazy if {p[0] for p in d.parts} & set(group.names))
        out.append(
            (
                group,
                Found(found.cost, found.leans, found.masks, found.limits, found.picks, part, tuple(faces)),
            )
        )
    return out


def _demand_rows(
    demand: Demand, runs: Sequence[tuple[Group, Found]], offsets: dict[str, int], size: int
) -> list[Row]:
    wide = [Fraction(0)] * size
    fixed = Fraction(0)
    for group, found in runs:
        part = Demand(demand.code, tuple(p for p in demand.parts if p[0] in group.names), None, None, "")
        start = offsets[group.names[0]]
        wide[start : start + 2 * len(group.names)] = group.spreads_of([part], found.leans)[0].wide
        fixed += group.fixed(part, found.leans)
    unit = runs[0][0].unit
    rows = []
    if demand.high is not None:
        rows.append(whole_row(wide, (demand.high - fixed) * unit))
    if demand.low is not None:
        rows.append(whole_row([-c for c in wide], -(demand.low - fixed) * unit))
    return rows


def value_of(demand: Demand, runs: Sequence[tuple[Group, Found]]) -> Fraction:
    """A demand's value at the found planes. [in]"""
    total = Fraction(0)
    for group, found in runs:
        part = Demand(demand.code, tuple(p for p in demand.parts if p[0] in group.names), None, None, "")
        total += group.value(part, found.leans, found.point)
    return total


def meets_all(runs: Sequence[tuple[Group, Found]], demands: Sequence[Demand]) -> bool:
    for demand in demands:
        value = value_of(demand, runs)
        if (demand.low is not None and value < demand.low) or (
            demand.high is not None and value > demand.high
        ):
            return False
    return True


def keep_markable(runs: Sequence[tuple[Group, Found]], lazy: Sequence[Demand]) -> list[tuple[Group, Found]]:
    """Markable planes group by group, as long as the lazy demands still hold."""
    out = list(runs)
    for i, (group, found) in enumerate(runs):
        out[i] = (group, markable(group, found))
        if not meets_all(out, lazy):
            out[i] = (group, found)
    return out


def markable(group: Group, found: Found) -> Found:
    """The same stacks on planes a person can mark: whole sixteenths at the end studs where that can be."""
    rows = group.rows_of(found.leans, found.picks)
    size = 2 * len(group.names)
    low = group.floor()
    alone = [len(frames[0].wall.members) == 1 for frames in group.frames]
    for parts in (16, 32, 64):
        grid = Fraction(group.unit, parts)
        fixed: list[Fraction] = []
        for j in range(size):
            at = _fix(rows, fixed, size)
            cost = [0] * size
            cost[j] = 1
            point = find_point(at, low, cost)
            if point is None:
                break
            mark = ceil(point[j] / grid) * grid
            if j % 2 and alone[j // 2] and find_point(_fix(rows, [*fixed, fixed[j - 1]], size), low):
                mark = fixed[j - 1]  # one stud says nothing about the turn: square to the line
            if find_point(_fix(rows, [*fixed, mark], size), low) is None:
                break
            fixed.append(mark)
        if len(fixed) < size:
            continue
        faces, row = group.settle_all(found.leans, found.limits, found.picks, fixed)
        if row is None:
            return Found(
                found.cost, found.leans, found.masks, found.limits, found.picks, tuple(fixed), tuple(faces)
            )
    return found


def _fix(rows: Sequence[Row], fixed: Sequence[Fraction], size: int) -> list[Row]:
    out = list(rows)
    for j, value in enumerate(fixed):
        unit = [Fraction(0)] * size
        unit[j] = Fraction(1)
        out.append(whole_row(unit, value))
        out.append(whole_row([-c for c in unit], -value))
    return out
