"""What else moves: does the pan drop in, the drain, the valve, edges, screws, each with its verdict."""

from __future__ import annotations

from undertile.findings import Check, Verdict
from undertile.screens.context import Context, View
from undertile.screens.next_step import next_step
from undertile.screens.pages.plan import searching

DROPS_IN = ("drop-in", "play-", "width-", "way-in")
"""Beginnings of the codes that answer whether the pan drops in."""
_ORDER = (Verdict.FAIL, Verdict.NOT_SHOWN, Verdict.PASS)


def view(ctx: Context) -> View:
    """What fails first, then what is not shown, then what passes; the pan before the rest."""
    title = ctx.says("step-more")
    waiting = searching(ctx)
    if waiting is not None:
        return {
            "title": title,
            "next": {"text": waiting["text"], "why": "", "href": ctx.href("plan")},
            "search": waiting,
        }
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
        "search": None,
        "answer": ctx.says(f"drops-in-{worst.value.replace(' ', '-')}"),
        "verdict": worst.value,
        "doubted": bool(ctx.state.suspects),
        "groups": [
            {"title": ctx.says("does-it-drop-in"), "checks": [ctx.says.check(each) for each in _sorted(pan)]},
            {"title": ctx.says("what-else"), "checks": [ctx.says.check(each) for each in _sorted(rest)]},
        ],
        "moves": ctx.href("moves"),
    }


def _sorted(checks: list[Check]) -> list[Check]:
    return sorted(checks, key=lambda each: (_ORDER.index(each.verdict), not each.within_uncertainty))
