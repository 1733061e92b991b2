"""The archive: a job file, its whole record and its photos in one zip (docs/job-file.md).

    job.toml                       the job as the record has it, for a person to read
    log.jsonl                      every entry, one a line: what counts
    photos/<sha-256 in hex>.jpg    each photo under the hash of its content

Nothing is unpacked to disk, and no size that the zip claims is believed.
"""

from __future__ import annotations

import hashlib
import re
import zipfile
import zlib
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from io import BytesIO
from pathlib import Path

from undertile.errors import FileError
from undertile.findings import Finding, Severity
from undertile.job.entry import ENTRY_VERSION, Entry, is_newer, merge, read_log, write_log
from undertile.job.file import MAX_BYTES, read_job
from undertile.job.fold import Folded, fold
from undertile.job.trouble import shown
from undertile.job.write import write_job

JOB, LOG, PHOTOS = "job.toml", "log.jsonl", "photos/"

MAX_FILES = 2000
MAX_LOG = 50_000_000
MAX_PHOTO = 30_000_000
MAX_ARCHIVE = 500_000_000
MAX_RATIO = 200
RATIO_FROM = 1_000_000
"""Below this many bytes a file may be packed as tightly as it likes."""

_PHOTO = re.compile(r"photos/([0-9a-f]{64})\.(jpg|jpeg|png|webp|heic)")
_DATE = (1980, 1, 1, 0, 0, 0)  # the first date a zip can hold: the same archive is the same bytes
_TORN: tuple[type[Exception], ...] = (
    *(zipfile.BadZipFile, zlib.error, EOFError, OSError, NotImplementedError, RuntimeError, ValueError),
    OverflowError,  # a size past 2 GiB, on a phone
)


@dataclass(frozen=True)
class Archive:
    """What an archive holds.

    Attributes
    ----------
    folded : Folded
        The job and its findings, from the log.
    log : tuple of Entry
    photos : dict of str to bytes
        By name: hash of the content, and the kind of picture.
    newer : tuple of str
        Lines of the log that a newer version wrote, as they are; those that can be read are in ``log`` too.
    findings : tuple of Finding
        Of the archive itself: its job file says something else than its log.
    """

    folded: Folded
    log: tuple[Entry, ...]
    photos: Mapping[str, bytes] = field(default_factory=dict)
    newer: tuple[str, ...] = ()
    findings: tuple[Finding, ...] = ()


def photo_name(content: bytes, kind: str = "jpg") -> str:
    """The name of a photo: the hash of its content, and its kind."""
    return f"{hashlib.sha256(content).hexdigest()}.{kind}"


def write_archive(
    target: Path | str, log: Iterable[Entry], photos: Mapping[str, bytes] | None = None
) -> None:
    """Write a job with its history and photos.

    Parameters
    ----------
    target : Path or str
        Written whole or not at all; the same content gives the same bytes.
    log : iterable of Entry
    photos : mapping of str to bytes, optional
        By ``photo_name``.

    Raises
    ------
    FileError
        If a photo is not under its own hash, or the file cannot be written.
    """
    content = archive_bytes(log, photos)
    path = Path(target)
    part = path.with_name(path.name + ".part")
    try:
        part.write_bytes(content)
        part.replace(path)
    except OSError as error:
        part.unlink(missing_ok=True)
        reason = error.strerror or str(error)
        raise FileError([f"{shown(str(path))}: cannot be written ({reason}); choose another place"]) from None


def archive_bytes(
    log: Iterable[Entry], photos: Mapping[str, bytes] | None = None, newer: Iterable[str] = ()
) -> bytes:
    """The bytes of an archive; see ``write_archive``. ``newer`` lines are handed on as they are."""
    entries = merge(log)
    rest = "".join(f"{line}\n" for line in sorted(set(newer)))
    files = {JOB: write_job(fold(entries).job).encode(), LOG: (write_log(entries) + rest).encode()}
    problems = []
    for name, content in sorted((photos or {}).items()):
        wrong = _photo_wrong(PHOTOS + name, content)
        problems += [f"{shown(name)}: {wrong}"] if wrong else []
        files[PHOTOS + name] = content
    if problems:
        raise FileError(problems)
    out = BytesIO()
    with zipfile.ZipFile(out, "w") as archive:
        for name, content in files.items():
            info = zipfile.ZipInfo(name, _DATE)
            packed = not name.startswith(PHOTOS)  # pictures do not pack
            info.compress_type = zipfile.ZIP_DEFLATED if packed else zipfile.ZIP_STORED
            info.external_attr = 0o644 << 16
            archive.writestr(info, content)
    return out.getvalue()


def read_archive(source: Path | str | bytes, most: int = MAX_ARCHIVE) -> Archive:
    """Read an archive.

    Parameters
    ----------
    source : Path, str or bytes
        A path, or the archive's bytes.
    most : int
        Bytes that may come out of it.

    Raises
    ------
    FileError
        If any part cannot be used: one line for each problem.
    """
    name = "archive" if isinstance(source, bytes) else Path(source).name or str(source)
    try:
        with zipfile.ZipFile(BytesIO(source) if isinstance(source, bytes) else Path(source)) as archive:
            files = _read(archive, name, most)
    except _TORN as error:
        if isinstance(error, FileError):
            raise
        raise FileError([f"{name}: {_torn(error)}"]) from None
    log, newer, unread = _log(_text(files, LOG, name), f"{name}, {LOG}")
    folded = fold(log)
    findings = (*_unread(unread, name), *_compared(files, folded, name))
    photos = {each.removeprefix(PHOTOS): files[each] for each in files if each.startswith(PHOTOS)}
    return Archive(folded, log, photos, newer, findings)


def _log(text: str, name: str) -> tuple[tuple[Entry, ...], tuple[str, ...], int]:
    """The entries of a log, the lines a newer version wrote, and how many of them cannot be read."""
    lines = text.replace("\r\n", "\n").split("\n")
    newer = {line for line in lines if is_newer(line)}
    unread = set()
    for line in newer:
        try:
            read_log(line)
        except FileError:
            unread.add(line)
    log = read_log("\n".join("" if line in unread else line for line in lines), name)
    return log, tuple(sorted(newer)), len(unread)


def _unread(count: int, name: str) -> Iterator[Finding]:
    if count:
        yield Finding(
            "entry-newer",
            Severity.ACT,
            name,
            f"entries of version {ENTRY_VERSION} or older",
            f"{count:,} written by a newer undertile, which this one cannot read",
            "Update this copy; they are kept, and left out until then.",
            "convention-7",
        )


def _torn(error: Exception) -> str:
    if isinstance(error, OSError) and error.strerror:
        return f"expected an archive that can be read, found: {error.strerror}; give its path"
    return "expected a zip archive, found a file that is none or is torn; copy it again from where it came"


def _read(archive: zipfile.ZipFile, name: str, most: int) -> dict[str, bytes]:
    """The files of an archive, each judged by what it unpacks to."""
    members = archive.infolist()
    if len(members) > MAX_FILES:
        raise FileError(
            [f"{name}: expected at most {MAX_FILES:,} files, found {len(members):,}; split the photos"]
        )
    problems = list(_wrong_members(members, name))
    if problems:
        raise FileError(problems)
    files: dict[str, bytes] = {}
    left = most
    for member in members:
        limit = {JOB: MAX_BYTES, LOG: MAX_LOG}.get(member.filename, MAX_PHOTO)
        content = _unpacked(archive, member, min(limit, left))
        if content is None:
            problems.append(
                f"{name}, {member.filename}: expected at most {limit // 1_000_000} MB "
                f"({most // 1_000_000} MB in all), found more; take it out"
            )
            continue
        left -= len(content)
        wrong = _photo_wrong(member.filename, content) if member.filename.startswith(PHOTOS) else ""
        problems += [f"{name}, {member.filename}: {wrong}"] if wrong else []
        files[member.filename] = content
    if problems:
        raise FileError(problems)
    return files


def _wrong_members(members: Iterable[zipfile.ZipInfo], name: str) -> Iterator[str]:
    seen: set[str] = set()
    for member in members:
        where = f"{name}, {shown(member.filename)}"
        if member.filename in seen:
            yield f"{where}: expected each name once, found it again; get another copy"
        elif member.filename not in (JOB, LOG) and not _PHOTO.fullmatch(member.filename):
            yield f"{where}: expected {JOB}, {LOG} and {PHOTOS}<hash>.jpg, found this; take it out"
        elif member.flag_bits & 0x1:
            yield f"{where}: expected a file without a password, found one; pack it again without"
        elif member.compress_type not in (zipfile.ZIP_STORED, zipfile.ZIP_DEFLATED):
            yield f"{where}: expected plain zip packing (stored or deflate), found another; pack it again"
        elif member.file_size > RATIO_FROM and member.file_size > MAX_RATIO * max(1, member.compress_size):
            yield (
                f"{where}: expected at most {MAX_RATIO} bytes out of one, found more; "
                "the archive is not sound: get another copy"
            )
        seen.add(member.filename)
    yield from (
        f"{name}: expected {need}, found none; pack it again" for need in (JOB, LOG) if need not in seen
    )


def _unpacked(archive: zipfile.ZipFile, member: zipfile.ZipInfo, limit: int) -> bytes | None:
    """The content, or None when it is longer than ``limit`` or than its packed size allows."""
    limit = min(limit, max(RATIO_FROM, MAX_RATIO * member.compress_size))
    with archive.open(member) as file:
        content = file.read(limit + 1)
    return content if len(content) <= limit else None


def _photo_wrong(name: str, content: bytes) -> str:
    found = _PHOTO.fullmatch(name)
    if found is None:
        return "expected the hash of the photo and its kind as its name, like <64 hex digits>.jpg; rename it"
    if hashlib.sha256(content).hexdigest() != found[1]:
        return "expected content with the hash in its name, found another; get another copy"
    if len(content) > MAX_PHOTO:
        return f"expected a photo of at most {MAX_PHOTO // 1_000_000} MB, found more; make it smaller"
    return ""


def _text(files: Mapping[str, bytes], part: str, name: str) -> str:
    try:
        return files[part].decode("utf-8-sig")
    except UnicodeDecodeError:
        raise FileError(
            [f"{name}, {part}: expected text in UTF-8, found other bytes; get another copy"]
        ) from None


def _compared(files: Mapping[str, bytes], folded: Folded, name: str) -> Iterator[Finding]:
    """The log counts; a job file that says something else was edited by hand, and that is said."""
    try:
        found = "other facts" if read_job(files[JOB]) != folded.job else ""
    except FileError as error:
        found = f"a file that cannot be read ({error.problems[0]})"
    if found:
        yield Finding(
            "archive-file-differs",
            Severity.ACT,
            name,
            f"{JOB} to say what the log comes to",
            f"{found} in {JOB}; the log counts",
            f"Bring the changes in as entries, or write the archive again to bring {JOB} up to date.",
            "convention-7",
        )
