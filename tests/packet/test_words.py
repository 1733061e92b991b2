"""Every sentence in both languages, one word for one thing, no code without words."""

from __future__ import annotations

import re
import string
import subprocess
import sys
from pathlib import Path

import pytest

from tests.packet.cast import MENDED, as_typed, mended
from undertile.packet.places import figure_words, place_words
from undertile.packet.words import (
    CHECKS,
    CREW,
    FINDINGS,
    FORM,
    LISTS,
    REMEDIES,
    SLIPS,
    SOURCES,
    STUDS,
    TERMS,
    Words,
)
from undertile.survey.slips import SLIPS as KINDS

TABLES = {
    "crew": CREW,
    "studs": STUDS,
    "lists": LISTS,
    "form": FORM,
    "findings": FINDINGS,
    "checks": CHECKS,
    "slips": SLIPS,
    "remedies": REMEDIES,
    "sources": SOURCES,
}
ENGLISH = frozenset(
    {
        "the",
        "and",
        "with",
        "from",
        "at",
        "height",
        "behind",
        "before",
        "after",
        "stud",
        "studs",
        "wall",
        "walls",
        "board",
        "boards",
        "strip",
        "strips",
        "plane",
        "pan",
        "flange",
        "shim",
        "reading",
        "readings",
        "line",
        "level",
        "width",
        "depth",
        "measure",
        "measured",
        "read",
        "again",
        "screw",
        "screws",
        "leave",
        "is",
        "are",
        "of",
        "on",
        "it",
        "its",
        "this",
        "that",
        "not",
        "what",
        "which",
        "where",
        "each",
        "every",
        "one",
        "two",
        "to",
        "by",
        "for",
        "or",
        "if",
        "until",
    }
)
"""Words that only an English sentence has."""
COMMAND = re.compile(r"undertile [a-z]+(?: JOB| --\w+ \w+)*(?: [{}a-z]+)?")


def pairs() -> list[tuple[str, str, str]]:
    return [(f"{name}:{key}", *pair) for name, table in TABLES.items() for key, pair in table.items()]


@pytest.mark.parametrize(("where", "en", "es"), pairs(), ids=[each[0] for each in pairs()])
def test_every_sentence_is_there_in_both_with_the_same_slots(where: str, en: str, es: str) -> None:
    assert en.strip()
    assert es.strip()
    slots = [sorted({name for _, name, _, _ in string.Formatter().parse(text) if name}) for text in (en, es)]
    assert slots[0] == slots[1]
    assert where in SHORT or en.endswith(".") == es.endswith("."), (
        "a sentence in one is a sentence in the other"
    )


@pytest.mark.parametrize(("where", "en", "es"), pairs(), ids=[each[0] for each in pairs()])
def test_no_english_is_left_in_spanish(where: str, en: str, es: str) -> None:
    bare = COMMAND.sub("", es)
    bare = re.sub(r"\{\w+\}", "", bare)
    assert not set(re.findall(r"[a-záéíóúñü]+", bare.lower())) & ENGLISH
    if en == es:
        assert not re.sub(r"\{\w+\}", "", en).strip(" .,:;()") or where in SAME


SAME = {"crew:revision", "crew:recipe-strip", "crew:fail"}
"""The same in both languages by nature: slots and an abbreviation."""


SHORT = {"studs:col-stud"}
"""A column's head, cut short in Spanish."""


def test_one_thing_has_one_word() -> None:
    for where, _, es in pairs():
        for key, term in TERMS.items():
            for stem in term.avoid:
                assert not re.search(rf"\b{re.escape(stem)}", es.lower()), (
                    f"{where}: {stem}, not {term.es} ({key})"
                )


def test_the_glossary_page_has_every_term() -> None:
    page = (Path(__file__).resolve().parents[2] / "docs" / "methods" / "glossary-es.md").read_text("utf-8")
    for term in TERMS.values():
        assert f"| {term.en} | {term.es} |" in page


def test_every_code_of_the_findings_page_has_words() -> None:
    page = (Path(__file__).resolve().parents[2] / "docs" / "findings.md").read_text("utf-8")
    judged = page.split("## Checks")
    tables = judged[0] + judged[1].split("\n## ", 1)[1]
    codes = {
        code.rstrip(".").rstrip("-")
        for row in re.findall(r"(?m)^\| (`[^|]+) \|", tables)
        for code in re.findall(r"`([a-z0-9.-]+)`", row)
    }
    assert len(codes) > 60
    named = set(KINDS_CODES) | set(FINDINGS) | set(SLIPS)
    missing = {code for code in codes if not any(code == n or code.startswith(f"{n}-") for n in named)}
    assert not missing


KINDS_CODES = {slip.code for slip in KINDS.values()}


def test_every_check_that_can_fail_says_what_to_do() -> None:
    for code in CHECKS:
        assert Words("es").remedy(code), code


def test_every_slip_has_words() -> None:
    assert set(SLIPS) >= KINDS_CODES


@pytest.mark.parametrize("name", MENDED)
def test_every_check_of_the_examples_has_a_title(name: str) -> None:
    for check in mended(name).results["pan"].checks:
        assert Words("es").check(check.code) != check.code


@pytest.mark.parametrize("name", ["hand", "square-pan", "steel-unit"])
def test_places_of_the_examples_are_told_in_spanish(name: str) -> None:
    words = Words("es")
    given = {"back", "high", "low", "mid", "middle", "front", "plaster", "cabinet", "supply", "lamp", "hub"}
    for finding in as_typed(name).findings:
        told = place_words(finding.where, words)
        left = set(re.findall(r"[a-z]+", told.lower())) & ENGLISH
        assert not left - given, told


@pytest.mark.parametrize(
    ("en", "es"),
    [
        ("B2 at 48", "B2 a 48"),
        ("wall L", "pared izquierda"),
        ("walls L, B and R", "paredes izquierda, del fondo y derecha"),
        ('walls L and R at height 2"', 'paredes izquierda y derecha a la altura 2"'),
        ("wall R from R3 at 2 on", "pared derecha desde R3 a 2 en adelante"),
        ("width back-high", "ancho back-high"),
        ("pan", "base"),
        ("corner of walls B and L", "esquina de paredes del fondo e izquierda"),
    ],
)
def test_a_place_in_spanish(en: str, es: str) -> None:
    assert place_words(en, Words("es")) == es


def test_a_figure_with_words_nobody_translated_is_left_out_and_not_half_told() -> None:
    words = Words("es")
    assert figure_words('1/16" to 1/8"', words) == '1/16" a 1/8"'
    assert (
        figure_words('59-29/32" bare, 59-7/8" shimmed', words) == '59-29/32" sin calzas, 59-7/8" con calzas'
    )
    assert figure_words("open side", words) == ""
    assert figure_words("open side", Words("en")) == "open side"


def test_a_code_without_words_of_its_own_still_says_where_to_look() -> None:
    assert Words("es").finding("brand-new", "B2") == "B2: vea undertile explain JOB brand-new"


def test_the_page_s_example_prints_what_it_says() -> None:
    root = Path(__file__).resolve().parents[2]
    page = (root / "docs" / "methods" / "papers.md").read_text("utf-8")
    found = re.search(r"```python\n((?:.|\n)*?)```\n\n```text\n((?:.|\n)*?)```", page)
    assert found
    done = subprocess.run(
        [sys.executable, "-X", "utf8", "-c", found[1]], capture_output=True, encoding="utf-8", cwd=root
    )
    assert done.stdout == found[2], done.stderr


def test_no_sentence_is_kept_that_nothing_says() -> None:
    """A key is said by its name, or by how it begins where the rest is a kind (``do-``, ``thing-``)."""
    room = Path(__file__).resolve().parents[2] / "src" / "undertile" / "packet"
    files = [
        path for path in room.rglob("*") if path.suffix in (".py", ".typ") and path.parent.name != "words"
    ]
    source = "".join(path.read_text("utf-8") for path in files)
    kinds = set(re.findall(r'f"([a-z]+-)\{', source))
    for key in [*CREW, *STUDS, *LISTS, *FORM]:
        said = f'"{key}"' in source or f"'{key}'" in source or f"l.{key.replace('-', '_')}" in source
        assert said or any(key.startswith(kind) for kind in kinds), key
