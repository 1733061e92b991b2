"""Backing of the board in the corners, and what the flange's ends bear on."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction as F

from tests.pan.cast import inch, pan_facts, plan, survey
from undertile.findings import Check, Verdict
from undertile.framing.facts import FramingFacts
from undertile.framing.plan import Charge, Plane
from undertile.pan.backing import backing_checks
from undertile.pan.built import Built


def room(
    corners: dict[str, object] | None = None,
    *,
    offset: F = F(0),
    lean: F = F(0),
    board: object = inch("1/2"),
    depth: F = F(32),
    walls: str = "LBR",
    charges: tuple[Charge, ...] = (),
) -> tuple[dict[str, Check], list[str]]:
    framing = FramingFacts.model_validate({"finish": {"board": board}, "corners": corners or {}})
    read = survey(walls=walls)
    made = plan(read, {"L": Plane("L", offset, F(0), lean)} if "L" in walls else None, charges=charges)
    checks, order = backing_checks(Built(pan_facts(depth=inch(depth)), read, framing, made))
    return {check.code: check for check in checks}, [step.text for step in order]


def test_what_is_left_of_a_stud_in_the_corner():
    # independent: stud 1-1/2 of wood, plane 1/4 out, board 1/2, gap 1/8: 5/8 left, just enough
    # common practice, no source: at least 5/8 of backing stays after build-out
    found = room({"B-L": {"wood": inch("3/2")}}, offset=F(1, 4))[0]["backing-B-L"]
    assert found.value == '5/8"'
    assert found.verdict is Verdict.PASS
    assert found.eats == 'wall L 1/4" into the room'
    found = room({"B-L": {"wood": inch("3/2")}}, offset=F(5, 16))[0]["backing-B-L"]
    assert found.verdict is Verdict.FAIL
    assert 'lacks 1/16"' in found.next_step


def test_a_leaning_plane_counts_where_it_comes_in_most():
    # independent: lean 1/720 over 88 in from 2 to 90 is near 1/8: at the top 0 + 90/720 = 1/8 in
    found = room({"B-L": {"wood": inch("3/2")}}, lean=F(1, 720))[0]["backing-B-L"]
    assert found.value == '3/4"'


def test_a_backer_in_the_plan_makes_it_pass_and_is_in_the_order_of_work():
    paid = Charge("L", "put a backer at corner B-L", F(10), F(3))
    checks, order = room({"B-L": {"wood": inch("3/2")}}, offset=F(1, 2), charges=(paid,))
    assert checks["backing-B-L"].verdict is Verdict.PASS
    assert "with the backer" in checks["backing-B-L"].value
    assert any("corner B-L" in line for line in order)


def test_no_board_thickness_is_not_shown():
    found = room({"B-L": {"wood": inch("3/2")}}, board=None)[0]["backing-B-L"]
    assert found.verdict is Verdict.NOT_SHOWN


def test_the_flanges_front_end_lies_near_a_stud():
    # independent: pan ends at 32, L3 at 34 shows its face from 33-1/4: 1-1/4 away
    found = room()[0]
    assert found["flange-front-L"].value == '1-1/4" away'
    assert found["flange-front-L"].verdict is Verdict.PASS
    # independent: a pan of 26 ends 26 - 18-3/4 = 7-1/4 past L2's face and 7-1/4 before L3's
    far = room(depth=F(26))[0]["flange-front-L"]
    assert far.value == '7-1/4" away'
    assert far.verdict is Verdict.FAIL
    assert "Block the bay" in far.next_step
    # independent: at 34 it is on L3
    assert room(depth=F(34))[0]["flange-front-R"].value == "on a stud"


def test_the_flange_in_the_back_corners():
    found = room()[0]
    # independent: L1 at 2 shows its face from 1-1/4; R likewise
    assert found["flange-corner-L"].value == '1-1/4" away'
    assert found["flange-corner-R"].value == '1-1/4" away'
    # independent: with no wall R read, the corner of B and L is all there is
    assert set(room(walls="LB")[0]) == {"flange-front-L", "flange-corner-L"}


def test_the_back_wall_holds_a_corner_its_side_wall_does_not_reach():
    # independent: with wall B's first stud at 1 in, its face reaches 1/4 from the corner; L1 is 1-1/4 away
    read = survey()
    walls = tuple(
        replace(wall, studs=(replace(wall.studs[0], along=F(1)), *wall.studs[1:]))
        if wall.name == "B"
        else wall
        for wall in read.walls
    )
    near = replace(read, walls=walls)
    checks, _ = backing_checks(Built(pan_facts(), near, FramingFacts(), plan(near)))
    found = next(check for check in checks if check.code == "flange-corner-L")
    assert found.value == '1/4" away'
    assert "B1" in found.because[0]


def test_no_pan_depth_is_asked_for():
    read = survey()
    checks, _ = backing_checks(Built(pan_facts(depth=None), read, FramingFacts(), plan(read)))
    by_code = {check.code: check for check in checks}
    assert by_code["flange-front-L"].verdict is Verdict.NOT_SHOWN
    assert "depth" in by_code["flange-front-L"].next_step
