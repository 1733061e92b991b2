"""Squareness after the work against published diagonals and plain geometry."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction as F
from math import asin, hypot, tan

import pytest

from tests.pan.cast import convention_8, inch, pan_facts, plan, survey
from undertile.findings import Check, Verdict
from undertile.framing.facts import FramingFacts
from undertile.framing.plan import Plane
from undertile.pan.built import Built
from undertile.pan.square import diagonals, square_checks

SQUARE = {"L": F(0), "R": F(0)}


def by_code(built: Built) -> dict[str, Check]:
    return {check.code: check for check in square_checks(built)}


def turned(
    left: F, back: F, right: F, *, square: dict[str, F] | None = None, width: int = 60, depth: int = 32
) -> Built:
    room = survey({}, square=SQUARE if square is None else square, opening=F(width) + F(1, 8))
    planes = {wall: Plane(wall, F(0), s, F(0)) for wall, s in zip("LBR", (left, back, right), strict=True)}
    facts = pan_facts(width=inch(width), depth=inch(depth))
    return Built(facts, room, FramingFacts(), plan(room, planes))


@pytest.mark.parametrize(
    ("a", "b", "offset", "apart"),
    [
        # independent, geometry: difference of the diagonals of a leaning parallelogram
        (60, 36, 0.25, 0.4288),
        (60, 32, 0.125, 0.2206),
        (48, 36, 0.25, 0.4000),
        (36, 36, 0.0625, 0.0884),
    ],
)
def test_published_diagonals(a: int, b: int, offset: float, apart: float):
    slope = F(tan(asin(offset / b)))
    first, second = diagonals(F(a), (slope, F(0), -slope), F(0), F(b))
    # the page subtracts rounded diagonals (70.1855 - 69.7567), so its last digit is one off
    assert abs(first - second) == pytest.approx(apart, abs=6e-5)
    # independent: law of cosines, d^2 = a^2 + b^2 +- 2 a b sin e
    assert sorted((first, second)) == pytest.approx(
        [(a * a + b * b + sign * 2 * a * offset) ** 0.5 for sign in (-1, 1)], abs=1e-9
    )


def test_a_true_rectangle_has_the_diagonal_of_pythagoras():
    # independent: 60 by 32 is 4 x (15, 8, 17): 68
    assert diagonals(F(60), (F(0), F(0), F(0)), F(3, 4), F(32)) == pytest.approx((68, 68))


def test_a_room_turned_as_a_whole_keeps_its_diagonals():
    # independent: rotation; the back line turned by s, L by -s and R by s are one rectangle turned
    slope = F(1, 400)
    first, second = diagonals(F(60), (-slope, slope, slope), F(0), F(32))
    assert first == pytest.approx(second, abs=1e-9)
    # the width across is the opening times the cosine of the turn
    assert first == pytest.approx(hypot(60 / hypot(1, 1 / 400), 32), abs=1e-9)


def test_the_check_fails_beyond_an_eighth_and_passes_inside():
    # independent: linear figure W D (p_L - p_R) / 68: 60 x 32 x 2e / 68 = 56.47 e; 1/8 at e = 0.0022135
    assert by_code(turned(F(22, 10000), F(0), F(-22, 10000)))["diagonals"].verdict is Verdict.PASS
    over = by_code(turned(F(23, 10000), F(0), F(-23, 10000)))["diagonals"]
    assert over.verdict is Verdict.FAIL
    assert over.margin.startswith("-")


def test_a_turned_back_wall_counts_twice_over_the_pans_depth():
    # independent: 2 W D p_B / 68 with p_B = 1/480: 2 x 32 x 60 / 68 / 480 = 0.1176, printed up to 1/8
    check = by_code(turned(F(0), F(1, 480), F(0)))["diagonals"]
    assert check.value == 'differ 1/8"'
    assert check.verdict is Verdict.PASS
    assert check.eats.startswith("wall B")


def test_lines_out_of_square_count_with_the_planes():
    # independent: a line 1/8 out over 32 and a plane skewed 1/8 back over 32 make a square wall
    built = turned(F(-1, 256), F(0), F(1, 256), square={"L": F(1, 256), "R": F(-1, 256)})
    checks = by_code(built)
    assert checks["corner-L"].value == "square"
    assert checks["diagonals"].value == 'differ 0"'


def test_squareness_nobody_measured_is_not_shown():
    checks = by_code(convention_8(square=False))
    for code in ("diagonals", "corner-L", "corner-R"):
        assert checks[code].verdict is Verdict.NOT_SHOWN
        assert "3-4-5" in checks[code].next_step
    assert checks["skew-B"].verdict is Verdict.PASS


def test_a_corner_that_closes_and_one_that_opens():
    # independent: L turned in 1/16 over 32 and B turned in at its R end 1/15 over 32 close corner L by 31/240
    checks = by_code(turned(F(1, 512), F(1, 480), F(0)))
    assert checks["corner-L"].value == 'closes 9/64"'  # 0.1292 printed up
    assert checks["corner-L"].verdict is Verdict.FAIL
    assert checks["corner-R"].value == 'opens 5/64"'  # 1/15 = 0.0667 printed up
    assert checks["corner-R"].verdict is Verdict.PASS


def test_sizes_are_given_back_and_front():
    check = by_code(convention_8())["diagonals"]
    # independent: convention 8: 60-1/8 between the planes
    assert any('back 60-1/8", front 60-1/8"' in line for line in check.because)


def test_missing_pan_depth_is_asked_for():
    built = convention_8()
    checks = by_code(replace(built, pan=pan_facts(depth=None)))
    assert checks["diagonals"].verdict is Verdict.NOT_SHOWN
    assert "depth" in checks["diagonals"].next_step


def test_uncertain_squareness_is_said():
    room = replace(
        survey({}, square=SQUARE), frame=replace(survey({}, square=SQUARE).frame, square_sigma=0.002)
    )
    built = Built(pan_facts(), room, FramingFacts(), plan(room))
    # independent: 0.002 over the pan moves the diagonals 28.2 x 0.002 x sqrt 2 = 0.08; twice that is over 1/8
    assert by_code(built)["diagonals"].within_uncertainty


def test_a_two_wall_corner_has_its_corner_and_no_diagonals():
    room = survey({}, walls="BR", square={"R": F(0)})
    checks = by_code(Built(pan_facts(), room, FramingFacts(), plan(room)))
    assert set(checks) == {"corner-R", "skew-B"}
    room = survey({}, walls="L")
    checks = by_code(Built(pan_facts(), room, FramingFacts(), plan(room)))
    assert set(checks) == {"skew-L"}


def test_the_diagonals_are_those_between_the_planes():
    # independent: 60-1/8 by 32: sqrt(60.125^2 + 32^2) = 68.1103, to the nearest 1/64: 68-7/64
    check = by_code(convention_8())["diagonals"]
    assert check.because[0] == 'from back left 68-7/64", from back right 68-7/64"'
    # independent: planes 1 in farther in on both sides: sqrt(58.125^2 + 32^2) = 66.3513: 66-11/32 and 1/128
    built = convention_8()
    planes = {side: Plane(side, F(17, 16), F(0), F(0)) for side in "LR"}
    moved = by_code(replace(built, plan=plan(built.survey, planes)))["diagonals"]
    assert moved.because[0].startswith('from back left 66-11/32"')
