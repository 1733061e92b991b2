"""The page of ``recheck``: what to read, verdicts, what shows the rest, what is left, the proof's head."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction
from typing import TYPE_CHECKING

from rich.text import Text

from undertile.cli import page
from undertile.cli.figures import ORDER, WALLS, clock, dollars, minutes, place
from undertile.cli.show_check import doubt
from undertile.cli.show_checks import judged
from undertile.findings import Check, Severity, Verdict
from undertile.framing.say import written as amount
from undertile.framing.words import recipe_line
from undertile.lengths import Unit
from undertile.recheck.asked import Asked
from undertile.recheck.faces import Face, StudFaces
from undertile.recheck.left import Left
from undertile.recheck.proof import Proof, said_sigma, short_digest
from undertile.recheck.result import RecheckResult, WallVerdict
from undertile.sources import cite

if TYPE_CHECKING:
    from rich.console import Console

_MARK = {"read again": "", "first survey": "'", "estimated": "?", "missing": "blank", "cannot reach": "x"}
_DONE = {
    "nothing": "Nothing: by what was read every face is right on its plane.",
    "nothing, planes moved": "Nothing on the studs: the faces are right on another plane (below).",
    "none": "What is there cannot be brought right under the rules of the plan:",
}


def no_plan(console: Console, found: RecheckResult) -> None:
    """Without a plan there is nothing to read again."""
    page.heading(console, "Nothing to judge against")
    page.say(console, "There is no plan, so it is not known where a face should be. See: undertile plan.")
    page.findings(console, found.findings)


def to_read(console: Console, found: RecheckResult, unit: Unit) -> None:
    """What is asked for and not read yet, in the order of walking the room."""
    rest = found.missing
    if found.state == "not begun":
        page.heading(console, "What to read again once the work is done")
        if not rest:
            page.say(console, "Nothing: the plan changes no stud. Lay a straightedge on every wall.")
            return
        page.say(console, "Only what is touched and what stands next to it, as you walk the room:")
    elif rest:
        page.heading(console, "Still to read")
    else:
        return
    rows = []
    for stud in dict.fromkeys(each.stud for each in rest):
        own = [each for each in rest if each.stud == stud]
        rows.append([stud, ", ".join(place(each.height, unit) for each in own), _why(own)])
    page.table(console, ["stud", "heights", "why"], rows, firm=[0])


def _why(own: Sequence[Asked]) -> str:
    return "changed" if any(each.why == "changed" for each in own) else own[0].why


def which_number(console: Console, found: RecheckResult) -> None:
    """Readings taken again that look misread, and lines that moved."""
    loud = [each for each in found.findings if each.code == "again-line-moved"]
    loud += [each for each in found.findings if each.severity is Severity.STOP]
    if not found.doubts and not loud:
        return
    page.heading(console, "Which number is wrong?")
    for group in found.doubts:
        doubt(console, group)
    page.findings(console, loud)


def walls(console: Console, found: RecheckResult, unit: Unit) -> None:
    """Each wall: its faces off the plane, and every rule with its verdict."""
    page.heading(console, "Are the walls right?")
    page.say(
        console,
        f"{'Inches' if unit == 'in' else 'Mm'} off the plane: + proud, - back, 0 on it. ' stands on the "
        "first survey; ? never read; blank asked for and not read.",
    )
    for wall in sorted(found.walls, key=lambda each: ORDER[each.wall]):
        studs = next(each for each in found.faces if each.name == wall.wall).studs
        _wall(console, wall, studs, unit)


def _wall(console: Console, wall: WallVerdict, studs: Sequence[StudFaces], unit: Unit) -> None:
    console.print()
    word = page.VERDICT[wall.verdict]
    page.hang(
        console,
        WALLS[wall.wall].capitalize(),
        f"{word}. {wall.stands}.",
        width=11,
        style=page.LOUD[wall.verdict],
    )
    facing = list(studs) if wall.wall != "L" else list(reversed(studs))
    heights = sorted({face.height for stud in studs for face in stud.faces}, reverse=True)
    verdicts = {each.stud: each.verdict for each in wall.studs}
    rows: list[list[str | Text]] = []
    for height in heights:
        cells = [_cell(stud.at(height), unit) for stud in facing]
        rows.append([place(height, unit), *cells])
    rows.append(
        ["", *[Text(page.VERDICT[verdicts[s.name]], style=page.LOUD[verdicts[s.name]]) for s in facing]]
    )
    page.table(console, ["height", *[stud.name for stud in facing]], rows)
    faces = [each.checks[0] for each in wall.studs if each.checks[0].verdict is Verdict.FAIL]
    judged(console, [*faces, *map(_short, wall.checks)])


def _short(check: Check) -> Check:
    """Without what would show it: all of that stands together below."""
    return replace(check, next_step="") if check.verdict is Verdict.NOT_SHOWN else check


def _cell(face: Face | None, unit: Unit) -> str:
    if face is None:
        return ""
    if face.off is None:
        return _MARK[face.standing]
    value = amount(face.off, unit, signed=True) if face.off else "0"
    return value + _MARK[face.standing]


def pan(console: Console, found: RecheckResult) -> None:
    """Play and square."""
    if found.room:
        page.heading(console, "Does the pan still drop in?")
        judged(console, map(_short, found.room))


def to_show(console: Console, found: RecheckResult) -> None:
    """What to read or lay on to show what is not shown."""
    steps = [step for wall in found.walls if wall.verdict is Verdict.NOT_SHOWN for step in wall.show]
    steps += [c.next_step for c in found.room if c.verdict is Verdict.NOT_SHOWN and c.next_step]
    if steps:
        page.heading(console, "What would show the rest")
        for number, step in enumerate(dict.fromkeys(steps), 1):
            page.hang(console, str(number), step, width=2)


def stud(console: Console, found: RecheckResult, name: str, unit: Unit) -> None:
    """One stud as read again, for ``explain``; nothing where it was not."""
    again = found.stud(name)
    if again is None or found.state != "read":
        return
    page.heading(console, f"{name}, read again")
    rows = []
    for face in reversed(again.faces):
        here = "" if face.offset is None else amount(face.offset, unit, signed=True)
        off = "" if face.off is None else amount(face.off, unit, signed=True)
        rows.append(
            [
                place(face.height, unit),
                face.text,
                face.standing,
                here,
                amount(face.target, unit, signed=True),
                off,
            ]
        )
    page.table(console, ["height", "reading", "stands on", "offset", "plane", "off it"], rows)
    for wall in found.walls:
        for each in wall.studs:
            if each.stud == name:
                judged(console, each.checks)


def what_is_left(console: Console, found: RecheckResult, unit: Unit) -> None:
    """The work left, planned again."""
    left = found.left
    if left is None:
        return
    page.heading(console, "What is left to do")
    if left.state in _DONE:
        page.say(console, _DONE[left.state])
    for member in left.members:
        off = member.name in left.bare
        text = f"{recipe_line(member, unit)}. {minutes(member.minutes)} min."
        if off:
            text = f"take its strips off; then {text}" if member.touched else "take its strips off."
        page.hang(console, member.name, text, width=4, style="bold")
        for reason in member.reasons if member.touched else ():
            page.hang(console, "", f"Why: {reason}", width=4)
    if left.members or left.charges:
        page.say(console, _cost(left))
    if left.conflict is not None:
        for demand in left.conflict.demands:
            page.hang(console, "-", demand, width=1)
        for demand, change in left.conflict.frees:
            page.hang(console, "", f"frees it: {demand}: {change}", width=1)
    if left.shims:
        page.say(
            console,
            f"With the pan, as planned: plastic flange shims at {', '.join(left.shims)} "
            f"({dollars(left.shim_cost)}).",
        )
    for words in left.taken:
        page.say(console, f"{words[:1].upper()}{words[1:]}.")
    page.findings(console, [each for each in left.findings if each.severity is not Severity.STOP])


def _cost(left: Left) -> str:
    paid: dict[tuple[str, str], Fraction] = {}
    for charge in left.charges:
        key = (charge.what, charge.wall)
        paid[key] = paid.get(key, Fraction(0)) + charge.minutes
    once = ", ".join(f"{what} wall {wall} {minutes(spent)}" for (what, wall), spent in paid.items())
    text = f"{clock(left.minutes)} and {dollars(left.dollars)} of material: {dollars(left.cost)}"
    text += f" (in it once a wall: {once})." if once else "."
    if left.state == "proved":
        text += " Proved least from what is there now"
        text += f", with the strips of {', '.join(left.bare)} off." if left.bare else "."
    elif left.bound_gap:
        text += f" It may cost up to {dollars(left.bound_gap)} more than the least: the time was up."
    return text


def proof(console: Console, found: RecheckResult, unit: Unit) -> None:
    """The head of the proof: verdict, tolerance, instrument, digest."""
    shown: Proof | None = found.proof
    if shown is None:
        return
    page.heading(console, f"Proof: {page.VERDICT[shown.verdict]}")
    tolerance = shown.tolerance

    def rule(limit: Fraction, length: Fraction) -> str:
        return f"{amount(limit, unit, mark=True)} under {amount(length, unit, mark=True)}"

    flat = f"{rule(tolerance.long_limit, tolerance.long_length)} and "
    flat += rule(tolerance.short_limit, tolerance.short_length)
    plumb = f"{amount(tolerance.plumb_limit, unit, mark=True)} in "
    plumb += amount(tolerance.plumb_over, unit, mark=True)
    rows = [
        ("flat", f"{flat} [{cite(tolerance.source)}]"),
        ("plumb", f"{plumb} [{cite(tolerance.plumb_source)}]"),
        ("read", ", ".join(filter(None, (shown.by or "by nobody named", shown.date, shown.instrument)))),
        (
            "tools",
            f"{shown.tool}, standard uncertainty {said_sigma(shown.sigma, unit)}; "
            f"gap under a straightedge {said_sigma(shown.feeler_sigma, unit)}",
        ),
        ("digest", f"{short_digest(shown.digest)} (SHA-256 of the readings, its beginning)"),
    ]
    for label, text in rows:
        page.hang(console, label, text, width=6)
    told = {"earlier": "ticked for an earlier plan", "unknown": "ticked, for which plan is not known"}
    for tick, words in told.items():
        names = [each.stud for each in shown.done if each.tick == tick]
        if names:
            page.hang(console, "ticks", f"{', '.join(names)}: {words}, not counted as done", width=6)
    timed = [each for each in shown.done if each.actual_minutes is not None and each.tick == "holds"]
    if timed:
        real = sum((each.actual_minutes or Fraction(0) for each in timed), Fraction(0))
        planned = sum((each.planned_minutes for each in timed), Fraction(0))
        studs = ", ".join(each.stud for each in timed)
        page.hang(
            console, "took", f"{minutes(real)} min where {minutes(planned)} were planned ({studs})", width=6
        )
