"""What to do next, said first on every screen: the one thing that unlocks the most, in the order of the work.

Settled before anything: two values for one thing, a reading in doubt. Then what is missing for a first plan,
then the work, the re-check, the proof. "Two heights a stud are enough to start" (convention 2.6).
"""

from __future__ import annotations

from collections.abc import Callable
from functools import partial

from undertile.errors import UndertileError
from undertile.job.address import split
from undertile.screens.answers import State
from undertile.screens.context import Context, View
from undertile.screens.pad_sheet import CHECKS, judged, names_of, rows_of
from undertile.screens.seen import seen
from undertile.screens.slices import log_text
from undertile.screens.steps_floor import fails_of, floor_step
from undertile.screens.steps_water import still_open, water_step
from undertile.screens.ticked import done_studs, ticked_studs

STEPS = (
    "room",
    "pan",
    "water",
    "floor",
    "read",
    "doubts",
    "plan",
    "more",
    "moves",
    "work",
    "recheck",
    "proof",
    "papers",
    "photos",
    "history",
)
"""The screens of a job in the order of the work."""
PARTS = {"wood": "water", "floor": "floor", "survey": "read", "framing": "plan", "recheck": "recheck"}
"""The screen of each stage that can be named when it breaks."""


def sheet_of(fact: str) -> str:
    """The sheet a fact is read on; "" where it is on none."""
    parts = split(fact) if fact else ()
    if parts[:2] == ("survey", "walls"):
        return str(parts[2])
    return CHECKS if parts[:1] == ("survey",) and parts[:2] != ("survey", "repeats") else ""


def counted(rows: list[View]) -> tuple[int, int]:
    """Of how many readings how many are taken; cannot reach counts: somebody tried."""
    return sum(bool(row["value"]) for row in rows), len(rows)


def progress(ctx: Context) -> dict[str, tuple[int, int]]:
    """For each sheet of the job what is read of it."""
    return {name: counted(rows_of(ctx, name)) for name in names_of(ctx)}


def next_step(ctx: Context) -> View:
    """The next thing to do: its words, and the screen for it.

    Said on every screen, so no fault of a stage may take it down: then it says which part broke, and leads
    to the record, where what broke it can be taken back or corrected.
    """
    try:
        step = _next_step(ctx)
    except UndertileError:
        raise
    except Exception as error:
        ctx.state.broke("next", error)
        step = None
    return _broken(ctx) if ctx.state.broken or step is None else step


def _broken(ctx: Context) -> View:
    says = ctx.says
    parts = [says(f"step-{PARTS[key]}") for key in sorted(ctx.state.broken) if key in PARTS]
    text = says("next-broken", part=", ".join(parts) or says("next-broken-part"))
    return {"text": text, "why": says("next-broken-why"), "href": ctx.href("history")}


def _next_step(ctx: Context) -> View:
    says = ctx.says

    def step(key: str, *parts: str, why: str = "", query: dict[str, str] | None = None, **slots: str) -> View:
        return {"text": says(f"next-{key}", **slots), "why": why, "href": ctx.href(*parts, **(query or {}))}

    state = ctx.state
    if not state.has_unit:
        return step("unit", "room")
    told = judged(ctx)
    if told["clashes"]:
        return step("clash", "doubts", number=str(len(told["clashes"])))
    if told["doubts"]:
        first = told["doubts"][0]
        return step("doubt", "doubts", where=first["where"], why=first["slip"])
    counts = progress(ctx)
    if not told["left_out"] and (water := water_step(ctx, counts)) is not None:
        return water
    walls = [name for name in counts if name != CHECKS]
    if not walls or not any(counts[name][1] for name in walls):
        return step("room", "room")
    if told["left_out"]:
        return step("left-out", "doubts", number=str(len(told["left_out"])))
    if (floor := floor_step(ctx, step)) is not None:
        return floor
    for name in walls:
        done, of = counts[name]
        if done < of and not _read_enough(ctx, name):
            return step("read", "read", name, wall=says.sheet(name), left=str(of - done))
    if ctx.state.folded.job.pan.pan.width is None:
        return step("pan", "pan")
    if CHECKS in counts and not _any(ctx, CHECKS):
        return step("checks", "read", CHECKS)
    for look in told["looks"]:
        sheet = sheet_of(look["fact"])
        if sheet and not ticked_studs(ctx):
            return step("look", "read", sheet, query={"at": look["fact"]}, where=look["where"])
    return _after_reading(ctx, step)


def _read_enough(ctx: Context, name: str) -> bool:
    """Whether every stud of a wall has two heights, or nothing of it is left to try."""
    by_stud: dict[int, list[bool]] = {}
    for each in rows_of(ctx, name):
        if "stud" in each:
            by_stud.setdefault(each["stud"], []).append(bool(each["value"]))
    return all(sum(read) >= min(2, len(read)) for read in by_stud.values())


def _any(ctx: Context, name: str) -> bool:
    return any(each["value"] for each in rows_of(ctx, name))


def _after_reading(ctx: Context, step: Callable[..., View]) -> View:
    plan = seen(ctx)
    if ctx.state.plans is None:
        _look_ahead(ctx)
    if plan is None:
        return step("plan", "plan")
    if not plan.planned:
        return step("no-plan", "plan")
    if plan.stopped(ctx):
        return step("stop", "plan")
    done = done_studs(ctx)
    left = [name for name in plan.touched if name not in done]
    if left and not ticked_studs(ctx):
        return step("start", "work", stud=left[0])
    if left:
        return step("work", "work", stud=left[0], left=str(len(left)))
    if not reread_studs(ctx):
        return step("recheck", "recheck")
    if fails := fails_of(ctx):
        return fails[0]
    if (covering := still_open(ctx)) is not None:
        return covering
    return step("proof", "proof")


def _look_ahead(ctx: Context) -> None:
    """The plan is what comes next: while the person reads so, it is looked for, where nobody has to wait."""
    host, state = ctx.host, ctx.state
    if host.soon is not None and host.ahead is not None and state.key:
        host.soon[:] = [partial(_begin, host.ahead, ctx.job, state)]


def _begin(ahead: Callable[[str, str, str], object], job: str, state: State) -> None:
    if state.plans is None:
        ahead(job, state.key, log_text(state.log))


def reread_studs(ctx: Context) -> set[str]:
    """Studs read again after the work."""
    return {
        path[4]
        for path, fact in ctx.state.facts.items()
        if path[:2] == ("recheck", "walls")
        and len(path) > 5
        and path[3] == "studs"
        and any(entry.value for entry in fact.standing)
    }
