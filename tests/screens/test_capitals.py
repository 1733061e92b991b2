"""A line of its own begins with a capital, in both languages; elsewhere it may be a part of a sentence."""

from __future__ import annotations

import re
from collections.abc import Iterator

import pytest

from tests.screens.browsing import HOME, chromium, phone
from tests.screens.cast import MENDED, Site, bring, site

SMALL = r"""(leave) => {
  const found = [];
  const inline = (each) => /^(inline|none|contents)$/.test(getComputedStyle(each).display);
  for (const each of document.querySelectorAll("main *")) {
    if (inline(each) || each.closest(`svg, .seen-not, select, .choice, ${leave}`)) continue;
    const first = [...each.childNodes].find((node) => node.textContent.trim());
    if (!first || (first.nodeType === 1 && !inline(first))) continue;
    if (getComputedStyle(each, "::first-letter").textTransform === "uppercase") continue;
    const text = each.textContent.trim().replace(/\s+/g, " ");
    if (/^\p{Ll}/u.test(text)) found.push(`${each.tagName} ${each.className}: ${text.slice(0, 60)}`);
  }
  return found;
}"""
"""Lines that begin with a small letter as they are drawn."""
LEAVE = (
    # what stands beside others
    ".tag, .said-so, .state, .grave, .figure, .verdict, .verdict-word, small, td, .history li, "
    ".part > :is(h3, h4), section > h3, label, li:has(> a.target), .by, "  # names, as typed
    ".source, .paper-head, tbody th"  # a file's path; marks
)
STRIP = re.compile(r"LI \w*: [a-f]: ")
"""The letter of a strip, as it is penciled on it."""


@pytest.fixture(scope="module")
def at() -> Iterator[Site]:
    found = site()
    yield found
    found.store.close()


@pytest.mark.browser
@pytest.mark.parametrize("language", ["en", "es"])
def test_a_line_of_its_own_begins_with_a_capital(at: Site, language: str) -> None:
    """independent: each element's first letter, as the browser draws it."""
    framing, wet = bring(at, "old-alcove", MENDED), bring(at, "wet-corner")
    paths = (
        "",
        "plan",
        "stud/B4",
        "work",
        "more",
        "moves",
        "proof",
        "recheck",
        "doubts",
        "papers/crew",
        "papers/form",
    )
    more = (
        "",
        "water",
        "water/gate",
        "water/leak",
        "water/point?name=plate-B-16",
        "floor",
        "papers/water",
        "papers/floor",
    )
    small: list[str] = []
    with chromium() as browser, phone(browser, at) as page:
        for job, every in ((framing, paths), (wet, more)):
            for path in every:
                page.goto(f"{HOME}/job/{job}/{path}{'&' if '?' in path else '?'}lang={language}")
                page.evaluate("document.querySelectorAll('details').forEach((each) => { each.open = true; })")
                small += [f"{path} {each}" for each in page.evaluate(SMALL, LEAVE) if not STRIP.match(each)]
    assert small == []


@pytest.mark.browser
def test_what_a_person_typed_is_drawn_as_typed(at: Site) -> None:
    """independent: the address of the job as typed."""
    job = bring(at, "wet-corner", {"place": "upstairs, at the back"})
    with chromium() as browser, phone(browser, at) as page:
        page.goto(f"{HOME}/job/{job}")
        assert page.locator("p.place").inner_text() == "upstairs, at the back"
