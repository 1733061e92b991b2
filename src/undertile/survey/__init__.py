"""From what was read in the room to offsets with their uncertainty, and which reading looks wrong."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from undertile.stage import Stage
from undertile.survey.facts import SurveyFacts
from undertile.survey.read import Judged, judge, read
from undertile.survey.result import SurveyResult

__all__ = ["STAGE", "Judged", "judge", "read"]


def _run(all_facts: Mapping[str, Any], results: Mapping[str, Any]) -> SurveyResult:
    return read(all_facts["survey"])


STAGE = Stage("survey", "Which number is wrong, and where does every stud stand?", SurveyFacts, _run)
