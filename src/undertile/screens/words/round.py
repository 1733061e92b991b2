"""What a moisture round says: where to put the pins, what a point comes to, how a round begins."""

from __future__ import annotations

ROUND_PAD: dict[str, tuple[str, str]] = {
    "pad-over": ("over", "sobre"),
    "pad-over-long": ("over the meter's range", "sobre el rango del medidor"),
    "pad-under": ("under", "bajo"),
    "pad-under-long": ("under the meter's range", "bajo el rango del medidor"),
    "pad-wet": ("wet face", "cara mojada"),
    "pad-dry": ("dry face", "cara seca"),
    "pad-awl": ("awl", "punzón"),
    "pad-awl-firm": ("firm", "firme"),
    "pad-awl-firm-long": ("awl: firm, does not sink", "punzón: firme, no entra"),
    "pad-awl-sinks": ("awl sinks {deep}", "el punzón entra {deep}"),
    "pad-awl-push": ("Push the awl in", "Empuje el punzón"),
    "pad-splinters": ("splinters", "astilla"),
    "pad-splinters-long": ("pick: splinters long", "astilla larga"),
    "pad-snaps": ("snaps", "truena"),
    "pad-snaps-long": ("pick: snaps short", "truena en seco"),
    "pad-same-as": ("the same as last time", "igual que la última vez"),
    "pad-tens": ("tens", "decenas"),
    "pad-new": ("New place", "Lugar nuevo"),
    "pad-new-title": ("A new place to read", "Un lugar nuevo por leer"),
    "pad-new-what": ("In what", "En qué"),
    "pad-new-which": ("Which", "Cuál"),
    "pad-new-own": ("Another place", "Otro lugar"),
    "pad-new-take": ("Read it", "Leerlo"),
    "pad-new-like": ("Same wood as {where}: {what}", "La misma madera que {where}: {what}"),
    "pad-new-next": ("Read {where}: it tells most", "Lea {where}: es lo que más aclara"),
    "pad-no-percent": ("{text} is no percent. Type 18.5", "{text} no es un por ciento. Escriba 18.5"),
    "pad-new-holes": ("along the grain", "a lo largo de la veta"),
    "pad-first": ("first time", "primera vez"),
    "pad-list-new": ("list, new", "lista, nuevo"),
}
"""What the pad itself says, key to (English, Spanish): short, for it is read at arm's length."""

ROUND: dict[str, tuple[str, str]] = {
    **ROUND_PAD,
    # where the pins go
    "round-plate": ("plate {wall}", "solera {wall}"),
    "round-stud": ("{name}", "{name}"),
    "round-joist": ("joist {name}", "vigueta {name}"),
    "round-subfloor": ("subfloor", "subpiso"),
    "round-subfloor-layer": ("subfloor, layer {layer}", "subpiso, capa {layer}"),
    "round-member-plate": ("plate", "solera"),
    "round-member-stud": ("stud", "montante"),
    "round-member-joist": ("joist", "vigueta"),
    "round-member-subfloor": ("subfloor", "subpiso"),
    "round-layer": ("layer {layer}", "capa {layer}"),
    "round-at": ("{where} at {at}", "{where} a {at}"),
    "round-axis-along": ("Along it, from the corner", "A lo largo, desde la esquina"),
    "round-axis-along-joist": ("Along it, from the back wall", "A lo largo, desde la pared del fondo"),
    "round-axis-height": ("Above the subfloor", "Sobre el subpiso"),
    "round-axis-x": ("From the left wall", "Desde la pared izquierda"),
    "round-axis-y": ("Out from the back wall", "Desde la pared del fondo"),
    "round-deep": ("{depth} deep", "{depth} de hondo"),
    "round-same-holes": ("same holes", "mismos agujeros"),
    "round-same-spot": ("same spot", "mismo punto"),
    "round-last": ("last {value}", "antes {value}"),
    "round-dry-reference": ("dry reference", "referencia seca"),
    # what the point just typed comes to
    "round-at-least": ("at least {by}", "al menos {by}"),
    "round-rose": (
        "Up {by} since last time?",
        "¿Subió {by} desde la última vez?",
    ),
    "round-fell": (
        "Down {by} since last time? Same holes?",
        "¿Bajó {by} desde la última vez? ¿Mismos agujeros?",
    ),
    "round-slip-wet": (
        "{shown}? Or {meant}? Counts as only wet until read again.",
        "¿{shown}? ¿O {meant}? Cuenta sólo como mojado hasta leerlo otra vez.",
    ),
    "round-slip-dry": (
        "{shown}? Or {meant}? Not used until another visit agrees.",
        "¿{shown}? ¿O {meant}? No se usa hasta que otra visita coincida.",
    ),
    "round-nothing": (
        "No wood reads {shown}. Read it again, or type under.",
        "Ninguna madera marca {shown}. Lea otra vez, o escriba under.",
    ),
    "round-range": (
        "Outside the meter's {low} to {high}: counts as only {word}.",
        "Fuera de {low} a {high} del medidor: cuenta sólo como {word}.",
    ),
    "round-range-dry": ("dry", "seco"),
    "round-range-wet": ("wet", "mojado"),
    "round-close": ("Dry here: twice, and sound.", "Seco aquí: dos veces, y sano."),
    "round-again": (
        "Dry today. Read it a day later or more.",
        "Hoy seco. Lea otra vez un día después o más.",
    ),
    "round-wood-temperature": (
        "Too hot or too cold to correct. Type the wood's temperature again.",
        "Demasiado caliente o frío para corregir. Escriba otra vez la temperatura de la madera.",
    ),
    "round-say-meter": (
        "Which meter, and set to which species? Say it.",
        "¿Qué medidor, y puesto en qué especie? Dígalo.",
    ),
    "round-other-meter": (
        "No dry reference with this meter: read three with it.",
        "Sin referencia seca con este medidor: lea tres con él.",
    ),
    "round-cold-wood": (
        "How cold is the wood? Type it, or the room's air.",
        "¿Qué tan fría está la madera? Escríbalo, o el aire.",
    ),
    "round-wet-face": (
        "Wet face: it closes nothing. Let it dry, read again.",
        "Cara mojada: no cierra nada. Deje secar y lea otra vez.",
    ),
    "round-day-order": (
        "No date: the visits' days are out of order.",
        "Sin fecha: los días de las visitas no van en orden.",
    ),
    "round-day-ahead": (
        "The visit's day has not come yet. Correct it, or this clock.",
        "El día de la visita todavía no llega. Corríjalo, o este reloj.",
    ),
    "round-awl": ("Dry twice. Push an awl in.", "Seco dos veces. Empuje un punzón."),
    "round-no-reference": (
        "No dry reference yet: read three never wet.",
        "Aún sin referencia seca: lea tres que nunca se mojaron.",
    ),
    "round-dates": (
        "Drying: may be closed {soonest} to {latest}.",
        "Secando: se puede cerrar del {soonest} al {latest}.",
    ),
    "round-dates-past": (
        "{soonest} to {latest} is past: read it again.",
        "{soonest} a {latest} ya pasó: lea otra vez.",
    ),
    "round-few": (
        "Dry on. No date before three readings over two days.",
        "Siga secando. Sin fecha antes de tres lecturas en dos días.",
    ),
    "round-early": ("Falling. Too early for a date.", "Bajando. Muy pronto para una fecha."),
    "round-first-wet": ("Very wet. Read it again tomorrow.", "Muy mojado. Lea otra vez mañana."),
    "round-live": ("Not falling: water may be coming. Look for it.", "No baja: puede llegar agua. Búsquela."),
    "round-rising": (
        "Rising {by} since last time: look for water.",
        "Sube {by} desde la última vez: busque agua.",
    ),
    "round-fed": (
        "Falls behind its neighbors: may be fed. Look for water.",
        "Seca menos que sus vecinos: puede llegarle agua. Búsquela.",
    ),
    "round-no-air": (
        "No date: the room's air is not read.",
        "Sin fecha: no se ha leído el aire del cuarto.",
    ),
    "round-damp-lately": (
        "No date: the air of the last visits was too damp.",
        "Sin fecha: el aire de las últimas visitas era muy húmedo.",
    ),
    "round-damp-air": ("No date: this air is too damp.", "Sin fecha: este aire es muy húmedo."),
    "round-plateau": (
        "No date: it comes to rest too wet. Look for why.",
        "Sin fecha: se queda muy mojado. Busque por qué.",
    ),
    "round-not-falling": ("No date: it does not fall.", "Sin fecha: no baja."),
    "round-further": (
        "Wet, and nothing past it is dry. Open further.",
        "Mojado, y más allá nada está seco. Abra más.",
    ),
    "round-cut-out": ("CUT OUT: not sound.", "CORTAR: no está sano."),
    "round-reach": (
        "Cannot be reached: open so that it can.",
        "No se alcanza: abra para que se alcance.",
    ),
    "round-is-reference": ("A dry reference.", "Una referencia seca."),
    "round-reference-wet": (
        "Too wet for a dry reference. Look for damp here.",
        "Muy mojado para referencia seca. Busque humedad aquí.",
    ),
    # all read
    "round-count-close": ("{number} dry", "{number} secos"),
    "round-count-dry-on": ("{number} dry on", "{number} siguen secando"),
    "round-count-no-date": ("{number} without a date", "{number} sin fecha"),
    "round-count-open-further": ("{number} open further", "{number} por abrir más"),
    "round-goes-out": ("Goes out with patch {number}.", "Sale con el parche {number}."),
    "round-count-goes-out": ("{number} go out with the patch", "{number} salen con el parche"),
    "round-count-cut-out": ("{number} to cut out", "{number} por cortar"),
    "round-count-not-shown": ("{number} to read again", "{number} por leer otra vez"),
    # the beginning of a round
    "round-title": ("Moisture visit", "Visita de humedad"),
    "round-name": ("Visit {visit}", "Visita {visit}"),
    "round-begin": ("Begin visit {visit}", "Empezar la visita {visit}"),
    "round-begin-why": (
        "{number} places, in the order of the last visit.",
        "{number} lugares, en el orden de la última visita.",
    ),
    "round-begin-first": (
        "Places are added while you walk.",
        "Los lugares se agregan mientras camina.",
    ),
    "round-go-on": ("Go on with visit {visit}: {left} to read", "Siga la visita {visit}: faltan {left}"),
    "round-mend-day": (
        "Mend the day of visit {visit}: it cannot be read",
        "Corrija el día de la visita {visit}: no se puede leer",
    ),
    "round-mend-day-why": (
        "Readings of it that wait for the day: {number}. They stay as they are.",
        "Lecturas suyas que esperan el día: {number}. Se quedan como están.",
    ),
    "round-undated": ("no day", "sin día"),
    "round-start": ("Start reading", "Empezar a leer"),
    "round-when": ("Day and hour", "Día y hora"),
    "round-when-hint": (
        "Now, as this phone has it. Change it if it is wrong.",
        "Ahora, según este teléfono. Corríjala si está mal.",
    ),
    "round-by": ("Who reads", "Quién lee"),
    "round-meter": ("Meter", "Medidor"),
    "round-air": ("Air in the room", "Aire del cuarto"),
    "round-humidity": ("Humidity, %", "Humedad, %"),
    "round-wood": ("Wood", "Madera"),
    "round-air-why": (
        "Without temperature and humidity of the room no date can be given.",
        "Sin temperatura y humedad del cuarto no se puede dar fecha.",
    ),
    "round-since": ("Since the last visit", "Desde la última visita"),
    "round-supply": ("Water supply", "Toma de agua"),
    "round-shower": ("This shower", "Esta ducha"),
    "round-rain": ("Rain", "Lluvia"),
    "round-before": ("Visits", "Visitas"),
    "round-meters": ("Meters and limits", "Medidores y límites"),
    "round-none": (
        "expected a visit of this job, found {visit}; begin it on the screen of visits",
        "se esperaba una visita de este trabajo, se encontró {visit}; empiécela en la pantalla de visitas",
    ),
    "round-where": ("Where", "Dónde"),
    "round-shown": ("Meter shows", "Marca el medidor"),
    "round-form": ("Write what the meter shows", "Escriba lo que marca el medidor"),
    "round-form-note": (
        "18.5; several holes: 22 24 21.5; over, under; x = cannot reach.",
        "18.5; varios agujeros: 22 24 21.5; over = sobre, under = bajo; x = no se alcanza.",
    ),
    "round-surface": ("face", "cara"),
    "round-pick": ("pick", "astilla"),
    "round-new-at": (
        "Where along it; on the subfloor from the left wall, from the back wall: 18, 30",
        "A qué distancia; en el subpiso desde la pared izquierda, desde la del fondo: 18, 30",
    ),
}
"""Key to (English, Spanish)."""
