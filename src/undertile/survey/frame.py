"""How the walls' nominal planes lie to each other, out of the adjusted room."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from math import floor, sqrt

from undertile.survey.facts import SurveyFacts
from undertile.survey.result import Frame
from undertile.survey.roomfit import RoomFit

OPENING_STEP = Fraction(1, 128)
"""The opening is given to the nearest of this. [in]"""
TURN_STEP = Fraction(1, 128 * 32)
"""Growth and turns are given to the nearest of this: 1/128 over 32. [in/in]"""
GROWTH_UNKNOWN = 1 / 8 / 36
"""Standard uncertainty of "the opening keeps its width" where one depth was measured: 1/8 over a wall's
depth, common practice. [in/in]"""


def frame_of(facts: SurveyFacts, fit: RoomFit) -> Frame:
    """The room's frame; what was not measured stays unknown.

    Parameters
    ----------
    facts : SurveyFacts
    fit : RoomFit

    Returns
    -------
    Frame
    """
    opening, growth, turn = fit.frame
    opening_known, growth_known, turn_known = fit.known
    cofactors = fit.frame_cofactors
    across = [check.frame[1] for check in fit.checks if check.kind in ("width", "gap")]
    middle, sigma = 0.0, 0.0
    if opening_known:
        middle = sum(across) / len(across) if across else 0.0
        if growth_known:  # where opening and growth are independent
            middle = -cofactors[0][1] / cofactors[1][1]
        sigma = sqrt(_quadratic(cofactors, (1.0, middle, 0.0)))
    turns: dict[str, Fraction] = {}
    turn_sigma = 0.0
    for wall, row, value in (("L", (0.0, 0.0, 1.0), turn), ("R", (0.0, -1.0, -1.0), -(growth + turn))):
        squared = any(square.wall == wall for square in facts.squares.values())
        if turn_known and wall in facts.walls and (growth_known or squared):
            turns[wall] = _nearest(value, TURN_STEP)
            turn_sigma = max(turn_sigma, sqrt(_quadratic(cofactors, row)))
    return Frame(
        opening_at_back=_nearest(opening, OPENING_STEP) if opening_known else None,
        opening_growth=_nearest(growth, TURN_STEP) if growth_known else Fraction(0),
        opening_sigma=sigma,
        out_of_square=turns or None,
        square_sigma=turn_sigma,
        growth_measured=growth_known,
        growth_sigma=sqrt(cofactors[1][1]) if growth_known else GROWTH_UNKNOWN if opening_known else 0.0,
        depth_middle=middle,
    )


def _quadratic(matrix: Sequence[Sequence[float]], row: Sequence[float]) -> float:
    return max(0.0, sum(a * b * matrix[i][j] for i, a in enumerate(row) for j, b in enumerate(row)))


def _nearest(value: float, step: Fraction) -> Fraction:
    return floor(Fraction(value) / step + Fraction(1, 2)) * step
