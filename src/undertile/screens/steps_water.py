"""What to do next about the water, in the order of the work: the place, the test, the day, the gate.

Said first on every screen of the water, and by the job's own next step while it comes before the walls.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING

from undertile.findings import Severity
from undertile.safety.lifts import lift
from undertile.screens.context import Context, View
from undertile.screens.under_way import under_way

if TYPE_CHECKING:
    from undertile.wood.nexttest import Offered
    from undertile.wood.result import WoodResult

FIRST = ("begin", "stop", "leak", "running", "round", "cut", "probe", "look")
"""What comes before the walls are read: it changes what is opened, or hurts somebody."""


def steps(ctx: Context, found: WoodResult) -> list[View]:
    """Everything there is to do, what unlocks the most first; each with its kind, words and screen.

    Parameters
    ----------
    ctx : Context
    found : WoodResult

    Returns
    -------
    list of dict
        ``kind`` is ``begin``, ``stop``, ``leak``, ``running``, ``round``, ``cut``, ``stuff``, ``probe``,
        ``look``, ``test``, ``again`` or ``gate``; ``later`` is true of what must wait for another day, and
        stands behind what can be done now.
    """
    from undertile.wood.nexttest import MORNING  # only where there is water: quick at first
    from undertile.wood.rank import running, wet_at_first

    says = ctx.says
    out: list[View] = []

    def add(kind: str, text: str, href: str, why: str = "", later: bool = False) -> None:
        out.append({"kind": kind, "text": text, "why": why, "href": href, "later": later})

    if not found.series:
        add("begin", says("water-next-begin"), ctx.href("water", "point"), says("water-next-begin-why"))
    elif not found.rounds:
        add("begin", says("water-next-round"), ctx.href("water", "round"), says("water-next-begin-why"))
    lifts = ctx.state.folded.job.safety.lifted.values()
    for each in lift(found.findings, lifts, clock=ctx.state.clock):
        if each.severity is Severity.STOP:
            text = says.papers.finding(each.code, says.place(each.where))
            add("stop", text, _where(ctx, found, each.where))
    for test in under_way(ctx):
        add("running", **test)
    for stands in found.source.stands:
        if stands.standing == "found":
            what = says.told(_name(stands.candidate))
            text = says("water-next-leak", what=what)
            add("leak", text, test_href(ctx, "mended"), says("water-next-leak-why"))
    for point in running(found.points, found.source.stands):
        text = says("water-next-running", where=says.place(point.where))
        add("running", text, point_href(ctx, point.name), says.told(point.why))
    if (going := round_today(ctx, found)) is not None:
        add("round", **going)
    for point in found.points:
        if point.call == "cut out":
            text = says("water-next-cut", where=says.place(point.where))
            add("cut", text, point_href(ctx, point.name), says.told(point.why))
    for bare in found.of_no_stuff[:1]:
        text = says("water-next-stuff", where=says.place(bare.where))
        more = len(found.of_no_stuff) - 1
        why = says("water-next-stuff-more", number=more) if more else says("water-next-stuff-why")
        add("stuff", text, point_href(ctx, bare.name), why)
    if found.probe is not None and found.rounds:
        place, _, why = says.told(found.probe_words).partition(": ")
        add("probe", says("water-next-probe", where=place), ctx.href("water", "point", probe="1"), why)
    for point in wet_at_first(found.points, found.source.stands):
        text = says("water-next-look", where=says.place(point.where))
        add("look", text, point_href(ctx, point.name), says.told(point.why))
    if found.begun and found.source.next_tests:
        first = found.source.next_tests[0]
        text, morning = says("water-next-test", do=says.told(first.do)), first.wait == MORNING
        add("test", text, test_href(ctx, first.kind), takes(ctx, first), morning)
    if found.again and going is None:  # a round under way is read to its end first
        text = says("water-next-again", day=found.again)
        later = found.again > ctx.host.now()[:10]
        add("again", text, ctx.href("water", "round"), says("water-next-again-why"), later)
    out.sort(key=lambda each: bool(each["later"]))
    line = covering(ctx, found)
    if line and not (found.rounds and found.gate.open):
        add("gate", line, ctx.href("water", "gate"))
    elif line:
        add("gate", says("water-next-may"), ctx.href("water", "gate"), line)
    return out


def round_today(ctx: Context, found: WoodResult) -> View | None:
    """The newest round, where some of it was typed today and some is left to read; else None.

    One of another day is not gone on with of itself: what is read now belongs to a round of its own.
    """
    if not found.rounds:
        return None
    from undertile.screens.round.sheet import stations

    name = found.rounds[-1].name
    today = ctx.host.now()[:10]
    if not any(
        entry.time[:10] == today
        for path, fact in ctx.state.facts.items()
        if path[:3] == ("wood", "visits", name)
        or (path[:2] == ("wood", "points") and path[3:] == ("shown", name))
        for entry in fact.standing
    ):
        return None
    left = sum(not row["value"] for row in stations(ctx, name))
    if not left:
        return None
    text = ctx.says("round-go-on", visit=name, left=left)
    return {"text": text, "href": ctx.href("water", "round", name)}


def water_step(ctx: Context, counts: Mapping[str, tuple[int, int]]) -> View | None:
    """The water's step that comes before the walls are read; None where there is none.

    Where the water leads it is with what leads on its own screens.

    Parameters
    ----------
    ctx : Context
    counts : mapping of str to (int, int)
        How many readings of each sheet are taken: once a wall is begun, a test that can wait waits.
    """
    found = asked(ctx)
    if found is None:
        return None
    every = steps(ctx, found)
    if not every:
        return None
    first = every[0]
    due = any(each["kind"] == "again" and not each["later"] for each in every)
    read = any(done for done, _ in counts.values())
    if first["kind"] in FIRST or due or (first["kind"] == "test" and not read):
        return {key: first[key] for key in ("text", "why", "href")}
    return None


def still_open(ctx: Context) -> View | None:
    """Do not cover yet, as the step after the re-check; None where it may be covered, or nobody asks."""
    shut = cover_of(ctx)
    return None if shut is None or shut["may"] else {"text": shut["text"], "why": "", "href": shut["href"]}


def cover_of(ctx: Context) -> View | None:
    """The one line that says whether anything may be covered, and its screen; None where nobody asks.

    The same on every screen from where covering could start.
    """
    found = asked(ctx)
    if found is None:
        return None
    from undertile.packet.cover import may_cover

    return {"text": covering(ctx, found), "may": may_cover(found), "href": ctx.href("water", "gate")}


def covering(ctx: Context, found: WoodResult) -> str:
    """The papers' own line; imported where there is water alone: a phone's first screen is quick."""
    from undertile.packet.cover import cover_line

    return cover_line(found, ctx.says.papers)


def asked(ctx: Context) -> WoodResult | None:
    """What the water comes to, where anybody speaks of it."""
    found = ctx.state.water if begun(ctx) else None
    return found if found is not None and found.begun else None


def begun(ctx: Context) -> bool:
    """Whether anybody speaks of water in this job; asked of the log alone, for most jobs have none."""
    return any(path[0] == "wood" for path in ctx.state.facts)


def takes(ctx: Context, test: Offered) -> str:
    """How long a test takes, and why it is the next one."""
    says = ctx.says
    if not test.wait:
        return says("water-next-test-why", minutes=f"{test.minutes:.0f}")
    return says("water-next-test-wait", minutes=f"{test.minutes:.0f}", wait=wait(ctx, test))


def wait(ctx: Context, test: Offered) -> str:
    """How long one waits for it."""
    hours = test.wait >= 60
    key = "water-wait-hours" if hours else "water-wait-minutes"
    return ctx.says(key, number=f"{test.wait / 60 if hours else test.wait:.0f}")


def test_href(ctx: Context, kind: str) -> str:
    """The forms of one kind of test, or of what was mended, open and first on their screen."""
    return ctx.href("water", "leak", type=kind)


def point_href(ctx: Context, name: str) -> str:
    """The screen of one place; its name stands in the query, for it may hold anything."""
    return ctx.href("water", "point", name=name)


def _where(ctx: Context, found: WoodResult, where: str) -> str:
    """The screen of what a finding speaks of."""
    name = next((each.name for each in found.series if each.where == where), "")
    return point_href(ctx, name) if name else ctx.href("water", "leak")


def _name(candidate: str) -> str:
    from undertile.wood.leak import NAMES

    return NAMES[candidate]  # type: ignore[index]
