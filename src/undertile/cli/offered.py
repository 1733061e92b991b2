"""What the doubt is worth: the plan if the readings offered are right, beside the one as typed."""

from __future__ import annotations

import os
import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from undertile.cli import page
from undertile.cli.answer import Answer, least_plan
from undertile.cli.figures import dollars
from undertile.cli.what_if import as_if
from undertile.errors import FileError
from undertile.framing.plan import FramingPlan
from undertile.framing.words import recipe_line, waiting
from undertile.survey.result import Suspect

if TYPE_CHECKING:
    from rich.console import Console

_PLACE = re.compile(r"[LBR]\d+[a-z]? at .+")
_OTHER = re.compile(r"(width|gap|diagonal|level|repeat|square) (.+)")


@dataclass(frozen=True)
class Offered:
    """The same job with every reading in doubt as it is offered.

    Attributes
    ----------
    wishes : tuple of str
        As ``--if`` takes them.
    plan : FramingPlan or None
        None where there is none then either.
    """

    wishes: tuple[str, ...]
    plan: FramingPlan | None


def as_offered(answer: Answer) -> Offered | None:
    """The job as offered, or None where a doubt has no single reading that would clear it."""
    wishes = tuple(group[0].wish or _wish(group[0]) for group in answer.suspects if group)
    if not wishes or "" in wishes:
        return None
    try:
        return Offered(wishes, least_plan(as_if(answer.job, wishes), answer.unit))
    except FileError:
        return None


def _wish(suspect: Suspect) -> str:
    offered = suspect.offered.removeprefix("about ")
    if not suspect.typed or not offered:
        return ""
    if _PLACE.fullmatch(suspect.where):
        return f"{suspect.where} = {offered}"
    other = _OTHER.fullmatch(suspect.where)
    if other is None:
        return ""
    field = "out" if other[1] == "square" else "reading"
    return f"survey.{other[1]}s.{other[2]}.{field} = {offered}"


def show(console: Console, answer: Answer, offered: Offered, path: str) -> None:
    """What would be different, and the command that shows all of it."""
    page.heading(console, "If those are read as offered")
    typed, other = answer.plan, offered.plan
    if other is None or other.cost is None:
        page.say(console, "There is no plan then either.")
        return
    before = f"; as typed {dollars(typed.cost)}" if typed and typed.cost is not None else ""
    page.say(console, f"The plan costs {dollars(other.cost)}{before}. What is done otherwise then:")
    out = [wish.partition(" = ")[0] for wish in offered.wishes if wish.endswith("= not measured")]
    if out:
        nothing = "left out here, as if not measured: no reading offered there would fit"
        page.say(console, f"{', '.join(out)}: {nothing}.")
    old = dict(_lines(answer, typed)) if typed else {}
    for name, new in _lines(answer, other):
        if new != old.get(name):
            page.hang(console, name, f"{new}.", width=4)
    page.say(console, "All of it: " + command(path, offered.wishes))


def _lines(answer: Answer, plan: FramingPlan) -> Iterator[tuple[str, str]]:
    """What is done to each stud of a plan of the same room; the flange zone is the room's."""
    walls = {wall.name: wall for wall in answer.problem.walls} if answer.problem else {}
    for member in plan.members:
        wall = walls.get(member.wall)
        late = () if wall is None else waiting(member, wall, plan)
        yield member.name, recipe_line(member, answer.unit, late)


def command(path: str, wishes: Sequence[str]) -> str:
    """The words that show it."""
    called = os.environ.get("UNDERTILE_CALLED", "undertile")
    return f"{called} plan {path} " + " ".join(f'--if "{wish}"' for wish in wishes)
