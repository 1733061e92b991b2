"""What keeps the gate shut comes first."""

from __future__ import annotations

from tests.wood.cast import answer, changed, corner
from undertile.wood.rank import ORDER, by_gate, running


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


def test_where_water_may_be_running_is_looked_at_before_anything() -> None:
    """independent: by hand, a rise over a point (22.5 to 24) or over 28 and held; the rest falls."""
    wet = changed(
        corner(3),
        points__plate_B_16__shown={"1": "27", "2": "24.5", "3": "over"},
        points__plate_B_28__shown={"1": "22", "2": "19.5", "3": "21"},
    )
    found = answer(wet)
    names = {each.name for each in running(found.points, found.source.stands)}
    assert names == {"plate-B-4", "plate-B-16", "plate-B-28"}
    (over,) = [each for each in found.points if each.name == "plate-B-16"]
    assert "risen over the meter's range since visit 2" in over.why
    dry = answer(changed(corner(3), points__plate_B_4__shown={"1": "29", "2": "25", "3": "22"}))
    assert running(dry.points, dry.source.stands) == ()


def test_a_source_found_since_explains_it_until_it_is_read_again() -> None:
    leaks = {"p": {"when": "2026-03-05 18:00", "of": "supply", "first": 60, "last": 48, "minutes": 20}}
    held = changed(corner(3), points__plate_B_28__shown={"1": "22", "2": "19.5", "3": "21"})
    found = answer(changed(held, leak={"pressures": leaks}))
    assert running(found.points, found.source.stands) == (), "last read two hours before"
    before = {"p": leaks["p"] | {"when": "2026-03-05 10:00"}}
    found = answer(changed(held, leak={"pressures": before}))
    assert "plate-B-28" in {each.name for each in running(found.points, found.source.stands)}


def test_on_a_first_visit_nothing_runs_yet() -> None:
    found = answer(corner(1))
    assert running(found.points, found.source.stands) == (), "only the next reading tells"
