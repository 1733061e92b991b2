"""Why each stud gets what it gets."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from typing import Any

import pytest

from tests.framing.cast import OFFSETS, SEAT, easy_wall, facts, inch, minutes_only, play_demands, survey
from undertile.findings import Severity
from undertile.framing.build import Built, build_problem
from undertile.framing.plan import FramingPlan
from undertile.framing.reasons import plan_findings, reasons, with_reasons
from undertile.framing.search import solve
from undertile.framing.words import recipe_line

F = Fraction


def planned(offsets: dict[str, Any] | None = None, **changes: Any) -> tuple[FramingPlan, Built]:
    """A back wall alone, its plane held at 0 and plumb, so that each stud answers for itself."""
    hold = {"offset": inch(0), "skew": inch(0), "lean": inch(0), "reason": "to look at one stud"}
    wall = easy_wall(hold=hold) | changes.pop("wall", {})
    given = facts(walls={"B": wall}, prices=minutes_only(), **changes)
    built = build_problem(survey(offsets or OFFSETS, walls="B"), given, SEAT)
    return with_reasons(solve(built.problem), built.problem), built


def said(plan: FramingPlan, name: str) -> str:
    return " | ".join(plan.member(name).reasons)


def test_a_planed_stud_says_where_it_stands_what_may_stay_and_what_a_pass_less_leaves() -> None:
    plan, _ = planned()
    # independent, by hand: 3/16 proud, 1/16 may stay, one pass leaves 3/16 - 1/16 = 1/8
    assert plan.member("B2").reasons == (
        'stands 3/16" proud at 48; the plane there is at 0, 1/16" may stay above the flange (convention 3.3)',
        'one pass would leave it 1/8" proud at 48',
    )


def test_a_stripped_stud_says_how_far_back_it_lies() -> None:
    plan, _ = planned()
    assert plan.member("B4").reasons[0] == (
        'lies 1/8" back at 48; the plane there is at 0, 1/16" back may stay (convention 3.3)'
    )


def test_a_strip_says_what_the_next_thinner_would_leave() -> None:
    stock = {"1/16": {"thickness": inch("1/16")}, "1/4": {"thickness": inch("1/4")}}
    plan, _ = planned({"B4": (F(0), F(-3, 16), F(0))}, stock=stock)
    # independent, by hand: 3/16 back + 1/16 strip is 1/8 back, over 1/16
    assert plan.member("B4").recipe.pieces[0].stock == "1/4"
    assert 'the next thinner on the van (1/16) would leave it 1/8" back at 48' in said(plan, "B4")


def test_a_stud_that_is_left_says_that_it_lies_right() -> None:
    plan, _ = planned()
    assert plan.member("B1").reasons == (
        'as read it lies within 1/16" of the plane at every height (convention 3.3)',
    )


def test_flange_shims_say_the_gap_they_close() -> None:
    built = build_problem(survey(OFFSETS), facts(prices=minutes_only()), SEAT, play_demands())
    plan = with_reasons(solve(built.problem), built.problem)
    assert 'its face lies 1/16" behind the plane at 2' in said(plan, "L1")


def test_nothing_may_stay_proud_in_the_flange_zone() -> None:
    plan, _ = planned({"B2": (F(1, 16), F(0), F(0))})
    assert "nothing may stay proud in the flange zone" in said(plan, "B2")


def test_what_is_not_planed_says_why_and_what_forbids_the_next_cheaper_thing() -> None:
    studs = {"B2": {"kind": "steel"}}
    plan, _ = planned(studs=studs)
    text = said(plan, "B2")
    assert plan.member("B2").recipe.families == ("replace",)
    assert "not planed: steel is never planed" in text
    assert "no sister: a steel stud takes no sister" in text
    assert "replace" not in text  # a steel stud is re-set; the recipe says so, and once is enough
    assert recipe_line(plan.member("B2")) == "re-set in its track, its face on the plane"


def test_planing_that_stops_short_says_its_limit() -> None:
    # independent, by hand: 1/2 proud, 1/16 may stay, so 7/16 is to come off; craft stops at 1/4
    plan, _ = planned({"B2": (F(0), F(1, 2), F(0))})
    text = said(plan, "B2")
    assert plan.member("B2").recipe.families != ("plane",)
    assert "craft: at most" in text


def test_a_hold_and_a_soft_stud_say_whose_word_it_was() -> None:
    studs = {"B1": {"hold": {"treatment": "replace", "reason": "split by the plumber"}}, "B3": {"soft": True}}
    plan, _ = planned(studs=studs)
    assert plan.member("B1").reasons[0] == "held to replace: split by the plumber"
    assert plan.member("B3").reasons[0] == "the stud is soft: it gets a sister or is replaced"


def test_replacing_a_bearing_stud_stops_and_asks() -> None:
    studs = {"B2": {"bearing": "unknown", "hold": {"treatment": "replace", "reason": "rotten foot"}}}
    plan, built = planned(studs=studs)
    (stop,) = [f for f in plan.findings if f.code == "bearing-stud-out"]
    assert (stop.severity, stop.where) == (Severity.STOP, "B2")
    assert "counts as bearing" in stop.found
    free, _ = planned(studs={"B2": {"hold": {"treatment": "replace", "reason": "rotten foot"}}})
    assert not [f for f in free.findings if f.code == "bearing-stud-out"]
    assert plan_findings(replace(plan, findings=()), built.problem) == (stop,)


def test_wet_beds_must_set() -> None:
    studs = {"B2": {"hold": {"treatment": "wet bed", "reason": "no stock on the van"}}}
    plan, _ = planned({"B2": (F(0), F(-1, 8), F(0))}, studs=studs, wall={"wet_bed": True})
    assert [f.where for f in plan.findings if f.code == "bed-must-set"] == ["wall B"]


def test_every_member_of_a_plan_has_a_reason_and_a_stranger_has_none() -> None:
    plan, built = planned({f"B{i}": (F(i, 16), F(-i, 16), F(i, 32)) for i in (1, 2, 3, 4)})
    assert all(member.reasons for member in plan.members)
    with pytest.raises(KeyError):
        reasons(replace(plan.members[0], name="B9"), built.problem)


def test_a_face_just_outside_its_band_is_never_said_to_be_on_its_edge() -> None:
    stock = {"thin": {"thickness": inch("41/200")}, "1/4": {"thickness": inch("1/4")}}
    plan, _ = planned({"B4": (F(0), F(-9, 32), F(0))}, stock=stock)
    # independent, by hand: 9/32 - 0.205 = 0.07625, between 1/16 and 3/32, so over the 1/16 that may stay
    assert plan.member("B4").recipe.pieces[0].stock == "1/4"
    assert (
        'the next thinner on the van (thin (about 7/32)) would leave it just over 1/16" back at 48'
        in said(plan, "B4")
    )
