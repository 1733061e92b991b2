"""The crew sheet's sentences, English and Spanish side by side. Slots in braces are figures or names."""

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
        "This sheet holds only if each of these really reads so. Read them now. If one does not: do not cut.",
        "Esta hoja vale solo si cada una de estas lecturas es así. Léalas ahora. Si una no lo es: no corte.",
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
        "Strips and tapers, from the bottom up: {studs}.",
        "Tiras y tiras en cuña, de abajo hacia arriba: {studs}.",
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
    "thing-supply pipe": ("supply pipe", "el tubo de agua"),
    "thing-drain or vent": ("drain or vent", "el desagüe o la ventilación"),
    "thing-stack": ("stack", "la bajante"),
    "thing-other": ("thing in the way", "lo que estorba"),
    "way-back": ("back into the wall", "hacia adentro de la pared"),
    "way-room": ("toward the room", "hacia el cuarto"),
    "order-reread": (
        "Read again the open boxes at the end of this sheet, and write them in.",
        "Lea otra vez los cuadros abiertos del final de esta hoja y escriba las lecturas.",
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
        "Leave off for now the strips that are striped: {studs}.",
        "Deje para después las tiras rayadas: {studs}.",
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
    "do-re-set": (
        "Re-set",
        "Recolocar",
    ),
    "recipe-re-set": (
        "Re-set it in its track, its face on the last column.",
        "Vuelva a colocarlo en su riel, con la cara en la lectura de la última columna.",
    ),
    "order-dry-fit": (
        "Dry fit the pan before mortar is mixed: straight down, no rocking.",
        "Presente la base en seco antes de mezclar mortero: que baje derecho y no se tambalee.",
    ),
    "order-push-hard": ("Set the pan hard against the {wall}.", "Ponga la base pegada a la {wall}."),
    "order-push-off": (
        "Set the pan {left} off the left wall, {right} off the right wall.",
        "Ponga la base a {left} de la pared izquierda y a {right} de la pared derecha.",
    ),
    "order-push-one": ("The pan has one place only.", "La base tiene un solo lugar."),
    "order-shims": (
        "Plastic shims behind the flange, {wall}, before fastening: {list}.",
        "Calzas de plástico detrás de la pestaña, {wall}, antes de atornillar: {list}.",
    ),
    "order-shims-play": (
        "Plastic shims behind the flange, {wall}, before fastening: {list}, and the play left on that side "
        "({play}) on top.",
        "Calzas de plástico detrás de la pestaña, {wall}, antes de atornillar: {list}, y además la holgura "
        "que queda de ese lado ({play}).",
    ),
    "order-after": (
        "ONLY NOW, with the pan set, the strips that waited (striped on their studs), {wall}: {list}.",
        "SOLO AHORA, con la base puesta, las tiras que esperaban (rayadas en la ficha de su montante), "
        "{wall}: {list}.",
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
    # a wall and its studs
    "wall-L": ("left wall", "pared izquierda"),
    "wall-B": ("back wall", "pared del fondo"),
    "wall-R": ("right wall", "pared derecha"),
    "wall-facing": ("as you stand before it", "viéndola de frente"),
    "faces-end": ("Faces end {reading} from the line", "Las caras quedan a {reading} de la línea"),
    "faces-end-two": (
        "Faces end {first} from the line at {first_stud} and {last} at {last_stud}",
        "Las caras quedan a {first} de la línea en {first_stud} y a {last} en {last_stud}",
    ),
    "plumb": ("plumb", "a plomo"),
    "lean-in": (
        "at the floor, top leaning {lean} into the room in {over}",
        "en el piso; arriba se van {lean} hacia el cuarto en {over}",
    ),
    "lean-back": (
        "at the floor, top leaning {lean} back in {over}",
        "en el piso; arriba se van {lean} hacia atrás en {over}",
    ),
    "step": ("above the flange {step} nearer the line", "arriba de la pestaña {step} más cerca de la línea"),
    "legend-take": ("X take off", "X quitar"),
    "legend-add": ("\u2191 add", "\u2191 agregar"),
    "legend-approx": (
        "~ to the nearest mark of a rule",
        "~ a la marca más cercana de la regla",
    ),
    "col-height": ("Height", "Altura"),
    "col-stud": ("Stud", "Mont."),
    "col-amount": ("Amount", "Quitar / agregar"),
    "col-reads": ("Then reads", "Debe quedar"),
    "not-read": (
        "not read here: worked out from what stands around",
        "sin lectura aquí: calculado con lo de alrededor",
    ),
    "do-leave": ("Leave", "Dejar"),
    "do-plane": ("Plane", "Cepillar"),
    "do-strip": ("Strip", "Tira"),
    "do-taper": ("Taper", "Cuña"),
    "do-knock over": ("Knock foot over", "Correr el pie"),
    "do-wet bed": ("Wet bed", "Cama de mortero"),
    "do-sister": ("Sister", "Montante gemelo"),
    "do-replace": ("Replace", "Reemplazar"),
    "do-channel": ("Channel", "Canal metálico"),
    "do-shim": ("Shim", "Calza"),
    "recipe-plane": (
        "Plane where X stands, {step} a pass, at most {passes}, until it reads the last column. Pull "
        "nails first.",
        "Cepille donde está la X, {step} por pasada, máximo {passes} pasadas, hasta la lectura de la "
        "última columna. Saque antes los clavos.",
    ),
    "recipe-feather": (
        "Feather the cut out to the next height without X.",
        "Que el corte termine en nada hacia la siguiente altura sin X.",
    ),
    "recipe-strip": ("{letter}: {strip}.", "{letter}: {strip}."),
    "recipe-strip-after": (
        "{letter}: {strip}. WAITS until the pan is set.",
        "{letter}: {strip}. ESPERA hasta que la base esté puesta.",
    ),
    "strip": (
        "{stock}, {length} long, from {low} to {high}",
        "{stock}, {length} de largo, de {low} a {high}",
    ),
    "strip-parts": (
        "{stock}, butted from the bottom up: {lengths}, from {low} to {high}",
        "{stock}, a tope de abajo hacia arriba: {lengths}, de {low} a {high}",
    ),
    "strip-no-length": (
        "{stock}, {run}, cut to its place",
        "{stock}, {run}, córtela a su lugar",
    ),
    "recipe-fix": ("Glue and staple each strip.", "Pegue y engrape cada tira."),
    "recipe-taper": (
        "Tapered rip, full height: {low} thick at {z_low}, {high} at {z_high}.",
        "Tira en cuña, toda la altura: {low} de grueso a {z_low}, {high} a {z_high}.",
    ),
    "recipe-sister": (
        "New stud beside the old one, its face on the last column.",
        "Montante nuevo al lado del viejo, con la cara en la lectura de la última columna.",
    ),
    "recipe-replace": (
        "New straight stud, its face on the last column.",
        "Montante nuevo y derecho, con la cara en la lectura de la última columna.",
    ),
    "recipe-replace-bearing": (
        "STOP: it bears, or may. Shore first, and ask.",
        "ALTO: carga, o puede cargar. Apuntale primero y pregunte.",
    ),
    "recipe-knock-in": ("Knock the foot {amount} into the room.", "Corra el pie {amount} hacia el cuarto."),
    "recipe-knock-back": ("Knock the foot {amount} back.", "Corra el pie {amount} hacia atrás."),
    "recipe-wet-bed": (
        "Bed of mortar as in the amounts, board pressed to the straightedge while wet.",
        "Cama de mortero según las medidas, con el tablero apretado contra la regla larga mientras "
        "está fresca.",
    ),
    "recipe-channel": ("Under the channel of this wall.", "Debajo del canal metálico de esta pared."),
    "recipe-shim": (
        "Plastic shim {gap} behind the flange when the pan is fastened.",
        "Calza de plástico de {gap} detrás de la pestaña al atornillar la base.",
    ),
    "recipe-screw": ("Board screw here: {screw}.", "Tornillo del tablero aquí: {screw}."),
    "recipe-service": (
        "{what} {left} behind the wood's face at {height}.",
        "{what} a {left} detrás de la cara de la madera, a la altura {height}.",
    ),
    "recipe-service-plate": (
        "{what} {left} behind the wood's face at {height}: no screw there without a nail plate.",
        "{what} a {left} detrás de la cara de la madera, a la altura {height}: ahí ningún tornillo sin placa "
        "protectora.",
    ),
    "service-pipe": ("Pipe", "Tubo"),
    "service-wire": ("Wire", "Cable"),
    "at": ("at {height} only", "solo a {height}"),
    "from-height": ("from {low} to {high}", "de {low} a {high}"),
    "full-height": ("full height", "toda la altura"),
    "small-leave": ("leave as it is", "dejar como está"),
    "small-shim": (
        "leave; plastic shim {gap} behind the flange",
        "dejar; calza de plástico de {gap} detrás de la pestaña",
    ),
    "small-screw": ("board screw {screw}", "tornillo del tablero {screw}"),
    # lists at the back
    "cuts-head": ("Strips to cut", "Tiras por cortar"),
    "cuts-none": ("No strips to cut.", "No hay tiras por cortar."),
    "cuts-note": (
        'Thickness is what the van has, measured. Strips 1-1/2" wide.',
        'El grueso es el del material de la camioneta, medido. Tiras de 1-1/2" de ancho.',
    ),
    "cuts-note-mm": (
        "Thickness is what the van has, measured. Strips 38 mm wide.",
        "El grueso es el del material de la camioneta, medido. Tiras de 38 mm de ancho.",
    ),
    "cuts-board": ("Board", "Tramo"),
    "cuts-from": ("From", "De"),
    "cuts-cut": ("Cut, in this order", "Corte, en este orden"),
    "cuts-left": ("Left", "Queda"),
    "cuts-opened": (
        "Full lengths opened: {count}. No fewer do.",
        "Tramos enteros abiertos: {count}. Con menos no alcanza.",
    ),
    "cuts-opened-open": (
        "Full lengths opened: {count}. Fewer might do.",
        "Tramos enteros abiertos: {count}. Quizá alcance con menos.",
    ),
    "cuts-bring": ("Bring {count} more.", "Traiga {count} más."),
    "cuts-for": ("{length} for {stud}", "{length} para {stud}"),
    "cuts-not-listed": (
        "The cut list could not be made: a length of the stock in the job cannot be used.",
        "No se pudo hacer la lista de cortes: un largo del material no sirve.",
    ),
    "from-offcut": ("offcut {length}", "retazo {length}"),
    "from-van": ("on the van, {length}", "en la camioneta, {length}"),
    "from-stock": ("full length {length}", "tramo entero {length}"),
    "from-shop": ("TO BRING, {length}", "HAY QUE TRAER, {length}"),
    "bring-head": ("Lumber and the rest", "Madera y lo demás"),
    "line-new stud": ("New stud", "Montante nuevo"),
    "line-sister": ("Stud for a sister", "Montante gemelo"),
    "line-taper": ("Tapered rip", "Tira en cuña"),
    "line-channel row": ("Channel, a row", "Canal metálico, una hilera"),
    "line-flange shim": ("Plastic shim", "Calza de plástico"),
    "line-cut-to-fit": ("cut to fit", "cortar a la medida"),
    "screws-head": ("Board screws by stud", "Tornillos del tablero por montante"),
    "screws-unknown": (
        "Not shown: the board's thickness is not measured.",
        "No se muestra: falta medir el grueso del tablero.",
    ),
    "screws-none-reach": ("none of the usual lengths reaches", "ningún largo común alcanza"),
    "screws-count": ("about {count}", "unos {count}"),
    "screws-note": (
        "Counted {apart} apart up each stud; count a stud twice where a board joint lies on it.",
        "Contados a cada {apart} en cada montante; cuente doble donde haya junta de tableros.",
    ),
    "mortar-head": ("Before mortar is mixed", "Antes de mezclar mortero"),
    "mortar-measured": ("measured", "medido"),
    "mortar-waits": (
        "Strips that wait are still off: {list}.",
        "Las tiras que esperan todavía no están puestas: {list}.",
    ),
    "mortar-pan": (
        "Measure the pan over its flanges: {width} by {depth} in the plan.",
        "Mida la base por fuera de las pestañas: {width} por {depth} en el plan.",
    ),
    "mortar-width": (
        "Between walls, {depth} from the back, in the flange zone: {opening} planned, at least {least}.",
        "Entre paredes, a {depth} del fondo, a la altura de la pestaña: {opening} planeado, mínimo {least}.",
    ),
    "mortar-rock": (
        "Dry fit: goes straight down, does not rock.",
        "Presentada en seco: baja derecho y no se tambalea.",
    ),
    "mortar-flange": (
        "Flange touches or is shimmed at every stud beside it.",
        "La pestaña toca o está calzada en cada montante a su lado.",
    ),
    "mortar-outlet": (
        "Outlet over the drain, and the joint as its maker says.",
        "La salida queda sobre el desagüe, y la unión como dice el fabricante.",
    ),
    "mortar-diagonals": ("Diagonals at the pan: {limit}.", "Diagonales a la altura de la base: {limit}."),
    "mortar-boxes": (
        "The boxes of the re-read are filled in and entered.",
        "Los cuadros de la segunda lectura están llenos y pasados al archivo del trabajo.",
    ),
    "differ-at-most": ("they differ at most {value}", "la diferencia es máximo {value}"),
    "reread-head": ("Read again after the work", "Lea otra vez después del trabajo"),
    "reread-note": (
        "Only the open boxes: what was changed, and what stands next to it. From the same line to "
        "the wood, line not moved.",
        "Solo los cuadros abiertos: lo trabajado y lo de al lado. De la misma línea a la madera, sin "
        "mover la línea.",
    ),
    "who": ("Read by", "Leyó"),
    "instrument": ("Instrument", "Instrumento"),
    "when": ("Date", "Fecha"),
    "why-head": ("Why", "Por qué"),
    "why-note": (
        "The small marks w1, w2 ... beside the figures lead here. More: the command in the last column, with "
        "your job file for JOB.",
        "Las marcas chicas w1, w2 ... junto a las medidas llevan aquí. Más: el comando de la última "
        "columna, con "
        "su archivo en lugar de JOB.",
    ),
    "why-mark": ("Mark", "Marca"),
    "why-what": ("Figure", "Dato"),
    "why-from": ("Readings", "Lecturas"),
    "why-rule": ("Rule", "Regla"),
    "why-source": ("Source", "Fuente"),
    "why-more": ("More", "Más"),
    "why-stud-rule": (
        "Zero is {nominal}; the plane reads {plane} here. {worst}",
        "El cero es {nominal}; aquí el plano se lee en {plane}. {worst}",
    ),
    "why-proud": (
        "Worst: {amount} proud of the plane at {height}.",
        "Lo peor: {amount} salido del plano a {height}.",
    ),
    "why-behind": (
        "Worst: {amount} behind the plane at {height}.",
        "Lo peor: {amount} metido del plano a {height}.",
    ),
    "why-band": (
        "Flange zone: flush to {band} behind; above: {band} either side.",
        "Zona de la pestaña: al ras o hasta {band} metido; arriba: {band} a cada lado.",
    ),
    "why-plane-rule": (
        "The planes together take the least work that keeps every limit.",
        "Los planos juntos dan el menor trabajo que respeta todos los límites.",
    ),
    "why-shim-rule": (
        "A gap over {gap} behind the flange is shimmed.",
        "Un hueco de más de {gap} detrás de la pestaña se calza.",
    ),
    "why-screw-rule": (
        "Board {board}, packing, and {wood} into wood ({steel} past steel).",
        "Tablero {board}, relleno y {wood} dentro de la madera ({steel} pasado el acero).",
    ),
    "why-width": ("Between walls", "Entre paredes"),
    "why-width-rule": (
        "Pan {pan} and play {low} to {high}.",
        "Base {pan} y holgura de {low} a {high}.",
    ),
    "why-readings-of": ("see {studs}", "vea {studs}"),
}
"""Key to (English, Spanish)."""
