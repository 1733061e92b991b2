"""The walls read again after the work: are they right, what is left to do, and the page that proves it."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING, Any

from undertile.recheck.facts import RecheckFacts
from undertile.stage import Stage

if TYPE_CHECKING:
    from undertile.recheck.result import RecheckResult

__all__ = ["STAGE"]


def _run(facts: Mapping[str, Any], results: Mapping[str, Any]) -> RecheckResult:
    from undertile.recheck.run import recheck  # only when it is asked for: a first screen needs none of it

    return recheck(facts, results)


STAGE = Stage(
    key="recheck",
    question="Are the walls right now, and what is left to do?",
    facts=RecheckFacts,
    run=_run,
)
