"""205 or 2.05 typed for 20.5: asked about, and it sets no verdict by itself.

Labels: independent where ten times and a tenth are worked by hand, or two answers compared.
"""

from __future__ import annotations

from typing import Any

import pytest

from tests.wood.cast import answer, changed, corner
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
        # 45 / 10 = 4.5 and 5 x 10 = 50 lie outside 7 to 30 as well: past the range and no slip
        (45, USUAL, None, [], None),
        (5, USUAL, None, [], None),
        (0, USUAL, None, [], None),
        (20.5, USUAL, 2.05, [], None),
        # within a wide range: 95 / 10 beside 10, and 2 x 10 beside 21
        (95, WIDE, 10, [], ("wet", 9.5, "before")),
        (2, WIDE, 21, [], ("dry", 20, "before")),
        (2, WIDE, None, [18, 22, 24, 2], ("dry", 20, "neighbours")),
        # a soaked place among dry ones is nothing odd, nor a dry one among dry ones
        (95, WIDE, None, [9, 10, 11, 95], None),
        (2, WIDE, None, [2, 3, 2.5, 2], None),
        (2, WIDE, None, [21, 2], None),
    ],
)
def test_what_is_asked_about(
    shown: float, meter: Meter, before: float | None, visit: list[float], is_: tuple[str, float, str] | None
) -> None:
    found = slip(shown, meter, before, visit)
    told = None if found is None else (found.way, pytest.approx(found.meant), found.beside)
    assert told == is_


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


def test_corrected_it_is_as_if_nothing_had_been() -> None:
    assert (
        answer(typed("20.5")).findings
        == answer(changed(typed("205"), points__plate_B_16__shown__3="20.5")).findings
    )
