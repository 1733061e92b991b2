"""What to do next on the floor, and what of it goes before the walls are read."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import TYPE_CHECKING

from undertile.findings import Check, Severity, Verdict
from undertile.lengths import format_length
from undertile.screens.context import Context, View
from undertile.screens.pad_sheet import judged

if TYPE_CHECKING:
    from undertile.floor.result import FloorResult

ASKED = frozenset(
    {
        *("joists-run-unknown", "joists-missing", "joist-span-missing", "joist-span-short", "joist-twice"),
        *("joist-notch-odd", "joist-hole-odd", "patch-inside-out", "patch-no-edge", "patch-extent-open"),
        "patch-panel-size",
        *("floor-spot-twice", "floor-spot-odd"),
    }
)
"""Findings that ask for a measurement: what they hold up is not known without it."""
Step = Callable[..., View]


def begun(ctx: Context) -> bool:
    """Whether anything of the floor stands."""
    return any(
        path[:1] == ("floor",) and any(entry.value is not None for entry in fact.standing)
        for path, fact in ctx.state.facts.items()
    )


def spots(ctx: Context) -> list[str]:
    """Places of the floor under the pan, in the order they were laid out: so they are walked."""
    first: dict[str, tuple[str, str, int]] = {}
    for path, fact in ctx.state.facts.items():
        if path[:3] == ("floor", "level", "spots"):
            laid = min((entry.time, *_numbered(entry.id)) for entry in fact.entries)
            first[path[3]] = min(laid, first.get(path[3], laid))
    there = ctx.state.folded.job.floor.level.spots
    return sorted(there, key=first.__getitem__)


def _numbered(name: str) -> tuple[str, int]:
    """The device and the number of an entry, out of its id."""
    device, _, number = name.rpartition("-")
    return (device, int(number)) if number.isdecimal() else (name, 0)


def unread(ctx: Context) -> int:
    """How many of them nobody has read or tried; what waits for a new panel is not asked for before."""
    found = ctx.state.floor
    waits = () if found is None else found.level.on_old
    return sum(
        not (name in waits or _read(ctx, name, "on_new") or _read(ctx, name, "reading"))
        for name in spots(ctx)
    )


def on_new(ctx: Context) -> list[str]:
    """Places to be read on a new panel, and those that were."""
    found = ctx.state.floor
    waits = () if found is None else found.level.on_old
    return [name for name in spots(ctx) if name in waits or _read(ctx, name, "on_new")]


def laid(ctx: Context) -> bool:
    """Whether the new panel lies: somebody has begun to read on it."""
    return any(_read(ctx, name, "on_new") for name in spots(ctx))


def _read(ctx: Context, name: str, key: str) -> bool:
    """Whether anything stands there, ``x`` too."""
    fact = ctx.state.facts.get(("floor", "level", "spots", name, key))
    return fact is not None and any(entry.value for entry in fact.standing)


def floor_step(ctx: Context, step: Step) -> View | None:
    """The floor's part of what goes before the walls are read; None where it asks for nothing.

    A stop, what is missing, places still to be read. What fails is the floor's own to say: a person may
    have reasons to read the walls first, and is not asked twice.
    """
    if not begun(ctx):
        return None
    found = ctx.state.floor
    if found is None:
        return None
    if (stop := stop_of(ctx)) is not None:
        return stop
    missing = _missing(found)
    if missing:
        key = "floor-missing" if len(missing) > 1 else "floor-missing-one"
        return step(key, "floor", number=str(len(missing)), why=missing[0])
    if spots(ctx) and (left := unread(ctx)):
        return step("floor-spots", "floor", "read", left=str(left))
    if found.level.on_old and laid(ctx):
        return step("floor-on-new", "floor", "read", left=str(len(found.level.on_old)))
    return None


def _missing(found: FloorResult) -> list[str]:
    """What is asked for, each once, in the stage's words."""
    return list(dict.fromkeys(each.next_step for each in found.findings if each.code in ASKED))


def state_of(ctx: Context) -> str:
    """How far the floor is, for the list of steps; "" where none is begun."""
    found = ctx.state.floor if begun(ctx) else None
    if found is None:
        return ""
    fails = sum(check.verdict is Verdict.FAIL and not _answered(found, check) for check in found.checks)
    fails += sum(each.severity is Severity.STOP for each in found.findings)
    if fails:
        return ctx.says("state-floor-fail", number=str(fails))
    passes = found.checks and all(check.verdict is Verdict.PASS for check in found.checks)
    return ctx.says("state-floor-pass" if passes else "state-floor-open")


def next_of(ctx: Context) -> View:
    """What is next on the floor itself; where it asks for nothing more, what is next in the job."""
    from undertile.floor.untold import ON_TOP  # only where something of the floor is asked
    from undertile.screens.next_step import next_step

    says = ctx.says

    def step(key: str, *parts: str, why: str = "", **slots: str) -> View:
        return {"text": says(f"next-{key}", **slots), "why": says.told(why), "href": ctx.href(*parts)}

    told = judged(ctx)
    if not ctx.state.has_unit or told["clashes"] or told["left_out"]:
        return next_step(ctx)
    found = ctx.state.floor
    if found is None or not begun(ctx):
        return step("floor-begin", "floor", "type")
    first = floor_step(ctx, step)
    if first is not None:
        stops = any(
            each.severity is Severity.STOP for each in found.findings
        )  # lifted on the floor's own screen
        here = first["href"] == ctx.href("floor") and not stops
        return {**first, "href": ctx.href("floor", "type")} if here else first
    if fails := fails_of(ctx):
        return fails[0]
    if any(check.next_step == ON_TOP for check in found.checks):
        return {"text": says.told(ON_TOP), "why": "", "href": ctx.href("floor", "type")}
    if found.layouts and not laid(ctx):
        level = found.level
        if found.covers is not None and not found.covers.may:
            return step("floor-cut-only", "papers", "floor", why=found.covers.says)
        return step("floor-cut", "papers", "floor", why=level.checks[0].next_step if level.on_old else "")
    work = sum(bool(place.amount) for place in found.level.places)
    if work:
        key = "floor-level" if work > 1 else "floor-level-one"
        return step(key, "papers", "floor", number=str(work))
    if not spots(ctx) and proposed(ctx):
        return step("floor-lay-out", "floor", "type")
    return next_step(ctx)


def stop_of(ctx: Context) -> View | None:
    """The first stop of the floor; None where none stands."""
    found = ctx.state.floor if begun(ctx) else None
    stops = [] if found is None else [each for each in found.findings if each.severity is Severity.STOP]
    if found is None or not stops:
        return None
    from undertile.floor.sound import joist_at  # only where something of the floor stops

    text = ctx.says("next-floor-stop", where=ctx.says.place(stops[0].where))
    asked = {each.where: each.next_step for each in found.findings if each.code == "joist-span-missing"}
    name = joist_at(stops[0].where, [each.joist.name for each in found.joists])
    why = ctx.says.told(asked.get(f"joist {name}", ""))  # what is measured may lift it
    return {"text": text, "why": why, "href": ctx.href("floor")}


def fails_of(ctx: Context) -> list[View]:
    """What joists and subfloor do not carry, and what to do about each: it holds up the covering."""
    found = ctx.state.floor if begun(ctx) else None
    if found is None:
        return []
    fails = [check for check in found.checks if check.verdict is Verdict.FAIL]
    asked = [check for check in fails if check.code.startswith(("joist-", "panel-"))]
    return [_settle(ctx, check) for check in asked if not _answered(found, check)]


def _answered(found: FloorResult, check: Check) -> bool:
    """Whether an engineer's word stands for the joist it is of: nothing nags twice (convention 4.6)."""
    from undertile.floor.mended import word_stands  # only where something of the floor is asked
    from undertile.floor.sound import joist_at

    row = {each.joist.name: each.joist for each in found.joists}
    joist = row.get(joist_at(check.where, list(row)))
    return joist is not None and word_stands(joist)


def _settle(ctx: Context, fails: Check) -> View:
    """What fails: what to do leads, what does not pass in the small line; a tap goes to where it is typed."""
    says = ctx.says
    said = says.check(fails)
    verdict = says("next-floor-fail", title=said["title"], where=said["where"])
    if not fails.next_step:
        return {"text": verdict, "why": "", "href": ctx.href("floor")}
    from undertile.floor.sound import joist_at  # only where something of the floor fails

    names = [each.joist.name for each in ctx.state.floor.joists] if ctx.state.floor else []
    name = joist_at(fails.where, names)
    href = ctx.href("floor", "joist", name) if name in names else ctx.href("floor", "type")
    return {"text": says.told(fails.next_step), "why": verdict, "href": href}


def of_joist(found: FloorResult, name: str) -> list[Check]:
    """What was judged of one joist: as a whole, and each notch, hole and soft place in it."""
    return [
        check
        for check in found.checks
        if check.where in (name, f"joist {name}") or check.where.startswith(f"{name} ")
    ]


def unanswered(found: FloorResult, checks: Iterable[Check]) -> list[Check]:
    """Those that pass, and those for which no engineer's word stands."""
    return [each for each in checks if each.verdict is Verdict.PASS or not _answered(found, each)]


def proposed(ctx: Context) -> tuple[tuple[str, str, str], ...]:
    """Places to read that nobody laid out yet: name, from the left wall, from the back wall, as typed."""
    from undertile.floor.levelgrid import grid_places  # a phone's first screen needs none of it
    from undertile.floor.ownlimits import counted

    job = ctx.state.folded.job
    if job.floor.level.spots:
        return ()
    sizes = (job.pan.pan.width, job.pan.pan.depth)
    width, depth = (None if size is None else size.inches for size in sizes)
    found = grid_places(counted(job.floor, ctx.unit).level, (width, depth), ctx.unit)
    return tuple((name, format_length(x, ctx.unit), format_length(y, ctx.unit)) for name, x, y in found)
