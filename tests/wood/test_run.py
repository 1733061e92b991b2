"""The wet corner from the first visit to the third: extent, no date yet, who may be fed, a range."""

from __future__ import annotations

from fractions import Fraction as F

import pytest

from tests.wood.cast import answer, changed, corner
from undertile.findings import Severity
from undertile.sources import SOURCES


def test_the_goal_is_the_reference_and_four_and_never_over_sixteen() -> None:
    # published: convention 5.4; independent: the mean of 9, 9.5 and 8.5 is 9
    found = answer(corner(1))
    assert found.goals["lumber"].value == 13
    high = corner(1)
    for name in ("closet", "far-wall", "joist-off"):
        high["points"][name]["shown"]["1"] = "13"
    assert answer(high).goals["lumber"].value == 16


def test_the_first_visit_gives_extent_and_no_date() -> None:
    found = answer(corner(1), width=F(60))
    # independent: along the plate L18 dry, L6 wet, B28 the last wet, B40 dry: a foot past each
    cuts = {(cut.line, cut.side): cut.at for cut in found.cuts}
    assert cuts == {("plate", "low"): -18, ("plate", "high"): 40}
    assert (
        'toward wall R from plate B at 28": open to plate B at 40"; plate B at 40" is dry' in found.cut_words
    )
    corner_point = found.point("plate-B-4")
    assert corner_point is not None
    assert corner_point.call == "no date"
    assert "no date yet, it may be fed" in corner_point.why
    assert found.close.soonest == ""
    assert not found.gate.open


def test_the_second_visit_names_the_point_that_is_fed() -> None:
    # independent, by hand: of the wet points it alone has not fallen
    found = answer(corner(2))
    fed = {each.name for each in found.points if each.may_be_fed}
    assert fed == {"plate-B-4"}
    assert any(each.code == "point-fed" and each.where == 'plate B at 4"' for each in found.findings)


def test_the_third_visit_gives_a_range_for_the_rest() -> None:
    # independent: after the day of the visit, and in order
    found = answer(corner(3))
    calls = {each.name: each.call for each in found.points}
    assert calls["plate-B-28"] == "dry on"
    ahead = found.point("plate-B-28")
    assert ahead is not None
    assert ahead.forecast.days is not None
    assert "2026-03-06" < ahead.forecast.soonest <= ahead.forecast.latest
    # the whole has no date while one point has none, and says which
    assert found.close.soonest == ""
    assert any("plate B at 4" in each for each in found.close.why_not)


def test_without_the_fed_point_the_whole_has_a_range() -> None:
    # independent: after the day of the visit, and in order; one of the two wettest that are left
    facts = corner(3)
    del facts["points"]["plate-B-4"]
    for name in ("plate-B-40", "plate-L-18"):
        facts["points"][name]["awl"] = {"1": '0"'}
    for name, dry in (("closet", "11"), ("far-wall", "11.5"), ("joist-off", "10.5")):
        facts["points"][name]["shown"]["1"] = dry
    found = answer(facts)
    assert found.close.why_not == ()
    assert "2026-03-06" < found.close.soonest < found.close.latest
    assert found.close.slowest in ('plate B at 16"', 'plate L at 6"')


def test_a_dry_point_closes_on_two_readings_a_day_apart_and_an_awl() -> None:
    # published: convention 5.4
    facts = corner(2)
    call = answer(facts).point("plate-B-40")
    assert call is not None
    assert (call.call, call.next_step) == ("not shown", "Push an awl in with the thumb.")
    sound = changed(facts, points__plate_B_40__awl={"2": '1/16"'})
    found = answer(sound).point("plate-B-40")
    assert found is not None
    assert found.call == "close"
    one = answer(changed(corner(1), points__plate_B_40__awl={"1": '0"'})).point("plate-B-40")
    assert one is not None
    assert one.call == "not shown"


@pytest.mark.parametrize(
    ("first", "second", "closes"),
    [
        ("2026-03-02 16:00", "2026-03-03 16:00", True),
        ("2026-03-02 16:00", "2026-03-03 15:00", False),
        ("2026-03-02", "2026-03-03", False),
        ("2026-03-02", "2026-03-04", True),
    ],
)
def test_a_day_apart_is_24_hours_and_without_an_hour_two_dates(first: str, second: str, closes: bool) -> None:
    facts = changed(corner(2), points__plate_B_40__awl={"1": '0"'})
    facts["visits"]["1"]["when"], facts["visits"]["2"]["when"] = first, second
    found = answer(facts).point("plate-B-40")
    assert found is not None
    assert (found.call == "close") is closes


def test_a_rise_of_more_than_half_a_point_does_not_close() -> None:
    # published: convention 5.4; independent: from 10 to 11 is up 1
    facts = changed(corner(2), points__plate_B_40__awl={"1": '0"'})
    facts["points"]["plate-B-40"]["shown"] = {"1": "10", "2": "11"}
    found = answer(facts).point("plate-B-40")
    assert found is not None
    assert found.call == "no date"
    assert "+1.0" in found.why


@pytest.mark.parametrize(
    "unsound",
    [{"awl": {"1": '3/16"'}}, {"pick": {"1": "snaps"}}],
)
def test_unsound_wood_is_cut_out_however_dry(unsound: dict[str, dict[str, str]]) -> None:
    facts = corner(2)
    facts["points"]["plate-B-40"].update(unsound)
    found = answer(facts)
    point = found.point("plate-B-40")
    assert point is not None
    assert (point.call, point.bad) == ("cut out", True)
    assert any(each.code == "point-cut-out" for each in found.findings)


def test_decay_where_something_may_bear_stops_work() -> None:
    facts = corner(1)
    facts["points"]["plate-B-4"] |= {"awl": {"1": '1/2"'}, "bearing": "unknown"}
    stop = [each for each in answer(facts).findings if each.severity is Severity.STOP]
    assert [each.code for each in stop] == ["decay-bearing"]
    facts["points"]["plate-B-4"]["bearing"] = "no"
    assert not [each for each in answer(facts).findings if each.severity is Severity.STOP]


def test_cut_out_already_asks_for_nothing() -> None:
    found = answer(changed(corner(1), points__plate_B_4__out="2026-03-03")).point("plate-B-4")
    assert found is not None
    assert found.call == "gone"


def test_without_a_dry_reference_nothing_is_dry() -> None:
    # published: convention 5.4, no goal without a reference; 16 is the most a goal may be
    facts = corner(2)
    for name in ("closet", "far-wall", "joist-off"):
        del facts["points"][name]
    found = answer(facts)
    assert {each.call for each in found.points if each.value is not None and each.value < 16} == {"not shown"}
    assert any(each.code == "reference-thin" for each in found.findings)


def test_two_references_count_as_the_lower_and_say_that_they_are_few() -> None:
    # independent: of 9.5 and 8.5 the lower, and four
    facts = corner(1)
    del facts["points"]["closet"]
    found = answer(facts)
    assert found.goals["lumber"].value == 12.5
    assert any(each.code == "reference-thin" for each in found.findings)


def test_damp_air_gets_no_date_and_says_what_air_would_do() -> None:
    # published: Wood Handbook table 4-2, 70 F: 60 percent holds wood at 11.0, two under the goal of 13
    facts = corner(3)
    for visit in facts["visits"].values():
        visit["humidity"] = 75
    found = answer(facts)
    point = found.point("plate-B-28")
    assert point is not None
    assert (point.call, point.forecast.no) == ("no date", "damp air")
    assert found.air is not None
    assert not found.air.enough
    assert found.air.humidity is not None
    assert found.air.humidity == pytest.approx(0.60, abs=0.005)


def test_air_that_was_never_read_gives_no_date() -> None:
    # independent: without a humidity there is no moisture to dry to
    facts = corner(3)
    for visit in facts["visits"].values():
        del visit["humidity"]
    point = answer(facts).point("plate-B-28")
    assert point is not None
    assert point.forecast.no == "no air"


def test_the_last_wet_point_on_an_open_line_says_where_to_read_next() -> None:
    # independent, by hand: 28 is the last wet one, a foot past it is 40
    facts = corner(1)
    del facts["points"]["plate-B-40"]
    found = answer(facts, width=F(60))
    point = found.point("plate-B-28")
    assert point is not None
    assert point.call == "open further"
    assert 'plate B at 40"' in point.next_step
    assert found.probe_words.startswith('plate B at 40": dry, open to plate B at 40"')


def test_the_plate_goes_round_the_corner_to_wall_r_once_the_width_is_known() -> None:
    facts = corner(1)
    del facts["points"]["plate-B-40"]
    facts["points"]["plate-B-52"] = facts["points"]["plate-B-28"] | {"along": '52"'}
    facts["points"]["plate-R-8"] = facts["points"]["plate-B-28"] | {
        "wall": "R",
        "along": '8"',
        "shown": {"1": "9"},
    }
    joined = {(cut.line, cut.side): cut.at for cut in answer(facts, width=F(60)).cuts}
    assert joined[("plate", "high")] == 68  # independent: 60 + 8, past 52 + 12
    apart = answer(facts)
    assert {cut.line for cut in apart.cuts} == {"plate"}
    assert {cut.at for cut in apart.cuts if cut.side == "high"} == {None}


def test_treated_wood_is_held_against_treated_wood_only() -> None:
    # published: convention 5.4; independent: three of 11, and four, is 15
    facts = corner(2)
    facts["points"]["plate-B-16"] |= {"material": "treated", "shown": {"1": "17", "2": "17"}}
    point = answer(facts).point("plate-B-16")
    assert point is not None
    assert (point.relative, point.goal.value) == ("treated", None)
    for number in range(3):
        facts["points"][f"dry-{number}"] = {
            "member": "other",
            "material": "treated",
            "reference": True,
            "shown": {"1": "11"},
        }
    held = answer(facts).point("plate-B-16")
    assert held is not None
    assert held.goal.value == 15


def test_a_chip_dried_in_an_oven_counts_instead_of_the_meter() -> None:
    facts = corner(1)
    facts["points"]["plate-B-40"]["chips"] = {"1": {"wet": "11.2", "dry": "10"}}
    point = answer(facts).point("plate-B-40")
    assert point is not None
    assert point.value == 12  # independent: (11.2 - 10) / 10


def test_nothing_read_says_nothing() -> None:
    found = answer({})
    assert (found.state, found.findings, found.points) == ("not begun", (), ())


@pytest.mark.parametrize(
    ("change", "code"),
    [
        ({"visits__1__humidity": 400}, "humidity-odd"),
        ({"visits__1__air": "20 F"}, "air-out-of-table"),
        ({"visits__1__meter": "other"}, "meter-unknown"),
        ({"visits__1__when": "2026-03-20"}, "dates-out-of-order"),
        ({"visits__2__when": "2026-03-02 16:00"}, "dates-out-of-order"),
        ({"opened": "2026-05-01"}, "dates-out-of-order"),
        ({"points__plate_B_4__shown": {"1": "38"}}, "reading-out-of-range"),
        ({"points__plate_B_4__shown": {"9": "18"}}, "visit-unknown"),
        ({"points__plate_B_40__shown": {"1": "11", "2": "16.5"}}, "reading-jumped"),
        ({"points__plate_B_4__chips": {"1": {"wet": "9", "dry": "10"}}}, "chip-heavier-dry"),
        ({"points__loose": {"member": "plate", "material": "lumber"}}, "point-without-place"),
        ({"allowed": {"most": "15"}}, "moisture-limits-changed"),
        (
            {"equipment": {"fan": {"what": "air mover", "on": "2026-03-04", "off": "2026-03-02"}}},
            "dates-out-of-order",
        ),
    ],
)
def test_odd_input_is_one_clear_finding_and_the_rest_is_answered(
    change: dict[str, object], code: str
) -> None:
    found = answer(changed(corner(2), **change))
    own = [each for each in found.findings if each.code == code]
    assert own
    assert all(each.expected and each.found and each.next_step and "\n" not in each.line() for each in own)
    assert found.points


def test_every_source_cited_is_kept() -> None:
    facts = corner(3)
    facts["leak"] = {
        "pressures": {"a": {"when": "2026-03-02", "first": 60, "last": 60, "minutes": 5, "medium": "air"}}
    }
    found = answer(facts)
    cited = {
        each.source for each in (*found.findings, *found.points, *found.gate.missing, *found.source.stands)
    }
    assert cited <= set(SOURCES)


def test_equipment_days_are_count_times_days() -> None:
    facts = changed(
        corner(3), equipment={"fans": {"what": "air mover", "count": 2, "on": "2026-03-02 16:00"}}
    )
    # independent: two from the 2nd at 16:00 to the last visit, the 5th at 16:00
    assert answer(facts).equipment_days == {"air mover": pytest.approx(6.0)}


def test_more_wet_never_closes_more() -> None:
    facts = changed(corner(2), points__plate_B_40__awl={"1": '0"'})
    assert answer(facts).point("plate-B-40").call == "close"  # type: ignore[union-attr]
    for value in ("14", "18", "24", "over"):
        facts["points"]["plate-B-40"]["shown"]["2"] = value
        assert answer(facts).point("plate-B-40").call != "close"  # type: ignore[union-attr]
