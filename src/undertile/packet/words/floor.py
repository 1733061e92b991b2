"""Findings of the floor in a crew's words, by code (docs/findings.md)."""

from __future__ import annotations

FLOOR_FINDINGS: dict[str, tuple[str, str]] = {
    "joist-decay": (
        "{where}: joist decayed where it matters. Shore both sides before it is touched; ask an engineer.",
        "{where}: vigueta podrida donde importa. Apuntale los dos lados antes de tocarla; pregunte a un "
        "ingeniero.",
    ),
    "joist-soft": (
        "{where}: soft. Scrape to sound wood, let it dry, sister it.",
        "{where}: blanda. Raspe hasta madera sana, deje secar, refuerce con vigueta gemela.",
    ),
    "joist-mended": (
        "{where}: was soft, a sister stands beside it. Awl it again before it is covered.",
        "{where}: estaba blanda, tiene vigueta gemela. Pínchela otra vez antes de taparla.",
    ),
    "floor-limits-changed": (
        "{where}: other limits than the usual ones.",
        "{where}: otros límites que los de costumbre.",
    ),
    "floor-day-early": (
        "{where}: its day is of long before the job. Correct it; it counts for nothing till then.",
        "{where}: su día es de mucho antes del trabajo. Corríjalo; mientras no vale.",
    ),
    "joist-engineer": (
        "{where}: an engineer's word is on record; that it carries, name and day, or it lifts nothing.",
        "{where}: hay palabra de un ingeniero anotada; que aguanta, nombre y día, o no levanta nada.",
    ),
    "joist-span-missing": (
        "{where}: measure its clear span, from bearing to bearing.",
        "{where}: mida su claro, de apoyo a apoyo.",
    ),
    "joist-sister-start-missing": (
        "{where}: measure where its sister begins.",
        "{where}: mida dónde empieza su gemela.",
    ),
    "joists-run-unknown": (
        "{where}: see which way the joists run.",
        "{where}: vea hacia dónde corren las viguetas.",
    ),
    "joists-missing": (
        "{where}: measure where each joist stands, from the fixed wall.",
        "{where}: mida dónde está cada vigueta, desde la pared fija.",
    ),
    "joist-twice": (
        "{where}: two joists in one place. Keep one, or call the other its sister.",
        "{where}: dos viguetas en un lugar. Deje una, o llame gemela a la otra.",
    ),
    "joist-span-short": (
        "{where}: a span shorter than twice its depth. Measure both again.",
        "{where}: un claro más corto que dos veces su peralte. Mida los dos otra vez.",
    ),
    "joist-notch-odd": (
        "{where}: cannot be so in this joist. Measure both again.",
        "{where}: no puede ser así en esta vigueta. Mida las dos cosas otra vez.",
    ),
    "joist-hole-odd": (
        "{where}: cannot be so in this joist. Measure both again.",
        "{where}: no puede ser así en esta vigueta. Mida las dos cosas otra vez.",
    ),
    "patch-inside-out": (
        "{where}: its sides are exchanged. Measure both from the same wall.",
        "{where}: sus lados están cambiados. Mida los dos desde la misma pared.",
    ),
    "patch-no-edge": (
        "{where}: no sound joist and no wall past it. Enter the joists on both sides.",
        "{where}: no hay vigueta sana ni pared más allá. Anote las viguetas de los dos lados.",
    ),
    "patch-extent-open": (
        "{where}: no dry reading past what is wet. Read further that way before you cut.",
        "{where}: no hay lectura seca más allá de lo mojado. Lea más lejos por ahí antes de cortar.",
    ),
    "patch-short-of-wet": (
        "{where}: the wet floor reaches further than what is cut out.",
        "{where}: el piso mojado llega más lejos que lo que se corta.",
    ),
    "patch-piece-too-large": (
        "{where}: no panel is large enough. Measure the panels again.",
        "{where}: ninguna hoja alcanza. Mida las hojas otra vez.",
    ),
    "patch-panel-size": (
        "{where}: a whole panel is not measured. Measure its length and width.",
        "{where}: una hoja entera no está medida. Mida su largo y su ancho.",
    ),
    "patch-panels-short": (
        "{where}: more panels are cut than are on the van. Buy the rest, as thick.",
        "{where}: se cortan más hojas que las de la camioneta. Compre las que faltan, del mismo grueso.",
    ),
    "floor-spot-twice": (
        "{where}: two readings in one place. Keep one.",
        "{where}: dos lecturas en un lugar. Deje una.",
    ),
    "floor-spot-odd": (
        "{where}: far from the others. Read it again.",
        "{where}: lejos de las otras. Léala otra vez.",
    ),
    "pan-floor-no-plane": (
        "{where}: too far out to level. Lift the panel and pack the joists, or a mortar bed.",
        "{where}: demasiado desnivel. Levante la hoja y calce las viguetas, o haga una cama de mortero.",
    ),
    "pan-floor-bound": (
        "{where}: the work listed is right; less may do.",
        "{where}: el trabajo indicado sirve; tal vez alcance con menos.",
    ),
    "bed-not-in-loads": (
        "{where}: the mortar bed is not among the loads. Add it.",
        "{where}: la cama de mortero no está en las cargas. Agréguela.",
    ),
    "floor-asbestos": (
        "{where}: flooring and mastic cleared by a sample before they are cut.",
        "{where}: piso y pegamento viejos aclarados con una muestra antes de cortar.",
    ),
    "floor-silica": (
        "{where}: grind with shroud and dust extractor, with a mask.",
        "{where}: esmerile con campana y aspiradora, con mascarilla.",
    ),
    "stop-not-there": (
        "{where}: a stop was lifted that is not there. Correct its place.",
        "{where}: se levantó un alto que no está. Corrija su lugar.",
    ),
}
"""Code to English and Spanish."""

FLOOR_CHECKS: dict[str, tuple[str, str]] = {
    "joist-code": ("Joist under live load", "Vigueta con carga viva"),
    "joist-tile": ("Joist under the tile", "Vigueta con la loseta"),
    "joist-strength": ("Strength of the joist", "Resistencia de la vigueta"),
    "joist-shear": (
        "Shear at the joist's ends and notches",
        "Cortante en los extremos y muescas de la vigueta",
    ),
    "joist-bearing": ("Length on its bearing", "Largo sobre su apoyo"),
    "joist-notch-depth": ("Depth of the notch", "Hondo de la muesca"),
    "joist-notch-length": ("Length of the notch", "Largo de la muesca"),
    "joist-notch-place": ("Notch out of the middle third", "Muesca fuera del tercio de en medio"),
    "joist-notch-side": ("Notch in the underside", "Muesca en la orilla de abajo"),
    "joist-hole": ("Width of the hole", "Ancho del agujero"),
    "joist-hole-edge": ("Wood left around the hole", "Madera que queda alrededor del agujero"),
    "panel-thickness": ("Panel for the joists' spacing", "Hoja para la separación de las viguetas"),
    "panel-point": ("Panel under a load between joists", "Hoja con una carga entre viguetas"),
    "patch-flush": ("New panel flush with the old one", "Hoja nueva al ras de la vieja"),
    "patch-spans": ("Patch over two spans", "Parche sobre dos claros"),
    "patch-stagger": ("Panel ends staggered", "Juntas alternadas"),
    "patch-seams": ("Seams of the second layer", "Juntas de la segunda capa"),
    "pan-floor-level": ("Floor under the pan", "Piso bajo la base"),
    "bed-drain": ("Drain inside the bed", "Desagüe dentro de la cama"),
    "bed-slope": ("Slope to the drain", "Pendiente al desagüe"),
    "bed-slope-back-left-corner": (
        "Slope from the back left corner",
        "Pendiente desde la esquina del fondo, izquierda",
    ),
    "bed-slope-back-right-corner": (
        "Slope from the back right corner",
        "Pendiente desde la esquina del fondo, derecha",
    ),
    "bed-slope-front-left-corner": (
        "Slope from the front left corner",
        "Pendiente desde la esquina del frente, izquierda",
    ),
    "bed-slope-front-right-corner": (
        "Slope from the front right corner",
        "Pendiente desde la esquina del frente, derecha",
    ),
    "bed-slope-left-side": ("Slope from the left side", "Pendiente desde el lado izquierdo"),
    "bed-slope-right-side": ("Slope from the right side", "Pendiente desde el lado derecho"),
    "bed-slope-back": ("Slope from the back", "Pendiente desde el fondo"),
    "bed-slope-front": ("Slope from the front", "Pendiente desde el frente"),
}
"""What a check asks, by its code: English and Spanish."""

FLOOR_REMEDIES: dict[str, tuple[str, str]] = {
    "joist-code": ("Stiffen it; a sister, a joist between or a beam.", "Refuércela: gemela, otra o viga."),
    "joist-tile": ("Stiffen it, or choose another tile.", "Refuércela o escoja otra loseta."),
    "joist-strength": ("Ask an engineer what carries it.", "Pregunte a un ingeniero qué la sostiene."),
    "joist-shear": ("Cut no more here; ask an engineer.", "No corte más aquí; pregunte a un ingeniero."),
    "joist-bearing": ("Carry it by a hanger or a ledger.", "Sosténgala con colgador o larguero."),
    "joist-notch": ("Cut no more here; ask an engineer.", "No corte más aquí; pregunte a un ingeniero."),
    "joist-hole": ("Cut no more here; ask an engineer.", "No corte más aquí; pregunte a un ingeniero."),
    "panel-thickness": ("Add a second layer or joists.", "Agregue una segunda capa o viguetas."),
    "panel-point": ("Add a second layer or joists.", "Agregue una segunda capa o viguetas."),
    "patch-flush": ("Pack it or take another panel.", "Calce o tome otra hoja."),
    "patch-spans": ("Carry it on to the next joist.", "Llévelo hasta la siguiente vigueta."),
    "patch-stagger": ("Take longer panels.", "Tome hojas más largas."),
    "patch-seams": ("Cut the second layer further back.", "Corte la segunda capa más atrás."),
    "pan-floor-level": ("Take off and fill as listed.", "Quite y rellene como dice la lista."),
    "bed-drain": ("Measure the drain's center again.", "Mida otra vez el centro del desagüe."),
    "bed-slope": ("Move the drain: a licensed plumber.", "Mueva el desagüe: un plomero con licencia."),
}
"""What a crew does about a check that fails: English and Spanish."""

FLOOR_CITED: dict[str, str] = {
    "irc-r301.5": "IRC tabla R301.5, carga viva de 40 lb por pie², 30 en recámaras; edición sin revisar",
    "irc-r502.3.1": "IRC tablas R502.3.1, claros: 10 o 20 lb por pie² de lo propio; edición sin revisar",
    "practice-weights": "Pesos de costumbre de hojas, cama, mortero y loseta por volumen; primero la hoja",
    "irc-r301.7": "IRC R301.7, los pisos se doblan L/360 a lo más con carga viva (texto 2018)",
    "tile-deflection": "Industria de la loseta: L/360 con cerámica, L/720 con piedra",
    "nds-bending": "NDS Supplement 2018, tablas 4A y 4B: flexión y firmeza de madera de construcción",
    "nds-shear": "NDS 2018 3.4.2, 3.4.3.1(a) y 3.4.3.2: cortante en apoyos y muescas; tablas 4A y 4B",
    "irc-r502.8.1": "IRC R502.8.1, muescas y agujeros en viguetas aserradas (texto 2015-2021)",
    "irc-r502.8.2": (
        "IRC R502.8.2, piezas compuestas: las reglas del fabricante o de un ingeniero (texto 2018)"
    ),
    "irc-r502.6": ("IRC R502.6, apoyo de 1-1/2 pulg en madera o metal, 3 pulg en mampostería (texto 2018)"),
    "irc-r503.2.1.1": ("IRC tabla R503.2.1.1(2), hojas de subpiso (texto 2018)"),
    "panel-point": (
        "300 lb entre viguetas doblan la hoja L/360 a lo más (manuales de loseta); cuánto, calculado"
    ),
    "practice-flush": "Hoja nueva a 1/32 de la vieja en la junta",
    "practice-patch": "Parche: sobre dos claros, juntas a 6 pulg, tornillos cada 6 y 8 pulg",
    "practice-pan-floor": "Piso dentro de 1/8 bajo la base; decide la hoja de la base",
    "practice-decay": (
        "Vigueta podrida: en un apoyo, en el tercio de en medio o más de 1/6 de hondo, un ingeniero"
    ),
    "practice-open-past": "Abra más allá de lo último malo, hasta madera sana y seca",
    "practice-reading-slips": "Errores que se cometen al leer una regla",
    "irc-p2709.1": (
        "IRC P2709.1 y P2709.3, piso y membrana de ducha con pendiente de 1/4 a 1/2 por pie (texto 2021)"
    ),
    "osha-1926.1153": "OSHA 1926.1153 tabla 1, esmeriles: campana y aspiradora (regla 2016)",
    "osha-1926.1101": ("OSHA 1926.1101, se supone asbesto en piso y pegamento de 1980 y antes (regla 1994)"),
}
"""Sources of the floor in Spanish, without their weight."""
