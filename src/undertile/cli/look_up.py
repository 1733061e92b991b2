"""From a word a person types to what it stands for: a stud, a plane, a figure, a finding, a source."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from undertile.cli import show_explain as show
from undertile.cli import show_recheck
from undertile.cli.answer import Answer
from undertile.cli.as_json import plain
from undertile.errors import InputError
from undertile.job.near import nearest
from undertile.sources import SOURCES

if TYPE_CHECKING:
    from rich.console import Console

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
    checks = [check for check in every if _means(low, check.code, check.title)]
    found = [each for each in answer.findings if _means(low, each.code, each.where)]
    found = [each for each in found if each.code not in {check.code for check in checks}]
    if checks or found:
        return Found(
            lambda console, _: show.figures(console, checks, found),
            lambda a: show.figures_json(a, checks, found),
        )
    if low in SOURCES:
        return Found(lambda console, _: show.source(console, low), lambda _: show.source_json(low))
    known = [*studs.values(), *(f"plane {name}" for name in walls.values())]
    known += sorted({check.code.split("-")[0] for check in answer.checks})
    raise InputError(f"{word or 'nothing'} is no stud, plane or figure of this job; {nearest(word, known)}")


def _stud(console: Console, answer: Answer, name: str) -> None:
    show.stud(console, answer, name)
    show_recheck.stud(console, answer.recheck, name, answer.unit)


def _stud_json(answer: Answer, name: str) -> dict[str, Any]:
    again = answer.recheck.stud(name)
    return {**show.stud_json(answer, name), "read_again": plain(again, answer.unit)}


def _means(word: str, code: str, title: str) -> bool:
    """Whether a word is a code, the beginning of one, or one of a title's words."""
    if not word:
        return False
    return code == word or code.startswith(f"{word}-") or word in re.split(r"[^\w/-]+", title.lower())
