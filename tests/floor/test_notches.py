"""Notches and holes: the published worked example, every rule at its limit, and what cannot be."""

from __future__ import annotations

from fractions import Fraction as F

import pytest

from tests.floor.cast import KNOWN, SIZES, ask, checks, codes, facts, row, text
from undertile.findings import Verdict


def floor_with(depth: str = "9-1/4", limits: dict | None = None, **cuts: dict):
    own = KNOWN | {"depth": depth}
    its = facts(all_joists=own, joists=row(J1=cuts), joists_run="out from the back wall")
    if limits is not None:
        its = its.model_copy(update={"cut_limits": its.cut_limits.model_copy(update=limits)})
    return ask(its)


def notch(**changes: object) -> dict:
    return {"start": "12", "length": "1", "depth": "1", **changes}


def hole(**changes: object) -> dict:
    return {"at": "60", "diameter": "2", "top": "3-5/8", **changes}


def test_the_published_example_of_a_2x10() -> None:
    # published: notch 1.54, hole 3.08, end notch 2.31 in a 2x10 (a code course's worked example)
    depth = SIZES["2x10"]
    for share, said in ((6, 1.54), (3, 3.08), (4, 2.31)):
        assert float(depth / share) == pytest.approx(said, abs=0.005)
    for code, deepest, change in (
        ("joist-notch-depth-J1-a", depth / 6, {}),
        ("joist-notch-depth-J1-a", depth / 4, {"over_bearing": True, "start": "0"}),
    ):
        for more, verdict in ((F(0), Verdict.PASS), (F(1, 64), Verdict.FAIL)):
            at = deepest // F(1, 64) * F(1, 64) + more
            found = checks(floor_with(notches={"a": notch(depth=text(at), **change)}))
            assert found[code].verdict is verdict, (code, at)


@pytest.mark.parametrize(
    ("size", "parts"), [("2x6", 0.917), ("2x8", 1.208), ("2x10", 1.542), ("2x12", 1.875)]
)
def test_a_sixth_of_every_size(size: str, parts: float) -> None:
    # published: IRC R502.8.1, depth over 6
    under, past = F(int(parts * 64), 64), F(int(parts * 64) + 1, 64)
    for depth, verdict in ((under, Verdict.PASS), (past, Verdict.FAIL)):
        found = checks(floor_with(text(SIZES[size]), notches={"a": notch(depth=text(depth))}))
        assert found["joist-notch-depth-J1-a"].verdict is verdict


@pytest.mark.parametrize(
    ("size", "sixth", "third"),
    [
        ("2x6", "29/32", "1-53/64"),
        ("2x8", "1-13/64", "2-13/32"),
        ("2x10", "1-17/32", "3-5/64"),
        ("2x12", "1-7/8", "3-3/4"),
    ],
)
def test_a_limit_is_never_printed_past_itself(size: str, sixth: str, third: str) -> None:
    """published: the shares of IRC R502.8.1. independent: 58.67, 77.33, 98.67, 120 sixty-fourths are a sixth
    of 5-1/2, 7-1/4, 9-1/4 and 11-1/4; rounded down. A cut of just that much passes and prints no other."""
    deep = text(SIZES[size])
    for cut in ("1/4", sixth):
        found = checks(floor_with(deep, notches={"a": notch(depth=cut)}))["joist-notch-depth-J1-a"]
        assert (found.verdict, found.limit) == (Verdict.PASS, f'at most {sixth}"')
    for cut in ("1/4", third):
        found = checks(floor_with(deep, holes={"a": hole(diameter=cut, top="1")}))["joist-hole-J1-a"]
        assert (found.verdict, found.limit) == (Verdict.PASS, f'at most {third}"')


def test_a_notch_keeps_out_of_the_middle_third() -> None:
    # independent: thirds of 144 are 48 and 96
    for start, verdict in (("47", "pass"), ("47-1/16", "fail"), ("95", "fail"), ("96", "pass")):
        found = checks(floor_with(notches={"a": notch(start=start)}))
        assert found["joist-notch-place-J1-a"].verdict.value == verdict, start


def test_a_notch_is_no_longer_than_a_third_of_the_depth() -> None:
    for length, verdict in (("3-1/16", "pass"), ("3-1/8", "fail")):  # published: 9.25 / 3 = 3.083
        found = checks(floor_with(notches={"a": notch(length=length)}))
        assert found["joist-notch-length-J1-a"].verdict.value == verdict


def test_only_a_thick_joist_keeps_its_underside_whole() -> None:
    # published: members 4 in nominal or thicker, actual 3-1/2
    thin = checks(floor_with(notches={"a": notch(side="bottom")}))
    assert "joist-notch-side-J1-a" not in thin
    its = facts(
        all_joists=KNOWN | {"width": "3-1/2"}, joists=row(J1={"notches": {"a": notch(side="bottom")}})
    )
    assert checks(ask(its))["joist-notch-side-J1-a"].verdict is Verdict.FAIL


def test_a_hole_in_a_2x6_is_held_by_the_two_inches_and_not_by_the_third() -> None:
    # independent: 5-1/2 less 2 and 2 leaves 1-1/2, though a third is 1.833
    for size, top, edge in (("1-1/2", "2", "pass"), ("1-9/16", "1-31/32", "fail")):
        found = checks(floor_with("5-1/2", holes={"a": hole(diameter=size, top=top)}))
        assert found["joist-hole-J1-a"].verdict is Verdict.PASS
        assert found["joist-hole-edge-J1-a"].verdict.value == edge


def test_holes_and_notches_keep_off_each_other() -> None:
    # independent: holes of 2 at 60 and 63-3/4 leave 1-3/4; a notch from 10 to 11 and a hole of 2 at 13, 1
    pair = {"a": hole(at="60"), "b": hole(at="63-3/4")}
    found = checks(floor_with(holes=pair))
    for name in "ab":
        assert found[f"joist-hole-edge-J1-{name}"].value == '1-3/4"'
        assert found[f"joist-hole-edge-J1-{name}"].verdict is Verdict.FAIL
    near = floor_with(holes={"a": hole(at="13")}, notches={"n": notch(start="10")})
    assert checks(near)["joist-hole-edge-J1-a"].value == '1"'
    assert "notch n" in checks(near)["joist-hole-edge-J1-a"].because[0]


@pytest.mark.parametrize(
    ("cuts", "code", "said"),
    [
        ({"holes": {"a": hole(diameter="10")}}, "joist-hole-odd", 'the hole is 10" wide'),
        ({"holes": {"a": hole(diameter="4", top="6")}}, "joist-hole-odd", 'starts 6" below the top'),
        ({"holes": {"a": hole(at="150")}}, "joist-hole-odd", 'the hole is at 150"'),
        ({"notches": {"a": notch(depth="9-1/4")}}, "joist-notch-odd", 'the notch is 9-1/4" deep'),
        ({"notches": {"a": notch(start="144")}}, "joist-notch-odd", 'the notch ends at 145"'),
    ],
)
def test_what_cannot_be_is_one_line_and_the_rest_is_judged(cuts: dict, code: str, said: str) -> None:
    found = floor_with(**cuts)
    lines = [each for each in found.findings if each.code == code]
    assert len(lines) == 1
    assert said in lines[0].found
    assert "\n" not in lines[0].line()
    assert checks(found)["joist-tile-J2"].verdict in (Verdict.PASS, Verdict.FAIL)
    assert not any("-J1-a" in check for check in checks(found))


def test_what_is_not_sawn_or_not_known_is_not_shown() -> None:
    for make, word in (("engineered", "maker's sheet"), ("unknown", "whether the joist is sawn")):
        its = facts(all_joists=KNOWN | {"make": make}, joists=row(J1={"notches": {"a": notch()}}))
        check = checks(ask(its))["joist-notch-depth-J1-a"]
        assert check.verdict is Verdict.NOT_SHOWN
        assert word in check.next_step
    bare = {key: value for key, value in KNOWN.items() if key != "depth"}
    its = facts(all_joists=bare, joists=row(J1={"holes": {"a": hole()}}))
    assert "actual depth" in checks(ask(its))["joist-hole-J1-a"].next_step


def test_the_code_in_force_may_differ_and_says_why() -> None:
    changed = {"notch_depth": 8, "edition": "town code 12-3", "reason": "stricter here"}
    found = checks(floor_with(limits=changed, notches={"a": notch(depth="1-1/4")}))["joist-notch-depth-J1-a"]
    assert found.verdict is Verdict.FAIL  # independent: 9.25 / 8 = 1.156
    assert found.because == ("1/8 of the joist's actual 9-1/4\", town code 12-3", "stricter here")


def test_a_joist_cut_past_its_limit_changes_no_other() -> None:
    clean, cut = floor_with(), floor_with(notches={"a": notch(depth="4")})
    assert [c for c in clean.checks if "J2" in c.code] == [c for c in cut.checks if "J2" in c.code]
    assert codes(clean) == codes(cut)


def test_a_notch_whose_side_nobody_said_is_not_taken_to_be_on_top() -> None:
    """independent: convention 4.5. One on top passes, one in the underside splits it: which is not known."""
    cut = {"a": notch(depth="1-1/2", length="3", start="20")}
    for code in ("joist-strength-J1", "joist-shear-J1"):
        untold = checks(floor_with(notches=cut))[code]
        assert untold.verdict is Verdict.NOT_SHOWN
        assert untold.next_step == "Say which side notch a is in, top or underside."
        typed = checks(floor_with(notches={"a": {**cut["a"], "side": "top"}}))[code]
        assert typed.next_step != untold.next_step
        assert typed.value
    assert not checks(floor_with(notches={"b": notch(depth="10")}))["joist-strength-J1"].next_step.startswith(
        "Say which side"
    )  # misread: measured again first


def test_a_thick_joist_s_notch_without_a_side_is_not_passed_over() -> None:
    its = facts(all_joists=KNOWN | {"width": "3-1/2"}, joists=row(J1={"notches": {"a": notch()}}))
    found = checks(ask(its))["joist-notch-side-J1-a"]
    assert (found.verdict, found.next_step) == (
        Verdict.NOT_SHOWN,
        "Say which side notch a is in, top or underside.",
    )
