"""The opening between the walls' lines, from widths measured again: what play is planned with from now on.

A width measured again and the faces it was measured between give the opening at its depth directly. Where
there are some, what is left to do is planned with them, as the play is judged, not with the first survey's.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace
from fractions import Fraction
from math import hypot

from undertile.lengths import Length
from undertile.pan.facts import PanFacts
from undertile.pan.seat import flange_heights
from undertile.recheck.faces import WallFaces, off_at, tool_now
from undertile.recheck.facts import RecheckFacts
from undertile.survey.result import Frame, SurveyResult

STEP = Fraction(1, 128)
"""The opening at the back, and its growth over ``SPAN``, to the nearest of this (as in the survey). [in]"""
SPAN = Fraction(32)
FAR_APART = Fraction(8)
"""Depths at least this far apart say something of the growth. [in]"""


def frame_now(
    survey: SurveyResult,
    facts: RecheckFacts,
    pan: PanFacts,
    walls: Sequence[WallFaces],
    own: Mapping[str, Length],
) -> Frame:
    """The survey's frame with the opening as measured again in the flange zone.

    Parameters
    ----------
    survey : SurveyResult
    facts : RecheckFacts
    pan : PanFacts
    walls : sequence of WallFaces
        As they stand.
    own : mapping of tool to Length
        The survey's own figures for tools.

    Returns
    -------
    Frame
        The survey's own where no width was measured again between faces that are known.
    """
    frame = survey.frame
    sides = {wall.name: wall for wall in walls if wall.name in "LR"}
    if frame.opening_at_back is None or len(sides) < 2:
        return frame
    heights = flange_heights(survey, pan.pan)
    seen: list[tuple[Fraction, Fraction, float]] = []
    for width in facts.widths.values():
        depth, height = width.depth.inches, width.height.inches
        offs = [off_at(wall, depth, height) for wall in sides.values()]
        if height not in heights or any(off is None for off in offs):
            continue
        faces = [off for off in offs if off is not None]
        planes = sum((wall.plane.at(depth, height) for wall in sides.values()), Fraction(0))
        opening = width.reading.inches + planes + sum((off for off, _ in faces), Fraction(0))
        sigma = hypot(tool_now(facts, own, width.tool), *(s for _, s in faces))
        seen.append((depth, opening, sigma))
    if not seen:
        return frame
    back, growth = _line(seen, frame.opening_growth)
    sigma = max(s for *_, s in seen) / len(seen) ** 0.5
    middle = float(sum((depth for depth, *_ in seen), Fraction(0)) / len(seen))
    return replace(
        frame, opening_at_back=back, opening_growth=growth, opening_sigma=sigma, depth_middle=middle
    )


def _line(seen: Sequence[tuple[Fraction, Fraction, float]], growth: Fraction) -> tuple[Fraction, Fraction]:
    """Opening at depth 0 and growth, by least squares; the growth kept where one depth alone was measured."""
    n = len(seen)
    middle = sum((depth for depth, *_ in seen), Fraction(0)) / n
    mean = sum((opening for _, opening, _ in seen), Fraction(0)) / n
    depths = [depth for depth, *_ in seen]
    if max(depths) - min(depths) >= FAR_APART:
        spread = sum(((depth - middle) ** 2 for depth in depths), Fraction(0))
        tilt = sum(((depth - middle) * (opening - mean) for depth, opening, _ in seen), Fraction(0)) / spread
        growth = round(tilt * SPAN / STEP) * STEP / SPAN
    return round((mean - growth * middle) / STEP) * STEP, growth
