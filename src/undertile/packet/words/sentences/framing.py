"""What the plan says, in Spanish: reasons of a stud, what is not allowed and why, checks, findings."""

from __future__ import annotations

FRAMING: dict[str, str] = {
    # why a stud gets what it gets
    "{by} proud": "{by} salido",
    "{by} back": "{by} metido",
    "just over {length}": "poco más de {length}",
    "less than {length}": "menos de {length}",
    "stands {off} at {height}; the plane there is at {plane}, {stay} (convention 3.3)": (
        "está {off} a {height}; ahí el plano va en {plane}, {stay} (convención 3.3)"
    ),
    "lies {off} at {height}; the plane there is at {plane}, {most} back may stay (convention 3.3)": (
        "está {off} a {height}; ahí el plano va en {plane}, puede quedar {most} metido (convención 3.3)"
    ),
    "nothing may stay proud in the flange zone": "nada puede quedar salido a la altura de la pestaña",
    "{most} may stay above the flange": "arriba de la pestaña puede quedar {most}",
    "{most} may stay": "puede quedar {most}",
    "as read it lies within {most} of the plane at every height (convention 3.3)": (
        "como se leyó está a menos de {most} del plano en cada altura (convención 3.3)"
    ),
    "as read it lies within its band; it is worked so that the straightedge rests right over its "
    "neighbors, or to save a dearer thing": (
        "como se leyó está dentro de lo permitido; se trabaja para que la regla larga asiente bien sobre "
        "sus vecinos, o para ahorrar algo más caro"
    ),
    "one straight rip reaches the plane from {low} at {low_height} to {high} at {high_height}": (
        "una sola tira en cuña llega al plano, de {low} a {low_height} hasta {high} a {high_height}"
    ),
    "its face lies {gap} behind the plane at {height}: a plastic shim closes the gap behind the flange "
    "(convention 3.4)": (
        "su cara queda {gap} metida del plano a {height}: una calza de plástico cierra el hueco detrás de "
        "la pestaña (convención 3.4)"
    ),
    "one pass would leave it {off} at {height}": "una pasada lo dejaría {off} a {height}",
    "{passes} passes would leave it {off} at {height}": "{passes} pasadas lo dejarían {off} a {height}",
    "a pass less would do for the band, but not for the straightedge over its neighbors": (
        "una pasada menos bastaría para él solo, pero no para la regla larga sobre sus vecinos"
    ),
    "planed to its limit at {height}: {why}": "cepillado hasta su límite a {height}: {why}",
    "one thickness does not do: at least {least} is needed at {low}, and at {high} {room}": (
        "un solo grueso no sirve: hace falta al menos {least} a {low}, y a {high} {room}"
    ),
    "nothing fits": "no cabe nada",
    "less than {least} fits": "cabe menos de {least}",
    "no more than {most} fits": "no cabe más de {most}",
    "the next thinner on the van ({stock}) would leave it {off} at {height}": (
        "el siguiente más delgado de la camioneta ({stock:stuff}) lo dejaría {off} a {height}"
    ),
    "not planed: {why}": "sin cepillar: {why}",
    "planing stops at {limit} at {height}: {why}": "el cepillado para en {limit} a {height}: {why}",
    "no strip: {why}": "sin tira: {why}",
    "no taper: {why}": "sin tira en cuña: {why}",
    "no sister: {why}": "sin montante gemelo: {why}",
    "it counts as bearing": "se cuenta como de carga",
    "the plan replaces it; {why}": "el plan lo reemplaza; {why}",
    "Shore the wall, ask, and say who answered; or find out that it bears nothing.": (
        "Apuntale la pared, pregunte y anote quién respondió; o averigüe que no carga nada."
    ),
    "wet beds on {studs}": "camas de mortero en {studs}",
    "Bed one board at a time and wait 12 to 24 hours before the screws are snug.": (
        "Asiente un tablero a la vez y espere de 12 a 24 horas antes de apretar los tornillos."
    ),
    # what may be done to a stud, as it is called
    "leave": "dejar",
    "plane": "cepillar",
    "strip": "tira",
    "taper": "tira en cuña",
    "wet bed": "cama de mortero",
    "sister": "montante gemelo",
    "replace": "reemplazar",
    "knock over": "correr el pie",
    "channel": "canal metálico",
    "the valve": "la válvula",
    "the supply pipe": "el tubo de agua",
    "the drain or vent": "el desagüe o la ventilación",
    "the stack": "la bajante",
    "a thing": "algo",
    # what a stud is not allowed, and why
    "a steel stud takes no sister": "un montante de acero no lleva gemelo",
    "only plain wood is sistered": "solo la madera común lleva montante gemelo",
    "only plain wood is sistered; an engineered member is the engineer's": (
        "solo la madera común lleva montante gemelo; una pieza de ingeniería es cosa del ingeniero"
    ),
    "what the stud is made of is not known, and only wood is sistered": (
        "no se sabe de qué es el montante, y solo la madera lleva gemelo"
    ),
    "the bay is not known and may hold wires: the longer time counts": (
        "no se sabe qué hay en el hueco y puede tener cables: cuenta el tiempo más largo"
    ),
    "the bay holds a {what}: the longer time counts": "en el hueco hay un {what}: cuenta el tiempo más largo",
    "it bears: shore the wall and ask before it comes out": (
        "carga: apuntale la pared y pregunte antes de sacarlo"
    ),
    "whether it bears is not known, so it counts as bearing: shore the wall and ask before it comes out": (
        "no se sabe si carga, así que se cuenta como de carga: apuntale la pared y pregunte antes de sacarlo"
    ),
    "only a wood stud is knocked over": "solo a un montante de madera se le corre el pie",
    "it may not be replaced or moved": "no se puede reemplazar ni mover",
    "kerf-and-pull is not priced in this contract": "cortar y jalar no tiene precio aquí",
    "the stud bears: planed over its full height it changes grade, so one height stays unplaned; ask an "
    "engineer for a full rip": (
        "el montante carga: cepillado en toda la altura cambia de grado, así que una altura queda sin "
        "cepillar; para cortarlo entero pregunte a un ingeniero"
    ),
    "the stud is not known and counts as bearing: planed over its full height it changes grade, so one "
    "height stays unplaned; ask an engineer for a full rip": (
        "no se sabe si el montante carga y se cuenta como de carga: cepillado en toda la altura cambia de "
        "grado, así que una altura queda sin cepillar; para cortarlo entero pregunte a un ingeniero"
    ),
    "held to {treatment}: {reason}": "se fijó en {treatment}: {reason}",
    "the stud is soft: it gets a sister or is replaced": (
        "el montante está blando: lleva montante gemelo o se reemplaza"
    ),
    "no strip stock is listed on the van": "no hay tiras en la lista de la camioneta",
    "wood is not allowed here": "aquí no se permite madera",
    "off until it is chosen for the wall": "apagado hasta que se escoja para la pared",
    "it may not be moved": "no se puede mover",
    "the bay may not be opened": "el hueco no se puede abrir",
    "a straight batten beside it on packers; priced as a sister (ours)": (
        "un larguero derecho al lado sobre relleno; con el precio de un montante gemelo (valor nuestro)"
    ),
    "an engineered member is replaced only by its maker or an engineer": (
        "una pieza de ingeniería solo la reemplaza su fabricante o un ingeniero"
    ),
    "{thing} at {height} stands at it; once it is off, set its keep_off to 0": (
        "ahí está {thing} a {height}; cuando ya no esté, ponga su distancia libre en 0"
    ),
    "{thing} stands at it and would go along": "ahí está {thing} y se movería con él",
    "wood is not allowed here, and no other strip stock is listed": (
        "aquí no se permite madera, y no hay otro material para tiras"
    ),
    "soft wood is not covered": "la madera blanda no se tapa",
    "how far the masonry lets a batten back is not known; a batten beside it on packers is offered": (
        "no se sabe cuánto deja entrar la mampostería; se ofrece un larguero al lado sobre relleno"
    ),
    "re-set in its track": "recolocado en su riel",
    "no stock between 0 and {most} thick is listed": (
        "no hay material en la lista de entre 0 y {most} de grueso"
    ),
    "whether it bears is not known": "no se sabe si carga",
    "it bears": "carga",
    "loose card never in the flange zone nor below {above} above the flange": (
        "cartón suelto nunca a la altura de la pestaña ni a menos de {above} arriba de ella"
    ),
    "its foot is not free behind": "su pie no está libre por detrás",
    "what is behind is not known": "no se sabe qué hay detrás",
    "the height of the top plate is not measured": "la altura de la solera superior no está medida",
    "{thing} at {height} stands at this stud: nothing is planed from {low} to {high}": (
        "{thing} a {height} está en este montante: no se cepilla de {low} a {high}"
    ),
    "notches: 25 % of a bearing stud's depth ({depth})": (
        "muescas: 25 % del fondo de un montante de carga ({depth})"
    ),
    "notches: 40 % of the depth ({depth})": "muescas: 40 % del fondo ({depth})",
    "{limit}, {notch} is notched already": "{limit}, ya tiene una muesca de {notch}",
    "steel is never planed": "el acero nunca se cepilla",
    "treated wood is never planed: the treatment is in the face": (
        "la madera tratada nunca se cepilla: el tratamiento está en la cara"
    ),
    "an engineered member is never cut": "una pieza de ingeniería nunca se corta",
    "what the stud is made of is not known, and unknown stuff is not planed": (
        "no se sabe de qué es el montante, y lo desconocido no se cepilla"
    ),
    "craft: at most {craft}": "oficio: a lo más {craft}",
    "a batten keeps three quarters of its thickness ({depth})": (
        "un larguero conserva tres cuartos de su grueso ({depth})"
    ),
    "depth not measured, {depth} taken": "fondo sin medir, se toma {depth}",
    "{what} {name} at {height} is {clear} behind the face and keeps {least} to the new one; put a nail "
    "plate there and say so to plane deeper": (
        "{what} {name} a {height} está {clear} detrás de la cara y guarda {least} a la nueva; ponga ahí "
        "una placa protectora y anótelo para cepillar más"
    ),
    "{what} {name} at {height} is plated: {left} of wood stays before it": (
        "{what} {name} a {height} tiene placa: quedan {left} de madera delante"
    ),
    "a let-in brace crosses its face, and a brace is never cut": (
        "una riostra embutida cruza su cara, y una riostra nunca se corta"
    ),
    "soft wood is cut out, not planed": "la madera blanda se corta y se saca, no se cepilla",
    "hole {name} at {height}: no hole and cut in one section": (
        "agujero {name} a {height}: agujero y corte no van en el mismo tramo"
    ),
    # findings of a stud
    "Nothing that mends it is allowed here; take back what forbids it ({refusals}).": (
        "Aquí no se permite nada que lo arregle; quite lo que lo prohíbe ({refusals})."
    ),
    "Replace or sister it before the wall is closed.": (
        "Reemplácelo o refuércelo con montante gemelo antes de cerrar la pared."
    ),
    "Replace it before the wall is closed.": "Reemplácelo antes de cerrar la pared.",
    "Sister it before the wall is closed.": "Refuércelo con montante gemelo antes de cerrar la pared.",
    "{step} It counts as bearing: shore first, and ask an engineer.": (
        "{step} Se cuenta como de carga: primero apuntale, y pregunte a un ingeniero."
    ),
    "not known for {studs}; unknown stuff is not planed nor sistered": (
        "no se sabe de {studs}; lo desconocido no se cepilla ni lleva montante gemelo"
    ),
    "not known for {studs}; an unknown stud counts as bearing": (
        "no se sabe de {studs}; un montante desconocido se cuenta como de carga"
    ),
    "not known for {studs}; an unknown bay may hold wires": (
        "no se sabe de {studs}; un hueco desconocido puede tener cables"
    ),
    "all studs": "todos los montantes",
    "Say so if you know: the plan may cost less.": "Dígalo si lo sabe: el plan puede costar menos.",
    "the stud is soft": "el montante está blando",
    "{family}: {why}": "{family}: {why}",
    "it is not offered here": "aquí no se ofrece",
    "a soft stud is to be sistered or replaced": "un montante blando se refuerza con gemelo o se reemplaza",
    "it is held to {family} ({reason}), but {why}": "se fijó en {family} ({reason}), pero {why}",
    "Hold {name} to another treatment, or let it go.": "Fije {name} en otro trabajo, o déjelo libre.",
    "one edge stands {twist} behind the other": "una arista está {twist} más metida que la otra",
    "Plane the proud edge only, and pack the other under a strip; a sister gives a straight face.": (
        "Cepille solo la arista salida y calce la otra bajo una tira; un montante gemelo da una cara derecha."
    ),
    "something is said of {name}, which is not read; the nearest name read is {close}": (
        "se dice algo de {name}, que no está leído; el nombre leído más parecido es {close}"
    ),
    "Read {name}, or correct its name.": "Lea {name}, o corrija su nombre.",
    # held planes
    "Wall {name} held at {at}": "La {name:wall} fijada en {at}",
    "Wall {name} held at a skew of {skew} over its studs": (
        "La {name:wall} fijada con un giro de {skew} en sus montantes"
    ),
    "it is held at {hold} in 8 ft ({reason})": "está fijada en {hold} en 8 pies ({reason})",
    "Keep it if you mean it; thin-set tile on it is outside the published tolerance.": (
        "Déjelo si así lo quiere; la loseta pegada encima queda fuera de la tolerancia publicada."
    ),
    "one stud is read, so the skew it is held at says nothing yet": (
        "hay un solo montante leído, así que el giro fijado todavía no dice nada"
    ),
    "Read another stud of wall {name}.": "Lea otro montante de la {name:wall}.",
    # what is not in the plan
    "wall {walls} is not read, so it is not shown": "sin leer la {walls:wall}, así que no se muestra",
    "Read the studs of that wall.": "Lea los montantes de esa pared.",
    "it is not measured, so both zones are planned as one plane: the board would kick out": (
        "no está medida, así que arriba y abajo se planean en un solo plano: el tablero se abriría"
    ),
    "Measure the thickness of the flange.": "Mida el grueso de la pestaña.",
    "Measure the height of the flange.": "Mida la altura de la pestaña.",
    "the lowest height read is {height}": "la altura más baja leída es {height}",
    "Read every stud of wall {wall} near the floor.": "Lea cada montante de la {wall:wall} cerca del piso.",
    "it is not given, so the channel is not in the plan": "no está dado, así que el canal no está en el plan",
    "Measure a stick of channel from its back to its face.": (
        "Mida un tramo del canal metálico de la espalda a la cara."
    ),
    "no tile is chosen: the stricter flatness is planned, for an edge of 15 in or more": (
        "no se ha escogido loseta: se planea la planitud más estricta, para orillas de 15 pulg o más"
    ),
    "Give the tile's longest edge once it is chosen.": (
        "Dé la orilla más larga de la loseta cuando se escoja."
    ),
    "no stud of wall {name} is read, so {what} is not in the plan": (
        "no hay montantes leídos en la {name:wall}, así que {what} no está en el plan"
    ),
    "Read the studs of wall {name}.": "Lea los montantes de la {name:wall}.",
    "it cannot be reached, so the plan does not clear it": "no se alcanza, así que el plan no lo libra",
    "it is not read, so the plan does not clear it": "no está leído, así que el plan no lo libra",
    "Read the distance from the line of wall {wall} to {name}.": (
        "Lea la distancia de la línea de la {wall:wall} a {name}."
    ),
    "it may be moved but nobody says how long that takes; the plan leaves it where it is": (
        "se puede mover pero nadie dice cuánto tarda; el plan lo deja donde está"
    ),
    "Give the minutes to move {name}.": "Dé los minutos para mover {name}.",
    "{missing} not given, so the depth of the valve is not in the plan": (
        "falta {missing}, así que la profundidad de la válvula no está en el plan"
    ),
    "it is not given, so the edge is not in the plan": "no está dado, así que la orilla no está en el plan",
    "Measure the board.": "Mida el tablero.",
    "no height of it is read, so the edge is not in the plan": (
        "no tiene ninguna altura leída, así que la orilla no está en el plan"
    ),
    "it is not given, so the backing at the corner is not in the plan": (
        "no está dado, así que el respaldo de la esquina no está en el plan"
    ),
    "Write the height of this reading.": "Escriba la altura de esta lectura.",
    # things, valve, edges and corners that the plane must clear
    "valve": "válvula",
    "move the supply pipe": "mover el tubo de agua",
    "move the drain or vent": "mover el desagüe o la ventilación",
    "move the stack": "mover la bajante",
    "move the other": "mover lo que estorba",
    "re-block the valve": "cambiar el bloqueo de la válvula",
    "put a backer at corner {key}": "poner respaldo en la esquina {key}",
    "corner backer {key}": "respaldo de la esquina {key}",
    "corner {key}": "esquina {key}",
    "{name} stands at {at} and may stand {relief} proud of the studs, so the plane there is at {low} or "
    "further in": (
        "{name} está en {at} y puede quedar {relief} salido de los montantes, así que ahí el plano va en "
        "{low} o más adentro del cuarto"
    ),
    "the sheet wants {low} to {high} from body to finished face; {stack} of board, membrane, mortar and "
    "tile stand on the studs": (
        "la hoja pide de {low} a {high} del cuerpo a la cara terminada; sobre los montantes van {stack} "
        "de tablero, membrana, mortero y loseta"
    ),
    "{why}; re-blocking moves it {reach} either way": (
        "{why}; cambiar el bloqueo la mueve {reach} a cada lado"
    ),
    "{why}; re-blocking moves it {reach} either way, not given, so ours": (
        "{why}; cambiar el bloqueo la mueve {reach} a cada lado, no está dado, es valor nuestro"
    ),
    "the face that stays is at {at}; the board ({board}) may lie {back} back of it to {proud} proud": (
        "la cara que se queda está en {at}; el tablero ({board}) puede quedar de {back} metido a {proud} "
        "salido"
    ),
    "{wood} of wood, less board {board}, gap {gap} and {backing} to screw into": (
        "{wood} de madera, menos tablero {board}, junta {gap} y {backing} para atornillar"
    ),
    "{why}, less {slack} for a leaning plane": "{why}, menos {slack} por un plano inclinado",
    # the straightedge on the planned faces
    "{limit} under {length}": "{limit} bajo {length}",
    "{name} at {height}": "{name} a {height}",
    "at {at}": "a {at}",
    "from {first} at {low} to {last} at {high}": "de {first} a {low} hasta {last} a {high}",
    "wall {wall}, {line}": "{wall:wall}, {line:place}",
    "{spot} ({face})": "{spot} ({face})",
    "rests on or between {faces}": "asienta en o entre {faces}",
    "under it {face}": "debajo {face}",
    "the face at {spot} lies behind the faces around it": (
        "la cara en {spot} está más metida que las de alrededor"
    ),
    "lay a {length} straightedge on it": "póngale una regla larga de {length}",
    "Read {spot} again with a finer rule, or {edge}.": (
        "Lea otra vez {spot} con una regla más fina, o {edge}."
    ),
    "Read {spot} every {step} or closer, or {edge}.": "Lea {spot} cada {step} o menos, o {edge}.",
    "Read every stud {spot}, or {edge}.": "Lea cada montante {spot}, o {edge}.",
    "Read every place {spot}, or {edge}.": "Lea cada lugar {spot}, o {edge}.",
    "Read all of {spot}, or {edge}.": "Lea todo {spot}, o {edge}.",
    "Bring out the low place or take down its neighbors {spot}, then read it again.": (
        "Saque lo metido o baje lo de al lado {spot}, y léalo otra vez."
    ),
    "Bring out the low place or take down its neighbors on {spot}, then read it again.": (
        "Saque lo metido o baje lo de al lado en {spot}, y léalo otra vez."
    ),
    "fewer than three readings on this line": "menos de tres lecturas en esta línea",
    "the straightedge bridges nothing: no reading lies behind its neighbors": (
        "la regla larga no deja hueco: ninguna lectura está más metida que sus vecinas"
    ),
    "fewer than three heights on a stud are read": "hay menos de tres alturas leídas en un montante",
    "fewer than three studs are read": "hay menos de tres montantes leídos",
    "Read at least three heights on a stud, or lay a {length} straightedge on the wall.": (
        "Lea al menos tres alturas en un montante, o ponga una regla larga de {length} en la pared."
    ),
    "Read at least three studs, or lay a {length} straightedge on the wall.": (
        "Lea al menos tres montantes, o ponga una regla larga de {length} en la pared."
    ),
    # other plans that were looked at
    "shoring": "apuntalar",
    "plate edge": "orilla de la solera",
    "first taper": "primera tira en cuña",
    "verify": "revisar",
    "{what} is in the way: {why}": "{what} estorba: {why}",
    "{first} (and {others})": "{first} (y {others})",
    "nothing offered brings {studs} there": "nada de lo que se ofrece lleva {studs} ahí",
    "would not hold, and no other plane mends it: {demands}": (
        "no se cumpliría, y ningún otro plano lo arregla: {demands}"
    ),
    "a plane that is held": "un plano fijado",
    "no treatment there passes the straightedge": "ningún trabajo ahí pasa la regla larga",
    "the same minutes in dearer stuff": "los mismos minutos con material más caro",
    "{wall} {by} into the room": "{wall} {by} hacia el cuarto",
    "{wall} {by} back": "{wall} {by} hacia atrás",
    "left wall": "pared izquierda",
    "back wall": "pared del fondo",
    "right wall": "pared derecha",
    "{most} and {number} more": "{most} y {number} más",
    "more work: {studs}": "más trabajo: {studs}",
    "besides: {work}": "además: {work}",
    "less: {studs}": "menos: {studs}",
    "{stud} {now} min for {then}": "{stud} {now} min en vez de {then}",
    "{stud} {now} for {then}": "{stud} {now} en vez de {then}",
    "no planing": "sin cepillar",
    "no strips": "sin tiras",
    "no tapers": "sin tiras en cuña",
    "no sisters": "sin montantes gemelos",
    "no stud re-set": "sin recolocar montantes",
    "no stud replaced": "sin reemplazar montantes",
    "some stud has nothing left that brings it there": "algún montante se queda sin nada que lo lleve ahí",
}
"""English form to Spanish."""
