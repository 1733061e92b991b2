"""One job as one file between devices without a network; a stranger's file is refused and keeps nothing."""

from __future__ import annotations

import hashlib
import io
import zipfile

import pytest

from tests.job.cast import READING, SETUP, said
from tests.store.cast import NEWER, entry, pen, png
from undertile.errors import FileError, InputError
from undertile.job import read_archive, write_archive
from undertile.job.archive import archive_bytes
from undertile.store import SqliteStore
from undertile.store.parcel import file_name, pack, take_in, unpack


@pytest.fixture
def store() -> SqliteStore:
    made = SqliteStore()
    job = made.create("ab" * 16)
    made.append(job, [*SETUP, said("v", "620/16")])
    made.append_lines(job, [NEWER])
    made.add_photo(job, png(seed=1), pen(made), {"wall": "B"})
    return made


def test_a_job_comes_over_whole_and_under_its_own_id(store: SqliteStore) -> None:
    other = SqliteStore()
    job, done = take_in(other, unpack(pack(store, "ab" * 16)))
    assert job == "ab" * 16
    assert (done.known, done.other, done.refused) == ((), (), ())
    assert other.lines(job) == store.lines(job)
    assert other.photos(job) == store.photos(job)
    assert other.summary(job) == store.summary(job)


def test_the_same_file_twice_changes_nothing(store: SqliteStore) -> None:
    before = store.digest("ab" * 16)
    _, done = take_in(store, unpack(pack(store, "ab" * 16)))
    assert done.new == ()
    assert store.digest("ab" * 16) == before


def test_the_same_job_is_the_same_file(store: SqliteStore) -> None:
    assert pack(store, "ab" * 16) == pack(store, "ab" * 16)


def test_any_zip_reader_finds_the_log_and_the_job(store: SqliteStore) -> None:
    """independent: the standard library's zip reader; the newer line is there byte for byte."""
    with zipfile.ZipFile(io.BytesIO(pack(store, "ab" * 16))) as archive:
        assert archive.testzip() is None
        assert archive.comment == b"job " + b"ab" * 16
        assert NEWER in archive.read("log.jsonl").decode().split("\n")


def test_a_newer_line_is_said_in_the_archive(store: SqliteStore) -> None:
    archive = read_archive(pack(store, "ab" * 16))
    assert archive.newer == (NEWER,)
    assert [finding.code for finding in archive.findings] == ["entry-newer"]
    assert "1 written by a newer undertile" in archive.findings[0].found


def test_a_newer_line_that_can_be_read_keeps_its_spelling() -> None:
    text = said("x-1", "6-0").to_line().replace('"version":2', '"version":3').replace(",", ", ")
    first, second = SqliteStore(), SqliteStore()
    first.append_lines(first.create("cd" * 16), [text])
    take_in(second, unpack(pack(first, "cd" * 16)))
    assert [line.text for line in second.lines("cd" * 16)] == [text]


def test_an_entry_with_an_odd_line_break_comes_through_whole() -> None:
    """Independent: U+2028 and U+0085 end a line for some readers (Unicode Standard 5.8), never in a log."""
    first, second = SqliteStore(), SqliteStore()
    job = first.create()
    pen(first).write(job, "place", "up\u2028stairs\u0085left")
    take_in(second, unpack(pack(first, job)))
    assert second.lines(job) == first.lines(job)


@pytest.mark.parametrize(
    ("name", "expected"),
    [
        ("../Baño: 2nd floor\\left", "Baño-2nd-floor-left-2026-11-25.undertile.zip"),
        ("", "abababab-2026-11-25.undertile.zip"),
        ("/", "abababab-2026-11-25.undertile.zip"),
        ("x" * 200, f"{'x' * 40}-2026-11-25.undertile.zip"),
    ],
)
def test_a_file_name_is_words_whatever_the_job_is_called(name: str, expected: str) -> None:
    store = SqliteStore()
    job = store.create("ab" * 16)
    if name:
        pen(store).write(job, "name", name)
    assert file_name(store, job, "2026-11-25T08:00:00Z", "undertile.zip") == expected
    assert "/" not in file_name(store, job, "../../x", "toml")


def test_no_more_comes_out_of_a_file_than_its_reader_has_room_for(store: SqliteStore) -> None:
    content = pack(store, "ab" * 16)
    size = sum(info.file_size for info in zipfile.ZipFile(io.BytesIO(content)).infolist())
    assert unpack(content, size).job == "ab" * 16
    with pytest.raises(FileError, match="expected at most"):
        unpack(content, size - 1)


def test_an_archive_that_names_no_job_joins_the_job_that_shares_an_entry(store: SqliteStore) -> None:
    content = archive_bytes([said("v", "620/16"), entry("b-1")])
    job, done = take_in(store, unpack(content))
    assert job == "ab" * 16
    assert done.new == ("b-1",)


def test_an_archive_that_nobody_knows_gets_one_id_everywhere() -> None:
    content = archive_bytes([entry("b-1"), entry("b-2")])
    assert take_in(SqliteStore(), unpack(content))[0] == take_in(SqliteStore(), unpack(content))[0]


def test_it_can_be_put_into_a_job_of_choice(store: SqliteStore) -> None:
    job = store.create()
    assert take_in(store, unpack(pack(store, "ab" * 16)), job)[0] == job
    assert store.digest(job) == store.digest("ab" * 16)


def test_a_bare_log_is_taken_in_too(store: SqliteStore) -> None:
    text = "\n".join(line.text for line in store.lines("ab" * 16))
    other = SqliteStore()
    job, _ = take_in(other, unpack(text.encode()))
    assert other.lines(job) == store.lines("ab" * 16)


@pytest.mark.parametrize(
    "content",
    [
        b"",
        b"\xff\xfe\x00",
        b"name = 'x'",
        b"PK\x03\x04rubbish",
        b"{}\n" * 3,
        entry("a-1").to_line().encode() + b"\nrubbish",
    ],
)
def test_what_is_no_job_is_refused_and_keeps_nothing(content: bytes) -> None:
    with pytest.raises(FileError, match="expected"):
        unpack(content)


def test_a_stranger_s_tricks_are_refused(store: SqliteStore) -> None:
    """A bomb, a path, a false photo, a comment that is no job."""
    sound = pack(store, "ab" * 16)
    for name, content in (
        ("../../evil", b"x"),
        ("photos/" + "0" * 64 + ".jpg", b"not its hash"),
        ("photos/" + "1" * 64 + ".png", bytes(40_000_000)),
    ):
        out = io.BytesIO(sound)
        with zipfile.ZipFile(out, "a", zipfile.ZIP_DEFLATED) as archive:
            archive.writestr(name, content)
        with pytest.raises(FileError):
            unpack(out.getvalue())
    out = io.BytesIO(sound)
    with zipfile.ZipFile(out, "a") as archive:
        archive.comment = b"job ../../etc/passwd"
    with pytest.raises(InputError, match="32 digits"):
        take_in(SqliteStore(), unpack(out.getvalue()))


def test_a_photo_that_is_none_is_refused_and_the_entries_are_kept() -> None:
    evil = b"<script>alert(1)</script>"
    name = f"{hashlib.sha256(evil).hexdigest()}.jpg"
    other = SqliteStore()
    job, done = take_in(other, unpack(archive_bytes([entry("b-1")], {name: evil})))
    assert done.new == ("b-1",)
    assert done.refused == (
        f"photo {name[:8]}: expected a photo (JPEG, PNG, WebP or HEIC), found another kind of file; "
        "save it as JPEG",
    )
    assert other.photos(job) == ()


def test_a_job_archive_written_before_stores_is_taken_in(tmp_path: object) -> None:
    path = f"{tmp_path}/job.zip"
    write_archive(path, [*SETUP, said("v", "6-0", READING)])
    with open(path, "rb") as file:
        job, done = take_in(SqliteStore(), unpack(file.read()))
    assert len(done.new) == len(SETUP) + 1
    assert len(job) == 32
