"""``undertile water`` on the bundled wet corner, visit by visit, and its JSON twin."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from undertile.cli import main

EXAMPLE = str(Path(__file__).resolve().parents[2] / "examples" / "wet-corner.toml")


def said(capsys: pytest.CaptureFixture[str], *words: str) -> tuple[int, str]:
    code = main(list(words))
    return code, " ".join(capsys.readouterr().out.split())


def test_the_first_visit_says_how_far_to_open_where_to_read_and_that_there_is_no_date(
    capsys: pytest.CaptureFixture[str],
) -> None:
    code, page = said(capsys, "water", EXAMPLE, "--visit", "1")
    assert code == 1
    assert 'Toward wall R from plate B at 28": open to plate B at 40"' in page
    assert 'Read next: plate L at 18": dry, open to plate L at 18"; wet, further still.' in page
    assert "plate B at 4: reads 29.2 %; no date yet, it may be fed" in page
    assert 'Subfloor layer 1: from wall L 0" to 30", out from wall B 0" to 30".' in page
    assert "Do not cover yet." in page


def test_the_second_visit_says_what_may_be_fed_and_what_leaks(capsys: pytest.CaptureFixture[str]) -> None:
    code, page = said(capsys, "water", EXAMPLE, "--visit", "2")
    assert code == 1
    assert "plate B at 4 may be fed: " in page
    assert "Water came from the supply pipes" in page
    assert 'cut out plate B at 4: the awl sinks 3/16"' in page


def test_the_third_visit_gives_a_range_and_the_gate_stays_shut(capsys: pytest.CaptureFixture[str]) -> None:
    code, page = said(capsys, "water", EXAMPLE)
    assert code == 1
    assert "eight times in ten, if the air stays as it is" in page
    assert "clean since: pressure test, again" in page
    assert "Do not cover yet. source the drain below the strainer" in page
    assert "0.0" not in page


def test_json_has_every_verdict_with_its_reason_and_source(capsys: pytest.CaptureFixture[str]) -> None:
    code = main(["water", EXAMPLE, "--json", "--visit", "1"])
    found = json.loads(capsys.readouterr().out)
    assert (code, found["command"], found["visit"]) == (1, "water", "1")
    corner = next(each for each in found["points"] if each["name"] == "plate-B-4")
    assert (corner["call"], corner["source"]) == ("no date", "practice-live-water")
    assert found["patches"] == [{"layer": 1, "left": '0"', "right": '30"', "back": '0"', "front": '30"'}]
    assert found["gate"]["open"] is False
    assert found["source"]["stands"][0]["standing"] == "open"


def test_a_visit_that_is_not_there_is_one_line(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["water", EXAMPLE, "--visit", "9"]) == 2
    assert "expected a visit of the job (1, 2 and 3), found `9`" in capsys.readouterr().err


def test_a_job_without_water_says_how_to_begin(capsys: pytest.CaptureFixture[str]) -> None:
    code, page = said(capsys, "water", EXAMPLE.replace("wet-corner", "hand"))
    assert code == 1
    assert "Nothing is read yet" in page


def test_check_says_what_the_water_part_finds(capsys: pytest.CaptureFixture[str]) -> None:
    code, page = said(capsys, "check", EXAMPLE)
    assert code == 0
    assert "source, moisture, new wood, the plan of the studs, photo and inspection" in page
    assert "B1: 18.4 % at B1 at 2; its face goes back" in page


def test_its_drawings_and_its_record_are_written(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    out, pdf = tmp_path / "charts", tmp_path / "record.pdf"
    words = (
        "water",
        EXAMPLE,
        "--out",
        str(out),
        "--pdf",
        str(pdf),
        "--language",
        "es",
        "--date",
        "2026-03-07",
    )
    code, page = said(capsys, *words)
    assert code == 1
    assert "Water record written" in page
    names = {path.name for path in out.iterdir()}
    assert {"where-wet.svg", "drying-1.svg", "drying-plate-B-16.svg"} <= names
    assert "Cómo seca" in (out / "drying-1.svg").read_text(encoding="utf-8")
    assert pdf.read_bytes().startswith(b"%PDF")
    again = pdf.read_bytes()
    said(capsys, *words)
    assert pdf.read_bytes() == again, "the same facts and date print the same bytes"


def test_no_record_of_nothing(capsys: pytest.CaptureFixture[str], tmp_path: Path) -> None:
    empty = tmp_path / "empty.toml"
    empty.write_text('version = 2\nunit = "in"\n', encoding="utf-8")
    assert main(["water", str(empty), "--pdf", str(tmp_path / "r.pdf")]) == 2
    assert "no water record" in capsys.readouterr().err
