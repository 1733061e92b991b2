"""Where rules come from, in Spanish, by the key of the source; a standard keeps its own name.

Every source kept is here: a test holds it.
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
    "irc-r602.6": "IRC R602.6, muescas y agujeros en montantes (texto 2015-2021)",
    "irc-r602.6.1": "IRC R602.6.1, solera superior con muesca (texto 2018)",
    "nec-300.4": "NEC 300.4(A)(1) y (D), 1-1/4 pulg de la orilla o una placa de acero (texto 2017)",
    "irc-p2603.2.1": "IRC P2603.2.1, placas protectoras para tubos (desde 2015)",
    "irc-p2708.1": "IRC P2708.1, piso de ducha de 900 pulg², 30 pulg como mínimo (texto 2018)",
    "a108.02-4.2.2": (
        "ANSI A108.02 sección 4.2.2: orilla de 15 pulg o más, 1/8 en 10 pies y 1/16 en 24 pulg; edición sin "
        "revisar"
    ),
    "a108-flat-small": (
        "ANSI A108 / TCNA: orillas de menos de 15 pulg, 1/4 en 10 pies y 1/16 en 12 pulg; edición sin revisar"
    ),
    "ufgs-thinset-plumb": "UFGS: montantes para loseta pegada, 1/8 pulg en 8 pies; edición sin revisar",
    "ps20": "American Softwood Lumber Standard PS 20, medidas reales; edición sin revisar",
    "iso-12781": "ISO 12781, planitud por zona mínima; edición sin revisar",
    "baarda": "Baarda 1968: cada lectura contra lo que las demás dicen de ella",
    "practice-planing": "Límite de oficio de 1/4 pulg para cepillar un montante",
    "practice-keep-off": (
        "Nada se cepilla ni se clava a menos de 3 pulg (75 mm) de una válvula o tubo en un montante"
    ),
    "practice-straightness": "Qué tan derecha está la madera puesta, como guía débil",
    "practice-pan-fit": "Ancho libre para una base rígida: base más 1/16 a 1/8; lea la hoja de la base",
    "practice-square": "Diagonales de un hueco de ducha a menos de 1/8",
    "practice-screw": "Tornillo: tablero más relleno más 3/4 en madera",
    "practice-backing": "La esquina interior conserva 5/8 de respaldo después de engrosar",
    "practice-tools": (
        "Exactitud de regla, cinta, línea láser, reglas corredizas y nivel en un cuarto sin acabados"
    ),
    "practice-minutes": "Minutos del trabajo, una persona, con el plan ya hecho",
    "practice-way-in": "Una base cargada acostada necesita su lado corto libre en la vuelta más angosta",
    "practice-valve": "Margen del acabado como lo da la hoja de la válvula, desde su cuerpo",
    "practice-edges": "Tablero nuevo al ras, hasta 1/32 metido de la cara que continúa",
    "practice-screw-tip": "La punta del tornillo queda a 1/4 de tubo o cable",
    "shield-plate": (
        "Tubo o cable a menos de 1-1/4 pulg de la orilla lleva placa de acero: NEC 300.4(A)(1), (D), edición "
        "sin revisar; IRC P2603.2.1 (desde 2015)"
    ),
    "depth-cubed": "La rigidez va con el fondo al cubo (manuales de mecánica)",
    "flange-held": "El extremo de la pestaña tiene la cara de un montante a menos de 2 pulg",
    "practice-kerf": "Un corte de sierra quita 1/8",
    "stock-length": "Las tiras se cortan de tramos de 8 pies, el cartón suelto de 45 pulg, hasta medirlos",
    "strip-place": (
        "Una tira llega a la mitad de la siguiente altura leída, o a las soleras; nunca baja a la pestaña"
    ),
    "practice-screw-rows": "Tornillos del tablero cada 8 pulg en cada montante",
    "asbestos-local": (
        "Reglas del estado y locales para demoler; EPA NESHAP 40 CFR 61.145 exceptúa hasta cuatro "
        "viviendas; edición sin revisar"
    ),
    "epa-mold": "EPA 402-K-01-001, limpieza de moho en escuelas y comercios, tabla 2",
    "epa-rrp": (
        "Regla del plomo de la EPA, 40 CFR 745.80 a 745.92: casas de antes de 1978; arreglos de hasta 6 "
        "pies² por cuarto; edición sin revisar"
    ),
    "irc-r302-shared": (
        "IRC R302.2 y R302.3: las paredes entre viviendas conservan su resistencia al fuego; edición sin "
        "revisar"
    ),
    "reading-slip": (
        "Se pregunta: más de 100 por ciento, o un décimo de lo usual ahí, y bien con el punto decimal "
        "corrido un lugar"
    ),
    "reading-jump": (
        "Se pregunta: una subida de 5 por ciento entre dos visitas, una bajada de 8 y más de 6 al día"
    ),
    "s500-category": (
        "ANSI/IICRC S500: clase de agua; lo poroso mojado de 24 a 48 h o más se saca (EPA); edición sin "
        "revisar"
    ),
    "convention-2": "docs/convention.md, sección 2: lecturas y signos",
    "convention-3": "docs/convention.md, sección 3: base, holgura y distancias",
    "convention-4": "docs/convention.md, sección 4: el plan de menor costo",
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
    "pin-temperature-range": (
        "Lecturas corregidas para madera de 32 a 122 F (0 a 50 C): la tabla de un fabricante llega a 50 C"
    ),
    "practice-thickness": (
        "La madera de un baño tiene a lo más 8 pulg. de grueso, una hoja 2; más es un error al escribir"
    ),
    "practice-joist-span": "Una vigueta de piso salva al menos dos veces su peralte",
    "practice-wood-temperature": (
        "La madera de un cuarto queda a menos de 40 F de su aire, si no se acaba de calentar"
    ),
    "fpl-gtr-6": "FPL-GTR-6 (James 1988), tabla 1: resistencia de la madera por especie y humedad",
    "astm-d4442": "ASTM D4442, humedad por secado en horno; edición sin revisar",
    "enclose-19": (
        "No se tapa arriba de 19 por ciento: CALGreen 4.505.3 (tres lecturas), Oregon R318.2; edición sin "
        "revisar"
    ),
    "irc-p2503.7": "IRC P2503.7, tubos de agua probados 15 minutos (texto 2018-2021)",
    "irc-p2503.9": (
        "IRC P2503.9, manómetros de prueba: marcas de 1 psi o más finas hasta 100 psi, 2 psi arriba de eso "
        "(texto 2018)"
    ),
    "leak-word-alone": (
        "Donde la madera estuvo mojada, tubos y desagüe se descartan con una prueba, base y paredes con una "
        "prueba o el día en que se arrancaron, y no de palabra; una palabra es la que se puede leer"
    ),
    "leak-test-day": (
        "Una prueba descarta sólo desde el día en que se notó el agua o se abrió la pared, y a 60 días o "
        "menos de una visita"
    ),
    "ashrae-psychrometrics": "ASHRAE Handbook, Fundamentals: psicrometría; edición sin revisar",
    "flood-control-bowl": "Agua en la base contra un tazón al lado: 1/32 pulg en 24 h",
    "practice-panel": "Una hoja hinchada más de 1/16, o separada, se cambia",
    "practice-same-meter": "Un número se compara con la referencia seca que lee el mismo medidor",
    "practice-read-lately": "Se tapa por una lectura de los últimos 14 días, no más vieja",
    "practice-dry-reference": "Referencia seca: tres lugares del mismo material, nunca mojados, misma casa",
    "practice-awl": "Un punzón bajo el pulgar entra 1/8 o más, o la astilla se rompe corta: podrido",
    "practice-open-past": "Abrir más allá de lo último malo, hasta madera sana y seca",
    "leak-came-and-went": (
        "Una gotera que nadie reparó se da por terminada cuando la misma prueba, igual de larga y de dura, "
        "sale limpia en dos días"
    ),
    "leak-order": "De pruebas y reparaciones de un mismo día sin hora cuenta el peor orden",
    "leak-wet-since": (
        "Una prueba no descarta lo que pudo mojar la madera después de ella: madera que subió más que el "
        "medidor y la estación"
    ),
    "practice-leak-tests": "Pruebas de goteras: cuánto tiempo, cuánta agua y qué distinguen",
    "practice-cover": "Fotos de cada superficie y la inspección antes de tapar",
    "practice-live-water": "Más de 28 por ciento y sin bajar en dos días, o subiendo: llega agua",
    "practice-decay-bearing": "Podrido donde algo carga: apuntalar y preguntar a un ingeniero",
    "practice-bare-bearing": "Madera que carga y se queda cortada: apuntalar y preguntar qué carga ahora",
}
"""Key of a source to its title in Spanish."""


def cited(key: str) -> str:
    """The source's title in Spanish with its weight; "" of what is no source."""
    title = CITED.get(key, "")
    return title and title + WEIGHT[SOURCES[key].kind]
