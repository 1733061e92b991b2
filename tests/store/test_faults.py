"""What can go wrong with the place jobs are kept in: one clear line each, and nothing lost."""

from __future__ import annotations

import os
import shutil
import sqlite3
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from multiprocessing.connection import Connection
from pathlib import Path
from threading import Timer
from typing import Any

import pytest

from tests.job.cast import READING
from tests.store.cast import entry, pen, png, processes
from undertile.errors import InputError, StoreError
from undertile.job import fold
from undertile.store import SqliteStore, exchange

JOB = "ab" * 16


def filled(path: Path, count: int = 20) -> SqliteStore:
    store = SqliteStore(path)
    store.create(JOB)
    store.append(JOB, [entry(f"a-{number}") for number in range(count)])
    return store


@contextmanager
def refused(kind: str) -> Iterator[None]:
    """Exactly one clear line: what was expected, what came, what to do."""
    with pytest.raises(StoreError) as caught:
        yield
    said = str(caught.value)
    assert caught.value.kind == kind, said
    assert "\n" not in said
    assert "; " in said or ": " in said


# A full disk --------------------------------------------------------------------------------------------


def test_a_full_disk_loses_nothing_and_writing_goes_on_once_there_is_room(tmp_path: Path) -> None:
    store = filled(tmp_path / "jobs.db")
    db = store._database.db
    pages = db.execute("PRAGMA page_count").fetchone()[0]
    db.execute(f"PRAGMA max_page_count={pages + 2}")
    kept = list(store.log(JOB))
    with refused("full"):
        while True:
            kept.append(pen(store).write(JOB, READING, "6-0" + " " * 900))
    assert set(store.log(JOB)) == set(kept)
    last = max(each.id for each in kept if each.device == "phone-1")
    with refused("full"):
        store.append(JOB, [entry(f"b-{number}", "x" * 900) for number in range(50)])
    assert set(store.log(JOB)) == set(kept)  # a batch goes in whole or not at all
    with refused("full"):
        store.add_photo(JOB, png(size=200_000), pen(store), {"wall": "B"})
    assert store.photos(JOB) == ()
    db.execute("PRAGMA max_page_count=100000")
    again = pen(store).write(JOB, READING, "6-1")
    assert int(again.id.rpartition("-")[2]) == int(last.rpartition("-")[2]) + 1  # no number was used up
    store.close()
    with SqliteStore(tmp_path / "jobs.db") as reopened:
        assert set(reopened.log(JOB)) == {*kept, again}


def test_a_full_disk_during_a_backup_leaves_the_old_one(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    store = filled(tmp_path / "jobs.db")
    store.backup(tmp_path / "all.backup")
    before = (tmp_path / "all.backup").read_bytes()
    store.append(JOB, [entry("b-1")])

    def full(file: int) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, "fsync", full)
    with refused("unusable"):
        store.backup(tmp_path / "all.backup")
    assert (tmp_path / "all.backup").read_bytes() == before
    assert sorted(path.name for path in tmp_path.iterdir() if path.suffix == ".part") == []


# A file that may not be written -------------------------------------------------------------------------


@contextmanager
def nobody_s_folder() -> Iterator[Path]:
    """A folder whose files may be read and not written, also when the tests run as root."""
    folder = Path(tempfile.mkdtemp())
    root = os.geteuid() == 0
    try:
        yield folder
    finally:
        if root:
            os.seteuid(0)
        for path in (folder, *folder.iterdir()):
            path.chmod(0o755)
        shutil.rmtree(folder)


def test_a_read_only_file_is_named_and_stays_as_it_is() -> None:
    with nobody_s_folder() as folder:
        filled(folder / "jobs.db").close()
        before = (folder / "jobs.db").read_bytes()
        (folder / "jobs.db").chmod(0o444)
        folder.chmod(0o555)
        if os.geteuid() == 0:
            os.seteuid(65534)
        with refused("read-only"):
            SqliteStore(folder / "jobs.db")
        if os.getuid() == 0:
            os.seteuid(0)
        assert (folder / "jobs.db").read_bytes() == before


def test_a_store_that_becomes_read_only_while_open_keeps_answering(tmp_path: Path) -> None:
    store = filled(tmp_path / "jobs.db")
    store._database.db.execute("PRAGMA query_only=ON")
    with refused("read-only"):
        pen(store).write(JOB, READING, "6-0")
    assert len(store.log(JOB)) == 20


def test_a_folder_that_is_not_there_is_named(tmp_path: Path) -> None:
    with refused("unusable"):
        SqliteStore(tmp_path / "nowhere" / "jobs.db")
    with refused("unusable"):
        SqliteStore(tmp_path)


# A damaged file -----------------------------------------------------------------------------------------


@pytest.mark.parametrize("damage", ["overwritten", "cut", "another file"])
def test_a_damaged_file_is_named_at_once_and_left_as_it_is(tmp_path: Path, damage: str) -> None:
    path = tmp_path / "jobs.db"
    filled(path, 400).close()
    content = bytearray(path.read_bytes())
    if damage == "overwritten":
        content[8_192:40_960] = bytes(range(256)) * 128
    elif damage == "cut":
        del content[len(content) // 2 :]
    else:
        content = bytearray(b"PK\x03\x04 a zip, say" * 1000)
    path.write_bytes(content)
    with refused("damaged"):
        SqliteStore(path)
    assert path.read_bytes() == bytes(content)


def test_another_program_s_database_is_not_written_to(tmp_path: Path) -> None:
    path = tmp_path / "mail.db"
    with sqlite3.connect(path) as other:
        other.execute("CREATE TABLE mail (text)")
    other.close()
    with refused("unusable"):
        SqliteStore(path)
    with sqlite3.connect(path) as other:
        assert [row[0] for row in other.execute("SELECT name FROM sqlite_master")] == ["mail"]
    other.close()


def test_an_entry_whose_text_is_damaged_is_named_and_comes_back_by_sync() -> None:
    """The file is sound for SQLite; the hash of the text says that it is not what was typed."""
    store, other = SqliteStore(), SqliteStore()
    for each in (store, other):
        each.create(JOB)
        each.append(JOB, [entry("a-1", "6-0"), entry("a-2", "6-1/16")])
    assert exchange(store, other).same
    db = store._database.db
    db.execute("""UPDATE entry SET line = replace(line, '"6-0"', '"8-0"') WHERE id = 'a-1'""")
    with refused("damaged"):
        SqliteStore.log(store, JOB)
    exchange(store, other)
    assert {each.value for each in store.log(JOB)} == {"6-0", "6-1/16"}
    assert {each.value for each in other.log(JOB)} == {"6-0", "6-1/16"}


def test_a_damaged_photo_is_named_and_comes_back_by_sync() -> None:
    store, other = SqliteStore(), SqliteStore()
    photo = store.add_photo(store.create(JOB), png(seed=1))
    exchange(store, other)
    store._database.db.execute("UPDATE photo SET content = ?", (png(seed=2),))
    with refused("damaged"):
        store.photo(photo.name)
    exchange(store, other)
    assert store.photo(photo.name) == other.photo(photo.name) == png(seed=1)


# Two at once --------------------------------------------------------------------------------------------


def _writes(path: str, count: int, tell: Connection) -> None:
    with SqliteStore(path) as store:
        store.create(JOB)
        for number in range(count):
            tell.send(pen(store).write(JOB, READING, f"{os.getpid()} {number}").id)
    tell.close()


def test_two_processes_of_one_device_never_give_a_number_twice(tmp_path: Path) -> None:
    context = processes()
    heard = []
    children = []
    for _ in range(2):
        hear, tell = context.Pipe(duplex=False)
        children.append(context.Process(target=_writes, args=(str(tmp_path / "jobs.db"), 40, tell)))
        children[-1].start()
        tell.close()
        heard.append(hear)
    ids = [hear.recv() for _ in range(40) for hear in heard]
    for child in children:
        child.join()
        assert child.exitcode == 0
    assert sorted(int(each.rpartition("-")[2]) for each in ids) == list(range(1, 81))
    with SqliteStore(tmp_path / "jobs.db") as store:
        assert len(store.log(JOB)) == 80


def test_a_file_that_another_program_holds_is_named_and_nothing_is_written(tmp_path: Path) -> None:
    store = filled(tmp_path / "jobs.db")
    with SqliteStore(tmp_path / "jobs.db", busy_s=0.05) as second:
        with store._writing(), refused("busy"):
            pen(second).write(JOB, READING, "6-0")
        assert len(second.log(JOB)) == 20  # reading never waits
        pen(second).write(JOB, READING, "6-0")
        assert len(store.log(JOB)) == 21


def _opens(path: str, together: Any, tell: Connection) -> None:
    together.wait()
    try:
        SqliteStore(path).close()
    except StoreError as error:
        tell.send(str(error))
    tell.close()


def test_several_that_make_one_new_file_at_once_wait_for_each_other(tmp_path: Path) -> None:
    """SQLite does not wait where a file becomes write-ahead: one time in a hundred it said `locked`."""
    context = processes()
    for number in range(6):
        together, (hear, tell) = context.Barrier(4), context.Pipe(duplex=False)
        path = str(tmp_path / f"jobs-{number}.db")
        children = [context.Process(target=_opens, args=(path, together, tell)) for _ in range(4)]
        for child in children:
            child.start()
        tell.close()
        for child in children:
            child.join()
        with pytest.raises(EOFError):
            raise AssertionError(hear.recv())


def test_opening_waits_while_another_makes_the_file(tmp_path: Path) -> None:
    other = sqlite3.connect(tmp_path / "jobs.db", isolation_level=None, check_same_thread=False)
    other.execute("BEGIN EXCLUSIVE")
    with refused("busy"):
        SqliteStore(tmp_path / "jobs.db", busy_s=0.05)
    release = Timer(0.1, lambda: other.execute("COMMIT"))
    release.start()
    with SqliteStore(tmp_path / "jobs.db") as store:
        assert store.jobs() == []
    release.join()
    other.close()


def test_one_process_sees_what_the_other_wrote(tmp_path: Path) -> None:
    first = filled(tmp_path / "jobs.db", 1)
    with SqliteStore(tmp_path / "jobs.db") as second:
        before = first.summary(JOB)
        second.append(JOB, [entry("b-1")])
        assert [each.id for each in first.log(JOB)] == ["a-0", "b-1"]
        assert first.summary(JOB) == second.summary(JOB) != before


# A clock wrong by years ---------------------------------------------------------------------------------


def test_a_clock_wrong_by_years_decides_nothing() -> None:
    """published: convention 7.3; supersedes decides, never a clock."""
    store, other = SqliteStore(), SqliteStore()
    store.create(JOB)
    first = store.pen("a", "Ann", "2099-12-31T23:59Z").write(JOB, "name", "Old")
    second = store.pen("b", "Bo", "1970-01-01T00:00Z").write(JOB, "name", "New", (first.id,))
    exchange(other, store)
    assert fold(other.log(JOB)).job.name == "New"
    assert [each.id for each in other.history(JOB, "name")] == [first.id, second.id]
    # the newest by the clocks, shown as the device said it: the same on every device
    assert [each.jobs()[0].time for each in (store, other)] == ["2099-12-31T23:59Z"] * 2


def test_a_time_that_is_none_is_kept_as_it_came() -> None:
    store = SqliteStore()
    store.create(JOB)
    store.pen("a", "Ann", "yesterday, about noon").write(JOB, "name", "Old")
    assert store.log(JOB)[0].time == "yesterday, about noon"
    with pytest.raises(InputError, match="`time`"):
        store.pen("a", "Ann", "").write(JOB, "name", "New")
    assert len(store.log(JOB)) == 1
