"""205 or 2.05 typed for 20.5: asked about, and it sets no verdict by itself.

Labels: independent where ten times and a tenth are worked by hand, or two answers compared.
"""

from __future__ import annotations

from typing import Any

import pytest

from tests.wood.cast import REFERENCES, answer, changed, corner
from tests.wood.test_gate_and_shrink import ready
from undertile.findings import Severity
from undertile.wood.facts import Meter
from undertile.wood.slip import slip

USUAL = Meter()
WIDE = Meter(low=0, high=100)


@pytest.mark.parametrize(
    ("shown", "meter", "before", "visit", "is_"),
    [
        # independent: 205 / 10 and 2.05 x 10 are 20.5, within 7 to 30
        (205, USUAL, None, [], ("wet", 20.5, "range")),
        (2.05, USUAL, None, [], ("dry", 20.5, "range")),
        (2.05, USUAL, 21, [], ("dry", 20.5, "before")),
        # 5 x 10 = 50 lies outside 7 to 30 as well; 0 is no number moved; 3 after 9 is no 30
        (5, USUAL, None, [], None),
        (0, USUAL, None, [], None),
        (3, USUAL, 9, [], None),
        (20.5, USUAL, 2.05, [], None),
        # what a leak looks like is never asked about as a slip: only what no wood in a wall shows
        (45, USUAL, None, [], None),
        (75, USUAL, None, [], None),
        (75, USUAL, 24, [], None),
        (80, USUAL, 9, [], None),
        (95, WIDE, 10, [], None),
        (95, WIDE, None, [9, 10, 11, 95], None),
        (39, Meter(low=6, high=60), 7, [], None),
        # within a wide range: 2 x 10 beside 21
        (2, WIDE, 21, [], ("dry", 20, "before")),
        (2, WIDE, None, [18, 22, 24, 2], ("dry", 20, "neighbours")),
        # a dry one among dry ones, and one as dry as a room makes wood, are nothing odd
        (2, WIDE, None, [2, 3, 2.5, 2], None),
        (2, WIDE, None, [21, 2], None),
        (6, WIDE, None, [55, 55, 55, 55, 6], None),
    ],
)
def test_what_is_asked_about(
    shown: float, meter: Meter, before: float | None, visit: list[float], is_: tuple[str, float, str] | None
) -> None:
    found = slip([shown], meter, before, visit)
    told = None if found is None else (found.way, pytest.approx(found.meant), found.beside)
    assert told == is_


@pytest.mark.parametrize("shown", [2.05, 205.0])
@pytest.mark.parametrize("agrees", ["hole", "visit"])
def test_a_second_hole_or_visit_that_agrees_speaks_for_it(shown: float, agrees: str) -> None:
    # independent: nobody moves the point twice to the same place
    assert slip([shown], USUAL, None, []) is not None
    holes = [shown, shown] if agrees == "hole" else [shown]
    assert slip(holes, USUAL, None, [], [shown * 1.1] if agrees == "visit" else []) is None
    assert slip([shown, 21], USUAL, None, []) is None if shown < 7 else True


def series_of(meter: tuple[str, str], *shown: str, **more: Any) -> dict[str, Any]:
    """One plate read a day apart, other places as they are."""
    facts = corner(2)
    low, high = meter
    facts["meters"] = {"own": {"kind": "pin", "low": low, "high": high, "set_to": "Douglas-fir"}}
    facts["visits"] = {
        str(k + 1): {"when": f"2026-03-{2 + 2 * k:02} 08:00", "meter": "own", "air": "68 F", "humidity": "40"}
        for k in range(len(shown))
    }
    facts["points"] = {
        **{name: point for name, point in facts["points"].items() if point.get("reference")},
        "plate-B-16": {
            **facts["points"]["plate-B-16"],
            "shown": {str(k + 1): each for k, each in enumerate(shown)},
            **more,
        },
    }
    return facts


@pytest.mark.parametrize(
    ("meter", "shown"),
    [
        (("6", "60"), ("7", "7", "38", "39", "40")),
        (("5", "40"), ("6", "6", "33", "33", "34")),
        (("0", "100"), ("15", "15", "95", "95", "95")),
        (("7", "30"), ("9", "80", "80", "80")),
        (("7", "30"), ("12", "24", "110", "110", "115")),
    ],
)
def test_a_leak_stays_a_leak(meter: tuple[str, str], shown: tuple[str, ...]) -> None:
    # independent: wet and not falling for two days is a lead (convention 5.4), however it came there
    point = answer(series_of(meter, *shown)).point("plate-B-16")
    assert point is not None
    assert point.running


@pytest.mark.parametrize(
    ("meter", "shown"),
    [
        (("6", "60"), ("45", "6", "6", "6")),
        (("5", "60"), ("44", "5.5", "5.5", "5.6")),
        (("7", "30"), ("9", "3", "3", "3")),
        (("7", "30"), ("28", "2.9", "2.8")),
    ],
)
def test_wood_that_dried_far_counts_once_it_says_so_twice(
    meter: tuple[str, str], shown: tuple[str, ...]
) -> None:
    # independent: the same number on the next visit is no slip
    found = answer(series_of(meter, *shown, awl={str(len(shown)): "1/16"}))
    assert "reading-slipped" not in {each.code for each in found.findings}
    point = found.point("plate-B-16")
    assert point is not None
    assert point.call == "close"


def test_what_was_a_lead_before_a_slip_stays_one() -> None:
    point = answer(series_of(("7", "60"), "20", "31", "32", "33", "300")).point("plate-B-16")
    assert point is not None
    assert "decimal point moved" in point.why
    assert point.running


def test_dry_references_among_soaked_places_stay_references() -> None:
    # independent: with the references alone the goal is the same
    facts = series_of(("5", "60"), "55")
    like = facts["points"]["plate-B-16"]
    places = {f"plate-B-{k}": {**like, "along": f"{k}"} for k in (20, 24, 28, 32, 36)}
    own = {name: {**facts["points"][name], "shown": {"1": "6"}} for name in REFERENCES}
    found = answer({**facts, "points": {**facts["points"], **places, **own}})
    alone = answer({**facts, "points": {"plate-B-16": like, **own}})
    assert "reading-slipped" not in {each.code for each in found.findings}
    assert found.goals["lumber"].most == alone.goals["lumber"].most


def typed(value: str, visit: str = "3") -> dict[str, Any]:
    facts = corner(3)
    facts["points"]["plate-B-16"]["shown"][visit] = value
    return facts


@pytest.mark.parametrize(("value", "until"), [("205", "only wet"), ("2.05", "not used")])
def test_it_is_found_and_its_verdict_says_so(value: str, until: str) -> None:
    found = answer(typed(value))
    (said,) = [each for each in found.findings if each.code == "reading-slipped"]
    assert said.severity is Severity.ACT
    assert said.where == 'plate B at 16", visit 3'
    assert "20.5 %" in said.found
    assert until in said.next_step
    assert not [each for each in found.findings if each.code in ("reading-out-of-range", "reading-jumped")]
    point = found.point("plate-B-16")
    assert point is not None
    assert f"shows {value} on visit 3: 20.5 %" in point.why
    assert point.call == ("no date" if value == "205" else "not shown")
    assert not point.running
    assert not point.may_be_fed
    assert point.forecast.latest == "" or point.call == "not shown"


def test_two_and_a_bit_makes_no_wet_place_dry() -> None:
    """independent: the same place with 10.5 is dry; with 1.05 it bounds nothing and opens nothing."""
    dry = changed(ready(), points__plate_B_4__shown={"1": "11", "2": "10.5"})
    slipped = changed(ready(), points__plate_B_4__shown={"1": "11", "2": "1.05"})
    assert answer(dry, walls=("L", "B")).gate.open
    found = answer(slipped, walls=("L", "B"))
    assert not found.gate.open
    point = found.point("plate-B-4")
    assert point is not None
    assert (point.call, point.bad) == ("not shown", None)


def test_what_says_wet_stays_wet_for_how_far_to_open() -> None:
    # independent: over the meter's range is wet, as it was before it was asked about
    point = answer(typed("205")).point("plate-B-16")
    assert point is not None
    assert point.bad is True
