"""The PDF files read back by another program: text, sizes, fonts, pages; names that would break a page."""

from __future__ import annotations

import io
import re
import sys
from dataclasses import replace
from pathlib import Path

import pytest
from pypdf import PageObject, PdfReader

from tests.packet.cast import EMPTY, MENDED, NAMED, as_typed, job_of, mended, planned, text_of, wall
from tests.packet.test_crew import held_alcove
from undertile.packet import crew_sheet, pdf, survey_form, to_pdf
from undertile.packet.content import CrewSheet, SurveyForm
from undertile.packet.drawings import crew_drawings

FORTY = wall(40, ("6-0",) * 9 + ("6-1/4",))
"""A wall of forty studs, one in ten to be built out."""
SIZES = {"letter": (612.0, 792.0), "a4": (595.28, 841.89)}
"""Published: ANSI Letter 8.5 x 11 in; ISO 216 A4 210 x 297 mm. [points]"""


def read(sheet: CrewSheet | SurveyForm, drawings: dict[str, str] | None = None) -> PdfReader:
    return PdfReader(io.BytesIO(to_pdf(sheet, drawings)))


def texts(reader: PdfReader) -> list[str]:
    """Text of each page, every run of blanks one blank."""
    return [" ".join(page.extract_text().split()) for page in reader.pages]


def letters(page: PageObject) -> list[tuple[float, float]]:
    """Where each run of letters begins. [points]"""
    spots: list[tuple[float, float]] = []

    def see(said: str, cm: list[float], tm: list[float], *_: object) -> None:
        if said.strip():
            x, y = tm[4], tm[5]
            spots.append((cm[0] * x + cm[2] * y + cm[4], cm[1] * x + cm[3] * y + cm[5]))

    page.extract_text(visitor_text=see)
    return spots


@pytest.mark.parametrize("name", MENDED)
@pytest.mark.parametrize(("paper", "language"), [("letter", "en"), ("a4", "es")])
def test_every_stud_s_amounts_are_on_its_paper(name: str, paper: str, language: str) -> None:
    """Independent: amounts read back from the page, from a stud's name on, against the plan's."""
    sheet = crew_sheet(mended(name), paper=paper, language=language)  # type: ignore[arg-type]
    whole = " ".join(texts(read(sheet)))
    for part in sheet.walls:
        for card in part.cards:
            start = whole.index(f"{card.name} {card.why} ")
            own = re.sub(r"(?<![^\W\d])[a-c](?= )", "", whole[start + len(card.name) :])  # strips' letters
            own = " ".join(own.split())
            for row in reversed(card.rows):
                said = [*([f"X {row.take}"] if row.take else []), *([f"↑ {row.add}"] if row.add else [])]
                figures = re.escape(" ".join([*(said or ["0"]), row.reads]))
                height = re.escape(row.height + ("?" if row.not_read else ""))
                found = re.search(rf"(?<!\S){height} {figures}(?!\S)", own)
                assert found, (card.name, row)
                between = own[: found.start()]
                assert not re.search(r"[X↑]", between), "no other height's amount is passed over"
                own = own[found.end() :]


@pytest.mark.parametrize("paper", SIZES)
def test_pages_are_of_the_size_asked_for(paper: str) -> None:
    for sheet in (
        crew_sheet(mended("hand"), paper=paper),  # type: ignore[arg-type]
        survey_form(mended("hand").job, paper=paper),  # type: ignore[arg-type]
    ):
        for page in read(sheet).pages:
            assert float(page.mediabox.width) == pytest.approx(SIZES[paper][0], abs=0.05)
            assert float(page.mediabox.height) == pytest.approx(SIZES[paper][1], abs=0.05)


@pytest.mark.parametrize("name", MENDED)
def test_every_page_says_which_of_how_many_of_what(name: str) -> None:
    rebuild = mended(name)
    sheet = crew_sheet(rebuild, date="2026-11-25", language="es")
    made = to_pdf(sheet, crew_drawings(rebuild, "es"))
    pages = texts(PdfReader(io.BytesIO(made)))
    assert pdf.pages(made) == len(pages)
    for number, text in enumerate(pages, 1):
        assert f"Hoja {number} de {len(pages)}" in text
        assert sheet.head.job in text
        assert "2026-11-25" in text
        assert f"rev {sheet.head.revision}" in text
        assert ("pulgadas" if sheet.head.unit == "in" else "milímetros") in text


def test_fonts_are_in_the_file_and_are_the_open_ones() -> None:
    rebuild = mended("old-alcove")
    reader = read(crew_sheet(rebuild, language="es"), crew_drawings(rebuild, "es"))
    seen = set()
    for page in reader.pages:
        for font in page["/Resources"]["/Font"].values():
            (inner,) = font.get_object()["/DescendantFonts"]
            descriptor = inner.get_object()["/FontDescriptor"]
            assert {"/FontFile2", "/FontFile3"} & set(descriptor), "a font that is not in the file"
            seen.add(str(descriptor["/FontName"]).split("+")[-1])
    assert seen
    assert all(name.startswith(("SourceSansPro", "DejaVuSansMono")) for name in seen), seen


def test_letters_of_both_languages_come_back_as_they_were() -> None:
    spanish = crew_sheet(mended("old-alcove"), language="es")
    whole = " ".join(texts(read(spanish)))
    assert "Refuerce" in whole or "Cepille" in whole
    for step in spanish.order:
        assert step.text in whole
    assert "\x00" not in whole


def test_the_hold_line_is_the_first_thing_said() -> None:
    first = texts(read(crew_sheet(mended("old-alcove"))))[0]
    assert first.index("BEFORE ANYTHING") < first.index("Order of work")


def test_what_is_held_over_a_reading_in_doubt_is_on_the_paper() -> None:
    """Beside its box, and as if it were so at its stud and at the head of its wall."""
    said = "Held over a reading in doubt: {}. Read it again before you rely on the hold."
    whole = held_alcove(MENDED["old-alcove"])
    wishes = ["B4 at 36 = 6-1/4", "L3 at 54 = 5-7/8"]
    for sheet, drawings, times in (
        (crew_sheet(held_alcove()), {}, 1),
        (crew_sheet(whole, as_if=wishes), crew_drawings(whole), 2),
        (crew_sheet(whole), crew_drawings(whole), 0),
    ):
        reader = PdfReader(io.BytesIO(to_pdf(sheet, drawings)))
        text = " ".join(" ".join(page.extract_text().split()) for page in reader.pages)
        for spot in ("B4 at 36", "L3 at 54"):
            assert text.count(said.format(spot)) == times, (spot, times)


def test_the_sheet_in_doubt_has_one_page_and_no_amount() -> None:
    sheet = crew_sheet(as_typed("square-pan"))
    (page,) = texts(read(sheet, crew_drawings(as_typed("square-pan"))))
    assert page.index("DO NOT CUT YET") < page.index("L2 at 400 mm")
    assert not re.search(r"[X↑]|(?<![\w-])[-+]\d", page)


NASTY = [
    'A & B #let x = 1 $y$ *b* _i_ @c <d> `e` \\f [g] {h} "i" // /* */ ~ = - +',
    "Baño 🛁 del fondo",
    "חדר אמבטיה",
    "حمام الطابق العلوي",
    "turned \u202e round \u2066 and \u200f back",
    "control \x01 \x1b[31m letters",
    "W" * 300,
    "two\nlines\tand a tab",
]


@pytest.mark.parametrize("name", NASTY, ids=range(len(NASTY)))
def test_a_name_is_never_more_than_a_name(name: str) -> None:
    rebuild = mended("hand")
    plain, form = crew_sheet(rebuild), survey_form(rebuild.job)
    pages = len(read(plain).pages)
    named = replace(plain, head=replace(plain.head, job=name, place=name))
    reader = read(named)
    assert len(reader.pages) == pages
    assert len(read(replace(form, head=replace(form.head, job=name))).pages) == len(read(form).pages)
    for text in texts(reader):
        assert f"rev {plain.head.revision}" in text
    if name.isascii() and name.isprintable() and len(name) <= pdf.NAME:
        assert name in " ".join(texts(reader))


def test_signs_of_markup_print_as_they_are() -> None:
    sheet = crew_sheet(mended("hand"))
    name = "#1 *B* _i_ $5 @c <d> [g] \\f"
    whole = texts(read(replace(sheet, head=replace(sheet.head, job=name))))[0]
    assert name in whole


def test_stock_with_signs_of_markup_prints_as_it_is() -> None:
    text = text_of("hand").replace('"hardboard 1/8"', '"hard*board* #1 [1/8]"')
    sheet = crew_sheet(planned(text))
    assert "hard*board* #1 [1/8]" in " ".join(texts(read(sheet)))


@pytest.mark.parametrize(
    "text",
    [EMPTY, NAMED, wall(1), wall(1, ("6-0",)), wall(3, ("6-0",)), FORTY],
    ids=["nothing", "only walls named", "one stud", "one stud left", "nothing to do", "forty studs"],
)
@pytest.mark.parametrize("language", ["en", "es"])
def test_the_fattest_and_the_smallest_job_keep_to_the_page(text: str, language: str) -> None:
    """Independent: where every letter stands, read back; and every open box of the form is drawn inside."""
    rebuild = planned(text)
    job = rebuild.job
    crew = crew_sheet(rebuild, language=language)  # type: ignore[arg-type]
    drawings = crew_drawings(rebuild) if crew.state == "ready" else {}
    for reader in (read(crew, drawings), read(survey_form(job, language=language))):  # type: ignore[arg-type]
        for page in reader.pages:
            spots = letters(page)
            assert spots
            wide, high = float(page.mediabox.width), float(page.mediabox.height)
            assert all(18 <= x <= wide - 18 and 18 <= y <= high - 18 for x, y in spots)


def test_forty_studs_are_all_there() -> None:
    whole = " ".join(texts(read(crew_sheet(planned(FORTY)))))
    form = " ".join(texts(read(survey_form(job_of(FORTY)))))
    for number in range(1, 41):
        assert re.search(rf"\bB{number}\b", whole)
        assert re.search(rf"\bB{number}\b", form)


def test_everything_to_do_is_on_the_paper() -> None:
    rebuild = planned(wall(6, ("5-3/4",)))
    sheet = crew_sheet(rebuild)
    assert [m.name for m in rebuild.results["framing"].members if m.touched] == [f"B{n}" for n in range(1, 7)]
    assert [card.name for card in sheet.walls[0].cards] == [f"B{n}" for n in range(1, 7)]
    assert not sheet.walls[0].small
    whole = " ".join(texts(read(sheet)))
    assert all(re.search(rf"\bB{n} w\d", whole) for n in range(1, 7))


def test_the_same_sheet_gives_the_same_bytes() -> None:
    sheet = crew_sheet(mended("hand"), date="2026-11-25")
    assert to_pdf(sheet) == to_pdf(sheet)


def test_files_are_small_enough_to_send() -> None:
    """A picture message takes some 1 to 3 MB (no source); 13 studs with drawings are far less."""
    rebuild = mended("old-alcove")
    assert len(to_pdf(crew_sheet(rebuild), crew_drawings(rebuild))) < 600_000
    assert len(to_pdf(survey_form(rebuild.job))) < 300_000


@pytest.fixture
def fresh() -> object:
    pdf.fonts.cache_clear()
    yield None
    pdf.fonts.cache_clear()


@pytest.mark.usefixtures("fresh")
def test_without_the_font_one_line_says_what_to_install(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(pdf.importlib.util, "find_spec", lambda name: None)
    with pytest.raises(pdf.PaperMissing) as raised:
        to_pdf(crew_sheet(mended("hand")))
    assert "Source Sans Pro" in str(raised.value)
    assert "undertile[paper]" in str(raised.value)
    assert "\n" not in str(raised.value)


@pytest.mark.usefixtures("fresh")
def test_without_typst_one_line_says_what_to_install_and_the_data_is_there(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setitem(sys.modules, "typst", None)  # type: ignore[arg-type]
    sheet = crew_sheet(mended("hand"))
    assert sheet.state == "ready"
    with pytest.raises(pdf.PaperMissing, match=r"no PDF without typst.*undertile\[paper\]"):
        to_pdf(sheet)


@pytest.mark.usefixtures("fresh")
def test_a_font_package_without_its_font_is_said(monkeypatch: pytest.MonkeyPatch, tmp_path: object) -> None:
    class Found:
        origin = str(tmp_path) + "/__init__.py"

    monkeypatch.setattr(pdf.importlib.util, "find_spec", lambda name: Found)
    with pytest.raises(pdf.PaperMissing, match="not installed"):
        to_pdf(crew_sheet(mended("hand")))


def test_papers_need_no_typst_to_be_imported() -> None:
    source = Path(pdf.__file__).read_text(encoding="utf-8")
    assert not re.search(r"(?m)^import typst|^from typst", source)
