"""How the sheet is read, its lists, the pan's checks and the boxes, English and Spanish."""

from __future__ import annotations

LISTS: dict[str, tuple[str, str]] = {
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
    "cuts-alike": (
        "Looks like {others}: name each piece.",
        "Parecido a {others}: marque cada pieza.",
    ),
    "cuts-board": (
        "No.",
        "Núm.",
    ),
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
    "line-flange shim": (
        "Plastic shim",
        "Calza de plástico",
    ),
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
    "mortar-else": (
        "One of these not so: no mortar. Enter what you read and have the sheet made again.",
        "Algo no sale así: nada de mortero. Anote lo que leyó y pida la hoja de nuevo.",
    ),
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
        "Tape from wood to wood {depth} from the back, at the flange, strips on, no shims: {wood} planned; "
        "right from {least} to {most}.",
        "Cinta de madera a madera a {depth} del fondo, a la altura de la pestaña, con tiras, sin calzas: "
        "{wood} planeado; bien de {least} a {most}.",
    ),
    "mortar-rock": (
        "Dry fit: goes straight down, does not rock.",
        "Presentada en seco: baja derecho y no se tambalea.",
    ),
    "mortar-outlet": (
        "Outlet stands over the drain.",
        "La salida queda sobre el desagüe.",
    ),
    "mortar-diagonals": ("Diagonals at the pan: {limit}.", "Diagonales a la altura de la base: {limit}."),
    "mortar-boxes": (
        "The boxes of the first re-read are entered in the job, and its re-check says no fail.",
        "Los cuadros de la segunda lectura están en el trabajo, y su revisión no dice falla.",
    ),
    "differ-at-most": ("they differ at most {value}", "la diferencia es máximo {value}"),
    "reread-head": ("Read again after the work", "Lea otra vez después del trabajo"),
    "reread-note": (
        "Open boxes only; grey: nothing to read there. From the same line, hung on its marks, to the "
        "wood: where a strip lies, to the strip's face. What each should read stands on its stud's card.",
        "Solo los cuadros abiertos; gris: ahí no se lee. De la misma línea, tendida en sus marcas, a la "
        "madera: donde hay tira, a la cara de la tira. Lo que debe leerse está en la ficha del montante.",
    ),
    "who": ("Read by", "Leyó"),
    "instrument": ("Instrument", "Instrumento"),
    "when": ("Date", "Fecha"),
    "why-head": ("Why", "Por qué"),
    "why-note": (
        "The small marks w1, w2 ... beside the figures lead here. More: the command undertile "
        "explain JOB and the last column, with your job file for JOB.",
        "Las marcas chicas w1, w2 ... junto a las medidas llevan aquí. Más: el comando undertile "
        "explain JOB y la última columna, con su archivo en lugar de JOB.",
    ),
    "why-mark": ("Mark", "Marca"),
    "why-what": ("Figure", "Dato"),
    "why-from": ("Height: reading", "Altura: lectura"),
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
    "line-nail plate": (
        "Nail plate",
        "Placa protectora",
    ),
    "line-loose-shim": (
        "Plastic shim, thin, to have at hand",
        "Calza de plástico delgada, a la mano",
    ),
    "screws-buy": (
        "buy",
        "comprar",
    ),
    "fasten-head": (
        "Pan set, before its flange is fastened",
        "Base puesta, antes de atornillar la pestaña",
    ),
    "fasten-shims": (
        "Shims are in: {list}.",
        "Las calzas están puestas: {list}.",
    ),
    "fasten-flange": (
        "At every stud beside it the flange touches, is within {gap}, or is shimmed. No shim pushes the pan.",
        "En cada montante a su lado la pestaña toca, está a menos de {gap} o está calzada. "
        "Ninguna calza empuja la base.",
    ),
    "fasten-loose": (
        "With the pan set so, the flange still stands off {list}: add thin plastic there until {gap} or "
        "less is left.",
        "Con la base así, la pestaña todavía queda separada de {list}: agregue plástico delgado "
        "ahí hasta que quede {gap} o menos.",
    ),
    "fasten-drain": (
        "The drain's joint is made as its maker says.",
        "La unión del desagüe está hecha como dice el fabricante.",
    ),
    "reread-first": (
        "{wall}, now",
        "{wall}, ahora",
    ),
    "reread-off": (
        "Small figures: what it should read with {list} still off.",
        "Cifras chicas: lo que se debe leer sin {list} todavía.",
    ),
    "reread-after": (
        "{wall}, after the pan, with {list} on",
        "{wall}, después de la base, ya con {list}",
    ),
    "how-head": (
        "How to read this sheet",
        "Cómo leer esta hoja",
    ),
    "how-line": (
        "THE LINE is the one hung along each wall when it was read; the head of the wall's page says "
        "how to hang it again. A reading goes from the line to the wood, or to the face of the strip on "
        "it. A smaller reading is nearer to you. Zero on each wall: {zero}.",
        "LA LÍNEA es la que se tendió a lo largo de cada pared al medir; arriba en la página de la "
        "pared dice cómo tenderla otra vez. Una lectura va de la línea a la madera, o a la cara de la "
        "tira puesta. Lectura más chica: más cerca de usted. El cero de cada pared: {zero}.",
    ),
    "how-amount": (
        "AMOUNT: X take off, ↑ add. THEN READS: from the line to the face when that stud is "
        "done; ~ to the nearest mark of a rule.",
        "CANTIDAD: X quitar, ↑ agregar. DEBE QUEDAR: de la línea a la cara con el montante "
        "terminado; ~ a la marca más cercana de la regla.",
    ),
    "how-strips": (
        "a, b, c are the strips of a stud in the order they go on, one over the other ON ITS "
        "FACE; they are drawn beside it only so that you see them. Numbers in a ring are things "
        "in or before the wall.",
        "a, b, c son las tiras de un montante en el orden en que se ponen, una sobre otra EN SU "
        "CARA; se dibujan al lado solo para que se vean. Los números en un círculo son cosas "
        "dentro o delante de la pared.",
    ),
    "how-hatch": (
        "Crosshatch: plane. Stripes: waits until the pan is set. Plain grey: strip, now.",
        "Cuadriculado: cepillar. Rayado: espera hasta que la base esté puesta. Gris liso: tira, ahora.",
    ),
    "how-marks": (
        "✓ leave as it is. Empty ring: plastic shim behind the flange. S sister, N new stud. ? "
        "not read here. w1, w2: the row at the back that says why.",
        "✓ dejar como está. Círculo vacío: calza de plástico detrás de la pestaña. S montante "
        "gemelo, N montante nuevo. ? sin lectura. w1, w2: la fila del final que dice por qué.",
    ),
    "how-heights": (
        "Heights and places are above the subfloor and from the corner; on side walls, from the back corner.",
        "Las alturas son desde el subpiso y los lugares desde la esquina; en las paredes "
        "laterales, desde la esquina del fondo.",
    ),
}
"""Key to (English, Spanish)."""
