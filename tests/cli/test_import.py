"""Readings from a spreadsheet: all of them or none, and the file whole or untouched."""

from __future__ import annotations

import os
import shutil
from collections.abc import Callable
from pathlib import Path

import pytest

from tests.cli.conftest import EXAMPLES, Ran
from undertile.cli.files import write_safely
from undertile.errors import FileError
from undertile.job import read_job

GRID = "height,B1,B2,B3,B4\n90,6-0,6-0,6-0,6-0\n48,6-0,5-13/16,6-0,6-3/16\n2,6-0,6-0,,x\n"


@pytest.fixture
def job(tmp_path: Path) -> Path:
    return Path(shutil.copy(EXAMPLES / "hand.toml", tmp_path / "job.toml"))


def grid(folder: Path, text: str) -> Path:
    path = folder / "grid.csv"
    path.write_text(text, encoding="utf-8")
    return path


def test_readings_go_into_the_job_and_what_changed_is_said(
    job: Path, run: Callable[..., Ran], tmp_path: Path
) -> None:
    ran = run("import", job, grid(tmp_path, GRID), "--wall", "B")
    assert ran.code == 0
    assert "B4 at 48: 6-3/16, was 6-1/8" in ran.out
    studs = read_job(job).survey.walls["B"].studs
    assert studs["B4"].readings["48"].text == "6-3/16"
    assert studs["B4"].readings["2"] == "x"
    assert studs["B3"].readings["2"].text == "6-0"  # a blank in the grid takes nothing away


def test_either_way_round_and_another_file(job: Path, run: Callable[..., Ran], tmp_path: Path) -> None:
    before = job.read_bytes()
    turned = "\n".join(",".join(row) for row in zip(*(line.split(",") for line in GRID.split()), strict=True))
    ran = run("import", job, grid(tmp_path, turned), "--wall", "B", "--output", tmp_path / "new.toml")
    assert ran.code == 0
    assert job.read_bytes() == before
    assert read_job(tmp_path / "new.toml").survey.walls["B"].studs["B4"].readings["48"].text == "6-3/16"


def test_the_same_grid_again_writes_nothing(job: Path, run: Callable[..., Ran], tmp_path: Path) -> None:
    run("import", job, grid(tmp_path, GRID))
    before = job.stat().st_mtime_ns, job.read_bytes()
    ran = run("import", job, grid(tmp_path, GRID))
    assert ran.code == 0
    assert "Nothing new" in ran.out
    assert (job.stat().st_mtime_ns, job.read_bytes()) == before


def test_a_cell_not_understood_is_named_and_nothing_is_written(
    job: Path, run: Callable[..., Ran], tmp_path: Path
) -> None:
    before = job.read_bytes()
    ran = run("import", job, grid(tmp_path, GRID.replace("6-3/16", "6-3/I6").replace("5-13/16", "frog")))
    assert ran.code == 2
    assert ran.out == ""
    assert "B2 at 48" in ran.err
    assert "B4 at 48" in ran.err
    assert job.read_bytes() == before
    assert os.listdir(tmp_path) == sorted(["job.toml", "grid.csv"]) or len(os.listdir(tmp_path)) == 2


def test_sixty_thousand_readings_get_an_answer(job: Path, run: Callable[..., Ran], tmp_path: Path) -> None:
    head = "height," + ",".join(f"B{n}" for n in range(1, 601))
    rows = [f"{z}," + ",".join(["6-0"] * 600) for z in range(1, 101)]
    before = job.read_bytes()
    ran = run("import", job, grid(tmp_path, "\n".join([head, *rows])))
    assert ran.code == 2
    assert ran.err
    assert job.read_bytes() == before


def test_a_file_is_written_whole_or_not_at_all(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    path = tmp_path / "job.toml"
    write_safely(str(path), "old\n")

    def full(*_: object) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr("undertile.cli.files.os.replace", full)
    with pytest.raises(FileError, match="No space left"):
        write_safely(str(path), "new\n")
    assert path.read_text(encoding="utf-8") == "old\n"
    assert os.listdir(tmp_path) == ["job.toml"]


def test_a_place_that_is_not_there_is_said(tmp_path: Path) -> None:
    with pytest.raises(FileError, match="cannot be written"):
        write_safely(str(tmp_path / "no" / "job.toml"), "x")
