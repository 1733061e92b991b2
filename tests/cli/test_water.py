"""``undertile water`` on the bundled wet corner, visit by visit, and its JSON twin."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest

from tests.cli.test_unit_printed import honest, in_mm
from tests.wood.test_honest_job import as_toml
from undertile.cli import clock, main
from undertile.cli.water_cover import KINDS, reasons
from undertile.packet.cover import KINDS as EVERY_KIND
from undertile.wood.gate import Missing

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


def written(job: dict[str, Any], to: Path) -> str:
    to.write_text("".join(f"{key} = {as_toml(value)}\n" for key, value in job.items()), encoding="utf-8")
    return str(to)


def test_what_is_missing_is_said_with_why_and_the_next_step(capsys: pytest.CaptureFixture[str]) -> None:
    """Independent: the JSON twin; each place, reason and step stands on the page under its head."""
    _, page = said(capsys, "water", EXAMPLE)
    end = page[page.index("Do not cover yet.") :]
    main(["water", EXAMPLE, "--json"])
    missing = json.loads(capsys.readouterr().out)["gate"]["missing"]
    assert {each["kind"] for each in missing} >= {"source", "moisture", "patch", "joists", "plan", "photo"}
    for each in missing:
        assert each["where"] in end
        assert each["what"].removeprefix("dry on: ") in end
        if each["kind"] != "plan":
            assert each["next_step"] in end
    assert f"undertile plan {EXAMPLE} shows it now" in end


def test_places_that_lack_the_same_are_one_line_and_every_place_is_not_called_dry_beside_too_old(
    capsys: pytest.CaptureFixture[str], tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    path = written(honest(), tmp_path / "honest.toml")
    monkeypatch.setattr(clock, "day", lambda: "2026-03-22")
    code, page = said(capsys, "water", path)
    assert (code, "Every place is dry." in page) == (0, True)
    monkeypatch.setattr(clock, "day", lambda: "2026-04-10")  # 20 days after the last visit, by the calendar
    code, page = said(capsys, "water", path)
    assert code == 1
    assert "Every place is dry." not in page
    assert "Every place was dry when it was read, 16 of 16 too long ago to cover by: read them again." in page
    assert page.count("dry, as read 20 days ago; at most 14.") == 1
    assert page.count("Read it again before it is covered: a room gets wet again.") == 1


def test_a_place_typed_in_the_other_unit_is_told_in_the_page_s(
    capsys: pytest.CaptureFixture[str], tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Independent: by hand, 18 in are 457.2 mm, 6 in 152.4, 30 in 762."""
    monkeypatch.setattr(clock, "day", lambda: "2026-03-22")
    for job, more in ((in_mm(), ()), (honest(), ("--unit", "mm"))):
        _, page = said(capsys, "water", written(job, tmp_path / "job.toml"), *more)
        table = page[page.index("what to do") : page.index("not corrected")]
        assert "plate L at 457 mm 11 10.5" in table
        assert "subfloor L 152 mm, B 762 mm" in table
        assert "plate L at 18 " not in table
    _, page = said(capsys, "water", written(honest(), tmp_path / "job.toml"))
    assert "plate L at 18 11 10.5" in page


def test_every_kind_that_keeps_the_gate_shut_has_its_head() -> None:
    assert set(KINDS) == set(EVERY_KIND)


def test_reasons_of_one_kind() -> None:
    """Independent, by hand."""

    def lacks(kind: str, where: str, what: str, step: str) -> Missing:
        return Missing(kind, where, what, step, "convention-5")

    two = [lacks("photo", each, "no photo", "Take it.") for each in ("wall B", "floor")]
    assert list(reasons([*two, lacks("photo", "wall L", "too old", "Take it.")], "J")) == [
        "wall B; floor: no photo. Take it.",
        "wall L: too old. Take it.",
    ]
    story = lacks("source", "the drain", "pressure test, " * 9, "Pour.")
    assert list(reasons([story], "J")) == ["the drain: as told above. Pour."]
    plan = lacks("plan", "the studs", "there is no plan", "See the plan, then ask again.")
    assert "once nothing else is missing; undertile plan J shows it now." in next(reasons([plan], "J"))
    assert "undertile plan J shows what stands in its way." in next(reasons([plan], "J", alone=True))


def test_a_job_in_mm_is_asked_for_no_gallons_and_no_inches(capsys: pytest.CaptureFixture[str]) -> None:
    _, page = said(capsys, "water", EXAMPLE, "--unit", "mm")
    assert "Pour 20 liters" in page
    assert "fill the pan to about 50 mm" in page
    assert "gallon" not in page
    assert "inches" not in page
