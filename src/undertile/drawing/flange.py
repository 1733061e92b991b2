"""The flange detail at full size: stud, what is put on it, shim, flange, board and what goes on the board.

A section through one stud in the flange zone: the room to the right, x = 0 the wall's plane there, y the
height above the subfloor. A thickness that was not measured is not drawn, and the sheet says so.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

from undertile.cutting.lengths import PLATE
from undertile.drawing.metrics import fitted
from undertile.drawing.placing import spread
from undertile.drawing.scene import Box, Dim, Hatch, Line, Poly, Scene
from undertile.drawing.sheet import BODY, HEIGHT, LEADING, SMALL, Head, Sheet, Sketch
from undertile.drawing.walldata import Room, strip_places
from undertile.framing.plan import MemberPlan
from undertile.framing.say import stock_named
from undertile.framing.words import bottom_up
from undertile.lengths import MM, Length
from undertile.pan.built import Built
from undertile.pan.gaps import gap_at

ZERO = Fraction(0)
GAP = {"in": Fraction(1, 4), "mm": 6 * MM}
"""Board to flange (stops) or board to the pan (laps); common practice, no source."""
REACHES = tuple((Fraction(a, 4), Fraction(b, 4)) for a, b in ((18, 9), (18, 6), (10, 8), (10, 5), (6, 4)))
"""How far the section may reach under and over the top of the flange; the first that fits counts. [in]"""
GAPS = 11.0
"""Type size of the list of gaps: read at arm's length. [pt]"""
UPSTAND = Fraction(1)
"""Height of the upstand as sketched; it is not measured. [in]"""
STUD_DRAWN = Fraction(5, 4)
"""How much of the stud's depth is drawn. [in]"""


@dataclass(frozen=True)
class Layer:
    """One thing in the section: from x to x, from y to y, and what is written at it."""

    name: str
    left: Fraction
    right: Fraction
    low: Fraction
    high: Fraction
    words: str
    fill: float | None = None
    hatch: tuple[float, float] | None = None


def flange_sheet(room: Room) -> Sheet | None:
    """The detail; None where the pan's flange is not measured in height."""
    top = room.pan.pan.flange_height
    if top is None:
        return None
    title = room.words("flange detail")
    scenes = (_Detail(room, top.inches, reach).scene(title) for reach in REACHES)
    fitting = next((scene for scene in scenes if scene.paper[1] <= HEIGHT), None)
    return Sheet("flange", title, fitting or _Detail(room, top.inches, REACHES[-1]).scene(title))


def chosen(built: Built) -> MemberPlan | None:
    """The stud that shows most: shim, strips and planing in the flange zone; the first of the likes."""
    beside = [m for wall in "BLR" for m in built.members(wall) if built.beside_pan(m) and built.flange(wall)]

    def shows(member: MemberPlan) -> tuple[int, int, int]:
        pieces = [piece for piece in member.recipe.pieces if piece.first == 0]
        cut = bool(member.recipe.depth) and member.recipe.depth[0] > 0
        return len(pieces) > 0, member.recipe.flange_shim, cut

    return max(beside, key=lambda m: sum(shows(m)), default=None)


class _Detail:
    """The section at one stud."""

    def __init__(self, room: Room, top: Fraction, reach: tuple[Fraction, Fraction]) -> None:
        self.room, self.top = room, top
        self.built = Built(room.pan, room.survey, room.framing, room.plan, room.unit, room.job.unit)
        self.member = chosen(self.built)
        self.laps = room.pan.pan.detail == "laps"
        self.low, self.high = max(ZERO, top - reach[0]), top + reach[1]
        self.sketch = Sketch(1.0, room.unit, room.words, -2.0)

    def scene(self, title: str) -> Scene:
        """Draw it."""
        layers = [*self._stud(), *self._pan(), *self._board()]
        for layer in layers:
            self._draw(layer)
        self._plane()
        self._floor()
        self._labels(layers)
        self._sizes()
        words, job = self.room.words, self.room.job
        bottom = self._foot(float(self.low) - 0.45)
        says = [words("laps" if self.laps else "stops") + "."]
        if self.member is None:
            says.append(words("detail any").capitalize() + ".")
        gap = self.room.amount(GAP[self.room.unit])
        says += [words("gap source", amount=gap)]
        stud = "" if self.member is None else f" {words('detail at', stud=self.member.name)}"
        head = Head(
            title + stud,
            job.name,
            job.place,
            words("full size"),
            self.room.warning(amounts=True),
            tuple(says),
        )
        top = self.sketch.head(float(self.high) + 0.3, head)
        return self.sketch.scene(f"{job.name}: {title}".strip(": "), bottom, top)

    def _step(self) -> Fraction:
        """How far the plane above the flange stands in front of the one in it. [in]"""
        plane = self.room.plan.planes.get(self.member.wall) if self.member is not None else None
        return ZERO if plane is None else plane.step

    def _face(self) -> tuple[Fraction, Fraction]:
        """Face before and after at the lowest height, from the plane there (plus = proud). [in]"""
        if self.member is None:
            return ZERO, ZERO
        return self.member.offsets[0] - self.member.target[0], self.member.finished[0] - self.member.target[0]

    def _stud(self) -> list[Layer]:
        """Stud, what comes off, strips, shim or gap."""
        words, room = self.room.words, self.room
        before, after = self._face()
        recipe = self.member.recipe if self.member is not None else None
        depth = recipe.depth[0] if recipe is not None and recipe.depth else ZERO
        wood = before - depth
        if recipe is not None and set(recipe.families) & {"sister", "replace", "channel"}:
            wood = after  # a new face: what is under it is not what was read
        back = min(wood, ZERO) - STUD_DRAWN
        foot = max(self.low, PLATE)
        out = [Layer("STUD", back, wood, foot, self.high, words("stud"), 1.0, (80.0, 0.22))]
        if self.low < PLATE:
            out.append(Layer("PLATE", back, wood, self.low, PLATE, words("plate"), 1.0))
        if depth:
            text = words("stud before", amount=room.amount(depth))
            out.append(Layer("TAKE-OFF", wood, before, foot, self.high, text, None, (45.0, 0.06)))
        at = wood
        if self.member is not None and recipe is not None:
            places = strip_places(room, self.member)
            for i, piece in enumerate(bottom_up(recipe.pieces)):
                low, high = places[piece]
                if low >= min(high, self.high):
                    continue  # it fills a bow higher up, where this section does not reach
                stock = stock_named(words.stuff(piece.stock), piece.thickness, room.unit)
                text = words("strip is", stock=stock)
                if piece.first == 0:
                    left, at = at, at + piece.thickness
                else:
                    left = at
                grey = (0.85, 0.72, 0.6)[i % 3]
                out.append(Layer("STRIP", left, left + piece.thickness, low, self.high, text, grey))
        gap = -after
        if recipe is not None and gap > 0:
            text = words("shim is" if recipe.flange_shim else "gap is", amount=room.amount(gap))
            low, high = self.top - UPSTAND, self.top
            fill = 0.25 if recipe.flange_shim else None
            out.append(Layer("SHIM", after, ZERO, max(low, self.low), high, text, fill))
        return out

    def _pan(self) -> list[Layer]:
        """The flange, its thickness as measured, and the pan under it as a sketch."""
        thick = self.room.pan.pan.flange_thickness
        if thick is None:
            return [Layer("PAN", ZERO, ZERO, self.top - UPSTAND, self.top, self.room.words("flange unknown"))]
        text = self.room.words("flange is", amount=self.room.amount(thick.inches))
        return [Layer("PAN", ZERO, thick.inches, self.top - UPSTAND, self.top, text, 0.4)]

    def _board(self) -> list[Layer]:
        """Board, membrane, mortar and tile as thick as measured; stops at one that is not known."""
        finish, words = self.room.framing.finish, self.room.words
        step = self._step()
        gap = GAP[self.room.unit]
        low = self.top - UPSTAND + gap if self.laps else self.top + gap
        at, out = step, []
        layers: tuple[tuple[str, Length | None, str], ...] = (
            ("board", finish.board, "BOARD"),
            ("membrane", finish.membrane, "FINISH"),
            ("mortar", finish.mortar, "FINISH"),
            ("tile", finish.tile, "FINISH"),
        )
        self.unknown = [words(f"{name} word") for name, thick, _ in layers if thick is None]
        fills = {"board": 0.93, "membrane": 0.2, "mortar": 0.8, "tile": 1.0}
        for name, thick, layer in layers:
            if thick is None:
                break
            text = words(name, amount=self.room.amount(thick.inches))
            hatch = (135.0, 0.09) if name == "tile" else None
            foot = low - (gap / 2 if name != "board" and not self.laps else ZERO)
            out.append(Layer(layer, at, at + thick.inches, foot, self.high, text, fills[name], hatch))
            at += thick.inches
        return out

    def _draw(self, layer: Layer) -> None:
        left, right = float(layer.left), float(layer.right)
        low, high = float(max(layer.low, self.low)), float(layer.high)
        if left == right:
            self.sketch.add(Line(layer.name, (left, low), (left, high)))
            return
        box = Box(left, low, right, high)
        self.sketch.add(Poly(layer.name, box.corners, closed=True, fill=layer.fill))
        if layer.hatch is not None:
            angle, gap = layer.hatch
            self.sketch.add(Hatch(layer.name, box.corners, angle, gap, cross=layer.name == "TAKE-OFF"))
        if layer.name == "PAN":
            foot, far = low, 2.2
            thick = right - left
            deck = ((right, foot + thick), (far, foot + thick - 0.05), (far, foot - 0.05), (left, foot))
            self.sketch.add(Poly("PAN", ((left, foot), *deck[:3]), closed=True, fill=0.75))

    def _plane(self) -> None:
        """Where the wall's plane runs."""
        self.sketch.add(Line("PLANE", (0.0, float(self.low) - 0.12), (0.0, float(self.high) + 0.08)))

    def _floor(self) -> None:
        if self.low == 0:
            self.sketch.add(Line("PLATE", (-1.9, 0.0), (2.2, 0.0)))

    def _labels(self, layers: list[Layer]) -> None:
        """Names in a column at the right, each with a line to what it names."""
        sketch, words = self.sketch, self.room.words
        named = [(layer, layer.words) for layer in layers]
        anchors = []
        for i, (layer, _) in enumerate(reversed(named)):
            low, high = float(max(layer.low, self.low)), float(layer.high)
            if layer.name in ("PAN", "SHIM", "PLATE"):
                y = low + (high - low) * (0.75 if layer.name == "PAN" else 0.45)
            else:
                y = high - 0.2 - 0.24 * i
            anchors.append((layer, (float(layer.left) + float(layer.right)) / 2, y))
        plane = words("plane is")
        entries = [(y, x, layer.words) for layer, x, y in anchors]
        entries.append((float(self.low) - 0.06, 0.0, plane))
        thick = self.room.pan.pan.flange_thickness
        edge = 0.0 if thick is None else float(thick.inches)
        entries.append((float(self.top), edge, words("flange top is", amount=self.room.amount(self.top))))
        entries.sort()
        tall = sketch.pt(BODY) * LEADING * 1.15
        places = spread([y for y, _, _ in entries], [tall] * len(entries)) or [y for y, _, _ in entries]
        left = 2.35
        for (y, x, text), place in zip(entries, places, strict=True):
            sketch.add(Line("LEADER", (x, y), (left - 0.06, place)))
            shown = fitted(text, sketch.pt(BODY), sketch.right - left)
            sketch.text(left, place, shown, BODY, middle=True)

    def _sizes(self) -> None:
        """Height of the flange over the subfloor, at the left of the stud."""
        level = -1.72
        if self.low == 0:
            text = self.room.amount(self.top)
            size = self.sketch.pt(SMALL)
            self.sketch.add(Dim((-1.4, 0.0), (-1.4, float(self.top)), "y", level, text, size))

    def _foot(self, y: float) -> float:
        """What is not known, the bar to check the print by, and the gaps stud by stud."""
        sketch, words, room = self.sketch, self.room.words, self.room
        for name in self.unknown:
            y = sketch.paragraph(y, words("unknown layer", what=name).capitalize() + ".", BODY)
        bar, said = (2.0, '2"') if room.unit == "in" else (float(50 * MM), "50 mm")
        y = sketch.paragraph(y, words("pan sketched", bar=said), BODY)
        y -= 0.08
        sketch.add(
            Dim((sketch.left + 0.1, y), (sketch.left + 0.1 + bar, y), "x", y - 0.12, said, sketch.pt(SMALL))
        )
        y -= 0.34
        return self._gaps(y)

    def _gaps(self, y: float) -> float:
        """Stud by stud what stands behind the flange."""
        sketch, words, built = self.sketch, self.room.words, self.built
        rows = []
        for wall in ("B", "L", "R"):
            zone = built.flange(wall)
            rows += [(m, gap_at(m, zone)) for m in built.members(wall) if built.beside_pan(m) and zone]
        if not rows:
            return y
        y = sketch.paragraph(y, words("gaps head"), GAPS, bold=True)
        x, wide = sketch.left, max(sketch.paper(1.05), *(self._wide(m, gap) for m, gap in rows))
        for member, gap in rows:
            if x + wide > sketch.right:
                x, y = sketch.left, y - sketch.pt(GAPS) * LEADING
            name = sketch.text(x, y - sketch.pt(GAPS) * 0.8, member.name, GAPS, bold=True)
            sketch.text(
                name.box.right + sketch.pt(4), y - sketch.pt(GAPS) * 0.8, self._gap_words(member, gap), GAPS
            )
            x += wide
        return y - sketch.pt(GAPS) * LEADING

    def _wide(self, member: MemberPlan, gap: Fraction) -> float:
        name = self.sketch.wide(member.name, GAPS, True) + self.sketch.pt(4)
        return name + self.sketch.wide(self._gap_words(member, gap), GAPS) + self.sketch.paper(0.2)

    def _gap_words(self, member: MemberPlan, gap: Fraction) -> str:
        words = self.room.words
        if gap < 0:
            return words("proud by", amount=self.built.up(-gap))
        if member.recipe.flange_shim:
            return words("shim is", amount=self.room.amount(gap))
        return words("no gap") if not gap else words("gap is", amount=self.built.up(gap))
