"""The crew sheet as a page to print: everything the PDF says, and nothing cut off when it is printed."""

from __future__ import annotations

import html
import io
import re
from collections.abc import Iterator
from typing import Any

import pytest

from tests.screens.browsing import HOME, chromium, phone
from tests.screens.cast import Site, bring, site

TYPED_RIGHT = {"survey.walls.B.studs.B4.readings.36": "6-1/4", "survey.walls.L.studs.L3.readings.54": "5-7/8"}
NOT_SAID = {
    "mark",
    "exact",
    "amount",
    "stock",
    "letter",
    "more",
    "paper",
    "language",
    "unit",
    "state",
    "title",
}
"""What the page's form says otherwise, or a program only."""


@pytest.fixture(scope="module")
def at() -> Iterator[Site]:
    found = site()
    yield found
    found.store.close()


def texts(told: Any) -> Iterator[str]:
    """Every sentence and figure of a sheet."""
    if isinstance(told, dict):
        for key, value in told.items():
            if key not in NOT_SAID and key not in ("layers", "facing", "asked", "filled"):
                yield from texts(value)
    elif isinstance(told, list):
        for each in told:
            yield from texts(each)
    elif isinstance(told, str) and told:
        yield told


def plain(page: str) -> str:
    return "".join(html.unescape(re.sub(r"<[^>]*>", "", page)).split())


@pytest.mark.parametrize("language", ["en", "es"])
def test_every_sentence_of_the_sheet_is_on_its_page(at: Site, language: str) -> None:
    job = bring(at, "old-alcove", TYPED_RIGHT)
    address = f"/job/{job}/papers/crew"
    twin = at.twin(address, lang=language)
    page = plain(at.page(address, lang=language))
    assert twin["sheet"]["state"] == "ready"
    assert len(twin["sheet"]["guards"]) == 1
    for text in texts(twin["sheet"]):
        assert "".join(text.split()) in page, text
    assert set(twin["drawings"]) == {"B", "L", "R", ""}
    assert at.page(address, lang=language).count("<svg") == 5, "three walls, the opening, the flange"


@pytest.mark.browser
@pytest.mark.parametrize(("size", "points"), [("Letter", (612, 792)), ("A4", (595, 842))])
def test_it_prints_on_letter_and_a4_with_nothing_cut(at: Site, size: str, points: tuple[int, int]) -> None:
    """Independent: pypdf reads what Chromium prints."""
    from pypdf import PdfReader

    job = bring(at, "old-alcove", TYPED_RIGHT)
    sheet = at.twin(f"/job/{job}/papers/crew")["sheet"]
    with chromium() as browser, phone(browser, at) as page:
        page.goto(f"{HOME}/job/{job}/papers/crew")
        made = page.pdf(format=size, margin=dict.fromkeys(("top", "right", "bottom", "left"), "12mm"))
    pages = PdfReader(io.BytesIO(made)).pages
    printed = "".join("".join(each.extract_text().split()) for each in pages)
    for each in pages:  # Chromium rounds a millimetre page up to its own dots
        assert all(abs(float(v) - p) < 1.5 for v, p in zip(each.mediabox[2:], points, strict=True))
    for text in (*sheet["guards"], *(step["text"] for step in sheet["order"])):
        assert "".join(text.split()) in printed, text
    for wall in sheet["walls"]:
        for card in wall["cards"]:
            assert card["name"] in printed
            assert all(row["reads"] in printed for row in card["rows"])
