"""A stage's sentence in a person's language (``undertile.sentence``)."""

from __future__ import annotations

import string
from collections.abc import Mapping, Sequence
from typing import Any

from undertile.packet.places import place_words
from undertile.packet.words import Words
from undertile.packet.words.sentences import SPANISH
from undertile.sentence import Sentence

_SPANISH = Words("es")


def told(text: str, words: Words) -> str:
    """What a stage says, in the person's language; the English where no Spanish is known.

    Parameters
    ----------
    text : str
        A `Sentence`, or a text without words of its own (a figure, a name), which stays.
    words : Words
    """
    if words.language == "en":
        return str(text)
    return _FILL.say(text)


def foreign(text: str, words: Words) -> bool:
    """Whether `told` leaves English in it."""
    if words.language == "en" or not isinstance(text, Sentence):
        return False
    return text.form not in SPANISH or any(
        foreign(value, words) for value in text.slots.values() if isinstance(value, str)
    )


class _Fill(string.Formatter):
    """Fills Spanish forms; slots hold figures, names, places and other sentences."""

    def say(self, value: object) -> str:
        if not isinstance(value, Sentence):
            return str(value)
        form = SPANISH.get(value.form)
        if form is None:
            return str(value)
        return self.vformat(form, (), value.slots)

    def vformat(self, form: str, args: Sequence[Any], slots: Mapping[str, Any]) -> str:
        """Without the look for slots left over that the standard one does."""
        out = []
        for text, name, spec, _ in self.parse(form):
            out.append(text)
            if name is not None:
                out.append(self.format_field(slots[name], spec or ""))
        return "".join(out)

    def format_field(self, value: Any, spec: str) -> str:
        """``wall``: a wall by its letter; ``place``: a place as the stages name it; ``cap``: a capital."""
        if spec == "wall":
            return _SPANISH.wall(str(value))
        if spec == "place":
            return place_words(str(value), _SPANISH)
        said = self.say(value)
        return said[:1].upper() + said[1:] if spec == "cap" else said


_FILL = _Fill()
