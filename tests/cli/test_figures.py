"""Figures as they print: never a decimal inch, rounding always said."""

from __future__ import annotations

import re
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from undertile.cli.figures import clock, dollars, exact, minutes, odds
from undertile.framing.say import written as amount
from undertile.lengths import MM, parse_length

inches = st.fractions(min_value=-100, max_value=100, max_denominator=10**6)


def test_an_amount_on_the_rule_prints_as_it_is() -> None:
    # independent: by hand
    assert amount(Fraction(-3, 16), "in", signed=True) == "-3/16"
    assert amount(Fraction(5, 32), "in", signed=True, mark=True) == '+5/32"'
    assert amount(MM * 9 / 2, "mm", signed=True) == "+4.5"


def test_an_amount_off_the_rule_says_so() -> None:
    # independent: 5.2 mm is 0.2047 in, between 6/32 and 7/32, nearer 7/32
    assert amount(Fraction(26, 127), "in", signed=True) == "~+7/32"
    # independent: 7/32 in is 5.55625 mm, nearest half 5.5
    assert amount(Fraction(7, 32), "mm", signed=True) == "~+5.5"


@given(inches)
def test_no_figure_is_a_decimal_inch(value: Fraction) -> None:
    assert "." not in amount(value, "in", signed=True, mark=True)
    assert not re.search(r"\.\d+\s*(?:in|\")", exact(value, "in"))


@given(st.integers(-(10**5), 10**5), st.sampled_from([16, 64]))
def test_exact_text_reads_back(parts: int, under: int) -> None:
    value = Fraction(parts, under)
    assert parse_length(exact(value, "in")).inches == value  # independent: the reader of lengths
    assert parse_length(exact(value, "mm")).inches == value


def test_exact_text_of_what_no_rule_shows_is_a_plain_fraction() -> None:
    assert exact(Fraction(1, 3), "in") == "1/3 in"  # independent: neither 2**k parts nor a finite mm


@pytest.mark.parametrize(
    ("value", "text"),
    # independent: by hand
    [(Fraction(43), "43"), (Fraction(43, 2), "21-1/2"), (Fraction(0), "0"), (Fraction(1, 3), "~0.3")],
)
def test_minutes_print_as_people_say_them(value: Fraction, text: str) -> None:
    assert minutes(value) == text


def test_hours_go_up_to_the_next_minute_and_dollars_to_the_nearest_cent() -> None:
    # independent: by hand
    assert clock(Fraction(115)) == "1 h 55 min"
    assert clock(Fraction(119, 2)) == "1 h 00 min"
    assert clock(Fraction(43)) == "43 min"
    assert dollars(Fraction(2297, 12)) == "$191.42"
    assert dollars(Fraction(123456789, 1000)) == "$123,456.79"


def test_odds_are_never_certain() -> None:
    assert odds(0.9999) == "99 in 100"  # independent: 100 would be certainty
    assert odds(0.0) == "1 in 100"
    assert odds(0.52) == "52 in 100"
