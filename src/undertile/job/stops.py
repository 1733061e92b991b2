"""What stages after the water say of its gate: their stops, and a plan of the studs that is not worked out.

A stop keeps the gate shut until a person lifts it (convention 6.2), whatever stage says it. The plan takes a
search, and the gate waits for none: stops that the facts alone show are told at once; what only the plan
could show is *not shown* until there is one.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import TYPE_CHECKING, Any

from undertile.errors import UndertileError
from undertile.findings import Finding
from undertile.job.stages import CHOOSES_PLANES, STAGES
from undertile.sentence import Sentence
from undertile.survey.facts import SurveyFacts

if TYPE_CHECKING:
    from undertile.wood.gate import Missing
    from undertile.wood.result import WoodResult

# What follows is imported where somebody speaks of water: a phone's first screen needs none of it.

WATER, SURVEY = "wood", "survey"
DEMANDS = "demands"
"""Key under which the stage that chooses the planes finds what the others ask of them."""
FORESEEN = "foreseen"
"""Key under which who keeps answers passes what ``foreseen`` says, where it was asked before."""
AFTER = tuple(each.key for each in STAGES)[[each.key for each in STAGES].index(CHOOSES_PLANES) :]
"""Stages whose stops the water has not seen; those before it are the water's and the floor's own matter."""


class _Last:
    """The stops foreseen last: during a round of readings what they come from stays as it is."""

    told: tuple[tuple[Any, ...], tuple[Finding, ...]] | None = None


def with_stops(water: WoodResult, facts: Mapping[str, Any], results: Mapping[str, Any]) -> WoodResult:
    """The water's answer with what the stages after it say of the gate.

    Parameters
    ----------
    water : WoodResult
        As the stages before them left it.
    facts : mapping
        Of every stage by key, and ``unit``.
    results : mapping
        Of every stage that was asked, or found elsewhere: a plan of the studs that is not among them is not
        shown.

    Returns
    -------
    WoodResult
        The same where nobody speaks of water, or nothing more keeps the gate shut.
    """
    if not water.begun:
        return water
    from undertile.wood.planned import with_more
    from undertile.wood.stops import not_lifted

    plan = results.get(CHOOSES_PLANES)
    said = [each for key in AFTER for each in getattr(results.get(key), "findings", ())]
    if plan is None:
        before = results.get(FORESEEN)
        said = [*(foreseen(facts, results) if before is None else before), *said]
    more = [*not_lifted(facts, said)]
    if not getattr(plan, "planes", None):
        more += _not_shown(facts["survey"], asked=plan is not None)
    return with_more(water, more)


def foreseen(facts: Mapping[str, Any], results: Mapping[str, Any]) -> tuple[Finding, ...]:
    """Findings of the framing that its facts show before anything is planned: some milliseconds, no search.

    Parameters
    ----------
    facts : mapping
        Of every stage by key, and ``unit``.
    results : mapping
        The survey's, where it was asked.

    Returns
    -------
    tuple of Finding
        None where they cannot be told; that they are not shown is said by the plan that lacks.
    """
    asked = tuple(facts.get(key) for key in ("unit", "own_unit", SURVEY, CHOOSES_PLANES, "pan"))
    last = _Last.told
    if last is None or last[0] != asked:
        last = _Last.told = asked, _foreseen(facts, results)
    return last[1]


def _foreseen(facts: Mapping[str, Any], results: Mapping[str, Any]) -> tuple[Finding, ...]:
    from undertile.framing.stage import build
    from undertile.survey import judge, read

    try:
        survey = results.get(SURVEY)
        if survey is None:
            survey = read(facts[SURVEY], judge(facts[SURVEY]))
        its = {SURVEY: survey}
        asked = [each for one in STAGES if one.demands is not None for each in one.demands(facts, its)]
        return build({**facts, "wood": type(facts["wood"])()}, {**its, DEMANDS: asked}).findings
    except UndertileError:
        return ()


def _not_shown(survey: SurveyFacts, *, asked: bool) -> Iterator[Missing]:
    """The plan that lacks, where there are studs to plan for."""
    if not any(any(stud.readings.values()) for wall in survey.walls.values() for stud in wall.studs.values()):
        return
    from undertile.wood.gate import Missing

    what = Sentence("not planned as they are read now: a stop of the plan would not show")
    if asked:
        what = Sentence("there is no plan of them that holds: a stop of the plan would not show")
    step = Sentence("See the plan, then ask again.")
    yield Missing("plan", Sentence("the studs"), what, step, "convention-6")
