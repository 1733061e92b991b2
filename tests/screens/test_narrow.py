"""What a phone's width may not cut: the place just read, papers, the level's table, what is folded away."""

from __future__ import annotations

import re
from collections.abc import Iterator
from html import unescape

import pytest
from playwright.sync_api import Browser, Page

from tests.screens.browsing import HOME, LOOKS, SIZES, chromium, phone, tap, wait_kept
from tests.screens.cast import MENDED, Site, bring, site, typed
from tests.screens.roundtaps import steady

CUT = """[...document.querySelectorAll(".drawn")].filter((each) => each.scrollWidth > each.clientWidth + 1)
  .map((each) => [each.ariaLabel, each.previousElementSibling?.matches(".slide:not([hidden])")])"""
"""What is wider than its frame, and whether the line that says so stands before it."""
CUES = "[...document.querySelectorAll('.slide:not([hidden])')].length"
FIT = """[...document.querySelectorAll("figure.drawn")]
  .every((each) => each.scrollWidth <= each.clientWidth + 1)"""
PAST = """[...document.querySelectorAll("main svg, main table:not(.drawn table), main p, main li")]
  .filter((each) => !each.closest(".seen-not") && each.getBoundingClientRect().right > innerWidth)
  .map((each) => each.textContent.trim().slice(0, 40))"""
WHOLE = """(() => {
  const [where, value] = document.querySelectorAll(".pad-back-read span, .pad-back-read strong");
  const frame = document.querySelector(".pad-back-read").getBoundingClientRect();
  const inside = (each) => {
    const range = document.createRange();
    range.selectNodeContents(each);
    return [...range.getClientRects()].every((box) =>
      box.left >= frame.left - 1 && box.right <= frame.right + 1 &&
      box.top >= frame.top - 1 && box.bottom <= frame.bottom + 1);
  };
  const cut = where.scrollHeight > where.clientHeight + 1 || where.scrollWidth > where.clientWidth + 1;
  return [where.textContent, value.textContent, !cut && inside(where) && inside(value)];
})()"""

SPILT = """[...document.querySelectorAll(".floor-plan :is(th, td)")].filter((cell) => {
  const range = document.createRange();
  range.selectNodeContents(cell);
  const box = cell.getBoundingClientRect();
  const out = (each) => each.left < box.left - 1 || each.right > box.right + 1;
  return box.right > innerWidth || [...range.getClientRects()].some(out);
}).map((cell) => cell.textContent)"""
"""Cells and heads of the level's table whose letters leave their own box."""
BROKEN = """[...document.querySelectorAll(".floor-plan :is(th, .reads, b)")].filter((each) => {
  const range = document.createRange();
  range.selectNodeContents(each);
  const boxes = [...range.getClientRects()].filter((box) => box.width);
  const lines = new Set(boxes.map((box) => Math.round(box.top)));
  return /[0-9]/.test(each.textContent) && lines.size > 1;
}).map((each) => each.textContent)"""
"""Figures of the level's table that stand on more than one line: 47- over 15/16 reads as two."""
DRAWN = """() => new Promise((then) => {
  requestAnimationFrame(() => requestAnimationFrame(() => setTimeout(then)));
})"""


@pytest.fixture(scope="module")
def at() -> Iterator[Site]:
    found = site()
    yield found
    found.store.close()


@pytest.fixture(scope="module")
def job(at: Site) -> str:
    return bring(at, "wet-corner")


@pytest.fixture(scope="module")
def browser() -> Iterator[Browser]:
    with chromium() as found:
        yield found


@pytest.mark.browser
@pytest.mark.parametrize(
    ("size", "language", "over", "under"),
    [(SIZES[0], "en", "over", "under"), (SIZES[1], "es", "sobre", "bajo")],
)
def test_the_place_just_read_is_whole_beside_a_value_that_is_none(
    browser: Browser, at: Site, size: tuple[int, int], language: str, over: str, under: str
) -> None:
    """independent: the boxes of its letters lie in the line; each place as the sheet says it."""
    job = bring(at, "wet-corner")
    at.store.pen("dev1", "Ann", "2026-03-08T16:00:00").write(job, "wood.visits.4.when", "2026-03-08 16:00")
    with phone(browser, at, size) as page:
        page.goto(f"{HOME}/job/{job}/water/round/4?lang={language}")
        rows = page.evaluate(
            "globalThis.pad.rows.filter((row) => row.kind === 'percent')"
            ".map((row) => [row.fact, row.label, row.at])"
        )
        assert len(rows) > 5
        for number, (fact, label, where) in enumerate(rows):
            page.evaluate("(fact) => globalThis.pad.go(fact, false)", fact)
            steady(page)
            tap(page, ("over", "under")[number % 2])
            wait_kept(page)
            said, value, whole = page.evaluate(WHOLE)
            assert said.startswith(label)
            assert said.strip().endswith(where or label)
            assert value == (over, under)[number % 2]
            assert whole, f"cut: {said}"


def look(page: Page, job: str, path: str, language: str) -> None:
    page.goto(f"{HOME}/job/{job}/{path}?lang={language}")
    page.evaluate(DRAWN)  # the frames are measured after that


@pytest.mark.browser
@pytest.mark.parametrize(("size", "language"), LOOKS)
def test_the_proof_and_the_form_are_cut_nowhere_without_a_word(
    browser: Browser, at: Site, size: tuple[int, int], language: str
) -> None:
    """independent: measured boxes. The proof's table of walls is wider than any phone."""
    read = bring(at, "read-again")
    with phone(browser, at, size) as page:
        for path in ("papers/proof", "papers/form"):
            look(page, read, path, language)
            cut = page.evaluate(CUT)
            assert cut or path != "papers/proof"
            assert all(told for _, told in cut), (path, cut)
            assert page.evaluate(CUES) == len(cut)
            assert page.evaluate(PAST) == [], path
            assert page.evaluate("innerWidth") == size[0]


@pytest.mark.browser
@pytest.mark.parametrize(("size", "language"), LOOKS)
def test_nothing_on_a_paper_is_cut_without_a_word(
    browser: Browser, at: Site, job: str, size: tuple[int, int], language: str
) -> None:
    """independent: measured boxes. Drawings fit, what is slid says so, and nothing says so that fits."""
    with phone(browser, at, size) as page:
        for path in ("papers/floor", "papers/crew", "papers/water", "floor"):
            look(page, job, path, language)
            assert path == "floor" or page.locator("figure.drawn svg").count() > 0
            cut = page.evaluate(CUT)
            assert all(told for _, told in cut), (path, cut)
            assert page.evaluate(CUES) == len(cut)
            assert page.evaluate(PAST) == [], path
            assert page.evaluate(FIT), path


def level_of(at: Site, unit: str) -> str:
    """A job of a level alone, six columns by four rows, its longest figures; d is filled, f taken off."""
    facts = [("unit", unit), ("floor.level.surface", "concrete")]
    xs, ys = {
        "in": (("0", "12", "24-13/16", "36", "48-13/16", "60"), ("0", "10-15/16", "22-13/16", "32")),
        "mm": (("0", "304.8", "609.6", "914.4", "1219.2", "1524"), ("0", "279.4", "558.8", "812.8")),
    }[unit]
    reading, low, high = {"in": ("48-1/16", "48-5/16", "47-15/16"), "mm": ("1220.8", "1227.1", "1217.6")}[
        unit
    ]
    facts += [("floor.level.right", xs[-1]), ("floor.level.front", ys[-1])]
    for column, x in zip("abcdef", xs, strict=True):
        for row, y in enumerate(ys, 1):
            base = f"floor.level.spots.{column}{row}"
            value = {"d": low, "f": high}.get(column, reading)
            facts += [(f"{base}.x", x), (f"{base}.y", y), (f"{base}.reading", value)]
    return typed(at, facts)


@pytest.mark.browser
@pytest.mark.parametrize("unit", ["in", "mm"])
@pytest.mark.parametrize(("size", "language"), LOOKS)
def test_the_level_of_a_five_foot_pan_stands_whole_with_its_distances(
    browser: Browser, at: Site, unit: str, size: tuple[int, int], language: str
) -> None:
    """independent: 6 by 4 places counted; the letters of each place and distance inside their own box."""
    with phone(browser, at, size) as page:
        look(page, level_of(at, unit), "floor", language)
        assert page.evaluate("document.querySelectorAll('.floor-plan tbody td').length") == 24
        assert page.evaluate("document.querySelectorAll('.floor-plan td.marked').length") >= 4
        assert page.evaluate(SPILT) == []
        assert page.evaluate(BROKEN) == []
        assert page.evaluate("innerWidth") == size[0], "else the phone has shrunk a page that is too wide"
        rows = page.locator(".floor-plan tr.row-head").all_inner_texts()
        assert len(rows) == 4
        assert all(each.split()[0].endswith('"') or " mm " in each for each in rows), "the unit is said"


@pytest.mark.browser
@pytest.mark.parametrize(("size", "language"), LOOKS)
def test_the_level_of_a_five_foot_pan_stands_whole(
    browser: Browser, at: Site, job: str, size: tuple[int, int], language: str
) -> None:
    """independent: six columns counted, each cell's letters inside the cell."""
    with phone(browser, at, size) as page:
        look(page, job, "floor", language)
        assert page.evaluate("document.querySelectorAll('.floor-plan thead th').length") == 6
        assert page.evaluate(SPILT) == []
        assert page.evaluate(BROKEN) == []


@pytest.mark.browser
@pytest.mark.parametrize("language", ["en", "es"])
@pytest.mark.parametrize("size", SIZES)
def test_the_plan_of_five_studs_stands_whole_and_a_longer_one_says_that_it_slides(
    browser: Browser, at: Site, size: tuple[int, int], language: str
) -> None:
    """independent: measured boxes; five, four and four studs counted."""
    whole = bring(at, "old-alcove", MENDED)
    with phone(browser, at, size) as page:
        look(page, whole, "plan", language)
        assert page.evaluate(
            "[...document.querySelectorAll('table.studs')].map(t => t.rows[0].cells.length - 1)"
        ) == [5, 4, 4]
        assert page.evaluate(CUT) == []
        assert page.evaluate(CUES) == 0
        assert page.evaluate("innerWidth") == size[0]
        page.evaluate("() => { document.querySelector('.drawn tbody td').style.minWidth = '400px'; }")
        page.locator(".slide").first.wait_for(state="visible")
        page.evaluate("() => { document.querySelector('.drawn tbody td').style.minWidth = ''; }")
        page.locator(".slide").first.wait_for(state="hidden")


@pytest.mark.browser
def test_a_drawing_is_made_large_by_a_tap_and_printed_as_ever(browser: Browser, at: Site, job: str) -> None:
    """independent: measured widths before and after, and on paper."""
    with phone(browser, at) as page:
        look(page, job, "papers/floor", "en")
        width = "document.querySelector('.drawing svg').getBoundingClientRect().width"
        small = page.evaluate(width)
        page.locator(".larger").first.tap()
        page.locator(".drawing .slide").first.wait_for(state="visible")
        assert page.evaluate(width) > 2 * small
        page.emulate_media(media="print")
        assert page.evaluate(width) <= page.evaluate("document.querySelector('article').clientWidth")
        assert not page.locator(".larger").first.is_visible()
        assert not page.locator(".drawing .slide").first.is_visible()


@pytest.mark.parametrize(
    ("language", "places", "joists"),
    [("en", "24 of 24 read", "5 entered"), ("es", "24 de 24 leídas", "hay 5")],
)
def test_what_is_folded_away_is_said_in_a_few_words(
    at: Site, job: str, language: str, places: str, joists: str
) -> None:
    """independent: counted in the bundled job by hand; no list of figures stands beside a head."""
    page = at.client.get(f"/job/{job}/floor/type?lang={language}").text
    said = [unescape(each) for each in re.findall(r'class="said-so" dir="auto">([^<]*)<', page)]
    assert places in said
    assert said[0] == joists
    assert all(each.count(" · ") == 0 or len(each) <= 18 for each in said)


def test_places_not_read_yet_are_not_counted(at: Site) -> None:
    """independent: two readings withdrawn, two fewer."""
    found = bring(at, "wet-corner", {f"floor.level.spots.{name}.reading": "" for name in ("a1", "f4")})
    assert ">22 of 24 read<" in at.client.get(f"/job/{found}/floor/type?lang=en").text


@pytest.mark.browser
def test_how_much_is_filled_is_never_cut(at: Site, browser: Browser) -> None:
    """independent: where the browser cuts a line; counts beside long Spanish heads."""
    alcove = bring(at, "old-alcove", MENDED)
    cut = """[...document.querySelectorAll(".said-so")]
      .filter((each) => /\\d+ de \\d+/.test(each.textContent))
      .map((each) => [each.textContent, each.scrollWidth > each.clientWidth])"""
    with phone(browser, at, SIZES[1]) as page:
        page.goto(f"{HOME}/job/{alcove}/room?lang=es")
        counts = page.evaluate(cut)
    assert len(counts) > 5
    assert not any(gone for _, gone in counts)
