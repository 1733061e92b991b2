"""Every length and number that a job can hold: what cannot be is refused in one line, the rest judged."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

import pytest

from tests.job.bounds_listed import (
    EITHER_WAY,
    JUDGED,
    MORE_THAN_NOTHING,
    NOTHING_OR_MORE,
    OTHER_RULES,
    leaves,
    table,
)
from undertile.bounds import Bound
from undertile.errors import FileError
from undertile.job import read_job
from undertile.job.settle import settle


def test_every_length_and_number_of_a_job_has_its_bound_listed_here() -> None:
    listed = [*MORE_THAN_NOTHING, *NOTHING_OR_MORE, *EITHER_WAY, *JUDGED]
    assert len(listed) == len(set(listed))
    assert set(leaves()) == set(listed)


def value_of(path: str, text: str) -> Any:
    leaf = leaves()[path]
    plain: Any = int(text) if leaf.kind in ("whole", "number") else text
    return [plain, "90"] if leaf.many and path.endswith("heights") else [plain] if leaf.many else plain


@pytest.mark.parametrize(
    ("path", "text"),
    [
        *[(path, text) for path in MORE_THAN_NOTHING for text in ("0", "-1")],
        *[(path, "-1") for path in NOTHING_OR_MORE],
        *EITHER_WAY.items(),
    ],
)
def test_what_cannot_be_is_refused_in_one_line_at_its_place(path: str, text: str) -> None:
    job, troubles = settle(table(path, value_of(path, text)), "in")
    assert job is None
    own = [each for each in troubles if path.split(".")[-1] in ("*", *each.path)]
    assert len(own) == 1
    line = own[0].line()
    assert text in line
    assert "; " in line  # what to do
    assert "\n" not in line


@pytest.mark.parametrize("path", [path for path in NOTHING_OR_MORE if path not in OTHER_RULES])
def test_nothing_is_something_where_it_can_be(path: str) -> None:
    _, troubles = settle(table(path, value_of(path, "0")), "in")
    assert troubles == []


def test_a_reading_is_never_refused_however_odd() -> None:
    text = """
version = 2
unit = "in"
[survey.walls.L]
nominal = "6-0"
heights = ["2", "48"]
[survey.walls.L.studs]
L1 = { along = "2", readings = ["-6-1/8", "0"] }
[survey.widths]
w = { depth = "3", height = "2", reading = "-60" }
"""
    assert read_job(text) is not None


def test_a_price_that_no_work_has_is_refused_with_the_nearest_one() -> None:
    with pytest.raises(FileError) as refused:
        read_job('version = 2\nunit = "in"\n[framing.prices]\nstrips = 5\n')
    (line,) = refused.value.problems
    assert "line 4: framing.prices.strips: expected a price of this job, found `strips`; write strip_" in line


def test_a_notch_as_deep_as_its_stud_is_refused() -> None:
    raw = table("framing.studs.*.notch", "3-1/2")
    raw["framing"]["studs"]["L1"]["depth"] = "3-1/2"
    _, (trouble,) = settle(raw, "in")
    assert trouble.expected == "`notch` less than `depth`"


def test_a_bound_says_where_it_ends() -> None:
    bound = Bound("so", "so", "do", Fraction(0), Fraction(2), above=True)
    assert [bound.holds(Fraction(n)) for n in (-1, 0, 1, 2, 3)] == [False, False, True, True, False]
