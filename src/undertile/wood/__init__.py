"""Water: what is wet, where it comes from, how far to open, and when it may be closed."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING, Any

from undertile.stage import Stage
from undertile.wood.facts import WoodFacts

if TYPE_CHECKING:
    from undertile.wood.result import WoodResult

__all__ = ["STAGE"]


def _run(facts: Mapping[str, Any], results: Mapping[str, Any]) -> WoodResult:
    from undertile.wood.run import run  # only when it is asked for: a phone's first screen needs none of it

    return run(facts, results)


STAGE = Stage(
    key="wood",
    question="What is wet, where does the water come from, and when may it be closed?",
    facts=WoodFacts,
    run=_run,
)
