"""Of the water: what is wet and how far, when it may be closed, what keeps it open."""

from __future__ import annotations

WOOD: dict[str, str] = {
    "{low} to {high}": "{low} a {high}",
    "{number} in 100": "{number} de 100",
    # how a reading was corrected
    "unknown": "no se sabe",
    "Douglas-fir": "Abeto Douglas",
    "hem-fir": "hem-fir",
    "spruce-pine-fir": "spruce-pine-fir",
    "southern pine": "pino del sur",
    "western hemlock": "hemlock del oeste",
    "white fir": "abeto blanco",
    "Sitka spruce": "Pícea Sitka",
    "ponderosa pine": "pino ponderosa",
    "redwood": "secuoya roja",
    "western redcedar": "cedro rojo del oeste",
    "treated wood reads high by an amount nobody publishes": (
        "la madera tratada lee de más, y nadie publica cuánto"
    ),
    "glue and density shift a panel's reading, no correction is general": (
        "el pegamento y la densidad cambian la lectura de una hoja; no hay corrección general"
    ),
    "not known what it is": "no se sabe qué es",
    "a wet surface bridges the pins": "una superficie mojada une las puntas",
    "under 7 the meter cannot tell well": "bajo 7 el medidor no distingue bien",
    "above fibre saturation the number says only wet": (
        "arriba de la saturación el número sólo dice que está mojado"
    ),
    "no correction is published for wood so hot or so cold": (
        "no hay corrección publicada para madera tan caliente o tan fría"
    ),
    # what cannot be so of a place
    "one point at one place": "un solo punto en un lugar",
    "Keep one with all its readings, or correct where the other is; until then both count.": (
        "Deje uno con todas sus lecturas, o corrija dónde está el otro; mientras, cuentan los dos."
    ),
    "a place in the room, {width} from wall L to wall R": (
        "un lugar dentro del cuarto, {width} de la pared izquierda a la derecha"
    ),
    "{at} from wall L": "a {at} de la pared izquierda",
    "Measure it again; until then how far to open is worked with it where it is typed.": (
        "Mídalo otra vez; mientras, hasta dónde abrir se calcula con él donde está escrito."
    ),
    "{name} on wall {wall}": "{name} en la pared {wall}",
    "it is typed on wall {wall}": "está escrito en la pared {wall}",
    "Correct its name or its wall; until then it goes by its name.": (
        "Corrija su nombre o su pared; mientras, va por su nombre."
    ),
    "wood at most {size} thick": "madera de a lo más {size} de grueso",
    "Measure it again, open face to the other: its time to dry is begun from that.": (
        "Mídalo otra vez, de la cara abierta a la otra: de ahí parte su tiempo de secado."
    ),
    "what it is made of: lumber, treated, plywood, OSB, other panel": (
        "de qué es: madera aserrada, tratada, triplay, OSB, otra hoja"
    ),
    "not said": "no dicho",
    "Say it: without it no reading is corrected, nor compared with the same stuff read dry.": (
        "Dígalo: sin eso ninguna lectura se corrige ni se compara con el mismo material leído seco."
    ),
    "not used: {why}": "no se usa: {why}",
    "wood from 32 to 122 F (0 to 50 C), where readings can be corrected for it": (
        "madera de 32 a 122 F (0 a 50 C), donde se puede corregir la lectura"
    ),
    "wood within {far} F (22 C) of the room's air, {air}": (
        "madera a menos de {far} F (22 C) del aire del cuarto, {air}"
    ),
    "temperature of the wood doubted: nothing is taken off for it": (
        "temperatura de la madera en duda: no se le quita nada por ella"
    ),
    "Type the wood's temperature again.": "Escriba otra vez la temperatura de la madera.",
    "Type the wood's temperature again; until then nothing is judged from its readings.": (
        "Escriba otra vez la temperatura de la madera; mientras, de sus lecturas no se juzga nada."
    ),
    "Type the wood's temperature again, or read it when it is as warm as the room; until then nothing is "
    "taken off for it and no date is worked from it.": (
        "Escriba otra vez la temperatura de la madera, o léala cuando esté tan tibia como el cuarto; "
        "mientras, no se le quita nada por ella y de ahí no sale ninguna fecha."
    ),
    "shows {shown} on visit {visit}, with the wood too hot or too cold to correct it": (
        "muestra {shown} en la visita {visit}, con la madera demasiado caliente o fría para corregirlo"
    ),
    "Type the wood's temperature again, or leave it out if it was not measured.": (
        "Escriba otra vez la temperatura de la madera, o déjela fuera si no se midió."
    ),
    "a pad meter reads density as well": "un medidor de placa lee también la densidad",
    "temperature {wood} F: {added} (half a point for each 5 C from 20 C)": (
        "temperatura {wood} F: {added} (medio punto por cada 5 C desde 20 C)"
    ),
    "temperature {wood} F: {added} (Canadian formula)": "temperatura {wood} F: {added} (fórmula canadiense)",
    "species {species}, meter set to {scale}: {added} (resistance table)": (
        "especie {species}, medidor puesto en {scale}: {added} (tabla de resistencia)"
    ),
    "a chip dried in an oven and weighed before and after: no meter in it": (
        "una astilla secada en horno y pesada antes y después: sin medidor"
    ),
    "left as shown: {why}; compare with the same stuff dry in this house": (
        "como lo mostró: {why}; compárelo con el mismo material seco de esta casa"
    ),
    "not known which species the meter is set to: not corrected": (
        "no se sabe en qué especie está puesto el medidor: sin corregir"
    ),
    "species: no published figure for {species}; not corrected": (
        "especie: no hay dato publicado de {species}; sin corregir"
    ),
    "species: no published figure for {species} at more than {most}; not corrected": (
        "especie: no hay dato publicado de {species} arriba de {most}; sin corregir"
    ),
    "temperature: the meter corrects for it": "temperatura: la corrige el medidor",
    "temperature of the wood not measured: not corrected": "temperatura de la madera sin medir: sin corregir",
    "species not known: not corrected": "no se sabe la especie: sin corregir",
    "species: the meter is set to {species}": "especie: el medidor está puesto en {species}",
    # what keeps it open
    "{number} of at least {least} readings": "{number} de al menos {least} lecturas",
    "Read more places.": "Lea más lugares.",
    "{call}: {why}": "{call}: {why}",
    "Read its plate and studs.": "Lea su solera y sus montantes.",
    "Read the subfloor.": "Lea el subpiso.",
    "{read} Or say what will be covered, if it is not.": "{read} O diga qué se va a tapar, si eso no.",
    "how far it was wet is not known: nothing past it is read dry": (
        "no se sabe hasta dónde se mojó: nada más allá se leyó seco"
    ),
    "Read the next place past it.": "Lea el lugar siguiente, más allá.",
    "no photo before it is covered": "falta la foto antes de tapar",
    "Take it square on, a tape in it.": "Tómela de frente, con una cinta a la vista.",
    "not known whether one is asked for": "no se sabe si la piden",
    "Ask the local authority, then write it down.": "Pregunte a la autoridad local y anótelo.",
    "called, not passed yet": "pedida, todavía sin pasar",
    "Wait for it.": "Espérela.",
    "failed": "no pasó",
    "Mend what was found and call again.": "Repare lo que hallaron y pídala otra vez.",
    "rough inspection": "inspección antes de tapar",
    "the framing": "la estructura",
    "it leaks and is not mended: {why}": "gotea y no está reparado: {why}",
    "Mend it, then make the same test again.": "Repárelo y haga otra vez la misma prueba.",
    "Test it.": "Pruébelo.",
    "no reading in it": "sin ninguna lectura",
    # the goal
    "{goal} (dry reference {dry})": "{goal} (referencia seca {dry})",
    "{goal}, the most allowed (dry reference {dry})": "{goal}, lo más que se permite (referencia seca {dry})",
    "at most {most}, and near a dry reference that is not read yet": (
        "a lo más {most}, y cerca de una referencia seca que todavía no se lee"
    ),
    # how far to open
    "toward the lower end": "hacia el extremo de abajo",
    "toward the far end": "hacia el otro extremo",
    "toward the front of wall L": "hacia el frente de la pared izquierda",
    "toward wall R": "hacia la pared derecha",
    "toward wall L": "hacia la pared izquierda",
    "toward wall B": "hacia la pared del fondo",
    "toward the front": "hacia el frente",
    "down": "hacia abajo",
    "up": "hacia arriba",
    "{way} from {bad}: open to {at}; {dry} is dry": (
        "{way} desde {bad:place}: abra hasta {at:place}; seco en {dry:place}"
    ),
    "{way} from {bad}: open to {at}": "{way} desde {bad:place}: abra hasta {at:place}",
    "{way} from {bad}: not known yet, nothing past it is read dry": (
        "{way} desde {bad:place}: todavía no se sabe, más allá nada se leyó seco"
    ),
    "{way} from {bad}: open to the end of the wood, and look at what stands against it": (
        "{way} desde {bad:place}: abra hasta el extremo de la madera, y vea lo que está junto"
    ),
    "{place}: dry, {dry}; wet, {wet}": "{place:place}: si está seco, {dry}; si está mojado, {wet}",
    "still open": "sigue abierto",
    "further still": "más allá",
    "open to {at}": "abra hasta {at:place}",
    "to {at}": "hasta {at:place}",
    "{where}: {why}": "{where:place}: {why}",
    "{where}": "{where:place}",
    "{where} held or rose from visit {before} to {now} while the rest fell": (
        "{where} se mantuvo o subió de la visita {before} a la {now} mientras lo demás bajó"
    ),
    "{what} in between": "{what} entre las dos",
    "supply off": "agua cerrada",
    "shower not used": "ducha sin usar",
    "no rain": "sin lluvia",
    # what to do at each point
    "dry here": "seco aquí",
    "dry on": "seguir secando",
    "no date": "sin fecha",
    "open further": "abrir más",
    "cut out": "cortar",
    "not shown": "sin mostrar",
    "goes out with the patch": "sale con el parche",
    "goes out with patch {number}": "sale con el parche {number}",
    "inside the cut lines of patch {number}": "dentro de las líneas de corte del parche {number}",
    "Cut it out with patch {number}, then type the day it was cut out.": (
        "Córtelo con el parche {number}; luego escriba el día en que se cortó."
    ),
    "Every place that stays is dry.": "Todo lo que se queda está seco.",
    "Every place that stays was dry when it was read, {old} of {number} too long ago to cover by: read them "
    "again.": (
        "Todo lo que se queda estaba seco al leerse; {old} de {number} hace demasiado tiempo para tapar: "
        "léalos otra vez."
    ),
    "Every place was dry when it was read, {old} of {number} too long ago to cover by: read them again.": (
        "Todos los lugares estaban secos al leerse; {old} de {number} hace demasiado tiempo para tapar: "
        "léalos otra vez."
    ),
    "wood that goes out": "madera que sale",
    "gone": "ya cortado",
    "Read it again a day later or more, in the same holes.": (
        "Léalo otra vez un día después o más, en los mismos agujeros."
    ),
    "no date yet, it may be fed: on a first visit only the next reading tells": (
        "todavía sin fecha, puede seguir llegando agua: en una primera visita sólo lo dice la próxima lectura"
    ),
    "{before} and {value}, a day or more apart, sound": "{before} y {value}, con un día o más en medio, sano",
    "reads {value}": "lee {value}",
    "an awl sinks at most {deep}, a sliver splinters long": (
        "un punzón entra a lo más {deep}, la astilla sale larga"
    ),
    "Cut it out back to sound wood; drying does not bring strength back.": (
        "Córtelo hasta madera sana; secar no devuelve la fuerza."
    ),
    "Read it, or open so that it can be read.": "Léalo, o abra para poder leerlo.",
    "Read three places of the same stuff that were never wet.": (
        "Lea tres lugares del mismo material que nunca se mojaron."
    ),
    "reads {value}; no dry reference": "lee {value}; sin referencia seca",
    "reads {value} and nothing past it is read dry": "lee {value} y más allá nada se leyó seco",
    "Open and read {where}.": "Abra y lea {where:place}.",
    "over the meter's range": "más de lo que mide el medidor",
    "reads {value}, at its goal on one visit": "lee {value}, en su meta en una visita",
    "reads {value}; {before} a day or more before": "lee {value}; {before} un día o más antes",
    "reads {value}, {rise} since visit {visit}": "lee {value}, {rise} desde la visita {visit}",
    "Find what wets it; read it again a day later.": "Halle lo que lo moja; léalo otra vez un día después.",
    "dry on two visits ({before}, {value}); no awl pushed in": (
        "seco en dos visitas ({before}, {value}); sin probar con punzón"
    ),
    "the room's air is not read": "el aire del cuarto no se ha leído",
    "Read temperature and humidity of the room on each visit.": (
        "Lea la temperatura y la humedad del cuarto en cada visita."
    ),
    "wood comes to {air} in the room's air as last read, over the goal: it cannot get there": (
        "con el aire del cuarto de la última lectura la madera llega a {air}, arriba de la meta: no puede "
        "llegar"
    ),
    "wood comes to {air} in the mean air of the last visits, over the goal: no date by that": (
        "con el aire promedio de las últimas visitas la madera llega a {air}, arriba de la meta: así no "
        "hay fecha"
    ),
    "Keep the room as dry as it is now, and read it and its air again.": (
        "Mantenga el cuarto tan seco como está ahora, y léalo otra vez con su aire."
    ),
    "Dry or warm the room: see the air that would be dry enough.": (
        "Seque o caliente el cuarto: vea qué aire sería bastante seco."
    ),
    "it comes to rest near {plateau}, over the goal": "se queda cerca de {plateau}, arriba de la meta",
    "Look for a source, a trapped layer, salts, a wrong scale, or no air behind it.": (
        "Busque una fuente, una capa encerrada, sales, una escala equivocada, o falta de aire atrás."
    ),
    "it does not fall": "no baja",
    "Look for water: test the pipes and the drain before more drying.": (
        "Busque agua: pruebe los tubos y el desagüe antes de secar más."
    ),
    "Stop drying and look for the water: pipes, drain, what runs to it.": (
        "Deje de secar y busque el agua: tubos, desagüe, lo que le llega."
    ),
    "Read it again tomorrow, in the same holes; look for water at it meanwhile.": (
        "Léalo otra vez mañana, en los mismos agujeros; mientras, busque agua ahí."
    ),
    "it falls behind its neighbors: possibly fed, {odds}": (
        "se atrasa de sus vecinos: quizá le llega agua, {odds}"
    ),
    "it falls behind its neighbors ({change}, neighbors {expected}): possibly fed, {odds}": (
        "se atrasa de sus vecinos ({change}, vecinos {expected}): quizá le llega agua, {odds}"
    ),
    "Look for water at it before trusting any date; read it again tomorrow.": (
        "Busque agua ahí antes de creer en una fecha; léalo otra vez mañana."
    ),
    "at its goal in {least} to {most} days": "en su meta en {least} a {most} días",
    "Dry on; it may be closed between {soonest} and {latest}, eight times in ten.": (
        "Siga secando; se puede cerrar entre {soonest} y {latest}, ocho veces de diez."
    ),
    "Read it now: it may be closed once it reads dry, and again a day later.": (
        "Léalo ahora: se puede cerrar cuando marque seco, y otra vez un día después."
    ),
    "Between {soonest} and {latest}, eight times in ten, if the air stays as it is.": (
        "Entre {soonest} y {latest}, ocho veces de diez, si el aire sigue igual."
    ),
    "Between {soonest} and {latest} for all {number} places, eight times in ten, if the air stays as it "
    "is.": ("Entre {soonest} y {latest} los {number} lugares, ocho veces de diez, si el aire sigue igual."),
    "No date yet: {number} places have none.": "Sin fecha todavía: {number} lugares no la tienen.",
    "No date yet: one place has none.": "Sin fecha todavía: un lugar no la tiene.",
    "No date yet: each of the {number} places has one, but the last of them may come more than {days} days "
    "from now.": (
        "Sin fecha todavía: cada uno de los {number} lugares la tiene, pero el último puede tardar más de "
        "{days} días."
    ),
    "Every place is dry.": "Todos los lugares están secos.",
    "Those days are past: last read {days} days ago, read again before anything is closed.": (
        "Esos días ya pasaron: la última lectura fue hace {days} días, lea otra vez antes de cerrar nada."
    ),
    "{dry} or less": "{dry} o menos",
    "wood {size} thick or more, for a time by its thickness": (
        "madera de {size} de grueso o más, para un tiempo según su grueso"
    ),
    "{size} thick": "{size} de grueso",
    "Its time is begun from that of {size}; read it daily.": "Su tiempo parte del de {size}; léalo cada día.",
    "at least {by}": "al menos {by}",
    "no date before three readings over two days; so far {number} tell of this drying": (
        "sin fecha antes de tres lecturas en dos días; hasta ahora {number} hablan de este secado"
    ),
    "no date before three readings over two days": "sin fecha antes de tres lecturas en dos días",
    "no goal before a dry reference is read": "sin meta antes de leer una referencia seca",
    "Dry on, and read it every day or two, in the same holes.": (
        "Siga secando y léalo cada día o dos, en los mismos agujeros."
    ),
    "falling, and {number} readings do not tell yet when it is there": (
        "va bajando, y {number} lecturas todavía no dicen cuándo llega"
    ),
    "Read on: every day or two, in the same holes.": "Siga leyendo: cada día o dos, en los mismos agujeros.",
    "rising ({rise} since visit {visit})": "va subiendo ({rise} desde la visita {visit})",
    "over {limit} and not falling since visit {visit}": "más de {limit} y no baja desde la visita {visit}",
    "risen over the meter's range since visit {visit}": (
        "subió a más de lo que mide el medidor desde la visita {visit}"
    ),
    "a sliver snaps short (visit {visit}): decay": "una astilla se rompe corta (visita {visit}): podrido",
    "the awl sinks {deep} (visit {visit})": "el punzón entra {deep} (visita {visit})",
    "its layers come apart": "sus capas se separan",
    "swollen by {by}": "hinchado por {by}",
    "a panel swollen by at most {by}, its layers together": (
        "una hoja hinchada por a lo más {by}, con sus capas juntas"
    ),
    "cut out {day}": "cortado {day}",
    "Correct the day; until then it counts as still there, as it was last read.": (
        "Corrija el día; mientras, cuenta como que sigue ahí, como se leyó la última vez."
    ),
    "a day not before its last reading, {when}": "un día no anterior a su última lectura, {when}",
    "a day within {days} days of the newest one typed": "un día a menos de {days} días del más nuevo escrito",
    "cannot be reached": "no se alcanza",
    "not read yet": "todavía sin leer",
    "Push an awl in with the thumb.": "Meta un punzón con el pulgar.",
}
"""English form to Spanish."""
