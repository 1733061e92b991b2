"""Slips planted in what was read again: named where the plan and the first survey can tell."""

from __future__ import annotations

import copy
import random
from fractions import Fraction
from functools import cache

import pytest

from tests.recheck.cast import NOMINAL, Room, example, planned, set_reading
from undertile.findings import Verdict
from undertile.lengths import format_length


@pytest.mark.parametrize(
    ("stud", "height", "true", "typed", "code"),
    [
        # independent: each slip made by hand from the reading the plan leads to
        ("R2", "50", "5-7/8", "6-7/8", "reading-inch-off"),
        ("B4", "26", "6-0", "7-0", "reading-inch-off"),
        ("B4", "50", "6-0", "9-0", "reading-six-nine"),
        ("R2", "26", "5-15/16", "5-1/16", "reading-mirrored"),  # from the wrong side of the half
        ("B3", "26", "6-0", "5-0", "reading-inch-off"),  # on a stud nobody touched
    ],
)
def test_a_planted_slip_is_named(stud: str, height: str, true: str, typed: str, code: str) -> None:
    room = example()
    good = set_reading(room.as_planned(), stud, height, true)
    assert not room.judged(good).doubts
    found = room.judged(set_reading(good, stud, height, typed))
    assert len(found.doubts) == 1
    best = found.doubts[0][0]
    assert (best.where, best.code) == (f"{stud} at {height}", code)
    assert found.settle[0][:2] == (stud, Fraction(height))
    assert found.verdict is Verdict.FAIL  # as typed: nothing is corrected by itself
    face = next(s for w in found.faces for s in w.studs if s.name == stud).at(Fraction(height))
    assert face is not None
    assert face.text == typed


@cache
def lapped() -> Room:
    """The bundled room with a board that laps the flange: above it every face comes 1/2 forward."""
    table = copy.deepcopy(example().table)
    table["pan"]["pan"] |= {"detail": "laps", "flange_thickness": "1/2"}
    stock = {"1/16": "1/16", "1/8": "1/8", "1/4": "1/4", "3/8": "3/8", "1/2": "1/2"}
    table["framing"]["stock"] = {name: {"thickness": thick} for name, thick in stock.items()}
    return planned(table)


def test_a_stud_typed_in_the_other_direction_is_named() -> None:
    """independent: with the board lapping a flange 1/2 thick a stud is proud above and back at the floor;
    typed from the top down, both ends are 1/2 off and one slip explains both."""
    room = lapped()
    table = room.as_planned()
    readings = table["walls"]["L"]["studs"]["L3"]["readings"]
    assert readings[0] != readings[-1]
    assert "" not in readings
    assert not room.judged(table).doubts
    table["walls"]["L"]["studs"]["L3"]["readings"] = readings[::-1]
    found = room.judged(table)
    assert [group[0].where for group in found.doubts] == ["stud L3"]
    assert found.doubts[0][0].code == "row-reversed"
    assert found.doubts[0][0].offered == " ".join(readings)


def test_work_done_a_little_off_is_no_misreading() -> None:
    """independent: every changed face 1/8 short of the plan is bad work, alike on the stud, and no slip."""
    room = example()
    short = room.read(
        lambda stud, h: (
            room.plan.member(stud).finished[h]
            + (Fraction(1, 8) if room.plan.member(stud).amounts[h] < 0 else Fraction(0))
        )
    )
    found = room.judged(short)
    assert found.verdict is Verdict.FAIL
    assert not found.doubts


def test_honest_readings_raise_few_false_alarms() -> None:
    """independent: the plan carried out to a standard deviation of 1/32, read to 1/32, 40 times over 20
    readings: at most 1 in 200 readings in doubt."""
    room, rng = example(), random.Random(8)
    alarms = 0
    for _ in range(40):
        table = room.read(
            lambda stud, h: Fraction(round(32 * (room.plan.member(stud).finished[h] + _error(rng))), 32)
        )
        alarms += len(room.judged(table).doubts)
    assert alarms <= 4


def _error(rng: random.Random) -> Fraction:
    return Fraction(rng.gauss(0, 1 / 32)) + Fraction(rng.gauss(0, 1 / 32))


def test_a_line_that_moved_is_found_by_the_studs_nobody_touched() -> None:
    """independent: every reading of the back wall 1/8 more: its line hangs 1/8 farther out. With the reading
    that is zero now, 6-1/8, all is as it was."""
    room = example()
    table = room.as_planned()
    for stud in table["walls"]["B"]["studs"].values():
        stud["readings"] = [
            text and format_length(NOMINAL + Fraction(1, 8) - _offset(text)) for text in stud["readings"]
        ]
    found = room.judged(table)
    moved = [each for each in found.findings if each.code == "again-line-moved"]
    assert [each.where for each in moved] == ["wall B"]
    assert "6-1/8" in moved[0].next_step
    assert all(s.verdict is not Verdict.PASS for w in found.walls if w.wall == "B" for s in w.studs)
    table["walls"]["B"]["nominal"] = "6-1/8"
    again = room.judged(table)
    assert not [each for each in again.findings if each.code == "again-line-moved"]
    faces = [s.checks[0].verdict for w in again.walls if w.wall == "B" for s in w.studs]
    assert set(faces) == {Verdict.PASS}


def _offset(text: str) -> Fraction:
    whole, _, part = text.partition("-")
    return NOMINAL - Fraction(whole) - (Fraction(part) if part else 0)
