"""The water's benchmarks in small: every row, and both files hold every newest figure."""

from __future__ import annotations

from undertile.bench import run
from undertile.bench.water_charts import facts_of, log
from undertile.wood.run import water

KEYS = {"case", "name", "size", "seconds", "peer", "peer_seconds", "ratio", "equal"}


def test_the_case_runs_in_small_and_the_peer_draws_the_same() -> None:
    rows = list(run(["water-charts"], rooms=1, limit_s=10.0))
    assert all(set(row) >= KEYS for row in rows)
    beside = next(row for row in rows if row["peer"])
    assert beside["equal"] is True  # independent: matplotlib given the same log
    assert rows[-1]["bytes"] > beside["bytes"]


def test_dates_are_counted_in_the_benchmark_s_form() -> None:
    rows = list(run(["drying"], rooms=1, limit_s=10.0))
    assert all(set(row) >= KEYS for row in rows)
    assert {row["size"] for row in rows if row["name"] == "close date"} >= {"3 visits", "8 visits"}
    covered = [row["covered"] for row in rows if "covered" in row]
    assert covered
    assert all(0 <= share <= 1 for share in covered)


def test_the_log_has_every_verdict_a_fit_is_asked_for() -> None:
    found = water(facts_of(log(200, 10, 2.0)))
    said = {each.forecast.no for each in found.points}
    assert {"", "there"} <= said
    assert sum(each.forecast.fit is not None for each in found.points) > 40, "fits are part of what is timed"
