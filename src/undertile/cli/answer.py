"""From a path to an answer: read the job, ask the stages, judge the exit code. Nothing is written here."""

from __future__ import annotations

import sys
from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import cached_property
from pathlib import Path
from typing import TYPE_CHECKING, Any

from undertile import framing, pan, safety, survey, wood
from undertile.cli import clock
from undertile.errors import UndertileError
from undertile.findings import Check, Finding, Verdict
from undertile.framing.build import Built
from undertile.framing.plan import FramingPlan, MemberPlan, Piece
from undertile.framing.problem import FramingProblem
from undertile.framing.search import solve
from undertile.framing.stage import TIME_LIMIT_S, build
from undertile.framing.words import WorkStep, waiting
from undertile.job import Job, Rebuild, read_job
from undertile.job import plan as plan_job
from undertile.job.stages import STAGES
from undertile.lengths import Unit
from undertile.pan.before import before_steps
from undertile.pan.consequences import PanResult
from undertile.pan.demands import demands
from undertile.pan.order import whole_order, work_steps
from undertile.recheck.result import RecheckResult
from undertile.survey.result import Frame, SurveyResult, Suspect

if TYPE_CHECKING:
    from undertile.packet.open_parts import OpenPart

NOTHING, SETTLE_FIRST, UNUSABLE, FAULT = 0, 1, 2, 3
"""Exit codes (docs/decisions/command-line.md)."""


def load(path: str) -> Job:
    """The job of a path, or of stdin for ``-``.

    Raises
    ------
    FileError
        With every problem found in it.
    """
    if path == "-":
        return read_job(sys.stdin.buffer.read())
    return read_job(Path(path))


@dataclass(frozen=True)
class Answer:
    """A job and all that it comes to, with what every page asks for."""

    job: Job
    rebuild: Rebuild

    @property
    def unit(self) -> Unit:
        """What its pages print in; the job keeps its own."""
        return self.rebuild.unit

    @property
    def survey(self) -> SurveyResult:
        """What the survey answers."""
        result: SurveyResult | None = self.rebuild.results.get("survey")
        return result if result is not None else SurveyResult((), Frame())

    @property
    def plan(self) -> FramingPlan | None:
        """The framing plan, None where the planner could not answer."""
        result: FramingPlan | None = self.rebuild.results.get("framing")
        return result

    @property
    def checks(self) -> tuple[Check, ...]:
        """The consequences of the planes."""
        return tuple(getattr(self.rebuild.results.get("pan"), "checks", ()))

    @property
    def recheck(self) -> RecheckResult:
        """The walls as read again; "no plan" where the planner could not answer."""
        result: RecheckResult | None = self.rebuild.results.get("recheck")
        return result if result is not None else RecheckResult("no plan")

    @cached_property
    def problem(self) -> FramingProblem | None:
        """The framing problem the plan answers, None where there is no plan."""
        if self.plan is None or not self.plan.planes:
            return None
        return build(self.job.told_in(self.unit), self.rebuild.results).problem

    def waits(self, member: MemberPlan) -> tuple[Piece, ...]:
        """Strips of a stud that go on only after the pan is set (convention 3.5)."""
        walls = self.problem.walls if self.problem else ()
        wall = next((each for each in walls if each.name == member.wall), None)
        return waiting(member, wall, self.plan) if wall is not None and self.plan is not None else ()

    @property
    def steps(self) -> tuple[WorkStep, ...]:
        """The whole order of work; the framing's part alone where the pan could not answer."""
        result: PanResult | None = self.rebuild.results.get("pan")
        if result is not None:
            steps = result.steps
        elif self.plan is None:
            return ()
        else:
            waits = {member.name: self.waits(member) for member in self.plan.members}
            steps = work_steps(self.plan, waits, unit=self.unit, survey=self.survey)
        return whole_order(steps, before_steps(self.rebuild.results, self.rebuild.lifts, clock.day()))

    @property
    def suspects(self) -> tuple[tuple[Suspect, ...], ...]:
        """Readings in doubt."""
        return self.survey.suspects

    @property
    def findings(self) -> tuple[Finding, ...]:
        """Every finding, of the job and of its stages."""
        return self.rebuild.findings

    @property
    def code(self) -> int:
        """1 where something must be settled before the first cut, else 0."""
        no_plan = self.plan is None or not self.plan.planes
        fails = any(check.verdict is Verdict.FAIL for check in self.checks)
        parts = any(part.settle_first for part in self.open_parts)
        first = self.rebuild.stops or self.suspects or fails or parts or no_plan
        return SETTLE_FIRST if first else NOTHING

    @cached_property
    def open_parts(self) -> tuple[OpenPart, ...]:
        """What floor and water leave open, each with the command that shows it."""
        from undertile.packet.open_parts import open_parts
        from undertile.packet.words import Words

        return open_parts(self.rebuild, Words("en"))


def ask(
    job: Job, unit: Unit | None = None, stages: Sequence[str] | None = None, *, whole: bool = True
) -> Answer:
    """Ask the stages of a job, all of them or those named.

    ``unit`` only changes how figures print: the job keeps its own, and that decides. Not ``whole``: without
    the plans that lose.
    """
    chosen = [stage for stage in STAGES if stages is None or stage.key in stages]
    return Answer(job, plan_job(job, chosen, today=clock.day(), whole=whole, unit=unit))


def look(job: Job, unit: Unit | None = None) -> Answer:
    """What can be said before anything is planned: which number is wrong, what is missing."""
    answer = ask(job, unit, [survey.STAGE.key, safety.STAGE.key, wood.STAGE.key])
    facts = answer.job.told_in(answer.unit)
    # of what can hurt someone only the gate is told here: it has its own pages
    house = getattr(answer.rebuild.results.get(safety.STAGE.key), "findings", ())
    findings = [each for each in answer.findings if each not in house]
    unanswered = dict(answer.rebuild.unanswered)
    try:
        findings += demands(facts["pan"], answer.survey, facts["framing"], answer.unit)[1]
        findings += _built(answer, facts).findings
    except UndertileError as error:
        unanswered[framing.STAGE.key] = str(error)
    rebuild = replace(answer.rebuild, findings=tuple(findings), unanswered=unanswered)
    return replace(answer, rebuild=rebuild)


def least_plan(job: Job, unit: Unit) -> FramingPlan | None:
    """The least plan alone, without what it moves and what loses to it; None where there is none."""
    answer = ask(job, unit, [survey.STAGE.key])
    facts = answer.job.told_in(answer.unit)
    try:
        plan = solve(_built(answer, facts).problem, time_limit_s=TIME_LIMIT_S)
    except UndertileError:
        return None
    return plan if plan.planes else None


def _built(answer: Answer, facts: dict[str, Any]) -> Built:
    asked = pan.STAGE.demands(facts, answer.rebuild.results) if pan.STAGE.demands else ()
    return build(facts, {**answer.rebuild.results, "demands": asked})


def head(answer: Answer, command: str, code: int) -> dict[str, Any]:
    """What every JSON answer begins with."""
    from undertile import __version__

    job = answer.job
    return {
        "undertile": __version__,
        "command": command,
        "exit": code,
        "job": {"name": job.name, "place": job.place, "unit": answer.unit},
    }
