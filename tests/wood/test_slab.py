"""The slab: series against short-time form, against finite differences, and the worked examples."""

from __future__ import annotations

from math import exp, pi, sqrt

import pytest

from undertile.wood.slab import (
    board_days,
    days_to,
    left_at,
    left_at_short,
    mean_left,
    mean_left_short,
    slowest_days,
)


@pytest.mark.parametrize(
    ("fourier", "series", "short"),
    # independent: both forms summed by hand to six places
    [
        (0.005, 0.840423, 0.840423),
        (0.01, 0.774324, 0.774324),
        (0.02, 0.680846, 0.680846),
        (0.05, 0.495912, 0.495373),
        (0.10, 0.302118, 0.286350),
    ],
)
def test_series_and_short_form(fourier: float, series: float, short: float) -> None:
    assert mean_left(fourier) == pytest.approx(series, abs=6e-7)
    assert mean_left_short(fourier) == pytest.approx(short, abs=6e-7)


def test_the_two_forms_are_one_while_the_middle_is_still_wet() -> None:
    # independent: two solutions of one equation
    for fourier in (2e-4, 1e-3, 5e-3, 0.01, 0.02):
        assert mean_left(fourier) == pytest.approx(mean_left_short(fourier), abs=2e-6)
        for place in (0.05, 0.1, 0.2):
            short = left_at_short(place / (2 * sqrt(fourier)))
            assert left_at(place, fourier) == pytest.approx(short, abs=1e-4)


def test_the_series_is_what_finite_differences_give() -> None:
    # independent: 200 slices stepped in time
    slices, fourier = 200, 0.08
    step = 0.4 / slices**2
    wet = [1.0] * (slices + 1)
    wet[0] = wet[-1] = 0.0
    for _ in range(round(fourier / step)):
        wet = [
            0.0,
            *(wet[i] + 0.4 * (wet[i - 1] - 2 * wet[i] + wet[i + 1]) for i in range(1, slices)),
            0.0,
        ]
    for at in (20, 42, 100):
        assert left_at(at / slices, fourier) == pytest.approx(wet[at], abs=5e-4)
    assert mean_left(fourier) == pytest.approx(sum(wet) / slices, abs=2e-3)


def test_in_the_end_it_is_an_exponential() -> None:
    # independent: one term; its constant is L^2 / (pi^2 D)
    assert mean_left(0.4) / mean_left(0.3) == pytest.approx(exp(-pi * pi * 0.1), rel=1e-6)


@pytest.mark.parametrize(
    ("inches", "both", "one"),
    # independent: worked by hand for 1e-10 m2/s
    [
        (1.5, 17.0, 68.0),
        (0.75, 4.26, 17.0),
        (23 / 32, 3.91, 15.6),
        (19 / 32, 2.67, 10.7),
        (7 / 16, 1.45, 5.8),
    ],
)
def test_a_sealed_face_makes_it_four_times_as_slow(inches: float, both: float, one: float) -> None:
    assert slowest_days(inches * 0.0254, 1e-10) == pytest.approx(both, rel=0.005)
    assert slowest_days(inches * 0.0254, 1e-10, 1) == pytest.approx(one, rel=0.005)


def test_the_worked_example_of_the_board_formula() -> None:
    # published: a public worksheet for red oak: at 150 F (191.819 mm Hg) an inch board from 85 to 25 in
    # air of 8 takes 4.58 days (the figure from memory)
    tau = board_days(1, 191.819)
    assert tau == pytest.approx(3.031, abs=5e-4)
    assert days_to(85, 25, 8, tau) == pytest.approx(4.58, abs=5e-3)
    assert board_days(1, 18.715) == pytest.approx(11.89, abs=6e-3)


@pytest.mark.parametrize(
    ("start", "goal", "plateau", "tau", "days"),
    # independent: by hand
    [(28, 15, 9, 4, 4.611), (28, 19, 9, 4, 2.567), (30, 12, 8, 6, 10.228)],
)
def test_days_to_a_goal(start: float, goal: float, plateau: float, tau: float, days: float) -> None:
    assert days_to(start, goal, plateau, tau) == pytest.approx(days, abs=6e-4)


def test_no_days_where_the_plateau_lies_above() -> None:
    assert days_to(28, 15, 15, 4) is None
    assert days_to(14, 15, 18, 4) == 0
