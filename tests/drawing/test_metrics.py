"""Room for text: the width table against real fonts, and what is done with it."""

from __future__ import annotations

from importlib import resources
from pathlib import Path

import matplotlib
import pytest
from fontTools.ttLib import TTFont

from undertile.drawing.metrics import _WIDTHS, fitted, rise_and_fall, text_width, wrapped

DEJAVU = Path(matplotlib.get_data_path()) / "fonts" / "ttf"


def advances(path: Path) -> tuple[dict[int, str], dict[str, float]]:
    """Character map of a font, and advance widths in type sizes."""
    font = TTFont(path)
    unit = font["head"].unitsPerEm
    return font.getBestCmap(), {name: wide / unit for name, (wide, _) in font["hmtx"].metrics.items()}


def source_sans(bold: bool) -> Path:
    """The face the papers are set in."""
    name = f"SourceSansPro-{'Bold' if bold else 'Regular'}.ttf"
    return Path(str(resources.files("font_source_sans_pro").joinpath("files", name)))


@pytest.mark.parametrize("bold", [False, True])
def test_the_table_is_the_open_face_it_says(bold: bool) -> None:
    # independent: the font's own advance widths, read by fontTools
    glyphs, wide = advances(DEJAVU / ("DejaVuSans-Bold.ttf" if bold else "DejaVuSans.ttf"))
    for sign, hundredths in _WIDTHS[bold].items():
        real = wide[glyphs[ord(sign)]] * 100
        assert real - 1e-9 <= hundredths < real + 2, sign


@pytest.mark.parametrize("bold", [False, True])
def test_the_papers_own_face_needs_no_more(bold: bool) -> None:
    # independent: another face, for words of the drawings
    glyphs, wide = advances(source_sans(bold))
    for text in (
        "Back wall",
        "~+11/32!",
        "montantes B1 a B6 de 40",
        "0123456789",
        "BEFORE ANYTHING",
        "pestaña",
    ):
        assert sum(wide[glyphs[ord(sign)]] for sign in text) <= text_width(text, 1.0, bold), text


def test_signs_outside_the_table_get_room_of_their_own() -> None:
    # independent: a colour emoji of Noto is 1.245 type sizes wide, a CJK sign 1 (from memory)
    assert text_width("🚿", 10) >= 12.45
    assert text_width("浴", 10) >= 10
    assert text_width("e\u0301", 10) == text_width("e", 10)
    assert rise_and_fall("浴")[0] > rise_and_fall("B4 5/16…")[0]


def test_what_does_not_fit_is_cut_and_says_so() -> None:
    assert fitted("Back wall", 10, 1000) == "Back wall"
    cut = fitted("A very long name of a bath", 10, 60)
    assert cut.endswith("…")
    assert text_width(cut, 10) <= 60
    assert fitted("Back wall", 10, 1) == ""


def test_lines_are_broken_between_words_and_lose_none() -> None:
    text = "strip hardboard 1/8, full height; plastic shim 1/16 behind the flange"
    lines = wrapped(text, 10, 150)
    assert " ".join(lines) == text
    assert all(text_width(line, 10) <= 150 for line in lines)
    long = wrapped("a" * 80, 10, 100)
    assert "".join(long) == "a" * 80
    assert all(text_width(line, 10) <= 100 for line in long)
