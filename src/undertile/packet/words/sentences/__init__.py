"""The stages' sentences in Spanish, by their English form (``undertile.sentence``): one file for a stage."""

from __future__ import annotations

from collections.abc import Mapping

from undertile.packet.words.sentences.beside import BESIDE
from undertile.packet.words.sentences.common import COMMON
from undertile.packet.words.sentences.conflict import CONFLICT
from undertile.packet.words.sentences.dries import DRIES
from undertile.packet.words.sentences.dryhere import DRYHERE
from undertile.packet.words.sentences.expected import EXPECTED
from undertile.packet.words.sentences.floor import FLOOR
from undertile.packet.words.sentences.floorlimits import FLOOR_LIMITS
from undertile.packet.words.sentences.framing import FRAMING
from undertile.packet.words.sentences.gate import GATE
from undertile.packet.words.sentences.leak import LEAK
from undertile.packet.words.sentences.lengths import LENGTHS
from undertile.packet.words.sentences.pan import PAN
from undertile.packet.words.sentences.patch import PATCH
from undertile.packet.words.sentences.recheck import RECHECK
from undertile.packet.words.sentences.record import RECORD
from undertile.packet.words.sentences.safety import SAFETY
from undertile.packet.words.sentences.survey import SURVEY
from undertile.packet.words.sentences.wood import WOOD
from undertile.packet.words.sentences.woodlacks import WOOD_LACKS

SPANISH: Mapping[str, str] = {
    **COMMON,
    **PAN,
    **BESIDE,
    **SURVEY,
    **RECHECK,
    **FRAMING,
    **CONFLICT,
    **DRIES,
    **DRYHERE,
    **SAFETY,
    **WOOD,
    **WOOD_LACKS,
    **GATE,
    **LEAK,
    **LENGTHS,
    **FLOOR,
    **FLOOR_LIMITS,
    **PATCH,
    **EXPECTED,
    **RECORD,
}
"""English form to Spanish form: the same slots, perhaps in another order."""
