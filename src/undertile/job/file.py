"""The job file: one job as readable text (TOML), read with every problem said at once (docs/job-file.md)."""

from __future__ import annotations

import re
import tomllib
from decimal import Decimal
from pathlib import Path
from typing import Any, get_args

from undertile.errors import FileError
from undertile.job.locate import Places, TooDeep, locate
from undertile.job.migrate import FIRST, migrate
from undertile.job.model import VERSION, Job
from undertile.job.settle import settle
from undertile.job.trouble import Trouble, shown
from undertile.lengths import Unit

MAX_BYTES = 1_000_000
MAX_PROBLEMS = 500
MAX_LOOKED = 100

_LONG = re.compile(r"\d[\d_]{999,}|[eE][+-]?\d[\d_]{5,}")


def read_job(source: str | bytes | Path) -> Job:
    """Read a job file.

    Parameters
    ----------
    source : str, bytes or Path
        A path, or the file's content: bytes are content; a ``str`` is content when it has a line end or
        a ``=`` in it, and a path otherwise.

    Returns
    -------
    Job

    Raises
    ------
    FileError
        If anything in it cannot be used: ``problems`` has one line for each thing wrong, with file, line,
        place, what was expected, what came and what to do.
    """
    if isinstance(source, bytes):
        return _read(_decoded(source, "job file"), "job file")
    if isinstance(source, Path) or not ("\n" in source or "=" in source):
        name = Path(source).name or str(source)
        return _read(_decoded(_content(Path(source)), name), name)
    return _read(_decoded(source.encode("utf-8", "surrogatepass"), "job file"), "job file")


def _content(path: Path) -> bytes:
    try:
        with path.open("rb") as file:
            return file.read(MAX_BYTES + 1)
    except (OSError, ValueError) as error:
        reason = error.strerror if isinstance(error, OSError) and error.strerror else str(error)
        raise FileError(
            [f"{shown(str(path))}: cannot be read ({reason}); give the path of a job file"]
        ) from None


def _decoded(content: bytes, name: str) -> str:
    if len(content) > MAX_BYTES:
        raise FileError(
            [
                f"{name}: expected a job file of at most {MAX_BYTES // 1_000_000} MB, found more; "
                "a whole room takes under 50 kB: give the job file itself"
            ]
        )
    if content.startswith(b"PK\x03\x04"):
        raise FileError([f"{name}: expected a job file as text, found a zip archive; open it as an archive"])
    try:
        text = content.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = content.count(b"\n", 0, error.start) + 1
        raise FileError(
            [f"{name}, line {line}: expected text in UTF-8, found other bytes; save the file as UTF-8"]
        ) from None
    if "\0" in text:
        line = text.count("\n", 0, text.index("\0")) + 1
        raise FileError(
            [f"{name}, line {line}: expected text, found a NUL byte; save the file as UTF-8 text"]
        )
    return text.replace("\r\n", "\n")


def _read(text: str, name: str) -> Job:
    try:
        places = locate(text)
    except TooDeep as deep:
        problem = f"{name}, line {deep.line}: expected {deep.what}; keep one room in one job file"
        raise FileError([problem]) from None
    raw = _parsed(text, name)
    version, problems = _version(raw, name, places)
    if version is None:
        raise FileError(problems)
    raw = {key: value for key, value in raw.items() if key != "version"}
    raw, troubles = migrate(raw, version)
    unit, unit_trouble = _unit(raw)
    troubles += unit_trouble
    job, more = settle(raw, unit)
    troubles += more
    problems += [trouble.line(_place(trouble, name, places)) for trouble in _in_order(troubles, places)]
    if problems or job is None:
        raise FileError(_cut(problems, name))
    return job


def _parsed(text: str, name: str) -> dict[str, Any]:
    try:
        return tomllib.loads(text, parse_float=Decimal)
    except tomllib.TOMLDecodeError as error:
        said = " ".join(str(error).split())
        problem = f"{name}: expected TOML; {said[:1].lower()}{said[1:]}; correct the line{_hint(said)}"
    except (ValueError, ArithmeticError):
        where = f"{name}, line {line}" if (line := _far_too_long(text)) else name
        problem = f"{where}: expected a number of at most 9 digits, found one far too long; correct it"
    except RecursionError:
        problem = f"{name}: expected at most a few lists inside each other, found more; take them out"
    raise FileError([problem])


def _far_too_long(text: str) -> int:
    """Line of the number that no Python here can read (which one that is depends on its word size); 0 if
    none is found.

    The reader stops at it and does not say where. It is the first one at whose end the text as far as it
    goes fails in the same way: in the middle of a string it fails in another.
    """
    for found in list(_LONG.finditer(text))[:MAX_LOOKED]:
        try:
            tomllib.loads(text[: found.end()], parse_float=Decimal)
        except (tomllib.TOMLDecodeError, RecursionError):
            continue
        except (ValueError, ArithmeticError):
            return text.count("\n", 0, found.start()) + 1
    return 0


def _hint(said: str) -> str:
    if "overwrite" in said or "twice" in said or "redefine" in said.lower():
        return " (a key, like a stud's name, stands twice: keep one)"
    return ' (texts and lengths stand in quotes: "3-15/16", or \'3-15/16"\')'


def _version(raw: dict[str, Any], name: str, places: Places) -> tuple[int | None, list[str]]:
    """The file's version; None when the rest cannot be read in any known way."""
    if "version" not in raw:
        return VERSION, [
            f"{name}: expected `version`, found none; write version = {VERSION} on the first line"
        ]
    version = raw["version"]
    line = places.line(("version",))
    where = f"{name}, line {line}: version" if line else f"{name}: version"
    if not isinstance(version, int) or isinstance(version, bool) or version < FIRST:
        return None, [f"{where}: expected {VERSION}, found {shown(version)}; write version = {VERSION}"]
    if version > VERSION:
        return None, [
            f"{where}: expected {VERSION} or older, found {shown(version)}, written by a newer undertile; "
            "update this one"
        ]
    return version, []


def _unit(raw: dict[str, Any]) -> tuple[Unit, list[Trouble]]:
    """The job's unit. A file without one is refused, and read on in inches to find what else is wrong."""
    unit = raw.get("unit")
    if isinstance(unit, str) and unit in get_args(Unit):
        return unit, []  # type: ignore[return-value]
    expected = "in or mm, the unit of a number without a mark"
    found = "none" if unit is None else shown(unit)
    do = 'write unit = "in" or unit = "mm"'
    raw["unit"] = "in"
    return "in", [Trouble(("unit",), expected, found, do)]


def _place(trouble: Trouble, name: str, places: Places) -> str:
    line = places.line(trouble.path)
    return f"{name}, line {line}: " if line else f"{name}: "


def _in_order(troubles: list[Trouble], places: Places) -> list[Trouble]:
    return sorted(troubles, key=lambda trouble: places.line(trouble.path) or 0)


def _cut(problems: list[str], name: str) -> list[str]:
    if len(problems) <= MAX_PROBLEMS:
        return problems
    more = len(problems) - MAX_PROBLEMS
    return [*problems[:MAX_PROBLEMS], f"{name}: and {more:,} more problems like these; correct these first"]
