"""``undertile draw``: every drawing of a job as a file of its own."""

from __future__ import annotations

import os
from collections.abc import Sequence
from pathlib import Path
from typing import Literal

from undertile.cli.answer import ask, load
from undertile.cli.console import complain, working
from undertile.cli.files import write_safely
from undertile.drawing import sheets, to_dxf, to_svg
from undertile.errors import FileError
from undertile.lengths import Unit


def run(
    path: str,
    *,
    out: str,
    format_: Literal["svg", "dxf"] = "svg",
    language: Literal["en", "es"] = "en",
    what_if: Sequence[str] = (),
    unit: Unit | None = None,
) -> int:
    """Write the drawings of a job into a folder.

    Every file is made before the first is written. Returns 1 for whatever must be settled first.
    """
    job = load(path)
    if what_if:
        from undertile.cli.what_if import as_if

        job = as_if(job, what_if)
    with working("Planning"):
        answer = ask(job, unit)
        made = {
            f"{sheet.key}.{format_}": to_dxf(sheet.measured)
            if format_ == "dxf"
            else to_svg(sheet.scene).encode("utf-8")
            for sheet in sheets(answer.rebuild, language=language, as_if=what_if)
            if format_ == "svg" or not sheet.chart
        }
    folder = folder_of(out)
    for name, content in made.items():
        write_safely(str(folder / name), content)
        print(f"{folder / name}: {-(-len(content) // 1024)} kB")
    if not made:
        complain(["Nothing to draw yet: give the studs of one wall and where they stand along it."])
    elif answer.suspects or answer.plan is None or not answer.plan.planes:
        complain(["The walls show what was read and no amounts yet: undertile check says what to settle."])
    return answer.code


def folder_of(out: str) -> Path:
    """A folder to write drawings into, made where it is not there.

    Raises
    ------
    FileError
        If it cannot be written into.
    """
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
