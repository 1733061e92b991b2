"""Wood too hot or too cold to correct a reading for, and wood that is hardly as hot as typed."""

from __future__ import annotations

import pytest

from tests.wood.cast import answer, changed, corner
from undertile.findings import Severity
from undertile.wood.correct import correct
from undertile.wood.forecast import usable

ODD = "wood-temperature-odd"


def hot(text: str, visits: int = 3) -> dict[str, object]:
    """The corner, the wood of its last visit at a temperature."""
    return changed(corner(visits), **{f"visits__{visits}__wood": text})


@pytest.mark.parametrize("text", ["700 F", "170 F", "70 C", "123 F", "31 F", "-5 C"])
def test_outside_the_correction_nothing_is_dry_and_nothing_gets_a_date(text: str) -> None:
    # published: the furthest example of a meter maker's chart is 50 C (122 F); ours: 0 C
    found = answer(hot(text))
    (said,) = [each for each in found.findings if each.code == ODD]
    assert (said.severity, said.where, said.found) == (Severity.ACT, "visit 3", text)
    assert "32 to 122 F" in said.expected
    assert "temperature again" in said.next_step
    for point in found.points:
        assert point.call in ("not shown", "open further", "no date")
        assert point.value is None or point.value > 7
    assert found.close.latest == ""
    for series in found.series:
        for sample in series.samples:
            if sample.round.name == "3" and sample.corrected is not None and sample.corrected.because != "":
                assert not usable(sample)


def test_a_reading_kept_and_not_used_leaves_the_dates_to_those_that_count() -> None:
    # independent: without the third visit's readings the corner has two, and too few for a date
    plain, odd = answer(corner(2)), answer(hot("700 F"))
    for name in ("plate-B-16", "plate-B-28", "plate-L-6"):
        before, after = plain.point(name), odd.point(name)
        assert before is not None
        assert after is not None
        assert (before.value, before.bad) == (after.value, after.bad)
        assert after.forecast.no == "too few readings"


def test_a_place_whose_newest_reading_is_not_used_bounds_nothing_as_dry() -> None:
    # independent: plate-B-40 was dry twice; what it is on the third visit nobody knows, so it is open past 28
    plain = answer(corner(3))
    odd = answer(changed(corner(3), points__plate_B_40__temperatures={"3": "700 F"}))
    was, now = plain.point("plate-B-40"), odd.point("plate-B-40")
    assert was is not None
    assert now is not None
    assert (was.bad, now.bad, now.call) == (False, None, "not shown")
    assert [each for each in plain.cut_words if '40" is dry' in each]
    assert not [each for each in odd.cut_words if '40" is dry' in each]
    assert [each for each in odd.cut_words if 'plate B at 28": not known yet' in each]
    # a number that counts, read after the one that is not used, bounds again; wet stays wet
    again = answer(changed(corner(3), points__plate_B_40__temperatures={"2": "700 F"})).point("plate-B-40")
    assert again is not None
    assert again.bad is False
    wet = answer(changed(corner(3), points__plate_B_28__temperatures={"3": "700 F"})).point("plate-B-28")
    assert wet is not None
    assert wet.bad is True


@pytest.mark.parametrize("text", ["68 F", "20 C", "32 F", "50 C", "0 C"])
def test_inside_it_a_reading_is_corrected_as_before(text: str) -> None:
    # published: half a point for each 5 C from 20 C
    celsius = {"68 F": 20, "20 C": 20, "32 F": 0, "50 C": 50, "0 C": 0}[text]
    found = correct(18, species="Douglas-fir", wood_f=celsius * 9 / 5 + 32)
    assert found.value == pytest.approx(18 + (20 - celsius) / 10)
    assert found.counts


@pytest.mark.parametrize(
    ("shown", "fahrenheit", "because"), [(7.8, 86, "below range"), (29.5, 50, "above saturation")]
)
def test_a_correction_past_what_the_meter_tells_is_no_number(
    shown: float, fahrenheit: float, because: str
) -> None:
    # independent: 7.8 less 1 for 30 C is 6.8; 29.5 and 1 for 10 C is 30.5
    found = correct(shown, species="Douglas-fir", wood_f=fahrenheit)
    assert (found.value, found.scale, found.because) == (shown, "relative", because)


def test_references_carried_under_the_range_count_as_its_end() -> None:
    # independent: 8.5 at 50 C is 5.5: less than 7, and the goal is 7 and 4, not 8.5 and 4
    facts = changed(corner(1), visits__1__wood="122 F", visits__1__air="100 F")
    assert answer(facts).goals["lumber"].words() == "11 % (dry reference 7.0 % or less)"


def test_a_meter_that_compensates_takes_nothing_from_the_temperature() -> None:
    # independent: what is not used cannot spoil what is read
    facts = changed(hot("700 F"), meters__pins__compensates=True)
    cool = changed(corner(3), meters__pins__compensates=True)
    assert [each.value for each in answer(facts).points] == [each.value for each in answer(cool).points]
    assert [each.code for each in answer(facts).findings].count(ODD) == 1


@pytest.mark.parametrize(("text", "value"), [("118 F", 18.0), ("112 F", 18.0), ("109 F", 15.8)])
def test_wood_far_from_the_room_s_air_is_asked_about_and_takes_nothing_off(text: str, value: float) -> None:
    # independent: the room is at 70 F: 118 and 112 are over 40 off, 109 is not (18 - 2.28, rounded up)
    found = answer(hot(text))
    point = found.point("plate-B-28")
    assert point is not None
    assert point.value == value
    said = [each for each in found.findings if each.code == ODD]
    assert len(said) == (1 if value == 18.0 else 0)
    if said:
        assert said[0].severity is Severity.ACT
        assert "70 F" in said[0].expected
        assert point.forecast.no == "too few readings"  # two are left to work a date from


def test_cold_wood_that_is_doubted_still_counts_as_wetter() -> None:
    # independent: 34 F is 1.1 C, 18 and 1.89; the room at 77 F is 43 off
    facts = changed(hot("34 F"), visits__3__air="77 F")
    point = answer(facts).point("plate-B-28")
    assert point is not None
    assert point.value == 19.9


def test_one_place_s_own_temperature_is_its_own_finding() -> None:
    # independent: only that place is held back
    facts = changed(corner(3), points__plate_B_28__temperatures={"3": "700 F"})
    found = answer(facts)
    (said,) = [each for each in found.findings if each.code == ODD]
    assert said.where == 'plate B at 28", visit 3'
    held = [each.name for each in found.points if each.source == "pin-temperature-range"]
    assert held == ["plate-B-28"]
