"""The few words that stand between the figures of a check, in Spanish; what is unknown here stays."""

from __future__ import annotations

import re

_WORDS = {
    "too far back": "muy atrás",
    "too far out": "muy afuera",
    "to the left of it": "a su izquierda",
    "to the right of it": "a su derecha",
    "over it": "encima",
    "left over": "de sobra",
    "open side": "lado abierto",
    "or more with the backer": "o más con el respaldo",
    "on a stud": "en un montante",
    "away": "de distancia",
    "to the face": "a la cara",
    "no gap": "sin hueco",
    "proud": "salido",
    "behind": "atrás",
    "bare": "sin calza",
    "shimmed": "con calza",
    "differ": "diferencia",
    "closes": "cierra",
    "opens": "abre",
    "square": "a escuadra",
    "flush": "al ras",
    "back": "metido",
    "no lean": "sin inclinación",
    "top into the room": "arriba hacia el cuarto",
    "top back": "arriba hacia atrás",
    "at least": "al menos",
    "at most": "a lo más",
    "of the depth": "del fondo",
    "rounded up": "redondeado arriba",
    "rounded down": "redondeado abajo",
    "under": "bajo",
    "about": "cerca de",
    "play": "holgura",
    "board, packing and": "tablero, relleno y",
    "into wood": "en madera",
    "past steel": "pasando el acero",
    "the pan's shorter side": "el lado corto de la base",
    "sq in": "pulg²",
    "sq cm": "cm²",
    "to": "a",
    "in": "en",
    "at": "en",
}
_ANY = re.compile(
    r"\b(" + "|".join(re.escape(each) for each in sorted(_WORDS, key=len, reverse=True)) + r")\b"
)


def value_words(text: str, language: str) -> str:
    """A check's figure in the person's language.

    Parameters
    ----------
    text : str
        As the pan's checks word it: ``play 1/16" to 1/8"``.
    language : {"en", "es"}
    """
    return text if language == "en" else _ANY.sub(lambda found: _WORDS[found[1]], text)
