"""Offsets: exactly as read, and estimated where not."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.depth import deep
from tests.survey.cast import codes, facts, inch, room, survey, with_readings
from undertile.survey.result import OffsetAt, SurveyResult

F = Fraction


def at(result: SurveyResult, stud: str, height: int) -> OffsetAt:
    """One stud at one height."""
    (found,) = (
        offset
        for wall in result.walls
        for s in wall.studs
        if s.name == stud
        for offset in s.offsets
        if offset.height == height
    )
    return found


def test_an_offset_is_exactly_nominal_less_reading() -> None:
    # published: convention 2.2 and the room of convention 8
    result = survey(room())
    assert at(result, "B2", 48).value == F(3, 16)
    assert at(result, "B2", 48).text == '5-13/16"'
    assert at(result, "B4", 48).value == F(-1, 8)
    assert at(result, "L1", 2).value == 0
    assert {o.state for w in result.walls for s in w.studs for o in s.offsets} == {"read"}


@settings(max_examples=deep(30, 100))
@given(st.integers(64, 128), st.sampled_from(["B2", "L3", "R1"]), st.sampled_from([2, 48, 90]))
def test_no_reading_is_ever_changed(sixteenths: int, stud: str, height: int) -> None:
    # independent: subtraction by hand
    whole, part = divmod(F(sixteenths, 16), 1)
    text = f"{whole}-{part}" if part else f"{whole}"
    result = survey(with_readings(room(), **{f"{stud}_{height}": text}))
    assert at(result, stud, height).value == 6 - F(sixteenths, 16)


def test_walls_are_left_back_right_and_studs_and_heights_rise() -> None:
    table = room()
    table["walls"]["B"]["heights"].reverse()
    table["walls"]["B"]["studs"] = dict(reversed(table["walls"]["B"]["studs"].items()))
    result = survey(table)
    assert [wall.name for wall in result.walls] == ["L", "B", "R"]
    assert [stud.name for stud in result.walls[1].studs] == ["B1", "B2", "B3", "B4"]
    assert [int(z) for z in result.walls[1].heights] == [2, 24, 48, 72, 90]
    assert at(result, "B2", 48).value == F(3, 16)


def test_a_height_that_cannot_be_reached_is_estimated_and_says_so() -> None:
    result = survey(with_readings(room(), B2_48="x", B4_24=""))
    hidden = at(result, "B2", 48)
    assert hidden.state == "cannot reach"
    assert hidden.text == ""
    # the level on B2 says 3/16 from 2 to 48: independent of what lumber does
    assert float(hidden.value) == pytest.approx(3 / 16, abs=1 / 16)
    assert hidden.value.denominator <= 32
    assert at(result, "B4", 24).state == "not measured"
    assert hidden.sigma > at(result, "B2", 24).sigma
    assert codes(result).count("heights-not-read") == 1


def test_a_straight_stud_with_a_height_left_out_is_estimated_straight() -> None:
    # independent: hand calculation, 1/8 at 24 and 3/8 at 72 on a line through 1/4 at 48
    table = room()
    table["levels"] = {}
    readings = {"B3_2": "6-0", "B3_24": "5-7/8", "B3_48": "", "B3_72": "5-5/8", "B3_90": "5-17/32"}
    for n, z in (("B2", 0), ("B4", 0)):  # its neighbours lean alike, so that they agree
        for h, text in zip(
            ("2", "24", "48", "72", "90"), ("6-0", "5-7/8", "5-3/4", "5-5/8", "5-17/32"), strict=True
        ):
            readings[f"{n}_{h}"] = text
        assert z == 0
    result = survey(with_readings(table, **readings))
    assert at(result, "B3", 48).value == F(1, 4)


def test_two_heights_a_stud_are_enough_to_start() -> None:
    table = room()
    table["levels"] = {}
    readings = {f"{s}_{z}": "" for s in ("B1", "B2", "B3", "B4") for z in ("24", "48", "72")}
    result = survey(with_readings(table, **readings))
    assert at(result, "B3", 48).value == 0
    assert at(result, "B3", 48).state == "not measured"
    assert at(result, "B3", 48).sigma > 1 / 16
    assert "readings-unchecked" in codes(result)


def test_a_stud_with_one_reading_keeps_its_distance_to_its_neighbours() -> None:
    # independent: hand calculation, 1/4 proud of neighbours that stand at 0 all the way up
    blank = {f"B3_{z}": "" for z in ("24", "48", "72", "90")}
    table = with_readings(room(), B3_2="5-3/4", B2_24="6-0", B2_48="6-0", B2_72="6-0", **blank)
    for z in ("24", "48", "72"):
        table = with_readings(table, **{f"B4_{z}": "6-0"})
    table["levels"] = {}
    result = survey(table)
    assert at(result, "B3", 2).value == F(1, 4)
    assert float(at(result, "B3", 90).value) == pytest.approx(1 / 4, abs=1 / 32)
    assert at(result, "B3", 90).sigma > 3 / 32


def test_a_stud_not_read_at_all_is_taken_from_its_neighbours() -> None:
    # independent: hand calculation, halfway between B2 at 3/16 and B4 at -1/8 is 1/32
    blank = {f"B3_{z}": "" for z in ("2", "24", "48", "72", "90")}
    result = survey(with_readings(room(), **blank))
    assert at(result, "B3", 48).value == F(1, 32)
    assert at(result, "B3", 48).sigma >= 3 / 16


def test_a_wall_where_nothing_was_read_has_no_offsets() -> None:
    table = room()
    for stud in table["walls"]["R"]["studs"].values():
        stud["readings"] = {}
    result = survey(table)
    assert result.walls[2].studs == ()
    assert "wall-not-read" in codes(result)


def test_the_proud_edge_of_a_twisted_stud_counts() -> None:
    # published: convention 2.3; independent: 6 less 5-7/8 is 1/8
    table = with_readings(room(), L2_48="6-1/16")
    table["walls"]["L"]["studs"]["L2"]["arris"] = {inch("48"): inch("5-7/8")}
    offset = at(survey(table), "L2", 48)
    assert offset.value == F(1, 8)
    assert offset.text == '5-7/8"'
    assert offset.twist == F(-3, 16)


def test_plates_and_top_are_handed_on() -> None:
    table = room()
    table["walls"]["B"]["plates"] = {
        "b": {"along": inch("16"), "height": inch("1"), "reading": inch("5-15/16")},
        "t": {"along": inch("16"), "height": inch("91"), "reading": ""},
    }
    table["walls"]["B"]["top"] = inch("92-5/8")
    wall = survey(table).walls[1]
    assert [(p.name, p.value) for p in wall.plates] == [("b", F(1, 16))]
    assert wall.top == F(741, 8)


def test_the_reference_line_may_stand_anywhere() -> None:
    # independent: symmetry, a line one inch further off adds one inch to nominal and readings
    table = room()
    moved = facts(table).model_dump()
    moved_table = room()
    for wall in moved_table["walls"].values():
        wall["nominal"] = "7-0"
        for stud in wall["studs"].values():
            stud["readings"] = {
                z: {"6-0": "7-0"}.get(r, f"{int(r[0]) + 1}{r[1:]}") for z, r in stud["readings"].items()
            }
    for repeat in moved_table["repeats"].values():
        repeat["reading"] = "7-0"
    one, two = survey(table), survey(moved_table)
    assert moved["walls"]["B"]["nominal"] is not None
    for a, b in zip(one.walls, two.walls, strict=True):
        assert [[o.value for o in s.offsets] for s in a.studs] == [
            [o.value for o in s.offsets] for s in b.studs
        ]
    assert one.frame == two.frame
