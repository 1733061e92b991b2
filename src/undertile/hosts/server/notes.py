"""What this laptop remembers of a job beside the record: a small file each, which nobody misses for long."""

from __future__ import annotations

import os
import re
from contextlib import suppress
from pathlib import Path

FOLDER = "notes"
MOST = 1_000_000
"""Bytes of one; a longer one is none of ours."""
_SAFE = re.compile("[0-9a-f]{32}|[a-z]{1,20}")


class Notes:
    """Notes in a folder beside the jobs, as ``screens.host.Notes`` says.

    Parameters
    ----------
    folder : Path
        Where the jobs are kept.
    """

    def __init__(self, folder: Path) -> None:
        self._folder = folder / FOLDER
        self._known: dict[Path, str] = {}

    def read(self, job: str, name: str) -> str:
        """The text; "" where there is none."""
        path = self._path(job, name)
        if path is None:
            return ""
        if path not in self._known:
            try:
                with path.open("rb") as file:
                    content = file.read(MOST + 1)
                self._known[path] = content.decode() if len(content) <= MOST else ""
            except (OSError, UnicodeDecodeError):
                self._known[path] = ""
        return self._known[path]

    def keep(self, job: str, name: str, text: str) -> None:
        """Keep it in place of the one before: whole, or the one before stays."""
        path = self._path(job, name)
        if path is None or len(text.encode()) > MOST:
            return
        self._known[path] = text
        fresh = path.with_suffix(".new")
        with suppress(OSError):
            if not text:
                path.unlink(missing_ok=True)
                return
            path.parent.mkdir(mode=0o700, exist_ok=True)
            fresh.write_text(text, encoding="utf-8")
            os.replace(fresh, path)

    def _path(self, job: str, name: str) -> Path | None:
        """A file by a job's digits and a plain word: nothing else names one."""
        return self._folder / f"{job}-{name}" if _SAFE.fullmatch(job) and _SAFE.fullmatch(name) else None


__all__ = ["Notes"]
