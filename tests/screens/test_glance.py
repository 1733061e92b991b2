"""What is read at a glance: headlines of four lines at most, no list in bold, whole figures."""

from __future__ import annotations

import html
import re
from collections.abc import Iterator
from typing import TYPE_CHECKING

import pytest

from tests.screens.browsing import HOME, SIZES, chromium, phone
from tests.screens.cast import MENDED, bring, site
from undertile.screens.page import led

if TYPE_CHECKING:
    from playwright.sync_api import Browser


@pytest.fixture(scope="module")
def browser() -> Iterator[Browser]:
    with chromium() as found:
        yield found


@pytest.mark.parametrize(
    ("text", "heavy"),
    [
        ("Do not cover yet: 6 places not dry, 2 photos missing.", "Do not cover yet:"),
        ("Agua: No tape todavía: 6 lugares sin secar, sin leer: pared derecha.", "Agua: No tape todavía:"),
        ("The floor does not pass: panel under a load.", "The floor does not pass:"),
        ("It may be covered.", "It may be covered."),
        ("Stop: a <b> & c, d: e", "Stop: a <b> & c, d: e"),
    ],
)
def test_what_is_said_is_heavy_and_its_list_is_not(text: str, heavy: str) -> None:
    """independent: cut by hand; taken out of its tags it is the text as it was."""
    made = led(text)
    found = re.match(r"<strong>(.*?)</strong>", made)
    assert found
    assert html.unescape(found[1]) == heavy
    assert html.unescape(re.sub(r"</?(?:strong|span)[^>]*>", "", made)) == text


LINES = """() => [...document.querySelectorAll('.next .text, h1:not(.seen-not), .key')].map(each => {
  const words = document.createRange();
  words.selectNodeContents(each);
  const ends = [...words.getClientRects()].filter(box => box.width > 2).map(box => Math.round(box.bottom));
  const lines = ends.sort((a, b) => a - b).filter((end, at) => !at || end - ends[at - 1] > 6).length;
  return [each.className, each.textContent.trim(), lines];
})"""
POINT = "/water/point?name=plate-B-16"
SCREENS = ("", "/water", "/water/charts", POINT, "/water/gate", "/floor", "/plan", "/work")


@pytest.mark.browser
@pytest.mark.parametrize(("size", "language"), [(SIZES[0], "es"), (SIZES[1], "en"), (SIZES[1], "es")])
def test_headlines_stay_headlines(browser: Browser, size: tuple[int, int], language: str) -> None:
    """independent: lines counted by the browser; the wet corner says the most of the bundled."""
    at = site()
    jobs = [(bring(at, "wet-corner"), SCREENS), (bring(at, "old-alcove", MENDED), ("", "/plan", "/moves"))]
    seen = 0
    with phone(browser, at, size) as page:
        for job, paths in jobs:
            for path in paths:
                page.goto(f"{HOME}/job/{job}{path}{'&' if '?' in path else '?'}lang={language}")
                for kind, text, lines in page.evaluate(LINES):
                    most = 4 if "text" in kind else 2
                    assert lines <= most, (path, text, lines)
                    seen += 1
    assert seen > 30
    at.store.close()
