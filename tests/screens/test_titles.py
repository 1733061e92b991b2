"""What English tells apart Spanish tells apart: rows of the lists of checks."""

from __future__ import annotations

import re
from fractions import Fraction
from pathlib import Path

import pytest

from undertile.job import plan, read_job
from undertile.screens.words import Says

EXAMPLES = Path(__file__).resolve().parents[2] / "examples"


@pytest.mark.parametrize("name", ["wet-corner", "hand"])
def test_checks_that_english_tells_apart_are_told_apart_in_spanish(name: str) -> None:
    """independent: two rows of one place with two English titles have two Spanish ones."""
    made = plan(read_job(EXAMPLES / f"{name}.toml")).results
    checks = [check for key in ("framing", "pan") for check in getattr(made.get(key), "checks", ())]
    english, spanish = Says(), Says("es")
    titles = {(each.where, english.check(each)["title"]) for each in checks}
    said = {(each.where, spanish.check(each)["title"]) for each in checks}
    assert len(titles) == len(said) > 20


@pytest.mark.parametrize(
    ("dear", "cheap", "more"),
    [
        (Fraction(35322, 100) + Fraction(4, 1000), Fraction(19143, 100) - Fraction(4, 1000), "$161.79"),
        (Fraction(3545, 1000), Fraction(1234, 1000), "$2.32"),  # 3.55 less 1.23; 2.311 by itself
        (Fraction(1004, 1000), Fraction(1), "$0.00"),
        (Fraction(1), Fraction(2), "-$1.00"),
    ],
)
def test_what_is_more_is_the_difference_of_what_is_printed(
    dear: Fraction, cheap: Fraction, more: str
) -> None:
    """independent, by hand: both amounts to the cent, then subtracted."""
    says = Says()
    assert says.dollars_more(dear, cheap) == more
    printed = [int(says.dollars(each).replace("$", "").replace(".", "")) for each in (dear, cheap)]
    assert abs(printed[0] - printed[1]) == int(re.sub(r"\D", "", more))
