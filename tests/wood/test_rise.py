"""A rise over months that meter and season account for is no water; one that they do not is.

Labels: published (Wood Handbook table 4-2: 70 F at 40 percent 7.7, at 65 percent 12.0), independent (hand).
"""

from __future__ import annotations

from typing import Any

import pytest

from tests.wood.cast import answer, changed
from tests.wood.test_gate_and_shrink import ready

LATER = "2026-11-04 08:00"
"""Independent: 245 days after visit 2 of 2026-03-04, by the calendar."""


def later(value: str, when: str = LATER, **visit: Any) -> dict[str, Any]:
    """Everything dry, one place read again on a third visit; it read 10.5 on the second."""
    facts = changed(ready(), visits__3={"when": when, "air": "70 F", "humidity": 40, "wood": "68 F"} | visit)
    facts["points"]["plate-B-4"]["shown"] = {"1": "11", "2": "10.5", "3": value}
    return facts


def call(facts: dict[str, Any]) -> tuple[str, bool]:
    point = answer(facts, walls=("L", "B")).point("plate-B-4")
    assert point is not None
    return point.call, point.running


@pytest.mark.parametrize(
    ("value", "when", "visit", "says"),
    [
        # independent: 0.6 is under the 2 that the meter may be off; 11.1 is under 12.0, what the air makes
        ("11.1", LATER, {"humidity": 65}, ("not shown", False)),
        ("11.1", LATER, {"air": "", "humidity": None}, ("not shown", False)),
        # the season: 12.0 less 7.7 is 4.3, with the meter's 2 it is 6.3, and 12.9 is 2.4 up
        ("12.9", LATER, {"humidity": 65}, ("not shown", False)),
        # as much in the air of before is water
        ("12.9", LATER, {}, ("no date", True)),
        # wetter than 7.7 + 0.5 + 2 = 10.2: the room's air does not make it so
        ("11.1", LATER, {}, ("no date", False)),
        # within days the same holes show the same
        ("11.1", "2026-03-07 08:00", {"humidity": 65}, ("no date", False)),
        ("12.0", "2026-03-07 08:00", {"humidity": 65}, ("no date", True)),
        # no rise at all
        ("10.9", LATER, {}, ("close", False)),
    ],
)
def test_what_a_rise_says(value: str, when: str, visit: dict[str, Any], says: tuple[str, bool]) -> None:
    assert call(later(value, when, **visit)) == says


def test_it_is_said_with_its_days_and_read_again_a_day_later_it_closes() -> None:
    facts = later("11.1", humidity=65)
    found = answer(facts, walls=("L", "B"))
    point = found.point("plate-B-4")
    assert point is not None
    assert "+0.6" in point.why
    assert "245 days before" in point.why
    assert point.next_step.startswith("Read it again a day later")
    assert not found.gate.open
    again = changed(
        facts, visits__4={"when": "2026-11-06 08:00", "air": "70 F", "humidity": 65, "wood": "68 F"}
    )
    again["points"]["plate-B-4"]["shown"]["4"] = "11.2"
    assert call(again) == ("close", False)
