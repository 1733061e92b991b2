"""``undertile recheck``, ``explain`` of what was read again, and a grid read again."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from undertile.cli import main

EXAMPLE = str(Path(__file__).resolve().parents[2] / "examples" / "read-again.toml")


def said(capsys: pytest.CaptureFixture[str], *words: str) -> tuple[int, str]:
    code = main(list(words))
    return code, capsys.readouterr().out


def test_the_page_says_pass_where_it_is_shown_and_what_would_show_the_rest(
    capsys: pytest.CaptureFixture[str],
) -> None:
    code, page = said(capsys, "recheck", EXAMPLE)
    assert code == 0
    assert "Back wall   pass. 12 read again, 4 stand on the first survey." in page
    assert "Right wall  not shown." in page
    assert "Proof: not shown" in page
    assert "1  Read R3 at 50 again." in page
    assert "ANSI A108.02 section 4.2.2" in page
    assert "0.0" not in page.replace("$", "")  # no decimals of an inch


def test_a_fail_or_a_doubt_is_exit_code_1(capsys: pytest.CaptureFixture[str]) -> None:
    wish = "recheck.walls.R.studs.R2.readings.50 = 6-7/8"
    code, page = said(capsys, "recheck", EXAMPLE, "--if", wish)
    assert code == 1
    assert "DOUBT R2 at 50: typed 6-7/8; 5-7/8 would fit" in page


def test_before_the_work_it_lists_what_to_read_again(capsys: pytest.CaptureFixture[str]) -> None:
    code, page = said(capsys, "recheck", EXAMPLE.replace("read-again", "hand"))
    assert code == 0
    assert "What to read again once the work is done" in page
    rows = [line.split()[0] for line in page.splitlines() if line.startswith("   B")]
    assert rows == ["B1", "B2", "B3", "B4"]


def test_json_has_every_verdict_and_the_proof(capsys: pytest.CaptureFixture[str]) -> None:
    code, text = said(capsys, "recheck", EXAMPLE, "--json")
    found = json.loads(text)
    assert (code, found["verdict"], found["state"]) == (0, "not shown", "read")
    back = next(wall for wall in found["proof"]["walls"] if wall["wall"] == "B")
    assert (back["gaps"][0]["widest"], back["gaps"][0]["where"]) == ('1/16"', "B3 at 50")
    assert found["proof"]["feeler_sigma"] == "0.40 mm"
    assert found["left"]["shim_cost"] == "10.40"
    assert found["missing"] == [{"wall": "R", "stud": "R3", "height": '50"', "why": "next to R2"}]


def test_explain_leads_from_a_figure_of_the_re_check_to_readings_rule_and_source(
    capsys: pytest.CaptureFixture[str],
) -> None:
    _, page = said(capsys, "explain", EXAMPLE, "again-play-16")
    assert "inside width measured again 60-1/4" in page
    assert "common practice, no source" in page
    _, page = said(capsys, "explain", EXAMPLE, "B2")
    assert "B2, read again" in page
    assert "5-15/16  read again  +1/16" in page
    _, text = said(capsys, "explain", EXAMPLE, "B2", "--json")
    assert json.loads(text)["read_again"]["faces"][2]["text"] == "5-15/16"


def test_a_grid_read_again_goes_beside_the_survey(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    grid, out = tmp_path / "again.csv", tmp_path / "job.toml"
    grid.write_text("stud,along,50\nR3,34,6-0\n", encoding="utf-8")
    code, page = said(capsys, "import", EXAMPLE, str(grid), "--again", "-o", str(out))
    assert code == 0
    assert "1 facts added, 0 changed" in page
    code, text = said(capsys, "recheck", str(out), "--json")
    assert json.loads(text)["missing"] == []
    survey = json.loads(said(capsys, "plan", str(out), "--json")[1])["survey"]["walls"]
    right = next(wall for wall in survey if wall["name"] == "R")
    assert right["studs"][2]["offsets"][2]["text"] == "6-0"


def test_metres_are_as_good(capsys: pytest.CaptureFixture[str]) -> None:
    """independent: the unit printed in changes no verdict, and bare heights stay inches as they were
    typed."""
    one = json.loads(said(capsys, "recheck", EXAMPLE, "--json")[1])
    two = json.loads(said(capsys, "recheck", EXAMPLE, "--unit", "mm", "--json")[1])
    of = [[(s["stud"], s["verdict"]) for w in each["walls"] for s in w["studs"]] for each in (one, two)]
    assert of[0] == of[1]
    assert one["proof"]["digest"] == two["proof"]["digest"]
