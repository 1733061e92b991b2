"""``plan --steady``: what it costs to move a wall a step, and how the plan fares under reading error."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from undertile.cli import page
from undertile.cli.answer import Answer
from undertile.cli.at_once import AtOnce
from undertile.cli.figures import ORDER, WALLS, dollars
from undertile.framing.moves import Planner, Steadiness, Step, steadiness
from undertile.framing.say import written as amount
from undertile.lengths import MM, SIXTEENTH

if TYPE_CHECKING:
    from rich.console import Console

LOOKED = 8
"""Redrawn rooms that are planned anew."""


@dataclass(frozen=True)
class Moves:
    """Each plane moved a step either way, and the plan under redrawn readings."""

    steps: tuple[Step, ...]
    steady: Steadiness


def work_out(answer: Answer) -> Moves | None:
    """Both, or None where there is no plan."""
    if answer.plan is None or answer.problem is None:
        return None
    step = SIXTEENTH if answer.job.unit == "in" else 2 * MM
    sigmas = {
        stud.name: [offset.sigma for offset in stud.offsets]
        for wall in answer.survey.walls
        for stud in wall.studs
    }
    planner = Planner(answer.problem)
    count = 2 * len(answer.plan.planes) + LOOKED
    with AtOnce("Walls moved a step, rooms redrawn", count) as pool:
        steps = planner.steps(answer.plan, step, each=pool.each)
        steady = steadiness(answer.problem, answer.plan, sigmas, looked=LOOKED, each=pool.each)
    return Moves(steps, steady)


def show(console: Console, answer: Answer, moves: Moves) -> None:
    """A row for each wall and direction, then the redraws in words."""
    page.heading(console, "What if a wall moves a step?")
    rows = []
    for step in sorted(moves.steps, key=lambda each: (ORDER[each.wall], each.by)):
        side = "toward the room" if step.by > 0 else "back"
        rows.append(
            [
                WALLS[step.wall],
                f"{amount(abs(step.by), answer.unit, mark=True)} {side}",
                _alone(step),
                _again(step, answer),
                ", ".join(step.changed) or "-",
            ]
        )
    page.table(
        console, ["wall", "moved", "others stay", "planned again", "work changes at"], rows, firm=[2, 3]
    )
    _steady(console, moves.steady)


def _alone(step: Step) -> str:
    if step.alone.cost is None or step.alone.broken:
        return "cannot be"
    return ("" if step.alone.straight else "over ") + dollars(step.alone.cost)


def _again(step: Step, answer: Answer) -> str:
    if step.around is None or step.around.cost is None:
        return "cannot be"
    if answer.plan is None or answer.plan.cost is None:
        return dollars(step.around.cost)
    more = step.around.cost - answer.plan.cost
    return f"{dollars(step.around.cost)} (+{dollars(more)})" if more >= 0 else dollars(step.around.cost)


def _planned_anew(steady: Steadiness) -> str:
    """How the plan's planes fare in rooms redrawn and planned anew, in plain words."""
    text = f"{steady.looked} of those rooms were planned anew. "
    if not steady.feasible:
        return text + "In none of them could this plan's planes still be built."
    count = "all" if steady.feasible == steady.looked else str(steady.feasible)
    text += f"In {count} of them this plan's planes could still be built, and "
    if steady.best == steady.feasible:
        return text + "there no other plan was cheaper."
    best = {0: "they were never the cheapest", 1: "they were the cheapest once"}
    return text + (
        f"there {best.get(steady.best, f'they were the cheapest {steady.best} times')}: "
        "the cheapest plan of such a room costs "
        f"{dollars(steady.regret)} less on average."
    )


def _steady(console: Console, steady: Steadiness) -> None:
    page.heading(console, "How steady is the plan?")
    page.say(
        console,
        f"Every reading redrawn within its uncertainty {steady.draws} times: cut as planned, "
        f"{steady.faces:.0%} of the faces still lie right.",
    )
    if steady.looked:
        page.say(console, _planned_anew(steady))
    if steady.weakest:
        weak = ", ".join(f"{name} ({share:.0%})" for name, share in steady.weakest)
        page.say(console, f"Faces most often out: {weak}. Read those again before they are cut.")
