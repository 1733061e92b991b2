"""Water: what is wet, where it comes from, how far to open, and when it may be closed."""

from __future__ import annotations

from undertile.stage import Stage
from undertile.wood.facts import WoodFacts
from undertile.wood.result import WoodResult
from undertile.wood.run import run, water

__all__ = ["STAGE", "WoodResult", "water"]

STAGE = Stage(
    key="wood",
    question="What is wet, where does the water come from, and when may it be closed?",
    facts=WoodFacts,
    run=run,
)
