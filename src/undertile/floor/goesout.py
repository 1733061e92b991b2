"""What the floor changes of the water's answer: wood that a planned patch takes out, and what is not sound.

The water says how far to open, the floor lays out the patch; what goes out with it is not waited
for; and what of the floor is not sound keeps the gate shut. So the floor amends the water's answer
(``Stage.amends``): every face reads the one answer. It is asked after each value of a round: the level under
the pan, the cut list and the bed are not worked for it, and what is worked is kept while its facts stay.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING, Any

from undertile.floor.carrying import not_read, not_sound, open_floor
from undertile.floor.covering import inside, unread_under
from undertile.floor.dated import counted as words_counted
from undertile.floor.joists import joists_of
from undertile.floor.loads import carried
from undertile.floor.ownlimits import carrying_looser
from undertile.floor.ownlimits import counted as as_usual
from undertile.floor.patch import Layout
from undertile.floor.patches import bad_floor, laid_out, span_checks
from undertile.sentence import Sentence
from undertile.stage import units
from undertile.wood.clock import Clock
from undertile.wood.gate import FIRST
from undertile.wood.gone import counted
from undertile.wood.planned import with_patch

if TYPE_CHECKING:
    from undertile.findings import Finding
    from undertile.wood.extent import Patch
    from undertile.wood.facts import Point
    from undertile.wood.gate import Missing


class _Last:
    """The floor asked about last, with what it came to: during a round of readings it stays as it is."""

    told: tuple[tuple[Any, ...], tuple[tuple[Layout, ...], tuple[Missing, ...]]] | None = None


def goes_out(
    points: Mapping[str, Point], layouts: Sequence[Layout], *, out_from_back: bool
) -> dict[str, int]:
    """Number of the patch that takes a point's wood out, by point.

    Parameters
    ----------
    points : mapping of str to Point
    layouts : sequence of Layout
        Numbered from 1, as every face numbers them.
    out_from_back : bool
        Which way the joists run.

    Returns
    -------
    dict
        Points of the subfloor only, and surely inside: what is on a cut line, or in a layer
        that is not cut, stays.
    """
    found: dict[str, int] = {}
    for name, point in points.items():
        if point.member != "subfloor" or point.x is None or point.y is None or point.out:
            continue
        across, along = point.x.inches, point.y.inches
        at = (across, along) if out_from_back else (along, across)
        for number, made in enumerate(layouts, 1):
            layers = (made.lower,) if made.upper is None else (made.upper, made.lower)
            if point.layer <= len(layers) and inside(at, layers[point.layer - 1]):
                found[name] = number
                break
    return found


def amended(facts: Mapping[str, Any], results: Mapping[str, Any]) -> dict[str, Any]:
    """The water's answer with the patches planned, under its stage's key; empty where nothing changes.

    Parameters
    ----------
    facts : mapping
        ``wood``, ``floor``, ``unit``; ``survey`` for the walls, ``safety`` for what a person lifted.
    results : mapping
        ``wood``.
    """
    water, its = results.get("wood"), facts.get("wood")
    if water is None or its is None:
        return {}
    clock = Clock.of(facts)
    # a day that cannot be so counts for nothing either way
    unit = facts.get("unit", "in")
    looser = tuple(carrying_looser(facts["floor"], unit))
    floor = as_usual(words_counted(facts["floor"], clock, its), unit)
    its = counted(its, clock)
    facts = {**facts, "floor": floor}
    layouts, unsound = _of_floor(facts, water.patches)
    along = floor.joists_run == "out from the back wall"
    out = goes_out(its.points, layouts, out_from_back=along)
    unread = unread_under(its, water, joists_of(floor), layouts, out_from_back=along)
    # what the gate names under its own heading is no matter of the floor
    named = {each.where for each in water.gate.missing if each.kind in FIRST}
    unsound = (*(each for each in unsound if each.where not in named), *map(not_read, unread))
    if not floor.joists and any(_cut_away(its.points[each.name]) for each in water.points):
        unsound = (open_floor(Sentence("the subfloor is cut open and no joist is entered")),)
    walls = _walls(facts)
    return {"wood": with_patch(water, its, walls, out, unsound, looser=looser, unit=unit)}


def shut(facts: Mapping[str, Any], results: Mapping[str, Any]) -> dict[str, Any]:
    """The water's answer where the floor could not be worked: the gate stays shut for that."""
    water, its = results.get("wood"), facts.get("wood")
    if water is None or its is None or not (facts["floor"].joists or facts["floor"].patch.bad):
        return {}
    lacks = (open_floor(Sentence("it could not be worked")),)
    return {"wood": with_patch(water, its, _walls(facts), {}, lacks)}


def _walls(facts: Mapping[str, Any]) -> tuple[str, ...]:
    return tuple(getattr(facts.get("survey"), "walls", ()))


def _cut_away(point: Point) -> bool:
    return point.member == "subfloor" and bool(point.out)


def _of_floor(
    facts: Mapping[str, Any], wet: tuple[Patch, ...]
) -> tuple[tuple[Layout, ...], tuple[Missing, ...]]:
    """The patches as they lie and what is not sound, by the floor, the lifts and how far it is wet."""
    floor, (unit, own_unit) = facts["floor"], units(facts)
    asked = (unit, own_unit, wet, floor, facts.get("safety"), Clock.of(facts))
    last = _Last.told
    if last is not None and last[0] == asked:
        return last[1]
    said: list[Finding] = []  # the floor's own answer says it
    joists = joists_of(floor, unit)
    bad = bad_floor(floor, wet, said, unit)
    laid = laid_out(floor, bad, joists, said, own_unit)
    layouts = laid.layouts
    wanted = bool(bad) and bool(joists)
    loads = carried(floor.loads, unit)
    told = not_sound(facts, joists, layouts, loads, wanted=wanted, spanned=span_checks(laid))
    found = layouts, told
    _Last.told = asked, found
    return found
