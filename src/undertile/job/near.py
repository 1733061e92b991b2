"""The nearest known word, for a key or a choice that is not known."""

from __future__ import annotations

import difflib
from collections.abc import Iterable

from undertile.sentence import Sentence

_LISTED = 12


def nearest(word: str, known: Iterable[str]) -> str:
    """What to write instead: the nearest known word, or the words there are.

    Returns
    -------
    str
        ``write readings (nearest of along, arris, readings)``, or ``write one of ...``.
    """
    words = list(known)
    if not words:
        return Sentence("nothing can stand here; take it out")
    close = difflib.get_close_matches(word[:64].lower(), words, n=1, cutoff=0.5)
    if not close:
        close = [each for each in words if each.lower() == word.lower()]
    listed = ", ".join(words[:_LISTED]) + (", ..." if len(words) > _LISTED else "")
    if close:
        if len(words) == 1:
            return Sentence("write {instead}", instead=close[0])
        return Sentence("write {instead} (of {words})", instead=close[0], words=listed)
    if len(words) == 1:
        return Sentence("write {instead}", instead=listed)
    return Sentence("write one of {words}", words=listed)
