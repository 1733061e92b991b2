"""What English tells apart Spanish tells apart: rows of the lists of checks."""

from __future__ import annotations

from pathlib import Path

import pytest

from undertile.job import plan, read_job
from undertile.screens.words import Says

EXAMPLES = Path(__file__).resolve().parents[2] / "examples"


@pytest.mark.parametrize("name", ["wet-corner", "hand"])
def test_checks_that_english_tells_apart_are_told_apart_in_spanish(name: str) -> None:
    """independent: two rows of one place with two English titles have two Spanish ones."""
    made = plan(read_job(EXAMPLES / f"{name}.toml")).results
    checks = [check for key in ("framing", "pan") for check in getattr(made.get(key), "checks", ())]
    english, spanish = Says(), Says("es")
    titles = {(each.where, english.check(each)["title"]) for each in checks}
    said = {(each.where, spanish.check(each)["title"]) for each in checks}
    assert len(titles) == len(said) > 20
