"""Another limit than the usual for how far past the last bad spot to open: a reason, and no usual words."""

from __future__ import annotations

from typing import Any

import pytest

from tests.wood.cast import answer, changed, corner
from undertile.findings import Severity
from undertile.packet.told import told as spanish
from undertile.packet.words import Words
from undertile.packet.words.cited import cited
from undertile.sources import cite
from undertile.wood.facts import WoodFacts
from undertile.wood.goal import usual_past
from undertile.wood.run import water

CODE = "moisture-limits-changed"


def own(past: str, reason: str = "", **more: Any) -> Any:
    return answer(changed(corner(1), allowed={"past_the_last": past, "reason": reason}), **more)


def test_a_shorter_limit_asks_for_a_reason_and_keeps_it() -> None:
    # independent: 1 is less than the 12 of common practice; as convention 5.4's limits, each with its reason
    found = own("1")
    (said,) = [each for each in found.findings if each.code == CODE]
    assert said.severity is Severity.ACT
    assert '1" for 12"' in said.found
    assert "no reason" in said.found
    assert "beside the water's limits" in said.next_step
    assert "the usual one counts" in said.next_step
    assert found.own_past == ""
    assert [each.at for each in found.cuts] == [each.at for each in answer(corner(1)).cuts]
    found = own("1", "the plate is let in")
    (said,) = [each for each in found.findings if each.code == CODE]
    assert said.severity is Severity.NOTE
    assert "the plate is let in" in said.found
    assert "the plate is let in" in found.own_past
    assert 'Open until 1" of sound' in found.own_past


def test_in_a_job_in_mm_the_usual_is_said_in_mm() -> None:
    # independent: 12 times 25.4 is 305 to the millimetre
    assert "305 mm" in own("100 mm", "let in", unit="mm").own_past
    facts = changed(corner(1), allowed={"past_the_last": "100", "reason": "let in"})
    found = water(WoodFacts.model_validate(facts, context={"unit": "mm"}), "mm")
    (said,) = [each for each in found.findings if each.code == CODE]
    assert "100 mm for 305 mm" in said.found
    assert "Open until 100 mm of sound" in found.own_past


@pytest.mark.parametrize(("past", "said"), [("12", ""), ("24", "Open until 24")])
def test_the_usual_or_more_needs_no_reason(past: str, said: str) -> None:
    # independent: opening further is the careful side
    found = own(past)
    assert not [each for each in found.findings if each.code == CODE]
    assert found.own_past.startswith(said)
    assert bool(found.own_past) == bool(said)


@pytest.mark.parametrize(("unit", "said", "not_so"), [("in", '12"', " mm"), ("mm", "305 mm", "12")])
def test_the_usual_is_said_in_the_job_s_unit_and_its_source_in_none(
    unit: Any, said: str, not_so: str
) -> None:
    # independent: 12 times 25.4 is 305 to the millimetre; every face prints a source's title as it stands
    for told in (str(usual_past(unit)), spanish(usual_past(unit), Words("es"))):
        assert said in told
        assert not_so not in told
    assert spanish(usual_past(unit), Words("es")).endswith("(práctica común, sin fuente)")
    for title in (cite("practice-open-past"), cited("practice-open-past")):
        assert not any(letter.isdigit() for letter in title)
