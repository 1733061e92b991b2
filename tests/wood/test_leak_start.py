"""A test's day is that of its start; how long it takes, and how hard pipes are pressed.

independent: days counted on the calendar, each case one value away from one that tells; limits are ours or
common practice (docs/methods/leak.md).
"""

from __future__ import annotations

from typing import Any

import pytest

from tests.wood.cast import answer, changed, corner
from tests.wood.test_leak import DIAL, FILL, POUR, PRESSURE, found, standing, told
from undertile.packet.words.sentences import SPANISH
from undertile.wood.clock import Clock
from undertile.wood.facts import Cold, Dial, Fill, NextDoor, Outside, Pour, Pressure, Spray


@pytest.mark.parametrize(
    ("when", "hours", "clock", "out"),
    [
        ("2026-03-04 10:00", 24, Clock("2026-03-04"), False),
        ("2026-03-04 10:00", 24, Clock("2026-03-05"), True),
        ("2026-03-04", 24, Clock("2026-03-04"), False),
        ("2026-03-04", 24, Clock("2026-03-05"), True),
        ("2026-03-04 10:00", 48, Clock("2026-03-05"), False),
        ("2026-03-04 10:00", 24, Clock("2026-03-04", "2026-03-05"), True),  # a device is a day ahead
        ("2026-03-04 10:00", 24, Clock(), True),  # nothing is known of today
    ],
)
def test_a_pan_has_no_result_before_its_hours_are_over(
    when: str, hours: int, clock: Clock, out: bool
) -> None:
    fill = FILL | {"when": when, "hours": hours}
    its = answer(changed(corner(2), leak={"fills": {"f": fill}}), clock=clock)
    assert ("pan" in its.source.of("excluded")) is out
    asked = [each for each in its.findings if each.code == "leak-test-asked"]
    assert bool(asked) is not out
    for each in asked:
        assert {each.expected.form, each.found.form, each.next_step.form} <= set(SPANISH)  # type: ignore[attr-defined]


def test_wet_below_is_found_at_once() -> None:
    fill = FILL | {"when": "2026-03-04 10:00", "below": "wet"}
    its = answer(changed(corner(2), leak={"fills": {"f": fill}}), clock=Clock("2026-03-04"))
    assert its.source.of("found") == ("pan",)


@pytest.mark.parametrize("test", [Cold, Dial, Fill, NextDoor, Outside, Pour, Pressure, Spray])
def test_the_file_says_that_a_test_is_dated_by_its_start(test: Any) -> None:
    assert test.model_fields["when"].description == "when it was begun: a day, better with its hour"


@pytest.mark.parametrize(
    ("leak", "candidate", "stands"),
    [
        ({"fills": {"f": FILL | {"hours": 336}}}, "pan", "excluded"),  # 14 days of 24 hours
        ({"fills": {"f": FILL | {"hours": 337}}}, "pan", "open"),
        ({"fills": {"f": FILL | {"hours": 240000}}}, "pan", "open"),
        ({"fills": {"f": FILL | {"hours": 240000, "below": "wet"}}}, "pan", "found"),
        ({"pours": {"q": POUR | {"minutes": 1440}}}, "drain", "excluded"),
        ({"pours": {"q": POUR | {"minutes": 1441}}}, "drain", "open"),
        ({"dials": {"d": DIAL | {"minutes": 20160}}}, "supply", "excluded"),
        ({"dials": {"d": DIAL | {"minutes": 20161}}}, "supply", "open"),
        ({"pressures": {"p": PRESSURE | {"first": 200, "last": 200, "finest": 2}}}, "supply", "excluded"),
        ({"pressures": {"p": PRESSURE | {"first": 201, "last": 201, "finest": 2}}}, "supply", "open"),
        ({"pressures": {"p": PRESSURE | {"first": 600, "last": 600, "finest": 2}}}, "supply", "open"),
        ({"pressures": {"p": PRESSURE | {"first": 3500, "last": 3500, "finest": 2}}}, "supply", "open"),
        ({"pressures": {"p": PRESSURE | {"of": "supply", "last": -5}}}, "supply", "found"),
    ],
)
def test_longer_or_harder_than_anybody_tests_is_asked_about(
    leak: dict[str, Any], candidate: str, stands: str
) -> None:
    assert standing(leak, candidate) == stands
    asked = told(leak, "leak-test-asked")
    odd = stands == "open" or "240000" in str(leak) or "-5" in str(leak)
    assert bool(asked) is odd
    for each in asked:
        assert {each.expected.form, each.found.form, each.next_step.form} <= set(SPANISH)  # type: ignore[attr-defined]


def test_air_at_such_a_pressure_is_a_stop_as_any_air() -> None:
    """convention 6.3."""
    leak = {"pressures": {"p": PRESSURE | {"medium": "air", "first": 600, "last": 600}}}
    its = answer(changed(corner(1), leak=leak))
    assert [each.code for each in its.findings if each.code == "air-test"] == ["air-test"]
    assert found(leak).of("excluded") == ()
