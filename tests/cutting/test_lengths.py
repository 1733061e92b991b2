"""How long a strip is, and where one longer than its stock is butted."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from undertile.cutting.lengths import MM, Reach, as_cut, parts_of, place_of

F = Fraction
HEIGHTS = (F(2), F(18), F(36), F(54), F(72), F(90))
REACH = Reach(HEIGHTS, F(189, 2), F(4))


@pytest.mark.parametrize(
    ("first", "last", "low", "high"),
    [
        (0, 5, F(3, 2), F(189, 2)),  # independent: plate to plate
        (2, 3, F(27), F(63)),  # independent: halfway 18-36 and 54-72
        (1, 1, F(10), F(27)),  # independent: halfway 2-18 and 18-36
        (5, 5, F(81), F(189, 2)),
        (0, 0, F(3, 2), F(10)),
    ],
)
def test_a_strip_reaches_halfway_to_the_next_height(
    first: int, last: int, low: Fraction, high: Fraction
) -> None:
    assert place_of(REACH, first, last) == (low, high)


def test_a_strip_from_above_stays_out_of_the_flange_zone() -> None:
    tall = Reach(HEIGHTS, F(189, 2), F(12))
    assert place_of(tall, 1, 5)[0] == 12  # independent: halfway is 10, the flange ends at 12
    assert place_of(tall, 0, 5)[0] == F(3, 2)  # one that starts in it goes down to the plate


def test_card_keeps_six_inches_above_the_flange() -> None:
    reach = Reach(HEIGHTS, F(189, 2), F(6))
    assert place_of(reach, 1, 5)[0] == 10
    assert place_of(reach, 1, 5, card=True)[0] == 12  # published: convention 4.3, flange + 6


def test_without_a_top_plate_a_strip_ends_at_the_highest_height_read() -> None:
    assert place_of(Reach(HEIGHTS), 0, 5) == (F(3, 2), F(90))


def test_a_wall_read_below_its_plate_starts_there() -> None:
    assert place_of(Reach((F(0), F(40))), 0, 1) == (F(0), F(40))


def test_neighbours_on_one_stud_butt() -> None:
    for split in range(5):
        assert place_of(REACH, 0, split)[1] == place_of(REACH, split + 1, 5)[0]


def test_lengths_are_rounded_down_to_a_mark() -> None:
    assert as_cut(F(1001, 32), "in") == F(500, 16)
    assert as_cut(F(500, 16), "in") == F(500, 16)
    assert as_cut(F(10), "mm") == 254 * MM  # independent: 10 in = 254 mm


def test_a_joined_strip_is_cut_from_the_bottom_in_full_lengths() -> None:
    assert parts_of(F(93), F(96), "in") == [93]
    assert parts_of(F(96), F(96), "in") == [96]
    assert parts_of(F(130), F(96), "in") == [96, 34]
    assert parts_of(F(130), F(96), "in", from_top=True) == [34, 96]
    assert parts_of(F(193, 2), F(96), "in") == [F(169, 2), 12]  # independent: 96-1/2 less 12
    assert parts_of(F(21), F(16), "in") == [F(21, 2), F(21, 2)]  # too short for 12 in twice
    assert parts_of(F(190), F(45), "in") == [45, 45, 45, 43, 12]  # independent: 190 = 135 + 55, 55 - 12


@given(st.integers(1, 4000), st.integers(16, 2000), st.booleans())
def test_parts_are_the_strip(length: int, longest: int, from_top: bool) -> None:
    parts = parts_of(F(length, 16), F(longest, 16), "in", from_top=from_top)
    assert sum(parts) == F(length, 16)
    assert all(0 < part <= F(longest, 16) and (part * 16).denominator == 1 for part in parts)
    assert len(parts) == -(-length // longest)  # independent: no more parts than there must be


@given(
    st.lists(st.integers(1, 1600), min_size=1, max_size=7, unique=True),
    st.integers(0, 6),
    st.integers(0, 6),
    st.booleans(),
)
def test_a_strip_covers_its_heights_and_no_other(
    sixteenths: list[int], one: int, two: int, card: bool
) -> None:
    heights = tuple(F(z, 16) for z in sorted(sixteenths))
    first, last = sorted((one % len(heights), two % len(heights)))
    low, high = place_of(Reach(heights), first, last, card=card)
    assert [low <= z <= high for z in heights] == [first <= i <= last for i in range(len(heights))]
