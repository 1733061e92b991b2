"""What else moves once the planes are chosen, in the order the person asks (docs/methods/consequences.md).

Does the pan drop in; how it gets there; square; drain; valve; edges; what holds it; screws and plates; cuts;
inside size; finished faces. Each is a check with its margin: pass, fail, or not shown with what to measure.
"""

from __future__ import annotations

from dataclasses import dataclass

from undertile.findings import Check, Finding, Severity, Verdict
from undertile.framing.dries import READ_AGAIN
from undertile.framing.facts import FramingFacts
from undertile.framing.plan import FramingPlan
from undertile.framing.words import WorkStep
from undertile.lengths import Unit
from undertile.pan.backing import backing_checks
from undertile.pan.built import Built
from undertile.pan.cuts import cut_checks
from undertile.pan.drain import drain_checks
from undertile.pan.drying import drying_checks
from undertile.pan.edges import edge_checks
from undertile.pan.faces import face_checks
from undertile.pan.facts import PanFacts
from undertile.pan.fasteners import screw_checks, service_checks
from undertile.pan.gaps import gap_checks
from undertile.pan.inside import inside_checks
from undertile.pan.order import FROM_PAN, work_steps
from undertile.pan.play import play_checks
from undertile.pan.set_place import set_steps
from undertile.pan.square import square_checks
from undertile.pan.valve import valve_checks
from undertile.pan.way_in import way_in_checks
from undertile.survey.result import SurveyResult


@dataclass(frozen=True)
class PanResult:
    """Every consequence of the planes.

    Attributes
    ----------
    checks : tuple of Check
        In the person's order; codes are unique.
    findings : tuple of Finding
        What is missing, and what to act on.
    steps : tuple of WorkStep
        The whole order of work, the framing's steps with the pan's (``pan.order``).
    """

    checks: tuple[Check, ...]
    findings: tuple[Finding, ...] = ()
    steps: tuple[WorkStep, ...] = ()

    @property
    def order_of_work(self) -> tuple[str, ...]:
        """What the pan adds to the order of work, in words."""
        return tuple(step.text for step in self.steps if step.kind in FROM_PAN)

    def check(self, code: str) -> Check:
        """One check by its code.

        Raises
        ------
        KeyError
            If there is no such check.
        """
        for found in self.checks:
            if found.code == code:
                return found
        raise KeyError(code)


def consequences(
    pan: PanFacts,
    survey: SurveyResult,
    framing: FramingFacts,
    plan: FramingPlan,
    unit: Unit = "in",
    missing: tuple[Finding, ...] = (),
    own: Unit | None = None,
) -> PanResult:
    """Everything the planes bring with them.

    Parameters
    ----------
    pan : PanFacts
    survey : SurveyResult
    framing : FramingFacts
    plan : FramingPlan
        Without planes (no plan meets every demand) whatever needs them is not shown.
    unit : {"in", "mm"}
        For print.
    missing : tuple of Finding
        What `demands` found missing, handed on with the rest.
    own : {"in", "mm"}, optional
        The job's own unit, that decides; else ``unit``.

    Returns
    -------
    PanResult
    """
    built = Built(pan, survey, framing, plan, unit, own)
    play, findings = play_checks(built)
    gaps, shims = gap_checks(built)
    way, late = way_in_checks(built)
    valve, reblock = valve_checks(built)
    backing, backers = backing_checks(built)
    screws, lengths = screw_checks(built)
    services, plates = service_checks(built)
    cuts, stiffness = cut_checks(built)
    checks = (
        *play,
        *gaps,
        *way,
        *square_checks(built),
        *drain_checks(built),
        *valve,
        *edge_checks(built),
        *backing,
        *screws,
        *services,
        *cuts,
        *inside_checks(built),
        *face_checks(built),
        *drying_checks(built),
    )
    added = (*reblock, *plates, *backers, *set_steps(built), *shims, *late, *lengths)
    waits = {member.name: built.waits(member) for member in plan.members}
    steps = work_steps(plan, waits, added, unit, survey)
    return PanResult(checks, (*missing, *findings, *stiffness, *_failures(checks, plan)), steps)


def _failures(checks: tuple[Check, ...], plan: FramingPlan) -> tuple[Finding, ...]:
    """A finding for every check that fails, so that nothing that fails is only in a table.

    A stud that is to be dried first is a finding of the plan already.
    """
    told = {f"dries-{each.where}" for each in plan.findings if each.code in ("stud-dry-first", *READ_AGAIN)}
    return tuple(
        Finding(
            f"fails-{check.code}",
            Severity.ACT,
            check.where,
            check.limit or check.title,
            f"{check.title}: {check.value}",
            check.next_step,
            check.source,
            {"check": check.code},
        )
        for check in checks
        if check.verdict is Verdict.FAIL and check.code not in told
    )
