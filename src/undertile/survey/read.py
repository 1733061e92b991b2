"""The calls of the survey: everything read in the room, to offsets, frame and what looks wrong.

``judge`` says which reading looks wrong, which is asked after each value typed; ``read`` goes on from there.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from undertile.findings import Finding, Severity
from undertile.sentence import Sentence
from undertile.survey.checks import Checks, gather
from undertile.survey.coverage import coverage_findings, reliability_of
from undertile.survey.faces import LineKey
from undertile.survey.facts import SurveyFacts
from undertile.survey.frame import frame_of
from undertile.survey.grid import MOST_CHECKS, MOST_HEIGHTS, MOST_READINGS, RoomGrid, lay_out
from undertile.survey.hidden import exchange_findings, hidden_findings
from undertile.survey.hypotheses import Explanations
from undertile.survey.judge import Judge, misfit_findings
from undertile.survey.offsets import LineEstimate, wall_offsets
from undertile.survey.result import Frame, SurveyResult, Suspect
from undertile.survey.room import adjust_room
from undertile.survey.roomfit import RoomFit
from undertile.survey.stats import chi_square_tail
from undertile.survey.studlines import StudFit, StudFits
from undertile.survey.suspects import find_misfits
from undertile.survey.tools import tool_sigma

HOPELESS = 1e-5
"""A survey whose fit would be worse than this by chance, with every explanation made, is said not to fit."""


@dataclass(frozen=True)
class Judged:
    """A survey adjusted, and which of its readings look wrong.

    Attributes
    ----------
    facts : SurveyFacts
    room : RoomGrid
    checks : Checks
    fit : RoomFit
    look : Explanations
    findings : tuple of Finding
        What does not fit, and what to read again.
    suspects : tuple of tuples of Suspect
        Readings in doubt, the likeliest explanation of each first.
    named : set of str
        Places that are spoken of.
    """

    facts: SurveyFacts
    room: RoomGrid
    checks: Checks
    fit: RoomFit
    look: Explanations
    findings: tuple[Finding, ...]
    suspects: tuple[tuple[Suspect, ...], ...]
    named: set[str]


def judge(facts: SurveyFacts) -> Judged | Finding:
    """Adjust a survey and say which of its readings look wrong.

    Parameters
    ----------
    facts : SurveyFacts

    Returns
    -------
    Judged or Finding
        Why nothing was computed, where it is too large to be one room.
    """
    refused = _not_one_room(facts)
    if refused is not None:
        return refused
    room, checks, fit = adjust_survey(facts)
    look = Explanations(room, fit)
    misfits = find_misfits(look)
    findings, suspects, named = misfit_findings(Judge(look), misfits)
    chosen = {i: d for misfit in misfits for i, d in misfit.made.items()}
    findings += _hopeless(fit, look, chosen, bool(suspects))
    return Judged(facts, room, checks, fit, look, tuple(findings), tuple(suspects), named)


def read(facts: SurveyFacts, judged: Judged | Finding | None = None) -> SurveyResult:
    """Adjust a survey, judge it, and hand on the offset of every stud at every height.

    Parameters
    ----------
    facts : SurveyFacts
    judged : Judged or Finding, optional
        What ``judge`` made of the same facts, where that is known already.

    Returns
    -------
    SurveyResult
        ``value`` of every offset read is exactly nominal - reading: nothing typed is ever changed.
    """
    if judged is None:
        judged = judge(facts)
    if isinstance(judged, Finding):
        return SurveyResult((), Frame(), (judged,))
    room, fit = judged.room, judged.fit
    sigma = tool_sigma("rule", facts.sigma)
    reliability, critical = reliability_of(fit)
    frame = frame_of(facts, fit)
    findings = list(judged.findings)
    findings += coverage_findings(facts, room, judged.checks, frame, reliability, judged.named)
    findings += hidden_findings(facts, room, fit.fits, reliability)
    findings += exchange_findings(room, judged.look)
    estimates = {key: _estimate(fit, key) for key in fit.fits}
    walls = tuple(
        wall_offsets(facts.walls[name], wall, estimates, sigma) for name, wall in room.walls.items()
    )
    return SurveyResult(
        walls,
        frame,
        (*room.findings, *findings),
        judged.suspects,
        _global_test(fit, critical),
        reliability,
    )


def adjust_survey(facts: SurveyFacts) -> tuple[RoomGrid, Checks, RoomFit]:
    """Lay out and adjust a survey, before anything is judged.

    Parameters
    ----------
    facts : SurveyFacts

    Returns
    -------
    (RoomGrid, Checks, RoomFit)
    """
    room = lay_out(facts)
    studs = StudFits(tool_sigma("rule", facts.sigma))
    fits: dict[LineKey, StudFit] = {}
    for wall in room.walls.values():
        for stud in wall.studs:
            for line in stud.lines():
                if line.readings:
                    fits[stud.name, line.edge] = studs.adjust(wall, line)
    checks = gather(facts, room, fits)
    return room, checks, adjust_room(fits, checks.used)


def _estimate(fit: RoomFit, key: LineKey) -> LineEstimate:
    values, sigmas = fit.estimate(key)
    known = fit.fits[key].known
    return LineEstimate(dict(zip(known, values, strict=True)), dict(zip(known, sigmas, strict=True)))


def _global_test(fit: RoomFit, critical: float) -> dict[str, float] | None:
    if fit.freedom <= 0:
        return None
    tests = [abs(fit.standardised(i)) for i in range(len(fit.observations))]
    return {
        "chi_square": fit.omega,
        "freedom": float(fit.freedom),
        "chance": chi_square_tail(fit.omega, fit.freedom),
        "largest": max(tests, default=0.0),
        "critical": critical,
    }


def _hopeless(fit: RoomFit, look: Explanations, chosen: dict[int, float], said: bool) -> Sequence[Finding]:
    """Say so when no few mistakes explain the misfit."""
    if fit.freedom <= 0:
        return []
    left = fit.omega - fit.gain(chosen)
    chance = chi_square_tail(left, fit.freedom)
    if chance > HOPELESS:
        return []
    worst = max(look.length, key=lambda i: abs(fit.standardised(i)))
    return [
        Finding(
            "misfit-unexplained",
            Severity.ACT,
            "survey",
            Sentence("readings that fit each other within their tools' uncertainty"),
            Sentence(
                "they do not, even corrected as above, and no few mistakes explain it"
                if said
                else "they do not, and no few mistakes explain it"
            ),
            Sentence(
                "Check the line of each wall, then re-read {place} first.",
                place=fit.observations[worst].place,
            ),
            "baarda",
            {"chi_square": f"{left:.1f}", "freedom": str(fit.freedom)},
        )
    ]


def _not_one_room(facts: SurveyFacts) -> Finding | None:
    """A survey too large to be one room gets an answer, not a long wait."""
    readings = sum(
        len(stud.readings) + len(stud.arris) for wall in facts.walls.values() for stud in wall.studs.values()
    )
    heights = max((len(wall.heights) for wall in facts.walls.values()), default=0)
    plates = sum(len(wall.plates) for wall in facts.walls.values())
    groups = (facts.widths, facts.diagonals, facts.levels, facts.repeats, facts.gaps, facts.squares)
    checks = plates + sum(len(group) for group in groups)
    if readings <= MOST_READINGS and heights <= MOST_HEIGHTS and checks <= MOST_CHECKS:
        return None
    return Finding(
        "not-one-room",
        Severity.ACT,
        "survey",
        Sentence(
            "one room: at most {readings} line readings, {heights} heights a wall and {checks} widths, "
            "levels, repeats and the like",
            readings=MOST_READINGS,
            heights=MOST_HEIGHTS,
            checks=MOST_CHECKS,
        ),
        Sentence(
            "{readings} line readings, {heights} heights on one wall, {others} others: nothing computed",
            readings=readings,
            heights=heights,
            others=checks,
        ),
        Sentence("Look at what was pasted, and split it into rooms."),
        "convention-7",
    )
