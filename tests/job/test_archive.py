"""Archives: what goes in comes out, and nothing unsound is opened."""

from __future__ import annotations

import hashlib
import io
import json
import struct
import zipfile
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.job.cast import READING, SETUP, said
from undertile.errors import FileError
from undertile.job import fold, merge, read_archive, write_archive
from undertile.job.archive import JOB, LOG, PHOTOS, archive_bytes, photo_name

LOG_ENTRIES = merge(SETUP, [said("r1", "6-0"), said("r2", "5-13/16", supersedes=("r1",))])
PHOTO = b"\xff\xd8 a picture"


def zipped(files: dict[str, bytes], **how: int) -> bytes:
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w", **how) as archive:  # type: ignore[call-overload]
        for name, content in files.items():
            archive.writestr(name, content)
    return out.getvalue()


def good() -> dict[str, bytes]:
    with zipfile.ZipFile(io.BytesIO(archive_bytes(LOG_ENTRIES))) as archive:
        return {name: archive.read(name) for name in archive.namelist()}


def problems(content: bytes | Path) -> tuple[str, ...]:
    with pytest.raises(FileError) as refused:
        read_archive(content)
    assert all(len(line.splitlines()) == 1 for line in refused.value.problems)
    return refused.value.problems


def test_job_history_and_photos_come_back(tmp_path: Path) -> None:
    path = tmp_path / "room.zip"
    photos = {photo_name(PHOTO): PHOTO}
    write_archive(path, LOG_ENTRIES, photos)
    archive = read_archive(path)
    assert archive.log == LOG_ENTRIES
    assert archive.folded == fold(LOG_ENTRIES)
    assert archive.photos == photos
    assert archive.findings == ()
    assert [each.name for each in tmp_path.iterdir()] == ["room.zip"]


def test_any_zip_program_opens_it() -> None:
    # independent: the standard library's zip reader, and the published shape of the log
    with zipfile.ZipFile(io.BytesIO(archive_bytes(LOG_ENTRIES, {photo_name(PHOTO): PHOTO}))) as archive:
        assert archive.testzip() is None
        assert sorted(archive.namelist()) == [JOB, LOG, PHOTOS + hashlib.sha256(PHOTO).hexdigest() + ".jpg"]
        lines = archive.read(LOG).decode().splitlines()
    assert sorted(json.loads(line)["id"] for line in lines) == sorted(entry.id for entry in LOG_ENTRIES)


def test_the_same_record_is_the_same_bytes_in_any_order() -> None:
    assert archive_bytes(LOG_ENTRIES) == archive_bytes(reversed(LOG_ENTRIES))


def test_a_job_file_edited_inside_is_said_and_the_log_counts() -> None:
    files = good()
    files[JOB] = files[JOB].replace(b"5-13/16", b"5-3/16")
    archive = read_archive(zipped(files))
    assert [finding.code for finding in archive.findings] == ["archive-file-differs"]
    assert archive.folded.job.survey.walls["B"].studs["B2"].readings["48"].text == "5-13/16"
    broken = read_archive(zipped({**good(), JOB: b"version = 99"}))
    assert "newer undertile" in broken.findings[0].found


@pytest.mark.parametrize(
    ("name", "says"),
    [
        ("../evil.toml", "expected job.toml"),
        ("/etc/passwd", "expected job.toml"),
        ("C:\\windows\\x", "expected job.toml"),
        ("photos/../log.jsonl", "expected job.toml"),
        ("photos/me.jpg", "expected job.toml"),
        ("photos/" + "A" * 64 + ".jpg", "expected job.toml"),
        ("photos/" + "a" * 64 + ".exe", "expected job.toml"),
        ("JOB.TOML", "expected job.toml"),
        ("deep/job.toml", "expected job.toml"),
        ("line\nbreak", "expected job.toml"),
    ],
)
def test_a_name_that_has_no_place_in_an_archive_is_refused(name: str, says: str) -> None:
    assert any(says in line for line in problems(zipped({**good(), name: b"x"})))


def test_a_name_twice_is_refused() -> None:
    twice = zipped({**good(), "job.tomm": b"two"}).replace(b"job.tomm", JOB.encode())
    assert "found it again" in problems(twice)[0]


@pytest.mark.parametrize("missing", [JOB, LOG])
def test_a_part_that_is_missing_is_said(missing: str) -> None:
    files = good()
    del files[missing]
    assert problems(zipped(files)) == (f"archive: expected {missing}, found none; pack it again",)


def test_a_photo_that_is_not_what_its_name_says_is_refused() -> None:
    name = PHOTOS + "0" * 64 + ".jpg"
    assert "expected content with the hash in its name" in problems(zipped({**good(), name: PHOTO}))[0]
    with pytest.raises(FileError, match="hash"):
        archive_bytes(LOG_ENTRIES, {"0" * 64 + ".jpg": PHOTO})
    with pytest.raises(FileError, match="rename it"):
        archive_bytes(LOG_ENTRIES, {"me.jpg": PHOTO})


def test_a_file_that_swells_is_not_unpacked() -> None:
    bomb = zipped({**good(), LOG: b" " * 40_000_000}, compression=zipfile.ZIP_DEFLATED)
    assert "at most 200 bytes out of one" in problems(bomb)[0]


def test_a_file_that_lies_about_its_size_is_not_believed() -> None:
    bomb = bytearray(zipped({**good(), LOG: b" " * 40_000_000}, compression=zipfile.ZIP_DEFLATED))
    # published: PKWARE APPNOTE 4.3.12, central header: signature 50 4b 01 02, size at 24, name at 46
    at = bomb.rfind(b"PK\x01\x02")
    while bomb[at + 46 : at + 46 + len(LOG)] != LOG.encode():
        at = bomb.rfind(b"PK\x01\x02", 0, at)
    bomb[at + 24 : at + 28] = struct.pack("<I", 900_000)
    found = problems(bytes(bomb))
    assert len(found) == 1
    assert "found more" in found[0] or "torn" in found[0]


def test_a_password_and_a_rare_packing_are_refused() -> None:
    locked = bytearray(zipped(good()))
    at = locked.find(b"PK\x01\x02")
    locked[at + 8] |= 1  # published: PKWARE APPNOTE 4.4.4, bit 0 of the flags = encrypted
    assert "without a password" in problems(bytes(locked))[0]
    assert "stored or deflate" in problems(zipped(good(), compression=zipfile.ZIP_BZIP2))[0]


def test_too_many_files_are_refused() -> None:
    many = {f"photos/{number:064x}.jpg": b"" for number in range(2001)}
    assert "at most 2,000 files" in problems(zipped(many))[0]


def test_a_file_that_is_no_archive_or_is_not_there_is_one_line(tmp_path: Path) -> None:
    assert "is none or is torn" in problems(b"version = 2")[0]
    assert "is none or is torn" in problems(b"")[0]
    assert "give its path" in problems(tmp_path / "gone.zip")[0]
    assert "give its path" in problems(tmp_path)[0]


def test_a_log_with_bad_lines_says_each_with_its_number() -> None:
    files = good()
    files[LOG] += b"nonsense\n{}\n"
    found = problems(zipped(files))
    assert found[0].startswith(f"archive, {LOG}, line {len(LOG_ENTRIES) + 1}: ")
    files[LOG] = b"\xff"
    assert "UTF-8" in problems(zipped(files))[0]


def test_an_archive_that_cannot_be_written_leaves_nothing_behind(tmp_path: Path) -> None:
    with pytest.raises(FileError, match="cannot be written"):
        write_archive(tmp_path / "gone" / "room.zip", LOG_ENTRIES)
    assert list(tmp_path.iterdir()) == []


@settings(max_examples=300, deadline=None)
@given(st.data())
def test_no_torn_or_changed_byte_ends_in_anything_but_an_answer(data: st.DataObject) -> None:
    content = bytearray(archive_bytes(LOG_ENTRIES, {photo_name(PHOTO): PHOTO}))
    for _ in range(data.draw(st.integers(1, 4))):
        content[data.draw(st.integers(0, len(content) - 1))] = data.draw(st.integers(0, 255))
    cut = data.draw(st.integers(0, len(content)))
    for torn in (bytes(content), bytes(content[:cut])):
        try:
            archive = read_archive(torn)
        except FileError:
            continue  # refused, which is an answer
        assert {entry.fact for entry in archive.log} >= {READING}
