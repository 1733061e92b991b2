"""The one call of the survey: everything read in the room, to offsets, frame and what looks wrong."""

from __future__ import annotations

from math import sqrt

from undertile.survey.facts import SurveyFacts
from undertile.survey.grid import lay_out
from undertile.survey.offsets import LineEstimate, wall_offsets
from undertile.survey.result import Frame, SurveyResult
from undertile.survey.studlines import StudFits
from undertile.survey.tools import tool_sigma


def read(facts: SurveyFacts) -> SurveyResult:
    """Adjust a survey, judge it, and hand on the offset of every stud at every height.

    Parameters
    ----------
    facts : SurveyFacts

    Returns
    -------
    SurveyResult
        ``value`` of every offset read is exactly nominal - reading: nothing typed is ever changed.
    """
    room = lay_out(facts)
    sigma = tool_sigma("rule", facts.sigma)
    fits = StudFits(sigma)
    estimates = {}
    for wall in room.walls.values():
        for stud in wall.studs:
            for line in stud.lines():
                fit = fits.adjust(wall, line)
                if fit.fit is not None:
                    estimates[stud.name, line.edge] = LineEstimate(
                        {h: fit.fit.unknowns[i] for h, i in fit.position.items()},
                        {h: sqrt(fit.fit.cofactors[i][i]) for h, i in fit.position.items()},
                    )
    walls = tuple(
        wall_offsets(facts.walls[name], wall, estimates, sigma) for name, wall in room.walls.items()
    )
    return SurveyResult(walls, Frame(), tuple(room.findings))
