"""How long the command line takes to say its name, beside a bare interpreter."""

from __future__ import annotations

import subprocess
import sys
from statistics import median
from time import perf_counter
from typing import Any


def case(times: int) -> dict[str, Any]:
    """``undertile --version`` and ``python -c pass``, in turn."""
    own, bare = [], []
    for _ in range(times):
        own.append(_seconds([sys.executable, "-m", "undertile", "--version"]))
        bare.append(_seconds([sys.executable, "-c", "pass"]))
    return {
        "name": "command line start",
        "size": "undertile --version",
        "seconds": median(own),
        "peer": "bare interpreter",
        "peer_seconds": median(bare),
        "ratio": median(bare) / median(own),
        "over_bare_seconds": median(own) - median(bare),
        "equal": None,
    }


def _seconds(command: list[str]) -> float:
    start = perf_counter()
    subprocess.run(command, check=True, capture_output=True)
    return perf_counter() - start
