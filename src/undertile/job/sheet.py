"""A grid of readings as pasted from a spreadsheet: its cells, which way round it is, and what its heads say.

Foreign words are mapped here, at the edge, by tables; what is not understood is said cell by cell.
"""

from __future__ import annotations

import csv
import io
import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from typing import Literal

from undertile.errors import LengthError
from undertile.job.trouble import shown
from undertile.lengths import Length, Unit, parse_length
from undertile.survey.facts import WallName

MAX_TEXT = 2_000_000
MAX_CELLS = 5000
"""Filled cells of one room's grid; more is a paste that went wrong."""

Way = Literal["rows", "columns"]
Head = Literal["stud", "height", "along", "wall", "note", "unit"]

HEADS: dict[str, Head] = {
    **dict.fromkeys(("stud", "studs", "member", "members", "no", "no.", "#", "number", "montante"), "stud"),
    **dict.fromkeys(("height", "heights", "z", "altura", "alturas", "stud / height"), "height"),
    **dict.fromkeys(("along", "x", "position", "distance", "from corner", "center", "centre"), "along"),
    **dict.fromkeys(("wall", "walls", "side", "pared"), "wall"),
    **dict.fromkeys(("note", "notes", "remark", "remarks", "comment", "comments", "nota"), "note"),
    **dict.fromkeys(("unit", "units", "unidad"), "unit"),
}
"""Heads of rows and columns by the words people write, in lower case."""

WALLS: dict[str, WallName] = {
    **dict.fromkeys(("b", "back", "wall b", "back wall", "fondo"), "B"),
    **dict.fromkeys(("l", "left", "wall l", "left wall", "izquierda"), "L"),
    **dict.fromkeys(("r", "right", "wall r", "right wall", "derecha"), "R"),
}
UNITS: dict[str, Unit] = {
    **dict.fromkeys(("in", "inch", "inches", '"', "pulgadas"), "in"),
    **dict.fromkeys(("mm", "millimeters", "millimetres", "milimetros"), "mm"),
}

_STUD = re.compile(r"([LBR]?) ?([1-9][0-9]{0,2})([a-z]?)( (?:arris|other edge))?", re.IGNORECASE)
_UNIT_IN_HEAD = re.compile(r"(.*?)\s*[(\[]\s*([a-z\"]+)\s*[)\]]", re.IGNORECASE)
_BEFORE_HEIGHT = re.compile(r"(?:height|ht|h|z|at|@)\.?\s*[=:]?\s*(?=[0-9])", re.IGNORECASE)


@dataclass(frozen=True)
class Cell:
    """One cell: its text without spaces around it, and where it stands, counted from 1."""

    text: str
    row: int
    column: int

    @property
    def where(self) -> str:
        """``row 3, column D``."""
        letters, rest = "", self.column
        while rest:
            rest, letter = divmod(rest - 1, 26)
            letters = chr(65 + letter) + letters
        return f"row {self.row}, column {letters}"


@dataclass(frozen=True)
class StudName:
    """A stud as a head names it; ``wall`` is ``""`` when only a number stands there."""

    wall: str
    number: str
    arris: bool


@dataclass
class Sheet:
    """The grid turned so that each line is a stud.

    Attributes
    ----------
    heads : list of Cell
        The first line.
    lines : list of list of Cell
        One for each stud, as long as ``heads``.
    unit : {"in", "mm"} or None
        As the grid says it.
    wall : str
        As a line above the grid says it; ``""`` when it does not.
    way : {"rows", "columns"}
        How the studs stand in the text.
    problems : list of str
    """

    heads: list[Cell] = field(default_factory=list)
    lines: list[list[Cell]] = field(default_factory=list)
    unit: Unit | None = None
    wall: str = ""
    way: Way = "rows"
    problems: list[str] = field(default_factory=list)


def read_sheet(text: str, way: Way | None = None) -> Sheet:
    """The grid in a text, with what could not be understood of its form.

    Parameters
    ----------
    text : str
        Separated by tabs, semicolons or commas; quoted as spreadsheets quote.
    way : {"rows", "columns"}, optional
        How the studs stand, when the heads do not show it.

    Returns
    -------
    Sheet
        Without lines when the whole cannot be used.
    """
    sheet = Sheet()
    rows = _rows(text, sheet)
    rows = _above(rows, sheet)
    if sheet.problems and not rows:
        return sheet
    if len(rows) < 2 or not any(cell.text for cell in rows[0][1:]):
        sheet.problems.append(
            "expected a line of heads and a line for each stud or height, found no such grid; "
            "copy it with its heads: stud, along, then the heights"
        )
        return sheet
    found = way or _way(rows)
    if found is None:
        sheet.problems.append(
            f"{rows[0][0].where}: expected heads that show which way the grid runs, found none; "
            "write stud in the first cell when each row is a stud, height when each row is a height"
        )
        return sheet
    sheet.way = found
    turned = rows if found == "rows" else [list(line) for line in zip(*rows, strict=True)]
    sheet.heads, sheet.lines = turned[0], turned[1:]
    return sheet


def _rows(text: str, sheet: Sheet) -> list[list[Cell]]:
    """The cells of a text in rows of one length; empty rows and columns at the edges are gone."""
    if len(text) > MAX_TEXT:
        sheet.problems.append(
            f"expected one room's grid, found {len(text):,} characters; copy the grid alone"
        )
        return []
    text = text.removeprefix("\ufeff")
    rows: list[list[Cell]] = []
    filled = 0
    try:
        lines = csv.reader(io.StringIO(text, newline=""), delimiter=_separator(text), strict=True)
        for number, raw in enumerate(lines, 1):
            rows.append([Cell(each.strip(), number, at) for at, each in enumerate(raw, 1)])
            filled += sum(1 for cell in rows[-1] if cell.text)
            torn = next((cell for cell in rows[-1] if "\n" in cell.text or "\r" in cell.text), None)
            if torn is not None:
                sheet.problems.append(
                    f"{torn.where}: expected one value, found several lines in one cell; "
                    "a quote mark was opened and not closed, or a cell holds a line break: take it out"
                )
                return []
    except csv.Error:
        sheet.problems.append(
            f"row {len(rows) + 1}: expected cells, found an open quote mark or a cell far too long; "
            "take it out, or copy the grid from the spreadsheet again"
        )
        return []
    if filled > MAX_CELLS:
        sheet.problems.append(
            f"expected one room's grid of at most {MAX_CELLS:,} cells, found {filled:,}; "
            "copy the readings of one room alone"
        )
        return []
    rows = [row for row in rows if any(cell.text for cell in row)]
    width = max((cell.column for row in rows for cell in row if cell.text), default=0)
    return [_wide(row, width) for row in rows]


def _wide(row: Sequence[Cell], width: int) -> list[Cell]:
    return [*row[:width], *(Cell("", row[0].row, at) for at in range(len(row) + 1, width + 1))]


def _separator(text: str) -> str:
    """Tab, semicolon or comma: the first of these that the first lines use outside quotes."""
    for line in [line for line in text.splitlines()[:20] if line.strip()]:
        bare = re.sub(r'"[^"]*"', "", line)
        for mark in ("\t", ";", ","):
            if mark in bare:
                return mark
    return ","


def _above(rows: list[list[Cell]], sheet: Sheet) -> list[list[Cell]]:
    """Lines above the heads: ``wall, B``, ``unit, mm``, and titles, which are said to be left aside."""
    while rows:
        cells = [cell for cell in rows[0] if cell.text]
        head = head_of(cells[0].text)
        if len(cells) == 2 and head in ("wall", "unit") and len(rows[0]) > 1:
            _said_above(head, cells[1], sheet)
        elif len(cells) == 1 and cells[0].column == 1 and len(rows) > 1:
            sheet.problems.append(f"{cells[0].where}: found the title {shown(cells[0].text)}; left aside")
        else:
            break
        rows = rows[1:]
    width = max((at for row in rows for at, cell in enumerate(row, 1) if cell.text), default=0)
    return [row[:width] for row in rows]


def _said_above(head: str | None, cell: Cell, sheet: Sheet) -> None:
    word = cell.text.lower()
    if head == "wall" and word in WALLS:
        sheet.wall = WALLS[word]
    elif head == "unit" and word in UNITS:
        sheet.unit = UNITS[word]
    else:
        known = "L, B or R" if head == "wall" else "in or mm"
        sheet.problems.append(f"{cell.where}: expected {known}, found {shown(cell.text)}; write one of these")


def _way(rows: Sequence[Sequence[Cell]]) -> Way | None:
    """Whether studs are rows or columns; None when the heads do not show it."""
    across = [cell.text for cell in rows[0][1:] if cell.text]
    down = [row[0].text for row in rows[1:] if row[0].text]
    named_across, named_down = _named(across), _named(down)
    if named_across != named_down:
        return "columns" if named_across else "rows"
    heads_across = {head_of(text) for text in across} | {head_of(rows[0][0].text)}
    if "stud" in heads_across:
        return "rows"
    if "height" in {head_of(rows[0][0].text)}:
        return "columns"
    return None


def _named(texts: Iterable[str]) -> bool:
    """Whether any head is a stud with its wall's letter."""
    names = [stud_name(text) for text in texts]
    return any(name is not None and name.wall for name in names)


def head_of(text: str) -> Head | None:
    """What a head's word means; a unit in brackets behind it is left off."""
    found = _UNIT_IN_HEAD.fullmatch(text)
    word = " ".join((found[1] if found else text).lower().split())
    return HEADS.get(word)


def unit_of(text: str) -> Unit | None:
    """The unit in brackets behind a head: ``stud (mm)``."""
    found = _UNIT_IN_HEAD.fullmatch(text)
    return UNITS.get(found[2].lower()) if found else None


def stud_name(text: str) -> StudName | None:
    """A stud's name or number, and whether its line is the other edge of a twisted stud."""
    found = _STUD.fullmatch(" ".join(text.split()))
    if found is None:
        return None
    return StudName(found[1].upper(), found[2] + found[3].lower(), found[4] is not None)


def height_of(text: str, unit: Unit) -> Length:
    """A height as a head has it: ``48``, ``h 48``, ``@ 4' 0"``.

    Raises
    ------
    LengthError
        If it is none.
    """
    before = _BEFORE_HEIGHT.match(text)
    return parse_length(text[before.end() :] if before else text, unit)


def is_length(text: str, unit: Unit) -> bool:
    """Whether a head can be read as a height."""
    try:
        height_of(text, unit)
    except LengthError:
        return False
    return True
