"""Findings of the safety part in a crew's words, by code (docs/findings.md)."""

from __future__ import annotations

SAFETY_FINDINGS: dict[str, tuple[str, str]] = {
    "lead-found": (
        "{where}: lead paint. No dry scraping, no flame; a certified renovator works lead-safe.",
        "{where}: pintura con plomo. Sin raspar en seco ni usar flama; trabaja un renovador certificado.",
    ),
    "lead-not-sampled": (
        "{where}: from before 1978, paint not sampled. Sample it or work lead-safe.",
        "{where}: anterior a 1978, pintura sin muestra. Tome muestra o trabaje seguro para plomo.",
    ),
    "asbestos-found": (
        "{where}: asbestos. Leave it whole and wet; a licensed firm takes it out.",
        "{where}: asbesto. Déjelo entero y mojado; lo saca una empresa con licencia.",
    ),
    "asbestos-no-answer": (
        "{where}: sampled for asbestos, no answer yet. Do not disturb it.",
        "{where}: con muestra de asbesto, sin respuesta. No lo toque.",
    ),
    "asbestos-not-sampled": (
        "{where}: old enough for asbestos, nothing sampled. Sample before dust.",
        "{where}: edad para asbesto, sin muestras. Tome muestra antes del polvo.",
    ),
    "asbestos-age": (
        "{where}: no asbestos sample; age alone does not clear it. Ask the local office.",
        "{where}: sin muestra de asbesto; la edad sola no lo descarta. Pregunte a la oficina local.",
    ),
    "water-sewage": (
        "{where}: sewage. Cover up; what is porous goes out; disinfect before work.",
        "{where}: aguas negras. Cúbrase; lo poroso se saca; desinfecte antes de trabajar.",
    ),
    "water-used": (
        "{where}: used water. Gloves; porous stuff wet over two days goes out.",
        "{where}: agua usada. Guantes; lo poroso mojado más de dos días se saca.",
    ),
    "mold-large": (
        "{where}: over 100 sq ft. Full containment, people who do this for a living.",
        "{where}: más de 100 pies cuadrados. Contención completa, gente que se dedica a esto.",
    ),
    "mold-medium": (
        "{where}: 10 to 100 sq ft. Close the room off, HEPA fan, mask, gloves, goggles.",
        "{where}: de 10 a 100 pies cuadrados. Aísle el cuarto, filtro HEPA, mascarilla, guantes y gafas.",
    ),
    "mold-small": (
        "{where}: under 10 sq ft. N-95 mask, gloves, goggles.",
        "{where}: menos de 10 pies cuadrados. Mascarilla N-95, guantes y gafas.",
    ),
    "mold-gone-odd": (
        "{where}: it cannot be gone since that day. It counts as still there: correct the day.",
        "{where}: no pudo quitarse ese día. Cuenta como que sigue ahí: corrija el día.",
    ),
    "wall-shared": (
        "{where}: the neighbor's too. No deeper than your own studs; ask first.",
        "{where}: también es del vecino. No pase de sus propios montantes; pregunte primero.",
    ),
    "not-shut-off": (
        "{where}: nobody says it is off. Shut it off, prove it.",
        "{where}: nadie dice que esté cerrado. Ciérrelo y compruébelo.",
    ),
}
