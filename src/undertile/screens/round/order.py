"""The rounds of a job, the order their points are read in, and what each point is called on the pad."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from undertile.job.address import Path
from undertile.screens.context import Context
from undertile.wood.clock import Clock
from undertile.wood.facts import Meter, Point, WoodFacts
from undertile.wood.gone import odd_outs
from undertile.wood.history import NO_METER
from undertile.wood.typed import read_moment, read_shown
from undertile.wood.walk import walk

ENOUGH_WHOLE = 5
"""Whole percents, and nothing else, that say that a meter shows no halves (ours)."""


def water_facts(ctx: Context) -> WoodFacts:
    """What is typed about the water."""
    found = ctx.state.folded.job.facts()["wood"]
    assert isinstance(found, WoodFacts)
    return found


def clock_of(ctx: Context) -> Clock:
    """The host's day, and that of the record's newest entry, as the stages are given them."""
    return Clock(ctx.state.today, ctx.state.entered)


def visits_in_order(facts: WoodFacts) -> list[str]:
    """Rounds by their days."""
    return sorted(facts.visits, key=lambda name: read_moment(facts.visits[name].when).days)


_READ = ("shown", "temperatures", "surface", "awl", "pick", "chips")
"""Facts of a point that are kept by the name of the visit."""


def names_taken(ctx: Context) -> dict[str, int]:
    """Every name of a round with how many of its readings stand, whether its day can be read or not.

    A round whose day was mistyped is no free name: its readings would come to stand under another day.
    """
    found = dict.fromkeys(water_facts(ctx).visits, 0)
    for path, fact in ctx.state.facts.items():
        if path[:1] != ("wood",) or not any(entry.value is not None for entry in fact.standing):
            continue
        if path[1] == "visits" and len(path) > 3:
            found.setdefault(path[2], 0)
        elif path[1] == "points" and len(path) > 4 and path[3] in _READ:
            found[path[4]] = found.get(path[4], 0) + (path[3] == "shown")
    return found


def next_name(ctx: Context) -> str:
    """A name for a new round that no other has: the next number."""
    taken = names_taken(ctx)
    number = 1 + max((int(name) for name in taken if name.isdecimal()), default=len(taken))
    return str(number)


def visits_before(facts: WoodFacts, visit: str) -> list[str]:
    """Rounds before this one, the newest first; all of them where this one is not there yet."""
    every = visits_in_order(facts)
    return every[: every.index(visit)][::-1] if visit in every else every[::-1]


def _meter_name(facts: WoodFacts, visit: str) -> str:
    named = facts.visits[visit].meter if visit in facts.visits else ""
    return named or (next(iter(facts.meters)) if len(facts.meters) == 1 else "")


def meter_of(facts: WoodFacts, visit: str) -> Meter:
    """The meter of a round: the one it names, else the only one."""
    return facts.meters.get(_meter_name(facts, visit), NO_METER)


def step_of(facts: WoodFacts, visit: str) -> str:
    """What the meter counts in, by what it has shown: ``1``, ``0.5`` or ``0.1`` percent; at first halves."""
    meter = _meter_name(facts, visit)
    shown = [
        value
        for point in facts.points.values()
        for name, text in point.shown.items()
        if name in facts.visits and _meter_name(facts, name) == meter
        for value in read_shown(text).values
    ]
    if any(round(10 * value) % 5 for value in shown):
        return "0.1"
    return "1" if len(shown) >= ENOUGH_WHOLE and all(value == int(value) for value in shown) else "0.5"


def points_walked(ctx: Context, visit: str) -> list[str]:
    """Points of a round in the order they were read: by when each was first typed."""
    return _by_first_entry(ctx, lambda path: path[3:] == ("shown", visit))


def points_written(ctx: Context) -> list[str]:
    """Every point in the order they were written, out of the log: a fold has no order of its own."""
    return _by_first_entry(ctx, lambda path: True)


def _by_first_entry(ctx: Context, counts: Callable[[Path], bool]) -> list[str]:
    first: dict[str, tuple[str, str, int]] = {}
    for path, fact in ctx.state.facts.items():
        stands = any(entry.value is not None for entry in fact.standing)
        if stands and path[:2] == ("wood", "points") and counts(path):
            at = min((entry.time, *_numbered(entry.id)) for entry in fact.entries)
            first[path[2]] = min(at, first.get(path[2], at))
    return sorted(first, key=first.__getitem__)


def _numbered(name: str) -> tuple[str, int]:
    """The device and the number of an entry, out of its id."""
    device, _, number = name.rpartition("-")
    return (device, int(number)) if number.isdecimal() else (name, 0)


def points_in_order(ctx: Context, visit: str) -> list[str]:
    """Points of a round in the order they are to be read; what is cut out is on none."""
    facts = water_facts(ctx)
    there = odd_outs(
        facts, clock_of(ctx)
    )  # cut out on a day that cannot be so: asked for until that is corrected
    asked = {
        name
        for name, point in facts.points.items()
        if not point.out or name in there or point.shown.get(visit, "").strip()
    }
    written = [name for name in points_written(ctx) if name in asked]
    return list(walk(written, [points_walked(ctx, name) for name in visits_before(facts, visit)]))


def where_of(ctx: Context, name: str, point: Point) -> tuple[str, str]:
    """A point's piece of wood and the place along it, as the pad says them; else its name."""
    says = ctx.says
    if point.member == "plate" and point.wall and point.along is not None:
        return says("round-plate", wall=point.wall), point.along.text
    if point.member == "stud" and point.name:
        return point.name, "" if point.height is None else point.height.text
    if point.member == "joist" and point.name:
        return says("round-joist", name=point.name), "" if point.along is None else point.along.text
    if point.member == "subfloor" and point.x is not None and point.y is not None:
        return subfloor(ctx, point.layer), across([point.x.text, point.y.text])
    return name, ""


MARKS = ("L ", "B ")
"""The walls that a place on the subfloor is measured from."""


def across(place: Sequence[str]) -> str:
    """A place along a piece of wood, or on the subfloor: ``L 18, B 6``."""
    return (
        ", ".join(mark + text for mark, text in zip(MARKS, place, strict=True))
        if len(place) > 1
        else place[0]
    )


def subfloor(ctx: Context, layer: int) -> str:
    """A layer of the subfloor; there is often only one, and then it is not counted."""
    every = {point.layer for point in water_facts(ctx).points.values() if point.member == "subfloor"}
    return ctx.says("round-subfloor" if every <= {1} and layer == 1 else "round-subfloor-layer", layer=layer)
