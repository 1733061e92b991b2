"""How much is tried: some of it every day, all of it where ``UNDERTILE_LONG=1`` stands in the environment.

``python3 scripts/test.py --long`` sets it. Every kind of case stays in the everyday run; what the long one
adds are more rooms, more examples of a property and more screens of the same kind.
"""

from __future__ import annotations

import os
from typing import TypeVar

T = TypeVar("T")
LONG = os.environ.get("UNDERTILE_LONG", "") == "1"


def deep(daily: T, long: T) -> T:
    """What is tried every day, or in the long run."""
    return long if LONG else daily
