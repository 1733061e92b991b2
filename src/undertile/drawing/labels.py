"""Every word on a drawing, in English and Spanish. The trade's terms are the same as on the papers."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from undertile.drawing.stuffwords import stuff_words
from undertile.drawing.waterwords import WATER
from undertile.errors import InputError

Language = Literal["en", "es"]

TABLE: dict[str, tuple[str, str]] = {
    "wall L": ("Left wall", "Pared izquierda"),
    "wall B": ("Back wall", "Pared del fondo"),
    "wall R": ("Right wall", "Pared derecha"),
    "studs": ("studs {first} to {last} of {count}", "montantes {first} a {last} de {count}"),
    "subfloor": ("subfloor", "subpiso"),
    "height": ("height", "altura"),
    "from corner": ("from corner", "de la esquina"),
    "flange": ("flange", "pestaña"),
    "opening": ("Opening in plan", "Ancho libre, en planta"),
    "pan": ("pan", "base"),
    "floor patch": ("Floor patch", "Parche del piso"),
    "floor patch n": ("Floor patch {n}", "Parche del piso {n}"),
    "joist at": ("{name} {at}", "{name} {at}"),
    "from wall L": ("from the left wall", "desde la pared izquierda"),
    "from wall B": ("from the back wall", "desde la pared del fondo"),
    "along from L": ("from wall L (left)", "desde la pared L (izquierda)"),
    "along from B": ("from wall B (back)", "desde la pared B (fondo)"),
    "cut lines": (
        "{layer}: cut {left} to {right} {wall_l}, {back} to {front} {wall_b}.",
        "{layer}: corte de {left} a {right} {wall_l}, de {back} a {front} {wall_b}.",
    ),
    "lower layer": ("Layer on the joists", "Capa sobre las viguetas"),
    "upper layer": ("Second layer", "Segunda capa"),
    "depth of cut": (
        "Set the saw to the layer, {amount}; never into a joist. The middle of the cut is the line.",
        "Ajuste la sierra a la capa, {amount}; nunca dentro de una vigueta. El centro del corte es la línea.",
    ),
    "depth unknown": (
        "The layer is not measured: find its thickness before the saw is set.",
        "La capa no está medida: averigüe su grueso antes de ajustar la sierra.",
    ),
    "gap all round": (
        "Leave {amount} between panels and at walls; glue on joists and blocks. Strong axis across the "
        "joists.",
        "Deje {amount} entre hojas y en las paredes; pegamento en viguetas y bloques. Veta a través de las "
        "viguetas.",
    ),
    "whole cut": (
        "From {stock}, {length} x {width}: {pieces}.",
        "De {stock}, {length} x {width}: {pieces}.",
    ),
    "floor panels": ("Panels to cut", "Hojas por cortar"),
    "panels say": (
        "Seen from the face; strong axis to the right. Cut from edge to edge, the saw takes {kerf}.",
        "Vistas por la cara; veta hacia la derecha. Se corta de orilla a orilla, la sierra se lleva {kerf}.",
    ),
    "fewest panels": (
        "{layer}: {count} whole, no way needs fewer.",
        "{layer}: hojas enteras {count}, no hay manera de usar menos.",
    ),
    "some panels": (
        "{layer}: {count} whole; fewer may do.",
        "{layer}: hojas enteras {count}; tal vez alcance con menos.",
    ),
    "of panel": ("{stock}, {length} x {width}", "{stock}, {length} x {width}"),
    "patch-flush": ("new panel flush with the old", "hoja nueva al ras de la vieja"),
    "patch-spans": ("patch over two spans", "parche sobre dos claros"),
    "patch-stagger": ("panel ends staggered", "juntas alternadas"),
    "patch-seams": ("seams of the second layer", "juntas de la segunda capa"),
    "panel-thickness": ("panel for the joists' spacing", "hoja para la separación de las viguetas"),
    "panel-point": (
        "panel under a load between joists",
        "hoja con una carga entre viguetas",
    ),
    "piece size": ("{name} {length} x {width}", "{name} {length} x {width}"),
    "whole panel": ("whole panel", "hoja entera"),
    "no panel holds": ("No panel holds {pieces}.", "Ninguna hoja alcanza para {pieces}."),
    "blocks are": ("Blocks of two-by: {list}.", "Bloques de madera de 2x (nominal): {list}."),
    "cleats are": (
        "Cleats of two-by, glued and screwed: {list}.",
        "Maderos de apoyo de 2x (nominal), con pegamento y tornillos: {list}.",
    ),
    "block later": (
        "{count} at {joists}: measure once the sister stands and its side is typed",
        "{count} en {joists}: mida cuando esté puesta la gemela y anotado de qué lado",
    ),
    "so many": ("{count} of {length}", "{count} de {length}"),
    "screws are": (
        "Screws for the {layer}: {count}{spare}{length}; {edge} apart at edges, {field} inside{old}.",
        "Tornillos para la {layer}: {count}{spare}{length}; cada {edge} en orillas, cada {field} "
        "adentro{old}.",
    ),
    "and spare": (" and {count} spare", " y {count} de más"),
    "old edges": (", the old floor's edges too", ", también en las orillas viejas"),
    "long": (", {length} long", ", de {length}"),
    "lower word": ("layer on the joists", "capa sobre las viguetas"),
    "upper word": ("second layer, into the first only", "segunda capa, solo en la primera"),
    "patch practice": (
        "Common practice, no source; local code and the panel maker's sheet decide.",
        "Práctica común, sin fuente; deciden el código local y la hoja del fabricante.",
    ),
    "patch not pass": (
        "Not a pass yet: {list}.",
        "Todavía no pasa: {list}.",
    ),
    "key wet": ("cut out: wet or bad", "se quita: mojado o dañado"),
    "key joist": ("joist, its center", "vigueta, su centro"),
    "key cut": ("cut line", "línea de corte"),
    "key block": ("block or cleat", "bloque o madero de apoyo"),
    "key second": ("second layer", "segunda capa"),
    "key screw": ("screw", "tornillo"),
    "flange detail": ("Flange detail", "Detalle de la pestaña"),
    "relief": ("{wall}: before and after", "{wall}: antes y después"),
    "hold": (
        "BEFORE ANYTHING: circuit dead and proved, water off, a bearing wall shored before a stud "
        "comes out, lead and asbestos settled before dust. Local code and licensed trades decide.",
        "Antes de todo: circuito desconectado y comprobado sin corriente, agua cerrada, pared de "
        "carga apuntalada antes de sacar un montante, plomo y asbesto resueltos antes de hacer polvo. "
        "Deciden el código local y los oficios con licencia.",
    ),
    "in inches": ("inches", "pulgadas"),
    "in mm": ("mm", "mm"),
    "scale": ("scale {scale}", "escala {scale}"),
    "full size": ("full size, printed at 100 %", "tamaño real, impreso al 100 %"),
    "planes end": (
        "Faces end {where} from the line{lean}{step}.",
        "Las caras quedan a {where} de la línea{lean}{step}.",
    ),
    "at stud": ("{amount} at {stud}", "{amount} en {stud}"),
    "and": (" and ", " y "),
    "plumb": (", plumb", ", a plomo"),
    "lean in": (
        " at the floor, leaning toward the room {amount} in {over}",
        " en el piso, inclinadas hacia el cuarto {amount} en {over}",
    ),
    "lean back": (
        " at the floor, leaning back {amount} in {over}",
        " en el piso, inclinadas hacia afuera del cuarto {amount} en {over}",
    ),
    "step": (
        "; above the flange {amount} nearer the line",
        "; sobre la pestaña {amount} más cerca de la línea",
    ),
    "no plan": (
        "No plan yet: as read. + stands proud, - lies back of a reading of {nominal}.",
        "Todavía no hay plan: como se leyó. + salido, - metido respecto a una lectura de {nominal}.",
    ),
    "nothing read": (
        "Nothing read here yet: empty boxes are for the readings.",
        "Aquí no se ha leído nada: las casillas vacías son para las lecturas.",
    ),
    "open bound": (
        "Not proved least: a cheaper plan may exist.",
        "Sin prueba de que sea el mínimo: puede haber un plan más barato.",
    ),
    "leave": ("leave", "dejar"),
    "plane": ("plane", "cepillar"),
    "strip": ("strip", "tira"),
    "taper": ("taper", "tira en cuña"),
    "wet bed": ("wet bed", "cama"),
    "sister": ("sister", "gemelo"),
    "replace": ("replace", "reemplazar"),
    "knock over": ("knock foot", "correr pie"),
    "channel": ("channel", "canal"),
    "shim": ("shim", "calza"),
    "do plane": ("plane, {passes} passes at most", "cepillar, {passes} pasadas como máximo"),
    "do plane once": ("plane, 1 pass", "cepillar, 1 pasada"),
    "do taper": (
        "tapered rip {low} at the foot to {high} at the top",
        "tira en cuña de {low} abajo a {high} arriba",
    ),
    "do knock in": ("knock the foot {amount} into the room", "correr el pie {amount} hacia el cuarto"),
    "do knock back": ("knock the foot {amount} back", "correr el pie {amount} hacia atrás"),
    "do wet bed": ("wet bed to the plane", "cama de mortero hasta el plano"),
    "do sister": (
        "sister, its new face on the plane",
        "reforzar con montante gemelo, su cara nueva en el plano",
    ),
    "do replace": ("replace, the new face on the plane", "reemplazar, la cara nueva en el plano"),
    "re-set": ("re-set", "recolocar"),
    "do re-set": ("re-set in its track, its face on the plane", "recolocar en su riel, su cara en el plano"),
    "key move": ("re-set: move the face by the amount", "recolocar: mueva la cara lo indicado"),
    "key new": ("N new stud", "N montante nuevo"),
    "do channel": ("under the channel", "debajo del canal metálico"),
    "do shim": ("plastic shim {amount} behind the flange", "calza de plástico {amount} detrás de la pestaña"),
    "full height": ("full height", "altura completa"),
    "run": ("{low} to {high}", "{low} a {high}"),
    "at": ("at {at}", "a {at}"),
    "after pan": ("after the pan is set", "después de asentar la base"),
    "key add": ("add", "agregar"),
    "key take": ("take off", "quitar"),
    "key planed": ("plane", "cepillar"),
    "key strip": ("strip, on the face", "tira, sobre la cara"),
    "key wait": ("waits until the pan is set", "espera a que la base esté puesta"),
    "key corner": ("corner", "esquina"),
    "key edge": ("edge that stays", "orilla que se queda"),
    "key work": ("the work named in the bar", "el trabajo nombrado en la barra"),
    "key as it is": ("leave as it is", "dejar como está"),
    "key shim": ("shim behind the flange", "calza detrás de la pestaña"),
    "key doubt": (
        "! reading in doubt: settle it before the first cut",
        "! lectura en duda: aclárela antes de cortar",
    ),
    "key unread": ("? not read", "? no leído"),
    "key near": ("~ nearest mark of a rule", "~ marca más cercana de la regla"),
    "key blank": ("empty box: not measured", "casilla vacía: no medido"),
    "key width": ("studs drawn {width} wide", "montantes dibujados de {width} de ancho"),
    "valve": ("valve", "válvula"),
    "supply pipe": ("supply pipe", "tubo de agua"),
    "drain or vent": ("drain or vent", "desagüe o ventilación"),
    "stack": ("stack", "bajante"),
    "other": ("in the way", "estorbo"),
    "pipe": ("pipe", "tubo"),
    "wire": ("wire", "cable"),
    "hole": ("hole", "agujero"),
    "plate": ("plate", "solera"),
    "edge": ("edge that stays", "orilla que se queda"),
    "thing": (
        "{what} {name}, {height} up, {along} from the corner",
        "{what} {name}, a {height} de altura, a {along} de la esquina",
    ),
    "thing edge": ("{what} {name}, {along} from the corner", "{what} {name}, a {along} de la esquina"),
    "stands proud": (", stands {amount} proud", ", salido {amount}"),
    "lies back": (", lies {amount} back", ", metido {amount}"),
    "clear": (", {amount} behind the face", ", {amount} detrás de la cara"),
    "not measured": ("not measured", "no medido"),
    "gaps drawn": (
        "Along the walls true; across, gaps and offsets are drawn {times} times their size.",
        "A lo largo de las paredes, real; a través, huecos y desvíos dibujados {times} veces más grandes.",
    ),
    "gaps true": ("Drawn true, nothing enlarged.", "Dibujado real, nada ampliado."),
    "plan height": ("Cut in the flange zone, at {height}.", "Corte en la zona de la pestaña, a {height}."),
    "depth": ("from the back", "desde el fondo"),
    "opening width": ("between planes", "entre planos"),
    "pan width": ("pan", "base"),
    "play": ("play", "holgura"),
    "straight": (
        "Strips, shims: along the straight line from stud to stud; between two studs, no one stud shows it.",
        "Tiras, calzas: por la recta de montante a montante; entre dos montantes ninguno solo lo muestra.",
    ),
    "bare": ("strips, no shims", "tiras, sin calzas"),
    "shimmed": ("with shims", "con calzas"),
    "play here": ("at {at}: play {amount}", "a {at}: holgura {amount}"),
    "open side": (
        "One side is open: the pan is set from there, there is no play to keep.",
        "Un lado está abierto: la base entra por ahí, no hay holgura que guardar.",
    ),
    "verdict": ("verdict", "resultado"),
    "pass": ("pass", "pasa"),
    "fail": ("FAIL", "NO PASA"),
    "not shown": ("not shown", "no se sabe"),
    "wanted": ("Play wanted {window}.", "Holgura pedida {window}."),
    "to": ("{low} to {high}", "{low} a {high}"),
    "diagonals": (
        "Diagonals {first} and {second}, differ {apart}.",
        "Diagonales {first} y {second}, difieren {apart}.",
    ),
    "diagonals unknown": (
        "Diagonals not shown: squareness is not measured.",
        "Diagonales no se saben: la escuadra no está medida.",
    ),
    "drain-across": (
        "Outlet over the drain, across: {verdict}{margin}.",
        "Salida de la base sobre el desagüe, a lo ancho: {verdict}{margin}.",
    ),
    "drain-out": (
        "Outlet over the drain, out from the back: {verdict}{margin}.",
        "Salida de la base sobre el desagüe, desde el fondo: {verdict}{margin}.",
    ),
    "margin": ("margin {margin}", "margen {margin}"),
    "key before": ("face as read, moved", "cara leída, movida"),
    "key put on": ("put on", "se agrega"),
    "diagonal": ("diagonals", "diagonales"),
    "drain": ("drain", "desagüe"),
    "outlet": ("outlet", "salida"),
    "plane line": ("plane", "plano"),
    "no pan": ("The pan is not measured: nothing is shown of it.", "La base no está medida: no se dibuja."),
    "no width": (
        "The width from wall to wall is not measured: the right wall is drawn where it may be.",
        "El ancho de pared a pared no está medido: la pared derecha es solo aproximada.",
    ),
    "no drop": (
        "The pan does not drop in: it binds where the lines cross.",
        "La base no entra: topa donde se cruzan las líneas.",
    ),
    "centred": (
        "The pan is drawn in the middle of its play.",
        "La base está dibujada al centro de su holgura.",
    ),
    "set off": (
        "The pan is set {left} off the left wall, {right} off the right wall.",
        "La base se asienta a {left} de la pared izquierda y a {right} de la derecha.",
    ),
    "pushed": ("The pan is drawn hard against the {wall}.", "La base está dibujada pegada a la {wall}."),
    "one side": ("The pan is drawn against the {wall}.", "La base está dibujada contra la {wall}."),
    "stops": ("Board stops above the flange", "El tablero termina arriba de la pestaña"),
    "laps": ("Board laps the flange", "El tablero monta sobre la pestaña"),
    "detail at": ("at {stud}", "en {stud}"),
    "detail any": ("no stud is planned yet", "todavía no hay montante planeado"),
    "stud": ("stud", "montante"),
    "stud before": ("face as read, {amount} off", "cara leída, quitar {amount}"),
    "board": ("board {amount}", "tablero {amount}"),
    "membrane": ("membrane {amount}", "membrana {amount}"),
    "mortar": ("mortar {amount}", "mortero {amount}"),
    "tile": ("tile {amount}", "loseta {amount}"),
    "strip is": ("strip {stock}", "tira {stock}"),
    "shim is": ("shim {amount}", "calza {amount}"),
    "gap is": ("within {amount} of it", "a {amount} o menos de él"),
    "flange is": ("flange {amount} thick", "pestaña de {amount}"),
    "flange unknown": ("flange: thickness not measured", "pestaña: grueso no medido"),
    "unknown layer": ("{what}: not measured, not drawn", "{what}: no medido, no dibujado"),
    "board word": ("board", "tablero"),
    "membrane word": ("membrane", "membrana"),
    "mortar word": ("mortar", "mortero"),
    "tile word": ("tile", "loseta"),
    "no gap": ("on the plane", "en el plano"),
    "proud by": ("{amount} PROUD", "SALIDO {amount}"),
    "gap source": (
        "Gap under the board: {amount}, common practice, no source; the pan's sheet decides.",
        "Hueco debajo del tablero: {amount}, práctica común, sin fuente; decide la hoja de la base.",
    ),
    "pan sketched": (
        "The pan below its flange is only sketched. Check the print: this bar is {bar}.",
        "La base debajo de su pestaña es solo un croquis. Revise la impresión: esta barra mide {bar}.",
    ),
    "flange top is": (
        "top of the flange, {amount} over the subfloor",
        "borde de la pestaña, {amount} sobre el subpiso",
    ),
    "plane is": ("plane of the wall", "plano de la pared"),
    "gaps head": (
        "Behind the flange, stud by stud, from the plane",
        "Detrás de la pestaña, montante por montante, desde el plano",
    ),
    "opening wanted": (
        "Clear between the planes: {low} to {high}.",
        "Libre entre planos: de {low} a {high}.",
    ),
    "left over": (
        "Walls out of square leave {left} of it: centered, about {each} each side where it is tightest.",
        "Lo fuera de escuadra deja {left}: centrada, unos {each} de cada lado donde está más justa.",
    ),
    "sticks out": ("sticks out", "salido"),
    "lies hollow": ("lies hollow", "metido"),
    "true within": (
        "White is true: within {amount} of the plane.",
        "Lo blanco está bien: a menos de {amount} del plano.",
    ),
    "over": ("over {amount}", "más de {amount}"),
    "out": ("{amount} out", "{amount} salido"),
    "hollow": ("{amount} hollow", "{amount} metido"),
    "all true": ("within {amount} everywhere", "a menos de {amount} en todas partes"),
    "true": ("true", "en el plano"),
    "from plane": (
        "Measured from the plane the wall will end on.",
        "Medido desde el plano donde quedará la pared.",
    ),
    "from nominal": (
        "Measured from the nominal plane: there is no plan yet.",
        "Medido desde el plano nominal: todavía no hay plan.",
    ),
    "bent": (
        "The upright lines are the studs, bent {times} times as much as they are.",
        "Las líneas verticales son los montantes, doblados {times} veces más de lo real.",
    ),
    "before wall": ("Before: the wall as it was found", "Antes: la pared como estaba"),
    "after wall": ("After: the wall as it will be", "Después: la pared como quedará"),
    "unread spot": (
        "Rings: not read, taken from what stands around.",
        "Círculos: no leído, tomado de lo que hay alrededor.",
    ),
    "as if": (
        "HOLDS ONLY IF {readings}: nobody has entered that.",
        "VALE SOLO SI {readings}: nadie lo ha registrado.",
    ),
    "doubt head": (
        "DO NOT CUT YET. In doubt: {places}. No amounts until that is settled: here is what was read, "
        "+ proud, - back of {nominal}.",
        "NO CORTE TODAVÍA. En duda: {places}. Sin medidas hasta aclararlo: aquí está lo leído, + "
        "salido, - metido respecto a {nominal}.",
    ),
    "doubt plan": (
        "DO NOT CUT YET. In doubt: {places}. Drawn with every reading as typed; what is put on and "
        "taken off may change.",
        "NO CORTE TODAVÍA. En duda: {places}. Dibujado con las lecturas como se escribieron; lo que "
        "se agrega y se quita puede cambiar.",
    ),
    **WATER,
}
"""Key to English and Spanish; parts in braces are filled in."""


@dataclass(frozen=True)
class Words:
    """The words of one language."""

    language: Language = "en"

    def __call__(self, key: str, **parts: object) -> str:
        """The words for a key, its parts filled in.

        Raises
        ------
        KeyError
            If there are no such words.
        """
        return TABLE[key][0 if self.language == "en" else 1].format(**parts)

    def stuff(self, name: str) -> str:
        """Stock as it is called: its plain word in this language, a name of a person's own as typed."""
        return stuff_words(name, self.language)

    def places(self, places: Sequence[str]) -> str:
        """Places as the survey writes them, in this language: ``B4 at 36``, ``width back-high``."""
        if self.language == "en":
            return ", ".join(places)
        return ", ".join(" ".join(_PLACE_ES.get(word, word) for word in place.split()) for place in places)


_PLACE_ES = {
    "at": "a",
    "joist": "vigueta",
    "notch": "muesca",
    "hole": "agujero",
    "soft": "parte blanda",
    "subfloor": "subpiso",
    "layer": "capa",
    "wall": "pared",
    "from": "desde",
    "on": "en adelante",
    "and": "y",
    "width": "ancho",
    "gap": "separación",
    "row": "fila",
    "level": "nivel",
    "square": "escuadra",
    "repeat": "repetición",
}
"""Words in the survey's names of places."""


def words(language: str) -> Words:
    """The words of a language.

    Raises
    ------
    InputError
        If there are none.
    """
    if language == "en":
        return Words("en")
    if language == "es":
        return Words("es")
    raise InputError(f"no words in {language!r}; the drawings speak en (English) and es (Spanish)")
