"""What is dated after today opens nothing: it is said, and what rests on it stays open.

Labels: independent where a day is counted on the calendar or two answers are held against each other.
"""

from __future__ import annotations

from typing import Any

import pytest

from tests.wood.cast import answer, changed, corner
from tests.wood.test_gate_and_shrink import lately, ready
from undertile.findings import Severity
from undertile.wood.clock import Clock
from undertile.wood.result import WoodResult

TODAY = Clock("2026-03-25")
FAR = "2031-03-04"


def asked(facts: dict[str, Any], clock: Clock = TODAY) -> WoodResult:
    return answer(lately(facts), walls=("L", "B"), clock=clock)


def test_a_day_by_today_opens_as_it_did() -> None:
    # independent: every day of it is before the 25th, by the calendar
    assert asked(ready()).gate.open
    assert asked(ready(), Clock()).gate.open


@pytest.mark.parametrize(
    ("change", "where"),
    [
        ({"visits__2__when": FAR}, "visit 2"),
        ({"cover__inspected": FAR}, "inspection"),
        ({"cover__photos__wall L": FAR}, "photo, wall L"),
        ({"leak__pours__q__when": FAR}, "water down the drain, q"),
        ({"leak__mended": {"pan": {"when": FAR, "what": "new liner"}}}, "mended, the pan or liner"),
    ],
)
def test_what_is_dated_after_today_opens_nothing(change: dict[str, Any], where: str) -> None:
    """independent: the same facts open the gate with the day they had (the test above)."""
    found = asked(changed(ready(), **change))
    assert not found.gate.open
    (said,) = [each for each in found.findings if each.code == "day-ahead"]
    assert said.where.startswith(where)
    assert (said.severity, said.expected, said.found) == (
        Severity.ACT,
        "a day not after today, 2026-03-25",
        FAR,
    )
    (lacks,) = [each for each in found.gate.missing if each.kind == "day"]
    assert lacks.where == said.where
    assert FAR in lacks.what
    assert "2026-03-25" in lacks.what
    assert "clock" in lacks.next_step
    # one line for one day: that it is far from the others is not said as well
    assert not [each for each in found.findings if each.code == "day-far-off"]


def test_a_place_read_on_it_is_not_dry_and_has_no_date() -> None:
    """independent: with the day that was meant the same readings are dry, or have a date."""
    found = asked(changed(ready(), visits__2__when=FAR))
    assert {each.call for each in found.points} == {"not shown"}
    assert all(FAR in each.why for each in found.points)
    assert found.again == ""
    drying, late = corner(3), changed(corner(3), visits__3__when=FAR)
    assert any(each.call == "dry on" for each in asked(drying).points)
    wet = asked(late)
    assert not any(
        each.call == "dry on" or each.forecast.latest for each in wet.points if each.call != "no date"
    )
    assert wet.close.latest == ""


def test_what_it_shows_wet_stays_wet() -> None:
    """independent: a slip of the day makes no wood dry: the extent is the one without a clock."""
    late = changed(corner(3), visits__3__when=FAR)
    assert asked(late).cut_words == asked(late, Clock()).cut_words
    rotten = changed(late, points__plate_B_16__awl={"3": '3/4"'})
    point = asked(rotten).point("plate-B-16")
    assert point is not None
    assert point.call == "cut out"


def test_a_test_that_finds_a_leak_finds_it_whatever_its_day() -> None:
    """independent: what excludes may be a slip; water that showed did show."""
    wet = changed(ready(), leak__pours__q={"when": FAR, "gallons": 5, "minutes": 15, "below": "wet"})
    (drain,) = [each for each in asked(wet).source.stands if each.candidate == "drain"]
    assert drain.standing == "found"
    dry = changed(ready(), leak__pours__q__when=FAR)
    (drain,) = [each for each in asked(dry).source.stands if each.candidate == "drain"]
    assert drain.standing == "open"


@pytest.mark.parametrize(
    ("today", "opens"),
    # independent: the photos are of the 20th, the inspection of the 21st
    [("2026-03-21", True), ("2026-03-20", True), ("2026-03-19", False)],
)
def test_one_day_is_left_for_clocks_and_zones(today: str, opens: bool) -> None:
    assert asked(ready(), Clock(today)).gate.open is opens


def test_without_a_clock_the_newest_entry_is_what_days_are_held_against() -> None:
    late = changed(ready(), cover__inspected=FAR)
    assert asked(late, Clock()).gate.open  # nothing is known of today: the note about days far apart stays
    assert [each.code for each in asked(late, Clock()).findings if each.code.startswith("day-")] == [
        "day-far-off"
    ]
    found = asked(late, Clock(entered="2026-03-25"))
    assert not found.gate.open
    (said,) = [each for each in found.findings if each.code == "day-ahead"]
    assert said.expected == "a day not after the newest entry, 2026-03-25"


def test_a_clock_wrong_by_years_is_named_in_one_line_and_not_each_day() -> None:
    """independent: the record's newest entry is seven years after what the clock says."""
    wrong = Clock("2019-03-04", "2026-03-25")
    found = asked(ready(), wrong)
    said = [each for each in found.findings if each.code in ("clock-behind", "day-ahead")]
    assert [(each.code, each.severity) for each in said] == [("clock-behind", Severity.ACT)]
    assert said[0].found == "it says 2019-03-04; the job has entries of 2026-03-25"
    assert [each.where for each in found.gate.missing] == ["this device's clock"]
    # a day that the clock does not explain is still its own
    both = asked(changed(ready(), cover__inspected=FAR), wrong)
    assert [each.where for each in both.gate.missing] == ["this device's clock", "inspection"]


def test_one_device_that_ran_ahead_shuts_nothing_for_ever() -> None:
    """independent: nothing is dated after today; that an entry's clock ran ahead is only noted."""
    found = asked(ready(), Clock("2026-03-25", "2031-01-01"))
    assert found.gate.open
    assert [each.severity for each in found.findings if each.code == "clock-behind"] == [Severity.NOTE]


def test_equipment_runs_to_the_last_day_that_has_come() -> None:
    # independent: from the 2nd at noon to visit 1 of the 2nd at 16:00, and not to 2031
    typed = changed(
        corner(2), visits__2__when=FAR, equipment={"a": {"what": "air mover", "on": "2026-03-02"}}
    )
    (days,) = asked(typed).equipment_days.values()
    assert days == pytest.approx(4 / 24)


@pytest.mark.parametrize("out", ["2031-02-01", "2026-03-28"])
def test_a_cut_out_day_after_today_takes_nothing_out(out: str) -> None:
    # independent: as it is without that day
    plain, odd = asked(corner(3)), asked(changed(corner(3), points__plate_B_16__out=out))
    assert odd.point("plate-B-16") == plain.point("plate-B-16")
    assert odd.gate == plain.gate
    assert [each.code for each in odd.findings].count("out-day-odd") == 1


def test_a_visit_only_planned_keeps_nothing_shut() -> None:
    """independent: nothing was read on it, so nothing rests on it; its day is asked about all the same."""
    planned = changed(ready(), visits__3={"when": "2026-04-02"})
    found = asked(planned)
    assert found.gate.open
    assert [each.where for each in found.findings if each.code == "day-ahead"] == ["visit 3"]
