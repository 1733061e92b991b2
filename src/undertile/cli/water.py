"""``water``: what is wet, where the water comes from, how far to open, when it may be closed."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Any

from undertile.cli import clock, page
from undertile.cli.answer import NOTHING, SETTLE_FIRST, Answer, ask, head, load
from undertile.cli.console import paper, working
from undertile.cli.water_cover import cover
from undertile.cli.water_files import NO_FILES, WaterFiles, write
from undertile.findings import Finding, Severity
from undertile.lengths import Length, Unit
from undertile.packet.metric import in_unit
from undertile.sources import cite
from undertile.wood.asof import as_of
from undertile.wood.goal import usual_past
from undertile.wood.history import Series
from undertile.wood.leak import NAMES
from undertile.wood.ofroom import together
from undertile.wood.places import place_of
from undertile.wood.result import WoodResult
from undertile.wood.say import from_to, goal_text, in_hundred, length, listed, moisture, some_of

if TYPE_CHECKING:
    from rich.console import Console

SPOKEN = ("no date", "open further", "cut out")
"""Calls that are said with why and what to do."""
NAMED = 4
"""Places without a date that are named; the rest are counted."""


def run(
    path: str,
    *,
    visit: str = "",
    files: WaterFiles = NO_FILES,
    as_json: bool = False,
    unit: Unit | None = None,
) -> int:
    """Everything about the water of a job, or as it stood after a visit; its files where they are asked for.

    Exit code 1 while nothing may be covered yet.
    """
    job = load(path)
    if visit:
        job = job.model_copy(update={"wood": as_of(job.facts()["wood"], visit)})  # type: ignore[arg-type]
    with working("Reading the moisture log"):
        answer = ask(job, unit, ["safety", "wood", "floor"])
    found: WoodResult = answer.rebuild.results["wood"]
    if {each.kind for each in found.gate.missing} == {"plan"}:  # the search is waited for where it decides
        with working("Planning the studs"):
            answer = ask(job, unit, whole=False)
        found = answer.rebuild.results["wood"]
    # a visit is told as it stood then: no day of today belongs beside it
    today = "" if visit else clock.day()
    found = replace(found, findings=answer.rebuild.lifted(found.findings))
    code = NOTHING if found.gate.open else SETTLE_FIRST
    write(answer, files, quiet=as_json)
    if as_json:
        from undertile.cli.as_json import plain, text

        told = {
            **head(answer, "water", code),
            "visit": visit,
            **plain(replace(found, series=()), answer.unit),
            "safety": plain(answer.rebuild.results["safety"].findings, answer.unit),
        }
        print(text(told))
        return code
    _show(paper(), answer, found, today, path)
    return code


def _show(console: Console, answer: Answer, found: WoodResult, today: str, path: str) -> None:
    from rich.text import Text

    console.print(Text(answer.job.name or "A job without a name", style="bold"))
    if answer.job.place:
        console.print(Text(answer.job.place))
    if found.state == "not begun":
        page.heading(console, "Nothing is read yet")
        page.say(console, "Write down the first visit: its day, its points, three dry references.")
        return
    found = _in_unit(found, answer.unit)
    safe = answer.rebuild.results["safety"].findings
    loud = [each for each in (*safe, *found.findings) if each.severity is Severity.STOP]
    if loud:
        page.heading(console, "Before anything else")
        page.findings(console, loud)
    _wet(console, found, answer.unit)
    _open(console, found, answer.unit)
    _when(console, found, today)
    _where_from(console, found)
    _shrinks(console, found, answer.unit)
    _rest(console, found, [each for each in safe if each.severity is not Severity.STOP])
    cover(console, found.gate, path)


def _in_unit(found: WoodResult, unit: Unit) -> WoodResult:
    """The same; tests that ask for gallons and inches ask for liters and mm in a job in mm."""
    missing = tuple(
        replace(each, next_step=in_unit(each.next_step, unit), what=in_unit(each.what, unit))
        for each in found.gate.missing
    )
    tests = tuple(replace(each, do=in_unit(each.do, unit)) for each in found.source.next_tests)
    source = replace(found.source, next_tests=tests)
    return replace(found, gate=replace(found.gate, missing=missing), source=source)


def _wet(console: Console, found: WoodResult, unit: Unit) -> None:
    page.heading(console, "What is wet?")
    for material, goal in found.goals.items():
        page.say(console, f"Goal for {material}: {goal.words()}.")
    by_name = {each.name: each for each in found.series}
    rows = []
    for each in found.points:
        shown = [sample.shown.text or "-" for sample in by_name[each.name].samples]
        value = each.reads.removesuffix(" %") or "-"
        value += "*" if each.relative else ""
        where = _place(by_name[each.name], unit).replace('"', "")
        rows.append([where, " ".join(shown[-4:]), value, str(each.called)])
    page.table(console, ["place", "shown", "percent", "what to do"], rows, right=[2], firm=[0, 2])
    if any(each.relative for each in found.points):
        why = sorted({each.relative for each in found.points if each.relative})
        page.say(console, f"* not corrected ({listed(why)}): compared with the same stuff dry in this house.")
    page.say(console, f"Give or take 2 percent or more: {cite('meter-error')}.")
    for one in together([each for each in found.points if each.call in SPOKEN]):
        said = f"{some_of(one.wheres)}: {one.why}. {one.next_step}"
        page.hang(console, one.points[0].call, said, width=12)


def _place(series: Series, unit: Unit) -> str:
    """A place of the table as typed; what was typed in the other unit in that of the page, with its mark."""
    point, shown = series.facts, {}
    for name in ("along", "height", "x", "y"):
        typed = getattr(point, name)
        if isinstance(typed, Length) and typed.unit != unit:
            shown[name] = replace(typed, text=length(typed.inches, unit))
    return place_of(series.name, point.model_copy(update=shown), layered=series.layered)


def _open(console: Console, found: WoodResult, unit: Unit) -> None:
    if not found.cuts:
        return
    page.heading(console, "How far to open")
    for cut, words in zip(found.cuts, found.cut_words, strict=True):
        if not cut.line.startswith("subfloor"):
            page.say(console, f"{words[:1].upper()}{words[1:]}.")
    for patch in found.patches:
        sides = {
            "from wall L": (patch.left, patch.right),
            "out from wall B": (patch.back, patch.front),
        }
        told = [
            f"{name} {' to '.join('?' if each is None else length(each, unit) for each in ends)}"
            for name, ends in sides.items()
        ]
        page.say(console, f"Subfloor layer {patch.layer}: {', '.join(told)}.")
    if found.probe_words:
        page.say(console, f"Read next: {found.probe_words}.")
    page.say(console, f"{found.own_past or usual_past(unit)}.")


def _when(console: Console, found: WoodResult, today: str) -> None:
    page.heading(console, "When may it be closed?")
    close = found.close
    page.say(console, f"{close.says} Last: {close.slowest}." if close.latest else close.says)
    if late := found.past_it(today):
        page.say(console, late)
    for line in close.why_not[:NAMED]:
        page.say(console, line, indent=6)
    if len(close.why_not) > NAMED:
        page.say(console, f"and {len(close.why_not) - NAMED} more", indent=6)
    fed = [(each.where, each.fed.odds) for each in found.points if each.may_be_fed and each.fed is not None]
    for where, odds in fed:
        page.say(console, f"{where} may be fed: {in_hundred(odds)}.")
    if fed:
        page.say(console, f"{cite('fed-odds')}.")
    air = found.air
    if air is not None:
        enough = "dry enough" if air.enough else "not dry enough"
        now, goal = moisture(air.now), goal_text(air.goal)
        words = f"The room's air as last read brings wood to {now}: {enough} for {goal}"
        if not air.enough and air.humidity is not None:
            words += f"; bring it under {100 * air.humidity:.0f} percent at this temperature"
            if air.fahrenheit is not None:
                words += f", or warm the same air to {air.fahrenheit:.0f} F"
        page.say(console, f"{words}.")
    if found.equipment_days:
        days = [f"{what} {spent:.1f}" for what, spent in found.equipment_days.items()]
        page.say(console, f"Equipment days so far: {', '.join(days)}.")


def _where_from(console: Console, found: WoodResult) -> None:
    page.heading(console, "Where does the water come from?")
    for sentence in found.source.statement:
        page.say(console, sentence)
    leaks = found.source.of("found")
    if leaks:
        page.say(console, f"Next, mend it ({NAMES[leaks[0]]}); then make the same test again.")
    elif found.source.next_tests:
        first = found.source.next_tests[0]
        page.say(console, f"Next, {first.minutes:.0f} minutes of work: {first.do}")


def _shrinks(console: Console, found: WoodResult, unit: Unit) -> None:
    if not found.shrinkage:
        return
    page.heading(console, "What goes back as it dries")
    for each in found.shrinkage:
        said = f"{each.stud}: its face, {from_to(each.least, each.most, unit)}"
        page.say(
            console, f"{said} since it was read; it is dry: read it again." if each.since else f"{said}."
        )


def _rest(console: Console, found: WoodResult, safe: list[Finding]) -> None:
    told: Any = {"point-no-date", "point-cut-out", "point-open-further", "point-fed", "do-not-cover"}
    told |= {"leak-found", "stud-will-shrink"}
    rest = [each for each in found.findings if each.code not in told and each.severity is not Severity.STOP]
    rest = [*safe, *rest]
    if rest:
        page.heading(console, "What is missing, and what to know")
        page.findings(console, rest)
