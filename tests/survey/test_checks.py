"""Diagonals, widths and the rest as observation equations."""

from __future__ import annotations

from math import sqrt

import pytest

from tests.survey.cast import codes, facts, inch, room, survey
from undertile.survey.checks import Sight, sighted
from undertile.survey.faces import face, joined, scaled
from undertile.survey.read import adjust_survey
from undertile.survey.studlines import up_the_stud
from undertile.survey.tools import BETWEEN_STUDS


@pytest.mark.parametrize(
    ("a", "b", "offset", "difference"),
    # independent: geometry, d1^2 - d2^2 = 4 a b sin e
    [(60, 36, 0.25, 0.4288), (60, 32, 0.125, 0.2206), (48, 36, 0.25, 0.4000), (36, 36, 0.0625, 0.0884)],
)
def test_diagonals_of_a_skewed_room_are_those_of_a_parallelogram(
    a: float, b: float, offset: float, difference: float
) -> None:
    # both side walls turned alike by e, sin e = offset / b: L comes in at the front, R goes out
    turn = offset / b
    to_right, _, _ = sighted(Sight("R", b, {}, {}, {}), (a, 0.0, turn), {})
    to_left, _, _ = sighted(Sight("L", b, {}, {}, {}), (a, 0.0, turn), {})
    # independent: law of cosines, d^2 = a^2 + b^2 +- 2 a b sin e
    assert to_right == pytest.approx(sqrt(a * a + b * b + 2 * a * b * turn), abs=1e-9)
    assert to_left == pytest.approx(sqrt(a * a + b * b - 2 * a * b * turn), abs=1e-9)
    assert to_right - to_left == pytest.approx(difference, abs=6e-5)


def test_the_printed_diagonals_of_a_60_by_36_alcove_are_met() -> None:
    # independent: geometry, 70.1855 and 69.7567 for 1/4 over 36
    turn = 0.25 / 36
    assert sighted(Sight("R", 36, {}, {}, {}), (60, 0, turn), {})[0] == pytest.approx(70.1855, abs=6e-5)
    assert sighted(Sight("L", 36, {}, {}, {}), (60, 0, turn), {})[0] == pytest.approx(69.7567, abs=6e-5)


@pytest.mark.parametrize("far", ["L", "R"])
def test_the_slopes_of_a_diagonal_are_its_differences(far: str) -> None:
    # independent: central differences of the length
    keys = [("C", ""), ("B", ""), ("S", "")]
    sight = Sight(far, 33.0, {keys[0]: {0: 1.0}}, {keys[1]: {0: 1.0}}, {keys[2]: {0: 1.0}})
    frame = (60.2, 0.002, -0.004)
    at = {keys[0]: [0.1], keys[1]: [-0.2], keys[2]: [0.15]}
    _, turns, faces = sighted(sight, frame, at)
    step = 1e-5
    for p in range(3):
        up = tuple(v + step * (q == p) for q, v in enumerate(frame))
        down = tuple(v - step * (q == p) for q, v in enumerate(frame))
        slope = (sighted(sight, up, at)[0] - sighted(sight, down, at)[0]) / (2 * step)  # type: ignore[arg-type]
        assert turns[p] == pytest.approx(slope, abs=0.08 if p else 1e-6)  # y of the far end hardly moves
    for key in keys:
        up_at = {**at, key: [at[key][0] + step]}
        down_at = {**at, key: [at[key][0] - step]}
        slope = (sighted(sight, frame, up_at)[0] - sighted(sight, frame, down_at)[0]) / (2 * step)
        assert faces[key][0] == pytest.approx(slope, abs=1e-6)


def test_a_skewed_room_is_found_from_its_two_diagonals() -> None:
    # independent, geometry: 60 x 36 with 1/4 over 36 has diagonals 70.1855 and 69.7567
    table = room()
    for wall, studs in table["walls"].items():
        if wall != "B":
            for name, along in zip(list(studs["studs"]), ("2", "18", "36"), strict=True):
                studs["studs"][name]["along"] = inch(along)
    for stud in table["walls"]["B"]["studs"].values():
        stud["readings"] = dict.fromkeys(stud["readings"], "6-0")
    table["levels"] = {}
    table["widths"] = {
        f"w{d}": {"depth": inch(d), "height": inch("2"), "reading": inch("60")} for d in ("2", "18", "36")
    }
    for name, corner, length in (("d1", "BL", "70-3/16"), ("d2", "BR", "69-3/4")):
        table["diagonals"][name] = {
            "corner": corner,
            "depth": inch("36"),
            "height": inch("2"),
            "reading": inch(length),
        }
    frame = survey(table).frame
    assert frame.opening_at_back == 60
    assert frame.out_of_square is not None
    # 7/16 between the typed diagonals is 0.2551 over 36
    assert float(frame.out_of_square["L"]) * 36 == pytest.approx(0.2551, abs=2e-3)
    assert frame.out_of_square["R"] == -frame.out_of_square["L"]


def test_a_height_between_two_read_ones_is_taken_straight() -> None:
    # independent: hand calculation, 36 is halfway from 24 to 48
    found = up_the_stud([2, 24, 48], 36)
    assert found is not None
    assert found[0] == pytest.approx({1: 0.5, 2: 0.5})
    # independent: hypot(1/64, 3/64 x 12 x 12 / 24^2) of the bend's standard deviation
    assert found[1] == pytest.approx(0.0195, abs=1e-4)
    assert up_the_stud([2, 24, 48], 24) == ({1: 1.0}, 0.0)


def test_past_the_last_height_a_stud_runs_on_straight_for_a_foot() -> None:
    # independent: through (24, a) and (48, b) at 54: b + (b - a) / 4
    found = up_the_stud([2, 24, 48], 54)
    assert found is not None
    weights, spread = found
    assert weights == pytest.approx({2: 1.25, 1: -0.25})
    assert spread > 0
    assert up_the_stud([2, 24, 48], 61) is None
    assert up_the_stud([20, 24], 7) is None
    assert up_the_stud([], 7) is None


def test_wood_between_two_studs_is_less_certain_than_a_stud() -> None:
    grid, _, fit = adjust_survey(facts(room()))
    on = face(grid.walls["L"], fit.fits, 18.0, 24.0, 4.0)
    between = face(grid.walls["L"], fit.fits, 10.0, 24.0, 4.0)
    assert on == ({("L2", ""): {1: 1.0}}, 0.0)
    assert between is not None
    # independent: 10 is halfway from 2 to 18
    assert between[0] == {("L1", ""): {1: 0.5}, ("L2", ""): {1: 0.5}}
    assert between[1] == BETWEEN_STUDS
    assert face(grid.walls["L"], fit.fits, 39.0, 24.0, 4.0) is None
    assert face(None, fit.fits, 2.0, 24.0, 4.0) is None


def test_coefficients_scale_and_add() -> None:
    # independent: hand calculation
    one = {("A", ""): {0: 1.0, 1: 2.0}}
    two = {("A", ""): {1: 1.0}, ("B", ""): {0: 3.0}}
    assert joined(scaled(one, -2.0), two) == {("A", ""): {0: -2.0, 1: -3.0}, ("B", ""): {0: 3.0}}


def test_checks_that_no_reading_reaches_are_said_and_left_out() -> None:
    table = room()
    table["widths"]["far"] = {"depth": inch("60"), "height": inch("2"), "reading": inch("60-1/4")}
    table["levels"]["who"] = {"stud": "B9", "low": inch("2"), "high": inch("48"), "reading": inch("0")}
    table["levels"]["flat"] = {"stud": "B2", "low": inch("2"), "high": inch("2"), "reading": inch("0")}
    table["repeats"]["who"] = {"stud": "L11", "height": inch("2"), "reading": "6-0"}
    table["squares"] = {"s": {"wall": "L", "over": inch("9999"), "out": inch("0")}}
    result = survey(table)
    said = {f.where: f.found for f in result.findings if f.code == "check-not-used"}
    assert set(said) == {"width far", "level who", "level flat", "repeat who", "square s"}
    assert "no stud B9; the nearest name is B" in said["level who"]
    assert "reading-inch-off" not in codes(result)


def test_a_two_wall_corner_uses_what_it_can() -> None:
    table = room()
    del table["walls"]["R"]
    table["squares"] = {"s": {"wall": "L", "over": inch("36"), "out": inch("-1/8")}}
    result = survey(table)
    assert result.frame.opening_at_back is None
    assert result.frame.out_of_square is not None
    assert float(result.frame.out_of_square["L"]) == pytest.approx(-1 / 288, abs=2e-4)
    assert {f.where for f in result.findings if f.code == "check-not-used"} >= {"width w1", "diagonal d1"}
    assert "opening-not-measured" not in codes(result)


def test_a_repeat_that_is_not_read_yet_or_was_taken_back_is_none() -> None:
    """independent: the room without it answers the same, to the finding."""
    without = room()
    without["repeats"] = {}
    blank = room()
    blank["repeats"] = {"again": {"stud": "B1", "height": inch("2")}}
    x = room()
    x["repeats"] = {"again": {"stud": "B1", "height": inch("2"), "reading": "x"}}
    told = [survey(each).findings for each in (without, blank, x)]
    assert told[0] == told[1] == told[2]
    assert "line-not-rechecked" in [each.code for each in told[0]]
