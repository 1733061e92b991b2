"""One job as one file between stores: the archive of ``job.archive``, with the job's id as the zip's comment.

A phone without any network hands its job over this way; what is there already is left as it is.
"""

from __future__ import annotations

import hashlib
import re
import zipfile
from collections.abc import Iterable
from dataclasses import dataclass, field
from io import BytesIO

from undertile.errors import FileError, InputError
from undertile.findings import Finding
from undertile.job.archive import MAX_ARCHIVE, archive_bytes, read_archive
from undertile.job.entry import ENTRY_VERSION
from undertile.store.interface import Appended, Store
from undertile.store.line import Line, read_line

_COMMENT = "job "


@dataclass(frozen=True)
class Parcel:
    """What a file holds, judged and not yet kept.

    Attributes
    ----------
    job : str
        Id of the job; ``""`` where the file does not say.
    lines : tuple of Line
    photos : dict of str to bytes
    findings : tuple of Finding
        Of the file itself.
    """

    job: str
    lines: tuple[Line, ...]
    photos: dict[str, bytes] = field(default_factory=dict)
    findings: tuple[Finding, ...] = ()


def pack(store: Store, job: str) -> bytes:
    """A job with its whole log and its photos as the bytes of an archive."""
    lines = store.lines(job)
    ours = [line.entry for line in lines if line.entry and line.entry.version <= ENTRY_VERSION]
    newer = [line.text for line in lines if not line.entry or line.entry.version > ENTRY_VERSION]
    photos = {photo.name: store.photo(photo.name) for photo in store.photos(job)}
    out = BytesIO(archive_bytes(ours, photos, newer))
    with zipfile.ZipFile(out, "a") as archive:
        archive.comment = (_COMMENT + job).encode()
    return out.getvalue()


def file_name(store: Store, job: str, time: str, ending: str) -> str:
    """A name for a file of a job: the job's own in words, the day, an ending."""
    name = next((row.name for row in store.jobs() if row.id == job), "")
    words = re.sub(r"[^\w]+", "-", name).strip("-")[:40] or job[:8]
    day = re.sub(r"[^\d-]+", "-", time[:10])
    return f"{words}-{day}.{ending}"


def unpack(content: bytes, most: int = MAX_ARCHIVE) -> Parcel:
    """What an archive, or a bare log of JSON lines, holds. Nothing is unpacked to disk.

    Parameters
    ----------
    content : bytes
    most : int
        Bytes that may come out of it.

    Raises
    ------
    FileError
        If any part of it cannot be used; a file from a stranger is refused like any other.
    """
    if not content.startswith(b"PK"):
        return Parcel("", _bare(content))
    archive = read_archive(content, most)
    with zipfile.ZipFile(BytesIO(content)) as packed:
        told = packed.comment.decode("ascii", "replace")
    job = told.removeprefix(_COMMENT) if told.startswith(_COMMENT) else ""
    ours = [entry.to_line() for entry in archive.log if entry.version <= ENTRY_VERSION]
    lines = tuple(map(read_line, [*ours, *archive.newer]))
    return Parcel(job, lines, dict(archive.photos), archive.findings)


def _bare(content: bytes) -> tuple[Line, ...]:
    try:
        text = content.decode("utf-8-sig")
    except UnicodeDecodeError:
        raise FileError(
            ["the file: expected a job's archive or a log, found something else; choose another file"]
        ) from None
    lines, problems = [], []
    for number, each in enumerate(text.split("\n"), 1):
        if each.strip():
            try:
                lines.append(read_line(each))
            except ValueError as error:
                problems.append(f"the file, line {number}: {error}")
    if problems or not lines:
        raise FileError(problems or ["the file: expected entries, found none; choose another file"])
    return tuple(lines)


def take_in(store: Store, parcel: Parcel, job: str = "") -> tuple[str, Appended]:
    """Keep what a parcel holds.

    Parameters
    ----------
    store : Store
    parcel : Parcel
    job : str
        Into this job; else into the one that the parcel names, else one that shares an entry with it.

    Returns
    -------
    job : str
    appended : Appended
    """
    job = store.create(job or parcel.job or _kin(store, parcel.lines))
    done = store.append_lines(job, (line.text for line in parcel.lines))
    refused = []
    for name, content in sorted(parcel.photos.items()):
        try:
            store.add_photo(job, content)
        except InputError as error:
            refused.append(f"photo {name[:8]}: {error}")
    return job, done.plus(Appended(refused=tuple(refused)))


def _kin(store: Store, lines: Iterable[Line]) -> str:
    """The job here that shares an entry; else an id that everybody makes alike of the same log."""
    its = {line.text for line in lines}
    for row in store.jobs():
        if any(line.text in its for line in store.lines(row.id)):
            return row.id
    return hashlib.sha256(min(its, default="").encode()).hexdigest()[:32]
