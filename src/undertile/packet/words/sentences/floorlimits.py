"""The floor: looser figures, days too early, what is measured first; in Spanish, by the English form."""

from __future__ import annotations

FLOOR_LIMITS: dict[str, str] = {
    "what the floor carries": "lo que carga el piso",
    "what may be cut out of a joist": "lo que se puede cortar de una vigueta",
    "how the patch is laid": "cómo se pone el parche",
    "how level the floor is": "qué tan a nivel está el piso",
    "depth of a notch, one part in": "hondo de una muesca, una parte de",
    "length of a notch, one part in": "largo de una muesca, una parte de",
    "notch at an end, one part in": "muesca en la punta, una parte de",
    "hole, one part in": "agujero, una parte de",
    "wood left around a hole": "madera alrededor de un agujero",
    "live load, lb a sq ft,": "carga viva, lb por pie²,",
    "floor itself, lb a sq ft,": "el piso mismo, lb por pie²,",
    "load on one spot, lb,": "carga en un punto, lb,",
    "weight of {name}, lb a sq ft,": "peso de {name}, lb por pie²,",
    "the tile's limit held against the live load alone for live and dead": (
        "el límite de la loseta comparado solo con la carga viva en vez de viva y muerta"
    ),
    "gap between panels": "separación entre hojas",
    "second layer's seams off the first's": "juntas de la segunda capa, fuera de la primera",
    "screws apart at edges": "tornillos en orillas, cada",
    "screws apart inside": "tornillos adentro, cada",
    "highest to lowest": "del más alto al más bajo",
    "fall in a foot": "caída en un pie",
    "most taken off": "lo más que se quita",
    "most filled": "lo más que se rellena",
    "read no farther apart than": "leído no más separado que",
    "a figure that limits something": "un número que limite algo",
    "{what}: that is no limit; the usual one counts": "{what}: eso no limita nada; cuenta el de costumbre",
    "Correct it, or leave it open.": "Corríjalo, o déjelo sin decir.",
    "{what}, no reason given; the usual counts": "{what}, sin motivo; cuenta lo de costumbre",
    "Write why beside it; until then the usual figure counts.": (
        "Anote al lado por qué; hasta entonces cuenta el número de costumbre."
    ),
    # days of long before the job
    "a day not over {days} days before the water was noticed, {since}": (
        "un día a lo más {days} días antes de que se notó el agua, {since}"
    ),
    "a day not over {days} days before the wall was opened, {since}": (
        "un día a lo más {days} días antes de abrir la pared, {since}"
    ),
    "a day not over {days} days before the first visit, {since}": (
        "un día a lo más {days} días antes de la primera visita, {since}"
    ),
    "Correct the day, or say since when the water was noticed; until then it counts for nothing.": (
        "Corrija el día, o diga desde cuándo se notó el agua; hasta entonces no vale."
    ),
    # what is to be measured first
    "Measure the same as for the live load.": "Mida lo mismo que para la carga viva.",
    "Measure joists {names}: {what}.": "Mida las viguetas {names}: {what}.",
    "Measure its clear span first: off the middle third it may be a sister's. Until then: {step}": (
        "Mida primero su claro: fuera del tercio de en medio puede bastar una gemela. Mientras: {step}"
    ),
    "section and edition not said": "sección y edición sin decir",
}
"""English form to Spanish form."""
