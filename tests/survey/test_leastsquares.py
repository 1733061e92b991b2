"""The least-squares core against published networks and a general library."""

from __future__ import annotations

import random
from math import sqrt

import numpy as np
import pytest

from tests.survey.networks import (
    HOEPKE,
    HOEPKE_ADJUSTED,
    HOEPKE_START,
    NORRIS,
    levelling,
    trilateration,
)
from undertile.survey.leastsquares import (
    NotDetermined,
    adjust,
    adjust_curved,
    backward,
    cholesky,
    design,
    forward,
    inverse,
)


def test_a_levelling_network_comes_out_as_printed() -> None:
    # published: Ghilani, Adjustment Computations, 5th ed., Ex. 12.6 (also Krumm 2020, 2.1)
    heights, answer = levelling(
        {"1": 437.596},
        (
            ("1", "2", 10.509, 0.006),
            ("1", "3", 15.881, 0.012),
            ("2", "3", 5.360, 0.004),
            ("2", "4", -3.167, 0.004),
            ("3", "4", -8.523, 0.005),
            ("4", "1", -7.348, 0.003),
        ),
    )
    printed = {"2": 448.10871, "3": 453.46847, "4": 444.94361}
    assert heights == pytest.approx(printed, abs=5e-6)
    assert answer.unit_weight == pytest.approx(0.6512, abs=5e-5)
    assert answer.omega == pytest.approx(1.27212, abs=5e-6)
    assert answer.freedom == 3
    millimetres = [1000 * v for v in answer.residuals]
    assert millimetres == pytest.approx([3.71, -8.53, -0.24, 1.89, -1.86, 0.39], abs=5e-3)
    spread = [1000 * answer.unit_weight * sqrt(answer.cofactors[i][i]) for i in range(3)]
    assert spread == pytest.approx([2.30, 2.64, 1.76], abs=5e-3)


def test_a_trilateration_quadrilateral_comes_out_as_printed() -> None:
    # published: Ghilani Ex. 14.5
    points, answer = trilateration(
        {"Badger": (2410000.0, 390000.0), "Bucky": (2411820.0, 386881.222)},
        {"Wisconsin": (2415776.819, 391043.461), "Campus": (2416892.670, 387603.450)},
        (
            ("Badger", "Wisconsin", 5870.302),
            ("Badger", "Campus", 7297.588),
            ("Wisconsin", "Campus", 3616.434),
            ("Wisconsin", "Bucky", 5742.878),
            ("Campus", "Bucky", 5123.760),
        ),
        0.01,
    )
    assert points["Wisconsin"] == pytest.approx((2415776.9044, 391043.2945), abs=6e-5)
    assert points["Campus"] == pytest.approx((2416892.6955, 387603.2551), abs=6e-5)
    assert answer.freedom == 1
    assert answer.unit_weight * 0.01 == pytest.approx(0.1359, abs=6e-5)
    spread = [answer.unit_weight * sqrt(answer.cofactors[i][i]) for i in range(4)]
    assert spread == pytest.approx([0.149, 0.221, 0.104, 0.271], abs=6e-4)


def test_a_square_with_both_diagonals_comes_out_as_published() -> None:
    # published: Benning Ex. 8-2, answers of the corpus keepers of Krumm 2020
    points, answer = trilateration(
        {"1": (0.0, 1000.0), "2": (1000.0, 1000.0)},
        {"3": (0.0, 0.0), "4": (1000.0, 0.0)},
        (
            ("1", "3", 1000.02),
            ("1", "4", 1414.20),
            ("2", "3", 1414.24),
            ("2", "4", 999.98),
            ("3", "4", 1000.00),
        ),
        0.01,
    )
    assert points["3"] == pytest.approx((-0.0096, -0.0226), abs=6e-5)
    assert points["4"] == pytest.approx((999.9930, 0.0174), abs=6e-5)
    assert [1000 * v for v in answer.residuals] == pytest.approx([2.60, -3.68, -3.68, 2.60, 2.60], abs=6e-3)
    assert answer.unit_weight == pytest.approx(0.688, abs=6e-4)
    spread = [100 * answer.unit_weight * sqrt(answer.cofactors[i][i]) for i in range(4)]
    assert spread == pytest.approx([0.90, 0.64, 0.90, 0.64], abs=6e-3)


def test_a_resection_by_distances_comes_out_as_published() -> None:
    # published: Benning Ex. 8-8
    known = {
        "1": (3000.0, 2000.0),
        "2": (1000.0, 2000.0),
        "3": (3000.0, 2100.0),
        "4": (1000.0, 2100.0),
        "5": (2000.0, 1000.0),
    }
    measured = (1000.00, 1000.00, 1005.00, 1005.00, 1000.00)
    points, answer = trilateration(
        known,
        {"6": (2000.1, 1999.8)},
        tuple((name, "6", length) for name, length in zip(known, measured, strict=True)),
        0.02,
    )
    assert points["6"] == pytest.approx((2000.0, 1999.9976), abs=6e-5)
    assert answer.freedom == 3
    assert answer.unit_weight == pytest.approx(0.503, abs=6e-4)
    millimetres = [1000 * answer.unit_weight * sqrt(answer.cofactors[i][i]) for i in range(2)]
    assert millimetres == pytest.approx([5.0, 10.0], abs=6e-2)
    residuals = [1000 * v for v in answer.residuals]
    assert residuals[2:] == pytest.approx([-12.2, -12.2, -2.4], abs=6e-2)


STRANG = {"1": (170.71, 270.71), "2": (100.0, 100.0), "3": (241.42, 100.0)}
STRANG_TO_P = (("1", "P", 100.01), ("2", "P", 100.02), ("3", "P", 100.03))


def test_a_point_in_a_fixed_triangle_comes_out_as_published() -> None:
    # published: Strang and Borre, fixed datum (in Krumm 2020)
    points, answer = trilateration(STRANG, {"P": (170.71, 170.71)}, STRANG_TO_P, 0.01)
    assert points["P"] == pytest.approx((170.7029, 170.7234), abs=6e-5)
    spread = [answer.unit_weight * sqrt(answer.cofactors[i][i]) for i in range(2)]
    assert spread == pytest.approx([0.033, 0.023], abs=6e-4)


def test_the_same_triangle_left_free_comes_out_as_published() -> None:
    # published: Strang and Borre, free network with the shortest shift (in Krumm 2020)
    points, _ = trilateration(
        {},
        {"P": (170.71, 170.71), **STRANG},
        (*STRANG_TO_P, ("1", "2", 184.785), ("2", "3", 141.440), ("1", "3", 184.805)),
        0.01,
    )
    printed = {
        "P": (170.7123, 170.7185),
        "1": (170.7032, 270.7213),
        "2": (99.9912, 99.9971),
        "3": (241.4333, 99.9830),
    }
    for name, point in printed.items():
        assert points[name] == pytest.approx(point, abs=6e-5), name


def test_a_large_free_network_comes_out_as_published() -> None:
    # published: Hoepke Ex. 35.5; the list's 1789.449, to which its results belong
    points, answer = trilateration({}, HOEPKE_START, HOEPKE, 0.001)
    for name, point in HOEPKE_ADJUSTED.items():
        assert points[name] == pytest.approx(point, abs=2e-4), name
    assert answer.freedom == 14
    assert answer.unit_weight == pytest.approx(4.954, abs=6e-4)
    tests = [w / answer.unit_weight for w in answer.standardised[:27]]
    worst = max(range(27), key=lambda i: abs(tests[i]))
    assert HOEPKE[worst][:2] == ("1087", "20")
    assert tests[worst] == pytest.approx(2.53, abs=6e-3)
    assert 1000 * answer.residuals[worst] == pytest.approx(9.6, abs=6e-2)


def test_a_misprinted_distance_of_the_large_network_is_found_by_its_own_test() -> None:
    # published: the corpus notes that the book's list prints 1789.499 for 1789.449
    wrong = tuple((a, b, 1789.499 if (a, b) == ("1059", "75") else d) for a, b, d in HOEPKE)
    _, answer = trilateration({}, HOEPKE_START, wrong, 0.001)
    assert answer.unit_weight == pytest.approx(10.41, abs=6e-3)
    tests = [w / answer.unit_weight for w in answer.standardised[:27]]
    worst = max(range(27), key=lambda i: abs(tests[i]))
    assert wrong[worst] == ("1059", "75", 1789.499)
    assert tests[worst] == pytest.approx(-3.29, abs=6e-3)
    assert 1000 * answer.residuals[worst] == pytest.approx(-23.4, abs=6e-2)


def test_the_certified_line_of_norris_is_met() -> None:
    # published: NIST StRD Norris, certified values
    answer = adjust([{0: 1.0, 1: x} for _, x in NORRIS], [y for y, _ in NORRIS], [1.0] * 36, 2)
    assert answer.unknowns[0] == pytest.approx(-0.262323073774029, rel=1e-9)
    assert answer.unknowns[1] == pytest.approx(1.00211681802045, rel=1e-12)
    assert answer.unit_weight == pytest.approx(0.884796396144373, rel=1e-10)


def test_norris_with_the_roles_exchanged_is_another_line() -> None:
    # published: the slope of x on y is 0.9978814, not the inverse of the certified one
    answer = adjust([{0: 1.0, 1: y} for y, _ in NORRIS], [x for _, x in NORRIS], [1.0] * 36, 2)
    assert answer.unknowns[1] == pytest.approx(0.9978814, abs=6e-8)
    assert answer.unknowns[1] != pytest.approx(1 / 1.00211681802045, abs=1e-7)


def test_figures_agree_with_a_general_library_on_random_designs() -> None:
    # independent: numpy's least squares and matrix algebra
    rng = random.Random(11)
    for _ in range(25):
        n, m = rng.randint(1, 6), rng.randint(7, 14)
        rows = [{i: rng.gauss(0, 1) for i in range(n) if rng.random() < 0.8} for _ in range(m)]
        for i in range(n):
            rows[i][i] = rows[i].get(i, 0.0) + 2.0
        values = [rng.gauss(0, 1) for _ in range(m)]
        sigmas = [rng.uniform(0.5, 2) for _ in range(m)]
        a = np.array([[row.get(i, 0.0) for i in range(n)] for row in rows])
        p = np.diag([1 / s**2 for s in sigmas])
        q = np.linalg.inv(a.T @ p @ a)
        whole = p - p @ a @ q @ a.T @ p
        x, *_ = np.linalg.lstsq(np.sqrt(p) @ a, np.sqrt(p) @ np.array(values), rcond=None)
        answer = adjust(rows, values, sigmas, n)
        assert answer.unknowns == pytest.approx(list(x))
        assert np.allclose(answer.cofactors, q)
        assert np.allclose(answer.snoop, whole)
        assert answer.omega == pytest.approx(float(np.array(values) @ whole @ np.array(values)))
        assert sum(answer.redundancy) == pytest.approx(m - n)
        residual_cofactors = np.diag(np.diag(sigmas) ** 2 - a @ q @ a.T)
        tests = np.array(answer.residuals) / np.sqrt(residual_cofactors)
        assert answer.standardised == pytest.approx(list(tests))


def test_one_design_serves_many_sets_of_observations() -> None:
    # independent: the same set adjusted from the start
    rows = [{0: 1.0}, {0: 1.0, 1: 1.0}, {1: 1.0}, {0: 2.0, 1: -1.0}]
    sigmas = [1.0, 2.0, 0.5, 1.5]
    shared = design(rows, sigmas, 2)
    for values in ([1.0, 2.0, 3.0, 4.0], [0.0, -1.0, 5.0, 2.0]):
        alone = adjust(rows, values, sigmas, 2)
        assert shared.fit(values).unknowns == pytest.approx(alone.unknowns)
        assert shared.fit(values).omega == pytest.approx(alone.omega)


def test_an_observation_that_nothing_checks_has_no_test_value() -> None:
    # independent: two observations of one unknown, one of another
    answer = adjust([{0: 1.0}, {0: 1.0}, {1: 1.0}], [1.0, 2.0, 7.0], [1.0, 1.0, 1.0], 2)
    assert answer.redundancy == pytest.approx([0.5, 0.5, 0.0], abs=1e-12)
    assert answer.standardised[2] == 0.0
    assert answer.standardised[0] == pytest.approx(0.5 / sqrt(0.5))


def test_what_is_not_determined_is_refused() -> None:
    with pytest.raises(NotDetermined):
        adjust([{0: 1.0, 1: 1.0}], [1.0], [1.0], 2)
    with pytest.raises(NotDetermined):
        adjust([{0: 1.0}], [1.0], [1.0], 2)
    with pytest.raises(NotDetermined):
        adjust_curved(lambda x: ([x[0] ** 3 + x[0] + 1.0], [{0: 1e-9}]), [0.0], [1.0], [3.0], most=3)


def test_the_triangle_solves_and_inverts() -> None:
    # independent: hand calculation, [[4, 2], [2, 5]] has the triangle [[2], [1, 2]] and determinant 16
    lower = cholesky([[4.0, 0.0], [2.0, 5.0]])
    assert lower == [[2.0], [1.0, 2.0]]
    assert forward(lower, [2.0, 5.0]) == [1.0, 2.0]
    assert backward(lower, [1.0, 2.0]) == [0.0, 1.0]
    assert inverse(lower) == [[5 / 16, -2 / 16], [-2 / 16, 4 / 16]]
