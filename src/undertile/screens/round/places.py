"""Places that can be added while a round is walked, by taps: in which wood, and where the next ones would be.

What the pad is given is plain data: it puts together the name of the new point and its facts, and keeps
them with the first thing typed there.
"""

from __future__ import annotations

from collections.abc import Container, Iterable
from fractions import Fraction
from itertools import count
from typing import Any

from undertile.lengths import MM, Unit, format_length
from undertile.screens.context import Context, View
from undertile.screens.pad_sheet import studs_in_order
from undertile.screens.round.order import MARKS, across, clock_of, subfloor, water_facts, where_of
from undertile.wood.facts import Point
from undertile.wood.gone import counted
from undertile.wood.probe import facts_at

FIRST: dict[Unit, dict[str, tuple[Fraction, Fraction]]] = {
    "in": {"along": (Fraction(6), Fraction(12)), "height": (Fraction(2), Fraction(12))},
    "mm": {"along": (150 * MM, 300 * MM), "height": (50 * MM, 300 * MM)},
}
"""The first place offered and how far apart the next: every foot, a stud low down first (common practice)."""
STUD_NEXT: dict[Unit, tuple[Fraction, ...]] = {
    "in": (Fraction(2), Fraction(12), Fraction(24), Fraction(36), Fraction(48)),
    "mm": (50 * MM, 300 * MM, 600 * MM, 900 * MM, 1200 * MM),
}
"""Heights a stud is read at, until two in a row are dry (common practice)."""
LENGTHS: dict[Unit, Fraction] = {"in": Fraction(60), "mm": 1500 * MM}
"""How far places are offered on a piece nothing is read on yet: a tub's length (ours). [in]"""
MOST = 12
"""Places offered at once."""
MOST_LAYERS = 3
COPIED = ("material", "species", "open_faces")


def places(ctx: Context, visit: str) -> View:
    """The pieces of wood a place can be in, and the next place to probe."""
    wood = counted(water_facts(ctx), clock_of(ctx))
    points = {name: point for name, point in wood.points.items() if not point.out}
    members = [
        _member(ctx, "plate", _plates(ctx), points),
        _member(ctx, "stud", _studs(ctx, points), points),
        _member(ctx, "joist", _joists(ctx, points), points),
        _member(ctx, "subfloor", _layers(ctx, points), points),
    ]
    return {
        "visit": visit,
        "members": [each for each in members if each["parts"]],
        "next": _next(ctx, points),
        "taken": list(wood.points),
    }


Part = tuple[str, str, str, dict[str, str]]
"""A piece of wood: what its points' names begin with, what it is called, on the pad, and its facts."""


def _plates(ctx: Context) -> list[Part]:
    walls = [name for name in ("L", "B", "R") if name in ctx.state.folded.job.survey.walls] or ["L", "B", "R"]
    return [
        (f"plate-{name}", ctx.says.sheet(name), ctx.says("round-plate", wall=name), {"wall": name})
        for name in walls
    ]


def _studs(ctx: Context, points: dict[str, Point]) -> list[Part]:
    walls = ctx.state.folded.job.survey.walls
    wall_of = {
        stud: name for name in ("L", "B", "R") if name in walls for stud in studs_in_order(walls[name])
    }
    for point in points.values():
        if point.member == "stud" and point.name:
            wall_of.setdefault(point.name, point.wall or "")
    return [
        (stud, stud, stud, {"name": stud, **({"wall": wall} if wall else {})})
        for stud, wall in wall_of.items()
    ]


def _joists(ctx: Context, points: dict[str, Point]) -> list[Part]:
    floor: Any = ctx.state.folded.job.facts()["floor"]
    read = [point.name for point in points.values() if point.member == "joist" and point.name]
    return [
        (f"joist-{name}", name, ctx.says("round-joist", name=name), {"name": name})
        for name in dict.fromkeys([*floor.joists, *read])
    ]


def _layers(ctx: Context, points: dict[str, Point]) -> list[Part]:
    last = max((point.layer for point in points.values() if point.member == "subfloor"), default=1)
    return [
        (
            "floor" if layer == 1 else f"floor{layer}",
            ctx.says("round-layer", layer=layer),
            subfloor(ctx, layer),
            {"layer": str(layer)},
        )
        for layer in range(1, min(last + 1, MOST_LAYERS) + 1)
    ]


def _member(ctx: Context, member: str, parts: Iterable[Part], points: dict[str, Point]) -> View:
    axes = {"stud": ("height",), "subfloor": ("x", "y")}.get(member, ("along",))
    of = [point for point in points.values() if point.member == member]
    return {
        "member": member,
        "label": ctx.says(f"round-member-{member}"),
        "axes": [
            {
                "fact": axis,
                "label": ctx.says(f"round-axis-{axis}{'-joist' if member == 'joist' else ''}"),
                "mark": mark if len(axes) > 1 else "",
            }
            for axis, mark in zip(axes, MARKS, strict=False)
        ],
        "parts": [
            {
                "name": name,
                "label": label,
                "where": where,
                "facts": facts,
                "offers": [_offers(ctx.unit, axis, [p for p in of if _in(p, facts)]) for axis in axes],
                "like": _like(ctx, points, member, facts),
            }
            for name, label, where, facts in parts
        ],
    }


def _in(point: Point, facts: dict[str, str]) -> bool:
    """Whether a point is in this piece of wood."""
    return all(
        str(getattr(point, key)) == value
        for key, value in facts.items()
        if key != "wall" or "name" not in facts
    )


def _offers(unit: Unit, axis: str, points: list[Point]) -> list[str]:
    """Places along a piece: where the next ones would be, those read already left out on one axis alone."""
    known = sorted({place.inches for point in points if (place := getattr(point, axis)) is not None})
    if axis == "height":
        step = FIRST[unit]["height"][1]
        found = [*STUD_NEXT[unit], *([known[-1] + step, known[-1] + 2 * step] if known else [])]
    else:
        start, step = FIRST[unit]["along"]
        first = known[0] % step if known else start
        end = max(LENGTHS[unit], known[-1] + 2 * step if known else 0)
        found = [first + k * step for k in range(int((end - first) / step) + 1)]
    if axis in ("x", "y"):
        found += known
    else:
        found = [each for each in found if each not in known]
    nearest = sorted(set(found), key=lambda at: min((abs(at - each) for each in known), default=at))[:MOST]
    return [text for at in sorted(nearest) if (text := _text(at, unit))]


def _text(at: Fraction, unit: Unit) -> str:
    """A place as it is typed; "" where the unit's rule does not show it."""
    try:
        return format_length(at, unit).removesuffix(" mm")
    except ValueError:
        return ""


def _like(ctx: Context, points: dict[str, Point], member: str, facts: dict[str, str]) -> View | None:
    """The wood a new place is likely of: that of a point in the same piece, or in the same kind of piece."""
    same = [(name, point) for name, point in points.items() if point.member == member and not point.reference]
    same.sort(key=lambda each: not _in(each[1], facts))
    for name, point in same:
        copied = {key: str(value) for key in COPIED if (value := getattr(point, key)) != "unknown"}
        if "material" in copied:
            if point.thickness is not None and _in(point, facts):
                copied["thickness"] = point.thickness.text
            where, at = where_of(ctx, name, point)
            what = [ctx.says.choice(copied[key]) for key in ("material", "species") if key in copied]
            told = {
                "where": ctx.says("round-at", where=where, at=at) if at else where,
                "what": ", ".join(what),
            }
            return {"facts": copied, "text": ctx.says("pad-new-like", **told)}
    return None


def _next(ctx: Context, points: dict[str, Point]) -> View | None:
    """The place whose reading tells most of how far to open; None where none would move the cut."""
    found = ctx.state.moisture
    if found is None or found.probe is None or found.probe.probe is None:
        return None
    widths = [each.reading.inches for each in ctx.state.folded.job.survey.widths.values()]
    at = facts_at(found.probe.line, found.probe.probe.at, min(widths, default=None))
    told = {key: value if isinstance(value, str) else _text(value, ctx.unit) for key, value in at.items()}
    if not all(told.values()):
        return None
    member = told.pop("member")
    axes = {"stud": ("height",), "subfloor": ("x", "y")}.get(member, ("along",))
    place = [told.pop(axis) for axis in axes]
    name = {
        "plate": f"plate-{told.get('wall')}",
        "stud": told.get("name", ""),
        "joist": f"joist-{told.get('name')}",
    }
    layer = told.get("layer", "1")
    start = name.get(member, "floor" if layer == "1" else f"floor{layer}")
    where = {
        "plate": ctx.says("round-plate", wall=told.get("wall")),
        "stud": told.get("name", ""),
        "joist": ctx.says("round-joist", name=told.get("name")),
    }.get(member, subfloor(ctx, int(layer)))
    like = _like(ctx, points, member, told)
    told_at = ctx.says("round-at", where=where, at=across(place))
    return {
        "text": ctx.says("pad-new-next", where=told_at),
        "name": named(start, place, water_facts(ctx).points),
        "where": where,
        "at": across(place),
        "facts": {
            "member": member,
            **told,
            **dict(zip(axes, place, strict=True)),
            **(like["facts"] if like else {}),
        },
    }


def named(start: str, place: Iterable[str], taken: Container[str]) -> str:
    """The name of a new point: its piece of wood and its place (``plate-B-16``); the pad makes the same.

    A piece that was cut out keeps its name; what is read where it was is counted on.
    """
    name = "-".join([start, *("".join(_plain(text)) for text in place)])
    return next(each for k in count(1) if (each := name if k == 1 else f"{name}-{k}") not in taken)


def _plain(text: str) -> Iterable[str]:
    """What an address can hold without quotes."""
    return (letter if letter.isalnum() or letter in "-/" else "_" for letter in text.strip())


def asked_for(ctx: Context) -> View | None:
    """The new place in the address, ``?place=plate-B&at-new=52``: name, where, at and facts."""
    asked, at = ctx.query.get("place", ""), ctx.query.get("at-new", "").strip()
    for member in places(ctx, "")["members"] if asked and at else ():
        for part in member["parts"]:
            place = [text.strip() for text in at.replace(";", ",").split(",")]
            if part["name"] == asked and len(place) == len(member["axes"]) and all(place):
                name = named(part["name"], place, water_facts(ctx).points)
                along = {axis["fact"]: text for axis, text in zip(member["axes"], place, strict=True)}
                like = part["like"]["facts"] if part["like"] else {}
                facts = {"member": member["member"], **part["facts"], **along, **like}
                return {"name": name, "where": part["where"], "at": across(place), "facts": facts}
    return None
