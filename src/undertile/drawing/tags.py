"""What a carpenter writes on wood, drawn: the tag with its mark, strips as bars, the key that explains them.

Arrow up = add, X = take off (common practice on framing lumber, no source); an amount stands on its stud.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

from undertile.drawing.labels import Words
from undertile.drawing.metrics import fitted
from undertile.drawing.scene import Box, Circle, Hatch, Line, Poly, Segment, Strokes
from undertile.drawing.sheet import SMALL, Sketch
from undertile.drawing.walldata import Entry, StudView, is_reset
from undertile.framing.plan import MemberPlan, Piece
from undertile.framing.say import bare_place as place
from undertile.framing.say import stock_named
from undertile.framing.say import written as amount
from undertile.framing.words import bottom_up
from undertile.lengths import Unit

TAG = 10.5
"""Type size of an amount. [pt]"""
ROW = 0.2
"""Height of one line of a tag. [in of paper]"""
SIGN = 0.13
"""Room of a mark before its figure. [in of paper]"""
RING = 0.14
"""Room of the ring of a flange shim. [in of paper]"""
BLANK = 0.5
"""Width of a box to write in. [in of paper]"""
BAR, BAR_TEXT = 0.16, 9.5
"""Width of a strip's bar [in of paper], and of the type in it [pt]."""
STUD_WIDE = Fraction(3, 2)
"""What a stud is drawn as wide; it is not measured, and the sheet says so. [in]"""

_LAYER = {
    "strip": "STRIP",
    "taper": "STRIP",
    "wet bed": "WET-BED",
    "sister": "SISTER",
    "replace": "NEW-STUD",
    "channel": "CHANNEL",
    "knock over": "NEW-STUD",
}
_ANGLE = {"sister": 90.0, "replace": 90.0, "channel": 0.0, "wet bed": 0.0}
"""Hatch of a bar that is named in it. Crosshatch is planing, stripes are what waits: as on the cards."""
STRIPES = 45.0
_GREY = 0.86
LETTERS = "abcdefghijklmnopqrstuvwxyz"
"""Strips of a stud in the order they go on; nothing else on a drawing has a letter."""


@dataclass(frozen=True)
class Bar:
    """What is put on a stud, over a run of its height: drawn beside it. ``low`` to ``high`` in inches.

    ``waits``: goes on only after the pan is set.
    """

    family: str
    low: float
    high: float
    text: str
    grey: float | None = None
    waits: bool = False


def entry_size(sketch: Sketch, row: Sequence[Entry]) -> float:
    """Width of a tag. [in of paper]"""
    return max(_entry_wide(sketch, entry) for entry in row)


def _entry_wide(sketch: Sketch, entry: Entry) -> float:
    if entry.sign == "blank":
        return BLANK
    sign = SIGN if entry.sign in ("add", "take", "as it is") else 0.0
    ring = RING if entry.ring else 0.0
    text = sketch.wide(entry.text, TAG, True) / sketch.scale + 0.02 if entry.text else 0.0
    return text + sign + ring + 0.07


def draw_tag(sketch: Sketch, x: float, y: float, row: Sequence[Entry]) -> None:
    """A tag with its middle at (x, y)."""
    wide, tall = sketch.paper(entry_size(sketch, row)), sketch.paper(ROW * len(row))
    ground = Box(x - wide / 2, y - tall / 2, x + wide / 2, y + tall / 2)
    sketch.add(Poly("FRAME", ground.corners, closed=True, fill=1.0))
    for i, entry in enumerate(row):
        level = ground.top - sketch.paper(ROW) * (i + 0.5)
        left = ground.left + sketch.paper(0.035)
        if entry.sign in ("add", "take", "as it is"):
            draw_mark(sketch, left + sketch.paper(SIGN / 2), level, entry.sign)
            left += sketch.paper(SIGN)
        if entry.text:
            left += sketch.paper(0.02)
            text = sketch.text(left, level, entry.text, TAG, bold=True, halo=True, middle=True)
            left = text.box.right
        if entry.ring:
            draw_mark(sketch, left + sketch.paper(RING / 2), level, "shim")


def draw_mark(sketch: Sketch, x: float, y: float, sign: str) -> None:
    """Arrow, X, tick or ring, with its middle at (x, y)."""
    half, tall = sketch.paper(0.042), sketch.paper(0.062)
    if sign == "shim":
        sketch.add(Circle("MARK", (x, y), sketch.paper(0.048), 1.0))
        return
    top, foot = (x, y + tall), (x - half * 0.3, y - tall * 0.7)
    lines: dict[str, tuple[Segment, ...]] = {
        "take": (((x - half, y - tall), (x + half, y + tall)), ((x - half, y + tall), (x + half, y - tall))),
        "add": (
            ((x, y - tall), top),
            ((x - half, y + tall * 0.2), top),
            ((x + half, y + tall * 0.2), top),
        ),
        "as it is": (((x - half, y), foot), (foot, (x + half * 1.1, y + tall * 0.9))),
    }
    sketch.add(Strokes("MARK", lines[sign]))


def bars_of(stud: StudView, top: float, words: Words, unit: Unit, late: Sequence[object]) -> list[Bar]:
    """The bars of one stud in the order they go on, strips by their letters."""
    member = stud.member
    if member is None:
        return []
    out = []
    for i, piece in enumerate(bottom_up(member.recipe.pieces)):
        low, high = (float(each) for each in stud.places[piece])
        if low >= high:
            continue
        text = f"{LETTERS[i]} {_thickness(piece.thickness, unit)}"
        waits = piece in late
        out.append(Bar("strip", low, high, text, 1.0 if waits else _GREY, waits))
    for family in member.recipe.families:
        if family in ("taper", "wet bed", "sister", "replace", "channel"):
            name = "re-set" if family == "replace" and is_reset(member) else family
            out.append(Bar(family, 0.0, top, words(name)))
        elif family == "knock over":
            out.append(Bar(family, 0.0, float(member.heights[0]) + 12.0, words(family)))
    return out


def _thickness(value: Fraction, unit: Unit) -> str:
    return amount(value, unit)


def draw_bar(sketch: Sketch, x: float, wide: float, bar: Bar) -> None:
    """A bar with its left edge at ``x``, without its words. [in]"""
    box = Box(x, bar.low, x + wide, bar.high)
    layer = _LAYER[bar.family]
    if bar.family == "taper":
        wedge = ((x, bar.low), (x + wide * 0.35, bar.low), (x + wide, bar.high), (x, bar.high))
        sketch.add(Poly(layer, wedge, closed=True, fill=_GREY))
    else:
        sketch.add(Poly(layer, box.corners, closed=True, fill=1.0 if bar.grey is None else bar.grey))
    if bar.waits:
        sketch.add(Hatch(layer, box.corners, STRIPES, sketch.paper(0.06)))
    elif bar.family in _ANGLE:
        sketch.add(Hatch(layer, box.corners, _ANGLE[bar.family], sketch.paper(0.06)))


def write_bar(sketch: Sketch, x: float, wide: float, bar: Bar, taken: Sequence[Box]) -> Box | None:
    """A bar's words where nothing else stands, if it is wide enough for them; gives their ground. [in]"""
    box = Box(x, bar.low, x + wide, bar.high)
    long = sketch.wide(bar.text, BAR_TEXT) + sketch.paper(0.04)
    spot = _gap(box, taken, long)
    if spot is None or wide < sketch.pt(BAR_TEXT * 1.02):
        return None
    middle = x + wide / 2
    made = sketch.text(middle, spot, bar.text, BAR_TEXT, anchor="middle", turned=True, middle=True, halo=True)
    return made.box


def _gap(box: Box, tags: Sequence[Box], long: float) -> float | None:
    """Middle of the longest stretch of a bar free of tags, if ``long`` goes in; the lowest of equal ones."""
    inside = sorted((t for t in tags if t.meets(box)), key=lambda t: t.bottom)
    best: tuple[float, float] | None = None
    at = box.bottom
    for low, high in [*((t.bottom, t.top) for t in inside), (box.top, box.top)]:
        free = low - at
        if free >= long and (best is None or free > best[0] * 1.02):
            best = (free, (low + at) / 2)
        at = max(at, high)
    return None if best is None else best[1]


def recipe_words(stud: StudView, words: Words, unit: Unit, late: Sequence[object]) -> str:
    """What is done to a stud, for the list under the drawing; "" for one that is left."""
    member = stud.member
    if member is None:
        return ""
    recipe, parts = member.recipe, []
    if recipe.passes:
        key = "do plane once" if recipe.passes == 1 else "do plane"
        parts.append(words(key, passes=recipe.passes))
    for letter, piece in zip(LETTERS, bottom_up(recipe.pieces), strict=False):
        stock = stock_named(words.stuff(piece.stock), piece.thickness, unit)
        parts.append(f"{letter}: {words('strip')} {stock}, {_run_words(stud, piece, words, unit)}")
        if piece in late:
            parts[-1] += f", {words('after pan')}"
    if recipe.taper is not None:
        low, high = (amount(t, unit) for t in recipe.taper)
        parts.append(words("do taper", low=low, high=high))
    if recipe.knock is not None:
        key = "do knock in" if recipe.knock > 0 else "do knock back"
        parts.append(words(key, amount=amount(abs(recipe.knock), unit)))
    families = _named(member)
    parts += [
        words(f"do {each}")
        for each in families
        if each in ("wet bed", "sister", "replace", "re-set", "channel")
    ]
    if stud.shim is not None:
        parts.append(words("do shim", amount=amount(stud.shim, unit)))
    return "; ".join(parts)


def _run_words(stud: StudView, piece: Piece, words: Words, unit: Unit) -> str:
    """From where to where a strip lies, as the cut list has it; else the heights it covers."""
    heights = stud.member.heights if stud.member is not None else ()
    if piece.first == 0 and piece.last == len(heights) - 1:
        return words("full height")
    low, high = stud.places[piece]
    if low >= high:
        low, high = heights[piece.first], heights[piece.last]
    if low == high:
        return words("at", at=place(low, unit))
    return words("run", low=place(low, unit), high=place(high, unit))


def foot_words(stud: StudView, words: Words, unit: Unit) -> list[str]:
    """The treatment in a word or two under the stud, a line each."""
    if stud.member is None:
        return []
    out = [words(family) for family in _named(stud.member)]
    if stud.shim is not None:
        out.append(f"{words('shim')} {amount(stud.shim, unit)}")
    return out or [words("leave")]


def _named(member: MemberPlan) -> list[str]:
    """Families as they are named on a drawing: a steel stud set again in its track is no new stud."""
    reset = is_reset(member)
    return ["re-set" if reset and family == "replace" else family for family in member.recipe.families]


KeyEntry = tuple[str, str]
"""A sign of the key (add, take, planed, strip, wait, work, blank, or "" for none), and its words."""


def draw_key(sketch: Sketch, y: float, entries: Sequence[KeyEntry]) -> float:
    """The key as a line that wraps; gives the y below it. [in]"""
    x, tall = sketch.left, sketch.pt(SMALL) * 1.6
    level = y - tall / 2
    for sign, text in entries:
        room = sketch.paper(0.2) if sign else 0.0
        wide = room + sketch.wide(text, SMALL)
        if x > sketch.left and x + wide > sketch.right:
            x, level = sketch.left, level - tall
        _key_sign(sketch, x, level, sign)
        shown = fitted(text, sketch.pt(SMALL), sketch.right - x - room)
        sketch.text(x + room, level, shown, SMALL, middle=True)
        x += wide + sketch.paper(0.2)
    return level - tall / 2


def _key_sign(sketch: Sketch, x: float, y: float, sign: str) -> None:
    if sign in ("add", "take", "shim", "as it is"):
        draw_mark(sketch, x + sketch.paper(0.08), y, sign)
    elif sign in ("corner", "edge"):
        sketch.add(Line(sign.upper(), (x, y), (x + sketch.paper(0.16), y)))
    elif sign in ("strip", "wait", "planed", "work", "blank"):
        box = Box(x, y - sketch.paper(0.06), x + sketch.paper(0.16), y + sketch.paper(0.06))
        fill = _GREY if sign == "strip" else 1.0
        sketch.add(Poly("STRIP", box.corners, closed=True, fill=fill))
        if sign == "wait":
            sketch.add(Hatch("STRIP", box.corners, STRIPES, sketch.paper(0.05)))
        elif sign == "planed":
            sketch.add(Hatch("TAKE-OFF", box.corners, 45.0, sketch.paper(0.045), cross=True))
        elif sign == "work":
            sketch.add(Hatch("SISTER", box.corners, 90.0, sketch.paper(0.05)))


def draw_balloon(sketch: Sketch, box: Box, number: str, layer: str) -> None:
    """A number in a ring."""
    x, y = (box.left + box.right) / 2, (box.bottom + box.top) / 2
    sketch.add(Circle(layer, (x, y), (box.right - box.left) / 2, 1.0))
    sketch.text(x, y, number, SMALL, bold=True, anchor="middle", middle=True, halo=True)
