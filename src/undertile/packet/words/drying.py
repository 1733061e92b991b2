"""Studs that are still to dry, in a crew's words, by code (docs/findings.md)."""

from __future__ import annotations

DRYING_FINDINGS: dict[str, tuple[str, str]] = {
    "stud-dry-first": (
        "{where}: wet: its face goes back too far as it dries. Let it dry and read it again before it is "
        "trued.",
        "{where}: mojado: al secar su cara se mete demasiado. Déjelo secar y léalo otra vez antes "
        "de ponerlo a plano.",
    ),
    "stud-read-wet": (
        "{where}: read when it was wet, dry since: its face has gone back. Read it again before it is trued.",
        "{where}: se leyó mojado y ya secó: su cara se metió. Léalo otra vez antes de ponerlo a plano.",
    ),
    "stud-read-when": (
        "{where}: was wet, now dry. When its face was read is not known. Read it again before it is trued.",
        "{where}: estuvo mojado, ya secó. No se sabe cuándo se leyó su cara. Léalo otra vez antes de ponerlo "
        "a plano.",
    ),
}
DRYING_CHECKS: dict[str, tuple[str, str]] = {
    "dries": ("Stud once it is dry", "Montante ya seco"),
    "dries-flat": ("Flat once dry, under the straightedge", "Planitud ya seco, con la regla larga"),
}
DRYING_REMEDIES: dict[str, tuple[str, str]] = {
    "dries": (
        "Let it dry and read it again before it is trued.",
        "Déjelo secar y léalo otra vez antes de ponerlo a plano.",
    ),
}
