"""``--if`` for a moved line, a row typed the other way, two exchanged: what it does to the readings."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest

from tests.cli.conftest import EXAMPLES, Ran
from undertile.cli.what_if import as_if
from undertile.errors import FileError
from undertile.job import Job, read_job
from undertile.lengths import Length
from undertile.survey import read

JOB = """
version = 2
unit = "in"
[survey.walls.L]
nominal = "6-0"
heights = ["2", "48", "90"]
[survey.walls.L.studs]
L1 = { along = "2", readings = ["6", "6-1/16", "6-1/8"] }
L2 = { along = "18", readings = ["5-7/8", "", "5-3/4"] }
L3 = { along = "34", readings = ["6-1/4", "x", "6-3/8"] }
[survey.repeats.first]
stud = "L1"
height = "2"
reading = "6"
[survey.widths.low]
depth = "3"
height = "2"
reading = "60"
"""


@pytest.fixture
def job() -> Job:
    return read_job(JOB)


def rows(job: Job) -> dict[str, list[str]]:
    def text(value: Any) -> str:
        return value.text if isinstance(value, Length) else str(value)

    return {
        name: [text(stud.readings.get(z, "-")) for z in ("2", "48", "90")]
        for name, stud in job.survey.walls["L"].studs.items()
    }


def test_a_moved_line_shifts_all_that_was_read_after_it(job: Job) -> None:
    # independent: by hand, stud by stud and row by row; the repeat was read last
    by_stud = as_if(job, ["wall L from L2 at 2 on by stud = 1/16 less"])
    assert rows(by_stud) == {
        "L1": ["6", "6-1/16", "6-1/8"],
        "L2": ['5-13/16"', "-", '5-11/16"'],
        "L3": ['6-3/16"', "x", '6-5/16"'],
    }
    assert by_stud.survey.repeats["first"].reading.text == '5-15/16"'
    by_row = as_if(job, ["wall L from L2 at 2 on by row = 1/16 more"])
    assert rows(by_row)["L1"] == ["6", '6-1/8"', '6-3/16"']


def test_a_stud_is_read_from_the_top_down_and_a_row_from_its_far_end(job: Job) -> None:
    assert rows(as_if(job, ["stud L1 = reversed"]))["L1"] == ["6-1/8", "6-1/16", "6"]
    # what was not read keeps its place: what was read changes places
    assert rows(as_if(job, ["stud L2 = reversed"]))["L2"] == ["5-3/4", "-", "5-7/8"]
    row = rows(as_if(job, ["row L at 2 = reversed"]))
    assert [row[stud][0] for stud in ("L1", "L2", "L3")] == ["6-1/4", "5-7/8", "6"]


def test_two_exchanged_are_put_back(job: Job) -> None:
    once = as_if(job, ["studs L1 and L2 = exchanged"])
    assert rows(once)["L1"] == ["5-7/8", "-", "5-3/4"]
    assert rows(as_if(once, ["stud L1 and L2 = exchanged"])) == rows(job)
    row = rows(as_if(job, ["rows L at 2 and 90 = exchanged"]))
    assert row["L3"] == ["6-3/8", "x", "6-1/4"]


def test_not_measured_takes_a_reading_or_a_width_out(job: Job) -> None:
    out = as_if(job, ["L1 at 48 = not measured", "width low = not measured"])
    assert rows(out)["L1"] == ["6", "-", "6-1/8"]
    assert out.survey.widths == {}
    assert as_if(job, ["width low = 60-1/8"]).survey.widths["low"].reading.text == "60-1/8"


@pytest.mark.parametrize(
    "wish",
    [
        "wall L from L9 at 2 on by stud = 1/16 less",
        "wall L from L2 at 3 on = 1/16 less",
        "wall L from L2 at 2 on = 1/16",
        "wall B from B1 at 2 on = 1/16 less",
        "stud L9 = reversed",
        "rows L at 2 = exchanged",
        "rows L at 2 and 3 = exchanged",
        "width high = 60",
    ],
)
def test_a_wish_that_names_nothing_of_the_job_is_one_line(job: Job, wish: str) -> None:
    with pytest.raises(FileError) as refused:
        as_if(job, [wish])
    (line,) = refused.value.problems
    assert line.startswith(f"--if {wish}: ")


def test_the_bumped_laser_of_the_example_is_planned_as_offered(run: Callable[..., Ran]) -> None:
    job = EXAMPLES / "steel-unit.toml"
    first = next(g[0] for g in read(read_job(job).survey).suspects if g[0].code == "line-moved")
    assert first.wish == "wall R from R3 at 2 on by stud = 5/16 less"
    assert first.offered == "every reading from there on about 5/16 less, give or take 1/16,"
    mended = as_if(read_job(job), [first.wish])
    assert not [g for g in read(mended.survey).suspects if g[0].code == "line-moved"]


def test_two_studs_exchanged_on_a_side_wall_are_named_and_put_back() -> None:
    # independent: exchanged by hand in a sound room; the widths at their depths tell
    sound = as_if(read_job(EXAMPLES / "old-alcove.toml"), ["B4 at 36 = 6-1/4", "L3 at 54 = 5-7/8"])
    wrong = as_if(sound, ["studs R2 and R3 = exchanged"])
    ((first, *_),) = read(wrong.survey).suspects
    assert (first.where, first.slip) == ("stud R2 and R3", "the two studs in each other's place")
    assert len(first.offered) < 80
    assert rows_of(as_if(wrong, [first.wish])) == rows_of(sound)


def rows_of(job: Job) -> dict[str, dict[str, Any]]:
    return {name: dict(stud.readings) for name, stud in job.survey.walls["R"].studs.items()}
