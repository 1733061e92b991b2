"""The stages of the job, in the job's own order. Adding a stage is adding its folder and one line here."""

from __future__ import annotations

from typing import Any

from undertile import framing, pan, survey
from undertile.framing.facts import FramingFacts
from undertile.pan.facts import PanFacts
from undertile.stage import Stage
from undertile.survey.facts import SurveyFacts


def _stage(package: Any, key: str, facts: Any) -> Stage:
    return getattr(package, "STAGE", None) or Stage(key, "", facts, lambda _facts, _results: None)


STAGES: tuple[Stage, ...] = (
    _stage(survey, "survey", SurveyFacts),
    _stage(framing, "framing", FramingFacts),
    _stage(pan, "pan", PanFacts),
)

CHOOSES_PLANES = "framing"
"""The stage that chooses the planes: what every stage demands of them is collected just before it."""
