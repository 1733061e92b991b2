"""Files that their owner alone may read: keys, and who is paired."""

from __future__ import annotations

import os
import stat
from pathlib import Path

from undertile.errors import StoreError

OWNER_ONLY = 0o600


def write(path: Path, content: bytes, mode: int = OWNER_ONLY) -> None:
    """Write a file whole or not at all; nobody else could read it at any moment.

    Raises
    ------
    StoreError
        If it cannot be written.
    """
    part = path.with_name(path.name + ".part")
    try:
        part.unlink(missing_ok=True)
        file = os.open(part, os.O_WRONLY | os.O_CREAT | os.O_EXCL, mode)
        with os.fdopen(file, "wb") as out:
            out.write(content)
            out.flush()
            os.fsync(out.fileno())
        part.replace(path)
        _settle(path.parent)
    except OSError as error:
        raise StoreError(
            "unusable",
            f"{path}: cannot be written ({error.strerror or error}); name another folder with --data",
        ) from None


def _settle(folder: Path) -> None:
    """See that a file's new name is on the disk too, where the system has a call for it (not Windows)."""
    if os.name == "nt":
        return
    held = os.open(folder, os.O_RDONLY)
    try:
        os.fsync(held)
    finally:
        os.close(held)


def read(path: Path) -> bytes:
    """A file that only its owner may have read.

    Raises
    ------
    StoreError
        If others could read it, or it cannot be read.
    """
    try:
        mode = stat.S_IMODE(path.stat().st_mode)
        content = path.read_bytes()
    except OSError as error:
        raise StoreError("unusable", f"{path}: cannot be read ({error.strerror or error})") from None
    if os.name != "nt" and mode & 0o077:
        raise StoreError(
            "unusable",
            f"{path}: expected a file that its owner alone can read (0600), found {mode:04o}; whoever has an "
            f"account here may have copied it: remove the folder {path.parent.name} and set the phones up "
            "anew, or `chmod 600` it where that is nobody",
        )
    return content
