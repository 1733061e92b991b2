"""``undertile draw``: files that are there, or one clear line."""

from __future__ import annotations

from pathlib import Path
from xml.etree import ElementTree

import pytest

from tests.drawing.cast import EXAMPLES, SMALLEST
from undertile.cli.app import run

HAND = str(EXAMPLES / "hand.toml")


def test_every_sheet_is_a_file(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert run(["draw", HAND, "--out", str(tmp_path / "new")]) == 0
    names = {path.name for path in (tmp_path / "new").iterdir()}
    assert names == {
        *(f"wall-{w}.svg" for w in "BLR"), "opening.svg", "flange.svg", *(f"relief-{w}.svg" for w in "BLR")
    }  # fmt: skip
    for path in (tmp_path / "new").iterdir():
        ElementTree.parse(path)
    assert "wall-B.svg: " in capsys.readouterr().out


def test_dxf_in_mm_and_spanish(tmp_path: Path) -> None:
    words = ["draw", HAND, "--out", str(tmp_path), "--format", "dxf", "--unit", "mm", "--language", "es"]
    assert run(words) == 0
    text = (tmp_path / "wall-B.dxf").read_text(encoding="utf-8")
    assert "Pared del fondo" in text


def test_without_a_plan_it_says_what_to_do(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    small = tmp_path / "small.toml"
    small.write_text(SMALLEST)
    assert run(["draw", str(small), "--out", str(tmp_path / "out")]) == 1
    assert "no amounts yet" in capsys.readouterr().err
    assert (tmp_path / "out" / "wall-B.svg").exists()


def test_a_place_that_cannot_be_written(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (tmp_path / "file").write_text("here")
    assert run(["draw", HAND, "--out", str(tmp_path / "file")]) == 2
    assert "choose another with --out" in capsys.readouterr().err
    assert (tmp_path / "file").read_text() == "here"


def test_nothing_to_draw_is_said(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    empty = tmp_path / "empty.toml"
    empty.write_text('version = 2\nunit = "in"\n')
    assert run(["draw", str(empty), "--out", str(tmp_path / "out")]) == 1
    assert "Nothing to draw yet" in capsys.readouterr().err
