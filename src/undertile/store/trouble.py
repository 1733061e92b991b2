"""What SQLite says of a file, as one clear line."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator
from contextlib import contextmanager

from undertile.errors import StoreError


@contextmanager
def told(name: str) -> Iterator[None]:
    """Turn an error of SQLite into a ``StoreError`` about the store called ``name``."""
    try:
        yield
    except sqlite3.Error as error:
        raise _said(name, error) from error


def _said(name: str, error: sqlite3.Error) -> StoreError:
    text = str(error)
    low = text.lower()
    if "full" in low or "too big" in low:
        return StoreError(
            "full",
            f"{name}: expected room to write, found the disk full; free some space and enter the last "
            "value again (everything before it is kept)",
        )
    if "readonly" in low or "read-only" in low:
        return StoreError(
            "read-only",
            f"{name}: expected a file that can be written, found it read-only; allow writing to it and its "
            "folder, or choose another place (what is in it is as it was)",
        )
    if "locked" in low or "busy" in low:
        return StoreError(
            "busy",
            f"{name}: expected the file free, found another program writing to it; wait a moment and try "
            "again (nothing was written)",
        )
    if "malformed" in low or "not a database" in low or "corrupt" in low:
        return StoreError(
            "damaged",
            f"{name}: expected a sound file of jobs, found it damaged; it is left as it is; "
            "`undertile restore BACKUP --set-aside` keeps it, takes over what can be read of it and brings "
            "the backup in",
        )
    if "unable to open" in low:
        return StoreError(
            "unusable",
            f"{name}: cannot be opened or made; check that its folder is there and may be written to",
        )
    return StoreError(
        "unusable", f"{name}: cannot be used ({text}); free space and rights of its folder first"
    )
