"""Explanations and their weights against plain arithmetic."""

from __future__ import annotations

import random
from math import exp, log, pi, sqrt
from typing import Any

import numpy as np
import pytest

from tests.survey.cast import facts, inch, room, with_readings
from undertile.bench.slip_plant import plant
from undertile.bench.slip_rooms import clean_survey
from undertile.survey.hypotheses import TRUST, Explanations, Hypothesis, averaged
from undertile.survey.read import adjust_survey
from undertile.survey.slips import SLIPS
from undertile.survey.suspects import find_misfits


def look_at(table: dict[str, Any]) -> Explanations:
    """The explanations of a survey."""
    grid, _, fit = adjust_survey(facts(table))
    return Explanations(grid, fit)


@pytest.mark.parametrize(
    ("g", "m", "spread", "about"),
    [(0.0, 100.0, 0.25, 0.0), (-12.0, 300.0, 0.5, 0.0), (9.0, 40.0, 0.25, -3.0), (-400.0, 150.0, 0.25, 3.0)],
)
def test_a_change_of_unknown_size_is_an_average_over_its_sizes(
    g: float, m: float, spread: float, about: float
) -> None:
    # independent: the same average summed over a fine grid of sizes
    best, weight = averaged(g, m, spread, about)
    sizes = np.linspace(about - 12 * spread, about + 12 * spread, 200_001)
    exponent = -g * sizes - m * sizes**2 / 2 - (sizes - about) ** 2 / (2 * spread**2)
    top = float(exponent.max())
    step = float(sizes[1] - sizes[0])
    total = log(float(np.exp(exponent - top).sum()) * step / (sqrt(2 * pi) * spread)) + top
    assert weight == pytest.approx(total, abs=1e-6)
    assert best == pytest.approx(float(sizes[exponent.argmax()]), abs=step)


def test_an_exact_correction_weighs_its_rate_and_its_gain() -> None:
    # independent: hand calculation from the survey typed as corrected and adjusted anew
    table = with_readings(room(), B3_48="7")
    table["diagonals"] = {}
    look = look_at(table)
    _, _, anew = adjust_survey(facts(with_readings(table, B3_48="6")))
    place = {seen.place: i for i, seen in enumerate(look.fit.observations) if seen.slope}
    (found,) = [h for h in look.all({}) if h.kind == "inch off" and set(h.change) == {place["B3 at 48"]}
                and h.change[place["B3 at 48"]] > 0]  # fmt: skip
    gain = look.fit.omega - anew.omega
    assert gain > 50
    assert found.weight == pytest.approx(log(SLIPS["inch off"].rate / 2) + TRUST * gain / 2, rel=1e-6)


def test_a_moved_line_is_priced_as_shifting_every_later_reading() -> None:
    # independent: curvature of the whole change at once
    rng = random.Random("moved")
    survey = clean_survey(rng)
    assert plant(rng, survey, "line moved")
    grid, _, fit = adjust_survey(survey.facts())
    look = Explanations(grid, fit)
    for order in look.orders:
        for n in (0, 3, len(order.late) // 2, len(order.late) - 1):
            change = dict.fromkeys(order.late[: n + 1], 1.0)
            assert order.curvature[n] == pytest.approx(fit.curvature(change), rel=1e-9, abs=1e-6)


def test_odds_are_shares_of_all_that_was_looked_at() -> None:
    # independent: summed by hand, chance with the weight 1
    look = look_at(with_readings(room(), L2_48="6-3/8"))
    (misfit,) = find_misfits(look)
    every: list[Hypothesis] = look.all({})
    total = 1 + sum(exp(h.weight) for h in every)
    assert misfit.slip == pytest.approx(sum(exp(h.weight) for h in every if not h.lumber) / total)
    by_hand = sorted((exp(h.weight) / total for h in every if h.kind != "line moved"), reverse=True)
    assert misfit.candidates[0].odds == pytest.approx(by_hand[0])
    assert sum(c.odds for c in misfit.candidates) <= 1.0


def test_lumber_bent_at_one_height_is_among_the_rivals() -> None:
    look = look_at(with_readings(room(), B1_48="6-1/4"))
    kinds = {h.kind for h in look.all({})}
    assert "bend" in kinds
    assert {h.kind for h in look.all({}) if h.lumber} <= {"bend", "crown"}


def test_a_mirrored_room_has_mirrored_explanations() -> None:
    # independent: symmetry, L and R exchanged
    def swapped(table: dict[str, Any]) -> dict[str, Any]:
        out = room()
        for stud, other in (("L", "R"), ("R", "L")):
            for n in "123":
                readings = table["walls"][stud]["studs"][f"{stud}{n}"]["readings"]
                out["walls"][other]["studs"][f"{other}{n}"]["readings"] = dict(readings)
        out["levels"] = {}
        return out

    table = with_readings(room(), L2_48="7", L1_72="5-7/8")
    table["levels"] = {}
    mirror = swapped(table)
    for each in (table, mirror):
        # the corner's wood is B's, whose studs are not placed alike from both ends
        each["diagonals"] = {}
        each["walls"]["B"]["studs"]["B2"]["readings"][inch("48")] = "6-0"
    one = {(c.hypothesis.kind, round(c.odds, 6)) for m in find_misfits(look_at(table)) for c in m.candidates}
    two = {(c.hypothesis.kind, round(c.odds, 6)) for m in find_misfits(look_at(mirror)) for c in m.candidates}
    assert one == two
    assert one
