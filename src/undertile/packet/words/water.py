"""Findings of the water part in a crew's words, by code (docs/findings.md)."""

from __future__ import annotations

WATER_FINDINGS: dict[str, tuple[str, str]] = {
    "decay-bearing": (
        "{where}: decayed where it bears, or may. Shore it before anything is cut; ask an engineer.",
        "{where}: podrido donde carga o puede cargar. Apuntale antes de cortar; pregunte a un ingeniero.",
    ),
    "bare-bearing": (
        "{where}: cut out where it bears, or may, and nothing put back. Shore it; ask what carries now.",
        "{where}: cortado donde carga o puede cargar, y sin reponer. Apuntale; pregunte qué carga ahora.",
    ),
    "new-on-gone": (
        "{where}: new wood typed at what was cut out. Add it as a new place.",
        "{where}: madera nueva anotada en lo que se cortó. Agréguela como lugar nuevo.",
    ),
    "air-test": (
        "{where}: pipes under air. Let it off and test with water.",
        "{where}: tubos con aire a presión. Suéltelo y pruebe con agua.",
    ),
    "point-cut-out": (
        "{where}: soft or ruined. Cut it out back to sound wood; drying does not bring strength back.",
        "{where}: blando o arruinado. Corte hasta madera sana; secar no devuelve la fuerza.",
    ),
    "point-fed": (
        "{where}: does not dry as its neighbors do. Look for water at it.",
        "{where}: no seca como sus vecinos. Busque agua ahí.",
    ),
    "point-no-date": (
        "{where}: no date to close it. Look for water, trapped layers or damp air.",
        "{where}: sin fecha para cerrar. Busque agua, capas encerradas o aire húmedo.",
    ),
    "point-open-further": (
        "{where}: wet, and nothing past it is read dry. Open and read further on.",
        "{where}: mojado, y más allá no hay lectura seca. Abra y lea más adelante.",
    ),
    "moisture-near-limit": (
        "{where}: dry enough, within the meter's own error.",
        "{where}: bastante seco, dentro del error del medidor.",
    ),
    "point-without-place": (
        "{where}: say where it is: it tells nothing of how far to open.",
        "{where}: diga dónde está: no dice hasta dónde abrir.",
    ),
    "leak-found": (
        "{where}: it leaks. Mend it, then make the same test again.",
        "{where}: gotea. Repare y haga otra vez la misma prueba.",
    ),
    "leak-came-and-went": (
        "{where}: it leaked, then did not, and no repair is written. Say what was mended, or test twice.",
        "{where}: goteó, luego no, y no hay reparación escrita. Diga qué se reparó, o pruebe dos veces.",
    ),
    "leak-said-otherwise": (
        "{where}: said that it cannot be, and a test shows it. Take the word back, or test again.",
        "{where}: se dijo que no puede ser, y una prueba lo muestra. Retire lo dicho, o pruebe otra vez.",
    ),
    "leak-word-alone": (
        "{where}: a word alone does not rule it out. Test it, or say why not, or when it was torn out.",
        "{where}: una palabra sola no lo descarta. Pruébelo, o diga por qué no, o cuándo se arrancó.",
    ),
    "leak-test-asked": (
        "{where}: numbers, day or hour are asked about. Until then it rules nothing out.",
        "{where}: se pregunta por números, día u hora. Hasta entonces no descarta nada.",
    ),
    "leak-test-short": (
        "{where}: this test shows nothing yet. Make it longer, or watch it.",
        "{where}: esta prueba todavía no muestra nada. Hágala más larga, o vigílela.",
    ),
    "reference-thin": (
        "{where}: read three places of the same stuff that were never wet.",
        "{where}: lea tres lugares del mismo material que nunca se mojaron.",
    ),
    "reference-wet": (
        "{where}: not dry itself. Look for damp there, or weigh a chip dried in an oven.",
        "{where}: tampoco está seco. Busque humedad ahí, o pese una astilla secada en horno.",
    ),
    "moisture-limits-changed": (
        "{where}: other limits than the usual ones.",
        "{where}: otros límites que los de costumbre.",
    ),
    "reading-jumped": (
        "{where}: up or down as wood does not go. Read it again in the same holes, or is its face wet?",
        "{where}: subió o bajó como la madera no lo hace. ¿Leer otra vez, o está mojada la cara?",
    ),
    "thin-wood": (
        "{where}: thin wood. Its date stands on its readings more than on its thickness: read it daily.",
        "{where}: madera delgada. Su fecha sale de las lecturas más que del grueso: lea cada día.",
    ),
    "reading-slipped": (
        "{where}: is the decimal point right? Read it again, or correct it.",
        "{where}: ¿está bien el punto decimal? Lea otra vez, o corríjalo.",
    ),
    "reading-nothing": (
        "{where}: no wood reads so low. Read it again; type under if the meter shows nothing.",
        "{where}: ninguna madera marca tan poco. Lea otra vez; escriba under si el medidor no muestra nada.",
    ),
    "reading-out-of-range": (
        "{where}: outside what the meter can tell. Take it as only dry or only wet.",
        "{where}: fuera de lo que el medidor distingue. Tómelo sólo como seco o mojado.",
    ),
    "humidity-odd": (
        "{where}: no air has that humidity. Read it again.",
        "{where}: ningún aire tiene esa humedad. Lea otra vez.",
    ),
    "air-out-of-table": (
        "{where}: too cold or too hot to tell how far wood dries. Read the air again.",
        "{where}: demasiado frío o caliente para saber hasta dónde seca la madera. Lea otra vez el aire.",
    ),
    "wood-temperature-odd": (
        "{where}: wood is hardly so hot or so cold there. Type its temperature again.",
        "{where}: la madera casi no puede estar tan caliente o fría ahí. Escriba otra vez su temperatura.",
    ),
    "wood-temperature-not-said": (
        "{where}: how cold is the wood? Cold wood reads drier than it is.",
        "{where}: ¿qué tan fría está la madera? La madera fría se lee más seca de lo que está.",
    ),
    "goal-under-dry": (
        "{where}: lower than dry wood reads in this house. No wood gets there.",
        "{where}: más baja que lo que lee la madera seca en esta casa. Ninguna madera llega ahí.",
    ),
    "pins-too-deep": (
        "{where}: the pins go through the wood. They read what is behind it.",
        "{where}: las puntas atraviesan la madera. Leen lo que hay detrás.",
    ),
    "meter-unknown": (
        "{where}: a meter that is not in the job. Name it with its scale.",
        "{where}: un medidor que no está en el trabajo. Nómbrelo con su escala.",
    ),
    "meter-not-said": (
        "{where}: say which meter was used.",
        "{where}: diga qué medidor se usó.",
    ),
    "visit-unknown": (
        "{where}: read on a visit that is not in the job. Add the visit with its day.",
        "{where}: leído en una visita que no está en el trabajo. Agregue la visita con su día.",
    ),
    "dates-out-of-order": (
        "{where}: days that cannot be in that order. Correct the one that is wrong.",
        "{where}: días que no pueden ir en ese orden. Corrija el que está mal.",
    ),
    "out-day-odd": (
        "{where}: it cannot have been cut out on that day. It counts as still there: correct the day.",
        "{where}: no pudo cortarse ese día. Cuenta como que sigue ahí: corrija el día.",
    ),
    "point-twice": (
        "{where}: two points at one place. Keep one, or correct the other.",
        "{where}: dos puntos en un lugar. Deje uno, o corrija el otro.",
    ),
    "point-outside": (
        "{where}: outside the room. Measure it again.",
        "{where}: fuera del cuarto. Mídalo otra vez.",
    ),
    "point-other-wall": (
        "{where}: its name is of another wall. Correct the name or the wall.",
        "{where}: su nombre es de otra pared. Corrija el nombre o la pared.",
    ),
    "thickness-odd": (
        "{where}: hardly so thick. Measure it again.",
        "{where}: no puede ser tan grueso. Mídalo otra vez.",
    ),
    "material-missing": (
        "{where}: what is it made of? Say it.",
        "{where}: ¿de qué material es? Dígalo.",
    ),
    "day-ahead": (
        "{where}: a day that has not come yet; it opens nothing. Correct it.",
        "{where}: un día que todavía no llega; no abre nada. Corríjalo.",
    ),
    "proof-too-early": (
        "{where}: dated before it was opened, it shows nothing. Make it anew, or correct the day.",
        "{where}: de antes de abrir, no muestra nada. Hágala de nuevo o corrija el día.",
    ),
    "inspection-no-day": (
        "{where}: passed, and no day is written. Write it.",
        "{where}: aprobada, y no hay día escrito. Escríbalo.",
    ),
    "clock-behind": (
        "{where}: it is behind the days typed in this job. Set it.",
        "{where}: va atrasado de los días escritos en este trabajo. Póngalo bien.",
    ),
    "day-far-off": (
        "{where}: long after everything before it. Is the day right?",
        "{where}: mucho después de todo lo anterior. ¿Está bien el día?",
    ),
    "chip-heavier-dry": (
        "{where}: a chip that gained weight in the oven. Weigh it again.",
        "{where}: una astilla que ganó peso en el horno. Pésela otra vez.",
    ),
    "chip-odd": (
        "{where}: a chip that cannot be so, or is far from the meter. Weigh it again.",
        "{where}: una astilla que no puede ser así, o lejos del medidor. Pésela otra vez.",
    ),
    "stud-will-shrink": (
        "{where}: wet: its face goes back as it dries. The order of work says which stud dries first.",
        "{where}: mojado: su cara se mete al secar. El orden del trabajo dice qué montante se seca primero.",
    ),
    "stud-depth-for-shrinkage": (
        "{where}: measure the depth, actual: how far it shrinks goes with it.",
        "{where}: mida el fondo, real: de él depende cuánto encoge.",
    ),
    "do-not-cover": (
        "{where}: do not cover yet. See what is missing.",
        "{where}: no tape todavía. Vea qué falta.",
    ),
}
"""Code to (English, Spanish)."""
