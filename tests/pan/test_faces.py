"""Plumb and flatness of the planned faces, through the one flatness check."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction as F

from tests.pan.cast import convention_8, inch, pan_facts, plan, survey
from undertile.findings import Check, Verdict
from undertile.framing.facts import FramingFacts
from undertile.framing.plan import Plane
from undertile.pan.built import Built
from undertile.pan.faces import face_checks, face_grid


def by_code(built: Built) -> dict[str, Check]:
    return {check.code: check for check in face_checks(built)}


def leaning(lean: F, **facts: object) -> Built:
    read = survey()
    planes = {"L": Plane("L", F(0), F(0), lean)}
    return Built(pan_facts(), read, FramingFacts.model_validate(facts), plan(read, planes))


def test_plumb_within_an_eighth_in_eight_feet():
    # published: UFGS, studs for thin-set tile 1/8 in 8 ft
    assert by_code(leaning(F(1, 8) / 96))["plumb-L"].verdict is Verdict.PASS
    over = by_code(leaning(F(9, 64) / 96))["plumb-L"]
    assert over.verdict is Verdict.FAIL
    assert over.value == '9/64" in 96", top into the room'
    assert by_code(leaning(F(0)))["plumb-L"].value == "no lean"


def test_the_persons_own_plumb_limit_counts():
    wide = leaning(F(3, 16) / 96, walls={"L": {"plumb_limit": inch("1/4")}})
    assert by_code(wide)["plumb-L"].verdict is Verdict.PASS


def test_faces_are_judged_off_the_plane_so_a_lean_is_not_a_bow():
    built = leaning(F(1, 8) / 96)
    grid = face_grid(built, "R")
    assert {v for row in grid.faces for v in row} == {F(0)}


def test_the_rules_follow_the_tile():
    built = convention_8()
    # published: A108.02 4.2.2: any edge 15 in or more, 24 and 120 in straightedges; else 12 and 120
    assert "flat-B-along-24" in by_code(built)
    small = replace(built, framing=FramingFacts.model_validate({"finish": {"tile_edge": inch(12)}}))
    assert "flat-B-along-12" in by_code(small)
    large = replace(built, framing=FramingFacts.model_validate({"finish": {"tile_edge": inch(15)}}))
    assert "flat-B-along-24" in by_code(large)


def test_readings_far_apart_do_not_show_the_short_rule():
    # convention 5.1, no source: readings 24 in apart cannot show the 24 in rule
    found = by_code(convention_8())["flat-L-up-24"]
    assert found.verdict is Verdict.NOT_SHOWN
    assert found.next_step


def test_a_hump_over_the_published_gap_fails():
    # independent: B3 1/4 low between studs 16 in either side: gap 1/4 under a 10 ft straightedge, limit 1/8
    read = survey({"B3": (F(-1, 4),) * 3})
    built = Built(pan_facts(), read, FramingFacts(), plan(read))
    assert by_code(built)["flat-B-along-120"].verdict is Verdict.FAIL


def test_a_wall_without_a_plan_is_not_shown():
    built = convention_8()
    found = by_code(replace(built, plan=replace(built.plan, planes={}, members=())))
    assert found["plumb-L"].verdict is Verdict.NOT_SHOWN


def test_a_place_not_read_is_not_shown_flat():
    # every line of wall L through the place that could not be reached is open until it is read
    room = convention_8().survey
    stud = room.walls[0].studs[0]
    blind = replace(stud, offsets=(replace(stud.offsets[0], state="cannot reach"), *stud.offsets[1:]))
    left = replace(room.walls[0], studs=(blind, *room.walls[0].studs[1:]))
    built = replace(convention_8(), survey=replace(room, walls=(left, *room.walls[1:])))
    assert by_code(built)["flat-L-along-24"].verdict is Verdict.NOT_SHOWN
    assert by_code(convention_8())["flat-L-along-24"].verdict is Verdict.PASS
