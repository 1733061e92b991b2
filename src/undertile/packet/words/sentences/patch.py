"""What holds a patch, and the order of work on the floor, in Spanish, by the English form."""

from __future__ import annotations

PATCH: dict[str, str] = {
    # what is not sound under it
    "{where}: a stop that nobody lifted": "{where:place}: un ALTO que nadie ha levantado",
    "the patch cannot be laid out yet": "el parche todavía no se puede trazar",
    "a whole panel's actual length and width": "el largo y el ancho reales de una hoja entera",
    "Measure a whole panel both ways and enter it; till then nothing is cut from it on paper.": (
        "Mida una hoja entera a lo largo y a lo ancho y anótela; hasta entonces nada se corta de ella."
    ),
    "the subfloor is cut open and no joist is entered": (
        "el subpiso está cortado y no hay ninguna vigueta apuntada"
    ),
    "it could not be worked": "no se pudo calcular",
    "See what the floor asks for.": "Vea lo que pide el piso.",
    "nothing is read on it under the patch": "nada leído en ella bajo el parche",
    "Read it where the floor is open.": "Léala donde el piso está abierto.",
    "a stop that nobody lifted": "un alto que nadie levantó",
    "soft and not mended": "blando y sin reparar",
    "fails and waits for an engineer": "no pasa y espera a un ingeniero",
    "fails": "no pasa",
    "not shown to carry it": "sin mostrar que aguanta",
    "{where}: not mended": "{where:place}: sin reparar",
    "{where} fails and waits for an engineer": "{where:place} no pasa y espera a un ingeniero",
    "{where} fails": "{where:place} no pasa",
    "not shown to carry it: {names}": "sin mostrar que aguanta: {names:place}",
    # mended
    "{found}; a sister stands beside it since {day}": "{found}; tiene vigueta gemela desde el {day}",
    "Put an awl into it again before it is covered.": "Pínchela otra vez con punzón antes de taparla.",
    "Scrape to sound wood, let it dry, fasten the sister typed beside it, two rows of structural "
    "screws, and write the day: from {low} to {high} at least.": (
        "Raspe hasta madera sana, deje secar, fije la gemela anotada con dos hileras de tornillos "
        "estructurales y anote el día: de {low} a {high} por lo menos."
    ),
    "The sister typed is too short, too thin or not deep enough for it, or the joist is not measured.": (
        "La gemela anotada es corta, delgada o baja para eso, o la vigueta no está medida."
    ),
    "The floor is open from {near} to {far} only: open it further along the joist, or slide the "
    "sister in from below.": (
        "El piso está abierto solo de {near} a {far}: ábralo más a lo largo de la vigueta o meta la gemela "
        "desde abajo."
    ),
    # an engineer's word
    "Write whether it carries, the engineer's name and the day; less lifts nothing.": (
        "Anote si aguanta, el nombre del ingeniero y el día; menos no levanta nada."
    ),
    "whether it carries, who or when is missing": "falta si aguanta, quién o cuándo",
    "{by} said on {day} that it does not carry": "{by} dijo el {day} que no aguanta",
    "Mend it as the engineer says, then have the engineer look at it again.": (
        "Repárela como dice el ingeniero y que la vea otra vez."
    ),
    "{by}, {day}: carries as it is or as mended": "{by}, {day}: aguanta como está o como se reparó",
    "{by}, {day}: it carries; {says}": "{by}, {day}: aguanta; {says}",
    "Keep it with the record; whatever changes at the joist asks for it anew.": (
        "Guárdelo con el registro; si algo cambia en la vigueta hay que pedirlo otra vez."
    ),
    # the order of work
    "{where}": "{where:place}",
    "Floor: cut out patch {number} on the drawing's lines, fit {pieces} and take it out again; put an "
    "awl into each joist uncovered.": (
        "Piso: corte el parche {number} por las líneas del dibujo, presente {pieces} y sáquelo otra vez; "
        "pinche con punzón cada vigueta que quede a la vista."
    ),
    "Floor: read each joist under the patch, and let what is wet there dry.": (
        "Piso: lea cada vigueta bajo el parche y deje secar lo mojado."
    ),
    "Floor: set blocks and cleats, glued and screwed, flush with the joists' tops.": (
        "Piso: ponga bloques y maderos de apoyo, con pegamento y tornillos, al ras de arriba de las viguetas."
    ),
    "Floor: lay patch {number}, {pieces}, then glue and screw it (floor sheet).": (
        "Piso: ponga el parche {number}, {pieces}; luego pegamento y tornillos (hoja del piso)."
    ),
}
