"""What the floor says, in Spanish."""

from __future__ import annotations

FLOOR: dict[str, str] = {
    # what is cut into joists
    "Have an engineer say what carries it; do not cut more here.": (
        "Que un ingeniero diga qué la sostiene; no corte más aquí."
    ),
    "Measure it and the joist again.": "Mida otra vez eso y la vigueta.",
    "1/{parts} of the joist's actual {depth}, {edition}": "1/{parts} del alto real {depth}, {edition}",
    "IRC R502.8.1, 2015 to 2021 text": "IRC R502.8.1, texto de 2015 a 2021",
    "none in a joist 4 in nominal or thicker, but at its ends": (
        "ninguna en una vigueta de 4 pulg nominales o más gruesa, salvo en las puntas"
    ),
    "{width} thick": "{width} de grueso",
    "the notch is {depth} deep": "la muesca tiene {depth} de hondo",
    "the notch ends at {end}": "la muesca termina a {end}",
    "the hole is {size} wide": "el agujero mide {size}",
    "the hole is {size} wide and starts {top} below the top": (
        "el agujero mide {size} y empieza {top} abajo de la orilla de arriba"
    ),
    "the hole is at {at}": "el agujero está a {at}",
    "{low} to {high}": "{low} a {high}",
    "not between {low} and {high}": "no entre {low} y {high}",
    "its maker's rules": "las reglas de su fabricante",
    "Look the cut up in the maker's sheet, or ask an engineer.": (
        "Busque el corte en la hoja del fabricante o pregunte a un ingeniero."
    ),
    "sawn lumber's rules, or its maker's": "las reglas de madera aserrada o las de su fabricante",
    "Find out whether the joist is sawn lumber.": "Averigüe si la vigueta es de madera aserrada.",
    "a share of its depth": "una parte de su alto",
    "Measure the joist's actual depth.": "Mida el alto real de la vigueta.",
    "in an outer third of the span": "en un tercio de afuera del claro",
    "Measure the joist's clear span.": "Mida el claro de la vigueta.",
    "Measure the joist's actual thickness.": "Mida el grueso real de la vigueta.",
    "thirds of the clear span of {span}": "tercios del claro de {span}",
    "the joist's top": "la orilla de arriba de la vigueta",
    "its bottom": "su orilla de abajo",
    "least toward {what}": "lo menos hacia {what}",
    "hole {name}": "el agujero {name}",
    "notch {name}": "la muesca {name}",
    # what carries
    "actual thickness": "grueso real",
    "actual depth": "alto real",
    "clear span": "claro",
    "distance to its neighbors": "distancia a sus vecinas",
    "Look the span up in the maker's table: sawn lumber's values are not its own.": (
        "Busque el claro en la tabla del fabricante: los valores de madera aserrada no son los suyos."
    ),
    "Measure joist {name}: {what}.": "Mida la vigueta {name}: {what}.",
    "Probe how deep joist {name} is soft: what is left of it is not known.": (
        "Pinche qué tan hondo está blanda la vigueta {name}: no se sabe qué queda de ella."
    ),
    "Joist {name} is soft or cut right through: it carries nothing there.": (
        "La vigueta {name} está blanda o cortada de lado a lado: ahí no carga nada."
    ),
    "L/{limit} or stiffer": "L/{limit} o más firme",
    "L/{ratio}, {down} in {span}": "L/{ratio}, {down} en {span}",
    "L/{ratio} what is soft left out, {down} in {span}": "L/{ratio} sin contar lo blando, {down} en {span}",
    "Slope it: water stands on a level bed.": "Dele pendiente: en una cama a nivel se queda el agua.",
    "Nothing more at joist {name}: {by} said on {day} that it carries.": (
        "Nada más en la vigueta {name}: {by} dijo el {day} que aguanta."
    ),
    "Slope it more, or write why the code in force asks for less.": (
        "Dele más pendiente, o escriba por qué el código vigente pide menos."
    ),
    "L/{ratio} less its notches, {down} in {span}": "L/{ratio} descontadas sus muescas, {down} en {span}",
    "Say which side notch {name} is in, top or underside.": (
        "Diga en qué orilla está la muesca {name}, la de arriba o la de abajo."
    ),
    "live load {pounds} lb a sq ft": "carga viva {pounds} lb por pie²",
    "Give the weight of {names}.": "Dé el peso de {names}.",
    "Stiffen it: see what each way buys.": "Refuércela: vea qué da cada manera.",
    "Stiffen it. What each way buys shows once all that lies on it is entered, weighed.": (
        "Refuércela. Lo que da cada manera se muestra cuando todo lo que va encima está anotado, con su peso."
    ),
    "Enter what goes on the subfloor, bed, board, mortar and tile, each with its thickness.": (
        "Anote lo que va sobre el subpiso: cama, tablero, mortero y loseta, cada uno con su grueso."
    ),
    "Measure span and depth of joist {name} again: {span} is no span for a depth of {depth}.": (
        "Mida otra vez claro y peralte de la vigueta {name}: {span} no es claro para un peralte de {depth}."
    ),
    "Choose the tile: it holds for ceramic, not for stone.": (
        "Escoja la loseta: alcanza para cerámica, no para piedra."
    ),
    "live {pounds}": "viva {pounds}",
    "floor itself {pounds}": "el piso mismo {pounds}",
    "{what} {pounds}": "{what} {pounds}",
    "{parts} lb a sq ft": "{parts} lb por pie²",
    "live and dead {pounds} lb a sq ft": "viva y muerta {pounds} lb por pie²",
    "dead load {pounds} lb a sq ft, the span tables count 10 or 20": (
        "carga muerta {pounds} lb por pie²; las tablas de claros cuentan 10 o 20"
    ),
    "actual {width} x {depth}, {spacing} apart": "medida real {width} x {depth}, cada {spacing}",
    "with the sister that stands beside it": "con la vigueta gemela que tiene al lado",
    "cleats and blocks at its side count for nothing (common practice, no source)": (
        "maderos de apoyo y bloques a su lado no cuentan (práctica común, sin fuente)"
    ),
    "what is soft counts for nothing": "lo blando no cuenta",
    "Find the grade stamp: it passes as {woods}.": "Busque el sello de grado: pasa si es {woods}.",
    "{wood} or better": "{wood} o mejor",
    "100 % of its bending value": "100 % de su valor a flexión",
    "100 % of its shear value": "100 % de su valor a cortante",
    "one depth from its bearing": "a un peralte de su apoyo",
    "notch {name}, {left} of {depth} left": "muesca {name}, quedan {left} de {depth}",
    "Measure joist {name}.": "Mida la vigueta {name}.",
    "{share} %, {where}": "{share} %, {where}",
    "{wood}, {value} psi in shear": "{wood}, {value} psi a cortante",
    "species not known: the least of all it may be, {value} psi in shear": (
        "especie sin saber: lo menos que puede ser, {value} psi a cortante"
    ),
    "holes are judged by the code's limits, not here": (
        "los agujeros se juzgan por los límites del código, no aquí"
    ),
    "Have an engineer say what a joist with a soft place carries.": (
        "Que un ingeniero diga qué carga una vigueta con una parte blanda."
    ),
    "Have an engineer say what carries it.": "Que un ingeniero diga qué la sostiene.",
    "a sister {size}, {wood}, from bearing to bearing": (
        "una vigueta gemela de {size}, {wood}, de apoyo a apoyo"
    ),
    "a joist like it in each bay beside it": "una vigueta igual en cada hueco a sus lados",
    "a beam below its middle, spans of {span}": "una viga abajo, en medio: claros de {span}",
    "blocking: nothing under an even load; it holds panel edges": (
        "bloqueo: nada con carga pareja; sostiene las orillas de las hojas"
    ),
    "species and grade not known: the least of all it may be": (
        "especie y grado sin saber: lo menos de todo lo que puede ser"
    ),
    "{known}, grade not known: the least of all it may be": (
        "{known}, grado sin saber: lo menos de todo lo que puede ser"
    ),
    "{known}, species not known: the least of all it may be": (
        "{known}, especie sin saber: lo menos de todo lo que puede ser"
    ),
    "plywood {thickness}": "triplay {thickness}",
    "osb {thickness}": "osb {thickness}",
    "cement board {thickness}": "tablero de cemento {thickness}",
    "gypsum panel {thickness}": "hoja de yeso {thickness}",
    "mortar bed {thickness}": "cama de mortero {thickness}",
    "tile mortar {thickness}": "mortero de loseta {thickness}",
    "ceramic tile {thickness}": "loseta cerámica {thickness}",
    "stone tile {thickness}": "loseta de piedra {thickness}",
    "leveling compound {thickness}": "pasta niveladora {thickness}",
    "other {thickness}": "otra capa {thickness}",
    # the panel between joists
    "Measure each layer of the subfloor by calipers at a cut edge.": (
        "Mida cada capa del subpiso con calibrador en una orilla cortada."
    ),
    "enough for joists {gap} apart": "bastante para viguetas cada {gap}",
    "a rated panel": "una hoja con sello de claro",
    "Boards or thin panels are for the building official to judge.": (
        "Las tablas o las hojas delgadas las juzga el inspector."
    ),
    "{thickness}, joists up to {gap} apart": "{thickness}, viguetas hasta cada {gap}",
    "{thickness}, not alone": "{thickness}, sola no",
    "joists {gap} apart": "viguetas cada {gap}",
    "as the only layer": "como única capa",
    "joists up to {gap} apart": "viguetas hasta cada {gap}",
    "Add joists between, before the panel is laid.": "Agregue viguetas en medio antes de poner la hoja.",
    "No joist is entered between {low} and {high}: find the one there and enter it. If there is none, set "
    "one and enter it.": (
        "No hay vigueta apuntada entre {low} y {high}: busque la que está ahí y apúntela. Si no hay ninguna, "
        "ponga una y apúntela."
    ),
    "with a second layer over it": "con una segunda capa encima",
    "Add a second layer, or block and add joists.": (
        "Agregue una segunda capa, o ponga bloqueo y agregue viguetas."
    ),
    "Lay rated panels over it: no published stiffness fits what is there.": (
        "Ponga encima hojas con sello: ninguna firmeza publicada vale para lo que hay."
    ),
    "{pounds} lb in the middle between joists {gap} apart; layers not glued": (
        "{pounds} lb en medio entre viguetas cada {gap}; capas sin pegar"
    ),
    "an estimate over two spans; over one span only L/{ratio}": (
        "un cálculo aproximado sobre dos claros; sobre uno solo L/{ratio}"
    ),
    "rows of blocking {gap} apart make it L/{ratio}": "hileras de bloqueo cada {gap} la dejan en L/{ratio}",
    "the panel runs over one span only somewhere": "en algún lugar la hoja va sobre un solo claro",
    "Add joists between before it is laid, or a second layer over all of it once it is, screwed into the "
    "first only, and type it among what lies on top.": (
        "Agregue viguetas en medio antes de ponerla, o luego una segunda capa sobre todo, atornillada solo a "
        "la primera, y apúntela entre lo que va encima."
    ),
    # the patch
    "Measure the layer on the joists by calipers at a cut edge.": (
        "Mida la capa sobre las viguetas con calibrador en una orilla cortada."
    ),
    "Measure the second layer by calipers at a cut edge.": (
        "Mida la segunda capa con calibrador en una orilla cortada."
    ),
    "Enter the panels at hand, measured by calipers.": "Anote las hojas que tiene, medidas con calibrador.",
    "Pack the joists' tops {amount} before it goes down.": (
        "Calce las viguetas por arriba {amount} antes de ponerla."
    ),
    "Take a thinner panel, or feather the floor around it; it is never planed.": (
        "Tome una hoja más delgada, o empareje el piso alrededor; nunca se cepilla."
    ),
    "flush": "al ras",
    "{amount} proud": "{amount} salido",
    "{amount} low": "{amount} bajo",
    "old {old}, new {new}, both actual": "vieja {old}, nueva {new}, las dos reales",
    "no bad stretch entered reaches as far as the moisture readings": (
        "ningún tramo dañado anotado llega hasta donde dicen las lecturas de humedad"
    ),
    "Widen it, or leave it out: then the readings set it.": (
        "Hágalo más ancho o no lo anote: entonces lo ponen las lecturas."
    ),
    "left side": "lado izquierdo",
    "right side": "lado derecho",
    "back side": "fondo",
    "front side": "frente",
    "no dry reading toward the {sides}": "ninguna lectura seca hacia: {sides}",
    "Read the subfloor further that way before the patch is cut.": (
        "Lea el subpiso más lejos por ahí antes de cortar el parche."
    ),
    "left {left}, right {right}, back {back}, front {front}": (
        "izquierda {left}, derecha {right}, fondo {back}, frente {front}"
    ),
    "Measure both sides from the same wall again.": "Mida otra vez los dos lados desde la misma pared.",
    "there is none that reaches past it": "no hay ninguna que llegue más allá",
    "Enter the joists on both sides, or where the floor ends; mend soft joists first.": (
        "Anote las viguetas de los dos lados, o dónde termina el piso; primero repare las blandas."
    ),
    "{run} span": "{run} claro",
    "{run} spans": "{run} claros",
    "{spans} or more": "{spans} o más",
    "Block the bay at 16 in and add a joist, or carry the patch on to the next joist.": (
        "Ponga bloqueo a 16 pulg y agregue una vigueta, o lleve el parche hasta la siguiente."
    ),
    "in line": "en línea",
    "on different joists": "en viguetas distintas",
    "Take longer panels.": "Tome hojas más largas.",
    "off the seams below": "fuera de las juntas de abajo",
    "too near a seam below": "muy cerca de una junta de abajo",
    "{seams} off the seams below, {joists} off the joists": (
        "a {seams} de las juntas de abajo, a {joists} de las viguetas"
    ),
    "Cut the second layer further back by hand, or take other panels.": (
        "Corte la segunda capa más atrás a mano, o tome otras hojas."
    ),
    "no panel holds {pieces}": "ninguna hoja alcanza para {pieces}",
    "Measure the panels again, or enter longer ones.": "Mida otra vez las hojas, o anote unas más largas.",
    "{count} on the van": "{count} en la camioneta",
    "Buy {count} more, of the same actual thickness.": "Compre {count} más, del mismo grueso real.",
    # level under the pan, and what moves
    "within {limit}, level": "dentro de {limit}, a nivel",
    "within {limit} of a plane that falls {slope} in a foot at most, along either wall": (
        "dentro de {limit} de un plano que baja {slope} en un pie a lo más, a lo largo de cada pared"
    ),
    "Measure the pan's width and depth, or enter its footprint.": (
        "Mida el ancho y el fondo de la base, o anote el lugar que ocupa."
    ),
    "Read the floor under the pan from the level line, its four corners first.": (
        "Lea el piso bajo la base desde la línea de nivel, primero sus cuatro esquinas."
    ),
    "{count} places read; highest at {high}, lowest at {low}": (
        "{count} lugares leídos; el más alto {high}, el más bajo {low}"
    ),
    "readings {high} and {low}": "lecturas {high} y {low}",
    "Read the floor at {spots}.": "Lea el piso a {spots}.",
    "{name} is not read: read it first, {x} from the left wall, {y} from the back.": (
        "{name} está sin leer: léalo primero, {x} desde la pared izquierda, {y} desde el fondo."
    ),
    "{names} are not read: read them first.": "{names} están sin leer: léalos primero.",
    # where the wet extent is open
    "The wet extent is open at an end: probe {place} first; {names} may be of wood that goes out.": (
        "No se sabe hasta dónde está mojado: lea primero {place:place} con el medidor; {names} puede ser "
        "madera que se quita."
    ),
    "The wet extent is open at an end: read the subfloor further that way first; {names} may be of wood that "
    "goes out.": (
        "No se sabe hasta dónde está mojado: lea primero el subpiso más adelante; {names} puede ser madera "
        "que se quita."
    ),
    # what is left of a joist
    "{share} %": "{share} %",
    "what is left at {where}, by net section": "lo que queda en {where}, por sección neta",
    "Measure {what} and the joist again: it cannot be in it.": (
        "Mida otra vez {what} y la vigueta: no puede estar en ella."
    ),
    "Ask an engineer what it carries: notch {name} in its underside, {depth} deep, splits it.": (
        "Que un ingeniero diga qué carga: la muesca {name} abajo, de {depth} de hondo, la raja."
    ),
    "Joist {name} is cut right through: it carries nothing there.": (
        "La vigueta {name} está cortada de lado a lado: ahí no carga nada."
    ),
    # what the patch would cover
    "Do not cover yet, do not lay the patch: {missing}. Cut it and fit it dry meanwhile.": (
        "No tape todavía, no ponga el parche: {missing}. Mientras tanto córtelo y preséntelo en seco."
    ),
    "The patch may be laid, as read on {day}. Read the wood under it again that morning.": (
        "Se puede poner el parche, según lo leído el {day}. Esa mañana lea otra vez la madera que tapa."
    ),
    "{where}: {reads}, {call}": "{where:place}: {reads}, {call}",
    "{where}: {call}": "{where:place}: {call}",
    "not read under it: {names}": "sin leer debajo: {names}",
    "fewer than {least} places read": "menos de {least} lugares leídos",
    "one source of water not ruled out": "una fuente de agua sin descartar",
    "{number} sources of water not ruled out": "{number} fuentes de agua sin descartar",
    "photo of the floor missing": "falta la foto del piso",
    "inspection open": "inspección pendiente",
    "Once the new panel lies, read {names} on it.": "Ya puesta la hoja nueva, lea en ella {names}.",
    "Once the new panel lies, read {names} on it: what was read there is of wood that goes out.": (
        "Ya puesta la hoja nueva, lea en ella {names}: lo que se leyó ahí es de madera que se quita."
    ),
    "Once the new panel lies, read {names} on it: what was read at {old} is of wood that goes out.": (
        "Ya puesta la hoja nueva, lea en ella {names}: lo que se leyó en {old} es de madera que se quita."
    ),
    "{first} {then}": "{first} {then}",
    "{name} is typed, the name of a size": "está escrito {name}, que es nombre de medida",
    "A caliper usually shows {actual}. Measure it; if it really is {name}, write {name}-0.": (
        "El calibrador casi siempre marca {actual}. Mídala; si de veras es {name}, escriba {name}-0."
    ),
    "{x} from the left wall, {y} from the back": "{x} desde la pared izquierda, {y} desde el fondo",
    "{count} more": "{count} más",
    "Take off and fill as listed, then read it again.": (
        "Quite y rellene como dice la lista, y luego léalo otra vez."
    ),
    "{name} is at the same place, {x} and {y}": "{name} está en el mismo lugar, {x} y {y}",
    "Keep one, or correct where it is.": "Deje una, o corrija dónde está.",
    "it reads {reading}": "lee {reading}",
    "Read it again: an inch or more off is a slip, a hole or a missing panel.": (
        "Léala otra vez: una pulgada o más es un error, un agujero o una hoja que falta."
    ),
    "no plane does: the floor is too far out": "ningún plano sirve: el piso está demasiado desnivelado",
    "Lift the panel and pack or plane down the joists, or lay a mortar bed.": (
        "Levante la hoja y calce o cepille las viguetas, o haga una cama de mortero."
    ),
    "{minutes} minutes, and no plan takes fewer than {least}": (
        "{minutes} minutos, y ningún plan toma menos de {least}"
    ),
    "Use it; a plan with fewer minutes may exist.": "Úselo; tal vez haya uno con menos minutos.",
    "Read the floor under the pan again from the level line, at {names}.": (
        "Lea otra vez el piso bajo la base desde la línea de nivel, en {names}."
    ),
    "Read the floor under the pan on the new panel, at {names}.": (
        "Lea el piso bajo la base sobre la hoja nueva, en {names}."
    ),
    "from the level line down to the pan's seat": "de la línea de nivel al asiento de la base",
    "from the level line down to the top of the flange": "de la línea de nivel a lo alto de la pestaña",
    "the level line above the subfloor at {at}": "la línea de nivel sobre el subpiso en {at}",
    "its named point": "su punto con nombre",
    "Measure the level line's height above the floor at {at}, once the floor is done.": (
        "Mida la altura de la línea de nivel sobre el piso en {at}, con el piso terminado."
    ),
    "Measure the level line's height above the floor at {at} again, once the floor is done.": (
        "Mida otra vez la altura de la línea de nivel sobre el piso en {at}, con el piso terminado."
    ),
    "The flange zone ends at {top} now: height {heights} moves into it; plan the walls again.": (
        "La zona de la pestaña termina ahora a {top}: la altura {heights} entra en ella; planee otra vez las "
        "paredes."
    ),
    "The flange zone ends at {top} now: height {heights} moves out of it; plan the walls again.": (
        "La zona de la pestaña termina ahora a {top}: la altura {heights} sale de ella; planee otra vez las "
        "paredes."
    ),
    "Stud readings stay as they are: they hang on the level line.": (
        "Las lecturas de los montantes siguen igual: cuelgan de la línea de nivel."
    ),
    # the bed
    "inside {width} by {depth}": "dentro de {width} por {depth}",
    "Measure the drain's center again: it is at {x} and {y}.": (
        "Mida otra vez el centro del desagüe: está a {x} y {y}."
    ),
    "{fall} in a foot": "{fall} en un pie",
    "{fall} in 305 mm": "{fall} en 305 mm",
    "run {length}": "distancia {length}",
    "Move the drain toward the middle, or slope two ways to a line drain: a licensed plumber.": (
        "Mueva el desagüe hacia el centro, o dé pendiente a dos lados hacia un desagüe lineal: un plomero "
        "con licencia."
    ),
    # where it can hurt someone, and what is missing
    "Shore the floor on both sides before this joist is touched; a licensed engineer or the building "
    "official says how it is mended.": (
        "Apuntale el piso por los dos lados antes de tocar esta vigueta; un ingeniero con licencia o el "
        "inspector dice cómo se repara."
    ),
    "{found}, {more}": "{found}, {more}",
    "soft from {low} to {high}, {deep}": "blanda de {low} a {high}, {deep}",
    "not probed how deep": "sin pinchar qué tan hondo",
    "{depth} deep": "{depth} de hondo",
    "on top or in the underside is not said": "sin decir si arriba o abajo",
    "at a bearing": "en un apoyo",
    "in the middle third": "en el tercio de en medio",
    "its span is not measured": "su claro no está medido",
    "Probe it with an awl; until then: {step}": "Pínchela con punzón; mientras tanto: {step}",
    "Scrape to sound wood, let it dry, and sister it from {low} to {high} at least, two rows of structural "
    "screws.": (
        "Raspe hasta madera sana, deje secar y póngale vigueta gemela de {low} a {high} al menos, en dos "
        "hileras de tornillos estructurales."
    ),
    "Have it carried by a hanger or a ledger that fits, as the building official allows.": (
        "Que la sostenga un colgador o un larguero que le quede, como permita el inspector."
    ),
    "Say what it rests on: it is enough on wood or metal, not on masonry.": (
        "Diga en qué descansa: alcanza sobre madera o metal, no sobre mampostería."
    ),
    "the floor is cut open": "se corta el piso",
    "Sample what will be disturbed where the house or local rules ask for it; keep it wet and whole until "
    "the answer is there.": (
        "Tome muestra de lo que se va a tocar donde la casa o las reglas locales lo piden; manténgalo mojado "
        "y entero hasta tener la respuesta."
    ),
    "concrete or mortar is ground": "se esmerila concreto o mortero",
    "Shroud, 25 cfm an inch of wheel, filter of 99 % or better; indoors over 4 h a respirator too.": (
        "Campana, 25 cfm por pulgada de disco, filtro de 99 % o mejor; adentro más de 4 h también respirador."
    ),
    "it is not entered": "no está anotado",
    "Look from below or at the nail lines; write out from, or along, the back wall.": (
        "Vea desde abajo o por las líneas de clavos; escriba hacia afuera o a lo largo de la pared del fondo."
    ),
    "a patch is asked for and no joist is entered": "se pide un parche y no hay vigueta anotada",
    "Measure each joist's center from the fixed wall.": "Mida el centro de cada vigueta desde la pared fija.",
    "the span is not measured": "el claro no está medido",
    "Measure it from below, inside face to inside face of what carries it.": (
        "Mídalo desde abajo, de cara a cara por dentro de lo que la sostiene."
    ),
    "{name} is at the same place": "{name} está en el mismo lugar",
    "Keep one, enter the other as its sister, or correct where it is.": (
        "Deje una, anote la otra como su gemela, o corrija dónde está."
    ),
    "a bed of {weight} lb a sq ft is planned and is not in the loads": (
        "hay una cama de {weight} lb por pie² planeada que no está en las cargas"
    ),
    "a clear span of at least {least}, twice its depth": "un claro de al menos {least}, dos veces su peralte",
    "a span of {span}": "un claro de {span}",
    "Measure span and depth again; nothing it carries is shown by such a span.": (
        "Mida otra vez el claro y el peralte; con un claro así no se muestra nada de lo que carga."
    ),
    "Add it to the loads on top, so that the joists are judged with it.": (
        "Agréguela a las cargas de encima, para juzgar las viguetas con ella."
    ),
}
"""English form to Spanish."""
