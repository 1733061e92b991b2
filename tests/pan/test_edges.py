"""Edges that continue: the step at each height read."""

from __future__ import annotations

from fractions import Fraction as F

from tests.pan.cast import inch, pan_facts, plan, survey
from undertile.findings import Check, Verdict
from undertile.framing.facts import FramingFacts
from undertile.framing.plan import Plane
from undertile.pan.built import Built
from undertile.pan.edges import edge_checks


def room(
    readings: dict[str, object],
    *,
    offset: F = F(0),
    lean: F = F(0),
    board: object = inch("1/2"),
    **edge: object,
) -> dict[str, Check]:
    framing = FramingFacts.model_validate(
        {
            "finish": {"board": board},
            "edges": {"plaster": {"wall": "R", "along": inch(36), "readings": readings} | edge},
        }
    )
    read = survey()
    built = Built(pan_facts(), read, framing, plan(read, {"R": Plane("R", offset, F(0), lean)}))
    return {check.code: check for check in edge_checks(built)}


def test_flush_is_the_plane_and_the_board_at_the_face_that_stays():
    # independent: face at reading 5-1/2: 1/2 proud of nominal; plane 0 and a 1/2 board are flush
    found = room({'48"': inch("11/2")})["edge-plaster-48"]
    assert found.value == "flush"
    assert found.verdict is Verdict.PASS
    assert found.margin == '0"'


def test_old_plaster_of_seven_eighths_needs_three_eighths_under_a_half_board():
    # common practice, no source: old plaster is 7/8, needs + 3/8 under a 1/2 board
    face = {'48"': inch("41/8")}
    assert room(face)["edge-plaster-48"].verdict is Verdict.FAIL
    assert 'out 11/32"' in room(face)["edge-plaster-48"].next_step
    assert room(face, offset=F(3, 8))["edge-plaster-48"].value == "flush"


def test_a_thirty_second_back_passes_and_proud_does_not():
    # common practice, no source: flush to 1/32 back
    face = {'48"': inch("11/2")}
    assert room(face, offset=F(-1, 32))["edge-plaster-48"].verdict is Verdict.PASS
    assert room(face, offset=F(-1, 32))["edge-plaster-48"].value == '-1/32" (back)'
    assert room(face)["edge-plaster-48"].limit == '-1/32" to 0"'
    assert room(face, offset=F(-3, 64))["edge-plaster-48"].verdict is Verdict.FAIL
    proud = room(face, offset=F(1, 64))["edge-plaster-48"]
    assert proud.verdict is Verdict.FAIL
    assert "bring the plane back" in proud.next_step


def test_the_persons_own_step_counts():
    face = {'48"': inch("11/2")}
    assert room(face, offset=F(1, 16), step_proud=inch("1/16"))["edge-plaster-48"].verdict is Verdict.PASS
    assert room(face, offset=F(-1, 8), step_back=inch("1/8"))["edge-plaster-48"].verdict is Verdict.PASS


def test_every_height_is_judged_on_its_own():
    # independent: lean 1/768 an inch: 1/16 in at 48, so 1/16 proud there and flush at the floor
    found = room({'0"': inch("11/2"), '48"': inch("11/2")}, lean=F(1, 768))
    assert found["edge-plaster-0"].verdict is Verdict.PASS
    assert found["edge-plaster-48"].verdict is Verdict.FAIL
    assert found["edge-plaster-48"].value == '1/16" (proud)'


def test_not_read_and_not_reached_are_not_a_pass():
    found = room({'48"': "", '90"': "x"})
    assert {check.verdict for check in found.values()} == {Verdict.NOT_SHOWN}
    assert "Read it" in found["edge-plaster-48"].next_step
    assert "cannot be reached" in found["edge-plaster-90"].next_step


def test_no_reading_no_board_and_no_height_are_asked_for():
    assert room({})["edge-plaster"].verdict is Verdict.NOT_SHOWN
    assert "board" in room({'48"': inch("11/2")}, board=None)["edge-plaster-48"].next_step
    (odd,) = room({"top": inch("11/2")}).values()
    assert odd.verdict is Verdict.NOT_SHOWN
    assert "height" in odd.next_step
