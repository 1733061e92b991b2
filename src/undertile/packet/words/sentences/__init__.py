"""The stages' sentences in Spanish, by their English form (``undertile.sentence``): one file for a stage."""

from __future__ import annotations

from collections.abc import Mapping

from undertile.packet.words.sentences.common import COMMON

SPANISH: Mapping[str, str] = {**COMMON}
"""English form to Spanish form: the same slots, perhaps in another order."""
