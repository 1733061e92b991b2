"""``floor``: the answer in the person's order, as JSON, and its drawings."""

from __future__ import annotations

import json
import re
from pathlib import Path

import pytest

from tests.floor.cast import laid
from undertile.cli import main

EXAMPLES = Path(__file__).resolve().parents[2] / "examples"
WET = str(EXAMPLES / "wet-corner.toml")


def said(words: list[str], capsys: pytest.CaptureFixture[str]) -> tuple[int, str]:
    code = main(words)
    return code, capsys.readouterr().out


def test_the_wet_corner_in_order(capsys: pytest.CaptureFixture[str]) -> None:
    code, text = said(["floor", WET], capsys)
    assert code == 1  # a notch and the panel fail
    heads = ["Does the floor carry it?", "Where is it cut?", "Is it level under the pan?", "What else?"]
    places = [text.index(each) for each in heads]
    assert places == sorted(places)
    # independent, by hand (docs/examples.md): from wall L to J3, 30 out; 7-1/4 over 6 is 1.208
    assert '0" to 35-3/4" from wall L, 0" to 30" from wall B' in " ".join(text.split())
    assert 'J2 notch pipe 1-3/8", margin -11/64"' in " ".join(text.split())
    assert "Once the new panel lies, read a1, a2, a3, b1, b2, b3, c1, c2 and c3 on it" in " ".join(
        text.split()
    )
    assert "the least there is" not in text  # read on wood that goes out
    assert "Cleat of two-by: 1 of 30" in text
    assert "0." not in text.replace("1.", "")  # no decimals of an inch


def test_with_the_patch_laid_it_says_the_work_and_where_it_then_reads(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    job = tmp_path / "laid.toml"
    job.write_text(laid(Path(WET).read_text(encoding="utf-8")), encoding="utf-8")
    _, text = said(["floor", str(job)], capsys)
    flat = " ".join(text.split())
    assert "41 minutes, the least there is." in flat  # pinned; the solver's own tests prove it least
    assert "Done, the middle of the floor under the pan reads" in flat


FLOOR = """version = 2
unit = "in"
[floor]
joists_run = "out from the back wall"
tile = "stone"
[floor.all_joists]
make = "sawn"
width = "1-1/2"
depth = "9-1/4"
species = "hem-fir"
grade = "no 2"
span = "{span}"
bearing_on = "wood or metal"
bearing = "3"
[floor.joists]
J1 = {{ at = "8" }}
J2 = {{ at = "20" }}
J3 = {{ at = "32" }}
{top}"""
TOP = """[floor.loads.on_top]
tile = { what = "stone tile", thickness = "3/8" }
"""


@pytest.mark.parametrize(
    ("span", "top", "code", "tile", "says"),
    [
        ("132", TOP, 0, "pass", ""),
        ("132", "", 0, "not shown", "Enter what goes on the subfloor"),
        ("11", TOP, 1, "not shown", "Measure span and depth of joist J2 again"),
        ("11", "", 1, "not shown", "Measure span and depth of joist J2 again"),
    ],
)
def test_nothing_passes_under_a_load_nobody_said_or_on_a_span_that_is_none(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], span: str, top: str, code: int, tile: str, says: str
) -> None:
    """independent: 11 in is no span of a joist 9-1/4 deep: feet typed as inches."""
    job = tmp_path / "floor.toml"
    job.write_text(FLOOR.format(span=span, top=top), encoding="utf-8")
    found, out = said(["floor", str(job), "--json"], capsys)
    told = json.loads(out)
    assert found == told["exit"] == code
    its = {check["code"]: check for joist in told["joists"] for check in joist["checks"]}
    check = its["joist-tile-J2"]
    assert check["verdict"] == tile
    assert check["next_step"].startswith(says)
    assert bool(check["value"]) is (tile == "pass")
    assert bool(its["joist-code-J2"]["value"]) is (span == "132"), "live load alone; nothing of no span"


def test_a_joist_by_its_name_is_asked_about(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """published: PS 20, a dry 2x8 is 7-1/4 deep."""
    job = tmp_path / "named.toml"
    text = Path(WET).read_text(encoding="utf-8").replace('depth = "7-1/4"', 'depth = "8"')
    job.write_text(text, encoding="utf-8")
    _, out = said(["floor", str(job)], capsys)
    assert "a dressed piece sold as 8 is 7-1/4" in " ".join(out.split())
    _, out = said(["floor", WET], capsys)
    assert "dressed piece" not in out


def test_every_figure_as_json(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    job = tmp_path / "laid.toml"
    job.write_text(laid(Path(WET).read_text(encoding="utf-8")), encoding="utf-8")
    code, text = said(["floor", str(job), "--json"], capsys)
    found = json.loads(text)
    assert (code, found["exit"], found["command"]) == (1, 1, "floor")
    assert found["loads"]["live"] == "40"  # a weight, not a length
    assert found["layouts"][0]["lower"]["high"] == {"at": '35-3/4"', "kind": "joist", "joist": "J3"}
    assert found["level"]["work"]["minutes"] == found["level"]["work"]["least_minutes"] == "41"
    assert found["cut_lists"][0]["proved"] is True


@pytest.mark.parametrize("kind", ["svg", "dxf"])
def test_its_drawings(tmp_path: Path, capsys: pytest.CaptureFixture[str], kind: str) -> None:
    code, _ = said(["floor", WET, "--out", str(tmp_path), "--format", kind, "--language", "es"], capsys)
    assert code == 1
    assert sorted(path.name for path in tmp_path.iterdir()) == [f"floor-panels.{kind}", f"floor-patch.{kind}"]
    assert (tmp_path / f"floor-patch.{kind}").stat().st_size > 2000


def test_a_job_without_a_floor_says_what_to_measure(capsys: pytest.CaptureFixture[str]) -> None:
    code, text = said(["floor", str(EXAMPLES / "hand.toml")], capsys)
    assert code == 0
    assert "Measure the joists from below" in text


def test_bad_input_is_one_line_and_the_rest_is_answered(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    job = tmp_path / "job.toml"
    job.write_text(
        """
version = 2
unit = "in"
[floor]
joists_run = "out from the back wall"
tile = "ceramic"
all_joists = { make = "sawn", width = "1-1/2", depth = "9-1/4", species = "hem-fir", grade = "no 2" }
[floor.joists]
J1 = { at = "8" }
J2 = { at = "24", span = "120", holes = { drain = { at = "60", diameter = "12", top = "1" } } }
""",
        encoding="utf-8",
    )
    code, text = said(["floor", str(job)], capsys)
    flat = " ".join(text.split())
    assert code == 0
    assert "joist J1: the span is not measured" in flat
    assert 'J2 hole drain: the hole is 12" wide' in flat
    assert "Joist under the tile" in flat


BED = """
version = 2
name = "Bed"
unit = "mm"

[floor.bed]
width = "1500"
depth = "900"
drain_x = "750"
drain_y = "450"
"""


def test_a_bed_of_an_mm_job_is_told_in_liters_and_kilograms(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    """independent: 1 cu ft is 28.317 liters, 1 lb 0.45359 kg; the inch face of the same job has pounds."""
    job = tmp_path / "bed.toml"
    job.write_text(BED, encoding="utf-8")
    texts = [" ".join(said(["floor", str(job), *more], capsys)[1].split()) for more in ((), ("--unit", "in"))]
    metric, inches = (text[text.index("over the liner.") :].partition(" Slope")[0] for text in texts)
    assert "cu ft" not in metric
    assert "cu ft" in inches
    liters, kilos = (float(re.search(rf"([\d.,]+) {unit}\b", metric)[1]) for unit in ("liters", "kg"))  # type: ignore[index]
    feet, pounds = (float(re.search(rf"([\d.,]+) {unit}\b", inches)[1]) for unit in ("cu ft", "lb"))  # type: ignore[index]
    # each rounded up: a hundredth of a cubic foot is 0.28 liters, a pound under half a kilogram
    assert liters == pytest.approx(28.317 * feet, abs=1.3)
    assert kilos == pytest.approx(0.45359 * pounds, abs=1.5)
