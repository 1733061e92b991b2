"""The benchmark itself: its cases run once in small, rows have the promised keys, and nobody disagrees."""

from __future__ import annotations

import json

import pytest

from tests.depth import deep
from undertile.bench import CASES, run, survey_speed
from undertile.cli import main

KEYS = {"case", "name", "size", "seconds", "peer", "peer_seconds", "ratio", "equal"}


@pytest.mark.parametrize("name", ["plan-5", "moves", "survey", "floor", "store", "start"])
def test_a_case_runs_in_small_and_its_peer_agrees(name: str, monkeypatch: pytest.MonkeyPatch) -> None:
    """A survey of 60 things typed is as good as one of 90, which is looked for among many rooms."""
    monkeypatch.setattr(survey_speed, "LEAST", deep(60, 90))
    rows = list(run([name], rooms=1, limit_s=10.0))
    assert rows
    for row in rows:
        assert set(row) >= KEYS
        assert row["equal"] is not False  # independent: the peer answers the same problem by other means


def test_many_rooms_are_counted() -> None:
    from undertile.bench.framing import alone

    row = alone(5, 3, 10.0)
    assert (row["rooms"], row["proved"]) == (3, 3)
    assert row["seconds"] <= row["seconds_worst"]


def test_an_unknown_case_is_one_line_that_names_the_known(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["bench", "plan-6"]) == 2
    said = capsys.readouterr().err
    assert said.count("\n") == 1
    assert all(name in said for name in CASES)


def test_json_is_one_object_a_case(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["bench", "start", "--rooms", "1", "--json"]) == 0
    rows = json.loads(capsys.readouterr().out)
    assert [set(row) >= KEYS for row in rows] == [True]
