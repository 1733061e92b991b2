"""What opens the gate and what does not: new wood, photos and inspection of the right day, mold, stops.

Labels: independent where the same facts with one value changed open it; convention 6.2 where a person lifts.
"""

from __future__ import annotations

from fractions import Fraction as F
from typing import Any

import pytest
from pydantic import BaseModel

from tests.wood.cast import answer, changed
from tests.wood.test_gate_and_shrink import lately, ready
from undertile.findings import Severity
from undertile.framing.facts import FramingFacts
from undertile.packet.words.sentences import SPANISH
from undertile.safety.cautions import cautions
from undertile.safety.facts import SafetyFacts
from undertile.wood.clock import Clock
from undertile.wood.extent import cut_lines
from undertile.wood.facts import WoodFacts
from undertile.wood.result import WoodResult

TODAY = Clock("2026-03-25")
NEW = {"new": "2026-03-06", "shown": {"3": "11", "4": "10.5"}, "awl": {"3": '0"'}}


def asked(facts: dict[str, Any], **beside: Any) -> WoodResult:
    """With the other stages' facts: ``safety`` and ``framing`` as tables."""
    facts = lately(facts)
    models: dict[str, type[BaseModel]] = {"safety": SafetyFacts, "framing": FramingFacts}
    told: dict[str, Any] = {
        key: models[key].model_validate(value, context={"unit": "in"}) for key, value in beside.items()
    }
    told["wood"] = WoodFacts.model_validate(facts, context={"unit": "in"})
    house = cautions(told["safety"], TODAY, told["wood"]).findings if "safety" in told else None
    return answer(facts, walls=("L", "B"), clock=TODAY, beside=told, safety=house)


def lacks(found: WoodResult, *kinds: str) -> list[tuple[str, str]]:
    """What keeps it shut, of some kinds; the rest of the job is in order."""
    return [(each.kind, each.where) for each in found.gate.missing if each.kind in kinds]


def in_spanish(found: WoodResult) -> None:
    for each in found.gate.missing:
        for said in (each.what, each.next_step):
            form = getattr(said, "form", None)
            assert form is None or form in SPANISH, form


# New wood -----------------------------------------------------------------------------------------------


def cut(**old: Any) -> dict[str, Any]:
    """Everything in order, but that the corner of the plate was cut out; two visits more."""
    facts = ready()
    for name, day in (("3", "2026-03-07 16:00"), ("4", "2026-03-09 16:00")):
        facts["visits"][name] = facts["visits"]["2"] | {"when": day}
    facts["points"]["plate-B-4"] |= {"shown": {"1": "29", "2": "29.5"}, "out": "2026-03-05", **old}
    return facts


def with_new(**more: Any) -> dict[str, Any]:
    facts = cut()
    plate = {key: value for key, value in facts["points"]["plate-B-4"].items() if key not in ("out", "shown")}
    facts["points"]["new"] = {**plate, **NEW, **more}
    return facts


def test_a_plate_cut_out_keeps_it_shut_until_new_wood_is_read() -> None:
    """independent: the same job with the new plate put in and read twice has nothing left of it."""
    found = asked(cut())
    assert lacks(found, "new") == [("new", 'plate B at 4"')]
    (only,) = [each for each in found.gate.missing if each.kind == "new"]
    assert "2026-03-05" in only.what
    assert '12"' in only.next_step
    in_spanish(found)
    assert lacks(asked(with_new()), "new", "moisture") == []


@pytest.mark.parametrize(
    "wrong",
    [
        {"new": ""},  # some other wood near, first read later
        {"new": "2026-03-04"},  # before the old went out
        {"new": "2027-03-06"},  # not come yet
        {"new": "2026-03-08"},  # read before it was put in
        {"along": '17"'},  # 13 in off
        {"wall": "L"},
        {"member": "stud", "name": "B1", "height": '4"'},
        {"shown": {}, "awl": {}},
        {"shown": {"3": "x"}},
        {"out": "2026-03-10"},  # cut out again
    ],
)
def test_what_is_no_new_wood_read_there_opens_nothing(wrong: dict[str, Any]) -> None:
    """independent: by one value of the place that opens it (the test above)."""
    found = asked(with_new(**wrong))
    assert ("new", 'plate B at 4"') in lacks(found, "new")
    in_spanish(found)


def test_new_wood_that_is_wet_is_waited_for_as_any_place() -> None:
    found = asked(with_new(shown={"3": "25", "4": "24"}))
    assert lacks(found, "new") == []
    assert len(lacks(found, "moisture")) == 1


@pytest.mark.parametrize(
    ("said", "shut"),
    [
        ({"bare": "2026-03-06", "bare_by": "Ann"}, False),
        ({"bare": "2026-03-06"}, True),
        ({"bare_by": "Ann"}, True),
        ({"bare": "2026-03-06", "bare_by": " "}, True),
        ({"bare": "2026-03-04", "bare_by": "Ann"}, True),
        ({"bare": "2027-03-06", "bare_by": "Ann"}, True),
    ],
)
def test_a_person_says_with_name_and_day_that_nothing_stands_there(said: dict[str, str], shut: bool) -> None:
    """convention 6.2: by a person, with name; independent: not before it was cut out, not after today."""
    assert bool(lacks(asked(cut(**said)), "new")) is shut


BARE = {"bare": "2026-03-06", "bare_by": "Ann"}


@pytest.mark.parametrize(
    ("member", "bearing", "stops"),
    [
        ({}, "yes", True),
        ({}, "unknown", True),  # convention 4.5
        ({}, "no", False),
        ({"member": "stud", "name": "B2", "height": '4"'}, "unknown", True),
        ({"member": "joist", "name": "J2"}, "yes", True),
        ({"member": "subfloor", "x": '12"', "y": '18"'}, "yes", False),  # the patch's matter
    ],
)
def test_framing_that_bears_and_stays_out_is_a_stop_that_a_person_lifts(
    member: dict[str, str], bearing: str, stops: bool
) -> None:
    """conventions 4.5 and 6.2; independent: not a question of new wood, which is said not to come."""
    found = asked(cut(**BARE, **member, bearing=bearing))
    told = [each for each in found.findings if each.code == "bare-bearing"]
    assert bool(told) is stops
    assert [kind for kind, _ in lacks(found, "stop", "new")] == ["stop"] * stops
    in_spanish(found)
    if stops:
        (stop,) = told
        assert stop.severity is Severity.STOP
        who = {"stop": stop.code, "where": str(stop.where), "by": "Ann", "reason": "beam set"}
        lifted = {"lifted": {"one": who}}
        assert lacks(asked(cut(**BARE, **member, bearing=bearing), safety=lifted), "stop") == []


def test_a_bearing_plate_that_comes_back_or_is_not_seen_bare_is_no_such_stop() -> None:
    for facts in (cut(bearing="yes"), cut(bearing="yes", bare="2026-03-06")):
        assert "bare-bearing" not in {each.code for each in asked(facts).findings}


def test_a_panel_that_is_cut_out_is_the_patches_matter() -> None:
    facts = cut(member="subfloor", x='12"', y='18"')
    assert lacks(asked(facts), "new") == []


# Photos and inspection ----------------------------------------------------------------------------------


@pytest.mark.parametrize("opened", ["2026-03-02 10:00", ""])
@pytest.mark.parametrize(
    ("change", "kind", "where"),
    [
        ({"cover__photos__floor": "2025-03-01"}, "photo", "floor"),
        ({"cover__photos__wall B": "2026-03-01 23:00"}, "photo", "wall B"),
        ({"cover__inspected": "2026-02-01"}, "inspection", "rough inspection"),
        ({"cover__inspected": ""}, "inspection", "rough inspection"),
    ],
)
def test_proof_of_before_the_opening_shows_nothing(
    opened: str, change: dict[str, Any], kind: str, where: str
) -> None:
    """independent: opened, and first read, on 2026-03-02 by the calendar; that day itself counts."""
    facts = ready() | {"opened": opened}
    assert lacks(asked(facts), "photo", "inspection") == []
    found = asked(changed(facts, **change))
    assert lacks(found, "photo", "inspection") == [(kind, where)]
    odd = [each for each in found.findings if each.code in ("proof-too-early", "inspection-no-day")]
    assert len(odd) == 1
    assert all(getattr(said, "form", "") in SPANISH for said in (odd[0].expected, odd[0].next_step))
    in_spanish(found)
    day = changed(facts, cover__inspected="2026-03-02", cover__photos__floor="2026-03-02")
    assert lacks(asked(day), "photo", "inspection") == []


# Mold and stops -----------------------------------------------------------------------------------------


@pytest.mark.parametrize("area", [1, 12, 99, 150])
def test_mold_that_is_not_gone_keeps_it_shut_whatever_its_surface(area: int) -> None:
    # published: EPA 402-K-01-001, table 2, for 10 and 100 sq ft; that it is gone first is the line printed
    found = asked(ready(), safety={"mold": {"corner": {"square_feet": area}}})
    assert lacks(found, "safety") == [("safety", "mold")]
    assert str(area) in next(each.what for each in found.gate.missing if each.kind == "safety")
    in_spanish(found)


@pytest.mark.parametrize(
    ("said", "shut"),
    [
        ({"gone": "2026-03-10"}, False),
        ({"gone": "2026-03-26"}, False),  # one day left over for clocks and zones
        ({"gone": "2026-03-27"}, True),
        ({"gone": "2031-03-10"}, True),
        ({"gone": "2026-02-10"}, True),  # before anything was opened
        ({"gone": "2026-02-10", "noted": "2026-02-01"}, False),
        ({"gone": "2026-03-10", "noted": "2026-03-11"}, True),
        ({"gone": "2026-03-11", "noted": "2026-03-11"}, False),
    ],
)
def test_mold_is_gone_on_a_day_that_has_come_and_not_before_it_was_noted(
    said: dict[str, str], shut: bool
) -> None:
    """independent: today is 2026-03-25, by the calendar."""
    mold = {"mold": {"corner": {"square_feet": 12, **said}}}
    assert bool(lacks(asked(ready(), safety=mold), "safety")) is shut
    wood = WoodFacts.model_validate(ready(), context={"unit": "in"})
    found = cautions(SafetyFacts.model_validate(mold), TODAY, wood)
    odd = [each for each in found.findings if each.code == "mold-gone-odd"]
    assert bool(odd) is shut
    assert found.mold == (12 if shut else 0)
    assert all(getattr(each.expected, "form", "") in SPANISH for each in odd)


def test_a_stop_of_the_house_is_lifted_by_a_person_and_mold_by_being_gone() -> None:
    """convention 6.2."""
    who = {"by": "Ben", "reason": "asked"}
    foul = {"water": "sewage"}
    stop = {"stop": "water-sewage", "where": "everything it reached", **who}
    assert lacks(asked(ready(), safety=foul), "safety") == [("safety", "everything it reached")]
    assert lacks(asked(ready(), safety={**foul, "lifted": {"1": stop}}), "safety") == []
    mold = {"mold": {"a": {"square_feet": 150}}}
    stop = {"stop": "mold-large", "where": "mold", **who}
    assert lacks(asked(ready(), safety={**mold, "lifted": {"1": stop}}), "safety") == [("safety", "mold")]


def test_a_soft_stud_keeps_it_shut_until_a_person_lifts_the_stop() -> None:
    """convention 6.2; code and place as the plan has them (tests/safety/test_lifts.py)."""
    soft = {"studs": {"B2": {"soft": True}}}
    found = asked(ready(), framing=soft)
    assert lacks(found, "stop") == [("stop", "B2")]
    in_spanish(found)
    lifted = {"1": {"stop": "stud-soft", "where": "B2", "by": "Ben", "reason": "sistered"}}
    assert lacks(asked(ready(), framing=soft, safety={"lifted": lifted}), "stop") == []
    other = {"1": {**lifted["1"], "where": "B3"}}
    assert lacks(asked(ready(), framing=soft, safety={"lifted": other}), "stop") == [("stop", "B2")]


def test_a_stop_of_the_wood_keeps_it_shut_too() -> None:
    facts = changed(ready(), points__plate_B_4__bearing="yes", points__plate_B_4__awl={"2": '1/2"'})
    assert ("stop", 'plate B at 4"') in lacks(asked(facts), "stop")


# A place outside the wood -------------------------------------------------------------------------------


def test_no_place_before_a_joist_begins_is_asked_for() -> None:
    """independent: it begins at 0; 8 less the usual 12 is before it."""
    facts = ready()
    facts["points"]["J1"] = facts["points"]["plate-B-4"] | {
        "member": "joist",
        "name": "J1",
        "wall": None,
        "along": '8"',
        "shown": {"1": "22", "2": "22"},
    }
    found = asked(facts)
    cuts = {each.side: each for each in found.cuts if each.line == "joist J1"}
    assert (cuts["low"].at, cuts["low"].end, cuts["low"].probe) == (F(0), True, None)
    said = [*found.cut_words, found.probe_words, *(each.next_step for each in found.points)]
    assert not any("at -" in each for each in said)
    assert any("to the end of the wood" in each for each in found.cut_words if "joist J1" in each)
    assert cut_lines(()) == ()
