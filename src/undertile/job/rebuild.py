"""From a job to all its results. The only place that knows the order of the stages."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field, replace
from fractions import Fraction
from types import MappingProxyType
from typing import Any

from undertile.errors import FileError, PlanError, UndertileError
from undertile.findings import Finding, Severity
from undertile.job.address import split
from undertile.job.checks import plausibility
from undertile.job.model import Job
from undertile.job.stages import CHOOSES_PLANES, STAGES
from undertile.job.stops import DEMANDS, WATER, with_stops
from undertile.lengths import Unit
from undertile.safety.facts import Lifted
from undertile.safety.lifts import counted, lift
from undertile.sentence import Sentence, joined
from undertile.stage import Stage
from undertile.wood.clock import NO_CLOCK, Clock

LEFT_OUT = "left_out"
"""Key under which stages are told what stands in the record and is not in the job."""
LIFTS = "safety"
"""The stage whose facts hold the stops that a person lifted; without it asked, every stop stands."""
NOTHING: Mapping[str, Any] = MappingProxyType({})


class Results(dict[str, Any]):
    """Results by stage key; asking for one that has no answer is a ``PlanError`` with the stage's name."""

    def __missing__(self, key: str) -> Any:
        raise PlanError(f"{key} has no answer yet, and this needs it")


@dataclass(frozen=True)
class Rebuild:
    """Everything the job comes to.

    Attributes
    ----------
    job : Job
    results : mapping of str to Any
        By stage key, and the demands on the planes under ``demands``.
    findings : tuple of Finding
        Of the job itself, then of every stage in the job's order.
    unanswered : mapping of str to str
        Stages that could not answer, with why.
    whole : bool
        False: what nobody who works waits for is still to be added (``completed``).
    clock : Clock
        Of who asked.
    unit : {"in", "mm"}
        What its words print in; nothing is decided by it.
    """

    job: Job
    results: Mapping[str, Any]
    findings: tuple[Finding, ...] = ()
    unanswered: Mapping[str, str] = field(default_factory=dict)
    whole: bool = True
    clock: Clock = NO_CLOCK
    print_in: Unit | None = None

    @property
    def unit(self) -> Unit:
        """What its words print in: as asked for, else the job's own unit."""
        own: Unit = self.job.unit
        return self.print_in or own

    @property
    def stops(self) -> tuple[Finding, ...]:
        """The findings that stop work (convention 5.3)."""
        return tuple(finding for finding in self.findings if finding.severity is Severity.STOP)

    @property
    def lifts(self) -> tuple[Lifted, ...]:
        """Stops that a person lifted, those dated after today left out."""
        return tuple(counted(self.job.facts()[LIFTS].lifted.values(), self.clock))  # type: ignore[attr-defined]

    def lifted(self, findings: Iterable[Finding]) -> tuple[Finding, ...]:
        """Findings of one part, what a person lifted lifted."""
        return lift(findings, self.job.facts()[LIFTS].lifted.values(), clock=self.clock)  # type: ignore[attr-defined]


def plan(
    job: Job,
    stages: Iterable[Stage] = STAGES,
    *,
    progress: Callable[[int, Fraction], None] | None = None,
    whole: bool = True,
    today: str = "",
    entered: str = "",
    left_out: Iterable[str] = (),
    known: Mapping[str, Any] = NOTHING,
    unit: Unit | None = None,
) -> Rebuild:
    """Answer every stage of a job.

    Parameters
    ----------
    job : Job
    stages : iterable of Stage
        In the job's order. Each is given the facts of every stage by key, with the units (``stage.units``),
        and the results of the stages before.
    progress : callable, optional
        Given to the search for the planes under ``progress``: called now and then with (nodes looked at,
        bound in dollars). What it raises ends the search.
    whole : bool
        Whether to wait for what nobody who works waits for; ``completed`` adds it.
    today : str
        By the clock of who asks, ``2026-03-04``; "" = there is none. Stages are given it with their facts.
    entered : str
        Day of the record's newest entry; "" = there is no record.
    left_out : iterable of str
        Addresses that stand in the record and are not in the job (``Folded.left_out``): what is not counted
        opens nothing.
    known : mapping, optional
        Results of stages that are not asked, as they were found elsewhere: their stops keep the gate shut.
    unit : {"in", "mm"}, optional
        What words print in; else the job's own unit. It decides nothing.

    Returns
    -------
    Rebuild
    """
    stages = tuple(stages)
    facts: dict[str, Any] = {
        "progress": progress,
        "today": today,
        "entered": entered,
        LEFT_OUT: tuple(map(split, left_out)),
        **job.told_in(unit),
    }
    results = Results()
    findings = list(plausibility(job))
    said: dict[str, list[Finding]] = {}
    unanswered: dict[str, str] = {}
    for stage in stages:
        if stage.key == CHOOSES_PLANES:
            results[DEMANDS] = _demands(stages, facts, results, said.setdefault(DEMANDS, []))
        try:
            results[stage.key] = stage.run(facts, results)
            if whole and stage.later is not None:
                results[stage.key] = stage.later(facts, results)
        except UndertileError as error:
            unanswered[stage.key] = joined(_problems(error), "{first}; {then}")
            said.setdefault(stage.key, []).extend(_unanswered(stage, error))
        else:
            said[stage.key] = list(getattr(results[stage.key], "findings", ()))
        for key, answer in amendments(stage, facts, results).items():
            results[key], said[key] = answer, list(getattr(answer, "findings", ()))
    if WATER in results:
        water = with_stops(results[WATER], facts, {**known, **results})
        results[WATER], said[WATER] = water, list(water.findings)
    findings += [each for its in said.values() for each in its]
    rest = not whole and any(stage.later is not None and stage.key in results for stage in stages)
    standing = tuple(findings)
    if LIFTS in results:
        all_of_it = not unanswered and len(stages) == len(STAGES)
        standing = lift(findings, facts[LIFTS].lifted.values(), all_of_it, Clock.of(facts))
    return Rebuild(
        job, dict(results), standing, unanswered, whole=not rest, clock=Clock.of(facts), print_in=unit
    )


def amendments(stage: Stage, facts: Mapping[str, Any], results: Mapping[str, Any]) -> Mapping[str, Any]:
    """Answers of stages before that this one amends; where it cannot tell, the cautious case."""
    if stage.amends is None:
        return {}
    try:
        return stage.amends(facts, results)
    except UndertileError:
        return {} if stage.unamended is None else stage.unamended(facts, results)


def completed(rebuild: Rebuild) -> Rebuild:
    """The same, with what was left for later: nothing that was said before changes by it."""
    if rebuild.whole:
        return rebuild
    results = dict(rebuild.results)
    facts = rebuild.job.told_in(rebuild.unit)
    for stage in STAGES:
        if stage.later is not None and stage.key in results:
            results[stage.key] = stage.later(facts, results)
    return replace(rebuild, results=results, whole=True)


def _demands(
    stages: Iterable[Stage], facts: Mapping[str, Any], results: Results, findings: list[Finding]
) -> tuple[Any, ...]:
    """What every stage asks of the planes, in the job's order."""
    asked: list[Any] = []
    for stage in stages:
        if stage.demands is None:
            continue
        try:
            asked += stage.demands(facts, results)
        except UndertileError as error:
            findings += _unanswered(stage, error)
    return tuple(asked)


def _problems(error: UndertileError) -> tuple[str, ...]:
    if isinstance(error, FileError):
        return error.problems
    said = error.args[0] if error.args else ""
    return (said if isinstance(said, str) else str(error),)


def _unanswered(stage: Stage, error: UndertileError) -> list[Finding]:
    """One finding for each thing that keeps a stage from answering."""
    return [
        Finding(
            code="stage-unanswered",
            severity=Severity.ACT,
            where=stage.key,
            expected=Sentence("an answer to: {question}", question=stage.question),
            found=problem,
            next_step=Sentence("Add what is missing and run again."),
            source="convention-7",
        )
        for problem in _problems(error)
    ]
