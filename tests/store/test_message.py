"""Messages survive the way, and what is no message is refused before any of it is used."""

from __future__ import annotations

import json

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.job.cast import said
from tests.store.cast import NEWER
from undertile.errors import InputError
from undertile.store.message import JobTalk, Message, Piece, read_message

JOB, KEY = "ab" * 16, "cd" * 16
_HEX = st.text("0123456789abcdef", min_size=32, max_size=32)
_BRANCHES = st.text("0123456789abcdef", max_size=8)


@st.composite
def talks(draw: st.DrawFn) -> JobTalk:
    content = st.binary(min_size=1, max_size=20)
    pieces = [
        Piece(draw(_HEX) * 2, at + len(part) + draw(st.integers(0, 9)), at, part)
        for part, at in draw(st.lists(st.tuples(content, st.integers(0, 99)), max_size=2))
    ]
    return JobTalk(
        draw(st.just("") | _HEX),
        draw(st.dictionaries(_BRANCHES, _HEX, max_size=3)),
        draw(st.dictionaries(_BRANCHES, st.lists(_HEX, max_size=3), max_size=3)),
        draw(st.lists(_HEX, max_size=3)),
        draw(st.dictionaries(_HEX, st.integers(0, 10**6), max_size=3)),
        draw(st.lists(st.sampled_from((NEWER, said("a-1", "½ \u2028").to_line())), max_size=3)),
        pieces,
    )


@given(st.dictionaries(_HEX, talks(), max_size=3), st.booleans())
def test_a_message_reads_back_as_it_was(jobs: dict[str, JobTalk], every: bool) -> None:
    message = Message(jobs, every)
    assert read_message(message.to_text()) == message


def test_what_a_newer_version_adds_is_passed_over() -> None:
    text = json.dumps({"sync": 1, "mood": "good", "jobs": {JOB: {"offer": [KEY], "weather": []}}})
    assert read_message(text).jobs[JOB].offer == [KEY]


def test_a_newer_protocol_is_named() -> None:
    with pytest.raises(InputError, match=r"newer undertile; update this one \(nothing is lost"):
        read_message('{"sync": 2, "jobs": {}}')


def test_one_cut_short_anywhere_is_refused() -> None:
    text = Message({JOB: JobTalk(lines=[NEWER], want={KEY: 0})}, True).to_text()
    for end in range(len(text)):
        with pytest.raises(InputError, match="expected an answer") as caught:
            read_message(text[:end])
        assert "\n" not in str(caught.value)


@pytest.mark.parametrize(
    "raw",
    [
        [],
        {"sync": "1"},
        {"sync": True, "jobs": {}},
        {"sync": 1, "jobs": {"../x": {}}},
        {"sync": 1, "jobs": {JOB: []}},
        {"sync": 1, "jobs": {JOB: {"have": {"xyz": KEY}}}},
        {"sync": 1, "jobs": {JOB: {"have": {"ab": "short"}}}},
        {"sync": 1, "jobs": {JOB: {"list": {"ab": KEY}}}},
        {"sync": 1, "jobs": {JOB: {"want": {KEY: -1}}}},
        {"sync": 1, "jobs": {JOB: {"want": {KEY: True}}}},
        {"sync": 1, "jobs": {JOB: {"want": {KEY: 10**12}}}},
        {"sync": 1, "jobs": {JOB: {"lines": [7]}}},
        {"sync": 1, "jobs": {JOB: {"lines": ["x" * 300_000]}}},
        {"sync": 1, "jobs": {JOB: {"offer": [KEY] * 100_001}}},
        {"sync": 1, "jobs": {JOB: {"pieces": [{"hash": KEY * 2, "size": 9, "at": 0, "content": "%%"}]}}},
        {"sync": 1, "jobs": {JOB: {"pieces": [{"hash": KEY * 2, "size": 2, "at": 0, "content": "AAAA"}]}}},
        {"sync": 1, "jobs": {JOB: {"pieces": [{"hash": KEY * 2, "size": 9, "at": 0, "content": ""}]}}},
        {"sync": 1, "jobs": {JOB: {"pieces": [{"hash": KEY * 2, "size": 9, "at": 0}]}}},
        {
            "sync": 1,
            "jobs": {JOB: {"pieces": [{"hash": KEY * 2, "size": 10**9, "at": 0, "content": "AAAA"}]}},
        },
    ],
)
def test_a_message_of_a_stranger_is_refused_in_one_line(raw: object) -> None:
    with pytest.raises(InputError, match="expected") as caught:
        read_message(json.dumps(raw))
    assert "\n" not in str(caught.value)


def test_neither_depth_nor_length_overwhelms() -> None:
    for text in ("[" * 100_000, " " * 17_000_000, '{"sync":1,"jobs":{},"x":"\ud800"}'):
        with pytest.raises(InputError, match="expected"):
            read_message(text)
