"""The proof page: what it says, in both languages, read back from the PDF by an independent reader."""

from __future__ import annotations

import copy
import io
import re
import tomllib
from functools import cache
from pathlib import Path
from typing import Any

import pytest
from pypdf import PdfReader

from undertile.errors import InputError
from undertile.job import Rebuild, plan
from undertile.job.settle import settle
from undertile.packet.content import Paper
from undertile.packet.proof import proof_pdf, proof_sheet
from undertile.packet.proof_content import ProofSheet
from undertile.packet.words import TERMS, Language
from undertile.packet.words.proof import PROOF

EXAMPLES = Path(__file__).resolve().parents[2] / "examples"
SIZES: dict[Paper, tuple[float, float]] = {"letter": (612, 792), "a4": (595.28, 841.89)}
"""published: US Letter 8.5 x 11 in; ISO 216 A4 210 x 297 mm. [points]"""


def table() -> dict[str, Any]:
    read = tomllib.loads((EXAMPLES / "read-again.toml").read_text(encoding="utf-8"))
    return {key: value for key, value in copy.deepcopy(read).items() if key != "version"}


def rebuilt(job: dict[str, Any], today: str = "") -> Rebuild:
    made, troubles = settle(job, job["unit"])
    assert made is not None, [trouble.line() for trouble in troubles]
    return plan(made, today=today)


@cache
def example() -> Rebuild:
    return rebuilt(table())


def sheet(rebuild: Rebuild, language: Language = "en", paper: Paper = "letter") -> ProofSheet:
    return proof_sheet(rebuild, date="2026-06-12", language=language, paper=paper)


def text_of(pdf: bytes) -> str:
    pages = [page.extract_text() for page in PdfReader(io.BytesIO(pdf)).pages]
    return re.sub(r"\s+", " ", " ".join(pages))


def test_the_page_says_pass_where_it_is_shown_and_not_shown_where_it_is_not() -> None:
    """independent: the walls of the bundled room as docs/examples.md tells them; figures by hand in
    tests/recheck/test_proof.py."""
    found = sheet(example())
    assert (found.verdict, found.word) == ("not shown", "NOT\u00a0SHOWN")
    assert [(row.wall, row.verdict) for row in found.walls] == [
        ("Left wall", "PASS"),
        ("Back wall", "PASS"),
        ("Right wall", "NOT\u00a0SHOWN"),
    ]
    back = found.walls[1].gaps
    assert [(cell.gap, cell.where, cell.verdict) for cell in back] == [
        ('1/16"', 'B3 at 50"', "PASS"),
        ('1/32"', 'B2 at 50"', "PASS"),
    ]
    assert found.shows[0] == 'Read again: R3 at 50".'
    assert not found.fails


@pytest.mark.parametrize("paper", ["letter", "a4"])
@pytest.mark.parametrize("language", ["en", "es"])
def test_one_page_of_the_size_asked_for_in_an_embedded_font(language: Language, paper: Paper) -> None:
    made = proof_pdf(sheet(example(), language, paper))
    reader = PdfReader(io.BytesIO(made))
    assert len(reader.pages) == 1
    width, height = (float(v) for v in reader.pages[0].mediabox[2:])
    assert width == pytest.approx(SIZES[paper][0], abs=0.5)
    assert height == pytest.approx(SIZES[paper][1], abs=0.5)
    fonts = reader.pages[0]["/Resources"]["/Font"]
    for key in fonts:
        font = fonts[key].get_object()
        below = font["/DescendantFonts"][0].get_object() if "/DescendantFonts" in font else font
        assert {"/FontFile2", "/FontFile3"} & set(below["/FontDescriptor"].get_object())


def test_everything_that_proves_is_on_the_paper() -> None:
    found = sheet(example())
    text = text_of(proof_pdf(found))
    for each in (
        "ANSI A108.02 section 4.2.2",
        "UFGS",
        "Ines",
        "12 June, 9 am",
        "cross-line laser on its first marks",
        '1/32" (0.8 mm)',
        "name and signature",
        "5-31/32",
        found.digest.split(": ")[1],
        "2026-06-12",
    ):
        assert each in text, each


def test_no_english_is_left_on_the_spanish_page() -> None:
    """independent: words that only an English sentence has; what the person typed stays as typed."""
    text = text_of(proof_pdf(sheet(example(), "es"))).lower()
    for typed in ("guest bath, read again", "cross-line laser on its first marks", "rule", "june"):
        text = text.replace(typed, "")
    words = set(re.findall(r"[a-záéíóúñ]+", text))
    english = {"the", "of", "at", "wall", "read", "shown", "gap", "from", "under", "back", "straightedge"}
    assert not words & english


def test_a_failing_room_lists_every_failure_with_its_figures() -> None:
    """independent: R2 at 50 read 5-3/4, its plane 1/16 in: 1/4 - 1/16 = 3/16 proud; middle 60-1/8."""
    job = table()
    job["recheck"]["walls"]["R"]["studs"]["R2"]["readings"][2] = "5-3/4"
    job["recheck"]["widths"]["middle"]["reading"] = "60-1/8"
    found = sheet(rebuilt(job))
    assert found.word == "FAIL"
    assert 'R2 at 50": 3/16" proud off its plane.' in found.fails
    assert any(line.startswith('Play 16" from the back: 0"') for line in found.fails)


def test_nothing_read_again_is_one_clear_line() -> None:
    job = table()
    del job["recheck"]
    with pytest.raises(InputError, match="undertile recheck says what to read"):
        sheet(rebuilt(job))


def test_names_in_any_letters_and_markup_stay_text() -> None:
    job = table()
    job["name"] = "#let x = 1; \\ $a$ *b* \u05d1\u05d9\u05ea \U0001f6bf"
    job["recheck"]["by"] = "*Ines* #strong[x]"
    text = text_of(proof_pdf(sheet(rebuilt(job))))
    assert "*Ines* #strong[x]" in text
    assert "#let x = 1" in text


def test_the_same_sheet_makes_the_same_bytes() -> None:
    assert proof_pdf(sheet(example())) == proof_pdf(sheet(example()))


def test_every_sentence_has_both_languages_with_the_same_slots() -> None:
    for key, (en, es) in PROOF.items():
        assert en.strip(), key
        assert es.strip(), key
        assert set(re.findall(r"\{\w+\}", en)) == set(re.findall(r"\{\w+\}", es)), key


def test_the_glossary_s_words_are_used() -> None:
    """independent: the papers' own table of trade words (docs/methods/glossary-es.md)."""
    for key, (_, es) in PROOF.items():
        for term in TERMS.values():
            for stem in term.avoid:
                assert not re.search(rf"\b{re.escape(stem)}", es.lower()), f"{key}: {stem}, not {term.es}"
