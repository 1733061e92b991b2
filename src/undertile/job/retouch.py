"""A job file with some readings changed and every other character as it was: comments, spacing, order.

Only readings that stand in a list beside their wall's heights are changed in place. Whatever else was
changed, or is written in another form, is left to ``write_job``; so the answer is either sure or None.
"""

from __future__ import annotations

import json
import re
from collections.abc import Mapping

from undertile.errors import FileError
from undertile.job.address import Path
from undertile.job.file import read_job
from undertile.job.locate import TooDeep, locate
from undertile.job.model import Job
from undertile.lengths import Unit, parse_length

_TOKEN = re.compile(r'"(?:[^"\\\n]|\\[^\n])*"|\'[^\'\n]*\'|#[^\n]*|\]')
_LISTS = ("readings", "arris")


def retouched(text: str, changes: Mapping[Path, str], job: Job) -> str | None:
    """A file's text with readings changed in place.

    Parameters
    ----------
    text : str
        The job file as it was read.
    changes : mapping of path to str
        New readings by their address, as in a log: ``survey.walls.B.studs.B2.readings.48``.
    job : Job
        What the new text must stand for.

    Returns
    -------
    str or None
        None where the text cannot be changed so, or would not read back as ``job``.
    """
    for path, value in changes.items():
        changed = _one(text, path, value, job)
        if changed is None:
            return None
        text = changed
    try:
        return text if read_job(text.encode()) == job else None
    except FileError:
        return None


def _one(text: str, path: Path, value: str, job: Job) -> str | None:
    if len(path) != 7 or path[1] != "walls" or path[5] not in _LISTS:
        return None
    listed = job.facts()[path[0]].walls[path[2]].heights  # type: ignore[attr-defined]
    unit: Unit = "in"  # a height in an address is bare inches
    height = parse_length(path[6], unit).inches
    at = [n for n, each in enumerate(listed) if each.inches == height]
    try:
        line = locate(text.replace("\r\n", "\n")).lines.get(path[:6])
    except TooDeep:
        return None
    if line is None or len(at) != 1:
        return None
    start = sum(len(each) for each in text.splitlines(keepends=True)[: line - 1])
    opened = re.compile(rf"\b{path[5]}\s*=\s*\[").search(text, start)
    if opened is None:
        return None
    tokens = []
    for token in _TOKEN.finditer(text, opened.end()):
        if token[0] == "]":
            break
        if not token[0].startswith("#"):
            tokens.append(token)
    if len(tokens) != len(listed):
        return None
    old = tokens[at[0]]
    new = _quoted(value)
    after = text[old.end() :]
    gap = re.match(r",( +)(?=[\"'])", after)
    if gap and re.search(r",  +[\"']", text[tokens[0].start() : tokens[-1].end()]):
        kept = max(1, len(gap[1]) - (len(new) - len(old[0])))  # the columns stay under each other
        after = "," + " " * kept + after[gap.end() :]
    return text[: old.start()] + new + after


def _quoted(value: str) -> str:
    if '"' in value and "'" not in value and value.isprintable():
        return f"'{value}'"
    return json.dumps(value, ensure_ascii=False)
