"""A photo made fit to keep: judged before it is unpacked, re-encoded, without the place it was taken.

Only pixels and the time of taking go over into the new file; whatever else came in the old one (position,
maker's notes, a small copy of the uncut picture, bytes behind the end) stays behind.
"""

from __future__ import annotations

import asyncio
import io
import threading
import warnings
from typing import Any

from PIL import ExifTags, Image, ImageCms, ImageOps

from undertile.errors import InputError
from undertile.screens.host import Picture
from undertile.store.picture import judge

LONGEST = 4096
"""Pixels of the longer side that are kept: a sixteenth still shows on a picture of a whole wall. (of ours)"""
QUALITY = 85
_FORMATS = {"jpg": "JPEG", "png": "PNG", "webp": "WEBP"}
_TAKEN = (ExifTags.Base.DateTimeOriginal, ExifTags.Base.OffsetTimeOriginal)
MAX_PLACE = 2_000
_ONE_AT_A_TIME = threading.Lock()


async def clean_photo(content: bytes, keep_place: bool = False) -> Picture:
    """Judge and re-encode a photo, away from whoever else is served meanwhile.

    Parameters
    ----------
    content : bytes
    keep_place : bool
        Keep where it was taken.

    Raises
    ------
    InputError
        If it is no whole photo or too large, in one line.
    """
    return await asyncio.to_thread(clean, content, keep_place)


def clean(content: bytes, keep_place: bool = False) -> Picture:
    """The same, at once.

    Parameters
    ----------
    content : bytes
    keep_place : bool
        Keep where it was taken.

    Raises
    ------
    InputError
        If it is no whole photo or too large, in one line.
    """
    with _ONE_AT_A_TIME:  # a large photo is some hundred megabytes while it is unpacked
        return _cleaned(content, keep_place)


def _cleaned(content: bytes, keep_place: bool) -> Picture:
    kind = judge(content)  # by its head alone: nothing is unpacked before its pixels are counted
    if kind not in _FORMATS:
        raise InputError(
            "expected a photo as JPEG, PNG or WebP, found HEIC, which this laptop does not unpack; choose "
            "Most Compatible in the phone's camera settings, or send a copy as JPEG"
        )
    try:
        with warnings.catch_warnings():
            warnings.simplefilter("error")
            warnings.simplefilter("ignore", Image.DecompressionBombWarning)  # `judge` has the limit
            with Image.open(io.BytesIO(content), formats=[_FORMATS[kind]]) as found:
                exif = _kept(found, keep_place)
                if kind == "jpg":
                    found.draft("RGB", (LONGEST, LONGEST))
                made = _upright(found)
    except Exception as error:  # a decoder fed with hostile bytes may raise anything
        if isinstance(error, MemoryError):
            raise
        raise InputError(
            "expected a whole photo, found one that cannot be unpacked; take it or copy it again"
        ) from None
    out = io.BytesIO()
    made.save(out, "JPEG", quality=QUALITY, exif=exif, optimize=True)
    return Picture(out.getvalue(), "jpg")


def _upright(found: Image.Image) -> Image.Image:
    """The pixels as they are to be seen: upright, of a sane size, in the colours every screen has."""
    found.load()
    profile = found.info.get("icc_profile")
    made = ImageOps.exif_transpose(found)
    made.thumbnail((LONGEST, LONGEST))
    if made.mode in ("RGBA", "LA", "PA") or "transparency" in made.info:
        over = made.convert("RGBA")
        made = Image.new("RGB", over.size, "white")
        made.paste(over, mask=over.getchannel("A"))
    if profile and made.mode in ("RGB", "CMYK", "L"):
        try:
            source = ImageCms.ImageCmsProfile(io.BytesIO(profile))
            made = (
                ImageCms.profileToProfile(made, source, ImageCms.createProfile("sRGB"), outputMode="RGB")
                or made
            )
        except (ImageCms.PyCMSError, OSError, ValueError):
            pass  # colours a little off, and no photo lost for it
    return made.convert("RGB") if made.mode != "RGB" else made


def _kept(found: Image.Image, keep_place: bool) -> Image.Exif:
    """The little that goes over from what the camera wrote."""
    told = found.getexif()
    kept = Image.Exif()
    inner: Any = told.get_ifd(ExifTags.IFD.Exif)
    taken = {int(key): inner[key][:32] for key in _TAKEN if isinstance(inner.get(key), str)}
    if taken:
        kept.get_ifd(ExifTags.IFD.Exif).update(taken)
    place = told.get_ifd(ExifTags.IFD.GPSInfo) if keep_place else {}
    if place and len(repr(place)) <= MAX_PLACE:
        kept.get_ifd(ExifTags.IFD.GPSInfo).update(place)
    return kept
