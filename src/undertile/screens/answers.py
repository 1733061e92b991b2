"""What a log comes to, kept by the log's hash: the fold, the survey's judgement, the plan, the planner.

Screens ask here and nowhere else. The plan is the slow one: it is looked for where the host says, or at once.
"""

from __future__ import annotations

import logging
import re
from collections import OrderedDict
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field, replace
from datetime import date
from functools import cached_property
from typing import TYPE_CHECKING, Any, TypeVar

from undertile import pan, survey
from undertile.errors import PlanError, UndertileError
from undertile.findings import Finding, Severity
from undertile.framing.stage import build
from undertile.job import Rebuild
from undertile.job import plan as plan_job
from undertile.job.address import join, split
from undertile.job.entry import Entry
from undertile.job.fold import Folded, folded
from undertile.job.nominal import joists_by_name
from undertile.job.rebuild import LEFT_OUT, amendments
from undertile.job.stages import STAGES
from undertile.job.standing import Fact, facts_of
from undertile.job.stops import FORESEEN, foreseen, with_stops
from undertile.safety.lifts import lift
from undertile.screens.plans import Plans
from undertile.screens.slices import key_of, rebuild_of
from undertile.sentence import Sentence
from undertile.stage import Stage
from undertile.survey.result import Frame, SurveyResult, Suspect
from undertile.wood.clock import Clock
from undertile.wood.uncounted import NEWER

if TYPE_CHECKING:
    from undertile.floor.result import FloorResult
    from undertile.framing.moves import Planner
    from undertile.packet.plan_view import PlanView
    from undertile.recheck.result import RecheckResult
    from undertile.wood.result import WoodResult

# What is asked only once there is a plan is imported then: a phone's first screen needs none of it.

T = TypeVar("T")
BESIDE = ("safety", "wood", "floor")
"""Stages answered at once, in the job's order; of them the plan only knows how far wet studs go back."""
WATER = ("safety", "wood", "floor")
"""What can hurt someone, the water, and the stages that amend its answer, in the job's order."""
DAY = re.compile(r"\d{4}-\d\d-\d\d(?!\d)", re.ASCII)
"""How the time of an entry begins."""
LOG = logging.getLogger(__name__)
BROKE = Sentence("something in this part broke; what was typed is kept")
"""Said of a stage that raised what no stage should raise: the others stand without it."""
KEPT = 6
"""Logs whose answers are kept: a room being read makes a new one with every value."""


def _begins_with_a_day(time: str) -> bool:
    """Whether the time of an entry begins with a day that a calendar has; it is kept as it came."""
    try:
        return DAY.match(time) is not None and bool(date.fromisoformat(time[:10]))
    except ValueError:
        return False


@dataclass
class State:
    """One log and what is known of it; everything is worked out when first asked.

    Attributes
    ----------
    log : tuple of Entry
    known : dict of str to Plans
        Plans found, by ``slices.key_of``.
    today : str
        By the host's clock, ``2026-03-04``; "" = it has none.
    unread : tuple of str
        Ids of entries that only a newer version can read.
    broken : set of str
        Stages asked so far that raised what no stage should raise.
    """

    log: tuple[Entry, ...]
    known: OrderedDict[str, Plans]
    today: str = ""
    unread: tuple[str, ...] = ()
    broken: set[str] = field(default_factory=set)
    _lifted: tuple[Plans, PlanView | None] | None = None
    _beside: tuple[Plans | None, Rebuild] | None = None
    _water: tuple[Plans | None, WoodResult] | None = None

    def broke(self, key: str, error: Exception) -> None:
        """A stage raised what none should raise: kept for the person, and logged for who mends it."""
        LOG.error("stage %s broke", key, exc_info=error)
        self.broken.add(key)

    def _guarded(self, stage: Stage) -> Stage:
        """A stage whose fault is its own: the log, the record and the other stages stand without it."""

        def guarded(call: Callable[..., Any]) -> Callable[..., Any]:
            def asked(facts: Mapping[str, Any], results: Mapping[str, Any]) -> Any:
                try:
                    return call(facts, results)
                except UndertileError:
                    raise
                except Exception as error:
                    self.broke(stage.key, error)
                    raise PlanError(BROKE) from error

            return asked

        amends = None if stage.amends is None else guarded(stage.amends)
        return replace(stage, run=guarded(stage.run), amends=amends)

    @cached_property
    def _sorted(self) -> tuple[dict[tuple[str, ...], Fact], list[Finding]]:
        return facts_of(self.log)

    @cached_property
    def folded(self) -> Folded:
        """The job as it stands."""
        return folded(*self._sorted)

    @cached_property
    def facts(self) -> dict[tuple[str, ...], Fact]:
        """Every fact with its entries, by path."""
        return self._sorted[0]

    @cached_property
    def entered(self) -> str:
        """The day of the newest entry, by the clock it was typed by; "" where none tells one."""
        return max((each.time[:10] for each in self.log if _begins_with_a_day(each.time)), default="")

    @property
    def clock(self) -> Clock:
        """Of who asks, as the stages are given it."""
        return Clock.of({"today": self.today, "entered": self.entered})

    @cached_property
    def has_unit(self) -> bool:
        """Whether one unit stands: without it no number means anything."""
        fact = self.facts.get(("unit",))
        return fact is not None and len(fact.standing) == 1 and fact.standing[0].value in ("in", "mm")

    @cached_property
    def judged(self) -> survey.Judged | Finding:
        """Which reading looks wrong: all that is asked after each value typed."""
        try:
            return survey.judge(self.folded.job.survey)
        except Exception as error:
            self.broke("survey", error)
            do = Sentence("Take back what was typed last, or correct it in the record.")
            return Finding(
                "stage-unanswered", Severity.ACT, "survey", Sentence("an answer"), BROKE, do, "convention-7"
            )

    @cached_property
    def read(self) -> Rebuild:
        """What the survey says of the readings."""

        def run(facts: Mapping[str, Any], results: Mapping[str, Any]) -> SurveyResult:
            return survey.read(facts["survey"], self.judged)

        return plan_job(self.folded.job, [self._guarded(replace(survey.STAGE, run=run))])

    @cached_property
    def looked(self) -> Rebuild:
        """What can be said before anything is planned: which number is wrong, what is missing."""
        from undertile.pan.demands import demands

        job, rebuild = self.folded.job, self.read
        facts = job.told_in()
        findings, unanswered = list(rebuild.findings), dict(rebuild.unanswered)
        try:
            read = rebuild.results.get("survey") or SurveyResult((), Frame())
            findings += demands(facts["pan"], read, facts["framing"], job.unit)[1]
            asked = pan.STAGE.demands(facts, rebuild.results) if pan.STAGE.demands else ()
            findings += build(facts, {**rebuild.results, "demands": asked}).findings
        except UndertileError as error:
            unanswered["framing"] = str(error)
        except Exception as error:
            self.broke("framing", error)
            unanswered["framing"] = BROKE
        return replace(rebuild, findings=tuple(findings), unanswered=unanswered)

    @property
    def beside(self) -> Rebuild:
        """Water and floor: no plan depends on them, so they are answered at once and set no search going.

        What a plan that is known by then says of the gate is said with them.
        """
        if self._beside is None or self._beside[0] is not self.plans:
            stages = [self._guarded(stage) for stage in STAGES if stage.key in BESIDE]
            its: dict[str, Any] = {"left_out": self._left_out, "known": self._later}
            made = plan_job(self.folded.job, stages, today=self.today, entered=self.entered, **its)
            self._beside = self.plans, made
        return self._beside[1]

    @property
    def _left_out(self) -> tuple[str, ...]:
        """What stands in the record and is not in the job; what a newer version wrote may be any fact."""
        return (*self.folded.left_out, *(join((NEWER, each)) for each in self.unread))

    @property
    def _facts(self) -> dict[str, Any]:
        """What the stages are given: every stage's facts, the days that are known, what does not count."""
        days = {"today": self.today, "entered": self.entered}
        return {**days, LEFT_OUT: tuple(map(split, self._left_out)), **self.folded.job.told_in()}

    @property
    def _later(self) -> dict[str, Any]:
        """Of the stages after the floor what is known by now, and what shows before a plan; no search."""
        known = {} if self.plans is None else dict(self.plans.rebuild.results)
        if "framing" not in known:
            known[FORESEEN] = self.foreseen
        job = self.folded.job.facts()
        if known.get("framing") is not None and job["recheck"] != type(job["recheck"])():
            known["recheck"] = self.rechecked
        return known

    @cached_property
    def foreseen(self) -> tuple[Finding, ...]:
        """What the framing's facts show before anything is planned (``job.stops``)."""
        job = self.folded.job
        try:
            return foreseen(job.told_in(), {})
        except Exception as error:
            self.broke("framing", error)
            return ()

    @property
    def water(self) -> WoodResult | None:
        """What the water comes to with what keeps the gate shut; None where it could not be."""
        found = self.moisture
        if found is None:
            return None
        if self._water is None or self._water[0] is not self.plans:
            self._water = self.plans, with_stops(found, self._facts, self._later)
        return self._water[1]

    @cached_property
    def moisture(self) -> WoodResult | None:
        """What the water comes to, alone: asked after each value of a round; None where it could not be.

        The floor says what it changes of it (wood that a patch takes out) and is not answered for that; stops
        of the stages after it are not in its gate.
        """
        house, wood, *later = [self._guarded(stage) for stage in STAGES if stage.key in WATER]
        facts = self._facts
        try:
            results: dict[str, Any] = {house.key: house.run(facts, {})}
            results[wood.key] = wood.run(facts, results)
        except UndertileError:
            return None
        for stage in later:
            results |= amendments(stage, facts, results)
        return results[wood.key]  # type: ignore[no-any-return]

    @cached_property
    def floor(self) -> FloorResult | None:
        """What the floor comes to, what a person lifted lifted; None where it could not be worked.

        With what of its joists looks like a name.
        """
        found: FloorResult | None = self.beside.results.get("floor")
        if found is None:
            return None
        facts = self.folded.job.facts()
        findings = (*self.beside.lifted(found.findings), *joists_by_name(facts["floor"]))
        return replace(found, findings=findings)

    @property
    def suspects(self) -> tuple[tuple[Suspect, ...], ...]:
        """Readings in doubt, the likeliest explanation of each first."""
        judged = self.judged
        return tuple(group for group in judged.suspects if group) if isinstance(judged, survey.Judged) else ()

    @property
    def looks(self) -> tuple[Finding, ...]:
        """Readings that stand out and that nothing explains: to be looked at again."""
        judged = self.judged
        found = judged.findings if isinstance(judged, survey.Judged) else ()
        return tuple(each for each in found if each.code == "look-again")

    @cached_property
    def key(self) -> str:
        """Hash of everything the plan depends on; "" where it cannot be told, and then no plan is known."""
        try:
            return key_of(self.folded.job)
        except UndertileError:
            raise
        except Exception as error:
            self.broke("framing", error)
            return ""

    @property
    def plans(self) -> Plans | None:
        """The plan, None until it is found."""
        return self.known.get(self.key) if self.key else None

    @property
    def rebuild(self) -> Rebuild | None:
        """All the log comes to before the work, what a person lifted lifted; None until it is found."""
        if self.plans is None:
            return None
        lifted = self.folded.job.safety.lifted.values()
        found = self.plans.rebuild
        if not lifted:
            return found
        findings = lift(found.findings, lifted, clock=self.clock)
        return replace(found, job=self.folded.job, findings=findings, clock=self.clock)

    @property
    def view(self) -> PlanView | None:
        """The plan as the papers ask for it; None until it is found, or where there is none."""
        found, plans = self.rebuild, self.plans
        if found is None or plans is None:
            return None
        if found is plans.rebuild:
            return plans.view
        if self._lifted is None or self._lifted[0] is not plans:  # more was said of the plan since
            self._lifted = plans, Plans(found).view
        return self._lifted[1]

    @property
    def planner(self) -> Planner | None:
        """The problem made ready to be moved about; None until there is a plan."""
        return self.plans.planner if self.plans is not None else None

    @cached_property
    def rechecked(self) -> RecheckResult | None:
        """What was read again, judged against the plan; None until there is one."""
        if self.rebuild is None:
            return None
        from undertile.recheck.run import recheck
        from undertile.screens.older import older_laid

        job = self.folded.job
        try:
            facts = {"older_laid": older_laid(self), **job.told_in()}
            result: RecheckResult = recheck(facts, self.rebuild.results)
        except UndertileError:
            return None
        except Exception as error:
            self.broke("recheck", error)
            return None
        return result

    @property
    def printed(self) -> Rebuild | None:
        """All the log comes to, as the papers print it; None until there is a plan.

        The plan may be of a log before this one: a name, a tick, a reading of the water set no search going.
        """
        if self.rebuild is None:
            return None
        results, findings = dict(self.rebuild.results), list(self.rebuild.findings)
        results |= self.beside.results
        if self.rechecked is not None:
            results["recheck"] = self.rechecked
            findings += self.rechecked.findings
        findings += [each for each in self.beside.findings if each not in findings]
        unanswered = {**self.rebuild.unanswered, **self.beside.unanswered}
        return replace(
            self.rebuild,
            job=self.folded.job,
            results=results,
            findings=lift(findings, self.folded.job.safety.lifted.values(), clock=self.clock),
            unanswered=unanswered,
            clock=self.clock,
        )


class Answers:
    """The last few logs asked about."""

    def __init__(self, search: Callable[[tuple[Entry, ...]], Rebuild] = rebuild_of) -> None:
        self._search = search
        self.kept = KEPT
        self._kept: OrderedDict[str, State] = OrderedDict()
        self._plans: OrderedDict[str, Plans] = OrderedDict()

    def of(
        self,
        digest: str,
        log: Callable[[], tuple[Entry, ...]],
        today: str = "",
        unread: Callable[[], tuple[str, ...]] = tuple,
    ) -> State:
        """The state of a log on a day, by its digest; the log is only asked for when it is new.

        ``unread``: the ids of what only a newer version can read.
        """
        key = f"{digest} {today}"
        state = self._kept.get(key)
        if state is None:
            state = self._kept[key] = State(log(), self._plans, today, unread())
        self._kept.move_to_end(key)
        self._forget(self._kept)
        return state

    def plan(self, state: State) -> Rebuild:
        """All the log comes to before the work, looked for now if it is not known yet."""
        return state.rebuild or self.accept(state.key, self._search(state.log))

    def accept(self, key: str, rebuild: Rebuild, told: bytes = b"") -> Rebuild:
        """A plan that was found elsewhere; the same with more said of it takes the place of the first."""
        before = self._plans.get(key)
        fresh = self._plans[key] = Plans(rebuild, told)
        if before is not None:  # the same room: what was made ready from it still holds
            fresh.moved, fresh._planner = before.moved, before._planner
            fresh.freed = before.freed
        self._forget(self._plans)
        return rebuild

    def _forget(self, answers: OrderedDict[str, T]) -> None:
        while len(answers) > self.kept:
            answers.popitem(last=False)
