"""What the second reading says of the walls, in Spanish."""

from __future__ import annotations

RECHECK: dict[str, str] = {
    # what is read again, and what a face stands on
    "changed": "cambiado",
    "changed for an earlier plan": "cambiado para un plan anterior",
    "above or below what was changed": "arriba o abajo de lo que cambió",
    "next to {stud}": "junto a {stud}",
    "read again": "leído otra vez",
    "first survey": "primera lectura",
    "estimated": "calculado",
    "missing": "falta",
    "cannot reach": "no se alcanza",
    "rule": "regla",
    "tape": "cinta",
    "sticks": "reglas corredizas",
    "laser meter": "medidor láser",
    "level": "nivel",
    "laser line": "línea láser",
    # faces
    "Face against its plane": "Cara contra su plano",
    "flush to {band} back": "del ras a {band} metido",
    "within {band}": "a menos de {band}",
    "at {height}: {text} ({standing}), offset {offset}; plane {plane}": (
        "a {height}: {text} ({standing}), a {offset} del cero; plano {plane}"
    ),
    "at {height}: ({standing}), offset {offset}; plane {plane}": (
        "a {height}: ({standing}), a {offset} del cero; plano {plane}"
    ),
    "at {height}: {standing} ({why}); plane {plane}": "a {height}: {standing} ({why}); plano {plane}",
    "Bring {stud} to its plane: see what is left to do.": "Lleve {stud} a su plano: vea lo que falta hacer.",
    "Read {spots} with a finer rule.": "Lea {spots} con una regla más fina.",
    "{first} {then}": "{first} {then}",
    "{first}{then}": "{first}{then}",
    "wall {wall}": "{wall:wall}",
    "height {height}": "altura {height}",
    "from {start} to {end}": "de {start} hasta {end}",
    # plumb
    "Plumb of the wall": "Plomo de la pared",
    "best plane through the readings leans {lean}": "el mejor plano por las lecturas se inclina {lean}",
    "best plane through the readings stands plumb": "el mejor plano por las lecturas está a plomo",
    "Bring the faces of wall {wall} to their plane, or hold the plane plumber.": (
        "Lleve las caras de la {wall:wall} a su plano, o deje el plano más a plomo."
    ),
    "the faces keep to their plane, so its lean is theirs": (
        "las caras siguen su plano, así que su inclinación es la de él"
    ),
    "Show every face of wall {wall} first (above).": "Primero muestre cada cara de la {wall:wall} (arriba).",
    "not every face is shown to keep to its plane": "no se muestra que cada cara siga su plano",
    "a face stands outside its band, so the readings are taken by themselves": (
        "una cara está fuera de lo permitido, así que las lecturas se toman solas"
    ),
    "fewer than two heights are read": "hay menos de dos alturas leídas",
    "Read the studs of wall {wall} at two heights.": "Lea los montantes de la {wall:wall} a dos alturas.",
    # play and square, measured again
    "Measure the inside width with pinch sticks at {depth} from the back, height {height}.": (
        "Mida el ancho interior con reglas corredizas a {depth} del fondo, a la altura {height}."
    ),
    "Measure both diagonals at the pan, from each back corner to the opposite front.": (
        "Mida las dos diagonales en la base, de cada esquina del fondo al frente opuesto."
    ),
    "wall {wall}: the studs lie {gap} behind the plane there, shimmed": (
        "{wall:wall}: ahí los montantes están {gap} metidos del plano, con calza"
    ),
    "wall {wall}: the studs lie {gap} behind the plane there": (
        "{wall:wall}: ahí los montantes están {gap} metidos del plano"
    ),
    "the faces in the flange zone are not all shown to keep to their planes": (
        "no se muestra que todas las caras a la altura de la pestaña sigan sus planos"
    ),
    "Read the studs of wall {walls} around it again at {height}. {sticks}": (
        "Lea otra vez los montantes de alrededor, {walls:wall}, a {height}. {sticks}"
    ),
    "inside width measured again {width} at {depth} from the back ({tool})": (
        "ancho interior medido otra vez {width} a {depth} del fondo ({tool})"
    ),
    "opening {opening} between the nominal planes by the first survey": (
        "ancho libre {opening} entre los planos cero según la primera lectura"
    ),
    "wall {wall}: face {face}": "{wall:wall}: cara {face}",
    "Take the tight side back in the flange zone.": (
        "Lleve hacia atrás el lado que aprieta, a la altura de la pestaña."
    ),
    "Build one side out.": "Engruese un lado.",
    "Turn a side wall toward square: see which corner is out.": (
        "Gire una pared lateral hacia la escuadra: vea qué esquina está mal."
    ),
    "not measured again: of the planes, which the faces keep to": (
        "sin medir otra vez: de los planos, que las caras siguen"
    ),
    "measured again: from back left {left}, from back right {right}": (
        "medido otra vez: desde el fondo a la izquierda {left}, desde el fondo a la derecha {right}"
    ),
    # the straightedge
    "along": "a lo largo",
    "across": "en diagonal",
    "a {length} straightedge": "una regla larga de {length}",
    "a straightedge as long as the run (up to {length})": (
        "una regla tan larga como el tramo (hasta {length})"
    ),
    "{length} straightedge {way} {where}": "regla larga de {length}, {way}, {where:place}",
    "Up each stud, {length} straightedge": "Hacia arriba en cada montante, regla larga de {length}",
    "Along each height, {length} straightedge": "A lo largo de cada altura, regla larga de {length}",
    "Across studs and heights, {length} straightedge": "En diagonal, regla larga de {length}",
    "Read at least three heights on a stud.": "Lea al menos tres alturas en un montante.",
    "Read at least three studs.": "Lea al menos tres montantes.",
    "Lay {edge} on {where} and give the widest gap, or read it again with a finer rule.": (
        "Ponga {edge} en {where} y dé el hueco más ancho, o léalo otra vez con una regla más fina."
    ),
    "Lay {edge} on {where} and give the widest gap, or read it every {step} or closer.": (
        "Ponga {edge} en {where} y dé el hueco más ancho, o léalo cada {step} o menos."
    ),
    "Lay {edge} across wall {wall}, slanting both ways over all of it, and give the widest gap": (
        "Ponga {edge} en diagonal, a los dos lados, por toda la {wall:wall}, y dé el hueco más ancho"
    ),
    "Lay {edge} up wall {wall}, over every stud, and give the widest gap": (
        "Ponga {edge} hacia arriba en la {wall:wall}, en cada montante, y dé el hueco más ancho"
    ),
    "Lay {edge} along wall {wall}, over every height, and give the widest gap": (
        "Ponga {edge} a lo largo de la {wall:wall}, en cada altura, y dé el hueco más ancho"
    ),
    "Lay {edge} up wall {wall}, at {names}, and give the widest gap": (
        "Ponga {edge} hacia arriba en la {wall:wall}, en {names}, y dé el hueco más ancho"
    ),
    "Lay {edge} along wall {wall}, at height {names}, and give the widest gap": (
        "Ponga {edge} a lo largo de la {wall:wall}, a la altura {names}, y dé el hueco más ancho"
    ),
    "{edge}; or read every {step} or closer.": "{edge}; o lea cada {step} o menos.",
    "Read {spots} again.": "Lea otra vez {spots}.",
    "Read {spots}, never read.": "Lea {spots}, que nunca se leyó.",
    "{length} straightedge laid {way} at {spot}: widest gap {gap}": (
        "regla larga de {length} puesta {way} en {spot:place}: hueco más ancho {gap}"
    ),
    "{length} straightedge laid {way}: widest gap {gap}": (
        "regla larga de {length} puesta {way}: hueco más ancho {gap}"
    ),
    "the straightedge laid on says otherwise: one of the two is wrong": (
        "la regla larga puesta dice otra cosa: una de las dos está mal"
    ),
    "the straightedge was laid before this wall was changed or read otherwise: lay it again": (
        "la regla larga se puso antes de cambiar esta pared o leer otra cosa: póngala otra vez"
    ),
    "by the readings the straightedge bridges nothing": "según las lecturas la regla larga no deja hueco",
    "by the readings {gap} at {spot}, resting on {rests}": (
        "según las lecturas {gap} en {spot}, asentada en {rests}"
    ),
    "{number} read again": "{number} leídas otra vez",
    "{number} stand on the first survey": "{number} quedan de la primera lectura",
    "{number} were never read": "{number} nunca se leyeron",
    "{number} asked for and not read": "{number} pedidas y sin leer",
    # what is left, what is missing
    "they are right on another plane that meets every demand as well": (
        "están bien en otro plano que también cumple todo"
    ),
    "Take that plane for the wall (recheck.planes, with the reason), and it is judged against it.": (
        "Tome ese plano para la pared, con el motivo, y se juzga contra él."
    ),
    "wall {wall}, {what}: taken as done, as the work on that wall is": (
        "{wall:wall}, {what}: se da por hecho, como el trabajo de esa pared"
    ),
    "{spots}: not read again, taken as planned": "{spots}: sin leer otra vez, se toma como en el plan",
    "{spots}: not read again, taken as first surveyed, the work not done": (
        "{spots}: sin leer otra vez, se toma la primera lectura, trabajo sin hacer"
    ),
    "{spots}: not read again, taken as first surveyed, though the stud was ticked for another plan: "
    "read it before anything is done there": (
        "{spots}: sin leer otra vez, se toma la primera lectura, aunque el montante se marcó hecho para otro "
        "plan: léalo antes de hacer algo ahí"
    ),
    "{spots}: not read again, taken as first surveyed": (
        "{spots}: sin leer otra vez, se toma la primera lectura"
    ),
    "there is none, so nothing read again can be judged": (
        "no hay, así que nada de lo leído otra vez se puede juzgar"
    ),
    "See what stands in the way of the plan.": "Vea qué impide el plan.",
    "it is read again and has no plan: its readings are judged against nothing": (
        "se leyó otra vez y no tiene plan: sus lecturas no tienen contra qué juzgarse"
    ),
    "Read wall {wall} in the survey first.": "Primero lea la {wall:wall} en las medidas.",
    "{title}: {where}": "{title}: {where:place}",
    "{title}: {where} {value}": "{title}: {where:place} {value}",
    "{off} is off it at {where}": "ya se le quitaron {off} en {where}",
    "Read it once more; if it is so, plane no more there, sister it, and ask where it bears.": (
        "Léalo una vez más; si es así, no cepille más ahí, refuércelo con montante gemelo, y si carga "
        "pregunte."
    ),
    # what looks misread the second time
    "Read {where} again": "Lea otra vez {where:place}",
    "Read {first} and {last} again": "Lea otra vez {first:place} y {last:place}",
    "they stand {by} prouder all alike: the line hangs elsewhere": (
        "todos están {by} más salidos por igual: la línea está en otro lugar"
    ),
    "they stand {by} farther back all alike: the line hangs elsewhere": (
        "todos están {by} más metidos por igual: la línea está en otro lugar"
    ),
    "Hang the line of wall {wall} where it hung and read again, or give the reading that is zero on it "
    "now (nominal, about {new}).": (
        "Ponga la línea de la {wall:wall} donde estaba y lea otra vez, o dé la lectura que ahora vale "
        "cero (cerca de {new})."
    ),
    "{typed} typed, which neither the plan nor the first survey explains": (
        "se escribió {typed}, que ni el plan ni la primera lectura explican"
    ),
}
"""English form to Spanish."""
