"""A line is one spelling of one entry; what a newer version wrote is not respelled."""

from __future__ import annotations

import hashlib
import json

import pytest

from tests.job.cast import said
from tests.store.cast import NEWER
from undertile.errors import InputError
from undertile.job.entry import ENTRY_VERSION
from undertile.store.line import MAX_LINE, line_of, number_of, read_line


def test_an_entry_has_one_spelling_whatever_way_its_json_was_written() -> None:
    entry = said("a-1", "3-15/16")
    respelled = json.dumps(dict(reversed(json.loads(entry.to_line()).items())), indent=None)
    assert respelled != entry.to_line()
    assert read_line(respelled) == line_of(entry)
    assert read_line(entry.to_line() + "\r\n").text == entry.to_line()


def test_the_key_is_the_hash_of_the_text() -> None:
    """independent: the standard library's hash of the bytes that a log file holds."""
    line = line_of(said("a-1", "½"))
    assert line.key == hashlib.sha256(line.text.encode("utf-8")).hexdigest()


@pytest.mark.parametrize(
    "text",
    [
        NEWER,
        said("a-1", "6-0").to_line().replace(f'"version":{ENTRY_VERSION}', '"version":3'),
        '{"version":77,"id":"x","fact":7}',
    ],
)
def test_a_newer_line_stays_byte_for_byte(text: str) -> None:
    assert read_line(text).text == text


def test_a_newer_line_that_can_be_read_says_so() -> None:
    text = said("a-1", "6-0").to_line().replace(f'"version":{ENTRY_VERSION}', '"version":3')
    assert read_line(text).entry is not None
    assert read_line(NEWER).entry is None
    assert (read_line(NEWER).id, read_line(NEWER).fact) == ("phone-9-1", "sauna.benches")


@pytest.mark.parametrize(
    "text",
    [
        "",
        "{",
        "[1]",
        "null",
        '{"id":"a"}',
        said("a", "1").to_line()[:-3],
        said("a", "1").to_line().replace('"who"', '"whom"'),
        said("a", "1").to_line().replace(f'"version":{ENTRY_VERSION}', '"version":true'),
        '{"version":9,"id":""}',
        '{"version":9,"id":7}',
        '{"version":9,"id":"a\\nb"}',
        '{"version":9999999,"id":"a"}',
        "[" * 100_000,
        '{"version":9,"id":"a","x":"\\ud800"}'.replace("\\\\", "\\") + "\ud800",
        '{"version":9,"id":"a","x":"' + "x" * MAX_LINE + '"}',
        said("a", "1").to_line() + "\n" + said("b", "1").to_line(),
    ],
)
def test_what_is_no_entry_is_refused_in_one_line(text: str) -> None:
    with pytest.raises(InputError, match="expected") as caught:
        read_line(text)
    assert "\n" not in str(caught.value)
    assert len(str(caught.value)) < 1000


@pytest.mark.parametrize(
    ("device", "name", "number"),
    [
        ("a", "a-7", 7),
        ("a-b", "a-b-12", 12),
        ("a", "b-7", 0),
        ("a", "a-", 0),
        ("a", "a-x", 0),
        ("a", "a-٣", 0),
        ("a", "a7", 0),
        ("", "-7", 7),
        ("a", "a-" + "9" * 30, 0),
    ],
)
def test_the_number_in_an_id(device: str, name: str, number: int) -> None:
    assert number_of(device, name) == number
