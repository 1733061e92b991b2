"""The valve's finish window after the plane is chosen."""

from __future__ import annotations

from fractions import Fraction as F

import pytest

from tests.pan.cast import inch, pan_facts, plan, survey
from undertile.findings import Check, Verdict
from undertile.framing.facts import FramingFacts
from undertile.framing.plan import Charge, Plane
from undertile.pan.built import Built
from undertile.pan.valve import valve_checks

FINISH = {"board": inch("1/2"), "membrane": inch("1/32"), "mortar": inch("1/8"), "tile": inch("5/16")}
"""Jobmap C5's typical stack: 31/32 in all."""


def room(
    reading: F = F(8),
    *,
    offset: F = F(0),
    step: F = F(0),
    finish: dict[str, object] | None = None,
    charges: tuple[Charge, ...] = (),
    stud: F = F(0),
    **valve: object,
) -> Built:
    """A valve on wall L at 44, window 2-1/8 to 3-1/8; nominal 6."""
    framing = FramingFacts.model_validate(
        {
            "finish": FINISH if finish is None else finish,
            "valve": {
                "wall": "L",
                "along": inch(16),
                "height": inch(44),
                "reading": inch(reading),
                "window_low": inch("17/8"),
                "window_high": inch("25/8"),
            }
            | valve,
        }
    )
    faces = {f"L{i}": (stud,) * 3 for i in (1, 2, 3)}
    read = survey(faces)
    planes = {"L": Plane("L", offset, F(0), F(0), step)}
    return Built(pan_facts(), read, framing, plan(read, planes, charges=charges))


def check(built: Built) -> Check:
    (found,), _ = valve_checks(built)
    return found


def test_depth_is_plane_and_stack_less_the_datum():
    # independent: datum 2 behind nominal (6 - 8), plane 0, stack 31/32: 2-31/32
    found = check(room())
    assert found.value == '2-31/32"'
    assert found.limit == '2-1/8" to 3-1/8"'
    assert found.margin == '+5/32"'
    assert found.verdict is Verdict.PASS


def test_a_plane_farther_in_makes_the_valve_deeper():
    # common practice, no source: moving the plane forward makes the valve deeper. independent: + 1/8 = 3-3/32
    found = check(room(offset=F(1, 8)))
    assert found.value == '3-3/32"'
    assert found.eats == 'wall L 1/8" into the room'


def test_the_step_of_a_lapped_board_counts_above_the_flange():
    # independent: 2-31/32 and 3/16 is 3-5/32, 1/32 over the window
    found = check(room(step=F(3, 16)))
    assert found.value == '3-5/32"'
    assert found.verdict is Verdict.FAIL
    assert 'Re-block the valve 1/32" toward the room' in found.next_step


def test_too_shallow_is_moved_back_into_the_wall():
    # independent: datum 1 behind: depth 1-31/32, 5/32 short of 2-1/8
    found = check(room(F(7)))
    assert found.verdict is Verdict.FAIL
    assert 'Re-block the valve 5/32" back into the wall' in found.next_step


def test_reblocking_in_the_plan_makes_it_pass_and_says_how_far():
    paid = Charge("L", "re-block the valve", F(25), F(3))
    found = check(room(F(7), charges=(paid,)))
    assert found.verdict is Verdict.PASS
    assert 'after re-blocking by 5/32" back into the wall' in found.value
    _, order = valve_checks(room(F(7), charges=(paid,)))
    # independent: 5/32 at least; the window is 1 wide, but re-blocking reaches 1/2 at most
    assert [step.text for step in order] == [
        'Re-block the valve: move the body 5/32" to 1/2" back into the wall.'
    ]


def test_beyond_the_reach_of_reblocking_it_fails_even_when_it_is_paid():
    paid = Charge("L", "re-block the valve", F(25), F(3))
    found = check(room(F(13, 2), charges=(paid,)))
    # independent: datum 1/2 behind: depth 1-15/32, lacks 21/32, reach 1/2
    assert found.verdict is Verdict.FAIL
    assert '21/32"' in found.next_step
    assert '1/2"' in found.next_step


def test_a_valve_that_may_not_be_moved_says_so():
    found = check(room(F(7), may_reblock=False))
    assert found.verdict is Verdict.FAIL
    assert "may not be re-blocked" in found.next_step


@pytest.mark.parametrize("layer", ["board", "membrane", "mortar", "tile"])
def test_a_layer_not_given_is_asked_for(layer: str):
    found = check(room(finish={k: v for k, v in FINISH.items() if k != layer}))
    assert found.verdict is Verdict.NOT_SHOWN
    assert layer in found.next_step


def test_studs_off_the_plane_put_it_within_uncertainty():
    # independent: 1/8 to spare at the top (plane 1/32 in: 3 against 3-1/8); studs 1/16 proud do not reach it,
    # at 1/16 to spare they do
    assert not check(room(offset=F(1, 32), stud=F(3, 32))).within_uncertainty
    assert check(room(offset=F(3, 32), stud=F(5, 32))).within_uncertainty


def test_no_valve_says_nothing():
    read = survey()
    assert valve_checks(Built(pan_facts(), read, FramingFacts(), plan(read))) == ([], [])
