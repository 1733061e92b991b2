"""The day the face of each wet stud was read, as the record has it (docs/methods/still-to-dry.md).

A reading has no day of its own in a job; its entry has a time. That orders nothing of the record (convention
7.3): it is held against the days of the moisture readings, to tell whether a face was read while its wood was
wet. What came with a file has the time the file was opened, which tells nothing.
"""

from __future__ import annotations

from collections.abc import Collection, Mapping
from datetime import UTC, datetime

from undertile.framing.facts import Stud
from undertile.job.address import Path
from undertile.job.entry import Entry
from undertile.job.model import Job
from undertile.job.standing import Fact, first_said

UNIT: Path = ("unit",)
"""A job that is opened from a file brings its unit and its readings in one act."""


def with_read_days(job: Job, facts: Mapping[Path, Fact], kept: Collection[Path]) -> Job:
    """A job with ``framing.studs.*.read_on`` filled in where the record tells it.

    Parameters
    ----------
    job : Job
    facts : mapping of path to Fact
        Of its log.
    kept : collection of path
        Facts that are in the job.

    Returns
    -------
    Job
        The same where no stud has a moisture reading. A day that was typed stays, unless every reading of
        the stud was typed again after it.
    """
    wet = {
        point.name
        for point in job.wood.points.values()
        if point.member == "stud" and point.name and not point.reference
    }
    if not wet:
        return job
    brought = {(each.time, each.device) for each in facts[UNIT].entries} if UNIT in facts else set()
    studs = dict(job.framing.studs)
    for name, readings in _readings(facts, wet, kept).items():
        day = _read_on(readings, facts.get(("framing", "studs", name, "read_on")), brought)
        if day:
            studs[name] = studs.get(name, Stud()).model_copy(update={"read_on": day})
    if studs == job.framing.studs:
        return job
    return job.model_copy(update={"framing": job.framing.model_copy(update={"studs": studs})})


def _readings(
    facts: Mapping[Path, Fact], studs: Collection[str], kept: Collection[Path]
) -> dict[str, list[Entry]]:
    """What stands of the readings of each of these studs."""
    out: dict[str, list[Entry]] = {}
    for path, fact in facts.items():
        if len(path) != 7 or path[:2] != ("survey", "walls") or path not in kept:
            continue
        if path[3] == "studs" and path[4] in studs and path[5] in ("readings", "arris"):
            out.setdefault(path[4], []).extend(first_said(fact, each) for each in fact.standing if each.value)
    return out


def _read_on(readings: list[Entry], typed: Fact | None, brought: Collection[tuple[str, str]]) -> str:
    """The day of the oldest reading; "" where one of them has none, or a day was typed later."""
    found = []
    for each in readings:
        at = None if (each.time, each.device) in brought else _instant(each.time)
        if at is None:
            return ""
        found.append((at, each.time[:10]))
    if not found:
        return ""
    oldest, day = min(found)
    for each in typed.standing if typed is not None else ():
        then = _instant(each.time)
        if each.value and (then is None or then >= oldest):
            return ""
    return day


def _instant(time: str) -> datetime | None:
    try:
        found = datetime.fromisoformat(time)
        return (found if found.tzinfo is not None else found.replace(tzinfo=UTC)).astimezone(UTC)
    except (ValueError, OverflowError):  # no time; or of the year 1 or 9999, an offset away
        return None
