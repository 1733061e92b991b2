"""``jobs``, ``backup``, ``restore``: what is written comes back, and a damaged store is no dead end."""

from __future__ import annotations

import json
import sqlite3
from collections.abc import Callable
from pathlib import Path

import pytest

from tests.cli.conftest import Ran
from tests.store.cast import NEWER, png
from undertile.hosts.server.folder import JOBS
from undertile.store import SqliteStore

TIME = "2031-05-02T09:00Z"


@pytest.fixture
def data(tmp_path: Path) -> Path:
    """A folder with two jobs."""
    folder = tmp_path / "data"
    folder.mkdir()
    with SqliteStore(folder / JOBS) as store:
        for name in ("Mill Lane", ""):
            pen = store.pen("phone-1", "Ann", TIME)
            pen.write(store.create(), "name", name)
    return folder


def test_an_empty_store_says_how_to_begin(run: Callable[..., Ran], tmp_path: Path) -> None:
    ran = run("jobs", "--data", tmp_path / "new")
    assert ran.code == 0
    assert "No job yet" in ran.out
    assert run("jobs", "--data", tmp_path / "new", "--json").out.strip() == '{\n "jobs": []\n}'


def test_jobs_are_listed(run: Callable[..., Ran], data: Path) -> None:
    ran = run("jobs", "--data", data)
    assert ran.code == 0
    lines = ran.out.splitlines()
    assert len(lines) == 2
    assert any(line.startswith("Mill Lane  2031-05-02  1 entry") for line in lines)
    assert any(line.startswith("(no name)") for line in lines)
    told = json.loads(run("jobs", "--data", data, "--json").out)["jobs"]
    assert {(each["name"], each["entries"], each["time"]) for each in told} == {
        ("Mill Lane", 1, TIME),
        ("", 1, TIME),
    }


def test_a_backup_comes_back_on_another_computer(run: Callable[..., Ran], data: Path, tmp_path: Path) -> None:
    file = tmp_path / "all.backup"
    ran = run("backup", file, "--data", data)
    assert ran.code == 0
    assert "2 jobs, 2 entries, 0 photos" in ran.out
    ran = run("restore", file, "--data", tmp_path / "new")
    assert ran.code == 0
    assert "2 entries new, 0 known already" in ran.out
    assert run("jobs", "--data", tmp_path / "new").out.split() != []
    assert "0 entries new, 2 known already" in run("restore", file, "--data", tmp_path / "new").out


def held(folder: Path) -> dict[str, tuple[list[str], dict[str, bytes]]]:
    """Everything in a store: texts and photos by job."""
    with SqliteStore(folder / JOBS) as store:
        return {
            job: (
                [line.text for line in store.lines(job)],
                {photo.name: store.photo(photo.name) for photo in store.photos(job)},
            )
            for job in store.ids()
        }


def test_a_backup_has_photos_and_lines_of_a_newer_version_byte_for_byte(
    run: Callable[..., Ran], data: Path, tmp_path: Path
) -> None:
    """Restored twice, over another store that has a job of its own; then a photo in the backup is spoilt."""
    with SqliteStore(data / JOBS) as store:
        job = store.jobs()[0].id
        store.append_lines(job, [NEWER])
        store.create("c" * 32)
        for seed in (1, 2):
            store.add_photo(job, png(seed=seed, size=300_000), store.pen("phone-1", "Ann", TIME))
    before = held(data)
    file = tmp_path / "all.backup"
    assert "3 jobs, 3 entries, 2 photos" in run("backup", file, "--data", data).out
    assert sorted(path.name for path in tmp_path.iterdir()) == ["all.backup", "data"], "one file"
    (tmp_path / "new").mkdir()
    with SqliteStore(tmp_path / "new" / JOBS) as other:
        own = other.create()
        other.pen("laptop-2", "Bo", TIME).write(own, "name", "Elsewhere")
    for _ in range(2):
        assert run("restore", file, "--data", tmp_path / "new").code == 0
        found = held(tmp_path / "new")
        assert len(found.pop(own)[0]) == 1
        assert found == before
    with sqlite3.connect(file) as db:
        db.execute("UPDATE photo SET content = zeroblob(9) WHERE key = (SELECT min(key) FROM photo)")
    db.close()
    ran = run("restore", file, "--data", tmp_path / "third")
    assert ran.code == 2
    assert len(ran.err.splitlines()) == 1
    assert "photo" in ran.err
    photos = [len(each) for _, each in held(tmp_path / "third").values()]
    assert sorted(photos) == [0, 0, 1], "the sound one is there"


def test_a_damaged_store_is_set_aside_and_taken_over(
    run: Callable[..., Ran], data: Path, tmp_path: Path
) -> None:
    file = tmp_path / "all.backup"
    run("backup", file, "--data", data)
    (data / JOBS).write_bytes(b"rubbish" * 9000)
    for suffix in ("-wal", "-shm"):
        (data / f"{JOBS}{suffix}").unlink(missing_ok=True)
    ran = run("jobs", "--data", data)
    assert ran.code == 2
    assert len(ran.err.splitlines()) == 1
    assert "--set-aside" in ran.err
    assert run("restore", file, "--data", data).code == 2
    ran = run("restore", file, "--set-aside", "--data", data)
    assert ran.code == 0
    assert "Here now: 2 jobs, 2 entries" in ran.out
    assert (data / f"{JOBS}.damaged-1").read_bytes() == b"rubbish" * 9000


def test_without_a_backup_what_can_be_read_is_taken_over(run: Callable[..., Ran], data: Path) -> None:
    ran = run("restore", "--set-aside", "--data", data)  # nothing is wrong: nothing is moved
    assert (ran.code, ran.out) == (0, "Here now: 2 jobs, 2 entries, 0 photos.\n")
    assert not list(data.glob("*.damaged-*"))


@pytest.mark.parametrize(
    "words", [("restore",), ("restore", "nowhere.backup"), ("backup", "no/such/folder/x")]
)
def test_what_cannot_be_done_is_one_line(run: Callable[..., Ran], data: Path, words: tuple[str, ...]) -> None:
    ran = run(*words, "--data", data)
    assert ran.code == 2
    assert len(ran.err.splitlines()) == 1
    assert not ran.out
