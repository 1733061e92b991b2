"""The page of the drawings runs."""

from __future__ import annotations

import re
import subprocess
import sys
from pathlib import Path

from undertile.drawing.layers import LAYERS
from undertile.drawing.sheet import HEIGHT, WIDTH

ROOT = Path(__file__).resolve().parents[2]
PAGE = (ROOT / "docs" / "methods" / "drawings.md").read_text(encoding="utf-8")


def test_the_example_prints_what_the_page_shows() -> None:
    code, shown = re.findall(r"```(?:python|text)\n(.*?)```", PAGE, re.DOTALL)
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, cwd=ROOT)
    # pinned: sheet sizes change with any word on them
    assert done.stdout == shown, done.stderr


def test_the_page_s_figures_are_the_code_s() -> None:
    assert (WIDTH, HEIGHT) == (7.25, 9.875)
    assert "7-1/4 by\n  9-7/8 in" in PAGE
    assert {"STUD", "STRIP", "TAKE-OFF", "PLANE", "PAN"} <= set(LAYERS)
