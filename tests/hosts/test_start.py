"""What a phone reads before its first screen: the log, the fold, the survey, one page; not the whole tool."""

from __future__ import annotations

import json
import subprocess
import sys

from undertile.screens.app import SCREENS

FIRST = """
import asyncio, json, sys
from undertile.hosts.phone.inside import Inside
inside = Inside(json.dumps({"device": "d" * 32, "alone": True}), print)
job = "2" * 32
inside.replay(job, "")
head, body, _ = asyncio.run(inside.ask("GET", "/job/" + job + "/read", "{}", b"", "2026-01-01T00:00:00Z"))
assert json.loads(head)["status"] == 200, body
print(json.dumps([name for name in sys.modules if name.startswith("undertile.")]))
"""
LATER = ("cutting", "drawing", "framing.search", "framing.moves", "recheck.run", "packet.crew", "wood.run")
"""What only a plan, a paper or a re-check asks for."""


def test_a_first_screen_reads_no_plan_no_paper_and_no_other_screen() -> None:
    done = subprocess.run([sys.executable, "-c", FIRST], capture_output=True, text=True)
    assert done.returncode == 0, done.stderr
    loaded = [name.removeprefix("undertile.") for name in json.loads(done.stdout)]
    assert [name for name in loaded if name.startswith(LATER)] == []
    pages = {place.partition(".")[0] for place, _ in SCREENS.values()}
    assert len({name for name in loaded if name.removeprefix("screens.pages.") in pages}) < len(pages) / 2
