"""The page of ``plan``, in the person's order: which number, each stud, the pan, what else moves."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from typing import TYPE_CHECKING

from undertile.cli import offered, page, show_check, show_checks, show_order, show_plan
from undertile.cli.answer import NOTHING, Answer
from undertile.cli.figures import OCCUPIED
from undertile.cli.offered import Offered
from undertile.findings import Finding, Severity

if TYPE_CHECKING:
    from rich.console import Console

HOLD = (
    "Before anything: circuit dead and proved, water off, a bearing wall shored before a stud comes out, "
    "lead and asbestos settled before dust. Local code and licensed trades decide."
)
"""The hold line of every sheet a crew works from (convention 6.1)."""


def whole(
    console: Console,
    answer: Answer,
    path: str,
    what_if: Sequence[str] = (),
    other: Offered | None = None,
) -> None:
    """Everything there is to say; ``other`` is the job with what is in doubt as it is offered."""
    page.say(console, HOLD, indent=0)
    for wish in what_if:
        page.say(console, f"AS IF {wish} (nothing is written)", indent=0)
    show_check.which_number(console, answer.survey)
    plan = answer.plan
    for stage, why in answer.rebuild.unanswered.items():
        page.heading(console, f"No answer from {stage}")
        page.say(console, why)
    if plan is not None and plan.state == "none":
        show_plan.conflict(console, plan)
    elif plan is not None and not plan.planes:
        page.heading(console, "No plan yet")
        page.say(console, show_plan.proof(plan))
    elif plan is not None:
        show_plan.doubt_first(console, answer.suspects)
        show_plan.what_to_do(console, plan, answer.survey, answer.unit, answer.waits)
        facts = answer.job.framing
        rate = Fraction(facts.rate)
        factor = OCCUPIED if facts.occupied else Fraction(1)
        show_plan.what_it_costs(console, plan, rate, factor, facts.held)
        show_checks.drops_in(console, answer.checks)
        show_checks.what_else(console, answer.checks)
        show_order.show(console, answer)
        show_plan.runner_ups(console, plan)
    if other is not None:
        offered.show(console, answer, other, path)
    to_know(console, answer)
    last_word(console, answer, path)


def to_know(console: Console, answer: Answer) -> None:
    """The findings, the gravest first."""
    rest = [
        each
        for each in answer.findings
        if not show_check.told_already(answer.survey, each)
        and "check" not in each.data
        and not each.code.startswith("no-plan")
    ]
    if rest:
        page.heading(console, "What is missing, and what to know")
        page.findings(console, rest)


def last_word(console: Console, answer: Answer, path: str) -> None:
    """What the exit code says, in words."""
    if answer.code == NOTHING and not answer.open_parts:
        page.heading(console, "Nothing here stops the work.")
        return
    if answer.code == NOTHING:
        page.heading(console, "Nothing stops the first cut. Before anything is covered")
        _parts(console, answer, path)
        return
    page.heading(console, "Settle before the first cut")
    for group in answer.suspects:
        page.hang(console, "-", f"{group[0].where}: a reading in doubt.", width=1)
    stops: list[Finding] = [each for each in answer.findings if each.severity is Severity.STOP]
    for each in stops:
        page.hang(console, "-", f"{each.where}: {each.next_step}", width=1)
    for check in answer.checks:
        if check.verdict == "fail":
            page.hang(console, "-", f"{check.title}: {check.next_step or check.value}", width=1)
    _parts(console, answer, path)
    if answer.plan is None or not answer.plan.planes:
        page.hang(console, "-", "There is no plan yet: see above.", width=1)


def _parts(console: Console, answer: Answer, path: str) -> None:
    """What floor and water leave open, and where to look."""
    for each in answer.open_parts:
        page.hang(console, "-", f"{each.text} See undertile {each.part} {path}", width=1)
