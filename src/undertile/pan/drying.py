"""The finished faces once the wood is dry, wall by wall (``framing.dried``)."""

from __future__ import annotations

from undertile.findings import Check
from undertile.framing.build import LARGE_TILE, RULES_LARGE, RULES_SMALL
from undertile.framing.dried import dried_checks
from undertile.pan.built import Built
from undertile.pan.faces import face_grid
from undertile.pan.seat import inches

NEW_FACE = frozenset({"sister", "replace", "channel"})
"""Treatments whose face does not go back with the old stud."""


def drying_checks(built: Built) -> list[Check]:
    """Each stud that is still to dry, then its wall under the straightedge; none where all is dry."""
    dries = {each.stud: each for each in built.plan.dries}
    edge = inches(built.framing.finish.tile_edge)
    large = edge is None or edge >= LARGE_TILE
    rules, source = (RULES_LARGE, "a108.02-4.2.2") if large else (RULES_SMALL, "a108-flat-small")
    checks: list[Check] = []
    for wall in built.walls if dries else ():
        members = built.members(wall)
        if members:
            new = [bool(NEW_FACE.intersection(member.recipe.families)) for member in members]
            checks += dried_checks(face_grid(built, wall), new, dries, rules, unit=built.unit, source=source)
    return checks
