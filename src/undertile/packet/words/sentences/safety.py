"""The usual cautions (``safety.cautions``)."""

from __future__ import annotations

SAFETY: dict[str, str] = {
    "paint of before 1978 sampled, or the work done lead-safe": (
        "pintura anterior a 1978 con muestra, o trabajo seguro para plomo"
    ),
    "lead in the paint": "plomo en la pintura",
    "No dry scraping, no open flame; a certified renovator does it lead-safe, gutting is never a minor "
    "repair. Local rules decide.": (
        "Sin raspar en seco ni usar flama; lo hace un renovador certificado en plomo: desmantelar nunca es "
        "reparación menor. Deciden las reglas locales."
    ),
    "the house": "la casa",
    "built in {year}, no paint sampled": "construida en {year}, sin muestra de pintura",
    "Sample the paint that will be disturbed, or have a certified renovator work lead-safe.": (
        "Tome muestra de la pintura que se va a tocar, o que trabaje un renovador certificado en plomo."
    ),
    "what will be disturbed answered by a laboratory before dust": (
        "lo que se va a tocar, con respuesta de laboratorio antes del polvo"
    ),
    "asbestos": "asbesto",
    "Leave it whole and wet, close the room; a licensed abatement firm takes it out.": (
        "Déjelo entero y mojado, cierre el cuarto; lo saca una empresa con licencia."
    ),
    "flooring": "piso viejo",
    "mastic": "pegamento de piso",
    "plaster or texture": "yeso o textura",
    "pipe wrap": "forro de tubo",
    "old board": "tablero viejo",
    "what was sampled": "lo que tiene muestra",
    "sampled, and no answer yet": "con muestra, sin respuesta todavía",
    "Do not disturb it until the answer is there.": "No lo toque hasta que llegue la respuesta.",
    "built in {year}, nothing sampled: old flooring, mastic and texture count as it": (
        "construida en {year}, sin muestras: piso, pegamento y textura viejos cuentan como asbesto"
    ),
    "Sample what will be disturbed, keep it wet and whole until the answer is there.": (
        "Tome muestra de lo que se va a tocar; manténgalo mojado y entero hasta que llegue la respuesta."
    ),
    "nothing sampled; its age alone does not clear it": "sin muestras; la edad sola no lo descarta",
    "Ask the local office: many rules want a sample whatever the age, most of all where there are many "
    "homes.": (
        "Pregunte a la oficina local: muchas reglas piden muestra sin importar la edad, sobre todo donde hay "
        "muchas viviendas."
    ),
    "everything it reached": "todo lo que alcanzó",
    "cleaned and disinfected before anybody works or dries there": (
        "limpio y desinfectado antes de que alguien trabaje o seque ahí"
    ),
    "sewage": "aguas negras",
    "Gloves, boots, eyes and lungs covered; board, insulation and panels it soaked go out, they are not "
    "dried; wood is cleaned and disinfected first.": (
        "Guantes, botas, ojos y pulmones cubiertos; tablero, aislante y hojas empapados se sacan, no se "
        "secan; la madera se limpia y desinfecta primero."
    ),
    "dried within 48 hours, else taken out where it is porous": ("seco en 48 horas, o fuera si es poroso"),
    "water out of the tub, shower or drain": "agua de la tina, la regadera o el desagüe",
    "Gloves; board and insulation that stayed wet over two days go out.": (
        "Guantes; tablero y aislante que pasaron más de dos días mojados se sacan."
    ),
    "{area} sq ft in all": "{area} pies cuadrados en total",
    "mold": "moho",
    "the water stopped, the mold gone before anything is covered": (
        "el agua parada y el moho fuera antes de tapar"
    ),
    "Over 100 sq ft: full containment under suction, and people who do this for a living; nobody else goes "
    "on here.": (
        "Más de 100 pies cuadrados: contención completa con extracción y gente que se dedica a esto; nadie "
        "más sigue aquí."
    ),
    "10 to 100 sq ft: close the room off with sheet, a fan with a HEPA filter; mask, gloves, goggles.": (
        "De 10 a 100 pies cuadrados: aísle el cuarto con plástico, ventilador con filtro HEPA; mascarilla, "
        "guantes y gafas."
    ),
    "Under 10 sq ft: N-95 mask, gloves, goggles; wipe wood damp, bag what is porous.": (
        "Menos de 10 pies cuadrados: mascarilla N-95, guantes y gafas; limpie la madera en húmedo, embolse "
        "lo poroso."
    ),
    "its fire and sound layers left whole, or the owner's and the official's word": (
        "sus capas contra fuego y ruido enteras, o la palabra del dueño y del inspector"
    ),
    "{whose}; {asked}": "{whose}; {asked}",
    "{whose}; nobody was asked": "{whose}; no se le preguntó a nadie",
    "Cut and drill no deeper than your own studs; ask before one comes out. Local code decides.": (
        "No corte ni perfore más allá de sus propios montantes; pregunte antes de sacar uno. Decide el "
        "código local."
    ),
    "the circuit": "el circuito",
    "the supply": "el suministro de agua",
    "off, locked, and proved dead on each wire": "apagado, con candado y probado sin corriente en cada cable",
    "off and drained before a wall is opened": "cerrado y vaciado antes de abrir una pared",
    "nobody says so": "nadie lo ha dicho",
    "Shut it off, prove it, write down who did.": "Ciérrelo, compruébelo y anote quién lo hizo.",
    "the code and place of a stop that stands": "la clave y el lugar de un alto que está puesto",
    "{by} lifted {stop}, and there is no such stop": "{by} levantó {stop}, y no hay tal alto",
    "Take it out, or write the place as the stop has it.": (
        "Quítelo, o escriba el lugar como lo dice el alto."
    ),
    "{found}; a lift is written, without a name and a reason that can be read": (
        "{found}; dice que se levantó, sin nombre y razón que se puedan leer"
    ),
    "{found}; lifted by {by} on {day}, which has not come yet": (
        "{found}; lo levantó {by} el {day}, que todavía no llega"
    ),
    "{found}; lifted by {by}: {reason}": "{found}; lo levantó {by}: {reason}",
}
"""English form to Spanish."""
