"""Days, temperatures and what the meter shows, as they are typed."""

from __future__ import annotations

import datetime

import pytest
from hypothesis import given
from hypothesis import strategies as st

from undertile.errors import BoundError
from undertile.wood.typed import day_text, read_fahrenheit, read_moment, read_shown


@given(st.dates())
def test_days_are_counted_as_the_standard_calendar_counts_them(day: datetime.date) -> None:
    # independent: the standard library's proleptic Gregorian calendar
    found = read_moment(day.isoformat())
    assert found.days - read_moment("2000-01-01").days == day.toordinal() - 730120
    assert day_text(found.days) == day.isoformat()
    assert not found.hour


def test_an_hour_is_a_part_of_its_day() -> None:
    assert read_moment("2026-03-04 18:00").days - read_moment("2026-03-04 6:00").days == pytest.approx(0.5)


@pytest.mark.parametrize(
    "text",
    ["2026-02-29", "2026-13-01", "2026-00-10", "2026-04-31", "March 4", "04/03/26", "2026-03-04 25:00"],
)
def test_a_day_no_calendar_has_is_refused_in_one_line(text: str) -> None:
    with pytest.raises(BoundError, match="expected"):
        read_moment(text)


@pytest.mark.parametrize(
    ("text", "f"), [("68 F", 68), ("20 C", 68), ("-5C", 23), ("70.5f", 70.5), ("0 C", 32)]
)
def test_temperatures(text: str, f: float) -> None:
    assert read_fahrenheit(text) == pytest.approx(f)


@pytest.mark.parametrize("text", ["68", "warm", "68 K", "1000 F", ""])
def test_a_temperature_without_its_letter_is_none(text: str) -> None:
    with pytest.raises(BoundError):
        read_fahrenheit(text)


def test_the_largest_of_several_holes_counts() -> None:
    found = read_shown("18.5 21 19")
    assert (found.state, found.worst) == ("number", 21)
    assert read_shown("18,5").values == (18.5,)


@pytest.mark.parametrize(
    ("text", "state"),
    [("", "not measured"), ("x", "cannot reach"), ("over", "over"), ("Under", "under"), ("7", "number")],
)
def test_states(text: str, state: str) -> None:
    assert read_shown(text).state == state


@pytest.mark.parametrize("text", ["wet", "18..5", "-3", "1 2 3 4 5 6 7", "1e3", "18%"])
def test_what_is_no_reading_is_refused(text: str) -> None:
    with pytest.raises(BoundError):
        read_shown(text)
