"""What the tests of the store share: lines of a newer version, pictures made by hand, pens."""

from __future__ import annotations

import json
import multiprocessing
import zlib
from typing import Any

from undertile.job import Entry
from undertile.job.entry import ENTRY_VERSION
from undertile.store import Pen, Store

TIME = "2031-05-02T09:00Z"
NEWER = json.dumps(
    {
        "version": ENTRY_VERSION + 1,
        "id": "phone-9-1",
        "fact": "sauna.benches",
        "value": {"feet": 1.50},
        "why": "ü",
    }
)
"""A line that only a newer version can read; its spelling is not ours (spaces, escapes, 1.5)."""


def processes() -> Any:
    """Processes that begin as a copy of this one, where the system can; else they load everything again."""
    return multiprocessing.get_context(
        "fork" if "fork" in multiprocessing.get_all_start_methods() else "spawn"
    )


def pen(store: Store, device: str = "phone-1", who: str = "Ann") -> Pen:
    return store.pen(device, who, TIME)


def png(width: int = 4, height: int = 3, seed: int = 0, size: int = 0) -> bytes:
    """A PNG by the letter of ISO/IEC 15948; ``size`` more bytes ride in a private chunk."""
    head = width.to_bytes(4, "big") + height.to_bytes(4, "big") + bytes((8, 2, 0, 0, 0))
    row = b"\0" + bytes((seed % 256, seed // 256 % 256, 7)) * min(width, 50)
    extra = (seed.to_bytes(4, "big") * (size // 4 + 1))[:size]
    chunks = [(b"IHDR", head), (b"IDAT", zlib.compress(row * min(height, 50)))]
    chunks += [(b"prVt", extra)] if size else []
    out = b"\x89PNG\r\n\x1a\n"
    for name, body in [*chunks, (b"IEND", b"")]:
        out += len(body).to_bytes(4, "big") + name + body + zlib.crc32(name + body).to_bytes(4, "big")
    return out


def entry(key: str, value: str = "6-0", supersedes: tuple[str, ...] = ()) -> Entry:
    return Entry(
        key, "survey.walls.B.studs.B2.readings.48", value, TIME, "Ann", key.rpartition("-")[0], "", supersedes
    )
