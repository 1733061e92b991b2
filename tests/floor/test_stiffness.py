"""Joists under the tile chosen, with what is planned on them; what knowing saves and remedies buy."""

from __future__ import annotations

import re
from fractions import Fraction as F

import pytest

from tests.floor.cast import KNOWN, ask, checks, codes, facts, row
from undertile.findings import Verdict
from undertile.floor.beam import Beam
from undertile.floor.facts import FloorFacts
from undertile.floor.joists import joists_of
from undertile.floor.loads import carried


def floor_of(tile: str = "ceramic", loads: dict | None = None, joists: dict | None = None, **stuff: object):
    own = {key: value for key, value in (KNOWN | stuff).items() if value is not None}
    its = facts(
        all_joists=own,
        joists=joists or row(),
        tile=tile,
        loads=loads or {},
        joists_run="out from the back wall",
    )
    return ask(its)


def test_loads_are_what_is_really_planned() -> None:
    # independent: 1-1/4 in of mortar at 125 lb a cu ft is 13.02, 3/8 in of tile at 145 is 4.53
    its = facts(
        loads={
            "on_top": {
                "bed": {"what": "mortar bed", "thickness": "1-1/4"},
                "tile": {"what": "ceramic tile", "thickness": "3/8"},
                "board": {"what": "other", "thickness": "1/2", "weight": "3"},
            }
        }
    )
    found = carried(its.loads)
    assert (found.live, found.base, found.point) == (40, 10, 300)
    assert float(found.dead) == pytest.approx(10 + 125 * 1.25 / 12 + 145 * 0.375 / 12 + 3)
    assert not found.unweighed


def test_a_joist_worked_by_hand() -> None:
    # independent: live 40 and dead 10 on 16 in is 50 x 16 / 144 = 5.5556 lb/in; E I = 1.6e6 x 98.932;
    # 5 w L^4 / 384 E I at 144 in = 0.19650 in = L/732; live alone L/916; stress 673 of 990 x 1.15
    found = checks(floor_of("stone"))
    assert found["joist-tile-J3"].value.startswith("L/732, ")
    assert found["joist-code-J3"].value.startswith("L/916, ")
    assert found["joist-tile-J3"].verdict is Verdict.PASS
    stress = 50 * 16 / 144 * 144**2 / 8 / 21.391
    assert found["joist-strength-J3"].value == f"{int(-(-stress * 100 // (900 * 1.1 * 1.15)))} %"


def test_a_mortar_bed_can_be_what_fails_it() -> None:
    bed = {"on_top": {"bed": {"what": "mortar bed", "thickness": "1-1/2"}}}
    assert checks(floor_of("stone"))["joist-tile-J3"].verdict is Verdict.PASS
    under = checks(floor_of("stone", bed))["joist-tile-J3"]
    assert under.verdict is Verdict.FAIL
    assert "span tables count 10 or 20" in under.eats
    by_live = checks(floor_of("stone", bed | {"judged_under": "live", "reason": "its handbook"}))
    assert by_live["joist-tile-J3"].verdict is Verdict.PASS


TOP = "Enter what goes on the subfloor, bed, board, mortar and tile, each with its thickness."


@pytest.mark.parametrize("tile", ["stone", "ceramic", "unknown"])
def test_what_lies_on_top_and_is_not_said_is_not_zero(tile: str) -> None:
    # independent: the verdict with a weight of nothing, and with the stone really planned, are two; which
    # of them holds is not known as long as nothing is said. Hem-fir no 2, 11 ft, 12 apart
    joist = {"species": "hem-fir", "grade": "no 2", "span": "132", "joists": row(apart="12")}
    planned = {
        "bed": {"what": "mortar bed", "thickness": "2"},
        "tile": {"what": "stone tile", "thickness": "3/4"},
    }
    light, heavy = floor_of(tile, **joist), floor_of(tile, {"on_top": planned}, **joist)
    untold = floor_of(tile, {"on_top": {}}, **joist)
    tiles = [checks(each)["joist-tile-J3"] for each in (light, heavy, untold)]
    assert [each.verdict for each in tiles[:2]] == [
        Verdict.PASS,
        {"ceramic": Verdict.PASS, "unknown": Verdict.NOT_SHOWN}.get(tile, Verdict.FAIL),
    ]
    assert (tiles[2].verdict, tiles[2].value, tiles[2].margin) == (Verdict.NOT_SHOWN, "", "")
    assert tiles[2].next_step == TOP
    for code in ("joist-strength-J3", "joist-shear-J3"):
        assert checks(light)[code].verdict is Verdict.PASS
        assert (checks(untold)[code].verdict, checks(untold)[code].next_step) == (Verdict.NOT_SHOWN, TOP)
    assert checks(untold)["joist-code-J3"] == checks(light)["joist-code-J3"], "live load alone"
    assert not any(each.ways for each in untold.joists), "what a way comes to is not known either"


def test_a_joist_that_fails_before_anything_lies_on_it_fails() -> None:
    # independent: more weight never stiffens
    light, untold = (
        floor_of("stone", loads, species="hem-fir", grade="no 3", span="192")
        for loads in (None, {"on_top": {}})
    )
    for code in ("joist-tile-J3", "joist-strength-J3"):
        assert checks(light)[code].verdict is checks(untold)[code].verdict is Verdict.FAIL
    assert checks(untold)["joist-tile-J3"].next_step.startswith("Stiffen it. What each way buys shows once")
    assert light.joists[2].ways
    assert not untold.joists[2].ways


def test_under_live_load_alone_what_lies_on_top_does_not_count_for_the_tile() -> None:
    untold = checks(floor_of("stone", {"on_top": {}, "judged_under": "live", "reason": "its handbook"}))
    assert untold["joist-tile-J3"].verdict is Verdict.PASS
    assert untold["joist-strength-J3"].verdict is Verdict.NOT_SHOWN


def test_without_tile_nothing_need_lie_on_top() -> None:
    assert checks(floor_of("none", {"on_top": {}}))["joist-strength-J3"].verdict is Verdict.PASS


def test_twice_the_spacing_is_half_the_stiffness() -> None:
    near, far = floor_of(), floor_of(joists=row(apart="32"))
    one, two = (int(checks(f)["joist-code-J3"].value[2:].split(",")[0]) for f in (near, far))
    assert abs(one - 2 * two) <= 2  # independent: linear in the load


def test_a_joist_carries_half_way_to_each_neighbour() -> None:
    joists = {"J1": {"at": "8"}, "J2": {"at": "20"}, "J3": {"at": "44"}}
    found = floor_of(joists=joists)
    assert [each.joist.spacing for each in found.joists] == [12, 18, 24]  # independent: by hand


@pytest.mark.parametrize("missing", ["span", "depth", "width"])
def test_a_joist_without_a_size_is_one_line_and_not_shown(missing: str) -> None:
    found = floor_of(**{missing: None})
    its = checks(found)
    for which in ("code", "tile", "strength", "shear"):
        assert its[f"joist-{which}-J1"].verdict is Verdict.NOT_SHOWN
    asked = {check.next_step for code, check in its.items() if code.startswith("joist-code-")}
    assert len(asked) == 1, "one line for all that lack the same"
    assert missing in asked.pop().replace("thickness", "width")
    same = {
        its[f"joist-{which}-J{n}"].next_step for which in ("tile", "strength", "shear") for n in range(1, 6)
    }
    assert same == {"Measure the same as for the live load."}, "and what to measure is said once"
    assert codes(found).count("joist-span-missing") == (5 if missing == "span" else 0)


def test_two_joists_at_one_place_share_its_neighbors() -> None:
    # independent: by hand, 0, 0, 16, 16, 40: each place once, the ends take the whole way
    joists = {f"J{i + 1}": {"at": at} for i, at in enumerate(("0", "0", "16", "16", "40"))}
    found = floor_of(joists=joists)
    assert [each.joist.spacing for each in found.joists] == [16, 16, 20, 20, 24]
    assert codes(found).count("joist-twice") == 2


@pytest.mark.parametrize(("span", "said"), [("36 mm", 1), ("18-7/16", 1), ("18-1/2", 0)])
def test_a_span_under_twice_the_depth_is_asked_about(span: str, said: int) -> None:
    # independent: twice 9-1/4 is 18-1/2
    found = floor_of(depth="9-1/4", span=span)
    own = [each for each in found.findings if each.code == "joist-span-short"]
    assert len(own) == 5 * said
    assert all('18-1/2"' in each.expected for each in own)
    its = {code: check for code, check in checks(found).items() if code.endswith("-J3")}
    for code in ("joist-code-J3", "joist-tile-J3", "joist-strength-J3", "joist-shear-J3"):
        assert (its[code].verdict is Verdict.NOT_SHOWN) is bool(said), code
        assert its[code].next_step.startswith("Measure span and depth of joist J3 again") is bool(said)
        assert bool(its[code].value) is not bool(said), "no figure of a span that is none"


def test_a_span_missing_on_one_joist_leaves_the_others_judged() -> None:
    bare = {key: value for key, value in KNOWN.items() if key != "span"}
    joists = row(many=3, J1={"span": "144"}, J3={"span": "144"})
    found = ask(facts(all_joists=bare, joists=joists, tile="ceramic", joists_run="out from the back wall"))
    its = checks(found)
    assert its["joist-tile-J1"].verdict is its["joist-tile-J3"].verdict is Verdict.PASS
    assert its["joist-tile-J2"].verdict is Verdict.NOT_SHOWN
    assert codes(found) == ["joist-span-missing"]


def test_unknown_wood_is_the_cautious_case_and_says_what_knowing_would_save() -> None:
    found = floor_of(species="unknown", grade="unknown", span="168")
    check = checks(found)["joist-tile-J3"]
    assert check.verdict is Verdict.NOT_SHOWN
    # independent: L/360 at 14 ft asks E >= 1.25e6 (50 x 16 / 144, 168 in): no 3 hem-fir and spruce do not
    least = 5 * (50 * 16 / 144) * 168**3 * 360 / (384 * 98.932)
    assert 1.2e6 < least < 1.3e6
    assert check.next_step == (
        "Find the grade stamp: it passes as Douglas fir-larch No. 3 or better; Hem-fir No. 2 or "
        "better; Southern pine No. 3 or better; Spruce-pine-fir No. 2 or better."
    )
    assert (
        checks(floor_of(species="hem-fir", grade="no 3", span="168"))["joist-tile-J3"].verdict is Verdict.FAIL
    )
    assert (
        checks(floor_of(species="unknown", grade="unknown", span="96"))["joist-tile-J3"].verdict
        is Verdict.PASS
    )


def test_a_joist_that_no_wood_saves_fails() -> None:
    check = checks(floor_of(species="unknown", grade="unknown", span="240"))["joist-tile-J3"]
    assert check.verdict is Verdict.FAIL


def test_a_tile_not_chosen_is_judged_as_stone() -> None:
    found = checks(floor_of("unknown", span="160"))["joist-tile-J3"]
    assert found.verdict is Verdict.NOT_SHOWN
    assert "holds for ceramic" in found.next_step
    assert checks(floor_of("ceramic", span="160"))["joist-tile-J3"].verdict is Verdict.PASS
    assert "joist-tile-J3" not in checks(floor_of("none", span="160"))


def test_a_sister_like_the_joist_doubles_it() -> None:
    found = floor_of("stone", span="160")
    answer = next(each for each in found.joists if each.joist.name == "J3")
    bare = int(checks(found)["joist-tile-J3"].value[2:].split(",")[0])
    ways = {way.what: way for way in answer.ways}
    known = ask(
        facts(
            all_joists=KNOWN | {"span": "160"},
            joists=row(),
            tile="stone",
            sister_stock={
                "width": "1-1/2",
                "depth": "9-1/4",
                "species": "douglas fir-larch",
                "grade": "no 2",
            },
        )
    )
    like = {way.what: way for way in known.joists[2].ways}
    assert abs(int(like["sister"].becomes[2:]) - 2 * bare) <= 2  # independent: twice the wood
    assert int(ways["sister"].becomes[2:]) < int(like["sister"].becomes[2:])  # of unknown wood: less
    assert abs(int(ways["joist between"].becomes[2:]) - 2 * bare) <= 2  # independent: half the floor
    assert abs(int(ways["beam"].becomes[2:]) - 8 * bare) <= 8  # independent: the cube of the span
    assert ways["blocking"].becomes == ""


def test_a_joist_that_passes_needs_no_remedy() -> None:
    assert all(not each.ways for each in floor_of("ceramic").joists)


def test_soft_wood_counts_for_nothing_and_unprobed_wood_is_not_shown() -> None:
    soft = {"J3": {"soft": {"a": {"start": "60", "length": "24", "depth": "3"}}}}
    found = checks(floor_of(joists=row(**soft)))
    whole = checks(floor_of())
    bare, full = (int(re.split("[ ,]", each["joist-code-J3"].value[2:])[0]) for each in (found, whole))
    # independent: by virtual work with E I 1.6e6 x 98.932, and (6.25 / 9.25)^3 of it from 60 to 84: 0.2855 in
    assert full == 916
    assert bare == 504
    assert found["joist-strength-J3"].verdict is Verdict.NOT_SHOWN
    unprobed = {"J3": {"soft": {"a": {"start": "60", "length": "24"}}}}
    assert "Probe how deep" in checks(floor_of(joists=row(**unprobed)))["joist-code-J3"].next_step


def test_an_engineered_joist_is_not_judged_as_lumber() -> None:
    found = checks(floor_of(make="engineered"))
    assert found["joist-tile-J1"].verdict is Verdict.NOT_SHOWN
    assert "maker's table" in found["joist-tile-J1"].next_step


def test_a_layer_without_a_weight_is_not_counted_as_nothing() -> None:
    loads = {"on_top": {"x": {"what": "other", "thickness": "1"}}}
    found = checks(floor_of(loads=loads))
    assert found["joist-tile-J1"].verdict is Verdict.NOT_SHOWN
    assert found["joist-tile-J1"].next_step == "Give the weight of x."
    assert found["joist-code-J1"].verdict is Verdict.PASS


def test_an_empty_floor_answers_nothing() -> None:
    found = ask(FloorFacts())
    assert found.empty
    assert found.findings == ()
    assert found.checks == ()


@pytest.mark.parametrize(("side", "said"), [(None, True), ("top", False), ("bottom", False)])
def test_a_soft_joist_says_that_its_stiffness_leaves_the_soft_out(side: str | None, said: bool) -> None:
    """independent: what is left is as stiff from either side; the other joists of the row are whole."""
    soft = {"start": "20", "length": "9", "depth": "1/2", **({"side": side} if side else {})}
    found = ask(facts(all_joists=KNOWN, joists=row(J3={"soft": {"a": soft}})))
    for code in ("joist-code", "joist-tile"):
        assert " what is soft left out, " in checks(found)[f"{code}-J3"].value
        assert "soft" not in checks(found)[f"{code}-J2"].value
    (soft_there,) = [each for each in found.findings if each.code == "joist-soft"]
    assert ("is not said" in soft_there.found) is said


def test_a_notch_is_left_out_of_the_stiffness_over_its_length() -> None:
    """independent: width times what is left of the depth cubed over 12, by hand; both where they overlap."""
    notch = {"start": "10", "length": "4", "depth": "1-1/2"}
    soft = {"start": "12", "length": "6", "depth": "1"}
    its = facts(all_joists=KNOWN, joists=row(J3={"notches": {"n": notch}, "soft": {"s": soft}}))
    (joist,) = [each for each in joists_of(its) if each.name == "J3"]
    wide, deep, worth = joist.width, joist.depth, joist.worth
    assert wide is not None
    assert deep is not None
    assert worth is not None
    beam = joist.beam()
    assert beam is not None
    gone = [(F(10), F(0)), (F(12), F(3, 2)), (F(14), F(5, 2)), (F(18), F(1)), (joist.span, F(0))]
    by_hand = [(end, worth.stiffness * wide * (deep - out) ** 3 / 12) for end, out in gone]
    assert [(each.high, each.stiffness) for each in beam.stretches] == by_hand


def test_a_notched_joist_says_so_and_is_less_stiff() -> None:
    notch = {"start": "10", "length": "4", "depth": "1-1/2"}
    found = checks(floor_of(joists=row(J3={"notches": {"n": notch}})))
    whole, less = (found[f"joist-tile-{name}"].value for name in ("J2", "J3"))
    assert " less its notches, " in less
    assert "notch" not in whole
    assert int(less[2:].split(" ")[0]) < int(whole[2:].split(",")[0])


def test_a_joist_cut_right_through_carries_nothing() -> None:
    notch = {"start": "10", "length": "4", "depth": "5"}
    soft = {"start": "8", "length": "6", "depth": "4-1/4"}
    check = checks(floor_of(joists=row(J3={"notches": {"n": notch}, "soft": {"s": soft}})))["joist-code-J3"]
    assert check.verdict is Verdict.NOT_SHOWN
    assert "carries nothing there" in check.next_step


def test_a_notch_deeper_than_the_joist_is_measured_again() -> None:
    notch = {"start": "10", "length": "4", "depth": "20"}
    check = checks(floor_of(joists=row(J3={"notches": {"n": notch}})))["joist-code-J3"]
    assert check.verdict is Verdict.NOT_SHOWN
    assert check.next_step == "Measure notch n and the joist again: it cannot be in it."


def test_a_cleat_beside_a_sistered_joist_is_not_counted_and_that_is_said() -> None:
    """independent: by hand, of x^2 (L - x) from 0 to 72 the stretch 57 to 72 is 0.4418; a 2x4 on edge adds
    5.359/98.93 of the joist's E I there: 0.4418 (1 - 1/1.05417) = 0.0227 off the bend. The figure stays."""
    sister = {"sister": {"width": "1-1/2", "depth": "9-1/4", "length": "96"}}
    bad = {"J": {"left": "20", "right": "50", "back": "10", "front": "40"}}
    said = "cleats and blocks at its side count for nothing"
    found = {}
    for edges in ("joist centres", "cleats"):
        its = facts(
            all_joists=KNOWN,
            joists=row(J3=sister),
            joists_run="out from the back wall",
            patch={"bad": bad, "edges": edges},
        )
        made = checks(ask(its))
        found[edges] = made["joist-code-J3"].value
        assert any(line.startswith(said) for line in made["joist-code-J3"].because)
        assert not any(line.startswith(said) for line in made["joist-code-J2"].because)
    assert len(set(found.values())) == 1
    alone = Beam.even(F(144), F(98_932))
    beside = alone.stiffened(F(57), F(87), F(5_359))
    taken = 1 - beside.under_even_load(F(1), F(72)) / alone.under_even_load(F(1), F(72))
    assert float(taken) == pytest.approx(0.0227, abs=0.0002)
