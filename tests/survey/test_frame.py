"""The frame: opening, growth, squareness, and what is said to be unknown."""

from __future__ import annotations

from fractions import Fraction

import pytest

from tests.survey.cast import codes, facts, inch, room, survey
from undertile.survey.frame import GROWTH_UNKNOWN

F = Fraction


def test_the_opening_of_the_hand_room_is_its_own() -> None:
    # published: convention 8, opening 60-1/4 between the nominal planes
    frame = survey(room()).frame
    assert frame.opening_at_back == F(241, 4)
    assert frame.opening(F(20)) == F(241, 4)
    assert frame.growth_measured
    assert 0 < frame.opening_sigma < 1 / 32
    assert frame.out_of_square is not None
    assert abs(frame.out_of_square["L"]) < F(1, 512)


def test_a_tapered_opening_is_seen_in_its_growth() -> None:
    # independent: hand calculation, 60-1/4 at 2 and 60 at 34 is 1/4 less over 32
    table = room()
    for width in table["widths"].values():
        depth = int(width["depth"].rstrip('"'))
        width["reading"] = inch({2: "60-1/4", 18: "60-1/8", 34: "60"}[depth])
    table["diagonals"] = {}
    frame = survey(table).frame
    assert float(frame.opening_growth) * 32 == pytest.approx(-1 / 4, abs=1 / 128)
    opening = frame.opening(F(2))
    assert opening is not None
    assert float(opening) == pytest.approx(60.25, abs=1 / 64)


def test_gaps_between_the_lines_give_the_opening_too() -> None:
    # independent: 48-1/4 between two lines 6 in front of their planes is 60-1/4
    table = room()
    table["widths"] = table["diagonals"] = {}
    table["gaps"] = {
        "g1": {"depth": inch("2"), "reading": inch("48-1/4")},
        "g2": {"depth": inch("34"), "reading": inch("48-1/4")},
    }
    frame = survey(table).frame
    assert frame.opening_at_back == F(241, 4)
    assert frame.growth_measured


def test_widths_and_gaps_are_weighed_by_their_tools() -> None:
    # independent: two gaps at 1/16 against one width; the answer lies between, nearer the surer
    table = room()
    table["diagonals"] = {}
    table["widths"] = {"w": {"depth": inch("18"), "height": inch("2"), "reading": inch("60-1/4")}}
    table["gaps"] = {"g": {"depth": inch("18"), "reading": inch("48-3/8")}}
    frame = survey(table).frame
    assert frame.opening_at_back is not None
    assert F(241, 4) < frame.opening_at_back < F(965, 16)
    surer = room() | {"diagonals": {}, "widths": table["widths"], "gaps": table["gaps"]}
    surer["sigma"] = {"laser meter": inch("1/64")}
    there = survey(surer).frame.opening_at_back
    assert there is not None
    assert there > frame.opening_at_back


def test_one_depth_says_nothing_of_the_growth() -> None:
    table = room()
    table["diagonals"] = {}
    table["widths"] = {"w": {"depth": inch("18"), "height": inch("48"), "reading": inch("60")}}
    result = survey(table)
    assert result.frame.opening(F(18)) == 60
    assert not result.frame.growth_measured
    assert result.frame.opening_growth == 0
    assert "opening-one-depth" in codes(result)
    # independent: 1/8 over 36 for 18 in further on
    there, here = result.frame.sigma_at(F(36)), result.frame.sigma_at(F(18))
    assert there**2 - here**2 == pytest.approx((GROWTH_UNKNOWN * 18) ** 2)


def test_no_width_is_not_a_width_of_nothing() -> None:
    table = room()
    table["widths"] = table["diagonals"] = {}
    result = survey(table)
    assert result.frame.opening_at_back is None
    assert result.frame.opening(F(10)) is None
    assert result.frame.out_of_square is None
    assert "opening-not-measured" in codes(result)
    assert "square-not-measured" in codes(result)


def test_squares_turn_each_wall_by_its_own() -> None:
    # independent: 1/8 in over 36 at L, 1/16 out at R
    table = room()
    table["diagonals"] = {}
    table["widths"] = {}
    table["squares"] = {
        "l": {"wall": "L", "over": inch("36"), "out": inch("1/8")},
        "r": {"wall": "R", "over": inch("36"), "out": inch("-1/16")},
    }
    turns = survey(table).frame.out_of_square
    assert turns is not None
    assert float(turns["L"]) * 36 == pytest.approx(1 / 8, abs=1 / 128)
    assert float(turns["R"]) * 36 == pytest.approx(-1 / 16, abs=1 / 128)


def test_one_square_does_not_speak_for_the_other_wall() -> None:
    table = room()
    table["diagonals"] = table["widths"] = {}
    table["squares"] = {"l": {"wall": "L", "over": inch("36"), "out": inch("1/8")}}
    result = survey(table)
    assert result.frame.out_of_square is not None
    assert set(result.frame.out_of_square) == {"L"}
    assert [f.where for f in result.findings if f.code == "square-not-measured"] == ["wall R"]


def test_a_mirrored_room_has_a_mirrored_frame() -> None:
    # independent: symmetry, L and R exchanged
    table = room()
    table["widths"]["w7"]["reading"] = inch("60-3/16")
    table["diagonals"]["d1"]["reading"] = inch("69-5/16")
    mirror = room()
    mirror["widths"]["w7"]["reading"] = inch("60-3/16")
    mirror["diagonals"]["d2"]["reading"] = inch("69-5/16")
    one, two = survey(table).frame, survey(mirror).frame
    assert one.opening_at_back == two.opening_at_back
    assert one.opening_growth == two.opening_growth
    assert one.out_of_square is not None
    assert two.out_of_square is not None
    assert float(one.out_of_square["L"]) == pytest.approx(float(two.out_of_square["R"]), abs=1 / 4096)
    assert facts(table) != facts(mirror)
