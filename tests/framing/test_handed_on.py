"""What the tests of other rooms keep of a search (``tests/once.py``) is what a search finds."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests import once
from tests.framing.smallwall import small_wall
from undertile.bench.hand import hand_room
from undertile.framing import search


def test_a_process_takes_from_another_what_a_search_finds(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    """independent: the search itself; another process is one that remembers nothing of its own."""
    problems = [hand_room(), small_wall(4)]
    found = [search.solve(problem) for problem in problems]
    for asked in ("searched", "handed on"):
        monkeypatch.setattr(once, "_KNOWN", {})
        if asked == "handed on":
            monkeypatch.setattr(once, "_REAL", None)
        with once.searched_once(tmp_path / "plans"):
            assert [search.solve(problem) for problem in problems] == found, asked
    assert len(list((tmp_path / "plans").iterdir())) == len(problems), "whole files, and nothing beside them"
