"""What a finding expects (convention 5.3), in Spanish: it stands after "se esperaba"."""

from __future__ import annotations

EXPECTED: dict[str, str] = {
    # wood
    "a day like 2026-03-04, with the hour like 2026-03-04 16:30": (
        "un día como 2026-03-04, con la hora como 2026-03-04 16:30"
    ),
    "write it so": "escríbalo así",
    "a day of the calendar, year-month-day": "un día del calendario, año-mes-día",
    "an hour from 00:00 to 23:59": "una hora de 00:00 a 23:59",
    "a temperature with its letter, 68 F or 20 C": "una temperatura con su letra, 68 F o 20 C",
    "percent as the meter shows it, like 18.5, or over, under, x (cannot reach)": (
        "el porcentaje que marca el medidor, como 18.5, o over, under, x (no alcanza)"
    ),
    "write the number, up to six with a space between": (
        "escriba el número, hasta seis con espacio entre ellos"
    ),
    "the usual ones, or a reason": "los de costumbre, o una razón",
    "{enough} places of the same stuff in this house that were never wet": (
        "{enough} lugares del mismo material en esta casa que nunca se mojaron"
    ),
    "what the meter can tell, {low} to {high} percent": (
        "lo que el medidor alcanza, {low} a {high} por ciento"
    ),
    "relative humidity from 2 to 100 percent": "humedad relativa de 2 a 100 por ciento",
    "room air from 30 to 210 F, where the table of equilibrium reaches": (
        "aire del cuarto de 30 a 210 F, hasta donde llega la tabla de equilibrio"
    ),
    "visits of the job: {rounds}": "visitas del trabajo: {rounds}",
    "a visit of the job: {visits}": "una visita del trabajo: {visits}",
    "one of the meters of the job: {known}": "uno de los medidores del trabajo: {known}",
    "which of the meters was used": "con cuál de los medidores se leyó",
    "a day before the last visit, {when}": "un día antes de la última visita, {when}",
    "a day before visit {name}'s, {when}": "un día antes del de la visita {name}, {when}",
    "a day after visit {name}'s, {when}": "un día después del de la visita {name}, {when}",
    "another hour than visit {name}": "otra hora que la de la visita {name}",
    "off after it was on, {on}": "que se apagara después de encenderse, {on}",
    "{value} by {weights}": "{value} por {weights}",
    "{least} or more: wood holds as much in the driest room": (
        "{least} o más: tanto guarda la madera en el cuarto más seco"
    ),
    "about what the meter says of it, {meter}, give or take {far}": (
        "más o menos lo que el medidor dice de ella, {meter}, con {far} de margen"
    ),
    "Weigh again: as cut, and dried at 103 C for 24 h.": (
        "Pese otra vez: recién cortada, y secada a 103 C por 24 h."
    ),
    "Weigh again: as cut, and dried at 103 C for 24 h; it is not used.": (
        "Pese otra vez: recién cortada, y secada a 103 C por 24 h; no se usa."
    ),
    "a chip that loses mass in the oven": "una astilla que pierde peso en el horno",
    "source, moisture, floor, photos and inspection settled before anything is covered": (
        "fuente, humedad, piso, fotos e inspección resueltos antes de tapar nada"
    ),
    "sound wood where something bears on it": "madera sana donde algo se apoya",
    "a place: along a plate, a height on a stud, x and y on the subfloor": (
        "un lugar: a lo largo en una solera, altura en un montante, x e y en el subpiso"
    ),
    "trued as dry as it will be when it is closed": "aplomado tan seco como estará al cerrar",
    "the actual depth of a stud that is wet": "el fondo real de un montante mojado",
    "it dries about as its neighbors do": "que seque más o menos como sus vecinos",
    "at most {value}": "a lo más {value}",
    "no water from it": "que no salga agua de ahí",
    "a test that can tell": "una prueba que pueda decirlo",
    "water; air only where code and the pipe's maker allow it, never on plastic pipe otherwise": (
        "agua; aire solo donde el código y el fabricante del tubo lo permiten, si no nunca en tubo plástico"
    ),
    "a dry reading past the last wet one": "una lectura seca más allá de la última mojada",
    # floor
    "an engineer's word that it carries, with who and when": (
        "la palabra de un ingeniero de que aguanta, con quién y cuándo"
    ),
    "sound wood on its bearing": "madera sana en su apoyo",
    "no wood lost in the middle third of the span": "nada de madera perdida en el tercio medio del claro",
    "no more than {limit} lost outside the middle third": "no más de {limit} perdido fuera del tercio medio",
    "old flooring, felt and mastic cleared by a sample before they are cut": (
        "piso viejo, fieltro y pegamento descartados con una muestra antes de cortarlos"
    ),
    "a grinder with shroud and dust extractor, as the table asks": (
        "una esmeriladora con guarda y aspiradora, como pide la tabla"
    ),
    "a plane with {off} off, {filled} filled at most": (
        "un plano con {off} quitado y {filled} rellenado a lo más"
    ),
    "one reading at one place": "una lectura en cada lugar",
    "a reading near the others' {middle}": "una lectura cerca de las otras, {middle}",
    "the least work, proved": "el trabajo menor, demostrado",
    "less than the joist's {depth}": "menos que los {depth} de la vigueta",
    "within the span of {span}": "dentro del claro de {span}",
    "a hole inside the joist's {depth}": "un agujero dentro de los {depth} de la vigueta",
    "a dry reading on every side of what is wet": "una lectura seca a cada lado de lo mojado",
    "cut out {left} to {right} from wall L, {back} to {front} from wall B": (
        "corte de {left} a {right} desde la pared izquierda, de {back} a {front} desde la del fondo"
    ),
    "right past left and front past back": "la derecha después de la izquierda y el frente después del fondo",
    "a sound joist, or a wall, on either side of it": "una vigueta sana, o una pared, a cada lado",
    "pieces that a whole panel holds": "piezas que quepan en una hoja entera",
    "{whole} whole panels": "{whole} hojas enteras",
    "which way the joists run": "hacia dónde corren las viguetas",
    "where the joists lie": "dónde están las viguetas",
    "its clear span, bearing to bearing": "su claro libre, de apoyo a apoyo",
    "where its sister begins, from the first bearing's face": (
        "dónde empieza su gemela, desde la cara del primer apoyo"
    ),
    "Measure from below how much of each rests on what carries it, at the end with less.": (
        "Mida desde abajo cuánto de cada una descansa en su apoyo, en el extremo con menos."
    ),
    "Measure it from below; till then its sister is counted from the bearing on.": (
        "Mídalo desde abajo; mientras, la gemela se cuenta desde el apoyo."
    ),
    "one joist at one place": "una vigueta en cada lugar",
    "the mortar bed among what the joists carry": "la cama de mortero entre lo que cargan las viguetas",
    # framing
    "sound wood": "madera sana",
    "Is it plain wood?": "¿Es madera simple?",
    "Does it bear anything?": "¿Carga algo?",
    "Is the bay clear of pipe and wire?": "¿El hueco está libre de tubo y cable?",
    "an answer for every stud: {question}": "una respuesta para cada montante: {question}",
    "a treatment that is allowed on this stud: {names}": "un trabajo permitido en este montante: {names}",
    "none is": "ninguno lo es",
    "both edges within {twist}": "las dos aristas a menos de {twist}",
    "the thickness of the board": "el grueso del tablero",
    "the thickness of board, membrane, mortar and tile": ("el grueso de tablero, membrana, mortero y loseta"),
    "the minutes it takes to move it": "los minutos que lleva moverlo",
    "readings of wall {name}, which {what} stands on": "lecturas de la {name:wall}, donde está {what}",
    "the reading from the wall's line to its face": "la lectura de la línea de la pared a su cara",
    "the reading of the face that stays, at two heights or more": (
        "la lectura de la cara que se queda, a dos alturas o más"
    ),
    "a height": "una altura",
    "readings of every wall it speaks of": "lecturas de cada pared de que habla",
    "the flange's thickness, for the board laps it": "el grueso de la pestaña, porque el tablero la monta",
    "the flange's height, for the board laps it": "la altura de la pestaña, porque el tablero la monta",
    "a stud with readings": "un montante leído",
    "a reading at {height} or lower, where the pan sits": (
        "una lectura a {height} o más abajo, donde va la base"
    ),
    "the actual height of the channel": "la altura real del canal metálico",
    "the longest edge of the tile": "el lado más largo de la loseta",
    "a plan that meets everything asked": "un plan que cumpla todo lo que se pide",
    "what stands in the way, and the smallest change that frees it": (
        "qué lo impide, y el menor cambio que lo libera"
    ),
    "a lean of at most {most} in 8 ft": "un desplome de {most} a lo más en 8 pies",
    "two studs or more, for a held skew": "dos montantes o más, para fijar un sesgo",
    "beds set before the screws are driven home": "camas fraguadas antes de apretar los tornillos",
    "the wall shored and an engineer's word before a bearing stud comes out": (
        "la pared apuntalada y la palabra de un ingeniero antes de sacar un montante que carga"
    ),
    # cutting
    "room for a strip of {stock} between the heights and plates known": (
        "lugar para una tira de {stock} entre las alturas y soleras conocidas"
    ),
    "the full length it is cut from": "el largo entero de donde se corta",
    "strips no longer than {longest}, its longest length": "tiras de {longest} a lo más, su largo mayor",
    "the height of the top plate's underside": "la altura de la cara de abajo de la solera superior",
    "a price for each length it is sold in": "un precio para cada largo en que se vende",
    "{opened} full lengths": "{opened} largos enteros",
    # pan
    "the stiffness of the whole depth": "la rigidez del fondo entero",
    "the top of the flange above the subfloor": "la orilla de arriba de la pestaña sobre el subpiso",
    "where the outlet is, from the left and back flange faces": (
        "dónde está la salida, desde las caras izquierda y del fondo de la pestaña"
    ),
    "where the drain is, from the nominal planes of a side wall and of B": (
        "dónde está el desagüe, desde los planos de cero de una pared lateral y de la del fondo"
    ),
    "a distance from a side wall of this job": "una distancia desde una pared lateral de este trabajo",
    "its actual width": "su ancho real",
    "its actual depth": "su fondo real",
    "play up to {high}, or every fastened stud shimmed": (
        "holgura de {high} a lo más, o cada montante con tornillos calzado"
    ),
    # after the work
    "studs that were not touched read as at the survey": (
        "que los montantes que no se tocaron se lean como la primera vez"
    ),
    "{offered} ({slip}: odds {odds})": "{offered} ({slip}: {odds} de probabilidad)",
    "a reading like the plan's": "una lectura como la del plan",
    "faces on the plane that was chosen": "caras en el plano que se escogió",
    "a plan to judge the faces against": "un plan con que comparar las caras",
    "a wall with a plan": "una pared con plan",
    "at most {most} off the face as it was ({limit})": (
        "a lo más {most} quitado de la cara como estaba ({limit})"
    ),
    # survey
    "an answer": "una respuesta",
    "heights from the subfloor, up to {room}": "alturas desde el subpiso, hasta {room}",
    "one stud of that name in the room": "un solo montante con ese nombre en el cuarto",
    "a stud {name} on wall {other} and on wall {wall}": (
        "un montante {name} en la {other:wall} y en la {wall:wall}"
    ),
    "Give one of them another name.": "Póngale otro nombre a uno de los dos.",
    "one of the heights of wall {wall}: {labels}": "una de las alturas de la {wall:wall}: {labels}",
    "none given": "ninguna",
    "one reading at a height; a second one is a repeat": (
        "una lectura en cada altura; la segunda es una repetida"
    ),
    "a place that readings of the walls reach": "un lugar adonde lleguen lecturas de las paredes",
    "more than nothing and less than 6 in": "más que nada y menos de 6 pulgadas",
    "a reading at every height": "una lectura en cada altura",
    "0 or more: the line hangs in front of the wood": "0 o más: la línea cuelga delante de la madera",
    "a second measurement that covers each reading": "otra medida que compruebe cada lectura",
    "the first point read again last": "el primer punto leído otra vez al final",
    "a reading at two heights of each stud, to start": (
        "una lectura a dos alturas de cada montante, para empezar"
    ),
    "within {jump} of the line through {left} and {right}": (
        "a menos de {jump} de la línea por {left} y {right}"
    ),
    "both diagonals, or a square off the back line": (
        "las dos diagonales, o una escuadra desde la línea del fondo"
    ),
    "a width, or a gap between the L and R lines": (
        "un ancho, o una separación entre las líneas izquierda y derecha"
    ),
    "widths at two depths or more": "anchos a dos fondos o más",
    "a slip of {slip} shows wherever it is made": "que un error de {slip} se vea donde sea que se haga",
    "two studs written in each other's place show": (
        "que se vean dos montantes anotados uno en lugar del otro"
    ),
    "; next best {where}, {slip}, {odds}": "; luego {where:place}, {slip}, {odds}",
    "{offered} ({slip}: odds {odds}{beside})": "{offered} ({slip}: {odds} de probabilidad{beside})",
    "a reading like those around it": "una lectura como las de alrededor",
    "readings that fit each other within their tools' uncertainty": (
        "lecturas que casen entre sí dentro de la exactitud de las herramientas"
    ),
    "one room: at most {readings} line readings, {heights} heights a wall and {checks} widths, "
    "levels, repeats and the like": (
        "un cuarto: a lo más {readings} lecturas, {heights} alturas por pared y {checks} anchos, niveles, "
        "repetidas y demás"
    ),
}
"""English form to Spanish."""
