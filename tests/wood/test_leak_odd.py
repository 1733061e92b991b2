"""What a walk found to open the gate, or to leave no honest way out, in the tests of the leak.

independent: each is a test worked by hand with one thing changed; limits are ours (docs/methods/leak.md).
"""

from __future__ import annotations

from typing import Any

import pytest

from tests.wood.cast import answer, changed, corner
from tests.wood.test_leak import (
    DAY,
    EVERYTHING,
    FILL,
    NEXT,
    OUTSIDE,
    POUR,
    PRESSURE,
    found,
    sprays,
    standing,
    told,
)
from undertile.packet.words.sentences import SPANISH
from undertile.wood.leakword import NOTICED
from undertile.wood.typed import day_text

STILL = {"first": 1, "last": 1, "minutes": 1}
TORN = {"reason": "torn out, made new"}


def why(leak: dict[str, Any], candidate: str) -> str:
    return next(str(each.why) for each in found(leak).stands if each.candidate == candidate)


@pytest.mark.parametrize(
    ("leak", "candidate"),
    [
        ({"fills": {"f": FILL | {"below": "wet"}}}, "pan"),
        (EVERYTHING | {"sprays": sprays(corners="wet")}, "enclosure"),
    ],
)
def test_what_was_found_to_leak_and_is_torn_out_since_is_settled(
    leak: dict[str, Any], candidate: str
) -> None:
    assert standing(leak, candidate) == "found"
    torn = leak | {"not_here": {candidate: TORN | {"out": "2026-03-20"}}}
    assert standing(torn, candidate) == "mended"
    assert str(why(torn, candidate)).endswith("torn out 2026-03-20: torn out, made new")
    assert [each.where for each in told(torn, "leak-said-otherwise")] == []
    assert found(torn).statement[0].startswith("Water came from"), "whoever pays reads where it came from"
    test = found(leak).outcomes[-1]
    within = day_text(test.day) + " 12:00"
    if test.kind == "fills":  # begun that morning, and 24 h long: it was not torn out at noon
        during = leak | {"not_here": {candidate: TORN | {"out": within}}}
        assert standing(during, candidate) == "found"
    early = leak | {"not_here": {candidate: TORN | {"out": "2026-03-01"}}}
    assert standing(early, candidate) == "found", "a test after it found it"
    assert standing(leak | {"not_here": {candidate: TORN}}, candidate) == "found", "a word is no tearing out"


def test_one_of_two_that_a_spray_pointed_to_is_settled_when_it_is_torn_out() -> None:
    """independent: wet with the drain plugged: walls or pan; the pan is gone since, the walls are left."""
    leak = {"sprays": sprays(corners="wet")}
    assert standing(leak, "pan") == standing(leak, "enclosure") == "open"
    torn = leak | {"not_here": {"pan": TORN | {"out": "2026-03-20"}}}
    assert (standing(torn, "pan"), standing(torn, "enclosure")) == ("not here", "open")
    assert "sprayed" in why(torn, "pan")


@pytest.mark.parametrize(
    ("kind", "test"),
    [
        ("pours", POUR | {"after": 3, "place": "joist J2"}),
        ("pours", POUR | {"place": "joist J2"}),
        ("pours", POUR | {"after": 3}),
        ("fills", FILL | {"place": "joist J2"}),
        ("outsides", OUTSIDE | {"after": 3}),
        ("next_doors", NEXT | {"place": "joist J2"}),
    ],
)
def test_dry_with_the_place_where_water_showed_is_asked_and_rules_nothing_out(
    kind: str, test: dict[str, Any]
) -> None:
    candidate = {"pours": "drain", "fills": "pan", "outsides": "roof or window", "next_doors": "neighbour"}
    leak = EVERYTHING | {kind: {"x": test}}
    assert standing(leak, candidate[kind]) == "open"
    (said,) = told(leak, "leak-test-asked")
    assert said.expected == "dry, or where and when water showed, not both"
    assert said.found.startswith("water showed")
    first = found(leak).next_tests[0]
    assert first.do.startswith("Of "), "to say which comes before a test anew"
    assert f"say whether it was dry: {said.found} is typed too" in first.do


def test_a_zone_dry_with_a_place_is_no_dry_zone() -> None:
    zones = sprays()
    zones["valve"] = zones["valve"] | {"place": "behind the plate"}
    assert standing(EVERYTHING | {"sprays": zones}, "enclosure") == "open"


def test_the_finest_mark_that_is_taken_is_taken() -> None:
    assert found({"pressures": {"p": PRESSURE | {"finest": "0.01"}}}).of("excluded") == ("supply", "riser")


@pytest.mark.parametrize(
    ("kind", "test", "expected"),
    [
        (
            "dials",
            {"first": 1, "last": 1, "minutes": 1, "finest": "0.00001", "unit": "gallons"},
            "0.001 gallons",
        ),
        ("pressures", PRESSURE | {"finest": "0.0000001"}, "0.01 psi"),
        ("pours", POUR | {"gallons": 5000}, "100 gallons or less"),
        ("pours", {"when": DAY, "litres": 5000, "minutes": 20, "below": "dry"}, "379 liters or less"),
    ],
)
def test_numbers_that_no_tool_gives_are_asked(kind: str, test: dict[str, Any], expected: str) -> None:
    leak = {kind: {"x": {"when": DAY, **test}}}
    assert found(leak).of("excluded") == ()
    (said,) = told(leak, "leak-test-asked")
    assert expected in said.expected


def test_after_a_repair_both_sides_are_tested_again() -> None:
    """independent: hot held before the repair and cold after it: hot was not tested since."""
    mended = {"supply": {"when": "2026-03-06", "what": "elbow"}}
    lost = PRESSURE | {"of": "supply", "last": 48, "when": "2026-03-05 09:00"}
    hot = PRESSURE | {"of": "supply", "sides": "hot", "when": "2026-03-05 16:00"}
    cold = hot | {"sides": "cold", "when": "2026-03-07 09:00"}
    leak = {"pressures": {"a": lost, "b": hot, "c": cold}, "mended": mended}
    assert standing(leak, "supply") == "open"
    again = hot | {"when": "2026-03-07 10:00"}
    assert standing(leak | {"pressures": {"a": lost, "b": hot, "c": cold, "d": again}}, "supply") == "mended"


@pytest.mark.parametrize(
    ("day", "expected"),
    [("2019-01-01", "a day within 60 days of"), ("2025-12-20", "a day within 60 days of")],
)
def test_what_was_torn_out_long_before_the_wall_was_opened_is_asked(day: str, expected: str) -> None:
    its = answer(changed(corner(3), leak={"not_here": {"pan": TORN | {"out": day}}}))
    assert "pan" in its.source.of("open")
    (said,) = [each for each in its.findings if each.code == "out-day-odd"]
    assert said.expected.startswith(expected)
    (left,) = [each for each in its.gate.missing if each.where == said.where]
    assert "type the day it was torn out" in left.next_step


def test_what_was_torn_out_before_the_water_was_noticed_made_none_of_it_and_is_asked() -> None:
    leak = {"noticed": "2026-02-10", "not_here": {"pan": TORN | {"out": "2026-02-01"}}}
    its = answer(changed(corner(3), leak=leak))
    assert "pan" in its.source.of("open")
    (said,) = [each for each in its.findings if each.code == "out-day-odd"]
    assert said.expected == "a day not before the water was noticed, 2026-02-10"
    noticed = changed(corner(3), leak=leak | {"noticed": "2026-01-10"})
    assert "pan" in answer(noticed).source.of("not here")


@pytest.mark.parametrize(
    ("symptom", "candidate"),
    [
        ("wet after rain", "roof or window"),
        ("wet in cold weather", "condensation"),
        ("neighbour uses water", "neighbour"),
    ],
)
def test_a_word_does_not_stand_against_what_was_noticed(symptom: str, candidate: str) -> None:
    leak = {"not_here": {candidate: {"reason": "no such thing here"}}}
    assert standing(leak | {"symptom": "always wet"}, candidate) == "not here"
    assert standing(leak | {"symptom": symptom}, candidate) == "open"
    (said,) = told(leak | {"symptom": symptom}, "leak-word-alone")
    assert said.expected == "a test: what was noticed points to it"
    assert NOTICED.do.form in SPANISH  # type: ignore[attr-defined]


def test_on_a_slab_the_drain_has_an_honest_way_out() -> None:
    """independent: water poured shows nothing there; a plug past the trap holds all of the drain under it."""
    pour = {"pours": {"q": POUR | {"below": "slab"}}}
    assert standing(pour, "drain") == "open"
    offered = {each.kind: each for each in found(pour).next_tests}
    assert "pours" not in offered
    assert offered["fills"].covers == ("pan", "drain")
    assert "past the trap" in offered["fills"].do
    torn = pour | {"not_here": {"pan": TORN | {"out": DAY}}}
    (step,) = [each for each in found(torn).next_tests if each.kind == "fills"]
    assert step.covers == ("drain",)
    assert "the pan" not in step.do, "there is none to fill"
    level = FILL | {"plug": "past the trap", "below": "slab"}
    assert found(pour | {"fills": {"f": level}}).of("excluded") == ("drain", "pan")
    assert standing({"fills": {"f": FILL | {"below": "slab"}}}, "pan") == "excluded", "held beside the bowl"
    assert standing({"fills": {"f": FILL | {"below": "slab"}}}, "drain") == "open"
    no_bowl = {key: each for key, each in level.items() if key != "bowl"} | {"drop": "0"}
    assert standing({"fills": {"f": no_bowl}}, "pan") == "open", "only the level tells"
    fell = level | {"drop": '3/8"'}
    assert found({"fills": {"f": fell}}).of("excluded") == ()


def test_a_test_that_lacks_a_word_comes_before_a_new_one() -> None:
    """independent: what is said takes a minute; a test anew takes three quarters of an hour."""
    leak = {"pressures": {"p": PRESSURE | {"gauge": "unknown"}}}
    first = found(leak).next_tests[0]
    assert first.kind == "pressures"
    assert first.do == "Of pressure test, p: say whether its gauge reads psi, bar or kPa."
    assert set(first.covers) == {"supply", "riser"}
    mended = {
        "supply": {"when": "2026-03-20", "what": "elbow"},
        "riser": {"when": "2026-03-20", "what": "pipe"},
    }
    later = found(leak | {"mended": mended}).next_tests[0]
    assert not later.do.startswith("Of "), "it was made before the repair"


SLAB = FILL | {"plug": "past the trap", "below": "slab"}


def test_a_slab_with_joists_under_it_is_asked_and_rules_nothing_out() -> None:
    """independent: one floor is not both; without the joists the same test clears pan and drain."""
    facts = changed(corner(1), leak={"fills": {"f": SLAB}})
    points = {name: each for name, each in facts["points"].items() if each["member"] != "joist"}
    joist = {"member": "joist", "name": "J1", "along": "8", "material": "lumber"}
    bare, framed = facts | {"points": points}, facts | {"points": points | {"under": joist}}
    assert {"pan", "drain"} <= set(answer(bare).source.of("excluded"))
    its = answer(framed)
    assert {"pan", "drain"} <= set(its.source.of("open"))
    said = [each for each in its.findings if each.expected.startswith("dry, wet or not watched")]
    assert [each.found for each in said] == ["a slab, nothing to see below"]
    assert said[0].next_step.form in SPANISH  # type: ignore[attr-defined]


def test_a_repair_without_a_word_of_what_was_mended_does_not_count() -> None:
    """independent: the same job with the word is mended once the test after it is clean."""
    leak = {"pressures": {"a": PRESSURE | {"of": "supply", "last": 48}}}
    after = {"pressures": leak["pressures"] | {"b": PRESSURE | {"when": "2026-03-08"}}}
    for what, stands, clean in (("x", "found", "open"), ("new elbow", "open", "mended")):
        mended = {"mended": {"supply": {"when": "2026-03-06", "what": what}}}
        assert standing(leak | mended, "supply") == stands
        assert standing(after | mended, "supply") == clean
    bare = leak | {"mended": {"supply": {"when": "2026-03-06", "what": "x"}}}
    (said,) = told(bare, "leak-word-alone")
    assert said.expected.startswith("what was mended, in words")
    its = answer(changed(corner(1), leak=bare))
    (left,) = [each for each in its.gate.missing if each.where == said.where]
    assert left.next_step == "Write what was mended; until then it counts as not mended."
