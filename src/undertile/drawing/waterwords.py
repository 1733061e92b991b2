"""Words on the drying charts and on the drawing of where the water went, in English and Spanish."""

from __future__ import annotations

WATER: dict[str, tuple[str, str]] = {
    "drying": ("How it dries", "Cómo seca"),
    "drying n": ("How it dries, page {n} of {of}", "Cómo seca, hoja {n} de {of}"),
    "drying of": ("How it dries: {place}", "Cómo seca: {place}"),
    "where wet": ("Where the water went", "A dónde llegó el agua"),
    "from to": ("{one} to {two}", "{one} a {two}"),
    "plate at": ("plate {wall} at {at}", "solera {wall} a {at}"),
    "new at": ("{place}, new", "{place}, madera nueva"),
    "stud at": ("{name} at {at}", "{name} a {at}"),
    "joist spot": ("joist {name} at {at}", "vigueta {name} a {at}"),
    "subfloor at": ("subfloor L {x}, B {y}", "subpiso L {x}, B {y}"),
    "subfloor layer at": ("subfloor, layer {layer} L {x}, B {y}", "subpiso, capa {layer} L {x}, B {y}"),
    # whether the patch may be laid
    "patch not yet": (
        "DO NOT COVER YET, do not lay the patch: {missing}.",
        "NO TAPE TODAVÍA, no ponga el parche: {missing}.",
    ),
    "patch may": (
        "The patch may be laid, as read on {day}. Read the wood under it again that morning.",
        "Se puede poner el parche, según lo leído el {day}. Esa mañana lea otra vez la madera que tapa.",
    ),
    "hold safety": ("safety stops not lifted: {number}", "ALTOS de seguridad sin levantar: {number}"),
    "hold stop": ("stop not lifted: {list}", "ALTO sin levantar: {list}"),
    "hold soft": ("not mended: {list}", "sin reparar: {list}"),
    "hold engineer": ("fails, waits for an engineer: {list}", "no pasa, espera a un ingeniero: {list}"),
    "hold fails": ("fails: {list}", "no pasa: {list}"),
    "hold not shown": ("not shown to carry it: {list}", "sin mostrar que aguanta: {list}"),
    "not dry": ("not dry: {list}", "sin secar: {list}"),
    "not read under": ("not read under it: {list}", "sin leer debajo: {list}"),
    "sources open": ("sources of water not ruled out: {number}", "fuentes de agua sin descartar: {number}"),
    "open typed": ("something typed and not counted", "algo escrito que no cuenta"),
    "open safety": ("what can hurt someone stands", "queda lo que puede lastimar a alguien"),
    "open few": ("too few places read", "muy pocos lugares leídos"),
    "open photo": ("photo of the floor missing", "falta la foto del piso"),
    "open inspection": ("inspection open", "inspección pendiente"),
    # when, as short as it can be said
    "when close": ("dry here", "seco aquí"),
    "when gone": ("cut out {day}", "se quitó el {day}"),
    "when cut out": ("cut it out", "córtelo"),
    "when goes out": ("goes out with patch {number}", "sale con el parche {number}"),
    "when open further": ("open further", "abra más"),
    "when fed": ("no date, may be fed: {odds} in 100", "sin fecha, tal vez agua: {odds} de 100"),
    "may be fed": ("may be fed", "tal vez agua"),
    "when first": ("no date, read it tomorrow", "sin fecha, léalo mañana"),
    "when live": ("no date, find the water", "sin fecha, busque el agua"),
    "when rising": ("no date, it rises", "sin fecha, sube"),
    "when no air": ("no date, air not read", "sin fecha, falta leer el aire"),
    "when damp air": ("no date, air too damp", "sin fecha, aire muy húmedo"),
    "when damp lately": ("no date, air was too damp", "sin fecha, el aire estaba muy húmedo"),
    "when plateau": ("no date, rests near {rest}", "sin fecha, se queda cerca de {rest}"),
    "when not falling": ("no date, not falling", "sin fecha, no baja"),
    "when too few readings": ("dry on, no date yet", "siga secando, sin fecha todavía"),
    "when too early": ("dry on, too early to say", "siga secando, falta para saber"),
    "when no goal": ("no dry reference yet", "sin referencia seca todavía"),
    "when again": ("dry once, read it again", "seco una vez, lea otra vez"),
    "when wood temperature": (
        "type the wood's temperature again",
        "escriba otra vez la temperatura de la madera",
    ),
    "when slip": ("read it again: its decimal point?", "lea otra vez: ¿el punto decimal?"),
    "when day ahead": (
        "its day has not come yet, correct it",
        "su día todavía no llega, corríjalo",
    ),
    "when awl": ("dry, push an awl in", "seco, empuje el punzón"),
    "when not read": ("not read yet", "no leído todavía"),
    "when cannot reach": ("cannot be reached", "no se alcanza"),
    # why, on the chart of one point
    "say close": (
        "Dry on two visits a day or more apart, and sound.",
        "Seco en dos visitas con un día o más entre ellas, y firme.",
    ),
    "say gone": ("It was cut out on {day}.", "Se quitó el {day}."),
    "say cut out": (
        "Soft or ruined: drying does not bring strength back. Cut back to sound wood.",
        "Blando o arruinado: secar no devuelve la fuerza. Corte hasta madera sana.",
    ),
    "say goes out": (
        "It lies inside the cut lines of patch {number}: cut out, it is not waited for.",
        "Está dentro de las líneas de corte del parche {number}: se corta, no se espera a que seque.",
    ),
    "say open further": (
        "Wet, and nothing past it is read dry: open and read further on.",
        "Mojado, y más allá no hay lectura seca: abra y lea más adelante.",
    ),
    "say fed": (
        "It falls behind its neighbors: {odds} in 100 that water still comes to it. Look for it first.",
        "Seca menos que sus vecinos: {odds} de 100 de que todavía le llega agua. Búsquela primero.",
    ),
    "say first": (
        "So wet on a first visit that it may be fed: only the next reading tells.",
        "Tan mojado en la primera visita que tal vez le llega agua: sólo la próxima lectura lo dice.",
    ),
    "say live": (
        "It does not fall as it should: look for running water before more drying.",
        "No baja como debería: busque agua corriente antes de seguir secando.",
    ),
    "say rising": (
        "It rises since the visit before: find what wets it.",
        "Sube desde la visita anterior: busque qué lo moja.",
    ),
    "say no air": (
        "The air of the room was not read: nobody can say how far wood dries in it.",
        "No se leyó el aire del cuarto: nadie puede decir hasta dónde seca la madera.",
    ),
    "say damp lately": (
        "No date: the mean air of the last visits brings wood to {air}, over the goal. Keep the room dry.",
        "Sin fecha: el aire promedio de las últimas visitas lleva la madera a {air}, arriba de la meta. "
        "Mantenga seco el cuarto.",
    ),
    "say damp air": (
        "In this air wood comes to {air}, over its goal: it cannot get there. Dry or warm the room.",
        "En este aire la madera llega a {air}, más que su meta: no puede llegar. Seque o caliente el cuarto.",
    ),
    "say plateau": (
        "It comes to rest near {rest}, over its goal: look for a source, a trapped layer, a wrong scale.",
        "Se queda cerca de {rest}, más que su meta: busque una fuente, una capa encerrada, otra escala.",
    ),
    "say not falling": (
        "It does not fall: test pipes and drain before more drying.",
        "No baja: pruebe tubos y desagüe antes de seguir secando.",
    ),
    "say too few readings": (
        "No date before three readings over two days, in the same holes.",
        "Sin fecha antes de tres lecturas en dos días, en los mismos hoyos.",
    ),
    "say too early": (
        "It falls, and {used} readings do not tell yet when it is there. Read on.",
        "Baja, y {used} lecturas todavía no dicen cuándo llega. Siga leyendo.",
    ),
    "say no goal": (
        "No goal before the same stuff is read where it was never wet.",
        "Sin meta antes de leer el mismo material donde nunca se mojó.",
    ),
    "say again": (
        "At its goal on one visit: read it again a day later or more, in the same holes.",
        "En su meta en una visita: lea otra vez un día después o más, en los mismos hoyos.",
    ),
    "say slip": (
        "Its newest reading may have its decimal point in the wrong place: read it again, or correct it.",
        "La última lectura puede tener el punto decimal fuera de lugar: lea otra vez, o corríjala.",
    ),
    "say day ahead": (
        "It was read on a visit whose day has not come yet: correct the day.",
        "Se leyó en una visita cuyo día todavía no llega: corrija el día.",
    ),
    "say wood temperature": (
        "The wood was too hot or too cold to correct its newest reading: type its temperature again.",
        "La madera estaba demasiado caliente o fría para corregir la última lectura: escriba otra vez su "
        "temperatura.",
    ),
    "say awl": (
        "Dry on two visits: push an awl in with the thumb, then it counts as dry.",
        "Seco en dos visitas: empuje el punzón con el pulgar, luego cuenta como seco.",
    ),
    "say not read": ("It was never read.", "Nunca se leyó."),
    "say cannot reach": (
        "Nobody could reach it: open so that it can be read.",
        "Nadie lo alcanzó: abra para poder leerlo.",
    ),
    "say dated": (
        "It may be closed between these days, eight times in ten.",
        "Se puede cerrar entre estos días, ocho de cada diez veces.",
    ),
    "asked about": ("asked about", "por confirmar"),
    "when past": ("{days}, past", "{days}, pasó"),
    "days past": (
        "Those days are past: last read {days} days ago, read again before anything is closed.",
        "Esos días ya pasaron: la última lectura fue hace {days} días, lea otra vez antes de cerrar nada.",
    ),
    # the whole job
    "job dated": (
        "The last of them may be closed {days}, eight times in ten.",
        "El último se puede cerrar del {days}, ocho de cada diez veces.",
    ),
    "job too far": (
        "No date for the whole yet: each of {count} has one, the last of them may come more than 60 days on.",
        "Todavía sin fecha para todo: cada uno de {count} la tiene, el último puede pasar de 60 días.",
    ),
    "job no date": (
        "No date for the whole yet: {count} without one. First: {place}.",
        "Todavía sin fecha para todo: {count} sin fecha. Primero: {place}.",
    ),
    "job closed": (
        "Every point is dry, as read.",
        "Todos los puntos están secos, según lo leído.",
    ),
    "job none": ("No point is read yet.", "Todavía no hay puntos leídos."),
    "how to read": (
        "Dots: corrected readings, bars: give or take. Solid line: the goal. Dashed line: over it nothing is "
        "ever covered. Grey: as it dries, eight times in ten. Black bar at the foot: the days between which "
        "it may be closed. In mean air: what wood comes to in the air of the last three visits, from which "
        "dates are worked; as last read it may be another.",
        "Puntos: lecturas corregidas, barras: más o menos. Línea llena: la meta. Línea cortada: encima nunca "
        "se tapa nada. Gris: cómo seca, ocho de cada diez veces. Barra negra al pie: los días entre los que "
        "se puede cerrar. En aire medio: a lo que llega la madera en el aire de las tres últimas visitas, "
        "del que salen las fechas; según la última lectura puede ser otro.",
    ),
    "marks to read": (
        "Open dot: no number to trust (wet face, over saturation, out of range). Arrow: over or under the "
        "meter's range. Cross at the foot: could not be reached.",
        "Punto abierto: número que no vale (cara mojada, sobre saturación, fuera de rango). Flecha: más o "
        "menos de lo que el medidor alcanza. Cruz al pie: no se alcanzó.",
    ),
    "star": (
        "*: not corrected, compared with the same stuff dry in this house.",
        "*: sin corregir, comparado con el mismo material seco en esta casa.",
    ),
    "goal is": ("goal", "meta"),
    "never is": ("never over", "nunca más de"),
    "air is": ("in this air", "en este aire"),
    "air mean": ("in mean air", "en aire medio"),
    "over range": ("over {end}", "más de {end}"),
    "under range": ("under {end}", "menos de {end}"),
    "wet face": ("wet face", "cara mojada"),
    "over saturation": ("only wet", "sólo mojado"),
    "no trust": ("not to trust", "no vale"),
    "no reach": ("not reached", "no se alcanzó"),
    "may close": ("may be closed", "se puede cerrar"),
    "cut out on": ("cut out", "se quitó"),
    # where the water went
    "map floor": ("Subfloor from above", "Subpiso visto desde arriba"),
    "map out": ("out", "se quitó"),
    "map floor layer": ("Subfloor from above, layer {layer}", "Subpiso visto desde arriba, capa {layer}"),
    "map walls": (
        "Walls as if unfolded, left to right as you turn",
        "Paredes como desdobladas, de izquierda a derecha al girar",
    ),
    "map key": (
        "Figures: percent, newest, corrected; * not corrected. Filled: wet or ruined. Open: dry. "
        "?: not known. X: cut out.",
        "Cifras: por ciento, la más nueva, corregida; * sin corregir. Lleno: mojado o arruinado. Abierto: "
        "seco. ?: no se sabe. X: se quitó.",
    ),
    "map cuts": (
        "Thick lines: open to here. Arrow: no dry reading past it, open further.",
        "Líneas gruesas: abra hasta aquí. Flecha: sin lectura seca más allá, abra más.",
    ),
    "map next": (
        "Read next, ringed: {place}. There a dry reading brings the line nearer, a wet one pushes it out.",
        "Lea luego, con aro: {place}. Ahí una lectura seca acerca la línea, una mojada la aleja.",
    ),
    "map next open": (
        "Read next, ringed: {place}. Past the last wet one nothing is read dry yet.",
        "Lea luego, con aro: {place}. Después del último mojado nada se ha leído seco.",
    ),
    "map to": ("Open to: {spots}.", "Abra hasta: {spots}."),
    "map end": (
        "Open to the end of the wood, and look at what stands against it: {spots}.",
        "Abra hasta el fin de la madera, y mire contra qué topa: {spots}.",
    ),
    "map past": (
        "Open and read past: {spots}; nothing there is read dry.",
        "Abra y lea más allá de: {spots}; ahí nada se ha leído seco.",
    ),
    "map patch": (
        "Subfloor: open from {left} to {right} off the left wall, from {back} to {front} off the back wall.",
        "Subpiso: abra de {left} a {right} de la pared izquierda, de {back} a {front} de la pared del fondo.",
    ),
    "map patch layer": (
        "Subfloor layer {layer}: open from {left} to {right} off the left wall, from {back} to {front} "
        "off the back wall.",
        "Subpiso capa {layer}: abra de {left} a {right} de la pared izquierda, de {back} a {front} de la "
        "pared del fondo.",
    ),
    "map unknown": ("(not known yet)", "(todavía no se sabe)"),
    "map settled": (
        "No further reading would move these lines.",
        "Ninguna otra lectura movería estas líneas.",
    ),
    "map own": (
        "{past} of sound, dry wood past the last wet point: this job's own limit, not the usual one.",
        "{past} de madera sana y seca más allá del último mojado: límite propio, no el de costumbre.",
    ),
    "map practice": (
        "{past} of sound, dry wood past the last wet point: common practice, no source.",
        "{past} de madera sana y seca después del último punto mojado: práctica común, sin fuente.",
    ),
    "map goes out": ("Goes out with patch {number}: {list}.", "Sale con el parche {number}: {list}."),
    "map elsewhere": ("Without a place on this drawing: {list}.", "Sin lugar en este dibujo: {list}."),
    "joists are at": ("joist {name}", "vigueta {name}"),
    "whole floor": ("subfloor {x}", "subpiso {x}"),
    "toward wall L": ("left", "izquierda"),
    "toward wall R": ("right", "derecha"),
    "toward wall B": ("back", "fondo"),
    "toward front": ("front", "frente"),
    "read next": ("read next", "lea luego"),
}
"""Key to English and Spanish; parts in braces are filled in."""
