"""One file that holds everything, tested by restoring it; and what comes out of a damaged store."""

from __future__ import annotations

import sqlite3
from pathlib import Path

import pytest

from tests.job.cast import READING, SETUP
from tests.store.cast import NEWER, entry, pen, png
from undertile.errors import StoreError
from undertile.store import SqliteStore
from undertile.store.rescue import rescue, set_aside


def everything(store: SqliteStore) -> dict[str, object]:
    return {
        job: (
            [line.text for line in store.lines(job)],
            {each.name: store.photo(each.name) for each in store.photos(job)},
        )
        for job in store.ids()
    }


@pytest.fixture
def store(tmp_path: Path) -> SqliteStore:
    """Two jobs with a newer entry, a photo in both, and one without anything."""
    made = SqliteStore(tmp_path / "jobs.db")
    first, second = made.create(), made.create()
    made.create()
    made.append(first, SETUP)
    made.append_lines(first, [NEWER])
    pen(made).write(second, READING, "620/16")
    for job in (first, second):
        made.add_photo(job, png(seed=1, size=5_000), pen(made), {"wall": "B"})
    return made


def test_a_backup_restored_into_an_empty_store_is_everything(store: SqliteStore, tmp_path: Path) -> None:
    store.backup(tmp_path / "all.backup")
    with SqliteStore(tmp_path / "other.db") as other:
        done = other.restore(tmp_path / "all.backup")
        assert (done.known, done.other, done.refused) == ((), (), ())
        assert everything(other) == everything(store)
        assert [row.name for row in other.jobs()] == [row.name for row in store.jobs()]


def test_a_backup_is_one_file_that_any_reader_of_sqlite_can_open(store: SqliteStore, tmp_path: Path) -> None:
    """independent: SQLite itself."""
    folder = tmp_path / "stick"
    folder.mkdir()
    store.backup(folder / "all.backup")
    assert [path.name for path in folder.iterdir()] == ["all.backup"]
    with sqlite3.connect(f"{(folder / 'all.backup').as_uri()}?mode=ro", uri=True) as db:
        assert db.execute("PRAGMA integrity_check").fetchone() == ("ok",)
        assert db.execute("SELECT count(*) FROM entry").fetchone()[0] == len(SETUP) + 1 + 1 + 2
    db.close()
    assert [path.name for path in folder.iterdir()] == ["all.backup"]


def test_restoring_takes_nothing_away_and_may_be_done_twice(store: SqliteStore, tmp_path: Path) -> None:
    store.backup(tmp_path / "all.backup")
    before = everything(store)
    job = store.ids()[0]
    later = pen(store).write(job, READING, "6-1/16")
    done = store.restore(tmp_path / "all.backup")
    assert done.new == ()
    assert later in store.log(job)
    store.restore(tmp_path / "all.backup")
    assert all(set(before[each][0]) <= {line.text for line in store.lines(each)} for each in before)  # type: ignore[index]


def test_a_restored_device_goes_on_counting(store: SqliteStore, tmp_path: Path) -> None:
    """The counter is past every number given, also one whose entry is nowhere any more."""
    job = store.ids()[0]
    last = pen(store).write(job, READING, "6-0")
    store._database.db.execute("UPDATE counter SET next = next + 7")
    store.backup(tmp_path / "all.backup")
    other = SqliteStore()
    other.restore(tmp_path / "all.backup")
    number = int(pen(other).write(job, READING, "6-0").id.rpartition("-")[2])
    assert number == int(last.id.rpartition("-")[2]) + 8


def test_a_backup_is_taken_while_others_write(store: SqliteStore, tmp_path: Path) -> None:
    with SqliteStore(tmp_path / "jobs.db") as second, second._writing():
        second._database.db.execute("INSERT INTO job (id) VALUES (?)", ("f" * 32,))
        store.backup(tmp_path / "all.backup")
    other = SqliteStore()
    other.restore(tmp_path / "all.backup")
    assert "f" * 32 not in other.ids()  # what was not yet done is not in it


def test_a_backup_over_the_store_itself_is_refused(store: SqliteStore, tmp_path: Path) -> None:
    before = everything(store)
    with pytest.raises(StoreError, match="another file than the store itself"):
        store.backup(tmp_path / "jobs.db")
    assert everything(store) == before


def test_a_place_that_cannot_be_written_is_named(store: SqliteStore, tmp_path: Path) -> None:
    with pytest.raises(StoreError, match=r"^all\.backup: cannot be opened"):
        store.backup(tmp_path / "nowhere" / "all.backup")


@pytest.mark.parametrize(
    "content", [None, b"", b"PK\x03\x04", b"SQLite format 3\0" + b"\0" * 5000, "cut", "mail"]
)
def test_what_is_no_backup_is_one_line_and_changes_nothing(
    store: SqliteStore, tmp_path: Path, content: bytes | str | None
) -> None:
    path = tmp_path / "all.backup"
    if content == "cut":
        store.backup(path)
        path.write_bytes(path.read_bytes()[:20_000])
    elif content == "mail":
        with sqlite3.connect(path) as other:
            other.execute("CREATE TABLE mail (text)")
        other.close()
    elif isinstance(content, bytes):
        path.write_bytes(content)
    before = everything(store)
    with pytest.raises(StoreError, match="expected") as caught:
        store.restore(path)
    assert "\n" not in str(caught.value)
    assert everything(store) == before


def test_a_backup_itself_is_never_changed(store: SqliteStore, tmp_path: Path) -> None:
    store.backup(tmp_path / "all.backup")
    before = (tmp_path / "all.backup").read_bytes()
    SqliteStore().restore(tmp_path / "all.backup")
    assert (tmp_path / "all.backup").read_bytes() == before


def test_damaged_entries_of_a_backup_are_counted_and_the_rest_comes(
    store: SqliteStore, tmp_path: Path
) -> None:
    path = tmp_path / "all.backup"
    store.backup(path)
    with sqlite3.connect(path) as db:
        db.execute("UPDATE entry SET line = replace(line, '620/16', '155/4')")
        db.execute("UPDATE photo SET content = zeroblob(9)")
    db.close()
    other = SqliteStore()
    done = other.restore(path)
    assert len(done.new) == len(SETUP) + 1 + 2
    assert [each for each in done.refused if "1 entries of the backup are damaged" in each]
    assert len(done.refused) == 2  # the entry, and the one photo that both jobs share
    assert all("155/4" not in line.text for job in other.ids() for line in other.lines(job))


def test_a_backup_brings_a_damaged_entry_back(store: SqliteStore, tmp_path: Path) -> None:
    store.backup(tmp_path / "all.backup")
    before = everything(store)
    store._database.db.execute("UPDATE entry SET line = replace(line, '620/16', '155/4')")
    store.restore(tmp_path / "all.backup")
    assert everything(store) == before


# Out of a damaged store ---------------------------------------------------------------------------------


def test_what_can_be_read_of_a_damaged_store_is_taken_over(tmp_path: Path) -> None:
    """Every page of the file is spoilt in turn: whatever comes out is sound, and mostly nearly all does."""
    path = tmp_path / "jobs.db"
    with SqliteStore(path) as store:
        job = store.create("ab" * 16)
        store.append(job, [entry(f"a-{number}", f"{number}") for number in range(300)])
        whole = {line.text for line in store.lines(job)}
        store._database.db.execute("PRAGMA wal_checkpoint(TRUNCATE)")
    sound = path.read_bytes()
    shares = []
    for page in range(1, len(sound) // 4096, 4):
        spoilt = bytearray(sound)
        spoilt[page * 4096 : (page + 1) * 4096] = b"\x5a" * 4096
        path.write_bytes(spoilt)
        other = SqliteStore()
        found = rescue(other, path)
        assert path.read_bytes() == bytes(spoilt)
        lines = {line.text for each in other.ids() for line in other.lines(each)}
        assert lines <= whole
        assert found.entries == len(lines)
        shares.append(len(lines) / len(whole))
    assert sorted(shares)[len(shares) // 2] > 0.9


def test_a_store_is_set_aside_with_what_belongs_to_it_and_never_over_another(tmp_path: Path) -> None:
    for number in (1, 2):
        for part in ("", "-wal", "-shm"):
            (tmp_path / f"jobs.db{part}").write_text(f"{number}{part}")
        assert set_aside(tmp_path / "jobs.db").name == f"jobs.db.damaged-{number}"
    assert (tmp_path / "jobs.db.damaged-1-wal").read_text() == "1-wal"
    assert (tmp_path / "jobs.db.damaged-2-wal").read_text() == "2-wal"
    assert not (tmp_path / "jobs.db").exists()


def test_nothing_comes_out_of_a_file_that_is_no_store(tmp_path: Path) -> None:
    (tmp_path / "jobs.db").write_bytes(b"rubbish" * 1000)
    found = rescue(SqliteStore(), tmp_path / "jobs.db")
    assert (found.entries, found.photos) == (0, 0)


def test_photos_come_out_too(store: SqliteStore, tmp_path: Path) -> None:
    other = SqliteStore()
    found = rescue(other, tmp_path / "jobs.db")
    assert found.photos == 2
    assert {job: each for job, each in everything(store).items() if each != ([], {})} == everything(other)
