"""``undertile papers``: crew sheet, survey form, floor sheet, water record as PDF, and their data as JSON."""

from __future__ import annotations

import os
from collections.abc import Sequence
from dataclasses import asdict
from datetime import date as today
from pathlib import Path
from typing import Any, Literal

from undertile.cli.answer import ask, head, load
from undertile.cli.console import complain, working
from undertile.cli.files import write_safely
from undertile.errors import FileError, InputError
from undertile.lengths import Unit
from undertile.packet import crew_sheet, pdf, survey_form
from undertile.packet.drawings import crew_drawings, floor_drawings
from undertile.packet.floor import floor_sheet
from undertile.packet.record import record_drawings, water_record

NAMES = {
    "en": {"crew": "crew-sheet", "form": "survey-form", "floor": "floor-sheet", "record": "water-record"},
    "es": {
        "crew": "hoja-de-trabajo",
        "form": "hoja-de-medidas",
        "floor": "hoja-del-piso",
        "record": "registro-del-agua",
    },
}
"""What the files are called; the floor's is written where a floor is begun, the water's where it is."""


def run(
    path: str,
    *,
    out: str = "",
    paper: Literal["letter", "a4"] = "letter",
    language: Literal["en", "es"] = "en",
    date: str = "",
    what_if: Sequence[str] = (),
    as_json: bool = False,
    unit: Unit | None = None,
) -> int:
    """Write the papers of a job into a folder, or print what they say as JSON.

    Returns 1 where the crew sheet gives no amounts yet, and for whatever else must be settled first.
    """
    if not out and not as_json:
        raise InputError("papers needs --out FOLDER to write into, or --json to print what they say")
    job = load(path)
    if what_if:
        from undertile.cli.what_if import as_if

        job = as_if(job, what_if)
    date = date or today.today().isoformat()
    with working("Planning"):
        answer = ask(job, unit)
        crew = crew_sheet(answer.rebuild, date=date, language=language, paper=paper, as_if=what_if)
        form = survey_form(answer.job, date=date, language=language, paper=paper, unit=unit)
        floor = floor_sheet(answer.rebuild, date=date, language=language, paper=paper)
        record = water_record(answer.rebuild, date=date, language=language, paper=paper)
    if as_json:
        from undertile.cli.as_json import text

        body: dict[str, Any] = {
            "as_if": list(what_if),
            "crew_sheet": asdict(crew),
            "survey_form": asdict(form),
        }
        body["floor_sheet"] = None if floor is None else asdict(floor)
        body["water_record"] = None if record is None else asdict(record)
        print(text({**head(answer, "papers", answer.code), **body}))
    if out:
        drawings = crew_drawings(answer.rebuild, language) if crew.state == "ready" else {}
        made = {"crew": pdf.to_pdf(crew, drawings), "form": pdf.to_pdf(form)}
        if floor is not None:
            drawings = floor_drawings(answer.rebuild, language) if floor.patches else {}
            made["floor"] = pdf.to_pdf(floor, drawings)
        if record is not None:
            made["record"] = pdf.to_pdf(record, record_drawings(answer.rebuild, language, date))
        folder = _folder(out)
        for key, content in made.items():
            name = f"{NAMES[language][key]}.pdf"
            write_safely(str(folder / name), content)
            if not as_json:
                print(f"{folder / name}: {pdf.pages(content)} pages, {-(-len(content) // 1024)} kB")
        if crew.state == "settle" and not as_json:
            complain(
                [f"{NAMES[language]['crew']}.pdf gives no amounts yet: its first page says what to settle."]
            )
        if not as_json:
            first = [part for part in answer.open_parts if part.settle_first]
            complain([f"{part.text} See undertile {part.part} {path}" for part in first])
        if not as_json and pdf.needs_system(answer.job.name + answer.job.place):
            complain(
                ["The job's name has letters the sheet's font lacks; a font of this computer stands in."]
            )
    return answer.code


def _folder(out: str) -> Path:
    folder = Path(out)
    try:
        folder.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        raise FileError(
            [f"{out}: no folder to write into ({error.strerror}); choose another with --out"]
        ) from None
    if not os.access(folder, os.W_OK):
        raise FileError([f"{out}: cannot be written into; choose another folder with --out"])
    return folder
