"""Of what keeps everything open besides moisture: new wood, proof of the right day, mold, stops."""

from __future__ import annotations

GATE: dict[str, str] = {
    # the kinds, in the one finding for all of them
    "safety": "seguridad",
    "stops": "altos en pie",
    "new wood": "madera nueva",
    "the plan of the studs": "el plan de los montantes",
    # what an open answer stands on
    "only {these}; left out of what will be covered, and not judged: {left}": (
        "solo {these:place}; fuera de lo que se va a tapar, y sin juzgar: {left:place}"
    ),
    # the plan of the studs
    "the studs": "los montantes",
    "not planned as they are read now: a stop of the plan would not show": (
        "sin plan tal como están leídos: un alto del plan no se vería"
    ),
    "there is no plan of them that holds: a stop of the plan would not show": (
        "no hay plan que cumpla: un alto del plan no se vería"
    ),
    "See the plan, then ask again.": "Vea el plan y pregunte otra vez.",
    # framing that was cut out
    "cut out {day}, and no new wood is read there": "se cortó el {day}, y ahí no se leyó madera nueva",
    "cut out {day}; the new wood of {new} is not read since": (
        "se cortó el {day}; la madera nueva del {new} no se ha leído desde entonces"
    ),
    "Put the new wood in, write its day and read it as a new place within {near} of it; or write who "
    "saw, and on which day, that nothing stands there any more.": (
        "Ponga la madera nueva, escriba el día y léala como lugar nuevo a no más de {near} de ahí; o escriba "
        "quién vio, y qué día, que ahí ya no hay nada."
    ),
    "something that carries what it carried": "algo que cargue lo que eso cargaba",
    "cut out {day}, nothing put back; {bears}": "se cortó el {day}, no se puso nada; {bears}",
    "Shore it, ask what carries now, and write who said so; or write that it bears nothing.": (
        "Apuntálelo, pregunte qué carga ahora y anote quién lo dijo; o anote que no carga nada."
    ),
    "new wood as a place of its own": "la madera nueva como lugar propio",
    "cut out {day}, and new wood typed here, {new}": "se cortó el {day}, y aquí se anotó madera nueva, {new}",
    "Take the day of new wood out here, and add the new wood as a new place.": (
        "Quite aquí el día de la madera nueva y agregue la madera nueva como lugar nuevo."
    ),
    "Read {where} after the day it was put in.": "Lea {where} después del día en que se puso.",
    "new wood, {name}": "madera nueva, {name}",
    "nothing stands there, {name}": "ya no hay nada ahí, {name}",
    # photos and inspection
    "of {day}, before the wall was opened ({since})": "del {day}, antes de abrir la pared ({since})",
    "of {day}, before {what} ({since}): it does not show that": (
        "del {day}, antes de {what} ({since}): no lo muestra"
    ),
    "Take it again, square on, a tape in it.": "Tómela otra vez, de frente, con una cinta a la vista.",
    "cutting out {where}": "cortar {where:place}",
    "putting in {where}": "poner {where:place}",
    "mending {name}": "reparar: {name}",
    "tearing out {name}": "arrancar: {name}",
    "fastening the sister of {joist}": "fijar la vigueta gemela de {joist}",
    "the supply pipes": "los tubos de agua",
    "the pipe to the head": "el tubo a la regadera",
    "the drain": "el desagüe",
    "the pan": "la base",
    "the walls of the shower": "las paredes de la regadera",
    "roof or window": "techo o ventana",
    "the cold surface": "la superficie fría",
    "the neighbor's side": "el lado del vecino",
    "of {day}, before the first visit ({since})": "del {day}, antes de la primera visita ({since})",
    "a day not before the wall was opened, {since}": "un día no anterior a abrir la pared, {since}",
    "a day not before the first visit, {since}": "un día no anterior a la primera visita, {since}",
    "Take it anew, or correct the day; until then it opens nothing.": (
        "Tómela de nuevo o corrija el día; mientras, no abre nada."
    ),
    "Have it inspected as it stands open, or correct the day; until then it opens nothing.": (
        "Pida que inspeccionen como está abierto, o corrija el día; mientras, no abre nada."
    ),
    "the day it was passed": "el día en que se aprobó",
    "passed, and no day is written": "aprobada, y no hay día escrito",
    "Write the day on which it was passed.": "Escriba el día en que se aprobó.",
    # mold
    "{area}, not gone": "{area}, sin quitar",
    "Write the day once it is gone. {how}": "Escriba el día en que se quitó. {how}",
    "a day not before it was noted, {noted}": "un día no anterior a cuando se vio, {noted}",
    "mold, {name}": "moho, {name}",
    "gone {day}": "quitado el {day}",
    "Correct the day, or write when it was noted; until then it counts as still there.": (
        "Corrija el día, o escriba cuándo se vio; mientras, cuenta como si siguiera ahí."
    ),
    # stops
    "Replace or sister it before the wall is closed, then say that it is sound.": (
        "Cámbielo o póngale un montante gemelo antes de cerrar la pared, y luego diga que está firme."
    ),
    "{step} Only a person lifts it, with name and reason.": (
        "{step} Solo una persona lo levanta, con nombre y motivo."
    ),
    "not worked out": "sin resolver",
    "See what can hurt someone, then ask again.": (
        "Vea lo que puede lastimar a alguien, y pregunte otra vez."
    ),
    # dry references that were wet
    "sound wood wherever it was never wet": "madera sana donde nunca se mojó",
    "no wetter than before wherever it was never wet": "no más mojado que antes donde nunca se mojó",
    "{before} on visit {first}, then {after} on visit {visit}": (
        "{before} en la visita {first}, después {after} en la visita {visit}"
    ),
    "It was wet once: look for damp there too. It counts as any other place, and not as a dry reference.": (
        "Se mojó alguna vez: busque humedad ahí también. Cuenta como cualquier otro lugar, y no como "
        "referencia seca."
    ),
    # what an open answer takes on a person's word
    "by a word and no test: {names}": "por lo dicho y sin prueba: {names}",
    "no rough inspection: it was said that none is asked for": (
        "sin inspección antes de tapar: se dijo que no la piden"
    ),
    # a wall read only high up
    "read only over {low} above the floor, and water stands below": (
        "leída sólo a más de {low} del piso, y el agua se queda abajo"
    ),
    "Read its plate, or a stud no higher than {low}.": "Lea su solera, o un montante a no más de {low}.",
    # what is typed and not counted
    "what is typed and not counted": "lo escrito que no cuenta",
    "something typed and not counted": "algo escrito que no cuenta",
    "one value does not count: typed twice, or it cannot be used": (
        "un valor no cuenta: escrito dos veces, o no se puede usar"
    ),
    "{number} values do not count: typed twice, or they cannot be used": (
        "{number} valores no cuentan: escritos dos veces, o no se pueden usar"
    ),
    "Settle each where what looks wrong is listed; nothing of it is lost.": (
        "Aclare cada uno donde está la lista de lo que parece mal; no se pierde nada."
    ),
    "written by a newer version, which this one cannot read: {number}": (
        "escrito por una versión más nueva, que ésta no puede leer: {number}"
    ),
    "Update the tool on this device; they are kept, and not counted until then.": (
        "Actualice la herramienta en este aparato; se conservan, y no cuentan hasta entonces."
    ),
    "read on visit {visits}, which is none of the job's": (
        "leído en la visita {visits}, que no es del trabajo"
    ),
    "Add the visit with its day, or correct its name.": "Agregue la visita con su día, o corrija su nombre.",
    "what can hurt someone stands": "queda lo que puede lastimar a alguien",
}
