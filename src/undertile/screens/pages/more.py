"""What else moves: does the pan drop in, the drain, the valve, edges, screws, each with its verdict."""

from __future__ import annotations

from undertile.findings import Check, Verdict
from undertile.screens.context import Context, View
from undertile.screens.next_step import next_step
from undertile.screens.pages.gate import before_the_plan

DROPS_IN = ("drop-in", "play-", "width-", "way-in")
"""Beginnings of the codes that answer whether the pan drops in."""
_ORDER = (Verdict.FAIL, Verdict.NOT_SHOWN, Verdict.PASS)


def view(ctx: Context) -> View:
    """What fails first, then what is not shown, then what passes; the pan before the rest."""
    title = ctx.says("step-more")
    waiting = before_the_plan(ctx, title)
    if waiting is not None:
        return waiting
    rebuild = ctx.answers.plan(ctx.state)
    checks: tuple[Check, ...] = tuple(getattr(rebuild.results.get("pan"), "checks", ()))
    pan = [each for each in checks if each.code.startswith(DROPS_IN)]
    rest = [each for each in checks if not each.code.startswith(DROPS_IN)]
    worst = next(
        (verdict for verdict in _ORDER if any(each.verdict is verdict for each in pan)), Verdict.NOT_SHOWN
    )
    return {
        "title": title,
        "next": next_step(ctx),
        "answer": ctx.says(f"drops-in-{worst.value.replace(' ', '-')}"),
        "verdict": worst.value,
        "doubted": bool(ctx.state.suspects),
        "groups": [
            {"title": ctx.says("does-it-drop-in"), "checks": checks_said(ctx, pan)},
            {"title": ctx.says("what-else"), "checks": checks_said(ctx, rest)},
        ],
        "moves": ctx.href("moves"),
    }


def checks_said(ctx: Context, checks: list[Check]) -> list[View]:
    """Checks as shown, what fails first; what is to do is said once, at the first of those it is said of."""
    seen: set[str] = set()
    out = []
    for check in _sorted(checks):
        told = ctx.says.check(check)
        if told["do"] in seen:
            told["do"] = ""
        seen.add(told["do"])
        out.append(told)
    return out


def _sorted(checks: list[Check]) -> list[Check]:
    return sorted(checks, key=lambda each: (_ORDER.index(each.verdict), not each.within_uncertainty))
