"""One Spanish word for each trade word, as crews in the United States say it; used everywhere a crew reads.

Chosen by reading, common practice, no source; docs/methods/glossary-es.md shows the table and the doubts.
``avoid`` holds words of other countries or second choices: no Spanish sentence of the papers uses them.
"""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class Term:
    """One trade word.

    Attributes
    ----------
    en, es : str
    note : str
        Why this one, in English; ``""`` where nobody doubts it.
    avoid : tuple of str
        Word stems that stand for the same thing and are not used.
    """

    en: str
    es: str
    note: str = ""
    avoid: tuple[str, ...] = ()


TERMS: dict[str, Term] = {
    "stud": Term(
        "stud", "montante", "pie derecho, parante and poste are said too", ("pie derecho", "parante")
    ),
    "wall": Term("wall", "pared", "", ("muro", "tabique")),
    "left wall": Term("left wall", "pared izquierda"),
    "back wall": Term("back wall", "pared del fondo"),
    "right wall": Term("right wall", "pared derecha"),
    "bearing wall": Term("bearing wall", "pared de carga", "", ("portante",)),
    "plate": Term(
        "plate", "solera", "the wood along the foot or the top of a wall", ("carrera", "durmiente")
    ),
    "subfloor": Term("subfloor", "subpiso", "", ("contrapiso",)),
    "bay": Term("bay", "hueco entre montantes", "", ("crujía",)),
    "shim": Term("shim", "calza", "cuña is kept for a taper", ("el calce", "suplemento")),
    "strip": Term("strip", "tira", "listón is a batten", ("listón", "liston", "fleje")),
    "taper": Term("tapered rip", "tira en cuña"),
    "plane (to)": Term("to plane", "cepillar", "", ("rebajar", "lijar")),
    "pass": Term("pass", "pasada"),
    "plane": Term("plane", "plano", "where the faces shall end up"),
    "sister (to)": Term(
        "to sister", "reforzar con montante gemelo", "hermanar is understood too", ("hermanar",)
    ),
    "replace": Term("to replace", "reemplazar", "", ("sustituir",)),
    "knock over": Term("to knock a foot over", "correr el pie"),
    "wet bed": Term("wet bed", "cama de mortero"),
    "channel": Term("channel", "canal metálico"),
    "track": Term("track (of steel studs)", "riel"),
    "shore (to)": Term("to shore", "apuntalar"),
    "leave": Term("to leave", "dejar"),
    "add": Term("to add", "agregar", "", ("añad",)),
    "take off": Term("to take off", "quitar", "", ("remover",)),
    "pan": Term(
        "shower pan", "base de ducha", "base alone once it is clear", ("plato", "charola", "receptor")
    ),
    "flange": Term("flange", "pestaña", "", ("brida", "reborde")),
    "play": Term("play", "holgura"),
    "opening": Term("opening", "ancho libre"),
    "drain": Term("drain", "desagüe", "", ("drenaje", "coladera")),
    "outlet": Term("outlet", "salida de la base"),
    "valve": Term("valve", "válvula", "", ("llave mezcladora",)),
    "board": Term("board", "tablero", "the backer board", ("panel", "tablarroca", "tablaroca")),
    "tile": Term("tile", "loseta", "azulejo is wall tile only", ("azulejo", "baldosa")),
    "screw": Term("screw", "tornillo"),
    "dry fit (to)": Term("to dry fit", "presentar en seco"),
    "mortar": Term("mortar", "mortero", "", ("la mezcla", "pegazulejo")),
    "straightedge": Term("straightedge", "regla larga"),
    "rule": Term("rule", "regla"),
    "tape": Term("tape", "cinta"),
    "level": Term("level", "nivel"),
    "laser line": Term("laser line", "línea láser"),
    "line": Term("reference line", "línea", "laser or string, in the room, parallel to the wall"),
    "reading": Term("reading", "lectura", "from the line to the wood", ("medición",)),
    "height": Term("height", "altura"),
    "along": Term("along", "a lo largo"),
    "depth": Term("depth", "fondo"),
    "width": Term("width", "ancho"),
    "diagonal": Term("diagonal", "diagonal"),
    "edge": Term("edge (arris)", "arista", "of a stud's face", ("canto",)),
    "proud": Term("proud", "salido", "toward the room", ("saliente",)),
    "back": Term("back", "metido", "away from the room", ("hundido", "remetido")),
    "twisted": Term("twisted", "torcido", "", ("alabeado",)),
    "corner": Term("corner", "esquina", "", ("rincón",)),
    "offcut": Term("offcut", "retazo", "", ("recorte", "sobrante")),
    "stock": Term("stock on the van", "material de la camioneta"),
    "nail plate": Term("nail plate", "placa protectora"),
    "blocking": Term("blocking", "bloqueo", "", ("taquete",)),
    "joist": Term("joist", "vigueta", "viga is the beam below"),
    "floor panel": Term("floor panel", "hoja", "hoja de triplay; tablero is the backer board"),
    "cleat": Term("cleat", "madero de apoyo"),
    "patch": Term("patch", "parche", "", ("remiendo",)),
    "second layer": Term("second layer", "segunda capa"),
    "room": Term("room", "cuarto", "", ("habitación", "recinto")),
    "hold line": Term("hold line", "antes de todo"),
    "licensed trades": Term("licensed trades", "oficios con licencia"),
    "straight down": Term("straight down", "derecho hacia abajo"),
}
"""Every trade word by its English key."""
