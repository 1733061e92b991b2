"""The framing stage: from survey, facts and what the other stages ask of the planes to the explained plan."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from typing import TYPE_CHECKING, Any

from undertile.errors import PlanError
from undertile.framing.facts import FramingFacts
from undertile.sentence import Sentence
from undertile.stage import Stage, units

if TYPE_CHECKING:
    from undertile.framing.build import Built
    from undertile.framing.plan import FramingPlan

# What follows is imported when a plan is asked for: a phone's first screen needs none of it.

TIME_LIMIT_S = 60.0
"""A room that takes longer is answered with what is proved by then, and says so. [s]"""
EXPLAIN_LIMIT_S = 20.0
"""For why a room has no plan; what is not worked out by then is said. [s]"""


def build(facts: Mapping[str, Any], results: Mapping[str, Any]) -> Built:
    """The framing problem of a job, with what the other stages ask (under ``demands``)."""
    from undertile.framing.build import PanSeat, build_problem
    from undertile.framing.dries import dries_of
    from undertile.framing.problem import Demand

    asked = results.get("demands") or ()
    seat = next((item for item in asked if isinstance(item, PanSeat)), None)
    demands = tuple(item for item in asked if isinstance(item, Demand))
    framing: FramingFacts = facts["framing"]
    unit, own = units(facts)
    return build_problem(results["survey"], framing, seat, demands, unit, dries_of(facts), own)


def _run(facts: Mapping[str, Any], results: Mapping[str, Any]) -> FramingPlan:
    from undertile.framing.conflict import conflict_findings, explain
    from undertile.framing.dries import dries_of
    from undertile.framing.reasons import with_reasons
    from undertile.framing.search import solve

    built = build(facts, results)
    if not built.problem.walls:
        raise PlanError(
            Sentence("no wall has a stud with readings yet: read two heights a stud on one wall to start")
        )
    unit, own = units(facts)
    plan = solve(built.problem, time_limit_s=TIME_LIMIT_S, progress=facts.get("progress"))
    explained = with_reasons(plan, built.problem, unit)
    if plan.state == "none":
        conflict = explain(built.problem, unit=unit, own=own, time_limit_s=EXPLAIN_LIMIT_S)
        findings = (*explained.findings, *conflict_findings(conflict))
        explained = replace(explained, conflict=conflict, findings=findings)
    return replace(explained, findings=(*built.findings, *explained.findings), dries=dries_of(facts))


def _later(facts: Mapping[str, Any], results: Mapping[str, Any]) -> FramingPlan:
    """The plan with those that lose beside it: they take longer than itself."""
    from undertile.framing.moves import Planner
    from undertile.framing.runnerups import runner_ups

    plan: FramingPlan = results["framing"]
    if plan.state != "proved":
        return plan
    planner = Planner(build(facts, results).problem)
    return replace(plan, runner_ups=runner_ups(planner, plan, *units(facts)))


STAGE = Stage(
    key="framing",
    question="What is done to each stud, at each height?",
    facts=FramingFacts,
    run=_run,
    later=_later,
)
