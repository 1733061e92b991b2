"""Of the source of the water: what was tested, with its numbers, what it leaves, what to test next."""

from __future__ import annotations

LEAK: dict[str, str] = {
    "{test}: {why}": "{test}: {why}",
    "{first}: {then}": "{first}: {then}",
    # where it can come from
    "readings": "lecturas",
    "the supply pipes, under pressure all the time": "los tubos de agua, siempre con presión",
    "the pipe from the valve to the head, wet only in use": (
        "el tubo de la válvula a la regadera, con agua sólo al usarla"
    ),
    "the drain below the strainer": "el desagüe abajo de la rejilla",
    "the pan or liner, up to the curb": "la base o su membrana, hasta el borde",
    "walls, corners, curb and door, when they are sprayed": (
        "paredes, esquinas, borde y puerta, cuando se mojan"
    ),
    "rain through roof, wall or window": "lluvia por techo, pared o ventana",
    "moist air on a cold surface": "aire húmedo en una superficie fría",
    "the neighbor's water": "el agua del vecino",
    # tests that can be made
    "water meter": "medidor de agua",
    "Shut everything off and watch the water meter.": "Cierre todo y vigile el medidor de agua.",
    "pressure test": "prueba de presión",
    "Cap the head, open the valve, pump the pipes up with water and watch the gauge for 15 minutes.": (
        "Tape la salida de la regadera, abra la válvula, suba la presión con agua y vigile el manómetro "
        "15 minutos."
    ),
    "water down the drain": "agua por el desagüe",
    "Pour 20 liters straight into the drain and watch 15 minutes from below.": (
        "Eche 20 litros derecho en el desagüe y vigile 15 minutos desde abajo."
    ),
    "Plug the drain, fill the pan to about 50 mm, a bowl beside it, mark both, look after 24 hours.": (
        "Tape el desagüe, llene la base hasta cerca de 50 mm, un tazón al lado, marque los dos, vea a las 24 "
        "horas."
    ),
    "set a bowl of water beside it: a room alone takes about 3 mm in a day": (
        "ponga un tazón con agua al lado: un cuarto solo se lleva cerca de 3 mm en un día"
    ),
    "Pour 5 gallons straight into the drain and watch 15 minutes from below.": (
        "Eche 5 galones derecho en el desagüe y vigile 15 minutos desde abajo."
    ),
    "pan filled": "base llena",
    "Plug the drain, fill the pan to 2 inches, a bowl beside it, mark both, look after 24 hours.": (
        "Tape el desagüe, llene la base a 2 pulgadas, con un tazón al lado, marque los dos y vea "
        "a las 24 horas."
    ),
    "spray by zone": "rociar por zonas",
    "Plug the drain and spray zone by zone from the curb up, 10 minutes each, and watch.": (
        "Tape el desagüe y rocíe zona por zona desde el borde hacia arriba, 10 minutos cada una, y vigile."
    ),
    "hose outside": "manguera por fuera",
    "Wet wall and window outside for 15 minutes and watch.": (
        "Moje pared y ventana por fuera 15 minutos y vigile."
    ),
    "coldest surface": "superficie más fría",
    "Measure the coldest surface and the room's air on a cold morning.": (
        "Mida la superficie más fría y el aire del cuarto en una mañana fría."
    ),
    "neighbor's water": "agua del vecino",
    "Have the neighbor's water run 15 minutes and watch.": (
        "Pida al vecino que deje correr el agua 15 minutos y vigile."
    ),
    # what is known of each
    "mended {day}: {what}": "reparado {day}: {what}",
    "mended {day} without a test that found it: {what}; not tested since": (
        "reparado {day} sin prueba que lo hallara: {what}; sin probar desde entonces"
    ),
    "not tested": "sin probar",
    "not tested since": "sin probar desde entonces",
    "spray by zone, all dry: {zones}": "rociado por zonas, todo seco: {zones}",
    "Suspected: {what} ({why}).": "Sospechoso: {what} ({why}).",
    "Not ruled out: {what} ({why}).": "Sin descartar: {what} ({why}).",
    "This stands on {number} tests; what was not tested may leak as well.": (
        "Esto se apoya en {number} pruebas; lo que no se probó también puede gotear."
    ),
    "This stands on {number} test; what was not tested may leak as well.": (
        "Esto se apoya en {number} prueba; lo que no se probó también puede gotear."
    ),
    "clean since: {test}, {why}": "limpio desde entonces: {test}, {why}",
    "clean then: {test}, {why}": "limpio entonces: {test}, {why}",
    "clean before: {test}, {why}": "limpio antes: {test}, {why}",
    "then not clean any more: {shown}": "luego ya no limpio: {shown}",
    "it was said that it cannot be: {reason}": "se dijo que no puede ser: {reason}",
    "no water from it, as was said: {reason}": "nada de agua de ahí, como se dijo: {reason}",
    "The test counts. Take the word back, or make the test again after a repair.": (
        "Cuenta la prueba. Retire lo dicho, o haga otra vez la prueba después de una reparación."
    ),
    "dry: {dry}; not sprayed: {lack}": "seco: {dry}; sin rociar: {lack}",
    "No test has shown yet where the water comes from.": (
        "Ninguna prueba ha mostrado todavía de dónde viene el agua."
    ),
    "Not {what}: {why}.": "No es {what}: {why}.",
    "Cannot be {what}: {why}.": "No puede ser {what}: {why}.",
    "then clean ({test}), and no repair is written between": (
        "luego limpio ({test}), y no hay reparación escrita entre las dos"
    ),
    "clean since on {days}, as long and as hard, and no repair is written": (
        "limpio desde entonces el {days}, igual de largo y de duro, y no hay reparación escrita"
    ),
    "Water came from {what}, and not since: {why}.": "El agua vino de {what}, y ya no: {why}.",
    "a repair written between a test that shows water and a clean one": (
        "una reparación escrita entre la prueba que muestra agua y la limpia"
    ),
    "Write what was mended and when; or make the same test again, as long and as hard, clean on two days.": (
        "Escriba qué se reparó y cuándo; o haga la misma prueba otra vez, igual de larga y de dura, y que "
        "salga limpia en dos días."
    ),
    "Water came from {what}: {why}.": "El agua vino de {what}: {why}.",
    "Water came from {what}, and that is not settled: {why}.": (
        "El agua vino de {what}, y eso no está resuelto: {why}."
    ),
    "none": "ninguna",
    # what a word does not rule out, and days that tell nothing
    "a reason in words: no window, a house alone on its lot": (
        "un motivo en palabras: sin ventana, una casa sola en su lote"
    ),
    "said that it cannot be, and no reason that can be read": (
        "se dijo que no puede ser, sin un motivo que se pueda leer"
    ),
    "Write why it cannot be, or test it; until then it is open.": (
        "Escriba por qué no puede ser, o pruébelo; hasta entonces queda abierto."
    ),
    "a test: water came, and one leak does not exclude another": (
        "una prueba: llegó agua, y una fuga no descarta otra"
    ),
    "a test, or the day on which it was torn out": "una prueba, o el día en que se arrancó",
    "Test it while it stands, or type the day it was torn out. Until then it is open.": (
        "Pruébelo mientras esté en pie, o escriba el día en que se arrancó. Hasta entonces queda abierto."
    ),
    "torn out {day}": "arrancado {day}",
    "torn out {day}: {reason}": "arrancado {day}: {reason}",
    "Correct the day; until then it counts as still there.": (
        "Corrija el día; mientras, cuenta como que sigue ahí."
    ),
    "ruled out by a word alone": "descartado sólo de palabra",
    "Test it: pipes and drain are in every shower. Until then it is open.": (
        "Pruébelo: tubos y desagüe hay en toda regadera. Hasta entonces queda abierto."
    ),
    "a day not before the water was noticed, {since}": "un día no antes de que se notó el agua, {since}",
    "a day within {days} days of a visit ({visit} is the nearest)": (
        "un día a {days} días o menos de una visita (la más cercana es {visit})"
    ),
    "Correct the day, or say since when the water was noticed; until then it rules nothing out.": (
        "Corrija el día, o diga desde cuándo se nota el agua; hasta entonces no descarta nada."
    ),
    "Correct the day, or make the test again; until then it rules nothing out.": (
        "Corrija el día, o haga otra vez la prueba; hasta entonces no descarta nada."
    ),
    "its day is asked about": "se pregunta por su día",
    # order of one day, and wood wetted again
    "the hours of what was done on {day}: {which}": "las horas de lo que se hizo el {day}: {which}",
    "which came first on {day} is not known: an hour is missing": (
        "no se sabe qué fue primero el {day}: falta una hora"
    ),
    "Write the hour of each; until then the worse order counts, and it is open.": (
        "Escriba la hora de cada una; hasta entonces cuenta el peor orden, y queda abierto."
    ),
    "Make the test again, and write its hour; until then it rules nothing out.": (
        "Haga otra vez la prueba y escriba su hora; hasta entonces no descarta nada."
    ),
    "the wood got wet again after it": "la madera se mojó otra vez después",
    "a test begun after visit {visit}, {when}": "una prueba empezada después de la visita {visit}, {when}",
    "{before} on visit {first}, then {after} on visit {visit}: water came after the test": (
        "{before} en la visita {first}, luego {after} en la visita {visit}: llegó agua después de la prueba"
    ),
    "a test of 14 days (336 h, 20160 min) or less": "una prueba de 14 días (336 h, 20160 min) o menos",
    "a test of 1 day (1440 min) or less": "una prueba de 1 día (1440 min) o menos",
    "begun then, it is over on {day}: until then it rules nothing out": (
        "empezada entonces, termina el {day}: hasta entonces no descarta nada"
    ),
    "a result of after its end: its day and hour are those of its start": (
        "un resultado de después de su fin: su día y hora son los de su comienzo"
    ),
    "Correct its start or how long it took, or look again when it is over.": (
        "Corrija su comienzo o cuánto duró, o mire otra vez cuando termine."
    ),
    "a water test from 0 to {most} {gauge}": "una prueba con agua de 0 a {most} {gauge}",
    "{first} {gauge}, {last} {gauge} in the end": "{first} {gauge}, {last} {gauge} al final",
    "say whether its gauge reads psi, bar or kPa": "diga si su manómetro marca psi, bar o kPa",
    "a gauge in psi, bar or kPa": "un manómetro en psi, bar o kPa",
    "not said what its gauge reads in": "no se dice en qué marca su manómetro",
    "say which pipes were held": "diga qué tubos estuvieron a presión",
    "pipes not said": "sin decir los tubos",
    "not said which pipes were held": "no se dice qué tubos estuvieron a presión",
    "the supply, or the riser with the head capped and the valve open, or both": (
        "los tubos de agua, o el tubo a la regadera con la salida tapada y la válvula abierta, o los dos"
    ),
    "say how much was poured": "diga cuánta agua se echó",
    "gallons or liters poured, one of the two": "galones o litros echados, uno de los dos",
    "not said how much": "no se dice cuánto",
    "Say how much; until then it rules nothing out.": "Diga cuánto; hasta entonces no descarta nada.",
    "If it is so, let it off: pipes and fittings can burst. Read the gauge again and test with water at what "
    "the pipe's maker allows; until then it rules nothing out.": (
        "Si es así, suéltela: tubos y conexiones pueden reventar. Lea otra vez el manómetro y pruebe con "
        "agua a lo que permite el fabricante del tubo; hasta entonces no descarta nada."
    ),
    "{number} min": "{number} min",
    "{number} h": "{number} h",
    "Type how long it took again; until then it rules nothing out.": (
        "Escriba otra vez cuánto duró; hasta entonces no descarta nada."
    ),
    "water noticed": "se notó el agua",
    # zones, sides, pipes
    "curb": "borde",
    "corners": "esquinas",
    "lower walls": "paredes, parte baja",
    "valve": "válvula",
    "upper walls": "paredes, parte alta",
    "door": "puerta",
    "window": "ventana",
    "gallons": "galones",
    "cubic feet": "pies cúbicos",
    "litres": "litros",
    "water": "agua",
    "air": "aire",
    "supply": "tubos de agua",
    "riser": "tubo a la regadera",
    "hot and cold": "caliente y fría",
    "hot": "caliente",
    "cold": "fría",
    "at the strainer": "en la rejilla",
    "below the joint": "abajo de la unión",
    "past the trap": "pasando la trampa",
    "on a slab nobody sees below: plug the drain past the trap, fill it and the pan, and watch the level": (
        "sobre losa nadie ve abajo: tape el desagüe pasando la trampa, llénelo con la base y vigile el nivel"
    ),
    "on a slab only the level tells: set a bowl of water beside it": (
        "sobre losa sólo el nivel lo dice: ponga un tazón de agua al lado"
    ),
    "a slab, nothing to see below": "losa, nada que ver abajo",
    "Plug the drain past the trap, fill it and the pan to 2 inches, a bowl beside it, mark both, look "
    "after 24 hours.": (
        "Tape el desagüe pasando la trampa, llénelo con la base hasta 2 pulgadas, un tazón al lado, marque "
        "los dos, vea a las 24 horas."
    ),
    "Plug the drain past the trap, fill it to the strainer, a bowl of water beside it, mark both, look "
    "after 24 hours.": (
        "Tape el desagüe pasando la trampa, llénelo hasta la rejilla, un tazón con agua al lado, marque "
        "los dos, vea a las 24 horas."
    ),
    # numbers of a test that cannot be so
    "dry, wet or not watched: joists are typed for this floor, so it is no slab": (
        "seco, mojado o sin mirar: para este piso hay viguetas escritas, así que no es losa"
    ),
    "Say what was seen below, or take the joists off the floor if it is a slab; until then it rules "
    "nothing out.": (
        "Diga qué se vio abajo, o quite las viguetas del piso si es losa; hasta entonces no descarta nada."
    ),
    # a repair without a word
    "what was mended, in words: a new elbow, the joint soldered": (
        "qué se reparó, en palabras: un codo nuevo, la unión soldada"
    ),
    "a day of mending, and no word that says what was mended": (
        "un día de reparación, sin palabra que diga qué se reparó"
    ),
    "Write what was mended; until then it counts as not mended.": (
        "Escriba qué se reparó; hasta entonces cuenta como sin reparar."
    ),
    "Plug the drain past the trap, fill it and the pan to about 50 mm, a bowl beside it, mark both, look "
    "after 24 hours.": (
        "Tape el desagüe pasando la trampa, llénelo con la base hasta unos 50 mm, un tazón al lado, marque "
        "los dos, vea a las 24 horas."
    ),
    "Of {test}: {say}.": "De {test}: {say}.",
    "dry, or where and when water showed, not both": "seco, o dónde y cuándo salió agua, no los dos",
    "Say which it was: dry, or wet; until then it rules nothing out.": (
        "Diga cuál fue: seco o mojado; hasta entonces no descarta nada."
    ),
    "say whether it was dry: {came} is typed too": "diga si estaba seco: también está escrito {came}",
    "Read it again and correct it; until then it rules nothing out.": (
        "Léalo otra vez y corríjalo; hasta entonces no descarta nada."
    ),
    "a finest mark of {least} gallons or more": "una marca más fina de {least} galones o más",
    "a finest mark of {least} psi or more": "una marca más fina de {least} psi o más",
    "a finest mark of {mark}": "una marca más fina de {mark}",
    "{most} gallons or less": "{most} galones o menos",
    "{number} gallons": "{number} galones",
    "{most} liters or less": "{most} litros o menos",
    "{number} liters": "{number} litros",
    "a test: what was noticed points to it": "una prueba: lo que se notó apunta ahí",
    "Test it, or correct what was noticed. Until then it is open.": (
        "Pruébelo, o corrija lo que se notó. Hasta entonces queda abierto."
    ),
    "a day within {days} days of {first}, or since when the water was noticed": (
        "un día a menos de {days} días del {first}, o desde cuándo se notó el agua"
    ),
    "open": "abierto",
    "plugged": "tapado",
    # what a test showed
    "it held": "aguantó",
    "the same in the end": "igual al final",
    "its gauge is too coarse, {mark} {gauge} a mark: at {first} {gauge} take one with marks of {most} "
    "{gauge} or finer": (
        "su manómetro es muy basto, {mark} {gauge} por marca: con {first} {gauge} use uno con marcas de "
        "{most} {gauge} o más finas"
    ),
    "unclear: it changed by less than a mark of {mark} {gauge}; hold it longer, or with a finer gauge": (
        "no está claro: cambió menos de una marca de {mark} {gauge}; déjelo más tiempo, o con un manómetro "
        "más fino"
    ),
    "say the finest mark of its gauge": "diga la marca más fina de su manómetro",
    "a gauge with marks of {most} {gauge} or finer at {first} {gauge}": (
        "un manómetro con marcas de {most} {gauge} o más finas con {first} {gauge}"
    ),
    "not said what its gauge's finest mark is": "no se dice cuál es la marca más fina de su manómetro",
    "Say its finest mark; until then it rules nothing out.": (
        "Diga su marca más fina; hasta entonces no descarta nada."
    ),
    "unclear: less than its finest mark, {mark}; watch it longer": (
        "no está claro: menos que su marca más fina, {mark}; vigílelo más tiempo"
    ),
    "dry": "seco",
    "dry below": "seco abajo",
    "no move": "no se movió",
    "nobody watched": "nadie vigiló",
    "nobody watched from below": "nadie vigiló desde abajo",
    "nobody looked below": "nadie vio abajo",
    "water showed": "salió agua",
    "water showed: {place}": "salió agua: {place}",
    "water showed after {minutes} min": "salió agua a los {minutes} min",
    "water showed after {minutes} min: {place}": "salió agua a los {minutes} min: {place}",
    "water meter, {name}": "medidor de agua, {name}",
    "from {first} to {last} {unit} in {minutes} min, everything off": (
        "de {first} a {last} {unit} en {minutes} min, todo cerrado"
    ),
    "a meter does not run backward: read it again": "un medidor no corre hacia atrás: léalo otra vez",
    "{flow} a day, somewhere behind the meter": "{flow} al día, en algún lugar después del medidor",
    "no move; {flow} a day would have shown": "no se movió; {flow} al día se habrían visto",
    "up to {flow} a day would not show: watch it {hours} h": (
        "hasta {flow} al día no se verían: vigílelo {hours} h"
    ),
    "pressure test, {name}": "prueba de presión, {name}",
    "{medium} in {pipes} ({sides}): {first} {gauge}, {last} {gauge} after {minutes} min": (
        "{medium} en {pipes} ({sides}): {first} {gauge}, {last} {gauge} a los {minutes} min"
    ),
    "{pipes} ({sides}), not said whether water or air: {first} {gauge}, {last} {gauge} after {minutes} min": (
        "{pipes} ({sides}), sin decir si agua o aire: {first} {gauge}, {last} {gauge} a los {minutes} min"
    ),
    "made with air: let it off and make it with water": "hecha con aire: suéltelo y hágala con agua",
    "say whether it was made with water or with air": "diga si se hizo con agua o con aire",
    "a test made with water; air only where code and the pipe's maker allow it": (
        "una prueba hecha con agua; aire sólo donde lo permiten el código y el fabricante del tubo"
    ),
    "(unit not said)": "(sin decir la unidad)",
    "it moved, somewhere behind the meter": "se movió, en algún lugar después del medidor",
    "say whether it counts gallons, cubic feet or liters": "diga si cuenta galones, pies cúbicos o litros",
    "gallons, cubic feet or liters": "galones, pies cúbicos o litros",
    "not said what the meter counts": "no se dice qué cuenta el medidor",
    "hot and cold both held, or each by itself": "caliente y fría las dos a presión, o cada una aparte",
    "not said which side was held": "no se dice qué lado estuvo a presión",
    "side not said": "sin decir el lado",
    "say whether hot, cold or both were held": "diga si fue la caliente, la fría o las dos",
    "not said whether water or air": "no se dice si agua o aire",
    "Say which it was; until then it rules nothing out.": ("Diga cuál fue; hasta entonces no descarta nada."),
    "its numbers are asked about: {expected}": "se pregunta por sus números: {expected}",
    "it rose: the pipe warmed up; wait and begin again": (
        "subió: el tubo se calentó; espere y empiece otra vez"
    ),
    "it fell; first look at the gauge's own joints": "bajó; vea primero las uniones del manómetro",
    "hold {least} {gauge} or more for {minutes} min": "mantenga {least} {gauge} o más por {minutes} min",
    "water down the drain, {name}": "agua por el desagüe, {name}",
    "{water} poured in, watched {minutes} min from below": (
        "{water} echados, vigilado {minutes} min desde abajo"
    ),
    "pour {water} or more and watch {minutes} min": "eche {water} o más y vigile {minutes} min",
    "pan filled, {name}": "base llena, {name}",
    "no bowl beside it": "sin tazón al lado",
    "the bowl {fell}": "el tazón {fell}",
    "plugged {plug}, {hours} h: the pan fell {fell}, {bowl}": (
        "tapado {plug}, {hours} h: la base bajó {fell}, {bowl}"
    ),
    "the pan {pan}, the bowl {bowl}": "la base {pan}, el tazón {bowl}",
    "a bowl that falls no more than the pan beside it": "un tazón que no baja más que la base a su lado",
    "Were the two swapped? Type them again or fill it again; until then it rules nothing out.": (
        "¿Están cambiados? Escríbalos otra vez o llénela otra vez; hasta entonces no descarta nada."
    ),
    "a bowl that falls {most} at the most in {hours} h, as a room takes it": (
        "un tazón que baja {most} a lo más en {hours} h, lo que se lleva un cuarto"
    ),
    "Read both marks again, or fill both again; until then it rules nothing out.": (
        "Lea otra vez las dos marcas, o llene otra vez los dos; hasta entonces no descarta nada."
    ),
    "set a bowl of water beside it: a room alone takes up to 1/8 in a day": (
        "ponga un tazón de agua al lado: el puro cuarto se lleva hasta 1/8 en un día"
    ),
    "{lost} more than the bowl; first look at the plug": "{lost} más que el tazón; vea primero el tapón",
    "leave it {hours} h: a slow leak has not shown yet": (
        "déjelo {hours} h: una gotera lenta todavía no se ve"
    ),
    "spray, {zone}, {name}": "rociado, {zone}, {name}",
    "{zone} sprayed {minutes} min, drain {drain}": "{zone}: rociado {minutes} min, desagüe {drain}",
    "spray each zone {minutes} min": "rocíe cada zona {minutes} min",
    "hose outside, {name}": "manguera por fuera, {name}",
    "wall and window outside wetted {minutes} min": "pared y ventana mojadas por fuera {minutes} min",
    "neighbor's water, {name}": "agua del vecino, {name}",
    "run {minutes} min": "corrió {minutes} min",
    "keep it up {minutes} min": "siga {minutes} min",
    "coldest surface, {name}": "superficie más fría, {name}",
    "relative humidity from {least} to 100 percent": "humedad relativa de {least} a 100 por ciento",
    "Read the hygrometer again.": "Lea otra vez el higrómetro.",
    "Read the room's thermometer again.": "Lea otra vez el termómetro del cuarto.",
    "a surface from 32 to 122 F (0 to 50 C)": "una superficie de 32 a 122 F (0 a 50 C)",
    "Type the surface's temperature again, or measure it again.": (
        "Escriba otra vez la temperatura de la superficie, o mídala otra vez."
    ),
    "the coldest surface, not warmer than the room's air, {air}": (
        "la superficie más fría, no más caliente que el aire del cuarto, {air}"
    ),
    "Look for the coldest one and measure it again.": "Busque la más fría y mídala otra vez.",
    "{do} Until then it rules nothing out.": "{do} Hasta entonces no descarta nada.",
    "surface {surface}, air {air} at {humidity} percent": (
        "superficie {surface}, aire {air} a {humidity} por ciento"
    ),
    "{seen}: dew point {dew}": "{seen}: punto de rocío {dew}",
    "the surface gets wet": "la superficie se moja",
    "only {over} above: measure on the coldest morning, after a shower": (
        "sólo {over} arriba: mida en la mañana más fría, después de una ducha"
    ),
    "{seen}, {over} above it at that hour": "{seen}, {over} arriba a esa hora",
}
"""English form to Spanish."""
