"""What the pan's checks and demands say, in Spanish."""

from __future__ import annotations

PAN: dict[str, str] = {
    # what floor and water bring into the order of work
    "Floor, {where}: {step}": "Piso, {where:place}: {step}",
    "Floor: lay the second layer of patch {number}, {pieces}, screwed into the first only (floor sheet).": (
        "Piso: ponga la segunda capa del parche {number}, {pieces}, atornillada solo a la primera "
        "(hoja del piso)."
    ),
    "Bring the floor under the pan level (floor sheet).": "Nivele el piso bajo la base (hoja del piso).",
    "Let {studs} dry to {goal} and read it again before it is trued.": (
        "Deje secar {studs} hasta {goal} y léalo otra vez antes de ponerlo a plano."
    ),
    "Let {studs} dry to {goal} and read them again before they are trued.": (
        "Deje secar {studs} hasta {goal} y léalos otra vez antes de ponerlos a plano."
    ),
    "Let {studs} dry and read again before anything there is trued.": (
        "Deje secar {studs} y lea otra vez antes de poner a plano nada ahí."
    ),
    # where a plane or a wall lies
    "on the nominal plane": "en el plano cero",
    "{value} into the room": "{value} hacia el cuarto",
    "{value} back": "{value} hacia atrás",
    "into the room": "hacia el cuarto",
    "out of the room": "hacia afuera del cuarto",
    "toward the room": "hacia el cuarto",
    "back into the wall": "hacia adentro de la pared",
    "wall {walls}": "{walls:wall}",
    "walls {walls}": "{walls:wall}",
    "wall {side} {by}": "{side:wall} {by}",
    "wall {wall} {plane}": "{wall:wall} {plane}",
    "wall {other} {plane}": "{other:wall} {plane}",
    "wall {wall} {turned}": "{wall:wall} {turned}",
    "wall {side} {turned}": "{side:wall} {turned}",
    "wall B {turned}": "pared del fondo {turned}",
    "wall B {face}": "pared del fondo {face}",
    "wall {side}: plane {plane}": "{side:wall}: plano {plane}",
    "plane of wall {wall} {turned}": "plano de la {wall:wall} {turned}",
    # limits and figures
    "at most {most} over the pan": "a lo más {most} a lo largo de la base",
    "at most {most} in {over}": "a lo más {most} en {over}",
    "at most {most} off": "a lo más {most} de diferencia",
    "at most {share} of the depth": "a lo más {share} del fondo",
    "differ at most {most}": "diferencia de a lo más {most}",
    "differ {value}": "diferencia {value}",
    "no lean": "sin inclinación",
    "square": "a escuadra",
    "measured": "medido",
    # does the pan drop in
    "open side": "lado abierto",
    "play {spread}": "holgura {spread}",
    "nothing faces the pan across (no {walls}), so there is no play to keep": (
        "nada queda enfrente de la base (no hay {walls}), así que no hay holgura que cuidar"
    ),
    "shown: the flange, the turn and the drain at {walls}, each on its own line": (
        "se muestra: la pestaña, el giro y el desagüe en {walls}, cada una con su línea"
    ),
    "not shown: what stands on the open side (a panel, a door, a fixture); this job does not hold it": (
        "no se muestra: lo que va en el lado abierto (mampara, puerta, mueble); este trabajo no lo trae"
    ),
    "There is no plan yet.": "Todavía no hay plan.",
    "There is no plan yet: see what the planner says is in the way.": (
        "Todavía no hay plan: vea qué lo impide."
    ),
    "There is no plan for the side walls yet.": "Todavía no hay plan para las paredes laterales.",
    "There is no plan for the side walls yet: see what the planner says is in the way.": (
        "Todavía no hay plan para las paredes laterales: vea qué lo impide."
    ),
    "opening {opening} between the nominal planes": "ancho libre {opening} entre los planos cero",
    "pan {width} over the flanges": "base {width} por fuera de las pestañas",
    "over {most}: only with every fastened stud shimmed": (
        "más de {most}: solo con calza en cada montante donde se atornilla"
    ),
    "The widths read are not sharp enough for this window: measure with pinch sticks at this depth and "
    "height.": (
        "Los anchos leídos no son tan exactos como pide este margen: mida con dos reglas corredizas a "
        "este fondo y altura."
    ),
    "play comes to {play}, uncertain by more than the whole window": (
        "la holgura da {play}, con una duda mayor que todo el margen permitido"
    ),
    "Take wall L or R back by {by} more in the flange zone, plate too, or measure the pan again.": (
        "Lleve la pared izquierda o la derecha {by} más hacia atrás a la altura de la pestaña, también la "
        "solera, o mida otra vez la base."
    ),
    "Build wall L or R out by {by} more.": "Engruese la pared izquierda o la derecha {by} más.",
    "binds {depth} from the back at height {height}": "aprieta a {depth} del fondo, a la altura {height}",
    "the same at every depth and height asked": "igual en cada fondo y altura que se pide",
    "straight across only: {next_step}": "solo de lado a lado: {next_step}",
    "{least} left over": "{least} de sobra",
    "{value} left over": "{value} de sobra",
    "Measure the pan's depth from the back flange to the front, over the outside faces.": (
        "Mida el fondo de la base, de la pestaña del fondo al frente, por fuera."
    ),
    "Read the back wall: without it a square pan has nothing to be set against.": (
        "Lea la pared del fondo: sin ella la base no tiene contra qué ponerse."
    ),
    "Measure how far the line of {walls} is out of square with the back line, or both diagonals.": (
        "Mida cuánto se sale de escuadra la línea de {walls} con la línea del fondo, o las dos diagonales."
    ),
    "front of L and back of R": "el frente de la izquierda y el fondo de la derecha",
    "back of L and front of R": "el fondo de la izquierda y el frente de la derecha",
    "not at all": "nada",
    "{over} over the pan's width": "{over} en el ancho de la base",
    "least between {name}": "lo menor entre {name}",
    "the back plane turns {turned}": "el plano del fondo gira {turned}",
    "Bring the side walls square to the back wall: the pan would only go in turned off the back wall.": (
        "Ponga las paredes laterales a escuadra con la del fondo: la base solo entraría girada y separada "
        "del fondo."
    ),
    "the pan and its play": "la base y su holgura",
    "{bare} bare, {shimmed} shimmed": "{bare} sin calzas, {shimmed} con calzas",
    "bare studs: {behind}": "montantes sin calza: {behind}",
    "{wall} on its plane": "{wall:wall} en su plano",
    "{wall} {off} behind its plane": "{wall:wall} {off} metida de su plano",
    "{wall} {off} proud of its plane": "{wall:wall} {off} salida de su plano",
    "pan {width} and at least {least} play": "base {width} y al menos {least} de holgura",
    "the margin is that of the narrower": "el margen es el del más angosto",
    "A stud stands proud of its plane in the flange zone: see the gaps of each wall.": (
        "Un montante está salido de su plano a la altura de la pestaña: vea las separaciones de cada pared."
    ),
    "play is {most}": "la holgura es {most}",
    "Shim every fastened stud of walls L and R; beyond the plan's cost: {studs}, {each} minute each.": (
        "Calce cada montante de las paredes izquierda y derecha donde se atornilla; no está en el costo "
        "del plan: {studs}, {each} minuto cada uno."
    ),
    "Shim every fastened stud of walls L and R; beyond the plan's cost: none, {each} minute each.": (
        "Calce cada montante de las paredes izquierda y derecha donde se atornilla; fuera del costo del "
        "plan no queda ninguno, {each} minuto cada uno."
    ),
    "Read the walls around the pan.": "Lea las paredes alrededor de la base.",
    # what must be measured
    "Measure {what}.": "Mida {what}.",
    "Measure the thickness of the board.": "Mida el grueso del tablero.",
    "Measure the thickness of {missing}.": "Mida el grueso de: {missing}.",
    "Measure the pan's width over the outside faces of the flanges, at their widest.": (
        "Mida el ancho de la base por fuera de las pestañas, en lo más ancho."
    ),
    "Measure the pan's width and depth over the outside faces of the flanges, at their widest.": (
        "Mida el ancho y el fondo de la base por fuera de las pestañas, en lo más ancho."
    ),
    "Measure the pan's width and depth over the outside faces of the flanges.": (
        "Mida el ancho y el fondo de la base por fuera de las pestañas."
    ),
    "Measure the pan's width over the outside faces of the flanges.": (
        "Mida el ancho de la base por fuera de las pestañas."
    ),
    "Measure the pan's depth over the outside faces of the flanges.": (
        "Mida el fondo de la base por fuera de las pestañas."
    ),
    "Measure the pan's width over the flanges.": "Mida el ancho de la base por fuera de las pestañas.",
    "Measure the pan's depth over the flanges.": "Mida el fondo de la base por fuera de las pestañas.",
    "Measure the width along the back wall over the outside faces of the flanges, at their widest.": (
        "Mida el ancho a lo largo de la pared del fondo, por fuera de las pestañas, en lo más ancho."
    ),
    "Measure the depth from the back flange to the front over the outside faces of the flanges, at "
    "their widest.": (
        "Mida el fondo de la pestaña del fondo al frente, por fuera de las pestañas, en lo más ancho."
    ),
    "Measure the inside width from wall L to wall R at three depths in the flange zone.": (
        "Mida el ancho interior de la pared izquierda a la derecha a tres fondos, a la altura de la pestaña."
    ),
    "Measure the inside width from wall L to wall R at three depths.": (
        "Mida el ancho interior de la pared izquierda a la derecha a tres fondos."
    ),
    "Measure from the subfloor to the top of the flange with the pan standing as it will be set.": (
        "Mida del subpiso a la orilla de arriba de la pestaña, con la base parada como va a quedar."
    ),
    "Read the studs of wall {wall}.": "Lea los montantes de la {wall:wall}.",
    "Read the studs of wall {other}.": "Lea los montantes de la {other:wall}.",
    "the pan's width is not measured": "el ancho de la base no está medido",
    "the pan's depth is not measured": "el fondo de la base no está medido",
    "{lacks}; the carton says {carton}, which is nominal and is not used": (
        "{lacks}; la caja dice {carton}, que es nominal y no se usa"
    ),
    "the flange height is not entered; the lowest height read ({height}) stands for it": (
        "falta la altura de la pestaña; se usa la altura más baja leída ({height})"
    ),
    # square and skew
    "Hold a 3-4-5 or a square line between the two reference lines, or measure both diagonals.": (
        "Ponga un 3-4-5 o una línea a escuadra entre las dos líneas, o mida las dos diagonales."
    ),
    "Read the back wall: diagonals run from its corners.": (
        "Lea la pared del fondo: las diagonales salen de sus esquinas."
    ),
    "from back left {first}, from back right {second}": (
        "desde el fondo a la izquierda {first}, desde el fondo a la derecha {second}"
    ),
    "width back {back}, front {front}, front mark {mark} along each side wall": (
        "ancho al fondo {back}, al frente {front}, marca del frente a {mark} en cada pared lateral"
    ),
    "Turn a side wall toward square, or move the pan's front: see the corners below.": (
        "Gire una pared lateral hacia la escuadra o mueva el frente de la base: vea las esquinas abajo."
    ),
    "turned {by} into the room over {over}": "gira {by} hacia el cuarto en {over}",
    "turned {by} back over {over}": "gira {by} hacia atrás en {over}",
    "not known over the pan": "no se sabe a lo largo de la base",
    "square to the room": "a escuadra con el cuarto",
    "closes {value}": "cierra {value}",
    "opens {value}": "abre {value}",
    "Turn wall {side} toward square with the back wall.": (
        "Gire la {side:wall} hacia la escuadra con la del fondo."
    ),
    "Turn the plane of wall {wall} toward its line.": "Gire el plano de la {wall:wall} hacia su línea.",
    # what is asked of the planes
    "play {low} to {high}": "holgura {low} a {high}",
    "at most {limit} over {over}": "a lo más {limit} en {over}",
    "{play}, or up to {most} with every fastened stud shimmed; the plan's cost counts the shims of "
    "studs that stay back of their plane, the others are listed with the play": (
        "{play}, o hasta {most} con calza en cada montante donde se atornilla; el costo del plan cuenta "
        "las calzas de los montantes metidos de su plano, las otras se listan con la holgura"
    ),
    "differ at most {limit} over {width} by {depth}": "diferencia de a lo más {limit} en {width} por {depth}",
    "Wall {wall} straight to the room over the pan": (
        "La {wall:wall} derecha con el cuarto a lo largo de la base"
    ),
    "Diagonals at the pan": "Diagonales en la base",
    "Corner of walls B and {wall} square over the pan": (
        "Esquina de la pared del fondo y la {wall:wall} a escuadra en la base"
    ),
    "Play {depth} from the back": "Holgura a {depth} del fondo",
    "Width {depth} from the back, stud to stud": "Ancho a {depth} del fondo, de montante a montante",
    "opening {opening} between the nominal planes at height {height}, pan {pan} over the flanges, {words}": (
        "ancho libre {opening} entre los planos cero a la altura {height}, base {pan} por fuera de las "
        "pestañas, {words}"
    ),
    "A square pan set against the back wall passes between the sides": (
        "Una base a escuadra, puesta contra el fondo, cabe entre los lados"
    ),
    "front of wall L, back of wall R; pan {width} by {depth}": (
        "frente de la pared izquierda, fondo de la derecha; base {width} por {depth}"
    ),
    "back of wall L, front of wall R; pan {width} by {depth}": (
        "fondo de la pared izquierda, frente de la derecha; base {width} por {depth}"
    ),
    "the line of wall {wall} stands {turn} {side} there ({how})": (
        "la línea de la {wall:wall} queda ahí {turn} {side} ({how})"
    ),
    "the line of wall {wall} is taken as square to the back line, nothing measured says so": (
        "la línea de la {wall:wall} se toma a escuadra con la del fondo, sin medida que lo diga"
    ),
    "the line of wall {wall} is square to the back line": (
        "la línea de la {wall:wall} está a escuadra con la del fondo"
    ),
    "follows from the other side and the widths": "sale del otro lado y de los anchos",
}
"""English form to Spanish."""
