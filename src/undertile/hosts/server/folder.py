"""Where a laptop keeps its jobs, and which device it is."""

from __future__ import annotations

import os
import secrets
import sys
from pathlib import Path

from undertile.errors import StoreError

JOBS = "jobs.sqlite"
DEVICE = "device"


def data_folder() -> Path:
    """The user's own: ``UNDERTILE_DATA``, else where the system keeps a program's data."""
    told = os.environ.get("UNDERTILE_DATA", "")
    if told:
        return Path(told)
    if sys.platform == "win32":
        return Path(os.environ.get("APPDATA", "") or Path.home()) / "undertile"
    if sys.platform == "darwin":
        return Path.home() / "Library" / "Application Support" / "undertile"
    return Path(os.environ.get("XDG_DATA_HOME", "") or Path.home() / ".local" / "share") / "undertile"


def made(folder: Path) -> Path:
    """The folder, made when it is not there, readable by its owner alone.

    Raises
    ------
    StoreError
        If it cannot be made.
    """
    try:
        folder.mkdir(parents=True, exist_ok=True, mode=0o700)
    except OSError as error:
        raise StoreError(
            "unusable",
            f"{folder}: expected a folder to keep the jobs in, found: {error.strerror or error}; "
            "name another with --data",
        ) from None
    return folder


def device_of(folder: Path) -> str:
    """This device's name in every id it makes: 128 random bits in hex, made once.

    A copy of the folder on a second machine would number its entries alike: the second takes in the jobs as
    a file and gets a name of its own.
    """
    path = folder / DEVICE
    try:
        found = path.read_text(encoding="ascii").strip()
    except (OSError, UnicodeDecodeError):
        found = ""
    if len(found) == 32 and set(found) <= set("0123456789abcdef"):
        return found
    device = secrets.token_hex(16)
    try:
        path.write_text(device + "\n", encoding="ascii")
    except OSError as error:
        raise StoreError(
            "unusable",
            f"{path}: cannot be written ({error.strerror or error}); name another folder with --data",
        ) from None
    return device
