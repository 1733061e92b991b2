"""0 is no reading of wood, holes speak for nothing drier than each alone, under the range is under it.

independent: two answers compared, or figures by hand. published: table 4-2, 2.4 at 70 F and 10 percent.
"""

from __future__ import annotations

from typing import Any

import pytest

from tests.wood.cast import answer, changed, corner
from tests.wood.test_gate_and_shrink import ready
from undertile.findings import Severity
from undertile.packet.told import told as spanish
from undertile.packet.words import Words
from undertile.wood.chip import DRIEST
from undertile.wood.equilibrium import equilibrium
from undertile.wood.facts import Meter
from undertile.wood.holes import holes_of

USUAL, WIDE = Meter(), Meter(low=0)


def codes(found: Any) -> list[str]:
    return [each.code for each in found.findings]


def opened(facts: dict[str, Any]) -> Any:
    return answer(facts, walls=("L", "B"))


def test_the_driest_wood_is_the_table_s() -> None:
    """published: Wood Handbook, table 4-2; worked again here by its equation."""
    assert equilibrium(70, 0.10) == pytest.approx(DRIEST, abs=0.1)


@pytest.mark.parametrize("low", ["7", "0"])
@pytest.mark.parametrize("shown", ["0", "0.5", "1/2", "0 0", "2.3"])
def test_what_no_wood_reads_opens_nothing_however_often(shown: str, low: str) -> None:
    """independent: the same place with 10.5 opens; a meter said to tell 0 changes nothing."""
    facts = changed(ready(), meters__pins__low=low)
    assert opened(facts).gate.open
    for both in ({"1": "11", "2": shown}, {"1": shown, "2": shown}):
        found = opened(changed(facts, points__plate_B_4__shown=both))
        assert not found.gate.open
        point = found.point("plate-B-4")
        assert point is not None
        assert point.call == "not shown"
        asked = [
            each
            for each in found.findings
            if each.code in ("reading-nothing", "reading-slipped") and each.severity is Severity.ACT
        ]
        assert len(asked) == len([each for each in both.values() if each == shown])


def test_of_several_holes_the_one_that_counts_counts_and_the_other_is_asked_about() -> None:
    """independent: 12 typed alone is dry; a 0 beside it adds nothing to it and is no reading itself."""
    found = opened(changed(ready(), points__plate_B_4__shown={"1": "11", "2": "0 10.5"}))
    assert found.gate.open
    assert codes(found).count("reading-nothing") == 1
    alone = opened(changed(ready(), points__plate_B_4__shown={"1": "11", "2": "10.5"}))
    assert found.point("plate-B-4").value == alone.point("plate-B-4").value


@pytest.mark.parametrize(
    ("values", "before", "asked", "used"),
    [
        ([1, 2], 20.5, 2, False),  # independent: 2 alone is 20 with its point moved; 1 beside it says nothing
        ([1, 2], None, 2, False),
        ([2.05, 2.05], None, 2.05, False),
        ([3, 4], None, 3, True),  # 4 x 10 = 40 is past 30, so 4 alone is not asked about; 3 alone is
        ([12, 11], None, None, True),
        ([0, 12], None, 0, True),
        ([205, 210], None, None, True),  # both wet: the wetter one counts
        ([205, 21], None, 205, True),
    ],
)
def test_each_hole_is_judged_as_it_would_be_alone(
    values: list[float], before: float | None, asked: float | None, used: bool
) -> None:
    found = holes_of(values, USUAL, before, [], [])
    assert (found.hole, found.used) == (asked, used)


def test_a_zero_on_a_dry_place_makes_no_goal() -> None:
    """independent: without its reading the place is no reference, and two are left of three."""
    facts = corner(2)
    for name in ("closet", "far-wall", "joist-off"):
        facts["points"][name]["shown"] = {"1": "0"}
    found = answer(facts)
    assert found.goals["lumber"].value is None
    assert codes(found).count("reading-nothing") == 3
    facts["points"]["closet"]["shown"] = {"1": "9"}
    assert answer(facts).goals["lumber"].words() == "13 % (dry reference 9.0 %)"


def test_a_number_under_the_meter_s_range_is_as_under_is() -> None:
    """independent: a meter that tells nothing under 20 tells of 12.5 no more than the word does."""
    facts = corner(3)
    facts["meters"]["pins"]["low"] = 20
    for point in facts["points"].values():
        point["shown"] = {"1": "25", "2": "12.5", "3": "12.4"} if not point.get("reference") else {"1": "9"}
    word = changed(facts)
    for point in word["points"].values():
        point["shown"] = (
            {"1": "25", "2": "under", "3": "under"} if not point.get("reference") else {"1": "under"}
        )
    one, other = answer(facts), answer(word)
    assert [(each.name, each.call, each.reads, each.value) for each in one.points] == [
        (each.name, each.call, each.reads, each.value) for each in other.points
    ]
    assert {each.reads for each in one.points} == {"<20 %"}
    assert "close" not in {each.call for each in one.points}
    assert not [each.why for each in one.points if "20.0 %" in each.why]
    assert one.goals == other.goals
    (said,) = [each for each in one.findings if each.code == "reading-out-of-range"]
    # by hand: six places twice, and three references once
    assert said.found == "15 readings, 9.0 % to 12.5 %: counts as <20 %, not corrected"
    assert said.where == (
        'plate B at 4", visit 2, plate B at 4", visit 3, plate B at 16", visit 2 and '
        'plate B at 16", visit 3 and 11 more'
    )
    assert "sin corregir" in spanish(said.found, Words("es"))


def test_over_a_meter_s_range_the_note_and_the_figure_agree() -> None:
    """independent: a number that is said not to be corrected prints as it was shown, beside hot wood too."""
    facts = changed(corner(1), meters__pins__high="20", visits__1__wood="86 F")
    found = answer(facts).point("plate-B-28")
    assert found is not None
    assert (found.reads, found.relative) == ("22.0 %", "past range")


def test_what_the_air_holds_back_is_one_line() -> None:
    """independent: places in air that holds wood over 16 percent, each named in the line."""
    facts = corner(3)
    for visit in facts["visits"].values():
        visit["humidity"] = 90
    found = answer(facts)
    damp = [each for each in found.points if each.forecast.no == "damp air" and each.call == "no date"]
    held = [each for each in damp if "in the room's air as last read" in each.why]
    assert len(held) > 1
    (said,) = [each for each in found.findings if each.next_step.startswith("Dry or warm the room")]
    assert all(each.where in said.where for each in held)
    assert "reads" not in said.found
    rows = {
        (each.what, each.next_step)
        for each in found.gate.missing
        if each.where in {one.where for one in held}
    }
    assert len(rows) == 1, "and the gate's rows of them are alike, for a face that puts them in one"


def test_what_is_said_has_its_spanish() -> None:
    (said,) = [
        each
        for each in answer(changed(corner(1), points__plate_B_4__shown={"1": "0"})).findings
        if each.code == "reading-nothing"
    ]
    assert said.found == "0.0 %"
    assert spanish(said.next_step, Words("es")).startswith("Lea otra vez y corríjalo")
    assert spanish(said.expected, Words("es")).startswith("2.4 % o más")
