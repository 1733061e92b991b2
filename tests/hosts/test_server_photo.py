"""Photos from outside: pixels go over, nothing else does; what is no photo or too large is one line."""

from __future__ import annotations

import io
import struct
import zlib
from pathlib import Path

import pytest
from PIL import ExifTags, Image

from undertile.errors import InputError
from undertile.hosts.server.photo import LONGEST, clean
from undertile.store.picture import MAX_PIXELS

SECRET = b"MAKER-NOTE-OF-A-STRANGER"
GPS = {
    ExifTags.GPS.GPSLatitudeRef: "N",
    ExifTags.GPS.GPSLatitude: (52.0, 31.0, 12.0),
    ExifTags.GPS.GPSLongitudeRef: "E",
    ExifTags.GPS.GPSLongitude: (13.0, 24.0, 18.0),
}


def photo(size: tuple[int, int] = (64, 48), kind: str = "JPEG", **more: object) -> bytes:
    made = Image.new("RGB", size, "white")
    made.paste("red", (0, 0, size[0] // 2, size[1] // 2))
    out = io.BytesIO()
    made.save(out, kind, **more)
    return out.getvalue()


def exif(orientation: int = 1) -> bytes:
    made = Image.Exif()
    made[ExifTags.Base.Orientation] = orientation
    made[ExifTags.Base.Model] = "Phone of Ann"
    inner = made.get_ifd(ExifTags.IFD.Exif)
    inner[ExifTags.Base.DateTimeOriginal] = "2026:11:25 08:00:00"
    inner[ExifTags.Base.MakerNote] = SECRET
    made.get_ifd(ExifTags.IFD.GPSInfo).update(GPS)
    return made.tobytes()


def png(width: int, height: int, rows: bytes = b"") -> bytes:
    """A PNG by hand (ISO/IEC 15948): one bit a pixel, all black."""
    line = b"\x00" * (1 + (width + 7) // 8)
    out = b"\x89PNG\r\n\x1a\n"
    packed = zlib.compressobj()
    data = b"".join([*(packed.compress(line) for _ in range(0 if rows else height)), packed.flush()])
    head = struct.pack(">IIBBBBB", width, height, 1, 0, 0, 0, 0)
    for name, content in ((b"IHDR", head), (b"IDAT", rows or data), (b"IEND", b"")):
        out += struct.pack(">I", len(content)) + name + content
        out += struct.pack(">I", zlib.crc32(name + content))
    return out


def test_the_place_and_the_maker_s_notes_stay_behind_and_the_time_goes_over() -> None:
    content = photo(exif=exif()) + b"trailing " + SECRET
    assert SECRET in content
    made = clean(content).content
    assert SECRET not in made
    assert b"Phone of Ann" not in made
    found = Image.open(io.BytesIO(made)).getexif()
    assert not found.get_ifd(ExifTags.IFD.GPSInfo)
    assert found.get_ifd(ExifTags.IFD.Exif)[ExifTags.Base.DateTimeOriginal] == "2026:11:25 08:00:00"


def test_the_place_stays_where_it_is_wanted() -> None:
    found = Image.open(io.BytesIO(clean(photo(exif=exif()), keep_place=True).content)).getexif()
    place = found.get_ifd(ExifTags.IFD.GPSInfo)
    assert [float(each) for each in place[ExifTags.GPS.GPSLatitude]] == [52, 31, 12]
    assert SECRET not in clean(photo(exif=exif()), keep_place=True).content


@pytest.mark.parametrize(("orientation", "corner"), [(1, (5, 5)), (3, (58, 42)), (6, (42, 5)), (8, (5, 58))])
def test_it_stands_upright(orientation: int, corner: tuple[int, int]) -> None:
    """Published: CIPA DC-008, orientation: 3 is half a turn, 6 a quarter turn clockwise, 8 one back."""
    made = Image.open(io.BytesIO(clean(photo(exif=exif(orientation))).content))
    assert made.size == ((64, 48) if orientation in (1, 3) else (48, 64))
    red, green, blue = made.getpixel(corner)  # type: ignore[misc]
    assert red > 200
    assert green < 80
    assert blue < 80


@pytest.mark.parametrize("kind", ["JPEG", "PNG", "WEBP"])
def test_every_kind_becomes_a_plain_one(kind: str) -> None:
    made = clean(photo(kind=kind))
    assert made.kind == "jpg"
    assert Image.open(io.BytesIO(made.content)).size == (64, 48)


def test_what_is_clear_becomes_white_and_what_is_large_smaller() -> None:
    out = io.BytesIO()
    Image.new("RGBA", (LONGEST + 904, 10), (0, 0, 0, 0)).save(out, "PNG")
    made = Image.open(io.BytesIO(clean(out.getvalue()).content))
    assert made.size == (LONGEST, 8)
    assert made.getpixel((3, 3)) == (255, 255, 255)


def test_two_hundred_megapixels_are_refused_by_their_head_alone() -> None:
    content = png(20_000, 10_000)
    assert len(content) < 100_000, "a small file that would unpack to 200 megapixels"
    with pytest.raises(InputError, match=r"at most 120 megapixels, found 200; save it smaller"):
        clean(content)
    with pytest.raises(InputError, match="megapixels"):
        clean(png(2**31 - 1, 2**31 - 1, b"x"))
    assert MAX_PIXELS == 120_000_000


def test_a_head_that_lies_unpacks_no_more_than_it_says() -> None:
    """A bomb: 8 x 8 pixels by its head, 50 MB of rows behind it."""
    made = clean(png(8, 8, zlib.compress(b"\x00" * 50_000_000)))
    assert Image.open(io.BytesIO(made.content)).size == (8, 8)


def test_a_text_bomb_in_a_png_is_refused() -> None:
    bomb = b"Comment\x00\x00" + zlib.compress(b"x" * 200_000_000)
    chunk = struct.pack(">I", len(bomb)) + b"zTXt" + bomb + struct.pack(">I", zlib.crc32(b"zTXt" + bomb))
    content = png(8, 8)
    with pytest.raises(InputError, match="cannot be unpacked"):
        clean(content[:33] + chunk + content[33:])


@pytest.mark.parametrize(
    "content",
    [
        b"",
        b"GIF89a" + b"\x00" * 50,
        b"<svg xmlns='http://www.w3.org/2000/svg'><script>alert(1)</script></svg>",
        photo()[: len(photo()) // 2],
        photo(kind="PNG")[:-20],
        b"\xff\xd8\xff\xe0" + b"\x00" * 100,
        photo()[:200] + b"\x00" * 200 + b"\xff\xd9",
        b"\x00\x00\x00\x18ftypheic" + b"\x00" * 100,
    ],
    ids=["empty", "gif", "svg", "half a jpeg", "half a png", "head only", "holes", "heic"],
)
def test_what_is_no_whole_photo_is_one_line(content: bytes) -> None:
    with pytest.raises(InputError) as told:
        clean(content)
    assert "\n" not in str(told.value)
    assert str(told.value).startswith("expected a")


def test_a_hostile_colour_profile_loses_no_photo(tmp_path: Path) -> None:
    made = clean(photo(icc_profile=b"\x00" * 300))
    assert "icc_profile" not in Image.open(io.BytesIO(made.content)).info
