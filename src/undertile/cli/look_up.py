"""From a word a person types to what it stands for: a stud, a plane, a figure, a finding, a source."""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from undertile.cli import show_explain as show
from undertile.cli import show_recheck
from undertile.cli.answer import Answer
from undertile.cli.as_json import plain
from undertile.errors import InputError
from undertile.findings import Check, Finding
from undertile.framing.problem import StepTerm
from undertile.job.near import nearest
from undertile.sources import SOURCES

if TYPE_CHECKING:
    from rich.console import Console

COST = frozenset({"cost", "costs", "money", "minutes", "dollars", "price"})
_SECTION = re.compile(r"convention (\d)(\.\d+)?")
_AT = re.compile(r"\s+at\s+.*", re.IGNORECASE)


@dataclass(frozen=True)
class Found:
    """What was looked up: how it prints, and its JSON twin."""

    show: Callable[[Console, Answer], None]
    as_json: Callable[[Answer], dict[str, Any]]


def find(answer: Answer, where: str) -> Found:
    """What a word stands for.

    Parameters
    ----------
    answer : Answer
    where : str
        ``B2``, ``B2 at 48``, ``plane B``, ``wall B``, ``play``, ``valve``, a code of a check or a finding,
        or the key of a source.

    Raises
    ------
    InputError
        If it stands for nothing in this job: one line with the nearest that does.
    """
    word = " ".join(where.split())
    low = _AT.sub("", word).lower()
    studs = {stud.name.lower(): stud.name for wall in answer.survey.walls for stud in wall.studs}
    if low in studs:
        name = studs[low]
        return Found(lambda console, a: _stud(console, a, name), lambda a: _stud_json(a, name))
    walls = {wall.name.lower(): wall.name for wall in answer.survey.walls}
    wall = low.removeprefix("plane").removeprefix("wall").strip()
    if wall in walls and low != "":
        chosen = walls[wall]
        return Found(lambda console, a: show.plane(console, a, chosen), lambda a: show.plane_json(a, chosen))
    every = [*answer.checks, *answer.recheck.checks]
    checks = [check for check in every if _means(low, check.code, check.title, check.where)]
    found = [each for each in answer.findings if _means(low, each.code, each.where)]
    found = [each for each in found if each.code not in {check.code for check in checks}]
    if low in COST:
        return Found(show.cost, show.cost_json)
    terms = show.terms(answer, low)
    if checks or found or terms:
        return Found(
            lambda console, a: _figures(console, a, checks, found, terms),
            lambda a: {**show.figures_json(a, checks, found), "asked_by": plain(terms, a.unit)},
        )
    source = _SECTION.sub(r"convention-\1", low)
    if source in SOURCES:
        return Found(lambda console, _: show.source(console, source), lambda _: show.source_json(source))
    known = [*studs.values(), *(f"plane {name}" for name in walls.values())]
    known += sorted({check.code.split("-")[0] for check in answer.checks} | {"cost", "minutes"})
    raise InputError(f"{word or 'nothing'} is no stud, plane or figure of this job; {nearest(word, known)}")


def _stud(console: Console, answer: Answer, name: str) -> None:
    show.stud(console, answer, name)
    show_recheck.stud(console, answer.recheck, name, answer.unit)


def _stud_json(answer: Answer, name: str) -> dict[str, Any]:
    again = answer.recheck.stud(name)
    return {**show.stud_json(answer, name), "read_again": plain(again, answer.unit)}


def _figures(
    console: Console,
    answer: Answer,
    checks: Sequence[Check],
    found: Sequence[Finding],
    terms: Sequence[StepTerm],
) -> None:
    show.figures(console, checks, found)
    show.asked_by(console, answer, terms)


def _means(word: str, code: str, *said: str) -> bool:
    """Whether a word is a code, the beginning of one, or words that a figure or its place is printed with."""
    if not word:
        return False
    if code == word or code.startswith(f"{word}-"):
        return True
    return any(re.search(rf"(?<![\w/-]){re.escape(word)}(?![\w/-])", text.lower()) for text in said)
