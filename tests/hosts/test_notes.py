"""What a laptop remembers beside the record: whole or not at all, and never at the cost of a screen."""

from __future__ import annotations

import stat
from pathlib import Path

import pytest

from undertile.hosts.server.notes import FOLDER, MOST, Notes

JOB = "a" * 32


def test_another_program_reads_what_one_has_kept(tmp_path: Path) -> None:
    Notes(tmp_path).keep(JOB, "plan", "é 1")
    assert Notes(tmp_path).read(JOB, "plan") == "é 1"
    assert Notes(tmp_path).read("b" * 32, "plan") == ""
    Notes(tmp_path).keep(JOB, "plan", "")
    assert Notes(tmp_path).read(JOB, "plan") == ""
    assert list((tmp_path / FOLDER).iterdir()) == []


def test_nobody_else_looks_in(tmp_path: Path) -> None:
    Notes(tmp_path).keep(JOB, "plan", "1")
    assert stat.S_IMODE((tmp_path / FOLDER).stat().st_mode) == 0o700


@pytest.mark.parametrize(
    ("job", "name"), [("../x", "plan"), (JOB, "../x"), ("", ""), (JOB, "a/b"), (JOB, "")]
)
def test_no_other_file_is_named(tmp_path: Path, job: str, name: str) -> None:
    notes = Notes(tmp_path / "data")
    notes.keep(job, name, "1")
    assert notes.read(job, name) == ""
    assert list(tmp_path.rglob("*")) == []


def test_what_is_torn_or_too_long_or_cannot_be_kept_is_as_none(tmp_path: Path) -> None:
    folder = tmp_path / FOLDER
    folder.mkdir()
    (folder / f"{JOB}-plan").write_bytes(b"\xff\xfe")
    assert Notes(tmp_path).read(JOB, "plan") == ""
    (folder / f"{JOB}-plan").write_bytes(b"x" * (MOST + 1))
    assert Notes(tmp_path).read(JOB, "plan") == ""
    notes = Notes(tmp_path / "no" / "such" / "place")
    notes.keep(JOB, "plan", "1")  # no room, say
    assert notes.read(JOB, "plan") == "1", "as long as this program runs"
    assert Notes(tmp_path / "no" / "such" / "place").read(JOB, "plan") == ""
