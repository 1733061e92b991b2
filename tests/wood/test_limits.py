"""Limits looser than convention 5.4's: with a reason they count, without one the usual ones do."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

import pytest

from tests.wood.cast import answer, changed, corner
from undertile.findings import Severity
from undertile.packet.told import told as spanish
from undertile.packet.words import Words
from undertile.wood.facts import Allowed
from undertile.wood.limits import USUAL, counting, looser

CODE = "moisture-limits-changed"


def goal(**allowed: Any) -> float | None:
    return answer(changed(corner(1), allowed=allowed)).goals["lumber"].value


def said(**allowed: Any) -> Any:
    found = answer(changed(corner(1), allowed=allowed)).findings
    return next((each for each in found if each.code == CODE), None)


def test_the_usual_ones_are_convention_5_4_s() -> None:
    """published: convention 5.4, min(dry reference + 4, 16), never over 19; the facts' own defaults."""
    assert (USUAL["over_reference"], USUAL["most"], USUAL["never"]) == (4, 16, 19)
    bare = Allowed()
    assert {name: getattr(bare, name) for name in USUAL} == USUAL
    assert looser(bare) == ()


@pytest.mark.parametrize(("reason", "counts"), [("", False), ("x", False), ("  ", False), ("old oak", True)])
def test_a_looser_goal_counts_only_with_its_reason(reason: str, counts: bool) -> None:
    """independent, by hand: the dry places read 9, 9.5 and 8.5, so 9 and 4 are 13; 9 and 8 are 17."""
    assert goal() == 13
    assert goal(over_reference="8", most="19", reason=reason) == (17 if counts else 13)
    found = said(over_reference="8", most="19", reason=reason)
    assert found.severity is (Severity.NOTE if counts else Severity.ACT)
    assert ("the usual one counts" in found.next_step) is not counts


@pytest.mark.parametrize(("name", "value"), [("over_reference", "2"), ("most", "10"), ("never", "15")])
def test_a_stricter_one_is_taken_and_its_reason_asked_for(name: str, value: str) -> None:
    """independent: less lets less pass."""
    allowed = Allowed.model_validate({name: value}, context={"unit": "in"})
    assert looser(allowed) == ()
    assert getattr(counting(allowed), name) == Decimal(value)
    assert said(**{name: value}).next_step == "Write why beside the water's limits."


def test_of_two_changed_only_the_looser_one_is_put_back() -> None:
    """independent, by hand: 9 and 3 are 12, under both 16 and 19."""
    typed = Allowed(over_reference=Decimal(3), most=Decimal(19), read_within=Decimal(30))
    kept = counting(typed)
    assert (kept.over_reference, kept.most, kept.read_within) == (3, 16, 14)
    assert goal(over_reference="3", most="19") == 12


def test_days_fewer_and_wood_further_ask_for_nothing() -> None:
    """independent: both are the careful side."""
    assert said(read_within="7", past_the_last='24"') is None


def test_what_is_said_has_its_spanish() -> None:
    """independent: no word of the English is left."""
    found = said(most="19")
    assert "el de costumbre" in spanish(found.next_step, Words("es"))
