"""The stages of the job, in the job's own order. Adding a stage is adding its folder and one line here."""

from __future__ import annotations

from undertile import floor, framing, pan, recheck, safety, survey, wood
from undertile.stage import Stage

STAGES: tuple[Stage, ...] = (
    survey.STAGE,
    safety.STAGE,
    wood.STAGE,
    floor.STAGE,
    framing.STAGE,
    pan.STAGE,
    recheck.STAGE,
)

CHOOSES_PLANES = "framing"
"""The stage that chooses the planes: what every stage demands of them is collected just before it."""
