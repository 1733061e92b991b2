"""What the papers say, in English and in Spanish: one glossary, every sentence in both."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal

from undertile.packet.words.cover import COVER
from undertile.packet.words.crew import CREW
from undertile.packet.words.floorsheet import FLOOR_SHEET
from undertile.packet.words.form import FORM
from undertile.packet.words.glossary import TERMS, Term
from undertile.packet.words.judged import CHECKS, FINDINGS, OTHER, REMEDIES, SLIPS, SOURCES
from undertile.packet.words.lists import LISTS
from undertile.packet.words.open_parts import OPEN_PARTS
from undertile.packet.words.proof import PROOF
from undertile.packet.words.record import RECORD
from undertile.packet.words.studs import STUDS

__all__ = [
    "CHECKS",
    "CREW",
    "FINDINGS",
    "FLOOR_SHEET",
    "FORM",
    "LANGUAGES",
    "LISTS",
    "PROOF",
    "RECORD",
    "REMEDIES",
    "SLIPS",
    "SOURCES",
    "STUDS",
    "TERMS",
    "Language",
    "Term",
    "Words",
]

Language = Literal["en", "es"]
LANGUAGES: tuple[Language, ...] = ("en", "es")
_ALL: Mapping[str, tuple[str, str]] = {
    **CREW,
    **COVER,
    **OPEN_PARTS,
    **STUDS,
    **LISTS,
    **FORM,
    **PROOF,
    **FLOOR_SHEET,
    **RECORD,
}


@dataclass(frozen=True)
class Words:
    """The sentences of one language.

    Attributes
    ----------
    language : {"en", "es"}
    """

    language: Language = "en"

    def __call__(self, key: str, **slots: object) -> str:
        """One sentence with its slots filled.

        Raises
        ------
        KeyError
            If there is no such sentence, or a slot has nothing to fill it.
        """
        return self._pick(_ALL[key]).format_map(slots)

    def sentences(self) -> dict[str, str]:
        """Every sentence by its key, slots unfilled."""
        return {key: self._pick(pair) for key, pair in _ALL.items()}

    def _pick(self, pair: tuple[str, str]) -> str:
        return pair[LANGUAGES.index(self.language)]

    def wall(self, name: str) -> str:
        """A wall as it is called: ``back wall``, ``pared del fondo``."""
        return self(f"wall-{name}")

    def finding(self, code: str, where: str) -> str:
        """A finding by its code, in a crew's words; where to look where it has none of its own."""
        return self._pick(_by_code(FINDINGS, code) or OTHER).format(where=where, code=code)

    def check(self, code: str) -> str:
        """A check's title by its code; the code itself where it has none."""
        pair = _by_code(CHECKS, code)
        return self._pick(pair) if pair else code

    def remedy(self, code: str) -> str:
        """What a crew does about a check that fails, by its code; "" where nothing is said of it."""
        pair = _by_code(REMEDIES, code)
        return self._pick(pair) if pair else ""

    def slip(self, code: str) -> str:
        """What was done wrong, by the code of the doubt; that it does not fit where that is all there is."""
        return self._pick(_by_code(SLIPS, code) or SLIPS["misfit-unexplained"])

    def source(self, key: str) -> str:
        """A source the sheet cites.

        Raises
        ------
        KeyError
            If the papers do not cite it.
        """
        return self._pick(SOURCES[key])

    def stuff(self, name: str) -> str:
        """Stock as it is called: its plain word in this language, a name of a person's own as typed."""
        from undertile.drawing.stuffwords import stuff_words  # a first screen names no stock

        return stuff_words(name, self.language)

    def listed(self, names: list[str] | tuple[str, ...]) -> str:
        """Names in a row: ``B1, B2 and B4``, ``B1, B2 y B4``."""
        if len(names) < 2:
            return "".join(names)
        return f"{', '.join(names[:-1])} {self('and')} {names[-1]}"


def _by_code(table: Mapping[str, tuple[str, str]], code: str) -> tuple[str, str] | None:
    """The entry of a code, or the longest that begins it; None where there is none."""
    head = code
    while head:
        if head in table:
            return table[head]
        head = head.rpartition("-")[0]
    return None
