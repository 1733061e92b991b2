"""Framing figures in words."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from undertile.framing.say import place, said
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
    assert "." not in said(value)
    assert "." not in place(abs(value))


def test_a_place_has_no_mark_and_no_space() -> None:
    assert place(F(9, 2)) == "4-1/2"
    assert place(1203 * MM, "mm") == "1203mm"
