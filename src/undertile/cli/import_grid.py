"""``import``: readings from a spreadsheet into a job, all of them or none."""

from __future__ import annotations

import sys
from datetime import UTC, datetime
from pathlib import Path
from typing import Literal, cast

from undertile.cli.answer import NOTHING, UNUSABLE, load
from undertile.cli.console import complain
from undertile.cli.files import write_safely
from undertile.errors import FileError, InputError
from undertile.job import Job, Pen, fold, merge, write_job
from undertile.job.address import say, split
from undertile.job.entry import Entry
from undertile.job.grid import read_grid
from undertile.job.plain import entries_of
from undertile.job.retouch import retouched
from undertile.lengths import Unit
from undertile.survey.facts import WallName

MAX_BYTES = 2_000_000
"""A room's grid is under 20 kB; more is the wrong file. [bytes]"""
SAID = 6
"""Readings named of those kept; the others are counted."""


def run(
    path: str,
    grid: str,
    *,
    wall: str = "",
    unit: Unit | None = None,
    studs_in: Literal["rows", "columns"] | None = None,
    output: str = "",
    again: bool = False,
) -> int:
    """Read a grid into a job and write the job, or say what was not understood and write nothing.

    Writes ``output`` (else the job file itself) only when every cell was understood and the job still holds.
    """
    if path == "-" and (grid == "-" or not output):
        raise InputError("a job from stdin needs --output, and a grid from a file")
    if wall and wall.upper() not in ("L", "B", "R"):
        raise InputError(f"--wall {wall}: expected L, B or R (left, back, right as you face the back wall)")
    job = load(path)
    pen = Pen("import", "import", datetime.now(UTC).isoformat(timespec="seconds"))
    log = entries_of(job, pen)
    text = _text(grid)
    name = "grid" if grid == "-" else Path(grid).name
    report = read_grid(
        text,
        pen,
        job.unit,
        unit=unit,
        wall=cast(WallName, wall.upper()) if wall else None,
        studs_in=studs_in,
        log=log,
        again=again,
    )
    problems = [f"{name}, {problem}" for problem in report.problems]
    folded = fold(merge(log, report.entries))
    problems += [f"{finding.where}: {finding.line()}" for finding in folded.findings]
    if not problems and not report.entries:
        print("Nothing new: every reading in the grid is in the job already. Nothing was written.")
        _tell_kept(report.kept)
        return NOTHING
    if problems:
        complain([*problems, f"Nothing was written: {len(problems)} not understood (above)."])
        return UNUSABLE
    target = output or path
    own = _in_place(path, report.entries, folded.job)
    write_safely(target, write_job(folded.job) if own is None else own)
    _tell(log, report.entries, target, whole=own is None)
    _tell_kept(report.kept)
    return NOTHING


def _in_place(path: str, entries: tuple[Entry, ...], job: Job) -> bytes | None:
    """The file with only these readings changed, where that can be done surely."""
    if path == "-":
        return None
    try:
        text = Path(path).read_bytes().decode("utf-8")
    except (OSError, UnicodeDecodeError):
        return None
    changed = retouched(text, {split(entry.fact): entry.value or "" for entry in entries}, job)
    return None if changed is None else changed.encode()


def _tell_kept(kept: tuple[Entry, ...]) -> None:
    """Readings of the job where the grid is blank."""
    if kept:
        places = [f"{say(split(entry.fact))} ({entry.value})" for entry in kept[:SAID]]
        more = f", and {len(kept) - SAID} more" if len(kept) > SAID else ""
        print(
            f"Blank in the grid, kept as the job has it: {', '.join(places)}{more}. "
            "A blank erases nothing; to take a reading out, clear it in the job file."
        )


def _tell(log: tuple[Entry, ...], entries: tuple[Entry, ...], target: str, *, whole: bool) -> None:
    before = {entry.id: entry for entry in log}
    changed = [entry for entry in entries if entry.supersedes]
    for entry in changed:
        was = ", ".join(str(before[each].value) for each in entry.supersedes if each in before)
        print(f"{say(split(entry.fact))}: {entry.value or 'not measured'}, was {was or 'not measured'}")
    print(f"{len(entries) - len(changed)} facts added, {len(changed)} changed. Written to {target}.")
    if whole:
        print("The file was written anew: its facts are kept, its comments and spacing are not.")
    else:
        print("Every other line of the file is as it was.")


def _text(grid: str) -> str:
    try:
        content = sys.stdin.buffer.read(MAX_BYTES + 1) if grid == "-" else _content(grid)
    except OSError as error:
        raise FileError([f"{grid}: cannot be read ({error.strerror}); give the path of a CSV file"]) from None
    if len(content) > MAX_BYTES:
        raise FileError(
            [f"{grid}: expected a grid of at most 2 MB, found more; give the readings of one wall"]
        )
    try:
        return content.decode("utf-8-sig")
    except UnicodeDecodeError:
        return content.decode("cp1252", "replace")


def _content(grid: str) -> bytes:
    with open(grid, "rb") as file:
        return file.read(MAX_BYTES + 1)
