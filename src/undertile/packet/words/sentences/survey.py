"""What the survey says of its readings, in Spanish."""

from __future__ import annotations

SURVEY: dict[str, str] = {
    "no wall has a stud with readings yet: read two heights a stud on one wall to start": (
        "todavía ninguna pared tiene un montante leído: para empezar lea dos alturas de cada montante en "
        "una pared"
    ),
    # checks that could not be used
    "wall {wall} is not there": "no está la {wall:wall}",
    "low and high are one height": "abajo y arriba son la misma altura",
    "{stud} was not read near its ends": "{stud} no se leyó cerca de sus extremos",
    "its depth is in no room": "ningún cuarto tiene ese fondo",
    "a gap needs the nominals of walls L and R": (
        "para esa separación hacen falta las lecturas que valen cero de las paredes izquierda y derecha"
    ),
    "no reading of wall {short} near that depth and height": (
        "no hay lectura de la {short:wall} cerca de ese fondo y altura"
    ),
    "no reading of wall {short} near its ends": "no hay lectura de la {short:wall} cerca de sus extremos",
    "no reading of wall {wall} near it": "no hay lectura de la {wall:wall} cerca",
    "there is no stud {stud}{nearest}": "no existe el montante {stud}{nearest}",
    "; the nearest name is {name}": "; el nombre más parecido es {name}",
    "{stud} was not read near that height": "{stud} no se leyó cerca de esa altura",
    "its distance is not more than 0": "su distancia no es mayor que 0",
    "its distance is in no room": "ningún cuarto tiene esa distancia",
    "not used: {why}": "no se usó: {why}",
    "Read the stud there, or mend the entry.": "Lea ahí el montante, o corrija el dato.",
    "{figure}; the default {sigma} is used": "{figure}; se usa el valor normal de {sigma}",
    "Enter what the tool is good for, or leave it out.": (
        "Anote qué tan exacta es la herramienta, o déjelo en blanco."
    ),
    # what is not read
    "{state}: {places}": "{state}: {places}",
    "not measured": "sin medir",
    "{places}": "{places:place}",
    "{places} and {number} more": "{places:place} y {number} más",
    "{missing}; estimated from what stands around, less certain": (
        "{missing}; calculado con lo de alrededor, menos seguro"
    ),
    "Read them before the work is proved.": "Léalas antes de dar el trabajo por bueno.",
    "Read it again, and write the distance from the line without a sign.": (
        "Léala otra vez, y escriba la distancia desde la línea sin signo."
    ),
    "nothing checks {places}: a misreading there would not show": (
        "nada revisa {places}: ahí no se vería un error de lectura"
    ),
    "Read those studs at heights between, or hold a level on them.": (
        "Lea esos montantes a alturas intermedias, o póngales el nivel."
    ),
    "no reading repeated: a bumped line would not show": (
        "ninguna lectura repetida: no se vería si la línea se movió"
    ),
    "Re-read the first point of wall {name} and enter it as a repeat.": (
        "Lea otra vez el primer punto de la {name:wall} y anótelo como repetido."
    ),
    "nothing read": "sin lecturas",
    "Read wall {name}.": "Lea la {name:wall}.",
    "{by} proud of it": "{by} salido de ella",
    "{by} back of it": "{by} metido de ella",
    "Sight along the wall: is {name} really so?": "Mire a lo largo de la pared: ¿{name} de verdad es así?",
    "nothing says how the side line stands to the back line": (
        "nada dice cómo está la línea lateral con la del fondo"
    ),
    "Measure the two diagonals at the height of the pan.": "Mida las dos diagonales a la altura de la base.",
    "none that can be used": "ninguno que sirva",
    "Measure the width at the back, the middle and the front of the pan.": (
        "Mida el ancho al fondo, en medio y al frente de la base."
    ),
    "one depth: the opening is taken to keep its width": (
        "un solo fondo: se toma que el ancho libre no cambia"
    ),
    "Measure a width at another depth.": "Mida un ancho a otro fondo.",
    # what was typed twice, or at no height
    "{one} and {other} are one height": "{one} y {other} son la misma altura",
    "Take one out; its readings stay where they are typed.": (
        "Quite una; sus lecturas se quedan donde se escribieron."
    ),
    "a height of {text}: left out with its readings": "una altura de {text}: se deja fuera con sus lecturas",
    "Mend the height.": "Corrija la altura.",
    "a reading at {key}": "una lectura a {key}",
    "Add {key} to the heights of wall {wall}, or move the reading.": (
        "Agregue {key} a las alturas de la {wall:wall}, o cambie de lugar la lectura."
    ),
    "Keep one and enter the other as a repeat.": "Deje una y anote la otra como repetida.",
    "{readings} line readings, {heights} heights on one wall, {others} others: nothing computed": (
        "{readings} lecturas desde la línea, {heights} alturas en una pared, {others} de otras: no se "
        "calculó nada"
    ),
    "Look at what was pasted, and split it into rooms.": "Revise lo que se pegó, y sepárelo en cuartos.",
    # what would hide
    "Look twice at a reading that changes what is done to its stud": (
        "Mire dos veces una lectura que cambia lo que se le hace a su montante"
    ),
    "wall {wall} {size} ({places}: {most})": "{wall:wall} {size} ({places}: {most})",
    "wall {wall} {size}": "{wall:wall} {size}",
    "{what} tells most: it sharpens {told} readings": "{what} dice más que nada: afina {told} lecturas",
    "A level on {stud} from {low} to {high}": "Un nivel en {stud} de {low} a {high}",
    "A width {depth} from the back at {height}": "Un ancho a {depth} del fondo, a {height}",
    "smaller slips than these would likely not show: {walls}": (
        "un error menor que estos quizá no se vería: {walls}"
    ),
    "these would not: {studs}": "estos no se verían: {studs}",
    "Read {places} again last, as a repeat: a stud taken for its neighbor shows there.": (
        "Lea otra vez {places:place} al final, como repetido: ahí se ve si un montante se tomó por su vecino."
    ),
    # what looks misread
    "the stud is really bent there": "el montante de verdad está pandeado ahí",
    "the stud really has that crown": "el montante de verdad tiene esa panza",
    "{typed} typed": "se escribió {typed}",
    "Measure {where} again": "Mida otra vez: {where:place}",
    "Re-read {where}": "Lea otra vez {where:place}",
    "the repeated point on {stud} ({where})": "el punto repetido en {stud} ({where:place})",
    "Hold the level on {stud} again ({where})": "Ponga otra vez el nivel en {stud} ({where:place})",
    "Set the line back on its first mark and re-read from {where} on": (
        "Ponga la línea en su primera marca y lea otra vez de {where:place} en adelante"
    ),
    "{middle}, give or take {around}": "{middle}, más o menos {around}",
    "over 99 %": "más de 99 %",
    "the readings after it stand off": "las lecturas que siguen no cuadran",
    "as typed they stand off": "como se escribieron no cuadran",
    "{said}, the checks leave {leave}": "{said}, las comprobaciones dan {leave}",
    "something here was misread, and what was read cannot tell which: {every}": (
        "algo se leyó mal aquí, y lo leído no dice cuál: {every}"
    ),
    "{settle}: it tells the most.": "{settle}: es lo que más dice.",
    "{settle} if you are still there.": "{settle} si todavía está ahí.",
    "it stands out; misread ({slip}, {offered}), odds {odds}, or really so": (
        "llama la atención; mal leído ({slip}, {offered}), probabilidad {odds}, o de verdad así"
    ),
    "it stands out; misread ({slip}), odds {odds}, or really so": (
        "llama la atención; mal leído ({slip}), probabilidad {odds}, o de verdad así"
    ),
    "{where} {slip} ({offered}), {odds}": "{where:place} {slip} ({offered}), {odds}",
    "{where} {slip}, {odds}": "{where:place} {slip}, {odds}",
    "they do not, even corrected as above, and no few mistakes explain it": (
        "no cuadran, ni corregidas como arriba, y pocos errores no lo explican"
    ),
    "they do not, and no few mistakes explain it": "no cuadran, y pocos errores no lo explican",
    "Check the line of each wall, then re-read {place} first.": (
        "Revise la línea de cada pared, y lea otra vez primero {place:place}."
    ),
    "counted back from the wrong side of the inch": "contada del lado equivocado de la pulgada",
    "counted from the wrong side of the half": "contada del lado equivocado de la media",
    "a whole inch off, or the burned inch": "una pulgada entera de más o de menos",
    "a whole centimetre or decimetre off": "un centímetro o decímetro entero de más o de menos",
    "6 and 9 taken for each other": "el 6 y el 9 cambiados",
    "two digits exchanged": "dos cifras cambiadas de lugar",
    "eighths for sixteenths, or the reverse": "octavos por dieciseisavos, o al revés",
    "misheard, three for five or fifteen for fifty": "mal oída, como sesenta por setenta",
    "proud for back": "salido por metido",
    "the length of the tape's case left out or put in twice": (
        "el largo de la caja de la cinta olvidado o sumado dos veces"
    ),
    "read on the centimetre side of the tape": "leída del lado de centímetros de la cinta",
    "millimetres written as inches": "milímetros escritos como pulgadas",
    "inches written as millimetres": "pulgadas escritas como milímetros",
    "centimetres written as millimetres": "centímetros escritos como milímetros",
    "a minus typed where none can be": "un signo menos donde no puede haber",
    "0 typed where nothing was read": "un 0 escrito donde no se leyó nada",
    "typed in the other direction": "escritas en la otra dirección",
    "two neighbors exchanged": "dos vecinos cambiados",
    "the line moved part-way": "la línea se movió a medio camino",
    "misread in some other way": "mal leída de otra manera",
}
"""English form to Spanish."""
