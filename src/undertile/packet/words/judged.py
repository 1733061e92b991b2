"""Findings, checks, slips and sources in a crew's words, by code: what is, and what to do.

Codes are those of docs/findings.md; an entry stands for its code and for every code that begins with it and a
dash. ``{where}`` is the place. Figures stay with the tool: ``undertile explain`` shows them.
"""

from __future__ import annotations

from undertile.packet.words.drying import DRYING_CHECKS, DRYING_FINDINGS, DRYING_REMEDIES
from undertile.packet.words.floor import FLOOR_CHECKS, FLOOR_FINDINGS, FLOOR_REMEDIES
from undertile.packet.words.proof import AGAIN_CHECKS, AGAIN_FINDINGS
from undertile.packet.words.safety import SAFETY_FINDINGS
from undertile.packet.words.water import WATER_FINDINGS

OTHER = ("{where}: see undertile explain JOB {code}", "{where}: vea undertile explain JOB {code}")
"""Of a finding that has no words of its own yet: nothing is left out."""

FINDINGS: dict[str, tuple[str, str]] = {
    **AGAIN_FINDINGS,
    **WATER_FINDINGS,
    **DRYING_FINDINGS,
    **SAFETY_FINDINGS,
    **FLOOR_FINDINGS,
    "stud-soft": (
        "{where}: soft wood. Sister or replace it before the wall is closed; find what wetted it.",
        "{where}: madera blanda. Refuerce con montante gemelo o reemplace antes de cerrar la pared; "
        "busque qué la mojó.",
    ),
    "bearing-stud-out": (
        "{where}: the plan takes out a stud that bears, or may. Shore first; ask who may answer for it.",
        "{where}: el plan saca un montante que carga o puede cargar. Apuntale primero; pregunte a "
        "quien pueda responder.",
    ),
    "hold-not-offered": (
        "{where}: held to something that is not allowed there. Choose another treatment, or let it go.",
        "{where}: se fijó algo que ahí no se permite. Escoja otro trabajo o déjelo libre.",
    ),
    "no-plan": (
        "{where}: what is asked cannot all hold.",
        "{where}: no se puede cumplir todo lo que se pide.",
    ),
    "bed-must-set": (
        "{where}: wet bed. One board at a time; 12 to 24 hours before the screws are snug.",
        "{where}: cama de mortero. Un tablero a la vez; de 12 a 24 horas antes de apretar los tornillos.",
    ),
    "unknown": (
        "{where}: not known what the studs are, what they bear or what is in the bay. The cautious "
        "case is planned.",
        "{where}: no se sabe qué son los montantes, qué cargan o qué hay en el hueco. Se planeó lo "
        "más prudente.",
    ),
    "hold-out-of-plumb": (
        "{where}: held out of plumb by choice.",
        "{where}: se dejó fuera de plomo a propósito.",
    ),
    "hold-without-length": (
        "{where}: one stud only; read another.",
        "{where}: un solo montante; lea otro.",
    ),
    "hold": ("{where}: held as somebody decided.", "{where}: fijado como alguien decidió."),
    "stud-twisted": (
        "{where}: twisted. Plane the proud edge only, pack the other.",
        "{where}: torcido. Cepille solo la arista salida y calce la otra.",
    ),
    "stud-not-read": ("{where}: no reading. Read it.", "{where}: sin lectura. Léalo."),
    "thing-not-read": (
        "{where}: not read how far it stands out. Read it.",
        "{where}: no se leyó cuánto sobresale. Léalo.",
    ),
    "flange-not-measured": (
        "{where}: flange not measured. Measure its thickness and height.",
        "{where}: pestaña sin medir. Mida su grueso y su altura.",
    ),
    "flange-zone-not-read": (
        "{where}: no reading near the floor. Read every stud below the top of the flange.",
        "{where}: sin lectura cerca del piso. Lea cada montante abajo de la orilla de la pestaña.",
    ),
    "channel-not-measured": (
        "{where}: measure a stick of the channel.",
        "{where}: mida un tramo del canal metálico.",
    ),
    "tile-not-chosen": (
        "{where}: tile size not given; the stricter flatness is planned.",
        "{where}: falta el tamaño de la loseta; se planeó la planitud más estricta.",
    ),
    "valve-not-shown": (
        "{where}: valve depth not shown; measure what is missing.",
        "{where}: profundidad de la válvula sin mostrar; mida lo que falta.",
    ),
    "edge-not-shown": (
        "{where}: edge not shown; read it at two heights.",
        "{where}: orilla sin mostrar; léala a dos alturas.",
    ),
    "edge-height-unknown": (
        "{where}: height of a reading not usable; write it again.",
        "{where}: altura de una lectura que no sirve; escríbala otra vez.",
    ),
    "corner-not-shown": ("{where}: corner wood not measured.", "{where}: madera de la esquina sin medir."),
    "thing-minutes-missing": (
        "{where}: say how long it takes to move it.",
        "{where}: diga cuánto tarda moverlo.",
    ),
    "demand-left-out": (
        "{where}: speaks of a wall that is not read. Read that wall.",
        "{where}: se refiere a una pared sin leer. Lea esa pared.",
    ),
    "pan-width-missing": (
        "{where}: actual width not measured. Measure it over the flanges; the carton's size is not used.",
        "{where}: falta el ancho real. Mídalo por fuera de las pestañas; el de la caja no se usa.",
    ),
    "pan-depth-missing": (
        "{where}: actual depth not measured. Measure it over the flanges; the carton's size is not used.",
        "{where}: falta el fondo real. Mídalo por fuera de las pestañas; el de la caja no se usa.",
    ),
    "pan": ("{where}: a size of the pan is not measured.", "{where}: falta medir algo de la base."),
    "opening-missing": (
        "{where}: measure the inside width at three depths.",
        "{where}: mida el ancho interior a tres fondos.",
    ),
    "flange-height-missing": (
        "{where}: measure from the subfloor to the top of the flange.",
        "{where}: mida del subpiso a la orilla de arriba de la pestaña.",
    ),
    "square-not-measured": (
        "{where}: nothing says how square it is. Measure both diagonals at the height of the pan.",
        "{where}: nada dice qué tan a escuadra está. Mida las dos diagonales a la altura de la base.",
    ),
    "outlet-missing": (
        "{where}: measure the outlet from the left and back flange faces.",
        "{where}: mida la salida desde las caras de la pestaña izquierda y del fondo.",
    ),
    "drain-missing": (
        "{where}: measure the drain from the two lines.",
        "{where}: mida el desagüe desde las dos líneas.",
    ),
    "drain-side": (
        "{where}: measured from a wall that is not read.",
        "{where}: se midió desde una pared sin leer.",
    ),
    "play-shim-every-stud": (
        "{where}: more play than usual. Shim every stud the flange is fastened to.",
        "{where}: más holgura de lo normal. Calce cada montante donde se atornilla la pestaña.",
    ),
    "stiffness-left": (
        "{where}: planed thinner. If it carries a door, a bar or a load, sister it.",
        "{where}: queda más delgado. Si carga una puerta, una barra o peso, refuerce con montante gemelo.",
    ),
    "fails": ("{where}: not right as planned.", "{where}: no queda bien como está planeado."),
    "wall-not-read": (
        "{where}: not read. Read two heights of each stud to start.",
        "{where}: sin lecturas. Lea dos alturas de cada montante para empezar.",
    ),
    "heights-not-read": (
        "{where}: some heights not read. Read them before the work is proved.",
        "{where}: faltan alturas por leer. Léalas antes de dar el trabajo por bueno.",
    ),
    "readings-unchecked": (
        "{where}: nothing would show a misreading. Read a third height, or hold a level on it.",
        "{where}: nada mostraría un error de lectura. Lea una tercera altura o ponga el nivel.",
    ),
    "slip-would-hide": ("Small misreadings may not show.", "Un error pequeño de lectura puede no verse."),
    "exchange-would-hide": ("Two studs exchanged may not show.", "Dos montantes cambiados pueden no verse."),
    "line-not-rechecked": (
        "{where}: its first point (first stud, lowest height) was not read again; a bumped line would not "
        "show. Read it last.",
        "{where}: no se leyó otra vez el primer punto (primer montante, altura más baja); no se vería si la "
        "línea se movió. Léalo al final.",
    ),
    "opening-not-measured": (
        "{where}: measure the width at the back, the middle and the front of the pan.",
        "{where}: mida el ancho al fondo, en medio y al frente de la base.",
    ),
    "opening-one-depth": (
        "{where}: measured at one depth only. Measure another.",
        "{where}: medido a un solo fondo. Mida otro.",
    ),
    "check-not-used": (
        "{where}: lies where no reading reaches. Read the stud there.",
        "{where}: está donde no llega ninguna lectura. Lea ese montante.",
    ),
    "stud-stands-out": (
        "{where}: far from its neighbors. Look at it: really so, or misread?",
        "{where}: muy distinto de sus vecinos. Mírelo: ¿es así o se leyó mal?",
    ),
    "stud-bent": (
        "{where}: bowed here. Look at it: really so, or misread?",
        "{where}: pandeado aquí. Mírelo: ¿es así o se leyó mal?",
    ),
    "stud-named-twice": ("{where}: named twice. Keep one.", "{where}: nombrado dos veces. Deje uno."),
    "height-listed-twice": (
        "{where}: the same height twice. Keep one.",
        "{where}: la misma altura dos veces. Deje una.",
    ),
    "reading-twice": (
        "{where}: two readings for one place. Keep one.",
        "{where}: dos lecturas en un lugar. Deje una.",
    ),
    "reading-height-unknown": (
        "{where}: a reading at no height of the wall.",
        "{where}: una lectura a una altura que la pared no tiene.",
    ),
    "height-not-in-room": (
        "{where}: a height no room has. Correct it.",
        "{where}: una altura que ningún cuarto tiene. Corríjala.",
    ),
    "sigma-not-usable": (
        "{where}: that exactness cannot be. Correct it.",
        "{where}: esa exactitud no puede ser. Corríjala.",
    ),
    "not-one-room": (
        "{where}: far more readings than a room has.",
        "{where}: muchas más lecturas de las que tiene un cuarto.",
    ),
    "misfit-undecided": (
        "{where}: something was misread; it cannot be told which. Take the measurement named.",
        "{where}: algo se leyó mal y no se sabe cuál. Tome la medida que se pide.",
    ),
    "misfit-unexplained": (
        "{where}: the readings do not fit. Check the line of each wall first.",
        "{where}: las lecturas no cuadran. Revise primero la línea de cada pared.",
    ),
    "look-again": (
        "{where}: stands out. Read it again while you are there.",
        "{where}: llama la atención. Léalo otra vez ya que está ahí.",
    ),
    "stage-unanswered": (
        "{where}: no answer yet; something is missing in the job.",
        "{where}: todavía sin respuesta; falta algo en el trabajo.",
    ),
    "size-looks-nominal": (
        "{where}: looks like a nominal size. Put a rule on it.",
        "{where}: parece medida nominal. Mida la real con la regla.",
    ),
    "stock-not-used": (
        "{where}: thicker than any strip; planned without it. Measure it again.",
        "{where}: más grueso que cualquier tira; se planeó sin él. Mídalo otra vez.",
    ),
    "reading-negative": (
        "{where}: a reading under nothing. Read it from the line again.",
        "{where}: una lectura bajo cero. Léala otra vez desde la línea.",
    ),
    "strip-without-room": (
        "{where}: no length known for a strip. Read the stud at a second height and cut it to its place.",
        "{where}: falta el largo de una tira. Lea el montante a otra altura y córtela a su lugar.",
    ),
    "top-not-measured": (
        "{where}: top plate not measured. Measure its underside before cutting to length.",
        "{where}: solera superior sin medir. Mida por abajo antes de cortar al largo.",
    ),
    "stock-length-not-said": (
        "{where}: full length not said; a usual one is taken. Measure one.",
        "{where}: no se dijo el largo del tramo; se tomó uno común. Mida uno.",
    ),
    "stock-price-not-said": (
        "{where}: a price is missing; boards are counted.",
        "{where}: falta un precio; se cuentan tramos.",
    ),
    "stock-to-bring": (
        "{where}: more to bring than is on the van.",
        "{where}: hay que traer más de lo que hay en la camioneta.",
    ),
    "strip-joined": (
        "{where}: a strip is butted from shorter ones.",
        "{where}: una tira va a tope con otras más cortas.",
    ),
    "screws-not-counted": (
        "{where}: board not measured; screws not listed.",
        "{where}: tablero sin medir; faltan los tornillos.",
    ),
    "again": (
        "{where}: the re-read leaves something to do. See: undertile recheck JOB",
        "{where}: la segunda lectura deja algo por hacer. Vea: undertile recheck JOB",
    ),
    "key-unknown": (
        "{where}: a word the job file does not know.",
        "{where}: una palabra que el archivo no conoce.",
    ),
    "fact-unusable": ("{where}: a value that cannot be used.", "{where}: un valor que no sirve."),
    "fact-missing": ("{where}: a value is missing.", "{where}: falta un valor."),
    "facts-contradict": (
        "{where}: two values contradict each other.",
        "{where}: dos valores se contradicen.",
    ),
    "job-unit-missing": ("{where}: the job has no unit.", "{where}: el trabajo no tiene unidad."),
    "job-too-large": ("{where}: far more than a room.", "{where}: mucho más que un cuarto."),
    "readings-count": (
        "{where}: not one reading for each height.",
        "{where}: no hay una lectura por altura.",
    ),
    "height-not-listed": (
        "{where}: a height that is not listed.",
        "{where}: una altura que no está en la lista.",
    ),
    "stud-misnamed": ("{where}: name or order of a stud.", "{where}: nombre u orden de un montante."),
    "stud-unknown": ("{where}: no such stud.", "{where}: no existe ese montante."),
    "studs-at-one-place": ("{where}: two studs at one place.", "{where}: dos montantes en un lugar."),
    "along-not-rising": (
        "{where}: places along the wall are not in order.",
        "{where}: los lugares a lo largo de la pared no van en orden.",
    ),
    "along-outside-wall": ("{where}: a place past the wall.", "{where}: un lugar fuera de la pared."),
    "length-implausible": (
        "{where}: possible, and hardly so. Look again.",
        "{where}: posible, pero muy raro. Mire otra vez.",
    ),
    "length-too-short": ("{where}: too short. Look again.", "{where}: demasiado corto. Mire otra vez."),
    "height-above-plate": (
        "{where}: higher than the top plate. Look again.",
        "{where}: más alto que la solera superior. Mire otra vez.",
    ),
    "stud-past-wall": (
        "{where}: past the end of the wall. Look again.",
        "{where}: fuera del extremo de la pared. Mire otra vez.",
    ),
    "entries-clash": (
        "{where}: two entries for one fact. Settle which.",
        "{where}: dos datos para lo mismo. Decida cuál.",
    ),
    "entry": ("{where}: an entry that cannot be used.", "{where}: un dato que no sirve."),
    "supersedes": ("{where}: a correction that does not fit.", "{where}: una corrección que no cuadra."),
    "archive-file-differs": (
        "{where}: the job file is not what its history says.",
        "{where}: el archivo no es lo que dice su historia.",
    ),
}
"""Code, or how it begins, to (English, Spanish)."""

SLIPS: dict[str, tuple[str, str]] = {
    "reading-mirrored": (
        "Counted from the wrong side of the inch or the half.",
        "Contada del lado equivocado de la pulgada o de la media.",
    ),
    "reading-inch-off": (
        "A whole inch or centimeter off.",
        "Una pulgada o un centímetro completo de diferencia.",
    ),
    "reading-six-nine": ("6 and 9 taken for each other.", "Se confundió el 6 con el 9."),
    "reading-transposed": ("Two digits exchanged.", "Dos cifras cambiadas de lugar."),
    "reading-wrong-fraction": (
        "Eighths for sixteenths, or the reverse.",
        "Octavos por dieciseisavos, o al revés.",
    ),
    "reading-misheard": ("Misheard.", "Se oyó mal al dictarla."),
    "reading-off": ("Misread in some way.", "Leída mal de alguna manera."),
    "cm-side": ("Read on the cm side of the tape.", "Leída del lado de centímetros de la cinta."),
    "sign-lost": ("Proud for back, or the reverse.", "Salido por metido, o al revés."),
    "tape-case": (
        "The tape's case left out, or counted twice.",
        "Faltó la caja de la cinta, o se contó dos veces.",
    ),
    "row-reversed": ("A row written in the other direction.", "Una fila escrita al revés."),
    "rows-swapped": ("Two rows exchanged.", "Dos filas cambiadas."),
    "line-moved": (
        "The line moved part-way. Set it back on its first mark and read again from there on.",
        "La línea se movió a medio camino. Póngala en su primera marca y lea otra vez desde ahí.",
    ),
    "misfit-undecided": (
        "Something was misread; it cannot be told which.",
        "Algo se leyó mal y no se sabe cuál.",
    ),
    "misfit-unexplained": ("It does not fit the rest.", "No cuadra con lo demás."),
    "look-again": ("It stands out.", "Llama la atención."),
}
"""Code of a doubt to (English, Spanish)."""

CHECKS: dict[str, tuple[str, str]] = {
    **AGAIN_CHECKS,
    **FLOOR_CHECKS,
    **DRYING_CHECKS,
    "drop-in": ("Pan drops in", "La base entra"),
    "drop-in-square": ("Pan square against the back wall", "Base a escuadra contra la pared del fondo"),
    "play": ("Play of the pan", "Holgura de la base"),
    "width": ("Width stud to stud", "Ancho de montante a montante"),
    "gap": ("Flange against the studs", "Pestaña contra los montantes"),
    "way-in-door": ("Pan through the narrowest door", "Base por la puerta más angosta"),
    "way-in-width": ("Clear width on the way down", "Ancho libre al bajar"),
    "diagonals": ("Diagonals at the pan", "Diagonales a la altura de la base"),
    "corner": ("Squareness of the corner", "Escuadra de la esquina"),
    "skew": ("Wall along its line over the pan", "Pared contra su línea junto a la base"),
    "square": ("Squareness", "Escuadra"),
    "drain-across": ("Outlet over the drain, across", "Salida sobre el desagüe, a lo ancho"),
    "drain-out": ("Outlet over the drain, out from the back", "Salida sobre el desagüe, desde el fondo"),
    "drain": ("Outlet over the drain", "Salida sobre el desagüe"),
    "valve-depth": ("Valve body to finished face", "Cuerpo de la válvula a la cara terminada"),
    "edge": ("Board against the face that stays", "Tablero contra la cara que se queda"),
    "backing": (
        "Wood behind the board's edge at the corner",
        "Madera detrás de la orilla del tablero en la esquina",
    ),
    "flange-front": (
        "Wood behind the flange at the pan's front",
        "Madera detrás de la pestaña al frente de la base",
    ),
    "flange-corner": (
        "Wood behind the flange in the back corner",
        "Madera detrás de la pestaña en la esquina del fondo",
    ),
    "screws": ("Board screws", "Tornillos del tablero"),
    "plate": ("Nail plate at a pipe or cable", "Placa protectora en un tubo o cable"),
    "tip": ("Screw tip at a pipe or cable", "Punta del tornillo junto a un tubo o cable"),
    "notch": ("Cut against the notch limit", "Corte contra el límite de muesca"),
    "hole": ("Hole near the new face", "Agujero cerca de la cara nueva"),
    "inside-side": ("Least finished inside dimension", "Medida interior mínima terminada"),
    "inside-area": ("Finished inside area", "Área interior terminada"),
    "plumb": ("Plumb of the finished wall", "Plomo de la pared terminada"),
    "flat": ("Flatness under the straightedge", "Planitud con la regla larga"),
}
"""Code of a check, or how it begins, to its title (English, Spanish)."""

REMEDIES: dict[str, tuple[str, str]] = {
    **FLOOR_REMEDIES,
    **DRYING_REMEDIES,
    "drop-in": ("Do not set the pan.", "No ponga la base."),
    "play": (
        "Do not set the pan; the side walls are to be worked again.",
        "No ponga la base; hay que volver a trabajar las paredes laterales.",
    ),
    "width": (
        "A stud stands proud in the flange zone.",
        "Un montante está salido a la altura de la pestaña.",
    ),
    "gap": (
        "The flange may not stand on a proud stud.",
        "La pestaña no debe apoyarse en un montante salido.",
    ),
    "way-in": (
        "Carry the pan in another way, or clear what is named.",
        "Meta la base de otra manera o quite lo que estorba.",
    ),
    "diagonals": ("Bring the side walls square.", "Ponga a escuadra las paredes laterales."),
    "corner": ("Bring the corner square.", "Ponga a escuadra la esquina."),
    "skew": ("Bring the wall straight with its line.", "Ponga la pared derecha con su línea."),
    "square": ("Bring it square.", "Póngalo a escuadra."),
    "drain": ("Move the drain, or ask.", "Mueva el desagüe o pregunte."),
    "valve-depth": ("Re-block the valve, or ask.", "Cambie el bloqueo de la válvula o pregunte."),
    "edge": ("Ask before the board goes on.", "Pregunte antes de poner el tablero."),
    "backing": ("Put a backer in the corner.", "Ponga madera de respaldo en la esquina."),
    "flange-front": (
        "Block the bay behind the flange's end.",
        "Ponga bloqueo en el hueco detrás del extremo de la pestaña.",
    ),
    "flange-corner": (
        "Block the corner behind the flange.",
        "Ponga bloqueo en la esquina detrás de la pestaña.",
    ),
    "screws": ("Change to the screws listed by stud.", "Cambie a los tornillos de la lista por montante."),
    "plate": ("Let in a nail plate first.", "Empotre primero una placa protectora."),
    "tip": (
        "A nail plate first, or a shorter screw there.",
        "Primero una placa protectora, o ahí un tornillo más corto.",
    ),
    "notch": ("Do not cut that deep; ask.", "No corte tan hondo; pregunte."),
    "hole": ("Do not cut there; ask.", "No corte ahí; pregunte."),
    "inside": ("Ask before the walls are built out.", "Pregunte antes de engrosar las paredes."),
    "plumb": ("Out of the published tolerance; ask.", "Fuera de la tolerancia publicada; pregunte."),
    "flat": ("Out of the published tolerance; ask.", "Fuera de la tolerancia publicada; pregunte."),
    "again": ("See what is left to do.", "Vea lo que falta hacer."),
}
"""Code of a check that fails, or how it begins, to what a crew does about it (English, Spanish)."""

SOURCES: dict[str, tuple[str, str]] = {
    "convention-2": ("Convention, section 2 (our default)", "Convención, sección 2 (valor nuestro)"),
    "convention-3": ("Convention, section 3 (our default)", "Convención, sección 3 (valor nuestro)"),
    "convention-4": ("Convention, section 4 (our default)", "Convención, sección 4 (valor nuestro)"),
    "practice-screw": ("Common practice, no source", "Práctica común, sin fuente"),
    "practice-pan-fit": (
        "Common practice, no source; read the pan's sheet",
        "Práctica común, sin fuente; lea la hoja de la base",
    ),
    "practice-planing": ("Common practice, no source", "Práctica común, sin fuente"),
}
"""Key of a source the sheet cites to (English, Spanish)."""
