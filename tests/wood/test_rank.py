"""What keeps the gate shut comes first."""

from __future__ import annotations

from tests.wood.cast import answer, changed, corner
from undertile.wood.rank import ORDER, by_gate


def test_by_what_keeps_the_gate_shut() -> None:
    facts = changed(corner(), points__plate_B_28__awl={"1": "1/2"})
    found = answer(facts)
    sorted_ = by_gate(found.points)
    assert sorted(each.name for each in sorted_) == sorted(each.name for each in found.points)
    places = [ORDER.index(each.call) for each in sorted_]
    assert places == sorted(places)
    assert sorted_[0].name == "plate-B-28", "soft: it is cut out before anything closes"
    dated = [each.forecast.latest for each in sorted_ if each.call == "dry on" and each.forecast.latest]
    assert dated == sorted(dated, reverse=True)


def test_of_those_without_a_date_the_fed_one_comes_first() -> None:
    found = answer(corner(2))
    without = [each for each in by_gate(found.points) if each.call == "no date"]
    assert without
    assert without[0].name == "plate-B-4", "held while its neighbours fell"
