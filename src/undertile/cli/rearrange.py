"""``--if`` for more than one reading: a line that moved, a row typed the other way, two exchanged."""

from __future__ import annotations

import re
from collections.abc import Iterable
from fractions import Fraction
from typing import Any, cast

from undertile.errors import InputError, LengthError
from undertile.job import Job
from undertile.job.near import nearest
from undertile.lengths import Unit, format_length, parse_length
from undertile.ruler import FINEST_READ, is_dyadic

_MOVED = re.compile(r"(?:wall )?([LBR]) from (\w+) at (.+?) on(?: by (stud|row))?", re.IGNORECASE)
_BY = re.compile(r"(.+?) (more|less)", re.IGNORECASE)
_ROWS = re.compile(r"rows? ([LBR]) at (.+?)(?: and (.+))?", re.IGNORECASE)
_STUDS = re.compile(r"studs? (\w+)(?: and (\w+))?", re.IGNORECASE)

Cell = tuple[dict[str, str], str]
"""A stud's readings, and the height's key in it: where one reading stands."""


def rearranged(raw: dict[str, Any], job: Job, where: str, value: str) -> bool:
    """Change many readings of a job's nested table by one wish.

    Parameters
    ----------
    raw : dict
        As ``taken_apart`` gives it; changed in place.
    job : Job
    where, value : str
        ``wall R from R3 at 2 on by stud`` and ``5/16 less``; ``row B at 24`` or ``stud L2`` and ``reversed``;
        ``rows B at 24 and 48`` or ``studs B2 and B3`` and ``exchanged``.

    Returns
    -------
    bool
        False where it is another kind of wish; nothing is changed then.

    Raises
    ------
    InputError
        Where a row, a stud or a size is none of the job.
    """
    moved, rows, studs = _MOVED.fullmatch(where), _ROWS.fullmatch(where), _STUDS.fullmatch(where)
    if moved is not None:
        _move(raw, job, moved, value)
        return True
    if (rows is None and studs is None) or value.lower() not in ("reversed", "exchanged"):
        return False
    if rows is not None:
        wall = _wall(raw, rows[1])
        names = [rows[2], rows[3]] if rows[3] else [rows[2]]
        lines = [[(its, _height(wall, name, job)) for its in _readings(wall)] for name in names]
    elif studs is not None:
        names = [studs[1], studs[2]] if studs[2] else [studs[1]]
        lines = [_up(raw, name) for name in names]
    wanted = 2 if value.lower() == "exchanged" else 1
    if len(lines) != wanted:
        raise InputError(f"expected {'two to exchange' if wanted == 2 else 'one to reverse'}, found {where}")
    if wanted == 2:
        _write([*lines[0], *lines[1]], [*_texts(lines[1]), *_texts(lines[0])])
    else:
        read = [cell for cell in lines[0] if cell[0].get(cell[1], "") not in ("", "x")]
        _write(read, _texts(read)[::-1])
    return True


def _texts(cells: Iterable[Cell]) -> list[str]:
    return [its.get(key, "") for its, key in cells]


def _write(cells: Iterable[Cell], texts: Iterable[str]) -> None:
    for (its, key), text in zip(cells, texts, strict=True):
        its.pop(key, None)
        if text:
            its[key] = text


def _wall(raw: dict[str, Any], name: str) -> dict[str, Any]:
    walls = raw.get("survey", {}).get("walls", {})
    if name.upper() not in walls:
        raise InputError(f"the job has no wall {name}; {nearest(name, walls)}")
    return cast(dict[str, Any], walls[name.upper()])


def _readings(wall: dict[str, Any]) -> list[dict[str, str]]:
    return [stud.setdefault("readings", {}) for stud in wall.get("studs", {}).values()]


def _up(raw: dict[str, Any], name: str) -> list[Cell]:
    known = {
        stud.upper(): (wall, its)
        for wall in raw.get("survey", {}).get("walls", {}).values()
        for stud, its in wall.get("studs", {}).items()
    }
    if name.upper() not in known:
        raise InputError(f"the job has no stud {name}; {nearest(name, known)}")
    wall, its = known[name.upper()]
    readings = its.setdefault("readings", {})
    return [(readings, text) for text in wall.get("heights", ())]


def _height(wall: dict[str, Any], text: str, job: Job) -> str:
    height = parse_length(text, job.unit, what="the height").inches
    for own in wall.get("heights", ()):
        try:
            if parse_length(own, job.unit).inches == height:
                return str(own)
        except LengthError:
            continue
    listed = ", ".join(wall.get("heights", ())) or "none"
    raise InputError(f"{text} is none of the heights read there ({listed})")


def _move(raw: dict[str, Any], job: Job, moved: re.Match[str], value: str) -> None:
    """Every reading of a wall from one on, and what was read again after it, more or less by a size."""
    by = _BY.fullmatch(value)
    if by is None:
        raise InputError(f"expected how much more or less, like 5/16 less, found {value}")
    size = parse_length(by[1], job.unit).inches * (1 if by[2].lower() == "more" else -1)
    wall = _wall(raw, moved[1])
    studs = list(wall.get("studs", {}))
    start = next((stud for stud in studs if stud.upper() == moved[2].upper()), None)
    if start is None:
        raise InputError(f"wall {moved[1].upper()} has no stud {moved[2]}; {nearest(moved[2], studs)}")
    first, heights = _height(wall, moved[3], job), list(wall.get("heights", ()))
    order = [(stud, z) for stud in studs for z in heights]
    if moved[4] and moved[4].lower() == "row":
        order = [(stud, z) for z in heights for stud in studs]
    for stud, z in order[order.index((start, first)) :]:
        its = wall["studs"][stud].setdefault("readings", {})
        if its.get(z, "") not in ("", "x"):
            its[z] = _shifted(its[z], size, job.unit)
    for repeat in raw.get("survey", {}).get("repeats", {}).values():
        if repeat.get("stud") in studs and repeat.get("reading") not in (None, "", "x"):
            repeat["reading"] = _shifted(repeat["reading"], size, job.unit)


def _shifted(text: str, by: Fraction, unit: Unit) -> str:
    length = parse_length(text, unit, whole="inches")
    new = length.inches + by
    own: Unit = length.unit if length.unit == "mm" or is_dyadic(new, FINEST_READ) else "mm"
    return format_length(new, own, mark=True)
