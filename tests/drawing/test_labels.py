"""Words: both languages whole, the trade's own terms."""

from __future__ import annotations

import re
import string

import pytest

from undertile.drawing.labels import TABLE, words
from undertile.errors import InputError
from undertile.packet.words.glossary import TERMS


@pytest.mark.parametrize("key", TABLE)
def test_both_languages_have_the_same_slots(key: str) -> None:
    english, spanish = (
        {name for _, name, _, _ in string.Formatter().parse(text) if name} for text in TABLE[key]
    )
    assert english == spanish
    assert all(TABLE[key])


def test_the_spanish_is_that_of_the_papers() -> None:
    # independent: the papers' glossary, its words that are not used
    avoid = {stem for term in TERMS.values() for stem in term.avoid}
    for key, (_, spanish) in TABLE.items():
        said = [stem for stem in avoid if re.search(rf"\b{re.escape(stem)}", spanish, re.IGNORECASE)]
        assert not said, f"{key}: {spanish}"


def test_places_of_the_survey_are_said_in_spanish() -> None:
    assert words("es").places(("B4 at 36", "width back-high")) == "B4 a 36, ancho back-high"
    assert words("en").places(("B4 at 36",)) == "B4 at 36"


def test_a_language_there_is_not_is_refused() -> None:
    with pytest.raises(InputError, match="no words in 'fr'; the drawings speak en"):
        words("fr")
