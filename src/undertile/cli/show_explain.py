"""The page of ``explain``: the readings, rules and sources behind one stud or one figure."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from typing import TYPE_CHECKING, Any

from undertile.cli import page, show_plan
from undertile.cli.answer import Answer
from undertile.cli.as_json import plain
from undertile.cli.figures import OCCUPIED, WALLS, dollars, minutes, place
from undertile.cli.recipe import plane_words, sentence, short
from undertile.cli.show_check import doubt, told_already
from undertile.findings import Check, Finding
from undertile.framing.problem import Demand, StepTerm
from undertile.framing.say import STEP
from undertile.framing.say import written as amount
from undertile.framing.words import recipe_line
from undertile.lengths import Unit, format_length
from undertile.sources import SOURCES, cite
from undertile.survey.result import StudOffsets, WallOffsets

if TYPE_CHECKING:
    from rich.console import Console


def stud(console: Console, answer: Answer, name: str) -> None:
    """One stud: its readings, where it ends up, what is done, why, and what is said of it."""
    wall, read = _stud(answer, name)
    unit = answer.unit
    page.heading(console, f"{name}, {WALLS[wall.name]}, {amount(read.along, unit, mark=True)} along")
    page.say(
        console,
        f"A reading of {amount(wall.nominal, unit, mark=True)} is 0; + is toward the room.",
    )
    planned = next((each for each in (answer.plan.members if answer.plan else ()) if each.name == name), None)
    rows = []
    for at in reversed(range(len(read.offsets))):
        each = read.offsets[at]
        typed = each.text if each.state == "read" else each.state
        row = [
            place(each.height, unit),
            typed,
            amount(each.value, unit, signed=True),
            _give(each.sigma, unit),
        ]
        if planned is not None:
            row += [
                amount(planned.amounts[at], unit, signed=True),
                amount(planned.finished[at], unit, signed=True),
            ]
            row.append(amount(planned.target[at], unit, signed=True))
        rows.append(row)
    head = ["height", "reading", "offset", "give or take"]
    if planned is not None:
        head += ["work", "after", "plane"]
    page.table(console, head, rows)
    if planned is not None:
        page.hang(
            console,
            "do",
            f"{recipe_line(planned, unit, answer.waits(planned))}. {minutes(planned.minutes)} min.",
            width=5,
        )
        for reason in planned.reasons:
            page.hang(console, "why", reason, width=5)
    for family, (reason, key) in _rules(answer, name).items():
        page.hang(console, "rule", f"{family}: {reason} [{page.cited(key)}]", width=5)
    for group in answer.suspects:
        if any(suspect.where.split(" ")[0] == name for suspect in group):
            doubt(console, group)
    about = [each for each in _about(answer, name) if not told_already(answer.survey, each)]
    page.findings(console, about, source=True)


def stud_json(answer: Answer, name: str) -> dict[str, Any]:
    """The same, for a machine."""
    wall, read = _stud(answer, name)
    planned = next((each for each in (answer.plan.members if answer.plan else ()) if each.name == name), None)
    return {
        "stud": name,
        "wall": wall.name,
        "nominal": plain(wall.nominal, answer.unit),
        "survey": plain(read, answer.unit),
        "plan": plain(planned, answer.unit),
        "rules": plain(_why_not(answer, name), answer.unit),
        "suspects": [
            plain(each, answer.unit)
            for group in answer.suspects
            for each in group
            if each.where.split(" ")[0] == name
        ],
        "findings": plain(_about(answer, name), answer.unit),
    }


def _stud(answer: Answer, name: str) -> tuple[WallOffsets, StudOffsets]:
    return next((wall, each) for wall in answer.survey.walls for each in wall.studs if each.name == name)


def _why_not(answer: Answer, name: str) -> dict[str, tuple[str, str]]:
    """What is not offered on a stud, or only within a limit, each with its reason and source key."""
    walls = answer.problem.walls if answer.problem else ()
    return next((dict(m.why) for wall in walls for m in wall.members if m.name == name), {})


_ONLY_WHERE_USED = {
    "kerf": "kerf",
    "wet bed": "wet bed",
    "knock over": "knock over",
    "sister minutes": "sister",
    "sister is": "sister",
    "replace minutes": "replace",
    "replace is": "replace",
}
"""Rules that say something to a person only where such work is in the plan; ``--json`` has all."""


def _rules(answer: Answer, name: str) -> dict[str, tuple[str, str]]:
    """The rules that bear on what is done to a stud."""
    members = answer.plan.members if answer.plan else ()
    done = next((m.recipe.families for m in members if m.name == name), ())
    return {
        rule: why
        for rule, why in _why_not(answer, name).items()
        if rule not in _ONLY_WHERE_USED or _ONLY_WHERE_USED[rule] in done
    }


def cost(console: Console, answer: Answer) -> None:
    """Where the minutes and the dollars go: walls, then studs, then the rules that price them."""
    plan, facts = answer.plan, answer.job.framing
    if plan is None or not plan.planes:
        page.heading(console, "What it takes")
        page.say(console, "There is no plan, so there is no cost.")
        return
    factor = OCCUPIED if facts.occupied else Fraction(1)
    show_plan.what_it_costs(console, plan, Fraction(facts.rate), factor, facts.held)
    rows = [
        [m.name, short(m), minutes(m.minutes), dollars(m.dollars)]
        for m in plan.members
        if m.minutes or m.dollars
    ]
    rows += [[f"wall {c.wall}", c.what, minutes(c.minutes), dollars(c.dollars)] for c in plan.charges]
    page.table(console, ["where", "what", "minutes", "material"], rows, right=[2, 3])
    page.hang(console, "rule", "cost = minutes x rate + material (convention 4.1 and 4.3)", width=8)
    for key in ("convention-4", "practice-minutes"):
        page.hang(console, "source", _cited(key), width=8)


def cost_json(answer: Answer) -> dict[str, Any]:
    """The same, for a machine."""
    plan = answer.plan
    if plan is None:
        return {"minutes": None, "dollars": None, "cost": None, "studs": {}, "charges": []}
    return {
        "minutes": plain(plan.minutes, answer.unit, "minutes"),
        "dollars": plain(plan.dollars, answer.unit, "dollars"),
        "cost": plain(plan.cost, answer.unit, "cost"),
        "studs": {
            m.name: {
                "minutes": plain(m.minutes, answer.unit, "minutes"),
                "dollars": plain(m.dollars, answer.unit, "dollars"),
            }
            for m in plan.members
        },
        "charges": plain(plan.charges, answer.unit),
    }


def terms(answer: Answer, name: str) -> list[StepTerm]:
    """What a thing, an edge, a corner or the valve asks of the plane, by its name in the job."""
    walls = answer.problem.walls if answer.problem else ()
    every = [term for wall in walls for term in wall.terms]
    return [
        term for term in every if term.name.lower() == name or term.name.lower().startswith(f"{name} at ")
    ]


def asked_by(console: Console, answer: Answer, asked: Sequence[StepTerm]) -> None:
    """What stands in front of or beside the studs, and where that lets the plane lie."""
    for term in asked:
        unit = answer.unit
        page.heading(console, f"{term.name} (wall {term.wall})")
        at = f"{amount(term.along, unit, mark=True)} along, {amount(term.height, unit, mark=True)} up"
        page.hang(console, "place", at, width=8)
        page.hang(console, "asks", term.why, width=8)
        if term.remedy:
            page.hang(console, "else", f"{term.remedy}, {minutes(term.minutes or Fraction(0))} min", width=8)
        page.hang(console, "source", _cited(term.source), width=8)


def _about(answer: Answer, name: str) -> list[Finding]:
    return [each for each in answer.findings if each.where.split(" ")[0].rstrip(",") == name]


def _give(sigma: float, unit: Unit) -> str:
    """A standard uncertainty, up to the next step of a rule."""
    return format_length(Fraction(sigma), unit, step=STEP[unit], rounding="up").removesuffix(" mm")


def plane(console: Console, answer: Answer, name: str) -> None:
    """One wall's plane: where it lies, as readings from the line, and what holds it there."""
    unit = answer.unit
    wall = next(each for each in answer.survey.walls if each.name == name)
    page.heading(console, f"Plane of the {WALLS[name]}")
    chosen = answer.plan.planes.get(name) if answer.plan else None
    if chosen is None:
        page.say(console, "No plane is chosen: there is no plan.")
        return
    ends = [(wall.studs[0].name, wall.studs[0].along), (wall.studs[-1].name, wall.studs[-1].along)]
    page.say(console, sentence(plane_words(chosen, wall.nominal, ends, unit)))
    page.say(console, "Distance from the reference line to the plane:")
    heights = list(reversed(wall.heights))
    rows = []
    for height in heights:
        step = chosen.step if not _in_flange(answer, name, height) else Fraction(0)
        at = [wall.nominal - chosen.at(each.along, height) - step for each in wall.studs]
        rows.append([place(height, unit), *[amount(each, unit) for each in at]])
    page.table(console, ["height", *[each.name for each in wall.studs]], rows)
    asked = _asked(answer, name)
    if asked:
        page.say(console, "What is asked of it (holds: it could not lie further over):")
    told: dict[tuple[str, str], bool] = {}
    for each in asked:
        told[each.title, each.why] = told.get((each.title, each.why), False) or _holds(answer, each)
    for (title, why), holds in sorted(told.items(), key=lambda item: not item[1]):
        page.hang(console, "holds" if holds else "asks", f"{title}: {why}.", width=5)
    page.findings(console, [each for each in answer.findings if name in each.where.split(" ")], source=True)


def plane_json(answer: Answer, name: str) -> dict[str, Any]:
    """The same, for a machine."""
    chosen = answer.plan.planes.get(name) if answer.plan else None
    return {
        "plane": plain(chosen, answer.unit),
        "demands": plain(_asked(answer, name), answer.unit),
    }


def _in_flange(answer: Answer, wall: str, height: Fraction) -> bool:
    """Whether the plan treats a height as the flange zone: there the target has no step."""
    if answer.plan is None:
        return True
    chosen = answer.plan.planes[wall]
    for member in answer.plan.members:
        if member.wall == wall and height in member.heights:
            return member.target[member.heights.index(height)] == chosen.at(member.along, height)
    return True


def _asked(answer: Answer, wall: str) -> list[Demand]:
    asked = answer.rebuild.results.get("demands", ())
    demands = [each for each in asked if isinstance(each, Demand)]
    return [each for each in demands if any(part[0] == wall for part in each.parts)]


def _holds(answer: Answer, demand: Demand) -> bool:
    """Whether the planes lie on the very edge of what a demand allows."""
    planes = answer.plan.planes if answer.plan else {}
    if not all(part[0] in planes for part in demand.parts):
        return False
    value = sum((c * planes[wall].at(along, z) for wall, along, z, c in demand.parts), Fraction(0))
    return value in (demand.low, demand.high)


def figures(console: Console, checks: Sequence[Check], findings: Sequence[Finding]) -> None:
    """Checks with all that is behind them, then the findings that go with the word."""
    for check in checks:
        page.heading(console, check.title + (f" ({check.where})" if check.where else ""))
        for label, text in (
            ("is", check.value),
            ("limit", check.limit),
            ("margin", check.margin),
            ("verdict", page.verdict(check).plain),
        ):
            if text:
                page.hang(console, label, text, width=8)
        for because in check.because:
            page.hang(console, "because", because, width=8)
        for label, text in (
            ("eats it", check.eats),
            ("do", check.next_step),
            ("source", _cited(check.source)),
        ):
            if text:
                page.hang(console, label, text, width=8)
    if findings:
        page.heading(console, "Findings")
        page.findings(console, findings, source=True)


def figures_json(answer: Answer, checks: Sequence[Check], findings: Sequence[Finding]) -> dict[str, Any]:
    """The same, for a machine."""
    return {"checks": plain(checks, answer.unit), "findings": plain(findings, answer.unit)}


def source(console: Console, key: str) -> None:
    """One source, with its weight."""
    page.heading(console, cite(key))
    if SOURCES[key].note:
        page.say(console, SOURCES[key].note)


def source_json(key: str) -> dict[str, Any]:
    """The same, for a machine."""
    return {"source": plain(SOURCES[key], "in")}


def _cited(key: str) -> str:
    note = SOURCES[key].note if key in SOURCES else ""
    return (page.cited(key) if key in SOURCES else key) + (f". {note}" if note else "")
