"""Does the pan drop in, and what else moves: the consequences of the planes, each with its verdict."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import TYPE_CHECKING

from undertile.cli import page
from undertile.findings import Check, Verdict

if TYPE_CHECKING:
    from rich.console import Console

DROPS_IN = ("drop-in", "play-", "width-", "way-in")
"""Beginnings of the codes that answer "does the pan drop in"."""
WIDTH = 9
"""Columns of the longest verdict."""


def drops_in(console: Console, checks: Sequence[Check]) -> None:
    """The pan between the walls, and on its way there."""
    page.heading(console, "Does the pan drop in?")
    own = [check for check in checks if check.code.startswith(DROPS_IN)]
    if not own:
        page.say(console, "Not shown: the pan's size or the room's width is missing (see below).")
        return
    page.say(console, answer(own))
    judged(console, [check for check in own if check.code != "drop-in"])


def answer(checks: Sequence[Check]) -> str:
    """The short answer: the worst verdict decides."""
    verdicts = {check.verdict for check in checks}
    overall = next((check for check in checks if check.code == "drop-in"), None)
    if overall is not None and overall.value == "open side":
        return _open_side(overall, verdicts)
    said = f": {overall.value}" if overall and overall.value else ""
    said += f" (wanted {overall.limit})" if overall and overall.limit else ""
    if Verdict.FAIL in verdicts:
        return f"NO, not as planned{said}; see FAIL below."
    if overall is not None and overall.verdict is Verdict.NOT_SHOWN:
        return f"Not shown yet. By what was read{said}; what is missing to show it stands below."
    if Verdict.NOT_SHOWN in verdicts:
        by = _by(overall)
        return f"What is measured says yes{by}{said}; what is not shown below still has to be read."
    return f"Yes{_by(overall)}{said}."


def _by(overall: Check | None) -> str:
    """By how much, and where: a yes by nothing is said to be one."""
    if overall is None or not overall.margin:
        return ""
    close = ", close" if overall.within_uncertainty else ""
    where = overall.because[0].removeprefix("binds ") if overall.because else ""
    return f", by {overall.margin.removeprefix('+')}{close}" + (f" ({where})" if where else "")


def _open_side(overall: Check, verdicts: set[Verdict]) -> str:
    """What is and is not shown where nothing faces the pan across."""
    text = " ".join(f"{line[:1].upper()}{line[1:]}." for line in overall.because)
    if Verdict.FAIL in verdicts:
        return f"NO, not as planned; see FAIL below. {text}"
    if Verdict.NOT_SHOWN in verdicts:
        text += " What is not shown below still has to be read."
    return text


def what_else(console: Console, checks: Sequence[Check]) -> None:
    """Everything else the planes move."""
    rest = [check for check in checks if not check.code.startswith(DROPS_IN)]
    if rest:
        page.heading(console, "What else moves?")
        page.say(
            console,
            "What is, what is allowed in brackets, and the margin; close: within its uncertainty of "
            "the limit. Figures finer than a rule are rounded toward their limit, margins down. "
            "explain shows what is behind each.",
        )
        judged(console, rest)


def judged(console: Console, checks: Iterable[Check]) -> None:
    """What does not pass first, then what passes narrowly, then the rest with its least margin."""
    checks = list(checks)
    spare = [check for check in checks if check.verdict is Verdict.PASS and not _narrow(check)]
    for verdict in (Verdict.FAIL, Verdict.NOT_SHOWN, Verdict.PASS):
        groups: dict[tuple[str, str], list[Check]] = {}
        for check in checks:
            if check.verdict is verdict and check not in spare:
                groups.setdefault((check.title, check.limit), []).append(check)
        for (title, limit), members in groups.items():
            text = f"{title} ({limit})" if limit else title
            text = (
                ": ".join(part for part in (text, "; ".join(filter(None, map(_one, members)))) if part) + "."
            )
            steps = dict.fromkeys(check.next_step for check in members if check.next_step)
            if verdict is not Verdict.PASS and steps:
                text += " Do: " + " ".join(steps)
            page.hang(console, page.VERDICT[verdict], text, width=WIDTH, style=page.LOUD[verdict])
    if spare:
        titles: dict[str, list[str]] = {}
        for check in spare:
            titles.setdefault(check.title, []).append(check.margin)
        text = "; ".join(
            f"{title} {' and '.join(dict.fromkeys(all_of)) or 'yes'}" for title, all_of in titles.items()
        )
        page.hang(
            console, page.VERDICT[Verdict.PASS], f"With room to spare: {text}.", width=WIDTH, style="green"
        )


def _narrow(check: Check) -> bool:
    """Whether a check passes with nothing in hand, or with less than its uncertainty."""
    return check.within_uncertainty or check.margin.split(" ")[0] in ("0", '0"')


def _one(check: Check) -> str:
    """One place's figures."""
    where = "" if check.where.casefold() == check.title.casefold() else check.where  # said once is enough
    parts = [part for part in (where, check.value) if part]
    text = " ".join(parts) or ("" if check.where else "nothing measured")
    if check.value and check.margin:
        text += f", margin {check.margin}"
    if check.within_uncertainty:
        text += ", close"
    return text
