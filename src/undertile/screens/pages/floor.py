"""The floor: what to do first, does it carry, the patch with its drawing and cut list, the level, the bed."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import asdict

from undertile.findings import Check, Finding, Severity, Verdict, together
from undertile.floor.result import FloorResult
from undertile.job.address import join
from undertile.packet.drawings import floor_plans
from undertile.packet.floor import floor_sheet
from undertile.screens.context import Context, View
from undertile.screens.forms import row
from undertile.screens.pages.more import checks_said
from undertile.screens.pages.safety import cautions_said
from undertile.screens.steps_floor import next_of, of_joist, spots, unanswered

CARRIES = ("joist-", "panel-")
"""How the codes begin that answer whether the floor carries it."""
_WORST = (Verdict.FAIL, Verdict.NOT_SHOWN, Verdict.PASS)


def view(ctx: Context) -> View:
    """What to do next, then the answers in the order they are worked."""
    says, found = ctx.says, ctx.state.floor
    out: View = {
        "title": says("step-floor"),
        "next": next_of(ctx),
        "type": ctx.href("floor", "type"),
        "read": ctx.href("floor", "read") if spots(ctx) else "",
        "print": "",
        "answer": "",
        "verdict": "",
    }
    sheet = None if found is None else floor_sheet(ctx.state.beside, language=says.language)
    if found is None or sheet is None:
        return {**out, "empty": says("floor-nothing")}
    told = asdict(sheet)
    drawn = floor_plans(ctx.state.beside, says.language) if found.layouts else []
    return {
        **out,
        "print": ctx.href("papers", "floor"),
        **_answer(ctx, found),
        "stops": [_stop(ctx, each) for each in found.findings if each.severity is Severity.STOP],
        "groups": [
            {"title": says("floor-carries"), **_judged(ctx, _of(found, *CARRIES))},
        ],
        "ways": told["ways"],
        "loads": told["loads"],
        "joists": [
            {
                "name": each.joist.name,
                "href": ctx.href("floor", "joist", each.joist.name),
                **_of_joist(ctx, found, each.joist.name),
            }
            for each in found.joists
        ],
        "cover": {"text": told["cover"], "may": told["may"], "href": _what_holds(ctx, found)}
        if told["cover"]
        else None,
        "patches": told["patches"],
        "patch_checks": checks_said(ctx, _of(found, "patch-")),
        "drawings": [{"title": title, "svg": svg} for title, svg in drawn],
        "cuts": told["cuts"],
        "bring": told["bring"],
        "level": told["level"],
        "level_checks": checks_said(ctx, _of(found, "pan-floor")),
        "moved": {key: told["moved"][key] for key in ("heights", "again")} if told["moved"] else None,
        "bed": told["bed"],
        "bed_checks": checks_said(ctx, _of(found, "bed-")),
        "unit": ctx.unit,
        "findings": [says.finding(each) for each in _rest(found)],
        "safety": cautions_said(ctx),
    }


def _of_joist(ctx: Context, found: FloorResult, name: str) -> View:
    """The worst of a joist and of what is cut into it; an engineer's word where nothing else is left."""
    its = of_joist(found, name)
    open_yet = unanswered(found, its)
    worst = _worst(open_yet)
    if its and len(open_yet) < len(its) and worst is not Verdict.FAIL:
        return {"verdict": ctx.says("floor-engineer"), "passes": False}
    return {"verdict": ctx.says.verdict(worst), "passes": worst is Verdict.PASS}


def _what_holds(ctx: Context, found: FloorResult) -> str:
    """Where what keeps the patch from being laid is settled: at the water's gate, else at the joist."""
    water = ctx.state.beside.results.get("wood")
    if water is not None and water.begun and not water.gate.open:
        return ctx.href("water", "gate")
    holds = () if found.covers is None else found.covers.holds
    first = next((each.joist for each in holds if each.joist), None)
    return ctx.href("water", "gate") if first is None else ctx.href("floor", "joist", first)


def _of(found: FloorResult, *heads: str) -> list[Check]:
    return [check for check in found.checks if check.code.startswith(heads)]


def _judged(ctx: Context, checks: list[Check]) -> View:
    """What does not pass in sight, what passes a tap away."""
    passes = [check for check in checks if check.verdict is Verdict.PASS]
    return {
        "checks": checks_said(ctx, [check for check in checks if check.verdict is not Verdict.PASS]),
        "passes": checks_said(ctx, passes),
        "passed": ctx.says("floor-passed", number=str(len(passes))) if passes else "",
    }


def _worst(checks: Iterable[Check]) -> Verdict:
    verdicts = {check.verdict for check in checks}
    return next((each for each in _WORST if each in verdicts), Verdict.NOT_SHOWN)


def _answer(ctx: Context, found: FloorResult) -> View:
    """Does it carry: the worst of what no engineer answered; nothing is said where no joist is entered."""
    from undertile.floor.carrying import answered  # only where a floor is answered

    checks = _of(found, *CARRIES)
    if not checks:
        return {}
    joists = [each.joist for each in found.joists]
    open_yet = [each for each in checks if each.verdict is Verdict.PASS or not answered(each, joists)]
    worst = _worst(open_yet) if open_yet else Verdict.PASS
    if worst is Verdict.PASS and len(open_yet) < len(checks):
        return {"answer": ctx.says("floor-carries-said"), "verdict": worst.value}
    return {"answer": ctx.says(f"floor-carries-{worst.value.replace(' ', '-')}"), "verdict": worst.value}


def _rest(found: FloorResult) -> list[Finding]:
    order = list(Severity)
    rest = [each for each in found.findings if each.severity is not Severity.STOP]
    return sorted(together(rest), key=lambda each: order.index(each.severity))


def _stop(ctx: Context, stop: Finding) -> View:
    """A stop, and the boxes in which a person lifts it (convention 6.2)."""
    base = ("safety", "lifted", f"{stop.code} {stop.where}")
    rows = [row(ctx, join((*base, key)), ctx.says.field("lifted", key)) for key in ("by", "reason", "date")]
    return {
        **ctx.says.finding(stop),
        "rows": rows,
        "with": [
            {"fact": join((*base, "stop")), "value": stop.code},
            {"fact": join((*base, "where")), "value": str(stop.where)},
        ],
    }
