"""A job's drawings as the crew sheet takes them: one page each, lettered in the sheet's own font."""

from __future__ import annotations

import re

from undertile.drawing import sheets, to_svg
from undertile.job import Rebuild
from undertile.packet.words import Language

ON_CREW_SHEET = ("wall-", "opening", "flange")
"""How the keys begin of the drawings a crew needs; a relief is for the client."""
FONT = "Source Sans Pro"
_FAMILY = re.compile(r'font-family="[^"]*"')


def crew_drawings(rebuild: Rebuild, language: Language = "en") -> dict[str, str]:
    """Drawings by key, as SVG.

    Parameters
    ----------
    rebuild : Rebuild
        A planned job.
    language : {"en", "es"}
    """
    return {
        sheet.key: _FAMILY.sub(f'font-family="{FONT}"', to_svg(sheet.scene))
        for sheet in sheets(rebuild, language=language)
        if sheet.key.startswith(ON_CREW_SHEET)
    }
