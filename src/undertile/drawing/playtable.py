"""What stands under the plan of the opening: play at each depth as it was judged, squareness, drain, key."""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction

from undertile.drawing.plangeometry import PlanView
from undertile.drawing.scene import Box, Hatch, Line, Poly
from undertile.drawing.sheet import SMALL, WIDTH, Sketch
from undertile.drawing.walldata import Room
from undertile.findings import Check, Verdict
from undertile.framing.say import code_place
from undertile.pan.drain import drain_checks
from undertile.pan.play import play_checks
from undertile.pan.seat import asked_depths, flange_heights, play_window
from undertile.pan.set_place import set_place
from undertile.pan.square import square_checks

TABLE = 11.0
"""Type size of the table and of what is said under it: read at arm's length. [pt]"""


@dataclass(frozen=True)
class PlayRow:
    """Play at one depth and height, in the words the check was judged with."""

    depth: Fraction
    height: str
    opening: str
    play: str
    bare: str
    shimmed: str
    verdict: Verdict


def play_rows(room: Room, view: PlanView) -> list[PlayRow]:
    """One row for each depth asked and flange height read."""
    # Judged again in the unit the sheet prints in; the same call as the stage's own.
    found: dict[str, Check] = {check.code: check for check in play_checks(view.built)[0]}
    rows = []
    heights = flange_heights(view.built.survey, room.pan.pan)
    many = len(heights) > 1
    for depth in asked_depths(room.pan.pan):
        for height in heights:
            at = code_place(depth) + (f"-at-{code_place(height)}" if many else "")
            check = found.get(f"play-{at}")
            if check is None:
                continue
            width = found.get(f"width-{at}")
            sizes = re.fullmatch(r"(.+) bare, (.+) shimmed", width.value) if width is not None else None
            opening = opening_at(view, depth)
            rows.append(
                PlayRow(
                    depth,
                    room.place(height) if many else "",
                    "" if opening is None else view.built.down(opening),
                    check.value,
                    sizes[1] if sizes else "",
                    sizes[2] if sizes else "",
                    check.verdict,
                )
            )
    return rows


def opening_at(view: PlanView, depth: Fraction) -> Fraction | None:
    """Between the planes at a depth; None when not known. [in]"""
    left, right = view.plane_at("L", depth), view.plane_at("R", depth)
    if left is None or right is None or not view.width_known:
        return None
    return right - left


def draw_foot(sketch: Sketch, room: Room, view: PlanView, rows: list[PlayRow], y: float) -> float:
    """The table of play, what else is known, and the key."""
    words = room.words
    if rows:
        y = _table(sketch, room, view, rows, y)
    window = play_window(room.pan.pan)
    built = view.built
    lines = []
    if not built.alcove and view.size is not None:
        lines.append(words("open side"))
    if rows:
        both = words("to", low=built.near(window.low), high=built.near(window.widest))
        said = words("wanted", window=both)
        if view.size is not None:
            least, most = view.size[0] + window.low, view.size[0] + window.widest
            said += " " + words("opening wanted", low=room.amount(least), high=room.amount(most))
        lines.append(said)
        lines.append(words("straight"))
        lines += _left_over(room, view, rows)
    lines += _check_words(room, view)
    for line in lines:
        y = sketch.paragraph(y - sketch.paper(0.02), line, TABLE)
    return _key(sketch, room, view, y - sketch.paper(0.06))


def _left_over(room: Room, view: PlanView, rows: list[PlayRow]) -> list[str]:
    """What of the play is left to the pan where the walls are out of square; nothing where they take none."""
    place, built = set_place(view.built), view.built
    openings = [opening_at(view, row.depth) for row in rows]
    if place is None or place.least > place.most or view.size is None or not view.width_known:
        return []
    known = [each - view.size[0] for each in openings if each is not None]
    left = place.most - place.least
    if not known or left >= min(known) or place.left != place.right:
        return []
    return [room.words("left over", left=built.down(left), each=built.near(place.left))]


def _check_words(room: Room, view: PlanView) -> list[str]:
    words = room.words
    built = view.built
    checks = {check.code: check for check in (*square_checks(built), *drain_checks(built))}
    out = []
    squareness = checks.get("diagonals")
    if squareness is not None:
        sizes = re.fullmatch(r"from back left (.+), from back right (.+)", (squareness.because or ("",))[0])
        apart = squareness.value.removeprefix("differ ")
        if sizes and squareness.verdict is not Verdict.NOT_SHOWN:
            out.append(words("diagonals", first=sizes[1], second=sizes[2], apart=apart))
        else:
            out.append(words("diagonals unknown"))
    for code in ("drain-across", "drain-out"):
        check = checks.get(code)
        if check is not None:
            verdict = words(check.verdict.value)
            margin = f", {words('margin', margin=check.margin)}" if check.margin else ""
            out.append(words(code, verdict=verdict, margin=margin))
    return out


def _table(sketch: Sketch, room: Room, view: PlanView, rows: list[PlayRow], y: float) -> float:
    """Play by depth; what is not known stays blank."""
    words = room.words
    heads = [
        words(each) for each in ("depth", "opening width", "pan width", "play", "bare", "shimmed", "verdict")
    ]
    pan = "" if view.size is None else view.built.up(view.size[0])
    cells = [
        [
            room.amount(row.depth) + (f" ({row.height})" if row.height else ""),
            row.opening,
            pan,
            row.play,
            row.bare,
            row.shimmed,
            words(row.verdict.value),
        ]
        for row in rows
    ]
    wide = sketch.paper(WIDTH) / len(heads)
    tall = sketch.pt(TABLE) * 1.45
    for c, head in enumerate(heads):
        sketch.text(sketch.left + c * wide, y - sketch.pt(SMALL), head, SMALL)
    y -= tall * 0.9
    sketch.add(Line("FRAME", (sketch.left, y), (sketch.right, y)))
    for line in cells:
        for c, cell in enumerate(line):
            sketch.text(sketch.left + c * wide, y - tall * 0.75, cell, TABLE, bold=c in (3, 6))
        y -= tall
        sketch.add(Line("FRAME", (sketch.left, y), (sketch.right, y)))
    return y - sketch.paper(0.04)


def _key(sketch: Sketch, room: Room, view: PlanView, y: float) -> float:
    """What the lines are."""
    words = room.words
    x, level = sketch.left, y - sketch.pt(SMALL)
    entries = [
        ("PLANE", "plane line"),
        ("STRIP", "key put on"),
        ("TAKE-OFF", "key take"),
        *([("STUD-BEFORE", "key before")] if _moved(view) else []),
        ("SHIM", "shim"),
        ("DIAGONAL", "diagonal"),
    ]
    for layer, key in entries:
        if not any(item.layer == layer for item in sketch.items):
            continue
        text = words(key)
        wide = sketch.paper(0.34) + sketch.wide(text, SMALL)
        if x > sketch.left and x + wide > sketch.right:
            x, level = sketch.left, level - sketch.pt(SMALL) * 1.6
        box = Box(x, level - sketch.paper(0.05), x + sketch.paper(0.26), level + sketch.paper(0.05))
        if layer in ("PLANE", "DIAGONAL"):
            sketch.add(Line(layer, (box.left, level), (box.right, level)))
        elif layer in ("TAKE-OFF", "STUD-BEFORE"):
            sketch.add(Poly("STUD-BEFORE", box.corners, closed=True))
        if layer == "TAKE-OFF":
            sketch.add(Hatch(layer, box.corners, 45.0, sketch.paper(0.04), cross=True))
        elif layer in ("STRIP", "SHIM"):
            sketch.add(Poly(layer, box.corners, closed=True, fill=0.82 if layer == "STRIP" else 0.25))
        sketch.text(x + sketch.paper(0.34), level, text, SMALL, middle=True)
        x += wide + sketch.paper(0.22)
    return level - sketch.pt(SMALL)


def _moved(view: PlanView) -> bool:
    """Whether a face lies elsewhere after the work with nothing cut off or put on: a new stud, a sister."""
    return any(
        face.before != face.after and not face.cut and not face.put_on
        for faces in view.walls.values()
        for face in faces
        if face.before is not None and face.after is not None
    )
