"""Screws for each stack and plates at pipes, against the trade's own examples."""

from __future__ import annotations

from fractions import Fraction as F

import pytest

from tests.pan.cast import inch, pan_facts, plan, survey
from undertile.findings import Check, Verdict
from undertile.framing.facts import FramingFacts
from undertile.framing.plan import Piece, Recipe
from undertile.pan.built import Built
from undertile.pan.fasteners import (
    INTO_WOOD,
    packing_at,
    packing_beside,
    screw_checks,
    screw_need,
    service_checks,
)

ZERO = (F(0),) * 3


def room(
    done: dict[str, tuple[Recipe, tuple[F, ...]]] | None = None,
    *,
    board: object = inch("1/2"),
    screw: object = None,
    kind: str = "wood",
    studs: dict[str, object] | None = None,
    unit: str = "in",
) -> Built:
    framing = FramingFacts.model_validate(
        {
            "walls": {wall: {"kind": kind} for wall in "LBR"},
            "finish": {"board": board, "screw": screw},
            "studs": studs or {},
        }
    )
    read = survey()
    return Built(pan_facts(), read, framing, plan(read, None, done), unit)  # type: ignore[arg-type]


def strip(thickness: F) -> tuple[Recipe, tuple[F, ...]]:
    return Recipe(("strip",), pieces=(Piece("rip", thickness, 0, 2),)), (thickness,) * 3


def screws(built: Built) -> dict[str, Check]:
    return {check.code: check for check in screw_checks(built)[0]}


def test_a_short_screw_through_a_half_board_enters_three_quarters():
    # independent, by hand: a 1-1/4 screw through 1/2 board enters 3/4, a 1-5/8 enters 1-1/8
    assert F(5, 4) - F(1, 2) == INTO_WOOD
    assert screws(room(screw=inch("5/4")))["screws-L"].margin == '0"'
    assert screws(room(screw=inch("13/8")))["screws-L"].margin == '+3/8"'
    assert screws(room(screw=inch("5/4")))["screws-L"].value == '1-1/4" at L1, L2, L3'


def test_a_quarter_strip_leaves_half_an_inch_and_asks_for_the_next_screw():
    # common practice, no source: 1/2 board + 1/4 shim with a 1-1/4 screw leaves 1/2: change to 1-5/8
    found = screws(room({"L2": strip(F(1, 4))}, screw=inch("5/4")))["screws-L"]
    assert found.verdict is Verdict.FAIL
    assert found.value == '1-1/4" at L1, L3; 1-5/8" at L2 (not on the van: buy)'
    assert 'leaves 1/2" at L2' in " ".join(found.because)
    assert found.next_step == 'Change to 1-5/8" screws at L2: not on the van, buy them.'
    assert found.margin == '-1/4"'


@pytest.mark.parametrize(
    ("packing", "screw"),
    [
        # independent: 1/2 + packing + 3/4, next of 1-1/4, 1-5/8, 2, 2-1/4, 2-1/2
        (F(1, 16), '1-5/8"'),
        (F(3, 8), '1-5/8"'),
        (F(13, 32), '2"'),
        (F(3, 4), '2"'),
    ],
)
def test_the_screw_for_each_stack(packing: F, screw: str):
    assert f"{screw} at B1" in screws(room({"B1": strip(packing)}))["screws-B"].value


def test_a_stack_no_listed_screw_reaches_fails():
    # independent: 1-1/4 board + 3/4 + 3/4 = 2-3/4, over 2-1/2
    found = screws(room({"B1": strip(F(3, 4))}, board=inch("5/4")))["screws-B"]
    assert found.verdict is Verdict.FAIL
    assert "no listed screw reaches at B1" in found.value


def test_steel_asks_for_three_eighths_past_it():
    # independent: 1/2 + 3/8 = 7/8: the 1-1/4 has 3/8 to spare
    found = screws(room(kind="steel", screw=inch("5/4")))["screws-R"]
    assert found.margin == '+3/8"'


def test_planing_sisters_and_channel_are_not_packing():
    planed = Recipe(("plane",), passes=2, depth=(F(1, 8),) * 3)
    sister = Recipe(("sister",))
    both = Recipe(
        ("plane", "strip"), passes=1, depth=(F(1, 16), F(0), F(0)), pieces=(Piece("card", F(1, 8), 1, 2),)
    )
    built = room(
        {
            "B1": (planed, (F(-1, 8),) * 3),
            "B2": (sister, (F(1, 2),) * 3),
            "B3": (both, (F(-1, 16), F(1, 8), F(1, 8))),
        }
    )
    by_name = {member.name: member for member in built.members("B")}
    assert packing_at(by_name["B1"]) == ZERO
    assert packing_at(by_name["B2"]) == ZERO
    # independent: planed 1/16 at the foot with nothing on it; 1/8 of card above
    assert packing_at(by_name["B3"]) == (F(0), F(1, 8), F(1, 8))


def test_no_board_is_not_shown_and_no_screw_named_passes_with_what_to_buy():
    assert screws(room(board=None))["screws-L"].verdict is Verdict.NOT_SHOWN
    found = screws(room())["screws-L"]
    assert found.verdict is Verdict.PASS
    assert screw_checks(room())[1][0].text == 'Board screws, wall L: 1-1/4" at L1, L2, L3.'


def test_screws_keep_their_trade_name_in_a_job_in_millimetres():
    # independent: 1-1/4 in = 31.75 mm; 41 mm is no name a screw is sold under in inches
    assert screws(room(unit="mm", screw=inch(F(41 * 5, 127))))["screws-L"].value == "41 mm at L1, L2, L3"
    assert '1-1/4" (31.8 mm)' in screws(room(unit="mm"))["screws-L"].value


def pipe(clear: F, **more: object) -> dict[str, object]:
    return {"B2": {"services": {"riser": {"height": inch(48), "clear": inch(clear)} | more}}}


def plates(built: Built) -> Check:
    (check,) = (each for each in service_checks(built)[0] if each.code == "plate-B2-riser")
    return check


def tip(built: Built) -> Check:
    (check,) = (each for each in service_checks(built)[0] if each.code == "tip-B2-riser")
    return check


@pytest.mark.parametrize(
    ("clear", "verdict"),
    [
        # published: NEC 300.4(A)(1), IRC P2603.2.1: under 1-1/4 takes a plate
        (F(5, 4), Verdict.PASS),
        (F(5, 4) - F(1, 64), Verdict.FAIL),
    ],
)
def test_a_pipe_nearer_than_an_inch_and_a_quarter_takes_a_plate(clear: F, verdict: Verdict):
    check = plates(room(studs=pipe(clear)))
    assert check.verdict is verdict
    assert ("nail plate" in check.next_step) == (verdict is Verdict.FAIL)


def test_planing_eats_the_distance():
    # common practice, no source: planing a stud t deep, 1-1/4 becomes 1-1/4 - t
    planed = Recipe(("plane",), passes=2, depth=(F(0), F(1, 8), F(0)))
    check = plates(room({"B2": (planed, (F(0), F(-1, 8), F(0)))}, studs=pipe(F(5, 4))))
    assert check.value == '1-1/8"'
    assert check.verdict is Verdict.FAIL
    assert check.eats == 'planing 1/8"'


def test_between_the_two_published_distances_the_disagreement_is_said():
    # published: IPC and IMC say 1-1/2, NEC and IRC 1-1/4
    assert "sources disagree" in " ".join(plates(room(studs=pipe(F(11, 8)))).because)
    assert "sources disagree" not in " ".join(plates(room(studs=pipe(F(3, 2)))).because)


def test_a_plate_already_there_is_taken_as_one():
    check = plates(room(studs=pipe(F(1, 2), plated=True)))
    assert check.verdict is Verdict.PASS
    assert "a plate covers it" in check.because


@pytest.mark.parametrize(
    ("clear", "value", "margin"),
    [
        # independent: a 2 in screw through 1/2 board goes 1-1/2 in; 1/4 is kept before the wire
        (F(5, 4), 'a 2" screw ends 1/4" past its edge', '-1/2"'),
        (F(25, 16), 'a 2" screw stops 1/16" before it', '-3/16"'),
        (F(7, 4), 'a 2" screw stops 1/4" before it', '+0"'),
    ],
)
def test_a_screw_into_a_wire_fails_and_says_what_to_do(clear: F, value: str, margin: str):
    built = room(studs=pipe(clear, what="wire"), screw=inch(2))
    check = tip(built)
    assert check.value == value
    fails = clear < F(7, 4)
    assert check.verdict is (Verdict.FAIL if fails else Verdict.PASS)
    assert check.margin == margin.replace("+0", "0")
    if fails:
        # independent: the 1-1/4 goes 3/4 in
        assert 'Use 1-1/4" screws on B2 (not on the van: buy; the tip stops ' in check.next_step
        assert 'nail plate in flush on B2 at 48"' in check.next_step
        assert 'no screw at 48"' in check.next_step
    plate = [step for step in service_checks(built)[1] if step.kind == "nail plate"]
    assert [step.studs for step in plate] == ([("B2",)] if fails else [])
    if fails:  # published: convention 4.3: 3 minutes, $0.90
        assert "over the wire riser (3 min and $0.90, beyond the plan's cost)" in plate[0].text


def test_a_wire_so_near_that_no_screw_is_short_enough_needs_the_plate():
    # independent: 1/2 behind the face; the shortest screw goes 3/4 in and ends 1/4 past it
    check = tip(room(studs=pipe(F(1, 2))))
    assert check.verdict is Verdict.FAIL
    assert check.value == 'a 1-1/4" screw ends 1/4" past its edge'
    assert check.next_step.startswith("Let a nail plate in")
    assert not [
        each for each in service_checks(room(studs=pipe(F(1, 2), plated=True)))[0] if "tip" in each.code
    ]


def test_one_screw_for_each_stud_in_check_order_and_count():
    # independent: 2 in reaches every stack here; only at B2 it would end 1/4 past the wire
    built = room(studs=pipe(F(5, 4), what="wire"), screw=inch(2))
    value = '1-1/4" at B2 (not on the van: buy); 2" at B1, B3, B4'
    assert screws(built)["screws-B"].value == value
    assert screws(built)["screws-L"].value == '2" at L1, L2, L3'
    step = next(step for step in screw_checks(built)[1] if step.walls == ("B",))
    assert step.text == f"Board screws, wall B: {value}."
    needs = {m.name: screw_need(built, m, F(1, 2)) for m in built.members("B")}
    assert {name: (need.screw, need.on_van) for name, need in needs.items()} == {
        "B1": (F(2), True),
        "B2": (F(5, 4), False),
        "B3": (F(2), True),
        "B4": (F(2), True),
    }


def test_studs_nobody_named_are_said_to_be_taken_as_wood():
    assert any(
        "taken as wood, not known: L1, L2, L3" in line
        for line in screws(room(kind="unknown"))["screws-L"].because
    )
    assert not any("not known" in line for line in screws(room())["screws-L"].because)


def test_the_thickest_place_of_a_stack_sets_the_screw():
    # independent: 1/8 at the foot and 1/2 above: 1/2 + 1/2 + 3/4 = 1-3/4, so the 2 in
    pieces = (Piece("a", F(1, 8), 0, 0), Piece("b", F(1, 2), 1, 2))
    done = {"B1": (Recipe(("strip",), pieces=pieces), (F(1, 8), F(1, 2), F(1, 2)))}
    assert '; 2" at B1' in screws(room(done))["screws-B"].value


def test_packing_keeps_the_tip_off_the_pipe():
    # independent: 1/4 of strip: a 1-5/8 screw through 1/2 board goes 7/8 into the stud, 3/8 short of 1-1/4
    built = room({"B2": strip(F(1, 4))}, studs=pipe(F(5, 4)), screw=inch("13/8"))
    assert tip(built).value == 'a 1-5/8" screw stops 3/8" before it'
    assert tip(built).verdict is Verdict.PASS


def test_only_strips_at_the_wire_keep_the_tip_off_it():
    # independent, by hand: 1/8 all the way up and 7/32 at 2 and 48, the wire at 69: the second strip ends
    # somewhere between 48 and 90, so 1/8 is sure. 1/2 + 1/8 + 1-3/8 = 2: a 2" screw ends at the wire, not a
    # sixteenth before it, and a 1-5/8" screw 3/8 before it
    pieces = (Piece("a", F(1, 8), 0, 2), Piece("b", F(7, 32), 0, 1))
    done = {"B2": (Recipe(("strip",), pieces=pieces), (F(11, 32), F(11, 32), F(1, 8)))}
    wire = {"B2": {"services": {"riser": {"height": inch(69), "clear": inch("11/8"), "what": "wire"}}}}
    built = room(done, studs=wire, screw=inch(2))
    assert tip(built).value == 'a 2" screw stops 0" before it'
    assert 'the tip stops 3/8" before it' in tip(built).next_step


def test_a_taper_packs_straight_and_a_bed_by_the_thinner_height():
    built = room({"B2": (Recipe(("taper",), taper=(F(1, 8), F(3, 8))), (F(1, 8), F(1, 4), F(3, 8)))})
    member = next(m for m in built.members("B") if m.name == "B2")
    low, middle, high = member.heights
    half = (middle + high) / 2
    assert packing_beside(member, half) == F(5, 16), "independent: half-way between 1/4 and 3/8"
    assert packing_beside(member, low - 1) == F(1, 8)
    built = room({"B2": (Recipe(("wet bed",)), (F(1, 8), F(1, 16), F(3, 16)))})
    member = next(m for m in built.members("B") if m.name == "B2")
    assert packing_beside(member, half) == F(1, 16)
    assert packing_beside(member, high) == F(3, 16)
