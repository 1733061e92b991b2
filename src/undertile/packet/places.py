"""A place as the stages name it, in the words of a sheet: ``wall L`` becomes ``left wall``."""

from __future__ import annotations

import re

from undertile.packet.words import Words

_WALL = re.compile(r"\bwall ([LBR])\b")
_WALLS = re.compile(r"\bwalls ((?:[LBR](?:, | and )?)+)")
_FIRST = {
    "width": "ancho",
    "gap": "separación",
    "diagonal": "diagonal",
    "level": "nivel",
    "repeat": "repetida",
    "square": "escuadra",
    "row": "fila",
    "pan": "base",
    "drain": "desagüe",
    "opening": "ancho libre",
    "shower": "ducha",
    "way in": "entrada",
    "corner": "esquina",
    "corner of": "esquina de",
    "valve": "válvula",
    "survey": "lecturas",
    "framing": "montantes",
    "uncertainty of": "exactitud de",
    "walls": "paredes",
    "line": "línea",
}
"""How a place begins, in Spanish."""
_LINK = {" at height ": " a la altura ", " at ": " a ", " on ": " en ", " from ": " desde ", " and ": " y "}


def place_words(where: str, words: Words) -> str:
    """A place in the sheet's language; names that a person gave stay as they are.

    Parameters
    ----------
    where : str
        ``B2 at 48``, ``wall L``, ``width back-high``, ``wall R from R3 at 2 on``.
    words : Words
    """
    text = _WALL.sub(lambda found: words.wall(found[1]), where)
    if words.language == "en":
        return text
    text = _WALLS.sub(lambda found: "paredes " + found[1].replace(" and ", " y "), text)
    for head in sorted(_FIRST, key=len, reverse=True):
        if text == head or text.startswith(f"{head} "):
            text = _FIRST[head] + text[len(head) :]
            break
    if text.endswith(" on") and " from " in text:
        text = text.removesuffix(" on") + " en adelante"
    for english, spanish in _LINK.items():
        text = text.replace(english, spanish)
    return text
