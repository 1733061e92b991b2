"""Which bytes are a photo, whole and of what size; held against an independent writer of pictures."""

from __future__ import annotations

import io
import random
import struct
from contextlib import suppress

import pytest
from PIL import Image

from tests.store.cast import png
from undertile.errors import InputError
from undertile.job.archive import MAX_PHOTO
from undertile.store.picture import MAX_PIXELS, judge, key_in, key_of


def picture(kind: str, size: tuple[int, int] = (40, 30), **more: object) -> bytes:
    """A picture as Pillow writes it, with something in it so that it has a length."""
    noise = random.Random(1).randbytes(size[0] * size[1] * 3)
    out = io.BytesIO()
    image = Image.frombytes("RGB", size, noise)
    if more.pop("alpha", False):
        image.putalpha(9)
    image.save(out, kind, **more)
    return out.getvalue()


def box(name: bytes, content: bytes) -> bytes:
    """A box of ISO/IEC 14496-12."""
    return struct.pack(">I4s", 8 + len(content), name) + content


def heic(width: int = 40, height: int = 30) -> bytes:
    """The least HEIC: file type, meta with an image size, data."""
    size = box(b"ispe", struct.pack(">III", 0, width, height))
    meta = box(b"meta", b"\0\0\0\0" + box(b"iprp", box(b"ipco", size)))
    return box(b"ftyp", b"heic\0\0\0\0mif1heic") + meta + box(b"mdat", b"pixels" * 40)


WHOLE = {
    "jpg": picture("JPEG"),
    "jpg progressive": picture("JPEG", progressive=True),
    "jpg with a thumbnail": picture("JPEG", exif=b"Exif\0\0" + picture("JPEG", (4, 4))),
    "png": picture("PNG"),
    "png by hand": png(),
    "webp": picture("WEBP"),
    "webp lossless": picture("WEBP", lossless=True),
    "webp with alpha": picture("WEBP", alpha=True),
    "heic": heic(),
}


@pytest.mark.parametrize("name", WHOLE)
def test_a_whole_picture_is_known_by_its_content(name: str) -> None:
    """independent: files that Pillow writes, and boxes put together by the letter of the standard."""
    assert judge(WHOLE[name]) == name.split()[0]


@pytest.mark.parametrize("name", WHOLE)
def test_one_cut_short_anywhere_is_refused(name: str) -> None:
    content = WHOLE[name]
    for end in {len(content) // 10 * tenth for tenth in range(1, 10)} | {len(content) - 2, 40, 13}:
        with pytest.raises(InputError, match="expected a"):
            judge(content[:end])


def test_bytes_after_the_end_do_no_harm() -> None:
    """Cameras add a second picture or a film after the first."""
    assert judge(WHOLE["jpg"] + b"film" * 9) == "jpg"
    assert judge(WHOLE["png"] + b"film" * 9) == "png"


@pytest.mark.parametrize(
    "content", [b"", b"hello", b"%PDF-1.7", b"<svg/>", b"GIF89a....", b"\xff\xd8\xff", b"RIFF"]
)
def test_what_is_no_photo_is_refused(content: bytes) -> None:
    with pytest.raises(InputError, match="expected a"):
        judge(content)


def test_two_hundred_megapixels_are_refused_before_they_are_unpacked() -> None:
    huge = [png(20_000, 10_000), heic(20_000, 10_000)]
    jpeg = bytearray(WHOLE["jpg"])
    at = jpeg.find(b"\xff\xc0")
    jpeg[at + 5 : at + 9] = struct.pack(">HH", 10_000, 20_000)
    webp = bytearray(WHOLE["webp with alpha"])
    webp[24:30] = (19_999).to_bytes(3, "little") + (9_999).to_bytes(3, "little")
    for content in (*huge, bytes(jpeg), bytes(webp)):
        with pytest.raises(InputError, match="200; save it smaller"):
            judge(content)
    assert judge(png(12_000, MAX_PIXELS // 12_000)) == "png"


def test_too_many_bytes_are_refused() -> None:
    with pytest.raises(InputError, match="at most 30 MB"):
        judge(WHOLE["jpg"] + bytes(MAX_PHOTO))


def test_rubbish_after_a_true_beginning_never_escapes_as_another_error() -> None:
    rng = random.Random(4)
    for content in WHOLE.values():
        for _ in range(120):
            broken = bytearray(content)
            for _ in range(rng.randint(1, 30)):
                broken[rng.randrange(4, min(len(broken), 120))] = rng.randrange(256)
            with suppress(InputError):
                judge(bytes(broken))


@pytest.mark.parametrize(
    "name",
    ["../" + "a" * 64, "a" * 63, "A" * 64, "a" * 64 + ".exe", "a" * 64 + ".jpg/..", "a" * 64 + ".jpg\n", ""],
)
def test_a_hostile_name_is_no_name(name: str) -> None:
    with pytest.raises(InputError, match="64 hex digits"):
        key_in(name)


def test_a_name_is_the_hash_of_the_content() -> None:
    """published: SHA-256 of "abc" in FIPS 180-4's examples."""
    digest = "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"
    assert key_of(b"abc") == key_in(f"{digest}.jpg") == digest
