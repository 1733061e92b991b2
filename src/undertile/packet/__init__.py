"""The papers: crew sheet and survey form, as data, as pages, as PDF; English and Spanish, Letter and A4."""

from __future__ import annotations

from undertile.packet.content import CrewSheet, SurveyForm
from undertile.packet.crew import crew_sheet
from undertile.packet.form import survey_form
from undertile.packet.pdf import PaperMissing, to_pdf

__all__ = ["CrewSheet", "PaperMissing", "SurveyForm", "crew_sheet", "survey_form", "to_pdf"]
