"""What can still be read of a damaged store: every entry and photo whose hash says that it is sound."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator
from contextlib import closing, suppress
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from undertile.errors import InputError, StoreError
from undertile.store import picture
from undertile.store.interface import Store
from undertile.store.line import key_of

PARTS = ("", "-wal", "-shm")
"""What a store's files are called: the file itself, and what SQLite keeps beside it."""


@dataclass
class Rescued:
    """What came out of a damaged file."""

    entries: int = 0
    photos: int = 0


def set_aside(path: Path) -> Path:
    """Move a store out of the way, with what SQLite keeps beside it; nothing is deleted.

    Returns
    -------
    Path
        Where it is now.

    Raises
    ------
    StoreError
        If it cannot be moved.
    """
    number = 1
    while (target := path.with_name(f"{path.name}.damaged-{number}")).exists():
        number += 1
    try:
        for part in PARTS:
            source = path.with_name(path.name + part)
            if source.exists():
                source.rename(target.with_name(target.name + part))
    except OSError as error:
        raise StoreError(
            "unusable", f"{path.name}: cannot be moved aside ({error.strerror}); allow writing to its folder"
        ) from None
    return target


def rescue(store: Store, path: Path) -> Rescued:
    """Bring in from a damaged file all that is sound; the file is only read.

    Parameters
    ----------
    store : Store
    path : Path

    Returns
    -------
    Rescued
        How much of it the store did not have yet.
    """
    done = Rescued()
    with (
        suppress(sqlite3.Error),
        closing(sqlite3.connect(f"{path.resolve().as_uri()}?mode=ro", uri=True)) as db,
    ):
        db.text_factory = lambda raw: raw.decode("utf-8", "replace")
        jobs = {row[0]: row[1] for row in _rows(db, "SELECT number, id FROM job", "number")}
        lines: dict[str, list[str]] = {}
        for number, key, text in _rows(db, "SELECT job, key, line FROM entry", "arrival"):
            if number in jobs and isinstance(text, str) and key_of(text) == key:
                lines.setdefault(jobs[number], []).append(text)
        for job, its in lines.items():
            with suppress(InputError):
                done.entries += len(store.append_lines(store.create(job), its).new)
        for number, key in _rows(db, "SELECT job, key FROM job_photo", "rowid"):
            content = next(
                _rows(db, "SELECT content FROM photo WHERE key = :key", "rowid", {"key": key}), (b"",)
            )[0]
            if number in jobs and isinstance(content, bytes) and picture.key_of(content) == key:
                with suppress(InputError):
                    job = store.create(jobs[number])
                    if key not in {photo.key for photo in store.photos(job)}:
                        store.add_photo(job, content)
                        done.photos += 1
    return done


def _rows(
    db: sqlite3.Connection, query: str, order: str, values: dict[str, Any] | None = None
) -> Iterator[tuple[Any, ...]]:
    """Rows from the front until one cannot be read, then from the back until one cannot be read."""
    seen: set[tuple[Any, ...]] = set()
    for direction in ("", " DESC"):
        try:
            for row in db.execute(f"{query} ORDER BY {order}{direction}", values or {}):
                if row not in seen:
                    seen.add(row)
                    yield row
        except sqlite3.DatabaseError:
            continue
        return
