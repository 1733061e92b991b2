"""A job archive on its way between devices: which job it is travels in the zip's comment.

Two copies of one job must meet under one id. The id of a file that names none is taken from a job here that
shares an entry with it, else from its first entry, so that all who take it in agree.
"""

from __future__ import annotations

import hashlib
import io
import json
import re
import zipfile
from collections.abc import Iterable
from dataclasses import dataclass, field

from undertile.errors import FileError, UndertileError
from undertile.findings import Finding
from undertile.job.archive import archive_bytes, read_archive
from undertile.job.entry import Entry, read_log, write_log
from undertile.store import Appended, Store

_COMMENT = re.compile(rb"job ([0-9a-f]{32})")


@dataclass(frozen=True)
class Parcel:
    """What a file holds.

    Attributes
    ----------
    job : str
        Id of the job, 32 hex digits.
    lines : tuple of str
        Entries as text.
    photos : dict of str to bytes
    findings : tuple of Finding
        Of the file itself.
    """

    job: str
    lines: tuple[str, ...]
    photos: dict[str, bytes] = field(default_factory=dict)
    findings: tuple[Finding, ...] = ()


def pack(store: Store, job: str) -> bytes:
    """A job with its log and photos as one archive that says which job it is."""
    photos = {each.name: store.photo(each.name) for each in store.photos(job)}
    out = io.BytesIO(archive_bytes(store.log(job), photos))
    with zipfile.ZipFile(out, "a") as archive:
        archive.comment = f"job {job}".encode()
    return out.getvalue()


def file_name(store: Store, job: str, time: str) -> str:
    """A name for the file: the job's, and the day."""
    name = next((row.name for row in store.jobs() if row.id == job), "")
    words = re.sub(r"[^\w]+", "-", name).strip("-")[:40] or job[:8]
    return f"{words}-{time[:10]}.undertile.zip"


def unpack(content: bytes, store: Store) -> Parcel:
    """What a file from elsewhere holds: an archive, or a bare log; nothing is kept by this.

    Raises
    ------
    FileError
        If it is neither, or any part of it is unsound.
    """
    if not content.startswith(b"PK"):
        try:
            log = read_log(content.decode("utf-8-sig"), "the file")
        except UnicodeDecodeError:
            raise FileError(
                ["the file: expected a job archive or a log, found something else; choose another file"]
            ) from None
        if not log:
            raise FileError(["the file: expected entries, found none; choose another file"])
        return Parcel(_job_of(log, store), _lines(log))
    archive = read_archive(content)
    with zipfile.ZipFile(io.BytesIO(content)) as packed:
        told = _COMMENT.fullmatch(packed.comment)
    job = told[1].decode() if told else _job_of(archive.log, store)
    return Parcel(job, _lines(archive.log), dict(archive.photos), archive.findings)


def _lines(log: Iterable[Entry]) -> tuple[str, ...]:
    return tuple(filter(None, write_log(log).split("\n")))  # an entry may hold other line breaks


def _job_of(log: tuple[Entry, ...], store: Store) -> str:
    """The job here that shares an entry; else an id that everybody makes alike of the same log."""
    its = set(log)
    for row in store.jobs():
        if its & set(store.log(row.id)):
            return row.id
    return hashlib.sha256(log[0].to_line().encode() if log else b"").hexdigest()[:32]


def told(parcel: Parcel) -> str:
    """A parcel for the page, without the photos' content."""
    return json.dumps({"job": parcel.job, "lines": parcel.lines, "photos": sorted(parcel.photos)})


def problems(error: UndertileError) -> str:
    """Why a file cannot be taken in, for the page."""
    return json.dumps({"problems": list(getattr(error, "problems", (str(error),)))})


def take_in(store: Store, content: bytes) -> tuple[str, Appended]:
    """Keep what a file from elsewhere holds.

    Returns
    -------
    job : str
    done : Appended

    Raises
    ------
    FileError
        If it cannot be read whole; nothing is kept then.
    """
    parcel = unpack(content, store)
    store.create(parcel.job)
    done = store.append_lines(parcel.job, parcel.lines)
    for photo in parcel.photos.values():
        store.add_photo(parcel.job, photo)
    return parcel.job, done


def took(job: str, done: Appended) -> str:
    """What became of a file, for the page."""
    counts = {"new": len(done.new), "known": len(done.known), "other": len(done.other)}
    return json.dumps({"job": job, **counts, "refused": list(done.refused)})
