"""The tables of the SQLite store and how an older file becomes one of this version."""

from __future__ import annotations

import sqlite3
from collections.abc import Sequence
from pathlib import Path
from typing import NamedTuple

from undertile.errors import StoreError


class Migration(NamedTuple):
    """A named step: statements run in one transaction together with the record that they ran."""

    name: str
    statements: tuple[str, ...]


MIGRATIONS = (
    Migration(
        "jobs, entries, photos",
        (
            "CREATE TABLE job (number INTEGER PRIMARY KEY, id TEXT NOT NULL UNIQUE) STRICT",
            "CREATE TABLE entry (arrival INTEGER PRIMARY KEY, job INTEGER NOT NULL REFERENCES job, "
            "key TEXT NOT NULL, id TEXT NOT NULL, fact TEXT NOT NULL, time TEXT NOT NULL, "
            "line TEXT NOT NULL, UNIQUE (job, key)) STRICT",
            "CREATE INDEX entry_by_id ON entry (job, id)",
            "CREATE INDEX entry_by_fact ON entry (job, fact)",
            "CREATE TABLE counter (device TEXT PRIMARY KEY, next INTEGER NOT NULL) STRICT",
            "CREATE TABLE photo (key TEXT PRIMARY KEY, kind TEXT NOT NULL, size INTEGER NOT NULL, "
            "content BLOB NOT NULL) STRICT",
            "CREATE TABLE job_photo (job INTEGER NOT NULL REFERENCES job, "
            "key TEXT NOT NULL REFERENCES photo, PRIMARY KEY (job, key)) STRICT",
            "CREATE TABLE piece (key TEXT NOT NULL, at INTEGER NOT NULL, content BLOB NOT NULL, "
            "PRIMARY KEY (key, at)) STRICT",
        ),
    ),
)
"""In order; one that has been released is never changed, only followed."""

_RECORD = (
    "CREATE TABLE IF NOT EXISTS migration (number INTEGER PRIMARY KEY, name TEXT NOT NULL, "
    "at TEXT NOT NULL) STRICT"
)


def migrate(
    db: sqlite3.Connection, path: Path | None, migrations: Sequence[Migration] = MIGRATIONS
) -> Path | None:
    """Bring a database to this version; a file that holds anything is copied beside itself first.

    Parameters
    ----------
    db : sqlite3.Connection
        In autocommit mode.
    path : Path or None
        Of its file; None in memory.
    migrations : sequence of Migration

    Returns
    -------
    Path or None
        The copy, where one was made.

    Raises
    ------
    StoreError
        If a newer version wrote it, or it is no store; nothing is changed then.
    """
    if _done(db, path, migrations) == len(migrations):
        return None
    db.execute("BEGIN IMMEDIATE")
    copy = None
    try:
        done = _done(db, path, migrations)  # again: another process may have been faster
        if done and done < len(migrations) and path is not None:
            copy = _copied(path, done)
        db.execute(_RECORD)
        for number, step in enumerate(migrations[done:], done + 1):
            for statement in step.statements:
                db.execute(statement)
            db.execute(
                "INSERT INTO migration VALUES (?, ?, strftime('%Y-%m-%dT%H:%M:%SZ', 'now'))",
                (number, step.name),
            )
        db.execute("COMMIT")
    except BaseException:
        if db.in_transaction:
            db.execute("ROLLBACK")
        if copy is not None:  # the file is what it was, so its copy says nothing new
            copy.unlink(missing_ok=True)
        raise
    return copy


def _done(db: sqlite3.Connection, path: Path | None, migrations: Sequence[Migration]) -> int:
    """How many steps a database has behind it."""
    tables = {row[0] for row in db.execute("SELECT name FROM sqlite_master WHERE type = 'table'")}
    where = path.name if path else "the store"
    if not tables:
        return 0
    if "migration" not in tables:
        raise StoreError(
            "unusable",
            f"{where}: expected a file of jobs, found a database of something else; give another path",
        )
    done = [row[0] for row in db.execute("SELECT name FROM migration ORDER BY number")]
    if len(done) > len(migrations):
        raise StoreError(
            "newer",
            f"{where}: expected a store of version {len(migrations)} or older, found version {len(done)}, "
            "written by a newer undertile; update this one (the file is as it was)",
        )
    if done != [step.name for step in migrations[: len(done)]]:
        raise StoreError(
            "unusable",
            f"{where}: expected a file of jobs, found other steps in its record; give another path",
        )
    return len(done)


def _copied(path: Path, done: int) -> Path:
    """A copy of the file as it stands, beside it; taken while no one else can write."""
    copy = path.with_name(f"{path.name}.version-{done}")
    number = 1
    while copy.exists():
        number += 1
        copy = path.with_name(f"{path.name}.version-{done}-{number}")
    reader = sqlite3.connect(path)
    try:
        copy_connection(reader, copy)
    finally:
        reader.close()
    return copy


def copy_connection(reader: sqlite3.Connection, target: Path) -> None:
    """Copy a database to one plain file, and read the copy back before calling it one.

    Raises
    ------
    sqlite3.Error
        If it cannot be copied, or the copy is not sound; no copy is left then.
    """
    writer = sqlite3.connect(target)
    try:
        reader.backup(writer)
        writer.execute("PRAGMA journal_mode=DELETE")
        sound = writer.execute("PRAGMA integrity_check(1)").fetchone()[0]
        if sound != "ok":
            raise sqlite3.DatabaseError(f"database disk image is malformed: {sound}")
    except BaseException:
        writer.close()
        target.unlink(missing_ok=True)
        raise
    finally:
        writer.close()
