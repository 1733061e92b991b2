"""The crew sheet's first page and the order of work, English and Spanish. Slots in braces are figures."""

from __future__ import annotations

CREW: dict[str, tuple[str, str]] = {
    # the head of the sheet
    "crew-title": ("Crew sheet", "Hoja de trabajo"),
    "page": ("Page {page} of {of}", "Hoja {page} de {of}"),
    "revision": ("rev {revision}", "rev {revision}"),
    "unit-in": ("inches", "pulgadas"),
    "unit-mm": ("millimeters", "milímetros"),
    "no-name": ("A job without a name", "Trabajo sin nombre"),
    "hold-head": ("BEFORE ANYTHING", "ANTES DE TODO"),
    "hold": (
        "Circuit dead and proved. Water off. A bearing wall shored before a stud comes out. "
        "Lead and asbestos settled before dust. Local code and licensed trades decide.",
        "Circuito desconectado y comprobado sin corriente. Agua cerrada. Pared de carga apuntalada antes de "
        "sacar un montante. Plomo y asbesto resueltos antes de hacer polvo. "
        "Deciden el código local y los oficios con licencia.",
    ),
    # what stands in the way
    "stop-head": ("STOP", "ALTO"),
    "stop-lift": (
        "Lifted by (name, why, date):",
        "Autorizó seguir (nombre, motivo, fecha):",
    ),
    "stop-lift-note": (
        "A stop is lifted only by a person who signs here.",
        "Un ALTO solo lo levanta una persona que firma aquí.",
    ),
    "settle-head": ("DO NOT CUT YET", "NO CORTE TODAVÍA"),
    "settle-doubt": (
        "Readings below do not fit the rest. What is cut to a wrong number stays cut. "
        "This sheet gives no amounts until they are settled.",
        "Las lecturas de abajo no cuadran con las demás. Lo cortado con un número equivocado no tiene "
        "remedio. Esta hoja no da medidas hasta que se aclaren.",
    ),
    "settle-no-plan": (
        "There is no plan: what is asked of the walls cannot all hold. This sheet gives no amounts.",
        "No hay plan: no se puede cumplir todo lo que se pide a las paredes. Esta hoja no da medidas.",
    ),
    "settle-time": (
        "There is no plan: the time ran out before one was found. This sheet gives no amounts.",
        "No hay plan: se acabó el tiempo antes de encontrarlo. Esta hoja no da medidas.",
    ),
    "settle-nothing": (
        "There is no plan yet: no wall has readings. Fill in the survey form first.",
        "Todavía no hay plan: ninguna pared tiene lecturas. Llene primero la hoja de medidas.",
    ),
    "settle-then": (
        "Write what you read, enter it in the job, and print this sheet again.",
        "Escriba lo que lea, páselo al archivo del trabajo e imprima esta hoja otra vez.",
    ),
    "doubt": ("{where}: typed {typed}. {slip}", "{where}: se escribió {typed}. {slip}"),
    "doubt-untyped": ("{where}. {slip}", "{where}. {slip}"),
    "doubt-offered": ("{offered} would fit.", "Cuadraría con {offered}."),
    "doubt-print": (
        "If they really read so, print the sheet that holds for it:",
        "Si de veras se leen así, imprima la hoja que vale para eso:",
    ),
    "doubt-read": ("Now reads:", "Lectura nueva:"),
    "conflict-demands": ("These cannot all hold:", "Esto no se puede cumplir todo junto:"),
    "conflict-frees": ("One of these is enough to free it:", "Basta con uno de estos cambios:"),
    "conflict-see": (
        "See all of it: undertile plan JOB",
        "Para verlo todo: undertile plan JOB",
    ),
    "as-if-head": ("HOLDS ONLY IF", "VALE SOLO SI"),
    "as-if": (
        "This sheet holds only if each of these really reads so. Read them now. If one does not: "
        "do not cut, and have the sheet made again.",
        "Esta hoja vale solo si cada una de estas lecturas es así. Léalas ahora. Si una no lo "
        "es: no corte y pida que hagan la hoja de nuevo.",
    ),
    "fail-head": ("NOT RIGHT AS PLANNED", "NO QUEDA BIEN COMO ESTÁ PLANEADO"),
    "fail": ("{title}, {where}: {value}", "{title}, {where}: {value}"),
    "fail-wanted": ("{value}; wanted {limit}", "{value}; se pide {limit}"),
    "fail-see": ("see undertile explain JOB {code}", "vea undertile explain JOB {code}"),
    "act-head": ("Still to do or to measure", "Falta hacer o medir"),
    "note-head": ("To know", "Para saber"),
    # order of work
    "order-head": ("Order of work", "Orden del trabajo"),
    "order-nothing": (
        "Nothing is cut or added: leave every stud.",
        "No se corta ni se agrega nada: deje todos los montantes.",
    ),
    "order-shoring": (
        "Shore the {wall} before a stud comes out.",
        "Apuntale la {wall} antes de sacar un montante.",
    ),
    "order-replace": ("Replace {studs}.", "Reemplace {studs}."),
    "order-plane": ("Plane {studs}.", "Cepille {studs}."),
    "order-plate": (
        "Plane the plate's edge of the {wall} too, or the board rides on it.",
        "Cepille también el borde de la solera de la {wall}, o el tablero se apoya en ella.",
    ),
    "order-knock": ("Knock over the foot of {studs}.", "Corra el pie de {studs}."),
    "order-sister": ("Sister {studs}.", "Refuerce con montante gemelo {studs}."),
    "order-strips": (
        "Strips on the studs' faces, on each stud a first, then b: {studs}.",
        "Tiras sobre la cara de los montantes, en cada uno primero a, luego b: {studs}.",
    ),
    "order-fasten": (
        'Bed the pan and fasten its flange as its maker says, once every box under "Pan set" on the crew '
        "sheet is ticked.",
        'Asiente la base y fije la pestaña como dice su fabricante, con todo lo de "Base puesta" marcado en '
        "la hoja de trabajo.",
    ),
    "order-line": (
        "Hang each wall's line as the crew sheet says under that wall's name. Before the first cut mark both "
        "its ends up high, on ceiling or top plates, clear of the pan: for each re-read it hangs plumb from "
        "there.",
        "Tienda la línea de cada pared como dice la hoja de trabajo bajo el nombre de la pared. Antes del "
        "primer corte marque sus dos puntas arriba, en techo o solera, lejos de la base: en cada relectura "
        "cuelga a plomo de ahí.",
    ),
    "order-board-meets": (
        "At {name} ({wall}, {along} from the back corner): {back} behind its face to {proud} ahead.",
        "En {name} ({wall}, a {along} del fondo): de {back} detrás de su cara a {proud} adelante.",
    ),
    "order-channel": (
        "Channel on the {wall} in rows, each packed to the plane.",
        "Canal metálico en la {wall} por hileras, cada una calzada hasta el plano.",
    ),
    "order-wet-bed": (
        "Wet beds, one board at a time: {studs}. Screws snug only after it sets, 12 to 24 hours.",
        "Camas de mortero, un tablero a la vez: {studs}. Apriete los tornillos cuando haya fraguado, "
        "de 12 a 24 horas.",
    ),
    "order-move": ("Move the {what} ({wall}).", "Mueva {what} ({wall})."),
    "order-reblock": (
        "Re-block the valve: move its body {low} to {high} {way}.",
        "Cambie el bloqueo de la válvula: mueva el cuerpo de {low} a {high} {way}.",
    ),
    "order-reblock-plain": ("Re-block the valve.", "Cambie el bloqueo de la válvula."),
    "order-backer": (
        "Put a backer at the corner of wall {a} with wall {b}.",
        "Ponga madera de respaldo en la esquina de la pared {a} con la pared {b}.",
    ),
    "order-reread": (
        "Read again what the phone asks for, or the open boxes at the end of the crew sheet; go on once they "
        "are entered and none fails.",
        "Lea otra vez lo que pide el teléfono, o los cuadros abiertos al final de la hoja de trabajo; siga "
        "con todo anotado y sin fallas.",
    ),
    "order-verify-again": (
        "Straightedge and laser above the flange, now that those strips are on: read {studs} again.",
        "Regla larga y láser arriba de la pestaña, ya con esas tiras puestas: lea otra vez {studs}.",
    ),
    "order-re-set": (
        "Re-set {studs} in the track.",
        "Vuelva a colocar {studs} en su riel.",
    ),
    "order-leave-off": (
        "Leave off for now only what the drawing has in stripes: {list}.",
        "Deje para después solo lo que el dibujo tiene con rayas: {list}.",
    ),
    "order-nail-plate": (
        "Let a nail plate in flush on {stud} at {height}, over {what}.",
        "Empotre al ras una placa protectora en {stud} a {height}, sobre {what}.",
    ),
    "over-pipe": (
        "the pipe {name}",
        "el tubo {name}",
    ),
    "over-wire": (
        "the wire {name}",
        "el cable {name}",
    ),
    "order-set-once": (
        "Set the pan only once it drops in: see what is not right as planned.",
        "Ponga la base solo cuando entre: vea lo que no queda bien.",
    ),
    "order-set-not-shown": (
        "Set the pan; how much play is left on each side is not shown.",
        "Ponga la base; no se muestra cuánta holgura queda de cada lado.",
    ),
    "order-set-against": (
        "Set the pan against the walls: {walls}.",
        "Ponga la base contra las paredes: {walls}.",
    ),
    "order-missing": (
        "The order of work could not be worked out: undertile plan JOB says why.",
        "No se pudo sacar el orden del trabajo: undertile plan JOB dice por qué.",
    ),
    "order-dry-fit": (
        "Dry fit the pan before mortar is mixed: straight down, no rocking.",
        "Presente la base en seco antes de mezclar mortero: que baje derecho y no se tambalee.",
    ),
    "order-dry-fit-low": (
        "Dry fit the pan before mortar is mixed: carry it in low, straight down from {height}, no rocking.",
        "Presente la base en seco antes de mezclar mortero: métala baja, derecho desde {height}, sin bailar.",
    ),
    "order-push-hard": (
        "Push it hard against the {wall}.",
        "Péguela a la {wall}.",
    ),
    "order-push-off": (
        "Side to side it stands about {left} off the left wall and {right} off the right wall "
        "where it is tightest: the drain needs it there.",
        "De lado a lado queda a unos {left} de la pared izquierda y {right} de la pared derecha "
        "donde está más justa: el desagüe la necesita ahí.",
    ),
    "order-push-one": (
        "It has one place only.",
        "Tiene un solo lugar.",
    ),
    "order-shims": (
        "Shims, {wall}, pan set, flange not yet fastened: {list}.",
        "Calzas, {wall}, base puesta, pestaña aún sin atornillar: {list}.",
    ),
    "order-shims-play": (
        "And on top what play is left on that side, about {play}.",
        "Y encima la holgura que queda de ese lado, unos {play}.",
    ),
    "order-after": (
        "ONLY NOW, pan set, the strips that waited, {wall}: {list}.",
        "SOLO AHORA, con la base puesta, las tiras que esperaban, {wall}: {list}.",
    ),
    "order-board": (
        "Board, with the screws listed by stud.",
        "Tablero, con los tornillos de la lista por montante.",
    ),
    "order-verify": (
        "Straightedge and laser over the walls while nothing stands in front: {walls}.",
        "Pase la regla larga y el láser por las paredes mientras no haya nada enfrente: {walls}.",
    ),
    "and": ("and", "y"),
    "guard-head": (
        "WIRES, PIPES, VALVE: KEEP OFF",
        "CABLES, TUBOS, VÁLVULA: NO LOS TOQUE",
    ),
    "order-strips-tapers": (
        "Strips and tapers on the studs' faces, from the bottom up: {studs}.",
        "Tiras y tiras en cuña sobre la cara de los montantes, de abajo hacia arriba: {studs}.",
    ),
    "order-set-back": (
        "Set the pan tight to the back wall.",
        "Ponga la base pegada a la pared del fondo.",
    ),
    "order-push-centred": (
        "Center it in what play is left: about {each} each side where it is tightest.",
        "Céntrela en la holgura que queda: unos {each} de cada lado donde está más justa.",
    ),
    "order-out-of-square": (
        "(Play is {play} straight across; out of square uses the rest.)",
        "(De frente la holgura es {play}; lo demás se va en lo fuera de escuadra.)",
    ),
}
"""Key to (English, Spanish)."""
