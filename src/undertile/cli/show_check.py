"""The page of ``check``: which number is wrong, what would settle it, what is missing."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from undertile.cli import page
from undertile.cli.figures import odds
from undertile.findings import Finding
from undertile.survey.result import SurveyResult, Suspect

if TYPE_CHECKING:
    from rich.console import Console

OTHERS = 3
"""Explanations listed beside the likeliest one; what is less likely is in ``--json``."""


def which_number(console: Console, survey: SurveyResult) -> None:
    """The readings in doubt, each with its odds beside the next best and what settles it."""
    page.heading(console, "Which number is wrong?")
    if not survey.suspects:
        page.say(console, _none(survey))
        return
    for group in survey.suspects:
        doubt(console, group)


def doubt(console: Console, group: Sequence[Suspect]) -> None:
    """One misfit and the mistakes that would clear it."""
    best, rest = group[0], group[1 : 1 + OTHERS]
    page.hang(console, "DOUBT", f"{best.where}: {_story(best)}.", width=5, style="bold red")
    for other in rest:
        same = "" if other.where == best.where else f"{other.where}: "
        page.hang(console, "", f"or {same}{_story(other)}", width=5)
    page.hang(console, "", f"To settle: {best.settle}.", width=5)


def _story(suspect: Suspect) -> str:
    """What would have happened, and how likely that is."""
    chance = f"odds {odds(suspect.odds)}"
    if not suspect.offered:
        return f"{suspect.slip}, {chance}"
    if not suspect.typed:
        return f"{suspect.offered} would fit ({suspect.slip}), {chance}"
    return f"typed {suspect.typed}; {suspect.offered} would fit ({suspect.slip}), {chance}"


def told_already(survey: SurveyResult, finding: Finding) -> bool:
    """Whether a finding only says what the doubt above it says."""
    return any(finding.where == group[0].where for group in survey.suspects if group)


def _none(survey: SurveyResult) -> str:
    if not survey.global_test:
        return "Cannot tell: there are no readings that check each other yet."
    return "None found: the readings that check each other agree within what the tools can do."


def what_is_missing(console: Console, findings: Sequence[Finding]) -> None:
    """Everything else the survey says, the gravest first."""
    page.heading(console, "What is missing, and what to know")
    if not findings:
        page.say(console, "Nothing.")
        return
    page.findings(console, findings)
