"""One way to run a command: its exit code and what it printed, at 80 columns without colour."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

import pytest

from undertile.cli import main

EXAMPLES = Path(__file__).resolve().parents[2] / "examples"
JOBS = ("old-alcove", "square-pan", "steel-unit")


@dataclass(frozen=True)
class Ran:
    """What a command did."""

    code: int
    out: str
    err: str


@pytest.fixture
def run(capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch) -> Callable[..., Ran]:
    """Run ``undertile`` with these words."""
    monkeypatch.setenv("COLUMNS", "80")
    monkeypatch.setenv("TERMINAL_WIDTH", "80")
    monkeypatch.delenv("FORCE_COLOR", raising=False)

    def go(*words: str | Path) -> Ran:
        capsys.readouterr()
        code = main([str(word) for word in words])
        said = capsys.readouterr()
        return Ran(code, said.out, said.err)

    return go
