"""Where no plane, screw, staple or nail may go: wires, pipes and the valve at a stud, one story for each.

The same sentences stand on the first page and on the stud.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from undertile.findings import Check
from undertile.framing.plan import MemberPlan
from undertile.framing.stud_is import KEEP_OFF, standing_at
from undertile.lengths import Length
from undertile.packet.content import Step
from undertile.packet.figures import amount, placed
from undertile.packet.plan_view import Behind, PlanView
from undertile.packet.words import Words
from undertile.pan.built import between


def keep_off(view: PlanView, member: MemberPlan, words: Words) -> list[Step]:
    """What a stud's card says of what lies behind or at its face; ``stop`` where nothing may be driven."""
    return [*_services(view, member, words), *_in_front(view, member, words)]


def guards(view: PlanView, words: Words) -> tuple[str, ...]:
    """Those where nothing may be driven, for the first page, with the stud's name."""
    return tuple(
        f"{member.name}: {step.text}"
        for wall in view.walls
        for member in view.members(wall)
        for step in keep_off(view, member, words)
        if step.stop
    )


def is_guarded(view: PlanView, check: Check) -> bool:
    """Whether the order of work cures what fails at a wire or pipe: then it is told once, with the cure."""
    return check.code.startswith(("tip-", "plate-")) and any(
        step.kind == "nail plate" and check.where == f"{step.studs[0]} at {step.data['height']}"
        for step in view.steps
    )


def plates(view: PlanView) -> list[tuple[str, str]]:
    """Nail plates of the order: (stud, height) from the top of the order down."""
    return [(step.studs[0], step.data["height"]) for step in view.steps if step.kind == "nail plate"]


def _run(view: PlanView, height: Fraction) -> dict[str, str]:
    """From where to where nothing is driven."""
    away = KEEP_OFF[view.own_unit]
    return {
        "low": placed(max(height - away, Fraction(0)), view.unit),
        "high": placed(height + away, view.unit),
    }


def _services(view: PlanView, member: MemberPlan, words: Words) -> Iterator[Step]:
    for each in view.services(member):
        yield Step(
            words(_service_key(view, member, each), **_service_figures(view, each, words)), stop=each.plate
        )


def _service_key(view: PlanView, member: MemberPlan, service: Behind) -> str:
    if not service.plate:
        return "recipe-service"
    at = view.built.near(service.height)
    return "recipe-service-let-in" if (member.name, at) in plates(view) else "recipe-service-plate"


def _service_figures(view: PlanView, service: Behind, words: Words) -> dict[str, str]:
    return {
        "what": words(f"service-{service.what}"),
        "left": view.built.down(service.left),
        "height": placed(service.height, view.unit),
        **_run(view, service.height),
    }


def _in_front(view: PlanView, member: MemberPlan, words: Words) -> Iterator[Step]:
    """The valve and things that stand at a stud: where the planner planes nothing, nothing is driven."""
    for standing in standing_at(view.rebuild.job.framing, member.wall, member.along, view.own_unit):
        figures = {
            "what": words(f"at-{standing.what}"),
            "height": placed(standing.height, view.unit),
            "along": placed(standing.it.along.inches, view.unit),
            "depth": _depth(view, member, standing.height, standing.it.reading, words),
            "low": placed(standing.low, view.unit),
            "high": placed(standing.high, view.unit),
        }
        yield Step(words("recipe-at-stud", **figures), stop=True)


def _depth(view: PlanView, member: MemberPlan, height: Fraction, reading: object, words: Words) -> str:
    """How far behind or in front of the stud's face, once it is worked; "" where nobody measured it."""
    if not isinstance(reading, Length):
        return words("at-not-measured")
    face = view.read(member.wall).nominal - between(member.heights, list(member.finished), height)
    behind = reading.inches - face
    if not behind:
        return words("at-flush")
    return words("at-behind" if behind > 0 else "at-ahead", amount=amount(abs(behind), view.unit))
