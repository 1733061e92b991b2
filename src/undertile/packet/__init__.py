"""The papers: crew sheet and survey form, as data, as pages, as PDF; English and Spanish, Letter and A4."""

from __future__ import annotations

from importlib import import_module
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from undertile.packet.content import CrewSheet, SurveyForm
    from undertile.packet.crew import crew_sheet
    from undertile.packet.form import survey_form
    from undertile.packet.pdf import PaperMissing, to_pdf

__all__ = ["CrewSheet", "PaperMissing", "SurveyForm", "crew_sheet", "survey_form", "to_pdf"]
_IN = {
    "CrewSheet": "content",
    "SurveyForm": "content",
    "crew_sheet": "crew",
    "survey_form": "form",
    "PaperMissing": "pdf",
    "to_pdf": "pdf",
}


def __getattr__(name: str) -> Any:
    """What a paper needs is imported when one is asked for: every screen uses the papers' words."""
    if name not in _IN:
        raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
    return getattr(import_module(f"{__name__}.{_IN[name]}"), name)
