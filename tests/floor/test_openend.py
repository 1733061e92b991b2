"""A wet extent open at an end: what is read over wood that may still go out is not sure."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from tests.floor.cast import checks
from undertile.findings import Verdict
from undertile.floor.result import FloorResult
from undertile.job import Rebuild, plan, read_job
from undertile.job.stages import STAGES
from undertile.packet.floor import floor_sheet
from undertile.packet.words import Language

EXAMPLE = Path(__file__).resolve().parents[2] / "examples" / "wet-corner.toml"


def open_right(on_new: str = "") -> Rebuild:
    """The wet corner without its dry reading at 30, 6: 18, 6 is the last one that way, and it is wet."""
    text, many = re.subn(
        r"\[wood\.points\.floor-30-6\].*?\n\n", "", EXAMPLE.read_text("utf-8"), flags=re.DOTALL
    )
    assert many == 1
    if on_new:
        text, many = re.subn(r'(f1 = .*reading = "48-1/8") }', rf'\1, on_new = "{on_new}" }}', text)
        assert many == 1
    return plan(read_job(text.encode()), [each for each in STAGES if each.key in ("wood", "floor")])


def found_in(rebuild: Rebuild) -> FloorResult:
    found: FloorResult = rebuild.results["floor"]
    return found


def test_spots_out_to_the_open_end_are_uncertain_and_never_counted() -> None:
    """independent: by the places alone; open to the right, 0 to 30 out from the wall, so rows 1 to 3."""
    rebuild = open_right()
    assert [each.right for each in rebuild.results["wood"].patches] == [None]
    level = found_in(rebuild).level
    assert set(level.unsure) == {f"{column}{row}" for column in "abcdef" for row in (1, 2, 3)}
    assert {each.name for each in level.places} == {f"{column}4" for column in "abcdef"}
    assert level.work is None
    assert not any(each.amount for each in level.places)
    check = checks(found_in(rebuild))["pan-floor-level"]
    assert check.verdict is Verdict.NOT_SHOWN
    assert check.next_step.startswith('The wet extent is open at an end: probe subfloor L 30", B 6" first; ')


def test_bounded_nothing_is_uncertain_and_what_is_read_on_a_new_panel_is_sure() -> None:
    rebuild = plan(read_job(EXAMPLE), [each for each in STAGES if each.key in ("wood", "floor")])
    assert found_in(rebuild).level.unsure == ()
    assert "f1" not in found_in(open_right("48-1/8")).level.unsure


@pytest.mark.parametrize(("language", "said"), [("en", "? not counted: "), ("es", "? no cuenta: ")])
def test_the_sheet_marks_them(language: Language, said: str) -> None:
    sheet = floor_sheet(open_right(), language=language)
    assert sheet is not None
    assert sheet.level is not None
    cells = {cell.name: cell.mark for row in sheet.level.cells for cell in row if cell is not None}
    assert (cells["c2"], cells["c4"]) == ("?", "")
    assert any(line.startswith(said) for line in sheet.level.says)
