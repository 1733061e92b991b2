"""Numbers of a leak test in the unit of the tool: psi, bar or kPa, gallons or liters; none is guessed.

published: 1 psi is 6.894757 kPa, NIST SP 811 (2008), appendix B.8; P2503.7 and P2503.9 as in ``leakpipes``.
independent: one test typed in three units; hand conversions.
"""

from __future__ import annotations

from decimal import Decimal
from typing import Any

import pytest

from tests.wood.test_leak import DAY, HELD, PRESSURE
from undertile.lengths import Unit
from undertile.wood.facts import LeakFacts
from undertile.wood.gauge import PSI, at_least, at_most, mark, psi
from undertile.wood.leakshown import Outcome
from undertile.wood.leaktests import outcomes

BAR = {"gauge": "bar", "first": "4.14", "last": "4.14", "finest": "0.05"}
KPA = {"gauge": "kPa", "first": 414, "last": 414, "finest": 5}


def shown(kind: str, test: dict[str, Any], unit: Unit = "mm") -> Outcome:
    (its,) = outcomes(LeakFacts.model_validate({kind: {"p": test}}, context={"unit": unit}), unit)
    return its


def held(unit: Unit = "mm", **its: Any) -> Outcome:
    return shown("pressures", {"when": DAY, **HELD, "minutes": 20, **its}, unit)


def test_a_psi_is_what_the_tables_say() -> None:
    """published: 6.894757 kPa; a standard atmosphere of 101.325 kPa is 14.696 psi in the same table."""
    assert float(1 / PSI["kPa"]) == pytest.approx(6.894757, abs=1e-9)
    assert float(psi(Decimal("101.325"), "kPa")) == pytest.approx(14.696, abs=5e-4)
    assert float(psi(Decimal("1.01325"), "bar")) == pytest.approx(14.696, abs=5e-4)


def test_what_is_asked_is_rounded_to_the_safe_side() -> None:
    """independent: by hand: 50 psi is 3.447 bar, 344.7 kPa; 200 psi 13.79 bar; 1 psi 0.0689 bar, 6.89 kPa."""
    assert (at_least(50, "psi"), at_least(50, "bar"), at_least(50, "kPa")) == ("50", "3.5", "345")
    assert (at_most(200, "psi"), at_most(200, "bar"), at_most(200, "kPa")) == ("200", "13.7", "1378")
    marks = [mark(Decimal(one), reads) for one in ("0.1", "1", "2") for reads in ("bar", "kPa")]
    assert marks == [Decimal(one) for one in ("0.006", "0.6", "0.06", "6", "0.1", "10")]


@pytest.mark.parametrize("its", [BAR, KPA])
@pytest.mark.parametrize("unit", ["in", "mm"])
def test_one_test_in_any_unit_shows_the_same(its: dict[str, Any], unit: Unit) -> None:
    assert (
        held(unit, **its).excludes == held("in", first=60, last=60, finest=1).excludes == ("supply", "riser")
    )


@pytest.mark.parametrize(
    ("change", "nothing"),
    [
        ({"first": "3.4", "last": "3.4"}, "hold 3.5 bar or more for 15 min"),  # 49.3 psi
        (
            {"finest": "0.1"},
            "its gauge is too coarse, 0.1 bar a mark: at 4.14 bar take one with marks of 0.06",
        ),
        ({"last": "4.12"}, "unclear: it changed by less than a mark of 0.05 bar"),
        (
            {"first": 60, "last": 60},
            "its numbers are asked about: a water test from 0 to 13.7 bar",
        ),  # psi typed
    ],
)
def test_what_shows_nothing_is_said_in_the_gauge_s_unit(change: dict[str, Any], nothing: str) -> None:
    its = held(**BAR | change)
    assert its.excludes == ()
    assert str(its.nothing).startswith(nothing)


def test_a_fall_of_a_mark_is_a_fall_in_any_unit() -> None:
    assert held(**BAR | {"last": "4.09"}).one_of == ("supply", "riser")
    assert held(**KPA | {"last": 409, "of": "supply"}).finds == ("supply",)


@pytest.mark.parametrize("unit", ["in", "mm"])
def test_what_a_gauge_reads_in_is_asked_and_rules_nothing_out(unit: Unit) -> None:
    """The same in any unit of the job: what is typed does not change its meaning with it."""
    its = held(unit, first=60, last=60, finest=1, gauge="unknown")
    assert its.excludes == ()
    assert its.nothing == "say whether its gauge reads psi, bar or kPa"
    assert its.asked is not None
    assert its.asked.expected == "a gauge in psi, bar or kPa"
    assert "60 (unit not said)" in its.why
    assert its.say, "a word is all that is missing"
    fell = held(unit, first=60, last=50, finest=1, gauge="unknown")
    assert fell.one_of == ("supply", "riser"), "what fell fell"


def test_which_pipes_is_not_guessed() -> None:
    """independent: nobody said which; held it rules nothing out, fallen it is one of the two."""
    test = {key: value for key, value in PRESSURE.items() if key != "of"}
    its = shown("pressures", test, "in")
    assert its.excludes == ()
    assert its.nothing == "say which pipes were held"
    assert its.asked is not None
    assert its.asked.came == "not said which pipes were held"
    assert "pipes not said" in its.why
    fell = shown("pressures", test | {"last": 48}, "in")
    assert (fell.finds, fell.one_of) == ((), ("supply", "riser"))


@pytest.mark.parametrize(
    ("amount", "excludes", "said"),
    # independent: 5 gal are 18.93 L
    [
        ({"litres": 20}, ("drain",), "20 L poured in"),
        ({"litres": 19}, ("drain",), "19 L poured in"),
        ({"litres": "18.9"}, (), "18.9 L poured in"),
        ({"gallons": 5}, ("drain",), "19 L poured in"),
        ({}, (), "water poured in"),
        ({"gallons": 5, "litres": 20}, (), "water poured in"),
    ],
)
def test_what_was_poured_in_liters_or_gallons(
    amount: dict[str, Any], excludes: tuple[str, ...], said: str
) -> None:
    its = shown("pours", {"when": DAY, "minutes": 20, "below": "dry", **amount})
    assert its.excludes == excludes
    assert its.why.startswith(said)
    if len(amount) != 1:
        assert its.nothing == "say how much was poured"
        assert its.asked is not None


def test_what_was_wet_below_is_found_however_much_was_poured() -> None:
    assert shown("pours", {"when": DAY, "minutes": 20, "below": "wet"}).finds == ("drain",)


def test_a_spray_named_by_its_zone_is_not_said_twice() -> None:
    """independent: by hand."""
    spray = {"when": DAY, "zone": "lower walls", "minutes": 10, "shows": "dry"}
    table = {"lower-walls": spray, "left": spray}
    its = outcomes(LeakFacts.model_validate({"sprays": table}, context={"unit": "in"}), "in")
    assert sorted(each.test for each in its) == ["spray, lower walls", "spray, lower walls, left"]


@pytest.mark.parametrize(
    ("finest", "minutes", "unit", "told"),
    [("0.01", 120, "mm", "0.2 L"), ("0.05", 60, "mm", "1.2 L"), ("0.01", 120, "in", "0.1 gal")],
)
def test_what_would_have_shown_is_never_told_finer_than_it_was(
    finest: str, minutes: int, unit: Unit, told: str
) -> None:
    """independent: a mark of 0.01 in two hours is 0.12 a day, told as 0.2; 0.05 in an hour is 1.2; 0.12 L is
    0.032 gal, told as 0.1."""
    dial = {"when": DAY, "first": 100, "last": 100, "minutes": minutes, "finest": finest, "unit": "litres"}
    assert shown("dials", dial, unit).why.endswith(f"no move; {told} a day would have shown")
