"""What a place lacks before it may be called dry (``wood.dryhere``, ``wood.notdry``, ``wood.held``)."""

from __future__ import annotations

DRYHERE: dict[str, str] = {
    "reads {value}; it falls behind its neighbors: possibly fed, {odds}": (
        "lee {value}; seca menos que sus vecinos: puede llegarle agua, {odds}"
    ),
    "reads {value}; {before} on visit {visit}, less than a day before": (
        "lee {value}; {before} en la visita {visit}, menos de un día antes"
    ),
    "reads {value} on a wet face (visit {visit}): only good for comparing": (
        "lee {value} en una cara mojada (visita {visit}): sólo sirve para comparar"
    ),
    "Let its face dry, then read it again.": "Deje secar su cara y léalo otra vez.",
    "reads {value}; not known which meter it was read with (visit {visit})": (
        "lee {value}; no se sabe con qué medidor se leyó (visita {visit})"
    ),
    "reads {value}; not known whether meter {meter} has pins or a pad": (
        "lee {value}; no se sabe si el medidor {meter} tiene puntas o placa"
    ),
    "Say whether the meter has pins or a pad.": "Diga si el medidor tiene puntas o placa.",
    "Say which meter was used on that visit.": "Diga qué medidor se usó en esa visita.",
    "reads {value}; not known which species meter {meter} is set to": (
        "lee {value}; no se sabe en qué especie está puesto el medidor {meter}"
    ),
    "Say which species the meter is set to.": "Diga en qué especie está puesto el medidor.",
    "reads {value}, and up to {cold} if the wood was cold: its temperature was not read (visit {visit})": (
        "lee {value}, y hasta {cold} si la madera estaba fría: no se leyó su temperatura (visita {visit})"
    ),
    "Read the wood's temperature on each visit, or the air's.": (
        "Lea la temperatura de la madera en cada visita, o la del aire."
    ),
    "reads {value}, rising over {number} visits since visit {visit} ({rise})": (
        "lee {value}, sube en {number} visitas desde la visita {visit} ({rise})"
    ),
    "reads {value} with meter {meter}, which no dry reference was read with": (
        "lee {value} con el medidor {meter}, y con ése no se leyó ninguna referencia seca"
    ),
    "Read the dry references with the same meter, or the place with theirs.": (
        "Lea las referencias secas con el mismo medidor, o el lugar con el de ellas."
    ),
    "no goal before a dry reference is read with meter {meter}": (
        "sin meta antes de leer una referencia seca con el medidor {meter}"
    ),
    "at most {most}, and near a dry reference not read yet with meter {meter}": (
        "a lo más {most}, y cerca de una referencia seca que con el medidor {meter} todavía no se lee"
    ),
    "its goal lies under what dry wood reads in this house": (
        "su meta queda debajo de lo que lee la madera seca en esta casa"
    ),
    "goal for {material}": "meta para {material}",
    "a goal that wood comes to in this house: dry places read {dry}": (
        "una meta a la que llega la madera en esta casa: los lugares secos leen {dry}"
    ),
    "Take the usual limits again, or dry the whole house further and read its dry places anew.": (
        "Vuelva a los límites de costumbre, o seque más toda la casa y lea de nuevo sus lugares secos."
    ),
    "under {most} wherever it was never wet": "menos de {most} donde nunca se mojó",
    "at most {goal}, by the other dry references": "a lo más {goal}, según las otras referencias secas",
    "{value} on visit {visit}": "{value} en la visita {visit}",
    "This meter begins too high to tell that it is dry: read it with one that begins lower, or dry a chip of "
    "it in an oven and weigh it. It counts as any other place, and not as a dry reference.": (
        "Este medidor empieza muy alto para decir que está seco: léalo con uno que empiece más abajo, o "
        "seque una astilla en horno y pésela. Cuenta como cualquier otro lugar, y no como referencia seca."
    ),
    "Look for damp there too; or it reads high: dry a chip of it in an oven and weigh it. It counts as any "
    "other place, and not as a dry reference.": (
        "Busque humedad ahí también; o lee de más: seque una astilla en horno y pésela. Cuenta como "
        "cualquier otro lugar, y no como referencia seca."
    ),
    "days since a place was read": "días desde que se leyó un lugar",
    "the days of visits {visits} are out of order": "los días de las visitas {visits} no van en orden",
    "the day of visit {visit} is out of order": "el día de la visita {visit} no va en orden",
    "dry, as read {days} days ago; at most {most}": "seco, leído hace {days} días; a lo más {most}",
    "Read it again before it is covered: a room gets wet again.": (
        "Léalo otra vez antes de tapar: un cuarto se vuelve a mojar."
    ),
    "temperature of the wood not said, taken as the air's, {air} F: {added}": (
        "temperatura de la madera sin decir, se toma la del aire, {air} F: {added}"
    ),
    "the wood's temperature: cold wood reads drier than it is": (
        "la temperatura de la madera: la madera fría se lee más seca de lo que está"
    ),
    "not said; taken as the air's, {air}, on the wetter side": (
        "sin decir; se toma la del aire, {air}, del lado más mojado"
    ),
    "not said, and no air that tells it": "sin decir, y sin aire que la diga",
    "pins that end in the wood, {size} thick": "puntas que terminan en la madera, de {size} de grueso",
    "{size} deep": "{size} de hondo",
    "Measure both again: pins through the wood read what is behind it.": (
        "Mida otra vez los dos: las puntas que la atraviesan leen lo que hay detrás."
    ),
    "a day within {days} days of what comes after it ({other}, {when})": (
        "un día a {days} días o menos de lo que sigue ({other}, {when})"
    ),
}
"""English form to Spanish."""
