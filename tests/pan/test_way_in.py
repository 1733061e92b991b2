"""The way in: what waits, what does not, and what stands in the way."""

from __future__ import annotations

from fractions import Fraction as F

from hypothesis import given
from hypothesis import strategies as st

from tests.pan.cast import inch, pan_facts, plan, survey
from undertile.findings import Check, Verdict
from undertile.framing.facts import FramingFacts
from undertile.framing.plan import Piece, Plane, Recipe
from undertile.pan.built import Built
from undertile.pan.way_in import _between, _Point, way_in_checks


def answer(built: Built) -> tuple[dict[str, Check], list[str]]:
    checks, order = way_in_checks(built)
    return {check.code: check for check in checks}, [step.text for step in order]


def lapped() -> Built:
    """Board laps a 3/16 flange: every side stud gets a strip above the flange, planes 1/16 into the room."""
    room = survey({})
    step = F(3, 16)
    planes = {side: Plane(side, F(1, 16), F(0), F(0), step) for side in "LR"}
    strip = Recipe(("strip",), pieces=(Piece("ply", F(1, 4), 1, 2),), flange_shim=True)
    done = {f"{side}{i}": (strip, (F(0), F(1, 4), F(1, 4))) for side in "LR" for i in (1, 2, 3)}
    return Built(pan_facts(), room, FramingFacts(), plan(room, planes, done))


def test_strips_above_the_flange_wait_until_the_pan_is_set():
    checks, order = answer(lapped())
    # independent: with strips 60-1/4 - 1/4 - 1/4 = 59-3/4, no way down for a 60 pan; without them 60-1/4
    assert checks["way-in-width"].value == '60-1/4"'
    assert checks["way-in-width"].verdict is Verdict.PASS
    assert any('59-3/4"' in line for line in checks["way-in-width"].because)
    assert len(order) == 2
    assert order[0].startswith("After the pan is set")
    assert 'L2 ply from 48" to 90"' in order[0]


def test_a_strip_that_starts_in_the_flange_zone_cannot_wait():
    room = survey({})
    strip = Recipe(("strip",), pieces=(Piece("ply", F(1, 4), 0, 2),))
    done = {f"L{i}": (strip, (F(1, 4),) * 3) for i in (1, 2, 3)}
    built = Built(pan_facts(), room, FramingFacts(), plan(room, {"L": Plane("L", F(1, 4), F(0), F(0))}, done))
    checks, order = answer(built)
    # independent: 60-1/4 - 1/4 = 60 clear, nothing over
    assert checks["way-in-width"].value == '60"'
    assert checks["way-in-width"].margin == '0"'
    assert not order


def test_a_proud_stud_above_narrows_the_way_and_is_named():
    room = survey({"R3": (F(0), F(3, 8), F(0))})
    checks, _ = answer(Built(pan_facts(), room, FramingFacts(), plan(room)))
    # independent: 60-1/4 - 3/8 = 59-7/8
    assert checks["way-in-width"].value == '59-7/8"'
    assert checks["way-in-width"].verdict is Verdict.FAIL
    assert "R3" in checks["way-in-width"].eats
    assert '1/8"' in checks["way-in-width"].next_step


def test_tilted_in_below_the_proud_place_it_does_not_count():
    room = survey({"R3": (F(0), F(0), F(3, 8))})
    facts = pan_facts(way_in={"tilt_height": inch(48)})
    checks, _ = answer(Built(facts, room, FramingFacts(), plan(room)))
    assert checks["way-in-width"].value == '60-1/4"'
    # independent: faces run straight from 0 at 48 to 3/8 at 90: at 69 half of it, 3/16
    facts = pan_facts(way_in={"tilt_height": inch(69)})
    checks, _ = answer(Built(facts, room, FramingFacts(), plan(room)))
    assert checks["way-in-width"].value == '60-1/16"'


def test_a_pipe_in_front_of_the_studs_counts_where_it_stands():
    room = survey({})
    things = {"riser": {"wall": "L", "along": inch(20), "height": inch(40), "reading": inch("11/2")}}
    framing = FramingFacts.model_validate({"things": things})
    checks, _ = answer(Built(pan_facts(), room, framing, plan(room)))
    # independent: nominal 6, reading 5-1/2: 1/2 proud, 60-1/4 - 1/2 = 59-3/4
    assert checks["way-in-width"].value == '59-3/4"'
    assert checks["way-in-width"].verdict is Verdict.FAIL
    assert "riser" in checks["way-in-width"].next_step


def test_a_thing_not_read_leaves_the_way_not_shown():
    room = survey({})
    framing = FramingFacts.model_validate(
        {"things": {"riser": {"wall": "L", "along": inch(20), "height": inch(40)}}}
    )
    checks, _ = answer(Built(pan_facts(), room, framing, plan(room)))
    assert checks["way-in-width"].verdict is Verdict.NOT_SHOWN
    assert "riser" in checks["way-in-width"].next_step


def test_the_door_is_held_against_the_pans_shorter_side():
    room = survey({})
    checks, _ = answer(Built(pan_facts(way_in={"door": inch("63/2")}), room, FramingFacts(), plan(room)))
    # independent: 31-1/2 - 32 = -1/2 (common practice: a 60 by 32 pan needs 32 clear)
    assert checks["way-in-door"].margin == '-1/2"'
    assert checks["way-in-door"].verdict is Verdict.FAIL
    checks, _ = answer(Built(pan_facts(way_in={"door": inch(32)}), room, FramingFacts(), plan(room)))
    assert checks["way-in-door"].verdict is Verdict.PASS
    checks, _ = answer(Built(pan_facts(), room, FramingFacts(), plan(room)))
    assert checks["way-in-door"].verdict is Verdict.NOT_SHOWN
    assert "door" in checks["way-in-door"].next_step


def test_a_corner_has_no_width_to_pass():
    room = survey({}, walls="LB")
    checks, _ = answer(Built(pan_facts(), room, FramingFacts(), plan(room)))
    assert set(checks) == {"way-in-door"}


def test_a_thing_is_held_against_the_wall_across_from_it():
    # independent: the pipe stands 1/2 proud on R; L's own studs are 1/8 proud there, R's 1/4 back
    room = survey(
        {f"L{i}": (F(1, 8),) * 3 for i in (1, 2, 3)} | {f"R{i}": (F(-1, 4),) * 3 for i in (1, 2, 3)}
    )
    things = {"riser": {"wall": "R", "along": inch(20), "height": inch(40), "reading": inch("11/2")}}
    framing = FramingFacts.model_validate({"things": things})
    checks, _ = answer(Built(pan_facts(), room, framing, plan(room)))
    # independent: 60-1/4 - 1/2 - 1/8 = 59-5/8
    assert checks["way-in-width"].value == '59-5/8"'


def test_a_strip_flush_with_the_flange_plane_does_not_wait():
    # independent: studs 1/8 back above the flange, strips of 1/8 bring them flush with a plane at 1/16: no;
    # at 1/8 proud of it: yes
    low = {f"L{i}": (F(1, 16), F(-1, 16), F(-1, 16)) for i in (1, 2, 3)}
    room = survey(low)
    planes = {"L": Plane("L", F(1, 16), F(0), F(0))}
    for thickness, waits in ((F(1, 8), False), (F(3, 16), True)):
        strip = Recipe(("strip",), pieces=(Piece("ply", thickness, 1, 2),))
        done = {f"L{i}": (strip, (F(0), thickness, thickness)) for i in (1, 2, 3)}
        _, order = answer(Built(pan_facts(), room, FramingFacts(), plan(room, planes, done)))
        assert bool(order) is waits


def test_a_straight_pan_does_not_pass_where_each_stud_alone_would_let_it():
    # independent, by hand: a rigid pan against L1 and L3, each 1/8 in, leaves L2 alone; R2, 1/8 in, is across
    # from L2: 60-1/4 - 1/8 - 1/8 = 60, though opposite every stud 60-1/8 is clear
    room = survey({"L1": (F(0), F(1, 8), F(0)), "L3": (F(0), F(1, 8), F(0)), "R2": (F(0), F(1, 8), F(0))})
    checks, _ = answer(Built(pan_facts(), room, FramingFacts(), plan(room)))
    assert checks["way-in-width"].value == '60"'
    assert checks["way-in-width"].eats == "L1 and L3 and R2"


def test_a_pan_turns_between_walls_that_turn_alike():
    # independent, by hand: both side walls turn the same way by 1/8 over their studs: nothing is lost
    turned = {"L1": (F(0),) * 3, "L2": (F(1, 16),) * 3, "L3": (F(1, 8),) * 3}
    turned |= {"R1": (F(0),) * 3, "R2": (F(-1, 16),) * 3, "R3": (F(-1, 8),) * 3}
    room = survey(turned)
    checks, _ = answer(Built(pan_facts(), room, FramingFacts(), plan(room)))
    assert checks["way-in-width"].value == '60-1/4"'


@given(st.lists(st.integers(-8, 8), min_size=6, max_size=6))
def test_the_best_turn_is_found(sixty_fourths: list[int]):
    faces = [F(v, 64) for v in sixty_fourths]
    along = (F(2), F(18), F(34))
    left = [_Point(y, face, f"L{i}") for i, (y, face) in enumerate(zip(along, faces[:3], strict=True), 1)]
    right = [
        _Point(y, 60 - face, f"R{i}") for i, (y, face) in enumerate(zip(along, faces[3:], strict=True), 1)
    ]
    room = survey({})
    found = _between(Built(pan_facts(), room, FramingFacts(), plan(room)), left, right, F(48)).clear
    # independent: every turn of a fine comb, none is better, and one comes near
    tried = [
        min(p.x - s * p.depth for p in right) - max(p.x - s * p.depth for p in left)
        for s in (F(k, 16 * 64) for k in range(-16, 17))
    ]
    assert max(tried) <= found <= max(tried) + F(32, 2 * 16 * 64)


def test_what_does_not_pass_from_above_is_told_from_where_it_does():
    room = survey({"R2": (F(0), F(0), F(3, 8))})
    checks, _ = answer(Built(pan_facts(), room, FramingFacts(), plan(room)))
    # independent: nothing stands in below 90
    assert 'from 48" down it passes straight' in checks["way-in-width"].next_step
