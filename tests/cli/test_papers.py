"""``undertile papers``: two files, one clear line for what is missing, and what the exit code says."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from undertile.cli import main
from undertile.packet import pdf


def test_it_writes_two_files_that_are_pdf(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["papers", "examples/hand.toml", "--out", str(tmp_path / "new" / "folder")]) == 0
    for name in ("crew-sheet.pdf", "survey-form.pdf"):
        assert (tmp_path / "new" / "folder" / name).read_bytes().startswith(b"%PDF")
        assert name in capsys.readouterr().out or name == "survey-form.pdf"


def test_spanish_has_spanish_names_and_a4_is_a4(tmp_path: Path) -> None:
    words = ["papers", "examples/hand.toml", "--out", str(tmp_path), "--language", "es", "--paper", "a4"]
    assert main(words) == 0
    assert sorted(path.name for path in tmp_path.iterdir()) == ["hoja-de-medidas.pdf", "hoja-de-trabajo.pdf"]


def test_doubt_gives_exit_code_1_and_a_line_that_says_why(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["papers", "examples/square-pan.toml", "--out", str(tmp_path)]) == 1
    assert "crew-sheet.pdf gives no amounts yet" in capsys.readouterr().err


def test_as_if_gives_a_sheet_that_holds_only_if(capsys: pytest.CaptureFixture[str]) -> None:
    wish = ["--if", "L2 at 400 mm = 147 mm"]
    assert main(["papers", "examples/square-pan.toml", "--json", "--date", "2026-11-25", *wish]) == 0
    told = json.loads(capsys.readouterr().out)
    assert told["crew_sheet"]["state"] == "ready"
    assert [each["text"] for each in told["crew_sheet"]["as_if"]] == ["L2 at 400 mm = 147 mm"]
    assert told["crew_sheet"]["head"]["date"] == "2026-11-25"
    assert told["survey_form"]["walls"][0]["title"] == "back wall"


def test_neither_folder_nor_json_is_one_line(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["papers", "examples/hand.toml"]) == 2
    assert (
        capsys.readouterr().err
        == "papers needs --out FOLDER to write into, or --json to print what they say\n"
    )


def test_a_file_where_the_folder_should_be_is_one_line(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    (tmp_path / "taken").write_text("mine", encoding="utf-8")
    assert main(["papers", "examples/hand.toml", "--out", str(tmp_path / "taken")]) == 2
    assert "choose another with --out" in capsys.readouterr().err
    assert (tmp_path / "taken").read_text(encoding="utf-8") == "mine"


def test_without_typst_the_data_still_prints_and_the_files_say_what_is_missing(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    def missing(with_system: bool = False) -> None:
        raise pdf.PaperMissing("no PDF without typst, which is not installed; install the paper extra")

    monkeypatch.setattr(pdf, "fonts", missing)
    assert main(["papers", "examples/hand.toml", "--json"]) == 0
    assert json.loads(capsys.readouterr().out)["crew_sheet"]["state"] == "ready"
    assert main(["papers", "examples/hand.toml", "--out", str(tmp_path)]) == 2
    err = capsys.readouterr().err
    assert err.count("\n") == 1
    assert "typst" in err
    assert not list(tmp_path.iterdir())


def test_a_name_in_other_letters_is_said(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    job = tmp_path / "job.toml"
    text = Path("examples/hand.toml").read_text(encoding="utf-8").replace("A room worked", "חדר worked")
    job.write_text(text, encoding="utf-8")
    assert main(["papers", str(job), "--out", str(tmp_path / "out")]) == 0
    assert "letters the sheet's font lacks" in capsys.readouterr().err
