"""An older file becomes one of this version: all of it with its record, or nothing; a copy stands beside."""

from __future__ import annotations

import random
import sqlite3
from pathlib import Path

import pytest

from tests.store.cast import entry, processes
from undertile.errors import StoreError
from undertile.store import SqliteStore
from undertile.store.schema import MIGRATIONS, Migration

JOB = "ab" * 16
NEXT = Migration("colours", ("CREATE TABLE colour (name TEXT) STRICT", "INSERT INTO colour VALUES ('grey')"))
BROKEN = Migration("broken", ("CREATE TABLE half (name TEXT) STRICT", "INSERT INTO nowhere VALUES (1)"))


def old_file(path: Path) -> None:
    with SqliteStore(path) as store:
        store.create(JOB)
        store.append(JOB, [entry("a-1"), entry("a-2")])


def tables(path: Path) -> set[str]:
    db = sqlite3.connect(path)
    try:
        return {row[0] for row in db.execute("SELECT name FROM sqlite_master WHERE type = 'table'")}
    finally:
        db.close()


def record(path: Path) -> list[str]:
    db = sqlite3.connect(path)
    try:
        return [row[0] for row in db.execute("SELECT name FROM migration ORDER BY number")]
    finally:
        db.close()


def test_an_older_file_is_brought_up_to_date_beside_a_copy_of_what_it_was(tmp_path: Path) -> None:
    path = tmp_path / "jobs.db"
    old_file(path)
    with SqliteStore(path, migrations=(*MIGRATIONS, NEXT)) as store:
        assert [each.id for each in store.log(JOB)] == ["a-1", "a-2"]
    assert record(path) == [MIGRATIONS[0].name, "colours"]
    assert "colour" in tables(path)
    copy = tmp_path / f"jobs.db.version-{len(MIGRATIONS)}"
    assert "colour" not in tables(copy)
    with SqliteStore(copy) as store:
        assert [each.id for each in store.log(JOB)] == ["a-1", "a-2"]


def test_a_step_that_fails_changes_nothing(tmp_path: Path) -> None:
    path = tmp_path / "jobs.db"
    old_file(path)
    with pytest.raises(StoreError, match="nowhere"):
        SqliteStore(path, migrations=(*MIGRATIONS, NEXT, BROKEN))
    assert record(path) == [step.name for step in MIGRATIONS]
    assert not tables(path) & {"colour", "half"}
    assert not list(tmp_path.glob("*.version-*"))
    with SqliteStore(path) as store:
        assert len(store.log(JOB)) == 2


def test_each_migration_has_a_copy_of_its_own(tmp_path: Path) -> None:
    path = tmp_path / "jobs.db"
    old_file(path)
    (tmp_path / f"jobs.db.version-{len(MIGRATIONS)}").write_text("another file of the person's")
    SqliteStore(path, migrations=(*MIGRATIONS, NEXT)).close()
    assert (tmp_path / f"jobs.db.version-{len(MIGRATIONS)}").read_text() == "another file of the person's"
    with SqliteStore(tmp_path / f"jobs.db.version-{len(MIGRATIONS)}-2") as copy:
        assert len(copy.log(JOB)) == 2


def test_a_new_file_needs_no_copy(tmp_path: Path) -> None:
    SqliteStore(tmp_path / "jobs.db", migrations=(*MIGRATIONS, NEXT)).close()
    assert not list(tmp_path.glob("*.version-*"))


def test_a_file_of_a_newer_version_is_named_and_stays_as_it_is(tmp_path: Path) -> None:
    path = tmp_path / "jobs.db"
    SqliteStore(path, migrations=(*MIGRATIONS, NEXT)).close()
    before = path.read_bytes()
    with pytest.raises(StoreError, match="written by a newer undertile; update this one") as caught:
        SqliteStore(path)
    assert caught.value.kind == "newer"
    assert path.read_bytes() == before


def test_a_file_with_other_steps_is_none_of_ours(tmp_path: Path) -> None:
    path = tmp_path / "jobs.db"
    SqliteStore(path, migrations=(NEXT,)).close()
    with pytest.raises(StoreError, match="other steps"):
        SqliteStore(path)


def test_a_backup_of_an_older_version_is_restored_without_touching_it(tmp_path: Path) -> None:
    """The copy that is read is migrated, the backup never."""
    path = tmp_path / "all.backup"
    with SqliteStore(tmp_path / "jobs.db", migrations=MIGRATIONS) as store:
        store.append(store.create(JOB), [entry("a-1")])
        store.backup(path)
    before = path.read_bytes()
    with SqliteStore() as other:
        other.restore(path)
        assert len(other.log(JOB)) == 1
    assert path.read_bytes() == before


def _migrates(path: str, steps: tuple[Migration, ...]) -> None:
    SqliteStore(path, migrations=steps).close()


def test_a_migration_that_is_killed_is_done_wholly_or_not_at_all(tmp_path: Path) -> None:
    path = tmp_path / "jobs.db"
    old_file(path)
    slow = Migration(
        "slow", ("CREATE TABLE slow (n INTEGER) STRICT", *("INSERT INTO slow VALUES (1)",) * 20_000)
    )
    context = processes()
    rng = random.Random(7)
    for _ in range(8):
        child = context.Process(target=_migrates, args=(str(path), (*MIGRATIONS, slow)))
        child.start()
        child.join(rng.uniform(0, 0.15))
        child.kill()
        child.join()
        done = record(path)
        assert ("slow" in tables(path)) == ("slow" in done)
    with SqliteStore(path, migrations=(*MIGRATIONS, slow)) as store:
        assert len(store.log(JOB)) == 2
        assert store._database.db.execute("SELECT count(*) FROM slow").fetchone()[0] == 20_000


def test_two_that_open_an_old_file_at_once_migrate_it_once(tmp_path: Path) -> None:
    path = tmp_path / "jobs.db"
    old_file(path)
    context = processes()
    children = [context.Process(target=_migrates, args=(str(path), (*MIGRATIONS, NEXT))) for _ in range(3)]
    for child in children:
        child.start()
    for child in children:
        child.join()
        assert child.exitcode == 0
    assert record(path) == [MIGRATIONS[0].name, "colours"]
    assert len(list(tmp_path.glob("*.version-*"))) == 1
