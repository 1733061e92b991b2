"""All the sheets of a job."""

from __future__ import annotations

from collections.abc import Sequence

from undertile.drawing.drying import drying_sheets
from undertile.drawing.flange import flange_sheet
from undertile.drawing.floorpatch import patch_sheets
from undertile.drawing.labels import words
from undertile.drawing.opening import opening_sheet
from undertile.drawing.relief import relief_sheets
from undertile.drawing.sheet import Sheet
from undertile.drawing.wall import wall_sheets
from undertile.drawing.walldata import room_of
from undertile.drawing.watermap import water_sheets
from undertile.job import Rebuild
from undertile.lengths import Unit


def sheets(
    rebuild: Rebuild, *, unit: Unit | None = None, language: str = "en", as_if: Sequence[str] = ()
) -> list[Sheet]:
    """Every drawing there is something to draw for.

    Parameters
    ----------
    rebuild : Rebuild
        A planned job; where there is no plan the sheets show what was read.
    unit : {"in", "mm"}, optional
        To print in; else the job's.
    language : {"en", "es"}
    as_if : sequence of str
        Readings the job was planned with that nobody has entered (``L3 at 54 = 5-7/8``): said first.

    Returns
    -------
    list of Sheet
        Each wall in elevation, the opening in plan, the flange detail, each floor patch, the relief of each
        wall, where the water went, how the wood dries.

    Raises
    ------
    InputError
        If there are no words in the language.
    """
    room = room_of(rebuild, unit or rebuild.unit, words(language), as_if)
    once = [sheet for sheet in (opening_sheet(room), flange_sheet(room)) if sheet is not None]
    return [
        *wall_sheets(room),
        *once,
        *patch_sheets(room),
        *relief_sheets(room),
        *water_sheets(room),
        *drying_sheets(room),
    ]
