"""The room adjusted stud by stud against one large adjustment, and what is left undetermined."""

from __future__ import annotations

import random
from math import hypot, sqrt

import numpy as np
import pytest

from tests.survey.cast import facts, inch, room, with_readings
from undertile.bench.slip_plant import plant
from undertile.bench.slip_rooms import clean_survey
from undertile.survey.checks import sighted
from undertile.survey.facts import SurveyFacts
from undertile.survey.read import adjust_survey


def one_large(table: SurveyFacts) -> tuple[np.ndarray, np.ndarray, np.ndarray, list[tuple[str, str, int]]]:
    """The same room as one system: design, values, sigmas; unknowns by line, the frame last."""
    grid, checks, fit = adjust_survey(table)
    unknowns = [
        (*key, i) for key, f in fit.fits.items() if f.fit is not None for i in range(len(f.fit.unknowns))
    ]
    number = {u: n for n, u in enumerate(unknowns)}
    width = len(unknowns) + 3
    rows, values, sigmas = [], [], []
    for key, f in fit.fits.items():
        assert f.layout is not None
        nominal = float(grid.walls[f.line.wall].nominal)  # type: ignore[index]
        typed = [nominal - float(length.inches) for length in f.line.readings.values()]
        typed += [0.0] * (len(f.layout.rows) - len(typed))
        for row, value, sigma in zip(f.layout.rows, typed, f.layout.sigmas, strict=True):
            line = [0.0] * width
            for i, a in row.items():
                line[number[(*key, i)]] = a
            rows.append(line)
            values.append(value)
            sigmas.append(sigma)
    local = {key: f.fit.unknowns for key, f in fit.fits.items() if f.fit is not None}
    for check in checks.used:
        value, frame, faces = check.value, check.frame, check.faces
        if check.sight is not None:
            length, frame, faces = sighted(check.sight, fit.about, local)
            flat = sum(w * local[key][i] for key, row in faces.items() for i, w in row.items())
            value += -length + flat + sum(a * b for a, b in zip(frame, fit.about, strict=True))
        line = [0.0] * width
        for key, row in faces.items():
            for i, w in row.items():
                line[number[(*key, i)]] += w
        line[-3:] = frame
        rows.append(line)
        values.append(value)
        sigmas.append(check.sigma)
    return np.array(rows), np.array(values), np.array(sigmas), unknowns


@pytest.mark.parametrize("seed", range(6))
def test_stud_by_stud_gives_what_one_large_adjustment_gives(seed: int) -> None:
    # independent: numpy on the whole system at once
    rng = random.Random(f"room {seed}")
    simulated = clean_survey(rng)
    if seed % 2:
        plant(rng, simulated, "mirror half")
    table = simulated.facts()
    _, _, fit = adjust_survey(table)
    a, values, sigmas, unknowns = one_large(table)
    p = np.diag(1 / sigmas**2)
    q = np.linalg.inv(a.T @ p @ a)
    x = q @ a.T @ p @ values
    whole = p - p @ a @ q @ a.T @ p
    assert fit.omega == pytest.approx(float(values @ whole @ values), rel=1e-7)
    assert fit.freedom == len(values) - a.shape[1]
    assert fit.frame == pytest.approx(tuple(x[-3:]), abs=1e-9)
    assert np.allclose(np.array(fit.frame_cofactors), q[-3:, -3:], rtol=1e-7)
    assert np.allclose(fit.gradient, whole @ values)
    assert np.allclose(fit.diagonal, np.diag(whole))
    m = [
        [fit.between(i, j) if i != j else fit.diagonal[i] for j in range(len(values))]
        for i in range(len(values))
    ]
    assert np.allclose(m, whole, atol=1e-6)
    at = 0
    for key, f in fit.fits.items():
        got, spread = fit.estimate(key)
        for i in range(len(f.known)):
            n = unknowns.index((*key, i))
            assert got[i] == pytest.approx(x[n], abs=1e-9)
            assert spread[i] == pytest.approx(sqrt(q[n, n]), rel=1e-9)
            at += 1
    assert at > 40


def test_a_change_of_observations_is_priced_as_adjusting_anew_would() -> None:
    # independent: the misfit of the survey typed otherwise, adjusted from the start
    table = room()
    table["diagonals"] = {}  # they are linearised at a slightly other frame
    _, _, fit = adjust_survey(facts(table))
    other = with_readings(table, B2_48="5-3/16", L2_48="6-3/8")
    _, _, anew = adjust_survey(facts(other))
    index = {seen.place: i for i, seen in enumerate(fit.observations) if seen.slope}
    change = {index["B2 at 48"]: 13 / 16 - 3 / 16, index["L2 at 48"]: -3 / 8}
    assert fit.omega - fit.gain(change) == pytest.approx(anew.omega, rel=1e-9)
    assert fit.gradient_after(change) == pytest.approx(anew.gradient, abs=1e-6)
    pairs = sum(
        a * b * (fit.between(i, j) if i != j else fit.diagonal[i])
        for i, a in change.items()
        for j, b in change.items()
    )
    assert fit.curvature(change) == pytest.approx(pairs)


def test_an_exact_room_fits_exactly() -> None:
    # independent: hand calculation, every check of the cast was computed from its readings
    table = room()
    for diagonal in table["diagonals"].values():
        diagonal["reading"] = "1757.2 mm"  # sqrt(60.25^2 + 34^2) in = 1757.22 mm
    _, _, fit = adjust_survey(facts(table))
    assert hypot(60.25, 34) * 25.4 == pytest.approx(1757.2, abs=0.05)
    assert fit.frame == pytest.approx((60.25, 0.0, 0.0), abs=2e-3)
    assert fit.known == (True, True, True)
    widths = [fit.standardised(i) for i, seen in enumerate(fit.observations) if seen.kind == "width"]
    assert max(map(abs, widths)) < 0.1


def test_widths_at_one_depth_leave_the_growth_unknown() -> None:
    # independent: three widths at one depth say nothing of the opening elsewhere
    table = room()
    table["widths"] = {n: w for n, w in table["widths"].items() if w["depth"] == inch("18")}
    table["diagonals"] = {}
    _, _, fit = adjust_survey(facts(table))
    assert fit.known == (True, False, False)
    assert fit.frame[:2] == pytest.approx((60.25, 0.0), abs=1e-3)


def test_without_any_width_nothing_of_the_frame_is_known() -> None:
    # independent: line readings alone do not tie one line to another
    table = room()
    table["widths"] = table["diagonals"] = {}
    _, _, fit = adjust_survey(facts(table))
    assert fit.known == (False, False, False)


def test_a_square_alone_gives_a_turn_and_no_opening() -> None:
    # independent: 1/4 out over 36 is 1/144 in per inch
    table = room()
    table["widths"] = table["diagonals"] = {}
    table["squares"] = {"s": {"wall": "L", "over": inch("36"), "out": inch("1/4")}}
    _, _, fit = adjust_survey(facts(table))
    assert fit.known[0] is False
    assert fit.known[2] is True
    assert fit.frame[2] == pytest.approx(1 / 144)


def test_a_gross_slip_in_a_diagonal_does_not_bend_the_other_one() -> None:
    # independent: without the slipped diagonal the other fits as before
    table = room()
    table["diagonals"]["d1"]["reading"] = inch("96-3/16")  # 69-3/16 misread
    _, _, fit = adjust_survey(facts(table))
    index = {seen.place: i for i, seen in enumerate(fit.observations)}
    _, _, good = adjust_survey(facts(room()))
    change = {index["diagonal d1"]: 69.1875 - 96.1875}
    assert fit.omega - fit.gain(change) == pytest.approx(good.omega, abs=0.05)
