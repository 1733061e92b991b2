"""A small run of the fuzz command; the long one is ``python -m tests.fuzz.job_file --seconds 60``."""

from __future__ import annotations

from tests.fuzz.job_file import run


def test_no_file_grid_log_or_archive_ends_in_anything_but_an_answer() -> None:
    told = run(seed=20310502, count=60)
    assert all(sum(counts.values()) == 60 for counts in told.values())
    # pinned: every kind of case is worth throwing, so both answers must come
    for name in ("changed file", "log", "archive"):
        assert told[name]["read"] > 0
        assert told[name]["refused"] > 0
    assert told["grid"]["judged"] > 0
    assert told["made-up file"]["refused"] > 0
