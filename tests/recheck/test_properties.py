"""What must hold of a re-check whatever was read."""

from __future__ import annotations

import copy
from fractions import Fraction
from typing import Any

import pytest

from tests.recheck.cast import (
    NOMINAL,
    Again,
    Room,
    example,
    example_again,
    job_of,
    laid,
    planned,
    random_room,
    set_reading,
    sticks,
)
from undertile.findings import Verdict
from undertile.lengths import format_length
from undertile.recheck.asked import asked

SEEDS = range(2)


def rooms() -> list[Room]:
    return [example(), *map(random_room, SEEDS)]


@pytest.mark.parametrize("at", range(3))
def test_faces_exactly_on_the_plan_leave_nothing_to_do(at: int) -> None:
    """independent: a plan carried out to the letter is finished, and no reading of it is in doubt."""
    room = rooms()[at]
    found = room.again(room.as_planned())
    assert found.left is not None
    assert (found.left.state, found.left.members, found.left.cost) == ("nothing", (), 0)
    assert not found.doubts
    faces = [stud.checks[0] for wall in found.walls for stud in wall.studs]
    assert all(check.verdict is Verdict.PASS for check in faces), [c.where for c in faces]


@pytest.mark.parametrize("at", range(3))
def test_faces_on_the_plan_pass_once_straightedge_and_sticks_show_it(at: int) -> None:
    """independent: everything asked for is there and right, so nothing is left that could not be shown."""
    room = rooms()[at]
    found = room.judged({**room.as_planned(), "straightedges": laid("L", "B", "R"), "widths": sticks(room)})
    assert found.verdict is Verdict.PASS, [(c.code, c.next_step) for c in found.checks if c.next_step]
    assert found.proof is not None
    assert not found.proof.not_shown
    assert not found.proof.failed


@pytest.mark.parametrize("at", range(3))
def test_studs_nobody_touched_cost_what_the_first_plan_cost(at: int) -> None:
    """independent: the same problem has the same least cost. The first plan verifies three walls; what is
    left verifies the walls it touches, and the shims that go in with the pan are kept apart."""
    room = rooms()[at]
    found = room.again(room.untouched())
    left, plan = found.left, room.plan
    assert left is not None
    assert plan.cost is not None
    rate = Fraction(95, 60)
    first = plan.cost - rate * sum(c.minutes for c in plan.charges if c.what == "verify")
    now = left.cost - rate * left.verify_minutes + left.shim_cost
    assert now == first


def test_nothing_read_and_nothing_ticked_is_not_done() -> None:
    """independent: one straightedge laid, no stud read again: all the work is still to do."""
    room = example()
    left = room.again({"straightedges": laid("L")}).left
    assert left is not None
    assert {m.name for m in left.members} == {"B2", "B4", "R2"}
    assert any("the work not done" in words for words in left.taken)


# Mirror -------------------------------------------------------------------------------------------------


def mirrored(room: Room) -> Room:
    """The room seen in a mirror: L and R exchanged, the back wall from the other end."""
    table = copy.deepcopy(room.table)
    walls = table["survey"]["walls"]
    walls["L"], walls["R"] = _renamed(walls["R"], "L"), _renamed(walls["L"], "R")
    walls["B"]["studs"] = _turned(walls["B"]["studs"], Fraction(241, 4))
    for key in ("left", "right"):
        square = table["survey"]["squares"][key]
        square["wall"] = {"L": "R", "R": "L"}[square["wall"]]
    return planned(table)


def _renamed(wall: dict[str, Any], name: str) -> dict[str, Any]:
    return {**wall, "studs": {f"{name}{stud[1:]}": its for stud, its in wall["studs"].items()}}


def _turned(studs: dict[str, Any], width: Fraction) -> dict[str, Any]:
    names = list(studs)
    return {
        names[-1 - k]: {**studs[name], "along": format_length(width - Fraction(studs[name]["along"]))}
        for k, name in reversed(list(enumerate(names)))
    }


def mirror_of(stud: str, back: int) -> str:
    return {"L": "R", "R": "L"}[stud[0]] + stud[1:] if stud[0] != "B" else f"B{back + 1 - int(stud[1:])}"


def in_the_mirror(again: Again) -> Again:
    out: Again = {"walls": {}}
    for wall, its in again["walls"].items():
        other = {"L": "R", "R": "L", "B": "B"}[wall]
        studs = {mirror_of(stud, 4): facts for stud, facts in its["studs"].items()}
        out["walls"][other] = {**its, "studs": studs}
    return out


def test_the_mirror_image_has_the_mirror_image_of_every_verdict() -> None:
    """independent: symmetry of the room."""
    room = example()
    other = mirrored(room)
    again = set_reading(room.as_planned(), "R2", "50", "5-3/4")
    one, two = room.again(again), other.again(in_the_mirror(again))
    of = {stud.stud: stud.verdict for wall in one.walls for stud in wall.studs}
    there = {stud.stud: stud.verdict for wall in two.walls for stud in wall.studs}
    assert {mirror_of(stud, 4): verdict for stud, verdict in of.items()} == there
    assert one.left is not None
    assert two.left is not None
    assert one.left.cost == two.left.cost > 0
    assert one.verdict is two.verdict is Verdict.FAIL


# Farther off, and less read -----------------------------------------------------------------------------


def off_by(room: Room, stud: str, height: str, sixteenths: int) -> str:
    """The reading of a face so far off its plane."""
    member = room.plan.member(stud)
    h = [format_length(z) for z in member.heights].index(height)
    return format_length(NOMINAL - member.target[h] - Fraction(sixteenths, 16))


@pytest.mark.parametrize(("stud", "height"), [("B2", "50"), ("B4", "26"), ("R2", "50"), ("B2", "2")])
@pytest.mark.parametrize("way", [1, -1])
def test_a_face_farther_off_never_turns_a_fail_into_a_pass(stud: str, height: str, way: int) -> None:
    """independent: what is outside its band stays outside when it moves away from it."""
    room = example()
    whole = {**room.as_planned(), "straightedges": laid("L", "B", "R"), "widths": sticks(room)}
    failed = False
    for far in range(9):
        found = room.judged(set_reading(whole, stud, height, off_by(room, stud, height, way * far)))
        own = next(s.verdict for wall in found.walls for s in wall.studs if s.stud == stud)
        if failed:
            assert own is found.verdict is Verdict.FAIL, f"{far}/16 off"
        failed = failed or own is Verdict.FAIL
    assert failed


def test_a_reading_taken_away_never_makes_a_pass() -> None:
    """independent: what is not read shows nothing. Every reading asked for is left out in turn, of a room
    that passes and of one that fails."""
    room = example()
    good = {**room.as_planned(), "straightedges": laid("L", "B", "R"), "widths": sticks(room)}
    bad = set_reading(good, "R2", "50", "5-3/4")
    assert room.judged(good).verdict is Verdict.PASS
    for table in (good, bad):
        for each in asked(room.plan):
            less = set_reading(table, each.stud, format_length(each.height), "")
            assert room.judged(less).verdict is not Verdict.PASS, f"{each.stud} at {each.height}"


def test_the_bundled_room_passes_where_it_is_shown_and_not_elsewhere() -> None:
    """independent: docs/examples.md says what was left out of it."""
    found = example().judged(example_again())
    assert {wall.wall: wall.verdict for wall in found.walls} == {
        "L": Verdict.PASS,
        "B": Verdict.PASS,
        "R": Verdict.NOT_SHOWN,
    }
    assert found.verdict is Verdict.NOT_SHOWN
    assert [(each.stud, each.height) for each in found.missing] == [("R3", Fraction(50))]


def test_a_file_that_reads_a_stud_again_that_is_not_there_is_refused() -> None:
    table = {**example().table, "recheck": {"done": {"B9": {"by": "Ines"}}}}
    with pytest.raises(AssertionError, match="a stud of the survey"):
        job_of(table)
    table["recheck"] = {"walls": {"B": {"heights": ["2"], "studs": {"R2": {"readings": ["6-0"]}}}}}
    with pytest.raises(AssertionError, match="move it to recheck"):
        job_of(table)
