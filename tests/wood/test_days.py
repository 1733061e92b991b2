"""Days that cannot be so: found from what is typed alone, and the wood counts as still there."""

from __future__ import annotations

import pytest

from tests.wood.cast import answer, changed, corner
from undertile.findings import Severity
from undertile.wood.clock import Clock
from undertile.wood.facts import WoodFacts
from undertile.wood.gone import odd_outs
from undertile.wood.notyet import days_ahead

ODD = "out-day-odd"


@pytest.mark.parametrize(
    "out",
    # independent: the last reading is of the 5th at 16:00; 30 days past the 5th is the 4th of April
    ["2031-02-01", "2026-04-06", "2026-02-01", "2026-03-04", "2026-03-05 15:00"],
)
def test_a_cut_out_day_that_cannot_be_so_takes_nothing_out(out: str) -> None:
    plain, odd = answer(corner(3)), answer(changed(corner(3), points__plate_B_16__out=out))
    (said,) = [each for each in odd.findings if each.code == ODD]
    assert (said.severity, said.where) == (Severity.ACT, 'plate B at 16"')
    assert out in said.found
    before, after = plain.point("plate-B-16"), odd.point("plate-B-16")
    assert after is not None
    assert after == before
    assert odd.close == plain.close
    assert odd.gate == plain.gate


@pytest.mark.parametrize("out", ["2026-03-05", "2026-03-05 17:00", "2026-03-06", "2026-04-04"])
def test_a_cut_out_day_that_can_be_so_takes_the_wood_out(out: str) -> None:
    # independent: as above, from the other side
    found = answer(changed(corner(3), points__plate_B_16__out=out))
    point = found.point("plate-B-16")
    assert point is not None
    assert point.call == "gone"
    assert not [each for each in found.findings if each.code == ODD]


def test_a_reading_of_the_place_alone_can_contradict_its_day() -> None:
    # independent: pushed at with an awl on the 5th, it was not out on the 4th
    facts = changed(corner(3), points__plate_B_16__out="2026-03-04", points__plate_B_16__awl={"3": "0"})
    facts["points"]["plate-B-16"]["shown"] = {"1": "27"}
    assert [each.code for each in answer(facts).findings].count(ODD) == 1


@pytest.mark.parametrize(
    ("change", "where"),
    [
        ({"visits__3__when": "2027-03-05 16:00"}, "visit 3"),
        (
            {"leak__pressures": {"a": {"when": "2027-03-05", "first": 60, "last": 60, "minutes": 20}}},
            "pressure test, a",
        ),
        ({"leak__mended": {"pan": {"when": "2026-08-01", "what": "new liner"}}}, "mended, the pan"),
        ({"visits__1__when": "2025-03-02"}, "visit 1"),
    ],
)
def test_a_day_far_from_all_the_others_is_asked_about(change: dict[str, object], where: str) -> None:
    # independent: by the calendar, the days of the corner lie in one week of March 2026
    found = answer(changed(corner(3), **change))
    (said,) = [each for each in found.findings if each.code == "day-far-off"]
    assert said.where.startswith(where)
    assert "within 60 days" in said.expected
    assert not [each for each in answer(corner(3)).findings if each.code == "day-far-off"]


@pytest.mark.parametrize(
    ("today", "said"),
    # independent: by the calendar; the corner's last visit is of the 5th at 16:00, and one day is left over
    [("2026-03-05", []), ("2026-03-04", []), ("2026-03-03", ["visit 3"]), ("", [])],
)
def test_a_day_that_has_not_come_yet_is_said_where_there_is_a_clock(today: str, said: list[str]) -> None:
    facts = WoodFacts.model_validate(corner(3), context={"unit": "in"})
    assert [each.where for each in days_ahead(facts, Clock(today))] == said


def test_a_cut_out_day_that_has_not_come_yet_is_said_too() -> None:
    # independent: by the calendar
    typed = changed(corner(3), points__plate_B_16__out="2026-03-20")
    facts = WoodFacts.model_validate(typed, context={"unit": "in"})
    (said,) = odd_outs(facts, Clock("2026-03-06")).values()
    assert (said.where, said.expected) == ('plate B at 16"', "a day not after today, 2026-03-06")
    assert odd_outs(facts) == {}


@pytest.mark.parametrize(
    ("change", "odd"),
    [
        # independent, by hand: what has to go for the rest to be in order; of two that changed places both
        ({"visits__3__when": "2026-03-01 08:00"}, {"3"}),
        ({"visits__1__when": "2026-03-20"}, {"1"}),
        ({"visits__3__when": "2026-03-03 08:00"}, {"2", "3"}),
    ],
)
def test_the_same_visit_is_blamed_everywhere_and_no_trend_stands_on_its_day(
    change: dict[str, str], odd: set[str]
) -> None:
    found = answer(changed(corner(3), **change))
    said = [each for each in found.findings if each.code == "dates-out-of-order"]
    blamed = {each.where.removeprefix("visit ") for each in said}
    if len(odd) > 1:  # one of them is held against the other: both are named
        blamed |= {str(each.expected.slots["name"]) for each in said}  # type: ignore[attr-defined]
    assert blamed == odd
    held = [each for each in found.points if "out of order" in each.why]
    assert held
    (why,) = {each.why for each in held}
    assert {name for name in ("1", "2", "3") if name in why.partition("visit")[2]} == odd
    read_on = {each.name: {one.round.name for one in each.samples} for each in found.series}
    for point in found.points:
        if read_on[point.name] & odd and point.call not in ("gone", "cut out", "open further", "goes out"):
            assert point.why == why, point.where
            assert (point.running, point.fed, point.forecast.latest) == (False, None, ""), point.where
    assert not [each for each in found.points if each.next_step.startswith("Find what wets")]


def test_a_rise_over_days_out_of_order_takes_no_test_back() -> None:
    """Independent (symmetry): a fall read with its days changed is no rise and takes no test back."""
    pour = {"a": {"when": "2026-03-02 09:00", "gallons": 5, "minutes": 15, "below": "dry"}}
    right = changed(corner(3), leak__pours=pour)
    turned = changed(right, visits__3__when="2026-03-01 08:00")
    for facts in (right, turned):
        stands = {each.candidate: each.standing for each in answer(facts).source.stands}
        assert stands["drain"] == "excluded"


def test_a_visit_just_begun_with_a_wrong_day_puts_no_other_in_doubt() -> None:
    found = answer(changed(corner(3), visits__4={"when": "2026-03-04 20:00"}))
    (said,) = [each for each in found.findings if each.code == "dates-out-of-order"]
    assert (said.where, said.expected.slots["name"]) == ("visit 4", "3")  # type: ignore[attr-defined]
    assert not [each for each in found.points if "out of order" in each.why]
