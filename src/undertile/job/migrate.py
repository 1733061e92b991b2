"""From older versions of the job file to the current one, one step a version, nothing lost on the way.

A step moves what it knows and leaves the rest as it is: what is wrong with the rest is said afterwards,
in the words of the current version. What a step cannot move is a problem of its own.

Version 1 (the first) kept a wall's readings in rows, one for each height, beside the studs' places::

    units = "in"                                    # now `unit`
    [survey.walls.B]
    heights_read = ["2", "48"]                      # now `heights`
    studs = { B1 = "8", B2 = "24" }                 # now a table each, with `along`
    rows = { "2" = ["6-0", ""], "48" = ["6-0", "x"] }    # now `readings` of each stud
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

from undertile.job.trouble import Trouble, shown

FIRST = 1


def migrate(raw: dict[str, Any], version: int) -> tuple[dict[str, Any], list[Trouble]]:
    """A job file's tables as the current version has them.

    Parameters
    ----------
    raw : dict
        As read, of ``version``; not changed.
    version : int
        From ``FIRST`` to the current one.
    """
    troubles: list[Trouble] = []
    for step in STEPS[version - FIRST :]:
        raw = step(raw, troubles)
    return raw, troubles


def _from_1(raw: dict[str, Any], troubles: list[Trouble]) -> dict[str, Any]:
    out = _renamed(raw, "units", "unit", (), troubles)
    survey = out.get("survey")
    walls = survey.get("walls") if isinstance(survey, Mapping) else None
    if isinstance(survey, Mapping) and isinstance(walls, Mapping):
        moved = {name: _wall(wall, ("survey", "walls", name), troubles) for name, wall in walls.items()}
        out["survey"] = {**survey, "walls": moved}
    return out


def _wall(wall: Any, path: tuple[str, ...], troubles: list[Trouble]) -> Any:
    if not isinstance(wall, Mapping):
        return wall
    out = _renamed(wall, "heights_read", "heights", path, troubles)
    studs, rows = out.get("studs"), out.pop("rows", {})
    if isinstance(studs, Mapping):
        out["studs"] = {
            name: {"along": along} if not isinstance(along, Mapping) else along
            for name, along in studs.items()
        }
    if not isinstance(rows, Mapping):
        troubles.append(
            Trouble(
                (*path, "rows"), "a table of rows by height", shown(rows), 'write { "48" = ["...", "..."] }'
            )
        )
        return out
    for height, row in rows.items():
        _spread(out, height, row, (*path, "rows", height), troubles)
    return out


def _spread(
    wall: dict[str, Any], height: str, row: Any, path: tuple[str, ...], troubles: list[Trouble]
) -> None:
    """One row of readings, given to the studs it was written beside."""
    studs = wall.get("studs")
    if not isinstance(studs, Mapping) or not isinstance(row, list) or len(row) != len(studs):
        count = len(studs) if isinstance(studs, Mapping) else 0
        found = str(len(row)) if isinstance(row, list) else shown(row)
        expected = f"a list of {count} readings, one for each of the wall's studs"
        troubles.append(Trouble(path, expected, found, 'write one for each, "" where not measured'))
        return
    for stud, reading in zip(studs.values(), row, strict=True):
        readings = stud.setdefault("readings", {})
        if isinstance(readings, dict):
            readings[height] = reading
        else:
            troubles.append(
                Trouble(
                    path, "readings in rows or at the stud, not both", shown(readings), "keep one of them"
                )
            )


def _renamed(
    table: Mapping[str, Any], old: str, new: str, path: tuple[str, ...], troubles: list[Trouble]
) -> dict[str, Any]:
    out = dict(table)
    if old in out:
        value = out.pop(old)
        if new in out:
            troubles.append(
                Trouble((*path, old), f"`{old}` or `{new}`, not both", "both", f"keep `{old}` in version 1")
            )
        out[new] = value
    return out


STEPS: tuple[Callable[[dict[str, Any], list[Trouble]], dict[str, Any]], ...] = (_from_1,)
"""Steps from version 1 on, in order; as many as there are versions before the current one."""
