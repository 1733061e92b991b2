"""``--if``: the job as it would be with another reading. Nothing is written."""

from __future__ import annotations

import re
from collections.abc import Sequence
from fractions import Fraction
from typing import Any

from undertile.cli.rearrange import rearranged
from undertile.errors import FileError, InputError, LengthError
from undertile.job import Job
from undertile.job.address import canonical, join, split
from undertile.job.model import job_shape
from undertile.job.near import nearest
from undertile.job.plain import taken_apart
from undertile.job.settle import settle
from undertile.lengths import parse_length

NOT_MEASURED = "not measured"
_CHECK = re.compile(r"(width|gap|diagonal|level|repeat|square) (.+)", re.IGNORECASE)
_STUD = re.compile(r"\s*([A-Za-z0-9]+)\s+at\s+(.+?)\s*", re.IGNORECASE)


def as_if(job: Job, wishes: Sequence[str]) -> Job:
    """A copy of the job with some facts as they might have been.

    Parameters
    ----------
    job : Job
    wishes : sequence of str
        ``L3 at 54 = 5-7/8``, ``L3 at 54 = not measured``, ``width back-low = 60-1/8``; a whole row or stud as
        ``rearrange`` reads it (``stud L2 = reversed``); or any fact by its address:
        ``survey.widths.w1.reading = 60-1/8``.

    Raises
    ------
    FileError
        With a line for each wish that cannot be understood or used.
    """
    raw = taken_apart(job)
    problems = []
    for wish in wishes:
        where, equals, value = wish.partition("=")
        try:
            if not equals or not value.strip():
                raise InputError("expected STUD at HEIGHT = READING, like L3 at 54 = 5-7/8")
            _put(raw, job, where.strip(), value.strip())
        except InputError as error:
            problems.append(f"--if {wish}: {error}")
    if problems:
        raise FileError(problems)
    changed, troubles = settle(raw, job.unit)
    if changed is None:
        raise FileError([trouble.line("--if: ") for trouble in troubles])
    return changed


def _put(raw: dict[str, Any], job: Job, where: str, value: str) -> None:
    if rearranged(raw, job, where, value):
        return
    check = _CHECK.fullmatch(where)
    if check is not None:
        _put_check(raw, check[1].lower(), check[2], value)
        return
    stud = _STUD.fullmatch(where)
    if stud is None:
        path, leaf = canonical(split(where), job_shape(), job.unit)
        if leaf.many or leaf.kind in ("flag", "whole", "number"):
            raise InputError(f"{join(path)} is no length or word; change it in the job file")
        table = raw
        for key in path[:-1]:
            if not isinstance(table.get(key), dict):
                raise InputError(f"the job has no {join(path[:-1])}; add it in the job file")
            table = table[key]
        table[path[-1]] = value
        return
    name = stud[1].upper()
    walls = raw.get("survey", {}).get("walls", {})
    known = {each: facts for wall in walls.values() for each, facts in wall.get("studs", {}).items()}
    lower = {each.upper(): each for each in known}
    if name not in lower:
        raise InputError(f"the job has no stud {stud[1]}; {nearest(stud[1], known)}")
    wall = next(facts for facts in walls.values() if lower[name] in facts.get("studs", {}))
    height = parse_length(stud[2], job.unit, what="the height").inches
    for text in wall.get("heights", ()):
        if _same(text, height, job):
            readings = known[lower[name]].setdefault("readings", {})
            for key in [key for key in readings if _same(key, height, job)]:
                del readings[key]
            if value.lower() != NOT_MEASURED:
                readings[text] = value
            return
    listed = ", ".join(wall.get("heights", ())) or "none"
    raise InputError(f"{stud[2]} is none of the heights read there ({listed})")


def _put_check(raw: dict[str, Any], kind: str, name: str, value: str) -> None:
    """A width, a level or the like by its name; not measured takes it out."""
    group = raw.get("survey", {}).get(f"{kind}s", {})
    if name not in group:
        raise InputError(f"the job has no {kind} {name}; {nearest(name, group)}")
    if value.lower() == NOT_MEASURED:
        del group[name]
    else:
        group[name]["out" if kind == "square" else "reading"] = value


def _same(text: str, height: Fraction, job: Job) -> bool:
    try:
        return parse_length(text, job.unit).inches == height
    except LengthError:
        return False
