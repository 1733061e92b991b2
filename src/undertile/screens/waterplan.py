"""Where it is wet, seen from above, as plain figures of a small drawing: walls, subfloor, where to open.

Studs are not on it: they stand on the plate, and their cuts are told in words. One unit of the drawing is an
inch; x runs from the left wall, y from the back wall toward you (convention 1.1).
"""

from __future__ import annotations

from fractions import Fraction
from typing import TYPE_CHECKING

from undertile.lengths import Unit
from undertile.screens.words import Says
from undertile.wood.probe import facts_at
from undertile.wood.say import length

if TYPE_CHECKING:
    from undertile.screens.context import View
    from undertile.wood.facts import Point
    from undertile.wood.result import WoodResult

LEAST = Fraction(24)
"""The drawing reaches at least so far both ways. [in]"""
OVER = Fraction(8)
"""How far it goes on past the last thing on it. [in]"""
BESIDE, LETTER = 16.0, 3.2
"""Room beside it at least, and of one letter of a length that stands there. [in of the drawing]"""


def water_plan(found: WoodResult, unit: Unit, says: Says) -> View | None:
    """The drawing, or None where fewer than two places lie on it.

    Parameters
    ----------
    found : WoodResult
    unit : {"in", "mm"}
    says : Says

    Returns
    -------
    dict or None
        ``width``, ``depth`` in inches, ``beside``, the room that lengths need left and right of it;
        ``marks`` and ``cuts`` with their places; ``patches``; what it says.
    """
    state = {each.name: _state(each.bad) for each in found.points}
    right = found.width
    marks = [
        {"x": float(at[0]), "y": float(at[1]), "state": state[each.name], "where": says.place(each.where)}
        for each in found.series
        if each.name in state and (at := _place(each.facts, right)) is not None
    ]
    if len(marks) < 2:
        return None
    cuts = _cuts(found, right, unit)
    rects = [
        {
            "x": float(patch.left or 0),
            "y": float(patch.back or 0),
            "w": float(patch.right - (patch.left or 0)),
            "h": float(patch.front - (patch.back or 0)),
            "layer": patch.layer,
        }
        for patch in found.patches
        if patch.right is not None and patch.front is not None
    ]
    xs = [each["x"] for each in (*marks, *cuts)] + [each["x"] + each["w"] for each in rects]
    ys = [each["y"] for each in (*marks, *cuts)] + [each["y"] + each["h"] for each in rects]
    return {
        "width": float(right) if right is not None else float(max(Fraction(max(xs)) + OVER, LEAST)),
        "depth": float(max(Fraction(max(ys)) + OVER, LEAST)),
        "beside": max([BESIDE, *(6 + LETTER * len(each["at"]) for each in cuts if each["wall"] != "B")]),
        "closed": right is not None,
        "marks": marks,
        "cuts": cuts,
        "patches": rects,
        "title": says("water-plan"),
        "keys": {each: says(f"water-plan-{each}") for each in ("wet", "dry", "unknown", "cut")},
    }


def _state(bad: bool | None) -> str:
    return "unknown" if bad is None else "wet" if bad else "dry"


def _place(point: Point, right: Fraction | None) -> tuple[Fraction, Fraction] | None:
    """Where a place is from above; None for a stud, and where it is not said."""
    if point.member == "subfloor" and point.x is not None and point.y is not None:
        return point.x.inches, point.y.inches
    if point.member == "plate" and point.wall and point.along is not None:
        return _on_wall(point.wall, point.along.inches, right)
    return None


def _on_wall(wall: str, along: Fraction, right: Fraction | None) -> tuple[Fraction, Fraction] | None:
    if wall == "R":
        return None if right is None else (right, along)
    return (along, Fraction(0)) if wall == "B" else (Fraction(0), along)


def _cuts(found: WoodResult, right: Fraction | None, unit: Unit) -> list[View]:
    """Where the plate is opened to, with its place along its wall."""
    out = []
    for cut in found.cuts:
        if not cut.line.startswith("plate") or cut.at is None:
            continue
        told = facts_at(cut.line, cut.at, right)
        wall, along = str(told["wall"]), Fraction(told["along"])
        at = _on_wall(wall, along, right)
        if at is not None:
            out.append({"x": float(at[0]), "y": float(at[1]), "wall": wall, "at": length(along, unit)})
    return out
