"""Pages as PDF: a sheet's data and a fixed page description in, bytes out.

The sheet goes in as JSON and its strings stay data: no name that a person typed is ever read as markup.
Needs the ``paper`` extra (typst, a self-contained compiler, and a package with the open font); everything
else works without it.
"""

from __future__ import annotations

import importlib.util
import json
import unicodedata
from collections.abc import Mapping
from dataclasses import asdict
from functools import cache
from importlib import resources
from pathlib import Path
from typing import Any

from undertile.errors import UndertileError
from undertile.packet.content import CrewSheet, SurveyForm
from undertile.packet.floor_content import FloorSheet
from undertile.packet.record_content import RecordSheet
from undertile.packet.words import Words

FONT_PACKAGE = "font_source_sans_pro"
FONT_FAMILY = "Source Sans Pro"
_EXTRA = 'install the paper extra: python -m pip install "undertile[paper]"'
NAME = 56
"""Letters of a job's name that fit at the head of a page."""
_LONGEST = 24
"""Letters of a word that are kept together; a longer one may break anywhere."""
_KINDS: dict[type, str] = {CrewSheet: "crew", SurveyForm: "form", FloorSheet: "floor", RecordSheet: "record"}
"""Sheet to its page description."""
_ZERO_WIDTH_SPACE = "\u200b"


class PaperMissing(UndertileError):
    """What makes PDF is not installed: one line that says what and how."""


@cache
def fonts(with_system: bool = False) -> Any:
    """The fonts a sheet is set in, found once.

    Parameters
    ----------
    with_system : bool
        Also those of this computer: for names in letters that the sheet's own font does not have.

    Raises
    ------
    PaperMissing
        If typst or the font is not installed.
    """
    try:
        import typst
    except ImportError:
        raise PaperMissing(f"no PDF without typst, which is not installed; {_EXTRA}") from None
    found = importlib.util.find_spec(FONT_PACKAGE)
    folder = Path(found.origin).parent / "files" if found is not None and found.origin else None
    if folder is None or not folder.is_dir():
        raise PaperMissing(f"no PDF without the font {FONT_FAMILY}, which is not installed; {_EXTRA}")
    book = typst.Fonts(
        include_system_fonts=with_system, include_embedded_fonts=True, font_paths=[str(folder)]
    )
    if FONT_FAMILY not in book.families():
        raise PaperMissing(f"no PDF: {folder} holds no font {FONT_FAMILY}; {_EXTRA}")
    return book


def to_pdf(
    sheet: CrewSheet | SurveyForm | FloorSheet | RecordSheet, drawings: Mapping[str, str] | None = None
) -> bytes:
    """A sheet as a PDF file.

    Parameters
    ----------
    sheet : CrewSheet, SurveyForm, FloorSheet or RecordSheet
    drawings : mapping of key to str, optional
        SVG by the drawing's key: ``wall-B`` (a wall of many studs has more that begin so) before its studs,
        the others before the pan is set; on the floor sheet and the record each on a page. None go on a
        sheet that gives no amounts.

    Returns
    -------
    bytes
        The same for the same sheet and drawings.

    Raises
    ------
    PaperMissing
        If typst or the font is not installed.
    """
    kind = _KINDS[type(sheet)]
    data = page_data(sheet, drawings or {})
    text = json.dumps(data, ensure_ascii=False)
    book = fonts(with_system=needs_system(text))
    import typst

    compiler = typst.Compiler(_description(kind), font_paths=book, sys_inputs={"sheet": text})
    made = compiler.compile(format="pdf", timestamp=0, pdf_tags=False)
    if not isinstance(made, bytes):
        raise UndertileError(f"typst gave {type(made).__name__}, not a PDF")
    return made


def pages(made: bytes) -> int:
    """How many pages a PDF of this module has, by its page objects."""
    import re

    return len(re.findall(rb"/Type\s*/Page\b", made))


def page_data(
    sheet: CrewSheet | SurveyForm | FloorSheet | RecordSheet, drawings: Mapping[str, str]
) -> dict[str, Any]:
    """What the page description reads: the sheet, its labels, and the drawings, every text made harmless."""
    kind = _KINDS[type(sheet)]
    words = Words(sheet.head.language)
    data: dict[str, Any] = clean(asdict(sheet))
    labels = {key.replace("-", "_"): text for key, text in words.sentences().items()}
    labels["short_name"] = clean(short(sheet.head.job))
    labels["revision"] = words("revision", revision=sheet.head.revision)
    labels["unit"] = words(f"unit-{sheet.head.unit}")
    if kind == "crew":
        labels["legend"] = "   ".join(words(f"legend-{key}") for key in ("take", "add", "hatch", "wait"))
        labels["cuts_note"] = words("cuts-note" if sheet.head.unit == "in" else "cuts-note-mm")
        walls = {wall["wall"]: f"wall-{wall['wall']}" for wall in data["walls"]}
        for wall in data["walls"]:
            wall["drawings"] = [svg for key, svg in drawings.items() if key.startswith(walls[wall["wall"]])]
        others = [svg for key, svg in drawings.items() if not key.startswith("wall-")]
        data["drawings"] = others if walls and data["mortar"] else []
    if kind in ("floor", "record"):
        data["drawings"] = list(drawings.values())
    data["labels"] = labels
    return data


def short(name: str) -> str:
    """A name for the head of a page: at most ``NAME`` letters, the end left out with three dots."""
    name = " ".join(name.split())
    return name if len(name) <= NAME else name[: NAME - 1] + "\u2026"


def clean(value: Any) -> Any:
    """Every text in a tree made harmless for a page: no control letters, turning marks or endless words."""
    if isinstance(value, str):
        kept = "".join(c if unicodedata.category(c) not in ("Cc", "Cs") else " " for c in value)
        kept = "".join(c for c in kept if c not in _TURNING)
        return "".join(_broken(word) for word in _words(kept))
    if isinstance(value, dict):
        return {key: clean(each) for key, each in value.items()}
    if isinstance(value, list | tuple):
        return [clean(each) for each in value]
    return value


_TURNING = frozenset(map(chr, [*range(0x202A, 0x202F), *range(0x2066, 0x206A), 0x200E, 0x200F]))
"""Marks that turn the direction of the text behind them."""


def _words(text: str) -> list[str]:
    out, word = [], ""
    for letter in text:
        if letter == " ":
            out += [word, " "]
            word = ""
        else:
            word += letter
    return [*out, word]


def _broken(word: str) -> str:
    if len(word) <= _LONGEST:
        return word
    return _ZERO_WIDTH_SPACE.join(word[i : i + _LONGEST // 2] for i in range(0, len(word), _LONGEST // 2))


def needs_system(text: str) -> bool:
    """Whether a text has letters past Latin, Greek and Cyrillic and the signs the sheet uses."""
    return any(ord(c) > 0x52F and not 0x2000 <= ord(c) < 0x2300 for c in text)


@cache
def _description(kind: str) -> bytes:
    folder = resources.files("undertile.packet") / "pages"
    return b"\n".join((folder / f"{name}.typ").read_bytes() for name in ("common", kind))
