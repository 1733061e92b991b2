"""How well each tool reads, and how straight lumber is: the standard uncertainties of the adjustment.

Common practice, no published source (``practice-tools``, ``practice-straightness``); every tool's figure
can be changed with ``SurveyFacts.sigma``. All lengths in inches.
"""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction
from math import hypot

from undertile.lengths import Length
from undertile.survey.facts import Tool

SIGMA: dict[Tool, float] = {
    "rule": 1 / 32,  # steel rule held to a laser line; the reading of a stud
    "tape": 1 / 16,  # hook wear, inside corner bend
    "sticks": 1 / 32,
    "laser meter": 1 / 16,
    "level": 1 / 32,  # over 72 in
    "laser line": 1 / 32,  # one line against another, a 3-4-5 or a laser square
}
"""Standard uncertainty of one measurement with a tool. [in]"""

LEVEL_LENGTH = 72.0
"""A level's figure holds up to this span and grows in proportion beyond it. [in]"""

CROWN = 1 / 4
"""Crown of a stud in place over 8 ft, one standard deviation: new studs are turned away past 1/8, old ones
are taken as they stand. A crown is one number a stud, common to all its heights. [in]"""
CROWN_LENGTH = 96.0

BEND = 3 / 64
"""What a stud's face is off its own crown's curve between two readings 24 in either side (one standard
deviation): an S, a twist, a knot. [in]"""

BEND_LEG = 24.0
ROUGH = 1 / 64
"""Saw marks, nail heads: what is left of ``BEND`` over very short legs. [in]"""

BETWEEN_STUDS = 3 / 32
"""Wood between two studs (a plate, a block) against the straight line through them. [in]"""

PLATE = 1 / 8
"""Face of a plate against the studs standing on it. [in]"""

SPOT = 1 / 64
"""Another spot of the same face: sticks and tape never touch just where the rule stood. [in]"""

DEPTH = 1 / 8
"""The depth at which the far end of a diagonal was held. [in]"""

CORNER_WOOD = 1 / 16
"""Wood in a corner against the face of the stud nearest to it. [in]"""

STUD_SCATTER = 3 / 16
"""One stud against the line through its neighbours, where nothing else is known. [in]"""


LEAST_SIGMA, MOST_SIGMA = Fraction(1, 1000), Fraction(6)
"""A tool's own figure outside these is a slip of the pen and is not used. [in]"""


def usable(figure: Length) -> bool:
    """Whether a person's own figure for a tool can be one."""
    return LEAST_SIGMA <= figure.inches <= MOST_SIGMA


def tool_sigma(tool: Tool, own: Mapping[Tool, Length]) -> float:
    """Standard uncertainty of one measurement. [in]

    Parameters
    ----------
    tool : str
    own : mapping of tool to Length
        The person's own figures (``SurveyFacts.sigma``); one that cannot be is not used, and a finding says
        so.

    Returns
    -------
    float
    """
    figure = own.get(tool)
    return float(figure.inches) if figure is not None and usable(figure) else SIGMA[tool]


def bend_sigma(below: float, above: float) -> float:
    """Standard deviation of a stud's face, its crown apart, from the straight line between two points of it.

    What is bent smoothly stands off its chord in proportion to the product of the two legs; ``ROUGH`` is what
    stays when the legs are short.

    Parameters
    ----------
    below, above : float
        Legs from the point to the two others. [in]

    Returns
    -------
    float
        [in]
    """
    return hypot(ROUGH, BEND * below * above / BEND_LEG**2)
