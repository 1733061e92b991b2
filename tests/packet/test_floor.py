"""The floor sheet and what moved: pieces and gaps add up, amounts come to their readings, both languages."""

from __future__ import annotations

import io
from fractions import Fraction as F
from typing import Any

import pytest

from tests.floor.cast import laid
from tests.packet.cast import job_of, text_of
from undertile.job import Rebuild, plan
from undertile.job.stages import STAGES
from undertile.lengths import parse_length
from undertile.packet.content import MovedPart
from undertile.packet.drawings import floor_drawings, floor_plans
from undertile.packet.floor import floor_sheet
from undertile.packet.floor_content import FloorSheet
from undertile.packet.moved import what_moved
from undertile.packet.pdf import pages, to_pdf
from undertile.packet.words import Language, Words

BESIDE = [stage for stage in STAGES if stage.key in ("wood", "floor")]
WALL = (
    '[survey.walls.B]\nnominal = "6-0"\nheights = ["2", "4-3/16", "48"]\n'
    '[survey.walls.B.studs.B1]\nalong = "8"\nreadings = ["6-0", "6-0", "6-0"]\n'
)
"""One wall read at 2, 4-3/16 and 48."""


def beside(text: str) -> Rebuild:
    """Floor and water answered alone, as the screens ask."""
    return plan(job_of(text), BESIDE)


def sheet(text: str, language: Language = "en") -> FloorSheet:
    found = floor_sheet(beside(text), date="2026-11-29", language=language)
    assert found is not None
    return found


def inches(text: str) -> F:
    """A figure as it is printed, read back."""
    return parse_length(text, "in").inches


WET = text_of("wet-corner")
LAID = laid(WET)
"""The same once its patch lies and is read as before."""


def test_the_cut_list_comes_to_what_is_cut_out() -> None:
    """independent, by hand: 35-3/4 to the joist's center less 1/8 at the wall and half a gap, 1/16; the same
    out from the back wall: 30 less 1/8 less 1/16."""
    made = sheet(WET)
    (part,) = made.patches
    assert part.lines == (
        'On the joists: cut from 0" to 35-3/4" from the left wall, 0" to 30" from the back wall.',
    )
    (piece,) = part.pieces
    assert (inches(piece.across), inches(piece.along)) == (F("35.75") - F(3, 16), F(30) - F(3, 16))
    (cuts,) = made.cuts
    assert [row.pieces for row in cuts.rows] == [(f"P1 {piece.across} x {piece.along}",)]
    assert cuts.says == ("Whole panels: 1; no way needs fewer.",)
    later = "at J1: measure once the sister stands and its side is typed"
    assert [(row.count, row.length) for row in made.bring[1:]] == [(2, '14-3/4"'), (1, '30"'), (2, later)]


def test_every_place_reads_then_what_its_amount_says() -> None:
    """independent: reading less what is filled; and the finished floor lies within an eighth."""
    level = sheet(LAID).level
    assert level is not None
    assert level.verdict == "fail"
    cells = {cell.name: cell for row in level.cells for cell in row if cell is not None}
    assert len(cells) == 24
    finished = []
    assert level.work
    for name, _, _, do, then in level.work:
        filled = inches(do.removeprefix("fill "))
        assert cells[name].mark == f"↑ +{do.removeprefix('fill ')}"
        assert inches(cells[name].reads) - filled == inches(then) == inches(cells[name].then)
    for cell in cells.values():
        finished.append(inches(cell.then or cell.reads))
    assert max(finished) - min(finished) <= F(1, 8)
    assert level.xs == ('0"', '12"', '24"', '36"', '48"', '60"')


def test_it_is_the_same_in_spanish_and_no_english_is_left() -> None:
    english, spanish = sheet(LAID), sheet(LAID, "es")
    assert [row.pieces for cut in english.cuts for row in cut.rows] == [
        row.pieces for cut in spanish.cuts for row in cut.rows
    ]
    assert len(english.fails) == len(spanish.fails) == 3
    assert len(english.order) == len(spanish.order)
    text = " ".join((*spanish.fails, *spanish.unknown, *spanish.order, *spanish.acts, *spanish.ways))
    for word in ("the", "joist", "floor", "measure", "wanted", "panel"):
        assert f" {word} " not in text.lower(), word


def test_before_the_patch_is_laid_the_sheet_says_lay_read_these_then_level() -> None:
    """independent, by hand: spots at 0, 12 and 24 by 0, 11 and 22 lie inside 0 to 35-3/4 by 0 to 30."""
    made, spanish = sheet(WET), sheet(WET, "es")
    assert made.level is not None
    assert (made.level.verdict, made.level.work, made.level.says) == ("not shown", (), ())
    cells = [cell for row in made.level.cells for cell in row if cell is not None]
    assert {cell.name for cell in cells if cell.reads == "new panel"} == {
        f"{column}{row}" for column in "abc" for row in "123"
    }
    assert len(cells) == 24
    *_, lay, read = made.order
    assert lay == "Floor: lay patch 1, P1, then glue and screw it (floor sheet)."
    assert read.startswith("Read the floor on the new panel at a1, a2, a3, b1, b2, b3, c1, c2 and c3")
    assert len(spanish.order) == len(made.order)
    assert any("c3 on it: what was read there is of wood that goes out." in each for each in made.unknown)
    assert any("hoja nueva" in each for each in spanish.unknown)
    assert made.moved is not None
    assert any("height above the floor at c2 again" in each for each in made.moved.again)


def test_one_is_said_as_one_and_two_as_two() -> None:
    rows = [(row.count, row.what) for row in sheet(WET).bring[1:]]
    assert rows == [(2, "blocks of two-by"), (1, "cleat of two-by"), (2, "blocks of two-by")]
    spanish = [row.what for row in sheet(WET, "es").bring[1:]]
    assert spanish == [
        "bloques de madera de 2x (nominal)",
        "madero de apoyo de 2x (nominal)",
        "bloques de madera de 2x (nominal)",
    ]


def test_a_joist_by_its_name_is_asked_about_on_the_sheet() -> None:
    """published: PS 20, a dry 2x8 is 7-1/4 deep."""
    named = WET.replace('depth = "7-1/4"', 'depth = "8"')
    assert any("nominal" in each for each in sheet(named).acts)
    assert any("medida nominal" in each for each in sheet(named, "es").acts)
    assert not any("nominal" in each for each in sheet(WET).acts)


@pytest.mark.parametrize("language", ["en", "es"])
@pytest.mark.parametrize("paper", ["letter", "a4"])
def test_it_prints_with_its_drawings(language: Language, paper: Any) -> None:
    """independent: pypdf reads what was printed."""
    from pypdf import PdfReader

    rebuild = beside(WET)
    made = floor_sheet(rebuild, date="2026-11-29", language=language, paper=paper)
    assert made is not None
    drawn = floor_drawings(rebuild, language)
    assert list(drawn) == ["floor-patch", "floor-panels"]
    content = to_pdf(made, drawn)
    read = PdfReader(io.BytesIO(content)).pages
    assert len(read) == pages(content)
    flat = "".join("".join(page.extract_text().split()) for page in read)
    flat = flat.replace("--", "-")  # Spanish sets a broken word's hyphen on both lines
    for text in (*made.fails, *made.order, *(f"{row.count}" for row in made.bring), made.title):
        assert "".join(text.split()) in flat, text
    assert '35-3/4"' in flat, "the cut line's dimension, on the drawing"
    width, height = {"letter": (612, 792), "a4": (595.28, 841.89)}[paper]
    assert abs(float(read[0].mediabox[2]) - width) < 1
    assert abs(float(read[0].mediabox[3]) - height) < 1


def test_the_plan_for_a_phone_says_the_same_dimensions() -> None:
    """independent, by hand: 35-3/4 to the joist's center, 30 out from the back wall, as on the cut list."""
    ((title, svg),) = floor_plans(beside(WET))
    assert title == "Floor patch"
    assert '35-3/4"' in svg.replace("&quot;", '"')
    assert '30"' in svg.replace("&quot;", '"')


@pytest.mark.parametrize("name", ["hand", "old-alcove", "steel-unit", "square-pan"])
def test_a_job_without_a_floor_has_no_floor_sheet_and_nothing_moved(name: str) -> None:
    rebuild = beside(text_of(name))
    assert floor_sheet(rebuild) is None
    assert what_moved(rebuild, Words("en")) is None


def moved(level: str, more: str = "") -> MovedPart | None:
    text = (
        f'version = 2\nunit = "in"\n{WALL}[pan.pan]\nwidth = "24"\ndepth = "12"\nflange_height = "4"\n'
        f'[floor.level]\nsurface = "concrete"\n{level}\n{more}'
    )
    return what_moved(beside(text), Words("en"))


def spots(**readings: str) -> str:
    at = {
        "a": ("0", "0"),
        "b": ("12", "0"),
        "c": ("24", "0"),
        "d": ("0", "12"),
        "e": ("12", "12"),
        "f": ("24", "12"),
    }
    return "\n".join(
        f'[floor.level.spots.{name}]\nx = "{at[name][0]}"\ny = "{at[name][1]}"\nreading = "{reading}"'
        for name, reading in readings.items()
    )


def test_a_hump_ground_off_takes_the_flange_down_and_a_height_out_of_its_zone() -> None:
    """independent, by hand: all at 48 but a, 1/4 high: 1/8 ground off is least, by the minutes. The seat goes
    from 47-3/4 down to 47-7/8, the flange, 4 above it, from 43-3/4 to 43-7/8. The line stands 48 over b: the
    zone ended at 4-1/4 and ends at 4-1/8; a stud read at 4-3/16 is in it no more."""
    level = 'line = "48"\nline_at = "b"'
    part = moved(level, spots(a="47-3/4", b="48", c="48", d="48", e="48", f="48"))
    assert part is not None
    assert part.heights == (
        ("from the level line down to the pan's seat", '47-3/4"', '47-7/8"'),
        ("from the level line down to the top of the flange", '43-3/4"', '43-7/8"'),
    )
    assert "Read the floor under the pan again from the level line, at a." in part.again
    zone = 'The flange zone ends at 4-1/8" now: height 4-3/16 moves out of it; plan the walls again.'
    assert zone in part.again


def test_the_named_point_filled_moves_the_line_and_is_measured_again() -> None:
    """independent, by hand: b lies 1/4 low; 1/8 of filling brings it within an eighth: the line, 48-1/4 over
    it, stands 48-1/8 over it then."""
    level = 'line = "48-1/4"\nline_at = "b"'
    part = moved(level, spots(a="48", b="48-1/4", c="48", d="48", e="48", f="48"))
    assert part is not None
    assert part.heights == (("the level line above the subfloor at b", '48-1/4"', '48-1/8"'),)
    assert "Measure the level line's height above the floor at b again, once the floor is done." in part.again


def test_an_even_floor_moves_nothing() -> None:
    """independent: all at 48."""
    assert moved('line = "48"', spots(a="48", b="48", c="48", d="48", e="48", f="48")) is None


def test_what_was_cut_out_and_what_dries_is_said_in_both_languages() -> None:
    rebuild = beside(WET)
    english, spanish = what_moved(rebuild, Words("en")), what_moved(rebuild, Words("es"))
    assert english is not None
    assert spanish is not None
    assert english.out == (
        'plate of the back wall at 4", cut out 2026-03-05: what was read there was on wood that is gone. '
        "Read the new wood there.",
    )
    assert "solera de la pared del fondo" in spanish.out[0]
    found = {each.stud: each for each in rebuild.results["wood"].shrinkage}
    assert {line.split(":")[0] for line in english.shrinks[:-1]} == set(found)
    assert english.shrinks[-1] == "Trued wet, it moves after the work: read it again once it is dry."


def test_wood_still_to_be_cut_out_is_said_before_it_is() -> None:
    text = WET.replace('out = "2026-03-05"\n', "")
    part = what_moved(beside(text), Words("en"))
    assert part is not None
    assert part.out == (
        'plate of the back wall at 4": to be cut out. What was read there will not hold: read the new wood.',
    )
