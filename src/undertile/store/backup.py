"""One file that holds every job: written whole or not at all, read without touching it."""

from __future__ import annotations

import os
import sqlite3
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from os import PathLike
from pathlib import Path

from undertile.errors import StoreError
from undertile.job.trouble import shown
from undertile.store.database import Database
from undertile.store.schema import copy_connection
from undertile.store.trouble import told


def write(database: Database, path: str | PathLike[str]) -> None:
    """Write everything a database holds to one file.

    Written beside its place, read back, forced to disk and only then put there: a reader finds the old file
    or the new one.

    Raises
    ------
    StoreError
        If it cannot be written; what was there stays.
    """
    target = Path(path)
    if database.path is not None and target.exists() and target.samefile(database.path):
        raise StoreError(
            "unusable", f"{target.name}: expected another file than the store itself; give another path"
        )
    part = target.with_name(target.name + ".part")
    try:
        part.unlink(missing_ok=True)
        with database.reading() as db, told(target.name):
            copy_connection(db, part)
        with open(part, "rb+") as file:
            os.fsync(file.fileno())
        os.replace(part, target)
    except OSError as error:
        part.unlink(missing_ok=True)
        raise StoreError(
            "unusable", f"{shown(str(target))}: cannot be written ({error.strerror}); choose another place"
        ) from None


@contextmanager
def opened(path: str | PathLike[str]) -> Iterator[Path]:
    """A copy of a backup to read from, so that the backup itself is neither migrated nor locked.

    Raises
    ------
    StoreError
        If there is no such file or it is no backup.
    """
    source = Path(path)
    if not source.is_file():
        raise StoreError("unusable", f"{source.name}: expected a backup, found no such file; give its path")
    with tempfile.TemporaryDirectory(prefix="undertile-") as folder:
        copy = Path(folder) / source.name
        reader = sqlite3.connect(f"{source.resolve().as_uri()}?mode=ro", uri=True)
        try:
            with told(source.name):
                copy_connection(reader, copy)
                kept = reader.execute("SELECT 1 FROM sqlite_master WHERE name = 'migration'").fetchone()
            if kept is None:
                raise StoreError(
                    "unusable",
                    f"{source.name}: expected a backup, found another file or an empty one; give its path",
                )
        except StoreError as error:
            if error.kind != "damaged":
                raise
            raise StoreError(
                "damaged",
                f"{source.name}: expected a sound backup, found a file that is damaged or none; "
                "take another one (this one is as it was)",
            ) from None
        finally:
            reader.close()
        yield copy
