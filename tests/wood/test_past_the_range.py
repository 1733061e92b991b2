"""Past the meter's range nothing is measured: no face says that it was."""

from __future__ import annotations

import pytest

from tests.wood.cast import answer, changed, corner
from undertile.wood.facts import Allowed, WoodFacts
from undertile.wood.goal import goal_of, references
from undertile.wood.history import history


@pytest.mark.parametrize(("shown", "reads"), [("over", ">30 %"), ("under", "<7 %"), ("18.5", "18.5 %")])
def test_what_a_point_reads_as_every_face_prints_it(shown: str, reads: str) -> None:
    """independent: the meter's own ends, 7 and 30, and a meter set to this wood at 68 F is right."""
    point = answer(changed(corner(1), points__plate_B_4__shown={"1": shown})).point("plate-B-4")
    assert point is not None
    assert point.reads == reads
    assert (point.give_or_take is None) == (shown != "18.5")
    assert "30.0 %" not in point.why
    assert "7.0 %" not in point.why


def test_another_meter_s_ends() -> None:
    """independent: the ends that the meter was given."""
    facts = changed(corner(1), points__plate_B_4__shown={"1": "over"})
    facts["meters"]["pins"] |= {"low": 6, "high": 40}
    point = answer(facts).point("plate-B-4")
    assert point is not None
    assert point.reads == ">40 %"


def test_a_rise_from_under_the_range_is_at_least_so_much() -> None:
    """independent: from 7 or less to 16 is 9 or more."""
    found = answer(changed(corner(2), points__plate_B_40__shown={"1": "under", "2": "16"}))
    (jumped,) = [each for each in found.findings if each.code == "reading-jumped"]
    assert jumped.found == "at least +9.0 since visit 1"


def test_a_stud_over_the_range_is_not_said_to_read_saturation() -> None:
    """independent: what it shrinks from is 30; what was read is more than that."""
    facts = corner(1)
    facts["points"]["B2-4"] = {
        "member": "stud",
        "name": "B2",
        "height": '4"',
        "material": "lumber",
        "species": "Douglas-fir",
        "shown": {"1": "over"},
    }
    from fractions import Fraction

    (shrunk,) = answer(facts, depths={"B2": Fraction(7, 2)}).shrinkage
    assert shrunk.reads == ">30 %"


@pytest.mark.parametrize("read", [("11.1", "11.2", "11.2"), ("8", "9.5", "9.4"), ("10.7", "11.9", "11.9")])
def test_goal_and_dry_reference_add_up_as_they_print(read: tuple[str, ...]) -> None:
    """independent: the printed figures added by hand; both rounded down."""
    facts = changed(corner(1))
    for name, value in zip(("closet", "far-wall", "joist-off"), read, strict=True):
        facts["points"][name]["shown"] = {"1": value}
    known = references(history(WoodFacts.model_validate(facts, context={"unit": "in"})).series)
    goal = goal_of("lumber", known, Allowed())
    said = goal.words()
    own, dry = (float(each) for each in said.replace(" %)", "").replace(" (dry reference", "").split(" % "))
    assert own == pytest.approx(dry + 4)
    assert known["lumber"].value >= dry


def test_a_goal_at_the_most_allowed_says_so() -> None:
    """independent: 13 and 4 are more than 16."""
    facts = changed(corner(1))
    for name in ("closet", "far-wall", "joist-off"):
        facts["points"][name]["shown"] = {"1": "13"}
    assert answer(facts).goals["lumber"].words().startswith("16 %, the most allowed (dry reference 1")


def test_a_reference_under_the_range_is_that_or_less() -> None:
    """independent: under 7 counts as 7 and is not said to be 7."""
    facts = changed(corner(1))
    for name in ("closet", "far-wall", "joist-off"):
        facts["points"][name]["shown"] = {"1": "under"}
    assert answer(facts).goals["lumber"].words() == "11 % (dry reference 7.0 % or less)"


@pytest.mark.parametrize(("thickness", "said"), [('1/2"', 1), ('9/16"', 0), ('1-1/2"', 0)])
def test_thin_wood_is_said_where_its_time_is_not_begun_from_its_thickness(thickness: str, said: int) -> None:
    """independent: 9/16 is not thinner than 9/16."""
    found = answer(changed(corner(3), points__plate_B_28__thickness=thickness))
    own = [each for each in found.findings if each.code == "thin-wood"]
    assert len(own) == said
    assert all(each.found == '1/2" thick' and '9/16"' in each.expected for each in own)
