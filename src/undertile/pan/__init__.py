"""The pan: what it asks of the planes before they are chosen, and everything that moves with them after."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING, Any

from undertile.framing.facts import FramingFacts
from undertile.pan.facts import PanFacts
from undertile.stage import Stage, units

if TYPE_CHECKING:
    from undertile.framing.build import PanSeat
    from undertile.framing.problem import Demand
    from undertile.pan.consequences import PanResult
    from undertile.survey.result import SurveyResult

__all__ = ["STAGE"]

# What a call needs is imported when it is asked for: a phone's first screen needs none of it.


def _survey(results: Mapping[str, Any]) -> SurveyResult:
    """The survey's answer, or an empty one: then nothing is shown and everything is asked for."""
    from undertile.survey.result import Frame, SurveyResult

    return results.get("survey") or SurveyResult((), Frame())


def _demands(facts: Mapping[str, Any], results: Mapping[str, Any]) -> tuple[Demand | PanSeat, ...]:
    """What the pan asks of the planes, and how it sits (the framing needs its flange and its size)."""
    from undertile.framing.build import PanSeat
    from undertile.pan.demands import demands
    from undertile.pan.seat import inches

    pan: PanFacts = facts["pan"]
    framing: FramingFacts = facts["framing"]
    asked = demands(pan, _survey(results), framing, facts.get("unit", "in"))[0]
    it = pan.pan
    seat = PanSeat(
        inches(it.flange_height), inches(it.flange_thickness), it.detail, inches(it.width), inches(it.depth)
    )
    return (*asked, seat)


def _run(facts: Mapping[str, Any], results: Mapping[str, Any]) -> PanResult:
    from undertile.framing.plan import FramingPlan
    from undertile.pan.consequences import consequences
    from undertile.pan.demands import demands

    pan: PanFacts = facts["pan"]
    framing: FramingFacts = facts["framing"]
    unit, own = units(facts)
    survey = _survey(results)
    plan = results.get("framing") or FramingPlan("none")
    _, missing = demands(pan, survey, framing, unit)
    return consequences(pan, survey, framing, plan, unit, missing, own)


STAGE = Stage(
    key="pan",
    question="Does the pan drop in, and what else moves?",
    facts=PanFacts,
    run=_run,
    demands=_demands,
)
