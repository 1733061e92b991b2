"""Shear in joists: by hand, by the stress over the section added up, against a frame solver; notches."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

import pytest

from tests.floor.cast import KNOWN, ask, checks, facts, row
from undertile.findings import Check, Verdict
from undertile.floor.joists import joists_of
from undertile.floor.shear import VALUE, sections

F = Fraction


def judged(live: str = "40", notches: dict[str, Any] | None = None, **joist: Any) -> Check:
    its = row(J2={"notches": notches or {}})
    floor = facts(joists=its, all_joists={**KNOWN, **joist}, tile="ceramic", loads={"live": live})
    return checks(ask(floor))["joist-shear-J2"]


def stress_of(notches: dict[str, Any], **joist: Any) -> list[Fraction]:
    its = facts(joists=row(J2={"notches": notches}), all_joists={**KNOWN, **joist})
    return [each.stress for each in sections(joists_of(its)[1], F(50, 9))]


def over_bearing(depth: str, side: str = "bottom") -> dict[str, Any]:
    return {"end": {"start": "0", "length": "4", "depth": depth, "side": side, "over_bearing": True}}


def test_a_joist_worked_by_hand() -> None:
    # independent: 2x10 at 16 in, 40 + 10 lb: 50 x 16 / 144 = 5.556 lb/in; 72 - 9.25 = 62.75 in of it,
    # 348.6 lb; 1.5 x 348.6 / 13.875 = 37.7 psi, of 180: 21 in 100
    (whole,) = stress_of({})
    assert float(whole) == pytest.approx(37.688, abs=0.001)
    made = judged()
    assert (made.verdict, made.value) == (Verdict.PASS, "21 %, one depth from its bearing")


def test_the_stress_over_the_section_adds_up_to_the_shear() -> None:
    """independent: the parabola of stress over the depth, summed, is the shear of the load there."""
    (whole,) = stress_of({})
    width, depth, n = 1.5, 9.25, 20000
    peak = float(whole)
    total = sum(peak * (1 - ((2 * (k + 0.5) / n) - 1) ** 2) * width * depth / n for k in range(n))
    assert total == pytest.approx(50 * 16 / 144 * (72 - 9.25), rel=1e-6)


def test_shear_of_the_load_against_a_frame_solver() -> None:
    """independent: PyNiteFEA's shear in the beam at a depth from the bearing."""
    from Pynite import FEModel3D  # type: ignore[import-untyped]

    model = FEModel3D()
    model.add_material("wood", 1.6e6, 6e5, 0.3, 0.0)
    model.add_section("joist", 13.875, 98.932, 2.6, 10.0)
    model.add_node("A", 0, 0, 0)
    model.add_node("B", 144, 0, 0)
    model.add_member("J", "A", "B", "wood", "joist")
    model.def_support("A", True, True, True, True, False, False)
    model.def_support("B", False, True, True, False, False, False)
    model.add_member_dist_load("J", "Fy", -50 / 9, -50 / 9)
    model.analyze()
    (whole,) = stress_of({})
    here = abs(model.members["J"].shear("Fy", 9.25))
    assert float(whole) == pytest.approx(1.5 * here / 13.875, rel=1e-6)


def test_a_quarter_notched_out_over_the_bearing_leaves_42_in_100() -> None:
    # independent: d_n / d = 3/4: 3/4 x (3/4)^2 = 27/64 of the area, all of the load at the bearing
    whole, notch = stress_of(over_bearing("2-5/16"))
    assert notch == F(50, 9) * 72 * F(3, 2) / (F(3, 2) * F(37, 4) * F(27, 64))
    assert notch / whole == F(72, 1) / (72 - F(37, 4)) * F(64, 27)


def test_a_notch_of_nothing_is_no_notch_and_a_deeper_one_is_worse() -> None:
    """independent: the formula's own limit, and order."""
    stresses = [stress_of(over_bearing(depth))[1] for depth in ("1/64", "1", "2", "3", "5")]
    assert stresses == sorted(stresses)
    nearly = F(50, 9) * 72 * F(3, 2) / (F(3, 2) * F(37, 4))
    assert float(stresses[0] / nearly) == pytest.approx(1, abs=0.006)


def test_from_above_it_counts_as_a_joist_of_what_is_left() -> None:
    # independent: 9-1/4 less 2 is 7-1/4: half of 72 x 5.556 x 3 over 1.5 x 7.25
    _, top = stress_of(over_bearing("2", "top"))
    assert top == F(3, 2) * F(50, 9) * 72 / (F(3, 2) * F(29, 4))
    assert top < stress_of(over_bearing("2"))[1]


def test_a_notch_further_in_carries_less() -> None:
    """independent: shear falls straight to the middle; the same notch from either end is the same."""

    def at(start: str) -> Fraction:
        return stress_of({"n": {"start": start, "length": "2", "depth": "1", "side": "bottom"}})[1]

    assert at("10") > at("20") > at("40")
    assert at("10") == at(str(144 - 10 - 2))
    assert at("0") == stress_of(over_bearing("1"))[1]


def test_a_deep_notch_at_the_bearing_fails_and_says_where() -> None:
    made = judged("100", over_bearing("5"))
    assert made.verdict is Verdict.FAIL
    assert 'notch end, 4-1/4" of 9-1/4" left' in made.value
    assert "engineer" in made.next_step


def test_unknown_wood_takes_the_least_and_says_what_passes() -> None:
    # independent: 80 + 10 lb make 10 lb/in and 720 lb at the bearing; 7-1/4 left of 9-1/4 makes
    # 10.875 x (7.25 / 9.25)^2 = 6.681 sq in: 161.7 psi, over 150 and under 175
    made = judged("80", over_bearing("2"), species="unknown")
    assert made.verdict is Verdict.NOT_SHOWN
    assert "Douglas fir-larch" in made.next_step
    assert "Southern pine" in made.next_step
    assert "hem-fir" not in made.next_step.lower()
    assert "spruce-pine-fir" not in made.next_step.lower()
    assert judged(species="unknown").verdict is Verdict.PASS
    assert min(VALUE.values()) == VALUE["spruce-pine-fir"]


def test_what_cannot_be_worked_is_not_shown() -> None:
    assert judged(make="engineered").verdict is Verdict.NOT_SHOWN
    its = row(J2={"soft": {"a": {"start": "20", "length": "6", "depth": "1/2"}}})
    found = checks(ask(facts(joists=its, all_joists=KNOWN, tile="ceramic")))
    assert found["joist-shear-J2"].verdict is Verdict.NOT_SHOWN
    assert found["joist-shear-J1"].verdict is Verdict.PASS


def test_a_sister_from_bearing_to_bearing_takes_its_share() -> None:
    """independent: one like the joist takes half."""
    beside = {"width": "1-1/2", "depth": "9-1/4", "species": "douglas fir-larch", "grade": "no 2"}
    its = row(J2={"sister": beside}, J3={"sister": {**beside, "start": "12", "length": "60"}})
    found = checks(ask(facts(joists=its, all_joists=KNOWN, tile="ceramic")))
    assert found["joist-shear-J2"].value.startswith("11 %")
    assert found["joist-shear-J3"].value.startswith("21 %")
