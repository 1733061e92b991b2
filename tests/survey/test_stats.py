"""The two distributions against printed tables and identities."""

from __future__ import annotations

from math import exp

import pytest

from undertile.survey.stats import chi_square_limit, chi_square_tail, normal_cdf, two_sided


@pytest.mark.parametrize(
    ("alpha", "freedom", "printed"),
    # published: Abramowitz and Stegun, table 26.8 (three decimals, as printed in any handbook)
    [
        (0.05, 1, 3.841),
        (0.01, 1, 6.635),
        (0.05, 5, 11.070),
        (0.95, 10, 3.940),
        (0.01, 10, 23.209),
        (0.001, 10, 29.588),
        (0.05, 30, 43.773),
        (0.5, 30, 29.336),
        (0.01, 60, 88.379),
        (0.005, 100, 140.169),
    ],
)
def test_chi_square_limits_are_those_of_the_table(alpha: float, freedom: int, printed: float) -> None:
    assert chi_square_limit(alpha, freedom) == pytest.approx(printed, abs=6e-4)
    assert chi_square_tail(chi_square_limit(alpha, freedom), freedom) == pytest.approx(alpha, rel=1e-6)


@pytest.mark.parametrize("x", [0.01, 0.5, 2.0, 7.0, 30.0, 200.0])
def test_even_degrees_of_freedom_are_a_poisson_sum(x: float) -> None:
    # independent: for 2n degrees of freedom the tail is the chance of fewer than n Poisson(x / 2) events
    for n in (1, 2, 5, 20):
        term = total = exp(-x / 2)
        for k in range(1, n):
            term *= x / 2 / k
            total += term
        assert chi_square_tail(x, 2 * n) == pytest.approx(total, rel=1e-10, abs=1e-14)


def test_one_degree_of_freedom_is_a_squared_normal() -> None:
    # independent: P(z^2 > x) = 2 (1 - cdf(sqrt x))
    for z in (0.1, 1.0, 1.96, 3.0):
        assert chi_square_tail(z * z, 1) == pytest.approx(2 * (1 - normal_cdf(z)), rel=1e-9)


def test_nothing_exceeds_nothing() -> None:
    # independent: a sum of squares is never below 0
    assert chi_square_tail(0.0, 3) == 1.0
    assert chi_square_tail(-1.0, 3) == 1.0


def test_two_sided_critical_values_are_those_of_the_table() -> None:
    # published: any normal table
    assert two_sided(0.05) == pytest.approx(1.95996, abs=5e-6)
    assert two_sided(0.001) == pytest.approx(3.29053, abs=5e-6)
