"""Do not cover yet: one wording wherever covering could start."""

from __future__ import annotations

COVER: dict[str, tuple[str, str]] = {
    "cover-not": ("Do not cover yet: {missing}.", "No tape todavía: {missing}."),
    "cover-short": (
        "Do not cover yet: {first}. {more} more below.",
        "No tape todavía: {first}. Abajo, {more} más.",
    ),
    "cover-may": (
        "It may be covered, as read on {day}. Read it again on the morning of covering.",
        "Se puede tapar, según lo leído el {day}. Léalo otra vez la mañana en que se tape.",
    ),
    "cover-on": ("It stands on this: {list}.", "Se apoya en esto: {list}."),
    "closed-on": ("Dry and sound on {one} and {two}: {list}.", "Seco y firme el {one} y el {two}: {list}."),
    "closed-reads": ("{where} ({one}, {two})", "{where} ({one}, {two})"),
    "cover-safety": (
        "{number} things that can hurt someone stand",
        "quedan {number} cosas que pueden lastimar a alguien",
    ),
    "cover-safety-one": (
        "one thing that can hurt someone stands",
        "queda una cosa que puede lastimar a alguien",
    ),
    "cover-stop": ("{number} stops stand", "{number} ALTO en pie"),
    "cover-stop-one": ("one stop stands", "un ALTO en pie"),
    "cover-typed": ("{number} things typed and not counted", "{number} cosas escritas que no cuentan"),
    "cover-typed-one": ("something typed and not counted", "algo escrito que no cuenta"),
    "cover-new": (
        "{number} places cut out with no new wood read",
        "{number} lugares cortados sin leer madera nueva",
    ),
    "cover-new-one": ("one place cut out with no new wood read", "un lugar cortado sin leer madera nueva"),
    "cover-unread": ("moisture not shown", "humedad sin mostrar"),
    "cover-moisture": ("{number} places not dry", "{number} lugares sin secar"),
    "cover-old": ("{number} dry places to read again", "{number} lugares secos por leer otra vez"),
    "cover-old-one": ("one dry place to read again", "un lugar seco por leer otra vez"),
    "cover-moisture-one": ("one place not dry", "un lugar sin secar"),
    "cover-day": ("{number} days that have not come yet", "{number} días que todavía no llegan"),
    "cover-day-one": ("one day that has not come yet", "un día que todavía no llega"),
    "cover-patch": ("{number} places to cut out with the patch", "{number} lugares por cortar con el parche"),
    "cover-patch-one": ("one place to cut out with the patch", "un lugar por cortar con el parche"),
    "cover-joists": ("{number} things of the floor to settle", "{number} cosas del piso por arreglar"),
    "cover-joists-one": ("one thing of the floor to settle", "una cosa del piso por arreglar"),
    "cover-plan": ("the studs not planned", "montantes sin plan"),
    "cover-plan-one": ("the studs not planned", "montantes sin plan"),
    "cover-unread-at": ("{where} not read", "sin leer: {where}"),
    "cover-few": ("fewer than {least} places read", "menos de {least} lugares leídos"),
    "cover-floor": ("floor", "piso"),
    "cover-source": ("{number} sources of water not ruled out", "{number} fuentes de agua sin descartar"),
    "cover-source-one": ("one source of water not ruled out", "una fuente de agua sin descartar"),
    "cover-last-of": (
        "The last of several places dries later than each alone is likely to.",
        "El último de varios lugares seca más tarde de lo que es probable para cada uno.",
    ),
    "cover-photo": ("{number} photos missing", "faltan {number} fotos"),
    "cover-photo-one": ("one photo missing", "falta una foto"),
    "cover-inspection-one": ("inspection open", "inspección pendiente"),
}
"""Key to (English, Spanish)."""
