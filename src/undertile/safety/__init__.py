"""What can hurt someone in this house: the usual cautions, in their place and no louder than needed."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING, Any

from undertile.safety.facts import SafetyFacts
from undertile.stage import Stage

if TYPE_CHECKING:
    from undertile.safety.cautions import SafetyResult

__all__ = ["STAGE"]


def _run(facts: Mapping[str, Any], results: Mapping[str, Any]) -> SafetyResult:
    from undertile.safety.cautions import cautions  # only when it is asked for
    from undertile.wood.clock import Clock

    return cautions(facts["safety"], Clock.of(facts), facts.get("wood"))


STAGE = Stage(
    key="safety",
    question="What can hurt someone here?",
    facts=SafetyFacts,
    run=_run,
)
