"""The survey form's sentences, English and Spanish side by side. Slots in braces are figures or names."""

from __future__ import annotations

FORM: dict[str, tuple[str, str]] = {
    "form-title": ("Survey form", "Hoja de medidas"),
    "form-how": (
        "From the line to the wood, at each stud and height. Blank is not measured; never write 0 for it. "
        "Cannot reach: x. Small print is what the job has already.",
        "De la línea a la madera, en cada montante y altura. En blanco es sin medir; nunca escriba 0 "
        "por eso. "
        "Si no alcanza: x. Lo impreso en chico ya está en el trabajo.",
    ),
    "form-arris": (
        "A twisted stud: read both edges at the face, the second in the lower corner of the box.",
        "Un montante torcido: lea las dos aristas de la cara, la segunda en la esquina de abajo del cuadro.",
    ),
    "form-slip": (
        "Say each number back before it is written. Read the first point again last: a bumped line "
        "shows there.",
        "Repita cada número en voz alta antes de escribirlo. Lea al final otra vez el primer punto: "
        "ahí se ve si la línea se movió.",
    ),
    "form-who": ("Read by", "Leyó"),
    "form-wrote": ("Written by", "Escribió"),
    "form-date": ("Date", "Fecha"),
    "form-instrument": ("Line and rule (which, how exact)", "Línea y regla (cuál, qué tan exacta)"),
    "form-level": (
        "Level line above the subfloor, and where it was measured",
        "Línea de nivel sobre el subpiso, y dónde se midió",
    ),
    "form-name": ("Job", "Trabajo"),
    "form-place": ("Place", "Lugar"),
    "form-order-B": (
        "Studs from the left corner to the right.",
        "Montantes de la esquina izquierda a la derecha.",
    ),
    "form-order-side": (
        "Studs from the back corner outward.",
        "Montantes desde la esquina del fondo hacia afuera.",
    ),
    "form-nominal": ("Reading that counts as zero", "Lectura que vale cero"),
    "form-top": ("Underside of the top plate", "Cara de abajo de la solera superior"),
    "form-height": ("Height", "Altura"),
    "form-along": ("Along", "A lo largo"),
    "form-again": ("First point again, last: {where}", "El primer punto otra vez, al final: {where}"),
    "form-at": ("{stud} at {height}", "{stud} a {height}"),
    "form-kind": ("What it is", "Qué es"),
    "form-what": (
        "What it is: wood, steel or treated? bears? pipe or wire in the bay? soft?",
        "Qué es: ¿madera, acero o tratado? ¿carga? ¿tubo o cable en el hueco? ¿blando?",
    ),
    "form-checks": ("Checks that make a slip visible", "Comprobaciones que muestran un error"),
    "form-widths": (
        "Inside widths, wood to wood, with sticks",
        "Anchos interiores, de madera a madera, con varas",
    ),
    "form-width-depth": ("{depth} from the back", "a {depth} del fondo"),
    "form-gaps": ("Left line to right line", "De la línea izquierda a la derecha"),
    "form-diagonals": ("Diagonals, corner to opposite wall", "Diagonales, de la esquina a la pared opuesta"),
    "form-diagonal-BL": (
        "from the back left corner to the right wall, {depth} out, at {height}",
        "de la esquina izquierda del fondo a la pared derecha, a {depth} del fondo, a la altura {height}",
    ),
    "form-diagonal-BR": (
        "from the back right corner to the left wall, {depth} out, at {height}",
        "de la esquina derecha del fondo a la pared izquierda, a {depth} del fondo, a la altura {height}",
    ),
    "form-squares": (
        "Side line against square with the back line (+ the far end stands into the room)",
        "Escuadra de la línea lateral con la línea del fondo (+ el extremo entra al cuarto)",
    ),
    "form-square": ("{wall}, over {over}", "{wall}, en {over}"),
    "form-levels": (
        "Level on the stud (+ the top stands prouder)",
        "Nivel en el montante (+ arriba más salido)",
    ),
    "form-level-at": ("{stud}, {low} to {high}", "{stud}, de {low} a {high}"),
    "form-level-blank": ("stud ____ from ____ to ____", "montante ____ de ____ a ____"),
    "form-pan": ("The pan and what it meets", "La base y lo que la rodea"),
    "form-pan-width": (
        "Pan width over the flanges, actual",
        "Ancho de la base por fuera de las pestañas, real",
    ),
    "form-pan-depth": (
        "Pan depth over the flanges, actual",
        "Fondo de la base por fuera de las pestañas, real",
    ),
    "form-flange-height": (
        "Top of the flange above the subfloor",
        "Orilla de arriba de la pestaña sobre el subpiso",
    ),
    "form-flange-thickness": ("Flange thickness", "Grueso de la pestaña"),
    "form-outlet-x": ("Outlet from the left flange face", "Salida desde la cara de la pestaña izquierda"),
    "form-outlet-y": ("Outlet from the back flange face", "Salida desde la cara de la pestaña del fondo"),
    "form-drain-x": ("Drain from the side line", "Desagüe desde la línea lateral"),
    "form-drain-y": ("Drain from the back line", "Desagüe desde la línea del fondo"),
    "form-valve": (
        "Valve: line to its body datum, and its finish window",
        "Válvula: de la línea al cuerpo, y su margen de acabado",
    ),
    "form-door": ("Narrowest door or turn on the way in", "La puerta o vuelta más angosta de la entrada"),
    "form-board": (
        "Board, membrane, mortar, tile: thickness of each",
        "Tablero, membrana, mortero, loseta: grueso de cada uno",
    ),
    "form-notes": (
        "Notes: pipe, wire, soft wood, what stands in front",
        "Notas: tubo, cable, madera blanda, lo que estorba enfrente",
    ),
}
"""Key to (English, Spanish)."""
