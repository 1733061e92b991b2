"""What cannot stand in a record as typed (``job``, ``bounds``), in Spanish; keys of a file stay."""

from __future__ import annotations

RECORD: dict[str, str] = {
    # kinds
    "a size of more than 0": "un tamaño de más de 0",
    "measure it and write what the rule shows, or leave it out": (
        "mídalo y escriba lo que marca la regla, o déjelo en blanco"
    ),
    "0 or more: a play, a gap or a limit has no sign": (
        "0 o más: una holgura, una separación o un límite no lleva signo"
    ),
    "write it without a sign; 0 = none": "escríbalo sin signo; 0 = nada",
    "0 or more, from the floor, corner or face it is measured from": (
        "0 o más, desde el piso, la esquina o la cara de donde se mide"
    ),
    "measure it from there and write it without a sign": "mídalo desde ahí y escríbalo sin signo",
    "within 12 in of the wall's nominal plane, plus toward the room": (
        "a menos de 12 pulgadas del plano de cero de la pared, más hacia el cuarto"
    ),
    "write how far the plane is moved, not a reading": "escriba cuánto se mueve el plano, no una lectura",
    "within 6 in either way, plus into the room": "a menos de 6 pulgadas a cada lado, más hacia el cuarto",
    "write how much the plane comes in over that length, not a reading": (
        "escriba cuánto entra el plano en ese largo, no una lectura"
    ),
    "within 12 in of the body's datum": "a menos de 12 pulgadas de la cara de donde se mide el cuerpo",
    "write the two finish depths as the valve's sheet prints them": (
        "escriba las dos profundidades de acabado como las trae la hoja de la válvula"
    ),
    "0 or more: a line hangs in front of the wood": "0 o más: la línea cuelga delante de la madera",
    "write the distance from the line to the face that counts as zero": (
        "escriba la distancia de la línea a la cara que vale cero"
    ),
    "true or false": "true o false",
    "a number": "un número",
    "a whole number": "un número entero",
    "a number in digits": "un número en cifras",
    "a whole number in digits": "un número entero en cifras",
    'a list of texts, like ["2", "48"]': "una lista, como 2, 48",
    "{what} of at most {most} digits before and behind the point": (
        "{what} de {most} cifras a lo más antes y después del punto"
    ),
    "a length": "una medida",
    'a reading, "" or "x"': "una lectura, vacío o x",
    "a text": "un texto",
    "a text in quotes": "un texto entre comillas",
    "a table": "una tabla",
    "a list": "una lista",
    "a table by height": "una tabla por altura",
    "a table of entries by name": "una tabla con cada cosa por su nombre",
    "a list beside the wall's heights, or a table by height": (
        "una lista junto a las alturas de la pared, o una tabla por altura"
    ),
    "a list of at most {most}": "una lista de {most} a lo más",
    "a known key": "una clave conocida",
    "a known name": "un nombre conocido",
    "a name of 1 to {most} characters": "un nombre de 1 a {most} letras",
    "at most {most} characters": "a lo más {most} letras",
    "one of {words}": "una de {words}",
    "more than {gt}": "más de {gt}",
    "{ge} or more": "{ge} o más",
    "less than {lt}": "menos de {lt}",
    "{le} or less": "{le} o menos",
    "facts that can be": "datos que puedan ser",
    "a value its stage can use": "un valor que se pueda usar",
    "one room, at most {most} values": "un cuarto, a lo más {most} valores",
    "`{key}`{doc}": "`{key}`{doc}",
    " ({doc})": " ({doc})",
    "{rows} values, one for each of the wall's heights ({heights})": (
        "{rows} valores, uno para cada altura de la pared ({heights})"
    ),
    "one of the wall's heights ({heights})": "una de las alturas de la pared ({heights})",
    "each height once": "cada altura una vez",
    # found
    "the number {text}": "el número {text}",
    "a very long number": "un número muy largo",
    "an empty one": "uno vacío",
    "{key} again": "{key} otra vez",
    "a list, with no heights above it to stand beside": "una lista, sin alturas a las que corresponda",
    "none that stands": "ninguna que valga",
    "none listed yet": "ninguna todavía",
    # what to do
    "correct it": "corríjalo",
    "take it out": "quítelo",
    "shorten it": "acórtelo",
    "add `{key}`": "agregue `{key}`",
    "type it again as {expected}": "escríbalo otra vez como {expected}",
    "write it in a few words": "escríbalo en pocas palabras",
    "write it in plain digits": "escríbalo en cifras simples",
    "write it in digits, without quotes": "escríbalo en cifras, sin comillas",
    'write it in quotes, like "..."': 'escríbalo entre comillas, como "..."',
    "write true or false, without quotes": "escriba true o false, sin comillas",
    'write ["...", "..."]': 'escriba ["...", "..."]',
    "write its facts by name: {fields}": "escriba sus datos por nombre: {fields}",
    "write each under its own name": "escriba cada cosa bajo su nombre",
    'write one for each, "" where not measured, "x" where it cannot be reached': (
        'escriba uno para cada una, "" donde no se midió, "x" donde no se alcanza'
    ),
    "write one length like 3-15/16": "escriba una medida como 3-15/16",
    "write one of {words}": "escriba una de {words}",
    "write {instead} (of {words})": "escriba {instead} (de {words})",
    "nothing can stand here; take it out": "aquí no va nada; quítelo",
    "give it a short name": "póngale un nombre corto",
    "keep one of the two": "deje una de las dos",
    "keep those of one room": "deje las de un solo cuarto",
    "keep the readings of one room in one job": "deje en un trabajo las lecturas de un solo cuarto",
    "add it to the wall's `heights`, or correct it": "agréguela a las alturas de la pared, o corríjala",
    "correct it, or add it to the wall's `heights`": "corríjala, o agréguela a las alturas de la pared",
    "correct one of them": "corrija una de las dos",
    # the unit, clashes
    "in or mm, before a number without a mark can be read": (
        "in o mm, antes de que se pueda leer un número sin marca"
    ),
    "settle the job's unit ({waiting} facts wait for it)": (
        "decida la unidad del trabajo ({waiting} datos la esperan)"
    ),
    "one standing entry for one fact": "un solo valor para cada dato",
    "Settle it with an entry that supersedes all of them; computed with none until then.": (
        "Decida cuál vale; hasta entonces no se calcula con ninguno."
    ),
    "an answer to: {question}": "una respuesta a: {question}",
    "Add what is missing and run again.": "Agregue lo que falta y hágalo otra vez.",
    # studs and heights of the record
    "heights above the subfloor": "alturas sobre el subpiso",
    "take one out, with its column of readings": "quite una, con su columna de lecturas",
    "0 or more, from the wall's own corner (convention 1.2)": "0 o más, desde la esquina de la pared",
    "measure it along the wall from that corner": "mídalo a lo largo de la pared desde esa esquina",
    "a stud of wall {wall}": "un montante de la {wall:wall}",
    "a stud of wall {wall}, like {wall}1": "un montante de la {wall:wall}, como {wall}1",
    "move it to recheck.walls.{wall}": "páselo a recheck.walls.{wall}",
    "move it to wall {name}, or name it {wall}{number}{letter}": (
        "páselo a la {name:wall}, o llámelo {wall}{number}{letter}"
    ),
    "name it {wall}1, {wall}2, ... from the corner on": "llámelo {wall}1, {wall}2, ... desde la esquina",
    "a stud of the survey": "un montante ya anotado",
    "{instead}, or add it to its wall": "{instead}, o agréguelo a su pared",
    "add the stud to its wall": "agregue el montante a su pared",
    "a height of wall {wall} ({listed})": "una altura de la {wall:wall} ({listed})",
    "`{low}` less than `{high}`": "`{low}` menor que `{high}`",
    "a price of this job": "un precio de este trabajo",
    "dollars": "dólares",
    "minutes": "minutos",
    "{what} from 0 to {most}, four decimals at most": "{what} de 0 a {most}, con cuatro decimales a lo más",
    "write the {what} for: {work}": "escriba los {what} de: {work}",
    "more than {stud}, at {along}: studs are numbered along the wall": (
        "más que {stud}, que está a {along}: los montantes se numeran a lo largo de la pared"
    ),
    "correct one of the two, or number them in order": "corrija uno de los dos, o numérelos en orden",
    "one stud at one place": "un montante en cada lugar",
    "{studs} at the same `along`": "{studs} en el mismo lugar",
    "correct all but one": "corrija todos menos uno",
    # sizes that look odd
    "Correct it.": "Corríjalo.",
    "{typed} is {length}": "{typed} es {length:rounded}",
    "lengths of a shower, 20 ft at most": "medidas de una ducha, 20 pies a lo más",
    "If mm are meant, write {text} mm.": "Si son milímetros, escriba {text} mm.",
    'If inches are meant, write {text}".': 'Si son pulgadas, escriba {text}".',
    "a foot or more here": "un pie o más aquí",
    "along less than the widest width, {text}": "un lugar antes del ancho mayor, {text}",
    "along {text}": "a lo largo {text}",
    "Measure along again, from the L corner (convention 1.2).": (
        "Mida otra vez a lo largo, desde la esquina izquierda."
    ),
    "heights below the top plate, {text}": "alturas bajo la solera superior, {text}",
    "Correct the height, or `top` (the underside of the top plate).": (
        "Corrija la altura, o la cara de abajo de la solera superior."
    ),
    "a height below the top plate of wall {wall}, {text}": (
        "una altura bajo la solera superior de la {wall:wall}, {text}"
    ),
    "Correct it, or `top` of wall {wall}; as it stands no plan minds it.": (
        "Corríjala, o la solera superior de la {wall:wall}; así ningún plan la toma en cuenta."
    ),
    "at most {most} for strips, all layers together": "a lo más {most} en tiras, todas las capas juntas",
    "{typed}: the plan is made without it": "{typed}: el plan se hace sin él",
    "Nothing to do if it is on the van for something else; else measure it again.": (
        "Nada que hacer si va en la camioneta para otra cosa; si no, mídalo otra vez."
    ),
    # sizes that may be names
    "a stud": "un montante",
    "it": "ella",
    "width": "ancho",
    "depth": "fondo",
    "if it really is, write {inches}-0.": "si de veras es así, escriba {inches}-0.",
    "if it really is, nothing is to be done.": "si de veras es así, no hay nada que hacer.",
    "actual {side}; a dressed piece sold as {text} is {dressed}": (
        "{side} real; una pieza cepillada que se vende como {text} mide {dressed}"
    ),
    "actual {side}; a piece called {text} is often {metric} mm": (
        "{side} real; una pieza que llaman de {text} mide a menudo {metric} mm"
    ),
    "Put a rule on {on} and write what it shows.": "Ponga la regla en {on} y escriba lo que marca.",
    "Put a rule on {on}; {then}": "Ponga la regla en {on}; {then}",
    "actual thickness; plywood sold as {text} is often {actual}": (
        "grueso real; el triplay que se vende como {text} mide a menudo {actual}"
    ),
    "Measure a strip of {name} and write what it is.": "Mida una tira de {name} y escriba lo que es.",
    "actual {side} over the outside faces of the flanges": "{side} real por fuera de las pestañas",
    "The carton says the same. Measure the pan; {then}": "La caja dice lo mismo. Mida la base; {then}",
    # the log itself
    "version {version} or older": "versión {version} o anterior",
    "version {version}, written by a newer undertile": "versión {version}, de un undertile más nuevo",
    "Update this copy; the entry is kept, and left out until then.": (
        "Actualice esta copia; el dato se guarda, y hasta entonces no cuenta."
    ),
    "a fact of a job": "un dato de un trabajo",
    "Type the fact again under its right name; the entry is kept, and left out.": (
        "Escriba el dato otra vez con su nombre; lo anotado se guarda, y no cuenta."
    ),
    "one content under the id {id}": "un solo contenido bajo la clave {id}",
    "{number} contents: {said}": "{number} contenidos: {said}",
    "Find out which copy is sound and write the fact again, superseding this id; left out until then.": (
        "Vea qué copia está bien y escriba el dato otra vez; hasta entonces no cuenta."
    ),
    "entries that are in this log": "datos que estén en este registro",
    "{entry} supersedes {old}, which is not here": "{entry} reemplaza a {old}, que no está aquí",
    "Merge the log that holds it; until then the new value stands as it is.": (
        "Junte el registro que lo tiene; hasta entonces vale el nuevo."
    ),
    "an entry to supersede entries of its own fact": "que un dato reemplace solo a los suyos",
    "{entry} supersedes {old}, which is about {other}": "{entry} reemplaza a {old}, que es de {other:place}",
    "Withdraw {other} by an entry of its own if it is wrong; it stands until then.": (
        "Retire {other:place} aparte si está mal; hasta entonces vale."
    ),
    "an order of replacement with a last entry": "un orden de reemplazo que termine en uno",
    "{ids} replace each other in a circle": "{ids} se reemplazan en círculo",
    "Settle it with a new entry that supersedes all of them; computed with none until then.": (
        "Decida cuál vale con un dato nuevo; hasta entonces no se calcula con ninguno."
    ),
}
"""English form to Spanish."""
