"""The facts as they stood after one visit: what was known on the first day, shown again on the third."""

from __future__ import annotations

from typing import Any

from undertile.errors import InputError
from undertile.wood.facts import Equipment, LeakFacts, Point, WoodFacts
from undertile.wood.say import listed
from undertile.wood.typed import read_moment

_BY_VISIT = ("shown", "temperatures", "surface", "awl", "pick", "chips")
_DAYS = ("out", "new", "bare")


def as_of(facts: WoodFacts, visit: str) -> WoodFacts:
    """Everything up to the end of a visit's day; nothing later.

    Parameters
    ----------
    facts : WoodFacts
    visit : str
        Its name.

    Returns
    -------
    WoodFacts

    Raises
    ------
    InputError
        If there is no such visit.
    """
    if visit not in facts.visits:
        known = listed(list(facts.visits)) or "none yet"
        raise InputError(f"expected a visit of the job ({known}), found `{visit}`; name one of them")
    moment = read_moment(facts.visits[visit].when)
    end = moment.days // 1 + 1

    def before(when: str) -> bool:
        return bool(when) and read_moment(when).days < end

    visits = {
        name: each
        for name, each in facts.visits.items()
        if name == visit or read_moment(each.when).days < moment.days
    }
    points = {name: _point(point, set(visits), before) for name, point in facts.points.items()}
    return facts.model_copy(
        update={
            "visits": visits,
            "points": points,
            "equipment": {
                name: each if not each.off or read_moment(each.off).days <= moment.days else _still_on(each)
                for name, each in facts.equipment.items()
                if read_moment(each.on).days <= moment.days
            },
            "leak": _leak(facts.leak, before),
            "trued": facts.trued if facts.trued in visits else "",
            "cover": facts.cover.model_copy(
                update={
                    "photos": {where: day for where, day in facts.cover.photos.items() if before(day)},
                    "inspection": facts.cover.inspection
                    if not facts.cover.inspected or before(facts.cover.inspected)
                    else "called",
                }
            ),
        }
    )


def _still_on(each: Equipment) -> Equipment:
    return each.model_copy(update={"off": ""})


def _point(point: Point, visits: set[str], before: Any) -> Point:
    kept: dict[str, Any] = {
        table: {name: value for name, value in getattr(point, table).items() if name in visits}
        for table in _BY_VISIT
    }
    kept |= {each: getattr(point, each) if before(getattr(point, each)) else "" for each in _DAYS}
    return point.model_copy(update=kept)


def _leak(leak: LeakFacts, before: Any) -> LeakFacts:
    kept = {}
    for table in (
        "dials",
        "pressures",
        "pours",
        "fills",
        "sprays",
        "outsides",
        "colds",
        "next_doors",
        "mended",
    ):
        kept[table] = {name: each for name, each in getattr(leak, table).items() if before(each.when)}
    kept["not_here"] = {
        name: each if before(each.out) else each.model_copy(update={"out": ""})
        for name, each in leak.not_here.items()
    }
    noticed = leak.noticed if before(leak.noticed) else ""
    return leak.model_copy(update={**kept, "noticed": noticed})
