"""Lines of keys, found beside the standard library's reader."""

from __future__ import annotations

import tomllib
from collections.abc import Iterator
from contextlib import suppress
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.depth import deep
from tests.job.cast import ROOM, jobs
from undertile.job import Job, write_job
from undertile.job.locate import TooDeep, locate

TOML = '''
# published: forms of TOML v1.0.0 (toml.io), from memory
title = "TOML \\"Example\\"" # a comment with [brackets] and = signs
"quoted.key" = 1
'literal key' . sub = 2
[owner]
dob = 1979-05-27T07:32:00-08:00
day = 1979-05-27 07:32:00
text = """
many = "lines"
[not.a.table]
  ""\\""" and """""
other = \'\'\'
it's [raw]\'\'\'\'
[servers]  # trailing
  [servers.alpha]
  ip = "10.0.0.1"
[database]
ports = [
  8001, # one
  8002,
]
data = [ ["delta", "phi"], [3.14] ]
point = { x = 1, "y z" = { deep = [ 1 ] } }
[[products]]
name = "Hammer"
[[products]]
[[products]]
name = "Nail"
'''


def paths(value: Any, path: tuple[str | int, ...] = ()) -> Iterator[tuple[str | int, ...]]:
    if path:
        yield path
    if isinstance(value, dict):
        for key, inner in value.items():
            yield from paths(inner, (*path, key))
    elif isinstance(value, list):
        for at, inner in enumerate(value):
            yield from paths(inner, (*path, at))


def test_every_key_that_the_standard_reader_finds_has_a_line_and_no_other() -> None:
    # independent: tomllib
    assert set(locate(TOML).lines) == set(paths(tomllib.loads(TOML)))


def test_the_line_is_the_one_the_key_stands_on() -> None:
    lines = TOML.split("\n")
    places = locate(TOML)
    for path, words in {
        ("title",): "title =",
        ("quoted.key",): '"quoted.key"',
        ("literal key", "sub"): "'literal key' . sub",
        ("owner", "text"): 'text = """',
        ("owner", "other"): "other =",
        ("servers", "alpha"): "[servers.alpha]",
        ("database", "ports", 1): "8002",
        ("database", "point", "y z", "deep"): "point",
        ("products", 2, "name"): "Nail",
    }.items():
        assert words in lines[places.lines[path] - 1]


@settings(max_examples=deep(12, 30), deadline=None)
@given(jobs())
def test_every_key_of_a_written_job_has_its_line(job: Job) -> None:
    text = write_job(job)
    read = tomllib.loads(text)
    places = locate(text)
    lines = text.split("\n")
    for path in paths(read):
        assert places.line(tuple(str(part) for part in path)) is not None
        if isinstance(path[-1], str) and path[-1].isalnum() and path in places.lines:
            assert path[-1] in lines[places.lines[path] - 1]


def test_a_missing_key_is_placed_at_the_table_above_it() -> None:
    places = locate(ROOM)
    assert places.line(("survey", "walls", "B", "studs", "B2", "twist")) == 12
    assert places.line(("survey", "walls", "B", "heights", "item 3")) == 8
    assert places.line(("nothing",)) is None
    assert locate("a = [\n1,\n2,\n3]").line(("a", "item 2")) == 3


@given(st.text(max_size=200))
def test_no_text_breaks_it(text: str) -> None:
    with suppress(TooDeep):
        assert all(line > 0 for line in locate(text).lines.values())


@pytest.mark.parametrize("open_mark", ["[", "{a=", "[{a="])
def test_brackets_too_deep_are_met_before_the_reader_is_called(open_mark: str) -> None:
    with pytest.raises(TooDeep) as deep:
        locate("x = 1\ny = " + open_mark * 50_000)
    assert deep.value.line == 2
