"""A plan to go on with when the time limit is hit before the least one is proved.

First some plan: the same search with every price at nothing finds planes that can be reached at all. Then the
least at those planes, and at planes a step away as long as that is cheaper and the time lasts. It is a plan
under the whole contract; only that none is cheaper is not shown, and the bound says by how much it may miss.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import replace
from fractions import Fraction

from undertile.framing.plan import FramingPlan, Plane
from undertile.framing.problem import FramingProblem, Prices

NOTHING = Fraction(0)


def priceless(problem: FramingProblem) -> FramingProblem:
    """The same problem with every minute and dollar at nothing: what can be done at all."""
    prices = Prices(
        rate=problem.prices.rate,
        factor=problem.prices.factor,
        **{name: NOTHING for name in Prices.__dataclass_fields__ if name not in ("rate", "factor")},
    )
    walls = []
    for wall in problem.walls:
        members = tuple(
            replace(
                m,
                sister=None if m.sister is None else NOTHING,
                replace=None if m.replace is None else NOTHING,
                replace_dollars=NOTHING,
            )
            for m in wall.members
        )
        terms = tuple(
            replace(t, minutes=None if t.minutes is None else NOTHING, dollars=NOTHING) for t in wall.terms
        )
        channel = None if wall.channel is None else replace(wall.channel, minutes=NOTHING, dollars=NOTHING)
        walls.append(replace(wall, members=members, terms=terms, channel=channel))
    stock = tuple(replace(item, price=NOTHING) for item in problem.stock)
    return replace(problem, walls=tuple(walls), stock=stock, prices=prices)


def some_plan(
    at: Callable[[Mapping[str, Plane]], FramingPlan],
    reach: Callable[[], Mapping[str, Plane]],
    time_left: Callable[[], bool],
) -> FramingPlan | None:
    """A plan found by going downhill from planes that can be reached.

    Parameters
    ----------
    at : callable
        The least plan with every plane given.
    reach : callable
        Planes that can be reached; empty when none are known.
    time_left : callable
        False once there is no more time.

    Returns
    -------
    FramingPlan or None
    """
    planes = reach()
    if not planes:
        return None
    best = at(planes)
    if best.cost is None:
        return None
    step = Fraction(1, 4)
    while step >= Fraction(1, 32) and time_left():
        better = False
        for name in planes:
            for by in (step, -step):
                if not time_left():
                    return best
                plane = best.planes[name]
                tried = at({**best.planes, name: replace(plane, offset=plane.offset + by)})
                if tried.cost is not None and best.cost is not None and tried.cost < best.cost:
                    best, better = tried, True
        for by in (step, -step):  # the side walls move together: the pan's play stays
            if {"L", "R"} <= set(planes) and time_left():
                left, right = best.planes["L"], best.planes["R"]
                tried = at(
                    {
                        **best.planes,
                        "L": replace(left, offset=left.offset + by),
                        "R": replace(right, offset=right.offset - by),
                    }
                )
                if tried.cost is not None and best.cost is not None and tried.cost < best.cost:
                    best, better = tried, True
        if not better:
            step /= 2
    return best
