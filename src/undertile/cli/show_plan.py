"""The page of ``plan``: what to do to each stud, what it costs, and how sure it is the least."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from fractions import Fraction
from typing import TYPE_CHECKING

from rich.text import Text

from undertile.cli import page
from undertile.cli.figures import ORDER, WALLS, clock, dollars, minutes, place
from undertile.cli.recipe import plane_words, short
from undertile.framing.plan import FramingPlan, MemberPlan, Piece
from undertile.framing.say import written as amount
from undertile.framing.words import recipe_line
from undertile.lengths import Unit
from undertile.survey.result import SurveyResult, Suspect

if TYPE_CHECKING:
    from rich.console import Console

COLUMN = 9
"""Width of a stud's column with its gap. [columns]"""
LABEL = 8
MOST = 9
"""Demands of a conflict listed: more than a person keeps in mind are in ``--json``."""


Waits = Callable[[MemberPlan], Sequence[Piece]]
"""Which strips of a stud go on only after the pan is set."""


def what_to_do(
    console: Console, plan: FramingPlan, survey: SurveyResult, unit: Unit, waits: Waits = lambda _: ()
) -> None:
    """A table for each wall, then what is done to each stud and why."""
    page.heading(console, "What to do to each stud")
    unit_word = "inches" if unit == "in" else "mm"
    page.say(
        console,
        f"In {unit_word}, at each height above the subfloor: - take off, + add, . leave. "
        "~ is the nearest mark of a rule to a face that runs on the plane; ! a reading in doubt, "
        "? one not read.",
    )
    for wall in sorted(plan.planes, key=ORDER.__getitem__):
        members = [member for member in plan.members if member.wall == wall]
        one_wall(console, plan, survey, members, unit, waits)


def one_wall(
    console: Console,
    plan: FramingPlan,
    survey: SurveyResult,
    members: Sequence[MemberPlan],
    unit: Unit,
    waits: Waits = lambda _: (),
) -> None:
    """One wall as a person stands before it, then its studs one by one."""
    name = members[0].wall
    nominal = next(wall.nominal for wall in survey.walls if wall.name == name)
    ends = [(members[0].name, members[0].along), (members[-1].name, members[-1].along)]
    console.print()
    words = plane_words(plan.planes[name], nominal, ends, unit)
    page.hang(console, f"{WALLS[name].capitalize()}", words + ".", width=11, style="bold")
    facing = list(members) if name != "L" else list(reversed(members))
    room = max(1, (console.width - page.INDENT - LABEL) // COLUMN)
    for start in range(0, len(facing), room):
        _grid(console, facing[start : start + room], _marks(survey), unit)
    rest = []
    for member in members:
        if not member.touched and not member.recipe.flange_shim:
            rest.append(member.name)
            continue
        text = f"{recipe_line(member, unit, waits(member))}. {minutes(member.minutes)} min."
        page.hang(console, member.name, text, width=4, style="bold")
        for reason in member.reasons:
            page.hang(console, "", f"Why: {reason}", width=4)
    if rest:
        page.hang(
            console, "", f"Leave {', '.join(rest)} as {'it is' if len(rest) == 1 else 'they are'}.", width=4
        )


def _marks(survey: SurveyResult) -> Mapping[tuple[str, Fraction], str]:
    """``!`` where a reading is in doubt, ``?`` where none was read."""
    marks: dict[tuple[str, Fraction], str] = {}
    for wall in survey.walls:
        for stud in wall.studs:
            for offset in stud.offsets:
                if offset.state != "read":
                    marks[stud.name, offset.height] = "?"
    doubted = {suspect.where for group in survey.suspects for suspect in group[:1]}
    for wall in survey.walls:
        for stud in wall.studs:
            for offset in stud.offsets:
                if {f"{stud.name} at {each}" for each in _spellings(offset.height)} & doubted:
                    marks[stud.name, offset.height] = "!"
    return marks


def _spellings(height: Fraction) -> set[str]:
    return {place(height, "in"), place(height, "mm"), f"{place(height, 'mm')} mm"}


def _grid(
    console: Console, members: Sequence[MemberPlan], marks: Mapping[tuple[str, Fraction], str], unit: Unit
) -> None:
    heights = sorted({height for member in members for height in member.heights}, reverse=True)
    rows: list[list[str | Text]] = []
    for height in heights:
        row: list[str | Text] = [place(height, unit)]
        for member in members:
            cell = _cell(member, height, unit) + marks.get((member.name, height), "")
            row.append(Text(cell, style="bold" if cell[0] in "+-~" else ""))
        rows.append(row)
    rows.append([Text(""), *[Text(short(member)) for member in members]])
    rows.append(["min", *[minutes(member.minutes) for member in members]])
    page.table(console, ["height", *[member.name for member in members]], rows)


def _cell(member: MemberPlan, height: Fraction, unit: Unit) -> str:
    if height not in member.heights:
        return ""
    value = member.amounts[member.heights.index(height)]
    return amount(value, unit, signed=True) if value else "."


def what_it_costs(
    console: Console, plan: FramingPlan, rate: Fraction, factor: Fraction, held: bool = False
) -> None:
    """Minutes by wall, charges, the total, and the line about the proof; ``held``: it works around a hold."""
    page.heading(console, "What it takes")
    rows = []
    for wall in sorted(plan.planes, key=ORDER.__getitem__):
        own = sum((member.minutes for member in plan.members if member.wall == wall), Fraction(0))
        paid = [charge for charge in plan.charges if charge.wall == wall]
        once = ", ".join(f"{charge.what} {minutes(charge.minutes)}" for charge in paid)
        total = own + sum((charge.minutes for charge in paid), Fraction(0))
        rows.append([WALLS[wall], minutes(own), once, minutes(total)])
    for charge in plan.charges:
        if charge.wall not in plan.planes:
            rows.append([charge.what, "", charge.why, minutes(charge.minutes)])
    if factor != 1:
        rows.append([f"all x {minutes(factor)}", "", "occupied house: containment", ""])
    rows.append(["together", "", "", minutes(plan.minutes)])
    page.table(console, ["minutes", "studs", "once a wall", "together"], rows, right=[1, 3])
    page.say(console, _money(plan, rate))
    page.say(console, proof(plan, held))


def _money(plan: FramingPlan, rate: Fraction) -> str:
    labour = plan.minutes * rate / 60
    total = plan.cost if plan.cost is not None else labour + plan.dollars
    return (
        f"{clock(plan.minutes)} of work: {dollars(labour)} at {dollars(rate)} an hour, "
        f"and {dollars(plan.dollars)} of material: {dollars(total)}."
    )


def proof(plan: FramingPlan, held: bool = False) -> str:
    """What is known about a cheaper plan; ``held``: the plan works around what a person holds."""
    if plan.state == "proved":
        around = " with what is held" if held else ""
        return f"Proved least: no plan under this contract{around} costs less."
    if plan.state == "none":
        return "No plan meets everything asked."
    if plan.gap is None or plan.bound is None:
        least = "" if plan.bound is None else f" None costs less than {dollars(plan.bound)}."
        return f"The time limit was hit before a plan was found.{least}"
    return (
        f"NOT proved least: the time limit was hit. A plan could cost up to {dollars(plan.gap)} less, "
        f"never under {dollars(plan.bound)}."
    )


def doubt_first(console: Console, suspects: Sequence[Sequence[Suspect]]) -> None:
    """The line between the doubt and the plan."""
    if suspects:
        page.say(
            console,
            "The plan below takes every reading as typed. Settle these first: what is cut to a wrong number "
            "stays cut.",
        )


def runner_ups(console: Console, plan: FramingPlan) -> None:
    """The plans that lose, and why."""
    if not plan.runner_ups:
        return
    page.heading(console, "Why not otherwise?")
    rows = []
    for each in plan.runner_ups:
        more = "cannot be" if each.more is None else f"+{dollars(each.more)}"
        rows.append([each.what, more, each.why])
    page.table(console, ["instead", "costs", "why it loses"], rows, firm=[1])


def conflict(console: Console, plan: FramingPlan) -> None:
    """No plan: which demands cannot all hold, and the smallest change that frees each."""
    page.heading(console, "No plan meets everything asked")
    if plan.conflict is None:
        page.say(console, "The demands cannot all hold; which ones conflict was not worked out.")
        return
    every = [each for each in (plan.conflict, *plan.conflict.more) if each.demands]
    for number, each in enumerate(every, 1):
        if len(every) > 1:
            page.say(console, f"Conflict {number} of {len(every)}; each has to be freed.")
        page.say(console, "These cannot all hold:")
        _listed(console, each.demands)
        if each.given:
            page.say(console, "with what nobody asks for, but is so:")
            _listed(console, each.given)
        if each.frees:
            page.say(console, "One of these is enough to free it:")
            _listed(console, [_change(*pair) for pair in each.frees])
        if each.partial:
            page.say(console, "Not enough by itself:")
            _listed(console, [_change(*pair) for pair in each.partial])
    if plan.conflict.undecided:
        page.say(console, f"Not known: {plan.conflict.undecided}.")


def _change(demand: str, change: str) -> str:
    return change if demand.lower() in change.lower() else f"{demand}: {change}"


def _listed(console: Console, lines: Sequence[str]) -> None:
    for line in lines[:MOST]:
        page.hang(console, "-", line, width=1, indent=page.INDENT + 2)
    if len(lines) > MOST:
        page.hang(console, "-", f"{len(lines) - MOST} more (--json has all)", width=1, indent=page.INDENT + 2)
