"""Studs that are still to dry (``framing.dries``, ``framing.dried``)."""

from __future__ import annotations

DRIES: dict[str, str] = {
    "{least} to {most}": "de {least} a {most}",
    "its face goes back {reach} as it dries: now it may lie {left} behind the plane, no more": (
        "su cara se mete {reach} al secar: por ahora puede quedar {left} detrás del plano, no más"
    ),
    "not planed in the flange zone before it is dry: it goes back {reach}": (
        "no se cepilla en la zona de la pestaña antes de que seque: se mete {reach}"
    ),
    "no bed on a stud that is still to dry": "sin cama de mortero en un montante que todavía tiene que secar",
    "a face that stays within {limit} behind its plane as the stud dries": (
        "una cara que al secar el montante quede a lo más {limit} detrás de su plano"
    ),
    "its face goes back {reach} as it dries; the plan is for the face as read": (
        "su cara se mete {reach} al secar; el plan vale para la cara como se leyó"
    ),
    "at most {limit} behind the plane": "a lo más {limit} detrás del plano",
    "its face is new wood: the old stud dries behind it": (
        "su cara es de madera nueva: el montante viejo seca detrás"
    ),
    "it is wet, and its depth is not measured": "está mojado, y su fondo no está medido",
    "Measure {stud} face to back: how far it shrinks goes with it.": (
        "Mida {stud} de cara a espalda: de eso depende cuánto encoge."
    ),
    "its face goes back {reach} as it dries": "su cara se mete {reach} al secar",
    "as planned at {height}: {face}": "como está planeado a {height}: {face}",
    "drying eats {most} of the {limit}": "el secado se come {most} de {limit}",
    "Let it dry and read it again before it is trued.": (
        "Déjelo secar y léalo otra vez antes de ponerlo a plano."
    ),
    "on the plane": "en el plano",
    "{by} behind the plane": "{by} detrás del plano",
    "{by} proud of the plane": "{by} salida del plano",
    "{stud} at {height}": "{stud} a {height}",
    "Read every height of {studs}.": "Lea todas las alturas de {studs}.",
    "Let the wet studs dry and read them again before they are trued.": (
        "Deje secar los montantes mojados y léalos otra vez antes de ponerlos a plano."
    ),
    "its face may have gone back {reach} since it was read: as read it may lie {left} behind, no more": (
        "su cara pudo meterse {reach} desde que se leyó: como se leyó puede quedar {left} detrás, no más"
    ),
    "its face may have gone back {reach} since it was read": (
        "su cara pudo meterse {reach} desde que se leyó"
    ),
    "a face that is read once its wood is dry": "una cara leída cuando su madera ya está seca",
    "it was wet when it was read: its face goes back {reach} from there": (
        "estaba mojado cuando se leyó: desde ahí su cara se mete {reach}"
    ),
    "it was wet and is dry; when it was read is not known: its face may go back {reach} from there": (
        "estuvo mojado y ya secó, y no se sabe cuándo se leyó: desde ahí su cara puede meterse {reach}"
    ),
    "Read it again before it is trued.": "Léalo otra vez antes de ponerlo a plano.",
    "Read {studs} again before they are trued.": "Lea otra vez {studs} antes de ponerlos a plano.",
    "Read every height of {studs} again before it is trued.": (
        "Lea otra vez todas las alturas de {studs} antes de ponerlo a plano."
    ),
    "Read every height of {studs} again before they are trued.": (
        "Lea otra vez todas las alturas de {studs} antes de ponerlos a plano."
    ),
    "Read {studs} again before it is trued, or write the day its face was read.": (
        "Lea otra vez {studs} antes de ponerlo a plano, o escriba el día en que se leyó su cara."
    ),
    "Read {studs} again before they are trued, or write the days their faces were read.": (
        "Lea otra vez {studs} antes de ponerlos a plano, o escriba los días en que se leyeron sus caras."
    ),
    "{stud} goes back {reach} as it dries": "{stud} se mete {reach} al secar",
    "widest over {spot}, {line}": "lo más abierto sobre {spot}, {line}",
    "Flat once dry, {length} straightedge": "Plano ya seco, regla de {length}",
    "{limit} under {length}": "{limit} bajo {length}",
    "its stud goes back and its neighbors do not": "su montante se mete y sus vecinos no",
}
"""English form to Spanish."""
