"""Sentences of what is to know of the wood, of parts that broke, and of when a wet stud is dry."""

from __future__ import annotations

WOOD_LACKS: dict[str, str] = {
    # what there is to know
    "it bears": "carga",
    "it may bear": "puede cargar",
    "Shore it before anything is cut, and ask an engineer; local code decides.": (
        "Apuntálelo antes de cortar nada, y pregunte a un ingeniero; decide el código local."
    ),
    "over the meter's range while its neighbors fell: {odds} that it is fed": (
        "más de lo que mide el medidor mientras sus vecinos bajaron: {odds} de que le llega agua"
    ),
    "{change} between two visits, its neighbors {expected}: {odds} that it is fed": (
        "{change} entre dos visitas, sus vecinos {expected}: {odds} de que le llega agua"
    ),
    "{value}, give or take {number}": "{value}, más o menos {number}",
    "It passes within the meter's own error: the goal lies under 19 for that.": (
        "Pasa dentro del error del medidor: por eso la meta queda bajo 19."
    ),
    "{some} and {number} more": "{some} y {number} más",
    "no place": "sin lugar",
    "Say where it is; until then it is judged, but tells nothing of how far to open.": (
        "Diga dónde está; mientras, se juzga, pero no dice hasta dónde abrir."
    ),
    "Mend it, then make the same test again; test the others too.": (
        "Repárelo y haga otra vez la misma prueba; pruebe también lo demás."
    ),
    "It shows nothing yet: {why}.": "Todavía no muestra nada: {why}.",
    "air at {psi} psi": "aire a {psi} psi",
    "Let it off and test with water.": "Suéltelo y pruebe con agua.",
    "{value} at {where}; its face goes back {range} until it reads {dry}, as dry wood does in this house": (
        "{value} en {where:place}; su cara se mete {range} hasta que lea {dry}, como la madera seca de esta "
        "casa"
    ),
    "{value} at {where} when its face was read, dry since; its face goes back {range} in all, until it reads "
    "{dry}, as dry wood does in this house": (
        "{value} en {where:place} cuando se leyó su cara, ya seco; su cara se mete {range} en total, hasta "
        "que lea {dry}, como la madera seca de esta casa"
    ),
    "{value} at {where} once, dry since, and it is not known when its face was read; read at its wettest, "
    "its face goes back {range} in all, until it reads {dry}, as dry wood does in this house": (
        "{value} en {where:place} alguna vez, ya seco, y no se sabe cuándo se leyó su cara; leída en lo más "
        "mojado, su cara se mete {range} en total, hasta que lea {dry}, como la madera seca de esta casa"
    ),
    "True it as planned: the plan leaves room for that.": (
        "Póngalo a plano según el plan: el plan deja lugar para eso."
    ),
    # a part that broke
    "something in this part broke; what was typed is kept": (
        "algo en esta parte falló; lo escrito está guardado"
    ),
    "Take back what was typed last, or correct it in the record.": (
        "Retire lo último escrito, o corríjalo en el registro."
    ),
    # when a wet stud is dry
    "No date: {why}.": "Sin fecha: {why}.",
    "No date: it was not worked out.": "Sin fecha: no se calculó.",
    "Between {soonest} and {latest}, eight times in ten.": (
        "Entre {soonest} y {latest}, ocho de cada diez veces."
    ),
    "not measured": "sin medir",
    "Measure it face to back: how far it shrinks goes with it.": (
        "Mídalo de la cara a atrás: de eso depende cuánto encoge."
    ),
    "walls and floor": "paredes y piso",
    "{number} missing: {kinds}": "faltan {number}: {kinds}",
    "{where}: {do}": "{where:place}: {do}",
    "source": "fuente",
    "moisture": "humedad",
    "photo": "foto",
    "inspection": "inspección",
    "the floor": "el piso",
    "dry reference of {material}": "referencia seca de {material}",
    "lumber": "madera aserrada",
    "treated": "madera tratada",
    "plywood": "triplay",
    "other panel": "otra hoja",
    "Read them: a closet, another wall of the bath, a joist 2 m off.": (
        "Léalas: un clóset, otra pared del baño, una vigueta a 2 m."
    ),
    "Read them: a closet, another wall of the bath, a joist 6 ft off.": (
        "Léalas: un clóset, otra pared del baño, una vigueta a 6 pies."
    ),
    "{name} {now} for {usual}": "{name} {now} en vez de {usual}",
    "points over the dry reference": "puntos sobre la referencia seca",
    "goal at most": "meta a lo más",
    "never over": "nunca más de",
    "sound wood past the last bad spot": "madera sana más allá de lo último malo",
    "{rule} (common practice, no source)": "{rule} (práctica común, sin fuente)",
    "Open until {past} of sound, dry wood past the last bad spot": (
        "Abra hasta {past} de madera sana y seca más allá de lo último malo"
    ),
    "another limit than the usual {usual}, no reason given": (
        "otro límite que el de costumbre, {usual}; sin motivo"
    ),
    "another limit than the usual {usual}: {reason}": "otro límite que el de costumbre, {usual}: {reason}",
    "moisture limits": "límites de humedad",
    "{what}: {reason}": "{what}: {reason}",
    "{what}, no reason given": "{what}, sin motivo",
    "{what}": "{what}",
    "Keep them if you mean it.": "Déjelos si así los quiere.",
    "Write why beside the water's limits.": "Escriba por qué, junto a los límites del agua.",
    "Write why beside the water's limits; until then the usual one counts where another is looser.": (
        "Escriba por qué, junto a los límites del agua; mientras, vale el de costumbre donde otro es flojo."
    ),
    "meter {name}": "medidor {name}",
    "Add the meter with its scale, or correct its name; until then no species is corrected.": (
        "Agregue el medidor con su escala, o corrija su nombre; mientras, no se corrige la especie."
    ),
    "{number} meters and none named": "{number} medidores y ninguno nombrado",
    "Say which; until then no species is corrected.": "Diga cuál; mientras, no se corrige la especie.",
    "{number} percent": "{number} por ciento",
    "Read the hygrometer again; this air is not used.": "Lea otra vez el higrómetro; este aire no se usa.",
    "Read the thermometer again, or warm the room: wood hardly dries in freezing air.": (
        "Lea otra vez el termómetro, o caliente el cuarto: con aire helado la madera casi no seca."
    ),
    "something read on {visits}": "algo leído en {visits}",
    "Add the visit with its day, or correct its name; until then this is kept and not used.": (
        "Agregue la visita con su día, o corrija su nombre; mientras, se guarda y no se usa."
    ),
    "{wet} g wet and {dry} g dry": "{wet} g mojada y {dry} g seca",
    "Weigh again, or exchange the two; it is not used.": "Pese otra vez, o cambie los dos; no se usa.",
    "a reading that follows from the one before, as wood dries": (
        "una lectura que sigue de la anterior, como seca la madera"
    ),
    "{by} since visit {visit}": "{by} desde la visita {visit}",
    "Read it again in the same holes, or say that its face is wet.": (
        "Léalo otra vez en los mismos agujeros, o diga que la cara está mojada."
    ),
    "Take it as only dry: it is not corrected, and no date is worked from it.": (
        "Tómelo sólo como seco: no se corrige, y de ahí no sale ninguna fecha."
    ),
    "Take it as only wet: it is not corrected, and no date is worked from it.": (
        "Tómelo sólo como mojado: no se corrige, y de ahí no sale ninguna fecha."
    ),
    "Correct the day that is wrong; nothing is lost.": "Corrija el día que está mal; nada se pierde.",
    "off {day}": "apagado {day}",
    "Name the visit nearest to the truing.": "Nombre la visita más cercana a poner a plano.",
    "opened": "abierto",
    "trued": "puesto a plano",
    "equipment {name}": "equipo {name}",
    "a day not after today, {today}": "un día no después de hoy, {today}",
    "a day not after the newest entry, {entered}": "un día no después de la anotación más nueva, {entered}",
    "a day not before the newest entry, {entered}": "un día no antes de la anotación más nueva, {entered}",
    "Correct the day, or this device's clock if that is wrong; until then it opens nothing.": (
        "Corrija el día, o el reloj de este aparato si está mal; mientras, no abre nada."
    ),
    "this device's clock": "el reloj de este aparato",
    "Set the clock if it is wrong; if it is right, correct the days after it.": (
        "Ponga bien el reloj si está mal; si está bien, corrija los días después de él."
    ),
    "it says {today}; the job has entries of {entered}": (
        "dice {today}; el trabajo tiene anotaciones de {entered}"
    ),
    "dated {day}, and today is {today}": "con fecha {day}, y hoy es {today}",
    "dated {day}, and the newest entry is of {entered}": (
        "con fecha {day}, y la anotación más nueva es de {entered}"
    ),
    "its day has not come yet": "su día todavía no llega",
    "read on visit {visit}, whose day {day} has not come yet": (
        "leído en la visita {visit}, cuyo día {day} todavía no llega"
    ),
    "reads {value}, {rise} since visit {visit} {days} days before: within the meter's own error "
    "and the room's air": (
        "marca {value}, {rise} desde la visita {visit}, {days} días antes: dentro del error del medidor "
        "y del aire del cuarto"
    ),
    "its decimal point may be in the wrong place": "el punto decimal puede estar fuera de lugar",
    "about what it read before, {usual}": "más o menos lo que marcaba antes, {usual}",
    "about what the other places show, {usual}": "más o menos lo que marcan los otros lugares, {usual}",
    "Correct it or read it again; it is not used until another visit agrees.": (
        "Corríjalo o lea otra vez; no se usa hasta que otra visita coincida."
    ),
    "Read it again and correct it, or type under if the meter shows nothing; until then it is not used.": (
        "Lea otra vez y corríjalo, o escriba under si el medidor no muestra nada; mientras, no se usa."
    ),
    "no room makes wood so dry": "ningún cuarto seca tanto la madera",
    "past what the meter can tell the number says only wet": (
        "más allá de lo que el medidor distingue, el número sólo dice mojado"
    ),
    "shows {shown} on visit {visit}: no room makes wood so dry": (
        "marca {shown} en la visita {visit}: ningún cuarto seca tanto la madera"
    ),
    "{number} readings, {low} to {high}": "{number} lecturas, de {low} a {high}",
    "{found}: counts as {end}, not corrected": "{found}: cuenta como {end}, sin corregir",
    "Read it again or correct it; until then it counts as only wet.": (
        "Lea otra vez o corríjalo; mientras, cuenta sólo como mojado."
    ),
    "{shown}; {meant} with its decimal point moved": "{shown}; {meant} con el punto decimal corrido",
    "shows {shown} on visit {visit}: {meant} with its decimal point moved? It is not used": (
        "marca {shown} en la visita {visit}: ¿{meant} con el punto decimal corrido? No se usa"
    ),
    "shows {shown} on visit {visit}: {meant} with its decimal point moved? It counts as only wet": (
        "marca {shown} en la visita {visit}: ¿{meant} con el punto decimal corrido? Cuenta sólo como mojado"
    ),
    "Read it again in the same holes, or correct what was typed.": (
        "Lea otra vez en los mismos agujeros, o corrija lo escrito."
    ),
    "days after today": "días después de hoy",
    "joist {name}, the engineer's word": "vigueta {name}, la palabra del ingeniero",
    "joist {name}, its sister fastened": "vigueta {name}, su gemela fijada",
    "photo, {name}": "foto, {name:place}",
    "mended, {name}": "reparado, {name}",
    "torn out, {name}": "arrancado, {name}",
    "spray, {name}": "rociado, {name}",
    "a day within {days} days of what comes before it ({other}, {when})": (
        "un día a menos de {days} días de lo anterior ({other:place}, {when})"
    ),
    "Correct the day that is wrong, if one is; all counting of days stands on it.": (
        "Corrija el día que está mal, si alguno lo está; toda cuenta de días parte de él."
    ),
    "{where}, visit {visit}": "{where:place}, visita {visit}",
}
"""English form to Spanish."""
