"""Notch, hole and rip limits and the stiffness left, against the published figures."""

from __future__ import annotations

from fractions import Fraction as F

import pytest

from tests.pan.cast import inch, pan_facts, plan, survey
from undertile.findings import Check, Verdict
from undertile.framing.facts import FramingFacts
from undertile.framing.plan import Recipe
from undertile.pan.built import Built
from undertile.pan.cuts import cut_checks, stiffness_left


def room(
    planed: F = F(0), *, full: bool = False, bearing: str = "no", depth: object = inch("7/2"), **stud: object
) -> Built:
    at = (planed,) * 3 if full else (F(0), planed, F(0))
    done = {"B2": (Recipe(("plane",), passes=1, depth=at), tuple(-d for d in at))} if planed else {}
    framing = FramingFacts.model_validate(
        {
            "walls": {"B": {"kind": "wood", "bearing": bearing, "depth": depth}},
            "studs": {"B2": stud} if stud else {},
        }
    )
    read = survey()
    return Built(pan_facts(), read, framing, plan(read, None, done))


def checks(built: Built) -> dict[str, Check]:
    return {check.code: check for check in cut_checks(built)[0]}


@pytest.mark.parametrize(
    ("depth", "planed", "left"),
    [
        # independent, ((d - p) / d)^3: 2x4 1/8 -> 0.8966, 1/4 -> 0.8007, 3/8 -> 0.7118, 1/2 -> 0.6297;
        # 2x6 1/8 -> 0.9334, 1/4 -> 0.8697
        (F(7, 2), F(1, 8), 0.8966),
        (F(7, 2), F(1, 4), 0.8007),
        (F(7, 2), F(3, 8), 0.7118),
        (F(7, 2), F(1, 2), 0.6297),
        (F(11, 2), F(1, 8), 0.9334),
        (F(11, 2), F(1, 4), 0.8697),
    ],
)
def test_stiffness_left_is_the_published_table(depth: F, planed: F, left: float):
    assert float(stiffness_left(depth, planed)) == pytest.approx(left, abs=5e-5)


def test_stiffness_of_nothing_left_is_refused():
    with pytest.raises(ValueError, match="less than the depth"):
        stiffness_left(F(1), F(1))


@pytest.mark.parametrize(
    ("bearing", "depth", "most"),
    [
        # published: IRC R602.6: 25 % of 3-1/2 is 7/8, of 5-1/2 1-3/8; 40 % is 1.4 and 2.2
        ("yes", F(7, 2), F(7, 8)),
        ("unknown", F(7, 2), F(7, 8)),
        ("no", F(7, 2), F(7, 5)),
        ("yes", F(11, 2), F(11, 8)),
        ("no", F(11, 2), F(11, 5)),
    ],
)
def test_a_notch_passes_up_to_the_published_share_and_not_past_it(bearing: str, depth: F, most: F):
    at = checks(room(most, bearing=bearing, depth=inch(depth)))["notch-B2"]
    assert at.verdict is Verdict.PASS
    assert at.margin == '0"'
    over = checks(room(most + F(1, 64), bearing=bearing, depth=inch(depth)))["notch-B2"]
    assert over.verdict is Verdict.FAIL
    assert "engineer" in over.next_step


def test_what_is_notched_already_counts_with_the_planing():
    # independent: 3/4 notched and 1/8 planed is 7/8, the 25 % of 3-1/2; 1/16 more is not
    assert checks(room(F(1, 8), bearing="yes", notch=inch("3/4")))["notch-B2"].verdict is Verdict.PASS
    over = checks(room(F(3, 16), bearing="yes", notch=inch("3/4")))["notch-B2"]
    assert over.verdict is Verdict.FAIL
    assert over.value == '15/16", 27 % of the depth'  # 15/16 / 3-1/2 = 26.8 %, up


def test_a_rip_over_the_full_height_of_a_bearing_stud_fails():
    # published: a grading agency's statement that a rip voids the grade stamp (from memory)
    assert checks(room(F(1, 8), full=True, bearing="yes"))["notch-B2"].verdict is Verdict.FAIL
    assert checks(room(F(1, 8), full=True, bearing="unknown"))["notch-B2"].verdict is Verdict.FAIL
    assert checks(room(F(1, 8), full=True, bearing="no"))["notch-B2"].verdict is Verdict.PASS
    assert checks(room(F(1, 8), bearing="yes"))["notch-B2"].verdict is Verdict.PASS


def test_an_unmeasured_depth_shows_nothing():
    found = checks(room(F(1, 8), depth=None))["notch-B2"]
    assert found.verdict is Verdict.NOT_SHOWN
    assert "depth of B2" in found.next_step


def test_a_stud_neither_cut_nor_notched_says_nothing():
    assert not checks(room())


def test_the_stiffness_note_rounds_down():
    _, findings = cut_checks(room(F(1, 8)))
    # published: 0.8966, said as 89 %
    assert findings[0].data == {"percent": "89"}


def hole(edge: F, diameter: F = F(1)) -> dict[str, object]:
    return {"holes": {"vent": {"height": inch(60), "diameter": inch(diameter), "edge": inch(edge)}}}


def test_a_holes_edge_keeps_five_eighths():
    # published: IRC R602.6: edge of hole to edge of stud 5/8
    assert checks(room(**hole(F(5, 8))))["hole-B2-vent"].verdict is Verdict.PASS
    assert checks(room(**hole(F(9, 16))))["hole-B2-vent"].verdict is Verdict.FAIL


def test_a_hole_and_a_cut_may_not_share_a_section():
    # published: IRC R602.6: not in the same section. independent: 60 lies between readings at 48 and 90
    found = checks(room(F(1, 8), **hole(F(1))))["hole-B2-vent"]
    assert found.verdict is Verdict.FAIL
    assert "share a section" in found.next_step


@pytest.mark.parametrize(
    ("bearing", "diameter", "verdict"),
    [
        # published: IRC R602.6: 40 % of 3-1/2 is 1.4 bearing, 60 % is 2.1 not bearing
        ("yes", F(7, 5), Verdict.PASS),
        ("yes", F(3, 2), Verdict.FAIL),
        ("no", F(21, 10), Verdict.PASS),
        ("no", F(17, 8), Verdict.FAIL),
    ],
)
def test_a_hole_takes_no_more_than_its_share(bearing: str, diameter: F, verdict: Verdict):
    assert checks(room(bearing=bearing, **hole(F(5, 8), diameter)))["hole-B2-vent"].verdict is verdict


def test_a_hole_in_a_stud_of_unknown_depth_is_not_shown():
    assert checks(room(depth=None, **hole(F(1))))["hole-B2-vent"].verdict is Verdict.NOT_SHOWN
