"""Framing figures in words."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from undertile.framing.say import code_place, place, rule_length, said
from undertile.lengths import MM, Rounding, Unit, parse_length

F = Fraction


@pytest.mark.parametrize(
    ("value", "unit", "rounding", "text"),
    [
        (F(3, 16), "in", "nearest", '3/16"'),  # independent: a rule shows it
        (
            F(41, 200),
            "in",
            "nearest",
            'about 7/32"',
        ),  # independent: 0.205 is nearer 7/32 (0.219) than 3/16 (0.1875)
        (F(1, 100), "in", "up", '1/32" (rounded up)'),
        (F(99, 1000), "in", "down", '3/32" (rounded down)'),  # independent: 3/32 = 0.094
        (12 * MM, "mm", "nearest", "12 mm"),
        (F(1, 16), "mm", "nearest", "about 1.5 mm"),  # independent: 1.5875 mm
    ],
)
def test_exact_where_a_rule_shows_it_else_rounded_and_said_so(
    value: Fraction, unit: Unit, rounding: Rounding, text: str
) -> None:
    assert said(value, unit, rounding) == text


@given(st.integers(-640, 640))
def test_every_sixty_fourth_reads_back_exactly(n: int) -> None:
    assert parse_length(said(F(n, 64), signed=False)).inches == F(n, 64)


@given(st.fractions(-2, 2, max_denominator=999))
def test_no_decimal_inch_is_ever_said(value: Fraction) -> None:
    for text in (said(value), place(abs(value))):
        assert "." not in text or text.endswith(" mm")  # a place on a tenth of a mm was typed in mm


def test_a_place_has_no_mark_and_a_code_no_space() -> None:
    assert place(F(9, 2)) == code_place(F(9, 2)) == "4-1/2"
    assert place(1203 * MM, "mm") == "1203 mm"
    assert code_place(1203 * MM) == "1203mm", "a code is the same whatever unit is printed"


def test_a_height_typed_in_mm_is_not_rounded_to_a_rule_in_inches() -> None:
    # independent: 850 mm is 33.46 in, between 33-29/64 and 33-30/64
    assert place(850 * MM) == "850 mm"
    assert place(F(18)) == "18"
    assert place(F(1, 3)) == "21/64"  # exact in neither: to the nearest mark


def test_a_published_length_in_inches_is_said_in_whole_mm() -> None:
    # published: ANSI A108.02: 12 in and 10 ft; independent: 304.8, 3048, 2438.4 mm
    assert [rule_length(F(n), "mm") for n in (12, 120, 96)] == ["305 mm", "3048 mm", "2438 mm"]
    assert rule_length(F(24)) == '24"'
