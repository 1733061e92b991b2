"""A stage's sentence in a person's language (``undertile.sentence``)."""

from __future__ import annotations

import string
from collections.abc import Mapping

from undertile.findings import Check
from undertile.packet.places import place_words
from undertile.packet.words import Words
from undertile.packet.words.cited import cited
from undertile.packet.words.sentences import SPANISH
from undertile.sentence import Sentence, with_first
from undertile.sources import SOURCES, cite

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


_KEYS = {cite(key): key for key in SOURCES}


class _Fill(string.Formatter):
    """Fills Spanish forms; slots hold figures, names, places and other sentences."""

    def say(self, value: object, spec: str = "") -> str:
        if not isinstance(value, Sentence):
            return str(value)
        form = SPANISH.get(value.form)
        if form is None:
            return str(value)
        said = self._filled(form, value.slots, spec)
        return str(with_first(said, value.first)) if value.first else said

    def _filled(self, form: str, slots: Mapping[str, object], outer: str) -> str:
        """A form with its slots filled; a slot without a word of its own takes the one it stands in."""
        out = []
        for text, name, spec, _ in self.parse(form):
            out.append(text)
            if name is not None:
                out.append(self._slot(slots[name], spec or outer))
        return "".join(out)

    def _slot(self, value: object, spec: str) -> str:
        """``wall``: a wall by its letter; ``place``: a place as the stages name it; ``source``: a source;
        ``stuff``: stock by its name; ``rounded``: a figure that may say that it was rounded."""
        if isinstance(value, Sentence) or spec not in ("wall", "place", "source", "stuff", "rounded"):
            return self.say(value, spec)
        if spec == "rounded":
            return str(value).replace("about ", "cerca de ")
        if spec == "stuff":
            return _SPANISH.stuff(str(value))
        if spec == "source":
            return cited(_KEYS.get(str(value), "")) or self.say(value)
        return _SPANISH.wall(str(value)) if spec == "wall" else place_words(str(value), _SPANISH)


_FILL = _Fill()


def titled(check: Check, words: Words) -> str:
    """What a check asks: its own title, which says which depth or rule; else what its code says.

    Raises
    ------
    KeyError
        If neither has words in this language.
    """
    title = check.title
    if words.language == "en":
        return title
    if isinstance(title, Sentence) and not foreign(title, words):
        said = told(title, words)
        return said[:1].upper() + said[1:]
    return words.check(check.code)
