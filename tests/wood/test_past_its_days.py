"""Days on which it could have been closed, gone by unread: said where there is a clock, and nowhere else."""

from __future__ import annotations

import pytest

from tests.wood.cast import answer, corner
from undertile.wood.typed import read_moment


def test_the_last_day_is_not_past_and_the_next_one_is() -> None:
    # independent: the days between two dates of the calendar, counted by hand from the last reading, the 9th
    facts = corner(5)
    for wet in ("plate-B-4", "plate-B-28", "plate-L-6"):
        del facts["points"][wet]
    facts["points"]["plate-B-16"]["shown"] = {"1": "20", "2": "18", "3": "17", "4": "15.6", "5": "14.8"}
    found = answer(facts)
    assert found.close.latest
    assert found.past_it("") == ""
    assert found.past_it(found.close.latest) == ""
    assert found.past_it("2026-03-09") == ""
    late = found.past_it("2026-06-09")
    assert "last read 92 days ago" in late  # 22 of March, 30, 31, and 9 of June
    assert read_moment(found.close.latest).days < read_moment("2026-06-09").days


@pytest.mark.parametrize("today", ["", "2026-03-09", "2031-01-01"])
def test_without_a_range_nothing_is_past(today: str) -> None:
    # independent: two visits give no date
    found = answer(corner(2))
    assert found.close.latest == ""
    assert found.past_it(today) == ""
