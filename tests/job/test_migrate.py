"""Version 1 files, brought up to date."""

from __future__ import annotations

import copy
import tomllib

import pytest
from hypothesis import given
from hypothesis import strategies as st

from tests.job.cast import ROOM
from tests.job.test_file import problems
from undertile.job import read_job
from undertile.job.migrate import FIRST, STEPS, migrate
from undertile.job.model import VERSION

OLD = """\
version = 1
name = "Corner shower"
units = "in"
place = "upstairs"

[survey.walls.B]
nominal = "6-0"
heights_read = ["2", "48", "90"]
studs = { B1 = "8", B2 = "24", B3 = "40" }
rows = { 2 = ["6-0", "6-0", "6-0"], 48 = ["6-0", "5-13/16", "x"], 90 = ["6-0", "", "6-0"] }

[framing.studs]
B2 = { kind = "wood", bay = "pipe" }
"""


def test_there_is_a_step_for_every_version_before_the_current_one() -> None:
    assert len(STEPS) == VERSION - FIRST


def test_a_version_1_file_is_the_same_room() -> None:
    assert read_job(OLD) == read_job(ROOM)  # independent: ROOM was typed by hand in version 2


def test_what_is_wrong_with_an_old_file_is_said_with_its_lines() -> None:
    old = OLD.replace('48 = ["6-0", "5-13/16", "x"]', '48 = ["6-0", "5-13/16"]').replace("wood", "wod")
    found = problems(old)
    assert [line.split(": ")[0] for line in found] == ["job file, line 10", "job file, line 13"]
    assert "a list of 3 readings" in found[0]


@pytest.mark.parametrize(
    ("change", "says"),
    [
        (("heights_read =", 'heights = ["2"]\nheights_read ='), "`heights_read` or `heights`, not both"),
        (("units =", 'unit = "in"\nunits ='), "`units` or `unit`, not both"),
        (("rows = {", "rows = [] #"), "a table of rows by height"),
        (("48 = [", "49 = ["), "one of the wall's heights"),
        (('B1 = "8"', 'B1 = { along = "8", readings = ["6-0", "6-0", "6-0"] }'), "not both"),
    ],
)
def test_what_a_step_cannot_move_is_a_problem_of_its_own(change: tuple[str, str], says: str) -> None:
    assert any(says in line for line in problems(OLD.replace(*change)))


VALUES = st.recursive(
    st.one_of(st.integers(), st.text(max_size=3), st.booleans()),
    lambda inner: st.one_of(
        st.lists(inner, max_size=3),
        st.dictionaries(
            st.sampled_from(("survey", "walls", "B", "studs", "B1", "rows", "heights_read", "units", "2")),
            inner,
            max_size=4,
        ),
    ),
    max_leaves=12,
)


@given(st.dictionaries(st.sampled_from(("survey", "units", "unit", "x")), VALUES))
def test_no_content_breaks_a_migration_or_is_changed_by_it(raw: dict[str, object]) -> None:
    before = copy.deepcopy(raw)
    migrate(raw, FIRST)
    assert raw == before


def test_a_current_file_is_left_as_it_is() -> None:
    raw = tomllib.loads(ROOM)
    assert migrate(raw, VERSION) == (raw, [])
