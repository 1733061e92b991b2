"""The walls read again after the work: are they right, what is left to do, and the page that proves it."""

from __future__ import annotations

from undertile.recheck.facts import RecheckFacts
from undertile.recheck.result import RecheckResult
from undertile.recheck.run import recheck
from undertile.stage import Stage

__all__ = ["STAGE", "RecheckResult", "recheck"]

STAGE = Stage(
    key="recheck",
    question="Are the walls right now, and what is left to do?",
    facts=RecheckFacts,
    run=recheck,
)
