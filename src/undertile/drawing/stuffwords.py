"""Stock by the trade's words: ``hardboard 1/8`` is ``fibra dura 1/8`` to a crew that reads Spanish.

A name is a person's own and stays as typed, unless it is made of nothing but a material's plain word and
figures: then it says what to pick off the van, and a sheet that names it in the other language does not.
"""

from __future__ import annotations

import re

STUFF: dict[str, str] = {
    "aluminum": "aluminio",
    "backer board": "tablero",
    "board": "tablero",
    "card": "cartón",
    "cardboard": "cartón",
    "cement": "cemento",
    "cement board": "tablero de cemento",
    "felt": "fieltro",
    "fiber cement": "fibrocemento",
    "hardboard": "fibra dura",
    "lumber": "madera",
    "mortar": "mortero",
    "pine": "pino",
    "plastic": "plástico",
    "ply": "triplay",
    "plywood": "triplay",
    "rubber": "hule",
    "spruce": "abeto",
    "steel": "acero",
    "stone": "piedra",
    "tile": "loseta",
    "wood": "madera",
}
"""Material to Spanish (words of the trade in Mexico and the United States; ours, no source)."""
_REST = re.compile(r"[\s\d./'\"-]*(?:mm|cm|in)?[\s\"]*")


def stuff_words(name: str, language: str) -> str:
    """Stock's name in the person's language; a name that holds any other word stays as typed."""
    if language == "en":
        return name
    low = name.lower()
    for word in sorted(STUFF, key=len, reverse=True):
        rest = name[len(word) :]
        if low.startswith(word) and (not rest or rest[0] in " 0123456789") and _REST.fullmatch(rest):
            return STUFF[word] + rest
    return name
