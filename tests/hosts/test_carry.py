"""A job on its way between devices: whole, under one id, refused in words where it is unsound."""

from __future__ import annotations

import zipfile
from io import BytesIO

import pytest

from undertile.errors import FileError
from undertile.hosts import carry
from undertile.job.entry import write_log
from undertile.store import SqliteStore

WHO = ("d" * 32, "Ann", "2026-11-25T08:00:00Z")


def a_job(store: SqliteStore, name: str = "Hall bath") -> str:
    job = store.create()
    pen = store.pen(*WHO)
    pen.write(job, "name", name)
    pen.write(job, "unit", "in")
    return job


def test_a_copy_taken_in_is_the_same_job_once() -> None:
    with SqliteStore() as one, SqliteStore() as other:
        job = a_job(one)
        content = carry.pack(one, job)
        assert carry.take_in(other, content)[0] == job
        again = carry.take_in(other, content)[1]
        assert again.new == ()
        assert len(again.known) == 2
        assert other.digest(job) == one.digest(job)


def test_a_bare_log_finds_its_job_by_an_entry_they_share() -> None:
    with SqliteStore() as one:
        job = a_job(one)
        text = write_log(one.log(job))
        one.pen(*WHO).write(job, "place", "upstairs")
        assert carry.take_in(one, text.encode())[0] == job
        assert len(one.jobs()) == 1


def test_two_who_take_in_the_same_bare_log_call_it_the_same() -> None:
    with SqliteStore() as one, SqliteStore() as other, SqliteStore() as third:
        text = write_log(one.log(a_job(one))).encode()
        assert carry.take_in(other, text)[0] == carry.take_in(third, text)[0]


def test_an_entry_with_an_odd_line_break_comes_through_whole() -> None:
    """Independent: U+2028 and U+0085 end a line for some readers (Unicode Standard 5.8), never in a log."""
    with SqliteStore() as one, SqliteStore() as other:
        job = a_job(one)
        one.pen(*WHO).write(job, "place", "up\u2028stairs\u0085left")
        carry.take_in(other, carry.pack(one, job))
        assert other.digest(job) == one.digest(job)


@pytest.mark.parametrize("content", [b"", b"\x00\xff\xfe", b"not a log", b"PK\x03\x04torn", b'{"id":"x"}\n'])
def test_what_is_no_copy_is_refused_and_nothing_is_kept(content: bytes) -> None:
    with SqliteStore() as store:
        with pytest.raises(FileError):
            carry.take_in(store, content)
        assert store.jobs() == []


def test_a_path_trick_in_a_zip_is_refused() -> None:
    out = BytesIO()
    with SqliteStore() as store:
        out.write(carry.pack(store, a_job(store)))
        with zipfile.ZipFile(out, "a") as archive:
            archive.writestr("../../evil.txt", "x")
        with SqliteStore() as other, pytest.raises(FileError, match="evil"):
            carry.take_in(other, out.getvalue())


def test_a_file_name_is_words_whatever_the_job_is_called() -> None:
    with SqliteStore() as store:
        job = a_job(store, "../Baño: 2nd floor\\left")
        name = carry.file_name(store, job, "2026-11-25T08:00:00Z")
        assert name == "Baño-2nd-floor-left-2026-11-25.undertile.zip"
