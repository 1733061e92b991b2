"""Writing a file whole or not at all."""

from __future__ import annotations

import os
import tempfile
from pathlib import Path

from undertile.errors import FileError


def write_safely(path: str, text: str | bytes) -> None:
    """Write a file so that a reader finds the old one or the new one, never half of either.

    Writes a file beside it first, then puts that in its place.

    Raises
    ------
    FileError
        If it cannot be written; what was there stays.
    """
    target = Path(path)
    made = ""
    try:
        with tempfile.NamedTemporaryFile(dir=target.parent, prefix=".undertile-", delete=False) as file:
            made = file.name
            file.write(text.encode() if isinstance(text, str) else text)
            file.flush()
            os.fsync(file.fileno())
        if target.exists():
            os.chmod(made, target.stat().st_mode & 0o777)
        else:
            mask = os.umask(0)
            os.umask(mask)
            os.chmod(made, 0o666 & ~mask)
        os.replace(made, target)
    except OSError as error:
        if made:
            Path(made).unlink(missing_ok=True)
        raise FileError(
            [f"{path}: cannot be written ({error.strerror}); choose another place with --output"]
        ) from None
