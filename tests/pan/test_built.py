"""Faces between readings, zones, and what stands beside the pan."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction as F

from tests.pan.cast import convention_8, pan_facts, plan, survey
from undertile.framing.facts import FramingFacts
from undertile.framing.plan import Plane
from undertile.pan.built import Built, between
from undertile.survey.result import OffsetAt


def test_between_runs_straight_and_level_past_the_ends():
    at, values = (F(2), F(18), F(34)), [F(0), F(1, 4), F(1, 8)]
    # independent: halfway from 0 to 1/4, and the end values beyond
    assert between(at, values, F(10)) == F(1, 8)
    assert between(at, values, F(26)) == F(3, 16)
    assert between(at, values, F(0)) == 0
    assert between(at, values, F(40)) == F(1, 8)
    assert between(at, values, F(18)) == F(1, 4)


def test_a_face_between_studs_and_heights_is_the_mean_of_the_four_around_it():
    room = survey({"B1": (F(0), F(1, 4), F(0)), "B2": (F(0), F(1, 2), F(0))})
    built = Built(pan_facts(), room, FramingFacts(), plan(room))
    # independent: between 8 and 24 at half the way, between 2 and 48 at half the way: (1/8 + 1/4) / 2
    assert built.face("B", F(16), F(25)) == F(3, 16)


def test_the_step_counts_above_the_flange_zone_only():
    room = survey()
    made = plan(room, {"L": Plane("L", F(1, 16), F(0), F(0), F(3, 16))})
    built = Built(pan_facts(), room, FramingFacts(), made)
    assert built.target("L", F(2), F(2)) == F(1, 16)
    assert built.target("L", F(2), F(48)) == F(1, 4)
    # contract 2, 10: no height read in the flange zone: all of the wall is above it
    high = replace(built, pan=pan_facts(flange_height=None))
    assert high.target("L", F(2), F(2)) == F(1, 4)


def test_uncertainty_is_that_of_the_nearest_reading():
    room = survey(sigma=0.01, opening_sigma=0.02)
    stud = room.walls[0].studs[1]
    rough = replace(stud, offsets=(OffsetAt(F(2), F(0), 0.05, "not measured"), *stud.offsets[1:]))
    left = replace(room.walls[0], studs=(room.walls[0].studs[0], rough, room.walls[0].studs[2]))
    built = Built(pan_facts(), replace(room, walls=(left, *room.walls[1:])), FramingFacts(), plan(room))
    # independent: L2 stands at 18; 17 is nearest to it, 9 to L1 at 2; squares add up
    assert built.sigma(("L", F(17), F(0))) == 0.05
    assert built.sigma(("L", F(9), F(0))) == 0.01
    assert built.sigma(("L", F(17), F(40))) == 0.01
    assert abs(built.sigma(("L", F(17), F(0)), opening=F(17)) - (0.05**2 + 0.02**2) ** 0.5) < 1e-12
    # independent: a growth uncertain by 1/1000 an inch adds 16/1000 at 16 in from the depth known best
    frame = replace(built.survey.frame, growth_sigma=0.001, depth_middle=1.0)
    built = replace(built, survey=replace(built.survey, frame=frame))
    assert abs(built.sigma(opening=F(17)) - (0.016**2 + 0.02**2) ** 0.5) < 1e-12
    found = built.reading("L", F(17), F(0))
    assert found is not None
    assert found.state == "not measured"


def test_words_for_where_a_plane_lies():
    built = convention_8()
    assert built.moved(F(0)) == "on the nominal plane"
    assert built.moved(F(1, 16)) == '1/16" into the room'
    assert built.moved(F(-1, 16)) == '1/16" back'
    # independent: 1/100 in lies between 0 and 1/64: into the room rounds up, back rounds down
    assert built.moved(F(1, 100)) == '1/64" into the room'
    assert built.moved(F(-1, 60)) == '1/64" back'


def test_a_bath_with_no_flange_height_has_no_stud_beside_its_pan():
    built = convention_8()
    assert sum(built.beside_pan(member) for member in built.plan.members) == 10
    bare = replace(built, pan=pan_facts(flange_height=None))
    assert not any(bare.beside_pan(member) for member in bare.plan.members)
