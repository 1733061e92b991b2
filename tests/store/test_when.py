"""Which entry is newest by the clocks, whatever their offsets and in whatever order they came."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta, timezone

import pytest
from hypothesis import given
from hypothesis import strategies as st

from undertile.store.when import instant, newest


@pytest.mark.parametrize(
    ("times", "best"),
    [
        ([], ""),
        (["no time", ""], ""),
        (["2026-11-30T23:30:00-08:00", "2026-12-01T05:00:00+00:00"], "2026-11-30T23:30:00-08:00"),
        (["2026-11-30T08:00Z", "zz", "2026-11-30T08:30:00.123+00:00"], "2026-11-30T08:30:00.123+00:00"),
        (["9999-12-31T23:59:59-12:00", "2026-11-30T08:00Z"], "2026-11-30T08:00Z"),
        (["2026-99-99T00:00Z", "1970-01-01T00:00Z"], "1970-01-01T00:00Z"),
    ],
)
def test_by_hand(times: list[str], best: str) -> None:
    """independent: counted on the clock; 23:30 eight hours west of UTC is 7:30 of the next day there."""
    assert newest(times) == best
    assert newest(reversed(times)) == best


@given(
    st.lists(
        st.datetimes(datetime(1990, 1, 1), datetime(2060, 1, 1)).flatmap(
            lambda at: st.integers(-14 * 60, 14 * 60).map(
                lambda minutes: at.replace(tzinfo=timezone(timedelta(minutes=minutes))).isoformat()
            )
        ),
        min_size=1,
        max_size=30,
    )
)
def test_the_newest_is_the_last_instant(times: list[str]) -> None:
    """independent: every one looked at, by the standard library alone."""
    found = instant(newest(times))
    assert found == max(datetime.fromisoformat(each).astimezone(UTC) for each in times)
