"""What the pad makes of a text: the length that ``undertile.lengths`` reads, and never a text it refuses."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from typing import TYPE_CHECKING

import pytest

from tests.screens.browsing import HOME, chromium, phone
from tests.screens.cast import Site, site
from undertile.errors import LengthError
from undertile.lengths import MM, Unit, parse_length

if TYPE_CHECKING:
    from playwright.sync_api import Page

pytestmark = pytest.mark.browser
TEXTS = (
    *(
        "6",
        "6-0",
        "5-15/16",
        "5 15/16",
        "15/16",
        '5-7/8"',
        "-3/32",
        "+1/16",
        "5-3/8+",
        "5-3/8-",
        '6"+',
        "6+",
        "0",
    ),
    *(
        "152",
        "152.5",
        "152 mm",
        "15.2 cm",
        "5.94",
        "5.",
        ".5",
        "1203mm",
        "-2.5",
        "1,5",
        "5-16/16",
        "5-1/3",
        "5-1/7",
    ),
    *(
        "",
        " ",
        "x",
        "five",
        "6-",
        "6-1",
        "6-1/",
        "6/16/2",
        "6--1/8",
        "5-15/16 strong",
        "4' 2",
        "1e3",
        "٥",
        "½",
        "5/64",
    ),
    *(
        "5-1/128",
        "00006",
        "99999",
        "5 - 7/8",
        "5-7/8 mm",
        "152 in",
        '152"',
        "6-1/8\n",
        "12 34",
        "mm",
        '"',
        "--5",
    ),
)


@pytest.fixture(scope="module")
def page() -> Iterator[Page]:
    at: Site = site()
    with chromium() as browser, phone(browser, at) as found:
        found.goto(HOME)
        found.evaluate("import('/static/reading.js').then(all => { globalThis.reading = all; })")
        yield found
    at.store.close()


@pytest.mark.parametrize("unit", ["in", "mm"])
def test_what_it_reads_is_what_lengths_reads(page: Page, unit: Unit) -> None:
    """independent: two readers, one in the page and one in Python, over the same texts."""
    scale = 1 if unit == "in" else MM
    got = page.evaluate("([texts, unit]) => texts.map(text => reading.numberOf(text, unit))", [TEXTS, unit])
    read = 0
    for text, number in zip(TEXTS, got, strict=True):
        if number is None:
            continue
        read += 1
        exact = parse_length(text, unit, whole="inches").inches / scale
        assert number == pytest.approx(float(exact), abs=1e-9), text
    assert read >= 12
    for text in ("5-15/16", "5-3/8+", "6-0") if unit == "in" else ("152", "152.5", "15.2 cm"):
        assert got[TEXTS.index(text)] is not None


def test_what_the_keys_write_is_read_as_meant(page: Page) -> None:
    """independent: whole, sixteenths, and half a sixteenth for strong and shy, in fractions."""
    cases = [
        (whole, part, strong, minus)
        for whole in (0, 1, 6, 12)
        for part in range(16)
        for strong in ("", "+", "-")
        for minus in (False, True)
    ]
    texts = page.evaluate("cases => cases.map(each => reading.inches(...each))", cases)
    for (whole, part, strong, minus), text in zip(cases, texts, strict=True):
        size = whole + Fraction(part, 16) + {"": 0, "+": Fraction(1, 32), "-": Fraction(-1, 32)}[strong]
        if size < 0:
            assert text is None
            continue
        try:
            found = parse_length(text, "in", whole="inches").inches
        except LengthError as error:
            raise AssertionError(f"{whole} {part} {strong} {minus}: {error}") from None
        assert found == (-size if minus else size), text


@pytest.mark.parametrize(
    ("text", "language", "said"),
    [
        ("5-15/16", "en", "5 and 15 sixteenths"),
        ("1/8", "en", "1 eighth"),
        ("5-3/8+", "en", "5 and 3 eighths strong"),
        ("-3/32", "en", "minus 3 thirty-seconds"),
        ("5-15/16", "es", "5 y 15 dieciseisavos"),
        ("6-1/2-", "es", "6 y 1 medio escaso"),
        ("152", "es", "152"),
    ],
)
def test_it_is_said_as_across_a_room(page: Page, text: str, language: str, said: str) -> None:
    assert page.evaluate("([text, language]) => reading.spoken(text, language)", [text, language]) == said
