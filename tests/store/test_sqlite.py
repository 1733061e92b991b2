"""The SQLite store: what is put in comes out, once, in every order, in memory and in a file."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest

from tests.job.cast import READING, SETUP, said
from tests.store.cast import NEWER
from undertile.errors import InputError
from undertile.job import merge
from undertile.store import SqliteStore, Store


@pytest.fixture(params=["memory", "file"])
def store(request: pytest.FixtureRequest, tmp_path: Path) -> Iterator[Store]:
    with SqliteStore(":memory:" if request.param == "memory" else tmp_path / "jobs.db") as made:
        yield made


def test_a_job_has_an_id_of_128_random_bits(store: Store) -> None:
    ids = {store.create() for _ in range(20)}
    assert len(ids) == 20
    assert all(len(each) == 32 and int(each, 16) >= 0 for each in ids)


def test_a_job_made_elsewhere_is_made_once(store: Store) -> None:
    assert store.create("ab" * 16) == store.create("ab" * 16) == "ab" * 16
    assert [row.id for row in store.jobs()] == ["ab" * 16]


@pytest.mark.parametrize("bad", ["../../etc", "AB" * 16, "ab" * 15, "ab" * 16 + "\n"])
def test_an_id_that_is_none_is_refused(store: Store, bad: str) -> None:
    with pytest.raises(InputError, match="32 digits"):
        store.create(bad)


def test_a_job_that_is_not_here_is_named(store: Store) -> None:
    with pytest.raises(InputError, match="a job that is here"):
        store.log("ab" * 16)


def test_entries_come_out_as_merge_has_them(store: Store) -> None:
    """independent: the set union that job.entry defines."""
    job = store.create()
    first = (said("b", "6-0"), said("a", "6-1/16"), *SETUP)
    assert store.append(job, first).new == tuple(each.id for each in first)
    again = store.append(job, [said("c", "5-7/8"), said("a", "6-1/16")])
    assert (again.new, again.known, again.other) == (("c",), ("a",), ())
    assert store.log(job) == merge(first, [said("c", "5-7/8")])


def test_a_known_id_with_other_content_is_kept_beside_and_told(store: Store) -> None:
    """published: convention 7.4."""
    job = store.create()
    store.append(job, [said("a", "6-0")])
    told = store.append(job, [said("a", "6-1/2")])
    assert (told.new, told.known, told.other) == (("a",), (), ("a",))
    assert {each.value for each in store.log(job)} == {"6-0", "6-1/2"}


def test_what_only_a_newer_version_reads_is_kept_and_counted(store: Store) -> None:
    job = store.create()
    told = store.append_lines(job, [NEWER, said("a", "6-0").to_line(), "rubbish"])
    assert told.new == ("phone-9-1", "a")
    assert len(told.refused) == 1
    assert [each.id for each in store.log(job)] == ["a"]
    assert store.unread(job) == ("phone-9-1",)
    assert NEWER in [line.text for line in store.lines(job)]


def test_the_value_stays_as_typed(store: Store) -> None:
    """phone_stack 4: a value that is read as a number on the way comes back as another text."""
    job = store.create()
    typed = ("620/16", " 6-0", "６", "1203 mm", "", None, "\t½\u2028")
    store.append(job, [said(f"v{number}", value) for number, value in enumerate(typed)])
    assert [each.value for each in store.log(job)] == list(typed)


def test_a_pen_goes_on_counting(store: Store) -> None:
    job, other = store.create(), store.create()
    pen = store.pen("phone-1", "Ann", "2031-05-02T09:00Z")
    ids = [pen.write(each, READING, "6-0").id for each in (job, other, job)]
    assert ids == ["phone-1-1", "phone-1-2", "phone-1-3"]


def test_a_pen_counts_past_entries_that_came_from_elsewhere(store: Store) -> None:
    """A phone that lost its counter gets its own entries back by sync."""
    job = store.create()
    store.append(job, [said("phone-1-41", "6-0")])
    assert store.pen("phone-1", "Ann", "2031-05-02T09:00Z").write(job, READING, "6-1").id == "phone-1-42"


def test_drafts_are_kept_all_or_none(store: Store) -> None:
    job = store.create()
    pen = store.pen("phone-1", "Ann", "2031-05-02T09:00Z")
    with pytest.raises(InputError):
        pen.write_all(job, [(READING, "6-0", ()), ("no..address", "1", ())])  # type: ignore[list-item]
    assert store.log(job) == ()
    assert pen.write(job, READING, "6-0").id == "phone-1-1"


def test_the_list_of_jobs(store: Store) -> None:
    first, second = store.create(), store.create()
    store.append(first, [said("n", "Mill Lane", "name", time="2031-01-01T00:00Z")])
    store.append(second, [said("m1", "Old", "name"), said("m2", "New", "name", ("m1",))])
    store.append(first, [said("r", "6-0", time="1999-01-01T00:00Z")])
    rows = store.jobs()
    assert [(row.id, row.name, row.entries, row.photos) for row in rows] == [
        (first, "Mill Lane", 2, 0),
        (second, "New", 2, 0),
    ]
    assert rows[0].time == "2031-01-01T00:00Z", "the newest, not what came in last"


def test_a_name_in_dispute_is_no_name(store: Store) -> None:
    """independent: the fold of the whole log."""
    job = store.create()
    store.append(job, [said("m1", "Old", "name"), said("m2", "New", "name")])
    assert store.jobs()[0].name == ""
