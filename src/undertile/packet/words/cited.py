"""Where rules come from, in Spanish, by the key of the source; a standard keeps its own name.

What is not here is shown by its English title, marked as such.
"""

from __future__ import annotations

from undertile.packet.words.floor import FLOOR_CITED
from undertile.sources import SOURCES

WEIGHT = {
    "published": "",
    "memory": " (de memoria, sin releer)",
    "practice": " (práctica común, sin fuente)",
    "ours": " (valor nuestro)",
}
"""How much weight a source carries, after its title (``sources.Source.kind``)."""
CITED: dict[str, str] = {
    **FLOOR_CITED,
    "convention-5": "docs/convention.md, sección 5: veredictos",
    "convention-6": "docs/convention.md, sección 6: cuidado",
    "convention-7": "docs/convention.md, sección 7: el registro",
    "wood-handbook-emc": ("Wood Handbook (FPL-GTR-190, 2010; FPL-GTR-282, 2021), ecuación (4-5) y tabla 4-2"),
    "wood-handbook-shrinkage": "Wood Handbook (FPL-GTR-190), tablas 4-3 y 13-5, encogimiento",
    "drying-fit": (
        "Fecha de cierre ajustada a las lecturas, su rango calibrado con placas simuladas "
        "(docs/methods/drying.md)"
    ),
    "fed-odds": "Quizá le llega agua: un lugar contra sus vecinos (docs/methods/drying.md)",
    "meter-limits": (
        "Medidor de puntas: de 7 por ciento a la saturación; la madera tratada, el pegamento, las sales y "
        "las caras mojadas lo confunden"
    ),
    "meter-error": "FPInnovations 2015: medidores de puntas en madera y hojas, dentro de 2 por ciento",
    "pin-temperature": "Regla de un fabricante de medidores: 1/2 por ciento por cada 5 C desde 20 C",
    "fpl-gtr-6": "FPL-GTR-6 (James 1988), tabla 1: resistencia de la madera por especie y humedad",
    "astm-d4442": "ASTM D4442, humedad por secado en horno",
    "enclose-19": "No se tapa arriba de 19 por ciento: CALGreen 4.505.3 (tres lecturas), Oregon R318.2",
    "irc-p2503.7": "IRC P2503.7, tubos de agua probados 15 minutos",
    "ashrae-psychrometrics": "ASHRAE Handbook, Fundamentals: psicrometría",
    "flood-control-bowl": "Agua en la base contra un tazón al lado: 1/32 pulg en 24 h",
    "practice-panel": "Una hoja hinchada más de 1/16, o separada, se cambia",
    "practice-dry-reference": "Referencia seca: tres lugares del mismo material, nunca mojados, misma casa",
    "practice-awl": "Un punzón bajo el pulgar entra 1/8 o más, o la astilla se rompe corta: podrido",
    "practice-open-past": "Abrir hasta 12 pulg de madera sana y seca más allá de lo último malo",
    "practice-leak-tests": "Pruebas de goteras: cuánto tiempo, cuánta agua y qué distinguen",
    "practice-cover": "Fotos de cada superficie y la inspección antes de tapar",
    "practice-live-water": "Más de 28 por ciento y sin bajar en dos días, o subiendo: llega agua",
    "practice-decay-bearing": "Podrido donde algo carga: apuntalar y preguntar a un ingeniero",
}
"""Key of a source to its title in Spanish."""


def cited(key: str) -> str:
    """The source's title in Spanish with its weight; "" where only English is known."""
    title = CITED.get(key, "")
    return title and title + WEIGHT[SOURCES[key].kind]
