"""Written job files: they read back, and every text is as it was typed."""

from __future__ import annotations

import tomllib
from decimal import Decimal
from fractions import Fraction
from typing import Any

import pytest
from hypothesis import given, settings

from tests.depth import deep
from tests.job.cast import ROOM, job_of, jobs, pen, tables
from undertile.job import Job, fold, read_job, write_job
from undertile.job.address import height_key
from undertile.job.plain import entries_of, taken_apart
from undertile.lengths import MM, Length, Unit, parse_length


@settings(max_examples=deep(20, 60), deadline=None)
@given(jobs())
def test_a_written_job_reads_back_equal_with_every_text(job: Job) -> None:
    text = write_job(job)
    again = read_job(text)
    assert again == job
    assert taken_apart(again) == taken_apart(job)
    assert write_job(again) == text


@settings(max_examples=deep(20, 40), deadline=None)
@given(tables())
def test_the_standard_reader_finds_every_text_that_was_typed(table: dict[str, Any]) -> None:
    # independent: tomllib reads what was written; compared with what went in, not with what we read
    read = tomllib.loads(write_job(job_of(table)), parse_float=Decimal)
    assert read.pop("version") == 2
    assert _facts(read, table["unit"]) == _facts(table, table["unit"])


def _facts(table: dict[str, Any], unit: Any) -> Any:
    """A table with readings by exact height, and without what says nothing."""

    def walk(value: Any, heights: list[str], key: str) -> Any:
        if key in ("readings", "arris"):
            pairs = zip(heights, value, strict=True) if isinstance(value, list) else value.items()
            return {height_key(parse_length(height, unit)): text for height, text in pairs if text}
        if isinstance(value, dict):
            heights = value.get("heights", heights)
            inner = {key: walk(each, heights, key) for key, each in value.items()}
            blank = (("reading", ""), ("on_new", ""))
            return {key: each for key, each in inner.items() if each != {} and (key, each) not in blank}
        return value

    return walk(table, [], "")


def test_the_same_job_is_the_same_text_and_is_good_to_read() -> None:
    text = write_job(read_job(ROOM))
    # pinned: the layout a person sees
    assert text == ROOM


def test_readings_by_height_fill_their_place_in_the_row() -> None:
    text = ROOM.replace('readings = ["6-0", "5-13/16", ""]', 'readings = { 48 = "5-13/16", 2 = "6-0" }')
    assert write_job(read_job(text)) == ROOM


def test_an_inch_mark_is_written_so_that_it_can_be_read() -> None:
    text = write_job(
        read_job(ROOM.replace('"24"', "'2 ft'").replace('"40"', "'40\"'").replace('"8"', '"8\\""'))
    )
    assert "'40\"'" in text
    assert "'8\"'" in text
    assert '"2 ft"' in text


def test_an_entry_too_long_for_a_line_gets_a_table_of_its_own() -> None:
    long = "x" * 200
    held = f'[framing.walls.B]\nhold = {{ offset = "1/16", reason = "{long}" }}\n'
    text = write_job(read_job('version = 2\nunit = "in"\n' + held))
    assert "[framing.walls.B.hold]\n" in text
    assert read_job(text).framing.walls["B"].hold.reason == long


@pytest.mark.parametrize("unit", ["in", "mm"])
def test_a_computed_length_is_written_so_that_it_reads_back_in_a_job_of_either_unit(unit: Unit) -> None:
    for inches, kind in (
        (Fraction(93, 16), "in"),
        (Fraction(1, 128), "in"),
        (150 * MM, "mm"),
        (48 * MM * 2, "in"),
    ):
        valve = {"wall": "B", "along": Length(inches, kind), "height": '2"', "reading": '6"'}
        framing = {"valve": {**valve, "window_low": '1"', "window_high": '2"'}}
        job = Job.model_validate({"unit": unit, "framing": framing}, context={"unit": unit})
        assert read_job(write_job(job)).framing.valve.along.inches == inches


@pytest.mark.parametrize("name", ["\x7f", "\x85", "\u2028", "a\tb\\c\"d'e", "\U0001f6bf", "\x00", "\x1b[0m"])
def test_any_character_of_a_text_is_written_so_that_the_standard_reader_takes_it(name: str) -> None:
    text = write_job(Job(unit="in", name=name))
    assert tomllib.loads(text)["name"] == name  # independent: tomllib


def test_a_number_typed_with_an_exponent_comes_through_the_file_and_the_log() -> None:
    job = read_job('version = 2\nunit = "in"\n[framing]\nrate = 1e2\n')
    # independent: 1e2 = 100
    assert "rate = 100\n" in write_job(job)
    assert fold(entries_of(job, pen())).job == job
