"""From a job to its results: the order of the stages, demands, and stages that cannot answer."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any, NamedTuple

from tests.job.cast import ROOM
from undertile.errors import FileError, PlanError
from undertile.findings import Finding, Severity
from undertile.job import plan, read_job
from undertile.job.stages import CHOOSES_PLANES, STAGES
from undertile.stage import Stage
from undertile.survey.facts import Facts


class Answer(NamedTuple):
    """What a made-up stage answers."""

    seen: tuple[str, ...]
    findings: tuple[Finding, ...] = ()


class Nothing(Facts):
    """No facts."""


def _finding(code: str, severity: Severity = Severity.NOTE) -> Finding:
    return Finding(code, severity, "B2", "this", "that", "Do it.", "convention-7")


def _stage(
    key: str, needs: tuple[str, ...] = (), findings: tuple[Finding, ...] = (), asks: Any = None
) -> Stage:
    def run(facts: Mapping[str, Any], results: Mapping[str, Any]) -> Answer:
        for need in needs:
            results[need]
        return Answer(tuple(results), findings)

    return Stage(key, f"What of {key}?", Nothing, run, asks)


def test_stages_run_in_order_and_demands_are_gathered_before_the_planes_are_chosen() -> None:
    asked = _stage("late", asks=lambda facts, results: (facts["unit"], *results))
    rebuild = plan(read_job(ROOM), (_stage("first"), _stage(CHOOSES_PLANES, ("demands",)), asked))
    assert rebuild.results["first"].seen == ()
    assert rebuild.results[CHOOSES_PLANES].seen == ("first", "demands")
    assert rebuild.results["late"].seen == ("first", "demands", CHOOSES_PLANES)
    assert rebuild.results["demands"] == ("in", "first")
    assert rebuild.unanswered == {}


def test_findings_of_the_job_and_of_every_stage_come_together_in_order() -> None:
    stop = _finding("b", Severity.STOP)
    stages = (_stage("one", findings=(_finding("a"), stop)), _stage("two", findings=(_finding("c"),)))
    rebuild = plan(read_job(ROOM.replace("5-13/16", "1203")), stages)
    assert [finding.code for finding in rebuild.findings] == ["length-implausible", "a", "b", "c"]
    assert rebuild.stops == (stop,)


def test_a_stage_that_cannot_answer_is_said_and_what_needs_it_is_said_too() -> None:
    def cannot(facts: Mapping[str, Any], results: Mapping[str, Any]) -> Any:
        raise PlanError("there is no wall to plan")

    stages = (Stage("one", "What of one?", Nothing, cannot), _stage("two", ("one",)), _stage("three"))
    rebuild = plan(read_job(ROOM), stages)
    assert set(rebuild.results) == {"three"}
    assert rebuild.unanswered == {
        "one": "there is no wall to plan",
        "two": "one has no answer yet, and this needs it",
    }
    assert [finding.code for finding in rebuild.findings] == ["stage-unanswered"] * 2


def test_every_problem_of_a_stage_is_a_finding_of_its_own() -> None:
    def cannot(facts: Mapping[str, Any], results: Mapping[str, Any]) -> Any:
        raise FileError(["price `strp` is not known", "two studs in one place"])

    rebuild = plan(read_job(ROOM), (Stage("one", "What of one?", Nothing, cannot),))
    assert [finding.found for finding in rebuild.findings] == [
        "price `strp` is not known",
        "two studs in one place",
    ]
    assert rebuild.unanswered == {"one": "price `strp` is not known; two studs in one place"}


def test_demands_that_cannot_be_made_do_not_stop_the_plan() -> None:
    def cannot(facts: Mapping[str, Any], results: Mapping[str, Any]) -> Any:
        raise PlanError("no pan")

    rebuild = plan(read_job(ROOM), (_stage(CHOOSES_PLANES, asks=cannot),))
    assert rebuild.results["demands"] == ()
    assert rebuild.findings[0].found == "no pan"


def test_a_job_just_begun_is_answered_without_a_traceback() -> None:
    rebuild = plan(read_job('version = 2\nunit = "in"\n'))
    assert set(rebuild.results) | set(rebuild.unanswered) == {"demands", *(stage.key for stage in STAGES)}


def test_a_carton_size_is_asked_about_once_and_never_used() -> None:
    rebuild = plan(read_job(ROOM + '[pan.pan]\ncarton_width = "60"\ndepth = "32"\n'))
    asked = [finding for finding in rebuild.findings if "nominal" in finding.found]
    assert len(asked) == 1
    assert asked[0].next_step.startswith("Measure the width")
