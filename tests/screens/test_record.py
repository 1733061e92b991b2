"""The water record as a page to print: everything the PDF says."""

from __future__ import annotations

import html
import io
import re
from collections.abc import Iterator
from typing import Any

import pytest

from tests.screens.browsing import HOME, chromium, phone
from tests.screens.cast import Site, bring, site


@pytest.fixture(scope="module")
def at() -> Iterator[Site]:
    found = site()
    yield found
    found.store.close()


def texts(told: Any) -> Iterator[str]:
    if isinstance(told, dict):
        for key, value in told.items():
            if key not in ("head", "open", "title"):
                yield from texts(value)
    elif isinstance(told, list):
        for each in told:
            yield from texts(each)
    elif isinstance(told, str) and told not in ("", "-"):
        yield told


def plain(page: str) -> str:
    return "".join(html.unescape(re.sub(r"<[^>]*>", "", page)).split())


@pytest.mark.parametrize("language", ["en", "es"])
def test_every_sentence_of_the_record_is_on_its_page(at: Site, language: str) -> None:
    job = bring(at, "wet-corner")
    address = f"/job/{job}/papers/water"
    twin = at.twin(address, lang=language)
    page = at.page(address, lang=language)
    said = plain(page)
    every = list(texts({key: value for key, value in twin["sheet"].items() if key != "equipment"}))
    assert len(every) > 150
    for text in every:
        assert "".join(text.split()) in said, text
    assert twin["sheet"]["equipment"]
    for _, text in twin["sheet"]["equipment"]:
        assert "".join(text.split()) in said
    assert page.count("<svg") == len(twin["drawings"]) == 3, "where it went, and two pages of charts"
    assert any("papers/water" in each["href"] for each in at.twin(f"/job/{job}/papers")["print"])


def test_a_job_without_water_says_so(at: Site) -> None:
    job = bring(at, "hand")
    assert at.twin(f"/job/{job}/papers/water")["sheet"] is None
    assert not any("papers/water" in each["href"] for each in at.twin(f"/job/{job}/papers")["print"])


@pytest.mark.browser
def test_it_prints_with_nothing_cut(at: Site) -> None:
    """Independent: pypdf reads what Chromium prints."""
    from pypdf import PdfReader

    job = bring(at, "wet-corner")
    sheet = at.twin(f"/job/{job}/papers/water", lang="en")["sheet"]
    with chromium() as browser, phone(browser, at) as page:
        page.goto(f"{HOME}/job/{job}/papers/water?lang=en")
        made = page.pdf(format="Letter", margin=dict.fromkeys(("top", "right", "bottom", "left"), "12mm"))
    printed = "".join("".join(each.extract_text().split()) for each in PdfReader(io.BytesIO(made)).pages)
    for text in (*sheet["cause"], *sheet["untested"], *(row["why"] for row in sheet["places"])):
        assert "".join(text.split()) in printed, text
