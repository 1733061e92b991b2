"""The app's icon as PNG, drawn from a description: studs before a straightedge, one of them proud."""

from __future__ import annotations

import struct
import zlib

_GROUND = (24, 58, 55)
_WOOD = (226, 190, 138)
_LINE = (255, 255, 255)
_STUDS = (0.24, 0.42, 0.60, 0.78)
_PROUD = 2
"""Which stud stands proud."""


def png(size: int) -> bytes:
    """The icon, ``size`` pixels square; the middle four fifths hold everything, so that any mask fits."""
    rows = b"".join(b"\0" + _row(y / size, size) for y in range(size))
    return (
        b"\x89PNG\r\n\x1a\n"
        + _chunk(b"IHDR", struct.pack(">IIBBBBB", size, size, 8, 2, 0, 0, 0))
        + _chunk(b"IDAT", zlib.compress(rows, 9))
        + _chunk(b"IEND", b"")
    )


def _row(y: float, size: int) -> bytes:
    return b"".join(bytes(_colour(x / size, y)) for x in range(size))


def _colour(x: float, y: float) -> tuple[int, int, int]:
    if 0.15 < x < 0.87 and 0.66 < y < 0.70:
        return _LINE
    for number, left in enumerate(_STUDS):
        foot = 0.76 if number == _PROUD else 0.64
        if left - 0.05 < x < left + 0.05 and 0.24 < y < foot:
            return _WOOD
    return _GROUND


def _chunk(kind: bytes, content: bytes) -> bytes:
    return struct.pack(">I", len(content)) + kind + content + struct.pack(">I", zlib.crc32(kind + content))
