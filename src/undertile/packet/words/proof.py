"""The sentences of the proof page, in English and Spanish."""

from __future__ import annotations

PROOF: dict[str, tuple[str, str]] = {
    "proof-title": ("Proof of the walls", "Prueba de las paredes"),
    "proof-cover": ("Before it was covered", "Antes de tapar"),
    "proof-pass": ("PASS", "CUMPLE"),
    "proof-fail": ("FAIL", "NO CUMPLE"),
    "proof-not shown": ("NOT SHOWN", "SIN DEMOSTRAR"),
    "proof-all-pass": (
        "The walls as read again are within the tolerance below.",
        "Las paredes, leídas otra vez, están dentro de la tolerancia de abajo.",
    ),
    "proof-some-fail": (
        "Something read again is outside the tolerance: see below.",
        "Algo leído otra vez está fuera de la tolerancia: vea abajo.",
    ),
    "proof-some-open": (
        "What is not shown is not a pass: below stands what to read to show it.",
        "Lo que no está demostrado no cumple: abajo dice qué leer para demostrarlo.",
    ),
    "proof-flat": (
        "Flat: {long} under {over} and {short} under {under}, measured from the high points.",
        "Plana: {long} bajo {over} y {short} bajo {under}, medido desde los puntos altos.",
    ),
    "proof-plumb": ("Plumb: {limit} in {over}.", "A plomo: {limit} en {over}."),
    "proof-band": (
        "Each face: flush to {band} behind its plane at the flange, within {band} of it above.",
        "Cada cara: a ras o hasta {band} detrás de su plano en la pestaña; más arriba, a {band} o menos.",
    ),
    "proof-source-a108.02-4.2.2": (
        "ANSI A108.02 section 4.2.2, a tile edge of 15 in or more",
        "ANSI A108.02 sección 4.2.2, loseta con un lado de 15 pulg. o más",
    ),
    "proof-source-a108-flat-small": (
        "ANSI A108 / TCNA, all tile edges under 15 in; from memory, not re-read",
        "ANSI A108 / TCNA, losetas con lados menores de 15 pulg.; de memoria, sin releer",
    ),
    "proof-source-ufgs-thinset-plumb": (
        "UFGS, studs for thin-set tile",
        "UFGS, montantes para loseta en capa delgada",
    ),
    "proof-source-convention-3": (
        "convention 3.3, our default",
        "convención 3.3, valor nuestro",
    ),
    "proof-col-wall": ("Wall", "Pared"),
    "proof-col-verdict": ("Verdict", "Resultado"),
    "proof-col-gap": ("Widest gap under {length}", "Mayor espacio bajo {length}"),
    "proof-col-plumb": ("Plumb", "A plomo"),
    "proof-col-face": ("Face off its plane, most", "Cara fuera de su plano, máximo"),
    "proof-col-rests": ("Readings", "Lecturas"),
    "proof-limit": ("limit {limit}", "límite {limit}"),
    "proof-none": ("nothing says", "sin dato"),
    "proof-by-readings": ("by the readings", "por las lecturas"),
    "proof-by-straightedge": ("straightedge laid on", "con la regla larga puesta"),
    "proof-close": ("close", "justo"),
    "proof-close-is": (
        "Close: within its uncertainty of the limit.",
        "Justo: su incertidumbre alcanza el límite.",
    ),
    "proof-photo-trued": ("{wall}, square-on, marks in view", "{wall}, de frente, marcas a la vista"),
    "proof-photo-straightedge": ("{wall}, straightedge laid", "{wall}, con la regla larga puesta"),
    "proof-plumb-is": ("no lean", "sin inclinación"),
    "proof-lean-in": ("{lean}, top into the room", "{lean}, lo alto hacia adentro"),
    "proof-lean-back": ("{lean}, top back", "{lean}, lo alto hacia atrás"),
    "proof-proud": ("{off} proud", "{off} salida"),
    "proof-back": ("{off} back", "{off} metida"),
    "proof-on": ("on it", "en él"),
    "proof-again": ("{again} read again", "{again} leídas otra vez"),
    "proof-first": ("{first} of the first survey", "{first} de la primera lectura"),
    "proof-open": ("{open} asked for and not read", "{open} pedidas y no leídas"),
    "proof-guessed": ("{guessed} never read", "{guessed} nunca leídas"),
    "proof-at": ("{stud} at {height}", "{stud} a {height}"),
    "proof-height": ("height {height}", "altura {height}"),
    "proof-slant": ("from {one} to {two}", "de {one} a {two}"),
    "proof-pan": ("Pan", "Base"),
    "proof-play": (
        "Play {depth} from the back: {play} ({limit})",
        "Holgura a {depth} del fondo: {play} ({limit})",
    ),
    "proof-play-none": ("Play {depth} from the back", "Holgura a {depth} del fondo"),
    "proof-diagonals": (
        "Square, diagonals of the planes: {value}",
        "Escuadra, diagonales de los planos: {value}",
    ),
    "proof-diagonals-again": (
        "Square, diagonals measured again: {value}",
        "Escuadra, diagonales medidas otra vez: {value}",
    ),
    "proof-differ": ("differ {by}", "difieren {by}"),
    "proof-readings": ("Readings as typed", "Lecturas como se escribieron"),
    "proof-key": (
        "Line to wood, by height above the subfloor. Grey: stands on the first survey. "
        "Empty box: asked for and not read. ?: never read.",
        "De la línea a la madera, por altura sobre el subpiso. Gris: vale la primera lectura. "
        "Casilla vacía: pedida y no leída. ?: nunca leída.",
    ),
    "proof-zero": ("zero is {nominal}", "el cero es {nominal}"),
    "proof-show": ("What would show the rest", "Qué demostraría lo demás"),
    "proof-mend": ("What fails", "Qué no cumple"),
    "proof-do-read": ("Read again: {spots}.", "Lea otra vez: {spots}."),
    "proof-do-never": ("Read, never read so far: {spots}.", "Lea, nunca leídas hasta ahora: {spots}."),
    "proof-do-doubt": (
        "In doubt, read once more before anything else: {spots}.",
        "En duda, lea una vez más antes de nada: {spots}.",
    ),
    "proof-do-line": (
        "{wall}: the line hangs elsewhere than at the survey. Hang it back and read again.",
        "{wall}: la línea no cuelga donde colgaba. Vuelva a colgarla y lea otra vez.",
    ),
    "proof-do-edge": (
        "{wall}: slide {edge} {ways} and write the widest gap.",
        "{wall}: pase {edge} {ways} y apunte el mayor espacio.",
    ),
    "proof-way-up": ("up every stud", "por cada montante"),
    "proof-way-along": ("along every height", "a lo largo de cada altura"),
    "proof-way-across": ("slanting both ways", "en diagonal en ambos sentidos"),
    "proof-edge": ("a {length} straightedge", "una regla larga de {length}"),
    "proof-edge-long": ("a straightedge as long as fits", "la regla más larga que quepa"),
    "proof-do-sticks": (
        "Measure the inside width with pinch sticks {depth} from the back.",
        "Mida el ancho interior con varas a {depth} del fondo.",
    ),
    "proof-do-diagonals": (
        "Measure both diagonals at the pan.",
        "Mida las dos diagonales a la altura de la base.",
    ),
    "proof-do-plane": ("{where}: {off} off its plane.", "{where}: {off} de su plano."),
    "proof-do-gap": (
        "{where}: gap {gap} under {length}, limit {limit}.",
        "{where}: espacio de {gap} bajo {length}, límite {limit}.",
    ),
    "proof-do-lean": ("{wall}: {lean} in {over}.", "{wall}: {lean} en {over}."),
    "proof-do-play": (
        "Play {depth} from the back: {play}, wanted {limit}.",
        "Holgura a {depth} del fondo: {play}, se pide {limit}.",
    ),
    "proof-do-square": ("Diagonals {value}.", "Las diagonales {value}."),
    "proof-who": ("Read by", "Leyó"),
    "proof-when": ("On", "Fecha"),
    "proof-tools": ("With", "Con"),
    "proof-sigma": (
        "Standard uncertainty: a reading {reading}, a gap under a straightedge {gap}.",
        "Incertidumbre estándar: una lectura {reading}, un espacio bajo la regla larga {gap}.",
    ),
    "proof-digest": (
        "Digest of the readings (SHA-256): {digest}",
        "Huella de las lecturas (SHA-256): {digest}",
    ),
    "proof-sign-read": ("Read by: name and signature", "Leyó: nombre y firma"),
    "proof-sign-seen": ("Seen by: name and signature", "Vio: nombre y firma"),
    "proof-sign-date": ("Date", "Fecha"),
    "proof-photos": ("Photos", "Fotos"),
    "proof-note": (
        "Board goes on after this. Local code and licensed trades decide.",
        "El tablero va después de esto. Deciden el código local y los oficios con licencia.",
    ),
}
"""By key: (English, Spanish)."""

AGAIN_FINDINGS: dict[str, tuple[str, str]] = {
    "again-in-doubt": (
        "{where}: the new reading fits neither the plan nor the first survey. Read it once more.",
        "{where}: la lectura nueva no cuadra con el plan ni con la primera lectura. Lea una vez más.",
    ),
    "again-line-moved": (
        "{where}: the line hangs elsewhere than at the survey. Hang it back and read again.",
        "{where}: la línea no cuelga donde colgaba. Vuelva a colgarla y lea otra vez.",
    ),
    "again-planed-past-limit": (
        "{where}: planed deeper than allowed. Plane no more there; read it once more.",
        "{where}: cepillado más de lo permitido. No cepille más ahí; lea una vez más.",
    ),
    "again-planes-moved": (
        "{where}: the faces are right on another plane. Ask before touching them again.",
        "{where}: las caras quedan bien en otro plano. Pregunte antes de tocarlas otra vez.",
    ),
    "again-no-plan": (
        "{where}: what is there cannot be brought right. Ask before going on.",
        "{where}: lo que hay no se puede dejar bien. Pregunte antes de seguir.",
    ),
    "again-not-planned": (
        "{where}: read again, and there is no plan for it.",
        "{where}: leída otra vez, y no tiene plan.",
    ),
}
"""Findings of what was read again, by code, in a crew's words."""

AGAIN_CHECKS: dict[str, tuple[str, str]] = {
    "again-face": ("Face against its plane, read again", "Cara contra su plano, leída otra vez"),
    "again-up": ("Straightedge up the stud, read again", "Regla larga por el montante, otra vez"),
    "again-flat": ("Flatness, read again", "Planitud, leída otra vez"),
    "again-plumb": ("Plumb, read again", "Plomo, leído otra vez"),
    "again-play": ("Play of the pan, measured again", "Holgura de la base, medida otra vez"),
    "again-diagonals": ("Diagonals at the pan, after the work", "Diagonales en la base, tras el trabajo"),
}
"""Checks of what was read again, by the head of their code."""
