"""The readings laid out by wall, stud and height, before anything is computed from them."""

from __future__ import annotations

import difflib
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from fractions import Fraction

from undertile.errors import LengthError
from undertile.findings import Finding, Severity
from undertile.lengths import Length, format_length, parse_length
from undertile.sentence import Sentence
from undertile.survey.facts import NotRead, SurveyFacts, SurveyStud, Wall, WallName
from undertile.survey.result import OffsetState

ROOM = Fraction(600)
"""Heights, depths and distances past this are in no room: left out, and said. [in]"""
MOST_READINGS = 1000
"""More line readings than this is not one room: the check is left out and says so."""
MOST_HEIGHTS = 30
"""More heights on one wall than this is not a survey by hand: the same."""
MOST_CHECKS = 100
"""More widths, levels, repeats and the like than this: the same."""

WALLS: tuple[WallName, ...] = ("L", "B", "R")

Cell = Length | NotRead


@dataclass
class StudLine:
    """One edge of one stud, read up its height: ``cells`` has one entry a height of the wall."""

    wall: str
    stud: str
    along: Fraction
    cells: list[Cell]
    edge: str = ""

    @property
    def readings(self) -> dict[int, Length]:
        """The readings, by height index."""
        return {h: cell for h, cell in enumerate(self.cells) if isinstance(cell, Length)}


@dataclass
class StudGrid:
    """One stud: its first edge, and the other edge of a twisted one."""

    name: str
    along: Fraction
    first: StudLine
    other: StudLine | None = None

    def lines(self) -> tuple[StudLine, ...]:
        """The one or two edges read."""
        return (self.first,) if self.other is None else (self.first, self.other)


@dataclass
class WallGrid:
    """One wall: heights rising, studs by rising ``along``."""

    name: str
    nominal: Fraction
    heights: list[Fraction]
    labels: list[str]
    studs: list[StudGrid]

    def place(self, stud: str, h: int, edge: str = "") -> str:
        """``B2 at 48``."""
        return f"{stud}{' ' + edge if edge else ''} at {self.labels[h]}"


@dataclass
class RoomGrid:
    """Every wall read, and what could not be laid out."""

    walls: dict[WallName, WallGrid] = field(default_factory=dict)
    findings: list[Finding] = field(default_factory=list)

    def stud(self, name: str) -> tuple[WallGrid, StudGrid] | None:
        """The stud of that name, wherever it stands."""
        for wall in self.walls.values():
            for stud in wall.studs:
                if stud.name == name:
                    return wall, stud
        return None

    def stud_names(self) -> list[str]:
        """Every stud's name."""
        return [stud.name for wall in self.walls.values() for stud in wall.studs]


def lay_out(facts: SurveyFacts) -> RoomGrid:
    """Readings by wall, stud and height; what has no place there becomes a finding.

    Parameters
    ----------
    facts : SurveyFacts

    Returns
    -------
    RoomGrid
    """
    room = RoomGrid()
    for name in WALLS:
        if name in facts.walls:
            room.walls[name] = _wall(name, facts.walls[name], room.findings)
    seen: dict[str, str] = {}
    for wall in room.walls.values():
        for stud in wall.studs:
            if stud.name in seen:
                room.findings.append(
                    _clash(
                        "stud-named-twice",
                        f"stud {stud.name}",
                        Sentence("one stud of that name in the room"),
                        Sentence(
                            "a stud {name} on wall {other} and on wall {wall}",
                            name=stud.name,
                            other=seen[stud.name],
                            wall=wall.name,
                        ),
                        Sentence("Give one of them another name."),
                    )
                )
            seen.setdefault(stud.name, wall.name)
    return room


def nearest_name(name: str, known: Iterable[str]) -> str:
    """The known name most like ``name``, as words to add to a message; "" when none is."""
    close = difflib.get_close_matches(name, list(known), n=1, cutoff=0.0)
    return Sentence("; the nearest name is {name}", name=close[0]) if close else ""


def _clash(code: str, where: str, expected: str, found: str, next_step: str) -> Finding:
    return Finding(code, Severity.ACT, where, expected, found, next_step, "convention-7")


def _wall(name: str, wall: Wall, findings: list[Finding]) -> WallGrid:
    by_value: dict[Fraction, Length] = {}
    for length in wall.heights:
        if length.inches in by_value:
            findings.append(
                _clash(
                    "height-listed-twice",
                    f"wall {name}",
                    Sentence("each height once"),
                    Sentence(
                        "{one} and {other} are one height",
                        one=length.text,
                        other=by_value[length.inches].text,
                    ),
                    Sentence("Take one out; its readings stay where they are typed."),
                )
            )
        if abs(length.inches) > ROOM:
            findings.append(
                _clash(
                    "height-not-in-room",
                    f"wall {name}",
                    Sentence("heights from the subfloor, up to {room}", room=format_length(ROOM, mark=True)),
                    Sentence("a height of {text}: left out with its readings", text=length.text),
                    Sentence("Mend the height."),
                )
            )
            continue
        by_value.setdefault(length.inches, length)
    heights = sorted(by_value)
    unit = wall.heights[0].unit if wall.heights else "in"
    grid = WallGrid(
        name,
        wall.nominal.inches,
        heights,
        [format_length(by_value[z].inches, by_value[z].unit) for z in heights],
        [],
    )
    index = {z: h for h, z in enumerate(heights)}
    keys = {length.text: index.get(length.inches, -1) for length in wall.heights if length.text}
    for stud_name, stud in sorted(wall.studs.items(), key=lambda item: (item[1].along.inches, item[0])):
        grid.studs.append(_stud(name, stud_name, stud, grid, keys, unit, findings))
    return grid


def _stud(
    wall: str,
    name: str,
    stud: SurveyStud,
    grid: WallGrid,
    keys: dict[str, int],
    unit: str,
    findings: list[Finding],
) -> StudGrid:
    def line(readings: Mapping[str, Cell], edge: str) -> StudLine:
        cells: list[Cell] = [""] * len(grid.heights)
        for key, cell in readings.items():
            h = keys.get(key)
            if h is None:
                h = keys.setdefault(key, _height_of(key, unit, grid))
            if h < 0:
                findings.append(
                    _clash(
                        "reading-height-unknown",
                        f"{name} at {key}",
                        Sentence(
                            "one of the heights of wall {wall}: {labels}",
                            wall=wall,
                            labels=", ".join(grid.labels) or Sentence("none given"),
                        ),
                        Sentence("a reading at {key}", key=key),
                        Sentence(
                            "Add {key} to the heights of wall {wall}, or move the reading.",
                            key=key,
                            wall=wall,
                        ),
                    )
                )
            elif isinstance(cells[h], Length) and isinstance(cell, Length):
                findings.append(
                    _clash(
                        "reading-twice",
                        grid.place(name, h),
                        Sentence("one reading at a height; a second one is a repeat"),
                        Sentence("{first} and {then}", first=_typed(cells[h]), then=_typed(cell)),
                        Sentence("Keep one and enter the other as a repeat."),
                    )
                )
            elif cell != "":
                cells[h] = cell
        return StudLine(wall, name, stud.along.inches, cells, edge)

    first = line(stud.readings, "")
    other = line(stud.arris, "other edge") if stud.arris else None
    return StudGrid(name, stud.along.inches, first, other)


def _typed(cell: Cell) -> str:
    return cell.text or format_length(cell.inches, cell.unit) if isinstance(cell, Length) else cell


def _height_of(key: str, unit: str, grid: WallGrid) -> int:
    """Index of the height a readings key names; -1 if it names none."""
    try:
        value = parse_length(key, "mm" if unit == "mm" else "in").inches
    except LengthError:
        return -1
    return grid.heights.index(value) if value in grid.heights else -1


def state_of(cells: Iterable[Cell]) -> OffsetState:
    """What a place is when neither edge has a reading: cannot reach if anybody said so."""
    return "cannot reach" if "x" in cells else "not measured"


def typed(length: Length) -> str:
    """A reading as typed, without the spaces around it."""
    return length.text.strip() or format_length(length.inches, length.unit)
