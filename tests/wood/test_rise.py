"""A rise over months that meter and season account for is no water; one that they do not is.

Labels: published (Wood Handbook table 4-2: 70 F at 40 percent 7.7, at 65 percent 12.0), independent (hand).
"""

from __future__ import annotations

from types import SimpleNamespace
from typing import Any, cast

import pytest

from tests.wood.cast import answer, changed
from tests.wood.test_gate_and_shrink import ready
from undertile.wood.history import Sample
from undertile.wood.rise import tells

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


# At the limits, each by hand: 30 days, the meter's 2, the season, and 1/2 over what the air makes --------


def sample(day: float, value: float, air: float | None, off: float = 2.0) -> Sample:
    """As ``tells`` reads one: its day, its value, what the room's air makes of wood, the meter's error."""
    told = SimpleNamespace(
        day=day,
        value=value,
        round=SimpleNamespace(equilibrium=air),
        corrected=SimpleNamespace(give_or_take=off),
    )
    return cast(Sample, told)


@pytest.mark.parametrize(
    ("when", "says"),
    [
        # independent: visit 2 was on 2026-03-04 08:00; March has 31 days
        ("2026-04-03 07:00", ("no date", False)),  # 29 days and 23 hours: the same holes show the same
        ("2026-04-03 08:00", ("not shown", False)),  # 30 days
        ("2026-04-03 09:00", ("not shown", False)),
    ],
)
def test_the_rule_changes_at_thirty_days(when: str, says: tuple[str, bool]) -> None:
    assert call(later("11.1", when, humidity=65)) == says


@pytest.mark.parametrize(("days", "told"), [(29.99, True), (30.0, False), (30.01, False)])
def test_thirty_days_are_counted_to_the_hour(days: float, told: bool) -> None:
    assert tells(sample(0.0, 10.0, 12.0), sample(days, 10.5, 12.0)) is told


@pytest.mark.parametrize(
    ("rise", "air", "told"),
    [
        # independent: the air the same, only the meter's 2 is allowed for; all of it is under the air's
        (2.0, (12.0, 12.0), False),
        (2.01, (12.0, 12.0), True),
        # the season's 3 more
        (5.0, (9.0, 12.0), False),
        (5.01, (9.0, 12.0), True),
        # air that got drier, or was read once, adds nothing
        (2.01, (12.0, 11.0), True),
        (2.0, (None, 12.0), False),
        (2.01, (None, 12.0), True),
    ],
)
def test_a_rise_is_held_against_meter_and_season(
    rise: float, air: tuple[float | None, float], told: bool
) -> None:
    assert tells(sample(0.0, 7.0, air[0]), sample(60.0, 7.0 + rise, air[1])) is told


@pytest.mark.parametrize(
    ("value", "off", "told"),
    [
        # independent: air that makes 8, half over it for what a table of equilibrium leaves, and the error
        (10.5, 2.0, False),
        (10.51, 2.0, True),
        (11.5, 3.0, False),
        (11.51, 3.0, True),
    ],
)
def test_wood_is_wetter_than_its_air_by_more_than_a_half_and_the_error(
    value: float, off: float, told: bool
) -> None:
    assert tells(sample(0.0, 9.6, 8.0, off), sample(60.0, value, 8.0, off)) is told
    assert tells(sample(0.0, 9.6, None, off), sample(60.0, value, None, off)) is False, "air nobody read"


def test_the_less_certain_of_the_two_readings_counts() -> None:
    assert tells(sample(0.0, 7.0, 12.0, 3.0), sample(60.0, 10.0, 12.0, 2.0)) is False
    assert tells(sample(0.0, 7.0, 12.0, 2.0), sample(60.0, 10.0, 12.0, 2.0)) is True
