"""Bending where a joist is notched or bored: by what is left of it there, worked by hand."""

from __future__ import annotations

from fractions import Fraction as F
from typing import Any

import pytest

from tests.floor.cast import KNOWN, ask, checks, facts, row
from undertile.findings import Verdict
from undertile.floor.joists import JoistIs, joists_of
from undertile.floor.netsection import net_modulus, worst_place

WIDE, DEEP, SPAN = F(3, 2), F(37, 4), F(144)


def joist(**own: Any) -> JoistIs:
    its = facts(joists_run="out from the back wall", all_joists=KNOWN, joists=row(J3=own))
    return next(each for each in joists_of(its) if each.name == "J3")


def strength(**own: Any) -> Any:
    its = facts(joists_run="out from the back wall", all_joists=KNOWN, joists=row(J3=own), tile="ceramic")
    return checks(ask(its))["joist-strength-J3"]


def notch(depth: str, start: str = "24", length: str = "3", side: str = "top", **more: Any) -> dict[str, Any]:
    return {"notches": {"pipe": {"start": start, "length": length, "depth": depth, "side": side, **more}}}


def hole(wide: str, top: str, at: str = "72") -> dict[str, Any]:
    return {"holes": {"drain": {"at": at, "diameter": wide, "top": top}}}


def test_a_whole_joist_is_judged_in_its_middle() -> None:
    """independent, by hand: w L^2 / 8 over b d^2 / 6 = 2592 / 21.390625."""
    worst = worst_place(joist())
    assert worst is not None
    assert (worst.stress, worst.words) == (F(2592) / (WIDE * DEEP**2 / 6), "")


def test_a_deep_notch_governs_where_the_moment_is_smaller() -> None:
    """independent, by hand: nearest to the middle at 27, M = 27 x 117 / 2 = 1579.5; 6-1/4 left, S = 9.765625.

    161.74 there against 121.18 in the middle: 1.3347 times.
    """
    worst = worst_place(joist(**notch("3")))
    assert worst is not None
    assert worst.words == "notch pipe"
    assert worst.stress == F("1579.5") / F("9.765625")
    whole, cut = strength(), strength(**notch("3"))
    ratio = int(cut.value.split()[0]) / int(whole.value.split()[0])
    assert ratio == pytest.approx(1.3347, abs=0.03)  # both are rounded up to whole percents
    assert "notch pipe" in cut.value
    assert any("net section" in each for each in cut.because)


def test_a_shallow_notch_near_the_bearing_leaves_the_middle_as_it_was() -> None:
    """independent, by hand: at 27, 1579.5 / 15.0156 = 105.19 is less than 121.18 in the middle."""
    assert strength(**notch("1-1/2")).value == strength().value


def test_a_hole_in_the_middle_by_hand() -> None:
    """independent, by hand: I = b (d^3 - h^3) / 12, S = I / (d / 2), 3 in at mid-depth in the middle."""
    worst = worst_place(joist(**hole("3", "3-1/8")))
    assert worst is not None
    inertia = WIDE * (DEEP**3 - F(3) ** 3) / 12
    assert worst.stress == F(2592) / (inertia / (DEEP / 2))
    assert worst.words == "hole drain"


def test_a_hole_off_the_middle_of_its_depth_against_strips() -> None:
    """independent: 40,000 strips of the depth, their area, axis and second moment summed."""
    out = (F(1), F(3))
    many = 40_000
    strips = [float(DEEP) * (k + 0.5) / many for k in range(many)]
    kept = [y for y in strips if not 1 < y < 3]
    thick = float(WIDE) * float(DEEP) / many
    axis = sum(kept) / len(kept)
    inertia = sum(thick * (y - axis) ** 2 for y in kept)
    far = max(float(DEEP) - axis, axis)
    assert float(net_modulus(WIDE, DEEP, [out])) == pytest.approx(inertia / far, rel=1e-4)


def test_a_notch_over_a_hole_leaves_what_both_leave() -> None:
    """independent, by hand: 1 off the top and 4 to 6 out leaves 3 and 3-1/4."""
    both = net_modulus(WIDE, DEEP, [(F(0), F(1)), (F(4), F(6))])
    assert both < net_modulus(WIDE, DEEP, [(F(0), F(1))])
    assert net_modulus(WIDE, DEEP, [(F(0), F(6)), (F(5), DEEP)]) == 0


@pytest.mark.parametrize(
    "own",
    [
        notch("2", side="bottom"),
        notch("1", side="bottom", length="4"),
        notch("1", side="bottom", start="70"),
    ],
    ids=["deep", "long", "middle"],
)
def test_a_notch_in_the_underside_past_the_limits_is_an_engineer_s(own: dict[str, Any]) -> None:
    """independent: IRC R502.8.1, a sixth of 9-1/4 deep, a third long, not in the middle third of 144."""
    found = strength(**own)
    assert found.verdict is Verdict.NOT_SHOWN
    assert "splits it" in found.next_step


def test_one_within_the_limits_is_judged_by_what_is_left() -> None:
    assert strength(**notch("1", side="bottom")).verdict is not Verdict.NOT_SHOWN


def test_what_cannot_be_in_it_is_measured_again() -> None:
    found = strength(**notch("10"))
    assert found.verdict is Verdict.NOT_SHOWN
    assert found.next_step == "Measure notch pipe and the joist again: it cannot be in it."
