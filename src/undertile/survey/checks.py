"""Observation equations of everything that checks the line readings.

Frame unknowns are (opening at the back, growth of the opening per inch of depth, turn of the L line); the
turn of the R line is -(growth + turn of L). x runs from the L nominal plane, y from the B nominal plane.
A width is opening + growth x depth - face of L - face of R; a gap is the opening less both nominals; the
faces are those of the studs, interpolated (``studlines.up_the_stud``) and never taken far past what was read.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from math import hypot, sqrt

from undertile.lengths import Length
from undertile.sentence import Sentence
from undertile.survey.faces import Faces, Fits, LineKey, face, face_of_stud, joined, scaled
from undertile.survey.facts import SurveyFacts, Tool, WallName
from undertile.survey.grid import ROOM, RoomGrid, WallGrid, nearest_name
from undertile.survey.tools import CORNER_WOOD, DEPTH, LEVEL_LENGTH, PLATE, SPOT, tool_sigma

PAST_END = 4.0
"""Widths past the last stud by more are not used. [in]"""
CORNER = 20.0
"""A corner's wood is taken from the nearest stud, if it is not further off. [in]"""

LEFT_RIGHT: tuple[WallName, WallName] = ("L", "R")
FrameRow = tuple[float, float, float]


@dataclass
class Sight:
    """The two ends of a diagonal, for its equation at a trial frame."""

    far: str
    depth: float
    corner: Faces
    back: Faces
    side: Faces


@dataclass
class RoomCheck:
    """One measurement that checks the line readings.

    Attributes
    ----------
    place : str
        ``width w3``.
    kind : str
        width, diagonal, level, repeat, gap, square or plate.
    length : Length
        As typed.
    tool : str
    value : float
        What it says in the equation's own terms. [in]
    slope : float
        Change of ``value`` per inch of change in what was typed.
    frame : tuple of float
        Coefficients of the frame's unknowns.
    faces : dict
        Coefficients of the stud faces, by line and position of the known height.
    sigma : float
        Standard uncertainty, tool and interpolation together. [in]
    sight : Sight or None
        For a diagonal: ``frame`` and ``faces`` follow from it at the frame as it stands.
    """

    place: str
    kind: str
    length: Length
    tool: Tool
    value: float
    slope: float
    frame: FrameRow
    faces: Faces
    sigma: float
    sight: Sight | None = None
    stud: str = ""


@dataclass
class Checks:
    """The checks that can be used, and for each other one why it cannot."""

    used: list[RoomCheck] = field(default_factory=list)
    left_out: list[tuple[str, str]] = field(default_factory=list)


def gather(facts: SurveyFacts, room: RoomGrid, fits: Fits) -> Checks:
    """Every check as an observation equation.

    Parameters
    ----------
    facts : SurveyFacts
    room : RoomGrid
    fits : mapping of (stud, edge) to StudFit
        Lines with at least one reading.

    Returns
    -------
    Checks
    """
    out = Checks()
    _widths(facts, room, fits, out)
    _lines(facts, room, out)
    _diagonals(facts, room, fits, out)
    _levels(facts, room, fits, out)
    _repeats(facts, room, fits, out)
    _plates(facts, room, fits, out)
    return out


def _value(length: Length) -> float:
    return float(length.inches)


def _widths(facts: SurveyFacts, room: RoomGrid, fits: Fits, out: Checks) -> None:
    for name, width in facts.widths.items():
        place, depth, z = f"width {name}", _value(width.depth), _value(width.height)
        one, two = (face(room.walls.get(wall), fits, depth, z, PAST_END) for wall in LEFT_RIGHT)
        if one is None or two is None:
            short = " and ".join(wall for wall, side in zip("LR", (one, two), strict=True) if side is None)
            out.left_out.append(
                (place, Sentence("no reading of wall {short} near that depth and height", short=short))
            )
            continue
        (left, grow_left), (right, grow_right) = one, two
        sigma = hypot(tool_sigma(width.tool, facts.sigma), SPOT, SPOT, grow_left, grow_right)
        faces = scaled(joined(left, right), -1.0)
        out.used.append(
            RoomCheck(
                place,
                "width",
                width.reading,
                width.tool,
                _value(width.reading),
                1.0,
                (1.0, depth, 0.0),
                faces,
                sigma,
            )
        )


def _diagonals(facts: SurveyFacts, room: RoomGrid, fits: Fits, out: Checks) -> None:
    ends: dict[str, tuple[WallName, WallName]] = {"BL": ("L", "R"), "BR": ("R", "L")}
    back = room.walls.get("B")
    for name, diagonal in facts.diagonals.items():
        place, depth, z = f"diagonal {name}", _value(diagonal.depth), _value(diagonal.height)
        near, far = ends[diagonal.corner]
        end = 0.0 if near == "L" else _far_corner(back, out)
        corner = face(room.walls.get(near), fits, 0.0, z, CORNER)
        behind = face(back, fits, end, z, CORNER)
        side = face(room.walls.get(far), fits, depth, z, PAST_END)
        if corner is None or behind is None or side is None:
            parts = zip((near, "B", far), (corner, behind, side), strict=True)
            short = " and ".join(wall for wall, part in parts if part is None)
            out.left_out.append((place, Sentence("no reading of wall {short} near its ends", short=short)))
            continue
        sight = Sight(far, depth, corner[0], behind[0], side[0])
        reach = depth / max(1.0, _value(diagonal.reading))
        loose = reach * hypot(behind[1], DEPTH, CORNER_WOOD)  # along the wall: seen by its slope only
        sigma = hypot(tool_sigma(diagonal.tool, facts.sigma), corner[1], CORNER_WOOD, side[1], SPOT, loose)
        out.used.append(
            RoomCheck(
                place,
                "diagonal",
                diagonal.reading,
                diagonal.tool,
                _value(diagonal.reading),
                1.0,
                (0.0, 0.0, 0.0),
                {},
                sigma,
                sight,
            )
        )


def _far_corner(back: WallGrid | None, out: Checks) -> float:
    """Where the R corner is along wall B: the middling opening, or as far past the last stud as the first
    stands from the L corner. [in]"""
    across = sorted(check.value for check in out.used if check.frame[0] == 1.0)
    if across:
        return across[len(across) // 2]
    return float(back.studs[-1].along + back.studs[0].along) if back is not None and back.studs else 0.0


def sighted(
    sight: Sight, frame: FrameRow, at: Mapping[LineKey, list[float]]
) -> tuple[float, FrameRow, Faces]:
    """A diagonal at a trial frame: its length, and how it answers to frame and faces.

    Parameters
    ----------
    sight : Sight
    frame : (float, float, float)
        Opening at the back, growth, turn of the L line.
    at : mapping of (stud, edge) to list of float
        Offsets of the known heights. [in]

    Returns
    -------
    (float, tuple, dict)
        Length [in], coefficients of the frame, coefficients of the faces.
    """
    opening, growth, turn = frame
    turned = turn if sight.far == "L" else -(growth + turn)

    def stands(faces: Faces) -> float:
        return sum(w * at[key][i] for key, row in faces.items() for i, w in row.items())

    # the far end lies `depth` along its wall, so its y is a little less where the wall is askew
    across = opening - stands(sight.corner) - stands(sight.side) - turned * sight.depth
    out = sight.depth * sqrt(max(0.0, 1 - turned * turned)) - stands(sight.back)
    length = hypot(across, out)
    cx, cy = across / length, out / length
    turns = (0.0, -cx * sight.depth) if sight.far == "L" else (cx * sight.depth, cx * sight.depth)
    faces = joined(scaled(sight.corner, -cx), scaled(sight.side, -cx), scaled(sight.back, -cy))
    return length, (cx, *turns), faces


def _levels(facts: SurveyFacts, room: RoomGrid, fits: Fits, out: Checks) -> None:
    for name, level in facts.levels.items():
        place = f"level {name}"
        found = room.stud(level.stud)
        if found is None:
            out.left_out.append(
                (
                    place,
                    Sentence(
                        "there is no stud {stud}{nearest}",
                        stud=level.stud,
                        nearest=nearest_name(level.stud, room.stud_names()),
                    ),
                )
            )
            continue
        low, high = _value(level.low), _value(level.high)
        foot, head = (face_of_stud(found[0], fits, found[1], z) for z in (low, high))
        if foot is None or head is None or low == high:
            why = (
                Sentence("low and high are one height")
                if low == high
                else Sentence("{stud} was not read near its ends", stud=level.stud)
            )
            out.left_out.append((place, why))
            continue
        sigma = tool_sigma(level.tool, facts.sigma) * max(1.0, abs(high - low) / LEVEL_LENGTH)
        (low_key, low_row, low_grow), (high_key, high_row, high_grow) = foot, head
        faces = joined({high_key: high_row}, scaled({low_key: low_row}, -1.0))
        out.used.append(
            RoomCheck(
                place,
                "level",
                level.reading,
                level.tool,
                _value(level.reading),
                1.0,
                (0.0, 0.0, 0.0),
                faces,
                hypot(sigma, low_grow, high_grow),
                stud=level.stud,
            )
        )


def _repeats(facts: SurveyFacts, room: RoomGrid, fits: Fits, out: Checks) -> None:
    for name, repeat in facts.repeats.items():
        if not isinstance(repeat.reading, Length):  # not read again yet, or taken back
            continue
        place = f"repeat {name}"
        found = room.stud(repeat.stud)
        if found is None:
            out.left_out.append(
                (
                    place,
                    Sentence(
                        "there is no stud {stud}{nearest}",
                        stud=repeat.stud,
                        nearest=nearest_name(repeat.stud, room.stud_names()),
                    ),
                )
            )
            continue
        up = face_of_stud(found[0], fits, found[1], _value(repeat.height))
        if up is None:
            out.left_out.append((place, Sentence("{stud} was not read near that height", stud=repeat.stud)))
            continue
        value = float(found[0].nominal - repeat.reading.inches)
        sigma = hypot(tool_sigma("rule", facts.sigma), up[2])
        out.used.append(
            RoomCheck(
                place,
                "repeat",
                repeat.reading,
                "rule",
                value,
                -1.0,
                (0.0, 0.0, 0.0),
                {up[0]: up[1]},
                sigma,
                stud=repeat.stud,
            )
        )


def _lines(facts: SurveyFacts, room: RoomGrid, out: Checks) -> None:
    left, right = room.walls.get("L"), room.walls.get("R")
    for name, gap in facts.gaps.items():
        place = f"gap {name}"
        if left is None or right is None or abs(gap.depth.inches) > ROOM:
            there = left is not None and right is not None
            why = (
                Sentence("its depth is in no room")
                if there
                else Sentence("a gap needs the nominals of walls L and R")
            )
            out.left_out.append((place, why))
            continue
        value = float(gap.reading.inches + left.nominal + right.nominal)
        frame = (1.0, _value(gap.depth), 0.0)
        out.used.append(
            RoomCheck(
                place, "gap", gap.reading, gap.tool, value, 1.0, frame, {}, tool_sigma(gap.tool, facts.sigma)
            )
        )
    for name, square in facts.squares.items():
        place, over = f"square {name}", _value(square.over)
        if not 0 < over <= ROOM or square.wall not in room.walls:
            why = Sentence("wall {wall} is not there", wall=square.wall)
            if square.wall in room.walls:
                why = (
                    Sentence("its distance is not more than 0")
                    if over <= 0
                    else Sentence("its distance is in no room")
                )
            out.left_out.append((place, why))
            continue
        frame = (0.0, 0.0, over) if square.wall == "L" else (0.0, -over, -over)
        sigma = tool_sigma(square.tool, facts.sigma)
        out.used.append(
            RoomCheck(place, "square", square.out, square.tool, _value(square.out), 1.0, frame, {}, sigma)
        )


def _plates(facts: SurveyFacts, room: RoomGrid, fits: Fits, out: Checks) -> None:
    for wall_name, wall in facts.walls.items():
        for name, spot in wall.plates.items():
            if not isinstance(spot.reading, Length):
                continue
            found = face(room.walls[wall_name], fits, _value(spot.along), _value(spot.height), PAST_END)
            if found is None:
                out.left_out.append(
                    (f"plate {name}", Sentence("no reading of wall {wall} near it", wall=wall_name))
                )
                continue
            value = float(wall.nominal.inches - spot.reading.inches)
            sigma = hypot(tool_sigma("rule", facts.sigma), PLATE, found[1])
            out.used.append(
                RoomCheck(
                    f"plate {name}",
                    "plate",
                    spot.reading,
                    "rule",
                    value,
                    -1.0,
                    (0.0, 0.0, 0.0),
                    found[0],
                    sigma,
                )
            )
