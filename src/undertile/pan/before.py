"""What floor and water bring into the order of work: before the walls are worked and the pan is set.

The floor moves the level line's height and what the pan stands on, and wood that is still to dry is not
trued: both come first (jobmap C6). A patch is cut and fitted whenever it suits; joists are seen, mended and
judged once the floor is open; it is laid after what it covers is dry and sound (``floor.covering``). Which
steps there are is theirs; here they are only put in words, the same for floor sheet, crew sheet and plan.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from typing import TYPE_CHECKING, Any

from undertile.findings import Finding, Severity, Verdict
from undertile.framing.dries import READ_AGAIN
from undertile.framing.words import WorkStep
from undertile.safety.facts import Lifted
from undertile.safety.lifts import lift
from undertile.sentence import Sentence, joined, listed
from undertile.wood.dryfirst import dry_first_order, dry_past, dry_when, read_again_order

if TYPE_CHECKING:
    from undertile.floor.result import FloorResult
    from undertile.framing.plan import FramingPlan
    from undertile.wood.result import WoodResult

BEFORE = (
    *("floor stop", "floor cut", "floor joist", "floor engineer", "floor let dry", "dry first"),
    *("floor dry", "floor wood", "floor patch", "floor level"),
)
"""Kinds of steps that floor and water bring, in the order they are done."""


def before_steps(
    results: Mapping[str, Any], lifted: Iterable[Lifted] = (), today: str = ""
) -> tuple[WorkStep, ...]:
    """Steps of floor and water; none where neither is known.

    Parameters
    ----------
    results : mapping
        By stage key: ``floor``, ``wood``, ``framing``, those that answered.
    lifted : iterable of Lifted
        Stops that a person lifted.
    today : str
        ``2026-03-04``: a date that has gone by unread is told so; "" = there is no clock.

    Returns
    -------
    tuple of WorkStep
        Of the kinds `BEFORE`, in that order; each text a `Sentence`.
    """
    floor: FloorResult | None = results.get("floor")
    plan: FramingPlan | None = results.get("framing")
    steps: list[WorkStep] = []
    if floor is not None:
        steps += floor_steps(floor, lifted)
        steps += _level(floor)
    if plan is not None:
        steps += _dry_first(plan, results.get("wood"), today)
    return tuple(sorted(steps, key=lambda step: BEFORE.index(step.kind)))


def floor_steps(floor: FloorResult, lifted: Iterable[Lifted] = ()) -> tuple[WorkStep, ...]:
    """What is done on the floor from the first cut to the last screw, in that order.

    Parameters
    ----------
    floor : FloorResult
    lifted : iterable of Lifted
        Stops that a person lifted.

    Returns
    -------
    tuple of WorkStep
    """
    findings = lift(floor.findings, lifted)
    steps = [
        *_cut(floor),
        *_joists("floor stop", (each for each in findings if each.severity is Severity.STOP)),
        *_joists("floor joist", (each for each in findings if each.code == "joist-soft")),
        *_engineer(floor),
        *_laid(floor),
    ]
    return tuple(sorted(steps, key=lambda step: BEFORE.index(step.kind)))


def _joists(kind: str, findings: Iterable[Finding]) -> Iterator[WorkStep]:
    """What is done at one place of the floor, in the finding's own sentence."""
    for each in findings:
        text = Sentence("Floor, {where}: {step}", where=each.where, step=each.next_step)
        yield WorkStep(kind, (), (), text)


def _engineer(floor: FloorResult) -> Iterator[WorkStep]:
    """What a patch waits for besides mending and drying, by what is done about it: an engineer, a stamp."""
    by: dict[str, list[str]] = {}
    for each in () if floor.covers is None else floor.covers.holds:
        if each.kind in ("fails", "not shown") and each.step:
            by.setdefault(each.step, []).append(each.where)
    for step, places in by.items():
        where = joined([Sentence("{where}", where=place) for place in dict.fromkeys(places)])
        yield WorkStep("floor engineer", (), (), Sentence("Floor, {where}: {step}", where=where, step=step))


def _cut(floor: FloorResult) -> Iterator[WorkStep]:
    for number, made in enumerate(floor.layouts, 1):
        text = Sentence(
            "Floor: cut out patch {number} on the drawing's lines, fit {pieces} and take it out again; put "
            "an awl into each joist uncovered.",
            number=number,
            pieces=listed(each.name for each in made.pieces),
        )
        yield WorkStep("floor cut", (), (), text)


def _laid(floor: FloorResult) -> Iterator[WorkStep]:
    """What must be dry, whether it may be covered, then blocks, cleats and the pieces."""
    covers = floor.covers
    if covers is not None:
        if covers.read_on and (covers.wet or covers.unread):
            text = Sentence("Floor: read each joist under the patch, and let what is wet there dry.")
            yield WorkStep("floor let dry", (), (), text)
        yield WorkStep("floor dry", (), (), covers.says, {"may": "yes" if covers.may else "no"})
    if any(made.blocks or made.cleats for made in floor.layouts):
        text = Sentence("Floor: set blocks and cleats, glued and screwed, flush with the joists' tops.")
        yield WorkStep("floor wood", (), (), text)  # they cover a joist's side: they wait too
    for number, made in enumerate(floor.layouts, 1):
        for layer in ("lower", "upper"):
            pieces = listed(each.name for each in made.pieces if each.layer == layer)
            if not pieces:
                continue
            if layer == "lower":
                text = Sentence(
                    "Floor: lay patch {number}, {pieces}, then glue and screw it (floor sheet).",
                    number=number,
                    pieces=pieces,
                )
            else:
                text = Sentence(
                    "Floor: lay the second layer of patch {number}, {pieces}, screwed into the first only "
                    "(floor sheet).",
                    number=number,
                    pieces=pieces,
                )
            yield WorkStep("floor patch", (), (), text)


def _level(floor: FloorResult) -> Iterator[WorkStep]:
    """Bring it level, then what is to be read again before anything hangs on it."""
    said: list[str] = []
    if any(each.amount for each in floor.level.places):
        said.append(Sentence("Bring the floor under the pan level (floor sheet)."))
    if floor.layouts and not floor.flow.read_again:  # what is read once the new panel is down
        said += [each.next_step for each in floor.level.checks if each.verdict is Verdict.NOT_SHOWN]
    said += floor.flow.read_again
    if said:
        yield WorkStep(
            "floor level", (), (), joined(dict.fromkeys(each for each in said if each), "{first} {then}")
        )


def _dry_first(plan: FramingPlan, wood: WoodResult | None, today: str) -> Iterator[WorkStep]:
    """Studs that no amount holds while they dry: to what, and when; those of one day in one step."""
    goals = {each.stud: each.goal for each in wood.shrinkage} if wood is not None else {}
    by: dict[tuple[float | None, str], list[str]] = {}
    for each in plan.findings:
        if each.code == "stud-dry-first":
            when = "" if wood is None else dry_when(each.where, wood.points)
            by.setdefault((goals.get(each.where), when), []).append(each.where)
    for (goal, when), studs in by.items():
        text: str = dry_first_order(studs, goal)
        if when:
            text = joined([text, when], "{first} {then}")
        late = "" if wood is None else dry_past(studs, wood.points, today)
        if late:
            text = joined([text, late], "{first} {then}")
        walls = tuple(dict.fromkeys(name[0] for name in studs))
        yield WorkStep("dry first", walls, tuple(studs), text)
    for code, since in READ_AGAIN.items():
        again = [each.where for each in plan.findings if each.code == code]
        if again:
            walls = tuple(dict.fromkeys(name[0] for name in again))
            yield WorkStep("dry first", walls, tuple(again), read_again_order(again, since))
