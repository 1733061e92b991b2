"""The papers as pages to print: everything the PDF says, and nothing cut off or torn when it is printed."""

from __future__ import annotations

import html
import io
import json
import re
from collections.abc import Iterator
from dataclasses import asdict
from typing import TYPE_CHECKING, Any

import pytest
from pypdf import PdfReader

from tests.screens.browsing import HOME, chromium, phone
from tests.screens.cast import MENDED, NOW, Site, bring, in_one, site, typed, wall
from tests.screens.printing import MM, PAPERS, Sheet, printed
from undertile.job import Rebuild, fold, plan
from undertile.packet.crew import crew_sheet
from undertile.packet.drawings import crew_drawings
from undertile.packet.form import survey_form
from undertile.packet.pdf import to_pdf
from undertile.packet.proof import proof_pdf, proof_sheet
from undertile.packet.words import Words

if TYPE_CHECKING:
    from playwright.sync_api import Page

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
    "verdict",
}
"""What the page's form says otherwise, or a program only."""
KINDS = (("crew", "old-alcove"), ("form", "old-alcove"), ("proof", "read-again"))
"""Each paper, and a bundled job that has it."""
PENCIL = 8.0
"""What a carpenter's pencil needs to write a figure in, ours, no source. [mm]"""


@pytest.fixture(scope="module")
def at() -> Iterator[Site]:
    found = site()
    yield found
    found.store.close()


@pytest.fixture(scope="module")
def jobs(at: Site) -> dict[str, str]:
    """The bundled jobs, their slips mended."""
    return {name: bring(at, name, MENDED if name == "old-alcove" else {}) for _, name in KINDS}


@pytest.fixture(scope="module")
def page(at: Site) -> Iterator[Page]:
    with chromium() as browser, phone(browser, at) as found:
        yield found


@pytest.fixture(scope="module")
def rebuilds(at: Site, jobs: dict[str, str]) -> dict[str, Rebuild]:
    """All each log comes to, as the command line has it: every stage in one go."""
    return {name: plan(fold(at.store.log(job)).job) for name, job in jobs.items()}


def pdf(kind: str, rebuild: Rebuild, language: Any) -> str:
    """What the paper says as the command line makes it."""
    if kind == "proof":
        made = proof_pdf(proof_sheet(rebuild, date=NOW[:10], language=language))
    elif kind == "form":
        made = to_pdf(survey_form(rebuild.job, date=NOW[:10], language=language))
    else:
        made = to_pdf(crew_sheet(rebuild, date=NOW[:10], language=language), crew_drawings(rebuild, language))
    return " ".join(each.extract_text() for each in PdfReader(io.BytesIO(made)).pages)


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
@pytest.mark.parametrize(("kind", "name"), KINDS)
def test_every_sentence_of_the_sheet_is_on_its_page(
    at: Site, jobs: dict[str, str], kind: str, name: str, language: str
) -> None:
    address = f"/job/{jobs[name]}/papers/{kind}"
    twin = at.twin(address, lang=language)
    page = plain(at.page(address, lang=language))
    for text in texts(twin["sheet"]):
        assert "".join(text.split()) in page, text
    if kind == "crew":
        assert twin["sheet"]["state"] == "ready"
        assert len(twin["sheet"]["guards"]) == 1
        assert set(twin["drawings"]) == {"B", "L", "R", ""}
        drawings = at.page(address, lang=language).count("<svg")
        assert drawings == 5, "three walls, the opening, the flange"


@pytest.mark.parametrize(("kind", "name"), [each for each in KINDS if each[0] != "form"])
def test_the_sheet_is_the_one_that_the_command_line_prints(
    at: Site, jobs: dict[str, str], rebuilds: dict[str, Rebuild], kind: str, name: str
) -> None:
    """independent: every stage in one go, where a phone's plan, re-check, water and floor come one by one."""
    make: Any = {"crew": crew_sheet, "proof": proof_sheet}[kind]
    sheet = asdict(make(rebuilds[name], date=NOW[:10], language="en"))
    assert at.twin(f"/job/{jobs[name]}/papers/{kind}", lang="en")["sheet"] == json.loads(json.dumps(sheet))


def test_a_name_typed_after_the_plan_is_on_the_sheet_with_another_revision(at: Site) -> None:
    """A plan depends on no name, so none is looked for anew; the paper has it all the same."""
    job = bring(at, "hand")
    address = f"/job/{job}/papers/crew"
    before = at.twin(address)["sheet"]["head"]
    at.store.pen("dev0", "Bo", "2026-11-24T09:00:00").write(job, "place", "4 Quarry Steps")
    after = at.twin(address)["sheet"]["head"]
    assert after["place"] == "4 Quarry Steps" != before["place"]
    assert after["revision"] != before["revision"]


def test_no_proof_is_printed_where_nothing_is_read_again(at: Site) -> None:
    job = bring(at, "hand")
    twin = at.twin(f"/job/{job}/papers/proof")
    assert twin["sheet"] is None
    page = at.page(f"/job/{job}/papers/proof", lang="en")
    assert "Nothing is read again yet, so nothing is proved." in page
    assert "data-print" not in page


WRITTEN_IN = """() => [...document.querySelectorAll(
  "table.boxes tbody td:not(.shut), .blank :is(.pencil, .line), .signed .line, .box")].map((each) => {
    const { height, width, right } = each.getBoundingClientRect();
    return { height, width, over: right - document.documentElement.clientWidth };
  })"""
ROWS = """() => [...document.querySelectorAll(
  "article tr, .pencil, .box, .to-tick, .open-box, .result strong, .verdict-box, section.warn")].map(
  (each) => each.getBoundingClientRect().height)"""
HEADINGS = """() => [...document.querySelectorAll("article :is(h2, h3, h4), .paper-head")].map(
  (each) => each.innerText)"""


def close(text: str) -> str:
    """Letters only: lines are broken elsewhere on paper, and some headings are in capitals."""
    return "".join(text.split()).casefold()


def only_there(told: dict[str, Any], words: Words) -> str:
    """What the command line's paper says and a phone's need not: commands that tell more, a column's head."""
    more = [row["more"] for row in told.get("whys", ())]
    return close(" ".join((words("why-more"), words("col-stud"), *more)))


@pytest.mark.browser
@pytest.mark.parametrize("language", ["en", "es"])
@pytest.mark.parametrize(("kind", "name"), KINDS)
def test_it_prints_with_nothing_cut_torn_or_left_alone(
    at: Site,
    jobs: dict[str, str],
    rebuilds: dict[str, Rebuild],
    page: Page,
    kind: str,
    name: str,
    language: Any,
) -> None:
    """independent: pypdf reads what Chromium prints, and what the command line's own PDF says."""
    address = f"/job/{jobs[name]}/papers/{kind}"
    told = at.twin(address, lang=language)["sheet"]
    page.goto(f"{HOME}{address}?lang={language}")
    headings = {close(text) for text in page.evaluate(HEADINGS)}
    theirs = re.findall(r"[^\s\"?]+", pdf(kind, rebuilds[name], language).casefold())
    for size, (wide, high) in PAPERS.items():
        sheets = printed(page, size)
        if kind == "proof":
            assert len(sheets) == 1
        for number, sheet in enumerate(sheets, 1):
            assert sheet.size == pytest.approx((wide, high), abs=1.5), "Chromium rounds to its own dots"
            page_of = Words(language)("page", page=number, of=len(sheets))
            for each in (page_of, told["head"]["job"], NOW[:10], f"rev {told['head']['revision']}"):
                assert each in sheet.text, (number, each)
            for box in (*sheet.filled, *sheet.framed):
                assert box.within(sheet.open), "cut off at the edge"
            assert close(sheet.lowest) not in headings, "a heading left alone"
        whole = close("".join(sheet.text for sheet in sheets))
        for text in texts(told):
            assert close(text) in whole, text
        there = whole + only_there(told, Words(language))
        assert not [word for word in theirs if word not in there], "words that the command line's PDF has"
        boxed(page, sheets, [close(grid["title"]) for grid in told.get("reread", ())])


def boxed(page: Page, sheets: list[Sheet], titles: list[str]) -> None:
    """Boxes are large enough to write in, and none is torn; drawings have lines of their own.

    independent: how high the browser lays out a row on a screen as wide as the paper, against what is
    drawn on it.
    """
    page.emulate_media(media="print")
    page.set_viewport_size({"width": round(sheets[0].open.wide / MM / 25.4 * 96), "height": 1000})
    try:
        for each in page.evaluate(WRITTEN_IN):
            assert each["height"] * 25.4 / 96 >= PENCIL - 0.05
            assert each["width"] * 25.4 / 96 >= 2 * PENCIL - 0.2
            assert each["over"] <= 0
        heights = [height * 0.75 for height in page.evaluate(ROWS)]
    finally:
        page.emulate_media(media="null")
    for sheet in sheets:
        if titles and not any(title in close(sheet.text) for title in titles):
            continue
        for side in sheet.upright():
            assert any(abs(side.high - height) < 1 * MM for height in heights), "torn over two pages"


@pytest.mark.browser
def test_a_form_of_forty_studs_prints_six_to_a_table(at: Site, page: Page) -> None:
    facts = [("name", "Hall bath"), *wall("B", 40, heights='["2", "48"]')]
    job = typed(at, facts)
    page.goto(f"{HOME}/job/{job}/papers/form?lang=en")
    sheets = printed(page, "Letter")
    whole = " ".join(sheet.text for sheet in sheets)
    assert all(re.search(rf"\bB{k}\b", whole) for k in range(1, 41))
    assert whole.count("BACK WALL") == 7, "forty studs, six to a table"
    boxed(page, sheets, [])
    for sheet in sheets:
        assert all(box.within(sheet.open) for box in sheet.filled)


@pytest.mark.browser
def test_a_twisted_stud_has_a_line_across_its_boxes(at: Site, page: Page) -> None:
    """The second edge is written in the lower corner: the same stroke as on the command line's form."""
    facts = [*wall("B", 3, heights='["2", "48"]'), ("survey.walls.B.studs.B2.arris.2", "6-1/8")]
    job = typed(at, facts)
    page.goto(f"{HOME}/job/{job}/papers/form?lang=en")
    assert page.locator("svg.arris").count() == 2
    column = page.locator("table.names").first.locator("td:has(svg.arris)")
    assert column.count() == 2


@pytest.mark.browser
def test_the_key_prints_where_there_is_script(at: Site, jobs: dict[str, str], page: Page) -> None:
    page.goto(f"{HOME}/job/{jobs['read-again']}/papers/form?lang=en")
    page.evaluate("window.print = () => { window.asked = true; }")
    page.locator("[data-print]").tap()
    assert page.evaluate("window.asked")
    page.goto(f"{HOME}/job/{jobs['read-again']}?lang=en")
    left = page.evaluate("document.documentElement.style.length")
    assert left == 0, "no other page carries the paper's head"


def test_in_the_table_of_reasons_each_height_stands_beside_its_reading() -> None:
    """independent: the readings of B2 as they are typed in the example."""
    at = site()
    job = bring(at, "old-alcove", MENDED)
    page = in_one(at.page(f"/job/{job}/papers/crew"))
    (row,) = re.findall(r'<td>B2</td><td><span class="read-at">(.*?)</span></td>', page)
    pairs = re.findall(r'<span class="at">(\d+):</span> <strong>([^<]*)</strong>', row)
    assert pairs[:3] == [("2", "5-15/16"), ("18", "5-3/4"), ("36", "5-11/16")]
    assert len(pairs) == 6
