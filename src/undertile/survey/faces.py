"""A wall's wood at any place, from the studs around it."""

from __future__ import annotations

from collections.abc import Mapping
from math import hypot

from undertile.survey.grid import StudGrid, WallGrid
from undertile.survey.leastsquares import Row
from undertile.survey.offsets import proud_line
from undertile.survey.studlines import StudFit, up_the_stud
from undertile.survey.tools import BETWEEN_STUDS

LineKey = tuple[str, str]
"""(stud, edge)."""
Faces = dict[LineKey, Row]
"""Coefficients of stud faces, by line and position of the known height."""
Fits = Mapping[LineKey, StudFit]

AT_STUD = 4.0
"""A width this near a stud's centre was held to that stud: a quarter of a bay. [in]"""


def face(
    wall: WallGrid | None, fits: Fits, along: float, z: float, past: float
) -> tuple[Faces, float] | None:
    """A wall's wood at a place, from the studs around it.

    Parameters
    ----------
    wall : WallGrid or None
    fits : mapping of (stud, edge) to StudFit
    along, z : float
        [in]
    past : float
        How far beyond the last stud is still answered. [in]

    Returns
    -------
    (dict, float) or None
        Coefficients, and the standard deviation added by going between what was read.
    """
    if wall is None or not wall.studs:
        return None
    known = [(stud, up) for stud in wall.studs if (up := face_of_stud(wall, fits, stud, z)) is not None]
    if not known:
        return None
    nearest, up = min(known, key=lambda item: abs(float(item[0].along) - along))
    if abs(float(nearest.along) - along) <= AT_STUD:
        return {up[0]: up[1]}, up[2]
    left = [item for item in known if float(item[0].along) <= along]
    right = [item for item in known if float(item[0].along) > along]
    if not left or not right:
        if abs(float(nearest.along) - along) > past:
            return None
        return {up[0]: up[1]}, hypot(up[2], BETWEEN_STUDS)
    (one, up_one), (two, up_two) = left[-1], right[0]
    share = (along - float(one.along)) / float(two.along - one.along)
    faces = {
        up_one[0]: {i: w * (1 - share) for i, w in up_one[1].items()},
        up_two[0]: {i: w * share for i, w in up_two[1].items()},
    }
    return faces, hypot(BETWEEN_STUDS, up_one[2] * (1 - share), up_two[2] * share)


def face_of_stud(wall: WallGrid, fits: Fits, stud: StudGrid, z: float) -> tuple[LineKey, Row, float] | None:
    """One stud's face at a height: its line, its coefficients, what going between readings adds."""
    if not wall.heights:
        return None
    h = min(range(len(wall.heights)), key=lambda k: abs(float(wall.heights[k]) - z))
    for line in (proud_line(wall, stud, h), stud.first):
        fit = fits.get((stud.name, line.edge))
        up = up_the_stud(fit.z, z) if fit is not None else None
        if up is not None:
            return (stud.name, line.edge), up[0], up[1]
    return None


def scaled(faces: Faces, by: float) -> Faces:
    """Coefficients times a number."""
    return {key: {i: w * by for i, w in row.items()} for key, row in faces.items()}


def joined(*parts: Faces) -> Faces:
    """Sum of coefficients."""
    out: Faces = {}
    for part in parts:
        for key, row in part.items():
            mine = out.setdefault(key, {})
            for i, w in row.items():
                mine[i] = mine.get(i, 0.0) + w
    return out
