"""The files of ``water``: its drawings, and the water record as PDF."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date as today
from typing import Literal

from undertile.cli.answer import Answer
from undertile.errors import InputError


@dataclass(frozen=True)
class WaterFiles:
    """What is written: ``out`` the folder of the drawings, ``pdf`` the record; "" = none."""

    out: str = ""
    pdf: str = ""
    paper: Literal["letter", "a4"] = "letter"
    language: Literal["en", "es"] = "en"
    date: str = ""


NO_FILES = WaterFiles()


def write(answer: Answer, files: WaterFiles, *, quiet: bool) -> None:
    """Write what is asked for.

    Raises
    ------
    InputError
        If a record is asked for and nothing is read or tested.
    PaperMissing
        If a record is asked for and what makes PDF is not installed.
    """
    if files.out:
        _draw(answer, files, quiet=quiet)
    if files.pdf:
        _record(answer, files, quiet=quiet)


def _draw(answer: Answer, files: WaterFiles, *, quiet: bool) -> None:
    from undertile.cli.draw import folder_of
    from undertile.cli.files import write_safely
    from undertile.drawing import to_svg
    from undertile.drawing.drying import drying_sheets
    from undertile.drawing.labels import words
    from undertile.drawing.walldata import room_of
    from undertile.drawing.watermap import water_sheets

    folder = folder_of(files.out)
    room = room_of(answer.rebuild, answer.unit, words(files.language))
    for sheet in (*water_sheets(room), *drying_sheets(room)):
        content = to_svg(sheet.scene).encode("utf-8")
        write_safely(str(folder / f"{sheet.key}.svg"), content)
        if not quiet:
            print(f"{folder / sheet.key}.svg: {-(-len(content) // 1024)} kB")


def _record(answer: Answer, files: WaterFiles, *, quiet: bool) -> None:
    from undertile.cli.files import write_safely
    from undertile.packet import to_pdf
    from undertile.packet.record import record_drawings, water_record

    date = files.date or today.today().isoformat()
    sheet = water_record(answer.rebuild, date=date, language=files.language, paper=files.paper)
    if sheet is None:
        raise InputError(
            "no water record: expected a reading or a test, found none; write down the first visit"
        )
    write_safely(files.pdf, to_pdf(sheet, record_drawings(answer.rebuild, files.language, date)))
    if not quiet:
        print(f"Water record written to {files.pdf}.")
