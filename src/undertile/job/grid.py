"""Readings in and out as a grid of text, the way a spreadsheet copies and pastes it (docs/job-file.md)."""

from __future__ import annotations

import csv
import io
import json
import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from fractions import Fraction
from typing import get_args

from undertile.errors import LengthError
from undertile.job.address import Path, canonical, join
from undertile.job.entry import Entry, Pen
from undertile.job.model import Job, job_shape
from undertile.job.plain import taken_apart
from undertile.job.sheet import (
    WALLS,
    Cell,
    Sheet,
    Way,
    head_of,
    height_of,
    read_sheet,
    stud_name,
    unit_of,
)
from undertile.job.standing import Fact, facts_of
from undertile.job.trouble import refused, shown
from undertile.lengths import Length, Unit, format_length, parse_length
from undertile.ruler import FINEST_READ, is_dyadic
from undertile.survey.facts import WallName

CANNOT_REACH = (
    "x",
    "can't reach",
    "cannot reach",
    "cant reach",
    "can not reach",
    "out of reach",
    "no alcanza",
)
NOT_MEASURED = ("", "not measured", "not read", "no medido")

_DATE = re.compile(
    r"[0-9]{1,2}[-./ ](?:jan|feb|mar|apr|may|jun|jul|aug|sep|oct|nov|dec)[a-z]*\.?(?:[-./ ][0-9]{2,4})?"
    r"|(?:jan|feb|mar|apr|may|jun|jul|aug|sep|oct|nov|dec)[a-z]*[-. /][0-9]{1,4}"
    r"|[0-9]{4}[-/.][0-9]{1,2}[-/.][0-9]{1,2}(?:[ T].*)?|[0-9]{1,2}[/.][0-9]{1,2}[/.][0-9]{2,4}",
    re.IGNORECASE,
)


@dataclass(frozen=True)
class GridReport:
    """What a grid came to.

    Attributes
    ----------
    entries : tuple of Entry
        One for each fact that was understood and is not in the log already.
    problems : tuple of str
        One line for each cell, row or column that was not: where, what was expected, what came, what to do.
    kept : tuple of Entry
        What stands in the log where the grid is blank: a blank takes nothing away.
    """

    entries: tuple[Entry, ...]
    problems: tuple[str, ...]
    kept: tuple[Entry, ...] = ()


def read_grid(
    text: str,
    pen: Pen,
    job_unit: Unit,
    *,
    unit: Unit | None = None,
    wall: WallName | None = None,
    studs_in: Way | None = None,
    log: Iterable[Entry] = (),
    again: bool = False,
) -> GridReport:
    """Read a grid of readings pasted from a spreadsheet.

    Parameters
    ----------
    text : str
        Tabs, semicolons or commas between cells. One head line or column names the studs (``B1``; a bare
        number with ``wall``), the other gives the heights; a line headed ``along`` gives the studs' places.
    pen : Pen
        Who reads it in, on which device, when.
    job_unit : {"in", "mm"}
        Unit of the job the entries go to.
    unit : {"in", "mm"}, optional
        Unit of the grid's bare numbers; else what the grid says, or the job's.
    wall : {"L", "B", "R"}, optional
        Wall of studs that are bare numbers.
    studs_in : {"rows", "columns"}, optional
        When the heads do not show which way round it is.
    log : iterable of Entry
        The job's record: what stands there is superseded, what is the same there is not entered again.
    again : bool
        The readings were taken again after the work: they go beside the survey's, and no place is changed.

    Returns
    -------
    GridReport
        A blank cell is *not measured* and makes no entry: what stands there in the log stays, and ``kept``
        lists it. ``x`` is *cannot reach*. Heads that are heights of the job only in the other unit are a
        problem.
    """
    sheet = read_sheet(text, studs_in)
    own = (
        unit or sheet.unit or next((u for u in map(unit_of, _texts(sheet.heads[:1])) if u), None) or job_unit
    )
    stage = "recheck" if again else "survey"
    reader = _Reader(sheet, own, job_unit, wall or sheet.wall, list(sheet.problems), stage)
    reader.run()
    known, _ = facts_of(log)
    problems = [*_heads_of_another_unit(reader, known), *reader.problems]
    kept = [
        entry
        for path in reader.blank
        if path in known
        for entry in known[path].standing
        if entry.value not in ("", None)
    ]
    return GridReport(tuple(_entries(reader, known, pen)), tuple(problems), tuple(kept))


def _texts(cells: Iterable[Cell]) -> Iterable[str]:
    return (cell.text for cell in cells)


@dataclass
class _Reader:
    """One pass over a sheet; facts are kept by path with the text they get."""

    sheet: Sheet
    unit: Unit
    job_unit: Unit
    wall: str
    problems: list[str]
    stage: str = "survey"
    facts: dict[Path, str] = field(default_factory=dict)
    heights: dict[str, dict[Fraction, str]] = field(default_factory=dict)
    blank: list[Path] = field(default_factory=list)

    def run(self) -> None:
        if not self.sheet.lines:
            return
        columns = self.columns()
        names = [at for at, what in columns.items() if what == "stud"]
        at_name = names[0] if names else 0
        seen: dict[tuple[str, bool], Cell] = {}
        for line in self.sheet.lines:
            if not any(cell.text for cell in line):
                continue
            stud = self.stud(line, at_name, columns)
            if stud is None:
                continue
            if stud in seen:
                self.say(line[at_name], "each stud once", f"{stud[0]} again", "keep one of the two lines")
                continue
            seen[stud] = line[at_name]
            self.line(stud, line, columns)

    def columns(self) -> dict[int, str | Length]:
        """What each column of the turned grid holds; the first is the studs' when nothing says so."""
        columns: dict[int, str | Length] = {}
        seen: dict[Fraction, Cell] = {}
        heads = self.sheet.heads
        has_stud_head = any(head_of(cell.text) == "stud" for cell in heads)
        for at, cell in enumerate(heads):
            head = head_of(cell.text)
            if head is not None and not (at == 0 and head in ("height", "unit")):
                columns[at] = head
            elif at == 0 and not has_stud_head:
                columns[at] = "stud"
            elif not cell.text:
                if any(line[at].text for line in self.sheet.lines):
                    self.say(cell, "a height above this column", "nothing", "write the height there")
            else:
                height = self.height(cell)
                if height is not None and height.inches in seen:
                    self.say(cell, "each height once", f"{shown(cell.text)} again", "keep one of the two")
                elif height is not None:
                    seen[height.inches] = cell
                    columns[at] = height
        return columns

    def height(self, cell: Cell) -> Length | None:
        try:
            height = height_of(cell.text, self.unit)
        except LengthError as error:
            found, do = refused(error)
            self.say(cell, "a height, a stud or a head like along", found, do)
            return None
        return Length(height.inches, height.unit, self.typed(height))

    def stud(
        self, line: list[Cell], at_name: int, columns: Mapping[int, str | Length]
    ) -> tuple[str, bool] | None:
        """The stud a line is about, and whether it is the other edge of a twisted one."""
        cell = line[at_name]
        name = stud_name(cell.text)
        if name is None:
            found = shown(cell.text) if cell.text else "nothing"
            self.say(cell, "a stud like B1", found, "write the stud's name; the whole line is left aside")
            return None
        wall = name.wall or self.wall_of(line, columns) or self.wall
        if wall not in get_args(WallName):
            self.say(
                cell,
                "a stud with its wall, like B1",
                shown(cell.text),
                f"write B{name.number}, or say the wall",
            )
            return None
        return f"{wall}{name.number}", name.arris

    def wall_of(self, line: list[Cell], columns: Mapping[int, str | Length]) -> str:
        for at, what in columns.items():
            if what == "wall" and line[at].text:
                word = line[at].text.lower()
                if word not in WALLS:
                    self.say(line[at], "a wall: L, B or R", shown(line[at].text), "write one of these")
                return WALLS.get(word, "")
        return ""

    def line(self, stud: tuple[str, bool], line: list[Cell], columns: Mapping[int, str | Length]) -> None:
        name, arris = stud
        wall = name[0]
        path: Path = (self.stage, "walls", wall, "studs", name)
        for at, what in columns.items():
            cell = line[at]
            if isinstance(what, Length):
                self.heights.setdefault(wall, {}).setdefault(what.inches, what.text)
                spelled, _ = canonical(
                    (*path, "arris" if arris else "readings", what.text), job_shape(), self.job_unit
                )
                value = self.reading(cell, f"{name} at {what.text}")
                if value is not None:
                    self.facts[spelled] = value
                elif not cell.text:
                    self.blank.append(spelled)
            elif what == "along" and cell.text and self.stage == "survey":
                along = self.length(cell, f"{name}, along", "a length along the wall")
                if along is not None:
                    self.facts[(*path, "along")] = along
            elif what == "height" and cell.text:
                self.say(cell, "readings under heights", shown(cell.text), "write the heights as heads")

    def reading(self, cell: Cell, what: str) -> str | None:
        word = " ".join(cell.text.lower().replace("\u2019", "'").split())
        if word in NOT_MEASURED:
            return None
        if word in CANNOT_REACH:
            return "x"
        return self.length(cell, what, "a reading, blank (not measured) or x (cannot reach)")

    def length(self, cell: Cell, what: str, expected: str) -> str | None:
        if _DATE.fullmatch(cell.text):
            self.say(
                cell,
                expected,
                f"the date {shown(cell.text)}, which a spreadsheet makes of a fraction",
                "set the cells' format to text and type it again",
                what,
            )
            return None
        try:
            return self.typed(parse_length(cell.text, self.unit, whole="inches"))
        except LengthError as error:
            found, do = refused(error)
            self.say(cell, expected, found, do, what)
            return None

    def typed(self, length: Length) -> str:
        """The text as typed, with its mark added when the job would read a bare number in another unit."""
        for text in (length.text, f"{length.text} mm" if length.unit == "mm" else f'{length.text}"'):
            try:
                if parse_length(text, self.job_unit, whole="inches").inches == length.inches:
                    return text
            except LengthError:
                continue
        on_ruler = is_dyadic(length.inches, FINEST_READ)
        return format_length(length.inches, "in" if on_ruler else "mm", mark=True)

    def say(self, cell: Cell, expected: str, found: str, do: str, what: str = "") -> None:
        about = f" ({what})" if what else ""
        self.problems.append(f"{cell.where}{about}: expected {expected}, found {found}; {do}")


LOWEST_TOP = Fraction(12)
"""A wall is read above a foot: heads that all lie lower are of another unit. [in]"""


def _heads_of_another_unit(reader: _Reader, known: Mapping[Path, Fact]) -> Iterable[str]:
    """Heads typed in one unit and read in the other: 2, 24, 48 as mm would make new heights at the floor."""
    other: Unit = "mm" if reader.unit == "in" else "in"
    for wall, heights in reader.heights.items():
        listed = set(_listed_of(known.get((reader.stage, "walls", wall, "heights")), reader.job_unit))
        listed |= set(_listed_of(known.get(("survey", "walls", wall, "heights")), reader.job_unit))
        bare = [cell.text for cell in reader.sheet.heads if _BARE_NUMBER.fullmatch(cell.text)]
        new = [text for text in bare if _exact(text, reader.unit) not in listed]
        fits = [text for text in new if _exact(text, other) in listed]
        low = not listed and len(heights) > 1 and max(heights) < LOWEST_TOP and bare
        if fits or low:
            names = {"in": "inches", "mm": "mm"}
            what = f"heights of wall {wall}" if listed else "heights up a wall"
            mark = f'{(fits or bare)[0]}"' if other == "in" else f"{(fits or bare)[0]} mm"
            yield (
                f"heads {', '.join(fits or bare)}: expected {what} in {names[reader.unit]}, found numbers "
                f"that {'are its heights' if listed else 'make sense'} in {names[other]}; write the heads "
                f"with their mark, like {mark}, or give the unit of the grid"
            )


def _exact(text: str, unit: Unit) -> Fraction | None:
    """A length in inches, None where the text is none in that unit."""
    try:
        return parse_length(text, unit).inches
    except LengthError:
        return None


_BARE_NUMBER = re.compile(r"[0-9][0-9 /.-]*")


def _listed_of(fact: Fact | None, unit: Unit) -> Iterable[Fraction]:
    for entry in fact.standing if fact is not None else ():
        try:
            yield from [parse_length(str(text), unit).inches for text in json.loads(entry.value or "[]")]
        except (ValueError, TypeError, RecursionError):
            continue


def _entries(reader: _Reader, known: Mapping[Path, Fact], pen: Pen) -> Iterable[Entry]:
    """Heights of each wall first, then what was read, each superseding what stands."""
    for wall, heights in reader.heights.items():
        path: Path = (reader.stage, "walls", wall, "heights")
        listed = _listed(known.get(path), heights, reader.job_unit)
        yield from _entry(path, json.dumps(listed, ensure_ascii=False), known, pen)
    for path, value in reader.facts.items():
        yield from _entry(path, value, known, pen)


def _entry(path: Path, value: str, known: Mapping[Path, Fact], pen: Pen) -> Iterable[Entry]:
    standing = known[path].standing if path in known else ()
    if [entry.value for entry in standing] != [value]:
        yield pen.write(join(path), value, [entry.id for entry in standing])


def _listed(fact: Fact | None, heights: Mapping[Fraction, str], unit: Unit) -> list[str]:
    """The heights a wall lists, with those of the grid put among them by height."""
    listed = dict(heights)
    before: list[str] = []
    for entry in fact.standing if fact is not None else ():
        try:
            texts = [str(text) for text in json.loads(entry.value or "[]")]
            listed |= {parse_length(text, unit).inches: text for text in texts}
        except (ValueError, TypeError, RecursionError):
            continue  # no list of heights: the fold says so, and the grid's list replaces it
        before = texts
    if len(listed) == len(before):
        return before
    return [listed[height] for height in sorted(listed)] if before else list(listed.values())


def write_grid(job: Job, *, studs_in: Way = "rows", separator: str = ",") -> str:
    """The readings of a job as a grid that ``read_grid`` reads back.

    Parameters
    ----------
    job : Job
    studs_in : {"rows", "columns"}
        Which way round.
    separator : str
        ``,``, ``;`` or a tab.

    Returns
    -------
    str
        Head, then one line for each stud (``B2 arris``: the other edge of a twisted one), as typed; blank
        where not measured.
    """
    walls = taken_apart(job).get("survey", {}).get("walls", {})
    heights: dict[Fraction, str] = {}
    for wall in walls.values():
        for text in wall.get("heights", ()):
            heights.setdefault(parse_length(text, job.unit).inches, text)
    lines = [[f"stud ({job.unit})", "along", *heights.values()]]
    for wall in walls.values():
        for name, stud in wall.get("studs", {}).items():
            lines.append([name, stud.get("along", ""), *_row(stud.get("readings", {}), heights, job.unit)])
            if stud.get("arris"):
                lines.append([f"{name} arris", "", *_row(stud["arris"], heights, job.unit)])
    if studs_in == "columns":
        lines = [list(line) for line in zip(*lines, strict=True)]
        lines[0][0] = f"height ({job.unit})"
    out = io.StringIO(newline="")
    csv.writer(out, delimiter=separator, lineterminator="\n").writerows(lines)
    return out.getvalue()


def _row(readings: Mapping[str, str], heights: Mapping[Fraction, str], unit: Unit) -> list[str]:
    by_height = {parse_length(key, unit).inches: text for key, text in readings.items()}
    return [by_height.get(height, "") for height in heights]
