"""Pipes under pressure and the water meter: the finest mark decides what a test can show at all.

independent: every case worked by hand from two numbers and a mark; published: the marks of IRC P2503.9 (1 psi
up to 100 psi, 2 psi over it).
"""

from __future__ import annotations

from decimal import Decimal
from typing import Any

import pytest

from tests.wood.test_leak import DIAL, EVERYTHING, PRESSURE, found, standing, told
from undertile.packet.words.sentences import SPANISH
from undertile.sentence import Sentence
from undertile.wood.leakpipes import coarsest
from undertile.wood.leakshown import Outcome, named

NO_MARK = {name: each for name, each in PRESSURE.items() if name != "finest"}


def pressed(**more: Any) -> Outcome:
    (outcome,) = found({"pressures": {"p": PRESSURE | more}}).outcomes
    return outcome


@pytest.mark.parametrize(
    ("more", "stands", "says"),
    [
        ({}, "excluded", "it held"),
        ({"last": "60.0"}, "excluded", "it held"),
        ({"last": "59.1"}, "open", "unclear"),
        ({"last": "60.5"}, "open", "unclear"),
        ({"last": 59}, "open", "it fell"),  # a whole mark
        ({"last": 61}, "open", "it rose"),
        ({"last": 56, "finest": 5}, "open", "too coarse"),
        ({"finest": 5}, "open", "too coarse"),
        ({"finest": 2}, "open", "too coarse"),
        ({"first": 120, "last": 120, "finest": 2}, "excluded", "it held"),
        ({"first": 100, "last": 100, "finest": 2}, "open", "too coarse"),
        ({"last": 55, "finest": 5}, "open", "it fell"),  # a whole mark of a coarse gauge is a fall
        ({"last": "59.9", "finest": "0.1"}, "open", "it fell"),
        (
            {"last": "59.99", "finest": "0.1", "minutes": 1440},
            "open",
            "unclear",
        ),  # long does not make it held
    ],
)
def test_a_pressure_is_held_only_where_its_gauge_can_tell(
    more: dict[str, Any], stands: str, says: str
) -> None:
    for of in ("both", "supply"):
        its = pressed(**more, of=of)
        leak = {"pressures": {"p": PRESSURE | more | {"of": of}}}
        assert says in f"{its.why}; {its.nothing}"
        assert bool(its.excludes) is (stands == "excluded")
        alone = of == "supply" and says == "it fell"
        assert standing(leak, "supply") == ("found" if alone else stands)


@pytest.mark.parametrize("last", ["56", "59.1", "60.5", "59.99", "60.01"])
@pytest.mark.parametrize("finest", [None, "0.1", "1", "5", "10"])
@pytest.mark.parametrize("medium", ["water", "air", "unknown"])
def test_two_different_numbers_are_never_held(last: str, finest: str | None, medium: str) -> None:
    more = {"last": last, "medium": medium} | ({} if finest is None else {"finest": finest})
    its = found({"pressures": {"p": NO_MARK | more}})
    words = " ".join((*its.statement, *(each.why for each in its.outcomes)))
    assert "held" not in words
    assert its.of("excluded") == ()


def test_a_gauge_whose_mark_nobody_said_is_asked_about_and_rules_nothing_out() -> None:
    assert standing({"pressures": {"p": NO_MARK}}, "supply") == "open"
    (asked,) = told({"pressures": {"p": NO_MARK}}, "leak-test-asked")
    assert asked.found == "not said what its gauge's finest mark is"
    assert asked.expected == "a gauge with marks of 1 psi or finer at 60 psi"
    assert told({"pressures": {"p": PRESSURE}}, "leak-test-asked") == []
    fell = {"pressures": {"p": NO_MARK | {"of": "supply", "last": 56}}}
    assert standing(fell, "supply") == "found", "what it lost, it lost"
    bare = {name: each for name, each in NO_MARK.items() if name not in ("sides", "medium")}
    (all_of_it,) = told({"pressures": {"p": bare}}, "leak-test-asked")
    assert all_of_it.found.count(";") == 2


def test_the_marks_of_a_gauge_by_its_pressure() -> None:
    """published: 0.1 psi up to 10 psi, 1 psi up to 100 psi, 2 psi over it."""
    hand = {"5": "0.1", "10": "0.1", "10.1": "1", "100": "1", "101": "2", "250": "2"}
    assert {psi: str(coarsest(Decimal(psi))) for psi in hand} == hand


@pytest.mark.parametrize(
    ("more", "says"),
    [
        ({"last": "412.33"}, "unclear: less than its finest mark, 0.05"),  # 0.02 of a mark of 0.05
        ({"last": "412.33", "minutes": 1440}, "unclear"),
        ({"last": "412.33", "unit": "unknown"}, "unclear"),
        ({"last": "412.36"}, "behind the meter"),  # a whole mark: 0.05 gal in 2 h
        ({"last": "413", "finest": "1"}, "unclear"),  # 0.69 of a mark of 1
        ({"last": "413.31", "finest": "1"}, "behind the meter"),
    ],
)
def test_a_dial_that_moved_is_never_still(more: dict[str, Any], says: str) -> None:
    leak = {"dials": {"d": DIAL | more}}
    (outcome,) = found(leak).outcomes
    assert says in f"{outcome.why}; {outcome.nothing}"
    assert "no move" not in outcome.why
    assert standing(leak, "supply") == "open"


def test_what_is_said_of_gauge_and_dial_is_said_in_spanish_too() -> None:
    cases = (
        {"pressures": {"p": PRESSURE | {"last": "59.1"}, "q": PRESSURE | {"finest": 5}, "r": NO_MARK}},
        {"dials": {"d": DIAL | {"last": "412.33"}}},
    )
    for leak in cases:
        for each in found(leak).outcomes:
            asked = () if each.asked is None else (each.asked.expected, each.asked.came, each.asked.do)
            for said in (each.nothing, *asked):
                assert isinstance(said, Sentence)
                assert said.form in SPANISH


def test_a_test_without_a_name_is_called_by_its_kind_and_day() -> None:
    day = "2026-11-26 08:00"
    for none in ("unnamed 1", "unnamed", "1", "- 2"):
        assert named(none, day) == day
    for name in ("again", "Ann 1", "p", "1st"):
        assert named(name, day) == name
    leak = EVERYTHING | {"pressures": {"unnamed 1": PRESSURE | {"when": day}}}
    words = " ".join(found(leak).statement)
    assert "unnamed" not in words
    assert f"pressure test, {day}: water in supply and riser" in words
