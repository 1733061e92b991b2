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


def test_days_gone_by_ask_to_read_it_now_and_not_to_wait() -> None:
    """independent: on the range's last day it may still be waited for; the day after it may not."""
    from undertile.packet.told import told as spanish
    from undertile.packet.words import Words
    from undertile.wood.clock import Clock
    from undertile.wood.typed import day_text

    facts = corner(5)
    facts["points"]["plate-B-16"]["shown"] = {"1": "20", "2": "18", "3": "17", "4": "15.6", "5": "14.8"}
    name = "plate-B-16"
    bare = answer(facts).point(name)
    assert bare is not None
    assert bare.call == "dry on"
    last = bare.forecast.latest
    on_time = answer(facts, clock=Clock(today=last)).point(name)
    assert on_time is not None
    assert (on_time.next_step, on_time.why) == (bare.next_step, bare.why)
    clock = Clock(today=day_text(read_moment(last).days + 1))
    late = answer(facts, clock=clock).point(name)
    assert late is not None
    assert late.call == "dry on"
    assert late.next_step.startswith("Read it now: it may be closed once it reads dry")
    assert "between" not in late.next_step
    assert "days" not in late.why
    assert any(each.next_step == late.next_step for each in answer(facts, clock=clock).gate.missing)
    assert spanish(late.next_step, Words("es")).startswith("Léalo ahora")
