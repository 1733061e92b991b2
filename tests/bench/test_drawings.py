"""The drawings' benchmark in small: every row, and both files hold every amount."""

from __future__ import annotations

from undertile.bench import run


def test_the_case_runs_in_small_and_the_peer_draws_the_same_amounts() -> None:
    rows = list(run(["drawings"], rooms=1, limit_s=10.0))
    assert [row["name"] for row in rows] == [
        "drawings of a room", "one wall", "drawings of a floor", "drawings of a room"
    ]  # fmt: skip
    assert rows[1]["equal"] is True  # independent: matplotlib given the same wall
    assert all(row["bytes"] > 1000 for row in rows)
