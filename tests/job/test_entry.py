"""Entries and the union of logs."""

from __future__ import annotations

import itertools
import json

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.job.cast import READING, pen, said
from undertile.errors import FileError, InputError
from undertile.job import Entry, merge
from undertile.job.entry import read_log, write_log

IDS = st.sampled_from(("a", "b", "c", "d"))
ENTRIES = st.builds(
    Entry,
    IDS,
    st.sampled_from((READING, "name", "unit", "survey.walls.B.nominal")),
    st.one_of(st.none(), st.sampled_from(("", "x", "6-0", "in", 'say "ü"\n'))),
    st.sampled_from(("2031-01-01", "2030-01-01")),
    st.just("Ann"),
    st.just("phone-1"),
    st.just(""),
    st.lists(IDS, max_size=3).map(tuple),
)
LOGS = st.lists(ENTRIES, max_size=8)


@given(LOGS, LOGS)
def test_merge_does_not_care_which_log_comes_first(one: list[Entry], other: list[Entry]) -> None:
    assert merge(one, other) == merge(other, one)


@given(LOGS, LOGS, LOGS)
def test_merge_does_not_care_which_two_meet_first(a: list[Entry], b: list[Entry], c: list[Entry]) -> None:
    assert merge(merge(a, b), c) == merge(a, merge(b, c)) == merge(a, b, c)


@given(LOGS)
def test_merging_a_log_again_changes_nothing(log: list[Entry]) -> None:
    once = merge(log)
    assert merge(once, once) == once == merge(once)


@given(LOGS, LOGS)
def test_merge_loses_nothing_and_adds_nothing(one: list[Entry], other: list[Entry]) -> None:
    assert set(merge(one, other)) == set(one) | set(other)


@given(LOGS)
def test_a_log_reads_back_byte_for_byte(log: list[Entry]) -> None:
    text = write_log(log)
    assert read_log(text) == merge(log)
    assert write_log(read_log(text)) == text


@given(LOGS.filter(lambda log: len(log) < 5))
def test_the_written_log_does_not_depend_on_the_order_it_came_in(log: list[Entry]) -> None:
    assert len({write_log(order) for order in itertools.permutations(log)}) == 1


def test_a_line_is_plain_json_that_any_reader_understands() -> None:
    entry = said("p-1", '3-15/16"', supersedes=("p-0", "o-4"))
    assert json.loads(entry.to_line()) == {
        "id": "p-1",
        "fact": READING,
        "value": '3-15/16"',
        "time": "2031-05-02T09:00Z",
        "who": "Ann",
        "device": "phone-1",
        "instrument": "",
        "supersedes": ["o-4", "p-0"],
        "version": 2,
    }


def test_a_pen_never_gives_a_number_twice() -> None:
    bo = pen()
    ids = [bo.write(READING, text).id for text in ("6-0", "6-0", "6-1/16")]
    assert ids == ["phone-2-1", "phone-2-2", "phone-2-3"]
    assert bo.next_number == 4


@pytest.mark.parametrize(
    ("field", "value", "says"),
    [
        ("id", "", "expected `id`, found nothing"),
        ("id", "two\nlines", "expected `id` as one line"),
        ("who", "  ", "expected `who`, found nothing"),
        ("who", "\ud800", "expected `who` as one line"),
        ("fact", "a..b", "is no address"),
        ("value", "6" * 10_001, "at most 10000 characters"),
        ("value", "\udfff", "expected `value` as a text"),
        ("supersedes", ("",), "expected `supersedes`"),
        ("version", 0, "expected `version`"),
    ],
)
def test_an_entry_that_could_not_travel_is_refused_when_it_is_made(
    field: str, value: object, says: str
) -> None:
    given = {"id": "a", "fact": "name", "value": "x", "time": "t", "who": "w", "device": "d", field: value}
    with pytest.raises(InputError, match=says):
        Entry(**given)  # type: ignore[arg-type]


def test_every_bad_line_of_a_log_is_said_with_its_number_in_one_run() -> None:
    good = said("a", "6-0").to_line()
    lines = [
        good,
        "not json",
        "[1]",
        "",
        json.dumps({**json.loads(good), "vlaue": 1}),
        json.dumps({"id": "b"}),
        json.dumps({**json.loads(good), "supersedes": "a"}),
        json.dumps({**json.loads(good), "who": 5, "value": 7}),
        "[" * 5000,
    ]
    with pytest.raises(FileError) as refused:
        read_log("\n".join(lines), "log.jsonl")
    problems = refused.value.problems
    assert {problem.split(":")[0] for problem in problems} == {
        f"log.jsonl, line {number}" for number in (2, 3, 5, 6, 7, 8, 9)
    }
    assert "write value" in problems[2]
    assert sum("line 6" in problem for problem in problems) == 5  # five needed keys are missing
    assert sum("line 8" in problem for problem in problems) == 2
    assert all("\n" not in problem for problem in problems)
