"""Possibly fed: what must raise the odds, and how many are seen on simulated rounds."""

from __future__ import annotations

from decimal import Decimal, localcontext
from math import exp, hypot

import pytest

from undertile.bench.drying import fed_flags
from undertile.bundled import bundled_jobs
from undertile.cli import figures
from undertile.job import read_job
from undertile.wood import dryfit, fed
from undertile.wood.facts import WoodFacts
from undertile.wood.fed import Pair, fed_odds
from undertile.wood.history import history
from undertile.wood.say import hundredths, in_hundred
from undertile.wood.suspects import suspects

AIR = {"1": 9.0, "2": 9.0, "3": 9.0}


def bundled() -> WoodFacts:
    facts: WoodFacts = read_job(bundled_jobs()["wet-corner"]).wood
    return facts.model_copy(deep=True)


def falling(count: int, start: float = 25.0, end: float = 21.5) -> list[Pair]:
    return [Pair(f"p{number}", start, end, 9.0) for number in range(count)]


def test_one_that_stays_while_the_rest_falls_is_named_and_the_rest_is_not() -> None:
    odds = fed_odds([*falling(5), Pair("corner", 27.0, 27.5, 9.0)], 2.0)
    assert odds["corner"].odds > 0.7
    assert all(odds[f"p{number}"].odds < 0.1 for number in range(5))
    assert odds["corner"].change == pytest.approx(0.5)
    assert odds["corner"].expected == pytest.approx(-(25 - 21.5) / 15.5 * 17.5, abs=0.8)


def test_all_that_stay_together_are_suspected_by_their_own_pace() -> None:
    # what is usual counts as a neighbour, so a whole corner that is fed does not hide itself
    odds = fed_odds([Pair(f"p{number}", 26.0, 26.0, 9.0) for number in range(4)], 2.0)
    assert all(each.odds > 0.3 for each in odds.values())


def test_rising_is_worse_than_staying_and_staying_than_falling() -> None:
    def of(second: float) -> float:
        return fed_odds([*falling(4), Pair("x", 25.0, second, 9.0)], 2.0)["x"].odds

    assert of(26.0) > of(25.0) > of(23.5) > of(21.5)


def test_over_the_range_twice_is_suspicious_and_says_no_change() -> None:
    odds = fed_odds([*falling(4), Pair("x", None, None, 9.0)], 2.0)["x"]
    assert odds.odds > 0.3
    assert odds.change is None


def test_the_order_of_the_points_does_not_matter() -> None:
    pairs = [*falling(3), Pair("x", 26.0, 25.5, 9.0)]
    assert fed_odds(pairs, 1.5) == fed_odds(pairs[::-1], 1.5)


def test_on_simulated_rounds_most_that_are_fed_where_read_are_seen_and_few_sound_ones_accused() -> None:
    # independent: slabs and running water; what the referee counts, seed of the figures
    found = fed_flags(250, days_between=2.0).shares()
    assert found["caught_at_the_pins"] > 0.75
    assert found["false_alarms"] < 0.02
    for said in found["by_odds"].values():
        assert said["said"] > 0


@pytest.mark.parametrize("second", [45.0, 95.0, 450.0, 999.0])
def test_any_number_a_meter_can_show_has_odds_and_none_prints_as_certain(second: float) -> None:
    # independent: Bayes' rule in a hundred digits, where no density is 0
    pairs = [*falling(4), Pair("x", 23.0, second, 9.0)]
    usual = 1 - exp(-2.0 / fed.TYPICAL_DAYS)
    pull = sorted([*[3.5 / 15.5] * 4, usual, usual])
    expected = -((pull[2] + pull[3]) / 2) * (23.0 - 9.0 - dryfit.ABOVE_AIR)
    noise = hypot(dryfit.REPEAT, dryfit.REPEAT)
    change = second - 23.0

    def density(off: float, sigma: float) -> Decimal:
        return (-((Decimal(off) / Decimal(sigma)) ** 2) / 2).exp() / Decimal(sigma)

    with localcontext(prec=100):
        wet = density(change - expected, hypot(noise, fed.UNLIKE * expected)) * Decimal(1 - fed.PRIOR)
        is_fed = density(change - fed.FED_CHANGE, hypot(noise, fed.FED_SPREAD)) * Decimal(fed.PRIOR)
        share = float(is_fed / (is_fed + wet))
    found = fed_odds(pairs, 2.0)["x"]
    assert found.odds == pytest.approx(share, abs=1e-9)
    assert 1 <= hundredths(found.odds) <= 99


def test_a_number_past_the_meters_range_counts_as_over_it_for_the_odds() -> None:
    def of(shown: str) -> float:
        facts = bundled()
        facts.points["plate-L-6"].shown["3"] = shown
        odds, _ = suspects(history(facts).series, history(facts).rounds, AIR)
        return odds["plate-L-6"].odds

    assert of("45") == of("450") == of("over") != of("29")


def test_one_home_for_a_chance_in_words() -> None:
    assert [hundredths(each) for each in (0.0, 0.004, 0.5, 0.85, 0.996, 1.0)] == [1, 1, 50, 85, 99, 99]
    assert str(in_hundred(1.0)) == figures.odds(1.0) == "99 in 100"
