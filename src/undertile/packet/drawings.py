"""A job's drawings as the crew sheet takes them: one page each, lettered in the sheet's own font."""

from __future__ import annotations

import re

from undertile.drawing import sheets, to_svg
from undertile.drawing.floorpatch import patch_plans, patch_sheets
from undertile.drawing.labels import words
from undertile.drawing.sheet import Sheet
from undertile.drawing.walldata import room_of
from undertile.job import Rebuild
from undertile.packet.words import Language

ON_CREW_SHEET = ("wall-", "opening", "flange")
"""How the keys begin of the drawings a crew needs; a relief is for the client."""
FONT = "Source Sans Pro"
FALLS_BACK = "Arial, Helvetica, sans-serif"
"""On a page to print, where the papers' own font is not."""
_FAMILY = re.compile(r'font-family="[^"]*"')


def floor_drawings(rebuild: Rebuild, language: Language = "en") -> dict[str, str]:
    """Drawings of the floor by key, as SVG; the walls need not be planned.

    Parameters
    ----------
    rebuild : Rebuild
        With the answers of ``wood`` and ``floor``.
    language : {"en", "es"}
    """
    return {
        sheet.key: lettered(sheet) for sheet in patch_sheets(room_of(rebuild, rebuild.unit, words(language)))
    }


def floor_plans(rebuild: Rebuild, language: Language = "en") -> list[tuple[str, str]]:
    """The plan of each floor patch alone, for a phone: title and SVG."""
    found = patch_plans(room_of(rebuild, rebuild.unit, words(language)))
    return [(title, to_svg(scene)) for title, scene in found]


def lettered(sheet: Sheet) -> str:
    """A sheet as SVG in the papers' own font."""
    return _FAMILY.sub(f'font-family="{FONT}, {FALLS_BACK}"', to_svg(sheet.scene))


def crew_drawings(rebuild: Rebuild, language: Language = "en") -> dict[str, str]:
    """Drawings by key, as SVG.

    Parameters
    ----------
    rebuild : Rebuild
        A planned job.
    language : {"en", "es"}
    """
    return {
        sheet.key: lettered(sheet)
        for sheet in sheets(rebuild, language=language)
        if sheet.key.startswith(ON_CREW_SHEET)
    }
