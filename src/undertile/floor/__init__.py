"""The floor that carries the pan: joists, patch, level under the pan, a bed for a base built on site."""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING, Any

from undertile.floor.facts import FloorFacts
from undertile.stage import Stage

if TYPE_CHECKING:
    from undertile.floor.result import FloorResult

__all__ = ["STAGE"]


def _run(facts: Mapping[str, Any], results: Mapping[str, Any]) -> FloorResult:
    from undertile.floor.run import floor  # only when it is asked for: a first screen needs none of it

    return floor(facts, results)


def _amends(facts: Mapping[str, Any], results: Mapping[str, Any]) -> Mapping[str, Any]:
    wood, its = facts["wood"], facts["floor"]
    cut = its.joists or its.patch.bad or any(p.out and p.member == "subfloor" for p in wood.points.values())
    if not wood.points or not cut:  # nothing goes out: nothing of it is loaded
        return {}
    from undertile.floor.goesout import amended

    return amended(facts, results)


def _shut(facts: Mapping[str, Any], results: Mapping[str, Any]) -> Mapping[str, Any]:
    from undertile.floor.goesout import shut

    return shut(facts, results)


STAGE = Stage(
    key="floor",
    question="Does the floor carry it, and what is cut, laid and levelled?",
    facts=FloorFacts,
    run=_run,
    amends=_amends,
    unamended=_shut,
)
