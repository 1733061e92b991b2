"""The floor sheet, and what moved since the readings: English and Spanish. Slots in braces are figures."""

from __future__ import annotations

FLOOR_SHEET: dict[str, tuple[str, str]] = {
    "floor-title": ("Floor sheet", "Hoja del piso"),
    "floor-fails-head": ("DOES NOT PASS", "NO PASA"),
    "floor-open-head": ("Not shown yet: measure", "Sin mostrar todavía: mida"),
    "floor-open": ("{title}, {where}. {step}", "{title}, {where}. {step}"),
    "floor-order-head": ("Order of work", "Orden del trabajo"),
    "floor-do-shore": (
        "STOP first: see above. Nothing is cut before it is lifted.",
        "Primero el ALTO de arriba. Nada se corta antes de que se levante.",
    ),
    "floor-do-cut": (
        "Snap the drawing's cut lines from the two walls, cut, and put an awl into each joist uncovered.",
        "Marque con hilo las líneas del dibujo desde las dos paredes, corte y pinche con punzón cada vigueta "
        "que quede a la vista.",
    ),
    "floor-do-wood": (
        "Set blocks and cleats, glued and screwed, flush with the joists' tops.",
        "Ponga bloques y maderos de apoyo, con pegamento y tornillos, al ras de arriba de las viguetas.",
    ),
    "floor-do-lay": (
        "Lay the pieces dry ({pieces}), then glue and screw them.",
        "Presente las piezas en seco ({pieces}); luego pegamento y tornillos.",
    ),
    "floor-do-level": (
        "Bring the floor under the pan level: what comes off first, then what is filled.",
        "Nivele el piso bajo la base: primero lo que se quita, luego lo que se rellena.",
    ),
    "floor-do-on-new": (
        "Read the floor on the new panel at {names} and enter it; nothing is taken off or filled before. "
        "Then bring it level as this sheet says, printed again.",
        "Lea el piso sobre la hoja nueva en {names} y anótelo; antes no se quita ni se rellena nada. "
        "Luego nivele como diga esta hoja, impresa otra vez.",
    ),
    "floor-do-again": (
        "Read again what is listed, and enter it, before the walls are worked.",
        "Lea otra vez lo de la lista y anótelo antes de trabajar las paredes.",
    ),
    # joists
    "floor-joists-head": ("Joists", "Viguetas"),
    "floor-joist": ("joist", "vigueta"),
    "floor-at-L": ("from the left wall", "desde la pared izquierda"),
    "floor-at-B": ("from the back wall", "desde la pared del fondo"),
    "floor-size": ("actual size", "medida real"),
    "floor-span": ("clear span", "claro"),
    "floor-carries": ("under live load", "con carga viva"),
    "floor-under-tile": ("under the tile", "con la loseta"),
    "floor-loads": (
        "Live load {live} lb a sq ft; floor itself {base}; on top: {top}.",
        "Carga viva {live} lb por pie²; el piso mismo {base}; encima: {top}.",
    ),
    "floor-nothing-on-top": ("nothing entered", "nada anotado"),
    "floor-way": ("Joist {name}: {way}: {becomes}.", "Vigueta {name}: {way}: {becomes}."),
    "floor-way-plain": ("Joist {name}: {way}.", "Vigueta {name}: {way}."),
    # patch
    "floor-patch-head": ("The patch", "El parche"),
    "floor-patch-n": ("Patch {number}", "Parche {number}"),
    "floor-cut-lines": (
        "{layer}: cut from {left} to {right} from the left wall, {back} to {front} from the back wall.",
        "{layer}: corte de {left} a {right} desde la pared izquierda, {back} a {front} desde la del fondo.",
    ),
    "floor-pieces-head": ("Pieces", "Piezas"),
    "floor-piece": ("piece", "pieza"),
    "floor-layer": ("layer", "capa"),
    "floor-layer-lower": ("on the joists", "sobre las viguetas"),
    "floor-layer-upper": ("second layer", "segunda capa"),
    "floor-across": ("across the joists", "a través de las viguetas"),
    "floor-along": ("along them", "a lo largo"),
    "floor-cuts-head": ("Cut list", "Lista de cortes"),
    "floor-from": ("From", "De"),
    "floor-cut": ("Cut", "Corte"),
    "floor-cut-piece": ("{name} {length} x {width}", "{name} {length} x {width}"),
    "floor-of": ("{stock}, {length} x {width}", "{stock}, {length} x {width}"),
    "floor-offcut": ("{panel}, offcut {name}", "{panel}, retazo {name}"),
    "floor-whole": ("whole panel", "hoja entera"),
    "floor-fewest": (
        "Whole panels: {count}; no way needs fewer.",
        "Hojas enteras: {count}; no hay manera de usar menos.",
    ),
    "floor-some": (
        "Whole panels: {count}; fewer may do.",
        "Hojas enteras: {count}; tal vez alcance con menos.",
    ),
    "floor-buy": ("Buy {count} more, as thick.", "Compre {count} más, del mismo grueso."),
    "floor-over": ("No panel holds {pieces}.", "Ninguna hoja alcanza para {pieces}."),
    "floor-bring-head": ("Screws, blocks, cleats", "Tornillos, bloques, maderos de apoyo"),
    "floor-screws": ("screws, {layer}", "tornillos, {layer}"),
    "floor-screws-open": ("length once the panels are measured", "largo cuando se midan las hojas"),
    "floor-block": ("blocks of two-by", "bloques de dos pulgadas"),
    "floor-block-one": ("block of two-by", "bloque de dos pulgadas"),
    "floor-cleat": ("cleats of two-by", "maderos de apoyo de dos pulgadas"),
    "floor-cleat-one": ("cleat of two-by", "madero de apoyo de dos pulgadas"),
    "floor-spare": ("Screws: a tenth to spare.", "Tornillos: un décimo de más."),
    # level
    "floor-level-head": ("Level under the pan", "Nivel bajo la base"),
    "floor-level-asked": ("Highest to lowest: {asked}.", "Del más alto al más bajo: {asked}."),
    "floor-level-right": (
        "Within its limit as read: nothing is taken off or filled.",
        "Dentro del límite como se leyó: no se quita ni se rellena nada.",
    ),
    "floor-level-takes": ("{minutes}, the least there is.", "{minutes}, lo menos que hay."),
    "floor-level-takes-open": (
        "{minutes}; no way takes less than {least}.",
        "{minutes}; ninguna manera toma menos de {least}.",
    ),
    "floor-minutes": ("{minutes} min", "{minutes} min"),
    "floor-level-how": (
        "At each place: its name, the reading from the level line, and what is done. X off, ↑ filled.",
        "En cada lugar: nombre, lectura desde la línea de nivel y lo que se hace. X quitar, ↑ rellenar.",
    ),
    "floor-level-then": (
        "Done, the middle of the floor under the pan reads {low} to {high} from the level line.",
        "Al terminar, el centro del piso bajo la base lee de {low} a {high} desde la línea de nivel.",
    ),
    "floor-place": ("place", "lugar"),
    "floor-left": ("from left", "de izq."),
    "floor-back": ("from back", "de fondo"),
    "floor-unsure": (
        "? not counted: {names} may be of wood that goes out, the wet extent is open at that end.",
        "? no cuenta: {names} puede ser madera que se quita; por ahí no se sabe hasta dónde está mojado.",
    ),
    "floor-on-new": ("new panel", "hoja nueva"),
    "floor-reads": ("reads", "lee"),
    "floor-do": ("do", "haga"),
    "floor-then-reads": ("then reads", "leerá"),
    "floor-now": ("now", "ahora"),
    "floor-off": ("take off {amount}", "quite {amount}"),
    "floor-fill": ("fill {amount}", "rellene {amount}"),
    # bed
    "floor-bed-head": ("Mortar bed, in place of a pan", "Cama de mortero, en lugar de una base"),
    "floor-bed-drain": ("pre-slope at the drain", "pendiente previa en el desagüe"),
    "floor-bed-walls": (
        "pre-slope at the walls, level all round",
        "pendiente previa en las paredes, a nivel",
    ),
    "floor-bed-top": ("even bed over the liner", "cama pareja sobre la membrana"),
    "floor-bed-volume": ("mortar in place", "mortero colocado"),
    "floor-bed-bags": ("bags, a tenth to spare", "sacos, un décimo de más"),
    "floor-bed-weight": ("weight", "peso"),
    "floor-volume": ("{amount} cu ft", "{amount} pies³"),
    "floor-weight": ("{all} lb, {each} lb a sq ft", "{all} lb, {each} lb por pie²"),
    "floor-bed-sides": ("Slope to the drain, from", "Pendiente al desagüe, desde"),
    "floor-bed-run": ("run", "distancia"),
    "floor-bed-fall": ("falls in a foot", "baja en un pie"),
    "floor-bed-fall-mm": ("falls in 305 mm", "baja en 305 mm"),
    "floor-side-the back left corner": ("back left corner", "esquina del fondo, izquierda"),
    "floor-side-the back right corner": ("back right corner", "esquina del fondo, derecha"),
    "floor-side-the front left corner": ("front left corner", "esquina del frente, izquierda"),
    "floor-side-the front right corner": ("front right corner", "esquina del frente, derecha"),
    "floor-side-the left side": ("left side", "lado izquierdo"),
    "floor-side-the right side": ("right side", "lado derecho"),
    "floor-side-the back": ("back", "fondo"),
    "floor-side-the front": ("front", "frente"),
    # what moved
    "moved-head": ("What moved since the readings", "Lo que cambió desde las lecturas"),
    "moved-heights": ("Heights", "Alturas"),
    "moved-was": ("was", "era"),
    "moved-becomes": ("becomes", "queda"),
    "moved-measure": ("measure it", "mídalo"),
    "moved-unknown": ("not measured", "sin medir"),
    "moved-again": ("Read again", "Lea otra vez"),
    "moved-out": ("Cut out", "Se cortó"),
    "moved-plate": ("plate of the {wall}{along}", "solera de la {wall}{along}"),
    "moved-plate-at": ("plate of the {wall} at {along}", "solera de la {wall} a {along}"),
    "moved-stud-out": (
        "{where}, cut out {day}: what was read there was on wood that is gone. Read the new wood there.",
        "{where}, se cortó el {day}: lo leído ahí era de madera que ya no está. Lea ahí la madera nueva.",
    ),
    "moved-stud-to-cut": (
        "{where}: to be cut out. What was read there will not hold: read the new wood.",
        "{where}: se va a cortar. Lo leído ahí no valdrá: lea la madera nueva.",
    ),
    "moved-shrinks": ("Goes back as it dries", "Se mete al secarse"),
    "moved-shrink": (
        "{stud}: its face goes back {by} as it dries from {wet} to {dry}.",
        "{stud}: su cara se mete {by} al secarse de {wet} a {dry}.",
    ),
    "moved-shrink-note": (
        "Trued wet, it moves after the work: read it again once it is dry.",
        "Puesto a plano mojado, se mueve después: léalo otra vez cuando esté seco.",
    ),
    # the end
    "verdict-pass": ("pass", "bien"),
    "verdict-fail": ("FAIL", "MAL"),
    "verdict-not shown": ("not shown", "sin mostrar"),
    "floor-rules-head": ("Where each limit comes from", "De dónde viene cada límite"),
    "floor-practice": (
        "Common practice and our own figures are marked as such; local code and licensed trades decide.",
        "La práctica común y las cifras nuestras van marcadas; deciden el código local y los oficios con "
        "licencia.",
    ),
}
"""Key to (English, Spanish)."""
