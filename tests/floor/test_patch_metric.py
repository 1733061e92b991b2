"""A patch in a job in mm: whole millimeters on every face, and no panel of a size that nobody measured."""

from __future__ import annotations

import re
from fractions import Fraction as F
from pathlib import Path

import pytest

from undertile.cli import main
from undertile.floor.facts import FloorFacts
from undertile.floor.result import FloorResult
from undertile.floor.run import floor
from undertile.lengths import MM
from undertile.packet.floor_patch import bring, cut_parts, patch_parts
from undertile.packet.words import Words
from undertile.pan.say import cut_line, cut_size

MEASURED = {"new": {"thickness": "18", "stuff": "plywood", "length": "2440", "width": "1220"}}
BAD = {"wet": {"left": "500.4", "right": "1100.6", "back": "254.8", "front": "895.2"}}


def patched(panels: dict[str, dict[str, str]], bad: dict[str, dict[str, str]] = BAD) -> FloorResult:
    tables = {
        "joists_run": "out from the back wall",
        "tile": "ceramic",
        "all_joists": {"width": "38", "depth": "235", "span": "3600"},
        "joists": {f"J{k}": {"at": str(200 + 400 * k)} for k in range(5)},
        "loads": {"on_top": {"tile": {"what": "ceramic tile", "thickness": "10"}}},
        "patch": {
            "bad": bad,
            "lower": {"thickness": "18"},
            "panels": panels,
            "width": "1900",
            "depth": "2400",
        },
    }
    its = FloorFacts.model_validate(tables, context={"unit": "mm"})
    return floor({"floor": its, "unit": "mm"}, {})


def figures(text: str) -> list[str]:
    return re.findall(r"[0-9]+(?:\.[0-9]+)? mm", text)


@pytest.mark.parametrize(
    ("mm", "low", "high", "size"),
    [("754.8", "754", "755", "754"), ("895.2", "895", "896", "895"), ("900", "900", "900", "900")],
)
def test_lines_go_outward_and_pieces_down(mm: str, low: str, high: str, size: str) -> None:
    """independent: by hand; a whole millimeter stays what it is."""
    value = F(mm) * MM
    assert cut_line(value, "mm", "low") == f"{low} mm"
    assert cut_line(value, "mm", "high") == f"{high} mm"
    assert cut_size(value, "mm") == f"{size} mm"


@pytest.mark.parametrize(("side", "text"), [("low", '12-1/64"'), ("high", '12-1/64"')])
def test_in_inches_lines_stay_to_the_nearest_64th(side: str, text: str) -> None:
    assert cut_line(F(12) + F(1, 60), "in", side) == text  # type: ignore[arg-type]
    assert cut_size(F(12) + F(1, 60), "in") == '12-1/64"'


@pytest.mark.parametrize("language", ["en", "es"])
def test_a_patch_in_mm_worked_by_hand(language: str) -> None:
    """independent, by hand: joists at 200, 600, 1000, 1400: the lines go to 200 and 1400; the back and the
    front stay at 254.8 and 895.2 and print outward, 254 and 896. The piece is 1200 less 3.175 by 640.4 less
    3.175: 1196.825 by 637.225, printed down."""
    found, words = patched(MEASURED), Words(language)  # type: ignore[arg-type]
    (part,) = patch_parts(found, words, "mm")
    assert figures(" ".join(part.lines)) == ["200 mm", "1400 mm", "254 mm", "896 mm"]
    made = found.layouts[0]
    assert made.lower.near.at == F("254.8") * MM, "the rounding is of the print alone"
    (piece,) = made.pieces
    assert [size / MM for size in piece.size] == [F("1196.825"), F("637.225")]
    assert (part.pieces[0].across, part.pieces[0].along) == ("1196 mm", "637 mm")
    (cuts,) = cut_parts(found, words, "mm")
    assert figures(cuts.rows[0].source) == ["2440 mm", "1220 mm"]
    assert figures(cuts.rows[0].pieces[0]) == ["1196 mm", "637 mm"]
    for row in bring(found, words, "mm"):
        assert "." not in row.length, row
    # independent: 18 and 31.75 into the joist is 49.75; the next 5 mm up
    assert found.supplies.screws[0][1] == "50 mm"


@pytest.mark.parametrize(
    "panels",
    [{}, {"new": {"thickness": "18"}}, {"new": {"thickness": "18", "length": "2440"}}],
)
def test_no_panel_is_taken_to_be_of_a_size_that_nobody_measured(panels: dict[str, dict[str, str]]) -> None:
    found = patched(panels)
    asked = [each for each in found.findings if each.code == "patch-panel-size"]
    assert len(asked) == 1
    assert not found.cut_lists, "nothing is cut from it on paper"
    assert found.layouts, "the cut lines need no panel"
    told = str(found)
    assert "2438" not in told
    assert "1219" not in told


def test_measured_it_is_cut_from_and_not_asked_for() -> None:
    found = patched(MEASURED)
    assert "patch-panel-size" not in [each.code for each in found.findings]
    assert found.cut_lists[0].whole == 1
    assert found.cut_lists[0].cuts[0].size == (2440 * MM, 1220 * MM)


def test_the_layout_for_no_panel_comes_out_of_every_panel_sold() -> None:
    """independent: pieces of a large patch against three sizes as sold, in mm."""
    large = {"wet": {"left": "150", "right": "1850", "back": "100", "front": "2300"}}
    for piece in patched({}, large).layouts[0].pieces:
        for length, width in ((2400, 1200), (2440, 1220), (2500, 1250)):
            assert piece.size[0] <= length * MM
            assert piece.size[1] <= width * MM


def test_a_job_in_inches_cuts_from_a_panel_as_before() -> None:
    from tests.floor.test_patch import bad
    from tests.floor.test_patch import patched as in_inches

    (cuts,) = in_inches(bad()).cut_lists
    assert cuts.cuts[0].size == (96, 48)


def test_the_command_line_and_the_drawing_say_whole_millimeters(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    job = tmp_path / "mm.toml"
    job.write_text(JOB, encoding="utf-8")
    main(["floor", str(job), "--out", str(tmp_path)])
    out = " ".join(capsys.readouterr().out.split())
    assert "200 mm to 1400 mm from wall L, 254 mm to 896 mm from wall B." in out
    assert "1196 mm x 637 mm" in out
    drawn = (tmp_path / "floor-patch.svg").read_text(encoding="utf-8")
    for figure in ("254 mm", "896 mm", "1196 mm", "637 mm"):
        assert figure in drawn
    for exact in ("254.8", "895.2", "1196.8", "637.2"):
        assert exact not in re.sub(r"<[^>]*>", " ", drawn)


JOB = """version = 2
unit = "mm"
[floor]
joists_run = "out from the back wall"
tile = "ceramic"
[floor.all_joists]
width = "38"
depth = "235"
span = "3600"
[floor.joists]
J1 = { at = "200" }
J2 = { at = "600" }
J3 = { at = "1000" }
J4 = { at = "1400" }
J5 = { at = "1800" }
[floor.loads.on_top]
tile = { what = "ceramic tile", thickness = "10" }
[floor.patch]
width = "1900"
depth = "2400"
[floor.patch.lower]
thickness = "18"
[floor.patch.panels]
new = { thickness = "18", length = "2440", width = "1220" }
[floor.patch.bad]
wet = { left = "500.4", right = "1100.6", back = "254.8", front = "895.2" }
"""
