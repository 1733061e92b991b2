"""Sentences of what goes with the pan: drain, flange, backing, edges that stay, screws, valve, the way in."""

from __future__ import annotations

BESIDE: dict[str, str] = {
    # drain and outlet
    "drain {drain} from wall {side}, outlet {outlet} from the pan's left flange": (
        "desagüe a {drain} de la {side:wall}, salida a {outlet} de la pestaña izquierda de la base"
    ),
    "drain {drain} from wall B, outlet {outlet} from the back flange": (
        "desagüe a {drain} de la pared del fondo, salida a {outlet} de la pestaña del fondo"
    ),
    "drain {drain} from wall B, outlet {outlet} from the back flange, float {float}; the back flange is "
    "fastened on the B plane": (
        "desagüe a {drain} de la pared del fondo, salida a {outlet} de la pestaña del fondo, juego "
        "{float}; la pestaña del fondo se atornilla en el plano del fondo"
    ),
    "drain {drain} from wall {wall}, outlet {outlet} from that side of the pan, float {float}": (
        "desagüe a {drain} de la {wall:wall}, salida a {outlet} de ese lado de la base, juego {float}"
    ),
    "Outlet over the drain, wall {wall}": "Salida sobre el desagüe, {wall:wall}",
    "Outlet over the drain, out from wall B": "Salida sobre el desagüe, desde la pared del fondo",
    "{value} to the right of it": "{value} a su derecha",
    "{value} to the left of it": "{value} a su izquierda",
    "{value} too far out": "{value} muy afuera",
    "{value} too far back": "{value} muy atrás",
    "over it": "encima",
    "within the drain's float": "dentro del juego del desagüe",
    "Measure the outlet's center from the pan's outside left and back flange faces.": (
        "Mida el centro de la salida desde afuera de las pestañas izquierda y del fondo."
    ),
    "Measure the drain's center from the two reference lines, and how far it can float.": (
        "Mida el centro del desagüe desde las dos líneas, y cuánto juego tiene."
    ),
    "Measure from the outside left and back flange faces to the outlet's center.": (
        "Mida desde afuera de las pestañas izquierda y del fondo al centro de la salida."
    ),
    "Measure from the two reference lines to the drain's center, and how far it can float.": (
        "Mida desde las dos líneas al centro del desagüe, y cuánto juego tiene."
    ),
    "Measure the inside width from wall L to wall R: the pan's place between them is not shown.": (
        "Mida el ancho interior de la pared izquierda a la derecha: no se muestra dónde queda la base "
        "entre ellas."
    ),
    "Measure the inside width, or the drain from wall L.": (
        "Mida el ancho interior, o el desagüe desde la pared izquierda."
    ),
    "Measure the drain from a side wall that is read and planned.": (
        "Mida el desagüe desde una pared lateral leída y con plan."
    ),
    "Measure it from a side wall that is read, or read that wall.": (
        "Mídalo desde una pared lateral leída, o lea esa pared."
    ),
    "Read the back wall: the back flange is fastened to it.": (
        "Lea la pared del fondo: ahí se atornilla la pestaña del fondo."
    ),
    "the pan can be set over {range} between the walls": (
        "la base se puede poner en un tramo de {range} entre las paredes"
    ),
    "the pan stands against wall {side}, {face}": "la base va contra la {side:wall}, {face}",
    "The pan does not drop in, so it has no place yet: see the play.": (
        "La base no entra, así que todavía no tiene lugar: vea la holgura."
    ),
    "Move the drain {by} right, or shift the side planes the other way.": (
        "Mueva el desagüe {by} a la derecha, o los planos laterales al otro lado."
    ),
    "Move the drain {by} left, or shift the side planes the other way.": (
        "Mueva el desagüe {by} a la izquierda, o los planos laterales al otro lado."
    ),
    "Move the drain {by} out, or move the back plane.": (
        "Mueva el desagüe {by} hacia afuera, o mueva el plano del fondo."
    ),
    "Move the drain {by} back, or move the back plane.": (
        "Mueva el desagüe {by} hacia el fondo, o mueva el plano del fondo."
    ),
    "where the side walls put the pan": "dónde ponen la base las paredes laterales",
    "wall B: plane {face} at the drain": "pared del fondo: plano {face} en el desagüe",
    "the outlet is not measured, so the drain asks nothing of the walls": (
        "la salida no está medida, así que el desagüe no pide nada a las paredes"
    ),
    "the drain is not measured, so nothing holds the walls to it": (
        "el desagüe no está medido, así que nada obliga a las paredes"
    ),
    "the drain is measured from wall {side}, which is not read": (
        "el desagüe se midió desde la {side:wall}, que no está leída"
    ),
    "the pan has one place only": "la base tiene un solo lugar",
    "set the pan hard against wall {wall}": "ponga la base pegada a la {wall:wall}",
    "set the pan {left} off wall L, {right} off wall R": (
        "ponga la base a {left} de la pared izquierda y a {right} de la derecha"
    ),
    # flange, gaps, what holds it
    "{most} from a stud's face": "{most} de la cara de un montante",
    "{value} away": "a {value}",
    "on a stud": "en un montante",
    "Read the studs of wall {side}: no face is planned there.": (
        "Lea los montantes de la {side:wall}: ahí no hay cara planeada."
    ),
    "Read the studs of walls B and {side} next to the corner.": (
        "Lea los montantes junto a la esquina, de la pared del fondo y de la {side:wall}."
    ),
    "Block the bay behind the flange's front end on wall {side}, face on the plane.": (
        "Ponga bloqueo en el hueco detrás del extremo del frente de la pestaña, {side:wall}, con la cara "
        "en el plano."
    ),
    "Block the corner of walls B and {side} behind the flange, face on the plane.": (
        "Ponga bloqueo en la esquina de la pared del fondo y la {side:wall}, detrás de la pestaña, con la "
        "cara en el plano."
    ),
    "the flange ends {end} from the back line, {name} stands at {along}": (
        "la pestaña termina a {end} de la línea del fondo, {name} está a {along}"
    ),
    "nearest is {name} at {at} along wall {wall}": "el más cercano es {name}, a {at} en la {wall:wall}",
    "the back plane sets where it ends": "el plano del fondo decide dónde termina",
    "{gap} behind, shim": "{gap} metido, calza",
    "{gap} behind": "{gap} metido",
    "{gap} proud": "{gap} salido",
    "{value} behind": "{value} metido",
    "{value} proud": "{value} salido",
    "no gap": "sin hueco",
    "{stud}: {gap}": "{stud}: {gap}",
    "Read every stud of wall {wall} once at or below {at}.": (
        "Lea cada montante de la {wall:wall} una vez a {at} o más abajo."
    ),
    "Read the studs of wall {wall} beside the pan; without a plan there is no gap to show.": (
        "Lea los montantes de la {wall:wall} junto a la base; sin plan no hay separación que mostrar."
    ),
    "not read in the flange zone, taken from around it: {studs}": (
        "sin lectura a la altura de la pestaña, se tomó lo de alrededor: {studs}"
    ),
    "flush to {at} behind the plane": "del ras a {at} metido del plano",
    "Bring the studs named back to the plane: the flange may not stand on a proud stud.": (
        "Lleve esos montantes al plano: la pestaña no debe apoyarse en un montante salido."
    ),
    "Build the studs named out to within {at} of the plane.": "Engruese esos montantes hasta {at} del plano.",
    "{number} flange shims": "{number} calzas de la pestaña",
    # backing of the board
    "wood of wall {own} reaches {reach} from the nominal plane of wall {other}": (
        "la madera de la {own:wall} llega a {reach} del plano cero de la {other:wall}"
    ),
    "wall {other}: plane {plane} at height {height}, board {board}, gap {gap}": (
        "{other:wall}: plano {plane} a la altura {height}, tablero {board}, junta {gap}"
    ),
    "Put a backer at corner {key} before the board: wood flush with wall {own}'s studs.": (
        "Ponga madera de respaldo en la esquina {key} antes del tablero: al ras con los montantes de la "
        "{own:wall}."
    ),
    "Put a backer at corner {key}: it lacks {left}.": (
        "Ponga madera de respaldo en la esquina {key}: faltan {left}."
    ),
    "{value} or more with the backer": "{value} o más con el respaldo",
    "{left} without it; a backer is in the plan": "{left} sin él; el respaldo está en el plan",
    # edges that stay
    "{value} (proud)": "{value} (salido)",
    "{value} (back)": "{value} (metido)",
    "Bring the plane out {step}, or put a strip under the board's edge at {name}.": (
        "Saque el plano {step}, o ponga una tira bajo la orilla del tablero en {name}."
    ),
    "It cannot be reached there: read it beside, at {at}.": "Ahí no se alcanza: léalo al lado, a {at}.",
    "Read it at {at}.": "Léalo a {at}.",
    "the face that stays is {stays}": "la cara que se queda está {stays}",
    "wall {wall}: plane {plane}, board {board} on it": (
        "{wall:wall}: plano {plane}, encima el tablero de {board}"
    ),
    "Cut {name} back to the stud beside it, or cover a step of {step} with trim, or bring the plane "
    "back {proud}.": (
        "Corte {name} hasta el montante de al lado, o cubra el escalón de {step} con moldura, o lleve el "
        "plano {proud} hacia atrás."
    ),
    "the stud there lies {off} proud of it": "ahí el montante está {off} salido",
    "the stud there lies {off} behind it": "ahí el montante está {off} metido",
    "Read {name} at two heights or more.": "Lea {name} a dos alturas o más.",
    "Write the height of this reading: {error}.": "Escriba la altura de esta lectura: {error}.",
    # plumb
    "{value} in {over}, top into the room": "{value} en {over}, arriba hacia el cuarto",
    "{value} in {over}, top back": "{value} en {over}, arriba hacia atrás",
    "Hold the plane of wall {wall} plumber, or keep it with a reason.": (
        "Deje el plano de la {wall:wall} más a plomo, o déjelo así con un motivo."
    ),
    "lean of the plane; single studs may stand off it by their band": (
        "inclinación del plano; cada montante puede separarse de él lo permitido"
    ),
    # cuts, holes, stiffness
    "not known, so counted as bearing": "no se sabe, se cuenta como de carga",
    "bearing": "de carga",
    "not bearing": "sin carga",
    "{name} is {bears}, {depth} deep: {may} may go": (
        "{name} es {bears}, fondo {depth}: se pueden quitar {may}"
    ),
    "{cut}, {share} of the depth": "{cut}, {share} del fondo",
    "edge of the hole {hole} from the face as read": "orilla del agujero a {hole} de la cara leída",
    "{edge}, at most {share} of the depth": "{edge}, a lo más {share} del fondo",
    "{part} of the depth, at most {share} ({bears})": "{part} del fondo, a lo más {share} ({bears})",
    "Measure the depth of {name}, face to back.": "Mida el fondo de {name}, de la cara a la espalda.",
    "planed {planed}": "cepillado {planed}",
    "notched {notch} already": "ya tiene una muesca de {notch}",
    "planed over its full height: a rip changes the grade": (
        "cepillado en toda la altura: eso cambia el grado de la madera"
    ),
    "a sister stands beside it": "tiene un montante gemelo al lado",
    "Stop and ask an engineer before {name} is cut; or plane less, sister it, or move the plane.": (
        "Pare y pregunte a un ingeniero antes de cortar {name}; o cepille menos, ponga montante gemelo o "
        "mueva el plano."
    ),
    "planed {planed} off {depth}: about {left} % of its bending stiffness is left": (
        "cepillado {planed} de {depth}: queda como {left} % de su rigidez"
    ),
    "Nothing to do unless it carries a door, a bar or a load: then sister it.": (
        "Nada que hacer, salvo que cargue una puerta, una barra o peso: entonces refuerce con montante "
        "gemelo."
    ),
    "planed {cut} in its section": "cepillado {cut} en ese tramo",
    "{left} to the face": "{left} a la cara",
    "{edge}, and no cut in its section": "{edge}, y sin corte en ese tramo",
    "Sister {name} past the hole, or a stud shoe as its sheet allows; ask the inspector.": (
        "Refuerce {name} con montante gemelo más allá del agujero, o ponga una placa de refuerzo según su "
        "hoja; pregunte al inspector."
    ),
    "{edge}, {part} of the depth": "{edge}, {part} del fondo",
    "planing {planed}": "el cepillado, {planed}",
    "planing {cut}": "el cepillado, {cut}",
    "Do not plane {name} at the hole: a hole and a cut may not share a section.": (
        "No cepille {name} en el agujero: agujero y corte no pueden ir en el mismo tramo."
    ),
    "Sister {name} or a stud shoe as its sheet allows; ask the inspector.": (
        "Refuerce {name} con montante gemelo, o ponga una placa de refuerzo según su hoja; pregunte al "
        "inspector."
    ),
    # screws, plates, tips
    "board, packing and {wood} into wood ({steel} past steel)": (
        "tablero, relleno y {wood} en madera ({steel} pasando el acero)"
    ),
    "Change to {screw} screws at {studs}: not on the van, buy them.": (
        "Cambie a tornillos de {screw} en {studs}: no están en la camioneta, cómprelos."
    ),
    "{screw} at {studs} (not on the van: buy)": "{screw} en {studs} (no está en la camioneta: comprar)",
    "{screw} at {studs}": "{screw} en {studs}",
    "Let a nail plate in flush on {where}, or strip round it.": (
        "Empotre al ras una placa protectora en {where:place}, o rodéelo con tiras."
    ),
    "Let a nail plate in flush on {where}; without one no screw at {height}.": (
        "Empotre al ras una placa protectora en {where:place}; sin ella ningún tornillo a {height}."
    ),
    "board {board}": "tablero {board}",
    "{board} and packing {packing}": "{board} y relleno {packing}",
    "through {what} the screw goes {into} into the stud": (
        "pasando {what}, el tornillo entra {into} en el montante"
    ),
    "Use {screw} screws on {stud} (not on the van: buy; the tip stops {room} before it).": (
        "Use tornillos de {screw} en {stud} (no están en la camioneta: comprar; la punta para {room} antes)."
    ),
    "{use} Or: {plate}": "{use} O bien: {plate}",
    "Screw the strips of {studs} to the stud on their own, and the board to them.": (
        "Atornille las tiras de {studs} solas al montante, y el tablero a ellas."
    ),
    "on the van: {screw}": "en la camioneta: {screw}",
    "not the {screw} at {stud}: its tip would end too near a pipe or cable": (
        "no el de {screw} en {stud}: la punta quedaría muy cerca de un tubo o cable"
    ),
    "the screw on the van leaves {into} at {stud}": "el tornillo de la camioneta deja {into} en {stud}",
    "{stud}: board {board}, packing {packing}, {holds} past steel": (
        "{stud}: tablero {board}, relleno {packing}, {holds} pasando el acero"
    ),
    "{stud}: board {board}, packing {packing}, {holds} into wood": (
        "{stud}: tablero {board}, relleno {packing}, {holds} en madera"
    ),
    "no listed screw reaches at {studs}": "ningún tornillo de la lista alcanza en {studs}",
    "No listed screw reaches at {stud}: see the board screws.": (
        "Ningún tornillo de la lista alcanza en {stud}: vea los tornillos del tablero."
    ),
    "{stud} packed out {packing}": "{stud} lleva {packing} de relleno",
    "taken as wood, not known: {studs}": "se toma como madera, no se sabe: {studs}",
    "{what} {clear} behind the face as read": "{what} a {clear} detrás de la cara leída",
    "{what} {left} behind the stud's face": "{what} a {left} detrás de la cara del montante",
    "Plane less there: the plate needs wood before the pipe.": (
        "Ahí cepille menos: la placa necesita madera antes del tubo."
    ),
    "a plate covers it": "lo cubre una placa",
    "sources disagree: some codes ask for a plate under {least}": (
        "las fuentes no coinciden: algunos códigos piden placa abajo de {least}"
    ),
    "a {screw} screw stops {short} before it": "un tornillo de {screw} para {short} antes",
    "a {screw} screw ends {past} past its edge": "un tornillo de {screw} pasa {past} de su orilla",
    # finished inside size
    "{size} sq cm": "{size} cm²",
    "{size} sq in": "{size} pulg²",
    "some places ask for {area}, and {side} or a {circle} circle: verify with the local authority": (
        "en algunos lugares piden {area}, y {side} o un círculo de {circle}: pregunte a la autoridad local"
    ),
    "It lacks {share}: take a wall back or choose a thinner finish.": (
        "Faltan {share}: lleve una pared hacia atrás o escoja un acabado más delgado."
    ),
    "under {least} but allowed: the area is {area} or more": (
        "menos de {least} pero permitido: el área es de {area} o más"
    ),
    "the depth must come to {needs} at least": "el fondo debe llegar al menos a {needs}",
    "the width must come to {needs} at least": "el ancho debe llegar al menos a {needs}",
    "the thickness of {layers}": "el grueso de: {layers}",
    "on the studs: {words}": "sobre los montantes: {words}",
    "the pan's depth over the outside faces of the flanges": "el fondo de la base por fuera de las pestañas",
    "where the panel on the open side stands, which this job does not hold": (
        "dónde va la mampara del lado abierto, que este trabajo no trae"
    ),
    "the threshold's width, front to back": "el ancho del umbral, de frente a fondo",
    "the studs of the back wall": "los montantes de la pared del fondo",
    "depth {depth}: pan {pan} to the middle of a threshold of {threshold}, less the finish on the back "
    "wall": (
        "fondo {depth}: base {pan} hasta la mitad de un umbral de {threshold}, menos el acabado de la "
        "pared del fondo"
    ),
    "Choose a larger pan or a thinner finish; the inspector decides.": (
        "Escoja una base más grande o un acabado más delgado; el inspector decide."
    ),
    "It lacks {short} whatever the depth is.": "Faltan {short}, sea cual sea el fondo.",
    "It lacks {short} whatever the width is.": "Faltan {short}, sea cual sea el ancho.",
    "the inside width from wall L to wall R at three depths": (
        "el ancho interior de la pared izquierda a la derecha a tres fondos"
    ),
    "the studs of both side walls above the flange": (
        "los montantes de las dos paredes laterales arriba de la pestaña"
    ),
    "width {width} at height {height}, {depth} from the back": (
        "ancho {width} a la altura {height}, a {depth} del fondo"
    ),
    # valve
    "board": "tablero",
    "membrane": "membrana",
    "mortar": "mortero",
    "tile": "loseta",
    "{layer} {thickness}": "{layer} {thickness}",
    "wall {wall}: plane {plane} at the valve": "{wall:wall}: plano {plane} en la válvula",
    "Re-block the valve {short} {way}, or move the plane.": (
        "Cambie el bloqueo de la válvula {short} {way}, o mueva el plano."
    ),
    "Re-block the valve: move the body {lacks} to {most} {way}.": (
        "Cambie el bloqueo de la válvula: mueva el cuerpo de {lacks} a {most} {way}."
    ),
    "The valve may not be re-blocked and lacks {short}: move the plane, or change the finish.": (
        "No se puede cambiar el bloqueo de la válvula y faltan {short}: mueva el plano o cambie el acabado."
    ),
    "It lacks {short} and re-blocking reaches {reach}: move the plane or the pipes.": (
        "Faltan {short} y el bloqueo alcanza {reach}: mueva el plano o los tubos."
    ),
    "the studs beside it lie {off} proud of it": "los montantes de al lado están {off} salidos",
    "the studs beside it lie {off} behind it": "los montantes de al lado están {off} metidos",
    "{value} after re-blocking by {by} {way}": "{value} tras mover el bloqueo {by} {way}",
    "as it is: {depth}; re-blocking is in the plan": (
        "como está: {depth}; el cambio de bloqueo está en el plan"
    ),
    # the way in
    "the clear width of the narrowest door or turn on the way": (
        "el ancho libre de la puerta o vuelta más angosta del camino"
    ),
    "the pan's width and depth over the flanges": "el ancho y el fondo de la base por fuera de las pestañas",
    "the pan's shorter side": "el lado corto de la base",
    "the pan's width": "el ancho de la base",
    "door stops and casings": "topes y molduras de puerta",
    "pan {width} by {depth}, carried flat": "base {width} por {depth}, cargada acostada",
    "Carry it on edge if the turn allows, or take off a door stop or casing: it lacks {short} flat.": (
        "Métala de parada si la vuelta lo permite, o quite un tope o una moldura de la puerta: acostada "
        "faltan {short}."
    ),
    "narrowest at height {height}, between {what}": "lo más angosto a la altura {height}, entre {what}",
    "taken straight down, not tilted; its sides are straight, turned as suits best": (
        "bajada derecha, sin inclinar; sus lados son rectos, girada como mejor quede"
    ),
    "above {at} it is tilted in": "arriba de {at} se mete inclinada",
    "{number} strips left off until the pan is set; with all on it would be {everything}": (
        "tiras que esperan hasta que la base esté puesta: {number}; con todas serían {everything}"
    ),
    "It lacks {short}: clear {what}, or {low}.": "Faltan {short}: libere {what}, o {low}.",
    "tilt the pan in below it and say from which height": (
        "meta la base inclinada por debajo y diga desde qué altura"
    ),
    "bring the pan in low: from {at} down it passes straight; say that it is tilted in from there": (
        "meta la base por abajo: de {at} para abajo pasa derecha; diga que desde ahí se mete inclinada"
    ),
    "Read how far it stands out: {things}.": "Lea cuánto sobresale: {things}.",
    "{name} ({kind})": "{name} ({kind})",
}
"""English form to Spanish."""
