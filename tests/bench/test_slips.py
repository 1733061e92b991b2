"""The simulated surveys and their measurement, in a small run with slack for its size."""

from __future__ import annotations

import json
import random
from fractions import Fraction

import pytest

from undertile.bench.slip_plant import KINDS, NATURAL, natural_survey, plant
from undertile.bench.slip_rooms import Planted, clean_survey
from undertile.bench.slip_sizes import SIZES, shifted
from undertile.bench.slip_sizes import measure as measure_sizes
from undertile.bench.slips import calibration, is_right, main, measure, named_groups
from undertile.bench.survey_speed import brute_force, single_corrections, whole_system
from undertile.lengths import parse_length
from undertile.survey import read


def test_a_small_run_keeps_the_broad_shares() -> None:
    # independent: binomial slack; at a true 1 % more than 2 of 25 is one run in five hundred, at a true
    # 95 % fewer than 19 of 25 is one in a thousand
    report = measure(25, 101, ("inch off", "transposed", "tape case"))
    assert report.false_alarms <= 2
    assert report.kinds["inch off"].caught >= 19
    assert report.kinds["transposed"].caught >= 20
    assert report.kinds["tape case"].caught >= 20
    sure = [right for odds, right in report.offered_by_kind if odds >= 0.9]
    assert len(sure) >= 25
    assert sum(sure) >= 0.75 * len(sure)
    shares = report.as_json()
    assert shares["by_kind"]["inch off"]["theoretical_power"] > 0.8
    assert json.dumps(shares)


@pytest.mark.parametrize("kind", KINDS)
def test_a_planted_slip_changes_what_is_typed_and_knows_what_was_right(kind: str) -> None:
    rng = random.Random(f"plant {kind}")
    made = 0
    for _ in range(8):
        survey = clean_survey(rng)
        before = dict(survey.values)
        if not plant(rng, survey, kind):
            continue
        made += 1
        (slip,) = survey.planted
        changed = {place for place, value in survey.values.items() if value != before[place]}
        assert changed == set(slip.right)
        assert all(parse_length(text, "in").inches == before[place] for place, text in slip.right.items())
        assert slip.size == pytest.approx(
            max(abs(float(survey.values[place] - before[place])) for place in changed)
        )
    assert made >= 4


def test_the_same_seed_makes_the_same_surveys() -> None:
    one, two = random.Random(5), random.Random(5)
    for _ in range(5):
        assert natural_survey(one).facts() == natural_survey(two).facts()
    assert set(NATURAL) == set(KINDS)


def test_a_correction_counts_as_right_only_if_it_is_the_very_number() -> None:
    rng = random.Random("right")
    while True:
        survey = clean_survey(rng)
        if plant(rng, survey, "transposed"):
            groups = named_groups(read(survey.facts()))
            if len(groups) == 1 and is_right(survey, survey.planted[0], *groups[0]):
                break
    (slip,) = survey.planted
    wrong = {place: survey.text(survey.values[place] + 1) for place in slip.right}
    assert not is_right(survey, Planted(slip.kind, wrong, slip.size, slip.covered), *groups[0])
    elsewhere = dict.fromkeys(["L1 at 2"], next(iter(slip.right.values())))
    assert not is_right(survey, Planted(slip.kind, elsewhere, slip.size, slip.covered), *groups[0])


def test_calibration_is_the_share_right_in_each_class() -> None:
    # independent: counted by hand
    rows = calibration([(0.95, True), (0.95, True), (0.91, False), (0.99, True), (0.75, False)])
    assert [(row["from"], row["offered"]) for row in rows] == [(0.7, 1), (0.9, 3), (0.97, 1)]
    assert rows[1]["right"] == pytest.approx(2 / 3)
    assert rows[1]["mean_odds"] == pytest.approx((0.95 + 0.95 + 0.91) / 3)


def test_adjusting_anew_for_every_correction_finds_the_same_best() -> None:
    # independent: numpy's least squares on the whole room, once a correction
    rng = random.Random(12)
    survey = clean_survey(rng)
    assert plant(rng, survey, "transposed")
    facts = survey.facts()
    whole, fit = whole_system(facts)
    corrections = single_corrections(facts, fit)
    assert len(corrections) > 200
    own = min((fit.omega - fit.gain({i: d}), (i, d)) for i, d in corrections)
    some = [*corrections[::40], own[1]]  # the benchmark tries them all
    left, best = brute_force(whole, some)
    assert best == own[1]
    assert left == pytest.approx(own[0], rel=1e-7)
    nothing, _ = brute_force(whole, [])
    assert nothing == pytest.approx(fit.omega, rel=1e-7)


def test_a_run_of_no_rooms_is_refused(capsys: pytest.CaptureFixture[str]) -> None:
    with pytest.raises(SystemExit):
        main(["--rooms", "0"])
    assert "from 1 up" in capsys.readouterr().err


def test_a_shift_changes_one_reading_by_its_size() -> None:
    # independent: the survey as drawn, compared place by place
    rng = random.Random("shift")
    for covered in (True, False):
        survey = clean_survey(rng)
        before = dict(survey.values)
        assert shifted(rng, survey, SIZES["1/4"], covered)
        (place,) = [p for p in before if before[p] != survey.values[p]]
        assert (place in survey.covered) == covered
        by = abs(survey.values[place] - before[place])
        assert by == SIZES["1/4"] if survey.unit == "in" else abs(by - SIZES["1/4"]) < Fraction(1, 40)


def test_larger_slips_are_caught_more_often() -> None:
    small, large = measure_sizes(6, 7, ("1/8", "2"))[:2]
    assert small.planted == large.planted == 6
    assert large.caught == 6 > small.caught
    assert large.power > small.power
