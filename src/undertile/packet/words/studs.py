"""A wall and its studs on the crew sheet, English and Spanish. Slots in braces are figures."""

from __future__ import annotations

STUDS: dict[str, tuple[str, str]] = {
    "thing-supply pipe": ("supply pipe", "el tubo de agua"),
    "thing-drain or vent": ("drain or vent", "el desagüe o la ventilación"),
    "thing-stack": ("stack", "la bajante"),
    "thing-other": ("thing in the way", "lo que estorba"),
    "way-back": ("back into the wall", "hacia adentro de la pared"),
    "way-room": ("toward the room", "hacia el cuarto"),
    "do-re-set": (
        "Re-set",
        "Recolocar",
    ),
    "recipe-re-set": (
        "Re-set it in its track, its face on the last column.",
        "Vuelva a colocarlo en su riel, con la cara en la lectura de la última columna.",
    ),
    # a wall and its studs
    "wall-L": ("left wall", "pared izquierda"),
    "wall-B": ("back wall", "pared del fondo"),
    "wall-R": ("right wall", "pared derecha"),
    "line-hangs": (
        "THE LINE hangs right when it shows, as first read, {list}.",
        "LA LÍNEA está bien cuando muestra, como al medir, {list}.",
    ),
    "line-spot": ("{reading} ({stud} at {height})", "{reading} ({stud} a {height})"),
    "line-stays": ("After the work still so: {list}.", "Después del trabajo igual: {list}."),
    "line-marks": (
        "After the work by its marks alone: these faces change.",
        "Después del trabajo solo por sus marcas: estas caras cambian.",
    ),
    "line-not-told": (
        "THE LINE: too little was read to say how it hung; hang it on the marks of the survey.",
        "LA LÍNEA: se leyó muy poco para decir cómo estaba; tiéndala en las marcas de las lecturas.",
    ),
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
    "legend-hatch": ("crosshatched: plane", "cuadriculado: cepillar"),
    "legend-wait": ("striped: waits until the pan is set", "rayado: espera a que la base esté puesta"),
    "col-height": ("Height", "Altura"),
    "col-stud": ("Stud", "Mont."),
    "col-amount": ("Amount", "Quitar / agregar"),
    "col-reads": ("Then reads", "Debe quedar"),
    "not-read": (
        "not read here: worked out from what stands around",
        "sin lectura aquí: calculado con lo de alrededor",
    ),
    "held": ("Held: {reason}", "Fijado: {reason}"),
    "held-doubt": (
        "Held over a reading in doubt: {where}. Read it again before you rely on the hold.",
        "Fijado sobre una lectura dudosa: {where}. Léala otra vez antes de confiar en lo fijado.",
    ),
    "held-doubt-more": (
        "Held over readings in doubt: {where} and {more} more. Read them again before you rely on the hold.",
        "Fijado sobre lecturas dudosas: {where} y {more} más. Léalas otra vez antes de confiar en lo fijado.",
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
        "Run the cut out to nothing at the next height without X.",
        "Que el corte termine en nada en la siguiente altura sin X.",
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
        "Plastic shim {gap} behind the flange: pan set, not yet fastened.",
        "Calza de plástico de {gap} detrás de la pestaña: base puesta, aún sin atornillar.",
    ),
    "recipe-screw": ("Board screw here: {screw}.", "Tornillo del tablero aquí: {screw}."),
    "recipe-service": (
        "{what} {left} behind the wood's face at {height}.",
        "{what} a {left} detrás de la cara de la madera, a la altura {height}.",
    ),
    "recipe-service-plate": (
        "{what} {left} behind the wood's face at {height}: no screw there without a nail plate; "
        "no screw, staple or nail from {low} to {high}.",
        "{what} a {left} detrás de la cara de la madera, a la altura {height}: ahí ningún "
        "tornillo sin placa protectora; ningún tornillo, grapa ni clavo de {low} a {high}.",
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
    "recipe-to-top": (
        "Above the top height keep the same depth to the stud's end.",
        "Arriba de la última altura siga con la misma profundidad hasta el final del montante.",
    ),
    "recipe-screw-buy": (
        "Board screw here: {screw}, NOT on the van: buy.",
        "Tornillo del tablero aquí: {screw}, NO está en la camioneta: cómprelo.",
    ),
    "recipe-service-let-in": (
        "{what} {left} behind the wood's face at {height}. First a nail plate let in flush over "
        "it. Then no screw, staple or nail from {low} to {high}.",
        "{what} a {left} detrás de la cara de la madera, a la altura {height}. Primero una placa "
        "protectora empotrada al ras. Después ningún tornillo, grapa ni clavo de {low} a {high}.",
    ),
    "recipe-at-stud": (
        "{what} at {height}, {along} from the corner, at this stud{depth}. No plane, screw, "
        "staple or nail from {low} to {high} before you see where its pipes run.",
        "{what} a la altura {height}, a {along} de la esquina, en este montante{depth}. Ni "
        "cepillo, ni tornillo, grapa o clavo de {low} a {high} antes de ver por dónde pasan sus "
        "tubos.",
    ),
    "at-valve": (
        "Valve",
        "Válvula",
    ),
    "at-supply pipe": (
        "Supply pipe",
        "Tubo de agua",
    ),
    "at-drain or vent": (
        "Drain or vent",
        "Desagüe o ventilación",
    ),
    "at-stack": (
        "Stack",
        "Bajante",
    ),
    "at-other": (
        "Something in front",
        "Algo enfrente",
    ),
    "at-behind": (
        ", {amount} behind its finished face",
        ", {amount} detrás de su cara terminada",
    ),
    "at-ahead": (
        ", {amount} in front of its finished face",
        ", {amount} delante de su cara terminada",
    ),
    "at-flush": (
        ", flush with its finished face",
        ", al ras de su cara terminada",
    ),
    "at-not-measured": (
        ", how deep is not measured",
        ", sin medir a qué profundidad",
    ),
    "recipe-ends": (
        "Not judged: between the heights read, at strip ends {ends}, a straight line between the "
        "readings leaves the face up to {lies} (limit {band}). Straightedge there once all "
        "strips are on; if it shows, read there and plan again.",
        "Sin juzgar: entre las alturas leídas, donde terminan las tiras ({ends}), una línea "
        "recta entre lecturas deja la cara hasta {lies} (límite {band}). Pase ahí la regla con "
        "todas las tiras puestas; si se nota, lea ahí y planee otra vez.",
    ),
    "lies-proud": (
        "{amount} proud of the plane",
        "{amount} salida del plano",
    ),
    "lies-behind": (
        "{amount} behind the plane",
        "{amount} metida del plano",
    ),
    "good": (
        "Right when the faces read {on} to {high} at {top} and below, {low} to {high} above.",
        "Bien cuando las caras se leen de {on} a {high} a {top} y abajo, de {low} a {high} arriba.",
    ),
    "good-no-pan": (
        "Right when the faces read {low} to {high}.",
        "Bien cuando las caras se leen de {low} a {high}.",
    ),
    "good-lean": (
        "Right within {band} of the last column; in the flange zone never proud of the plane.",
        "Bien a menos de {band} de la última columna; en la zona de la pestaña nunca salido del plano.",
    ),
    "good-lean-no-pan": (
        "Right within {band} of the last column.",
        "Bien a menos de {band} de la última columna.",
    ),
}
"""Key to (English, Spanish)."""
