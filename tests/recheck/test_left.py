"""What is left to do, and what the work done so far has used up: by hand."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction as F

import pytest

from tests.recheck.cast import Again, example, example_again, job_of, set_reading
from undertile.findings import Severity, Verdict
from undertile.framing.stage import build
from undertile.recheck.did import ticks_of
from undertile.recheck.left import Left
from undertile.recheck.sunk import (
    Now,
    bought,
    problem_now,
    studs_now,
    survey_now,
    too_many_layers,
)

ROOM = example()


def left(table: Again) -> Left:
    found = ROOM.again(table).left
    assert found is not None
    return found


def now(table: Again) -> dict[str, Now]:
    faces = ROOM.judged(table).faces
    done = job_of({**ROOM.table, "recheck": table}).recheck.done
    ticks = ticks_of(done, ROOM.plan, "in")
    return {each.member.name: each for each in studs_now(faces, ROOM.plan, ticks)}


def test_one_place_too_proud_is_one_pass_and_verifying_its_wall() -> None:
    """independent: R2 at 50 read 5-13/16: 3/16 proud of nominal, its plane is 1/16 in, 1/16 may stay: one
    pass of 1/16. 9 + 1.5 for the pass, 6 to verify: 16.5 minutes at 95/60 and 0.50 for the blade =
    26.625."""
    found = left(set_reading(example_again(), "R2", "50", "5-13/16"))
    assert [(m.name, m.recipe.passes, m.amounts) for m in found.members] == [("R2", 1, (0, 0, -F(1, 16), 0))]
    assert (found.minutes, found.cost, found.verify_minutes) == (F(33, 2), F(213, 8), 6)
    assert found.state == "proved"


def test_depth_already_planed_counts_against_the_craft_limit() -> None:
    """independent: B2 stood 3/16 proud at 50 and 1/8 at 26; read again at +1/16 and +1/32, 1/8 and 3/32 are
    off it. Craft allows 1/4 in all (convention 4.4): 1/8 and 5/32 are left. At 2 and 74 nothing was
    taken."""
    each = now(example_again())
    assert each["B2"].planed == (0, F(3, 32), F(1, 8), 0)
    first = build(ROOM.facts, ROOM.results).problem
    again = problem_now(first, tuple(each.values()), frozenset())
    member = next(m for wall in again.walls for m in wall.members if m.name == "B2")
    assert member.plane_depth == (F(1, 4), F(5, 32), F(1, 8), F(1, 4))
    assert "off it already" in member.why["planed"][0]


def test_planed_past_the_craft_limit_is_said_and_past_the_code_limit_stops() -> None:
    """independent: R2 at 50 stood 1/4 proud (5-3/4); read 6-1/8 now, 3/8 is off it, over the craft 1/4 but
    under 40 % of 3-1/2 (1-2/5)."""
    found = ROOM.again(set_reading(example_again(), "R2", "50", "6-1/8"))
    said = [each for each in found.findings if each.code == "again-planed-past-limit"]
    assert [(each.where, each.severity) for each in said] == [("R2 at 50", Severity.ACT)]
    assert '3/8"' in said[0].found


def test_strips_that_are_on_are_not_planed_and_layers_add_up() -> None:
    """independent: B4 has a strip of 1/8 at 26 and 50: nothing planed, and of 3/4 in all 5/8 are left."""
    each = now(example_again())
    assert each["B4"].done
    assert each["B4"].strips == (0, F(1, 8), F(1, 8), 0)
    first = build(ROOM.facts, ROOM.results).problem
    member = next(
        m
        for wall in problem_now(first, tuple(each.values()), frozenset()).walls
        for m in wall.members
        if m.name == "B4"
    )
    assert not any(member.plane_depth)
    assert all(first.stock[i].thickness <= F(5, 8) for i in member.stock)
    bare = survey_now(ROOM.results["survey"], tuple(each.values()), frozenset({"B4"}))
    b4 = next(s for w in bare.walls for s in w.studs if s.name == "B4")
    assert [o.value for o in b4.offsets] == [0, -F(1, 8), -F(1, 8), 0]
    twice = too_many_layers(
        ROOM.plan, tuple(each.values()), frozenset()
    )  # the same strip once more: two layers
    assert not twice


def test_strips_that_came_out_proud_come_off_where_that_costs_least() -> None:
    """independent: B4 1/8 proud at 26 and 50 with an 1/8 strip on: bare it stands on the plane. Taking it
    off is 4 minutes, verifying 6: 10 minutes, 15.83 dollars; planing into a strip is not offered, a sister
    is 22."""
    table = set_reading(set_reading(example_again(), "B4", "26", "5-7/8"), "B4", "50", "5-7/8")
    found = left(table)
    assert found.bare == ("B4",)
    assert [(m.name, m.touched) for m in found.members] == [("B4", False)]
    assert (found.minutes, found.cost) == (10, F(95, 6))


def test_a_stud_read_as_it_was_is_not_done() -> None:
    """independent: B4 reads 6-1/8 at 26 and 50 as before: the strip is still to put on, 7 minutes and 6."""
    table = set_reading(set_reading(example_again(), "B4", "26", "6-1/8"), "B4", "50", "6-1/8")
    del table["done"]["B4"]
    found = left(table)
    assert [(m.name, m.recipe.name) for m in found.members] == [("B4", "strip")]
    assert found.minutes == 13


def test_planes_may_move_and_then_nothing_is_left() -> None:
    """independent: the whole back wall 1/16 farther back than its plane in the flange zone and above, so
    every face is 1/16 back: still in the band, nothing to do. 1/8 back is outside it; but the back plane is
    asked for nothing, so a plane 1/8 back is as good, and every stud lies on it."""
    table = ROOM.as_planned()
    deep = ROOM.read(
        lambda stud, h: (
            ROOM.plan.member(stud).target[h] - (F(1, 8) if stud[0] == "B" else 0)
            if stud[0] == "B"
            else ROOM.plan.member(stud).finished[h]
        )
    )
    table["walls"]["B"] = deep["walls"]["B"]
    for stud in table["walls"]["B"]["studs"].values():
        stud["readings"] = [
            "6-1/8"
        ] * 4  # all of them, and so the neighbours say the wood moved, not the plan
    found = ROOM.judged(table)
    assert any(each.code == "again-line-moved" for each in found.findings)
    again = left(table)
    assert again.state == "nothing, planes moved"
    assert again.moved == ("B",)
    assert again.planes is not None
    table["planes"] = {"B": {"offset": "-1/8", "reason": "planed too deep all over"}}
    judged = ROOM.judged(table)
    faces = next(wall.studs for wall in judged.walls if wall.wall == "B")
    assert [s.checks[0].value for s in faces] == ["on the plane"] * 4


@pytest.mark.parametrize("families", [("sister",), ("replace",)])
def test_a_new_face_is_what_it_is_now(families: tuple[str, ...]) -> None:
    """independent: convention 4.2: a sistered stud may be planed and takes no second sister; a new one is
    new."""

    each = now(example_again())["B2"]
    recipe = replace(each.member.recipe, families=families, passes=0, depth=(), pieces=())
    fresh = replace(
        each, member=replace(each.member, recipe=recipe), done=True, planed=(F(0),) * 4, assumed=()
    )
    first = build(ROOM.facts, ROOM.results).problem
    again = problem_now(first, (fresh,), frozenset())
    before = next(m for wall in first.walls for m in wall.members if m.name == "B2")
    member = next(m for wall in again.walls for m in wall.members if m.name == "B2")
    assert member.plane_depth == before.plane_depth
    assert (member.sister is None) is (families == ("sister",))


def test_a_bearing_stud_is_never_planed_over_its_full_height_in_two_goes() -> None:
    """independent: convention 4.4: a rip over the full height of a bearing stud is not offered. With 26 and
    50 planed already, one of 2 and 74 stays out of reach of the planer."""

    each = now(example_again())["B2"]
    first = build(ROOM.facts, ROOM.results).problem
    wall = next(w for w in first.walls if w.name == "B")
    bearing = tuple(replace(m, rip_ok=False) if m.name == "B2" else m for m in wall.members)
    problem = replace(first, walls=(replace(wall, members=bearing),))
    (again,) = problem_now(problem, (each,), frozenset()).walls
    member = next(m for m in again.members if m.name == "B2")
    unplaned = [h for h, depth in enumerate(each.planed) if not depth]
    assert sum(1 for h in unplaned if member.plane_depth[h] == 0) == 1


def test_what_was_paid_once_on_a_wall_is_sunk_only_where_its_work_is_begun() -> None:
    each = tuple(now(ROOM.as_planned()).values())
    assert {wall for wall, _ in bought(ROOM.plan, each)} == {"B", "R"}
    assert not bought(ROOM.plan, tuple(now(ROOM.untouched()).values()))


def test_a_room_narrower_than_surveyed_is_planned_with_the_width_measured_again() -> None:
    """independent: 60-1/8 at all three depths between faces at the nominal: the opening is 60-1/8, not
    60-1/4. With both planes 1/16 in, the play would be 0. With both at the nominal it is 1/8, every face is
    within its band there, and no flange gap is left to shim."""
    table = example_again()
    table["walls"]["R"]["studs"]["R2"]["readings"] = ["6-0", "6-0", "5-15/16", "6-0"]
    table["widths"] = {d: {"depth": d, "height": "2", "reading": "60-1/8"} for d in ("1", "16", "32")}
    found = ROOM.again(table)
    assert {check.verdict for check in found.room[:3]} == {Verdict.FAIL}
    assert found.left is not None
    assert (found.left.state, found.left.moved) == ("nothing, planes moved", ("L", "R"))
    assert found.left.shims == ()
