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


def test_every_other_line_of_the_file_stays_as_it_was(
    job: Path, run: Callable[..., Ran], tmp_path: Path
) -> None:
    text = job.read_text(encoding="utf-8").replace('"5-13/16", "6-0"', '"5-13/16",  "6-0"')
    before = text.replace("\n", "  # mine\n", 1).replace("\n", "\r\n").encode()
    job.write_bytes(before)
    ran = run("import", job, grid(tmp_path, "stud,2,48\nB2,6-0,5-3/4\n"))
    assert ran.code == 0
    assert "Every other line of the file is as it was." in ran.out
    after = job.read_bytes()
    lines = list(zip(before.split(b"\n"), after.split(b"\n"), strict=True))
    (one,) = [(old, new) for old, new in lines if old != new]
    assert one[1].replace(b" ", b"") == one[0].replace(b'"5-13/16"', b'"5-3/4"').replace(b" ", b"")
    assert len(one[1]) == len(one[0])  # and its columns
    assert read_job(job).survey.walls["B"].studs["B2"].readings["48"].text == "5-3/4"


def test_a_file_that_must_be_written_anew_says_so(job: Path, run: Callable[..., Ran], tmp_path: Path) -> None:
    ran = run("import", job, grid(tmp_path, "stud,along,2,30\nB2,24,6-0,5-3/4\n"))
    assert ran.code == 0
    assert "its comments and spacing are not" in ran.out
    assert read_job(job).survey.walls["B"].studs["B2"].readings["30"].text == "5-3/4"


def test_a_blank_erases_nothing_and_says_what_it_kept(
    job: Path, run: Callable[..., Ran], tmp_path: Path
) -> None:
    ran = run("import", job, grid(tmp_path, "stud,2,48\nB2,6-0,\nB4,6-1/16,6-1/8\n"))
    assert ran.code == 0
    assert "Blank in the grid, kept as the job has it: B2 at 48 (5-13/16)" in ran.out
    assert "A blank erases nothing" in ran.out
    assert read_job(job).survey.walls["B"].studs["B2"].readings["48"].text == "5-13/16"


def test_heads_in_the_other_unit_are_refused_in_one_line(
    job: Path, run: Callable[..., Ran], tmp_path: Path
) -> None:
    # independent: 48 mm is under 2 in, and the wall is read at 2, 48 and 90 in
    before = job.read_bytes()
    ran = run("import", job, grid(tmp_path, "stud,2,48\nB2,152,150\n"), "--unit", "mm")
    assert ran.code == 2
    assert job.read_bytes() == before
    assert "heads 2, 48: expected heights of wall B in mm" in ran.err
    assert 'its heights in inches; write the heads with their mark, like 2"' in ran.err
    marked = run("import", job, grid(tmp_path, 'stud,"2""","48"""\nB2,152,150\n'), "--unit", "mm")
    assert marked.code == 0
    assert read_job(job).survey.walls["B"].studs["B2"].readings["48"].text == "150 mm"


def test_a_new_wall_no_higher_than_a_foot_is_refused(
    job: Path, run: Callable[..., Ran], tmp_path: Path
) -> None:
    job.write_text('version = 2\nunit = "in"\n', encoding="utf-8")
    ran = run("import", job, grid(tmp_path, "stud,along,2,24,90\nB1,50,152,150,151\n"), "--unit", "mm")
    assert ran.code == 2
    assert "heads 2, 24, 90: expected heights up a wall in mm" in ran.err
