"""A place or a figure as the stages word it, in the words of a sheet: ``wall L`` becomes ``left wall``."""

from __future__ import annotations

import re

from undertile.packet.words import Words
from undertile.sentence import Sentence

_WALL = re.compile(r"\bwall ([LBR])\b")
_WALLS = re.compile(r"\bwalls ((?:[LBR](?:, | and )?)+)")
_SIDE = re.compile(r"\b[LBR]\b")
_SIDES = {"L": "izquierda", "B": "del fondo", "R": "derecha"}
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
    "finish": "acabado",
    "the plan": "el plan",
    "plate": "solera",
    "recheck": "segunda lectura",
    "joist": "vigueta",
    "subfloor, layer": "subpiso, capa",
    "subfloor layer": "subpiso, capa",
    "subfloor": "subpiso",
    "floor under the pan": "piso bajo la base",
    "floor at": "piso en",
    "floor": "piso",
    "bad floor": "piso dañado",
    "patch": "parche",
    "lower layer": "capa sobre las viguetas",
    "upper layer": "segunda capa",
    "bed": "cama de mortero",
    "visit": "visita",
}
"""How a place begins, in Spanish."""
_LINK = {
    " at height ": " a la altura ",
    " at ": " a ",
    " on ": " en ",
    " from ": " desde ",
    " and ": " y ",
    " to ": " a ",
}
_MORE = re.compile(r"(?<=, y \d) more$|(?<=, y \d\d) more$|(?<=, y \d{3}) more$")
_NEW = (", new", ", madera nueva")
"""Of wood that was put in where other wood was cut out (``wood.places``)."""
_LINK |= {", along": ", a lo largo", ", read again": ", leída otra vez"}
_LINK |= {" notch ": ", muesca ", " hole ": ", agujero ", " soft ": ", parte blanda "}


def _sides(letters: str) -> str:
    """``L, B and R`` in Spanish; ``y`` is ``e`` before izquierda."""
    named = _SIDE.sub(lambda side: _SIDES[side[0]], letters.replace(" and ", " y "))
    return named.replace(" y izquierda", " e izquierda")


def place_words(where: str, words: Words) -> str:
    """A place in the sheet's language; names that a person gave stay as they are.

    Parameters
    ----------
    where : str
        ``B2 at 48``, ``wall L``, ``width back-high``, ``wall R from R3 at 2 on``.
    words : Words
    """
    if isinstance(where, Sentence) and words.language != "en":
        from undertile.packet.told import told  # which says places itself

        return told(where, words)
    text = _WALL.sub(lambda found: words.wall(found[1]), where)
    if words.language == "en":
        return text
    text = _WALLS.sub(lambda found: "paredes " + _sides(found[1]), words.stuff(text))
    for head in sorted(_FIRST, key=len, reverse=True):
        if text == head or text.startswith(f"{head} "):
            text = _FIRST[head] + text[len(head) :]
            break
    if text.endswith(" on") and " from " in text:
        text = text.removesuffix(" on") + " en adelante"
    if text.endswith(_NEW[0]):
        text = text.removesuffix(_NEW[0]) + _NEW[1]
    for english, spanish in _LINK.items():
        text = text.replace(english, spanish)
    return _MORE.sub(" más", text)


_FIGURE = {
    "at least": "al menos",
    "at most": "a lo más",
    "left over": "de sobra",
    "shimmed": "con calzas",
    "bare": "sin calzas",
    "behind": "metido",
    "proud": "salido",
    "away": "de distancia",
    "over it": "encima",
    "to": "a",
    "and": "y",
    "by": "por",
    "of it": "de él",
    "the left": "la izquierda",
    "the right": "la derecha",
    "(rounded up)": "(hacia arriba)",
    "(rounded down)": "(hacia abajo)",
}
"""Words among the figures of a check, in Spanish."""
_KNOWN = {"mm", "in", "sq", "cm"}
_LETTERS = re.compile(r"[A-Za-z]{2,}")


def figure_words(text: str, words: Words) -> str:
    """A check's figure in the sheet's language; "" where it holds words that have no Spanish here.

    Parameters
    ----------
    text : str
        ``1/16" to 1/8"``, ``59-29/32" bare, 59-7/8" shimmed``.
    words : Words
    """
    if words.language == "en":
        return text
    left = text
    for english in sorted(_FIGURE, key=len, reverse=True):
        found = re.compile(rf"(?<![\w]){re.escape(english)}(?![\w])")
        text, left = found.sub(_FIGURE[english], text), found.sub("", left)
    return "" if set(_LETTERS.findall(left)) - _KNOWN else text
