"""What cannot all hold, and the smallest change that frees it, in Spanish."""

from __future__ import annotations

CONFLICT: dict[str, str] = {
    "even with everything asked let go no plane lies where planes are looked for": (
        "aun soltando todo lo que se pide, ningún plano cae donde se buscan los planos"
    ),
    "nothing conflicts: a plan exists": "nada se contradice: hay un plan",
    "cut short after {after} s: which demands conflict is not known": (
        "se cortó a los {after} s: no se sabe qué se contradice"
    ),
    "cut short after {after} s: fewer demands may conflict than are named, and smaller changes may do": (
        "se cortó a los {after} s: puede que se contradiga menos de lo que se nombra, y que baste un "
        "cambio menor"
    ),
    "more conflicts than these were not looked for": "no se buscaron más contradicciones que estas",
    "{first}; or {then}": "{first}; o {then}",
    "take one of them back": "quite una de ellas",
    "it cannot be had: {demands}": "no se puede: {demands}",
    "{text}.": "{text}.",
    "Free what is named and plan again.": "Suelte lo que se nombra y planee otra vez.",
    "{change}; the other conflicts have to be freed too": (
        "{change}; también hay que resolver las otras contradicciones"
    ),
    "{change}; then this is still in the way: {others}": "{change}; después todavía estorba esto: {others}",
    "{change}; something else is then still in the way": "{change}; después todavía estorba otra cosa",
    "the plane of wall {wall} is looked for from {low} to {high}, measured as offsets are": (
        "el plano de la {wall:wall} se busca de {low} a {high}, medido desde el cero"
    ),
    # what was asked
    "the straightedge rule": "la regla larga",
    "{line} [{source}]": "{line} [{source:source}]",
    "convention {section}": "convención {section}",
    "{title}: {why}": "{title}: {why}",
    "{title}: {as_read}; {why}": "{title}: {as_read}; {why}",
    "{title}: the plane at {where}": "{title}: el plano en {where}",
    "{title}: at most {rules}": "{title}: a lo más {rules}",
    "{title} at {height}: it stands at {at}, and its edge is cut at most {cut}": (
        "{title} a {height}: está en {at}, y su orilla se corta a lo más {cut}"
    ),
    "{title} at {height}: it stands at {at}, and its edge is cut never": (
        "{title} a {height}: está en {at}, y su orilla no se corta nunca"
    ),
    "{at} or further in": "{at} o más hacia el cuarto",
    "{at} or further back": "{at} o más hacia atrás",
    "{name}, wall {wall}": "{name}, {wall:wall}",
    "plate {name}, wall {wall}": "solera {name}, {wall:wall}",
    "wall {wall} plumb": "{wall:wall} a plomo",
    "Wall {wall} held at a lean of {lean} in 8 ft": (
        "La {wall:wall} fijada con una inclinación de {lean} en 8 pies"
    ),
    "Wall {wall} plumb: no lean is offered": "La {wall:wall} a plomo: no se ofrece inclinación",
    "Wall {wall} plumb: it leans at most {most} in 8 ft either way": (
        "La {wall:wall} a plomo: se inclina a lo más {most} en 8 pies a cada lado"
    ),
    "{stud} held to {family}": "{stud} fijado en {family}",
    "{stud} is soft": "{stud} está blando",
    "{stud} as it stands": "{stud} como está",
    "as read at {at} throughout": "leído en {at} en toda la altura",
    "as read from {low} at {low_height} to {high} at {high_height}": (
        "leído de {low} a {low_height} hasta {high} a {high_height}"
    ),
    "a finished face lies within {most} of its plane, in the flange zone never proud of it [convention 3]": (
        "una cara terminada queda a menos de {most} de su plano, y a la altura de la pestaña nunca salida "
        "de él [convención 3]"
    ),
    "{words} ({why})": "{words} ({why})",
    "planed at most {most}": "cepillado a lo más {most}",
    "not planed": "sin cepillar",
    "no sister": "sin montante gemelo",
    "not replaced": "sin reemplazar",
    "{title}, not too wide": "{title}, no demasiado ancha",
    "{title}, wide enough": "{title}, bastante ancha",
    "{title}, its far end not too far back": "{title}, su extremo lejano no muy atrás",
    "{title}, its far end not too far in": "{title}, su extremo lejano no muy adentro",
    "{title}, the one from back right not the longer": "{title}, la del fondo a la derecha no más larga",
    "{title}, the one from back left not the longer": "{title}, la del fondo a la izquierda no más larga",
    "{title}, not opening": "{title}, sin abrirse",
    "{title}, not closing": "{title}, sin cerrarse",
    "{title}, not too near the wall": "{title}, no muy cerca de la pared",
    "{title}, not too far out": "{title}, no muy afuera",
    "{title}, not too far back": "{title}, no muy atrás",
    "{title}, not too far in": "{title}, no muy adentro",
    # what frees it
    "bring {studs} out {by}, or allow it to be replaced": "saque {studs} {by}, o permita reemplazarlo",
    "bring {studs} back {by}, or allow it to be replaced": "meta {studs} {by}, o permita reemplazarlo",
    "bring {studs} out {by}, or allow them to be replaced": "saque {studs} {by}, o permita reemplazarlos",
    "bring {studs} back {by}, or allow them to be replaced": "meta {studs} {by}, o permita reemplazarlos",
    "allow {studs} to be replaced by a straight one; bringing it back or out as read, up to {most}, is "
    "not enough": (
        "permita reemplazar {studs} por uno derecho; meterlo o sacarlo como se leyó, hasta {most}, no basta"
    ),
    "allow {studs} to be replaced by straight ones; bringing them back or out as read, up to {most}, is "
    "not enough": (
        "permita reemplazar {studs} por otros derechos; meterlos o sacarlos como se leyeron, hasta "
        "{most}, no basta"
    ),
    "cut {by} more off plate {name} of wall {wall}": "corte {by} más de la solera {name} de la {wall:wall}",
    "let wall {wall} lean {by} more in 8 ft": "deje que la {wall:wall} se incline {by} más en 8 pies",
    "let {by} more show under the straightedge": "deje que se vea {by} más bajo la regla larga",
    "let go of the hold on {stud}": "suelte lo fijado en {stud}",
    "probe {stud} again: only if the wood is sound may it go without a sister": (
        "pruebe {stud} otra vez: solo si la madera está sana puede ir sin montante gemelo"
    ),
    "let go of {title}; no change up to {most} frees it": (
        "suelte {title}; ningún cambio hasta {most} lo libera"
    ),
    "let the play at every depth be {by} more": "deje que la holgura sea {by} más en cada fondo",
    "let the play at {depth} from the back be {by} more": (
        "deje que la holgura a {depth} del fondo sea {by} más"
    ),
    "make the opening at every depth {by} wider, or the pan that much narrower": (
        "haga el ancho libre {by} mayor en cada fondo, o la base otro tanto más angosta"
    ),
    "make the opening at {depth} from the back {by} wider, or the pan that much narrower": (
        "haga el ancho libre a {depth} del fondo {by} mayor, o la base otro tanto más angosta"
    ),
    "make the opening {by} wider, or the pan that much narrower": (
        "haga el ancho libre {by} mayor, o la base otro tanto más angosta"
    ),
    "let the far end of wall {wall} come {by} further back over the pan": (
        "deje que el extremo lejano de la {wall:wall} quede {by} más atrás a lo largo de la base"
    ),
    "let the far end of wall {wall} come {by} further in over the pan": (
        "deje que el extremo lejano de la {wall:wall} quede {by} más adentro a lo largo de la base"
    ),
    "let the diagonals differ by {by} more": "deje que las diagonales difieran {by} más",
    "let the corner of walls B and {wall} be {by} more out of square": (
        "deje que la esquina de la pared del fondo y la {wall:wall} quede {by} más fuera de escuadra"
    ),
    "give the outlet {by} more float": "dé a la salida {by} más de juego",
    "let the skew of wall {wall} be {by} less than held, or let go of it": (
        "deje que el giro de la {wall:wall} sea {by} menos que lo fijado, o suéltelo"
    ),
    "let the skew of wall {wall} be {by} more than held, or let go of it": (
        "deje que el giro de la {wall:wall} sea {by} más que lo fijado, o suéltelo"
    ),
    "put wall {wall} {by} further back than held, or let go of it": (
        "ponga la {wall:wall} {by} más atrás que lo fijado, o suéltela"
    ),
    "put wall {wall} {by} further in than held, or let go of it": (
        "ponga la {wall:wall} {by} más adentro que lo fijado, o suéltela"
    ),
    "let {demand} be {by} less": "deje que «{demand}» sea {by} menos",
    "let {demand} be {by} more": "deje que «{demand}» sea {by} más",
    "set the valve {by} further back, or allow it to be re-blocked": (
        "ponga la válvula {by} más atrás, o permita cambiar su bloqueo"
    ),
    "set the valve {by} further out, or allow it to be re-blocked": (
        "ponga la válvula {by} más afuera, o permita cambiar su bloqueo"
    ),
    "set the valve {by} further back": "ponga la válvula {by} más atrás",
    "set the valve {by} further out": "ponga la válvula {by} más afuera",
    "move {thing} {by} further back than it reaches": "mueva {thing} {by} más atrás de lo que alcanza",
    "move {thing} {by} further out than it reaches": "mueva {thing} {by} más afuera de lo que alcanza",
    "let {thing} stand {by} further proud of the studs, or allow it to be moved": (
        "deje que {thing} quede {by} más salido de los montantes, o permita moverlo"
    ),
    "let the new face lie {by} further behind {thing}": (
        "deje que la cara nueva quede {by} más metida que {thing}"
    ),
    "let the new face lie {by} further proud of {thing}": (
        "deje que la cara nueva quede {by} más salida que {thing}"
    ),
    "move the drain {by} out from the back wall": "mueva el desagüe {by} alejándolo de la pared del fondo",
    "move the drain {by} toward the back wall": "mueva el desagüe {by} hacia la pared del fondo",
    "move the drain {by} toward the {wall}": "mueva el desagüe {by} hacia la {wall}",
    "move the drain {by} away from the {wall}": "mueva el desagüe {by} alejándolo de la {wall}",
}
"""English form to Spanish."""
