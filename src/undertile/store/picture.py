"""Pictures as bytes: of which kind, whole or cut short, how many pixels. Nothing is decoded."""

from __future__ import annotations

import hashlib
import re
import struct
from collections.abc import Iterator

from undertile.errors import InputError
from undertile.job.archive import MAX_PHOTO
from undertile.job.trouble import shown

KINDS = ("jpg", "png", "webp", "heic")
MAX_PIXELS = 120_000_000
"""Pixels of one photo; unpacked that is 0.5 GB, all that a phone's browser can hold. (default of ours)"""

_NAME = re.compile(r"([0-9a-f]{64})(?:\.(?:jpg|jpeg|png|webp|heic))?")
_HEIC = (b"heic", b"heix", b"hevc", b"heim", b"heis", b"mif1", b"msf1")
_NO_SIZE = (0x01, *range(0xD0, 0xD9))
_FRAMES = frozenset(range(0xC0, 0xD0)) - {0xC4, 0xC8, 0xCC}


def judge(content: bytes) -> str:
    """The kind of a picture that may be kept.

    Parameters
    ----------
    content : bytes

    Returns
    -------
    str
        One of ``KINDS``, by the content and never by a name.

    Raises
    ------
    InputError
        If it is none, stops early, or is too large in bytes or pixels: one clear line.
    """
    if not content:
        raise InputError("expected a photo, found an empty file; take it or copy it again")
    if len(content) > MAX_PHOTO:
        raise InputError(
            f"expected a photo of at most {MAX_PHOTO // 1_000_000} MB, found {len(content) / 1e6:.0f} MB; "
            "save it smaller"
        )
    kind = _kind(content)
    if kind is None:
        raise InputError(
            "expected a photo (JPEG, PNG, WebP or HEIC), found another kind of file; save it as JPEG"
        )
    try:
        pixels = {"jpg": _jpeg, "png": _png, "webp": _webp, "heic": _heic}[kind](content)
    except (struct.error, IndexError):
        pixels = None
    if pixels is None:
        raise InputError("expected a whole photo, found one that stops early; take it or copy it again")
    if pixels > MAX_PIXELS:
        raise InputError(
            f"expected a photo of at most {MAX_PIXELS // 1_000_000} megapixels, found "
            f"{pixels / 1e6:.0f}; save it smaller (the original is as it was)"
        )
    return kind


def key_of(content: bytes) -> str:
    """SHA-256 of a content in hex."""
    return hashlib.sha256(content).hexdigest()


def key_in(name: str) -> str:
    """The hash in a photo's name.

    Raises
    ------
    InputError
        If it is no such name; a path is none.
    """
    found = _NAME.fullmatch(name)
    if found is None:
        raise InputError(f"expected a photo's name, 64 hex digits and its kind, found {shown(name)}")
    return found[1]


def _kind(content: bytes) -> str | None:
    if content.startswith(b"\xff\xd8\xff"):
        return "jpg"
    if content.startswith(b"\x89PNG\r\n\x1a\n"):
        return "png"
    if content[:4] == b"RIFF" and content[8:12] == b"WEBP":
        return "webp"
    if content[4:8] == b"ftyp" and content[8:12] in _HEIC:
        return "heic"
    return None


def _jpeg(content: bytes) -> int | None:
    """Pixels of a JPEG (ITU-T T.81, annex B): its frame header; whole when an end follows its scan."""
    at, pixels = 2, None
    while True:
        if content[at] != 0xFF:
            return None
        marker = content[at + 1]
        if marker == 0xFF:
            at += 1
        elif marker in _NO_SIZE:
            at += 2
        elif marker == 0xDA:
            # within a scan a byte FF is always stuffed, so FF D9 there is the end of the image
            return pixels if content.find(b"\xff\xd9", at) >= 0 else None
        elif marker == 0xD9:
            return None
        else:
            (size,) = struct.unpack_from(">H", content, at + 2)
            if marker in _FRAMES:
                height, width = struct.unpack_from(">HH", content, at + 5)
                pixels = height * width
            at += 2 + size


def _png(content: bytes) -> int | None:
    """Pixels of a PNG (ISO/IEC 15948): its IHDR; whole when its chunks lead to IEND."""
    at, pixels = 8, None
    while True:
        size, name = struct.unpack_from(">I4s", content, at)
        if name == b"IHDR":
            width, height = struct.unpack_from(">II", content, at + 8)
            pixels = width * height
        at += 12 + size
        if at > len(content):
            return None
        if name == b"IEND":
            return pixels


def _webp(content: bytes) -> int | None:
    """Pixels of a WebP (RFC 9649): its first chunk; whole when the file is as long as it says."""
    (size,) = struct.unpack_from("<I", content, 4)
    if len(content) < size + 8:
        return None
    name = content[12:16]
    if name == b"VP8X":
        width = 1 + int.from_bytes(content[24:27], "little")
        height = 1 + int.from_bytes(content[27:30], "little")
    elif name == b"VP8 ":
        width, height = (each & 0x3FFF for each in struct.unpack_from("<HH", content, 26))
    elif name == b"VP8L":
        (bits,) = struct.unpack_from("<I", content, 21)
        width, height = 1 + (bits & 0x3FFF), 1 + (bits >> 14 & 0x3FFF)
    else:
        return None
    return width * height


def _heic(content: bytes) -> int | None:
    """Pixels of a HEIC (ISO/IEC 23008-12): its largest ``ispe``; whole when its boxes end where it ends."""
    pixels = 0
    names = set()
    for name, start, stop in _boxes(content, 0, len(content)):
        names.add(name)
        if stop > len(content):
            return None
        if name == b"meta":
            at = content.find(b"ispe", start, stop)
            while at >= 0:
                width, height = struct.unpack_from(">II", content, at + 8)
                pixels = max(pixels, width * height)
                at = content.find(b"ispe", at + 4, stop)
    return pixels if pixels and {b"meta", b"mdat"} <= names else None


def _boxes(content: bytes, at: int, stop: int) -> Iterator[tuple[bytes, int, int]]:
    while at < stop:
        size, name = struct.unpack_from(">I4s", content, at)
        start = at + 8
        if size == 1:
            (size,) = struct.unpack_from(">Q", content, start)
            start += 8
        end = at + size if size else stop
        if end <= at + 7:
            raise struct.error("a box shorter than its head")
        yield name, start, end
        at = end
