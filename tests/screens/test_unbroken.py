"""A length is one thing: no screen and no paper parts it over two lines (``1-`` over ``1/2``)."""

from __future__ import annotations

import html
import re
from collections.abc import Iterator

import pytest

from tests.screens.browsing import HOME, LOOKS, chromium, phone
from tests.screens.cast import MENDED, Site, bring, in_one, site
from undertile.screens.unbroken import unbroken

PARTED = r"""() => {
  const found = [];
  let seen = 0;
  const walk = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  for (let node; (node = walk.nextNode()); ) {
    if (node.parentElement.closest("script, style, template, svg, select, textarea")) continue;
    for (const each of node.data.matchAll(/(\d+-\d+\/\d+"?|\d+(\.\d+)? mm|\d{4}-\d\d-\d\d)/g)) {
      const range = document.createRange();
      range.setStart(node, each.index);
      range.setEnd(node, each.index + each[0].length);
      const boxes = [...range.getClientRects()].filter((box) => box.width);
      seen += boxes.length > 0;
      if (new Set(boxes.map((box) => Math.round(box.top))).size > 1) found.push(each[0]);
    }
  }
  return [seen, found];
}"""
"""How many lengths and days are seen, and those that stand on more than one line."""
LETTER_PX = 816
"""Width of a letter sheet as a browser prints it, 96 to the inch."""


@pytest.fixture(scope="module")
def at() -> Iterator[Site]:
    found = site()
    yield found
    found.store.close()


@pytest.mark.parametrize(
    ("text", "held"),
    [
        ("from 1-1/2&#34; to 94-1/2&#34;.", ["1-1/2&#34;", "94-1/2&#34;"]),
        ("reads 6-0, not -1-1/16", ["6-0", "-1-1/16"]),
        ("~5-29/32&#34; and +1-5/16&#34;", ["~5-29/32&#34;", "+1-5/16&#34;"]),
        ("4&#39; 2-1/2&#34;, 4&#39; 2&#34;", ["4&#39; 2-1/2&#34;", "4&#39; 2&#34;"]),
        ("ply 5.2 mm (1203 mm)", ["5.2 mm", "1203 mm"]),
        ("2026-03-05 14:00", ["2026-03-05"]),
        ("plate-B-16, a1-2, B1-B4, 1/16, 3/8&#34;, 12-34-56-78-90, 5 mmHg", []),
    ],
)
def test_a_length_is_held_in_one_piece(text: str, held: list[str]) -> None:
    """independent: what a length is by its own page (convention 7.1); with the spans out it is as it was."""
    made = unbroken(f"<p>{text}</p>")
    assert re.findall(r'<span class="fig">([^<]*)</span>', made) == held
    assert in_one(made) == f"<p>{text}</p>"


@pytest.mark.parametrize(
    "page",
    [
        '<p title="1-1/2&#34;"><input value="1-1/2">',
        '<head><title>1-1/2</title></head><script>"1-1/2"</script><style>1-1/2</style>',
        "<svg><text>1-1/2</text></svg><select><option>1-1/2</option></select><textarea>1-1/2</textarea>",
    ],
)
def test_what_is_no_line_of_the_page_is_left_alone(page: str) -> None:
    assert unbroken(page) == page


@pytest.mark.parametrize("path", ["plan", "stud/B4", "papers/crew", "more", "water/leak", "papers/floor"])
def test_the_page_s_text_is_the_same(at: Site, path: str) -> None:
    """independent: nothing a person copies has another character in it than the twin's sentences."""
    page = at.page(f"/job/{bring(at, 'wet-corner')}/{path}")
    assert not re.search("[\u2010\u2011\u2060\u00ad\ufeff]", html.unescape(page))


@pytest.mark.browser
@pytest.mark.parametrize(("size", "language"), [*LOOKS, ((LETTER_PX, 1056), "en"), ((LETTER_PX, 1056), "es")])
def test_no_length_stands_on_two_lines(at: Site, size: tuple[int, int], language: str) -> None:
    """independent: where the browser has set each letter, on the screens and on the sheets to print."""
    alcove, wet = bring(at, "old-alcove", MENDED), bring(at, "wet-corner")
    seen = 0
    with chromium() as browser, phone(browser, at, size) as page:
        if size[0] == LETTER_PX:
            page.emulate_media(media="print")
        for path in (
            *(f"{alcove}/{each}" for each in ("plan", "stud/B4", "papers/crew", "more", "work")),
            *(f"{wet}/{each}" for each in ("water", "water/leak", "floor", "papers/water", "papers/floor")),
        ):
            page.goto(f"{HOME}/job/{path}?lang={language}")
            page.evaluate("document.querySelectorAll('details').forEach((each) => { each.open = true; })")
            number, parted = page.evaluate(PARTED)
            assert parted == [], path
            seen += number
    assert seen > 300
