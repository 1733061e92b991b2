"""A sheet of paper around a drawing: its scale, its head, and the lines of text under it.

Sheets fit both Letter and A4 upright with half an inch of margin: at most 7-1/4 by 9-7/8 in.
"""

from __future__ import annotations

from dataclasses import dataclass, field

from undertile.drawing.labels import Words
from undertile.drawing.metrics import fitted, rise_and_fall, text_width, wrapped
from undertile.drawing.scene import POINTS, Anchor, Box, Item, Scene, Text
from undertile.lengths import Unit

WIDTH, HEIGHT = 7.25, 9.875
"""What fits on Letter (8-1/2 x 11) and on A4 (210 x 297 mm) with 1/2 in left on every side. [in of paper]"""
TITLE, NAME, BODY, SMALL = 16.0, 10.5, 9.5, 8.5
"""Type sizes. [pt]"""
LEADING = 1.3

SCALES: dict[Unit, tuple[tuple[int, str], ...]] = {
    "in": (
        (8, '1-1/2" = 1 ft'),
        (12, '1" = 1 ft'),
        (16, '3/4" = 1 ft'),
        (20, "1:20"),
        (24, '1/2" = 1 ft'),
        (32, '3/8" = 1 ft'),
        (48, '1/4" = 1 ft'),
        (64, '3/16" = 1 ft'),
        (96, '1/8" = 1 ft'),
        (192, '1/16" = 1 ft'),
        (384, '1/32" = 1 ft'),
        (1200, "1:1200"),
    ),
    "mm": tuple((times, f"1:{times}") for times in (5, 10, 15, 20, 25, 30, 40, 50, 75, 100, 200, 500, 1000)),
}
"""Scales people draw rooms at, the largest first: inches of the room for one of paper, and the name."""


@dataclass(frozen=True)
class Sheet:
    """One drawing.

    Attributes
    ----------
    key : str
        For a file name: ``wall-B``, ``opening``, ``flange``, ``relief-L``.
    title : str
        As it stands on the sheet.
    scene : Scene
        For paper and screen.
    true_scene : Scene or None
        The same with nothing enlarged, where ``scene`` enlarges something; for a backend of true sizes.
    chart : bool
        Days and percent, not lengths: nothing on it is a true size.
    """

    key: str
    title: str
    scene: Scene
    true_scene: Scene | None = None
    chart: bool = False

    @property
    def measured(self) -> Scene:
        """The scene to take measures from."""
        return self.true_scene or self.scene


def scale_for(width: float, height: float, room: tuple[float, float], unit: Unit) -> tuple[int, str] | None:
    """The largest scale at which a size of the room fits on paper; None when none does.

    Parameters
    ----------
    width, height : float
        Of the room. [in]
    room : (float, float)
        On paper. [in]
    unit : {"in", "mm"}
    """
    for times, name in SCALES[unit]:
        if width / times <= room[0] + 1e-9 and height / times <= room[1] + 1e-9:
            return times, name
    return None


def coarser(times: float, unit: Unit) -> tuple[int, str] | None:
    """The next smaller drawing's scale."""
    return next(((t, name) for t, name in SCALES[unit] if t > times), None)


@dataclass(frozen=True)
class Head:
    """What stands at the top of every sheet; ``first``: what holds the work back, before all else."""

    title: str
    name: str
    place: str
    scale: str
    hold: str = ""
    says: tuple[str, ...] = ()
    first: str = ""


@dataclass
class Sketch:
    """A drawing being made: items in room inches, with paper sizes turned into them.

    ``left`` is where the sheet's left edge lies in the room's x. [in]
    """

    scale: float
    unit: Unit
    words: Words
    left: float
    width: float = WIDTH
    items: list[Item] = field(default_factory=list)

    def paper(self, inches: float) -> float:
        """Inches of paper in inches of the room."""
        return inches * self.scale

    def pt(self, points: float) -> float:
        """Points of paper in inches of the room."""
        return points / POINTS * self.scale

    @property
    def right(self) -> float:
        """The sheet's right edge. [in]"""
        return self.left + self.paper(self.width)

    def wide(self, text: str, size: float, bold: bool = False) -> float:
        """Width of a text of ``size`` points. [in of the room]"""
        return text_width(text, self.pt(size), bold)

    def add(self, *items: Item) -> None:
        """Draw on top."""
        self.items.extend(items)

    def text(
        self,
        x: float,
        y: float,
        text: str,
        size: float,
        *,
        bold: bool = False,
        anchor: Anchor = "start",
        turned: bool = False,
        halo: bool = False,
        middle: bool = False,
    ) -> Text:
        """Write; ``middle``: y is the middle of the figures, not the baseline. ``size`` in points."""
        down = self.pt(size) * 0.36 if middle else 0.0
        at = (x + down, y) if turned else (x, y - down)
        made = Text(at, text, self.pt(size), bold, anchor, turned, halo)
        self.items.append(made)
        return made

    def paragraph(
        self,
        y: float,
        text: str,
        size: float,
        *,
        bold: bool = False,
        left: float | None = None,
        right: float | None = None,
    ) -> float:
        """Write lines downward from ``y`` (the top of the first); gives the y below the last. [in]"""
        left = self.left if left is None else left
        room = (self.right if right is None else right) - left
        lines = wrapped(text, self.pt(size), room, bold)
        for i, line in enumerate(lines):
            self.text(left, y - self.pt(size) * (0.8 + LEADING * i), line, size, bold=bold)
        return y - self.pt(size) * LEADING * len(lines)

    def entry(self, y: float, label: str, text: str, size: float, hang: float = 0.32) -> float:
        """A paragraph behind a bold label; ``hang`` is the label's room. [in of paper]"""
        room = max(self.paper(hang), self.wide(label, size, True) + self.pt(4))
        self.text(self.left, y - self.pt(size) * 0.8, label, size, bold=True)
        return self.paragraph(y, text, size, left=self.left + room)

    def head(self, bottom: float, head: Head) -> float:
        """The sheet's head, its foot at ``bottom``; gives the top of the page. [in]"""
        room = self.right - self.left
        notes = [(line, SMALL, False) for line in head.says]
        if head.hold:
            notes.append((head.hold, SMALL, True))
        if head.first:
            notes.append((head.first, BODY, True))
        tall = sum(
            self.pt(size) * LEADING * len(wrapped(text, self.pt(size), room, bold))
            for text, size, bold in notes
        )
        names = [each for each in (head.name, head.place) if each]
        leadings = [max(LEADING, sum(rise_and_fall(each)) * 1.04) for each in names]
        tall += self.pt(TITLE) * 1.25 + self.pt(NAME) * sum(leadings) + self.pt(14)
        top = y = bottom + tall
        scale = f"{self.words('in mm' if self.unit == 'mm' else 'in inches')}, {head.scale}"
        scale_room = self.wide(scale, SMALL) + self.pt(8)
        title = fitted(head.title, self.pt(TITLE), room - scale_room, True)
        self.text(self.left, y - self.pt(TITLE) * 0.85, title, TITLE, bold=True)
        self.text(self.right, y - self.pt(TITLE) * 0.85, scale, SMALL, anchor="end")
        y -= self.pt(TITLE) * 1.25
        for i, (name, leading) in enumerate(zip(names, leadings, strict=True)):
            shown = fitted(name, self.pt(NAME), room, i == 0)
            foot = y - self.pt(NAME) * (leading - rise_and_fall(name)[1])
            self.text(self.left, foot, shown, NAME, bold=i == 0)
            y -= self.pt(NAME) * leading
        y -= self.pt(5)
        if head.first:
            y = self.paragraph(y, head.first, BODY, bold=True)
        if head.hold:
            y = self.paragraph(y, head.hold, SMALL, bold=True)
        for line in head.says:
            y = self.paragraph(y, line, SMALL)
        return top

    def scene(self, title: str, bottom: float, top: float) -> Scene:
        """The finished scene, paper from ``bottom`` to ``top``."""
        scene = Scene(title, self.scale, Box(self.left, bottom, self.right, top), self.unit)
        scene.add(*self.items)
        return scene
