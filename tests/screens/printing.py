"""A page as Chromium prints it, read back by pypdf: words, lines drawn, and where they stand on the paper."""

from __future__ import annotations

import io
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from pypdf import PageObject, PdfReader

if TYPE_CHECKING:
    from playwright.sync_api import Page

PAPERS = {"Letter": (612.0, 792.0), "A4": (595.28, 841.89)}
"""published: ANSI Letter 8.5 x 11 in; ISO 216 A4 210 x 297 mm. [points]"""
MM = 72 / 25.4
"""A millimetre. [points]"""


@dataclass(frozen=True)
class Box:
    """A filled rectangle, its corner the lower left one; a drawn line is a thin one. [points]"""

    x: float
    y: float
    wide: float
    high: float

    def within(self, other: Box, slack: float = 0.05) -> bool:
        """Whether nothing of it lies outside another."""
        return (
            self.x >= other.x - slack
            and self.y >= other.y - slack
            and self.x + self.wide <= other.x + other.wide + slack
            and self.y + self.high <= other.y + other.high + slack
        )


@dataclass(frozen=True)
class Sheet:
    """One sheet of paper as a browser printed it.

    Attributes
    ----------
    size : (float, float)
        Wide, high. [points]
    text : str
    lowest : str
        The last line above the foot, blanks left out.
    filled, framed : list of Box
        Areas painted full, as a table's lines are; rectangles of lines, as a box to write in is.
    open : Box
        The part of the sheet that may be painted on at all: what lies outside it is cut off.
    """

    size: tuple[float, float]
    text: str
    lowest: str
    filled: list[Box]
    framed: list[Box]
    open: Box

    def upright(self, thin: float = 2.0) -> list[Box]:
        """The sides of boxes: thin and standing, and the frames themselves. [points]"""
        return [box for box in self.filled if box.wide <= thin < box.high] + self.framed


FOOT = 16 * MM
"""Below this stands which page it is. [points]"""


def printed(page: Page, size: str) -> list[Sheet]:
    """What the browser prints of the page it shows, set as its dialog is at first: no backgrounds."""
    return [_read(each) for each in PdfReader(io.BytesIO(page.pdf(format=size))).pages]


def _read(sheet: PageObject) -> Sheet:
    lines: dict[int, list[str]] = {}
    path: list[Box] = []
    filled: list[Box] = []
    framed: list[Box] = []
    clips: list[Box] = []
    ends_in = {b"f": filled, b"f*": filled, b"S": framed, b"W": clips, b"W*": clips, b"n": []}

    def letters(text: str, cm: list[float], tm: list[float], *_: Any) -> None:
        low = cm[1] * tm[4] + cm[3] * tm[5] + cm[5]
        if text.strip() and low > FOOT:
            lines.setdefault(round(low), []).append(text)

    def painted(name: bytes, given: list[Any], cm: list[float], *_: Any) -> None:
        if name == b"re":
            x, y, wide, high = map(float, given)
            left, low = cm[0] * x + cm[4], cm[3] * y + cm[5]
            right, top = cm[0] * (x + wide) + cm[4], cm[3] * (y + high) + cm[5]
            path.append(Box(min(left, right), min(low, top), abs(right - left), abs(top - low)))
        elif name in ends_in:
            ends_in[name].extend(path)
            if name not in (b"W", b"W*"):
                path.clear()

    text = sheet.extract_text(visitor_text=letters, visitor_operand_before=painted)
    return Sheet(
        (float(sheet.mediabox[2]), float(sheet.mediabox[3])),
        text,
        "".join("".join(lines[min(lines)]).split()) if lines else "",
        filled,
        framed,
        max(clips, key=lambda box: box.wide * box.high),
    )
