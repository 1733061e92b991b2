"""The verdict of a wall under the straightedge rules: pass, fail, not shown."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from math import sqrt

import pytest

from tests.framing.cast import OFFSETS, SEAT, facts, play_demands, survey
from undertile.findings import Verdict
from undertile.framing.build import build_problem
from undertile.framing.flatcheck import FaceGrid, judge, planned_faces, wall_checks
from undertile.framing.search import solve

F = Fraction
FINE = [F(6 * i) for i in range(9)]
FLAT = [F(0)] * 9
LARGE_TILE = [(F(24), F(1, 16)), (F(120), F(1, 8))]  # published: ANSI A108.02 section 4.2.2


def test_readings_24_apart_cannot_show_the_24_in_rule() -> None:
    # published: convention 5.1 names this very case
    found = judge([F(0), F(24), F(48)], [F(0)] * 3, F(24), F(1, 16))
    assert (found.verdict, found.lacks) == (Verdict.NOT_SHOWN, "spacing")


def test_readings_six_apart_show_the_24_in_rule_and_a_hair_more_does_not() -> None:
    # no source: a rule 24 in long needs readings every 6 in or closer (common practice)
    assert judge(FINE, FLAT, F(24), F(1, 16)).verdict is Verdict.PASS
    wider = [*FINE[:-1], FINE[-1] + F(1, 64)]
    assert judge(wider, FLAT, F(24), F(1, 16)).verdict is Verdict.NOT_SHOWN


def test_a_gap_that_is_seen_fails_however_few_the_readings() -> None:
    found = judge([F(0), F(24), F(48)], [F(1, 4), F(0), F(1, 4)], F(24), F(1, 16))
    assert found.verdict is Verdict.FAIL
    assert found.gap is not None
    assert found.gap.gap == F(1, 8)  # independent, by hand: half of 1/4 where 24 bridges half of 48


def test_fewer_than_three_readings_or_an_estimate_among_them_show_nothing() -> None:
    assert judge([F(0), F(6)], [F(0), F(0)], F(24), F(1, 16)).lacks == "few"
    read = [True] * 9
    read[4] = False
    assert judge(FINE, FLAT, F(24), F(1, 16), read=read).lacks == "unread"


def test_between_studs_the_board_is_straight_so_sixteen_in_centres_show_it() -> None:
    found = judge([F(0), F(16), F(32)], [F(0)] * 3, F(24), F(1, 16), straight_between=True)
    assert found.verdict is Verdict.PASS


def test_uncertainty_of_the_gap_is_propagated_and_named() -> None:
    # independent, by hand: middle 1/16 under two rests half way, sigma s each: s sqrt(1 + 1/4 + 1/4)
    values = [F(0)] * 9
    values[4] = F(-1, 16)
    sure = judge(FINE, values, F(12), F(1, 8), sigmas=[0.01] * 9)
    assert sure.gap is not None
    assert sure.gap.gap == F(1, 16)  # independent, by hand: rests at 18 and 30
    assert sure.sigma == pytest.approx(0.01 * sqrt(1.5))
    assert sure.verdict is Verdict.NOT_SHOWN  # 6 apart under a 12 in straightedge
    assert not sure.within_uncertainty  # 1/16 away, two sigma is 0.0245
    near = judge(FINE, values, F(24), F(1, 16), sigmas=[0.01] * 9)
    assert (near.verdict, near.within_uncertainty) == (Verdict.PASS, True)
    loose = judge(FINE, FLAT, F(24), F(1, 16), sigmas=[1 / 32] * 9)
    assert (loose.verdict, loose.lacks) == (Verdict.NOT_SHOWN, "uncertain")  # 2 x 1/32 x sqrt(1.5) > 1/16


def grid(faces: list[list[Fraction]], heights: list[Fraction]) -> FaceGrid:
    return FaceGrid(
        "B",
        tuple(f"B{i + 1}" for i in range(len(faces))),
        tuple(F(8 + 16 * i) for i in range(len(faces))),
        tuple(heights),
        tuple(tuple(f) for f in faces),
    )


def test_a_flat_wall_read_in_six_heights_shows_the_long_rule_and_asks_for_the_short_one() -> None:
    heights = [F(h) for h in (2, 25, 48, 71, 90)]
    checks = {c.code: c for c in wall_checks(grid([[F(0)] * 5] * 4, heights), LARGE_TILE)}
    assert checks["flat-B-up-120"].verdict is Verdict.PASS
    assert checks["flat-B-up-24"].verdict is Verdict.NOT_SHOWN
    assert checks["flat-B-up-24"].next_step == 'Read B1 every 6" or closer, or lay a 24" straightedge on it.'
    assert checks["flat-B-along-24"].verdict is Verdict.PASS
    # independent: a pass is never said where one line of the group is not shown
    assert all(c.verdict is not Verdict.PASS for c in checks.values() if c.code.endswith("across-24"))


def test_the_line_that_fails_decides_and_is_named_with_what_lies_behind() -> None:
    heights = [F(2), F(24), F(48)]
    faces = [[F(0)] * 3, [F(1, 8), F(-1, 8), F(1, 8)], [F(0)] * 3]
    check = next(c for c in wall_checks(grid(faces, heights), LARGE_TILE) if c.code == "flat-B-up-24")
    assert check.verdict is Verdict.FAIL
    assert check.where == "wall B, B2"
    assert check.limit == '1/16" under 24"'
    assert check.because[1] == 'under it B2 at 24 (-1/8")'
    assert "B2 at 24" in check.eats


def test_two_studs_or_two_heights_are_not_shown_and_say_what_to_read() -> None:
    checks = wall_checks(grid([[F(0)] * 2] * 2, [F(2), F(48)]), LARGE_TILE[:1])
    assert [c.verdict for c in checks] == [Verdict.NOT_SHOWN] * 2
    assert checks[0].next_step.startswith("Read at least three heights on a stud")


def test_checks_print_mm_for_a_job_in_mm() -> None:
    check = wall_checks(grid([[F(0)] * 3] * 3, [F(2), F(24), F(48)]), LARGE_TILE[:1], unit="mm")[0]
    assert check.limit.endswith("mm")
    assert '"' not in check.title + check.limit + check.value + check.next_step


def test_planned_faces_pass_or_are_not_shown_but_never_fail() -> None:
    # independent: the planner keeps the same rules; readings 42 apart can show neither rule up a stud
    room = survey(OFFSETS)
    built = build_problem(room, facts(), SEAT, play_demands())
    plan = solve(built.problem)
    for wall, read in zip(built.problem.walls, room.walls, strict=True):
        checks = wall_checks(planned_faces(wall, plan, read), built.problem.flatness)
        assert {c.verdict for c in checks if "-along-" in c.code} == {Verdict.PASS}
        assert {c.verdict for c in checks if "-up-" in c.code} == {Verdict.NOT_SHOWN}


def test_a_face_that_hangs_on_an_estimate_is_not_shown_and_a_new_stud_hangs_on_none() -> None:
    room = survey({}, walls="B", heights=tuple(F(6 * i) for i in range(9)))
    wall = room.walls[0]
    spots = wall.studs[1].offsets
    guessed = replace(spots[4], state="not measured", sigma=0.1)
    stud = replace(wall.studs[1], offsets=(*spots[:4], guessed, *spots[5:]))
    wall = replace(wall, studs=(wall.studs[0], stud, *wall.studs[2:]))
    room = replace(room, walls=(wall,))

    def up(**changes: object) -> Verdict:
        built = build_problem(room, facts(**changes), SEAT)
        faces = planned_faces(built.problem.walls[0], solve(built.problem), wall)
        return next(c.verdict for c in wall_checks(faces, built.problem.flatness) if c.code == "flat-B-up-24")

    assert up() is Verdict.NOT_SHOWN
    assert up(studs={"B2": {"hold": {"treatment": "replace", "reason": "split"}}}) is Verdict.PASS


def test_a_sloping_line_is_judged_by_its_own_spacing() -> None:
    # independent, by hand: studs 16 and heights 24 apart lie 28.8 apart on the slope, under 120 / 4
    heights = [F(2), F(26), F(50)]
    checks = {c.code: c for c in wall_checks(grid([[F(0)] * 3] * 3, heights), LARGE_TILE)}
    assert checks["flat-B-across-120"].verdict is Verdict.PASS
    heights = [F(2), F(28), F(54)]  # independent, by hand: 30.5 apart
    checks = {c.code: c for c in wall_checks(grid([[F(0)] * 3] * 3, heights), LARGE_TILE)}
    assert checks["flat-B-across-120"].verdict is Verdict.NOT_SHOWN
